package screen

import (
	"slices"

	"asleft/internal/field"
)

// moment is a numbered round or move of a day.
type moment struct {
	date     field.Day
	sequence int
	time     field.Minute
	at       field.Ref
}

// sequences asks about a day of a cell whose numbers tell one order and whose
// times another: once a day.
func (t *tower) sequences() []Question {
	var out []Question
	for i := range t.r.Cells {
		c := &t.r.Cells[i]
		var all []moment
		add := func(d field.Date, s field.Count, m field.Clock, at field.Ref) {
			if d.Set && s.Set && m.Set {
				all = append(all, moment{d.Value, s.Value, m.Value, at})
			}
		}
		for _, x := range t.rows {
			if x.cell == c.Number {
				add(x.head.Date, x.head.Sequence, x.head.Start, x.at)
			}
		}
		for _, m := range c.Moves {
			add(m.Date, m.Sequence, m.Time, m.At)
		}
		seen := map[field.Day]bool{}
		for _, a := range all {
			k := slices.IndexFunc(all, func(b moment) bool { return a.date == b.date && a.sequence < b.sequence && a.time > b.time })
			if k < 0 || seen[a.date] {
				continue
			}
			seen[a.date] = true
			b := all[k]
			out = append(out, Question{Code: Sequence, Cells: []int{c.Number}, At: []field.Ref{a.at, b.at}, Args: []Arg{
				number("cell", c.Number), text("date", a.date.String()), number("first", a.sequence), text("time", a.time.String()),
				number("then", b.sequence), text("othertime", b.time.String())}})
		}
	}
	return out
}

// issued asks about a document whose issue date is before the last day on which
// something in it was read or done; it names the first cell of that day.
func (t *tower) issued() []Question {
	issue := t.r.Project.IssueDate
	if !issue.Set {
		return nil
	}
	var latest field.Date
	cell, late := 0, []int{}
	see := func(number int, d field.Date) {
		if !d.Set || d.Value.Compare(issue.Value) <= 0 {
			return
		}
		late = append(late, number)
		if !latest.Set || d.Value.Compare(latest.Value) > 0 {
			latest, cell = d, number
		}
	}
	for _, x := range t.rows {
		see(x.cell, x.head.Date)
	}
	for i := range t.r.Cells {
		c := &t.r.Cells[i]
		for _, m := range c.Moves {
			see(c.Number, m.Date)
		}
		for _, f := range c.Fasteners {
			see(c.Number, f.Date)
		}
		for _, p := range c.Pins {
			see(c.Number, p.Date)
		}
		for _, p := range c.PreStart {
			see(c.Number, p.Date)
		}
		for _, s := range c.StartUps {
			see(c.Number, s.Date)
		}
	}
	if !latest.Set {
		return nil
	}
	return []Question{{Code: Issued, Cells: unique(late), At: []field.Ref{issue.At, latest.At}, Args: []Arg{
		text("date", issue.Value.String()), number("cell", cell), text("latest", latest.Value.String())}}}
}

// accepted asks about a deviation that was accepted on a day before the round
// whose value it accepts was read.
func (t *tower) accepted() []Question {
	var out []Question
	for _, d := range t.r.Deviations {
		block := d.Check.Value
		switch block {
		case "clearanceall":
			block = "clearance"
		case "pitchspread":
			block = "pitch"
		}
		for _, x := range t.rows {
			if x.cell != d.Cell.Value || x.block != block || x.round != d.Round.Value ||
				!d.Date.Set || !x.head.Date.Set || d.Date.Value.Compare(x.head.Date.Value) >= 0 {
				continue
			}
			out = append(out, Question{Code: Accepted, Cells: []int{x.cell}, At: []field.Ref{d.Date.At, x.at}, Args: []Arg{
				number("cell", x.cell), text("number", d.Number.Value),
				text("date", d.Date.Value.String()), text("read", x.head.Date.Value.String())}})
		}
	}
	return out
}
