package plot

import (
	"fmt"

	"github.com/wcharczuk/go-chart/v2"
)

// Bars shows one value per blade as a dot on a stem, against a band.
type Bars struct {
	Frame
	// Columns are printed under the dots, "1", "2", …; ColumnWord to the left of
	// them, "blade".
	Columns    []string
	ColumnWord string
	// Axis says what is drawn and in which unit, "gap, in".
	Axis   string
	Series []BarSeries
	// Band is the limit window, fixed or floating with the readings.
	Band    *Band
	Nominal *Level
	// Notes name columns in words, with a line to the dot of the standing
	// series, "longest" or "least 0.36 in".
	Notes []ColumnNote
	Marks MarkWords
}

// BarSeries is one round: one value per column, in their order.
type BarSeries struct {
	Name   string
	Role   Role
	Values []BarValue
}

// BarValue is one reading of one blade; fields as in Reading.
type BarValue struct {
	Value  float64
	Label  string
	Mark   Mark
	Absent bool
}

// ColumnNote names one column, counted from 0.
type ColumnNote struct {
	Column int
	Text   string
}

// Size implements Figure.
func (b Bars) Size() (w, h float64) {
	if b.Compact {
		return b.size(110, 80)
	}
	return b.size(252, 190)
}

// Draw implements Figure.
func (b Bars) Draw(r chart.Renderer, f *Fonts) error {
	if err := b.check(); err != nil {
		return fmt.Errorf("chart by column: %w", err)
	}
	w, h := b.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("chart by column: %w", err)
	}
	if err := b.draw(&barsFigure{canvas: c, Bars: b}); err != nil {
		return fmt.Errorf("chart by column: %w", err)
	}
	return c.err
}

func (b Bars) check() error {
	if len(b.Columns) > maxPoints || len(b.Series) > maxSeries || len(b.Notes) > maxPoints {
		return fmt.Errorf("%d columns, %d rounds, %d notes: %w", len(b.Columns), len(b.Series), len(b.Notes), ErrTooMany)
	}
	strong := 0
	for _, s := range b.Series {
		if s.Role == Standing {
			strong++
		}
		if strong > 1 {
			return fmt.Errorf("round %q is a second standing round: %w", s.Name, ErrTooMany)
		}
		if len(s.Values) != len(b.Columns) {
			return fmt.Errorf("round %q has %d values for %d columns", s.Name, len(s.Values), len(b.Columns))
		}
		for _, v := range s.Values {
			if v.Absent {
				continue
			}
			if err := finite(fmt.Sprintf("round %q, reading %q", s.Name, v.Label), v.Value); err != nil {
				return err
			}
		}
	}
	for _, n := range b.Notes {
		if n.Column < 0 || n.Column >= len(b.Columns) {
			return fmt.Errorf("note %q is at column %d of %d", n.Text, n.Column, len(b.Columns))
		}
	}
	if b.Band != nil {
		if err := finite("limit", b.Band.Lo, b.Band.Hi); err != nil {
			return err
		}
	}
	if b.Nominal != nil {
		return finite("nominal", b.Nominal.Value)
	}
	return nil
}

// draw sets the parts one over the other.
func (b Bars) draw(fig *barsFigure) error {
	fig.standing = b.standing()
	if err := fig.place(); err != nil {
		return err
	}
	fig.drawGround()
	fig.drawRounds()
	fig.drawNotes()
	fig.drawValueLabels()
	fig.drawColumns()
	fig.drawFooter(fig.foot)
	return nil
}

// standing is the values of the standing round, nil for none.
func (b Bars) standing() []BarValue {
	for _, s := range b.Series {
		if s.Role == Standing {
			return s.Values
		}
	}
	return nil
}

func (b Bars) keyItems() []keyItem {
	var rounds []Series
	var marks seen
	for _, s := range b.Series {
		rounds = append(rounds, Series{Name: s.Name, Role: s.Role})
	}
	for _, v := range b.standing() {
		marks.add(v.Mark, v.Absent)
	}
	out := columnItems(rounds)
	if b.Band != nil && b.Band.Word != "" {
		out = append(out, keyItem{b.Band.Word, bandSample})
	}
	return append(out, marks.items(b.Marks)...)
}
