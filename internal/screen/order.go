package screen

import (
	"slices"

	"asleft/internal/field"
)

// calibration asks about instruments that were used before they were calibrated
// or after they were due, where no verdict says so: in rounds that do not stand.
func (t *tower) calibration() []Question {
	type use struct {
		early, late  field.Day
		before, past []int
		at, pastAt   []field.Ref
	}
	uses := map[string]*use{}
	note := func(id string, cell int, used field.Date, at field.Ref) {
		in := t.instruments[id]
		if in == nil || !used.Set {
			return
		}
		u := uses[id]
		if u == nil {
			u = &use{early: used.Value, late: used.Value}
			uses[id] = u
		}
		if in.Calibrated.Set && used.Value.Compare(in.Calibrated.Value) < 0 {
			u.before, u.at = append(u.before, cell), append(u.at, at)
			if used.Value.Compare(u.early) < 0 {
				u.early = used.Value
			}
		}
		if in.Due.Set && used.Value.Compare(in.Due.Value) > 0 {
			u.past, u.pastAt = append(u.past, cell), append(u.pastAt, at)
			if used.Value.Compare(u.late) > 0 {
				u.late = used.Value
			}
		}
	}
	for _, x := range t.rows {
		if !x.stands {
			note(x.head.Instrument.Value, x.cell, x.head.Date, x.at)
		}
	}
	var out []Question
	for i := range t.r.Instruments {
		in := &t.r.Instruments[i]
		if in != t.instruments[in.ID.Value] {
			continue
		}
		id := text("instrument", in.ID.Value)
		if in.Calibrated.Set && in.Due.Set && in.Due.Value.Compare(in.Calibrated.Value) < 0 {
			out = append(out, Question{Code: DueFirst, At: []field.Ref{in.Due.At},
				Args: []Arg{id, text("date", in.Calibrated.Value.String()), text("due", in.Due.Value.String())}})
		}
		u := uses[in.ID.Value]
		if u != nil && len(u.before) > 0 {
			out = append(out, Question{Code: Uncalibrated, Cells: unique(u.before), At: append(u.at, in.Calibrated.At),
				Args: []Arg{id, text("used", u.early.String()), text("date", in.Calibrated.Value.String())}})
		}
		if u != nil && len(u.past) > 0 {
			out = append(out, Question{Code: PastDue, Cells: unique(u.past), At: append(u.pastAt, in.Due.At),
				Args: []Arg{id, text("used", u.late.String()), text("date", in.Due.Value.String())}})
		}
	}
	return out
}

// backward asks about a round that was read before an earlier one, by day, or by
// time where the day is the same.
func (t *tower) backward() []Question {
	var out []Question
	for _, b := range t.rows {
		i := slices.IndexFunc(t.rows, func(a *row) bool {
			return a.cell == b.cell && a.block == b.block && rank(a.round) < rank(b.round) && earlier(b.head, a.head)
		})
		if i < 0 {
			continue
		}
		a := t.rows[i]
		out = append(out, Question{Code: Backward, Cells: []int{b.cell}, At: []field.Ref{b.at, a.at}, Args: []Arg{
			number("cell", b.cell), text("check", b.block), text("round", b.round), text("date", stamp(b.head)),
			text("other", a.round), text("otherdate", stamp(a.head))}})
	}
	return out
}

// rank is a round's place among those of a form.
func rank(round string) int {
	return slices.Index([]string{field.AsFound, field.Second, field.Third, field.AsLeft}, round)
}

// earlier tells whether a was surely read before b was begun.
func earlier(a, b field.Head) bool {
	if !a.Date.Set || !b.Date.Set {
		return false
	}
	d := a.Date.Value.Compare(b.Date.Value)
	return d < 0 || d == 0 && a.Start.Set && b.Start.Set && a.Start.Value < b.Start.Value
}

// stamp is the day and, where given, the time of a round.
func stamp(h field.Head) string {
	if !h.Start.Set {
		return h.Date.Value.String()
	}
	return h.Date.Value.String() + " " + h.Start.Value.String()
}

// Nights, in which a round may begin on one day and end on the next.
const (
	evening = field.Minute(18 * 60)
	morning = field.Minute(9 * 60)
)

// finish asks about a round that was finished before it was started.
func (t *tower) finish() []Question {
	var out []Question
	seen := map[[2]any]bool{}
	for _, x := range t.rows {
		h := x.head
		night := h.Start.Value >= evening && h.Finish.Value <= morning
		key := [2]any{h.Start, h.Finish} // one head may stand for many rows
		if !h.Start.Set || !h.Finish.Set || h.Finish.Value >= h.Start.Value || night || seen[key] {
			continue
		}
		seen[key] = true
		out = append(out, Question{Code: Finish, Cells: []int{x.cell}, At: []field.Ref{h.Start.At, h.Finish.At}, Args: []Arg{
			number("cell", x.cell), text("check", x.block), text("round", x.round),
			text("start", h.Start.Value.String()), text("finish", h.Finish.Value.String())}})
	}
	return out
}

// twoPlaces asks about a person who read in two cells at the same time.
func (t *tower) twoPlaces() []Question {
	type day struct {
		person string
		date   field.Day
	}
	days := map[day][]*row{}
	var order []day
	for _, x := range t.rows {
		h := x.head
		if h.ReadBy.Value == "" || !h.Date.Set || !h.Start.Set || !h.Finish.Set || h.Finish.Value <= h.Start.Value {
			continue
		}
		d := day{h.ReadBy.Value, h.Date.Value}
		if days[d] == nil {
			order = append(order, d)
		}
		days[d] = append(days[d], x)
	}
	var out []Question
	for _, d := range order {
		seen := map[[2]int]bool{}
		for i, b := range days[d] {
			for _, a := range days[d][:i] {
				cells := [2]int{a.cell, b.cell}
				if a.cell == b.cell || seen[cells] ||
					a.head.Start.Value >= b.head.Finish.Value || b.head.Start.Value >= a.head.Finish.Value {
					continue
				}
				seen[cells] = true
				out = append(out, Question{Code: TwoPlaces, Cells: []int{a.cell, b.cell}, At: []field.Ref{a.at, b.at}, Args: []Arg{
					text("person", d.person), text("date", d.date.String()),
					number("cell", a.cell), text("check", a.block), text("time", span(a.head)),
					number("second", b.cell), text("othercheck", b.block), text("othertime", span(b.head))}})
			}
		}
	}
	return out
}

func span(h field.Head) string { return h.Start.Value.String() + "–" + h.Finish.Value.String() }
