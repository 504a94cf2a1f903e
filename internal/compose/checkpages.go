package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// fewRounds is the number of rounds whose results fit in half the width.
const fewRounds = 2

// byPosition is the page of what was read around the cylinder: fan tilt and tip
// clearance side by side.
func (b *book) byPosition(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.byposition")}
	return append(blocks, b.pair(c, assess.Tilt, assess.Clearance, assess.ClearanceAll)...)
}

// byBlade is the page of what was read blade by blade.
func (b *book) byBlade(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.byblade")}
	blocks = append(blocks, b.pair(c, assess.Track, assess.TipRadius)...)
	pitch := c.judged.Check(assess.Pitch)
	if pitch == nil {
		return blocks
	}
	words := append(b.checkWords(c, pitch), b.derivedBlocks(c, assess.PitchSpread, pitch)...)
	if b.wide(c, assess.Pitch) {
		return append(append(blocks, b.checkFigure(c, pitch)...), words...)
	}
	return append(blocks, halves(b.checkFigure(c, pitch), words))
}

// pair puts two checks side by side, their figures and then their words, so
// that the page can break between; what is too wide for that stands one below
// the other. The checks that judge the readings of the second one follow it.
func (b *book) pair(c towerCell, left, right string, also ...string) []page.Block {
	l, r := c.judged.Check(left), c.judged.Check(right)
	if l == nil || r == nil {
		return nil
	}
	figures := [][]page.Block{b.checkFigure(c, l), b.checkFigure(c, r)}
	words := [][]page.Block{b.checkWords(c, l), b.checkWords(c, r)}
	for _, key := range also {
		words[1] = append(words[1], b.derivedBlocks(c, key, r)...)
	}
	switch {
	case !b.wide(c, left) && !b.wide(c, right):
		return []page.Block{halves(figures...), halves(words...)}
	case b.barWidth(l) == b.halfWidth() && b.barWidth(r) == b.halfWidth() || byPosition(left):
		return append([]page.Block{halves(figures...)}, slices.Concat(words...)...)
	}
	return slices.Concat(figures[0], words[0], figures[1], words[1])
}

// halves puts columns of the same width side by side.
func halves(columns ...[]page.Block) page.Columns {
	return page.Columns{Widths: []float64{50, 50}, Blocks: columns}
}

// wide tells whether a check needs the whole width: for its chart, or for the
// results of its rounds.
func (b *book) wide(c towerCell, key string) bool {
	k := c.judged.Check(key)
	return len(k.Rounds) > fewRounds || !byPosition(key) && b.barWidth(k) > b.halfWidth()
}

// readingPage is every reading of the cell, as it was read.
func (b *book) readingPage(c towerCell) []page.Block {
	ring := b.readingTables(c, true, assess.Tilt, assess.Clearance)
	blade := b.readingTables(c, false, assess.Track, assess.TipRadius, assess.Pitch)
	if len(ring)+len(blade) == 0 {
		return nil
	}
	head := []page.Block{b.cellPart(c, "cell.asread")}
	if len(ring) == 1 && len(blade) == 1 && narrow(ring[0]) && narrow(blade[0]) {
		return append(head, halves(ring, blade))
	}
	return append(append(head, ring...), blade...)
}

// narrowColumns is how many columns of readings half the width has room for.
const narrowColumns = 6

func narrow(bl page.Block) bool {
	t, ok := bl.(page.Table)
	return ok && len(t.Columns) <= narrowColumns
}

// cellPart is the heading of a cell's page.
func (b *book) cellPart(c towerCell, key string) page.Heading {
	return page.Heading{Level: 3, Runs: plain(b.say(key, "cell", b.cellName(c)))}
}

// checkFigure is what is to be seen of a check: its verdict, its figure, how
// many readings.
func (b *book) checkFigure(c towerCell, k *assess.Check) []page.Block {
	if len(k.Rounds) == 0 {
		return []page.Block{b.checkHeading(c, k), b.unread(k)}
	}
	picture := b.pictureAhead(c, k)
	picture.Keep = true
	return []page.Block{b.checkHeading(c, k), b.limitLine(k, ""), picture, b.countLine(c, k)}
}

// checkWords are the results and notes of a check.
func (b *book) checkWords(c towerCell, k *assess.Check) []page.Block {
	return append(b.resultTable(c, k), b.notes(k)...)
}

// derivedBlocks are a check that judges the readings of another one.
func (b *book) derivedBlocks(c towerCell, key string, base *assess.Check) []page.Block {
	k := c.judged.Check(key)
	if k == nil {
		return nil
	}
	blocks := append([]page.Block{b.checkHeading(c, k), b.limitLine(k, "")}, b.resultTable(c, k)...)
	return append(blocks, b.extraNotes(k, base)...)
}

// checkHeading is the check with its verdict, in the outline, too.
func (b *book) checkHeading(c towerCell, k *assess.Check) page.Heading {
	name := b.say("check." + k.Key)
	v := b.verdict(c.told(k))
	return page.Heading{Level: 4, Anchor: b.checkAnchor(c.judged.Number, k.Key),
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
		return page.Paragraph{Runs: muted(b.say("cell.nostanding")), Size: smallSize, Keep: true}
	}
	id := data.RoundID(c.judged.Number, k.Key, r.Key)
	runs := []page.Run{{Text: b.say("cell.standing", "round", b.say("round."+r.Key)) + " ", Face: page.Muted},
		b.found(id, r.Found, r.Expected),
		{Text: " " + b.say("cell.readingsword"), Face: page.Muted}}
	if r.Blocked > 0 {
		runs = append(runs, page.Run{Text: ", ", Face: page.Muted},
			b.value(data.Under(id, "blocked"), strconv.Itoa(r.Blocked)),
			page.Run{Text: " " + b.say("cell.blockedword"), Face: page.Muted})
	}
	for _, part := range b.howRead(c, k.Key) {
		runs = append(append(runs, page.Run{Text: "; ", Face: page.Muted}), part...)
	}
	return page.Paragraph{Runs: runs, Size: smallSize, Keep: true}
}
