package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// byPosition is the page of what was read around the cylinder: fan tilt and tip
// clearance side by side.
func (b *book) byPosition(c towerCell) []page.Block {
	return []page.Block{
		b.cellPart(c, "cell.byposition"),
		page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{
			b.checkBlocks(c, assess.Tilt),
			append(b.checkBlocks(c, assess.Clearance), b.derivedBlocks(c, assess.ClearanceAll)...),
		}},
	}
}

// byBlade is the page of what was read blade by blade. Charts of many blades
// take the whole width.
func (b *book) byBlade(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.byblade")}
	track := b.checkBlocks(c, assess.Track)
	tips := b.checkBlocks(c, assess.TipRadius)
	pitch := b.checkBlocks(c, assess.Pitch)
	spread := b.derivedBlocks(c, assess.PitchSpread)
	if b.in.Record.Tower.Blades.Value >= wideFrom {
		for _, part := range [][]page.Block{track, tips, pitch, spread} {
			blocks = append(blocks, part...)
		}
		return blocks
	}
	half := []float64{50, 50}
	return append(blocks,
		page.Columns{Widths: half, Blocks: [][]page.Block{track, tips}},
		page.Columns{Widths: half, Blocks: [][]page.Block{pitch, spread}})
}

// readingPage is every reading of the cell, as it was read.
func (b *book) readingPage(c towerCell) []page.Block {
	ring := b.readingTables(c, true, assess.Tilt, assess.Clearance)
	blade := b.readingTables(c, false, assess.Track, assess.TipRadius, assess.Pitch)
	if len(ring)+len(blade) == 0 {
		return nil
	}
	return append(append([]page.Block{b.cellPart(c, "cell.asread")}, ring...), blade...)
}

// cellPart is the heading of a cell's page.
func (b *book) cellPart(c towerCell, key string) page.Heading {
	return page.Heading{Level: 3, Runs: plain(b.say(key, "cell", b.cellName(c)))}
}

// checkBlocks are a check with its figure, results and notes.
func (b *book) checkBlocks(c towerCell, key string) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	blocks := []page.Block{b.checkHeading(c, k)}
	if len(k.Rounds) == 0 {
		return append(append(blocks, b.unread(k)), b.notes(k)...)
	}
	blocks = append(blocks, b.checkPicture(c, k), b.countLine(c, k))
	blocks = append(blocks, b.resultTable(c, k)...)
	return append(blocks, b.notes(k)...)
}

// derivedBlocks are a check that judges the readings of another one.
func (b *book) derivedBlocks(c towerCell, key string) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	blocks := append([]page.Block{b.checkHeading(c, k)}, b.resultTable(c, k)...)
	return append(blocks, b.notes(k)...)
}

// checkHeading is the check with its verdict, in the outline, too.
func (b *book) checkHeading(c towerCell, k *assess.Check) page.Heading {
	name := b.say("check." + k.Key)
	v := b.verdict(k.Verdict)
	return page.Heading{Level: 4, Anchor: checkAnchor(c.judged.Number, k.Key),
		Runs: []page.Run{{Text: name + ": "}, v}, Bookmark: name + ": " + v.Text}
}

// unread says why there is nothing to show.
func (b *book) unread(k *assess.Check) page.Block {
	if k.Waiver != nil {
		return page.Paragraph{Runs: muted(join(", ", b.text(k.Waiver.Reason), b.text(k.Waiver.By)))}
	}
	return page.Paragraph{Runs: muted(b.say("cell.unread"))}
}

// countLine prints how many readings there are of how many asked for.
func (b *book) countLine(c towerCell, k *assess.Check) page.Paragraph {
	r := k.StandingRound()
	if r == nil {
		return page.Paragraph{Runs: muted(b.say("cell.nostanding")), Keep: true}
	}
	id := data.RoundID(c.judged.Number, k.Key, r.Key)
	runs := []page.Run{{Text: b.say("cell.standing", "round", b.say("round."+r.Key)) + " ", Face: page.Muted},
		b.value(data.Under(id, "found"), strconv.Itoa(r.Found)),
		{Text: " " + b.say("cell.ofword") + " ", Face: page.Muted},
		b.value(data.Under(id, "expected"), strconv.Itoa(r.Expected)),
		{Text: " " + b.say("cell.readingsword"), Face: page.Muted}}
	if r.Blocked > 0 {
		runs = append(runs, page.Run{Text: ", ", Face: page.Muted},
			b.value(data.Under(id, "blocked"), strconv.Itoa(r.Blocked)),
			page.Run{Text: " " + b.say("cell.blockedword"), Face: page.Muted})
	}
	return page.Paragraph{Runs: runs, Keep: true}
}
