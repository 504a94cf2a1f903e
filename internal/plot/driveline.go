package plot

import (
	"fmt"
	"math"

	"github.com/wcharczuk/go-chart/v2"
)

// DriveLine shows the drive line from the side and from above: gear reducer at
// the left, floating drive shaft, motor at the right, the angle at each coupling
// drawn much larger than it is. The gear reducer is the reference and is drawn
// straight.
type DriveLine struct {
	Frame
	Side, Above DriveView
	// Words at the parts; a blank word leaves the part unnamed.
	GearReducer, DriveShaft, Motor string
	// Factor is the exaggeration, so that several figures have the same one; 0, or
	// more than there is room for: as its own angles allow.
	Factor int
}

// DriveView is one of the two views.
type DriveView struct {
	// Name says where one looks from, "seen from the river side".
	Name string
	// Upper and Lower name what lies beyond the upper and lower edge of the
	// view, "up" or "river side"; blank for none.
	Upper, Lower string
	// Gear is the bend at the gear reducer's coupling, Motor that at the motor's:
	// slope of what is right of the coupling less slope of what is left of it,
	// positive upward in the view.
	Gear, Motor Bend
}

// Bend is the angle at a coupling.
type Bend struct {
	// Slope is rise over run; ignored when Absent.
	Slope float64
	// Label is the angle as printed, and which way the faces open; for an absent
	// bend, the word that says so.
	Label string
	// Mark is how the coupling stands against its limit.
	Mark Mark
	// Absent: the angle is not known; the part is drawn straight and dashed.
	Absent bool
}

const (
	// steepest is the largest bend at a coupling as drawn, rise over run.
	steepest = 0.16
	// farthest is the farthest that the end of the motor may leave the axis of
	// the input shaft, in parts of the height that is free for it.
	farthest = 0.9
	// driveFactor is the largest exaggeration in use: an angle that would need a
	// larger one is no more than the scatter of the readings.
	driveFactor = 500
)

// Size implements Figure.
func (d DriveLine) Size() (w, h float64) { return d.size(500, 142) }

// Exaggeration is the whole factor by which angles are drawn too large, the same
// in both views; 0 where an angle is so large that it is drawn smaller than it
// is.
func (d DriveLine) Exaggeration() int {
	if d.Factor > 0 && float64(d.Factor) <= d.room() {
		return d.Factor
	}
	return roundFactor(min(d.room(), driveFactor))
}

// room is the factor at which nothing is too steep or leaves its view; infinite
// where all is straight.
func (d DriveLine) room() float64 {
	w, _ := d.Size()
	p := driveLayout(w)
	most := 0.0
	for _, v := range []DriveView{d.Side, d.Above} {
		most = max(most, math.Abs(v.Gear.slope())/steepest, math.Abs(v.Motor.slope())/steepest,
			math.Abs(p.end(v.Gear.slope(), v.Motor.slope()))/(farthest*driveReach))
	}
	return 1 / most
}

func (b Bend) slope() float64 {
	if b.Absent {
		return 0
	}
	return b.Slope
}

// driveParts is where the parts of a view stand, in points from its left edge.
type driveParts struct {
	width                  float64
	box, gear, motor, foot float64 // left edge of the reducer, the couplings, right end of the motor
}

const (
	driveGap   = 16.0 // between the views
	driveHead  = 24.0 // height over the drawing: name of the view, upper side
	driveLabel = 26.0 // height under it: the labels of the couplings
	driveReach = 24.0 // height over and under the reducer that a bend may use
	boxHalf    = 13.0 // half the height of reducer and motor
	faceHalf   = 8.0  // half the height of a coupling
	faceGap    = 1.8  // half the gap between its faces
	stub       = 9.0  // from the box to its coupling
	motorLong  = 46.0
	gearLong   = 34.0
	driveLines = 3    // the most lines of such a label
	leastShaft = 40.0 // the shortest drive shaft worth drawing
)

func driveLayout(w float64) driveParts {
	p := driveParts{width: (w - 2*margin - driveGap) / 2, box: 4}
	p.gear = p.box + gearLong + stub
	p.foot = p.width - 4
	p.motor = p.foot - motorLong - stub
	return p
}

// end is the height of the motor's far end over the axis of the input shaft.
func (p driveParts) end(gear, motor float64) float64 {
	return gear*(p.motor-p.gear) + (gear+motor)*(p.foot-p.motor)
}

// Draw implements Figure.
func (d DriveLine) Draw(r chart.Renderer, f *Fonts) error {
	for _, v := range []DriveView{d.Side, d.Above} {
		if err := finite("angle of "+v.Name, v.Gear.slope(), v.Motor.slope()); err != nil {
			return fmt.Errorf("drive line: %w", err)
		}
	}
	w, h := d.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("drive line: %w", err)
	}
	note := c.footer(nil, "", d.Note)
	top := c.drawTitle(d.Title, titleStyle)
	p := driveLayout(w)
	if p.motor-p.gear < leastShaft || top+driveHead+2*(driveReach+boxHalf)+driveLabel+note.height > h {
		return fmt.Errorf("drive line: %.0f by %.0f points: %w", w, h, ErrNoRoom)
	}
	factor := float64(d.Exaggeration())
	if factor == 0 {
		factor = min(d.room(), 1)
	}
	for i, v := range []DriveView{d.Side, d.Above} {
		o := point{margin + float64(i)*(p.width+driveGap), top}
		view := driveFigure{c, d, v, p, o, point{o.x, o.y + driveHead + driveReach + boxHalf}, factor, i == 0}
		view.draw()
	}
	c.drawFooter(note)
	return c.err
}
