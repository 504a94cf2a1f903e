package assess

import (
	"asleft/internal/field"
)

// pinCheck judges the dowel pins of each place: as many as asked for, standing
// out above and below by the same length, and set after the last alignment.
func (w *work) pinCheck() Check {
	var items []Item
	for i := range w.cell.Pins {
		p := &w.cell.Pins[i]
		it := newItem(items, pinCode(p), "", p.At)
		w.judgePins(p, &it)
		items = append(items, it)
	}
	return w.onceCheck(DowelPins, items)
}

// pinCode is the place under the name that words are kept by.
func pinCode(p *field.Pins) string {
	if p.Where.Value == "" {
		return ""
	}
	return "dowel." + p.Where.Value
}

func pinHead(p *field.Pins) field.Head {
	return field.Head{Date: p.Date, Start: p.Time, Sequence: p.Sequence, ReadBy: p.By}
}

func (w *work) judgePins(p *field.Pins, it *Item) {
	switch {
	case !p.Required.Set:
		it.find(Missing, reasonPinsBlank)
		return
	case !p.Required.Value:
		it.Verdict = NotRequired
		return
	}
	switch {
	case !p.Count.Set || !p.Found.Set:
		it.find(Missing, reasonPinsCount)
	case p.Count.Value != p.Found.Value:
		it.find(Outside, reasonPins, numberArg("found", p.Found.Value), numberArg("pins", p.Count.Value))
	}
	w.projection(p, it)
	if !p.Date.Set {
		it.find(Missing, reasonItemDate)
	}
	w.setAside(it, pinHead(p), DowelPins)
	w.afterAlignment(p, it)
}

// projection holds above less below against the limit.
func (w *work) projection(p *field.Pins, it *Item) {
	if !p.Above.Set || !p.Below.Set {
		it.find(Missing, reasonPinsProjection)
		return
	}
	difference := int64(p.Above.Value) - int64(p.Below.Value)
	it.Deciding = &Amount{Kind: KindLength, N: difference}
	win, _, form := readLimit(DowelPins, w.t.limits[DowelPins])
	if form != limitFull {
		it.find(NoLimit, reasonItemLimit)
		return
	}
	m := Amount{Kind: KindLength, N: win.margin(difference)}
	it.Margin = &m
	if m.N < 0 {
		it.find(Outside, reasonItemOutside, amountArg("value", *it.Deciding), amountArg("over", Amount{Kind: KindLength, N: -m.N}))
	}
}

// afterAlignment asks that the pins were set after the drive shaft was last
// read: a pin holds what it finds.
func (w *work) afterAlignment(p *field.Pins, it *Item) {
	if o, read := w.alignmentOrder(p); o == overtaken {
		it.find(it.Verdict, reasonPinsAlignment, textArg("date", dateText(read)))
		it.recheck()
	}
}

// alignmentOrder compares pins with the standing readings of the drive shaft;
// one that is later, or not shown to be earlier, decides.
func (w *work) alignmentOrder(p *field.Pins) (order, field.Date) {
	worst, day := later, field.Date{}
	if w.t.driveLine != lineJudged {
		return worst, day
	}
	for _, key := range []string{CouplingGear, CouplingMotor} {
		s := standingSeries(w.drive[key])
		if s == nil || !s.head.Date.Set {
			continue
		}
		read := field.Move{Date: s.head.Date, Time: s.head.Finish, Sequence: s.head.Sequence}
		if !read.Time.Set {
			read.Time = s.head.Start
		}
		switch o := orderOf(pinHead(p), read); {
		case o == overtaken:
			return overtaken, s.head.Date
		case o == notShown:
			worst, day = notShown, s.head.Date
		}
	}
	return worst, day
}

// pinQuestions asks about pins of the day of the alignment whose order is not
// shown.
func (w *work) pinQuestions(out *Cell) {
	c := out.Check(DowelPins)
	if c == nil || c.waived() || c.StandingRound() == nil {
		return
	}
	for i := range w.cell.Pins {
		p := &w.cell.Pins[i]
		if o, read := w.alignmentOrder(p); o == notShown && p.Required.Value {
			out.ask(questionPinsOrder, itemArg(&c.StandingRound().Items[i]), textArg("date", dateText(read)))
		}
	}
}
