package compose

import (
	"slices"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// voidLine names the readings that the card was made from: it is waste paper
// once anything has been moved after them. Readings of one time stand together.
func (b *book) voidLine(c towerCell, m correct.Moves) page.Block {
	var times []string
	checks := map[string][]string{}
	for _, key := range usedChecks(m) {
		k := c.judged.Check(key)
		if k == nil || used(k) == nil {
			continue
		}
		r := used(k)
		when := b.say("card.reading", "round", b.say("round."+r.Key), "when", b.readAt(r.Head))
		if len(checks[when]) == 0 {
			times = append(times, when)
		}
		checks[when] = append(checks[when], b.say("check."+key))
	}
	var list []string
	for _, when := range times {
		list = append(list, strings.Join(checks[when], ", ")+" "+when)
	}
	return page.Panel{Tone: page.Warn, Blocks: []page.Block{page.Paragraph{Size: cardText, Runs: []page.Run{
		{Text: b.say("card.void") + " ", Face: page.Bold}, {Text: strings.Join(list, "; ") + ".", Face: page.Bold},
	}}}}
}

func (b *book) readAt(h field.Head) string {
	clock := b.typedTime(h.Finish)
	if clock == "" {
		clock = b.typedTime(h.Start)
	}
	return b.or(join(" ", b.typedDay(h.Date), clock), "card.undated")
}

// usedChecks are the checks whose readings the moves follow from. Couplings count
// where the motor moves; else they are only foretold.
func usedChecks(m correct.Moves) []string {
	var out []string
	add := func(key string) {
		if !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	motor := false
	for _, x := range m.Moves {
		motor = motor || strings.HasPrefix(x.Event, "motor.")
		for _, n := range x.Notes {
			for _, a := range n.Args {
				if n.Key == "correct.hubseat" && a.Name == "check" {
					add(a.Text)
				}
			}
		}
	}
	for _, p := range m.Predictions {
		if motor || !coupling(p.Check) {
			add(p.Check)
		}
	}
	return out
}

func coupling(check string) bool {
	return check == assess.CouplingGear || check == assess.CouplingMotor
}

// cautions are the short set for a card, in two columns; those that nobody of the
// trade has reviewed beside the English.
func (b *book) cautions() page.Block {
	items := b.steps("card.caution")
	column := func(items [][]page.Run) []page.Block {
		var p page.Paragraph
		p.Size = cardText
		for i, runs := range items {
			runs[0].Break = i > 0
			runs[0].Text += " "
			p.Runs = append(p.Runs, runs...)
		}
		return []page.Block{p}
	}
	if b.in.Beside != nil {
		e := b.beside()
		return halves(column(items), e.foreign(column(e.steps("card.caution"))))
	}
	half := len(items) / 2
	return page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{column(items[:half]), column(items[half:])}}
}

// cardAfter is what to expect, what to read again, and boxes for it.
func (b *book) cardAfter(m correct.Moves, d density, whole bool) []page.Block {
	var expect, again []string
	for _, p := range m.Predictions {
		if whole && foretold(m, p) {
			expect = append(expect, b.say("card.expect."+p.Check, "check", b.say("check."+p.Check), "value", b.predicted(p)))
		}
	}
	for _, key := range m.Reread {
		again = append(again, b.say("check."+key))
	}
	line := page.Paragraph{Size: cardText}
	if len(again) > 0 {
		line.Runs = append(line.Runs, page.Run{Text: b.say("card.reread") + " ", Face: page.Bold},
			page.Run{Text: strings.Join(again, "; ") + "."})
	}
	if len(expect) > 0 {
		line.Runs = append(line.Runs, page.Run{Text: " " + b.say("card.afterwards") + " ", Face: page.Bold},
			page.Run{Text: strings.Join(expect, "; ") + "."})
	}
	if d < oneRow {
		line.Runs = append(line.Runs, page.Run{Text: " " + b.say("card.againnote")})
	}
	return []page.Block{line, b.boxes(rereadFirst(m), d)}
}

// foretold tells whether the crew is told what to expect: of what the moves are
// for, and not of gaps where the wall moves, too.
func foretold(m correct.Moves, p correct.Prediction) bool {
	for _, x := range m.Moves {
		if x.Kind == correct.KindWall && p.Check == assess.Clearance {
			return false
		}
	}
	return slices.Contains(usedChecks(m), p.Check)
}

// predicted is the value that will be held against the limit.
func (b *book) predicted(p correct.Prediction) string {
	a := assess.Amount{Kind: p.Kind, N: int64(p.Value)}
	switch p.Kind {
	case assess.KindLength:
		return b.twice(p.Value)
	case assess.KindSlope:
		return b.amount(a)
	}
	return b.setAmount(a)
}

// rereadFirst are the checks to be read again, those that the moves are for
// first.
func rereadFirst(m correct.Moves) []string {
	var out []string
	for _, p := range m.Predictions {
		if slices.Contains(m.Reread, p.Check) && !slices.Contains(out, p.Check) {
			out = append(out, p.Check)
		}
	}
	for _, key := range m.Reread {
		if !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	return out
}

// boxes are boxes to write the new readings of the checks in, as many as the
// density leaves, and who moved what, when.
func (b *book) boxes(checks []string, d density) page.Block {
	fig := plot.Boxes{Frame: plot.Frame{Width: b.fullWidth()}}
	var said []string
	for i, key := range checks {
		heads := b.boxHeads(key)
		if len(heads) == 0 || !onCard(key, i, d) {
			continue
		}
		name := b.say("check." + key)
		fig.Rows = append(fig.Rows, plot.BoxRow{Name: name, Heads: heads})
		said = append(said, b.say("card.boxesrow", "check", name, "n", itoa(len(heads))))
	}
	done := []string{b.say("card.done"), b.say("card.date"), b.say("card.time")}
	fig.Rows = append(fig.Rows, plot.BoxRow{Heads: done, Wide: true})
	said = append(said, strings.Join(done, ", "))
	return page.Picture{Figure: fig, Alt: b.say("card.boxesalt", "rows", strings.Join(said, "; "))}
}

// onCard tells whether the check at a place of the list has boxes at the density.
func onCard(key string, place int, d density) bool {
	switch d {
	case allBoxes:
		return true
	case mainBoxes:
		return place < 2 || coupling(key) || key == assess.ShaftEnds
	case fewBoxes:
		return place < 2 || coupling(key)
	case leastBoxes:
		return place < 2
	}
	return place < 1 // oneRow and beyond
}

// boxHeads are the words over the boxes of a check, the return reading last;
// none where it has no readings of its own.
func (b *book) boxHeads(key string) []string {
	again := b.say("card.again")
	switch key {
	case assess.Tilt, assess.Clearance:
		var out []string
		for _, p := range b.in.Record.Tower.Positions {
			out = append(out, itoa(p.Number))
		}
		return append(out, again)
	case assess.Track, assess.TipRadius, assess.Pitch:
		return append(numbers(b.in.Record.Tower.Blades.Value), again)
	case assess.CouplingGear, assess.CouplingMotor:
		return append(b.clockHeads(), again)
	case assess.GuardAround:
		return b.clockHeads()
	case assess.ShaftEnds, assess.GuardEnd:
		return numbers(1)
	case assess.GearLevel, assess.MotorLevel:
		return []string{b.say("card.levelalong"), b.say("card.levelacross")}
	case assess.SoftFootGear:
		return numbers(len(b.in.Record.Tower.Geometry.Feet))
	case assess.SoftFootMotor:
		const motorFeet = 4
		return numbers(motorFeet)
	}
	return nil
}

const (
	mostBoxes   = 60 // of one check
	longestHead = 6  // letters over a box
)

func numbers(n int) []string {
	var out []string
	for i := range min(n, mostBoxes) {
		out = append(out, itoa(i+1))
	}
	return out
}

func (b *book) clockHeads() []string {
	side := b.sideName()
	if len(side) > longestHead {
		side = b.say("sideword.unnamed")
	}
	return []string{b.say("card.top"), side, b.say("card.bottom"), b.say("card.otherside")}
}
