package plot

import (
	"fmt"
	"math"

	"github.com/wcharczuk/go-chart/v2"
)

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
	// Reach is the largest deviation the radial scale must hold; 0: as its own
	// readings need.
	Reach float64
}

// Harmonic is one cycle per turn: Amplitude·cos(θ − At), in the unit of the
// figure and degrees clockwise from the motor.
type Harmonic struct {
	Amplitude, At float64
}

// Size implements Figure.
func (p PolarTilt) Size() (w, h float64) { return p.size(polarSize(p.Compact)) }

// Exaggeration as for PolarClearance.
func (p PolarTilt) Exaggeration() int {
	factor, _ := exaggerate(p.FanRadius, p.swing(), meanPart)
	return factor
}

// meanPart is the part of the outer radius at which the mean is drawn: far out,
// for the words inside.
const meanPart = 0.76

// swing is the largest deviation either way, with a little room; 1 if all is flat.
func (p PolarTilt) swing() float64 {
	most := math.Abs(p.Reach)
	for _, v := range values(p.Series) {
		most = max(most, math.Abs(v))
	}
	if p.Fit != nil {
		most = max(most, math.Abs(p.Fit.Amplitude))
	}
	if most == 0 {
		return 1
	}
	return most * overBand
}

// Draw implements Figure.
func (p PolarTilt) Draw(r chart.Renderer, f *Fonts) error {
	if err := p.check(); err != nil {
		return fmt.Errorf("tilt figure: %w", err)
	}
	w, h := p.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("tilt figure: %w", err)
	}
	if err := p.draw(&polarFigure{canvas: c, series: p.Series}); err != nil {
		return fmt.Errorf("tilt figure: %w", err)
	}
	return c.err
}

func (p PolarTilt) check() error {
	if err := checkSeries(p.Series); err != nil {
		return err
	}
	if err := finite("fan radius or reach", p.FanRadius, p.Reach); err != nil {
		return err
	}
	if p.Fit != nil {
		return finite("fitted plane", p.Fit.Amplitude, p.Fit.At)
	}
	return nil
}

func (p PolarTilt) draw(fig *polarFigure) error {
	rs := standing(p.Series)
	top := fig.head(p.Frame, p.Motor)
	foot, gap := footer{height: compactFoot}, smallGap
	var labels []ringLabel
	if !p.Compact {
		foot, gap = fig.footer(p.keyItems(rs), p.Limit, p.Note), labelGap
		labels = fig.ringLabels(rs, nil)
	}
	if err := fig.place(top, foot.height, gap, labels); err != nil {
		return err
	}
	swing := p.swing()
	_, part := exaggerate(p.FanRadius, swing, meanPart)
	mean := fig.rMax * part
	fig.radial = radial{rBase: mean, s: (fig.rMax - mean) / swing}
	fig.drawSpokes(rs, 2*mean-fig.rMax)
	fig.ring(fig.o, mean, &nominalPen, nil)
	p.drawFit(fig)
	fig.drawSeries(mean)
	fig.drawMotor(top, p.Motor)
	p.drawSides(fig, 2*mean-fig.rMax)
	fig.drawRingLabels(labels)
	fig.drawFooter(foot)
	return nil
}

// fitPen is the fitted plane.
var fitPen = pen{tone: Ink, width: 0.8, dash: []float64{4, 2}}

// drawFit draws the fitted plane as a curve.
func (p PolarTilt) drawFit(fig *polarFigure) {
	if p.Fit == nil {
		return
	}
	at := func(deg float64) along {
		sin, cos := math.Sincos((deg - p.Fit.At) * math.Pi / 180)
		return along{deg, fig.radial.of(p.Fit.Amplitude * cos), -float64(fig.radial.s * p.Fit.Amplitude * sin)}
	}
	line := fitPen
	fig.ready(&line, nil)
	fig.move(fig.o.polar(0, at(0).r))
	for deg := 0.0; deg < 360; deg += spanStep {
		fig.bend(at(deg), at(deg+spanStep))
	}
	fig.r.Close()
	fig.r.Stroke()
}

// drawSides draws an arrow down the slope, from the high to the low side, inside
// a circle of that radius, and names the two sides; a compact figure names the
// low side under the ring.
func (p PolarTilt) drawSides(fig *polarFigure, radius float64) {
	fig.ring(fig.o, 1.2, &pen{tone: Muted, width: 0.6}, nil)
	if p.Fit == nil || p.Fit.Amplitude == 0 {
		return
	}
	low := p.Fit.At
	if p.Fit.Amplitude < 0 {
		low += 180
	}
	tail, tip := fig.o.polar(low+180, radius*0.7), fig.o.polar(low, radius-1)
	fig.arrow(tail, tip, pen{tone: Ink, width: 1.4 * fig.scale}, 7*fig.scale)
	if p.Compact {
		fig.drawCompactFoot(p.Low, low, Ink)
		return
	}
	taken := stroke(tail, tip, 5)
	taken = fig.drawInside(p.Low, low, radius, calloutStyle, taken)
	fig.drawInside(p.High, low+180, radius, wordStyle, taken)
}

func (p PolarTilt) keyItems(rs []Reading) []keyItem {
	out := seriesItems(p.Series)
	if p.Fit != nil && p.FitWord != "" {
		out = append(out, keyItem{p.FitWord, lineSample(fitPen, 0)})
	}
	if p.Mean != "" {
		out = append(out, keyItem{p.Mean, lineSample(nominalPen, 0)})
	}
	return append(out, seenIn(rs).items(p.Marks)...)
}
