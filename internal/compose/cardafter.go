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
// once anything has been moved after them.
func (b *book) voidLine(c towerCell, m correct.Moves) page.Block {
	var list []string
	for _, key := range usedChecks(m) {
		k := c.judged.Check(key)
		if k == nil {
			continue
		}
		if r := used(k); r != nil {
			list = append(list, b.say("card.reading", "check", b.say("check."+key),
				"round", b.say("round."+r.Key), "when", b.readAt(r.Head)))
		}
	}
	return page.Panel{Tone: page.Warn, Blocks: []page.Block{page.Paragraph{Size: cardText + 1, Runs: []page.Run{
		{Text: b.say("card.void") + " ", Face: page.Bold}, {Text: strings.Join(list, "; ") + "."},
	}}}}
}

func (b *book) readAt(h field.Head) string {
	clock := typedTime(h.Finish)
	if clock == "" {
		clock = typedTime(h.Start)
	}
	return b.or(join(" ", typedDay(h.Date), clock), "card.undated")
}

// usedChecks are the checks whose readings the moves follow from.
func usedChecks(m correct.Moves) []string {
	var out []string
	add := func(key string) {
		if !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	for _, x := range m.Moves {
		for _, n := range x.Notes {
			for _, a := range n.Args {
				if n.Key == "correct.hubseat" && a.Name == "check" {
					add(a.Text)
				}
			}
		}
	}
	for _, p := range m.Predictions {
		add(p.Check)
	}
	return out
}

// cautions are the short set for a card.
func (b *book) cautions() []page.Block {
	items := b.steps("card.caution")
	half := (len(items) + 1) / 2
	column := func(items [][]page.Run) []page.Block {
		var out []page.Block
		for _, runs := range items {
			out = append(out, page.Paragraph{Size: cardText, Runs: runs})
		}
		return out
	}
	return []page.Block{page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{column(items[:half]), column(items[half:])}}}
}

// cardAfter is what to expect, what to read again, and boxes for it.
func (b *book) cardAfter(c towerCell, m correct.Moves, d density) []page.Block {
	var expect, again []string
	for _, p := range m.Predictions {
		expect = append(expect, b.say("card.expect", "check", b.say("check."+p.Check),
			"value", b.predicted(p), "verdict", b.say("verdict."+string(p.After))))
	}
	for _, key := range m.Reread {
		again = append(again, b.say("check."+key))
	}
	var out []page.Block
	line := page.Paragraph{Size: cardText}
	if len(again) > 0 {
		line.Runs = append(line.Runs, page.Run{Text: b.say("card.reread", "list", strings.Join(again, ", ")) + " ", Face: page.Bold})
	}
	if len(expect) > 0 {
		line.Runs = append(line.Runs, page.Run{Text: b.say("card.afterwards", "list", strings.Join(expect, "; "))})
	}
	if len(line.Runs) > 0 {
		out = append(out, line)
	}
	if boxes, ok := b.boxes(c, rereadFirst(m), d); ok {
		out = append(out, boxes)
	}
	return out
}

// predicted is the value that will be held against the limit. Values of pitch
// are angles.
func (b *book) predicted(p correct.Prediction) string {
	if p.Check == assess.Pitch || p.Check == assess.PitchSpread {
		return b.setAmount(assess.Amount{Kind: assess.KindAngle, N: int64(p.Value)})
	}
	return b.twice(p.Value)
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
func (b *book) boxes(c towerCell, checks []string, d density) (page.Block, bool) {
	fig := plot.Boxes{Frame: plot.Frame{Width: b.fullWidth()}}
	var said []string
	for _, key := range checks {
		heads := b.boxHeads(key)
		if len(heads) == 0 || !onCard(key, checks, d) {
			continue
		}
		name := b.say("check." + key)
		fig.Rows = append(fig.Rows, plot.BoxRow{Name: name, Heads: heads})
		said = append(said, b.say("card.boxesrow", "check", name, "n", itoa(len(heads))))
	}
	done := []string{b.say("card.done"), b.say("card.date"), b.say("card.time")}
	fig.Rows = append(fig.Rows, plot.BoxRow{Heads: done, Wide: true})
	said = append(said, strings.Join(done, ", "))
	return page.Picture{Figure: fig, Alt: b.say("card.boxesalt", "rows", strings.Join(said, "; "))}, true
}

// onCard tells whether the check has boxes at the density.
func onCard(key string, checks []string, d density) bool {
	switch d {
	case allBoxes:
		return true
	case mainBoxes:
		return slices.Index(checks, key) < 2 || slices.Contains([]string{assess.CouplingGear, assess.CouplingMotor, assess.ShaftEnds}, key)
	case fewBoxes:
		return slices.Index(checks, key) < 2
	}
	return false
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

// mostBoxes is the most boxes of one check.
const mostBoxes = 60

func numbers(n int) []string {
	var out []string
	for i := range min(n, mostBoxes) {
		out = append(out, itoa(i+1))
	}
	return out
}

func (b *book) clockHeads() []string {
	return []string{b.say("card.top"), b.sideName(), b.say("card.bottom"), b.say("card.otherside")}
}
