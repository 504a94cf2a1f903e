package plot

import (
	"fmt"
	"math"
	"slices"
)

// margin is the white space at the sides of a figure, in points.
const margin = 4.0

// polarFigure is what the two polar figures have in common: where the ring is on
// the paper and how values become radii.
type polarFigure struct {
	*canvas
	series []Series
	o      point // fan center
	rMax   float64
	radial radial
}

// radial turns values into distances from the center: rBase + s·(v − base).
type radial struct {
	base, rBase, s float64
}

func (r radial) of(v float64) float64 { return r.rBase + r.s*(v-r.base) }

// exaggerate finds the whole exaggeration factor at which a circle of real radius
// fanRadius, drawn at about the wanted part of the outer radius, leaves a span
// of values just inside it; and the part at which it is then drawn. The factor
// does not depend on the size of the figure. Factor 0: no fan radius, or values
// as large as the fan.
func exaggerate(fanRadius, span, part float64) (factor int, drawn float64) {
	if fanRadius <= 0 || span <= 0 {
		return 0, part
	}
	// part·outer is drawn for fanRadius, the rest for factor·span at that scale.
	wanted := (1/part - 1) * fanRadius / span
	factor = roundFactor(wanted)
	if factor == 0 {
		return 0, part
	}
	return factor, 1 / (1 + float64(factor)*span/fanRadius)
}

// maxFactor is the largest exaggeration given as a number; beyond it the readings
// are all but equal and the number says nothing.
const maxFactor = 100000

// roundFactor is the greatest factor of the series 1 1.2 1.5 2 2.5 3 4 5 6 8
// times a power of ten that is whole and not above f; 0 if there is none.
func roundFactor(f float64) int {
	best := 0
	for power := 1; power <= maxFactor/10; power *= 10 {
		for _, tenths := range []int{10, 12, 15, 20, 25, 30, 40, 50, 60, 80} {
			if n := tenths * power; n%10 == 0 && float64(n/10) <= f {
				best = max(best, n/10)
			}
		}
	}
	return best
}

// bearing is an angle brought into [0, 360).
func bearing(deg float64) float64 {
	d := math.Mod(deg, 360)
	if d < 0 {
		d += 360
	}
	if d >= 360 { // a tiny negative angle rounds up to a full turn
		d = 0
	}
	return d
}

// around is a copy of the readings in order around the ring.
func around(rs []Reading) []Reading {
	out := slices.Clone(rs)
	for i := range out {
		out[i].At = bearing(out[i].At)
	}
	slices.SortStableFunc(out, func(a, b Reading) int {
		switch {
		case a.At < b.At:
			return -1
		case a.At > b.At:
			return 1
		}
		return 0
	})
	return out
}

// checkSeries refuses what cannot be drawn.
func checkSeries(series []Series) error {
	if len(series) > maxSeries {
		return fmt.Errorf("%d rounds, at most %d: %w", len(series), maxSeries, ErrTooMany)
	}
	strong := 0
	for _, s := range series {
		if s.Role == Standing {
			strong++
		}
		if strong > 1 {
			return fmt.Errorf("round %q is a second standing round: %w", s.Name, ErrTooMany)
		}
		if len(s.Readings) > maxPoints {
			return fmt.Errorf("round %q has %d readings, at most %d: %w", s.Name, len(s.Readings), maxPoints, ErrTooMany)
		}
		for _, r := range s.Readings {
			if err := finite(fmt.Sprintf("round %q, position %q", s.Name, r.Tick), r.At); err != nil {
				return err
			}
			if r.Absent {
				continue
			}
			if err := finite(fmt.Sprintf("round %q, reading %q", s.Name, r.Label), r.Value); err != nil {
				return err
			}
		}
	}
	return nil
}

// values are all readings of all rounds.
func values(series []Series) []float64 {
	var out []float64
	for _, s := range series {
		for _, r := range s.Readings {
			if !r.Absent {
				out = append(out, r.Value)
			}
		}
	}
	return out
}

// standing is the readings of the standing round around the ring.
func standing(series []Series) []Reading {
	for _, s := range series {
		if s.Role == Standing {
			return around(s.Readings)
		}
	}
	return nil
}

// labelGap is the space between ring and labels, in points; smallGap the space
// around the ring of a compact figure.
const labelGap, smallGap = 6.0, 4.0

// labelAir keeps the labels at top and bottom off the motor and the key.
const labelAir = 2.5

// motorHeight is the height of the motor block with its shaft, in points.
const motorHeight = 15.0

// minRing is the smallest ring worth drawing, in points.
const minRing = 18.0

// place finds room for the ring between top and foot, with the labels around it.
func (p *polarFigure) place(top, foot, gap float64, labels []ringLabel) error {
	side, over := gap, gap
	for _, l := range labels {
		side = max(side, l.block.w+gap)
		over = max(over, l.block.h+gap+labelAir)
	}
	y0 := top + motorHeight + over
	y1 := p.h - foot - over
	p.rMax = min((p.w-2*(margin+side))/2, (y1-y0)/2)
	if p.rMax < minRing {
		return fmt.Errorf("%.0f by %.0f points leave a ring of %.0f points: %w", p.w, p.h, p.rMax, ErrNoRoom)
	}
	p.o = point{p.w / 2, (y0 + y1) / 2}
	p.around(p.o)
	return nil
}

// head sets the title and gives where the motor may begin. On a compact figure a
// short title shares the line with the motor.
func (p *polarFigure) head(f Frame, motor string) float64 {
	st := titleStyle
	if f.Compact {
		st.size = compactTitle
		p.scale = compactMarks
		half := p.measure(motor, wordStyle)/2 + 8
		if p.measure(f.Title, st) <= p.w/2-margin-half {
			p.drawTitle(f.Title, st)
			return 0
		}
	}
	return p.drawTitle(f.Title, st)
}

const (
	compactTitle = 8.0
	compactMarks = 0.7
)

// compactFoot is the height of the one line under a compact figure.
const compactFoot = small*leading + margin

// drawCompactFoot sets that line, and a wedge outside the ring that points at
// the place it speaks of.
func (p *polarFigure) drawCompactFoot(text string, at float64, tone Tone) {
	st := style{size: small, bold: true, tone: tone}
	text = p.fit(text, p.w-2*margin, st)
	if text == "" {
		return
	}
	p.centered(text, point{p.w / 2, p.h - margin - small*capHeight/2}, st)
	p.arrow(p.o.polar(at, p.rMax+smallGap+2), p.o.polar(at, p.rMax+1), pen{tone: tone, width: 1}, smallGap+1)
}

// drawMotor draws the motor at 0° above the ring, with its word and the drive
// line toward the fan.
func (p *polarFigure) drawMotor(top float64, word string) {
	word = p.fit(word, p.w-2*margin-8, wordStyle)
	w := max(p.measure(word, wordStyle)+8, 18)
	white := White
	body := box{p.o.x - w/2, top + margin/2, p.o.x + w/2, top + margin/2 + 10}
	ink := pen{tone: Ink, width: 0.9}
	p.rect(body, &ink, &white)
	p.centered(word, body.center(), wordStyle)
	p.rect(box{p.o.x - 1.2, body.y1, p.o.x + 1.2, body.y1 + 4}, nil, &ink.tone)
}
