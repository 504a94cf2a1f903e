package plot

// Radii of the marks in points: each bigger than the one before it matters less.
const (
	dotRadius     = 1.9
	earlierRadius = 1.2
	nearRadius    = 2.9
	outsideRadius = 4.4
	absentRadius  = 2.0
)

// markRadius is how far a mark reaches from its place.
func (c *canvas) markRadius(m Mark) float64 {
	switch m {
	case Near:
		return nearRadius * c.scale
	case Outside:
		return outsideRadius * c.scale
	}
	return dotRadius * c.scale
}

// mark draws a reading of the standing series.
func (c *canvas) mark(m Mark, p point) {
	white, accent := White, Accent
	r := c.markRadius(m)
	switch m {
	case Near:
		c.ring(p, r, &pen{tone: Accent, width: 1.2}, &white)
	case Outside:
		c.polygon([]point{{p.x, p.y - r}, {p.x + r, p.y}, {p.x, p.y + r}, {p.x - r, p.y}}, &pen{tone: Alarm, width: 1.4}, &white)
	default:
		c.ring(p, r, nil, &accent)
	}
}

// absent is a small open cross where a reading should be.
func (c *canvas) absent(p point) {
	r := absentRadius * c.scale
	ink := pen{tone: Muted, width: 0.9}
	c.line(point{p.x - r, p.y - r}, point{p.x + r, p.y + r}, ink)
	c.line(point{p.x - r, p.y + r}, point{p.x + r, p.y - r}, ink)
}

// dot is a reading of a series in the background.
func (c *canvas) dot(p point, t Tone) { c.ring(p, earlierRadius*c.scale, nil, &t) }

// seriesPen is the line of a series; n counts the earlier rounds, so that two of
// them differ in dash.
func seriesPen(role Role, n int) pen {
	switch role {
	case Standing:
		return pen{tone: Accent, width: 1.3}
	case Predicted:
		return pen{tone: Ink, width: 0.9, dash: []float64{3, 1.8}}
	}
	dashes := [][]float64{nil, {0.9, 1.5}, {4, 1.2, 0.9, 1.2}}
	return pen{tone: Soft, width: 0.9, dash: dashes[n%len(dashes)]}
}

// valueStyle is how the label of a reading is set.
func valueStyle(m Mark) style {
	if m == Outside {
		return style{size: valueSize, bold: true, tone: Alarm}
	}
	return style{size: valueSize, tone: Ink}
}

var (
	tickStyle    = style{size: small, tone: Muted}
	wordStyle    = style{size: small, tone: Ink}
	calloutStyle = style{size: valueSize, bold: true, tone: Ink}
	titleStyle   = style{size: titleSize, bold: true, tone: Ink}
)
