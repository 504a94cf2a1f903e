package plot

import "github.com/wcharczuk/go-chart/v2"

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
func (p PlanSketch) Size() (w, h float64) { return p.size(320, 330) }

// Draw implements Figure.
func (p PlanSketch) Draw(r chart.Renderer, f *Fonts) error { return nil }
