package plot

import "github.com/wcharczuk/go-chart/v2"

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
	return b.size(252, 170)
}

// Draw implements Figure.
func (b Bars) Draw(r chart.Renderer, f *Fonts) error { return nil }
