package page

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"
)

// broken is the lines of runs in a column of w points.
func broken(t *testing.T, w float64, rs ...Run) []string {
	t.Helper()
	b := &builder{m: metrics(t), key: "test"}
	got, err := b.text(&node{}, rs, set(running, textSize), pt(w))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, l := range got.lines {
		s := ""
		for _, k := range l.ink {
			s += k.text
		}
		if l.w > pt(w) {
			t.Errorf("line %q is %v wide, the column %v", s, l.w, w)
		}
		out = append(out, s)
	}
	return out
}

func TestLines(t *testing.T) {
	hash := strings.Repeat("0123456789abcdef", 4)
	for _, c := range []struct {
		name string
		w    float64
		runs []Run
		want []string
	}{
		{"space stays at the break", 66, runs(run("torque checked twice")), []string{"torque ", "checked twice"}},
		{"a value stays whole", 60, runs(run("gap of "), value("v", "1 1/4 in"), run(" here")), []string{"gap of ", "1 1/4 in here"}},
		{"a full stop stays with its value", 45, runs(run("gap of "), value("v", "1 1/4 in"), run(".")), []string{"gap of ", "1 1/4 in."}},
		{"fractions and codes stay whole", 52, runs(run("gap 1-1/4 is AB-CDE-12")), []string{"gap 1-1/4 is ", "AB-CDE-12"}},
		{"words break at their hyphen", 30, runs(run("low-side drop")), []string{"low-", "side ", "drop"}},
		{"a long word breaks after punctuation", 80, runs(run("c03_clearance_ASLEFT")), []string{"c03_clearance_", "ASLEFT"}},
		{"several spaces stay at the break", 40, runs(run("word   word")), []string{"word   ", "word"}},
		{"a break that is asked for", 200, runs(Run{Text: "within ", Break: true}, Run{Text: "0.5 in", ID: "v", Break: true}, run(" left")), []string{"within ", "0.5 in left"}},
		{"nothing is lost", 120, runs(run(hash)), nil},
		{"a value longer than a line", 120, runs(value("v", hash)), nil},
	} {
		got := broken(t, c.w, c.runs...)
		if c.want != nil && strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("%s: %q, expected %q", c.name, got, c.want)
		}
		if strings.Join(got, "") != plainText(c.runs) {
			t.Errorf("%s: %q is not the text", c.name, got)
		}
	}
}

// TestScripts: every character that people print on such a record has a glyph,
// in each face or in the one that lends to it.
func TestScripts(t *testing.T) {
	const all = "ABCxyz0189 ÄÖÜßéñçøŁő ΑΒΓΔΩαβγδεμθω ЖЙЯабвгдёяієїґ ½¼¾⅛⅜⅝⅞ ≤≥±°′″−×·–—…“”‘’„«»•√∞≈≠ µ€§№\u00a0\u202f"
	m := metrics(t)
	for f := range faceCount {
		for _, r := range all {
			if _, adv, ok := m.glyph(f, r); !ok || adv <= 0 && r != '\u202f' {
				t.Errorf("%s: no glyph for %q (%U)", f.file().name, r, r)
			}
		}
	}
}

// TestDigitsAreTabular: numbers under each other line up.
func TestDigitsAreTabular(t *testing.T) {
	m := metrics(t)
	for f := range faceCount {
		_, want, _ := m.glyph(f, '0')
		for r := '1'; r <= '9'; r++ {
			if _, got, _ := m.glyph(f, r); got != want {
				t.Errorf("%s: %q is %d wide, 0 is %d", f.file().name, r, got, want)
			}
		}
	}
}

// Each of several values in one run is a number in it.
func TestSeveralValues(t *testing.T) {
	for text, ok := range map[string]bool{"7 of 8": true, "7": false, "7 of 8 of 9": false, "seven of eight": false} {
		var te *TextError
		_, err := Place(oneSection(Paragraph{Runs: runs(value("v.1 v.2", text))}), metrics(t))
		if (err == nil) != ok || !ok && !errors.As(err, &te) {
			t.Errorf("%q: %v", text, err)
		}
	}
	_, err := Place(oneSection(Paragraph{Runs: runs(value("v.1 v.2", "7 of 8"), value("v.2", "8"))}), metrics(t))
	if err == nil || !strings.Contains(err.Error(), "twice") {
		t.Errorf("the same value in two runs: %v", err)
	}
}

func TestUnprintable(t *testing.T) {
	for _, c := range []struct {
		text string
		r    rune
		why  string
	}{
		{"gap \U0001F600", 0x1F600, "beyond U+FFFF"},
		{"gap \xff", utf8.RuneError, "invalid UTF-8"},
		{"a\tb", '\t', "control"},
		{"a\nb", '\n', "control"},
		{"a\u0085b", 0x85, "control"},
		{"a\u2028b", 0x2028, "control"},
		{"a\u202eb", 0x202E, "invisible"},
		{"a\u00adb", 0xAD, "invisible"},
		{"漢", '漢', "no glyph"},
	} {
		for where, block := range map[string]Block{
			"paragraph": Paragraph{Runs: runs(value("v.1", c.text))},
			"table":     Table{Columns: []Column{{Fit: true}}, Rows: []TableRow{{Cells: []TableCell{cell(value("v.1", c.text))}}}},
			"tile":      Tiles{PerRow: 1, Tiles: []Tile{{Head: runs(value("v.1", c.text))}}},
		} {
			var te *TextError
			_, err := Place(oneSection(block), metrics(t))
			if !errors.As(err, &te) {
				t.Errorf("%s, %+q: %v, expected a text error", where, c.text, err)
				continue
			}
			if te.Rune != c.r || te.ID != "v.1" || te.Section != "only" || te.Text != c.text || !strings.Contains(te.Why, c.why) {
				t.Errorf("%s, %+q: %+v", where, c.text, te)
			}
		}
	}
	b := oneSection()
	b.Sections[0].Head.Left = "漢"
	var te *TextError
	if _, err := Place(b, metrics(t)); !errors.As(err, &te) {
		t.Errorf("running head: %v, expected a text error", err)
	}
}

func TestDecimalColumn(t *testing.T) {
	table := Table{Columns: []Column{{Width: 1, Align: Decimal}}}
	texts := []string{"0.5", "12.25", "7", "−0.125", "3 in"}
	for _, s := range texts {
		table.Rows = append(table.Rows, TableRow{Cells: []TableCell{cell(run(s))}})
	}
	p := placed(t, oneSection(table))
	m := metrics(t)
	var axis mp
	for i, k := range p.pages[0].ink[3:] {
		left := texts[i]
		if cut := strings.IndexAny(left, ". "); cut >= 0 {
			left = left[:cut]
		}
		x := k.x
		for _, r := range left {
			_, u, _ := m.glyph(condensed, r)
			x += advance(u, tableSize)
		}
		if i == 0 {
			axis = x
		}
		if x != axis {
			t.Errorf("%q has its sign at %v, the first row at %v", texts[i], x, axis)
		}
	}
}

func TestLongFurnitureIsCut(t *testing.T) {
	b := oneSection()
	b.Draft = "NOT READY"
	b.Sections[0].Head = Head{Left: strings.Repeat("A very long plant name, ", 20), Right: "Document 1"}
	p := placed(t, b)
	ink := p.pages[0].head.ink
	left, right := ink[1], ink[len(ink)-1]
	if !strings.HasSuffix(left.text, ellipsis) || left.x+left.w > right.x || right.text != "Document 1" {
		t.Errorf("head %q to %v, then %q from %v", left.text, left.x+left.w, right.text, right.x)
	}
}

// TestContrast: text has at least 4.5:1 on every ground it may stand on
// (WCAG 2.1, 1.4.3; relative luminance as defined there).
func TestContrast(t *testing.T) {
	lum := func(c color) float64 {
		r, g, b := c.RGB()
		lin := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b)
	}
	texts := map[color]bool{inkColor: true, mutedColor: true}
	for m := MarkWithin; m <= MarkNotReady; m++ {
		texts[markColor(m)] = true
	}
	grounds := []color{0xFFFFFF, groundGood, groundWarn, groundBad}
	for c := range texts {
		for _, g := range grounds {
			if ratio := (lum(g) + 0.05) / (lum(c) + 0.05); ratio < 4.5 {
				t.Errorf("#%06x on #%06x: %.2f:1, expected 4.5:1", uint32(c), uint32(g), ratio)
			}
		}
	}
}
