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

// calloutSpot tries the widest setting first, then more lines; for each the
// places nearest to the bearing first. Failing all, the smallest setting in the
// middle: a callout is never left out.
func (p *polarFigure) calloutSpot(text string, at, radius float64, st style, taken []box) (block, point, bool) {
	settings := p.breaks(text, calloutLines, st)
	if len(settings) == 0 {
		return block{}, point{}, false
	}
	for _, dist := range []float64{0.5, 0.35, 0.2, 0} {
		for _, turn := range []float64{0, 40, -40, 80, -80, 120, -120, 180} {
			for _, b := range settings {
				mid := p.o.polar(at+turn, radius*dist)
				area := b.box(mid).grow(1.5)
				if area.reach(p.o) <= radius && !area.hitsAny(taken) {
					return b, mid, true
				}
			}
		}
	}
	last := settings[len(settings)-1]
	for i, l := range last.lines {
		last.lines[i] = p.fit(l, 2*p.rMax-4, st)
		last.w = min(last.w, 2*p.rMax-4)
	}
	return last, p.o, true
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
	length := min(max(p.scale.s*n, shortest), max(radius*0.62, shortest))
	tip := p.o.polar(at, length)
	p.arrow(p.o, tip, pen{tone: Ink, width: 2}, 7)
	var taken []box
	for i := range 5 {
		taken = append(taken, boxAt(p.o.polar(at, length*float64(i)/4), 5, 5))
	}
	if a.Label == "" {
		return taken
	}
	return append(taken, p.moveLabel(a.Label, at, length, taken))
}

// moveLabel sets the label beside the arrow, on the side with more room.
func (p *polarFigure) moveLabel(label string, at, length float64, taken []box) box {
	var last box
	for _, b := range p.breaks(label, calloutLines, wordStyle) {
		for _, turn := range []float64{90, -90} {
			// Beside the middle of the shaft, clear of it by two points.
			sin, cos := math.Sincos((at + turn) * math.Pi / 180)
			away := 4 + math.Abs(sin)*b.w/2 + math.Abs(cos)*b.h/2
			mid := p.o.polar(at, length/2).polar(at+turn, away)
			last = b.box(mid)
			if !last.hitsAny(taken) && last.reach(p.o) <= p.rMax*0.7 {
				p.drawBlock(b, mid, true)
				return last
			}
		}
	}
	blocks := p.breaks(label, calloutLines, wordStyle)
	b := blocks[len(blocks)-1]
	mid := p.o.polar(at+180, b.h/2+4)
	p.drawBlock(b, mid, true)
	return b.box(mid)
}
