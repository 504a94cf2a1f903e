package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// This file turns what the assessment says into the small structs of the
// figures. The numbers are those of the tables; nothing is computed here but
// their place on paper.

// value is an amount as a number of the figure's unit.
func (b *book) figureValue(a assess.Amount) float64 {
	if a.Kind == assess.KindAngle {
		return float64(a.N) / float64(measure.Degree)
	}
	return measure.Length(a.N).Float(b.first)
}

// figureLabel is a reading as printed in a figure: as read where it was read in
// the figure's unit, else computed.
func (b *book) figureLabel(p assess.Point) string {
	if p.Value.Kind == assess.KindAngle {
		return bareDegrees(b.clean(p.Typed, p.At))
	}
	if p.Unit == b.first {
		return bareNumber(b.clean(p.Typed, p.At), p.Unit)
	}
	return number(p.Value, b.first)
}

// figureMark is how a reading is drawn.
func figureMark(v assess.Verdict) plot.Mark {
	switch v {
	case assess.Outside:
		return plot.Outside
	case assess.NearLimit:
		return plot.Near
	}
	return plot.Within
}

func (b *book) markWords() plot.MarkWords {
	return plot.MarkWords{
		Near:    b.say("verdict." + string(assess.NearLimit)),
		Outside: b.say("verdict." + string(assess.Outside)),
		Absent:  b.say("figure.absent"),
	}
}

// shown is the round that the figure of a check is about: the standing one, else
// the last that was read.
func shown(k *assess.Check) *assess.Round {
	if r := k.StandingRound(); r != nil || len(k.Rounds) == 0 {
		return r
	}
	return &k.Rounds[len(k.Rounds)-1]
}

// role of a round in the figure of its check.
func role(k *assess.Check, round int) plot.Role {
	if &k.Rounds[round] == shown(k) {
		return plot.Standing
	}
	return plot.Earlier
}

// polarReading is one point at its place around the ring.
func (b *book) polarReading(p assess.Point, value float64, label string) plot.Reading {
	r := plot.Reading{At: angleFloat(p.Degrees), Tick: degrees(p.Degrees), Value: value, Label: label,
		Mark: figureMark(p.Verdict)}
	if !p.Found {
		r.Absent = true
		r.Label = b.absentWord(p)
	}
	return r
}

// absentWord is why a point was not read, short.
func (b *book) absentWord(p assess.Point) string {
	if p.Reason != "" {
		return b.clean(p.Reason, p.At)
	}
	return b.say("verdict." + string(assess.Missing))
}

// shownPoints are the points that a figure says its finding about.
func shownPoints(k *assess.Check) []assess.Point {
	if r := shown(k); r != nil {
		return r.Points
	}
	return nil
}

// worst is the reading with the least margin, else the smallest one: what a
// figure names.
func worst(points []assess.Point) (w assess.Point, found bool) {
	for _, p := range points {
		switch {
		case !p.Found:
		case !found, p.Verdict != "" && p.Margin.N < w.Margin.N, p.Verdict == "" && p.Value.N < w.Value.N:
			w, found = p, true
		}
	}
	return w, found
}

// extremeWord is "least" or "greatest", whichever the reading is.
func extremeWord(points []assess.Point, w assess.Point) string {
	for _, p := range points {
		if p.Found && p.Value.N < w.Value.N {
			return "greatest"
		}
	}
	return "least"
}

// picture puts a figure on the page with the sentence that says its finding.
func (b *book) picture(f plot.Figure, alt string) page.Picture {
	return page.Picture{Figure: f, Alt: alt}
}

// finding is the sentence about the round that is shown of a check: "Tip clearance,
// cell 3, as left: least 0.41 in at 210°, within".
func (b *book) finding(c towerCell, k *assess.Check, text string) string {
	r := shown(k)
	if r == nil {
		return b.say("figure.unread", "check", b.say("check."+k.Key), "cell", strconv.Itoa(c.judged.Number))
	}
	return b.say("figure.finding",
		"check", b.say("check."+k.Key),
		"cell", strconv.Itoa(c.judged.Number),
		"round", b.say("round."+r.Key),
		"text", text,
		"verdict", b.say("verdict."+string(c.told(k))))
}

// unitName is the leading unit in full.
func (b *book) unitName() string { return b.say("unitname." + b.first.String()) }

// halfWidth is the width of a figure in one of two columns, in points.
func (b *book) halfWidth() float64 {
	return float64(int((b.in.paper().W - pageMargins - columnGap) / 2))
}

// fullWidth is the width of a figure across the page.
func (b *book) fullWidth() float64 { return float64(int(b.in.paper().W - pageMargins)) }

// Geometry of the page that figures are sized to, in points.
const (
	pageMargins = 108
	columnGap   = 14
)
