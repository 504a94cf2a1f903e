package workbook

import (
	"strings"

	"asleft/internal/field"
)

// move adds a line of the move log: a move, or more feet of the one above. What
// an amount means goes by the move: feet have shims, blades have none.
func (r *reader) move(c *field.Cell, row moveRow) {
	m := &row.move
	if !m.Event.Set {
		if r.continues(c, row) {
			r.amounts(&c.Moves[len(c.Moves)-1], row)
		}
		return
	}
	along, front, rear := m.Along, m.Front, m.Rear
	m.Along, m.Front, m.Rear = field.Length{}, field.Length{}, field.Length{}
	c.Moves = append(c.Moves, *m)
	row.move.Along, row.move.Front, row.move.Rear = along, front, rear
	r.amounts(&c.Moves[len(c.Moves)-1], row)
}

// continues tells whether a line without a move carries nothing but amounts of
// the move above it.
func (r *reader) continues(c *field.Cell, row moveRow) bool {
	m := &row.move
	if len(c.Moves) == 0 || m.Date.Set || m.Time.Set || m.Sequence.Set || m.Detail.Set || m.By.Set {
		r.faultHere(NoMove, m.At, "", "choice", "")
		return false
	}
	return true
}

// amounts takes what a line says of a move.
func (r *reader) amounts(m *field.Move, row moveRow) {
	family, _, _ := strings.Cut(m.Event.Value, ".")
	feet := family == "gear" || family == "support" || family == "motor"
	if row.numbers.Set && family == "blade" {
		m.Blades = append(m.Blades, row.numbers.Value...)
	}
	if row.numbers.Set && feet {
		r.shims(m, row)
	}
	for _, x := range []struct {
		from, to *field.Length
		takes    bool
	}{
		{&row.was, nil, feet}, {&row.now, nil, feet},
		{&row.move.Along, &m.Along, feet || family == "cylinder"},
		{&row.move.Front, &m.Front, feet || family == "cylinder"},
		{&row.move.Rear, &m.Rear, feet || family == "cylinder"},
	} {
		switch {
		case !x.from.Set:
		case !x.takes:
			r.faultHere(NotThisMove, x.from.At, x.from.Text, "blank", m.Event.Text)
		case x.to == nil && !row.numbers.Set:
			r.faultHere(Required, row.move.At, "", "numbers", "")
			return
		case x.to != nil && x.to.Set:
			r.faultHere(NotThisMove, x.from.At, x.from.Text, "blank", m.Event.Text)
		case x.to != nil:
			*x.to = *x.from
		}
	}
	if row.numbers.Set && !feet && family != "blade" {
		r.faultHere(NotThisMove, row.numbers.At, row.numbers.Text, "blank", m.Event.Text)
	}
}

// shims enters the stacks of the feet of a line.
func (r *reader) shims(m *field.Move, row moveRow) {
	for _, foot := range row.numbers.Value {
		for _, other := range m.Feet {
			if other.Foot == foot {
				r.faultHere(TwiceFoot, row.numbers.At, row.numbers.Text, "numbers", m.Event.Text)
				return
			}
		}
		m.Feet = append(m.Feet, field.FootMove{Foot: foot, Was: row.was, Now: row.now})
	}
}

// numbersThere checks that feet and blades of moves are those of the tower.
func (r *reader) numbersThere(c *field.Cell) {
	blades := r.record.Tower.Blades.Value
	g := &r.record.Tower.Geometry
	for _, m := range c.Moves {
		for _, n := range m.Blades {
			if blades > 0 && n > blades {
				r.faultHere(NoSuchIndex, m.At, itoa(n), "numbers", itoa(blades))
			}
		}
		family, _, _ := strings.Cut(m.Event.Value, ".")
		for _, f := range m.Feet {
			if family == g.Shimmed.Value && len(g.Feet) > 0 && !hasFoot(g.Feet, f.Foot) {
				r.faultHere(NoSuchIndex, m.At, itoa(f.Foot), "numbers", itoa(len(g.Feet)))
			}
		}
	}
	for _, s := range c.Stacks {
		if len(g.Feet) > 0 && !hasFoot(g.Feet, s.Foot) {
			r.faultHere(NoSuchIndex, s.At, itoa(s.Foot), "numbers", itoa(len(g.Feet)))
		}
	}
	r.stuckThere(c)
}

// stuckThere asks each line of what cannot be moved for what and which way, and
// for a foot that there is.
func (r *reader) stuckThere(c *field.Cell) {
	g := &r.record.Tower.Geometry
	for _, s := range c.Stuck {
		switch {
		case !s.What.Set || !s.Way.Set:
			r.faultHere(Required, s.At, s.What.Text, "choice", "")
		case s.Foot.Set && s.Feet.Set:
			r.faultHere(NotThisMove, s.Foot.At, s.Foot.Text, "blank", s.Feet.Text)
		case s.Foot.Set && s.What.Value == g.Shimmed.Value && len(g.Feet) > 0 && !hasFoot(g.Feet, s.Foot.Value):
			r.faultHere(NoSuchIndex, s.Foot.At, s.Foot.Text, "count", itoa(len(g.Feet)))
		}
	}
}

func hasFoot(feet []field.Foot, n int) bool {
	for _, f := range feet {
		if f.Number == n {
			return true
		}
	}
	return false
}
