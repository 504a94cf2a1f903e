package plot

import (
	"math"
	"slices"
)

// everyLabel is the most positions at which every reading is labeled; above it
// the ring would be a wall of digits, and the worst, the best and every other
// position are.
const everyLabel = 16

// ringLabel is the label of one reading outside the ring: the value and under it
// the position.
type ringLabel struct {
	at    float64
	block block // the lines of the value, the size of it all
	tick  string
	value style
	rank  int // lower is placed first
}

// ringLabels are the labels of the standing round, most important first.
func (p *polarFigure) ringLabels(rs []Reading, worst *Callout) []ringLabel {
	lo, hi := extremes(rs)
	var out []ringLabel
	for i, r := range rs {
		value := wordStyle
		if !r.Absent {
			value = valueStyle(r.Mark)
		}
		l := ringLabel{at: r.At, value: value, rank: 4 + i%2}
		l.block, l.tick = p.labelBlock(r, value)
		switch {
		case worst != nil && bearing(worst.At) == r.At:
			l.rank = 0
		case !r.Absent && r.Mark == Outside:
			l.rank = 1
		case r.Absent || i == lo || i == hi:
			l.rank = 2
		case r.Mark == Near:
			l.rank = 3
		case len(rs) > everyLabel && i%2 == 1:
			continue
		}
		out = append(out, l)
	}
	slices.SortStableFunc(out, func(a, b ringLabel) int { return a.rank - b.rank })
	return out
}

const (
	// maxLabel is the most that a label may take of the width of the figure.
	maxLabel = 0.2
	// labelLines is the most lines of a value: why a position could not be read.
	labelLines = 2
)

// labelBlock is the value over the position.
func (p *polarFigure) labelBlock(r Reading, value style) (b block, tick string) {
	room := p.w * maxLabel
	b, ok := p.setWithin(r.Label, room, labelLines, value)
	if !ok {
		b = p.canvas.block([]string{""}, value)
	}
	tick = p.fit(r.Tick, room, tickStyle)
	if tick != "" {
		b.w = max(b.w, p.measure(tick, tickStyle))
		b.h = value.size*(capHeight+leading*float64(len(b.lines)-1)) + small*leading + small*descent
	}
	return b, tick
}

// extremes are the indices of the least and the greatest reading, -1 for none.
func extremes(rs []Reading) (lo, hi int) {
	lo, hi = -1, -1
	for i, r := range rs {
		if r.Absent {
			continue
		}
		if lo < 0 || r.Value < rs[lo].Value {
			lo = i
		}
		if hi < 0 || r.Value > rs[hi].Value {
			hi = i
		}
	}
	return lo, hi
}

// ringBox is where a label of that size stands outside a circle: its nearest
// point touches it, in the direction of the bearing.
func ringBox(o point, radius, at, w, h float64) box {
	sin, cos := math.Sincos(at * math.Pi / 180)
	return boxAt(o.polar(at, radius+math.Abs(sin)*w/2+math.Abs(cos)*h/2), w, h)
}

// drawRingLabels sets the labels that find room, in the order of their rank.
func (p *polarFigure) drawRingLabels(labels []ringLabel) {
	var taken []box
	for _, l := range labels {
		b := ringBox(p.o, p.rMax+labelGap-1, l.at, l.block.w, l.block.h)
		if b.grow(0.8).hitsAny(taken) {
			continue
		}
		taken = append(taken, b)
		y := b.y0 + l.value.size*capHeight
		mid := b.center().x
		for i, line := range l.block.lines {
			if i > 0 {
				y += l.value.size * leading
			}
			p.text(line, point{mid - p.measure(line, l.value)/2, y}, l.value)
		}
		y += small * leading
		p.text(l.tick, point{mid - p.measure(l.tick, tickStyle)/2, y}, tickStyle)
	}
}
