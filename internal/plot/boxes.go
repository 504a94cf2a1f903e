package plot

import (
	"fmt"
	"slices"

	"github.com/wcharczuk/go-chart/v2"
)

// Boxes are boxes to write readings in by hand, a row for each check, the name at
// the left and a word over every box.
type Boxes struct {
	Frame
	Rows []BoxRow
}

// BoxRow is the boxes of one check; Heads stand over them. Two short rows go side
// by side. Wide boxes take words.
type BoxRow struct {
	Name  string
	Heads []string
	Wide  bool
}

// Sizes of boxes in points: a box takes "12-3/64" in a gloved hand's writing.
const (
	boxName    = 78.0 // room for the name
	boxShort   = 68.0 // and of a row that goes beside another
	boxLeast   = 30.0
	boxMost    = 44.0
	boxHigh    = 19.0
	boxHead    = 12.5
	boxGap     = 3.0
	boxWide    = 3.0  // over a row of wide boxes
	boxPair    = 12.0 // between two rows side by side
	shortRow   = 5    // most boxes of a row that goes beside another
	mostBoxes  = 64
	boxesWidth = 504.0
)

// boxLine is a row as laid out: where it stands, how wide it is.
type boxLine struct {
	row  *BoxRow
	x, w float64
	bare bool // the heads stand over the row above
}

// lay puts rows on lines, two short ones beside each other.
func (b Boxes) lay() [][]boxLine {
	w, _ := b.size(boxesWidth, 1)
	half := (w - boxPair) / 2
	var out [][]boxLine
	var open *boxLine
	for i := range b.Rows {
		r := &b.Rows[i]
		if r.Wide || len(r.Heads) > shortRow {
			bare := !r.Wide && i > 0 && !b.Rows[i-1].Wide && slices.Equal(r.Heads, b.Rows[i-1].Heads)
			out, open = append(out, []boxLine{{r, 0, w, bare}}), nil
			continue
		}
		if open != nil {
			n := len(out) - 1
			out[n], open = append(out[n], boxLine{r, half + boxPair, half, false}), nil
			continue
		}
		out = append(out, []boxLine{{r, 0, half, false}})
		open = &out[len(out)-1][0]
	}
	return out
}

// perLine is how many boxes of the row go side by side.
func (l boxLine) perLine() int { return max(1, int((l.w-l.name())/boxLeast)) }

// name is the room for the name of the check.
func (l boxLine) name() float64 {
	if len(l.row.Heads) <= shortRow {
		return boxShort
	}
	return boxName
}

func (l boxLine) height() float64 {
	n := max(1, (len(l.row.Heads)+l.perLine()-1)/l.perLine())
	if l.row.Wide {
		return boxWide + boxHigh + boxGap
	}
	return float64(n) * (l.head() + boxHigh + boxGap)
}

// head is the height of the words over the boxes. A row of one line with the same
// words as the row above goes without.
func (l boxLine) head() float64 {
	if l.bare && len(l.row.Heads) <= l.perLine() {
		return 0
	}
	return boxHead
}

// Size implements Figure. The height follows from the rows.
func (b Boxes) Size() (w, h float64) {
	w, h = b.size(boxesWidth, 0)
	if h != 0 {
		return w, h
	}
	for _, line := range b.lay() {
		h += line[0].height()
	}
	return w, max(h, minSide)
}

// Draw implements Figure.
func (b Boxes) Draw(r chart.Renderer, f *Fonts) error {
	for _, row := range b.Rows {
		if len(row.Heads) > mostBoxes {
			return fmt.Errorf("boxes of %q: %d: %w", row.Name, len(row.Heads), ErrTooMany)
		}
	}
	w, h := b.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("boxes: %w", err)
	}
	y := 0.0
	for _, line := range b.lay() {
		for _, l := range line {
			l.draw(c, y)
		}
		y += line[0].height()
	}
	return c.err
}

// draw draws the row with its top at y.
func (l boxLine) draw(c *canvas, y float64) {
	if l.row.Wide {
		l.drawWide(c, y)
		return
	}
	name := c.wrap(l.row.Name, l.name()-4, cardBold)
	high := l.head() + boxHigh
	first := y + max(0, (high-float64(len(name.lines))*cardText)/2) + cardText*0.85
	for i, text := range name.lines {
		c.text(c.fit(text, l.name()-4, cardBold), point{l.x, first + float64(i)*cardText}, cardBold)
	}
	per := l.perLine()
	width := boxMost
	if n := len(l.row.Heads); n > 0 {
		width = min(boxMost, (l.w-l.name()-1)/float64(min(per, n)))
	}
	for i, head := range l.row.Heads {
		x := l.x + l.name() + float64(i%per)*width
		drawBox(c, head, x, y+float64(i/per)*(boxHead+boxHigh+boxGap), width, l.head())
	}
}

func drawBox(c *canvas, head string, x, top, width, over float64) {
	white := White
	if over > 0 {
		c.centered(c.fit(head, width-1, cardStyle), point{x + width/2, top + over/2}, cardStyle)
	}
	c.rect(box{x + 0.5, top + over, x + width - 1.5, top + over + boxHigh}, &pen{tone: Ink, width: 0.9}, &white)
}

// drawWide shares the width among the boxes, each with its word before it.
func (l boxLine) drawWide(c *canvas, y float64) {
	n := float64(max(1, len(l.row.Heads)))
	white := White
	for i, head := range l.row.Heads {
		x := l.x + float64(i)*l.w/n
		text := c.measure(head, cardStyle) + 5
		c.text(head, point{x, y + boxWide + boxHigh/2 + cardText*capHeight/2}, cardStyle)
		c.rect(box{x + text, y + boxWide, x + l.w/n - 8, y + boxWide + boxHigh}, &pen{tone: Ink, width: 0.9}, &white)
	}
}
