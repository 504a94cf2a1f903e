package plot

import (
	"fmt"

	"github.com/wcharczuk/go-chart/v2"
)

// Boxes are boxes to write readings in by hand, a row for each check, the name at
// the left and a word over every box.
type Boxes struct {
	Frame
	Rows []BoxRow
}

// BoxRow is the boxes of one check; Heads stand over them.
type BoxRow struct {
	Lines []string
	Heads []string
}

// Sizes of boxes in points: a box takes "12-3/64" in a gloved hand's writing.
const (
	boxName    = 92.0
	boxLeast   = 30.0
	boxMost    = 46.0
	boxHigh    = 22.0
	boxHead    = 13.0
	boxGap     = 4.0
	mostBoxes  = 64
	boxesWidth = 504.0
)

// Size implements Figure. The height follows from the rows.
func (b Boxes) Size() (w, h float64) {
	w, h = b.size(boxesWidth, 0)
	if b.Height == 0 {
		for _, r := range b.Rows {
			h += float64(b.lines(r)) * (boxHead + boxHigh + boxGap)
		}
		h = max(h, minSide)
	}
	return w, h
}

// perLine is how many boxes go side by side.
func (b Boxes) perLine() int {
	w, _ := b.size(boxesWidth, 1)
	return max(1, int((w-boxName)/boxLeast))
}

func (b Boxes) lines(r BoxRow) int {
	return max(1, (len(r.Heads)+b.perLine()-1)/b.perLine())
}

// Draw implements Figure.
func (b Boxes) Draw(r chart.Renderer, f *Fonts) error {
	n := 0
	for _, row := range b.Rows {
		n += len(row.Heads)
	}
	if n > len(b.Rows)*mostBoxes {
		return fmt.Errorf("boxes: %d: %w", n, ErrTooMany)
	}
	w, h := b.Size()
	c, err := newCanvas(r, f, w, h)
	if err != nil {
		return fmt.Errorf("boxes: %w", err)
	}
	y := 0.0
	for _, row := range b.Rows {
		y = b.drawRow(c, row, y)
	}
	return c.err
}

// drawRow draws the boxes of a row from y down and gives where the next begins.
func (b Boxes) drawRow(c *canvas, row BoxRow, y float64) float64 {
	per := b.perLine()
	width := boxMost
	if len(row.Heads) > 0 {
		width = min(boxMost, (c.w-boxName-1)/float64(min(per, len(row.Heads))))
	}
	for i, l := range row.Lines {
		st := cardStyle
		if i == 0 {
			st = cardBold
		}
		c.text(c.fit(l, boxName-4, st), point{0, y + boxHead + cardText*capHeight + float64(i)*cardText*1.05}, st)
	}
	white := White
	for i, head := range row.Heads {
		x := boxName + float64(i%per)*width
		top := y + float64(i/per)*(boxHead+boxHigh+boxGap)
		c.centered(c.fit(head, width-1, cardStyle), point{x + width/2, top + boxHead/2}, cardStyle)
		c.rect(box{x + 0.5, top + boxHead, x + width - 1.5, top + boxHead + boxHigh}, &pen{tone: Ink, width: 0.9}, &white)
	}
	return y + float64(b.lines(row))*(boxHead+boxHigh+boxGap)
}
