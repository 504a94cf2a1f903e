package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// summary is the matrix of cells and checks, the figures of all cells, and every
// reason.
func (b *book) summary() []page.Block {
	blocks := []page.Block{b.h2("summary.title", ""), b.legend()}
	blocks = append(blocks, b.wholeMatrix()...)
	return append(append(blocks, b.multiples()...), b.allReasons()...)
}

// legend says how to read the matrix: what every mark in this package means.
func (b *book) legend() page.Block {
	runs := plain(b.say("summary.intro"))
	for _, v := range b.verdictsHere() {
		run := b.verdict(v)
		run.Face = page.Regular
		run.Text += ": "
		runs = append(runs, page.Run{Text: "  "}, run, page.Run{Text: b.say("meaning."+string(v)) + ".", Face: page.Muted})
	}
	return page.Paragraph{Runs: runs, Size: smallSize}
}

// verdictsHere are the verdicts that the checks of the cells or one of their
// rounds have.
func (b *book) verdictsHere() []assess.Verdict {
	here := map[assess.Verdict]bool{}
	for _, c := range b.cells() {
		for i := range c.judged.Checks {
			k := &c.judged.Checks[i]
			here[c.told(k)] = true
			for j := range k.Rounds {
				here[k.Rounds[j].Verdict] = true
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(verdicts), func(v assess.Verdict) bool { return !here[v] })
}

// allReasons is the numbered list, with the numbers of the first page.
func (b *book) allReasons() []page.Block {
	head := page.Heading{Level: 3, Runs: plain(b.say("summary.reasons")), Anchor: anchorReasons}
	groups := b.reasonGroups()
	if len(groups) == 0 {
		head.Runs = plain(b.say("summary.clear"))
		return []page.Block{head, b.para("summary.noreasons")}
	}
	list := page.List{Numbered: true}
	for _, g := range groups {
		list.Items = append(list.Items, b.groupRuns(g))
	}
	return []page.Block{head, list}
}
