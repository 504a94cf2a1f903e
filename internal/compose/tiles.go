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
	if b.many() { // the first line is set large, and the worst count is shorter than the state
		counts := b.tallyOf(c.tally(), b.shortWord)
		t.Lines = append(t.Lines, counts[:1])
		if len(counts) > 1 {
			t.Lines = append(t.Lines, apart(counts[1:]))
		}
		t.Lines = append(t.Lines, state)
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
func (b *book) tallyLines(c towerCell) []page.Run { return b.tallyOf(c.tally(), b.word) }

// tallyOf counts verdicts, each in the words it is given.
func (b *book) tallyOf(n map[assess.Verdict]int, word func(assess.Verdict) string) []page.Run {
	var out []page.Run
	for _, v := range []assess.Verdict{assess.Outside, assess.Recheck, assess.Missing, assess.NoLimit, accepted, assess.NearLimit} {
		if n[v] > 0 {
			out = append(out, b.tallyRun(n[v], v, word))
		}
	}
	if len(out) == 0 {
		out = append(out, b.tallyRun(n[assess.Within], assess.Within, word))
	}
	return out
}

func (b *book) tallyRun(n int, v assess.Verdict, word func(assess.Verdict) string) page.Run {
	run := b.verdict(v)
	run.Text = unbroken(fmt.Sprintf("%d %s", n, word(v)))
	if v != assess.Within {
		run.Face = page.Regular
	}
	return run
}
