package plot

import "github.com/wcharczuk/go-chart/v2"

// PolarClearance shows the gap between blade tip and cylinder wall around the
// ring. The circle in the middle is the path of the blade tip (gap 0); outward
// from it the wall is drawn at the gap, much exaggerated; the tolerance band is
// an annulus and the nominal gap a ring. A wall that leaves the band on one side
// is a fan off center.
type PolarClearance struct {
	Frame
	Series  []Series
	Band    *Band
	Nominal *Level
	// Worst is named inside the ring with a line to its reading.
	Worst *Callout
	// Move is the move of the fan center advised or made.
	Move *Arrow
	// Motor is the word at the motor's block.
	Motor string
	// TipPath is the word for the inner circle in the key.
	TipPath string
	Marks   MarkWords
	// FanRadius, in the unit of the readings, makes the exaggeration a whole
	// round number; 0: the scale fills the figure and Exaggeration is 0.
	FanRadius float64
}

// Size implements Figure.
func (p PolarClearance) Size() (w, h float64) { return p.size(polarSize(p.Compact)) }

// Exaggeration is how many times larger the gaps are drawn than the fan itself,
// for the note; 0 if FanRadius was not given or the figure cannot be drawn.
func (p PolarClearance) Exaggeration() int { return 0 }

// Draw implements Figure.
func (p PolarClearance) Draw(r chart.Renderer, f *Fonts) error { return nil }

// polarSize is the default size of a polar figure in points.
func polarSize(compact bool) (w, h float64) {
	if compact {
		return 110, 110
	}
	return 252, 290
}
