package plot

import "math"

// bandEdge is the line at the limits of a tolerance band.
var bandEdge = pen{tone: Soft, width: 0.4}

// nominalPen is the line of the nominal value.
var nominalPen = pen{tone: Muted, width: 0.6, dash: []float64{2.4, 1.6}}

// spanStep is the longest piece of a curve drawn as one quadratic curve, in
// degrees; at 30° a circle of 80 points is true to a twentieth of a point.
const spanStep = 30.0

// drawSpokes marks the positions: a light spoke through the ring for each.
func (p *polarFigure) drawSpokes(rs []Reading, from float64) {
	for _, r := range rs {
		p.line(p.o.polar(r.At, from), p.o.polar(r.At, p.rMax+1.5), pen{tone: Faint, width: 0.4})
	}
}

// drawBand fills the tolerance band and draws its edges. An open side reaches
// from inner, or to the outer radius, without an edge.
func (p *polarFigure) drawBand(b *Band, inner float64) {
	lo, hi := inner, p.rMax
	if !b.OpenLo {
		lo = max(p.radial.of(b.Lo), 0)
	}
	if !b.OpenHi {
		hi = max(p.radial.of(b.Hi), 0)
	}
	if hi > lo {
		p.annulus(p.o, lo, hi, Tint)
	}
	if !b.OpenLo && lo > 0 {
		p.ring(p.o, lo, &bandEdge, nil)
	}
	if !b.OpenHi && hi > 0 {
		p.ring(p.o, hi, &bandEdge, nil)
	}
}

// along is a place of a curve around the ring: its bearing, its radius there, and
// how fast that grows, in points per radian.
type along struct{ at, r, slope float64 }

// course is which way the curve goes at a place, clockwise.
func (a along) course() point {
	sin, cos := math.Sincos(a.at * math.Pi / 180)
	return point{float64(a.slope*sin) + float64(a.r*cos), float64(a.r*sin) - float64(a.slope*cos)}
}

// bend adds the curve from a place to another one to the path. Its handle stands
// where the tangents at both ends meet, so that pieces go over into each other.
func (p *polarFigure) bend(a, b along) {
	from, to := p.o.polar(a.at, a.r), p.o.polar(b.at, b.r)
	u, v := a.course(), b.course()
	dx, dy := to.x-from.x, to.y-from.y
	handle := point{(from.x + to.x) / 2, (from.y + to.y) / 2}
	if turn := float64(u.x*v.y) - float64(u.y*v.x); turn > 0 {
		part := (float64(dx*v.y) - float64(dy*v.x)) / turn
		handle = point{from.x + float64(part*u.x), from.y + float64(part*u.y)}
	}
	p.r.QuadCurveTo(grid(handle.x), grid(handle.y), grid(to.x), grid(to.y))
}

// spiral adds the curve between two readings to the path: the radius grows in
// proportion to the angle, so that equal readings lie on a circle and not on a
// chord that would cut through the band.
func (p *polarFigure) spiral(at, r0, turn, r1 float64) {
	if turn <= 0 { // two readings at one position
		p.to(p.o.polar(at, r1))
		return
	}
	n := int(math.Ceil(turn/spanStep - 1e-9))
	slope := (r1 - r0) / (turn * math.Pi / 180)
	place := func(i int) along {
		part := float64(i) / float64(n)
		return along{at + float64(turn*part), r0 + float64((r1-r0)*part), slope}
	}
	for i := range n {
		p.bend(place(i), place(i+1))
	}
}

// drawCurve joins the readings of one round. It is broken at absent readings and
// where half a turn or more lies between two readings.
func (p *polarFigure) drawCurve(rs []Reading, line pen) {
	p.ready(&line, nil)
	open := false
	for i, a := range rs {
		b := rs[(i+1)%len(rs)]
		turn := b.At - a.At
		if i == len(rs)-1 {
			turn += 360
		}
		if a.Absent || b.Absent || turn >= 180 {
			if open {
				p.r.Stroke()
			}
			open = false
			continue
		}
		ra, rb := p.radial.of(a.Value), p.radial.of(b.Value)
		if !open {
			p.move(p.o.polar(a.At, ra))
		}
		open = true
		p.spiral(a.At, ra, turn, rb)
	}
	if open {
		p.r.Stroke()
	}
}

// drawSeries draws all rounds, the standing one last and strongest.
func (p *polarFigure) drawSeries(gapRadius float64) {
	earlier := 0
	for _, role := range []Role{Earlier, Predicted, Standing} {
		for _, s := range p.series {
			if s.Role != role {
				continue
			}
			line := seriesPen(role, earlier)
			if role == Earlier {
				earlier++
			}
			rs := around(s.Readings)
			p.drawCurve(rs, line)
			p.drawMarks(rs, role, line.tone, gapRadius)
		}
	}
}

// drawMarks draws the readings themselves; where the standing round has none, a
// cross at gapRadius.
func (p *polarFigure) drawMarks(rs []Reading, role Role, tone Tone, gapRadius float64) {
	for _, r := range rs {
		switch {
		case r.Absent && role == Standing:
			p.absent(p.o.polar(r.At, gapRadius))
		case r.Absent:
		case role == Standing:
			p.mark(r.Mark, p.o.polar(r.At, p.radial.of(r.Value)))
		default:
			p.dot(p.o.polar(r.At, p.radial.of(r.Value)), tone)
		}
	}
}

// seriesItems are the rounds in the key.
func seriesItems(series []Series) []keyItem {
	var out []keyItem
	earlier := 0
	for _, s := range series {
		line := seriesPen(s.Role, earlier)
		dot := earlierRadius
		if s.Role == Earlier {
			earlier++
		}
		if s.Role == Standing {
			dot = dotRadius
		}
		if s.Name != "" {
			out = append(out, keyItem{s.Name, lineSample(line, dot)})
		}
	}
	return out
}

// seenIn is which marks the standing round holds.
func seenIn(rs []Reading) seen {
	var s seen
	for _, r := range rs {
		s.add(r.Mark, r.Absent)
	}
	return s
}
