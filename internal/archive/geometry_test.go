package archive

import (
	"math"
	"testing"
)

func near(a, b float64) bool { return math.Abs(a-b) < 1e-9 }

// Areas by hand.
func TestCovers(t *testing.T) {
	box := Box{0, 0, 10, 10}
	square := func(l, b, r, t float64) Outline { return Outline{{l, b}, {r, b}, {r, t}, {l, t}} }
	line := Outline{{-5, 5}, {15, 5}}
	for name, c := range map[string]struct {
		area []Outline
		want float64
	}{
		"all":                 {[]Outline{square(-1, -1, 11, 11)}, 1},
		"a quarter":           {[]Outline{square(5, 5, 20, 20)}, 0.25},
		"beside":              {[]Outline{square(10, 0, 20, 10)}, 0},
		"half, as a triangle": {[]Outline{{{0, 0}, {10, 0}, {0, 10}}}, 0.5},
		"in opposite ways":    {[]Outline{square(0, 0, 5, 10), {{5, 0}, {5, 10}, {10, 10}, {10, 0}}}, 1},
		"a line of 2":         {line.stroked(2), 0.2},
		"its round ends":      {Outline{{4, 5}, {4, 5}}.ends(2, 1)[:1], 16 * math.Sin(math.Pi/8) / 2 / 100}, // a polygon of 16 sides
		"its square ends":     {Outline{{0, 5}, {20, 5}}.ends(2, 2), 0.02},
		"no notch counts":     {[]Outline{{{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}}}, 0.5},
	} {
		p := Paint{Kind: PaintArea, Area: c.area, Bounds: nowhere}
		for _, a := range c.area {
			p.Bounds = p.Bounds.union(a.bounds())
		}
		if got := p.Covers(box); !near(got, c.want) {
			t.Errorf("%s: %g, want %g", name, got, c.want)
		}
	}
}

func TestBoxes(t *testing.T) {
	if got := (Box{0, 0, 4, 4}).Over(Box{2, 2, 6, 6}); !near(got, 0.25) {
		t.Errorf("%g", got)
	}
	if !(Outline{{0, 0}, {2, 0}, {2, 1}, {0, 1}, {0, 0}}).isBox() || (Outline{{0, 0}, {2, 0}, {1, 1}}).isBox() {
		t.Error("rectangles are not told")
	}
	// A quarter turn and then a shift; by hand.
	if got := (matrix{0, 1, -1, 0, 0, 0}).then(matrix{1, 0, 0, 1, 10, 0}).apply(Point{3, 4}); got != (Point{6, 3}) {
		t.Errorf("%v", got)
	}
}
