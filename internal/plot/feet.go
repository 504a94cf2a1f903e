package plot

import (
	"fmt"

	"github.com/wcharczuk/go-chart/v2"
)

// FeetSketch is the plan sketch of a crew card: the cell from above in big
// letters, motor at the top, the feet that are shimmed with what is done to
// each, and one fat arrow for the slide. Nothing in it is to scale; directions
// are exact.
type FeetSketch struct {
	Frame
	// Words at the parts; a blank word leaves the part unnamed. Toward stands
	// beside the motor, Side90 at the right.
	Motor, Toward, Side90 string
	// Feet of what is shimmed, numbered clockwise from the motor.
	Feet []SketchFoot
	// Slide of the fan center.
	Slide *SketchSlide
	// Places where the wall goes in or out.
	Places []SketchPlace
	// Rear and Front are what is done at the motor's feet; the motor is drawn
	// large where it moves.
	Rear, Front MotorRow
	// Axial is +1 where the motor goes away from the gear reducer, −1 toward it.
	Axial int
}

// SketchFoot is a foot: its place from the fan center in any one unit, and what
// is done to it, a line each.
type SketchFoot struct {
	Number        string
	Along, Across float64
	Lines         []string
	Moved         bool
}

// SketchSlide is a slide in plan. Along and Across are the amounts of its two
// components as printed; a blank one is zero.
type SketchSlide struct {
	Dx, Dy        float64
	Along, Across string
}

// SketchPlace is a position at the wall; In is +1 where the wall comes in, −1
// where it goes out, 0 where it stays.
type SketchPlace struct {
	At     float64
	Number string
	In     int
}

// MotorRow is what is done at two feet of the motor; Push is +1 toward the 90°
// side, −1 away from it.
type MotorRow struct {
	Lines []string
	Push  int
}

// Size implements Figure.
func (s FeetSketch) Size() (w, h float64) { return s.size(285, 300) }

// Draw implements Figure.
func (s FeetSketch) Draw(r chart.Renderer, f *Fonts) error {
	if err := s.check(); err != nil {
		return fmt.Errorf("feet sketch: %w", err)
	}
	w, h := s.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("feet sketch: %w", err)
	}
	fig := &feetFigure{canvas: c, FeetSketch: s}
	if err := fig.place(); err != nil {
		return fmt.Errorf("feet sketch: %w", err)
	}
	fig.draw()
	return c.err
}

// mostFeet is the most feet that are drawn.
const mostFeet = 16

func (s FeetSketch) check() error {
	if len(s.Feet) > mostFeet || len(s.Places) > maxPoints {
		return fmt.Errorf("%d feet, %d places: %w", len(s.Feet), len(s.Places), ErrTooMany)
	}
	for _, f := range s.Feet {
		if err := finite("foot "+f.Number, f.Along, f.Across); err != nil {
			return err
		}
	}
	for _, p := range s.Places {
		if err := finite("position "+p.Number, p.At); err != nil {
			return err
		}
	}
	if s.Slide != nil {
		return finite("slide", s.Slide.Dx, s.Slide.Dy)
	}
	return nil
}

// motorMoves tells whether the motor is what this sketch is about.
func (s FeetSketch) motorMoves() bool {
	return len(s.Rear.Lines)+len(s.Front.Lines) > 0 || s.Axial != 0 || s.Rear.Push != 0 || s.Front.Push != 0
}
