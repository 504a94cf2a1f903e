package plot

import (
	"fmt"
	"slices"

	"github.com/wcharczuk/go-chart/v2"
)

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
	// Reach is the largest value the radial scale must hold, so that several
	// figures share one scale; 0: as its own readings and limits need.
	Reach float64
}

// Size implements Figure.
func (p PolarClearance) Size() (w, h float64) { return p.size(polarSize(p.Compact)) }

// Exaggeration is how many times larger the gaps are drawn than the fan itself,
// for the note; 0 if FanRadius was not given or no whole number fits.
func (p PolarClearance) Exaggeration() int {
	_, span, _ := p.span()
	factor, _ := exaggerate(p.FanRadius, span, tipPart)
	return factor
}

const (
	// tipPart is the part of the outer radius at which the tip path is drawn:
	// less than half leaves room for words inside and for the band outside.
	tipPart = 0.42
	// leastSpread is the least part of the scale that the readings may take
	// before the scale starts above zero.
	leastSpread = 0.15
	// overBand is the room left beyond the largest value, in parts of the span.
	overBand = 1.04
)

// span is where the radial scale starts and how much it covers. zero tells
// whether it starts at a gap of 0, which is the tip path.
func (p PolarClearance) span() (base, span float64, zero bool) {
	all := values(p.Series)
	if p.Nominal != nil {
		all = append(all, p.Nominal.Value)
	}
	if b := p.Band; b != nil && !b.OpenLo {
		all = append(all, b.Lo)
	}
	if b := p.Band; b != nil && !b.OpenHi {
		all = append(all, b.Hi)
	}
	if p.Reach != 0 {
		all = append(all, p.Reach)
	}
	if len(all) == 0 {
		return 0, 1, true
	}
	lo, hi := slices.Min(all), slices.Max(all)
	switch {
	case lo < 0:
		base = lo
	case hi > lo && hi-lo < leastSpread*hi:
		base = hi - 2*(hi-lo)
	}
	span = (hi - base) * overBand
	if span <= 0 {
		span = 1
	}
	return base, span, base == 0
}

// Draw implements Figure.
func (p PolarClearance) Draw(r chart.Renderer, f *Fonts) error {
	if err := p.check(); err != nil {
		return fmt.Errorf("clearance figure: %w", err)
	}
	w, h := p.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("clearance figure: %w", err)
	}
	if err := p.draw(&polarFigure{canvas: c, series: p.Series}); err != nil {
		return fmt.Errorf("clearance figure: %w", err)
	}
	return c.err
}

func (p PolarClearance) check() error {
	if err := checkSeries(p.Series); err != nil {
		return err
	}
	if err := finite("fan radius or reach", p.FanRadius, p.Reach); err != nil {
		return err
	}
	if b := p.Band; b != nil {
		if err := finite("limit", b.Lo, b.Hi); err != nil {
			return err
		}
	}
	if p.Nominal != nil {
		if err := finite("nominal", p.Nominal.Value); err != nil {
			return err
		}
	}
	if p.Worst != nil {
		if err := finite("worst position", p.Worst.At); err != nil {
			return err
		}
	}
	if p.Move != nil {
		return finite("move", p.Move.Dx, p.Move.Dy)
	}
	return nil
}

// draw sets the parts one over the other: ground, rounds, words.
func (p PolarClearance) draw(fig *polarFigure) error {
	rs := standing(p.Series)
	top := fig.head(p.Frame, p.Motor)
	foot, gap := footer{height: compactFoot}, smallGap
	var labels []ringLabel
	if !p.Compact {
		foot, gap = fig.footer(p.keyItems(rs), "", p.Note), labelGap
		labels = fig.ringLabels(rs, p.Worst)
	}
	if err := fig.place(top, foot.height, gap, labels); err != nil {
		return err
	}
	tip, zero := p.setScale(fig)
	p.drawGround(fig, rs, tip, zero)
	fig.drawSeries(p.gapRadius(fig, tip))
	fig.drawMotor(top, p.Motor)
	p.drawWords(fig, rs, tip)
	fig.drawRingLabels(labels)
	fig.drawFooter(foot)
	return nil
}

// setScale fixes the radial scale and gives the radius of the tip path.
func (p PolarClearance) setScale(fig *polarFigure) (tip float64, zero bool) {
	base, span, zero := p.span()
	_, part := exaggerate(p.FanRadius, span, tipPart)
	tip = fig.rMax * part
	fig.radial = radial{base: base, rBase: tip, s: (fig.rMax - tip) / span}
	return tip, zero
}

// gapRadius is where an absent reading is marked: on the nominal ring, else in
// the middle of the scale.
func (p PolarClearance) gapRadius(fig *polarFigure, tip float64) float64 {
	if p.Nominal != nil {
		return fig.radial.of(p.Nominal.Value)
	}
	return (tip + fig.rMax) / 2
}

func (p PolarClearance) drawGround(fig *polarFigure, rs []Reading, tip float64, zero bool) {
	if p.Band != nil {
		fig.drawBand(p.Band, tip)
	}
	fig.drawSpokes(rs, tip)
	if p.Nominal != nil {
		fig.ring(fig.o, fig.radial.of(p.Nominal.Value), &nominalPen, nil)
	}
	if zero {
		fig.ring(fig.o, tip, &tipPen, nil)
	}
	fig.ring(fig.o, 1.2, &pen{tone: Muted, width: 0.6}, nil)
}

// tipPen is the path of the blade tip.
var tipPen = pen{tone: Muted, width: 1}

// drawWords draws the move and the callout inside the tip path; on a compact
// figure the callout alone, under the ring.
func (p PolarClearance) drawWords(fig *polarFigure, rs []Reading, tip float64) {
	var taken []box
	if p.Move != nil && !p.Compact {
		taken = fig.drawMove(p.Move, tip)
	}
	if p.Worst == nil {
		return
	}
	target, m := fig.o.polar(p.Worst.At, tip), Within
	for _, r := range rs {
		if r.At == bearing(p.Worst.At) && !r.Absent {
			target, m = fig.o.polar(r.At, fig.radial.of(r.Value)), r.Mark
			break
		}
	}
	st := calloutStyle
	if m == Outside {
		st.tone = Alarm
	}
	if p.Compact {
		fig.drawCompactFoot(p.Worst.Text, p.Worst.At, st.tone)
		return
	}
	fig.drawCallout(p.Worst.Text, p.Worst.At, tip-1, target, fig.markRadius(m), st, taken)
}

func (p PolarClearance) keyItems(rs []Reading) []keyItem {
	out := seriesItems(p.Series)
	if p.Band != nil && p.Band.Word != "" {
		out = append(out, keyItem{p.Band.Word, bandSample})
	}
	if p.Nominal != nil && p.Nominal.Label != "" {
		out = append(out, keyItem{p.Nominal.Label, lineSample(nominalPen, 0)})
	}
	if _, _, zero := p.span(); zero && p.TipPath != "" {
		out = append(out, keyItem{p.TipPath, lineSample(tipPen, 0)})
	}
	return append(out, seenIn(rs).items(p.Marks)...)
}

// polarSize is the default size of a polar figure in points.
func polarSize(compact bool) (w, h float64) {
	if compact {
		return 110, 110
	}
	return 252, 290
}
