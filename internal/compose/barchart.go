package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// wideFrom is the number of blades from which a chart takes the whole width.
const wideFrom = 13

// barHeight lets three charts stand on a page with their results.
const barHeight = 126

// barPicture is the chart by blade of a check: all rounds, the standing one
// strong, the window of the limit, the worst blade named.
func (b *book) barPicture(c towerCell, k *assess.Check) page.Picture {
	fig := plot.Bars{
		Frame:      plot.Frame{Width: b.barWidth(k), Height: barHeight},
		ColumnWord: b.say("figure.blade"),
		Axis:       b.say("axis."+k.Key, "unit", b.chartUnit(k)),
		Marks:      b.markWords(),
	}
	columns := blades(k)
	for _, n := range columns {
		fig.Columns = append(fig.Columns, strconv.Itoa(n))
	}
	for i := range k.Rounds {
		fig.Series = append(fig.Series, b.barSeries(&k.Rounds[i], role(k, i), columns))
	}
	text := b.barFinding(k, &fig, columns)
	return b.picture(fig, b.finding(c, k, text))
}

func (b *book) barWidth(k *assess.Check) float64 {
	if len(blades(k)) >= wideFrom {
		return b.fullWidth()
	}
	return b.halfWidth()
}

func (b *book) chartUnit(k *assess.Check) string {
	if k.Key == assess.Pitch {
		return b.say("unitname.deg")
	}
	return b.unitName()
}

// blades are the numbers of the blades of all rounds, from 1 on.
func blades(k *assess.Check) []int {
	most := 0
	for _, r := range k.Rounds {
		for _, p := range r.Points {
			most = max(most, p.Index)
		}
	}
	out := make([]int, 0, most)
	for n := 1; n <= most; n++ {
		out = append(out, n)
	}
	return out
}

func (b *book) barSeries(r *assess.Round, role plot.Role, columns []int) plot.BarSeries {
	s := plot.BarSeries{Name: b.say("round." + r.Key), Role: role}
	for _, n := range columns {
		v := plot.BarValue{Absent: true, Label: b.say("verdict." + string(assess.Missing))}
		for _, p := range r.Points {
			switch {
			case p.Index != n:
			case p.Found:
				v = plot.BarValue{Value: b.figureValue(p.Value), Label: b.figureLabel(p), Mark: figureMark(p.Verdict)}
			default:
				v.Label = b.absentWord(p)
			}
		}
		s.Values = append(s.Values, v)
	}
	return s
}

// barFinding adds the window and the named blades of the standing round, and
// says the finding.
func (b *book) barFinding(k *assess.Check, fig *plot.Bars, columns []int) string {
	r := shown(k)
	if r == nil {
		return ""
	}
	if k.Limit != nil {
		fig.Band, fig.Nominal = b.barBand(k, r)
	}
	fig.Notes = b.longestNotes(r, len(columns))
	if w, ok := worst(r.Points); ok && w.Verdict != "" && k.Key == assess.Pitch {
		return b.say("figure.off", "value", b.amount(w.Value), "n", strconv.Itoa(w.Index))
	}
	if span, ok := r.Result("range"); ok {
		key := "figure.range"
		if k.Key == assess.TipRadius {
			key = "figure.spread"
		}
		return b.say(key, "value", b.amount(span.Amount))
	}
	return ""
}

// maxNotes is the most blades named in a chart; where more are equal, the name
// says nothing.
const maxNotes = 2

// longestNotes name the longest blades.
func (b *book) longestNotes(r *assess.Round, columns int) []plot.ColumnNote {
	var notes []plot.ColumnNote
	for _, x := range r.Results {
		if x.Key == "longest" && x.Index >= 1 && x.Index <= columns {
			notes = append(notes, plot.ColumnNote{Column: x.Index - 1, Text: b.say("figure.longest")})
		}
	}
	if len(notes) > maxNotes {
		return nil
	}
	return notes
}

// barBand is the window that a chart by blade is read against: around the set
// angle for pitch; for the others around the middle of the readings, since only
// their differences are limited.
func (b *book) barBand(k *assess.Check, r *assess.Round) (*plot.Band, *plot.Level) {
	if k.Key == assess.Pitch {
		return b.band(k), b.setAngle(k.Limit)
	}
	_, span := assess.Bounds(k.Key, k.Limit)
	most, ok1 := r.Result("largest")
	least, ok2 := r.Result("smallest")
	if span == nil || !ok1 || !ok2 {
		return nil, nil
	}
	middle := least.Amount.N + (most.Amount.N-least.Amount.N)/2
	at := func(n int64) assess.Amount { return assess.Amount{Kind: span.Kind, N: n} }
	lo, hi := at(middle-span.N/2), at(middle+span.N/2)
	return &plot.Band{
			Lo: b.figureValue(lo), LoLabel: number(lo, b.first),
			Hi: b.figureValue(hi), HiLabel: number(hi, b.first),
			Word: b.say("figure.limits", "limit", b.limitText(k.Limit)),
		},
		&plot.Level{Value: b.figureValue(at(middle)), Label: number(at(middle), b.first)}
}

func (b *book) setAngle(l *field.Limit) *plot.Level {
	if !l.AngleNominal.Set {
		return nil
	}
	return &plot.Level{Value: angleFloat(l.AngleNominal.Value),
		Label: b.say("figure.set", "value", b.typedAngle(l.AngleNominal))}
}
