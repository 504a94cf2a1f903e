package assess

import (
	"strconv"

	"asleft/internal/field"
)

// itemArg names an item in a code: its code, or where it has none its name.
func itemArg(it *Item) Arg {
	switch {
	case it.Code != "" && it.Code != SetOther:
		return textArg("item", it.Code)
	case it.Name != "":
		return textArg("item", it.Name)
	}
	return textArg("item", it.Key)
}

// newItem starts an item. Its key is the code, or the ordinal where there is
// none, and a repeated code gets a count.
func newItem(items []Item, codeText, name string, at field.Ref) Item {
	key := codeText
	if key == "" {
		key = strconv.Itoa(len(items) + 1)
	}
	n := 1
	for i := range items {
		if items[i].Code == codeText && codeText != "" {
			n++
		}
	}
	if n > 1 {
		key += "-" + strconv.Itoa(n)
	}
	return Item{Key: key, Code: codeText, Name: name, Verdict: Within, At: at}
}

// find enters a finding and the verdict that follows from it.
func (it *Item) find(v Verdict, key string, args ...Arg) {
	it.Verdict = worse(it.Verdict, v)
	it.Findings = append(it.Findings, code(key, append([]Arg{itemArg(it)}, args...)...))
}

func (it *Item) note(key string, args ...Arg) {
	it.Notes = append(it.Notes, code(key, append([]Arg{itemArg(it)}, args...)...))
}

// worse is the verdict of two together.
func worse(a, b Verdict) Verdict {
	if severity(b) > severity(a) {
		return b
	}
	return a
}

func severity(v Verdict) int {
	switch v {
	case Outside:
		return 5
	case Recheck:
		return 4
	case Missing:
		return 3
	case NoLimit:
		return 2
	case NearLimit:
		return 1
	case NotRequired:
		return -1
	}
	return 0
}

// itemRound is the round of a check that is made of items. Its verdict is the
// worst of theirs, those aside that were overtaken only after they were done.
func itemRound(key string, head field.Head, items []Item) Round {
	r := Round{Key: key, Head: head, Items: items, Expected: len(items), Verdict: NotRequired}
	for i := range items {
		it := &items[i]
		own := it.Verdict
		if own == Recheck {
			own = it.Before
		}
		if own != Missing {
			r.Found++
		}
		r.Verdict = worse(r.Verdict, own)
		if it.Deciding != nil && (r.Deciding == nil || it.Margin != nil && (r.Margin == nil || it.Margin.N < r.Margin.N)) {
			r.Deciding, r.Margin = it.Deciding, it.Margin
		}
	}
	return r
}

// onceCheck is a check with one round of items, without any where nothing was
// entered.
func (w *work) onceCheck(key string, items []Item) Check {
	c := Check{Key: key, Standing: -1}
	w.t.ruling(&c)
	if len(items) == 0 {
		return c
	}
	c.Rounds, c.Standing = []Round{itemRound(field.AsLeft, field.Head{}, items)}, 0
	return c
}

// setAside marks an item that an event has overtaken, or may have.
func (w *work) setAside(it *Item, head field.Head, keys ...string) {
	for _, m := range w.moves() {
		if !w.t.overtakesAny(m.Event.Value, keys...) {
			continue
		}
		o := w.t.orderTo(head, m)
		if o == later {
			continue
		}
		it.Overtaken = append(it.Overtaken, Overtaking{Event: m.Event.Value, Move: m, Shown: o == overtaken})
		if o == overtaken {
			it.recheck()
		}
	}
	for i := len(it.Overtaken) - 1; i >= 0; i-- {
		if o := it.Overtaken[i]; o.Shown {
			it.Findings = append(it.Findings, code(reasonItemRecheck, itemArg(it),
				textArg("event", o.Event), textArg("date", dateText(o.Move.Date))))
			return
		}
	}
}

// recheck sets the verdict of an item aside; the first cause keeps what it was.
func (it *Item) recheck() {
	if it.Verdict != Recheck {
		it.Before, it.Verdict = it.Verdict, Recheck
	}
}

// itemReasons are the findings of the standing round. A value that was accepted
// as a deviation is no reason any more, what else is found on its item is.
func itemReasons(c *Check) []Code {
	var out []Code
	r := c.StandingRound()
	for i := range r.Items {
		it := &r.Items[i]
		for _, f := range it.Findings {
			accepted := c.Deviation != nil && it.Deciding != nil && *it.Deciding == *r.Deciding
			if !accepted || f.Key != reasonItemOutside && f.Key != reasonFinalTorque {
				out = append(out, f)
			}
		}
	}
	return out
}

// carryItems sets the check aside where one of its items is.
func (c *Check) carryItems() {
	for i := range c.StandingRound().Items {
		if c.StandingRound().Items[i].Verdict == Recheck {
			c.recheck()
			return
		}
	}
}

// itemQuestions asks about events of the same day whose order is not shown.
func itemQuestions(out *Cell, c *Check) {
	r := c.StandingRound()
	if r == nil || c.waived() {
		return
	}
	for i := range r.Items {
		it := &r.Items[i]
		for _, o := range it.Overtaken {
			if !o.Shown {
				out.ask(questionItemOrder, textArg("check", c.Key), itemArg(it),
					textArg("event", o.Event), textArg("date", dateText(o.Move.Date)))
			}
		}
	}
}
