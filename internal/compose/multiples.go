package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// multiples are the tilt and the tip clearance of all cells at one scale, small,
// so that one cell can be held against the others.
func (b *book) multiples() []page.Block {
	cells := b.cells()
	var out []page.Block
	for _, key := range []string{assess.Tilt, assess.Clearance} {
		var pictures []page.Picture
		for _, c := range cells {
			if k := c.judged.Check(key); k != nil && len(k.Rounds) > 0 {
				pictures = append(pictures, b.smallPicture(c, k, len(cells)))
			}
		}
		if len(pictures) < 2 {
			continue
		}
		if len(out) > 0 && len(cells) > 4*tilesPerRow {
			out = append(out, page.Break{})
		}
		out = append(out, page.Heading{Level: 4, Runs: plain(b.say("check." + key))}, b.smallNote(key))
		out = append(out, pictureRows(pictures, smallPerRow(len(cells)))...)
	}
	if len(out) == 0 {
		return nil
	}
	title := b.say("multiples.title")
	head := page.Heading{Level: 3, Runs: plain(title), Bookmark: title, Anchor: anchorMultiples}
	return append([]page.Block{page.Break{}, head}, out...)
}

// smallPerRow keeps both figures of up to 12 cells on one page, and each figure of
// up to 24.
func smallPerRow(cells int) int {
	if cells <= 2*tilesPerRow {
		return tilesPerRow
	}
	return 2 * tilesPerRow
}

// Points: the space between small figures, the height of what is written over and
// under the ring, and the most that one takes.
const (
	smallGap    = 6.0
	smallWords  = 26.0
	smallHeight = 122.0
)

// smallPicture is a figure of a cell with its standing round alone, and its finding
// in a line below.
func (b *book) smallPicture(c towerCell, k *assess.Check, cells int) page.Picture {
	n := smallPerRow(cells)
	w := float64(int((b.fullWidth() - smallGap*float64(n-1)) / float64(n)))
	frame := plot.Frame{Width: w, Height: min(w+smallWords, smallHeight), Compact: true,
		Title: b.say("cell.number", "number", strconv.Itoa(c.judged.Number))}
	p := b.checkPicture(c, k)
	only := func(list []plot.Series) []plot.Series {
		for _, s := range list {
			if s.Role == plot.Standing {
				return []plot.Series{s}
			}
		}
		return nil
	}
	switch fig := p.Figure.(type) {
	case plot.PolarTilt:
		fig.Frame, fig.Series, fig.Low, fig.Reach = frame, only(fig.Series), b.smallFinding(c, k), b.scales().drop
		p.Figure = fig
	case plot.PolarClearance:
		fig.Frame, fig.Series, fig.Reach = frame, only(fig.Series), b.scales().gap
		if fig.Worst != nil {
			fig.Worst.Text = b.smallFinding(c, k)
		}
		p.Figure = fig
	}
	return p
}

// smallFinding is what is held against the limit, and the verdict where it is not
// within.
func (b *book) smallFinding(c towerCell, k *assess.Check) string {
	text := ""
	if r := shown(k); r != nil && r.Deciding != nil {
		text = b.amount(*r.Deciding)
	}
	if v := c.told(k); v != assess.Within {
		text = join(", ", text, b.shortWord(v))
	}
	return text
}

// smallNote says the scale of the figures and the limit.
func (b *book) smallNote(key string) page.Block {
	text := b.say("multiples."+key, "unit", b.unitName())
	return page.Paragraph{Runs: muted(join(" ", text, b.limitSentence(key))), Size: smallSize, Keep: true}
}

func (b *book) limitSentence(key string) string {
	if l := b.limitText(b.limitOf(key)); l != "" {
		return b.say("multiples.limit", "limit", l)
	}
	return ""
}

// pictureRows are rows of figures side by side.
func pictureRows(pictures []page.Picture, perRow int) []page.Block {
	var out []page.Block
	for from := 0; from < len(pictures); from += perRow {
		row := page.Columns{Gap: smallGap}
		for i := range perRow {
			row.Widths = append(row.Widths, 1)
			var column []page.Block
			if from+i < len(pictures) {
				column = []page.Block{pictures[from+i]}
			}
			row.Blocks = append(row.Blocks, column)
		}
		out = append(out, row)
	}
	return out
}
