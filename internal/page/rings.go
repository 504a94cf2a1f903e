package page

import "math"

// rings follows a path to see whether it is nothing but full circles around one
// center. Such a path is drawn around the origin and moved: then circles of a size
// are the same bytes but for their places. One that is filled is a dot.
type rings struct {
	x, y  float64 // center
	list  []ring
	mixed bool // something else is in the path
}

// ring is an arc that has gone by turn so far, and stands at an angle.
type ring struct{ r, turn, at float64 }

// arc notes an arc from angle a by d.
func (s *rings) arc(x, y, rx, ry, a, d float64) {
	if rx != ry || len(s.list) > 0 && (x != s.x || y != s.y) {
		s.mixed = true
		return
	}
	s.x, s.y = x, y
	if n := len(s.list); n > 0 && s.list[n-1].r == rx && s.list[n-1].at == a && !s.list[n-1].full() {
		last := &s.list[n-1]
		last.turn, last.at = last.turn+d, a+d
		return
	}
	s.list = append(s.list, ring{rx, d, a + d})
}

func (r ring) full() bool { return math.Abs(math.Abs(r.turn)-2*math.Pi) < 1e-9 }

// whole tells whether the path is full circles only.
func (s *rings) whole() bool {
	for _, r := range s.list {
		if !r.full() {
			return false
		}
	}
	return !s.mixed && len(s.list) > 0
}

// one is the radius of a path that is one circle.
func (s *rings) one() (radius float64, ok bool) {
	if !s.whole() || len(s.list) != 1 {
		return 0, false
	}
	return s.list[0].r, true
}

// draw draws the circles around the origin.
func (s *rings) draw(p *path) {
	for _, r := range s.list {
		p.circle(0, 0, r.r, r.turn < 0)
	}
}
