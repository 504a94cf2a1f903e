package plot

import "math"

// driveFigure is one view being drawn.
type driveFigure struct {
	*canvas
	line   DriveLine
	view   DriveView
	p      driveParts
	corner point   // upper left
	axis   point   // left end of the input shaft's axis
	factor float64 // exaggeration
	side   bool    // from the side: the fan stands on the gear reducer
}

// shaft is a place on the drive line with the direction of the part that it is
// on: along and up are unit vectors of the part.
type shaft struct {
	at    point
	slope float64
}

// on is the point that is along and up from a place, in the frame of its part.
func (s shaft) on(along, up float64) point {
	n := math.Hypot(1, s.slope)
	cos, sin := 1/n, s.slope/n
	return point{s.at.x + along*cos - up*sin, s.at.y - along*sin - up*cos}
}

// box is a rectangle of a part, from a to b along it.
func (s shaft) box(a, b, half float64) []point {
	return []point{s.on(a, half), s.on(b, half), s.on(b, -half), s.on(a, -half)}
}

var (
	partPen = pen{tone: Ink, width: 0.9}
	axisPen = pen{tone: Faint, width: 0.6, dash: []float64{5, 2, 1, 2}}
	// unsurePen is a part whose direction is not known.
	unsurePen = pen{tone: Soft, width: 0.9, dash: []float64{2, 1.6}}
)

func (f *driveFigure) draw() {
	gear := f.view.Gear.slope() * f.factor
	motor := gear + f.view.Motor.slope()*f.factor
	long := f.p.motor - f.p.gear
	first := shaft{point{f.corner.x + f.p.gear, f.axis.y}, 0}
	middle := shaft{first.at, gear}
	last := shaft{point{first.at.x + long, first.at.y - gear*long}, motor}
	f.drawAxes(first, middle, last)
	f.drawReducer(first)
	f.drawShaft(middle, long)
	f.drawMotor(last)
	f.drawCoupling(first, middle, f.view.Gear)
	f.drawCoupling(shaft{last.at, gear}, last, f.view.Motor)
	f.drawWords(last)
}

// drawAxes draws the axes that the bends are seen against: that of the input shaft
// all along, that of the drive shaft beyond the motor's coupling.
func (f *driveFigure) drawAxes(first, middle, last shaft) {
	end := f.corner.x + f.p.foot
	f.canvas.line(first.at, point{end, first.at.y}, axisPen)
	if middle.slope != 0 {
		rest := end - last.at.x
		f.canvas.line(last.at, point{end, last.at.y - middle.slope*rest}, axisPen)
	}
}

func (f *driveFigure) drawReducer(s shaft) {
	tint := Tint
	half := boxHalf
	f.polygon(s.box(-stub-gearLong, -stub, half), &partPen, &tint)
	f.canvas.line(s.on(-stub, 0), s.on(-faceGap, 0), pen{tone: Ink, width: 2.2})
	m := s.on(-stub-gearLong/2, 0)
	if f.side { // fan shaft and hub on top
		f.canvas.line(point{m.x, m.y - half}, point{m.x, m.y - half - 5}, pen{tone: Ink, width: 2.2})
		f.canvas.line(point{m.x - 12, m.y - half - 5}, point{m.x + 12, m.y - half - 5}, pen{tone: Ink, width: 1.4})
		return
	}
	f.ring(m, 3, &partPen, nil)
}

func (f *driveFigure) drawShaft(s shaft, long float64) {
	p := pen{tone: Accent, width: 2.6}
	if f.view.Gear.Absent {
		p = unsurePen
	}
	n := math.Hypot(1, s.slope)
	f.canvas.line(s.on(faceGap, 0), s.on(long*n-faceGap, 0), p)
}

func (f *driveFigure) drawMotor(s shaft) {
	tint, p := Tint, partPen
	if f.view.Motor.Absent {
		p = unsurePen
	}
	f.canvas.line(s.on(faceGap, 0), s.on(stub, 0), pen{tone: Ink, width: 2.2})
	f.polygon(s.box(stub, stub+motorLong-5, boxHalf-2), &p, &tint)
}

// drawCoupling draws the two faces, each square to its own part, so that the gap
// between them opens as it does in the machine.
func (f *driveFigure) drawCoupling(left, right shaft, b Bend) {
	p := pen{tone: Ink, width: 1.6}
	switch {
	case b.Absent:
		p = unsurePen
	case b.Mark == Outside:
		p.tone = Alarm
	}
	f.canvas.line(left.on(-faceGap, faceHalf), left.on(-faceGap, -faceHalf), p)
	f.canvas.line(right.on(faceGap, faceHalf), right.on(faceGap, -faceHalf), p)
}

// drawWords names the view, its sides, the parts, and the angles.
func (f *driveFigure) drawWords(last shaft) {
	middle := f.corner.x + f.p.width/2
	f.centered(f.fit(f.view.Name, f.p.width, calloutStyle), point{middle, f.corner.y + 5}, calloutStyle)
	f.centered(f.fit(f.view.Upper, f.p.width/2, tickStyle), point{middle, f.corner.y + 15}, tickStyle)
	low := f.axis.y + driveReach + boxHalf
	f.centered(f.fit(f.view.Lower, f.p.width/3, tickStyle), point{middle, low - 3}, tickStyle)
	f.named(f.line.GearReducer, point{f.corner.x + f.p.box + gearLong/2, f.axis.y + boxHalf + 6})
	f.named(f.line.DriveShaft, point{middle, f.axis.y - 8 - max(0, (f.axis.y-last.at.y)/2)})
	mid := last.on(stub+motorLong/2-2.5, 0)
	f.centered(f.fit(f.line.Motor, motorLong-4, tickStyle), mid, tickStyle)
	f.angle(f.view.Gear, f.corner.x, low)
	f.angle(f.view.Motor, middle+driveGap/4, low)
}

// named sets the word of a part with its middle at m, moved right where it would
// leave the view.
func (f *driveFigure) named(s string, m point) {
	s = f.fit(s, f.p.width/2, tickStyle)
	m.x = max(m.x, f.corner.x+f.measure(s, tickStyle)/2)
	f.centered(s, m, tickStyle)
}

// angle sets the label of a coupling in its half of the width.
func (f *driveFigure) angle(b Bend, x, y float64) {
	st := valueStyle(b.Mark)
	if b.Absent {
		st = wordStyle
	}
	room := f.p.width/2 - driveGap/4
	block, ok := f.setWithin(b.Label, room, driveLines, st)
	if !ok {
		return
	}
	f.drawBlock(block, point{x + room/2, y + driveLabel/2}, false)
}
