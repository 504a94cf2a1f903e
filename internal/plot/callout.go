package plot

import "math"

// calloutLines is the most lines of a callout inside the ring.
const calloutLines = 3

// drawInside sets text inside a circle of that radius around the center, on the
// side of the bearing, clear of the taken boxes where it can. It gives these with
// its own added.
func (p *polarFigure) drawInside(text string, at, radius float64, st style, taken []box) []box {
	b, mid, ok := p.calloutSpot(text, at, radius, st, taken)
	if !ok {
		return taken
	}
	p.drawBlock(b, mid, true)
	return append(taken, b.box(mid))
}

// drawCallout sets text as drawInside does and draws a line to its reading.
func (p *polarFigure) drawCallout(text string, at, radius float64, target point, targetRadius float64, st style, taken []box) {
	b, mid, ok := p.calloutSpot(text, at, radius, st, taken)
	if !ok {
		return
	}
	p.leader(b.box(mid).grow(1.5), target, targetRadius)
	p.drawBlock(b, mid, true)
}

// calloutSpot finds the cheapest free place: near the bearing, well out from the
// center, on few lines, and never on the far side. When none is free inside the
// circle it looks inside the whole ring; failing that the text goes in the
// middle: a callout is never left out.
func (p *polarFigure) calloutSpot(text string, at, radius float64, st style, taken []box) (block, point, bool) {
	settings := p.breaks(text, calloutLines, st)
	if len(settings) == 0 {
		return block{}, point{}, false
	}
	for _, reach := range []float64{radius, p.rMax} {
		if b, mid, ok := p.cheapestSpot(settings, at, radius, reach, taken); ok {
			return b, mid, true
		}
	}
	return p.squeeze(settings[len(settings)-1]), p.o, true
}

// cheapestSpot compares a quarter turn off the bearing, half the radius nearer to
// the center, and three more lines as equally bad.
func (p *polarFigure) cheapestSpot(settings []block, at, radius, reach float64, taken []box) (block, point, bool) {
	const outermost = 0.55
	var best block
	var spot point
	least := math.Inf(1)
	for _, b := range settings {
		for dist := outermost; dist > 0; dist -= 0.1 {
			for turn := -100.0; turn <= 100; turn += 20 {
				cost := math.Abs(turn)/90 + 2*(outermost-dist) + float64(len(b.lines))/3
				mid := p.o.polar(at+turn, radius*dist)
				area := b.box(mid).grow(1.5)
				if cost < least && area.reach(p.o) <= reach && !area.hitsAny(taken) {
					best, spot, least = b, mid, cost
				}
			}
		}
	}
	return best, spot, len(best.lines) > 0
}

// squeeze cuts the lines of a block to the width of the ring.
func (p *polarFigure) squeeze(b block) block {
	room := 2*p.rMax - 4
	for i, l := range b.lines {
		b.lines[i] = p.fit(l, room, b.style)
	}
	b.w = min(b.w, room)
	return b
}

// stroke is a row of boxes of that size along a line, to keep text off it.
func stroke(a, b point, size float64) []box {
	n := int(math.Hypot(b.x-a.x, b.y-a.y)/size) + 1
	var out []box
	for i := range n + 1 {
		t := float64(i) / float64(n)
		out = append(out, boxAt(point{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y)}, size, size))
	}
	return out
}

// leader is a thin line from a box to just short of a mark.
func (c *canvas) leader(from box, target point, targetRadius float64) {
	a := from.edge(target)
	dx, dy := target.x-a.x, target.y-a.y
	n := math.Hypot(dx, dy)
	stop := targetRadius + 1
	if n <= stop {
		return
	}
	end := point{target.x - dx/n*stop, target.y - dy/n*stop}
	c.line(a, end, pen{tone: Ink, width: 0.6})
}

// drawMove draws a vector from the center, and its label beyond or beside the
// head, inside a circle of that radius. It gives the boxes it takes.
func (p *polarFigure) drawMove(a *Arrow, radius float64) []box {
	n := math.Hypot(a.Dx, a.Dy)
	if n == 0 {
		return nil
	}
	at := math.Atan2(a.Dy, a.Dx) * 180 / math.Pi
	const shortest = 13.0
	length := min(max(p.radial.s*n, shortest), max(radius*0.62, shortest))
	tip := p.o.polar(at, length)
	p.arrow(p.o, tip, pen{tone: Ink, width: 2}, 7)
	taken := stroke(p.o, tip, 5)
	return p.moveLabel(a.Label, at, length, taken)
}

// moveLabel sets the label beside the arrow, else behind it, and gives the boxes
// with its own added.
func (p *polarFigure) moveLabel(label string, at, length float64, taken []box) []box {
	settings := p.breaks(label, calloutLines, wordStyle)
	if len(settings) == 0 {
		return taken
	}
	for _, b := range settings {
		for _, turn := range []float64{90, -90} {
			// Beside the middle of the shaft, clear of it by two points.
			sin, cos := math.Sincos((at + turn) * math.Pi / 180)
			away := 4 + math.Abs(sin)*b.w/2 + math.Abs(cos)*b.h/2
			mid := p.o.polar(at, length/2).polar(at+turn, away)
			if area := b.box(mid); !area.hitsAny(taken) && area.reach(p.o) <= p.rMax*0.7 {
				p.drawBlock(b, mid, true)
				return append(taken, area)
			}
		}
	}
	b := p.squeeze(settings[len(settings)-1])
	mid := p.o.polar(at+180, b.h/2+4)
	p.drawBlock(b, mid, true)
	return append(taken, b.box(mid))
}
