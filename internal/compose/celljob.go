package compose

import (
	"asleft/internal/page"
)

// wholeJob is all of a cell, in the order of the work: how it stands, bases,
// drive line, fan, what was bolted, the start-up.
func (b *book) wholeJob(c towerCell) []page.Block {
	blocks := append(b.cellSummary(c), b.basesPage(c)...)
	blocks = append(blocks, b.drivePage(c)...)
	blocks = append(blocks, b.readingPage(c)...) // what may be parted fills the page before figures
	blocks = append(blocks, b.byBlade(c)...)     // and what is lower
	blocks = append(blocks, b.byPosition(c)...)
	blocks = append(blocks, b.fastenersPage(c)...)
	blocks = append(blocks, b.startUpPage(c)...)
	return append(blocks, b.cellPhotos(c)...)
}

// milestones are how far the cell is.
func (b *book) milestones(c towerCell) []page.Block {
	runs := bold(b.say("cell.milestones") + "  ")
	for _, m := range []struct {
		key    string
		passed bool
	}{
		{"cell.mechanical", c.judged.Mechanical}, {"cell.started", c.judged.Started}, {"cell.afterrun", c.judged.AfterRun},
	} {
		run := page.Run{Text: b.say(m.key+".no") + "   ", Mark: page.MarkNotAsked}
		if m.passed {
			run = page.Run{Text: b.say(m.key+".yes") + "   ", Mark: page.MarkWithin}
		}
		runs = append(runs, run)
	}
	return []page.Block{page.Paragraph{Runs: runs}}
}

// due are the jobs that come after the first run and the first water.
func (b *book) due(c towerCell) []page.Block {
	if len(c.judged.Due) == 0 {
		return nil
	}
	blocks := []page.Block{b.h3("cell.due")}
	for i, d := range c.judged.Due {
		blocks = append(blocks, page.Paragraph{Runs: []page.Run{{Text: b.codeText(d), Mark: page.MarkBox}}, Size: smallSize,
			Keep: i+1 < len(c.judged.Due)})
	}
	return blocks
}
