package assess

import (
	"cmp"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// kindByOthers is the waiver code of work done by somebody else; any other
// waiver says that the check is not required.
const kindByOthers = "byothers"

// waived tells whether nobody has to read the check.
func (c *Check) waived() bool { return c.Verdict == NotRequired || c.Verdict == ByOthers }

// waive enters the waiver of a check, if there is one. A row for this cell goes
// before a row for all.
func (w *work) waive(c *Check) bool {
	var best *field.Waiver
	for i := range w.t.waivers {
		x := &w.t.waivers[i]
		if x.Check.Value != c.Key || x.Cell.Set && x.Cell.Value != w.cell.Number {
			continue
		}
		if best == nil || compareWaivers(x, best) < 0 {
			best = x
		}
	}
	if best == nil {
		return false
	}
	c.Waiver, c.Verdict = best, NotRequired
	if best.Kind.Value == kindByOthers {
		c.Verdict = ByOthers
	}
	return true
}

func compareWaivers(a, b *field.Waiver) int {
	rank := func(x *field.Waiver) int {
		if x.Cell.Set {
			return 0
		}
		return 1
	}
	return cmp.Or(cmp.Compare(rank(a), rank(b)), compareRefs(a.At, b.At))
}

func compareRefs(a, b field.Ref) int {
	return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(a.Cell, b.Cell))
}

// deviate enters the accepted deviation of a check. It holds for one value of
// one round: where the value that is judged today is another, it is void.
func (w *work) deviate(c *Check) {
	rows := slices.Clone(w.t.deviations)
	slices.SortStableFunc(rows, func(a, b field.Deviation) int { return compareRefs(a.At, b.At) })
	for i := range rows {
		d := &rows[i]
		if d.Check.Value != c.Key || !d.Cell.Set || d.Cell.Value != w.cell.Number {
			continue
		}
		if note, void := w.void(c, d); void {
			c.Notes = append(c.Notes, note)
		} else if c.Deviation == nil {
			c.Deviation = d
		}
	}
}

// void says why a deviation does not hold.
func (w *work) void(c *Check, d *field.Deviation) (Code, bool) {
	r := c.StandingRound()
	number := textArg("number", d.Number.Value)
	if d.Authority.Value == "" || d.Person.Value == "" || !d.Date.Set || !isRound(d.Round.Value) || r.Deciding == nil {
		return code(noteDeviationBad, number), true
	}
	accepted, ok := w.accepted(*r.Deciding, d.Value.Value)
	switch {
	case !ok:
		return code(noteDeviationBad, number), true
	case d.Round.Value != r.Key:
		return code(noteDeviationRound, number, textArg("round", d.Round.Value)), true
	case accepted != r.Deciding.N:
		return code(noteDeviationVoid, number, textArg("accepted", d.Value.Value), amountArg("now", *r.Deciding)), true
	}
	return Code{}, false
}

// accepted reads the value of a deviation in what the deciding value is stated
// in.
func (w *work) accepted(deciding Amount, text string) (int64, bool) {
	switch deciding.Kind {
	case KindAngle:
		a, err := measure.ParseAngle(text)
		return int64(a), err == nil
	case KindSlope:
		s, err := measure.ParseSlope(text, measure.UnitNone, measure.UnitNone)
		return roundRat(slopeRat(s)), err == nil
	case KindQuantity:
		q, err := measure.ParseQuantity(text, deciding.Unit.Kind(), deciding.Unit)
		if err != nil {
			return 0, false
		}
		if v, ok := quantityRat(q, deciding.Unit); ok {
			return roundRat(v), true
		}
		return 0, false
	}
	l, _, err := measure.ParseLength(text, w.t.unit)
	return int64(l), err == nil
}
