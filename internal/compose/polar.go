package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// polarHeight lets two figures stand under half a page of tables.
const polarHeight = 270

// clearancePicture is the polar figure of tip clearance: all rounds, the
// standing one strong, nominal and limits, the worst position named.
func (b *book) clearancePicture(c towerCell, k *assess.Check) page.Picture {
	fig := plot.PolarClearance{
		Frame:     plot.Frame{Width: b.halfWidth(), Height: polarHeight},
		Motor:     b.say("figure.motor"),
		TipPath:   b.say("figure.tippath"),
		Marks:     b.markWords(),
		FanRadius: measure.Length(b.in.Record.Tower.FanDiameter.Value / 2).Float(b.first),
	}
	for i := range k.Rounds {
		s := plot.Series{Name: b.say("round." + k.Rounds[i].Key), Role: role(k, i)}
		for _, p := range k.Rounds[i].Points {
			s.Readings = append(s.Readings, b.polarReading(p, b.figureValue(p.Value), b.figureLabel(p)))
		}
		fig.Series = append(fig.Series, s)
	}
	if k.Limit != nil {
		fig.Band, fig.Nominal = b.band(k), b.nominal(k.Limit)
	}
	text := ""
	points := shownPoints(k)
	if w, ok := worst(points); ok {
		text = b.say("figure."+extremeWord(points, w), "value", b.amountAsRead(w), "at", degrees(w.Degrees))
		fig.Worst = &plot.Callout{At: angleFloat(w.Degrees), Text: text}
	}
	fig.Reach = b.sharedReach(c, assess.Clearance)
	fig.Note = b.exaggeration(fig.Exaggeration())
	return b.picture(fig, b.finding(c, k, text))
}

// amountAsRead is a reading with its unit, as it was read.
func (b *book) amountAsRead(p assess.Point) string {
	if p.Value.Kind == assess.KindLength && p.Unit == b.first {
		return typedWithUnit(b.clean(p.Typed, p.At), p.Unit)
	}
	return b.amount(p.Value)
}

// exaggeration says how much larger the readings are drawn than the fan.
func (b *book) exaggeration(n int) string {
	if n <= 1 {
		return b.say("figure.noexaggeration", "unit", b.unitName())
	}
	return b.say("figure.exaggeration", "n", strconv.Itoa(n), "unit", b.unitName())
}

// band is the window of a check that judges each reading.
func (b *book) band(k *assess.Check) *plot.Band {
	least, greatest := assess.Bounds(k.Key, k.Limit)
	if least == nil && greatest == nil {
		return nil
	}
	out := &plot.Band{OpenLo: least == nil, OpenHi: greatest == nil, Word: b.say("figure.limits", "limit", b.limitText(k.Limit))}
	if least != nil {
		out.Lo, out.LoLabel = b.figureValue(*least), number(*least, b.first)
	}
	if greatest != nil {
		out.Hi, out.HiLabel = b.figureValue(*greatest), number(*greatest, b.first)
	}
	return out
}

func (b *book) nominal(l *field.Limit) *plot.Level {
	if !l.Nominal.Set {
		return nil
	}
	return &plot.Level{Value: l.Nominal.Value.Float(b.first),
		Label: b.say("figure.nominal", "value", b.leading(l.Nominal))}
}

// tiltPicture is the polar figure of fan tilt: how far the blade passed below
// its mean height at each position, with the plane that fits best.
func (b *book) tiltPicture(c towerCell, k *assess.Check) page.Picture {
	fig := plot.PolarTilt{
		Frame:     plot.Frame{Width: b.halfWidth(), Height: polarHeight},
		Motor:     b.say("figure.motor"),
		Mean:      b.say("figure.mean"),
		FitWord:   b.say("figure.plane"),
		Marks:     b.markWords(),
		FanRadius: b.tiltRadius(c),
	}
	for i := range k.Rounds {
		fig.Series = append(fig.Series, b.tiltSeries(&k.Rounds[i], role(k, i)))
	}
	text := ""
	if r := shown(k); r != nil {
		text = b.tiltFinding(r, &fig)
		if k.Limit != nil {
			fig.Limit = b.say("figure.tiltlimit", "text", text, "limit", b.limitText(k.Limit))
		}
	}
	fig.Reach = b.sharedReach(c, assess.Tilt)
	fig.Note = b.tiltNote(fig.Exaggeration())
	return b.picture(fig, b.finding(c, k, text))
}

func (b *book) tiltRadius(c towerCell) float64 {
	if r := c.read.Tilt.Radius; r.Set {
		return r.Value.Float(b.first)
	}
	return measure.Length(b.in.Record.Tower.FanDiameter.Value / 2).Float(b.first)
}

func (b *book) tiltNote(exaggeration int) string {
	if exaggeration <= 1 {
		return b.say("figure.tiltplain", "unit", b.unitName())
	}
	return b.say("figure.tiltnote", "n", strconv.Itoa(exaggeration), "unit", b.unitName())
}

// tiltSeries are the drops of a round from their mean; plus is lower.
func (b *book) tiltSeries(r *assess.Round, role plot.Role) plot.Series {
	s := plot.Series{Name: b.say("round." + r.Key), Role: role}
	mean := meanOf(r.Points)
	for _, p := range r.Points {
		off := measure.Length(p.Value.N) - mean
		label := off.Format(b.first, 2)
		if off > 0 {
			label = "+" + label
		}
		s.Readings = append(s.Readings, b.polarReading(p, off.Float(b.first), label))
	}
	return s
}

// meanOf is the mean of the readings, for drawing only.
func meanOf(points []assess.Point) measure.Length {
	sum, n := int64(0), int64(0)
	for _, p := range points {
		if p.Found {
			sum += p.Value.N
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return measure.Length(sum / n)
}

// tiltFinding enters the plane of the standing round into the figure and says
// how much highest and lowest differ.
func (b *book) tiltFinding(r *assess.Round, fig *plot.PolarTilt) string {
	amplitude, fitted := r.Result("amplitude")
	low, aims := r.Result("lowside")
	if fitted && aims {
		at := measure.Angle(low.Amount.N)
		fig.Fit = &plot.Harmonic{Amplitude: b.figureValue(amplitude.Amount), At: angleFloat(at)}
		fig.Low = b.say("figure.lowside", "value", b.amount(amplitude.Amount), "at", direction(at))
		fig.High = b.say("figure.highside", "at", direction(at+180*measure.Degree))
	}
	span, ok := r.Result("range")
	if !ok {
		return ""
	}
	return b.say("figure.range", "value", b.amount(span.Amount))
}
