package workbook

import (
	"fmt"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// Version is the version of the form's layout, written into every form.
const Version = "1"

// Bounds of a form to order.
const (
	MaxCells     = 99 // of one workbook
	MaxCell      = 999
	MinBlades    = 2
	MaxBlades    = 32
	MinPositions = 3
	MaxPositions = 72 // every 5°
	MinRounds    = 2
	MaxRounds    = 4
)

// FormOptions orders a form. The zero value is a form for one cell in inches:
// 8 blades, 12 positions, three rounds (as found, second, as left), clockwise
// from the motor, Letter paper, in English.
type FormOptions struct {
	Cells, Blades, Positions int
	Rounds                   int             // 2 to 4
	Units                    measure.Unit    // UnitInch or UnitMillimeter
	Direction                field.Direction // in which the crew counts
	First                    measure.Angle   // of position 1, from the motor in the crew's direction
	Degrees                  []measure.Angle // own degrees of each position, so counted; nil: evenly spaced
	Paper                    string          // "Letter" or "A4"; blank goes by the units
	FirstCell                int             // number of the first cell; 0 means 1
	DriveType                string          // code of the drive, written into the form; blank leaves it open
	Without                  []string        // blocks that the tower does not need: keys of [Blocks]
	Words                    *templates.Words
}

// complete fills the defaults and refuses what no form can have.
func (o FormOptions) complete() (FormOptions, error) {
	o.Cells = orDefault(o.Cells, 1)
	o.Blades = orDefault(o.Blades, 8)
	o.Positions = orDefault(o.Positions, 12)
	o.Rounds = orDefault(o.Rounds, 3)
	o.FirstCell = orDefault(o.FirstCell, 1)
	o.First = o.First.Normalize()
	if o.Units == measure.UnitNone {
		o.Units = measure.UnitInch
	}
	if o.Paper == "" {
		o.Paper = "Letter"
		if o.Units == measure.UnitMillimeter {
			o.Paper = "A4"
		}
	}
	if o.Words == nil {
		words, err := templates.Language("en")
		if err != nil {
			return o, err
		}
		o.Words = words
	}
	return o, o.refuse()
}

func orDefault(n, fallback int) int {
	if n == 0 {
		return fallback
	}
	return n
}

// refuse names the first option that is out of bounds.
func (o FormOptions) refuse() error {
	for _, c := range []struct {
		what          string
		n, least, top int
	}{
		{"cells", o.Cells, 1, MaxCells},
		{"first cell", o.FirstCell, 1, MaxCell + 1 - o.Cells},
		{"blades", o.Blades, MinBlades, MaxBlades},
		{"positions", o.Positions, MinPositions, MaxPositions},
		{"rounds", o.Rounds, MinRounds, MaxRounds},
	} {
		if c.n < c.least || c.n > c.top {
			return fmt.Errorf("%s: %d is not in %d to %d", c.what, c.n, c.least, c.top)
		}
	}
	if o.Units != measure.UnitInch && o.Units != measure.UnitMillimeter {
		return fmt.Errorf("units: %q is neither in nor mm", o.Units)
	}
	if o.Paper != "Letter" && o.Paper != "A4" {
		return fmt.Errorf("paper: %q is neither Letter nor A4", o.Paper)
	}
	if o.Degrees != nil && len(o.Degrees) != o.Positions {
		return fmt.Errorf("degrees: %d given for %d positions", len(o.Degrees), o.Positions)
	}
	return o.refuseBlocks()
}

// slopeUnit is meant where a slope is typed without one.
func (o FormOptions) slopeUnit() string {
	if o.Units == measure.UnitMillimeter {
		return "mm/m"
	}
	return "in/ft"
}

// crewDegrees is the angle of position i (from 0) as the crew counts: its own,
// or evenly spaced from the first.
func (o FormOptions) crewDegrees(i int) measure.Angle {
	if o.Degrees != nil {
		return o.Degrees[i].Normalize()
	}
	return evenly(o.First, i, o.Positions)
}

// evenly is position i (from 0) of n around the circle. Where 360°/n is no
// whole millionth of an arc second it is rounded down: by less than that.
func evenly(first measure.Angle, i, n int) measure.Angle {
	return (first + 360*measure.Degree*measure.Angle(i)/measure.Angle(n)).Normalize()
}

// clockwise turns an angle counted by the crew into degrees clockwise from the
// motor, seen from above.
func clockwise(a measure.Angle, d field.Direction) measure.Angle {
	if d == field.CounterClockwise {
		return (-a).Normalize()
	}
	return a.Normalize()
}
