package plot

import (
	"errors"
	"strings"
	"testing"
)

// feetOf is a sketch with shims at four feet and a slide.
func feetOf() FeetSketch {
	return FeetSketch{
		Frame: Frame{Note: "from above, not to scale"}, Motor: "MOTOR", Toward: "toward the motor", Side90: "river side",
		Feet: []SketchFoot{
			{Number: "1", Along: 12, Across: 12, Lines: []string{"add 0.071 in", "1.80 mm"}, Moved: true},
			{Number: "2", Along: -12, Across: 12}, {Number: "3", Along: -12, Across: -12},
			{Number: "4", Along: 12, Across: -12, Lines: []string{"take out 0.010 in", "0.25 mm"}, Moved: true},
		},
		Slide: &SketchSlide{Dx: -0.17, Dy: 0.1, Along: "11/64 in", Across: "3/32 in"},
	}
}

// cardFigures are the figures of cards.
func cardFigures() map[string]Figure {
	wall := FeetSketch{Motor: "MOTOR", Side90: "a side with a long name", Toward: "toward the motor"}
	for i := range 12 {
		wall.Places = append(wall.Places, SketchPlace{At: float64(30 * i), Number: string(rune('A' + i)), In: i%3 - 1})
	}
	motor := FeetSketch{Motor: "MOTOR", Side90: "river side", Axial: -1,
		Rear: MotorRow{Lines: []string{"rear feet", "add 0.02 in"}, Push: 1}, Front: MotorRow{Lines: []string{"front feet", "add 0.01 in"}, Push: -1}}
	var heads []string
	for i := range 25 {
		heads = append(heads, string(rune('A'+i)))
	}
	boxes := Boxes{Rows: []BoxRow{{Name: "Fan tilt", Heads: heads}, {Name: "Tip clearance", Heads: heads[:13]}, {Name: "Tip radius", Heads: heads[:13]},
		{Name: "Coupling at the gear reducer", Heads: heads[:5]}, {Name: "Coupling at the motor", Heads: heads[:5]},
		{Name: "Distance between shaft ends", Heads: heads[:1]}, {Heads: []string{"Moved by", "Date", "Time"}, Wide: true}}}
	return map[string]Figure{"card_feet": feetOf(), "card_wall": wall, "card_motor": motor, "card_boxes": boxes}
}

// TestCardFigures keeps the pictures, and that nothing of them is smaller than the
// text of a card.
func TestCardFigures(t *testing.T) {
	f := loadFonts(t)
	for name, fig := range cardFigures() {
		t.Run(name, func(t *testing.T) {
			svg, err := SVG(fig, f, "Card", "What to move.")
			if err != nil {
				t.Fatal(err)
			}
			golden(t, name+".svg", svg)
			for _, small := range []string{`font-size="6`, `font-size="7`, `font-size="8`, `font-size="9`, `font-size="10`} {
				if strings.Contains(string(svg), small) {
					t.Errorf("holds %s", small)
				}
			}
		})
	}
}

// TestBoxesAreAllDrawn counts the boxes: one for every head.
func TestBoxesAreAllDrawn(t *testing.T) {
	b, ok := cardFigures()["card_boxes"].(Boxes)
	if !ok {
		t.Fatal("no boxes")
	}
	n := 0
	for _, r := range b.Rows {
		n += len(r.Heads)
	}
	svg, err := SVG(b, loadFonts(t), "Boxes", "Boxes.")
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Count(string(svg), "<path"); got != n {
		t.Errorf("%d boxes drawn, %d asked for", got, n)
	}
}

// TestSlidePointsTheRightWay: in a drawing with the motor at the top and the 90°
// side at the right, a slide away from the motor and toward the 90° side goes down
// and to the right.
func TestSlidePointsTheRightWay(t *testing.T) {
	for _, c := range []struct {
		dx, dy   float64
		down, to float64
	}{{1, 0, -1, 0}, {-1, 0, 1, 0}, {0, 1, 0, 1}, {0, -1, 0, -1}, {-1, 1, 1, 1}} {
		s := FeetSketch{Motor: "M", Slide: &SketchSlide{Dx: c.dx, Dy: c.dy}}
		fig := &feetFigure{FeetSketch: s, canvas: &canvas{w: 285, h: 300}}
		if err := fig.place(); err != nil {
			t.Fatal(err)
		}
		tip := fig.slideTip()
		if d := tip.y - fig.o.y; d*c.down < 0 || c.down == 0 && (d > 1e-9 || d < -1e-9) {
			t.Errorf("%v: tip %v", c, tip)
		}
		if d := tip.x - fig.o.x; d*c.to < 0 || c.to == 0 && (d > 1e-9 || d < -1e-9) {
			t.Errorf("%v: tip %v", c, tip)
		}
	}
}

func TestCardFiguresRefuse(t *testing.T) {
	f := loadFonts(t)
	nan := feetOf()
	nan.Slide.Dx = 1e300
	many := feetOf()
	many.Feet = make([]SketchFoot, mostFeet+1)
	tiny := feetOf()
	tiny.Width, tiny.Height = 90, 90
	for name, c := range map[string]struct {
		fig  Figure
		want error
	}{
		"too large": {nan, ErrNotFinite}, "too many feet": {many, ErrTooMany}, "no room": {tiny, ErrNoRoom},
		"too many boxes": {Boxes{Rows: []BoxRow{{Heads: make([]string, mostBoxes+1)}}}, ErrTooMany},
	} {
		if _, err := SVG(c.fig, f, "a", "b"); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
