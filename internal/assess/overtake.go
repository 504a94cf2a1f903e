package assess

import (
	"cmp"
	"reflect"
	"slices"

	"asleft/internal/field"
)

// order is how a reading stands to an event of the move log.
type order int

const (
	notShown  order = iota // the record does not say
	later                  // the reading was taken strictly later
	overtaken              // it was not
)

// orderOf compares a round's head with an event. Different days decide. On one
// day sequence numbers and times of day do; where they are missing, equal, or
// contradict each other, the order is not shown.
func orderOf(h field.Head, m field.Move) order {
	if !h.Date.Set || !m.Date.Set {
		return notShown
	}
	switch d := h.Date.Value.Compare(m.Date.Value); {
	case d > 0:
		return later
	case d < 0:
		return overtaken
	}
	bySequence, byTime := sequenceOrder(h.Sequence, m.Sequence), timeOrder(h, m.Time)
	switch {
	case bySequence == notShown:
		return byTime
	case byTime != notShown && byTime != bySequence:
		return notShown
	}
	return bySequence
}

func sequenceOrder(reading, event field.Count) order {
	switch {
	case !reading.Set || !event.Set || reading.Value == event.Value:
		return notShown
	case reading.Value > event.Value:
		return later
	}
	return overtaken
}

// timeOrder asks that the round was started after the event. A finish before
// the event is enough to show the opposite.
func timeOrder(h field.Head, event field.Clock) order {
	switch {
	case !event.Set:
		return notShown
	case h.Start.Set && h.Start.Value > event.Value:
		return later
	case h.Start.Set && h.Start.Value < event.Value, h.Finish.Set && h.Finish.Value < event.Value:
		return overtaken
	}
	return notShown
}

// overtake lists the events that make the standing round void, or may, and
// sets its verdict aside if one does.
func (w *work) overtake(c *Check) {
	if slices.Contains(OnceChecks(), c.Key) {
		return // each item has its own date
	}
	head := c.StandingRound().Head
	for _, m := range w.moves() {
		w.overtakeBy(c, c.Key, head, m)
	}
	switch c.Key {
	case ClearanceAll:
		w.overtakeTips(c)
		fallthrough
	case Clearance:
		if m, changed := w.longestChange(); changed {
			w.overtakeBy(c, c.Key, head, m)
		}
	}
}

// overtakeBy enters the event if the rules say that it overtakes the check and
// the reading is not shown to be later.
func (w *work) overtakeBy(c *Check, check string, head field.Head, m field.Move) {
	if !w.t.overtakesAny(m.Event.Value, check) || !w.concerns(m, check) {
		return
	}
	o := w.t.orderTo(head, m)
	if o == later || slices.ContainsFunc(c.Overtaken, func(x Overtaking) bool { return reflect.DeepEqual(x.Move, m) }) {
		return
	}
	c.Overtaken = append(c.Overtaken, Overtaking{Event: m.Event.Value, Move: m, Shown: o == overtaken})
	if o == overtaken {
		c.recheck()
	}
}

// Events that overtake under a condition of their own.
const (
	eventCylinder   = "cylinder.adjust"
	eventInstrument = "instrument.out"
)

// referenceCylinder is the code of a tilt that was read from the cylinder.
const referenceCylinder = "cylinder"

// concerns tells whether an event that overtakes a check does so in this cell:
// the cylinder is nothing to a tilt that was read from the deck.
func (w *work) concerns(m field.Move, check string) bool {
	return m.Event.Value != eventCylinder || check != Tilt || w.cell.Tilt.Reference.Value == referenceCylinder
}

// orderTo is how a reading stands to an event. An instrument that was found out
// takes with it what was read with it since it was last known to be good, and
// nothing else.
func (t *tower) orderTo(h field.Head, m field.Move) order {
	o := orderOf(h, m)
	if m.Event.Value != eventInstrument || o == later {
		return o
	}
	if h.Instrument.Value == "" || h.Instrument.Value != m.Instrument.Value {
		return later
	}
	good := m.LastGood
	if in := t.instruments[m.Instrument.Value]; !good.Set && in != nil && m.Date.Set && in.Calibrated.Value.Compare(m.Date.Value) <= 0 {
		good = in.Calibrated
	}
	if !good.Set || !h.Date.Set {
		return o
	}
	switch d := h.Date.Value.Compare(good.Value); {
	case d < 0:
		return later
	case d == 0:
		return notShown
	}
	return o
}

// overtakeTips holds what overtakes the tip radius against the gaps of all
// blades, which are made from it.
func (w *work) overtakeTips(c *Check) {
	tips := sameState(w.tips, c.StandingRound().Key, true)
	if tips == nil {
		return
	}
	for _, m := range w.moves() {
		w.overtakeBy(c, TipRadius, tips.head, m)
	}
}

// moves are the rows of the move log and the torque of the blade clamps, in the
// order of the days, not of the sheet.
func (w *work) moves() []field.Move { return w.log }

func compareMoves(a, b field.Move) int {
	return cmp.Or(
		a.Date.Value.Compare(b.Date.Value),
		cmp.Compare(a.Sequence.Value, b.Sequence.Value),
		cmp.Compare(a.Time.Value, b.Time.Value),
		cmp.Compare(a.Event.Value, b.Event.Value),
		cmp.Compare(a.At.File, b.At.File),
		cmp.Compare(a.At.String(), b.At.String()),
	)
}

// EventLongest is the event that nobody logs: the tip radius, read again, names
// another longest blade than the one whose clearance was read.
const EventLongest = "longest.change"

// longestChange finds that event: the blade carried round was the longest by
// another reading of the tip radius, and is not by the standing one.
func (w *work) longestChange() (field.Move, bool) {
	clear, tips := standingSeries(w.clear), standingSeries(w.tips)
	if clear == nil || tips == nil || clear.blade == 0 || w.t.isLongest(tips, clear.blade) {
		return field.Move{}, false
	}
	for i := range w.tips {
		if w.t.isLongest(&w.tips[i], clear.blade) {
			m := field.Move{
				Sequence: tips.head.Sequence, Date: tips.head.Date, Time: tips.head.Start, At: tips.at,
			}
			m.Event.Value, m.Event.Set = EventLongest, true
			return m, true
		}
	}
	return field.Move{}, false
}

// longest are the blades with the smallest tip-radius gap of a round, nil where
// nothing was read.
func (t *tower) longest(tips *series) []reading {
	found := tips.found()
	e, ok := findExtremes(found)
	if !ok {
		return nil
	}
	return longestBlades(found, e, t.step(TipRadius, tips.head))
}

func (t *tower) isLongest(tips *series, blade int) bool {
	return slices.ContainsFunc(t.longest(tips), func(x reading) bool { return x.index == blade })
}
