package workbook

import (
	"slices"
	"strings"

	"asleft/internal/field"
)

// aside holds rows as they stand in their tables, before they are put together
// to what the record holds. What belongs to one cell is there only while that
// cell is read.
type aside struct {
	feet     []footRow
	schedule []field.Fasteners
	out      []field.Move
	bolted   map[int]bool // cells with a table of fasteners

	stacks    []stackRow
	moves     []moveRow
	vibration []vibrationRow
}

type footRow struct {
	number field.Count
	foot   field.Foot
}

type stackRow struct {
	foot  field.Count
	stack field.Stack
}

// moveRow is a line of the move log: a move, or more feet of the move above it.
type moveRow struct {
	move     field.Move
	numbers  numbers // feet, or blades
	was, now field.Length
}

// vibrationRow is a point and axis with a value for each run.
type vibrationRow struct {
	point, axis, detector field.Text
	limit                 field.Quantity
	values                [runs]field.Quantity
	at                    field.Ref
}

// towerTables puts the tower's tables together.
func (r *reader) towerTables() {
	seen := map[int]bool{}
	for _, row := range r.aside.feet {
		if n, ok := r.footNumber(row.number, row.foot.At, seen); ok {
			row.foot.Number = n
			r.record.Tower.Geometry.Feet = append(r.record.Tower.Geometry.Feet, row.foot)
		}
	}
	for i := range r.aside.out {
		m := &r.aside.out[i]
		m.Event = field.Text{Value: "instrument.out", Set: true, Text: r.words.Say("event.instrument.out"), At: m.At}
		if !m.Instrument.Set || !m.Date.Set {
			r.faultHere(Required, m.At, "", "text", "")
		}
	}
	for i, f := range r.aside.schedule {
		r.setNamed(f)
		for j := range i {
			if sameSet(&r.aside.schedule[j], &f) {
				r.faultHere(TwiceSet, f.Set.At, f.Set.Text, "choice", r.aside.schedule[j].Set.At.Cell)
			}
		}
	}
}

// footNumber is the number of a row's foot, which must be there and only once.
func (r *reader) footNumber(n field.Count, at field.Ref, seen map[int]bool) (int, bool) {
	switch {
	case !n.Set:
		r.faultHere(Required, at, "", "count", "")
	case n.Value < 1:
		r.faultHere(NoSuchIndex, n.At, n.Text, "count", itoa(maxNumbers))
	case seen[n.Value]:
		r.faultHere(TwiceFoot, n.At, n.Text, "count", "")
	default:
		seen[n.Value] = true
		return n.Value, true
	}
	return 0, false
}

// setNamed asks for the set that a row is of.
func (r *reader) setNamed(f field.Fasteners) {
	switch {
	case !f.Set.Set:
		r.faultHere(Required, f.At, "", "choice", "")
	case f.Set.Value == otherSet && !f.Name.Set:
		r.faultHere(Required, f.At, f.Set.Text, "text", "")
	}
}

// assemble puts the cell's tables together.
func (r *reader) assemble(c *field.Cell) {
	seen := map[int]bool{}
	for _, row := range r.aside.stacks {
		if n, ok := r.footNumber(row.foot, row.stack.At, seen); ok {
			row.stack.Foot = n
			c.Stacks = append(c.Stacks, row.stack)
		}
	}
	for _, row := range r.aside.moves {
		r.move(c, row)
	}
	r.runVibration(c)
	for i := range c.Fasteners {
		r.setNamed(c.Fasteners[i])
	}
	if r.present(fastenersBlock(), cellPrefix(c.Number)) {
		r.aside.bolted[c.Number] = true
	}
}

// runVibration puts the readings of each run into its record. A point that was
// not read in a run in which others were is missing there.
func (r *reader) runVibration(c *field.Cell) {
	for n := range runs {
		if !slices.ContainsFunc(r.aside.vibration, func(x vibrationRow) bool { return x.values[n].Set }) {
			continue
		}
		for len(c.StartUps) <= n {
			c.StartUps = append(c.StartUps, field.StartUp{})
		}
		run := &c.StartUps[n]
		for _, x := range r.aside.vibration {
			run.Vibration = append(run.Vibration, field.Vibration{Point: x.point, Axis: x.axis, Value: x.values[n],
				Detector: x.detector, Limit: x.limit, At: x.at})
		}
	}
}

// finish gives every cell what stands on the tower's sheets once for all: the
// fastener schedule, and instruments that were found out.
func (a *aside) finish(record *field.Record) {
	for i := range record.Cells {
		c := &record.Cells[i]
		if a.bolted[c.Number] {
			a.ask(c)
		}
		c.Moves = append(c.Moves, a.out...)
	}
}

// ask gives each set of the cell what the schedule asks of it. A set that is
// scheduled and not in the cell's table is there all the same, not done, unless
// the whole table is still blank.
func (a *aside) ask(c *field.Cell) {
	done := make([]bool, len(a.schedule))
	for i := range c.Fasteners {
		f := &c.Fasteners[i]
		for j := range a.schedule {
			if asked := &a.schedule[j]; sameSet(f, asked) {
				askOf(f, asked)
				done[j] = true
			}
		}
	}
	if len(c.Fasteners) == 0 {
		return
	}
	for j, asked := range a.schedule {
		if !done[j] && asked.Set.Set {
			c.Fasteners = append(c.Fasteners, asked)
		}
	}
}

// sameSet compares sets by code, others by name.
func sameSet(a, b *field.Fasteners) bool {
	if a.Set.Value != b.Set.Value || !a.Set.Set {
		return false
	}
	return a.Set.Value != otherSet || strings.EqualFold(a.Name.Value, b.Name.Value)
}

// askOf copies what is asked.
func askOf(f, asked *field.Fasteners) {
	orElse(&f.Name, &asked.Name)
	f.Count, f.Size, f.Class, f.Material = asked.Count, asked.Size, asked.Class, asked.Material
	f.Lubricant, f.Coefficient, f.Required = asked.Lubricant, asked.Coefficient, asked.Required
	f.FirstUnder, f.Scheduled, f.Authority = asked.FirstUnder, asked.Scheduled, asked.Authority
}

// faultHere records a fault at a place that is known by its address.
func (r *reader) faultHere(kind field.FaultKind, at field.Ref, read, expected, detail string) {
	r.faults = append(r.faults, field.Fault{Kind: kind, At: at, Read: shown(read), Expected: expected, Detail: detail})
}
