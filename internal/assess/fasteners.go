package assess

import (
	"math/big"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// fastenerCheck judges every set of the schedule by itself.
func (w *work) fastenerCheck() Check {
	var items []Item
	for i := range w.cell.Fasteners {
		f := &w.cell.Fasteners[i]
		it := newItem(items, setCode(f), f.Name.Value, f.At)
		w.judgeSet(f, &it)
		items = append(items, it)
	}
	return w.onceCheck(FastenerTorque, items)
}

func setCode(f *field.Fasteners) string {
	if f.Set.Value == "" {
		return SetOther
	}
	return f.Set.Value
}

// setHead is when and with what a set was torqued, as a head.
func setHead(f *field.Fasteners) field.Head {
	return field.Head{Date: f.Date, Start: f.Time, Sequence: f.Sequence, ReadBy: f.By, Instrument: f.Tool}
}

func (w *work) judgeSet(f *field.Fasteners, it *Item) {
	if notDone(f) {
		it.find(Missing, reasonSetNotDone)
		return
	}
	finalTorque(f, it)
	w.firstPass(f, it)
	clicks(f, it)
	done(it, f.Pattern, reasonNoPattern)
	done(it, f.Stripe, reasonNoStripe)
	w.tool(f, it)
	setSource(f, it)
	if !f.Date.Set {
		it.find(Missing, reasonItemDate)
	}
	if f.Locking.Value == LockNylon && !f.Running.Set {
		it.note(noteNoRunning)
	}
	tension(f, it)
	w.setAside(it, setHead(f), setCode(f))
}

// notDone tells whether nothing was entered for a set that is scheduled.
func notDone(f *field.Fasteners) bool {
	return !f.FirstPass.Set && !f.Final.Set && !f.Clicks.Set && !f.Pattern.Set && !f.Stripe.Set && f.Tool.Value == "" && !f.Date.Set
}

// done enters a finding where something was not done, or where the form does
// not say so.
func done(it *Item, f field.Flag, key string) {
	switch {
	case !f.Set:
		it.find(Missing, key)
	case !f.Value:
		it.find(Outside, key)
	}
}

// setSource says where nobody stands behind the required torque.
func setSource(f *field.Fasteners, it *Item) {
	switch f.Authority.Value {
	case "":
		it.find(Within, reasonItemAuthority)
	case authorityStart:
		it.find(Within, reasonItemStarting)
	}
}

// finalTorque holds the set value of the last pass against the required one. A
// locking nut's running torque may be on top of it.
func finalTorque(f *field.Fasteners, it *Item) {
	switch {
	case !f.Final.Set:
		it.find(Missing, reasonNoFinal)
		return
	case !f.Required.Set:
		it.find(NoLimit, reasonNoRequired)
		return
	}
	s := scale{KindQuantity, f.Required.Value.Unit}
	final, ok := quantityRat(f.Final.Value, s.unit)
	required, okRequired := quantityRat(f.Required.Value, s.unit)
	if !ok || !okRequired || s.unit.Kind() != measure.Torque {
		it.find(NoLimit, reasonNoRequired)
		return
	}
	off := new(big.Rat).Sub(final, required)
	if running, ok := quantityRat(f.Running.Value, s.unit); f.Running.Set && ok && off.Cmp(running) == 0 {
		off.SetInt64(0)
	}
	d, m := s.amount(final), s.margin(off.Neg(off.Abs(off)))
	it.Deciding, it.Margin = &d, &m
	if off.Sign() != 0 {
		it.find(Outside, reasonFinalTorque, amountArg("final", d), amountArg("required", s.amount(required)))
	}
}

// firstPass asks for a first pass that is lower than the last, and by as much as
// is stated: by at least the set's own figure, else within the row of the limits
// sheet. Without either a first pass need not be recorded.
func (w *work) firstPass(f *field.Fasteners, it *Item) {
	row := w.t.limits[FastenerTorque]
	_, asked, form := readLimit(FastenerTorque, row)
	switch {
	case !f.FirstPass.Set && (f.FirstUnder.Set || form == limitFull):
		it.find(Missing, reasonNoFirst)
		return
	case !f.FirstPass.Set || !f.Final.Set:
		return
	}
	unit := f.Final.Value.Unit
	final, ok := quantityRat(f.Final.Value, unit)
	first, okFirst := quantityRat(f.FirstPass.Value, unit)
	if !ok || !okFirst {
		it.find(Missing, reasonNoFirst)
		return
	}
	under := new(big.Rat).Sub(final, first)
	s := scale{KindQuantity, unit}
	it.Results = append(it.Results, s.result("under", under, 0))
	args := []Arg{amountArg("first", s.amount(first)), amountArg("final", s.amount(final))}
	switch {
	case under.Sign() <= 0:
		it.find(Outside, reasonFirstPass, args...)
	case f.FirstUnder.Set:
		if least, ok := underRat(f.FirstUnder.Value, unit, final); ok && under.Cmp(least) < 0 {
			it.find(Outside, reasonFirstPass, args...)
		}
	case form == limitFull:
		if !underWithin(asked, limitUnit(row), unit, under, final) {
			it.find(Outside, reasonFirstPass, args...)
		}
	default:
		it.note(noteFirstUnder)
	}
}

// underRat is a stated torque, or percentage of the final one, in millionths of
// the unit.
func underRat(q measure.Quantity, unit measure.QuantityUnit, final *big.Rat) (*big.Rat, bool) {
	if q.Kind() == measure.Percentage {
		p := q.Value.Rat()
		return p.Mul(p, final).Quo(p, whole(100)), true
	}
	return quantityRat(q, unit)
}

// underWithin holds how far the first pass is under the final against bounds in
// the unit of the row, a torque or a percentage of the final.
func underWithin(b bounds, row, unit measure.QuantityUnit, under, final *big.Rat) bool {
	v := new(big.Rat)
	switch {
	case row.Kind() != measure.Percentage:
		one, err := measure.NewQuantity(measure.Whole(1), unit).In(row)
		if err != nil {
			return false
		}
		v.Mul(under, one.Rat())
	case final.Sign() > 0:
		v.Quo(v.Mul(under, whole(100*quantityScale)), final)
	}
	return b.margin(v).Sign() >= 0
}

// clicks are counted on the last pass: one for each bolt.
func clicks(f *field.Fasteners, it *Item) {
	switch {
	case !f.Clicks.Set || !f.Count.Set:
		it.find(Missing, reasonNoClicks)
	case f.Clicks.Value != f.Count.Value:
		it.find(Outside, reasonClicks, numberArg("clicks", f.Clicks.Value), numberArg("bolts", f.Count.Value))
	}
}

// tool asks for a listed tool that was in date, and used between a fifth and
// all of its capacity: below, the scale is too coarse (a common rule of
// torquing procedures).
func (w *work) tool(f *field.Fasteners, it *Item) {
	in := w.t.instruments[f.Tool.Value]
	switch {
	case f.Tool.Value == "":
		it.find(Missing, reasonNoTool)
		return
	case in == nil:
		it.find(Missing, reasonToolUnknown, textArg("instrument", f.Tool.Value))
		return
	}
	for _, x := range w.t.instrumentReasons(setHead(f)) {
		it.Findings = append(it.Findings, x)
		it.Verdict = worse(it.Verdict, Outside)
	}
	if !in.Capacity.Set || in.Capacity.Value.Kind() != measure.Torque {
		it.note(noteNoCapacity, textArg("instrument", f.Tool.Value))
		return
	}
	if tol, ok := ToolTolerance(in.Capacity.Value); ok {
		n, _ := quantityRat(tol, measure.Percent)
		it.Results = append(it.Results, scale{KindQuantity, measure.Percent}.result("tooltolerance", n, 0))
	}
	for _, q := range []field.Quantity{f.FirstPass, f.Final} {
		if q.Set && q.Value.Kind() == measure.Torque && !inRange(q.Value, in.Capacity.Value) {
			v, _ := quantityRat(q.Value, q.Value.Unit)
			c, _ := quantityRat(in.Capacity.Value, in.Capacity.Value.Unit)
			it.find(Outside, reasonToolRange, textArg("instrument", f.Tool.Value),
				amountArg("torque", scale{KindQuantity, q.Value.Unit}.amount(v)),
				amountArg("capacity", scale{KindQuantity, in.Capacity.Value.Unit}.amount(c)))
		}
	}
}

// inRange tells whether capacity/5 ≤ q ≤ capacity.
func inRange(q, capacity measure.Quantity) bool {
	v, ok := quantityRat(q, capacity.Unit)
	c, okCapacity := quantityRat(capacity, capacity.Unit)
	if !ok || !okCapacity {
		return false
	}
	return v.Cmp(c) <= 0 && new(big.Rat).Mul(v, whole(5)).Cmp(c) >= 0
}
