package plot

import "github.com/wcharczuk/go-chart/v2"

// PolarTilt shows how far below (outward) or above (inward) the mean the blade
// passed at each position, with the plane that fits the readings best: in this
// drawing a plane is the first harmonic, amplitude·cos(θ − low side).
type PolarTilt struct {
	Frame
	// Series values are the deviation from the mean of that series, positive
	// for lower.
	Series []Series
	// Fit is the fitted plane of the standing series; nil for none.
	Fit *Harmonic
	// Low and High name the two sides, "low side 0.12 in at 210°"; the arrow
	// points to Low. Used with Fit only.
	Low, High string
	// Mean is the word for the ring of deviation 0 and FitWord the word for the
	// fitted curve, both in the key.
	Mean, FitWord string
	// Limit is the limit as text, "max − min 0.55 in, limit 1 in".
	Limit string
	// Motor is the word at the motor's block.
	Motor string
	Marks MarkWords
	// FanRadius as for PolarClearance.
	FanRadius float64
}

// Harmonic is one cycle per turn: Amplitude·cos(θ − At), in the unit of the
// figure and degrees clockwise from the motor.
type Harmonic struct {
	Amplitude, At float64
}

// Size implements Figure.
func (p PolarTilt) Size() (w, h float64) { return p.size(polarSize(p.Compact)) }

// Exaggeration as for PolarClearance.
func (p PolarTilt) Exaggeration() int { return 0 }

// Draw implements Figure.
func (p PolarTilt) Draw(r chart.Renderer, f *Fonts) error { return nil }
