package plot

import (
	"fmt"

	"github.com/wcharczuk/go-chart/v2"
)

// PlanSketch is the cell from above: cylinder, fan, drive shaft, motor, the
// positions as the crew numbers them, the sense of counting and the two axes.
// It says where 0° is.
type PlanSketch struct {
	Frame
	// Positions around the ring.
	Positions []PlanPosition
	// Blades is the number of blades drawn, 2 to 24.
	Blades int
	// Words at the parts; a blank word leaves the part unnamed.
	Motor, DriveShaft, GearReducer, Cylinder string
	// Side90 and Side270 name the sides, "the river side (90°)".
	Side90, Side270 string
	// Toward and Away name the ends of the drive line, "toward the motor".
	Toward, Away string
	// Turn is the word at the curved arrow, "degrees clockwise".
	Turn string
	// X and Y are the names of the axes (0° and 90°).
	X, Y string
	// Move is a move of the fan center; only its direction is drawn.
	Move *Arrow
}

// PlanPosition is a position of the ring: the crew's number and the degrees as
// printed.
type PlanPosition struct {
	// At in degrees clockwise from the motor.
	At           float64
	Number, Tick string
}

// Size implements Figure.
func (p PlanSketch) Size() (w, h float64) { return p.size(330, 300) }

// Draw implements Figure.
func (p PlanSketch) Draw(r chart.Renderer, f *Fonts) error {
	if err := p.check(); err != nil {
		return fmt.Errorf("plan sketch: %w", err)
	}
	w, h := p.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("plan sketch: %w", err)
	}
	if err := p.draw(&planFigure{canvas: c, PlanSketch: p}); err != nil {
		return fmt.Errorf("plan sketch: %w", err)
	}
	return c.err
}

// Blades that can be drawn.
const leastBlades, mostBlades = 2, 24

func (p PlanSketch) check() error {
	if p.Blades < leastBlades || p.Blades > mostBlades {
		return fmt.Errorf("%d blades, %d to %d can be drawn", p.Blades, leastBlades, mostBlades)
	}
	if len(p.Positions) > maxPoints {
		return fmt.Errorf("%d positions, at most %d: %w", len(p.Positions), maxPoints, ErrTooMany)
	}
	for _, q := range p.Positions {
		if err := finite(fmt.Sprintf("position %q", q.Number), q.At); err != nil {
			return err
		}
	}
	if p.Move != nil {
		return finite("move", p.Move.Dx, p.Move.Dy)
	}
	return nil
}

// draw sets the parts one over the other, the fan below, the words last.
func (p PlanSketch) draw(fig *planFigure) error {
	if err := fig.place(); err != nil {
		return err
	}
	fig.drawFan()
	fig.drawCylinder()
	fig.drawDrive()
	fig.drawAxes()
	fig.drawTurn()
	fig.drawPositions()
	fig.drawSides()
	if p.Move != nil {
		fig.drawMove()
	}
	fig.drawNote()
	return nil
}
