package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// byPosition is the page of what was read around the cylinder: fan tilt and tip
// clearance side by side, and their readings in one table.
func (b *book) byPosition(c towerCell) []page.Block {
	blocks := []page.Block{
		b.cellPart(c, "cell.byposition"),
		page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{
			b.ringCheck(c, assess.Tilt),
			b.ringCheck(c, assess.Clearance, assess.ClearanceAll),
		}},
	}
	return append(blocks, b.readingTables(c, true, assess.Tilt, assess.Clearance)...)
}

// byBlade is the page of what was read blade by blade.
func (b *book) byBlade(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.byblade")}
	track := b.bladeCheck(c, assess.Track)
	tips := b.bladeCheck(c, assess.TipRadius)
	pitch := b.bladeCheck(c, assess.Pitch, assess.PitchSpread)
	tables := b.readingTables(c, false, assess.Track, assess.TipRadius, assess.Pitch)
	if b.in.Record.Tower.Blades.Value >= wideFrom {
		blocks = append(blocks, track...)
		blocks = append(blocks, tips...)
		blocks = append(blocks, pitch...)
		return append(blocks, tables...)
	}
	half := []float64{50, 50}
	return append(append(blocks,
		page.Columns{Widths: half, Blocks: [][]page.Block{track, tips}},
		page.Columns{Widths: half, Blocks: [][]page.Block{pitch, nil}},
	), tables...)
}

// cellPart is the heading of a cell's page.
func (b *book) cellPart(c towerCell, key string) page.Heading {
	return page.Heading{Level: 3, Runs: plain(b.say(key, "cell", b.cellName(c)))}
}

// ringCheck and bladeCheck are one check with its figure, results and notes, and
// the checks that judge the same readings in another way.
func (b *book) ringCheck(c towerCell, key string, also ...string) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	picture := b.tiltPicture
	if key == assess.Clearance {
		picture = b.clearancePicture
	}
	return b.checkBlocks(c, k, picture, also)
}

func (b *book) bladeCheck(c towerCell, key string, also ...string) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	return b.checkBlocks(c, k, b.barPicture, also)
}

func (b *book) checkBlocks(c towerCell, k *assess.Check,
	picture func(towerCell, *assess.Check) page.Picture, also []string) []page.Block {
	blocks := []page.Block{b.checkHeading(c, k)}
	if len(k.Rounds) == 0 {
		return append(append(blocks, b.unread(k)), b.notes(k)...)
	}
	blocks = append(blocks, picture(c, k), b.countLine(c, k))
	blocks = append(blocks, b.resultTable(c, k)...)
	blocks = append(blocks, b.notes(k)...)
	for _, key := range also {
		if other := c.judged.Check(key); other != nil {
			blocks = append(blocks, b.checkHeading(c, other))
			blocks = append(blocks, b.resultTable(c, other)...)
			blocks = append(blocks, b.notes(other)...)
		}
	}
	return blocks
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
