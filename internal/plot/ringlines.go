package plot

import "math"

// bandEdge is the line at the limits of a tolerance band.
var bandEdge = pen{tone: Soft, width: 0.4}

// nominalPen is the line of the nominal value.
var nominalPen = pen{tone: Muted, width: 0.6, dash: []float64{2.4, 1.6}}

// spanStep is the longest piece of a curve between two readings drawn as one
// quadratic curve, in degrees; at 15° the curve is true to a thousandth of a
// point.
const spanStep = 15.0

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

// spiral adds the curve between two readings to the path: the radius grows in
// proportion to the angle, so that equal readings lie on a circle and not on a
// chord that would cut through the band.
func (p *polarFigure) spiral(at, r0, turn, r1 float64) {
	n := max(int(math.Ceil(turn/spanStep)), 1)
	step := turn / float64(n)
	for i := range n {
		a := r0 + (r1-r0)*float64(i)/float64(n)
		b := r0 + (r1-r0)*float64(i+1)/float64(n)
		from := at + step*float64(i)
		// For a circle the control point is where the end tangents meet.
		ctrl := p.o.polar(from+step/2, (a+b)/2/math.Cos(step/2*math.Pi/180))
		end := p.o.polar(from+step, b)
		p.r.QuadCurveTo(grid(ctrl.x), grid(ctrl.y), grid(end.x), grid(end.y))
	}
}

// drawCurve joins the readings of one round. It is broken at absent readings and
// where half a turn or more lies between two readings.
func (p *polarFigure) drawCurve(rs []Reading, line pen) {
	if len(rs) < 2 {
		return
	}
	for i, a := range rs {
		b := rs[(i+1)%len(rs)]
		turn := b.At - a.At
		if i == len(rs)-1 {
			turn += 360
		}
		if a.Absent || b.Absent || turn >= 180 {
			continue
		}
		ra, rb := p.radial.of(a.Value), p.radial.of(b.Value)
		p.ready(&line, nil)
		p.move(p.o.polar(a.At, ra))
		p.spiral(a.At, ra, turn, rb)
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
