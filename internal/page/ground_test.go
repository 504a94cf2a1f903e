package page

import (
	"slices"
	"strings"
	"testing"
	"time"
)

// TestFills: rects of one color are painted together, those that go on in each
// other as one, and nothing comes to lie under what it lay on.
func TestFills(t *testing.T) {
	const ink, pale color = 0x000000, 0xEEEEEE
	box := func(x, y, w, h mp, c color) rect { return rect{x: x, y: y, w: w, h: h, color: c} }
	for name, c := range map[string]struct {
		in   []rect
		want [][]rect
	}{
		"rules over grounds": {
			[]rect{box(0, 0, 50, 10_000, pale), box(0, 9_600, 50, 400, ink), box(0, 10_000, 50, 10_000, pale), box(0, 19_600, 50, 400, ink)},
			[][]rect{{box(0, 0, 50, 20_000, pale)}, {box(0, 9_600, 50, 400, ink), box(0, 19_600, 50, 400, ink)}},
		},
		"cells beside each other, over two rows": {
			[]rect{box(0, 0, 50, 9_000, pale), box(50, 0, 30, 9_000, pale), box(0, 9_000, 50, 9_000, pale), box(50, 9_000, 30, 9_000, pale)},
			[][]rect{{box(0, 0, 80, 18_000, pale)}},
		},
		"what lies on another stays on it": {
			[]rect{box(0, 0, 50, 9_000, pale), box(10, 0, 30, 9_000, ink), box(20, 0, 10, 9_000, pale)},
			[][]rect{{box(0, 0, 50, 9_000, pale)}, {box(10, 0, 30, 9_000, ink)}, {box(20, 0, 10, 9_000, pale)}},
		},
		"a gap stays": {
			[]rect{box(0, 0, 50, 400, ink), box(51, 0, 50, 400, ink)},
			[][]rect{{box(0, 0, 50, 400, ink), box(51, 0, 50, 400, ink)}},
		},
		"leaders stay as they are": {
			[]rect{{x: 0, y: 0, w: 50, h: 800, color: ink, dotted: true}, box(0, 0, 50, 400, ink), {x: 50, y: 0, w: 50, h: 800, color: ink, dotted: true}},
			[][]rect{{{x: 0, y: 0, w: 50, h: 800, color: ink, dotted: true}, {x: 50, y: 0, w: 50, h: 800, color: ink, dotted: true}}, {box(0, 0, 50, 400, ink)}},
		},
	} {
		got := fillsOf(c.in)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v", name, got)
			continue
		}
		for i, f := range got {
			if !slices.Equal(f.rects, c.want[i]) {
				t.Errorf("%s: %v, want %v", name, f.rects, c.want[i])
			}
		}
	}
}

// TestGroundOnGrid: edges are whole tenths, rules keep their height, and rects
// that touch still do.
func TestGroundOnGrid(t *testing.T) {
	w := newWriter(Paper{"", 400, 500}, metrics(t), time.Unix(0, 0))
	w.page()
	w.ground([]rect{{x: 10_040, y: 20_020, w: 100_030, h: 12_580, color: 0xFF0000}, {x: 10_040, y: 32_200, w: 100_030, h: 400, color: 0x00FF00}})
	raw, err := w.bytes()
	if err != nil {
		t.Fatal(err)
	}
	c := strings.Join(strings.Fields(string(contents(t, raw)[0])), " ")
	if want := "q 1 0 0 rg 10 467.4 100.1 12.6 re f 0 1 0 rg 10 467.4 100.1 0.4 re f Q"; !strings.Contains(c, want) {
		t.Errorf("%s, want %s", c, want)
	}
}

// TestUnreadMarks: they are drawn like with like, each moved on from the one before.
func TestUnreadMarks(t *testing.T) {
	inks := []ink{
		{x: 50_000, y: 20_000, size: 8_000, mark: MarkNear}, {text: "near", chunk: 1},
		{x: 50_000, y: 40_000, size: 8_000, mark: MarkWithin}, {text: "within", chunk: 2},
		{x: 50_000, y: 30_000, size: 8_000, mark: MarkWithin}, {x: 10_000, size: 8_000, mark: MarkBox, chunk: 3},
	}
	list := unreadMarks(inks)
	if len(list) != 3 || list[0] != &inks[4] || list[1] != &inks[2] || list[2] != &inks[0] {
		t.Fatalf("%v", list)
	}
	w := newWriter(Paper{"", 400, 500}, metrics(t), time.Unix(0, 0))
	w.page()
	w.marks(list)
	raw, err := w.bytes()
	if err != nil {
		t.Fatal(err)
	}
	c := strings.Join(strings.Fields(string(contents(t, raw)[0])), " ")
	// The middle is 3.52 right of the left end and 2.79 over the base line.
	for _, want := range []string{"q 1 0 0 1 53.5 472.8 cm ", " 1 0 0 1 0 -10 cm ", " 1 0 0 1 0 20 cm "} {
		if !strings.Contains(c, want) {
			t.Errorf("%s, want %s", c, want)
		}
	}
}
