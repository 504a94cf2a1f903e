package correct

import (
	"math"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// source is the round of a check that a plan starts from.
type source struct {
	check *assess.Check
	round *assess.Round
	u     measure.Length // standard uncertainty of one reading, 0 where not known
}

// source finds the round to start from: the standing one, else the last one
// read, since a crew asks what to move before there is an as left. Never one
// that a later move has overtaken. It notes why there is none only where the
// check is wanted for something.
func (p *planner) source(key string) (source, bool) {
	c := p.in.Cell.Check(key)
	if c == nil || len(c.Rounds) == 0 {
		return source{}, false
	}
	r := c.StandingRound()
	if r == nil {
		for i := range c.Rounds {
			if c.Rounds[i].Found > 0 {
				r = &c.Rounds[i]
			}
		}
	}
	if r == nil || r.Found == 0 {
		return source{}, false
	}
	if c.Verdict == assess.Recheck || p.overtaken(key, r.Head) {
		p.note(whyOvertaken, textArg("check", key))
		return source{}, false
	}
	return source{c, r, readingUncertainty(key, r)}, true
}

// readingUncertainty takes the uncertainty of one reading out of the expanded one
// of the value that is judged: √2 times as large for a difference of two.
func readingUncertainty(key string, r *assess.Round) measure.Length {
	x, ok := r.Result("uncertainty")
	if !ok {
		return 0
	}
	u := float64(x.Amount.N) / coverage
	switch key {
	case assess.Clearance, assess.Pitch, assess.ShaftEnds, assess.GearLevel:
		return nearest(u)
	}
	return nearest(u / math.Sqrt2)
}

// overtaken tells whether the log holds a move that overtakes the check and is
// not shown to be before the round.
func (p *planner) overtaken(key string, head field.Head) bool {
	for _, m := range p.in.Record.Moves {
		for _, k := range p.overtakes(m.Event.Value) {
			if k == key && !before(m, head) {
				return true
			}
		}
	}
	return false
}

// before tells whether the move is shown to have been made before the readings
// were begun: by the day, and within a day by sequence or by the clock.
func before(m field.Move, head field.Head) bool {
	if !m.Date.Set || !head.Date.Set {
		return false
	}
	if d := m.Date.Value.Compare(head.Date.Value); d != 0 {
		return d < 0
	}
	switch {
	case m.Sequence.Set && head.Sequence.Set:
		return m.Sequence.Value < head.Sequence.Value
	case m.Time.Set && head.Start.Set:
		return m.Time.Value < head.Start.Value
	}
	return false
}

// readings of a round that were read, with their places.
func (s source) readings() []Reading { return readingsOf(s.round) }

func readingsOf(r *assess.Round) []Reading {
	var out []Reading
	for _, x := range r.Points {
		if x.Found {
			out = append(out, Reading{x.Index, x.Degrees, measure.Length(x.Value.N)})
		}
	}
	return out
}

// blades of a round by blade number.
func (s source) blades() []BladeValue {
	var out []BladeValue
	for _, x := range s.round.Points {
		if x.Found {
			out = append(out, BladeValue{x.Index, x.Value.N})
		}
	}
	return out
}

// wanted tells whether the check calls for a move: outside, or asked for.
func (p *planner) wanted(s source) bool {
	return s.round.Verdict == assess.Outside || p.asked(s.check.Key)
}

// bounds of the check's limit as lengths.
func (s source) bounds() (least, most *measure.Length) {
	a, b := assess.Bounds(s.check.Key, s.check.Limit)
	return lengthOf(a), lengthOf(b)
}

func lengthOf(a *assess.Amount) *measure.Length {
	if a == nil {
		return nil
	}
	l := measure.Length(a.N)
	return &l
}
