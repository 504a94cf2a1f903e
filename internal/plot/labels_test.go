package plot

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

func TestLabelsDoNotOverlap(t *testing.T) {
	for _, n := range []int{6, 8, 12, 16, 24, 36} {
		figs := everyFigure(n)
		for name, fig := range gallery() {
			figs[name] = fig
		}
		for name, fig := range figs {
			labels := record(t, fig).labels
			for i, a := range labels {
				for _, b := range labels[:i] {
					if a.box.overlaps(b.box) {
						t.Errorf("%s of %d: %q and %q overlap", name, n, a.text, b.text)
					}
				}
			}
		}
	}
}

// TestCrowdedLabelsDoNotOverlap: readings that all must be labeled, and positions
// a few degrees apart, lose labels rather than cover each other.
func TestCrowdedLabelsDoNotOverlap(t *testing.T) {
	loud := clearanceOf(36)
	for i := range loud.Series[1].Readings {
		loud.Series[1].Readings[i].Mark = Outside
		loud.Series[1].Readings[i].Label = "1-13/32"
	}
	close := planOf(12, 8)
	for i := range close.Positions {
		close.Positions[i].At = 8 * float64(i)
	}
	many := barsOf(60)
	for name, fig := range map[string]Figure{"all outside": loud, "close together": close, "60 columns": many} {
		labels := record(t, fig).labels
		for i, a := range labels {
			for _, b := range labels[:i] {
				if a.box.overlaps(b.box) {
					t.Errorf("%s: %q and %q overlap", name, a.text, b.text)
				}
			}
		}
	}
}

// TestLongLabelsAreWhole: why a position could not be read, and which way faces
// open where the side has a longer name, stand on more lines and are not cut.
func TestLongLabelsAreWhole(t *testing.T) {
	ring := clearanceOf(12)
	ring.Series[1].Readings[0] = Reading{At: 0, Tick: "0°", Label: "drive-shaft opening", Absent: true}
	line := gallery()["drive_line"].(DriveLine)
	line.Above.Gear.Label = "0.003 in/ft, open at the side away from the river (270°) (re-check needed)"
	for name, fig := range map[string]Figure{"ring": ring, "line": line} {
		for _, l := range record(t, fig).labels {
			if strings.Contains(l.text, "…") {
				t.Errorf("%s: %q is cut", name, l.text)
			}
		}
	}
}

// TestNotesEndInARow: any number of notes, on any columns, is placed or refused.
func TestNotesEndInARow(t *testing.T) {
	f := loadFonts(t)
	for n := 1; n <= 12; n++ {
		b := barsOf(12)
		b.Notes = nil
		b.Height = 400
		for i := range n {
			b.Notes = append(b.Notes, ColumnNote{Column: i * 7 % 12, Text: fmt.Sprintf("a note for blade number %d", i*7%12+1)})
		}
		r := newRecorder(f)
		if err := b.Draw(r, f); err != nil {
			t.Fatal(err)
		}
		for _, note := range b.Notes {
			if _, ok := r.find(note.Text); !ok {
				t.Errorf("%d notes: %q is lost", n, note.Text)
			}
		}
		for i, p := range r.labels {
			for _, q := range r.labels[:i] {
				if p.box.overlaps(q.box) {
					t.Errorf("%d notes: %q and %q overlap", n, p.text, q.text)
				}
			}
		}
	}
}

// TestEdgeLabelsPrintInFull: the room at the right is made for the longest label,
// so none is cut, whatever the size of the chart.
func TestEdgeLabelsPrintInFull(t *testing.T) {
	for i := range 400 {
		b := barsOf(8)
		b.Width = 200 + 0.7*float64(i)
		b.Band.LoLabel, b.Band.HiLabel = fmt.Sprintf("%.3f", 8+0.013*float64(i)), fmt.Sprintf("%.3f", 9+0.017*float64(i))
		b.Nominal = nil
		found := 0
		for _, l := range record(t, b).labels {
			if l.text == b.Band.LoLabel || l.text == b.Band.HiLabel {
				found++
			}
		}
		if found < 2 {
			t.Fatalf("width %.1f: %q or %q is not printed in full", b.Width, b.Band.LoLabel, b.Band.HiLabel)
		}
	}
}

func TestEveryReadingLabeledUpTo16(t *testing.T) {
	for _, n := range []int{1, 6, 8, 12, 16} {
		for i := range n {
			p := clearanceOf(n)
			rs := p.Series[1].Readings
			for j := range rs {
				rs[j].Label = fmt.Sprintf("1-13/%d", 10+j)
			}
			if _, ok := record(t, p).find(rs[i].Label); !ok {
				t.Errorf("%d positions: reading %d has no label", n, i)
			}
		}
	}
}

// TestEqualNeighborsAreLabeled: heights like those of a fan in good order, whose
// long labels leave hardly any room beside each other.
func TestEqualNeighborsAreLabeled(t *testing.T) {
	b := Bars{Frame: Frame{Width: 245, Height: 126}, ColumnWord: "blade", Axis: "height of the tip, inches",
		Band:    &Band{Lo: 13.906, Hi: 14.906, LoLabel: "13.906", HiLabel: "14.906", Word: "limit: at most 1 in"},
		Nominal: &Level{Value: 14.406, Label: "14.406"}}
	left := BarSeries{Name: "As left", Role: Standing}
	for i, v := range []float64{14.5625, 14.5625, 14.5, 14.3125, 14.375, 14.25, 14.25, 14.5} {
		b.Columns = append(b.Columns, fmt.Sprint(i+1))
		left.Values = append(left.Values, BarValue{Value: v, Label: fmt.Sprintf("14-%d/16", i)})
	}
	b.Series = []BarSeries{{Name: "As found", Role: Earlier, Values: left.Values}, left}
	for _, v := range left.Values {
		if _, ok := record(t, b).find(v.Label); !ok {
			t.Errorf("no label %s", v.Label)
		}
	}
}

func TestCrowdedKeepsWhatMatters(t *testing.T) {
	p := clearanceOf(36)
	rs := p.Series[1].Readings
	rs[9].Mark, rs[9].Label = Outside, "9/16 out"
	rs[27] = Reading{At: 270, Tick: "270°", Label: "blocked", Absent: true}
	rs[19].Label = "worst"
	p.Worst = &Callout{At: rs[19].At, Text: "least here"}
	r := record(t, p)
	for _, want := range []string{"9/16 out", "blocked", "worst", "least here"} {
		if _, ok := r.find(want); !ok {
			t.Errorf("no label %q", want)
		}
	}
	if l, _ := r.find("9/16 out"); !l.bold {
		t.Error("the label of a reading outside is not semibold")
	}
}

func TestTextIsLargeEnoughAndDark(t *testing.T) {
	for name, fig := range gallery() {
		for _, l := range record(t, fig).labels {
			if l.size < 6.5 {
				t.Errorf("%s: %q is %.1f pt", name, l.text, l.size)
			}
			if c := contrast(l.ink.R, l.ink.G, l.ink.B); c < 4.5 {
				t.Errorf("%s: %q has contrast %.1f", name, l.text, c)
			}
		}
	}
}

// contrast on white, WCAG 2.1, definitions of contrast ratio and relative luminance.
func contrast(r, g, b uint8) float64 {
	lin := func(v uint8) float64 {
		c := float64(v) / 255
		if c <= 0.03928 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 1.05 / (0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b) + 0.05)
}

func TestContrastAgainstKnownPairs(t *testing.T) {
	// Black on white is 21:1 by definition; #767676 is the well known lightest
	// gray that passes 4.5:1 (value from memory).
	for _, c := range []struct {
		tone     Tone
		min, max float64
	}{{0x000000, 20.99, 21.01}, {0x767676, 4.5, 4.6}, {0x777777, 4.4, 4.5}} {
		r, g, b := c.tone.RGB()
		if got := contrast(r, g, b); got < c.min || got > c.max {
			t.Errorf("%06X: contrast %.2f", c.tone, got)
		}
	}
}

// TestFontProportions: capital height and descent as the layout assumes them are
// those of the embedded fonts.
func TestFontProportions(t *testing.T) {
	f := loadFonts(t)
	for name, font := range map[string]*truetype.Font{"regular": f.Regular, "semibold": f.SemiBold} {
		em := fixed.Int26_6(font.FUnitsPerEm())
		var g truetype.GlyphBuf
		if err := g.Load(font, em, font.Index('H'), 0); err != nil {
			t.Fatal(err)
		}
		if got := float64(g.Bounds.Max.Y) / float64(em); math.Abs(got-capHeight) > 0.003 {
			t.Errorf("%s: capital height %.3f, assumed %.3f", name, got, capHeight)
		}
		if err := g.Load(font, em, font.Index('p'), 0); err != nil {
			t.Fatal(err)
		}
		if got := -float64(g.Bounds.Min.Y) / float64(em); got > descent {
			t.Errorf("%s: letters reach %.3f below the line, assumed %.3f", name, got, descent)
		}
		// Digits of one width: figures line up.
		for _, r := range "0123456789" {
			if width(font, 1000, string(r)) != width(font, 1000, "0") {
				t.Errorf("%s: digit %c is not as wide as 0", name, r)
			}
		}
	}
}
