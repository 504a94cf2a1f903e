package sign

import (
	"errors"
	"strings"
	"testing"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

// Every line stays inside the field, and no smaller type is taken than needed.
func TestLinesStayInside(t *testing.T) {
	plain, bold, err := faces()
	if err != nil {
		t.Fatal(err)
	}
	lines := []Line{{"A. Signer", true}, {"Example Contractor with a rather long name, of Example Town", false},
		{strings.Repeat("W", 60), false}, {"short", false}}
	const width, height = 190.0, 100.0
	sizes := 0
	for size := largest; size >= smallest; size -= sizeStep {
		set, used, err := arrange(lines, plain, bold, size, width)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range set {
			w, err := l.face.width(l.text)
			if err != nil || float64(w)/unit*size > width-2*margin || l.down > used {
				t.Errorf("at %v: %q is %d wide, at %v of %v", size, l.text, w, l.down, used)
			}
		}
		var all strings.Builder
		for _, l := range set {
			all.WriteString(strings.ReplaceAll(l.text, " ", ""))
		}
		if all.String() != strings.ReplaceAll(lines[0].Text+lines[1].Text+lines[2].Text+lines[3].Text, " ", "") {
			t.Errorf("at %v: text is %q", size, all.String())
		}
		sizes++
	}
	if sizes < 10 {
		t.Errorf("%d sizes", sizes)
	}
	if _, err := draw(lines, width, height); err != nil {
		t.Error(err)
	}
	if _, err := draw(lines, width, 20); !errors.Is(err, ErrNoRoom) {
		t.Errorf("in 20 points: %v", err)
	}
}

// An outline goes through the points of the font that lie on the curve, and is
// the same closed contour: its points are those of the font, in order.
func TestOutlineGoesThroughThePointsOfTheFont(t *testing.T) {
	plain, _, err := faces()
	if err != nil {
		t.Fatal(err)
	}
	var buf truetype.GlyphBuf
	for _, r := range "AgO8&ÄЖΩ%" {
		path, err := plain.outline(&buf, r)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(string(path), " m\n"); got != len(buf.Ends) {
			t.Errorf("%c: %d contours, not %d", r, got, len(buf.Ends))
		}
		if strings.Count(string(path), "h\n") != len(buf.Ends) {
			t.Errorf("%c: a contour is open", r)
		}
		if err := buf.Load(plain.font, fixed.Int26_6(unit), plain.font.Index(r), 0); err != nil {
			t.Fatal(err)
		}
		for _, p := range buf.Points {
			end := string(coordinates(p)) // of a move, a line or a curve
			if p.Flags&1 != 0 && !strings.Contains(string(path), end+" m\n") && !strings.Contains(string(path), end+" l\n") && !strings.Contains(string(path), end+" c\n") {
				t.Errorf("%c: point %s is not on the path", r, end)
			}
		}
	}
}

func coordinates(p truetype.Point) []byte {
	path := contour(nil, []truetype.Point{{X: p.X, Y: p.Y, Flags: 1}})
	head, _, _ := strings.Cut(string(path), " m")
	return []byte(head)
}

// A contour with no point on the curve at all, as a circle may be written.
func TestContourWithoutPointsOnIt(t *testing.T) {
	list := []truetype.Point{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}, {X: 0, Y: 100}}
	const want = "0 50 m\n0 17 17 0 50 0 c\n83 0 100 17 100 50 c\n100 83 83 100 50 100 c\n17 100 0 83 0 50 c\nh\n"
	if got := string(contour(nil, list)); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	list[3].Flags = 1 // begins at the last point
	const begun = "0 100 m\n0 33 17 0 50 0 c\n83 0 100 17 100 50 c\n100 83 67 100 0 100 c\nh\n"
	if got := string(contour(nil, list)); got != begun {
		t.Errorf("got %s, want %s", got, begun)
	}
}
