package plot

import (
	"fmt"
	"math"
	"slices"
)

// barsFigure is a chart by column with its layout.
type barsFigure struct {
	*canvas
	Bars
	standing []BarValue
	area     box     // where dots may be
	lo, hi   float64 // values at the lower and upper edge of area
	foot     footer
	notes    []placedNote
	taken    []box // labels and marks that others must not cover
	lines    []box // lines that labels avoid if they can
	others   []box // readings of other rounds, avoided rather than lines
}

// placedNote is a note with the row it stands in, counted upward from the chart.
type placedNote struct {
	ColumnNote
	row  int
	bare bool // no line down
	area box  // x only, until the chart is placed
}

const (
	noteRow    = 10.0 // height of a row of notes over the chart
	columnRow  = 12.0 // height of the row of column labels
	valueRoom  = 16.0 // height kept for a value label above and below the dots
	leastChart = 24.0 // the lowest chart worth drawing
)

// place divides the figure: title, axis, notes, chart, columns, footer.
func (b *barsFigure) place() error {
	st := titleStyle
	if b.Compact {
		st.size, b.scale = compactTitle, compactMarks
	}
	top := b.drawTitle(b.Title, st) + margin/2
	left, right, pad := margin, margin, 4.0
	if b.Compact {
		b.foot.height = compactFoot
	} else {
		b.foot = b.footer(b.keyItems(), "", b.Note)
		left += b.measure(b.ColumnWord, tickStyle) + 4
		right += b.edgeRoom()
		pad = valueRoom
		top += b.drawAxis(top)
	}
	b.area = box{x0: left, x1: b.w - right, y1: b.h - b.foot.height - columnRow - pad}
	if !b.Compact {
		top += noteRow * float64(b.placeNotes())
	}
	b.area.y0 = top + pad
	if b.area.y1-b.area.y0 < leastChart || b.area.x1-b.area.x0 < leastChart {
		return fmt.Errorf("%.0f by %.0f points: %w", b.w, b.h, ErrNoRoom)
	}
	b.fitRange()
	return nil
}

// drawAxis says what is drawn, and gives the height that takes.
func (b *barsFigure) drawAxis(top float64) float64 {
	if b.Axis == "" {
		return 0
	}
	b.text(b.fit(b.Axis, b.w-2*margin, tickStyle), point{margin, top + small*capHeight}, tickStyle)
	return small * leading
}

// fitRange finds the values at the edges of the chart.
func (b *barsFigure) fitRange() {
	var all []float64
	for _, s := range b.Series {
		for _, v := range s.Values {
			if !v.Absent {
				all = append(all, v.Value)
			}
		}
	}
	for _, e := range b.edges() {
		all = append(all, e.value)
	}
	if len(all) == 0 {
		all = []float64{0}
	}
	b.lo, b.hi = slices.Min(all), slices.Max(all)
	if b.lo == b.hi {
		half := max(math.Abs(b.lo)/2, 1)
		b.lo, b.hi = b.lo-half, b.hi+half
	}
}

func (b *barsFigure) x(column int) float64 {
	return b.area.x0 + (float64(column)+0.5)*b.step()
}

func (b *barsFigure) step() float64 { return (b.area.x1 - b.area.x0) / float64(max(len(b.Columns), 1)) }

func (b *barsFigure) y(v float64) float64 {
	return b.area.y1 - (v-b.lo)/(b.hi-b.lo)*(b.area.y1-b.area.y0)
}

// edge is a line across the chart with its label at the right.
type edge struct {
	value float64
	label string
	style style
}

// edges are the limits and the nominal value.
func (b *barsFigure) edges() []edge {
	var out []edge
	if b.Band != nil && !b.Band.OpenHi {
		out = append(out, edge{b.Band.Hi, b.Band.HiLabel, wordStyle})
	}
	if b.Nominal != nil {
		out = append(out, edge{b.Nominal.Value, b.Nominal.Label, tickStyle})
	}
	if b.Band != nil && !b.Band.OpenLo {
		out = append(out, edge{b.Band.Lo, b.Band.LoLabel, wordStyle})
	}
	return out
}

// edgeRoom is the width that the labels at the right take, at most a third.
func (b *barsFigure) edgeRoom() float64 {
	room := 0.0
	for _, e := range b.edges() {
		room = max(room, b.measure(e.label, e.style)+3)
	}
	return min(room, b.w/3)
}

// reference is where stems start: the nominal value, else the middle of the band,
// else the middle of the chart.
func (b *barsFigure) reference() float64 {
	switch {
	case b.Nominal != nil:
		return b.Nominal.Value
	case b.Band != nil && !b.Band.OpenLo && !b.Band.OpenHi:
		return (b.Band.Lo + b.Band.Hi) / 2
	}
	return (b.lo + b.hi) / 2
}

// drawGround draws the band, the lines and their labels.
func (b *barsFigure) drawGround() {
	a := b.area
	if n := b.Band; n != nil {
		tint := Tint
		y0, y1 := a.y0-2, a.y1+2
		if !n.OpenHi {
			y0 = b.y(n.Hi)
		}
		if !n.OpenLo {
			y1 = b.y(n.Lo)
		}
		b.rect(box{a.x0, min(y0, y1), a.x1, max(y0, y1)}, nil, &tint)
		for _, e := range []struct {
			open bool
			y    float64
		}{{n.OpenHi, y0}, {n.OpenLo, y1}} {
			if !e.open {
				b.across(e.y, bandEdge)
			}
		}
	}
	y := b.y(b.reference())
	line := nominalPen
	if b.Nominal == nil {
		line = pen{tone: Faint, width: 0.4}
	}
	b.across(y, line)
	if !b.Compact {
		b.drawEdgeLabels()
	}
}

// across draws a line over the width of the chart.
func (b *barsFigure) across(y float64, p pen) {
	b.line(point{b.area.x0, y}, point{b.area.x1, y}, p)
	b.lines = append(b.lines, box{b.area.x0, y - 0.5, b.area.x1, y + 0.5})
}

// slack is added to room that was made to measure, in points: adding and taking
// away again leaves a float a little short, and the longest label would be cut.
const slack = 0.01

// drawEdgeLabels sets the labels of limits and nominal value at the right; where
// two lie too close the later one gives way downward, or is left to the key.
func (b *barsFigure) drawEdgeLabels() {
	const line = small*(capHeight+descent) + 1
	room := b.w - margin - b.area.x1 - 3 + slack
	edges := b.edges()
	slices.SortStableFunc(edges, func(p, q edge) int {
		switch py, qy := b.y(p.value), b.y(q.value); {
		case py < qy:
			return -1
		case py > qy:
			return 1
		}
		return 0
	})
	free := 0.0
	for _, e := range edges {
		if e.label == "" {
			continue
		}
		mid := max(b.y(e.value), free+line/2)
		b.text(b.fit(e.label, room, e.style), point{b.area.x1 + 3, mid + small*capHeight/2}, e.style)
		free = mid + line/2
	}
}
