package compose

import (
	"fmt"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// tiles is one small panel per cell, each a link to its pages.
func (b *book) tiles() page.Block {
	all := b.allCells()
	out := page.Tiles{PerRow: tilesPerRow}
	if b.many() {
		out.PerRow = tilesPerRowBig
	}
	for _, c := range all {
		out.Tiles = append(out.Tiles, b.tile(c))
	}
	return out
}

func (b *book) tile(c towerCell) page.Tile {
	t := page.Tile{Head: bold(b.cellName(c))}
	if b.many() || b.shortTiles {
		t.Head = bold(b.say("cell.number", "number", strconv.Itoa(c.judged.Number)))
	}
	if !c.present {
		t.Tone = page.Quiet
		t.Lines = [][]page.Run{muted(b.say("cell.absent"))}
		return t
	}
	t.Tone = stateTone(c.state())
	t.Link = cellAnchor(c.judged.Number)
	state := []page.Run{b.state(c.state())}
	var counts [][]page.Run
	for _, line := range b.tallyLines(c) {
		counts = append(counts, []page.Run{line})
	}
	if b.many() { // the first line is set large, and the counts are shorter
		t.Lines = append(counts, state)
		return t
	}
	found, expected := b.readings(c.judged)
	t.Lines = append(append(t.Lines, state), b.tallyRuns(c))
	last := b.say("cell.readings", "found", strconv.Itoa(found), "expected", strconv.Itoa(expected))
	if c.state() == waits {
		last = join("; ", last, b.say("cell.waitsshort"))
	}
	t.Lines = append(t.Lines, muted(last))
	return t
}

// tallyLines are the verdicts of a cell with their numbers, what needs
// attention first; "within" only where nothing does.
func (b *book) tallyLines(c towerCell) []page.Run { return b.tallyOf(c.tally()) }

func (b *book) tallyOf(n map[assess.Verdict]int) []page.Run {
	var out []page.Run
	for _, v := range []assess.Verdict{assess.Outside, assess.Recheck, assess.Missing, assess.NoLimit, accepted, assess.NearLimit} {
		if n[v] > 0 {
			run := b.verdict(v)
			run.Text = fmt.Sprintf("%d %s", n[v], run.Text)
			if !b.many() {
				run.Text = unbroken(run.Text)
			}
			run.Face = page.Regular
			out = append(out, run)
		}
	}
	if len(out) == 0 {
		run := b.verdict(assess.Within)
		run.Text = fmt.Sprintf("%d %s", n[assess.Within], run.Text)
		out = append(out, run)
	}
	return out
}
