package archive

import (
	"bytes"
	"maps"
	"slices"
	"testing"

	"golang.org/x/image/font"
	opentype "golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"asleft/fonts"
)

// Bounds and widths of glyphs are those that golang.org/x/image reads.
func TestGlyphsAreReadAsOthersDo(t *testing.T) {
	for name, b := range map[string][]byte{"sans": fonts.Sans, "condensed": fonts.SansCondensed, "mono": fonts.Mono} {
		theirs, err := opentype.Parse(b)
		if err != nil {
			t.Fatal(err)
		}
		ours, err := ReadTypeface(name, b)
		if err != nil {
			t.Fatal(err)
		}
		var buf opentype.Buffer
		em := fixed.I(ours.sfnt.em)
		read := 0
		for r := ' '; r < 0x2300; r++ {
			g, err := theirs.GlyphIndex(&buf, r)
			if err != nil || g == 0 {
				continue
			}
			if int(g) != ours.glyph(r) {
				t.Fatalf("%s %q: glyph %d, not %d", name, r, ours.glyph(r), g)
			}
			box, advance, err := theirs.GlyphBounds(&buf, g, em, font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			width, _ := ours.sfnt.metrics(int(g))
			is, draws := ours.sfnt.bounds(int(g))
			want := [4]int{box.Min.X.Round(), -box.Max.Y.Round(), box.Max.X.Round(), -box.Min.Y.Round()}
			if int(width) != advance.Round() || draws && is != want {
				t.Errorf("%s %q: %d wide, %v; they say %d, %v", name, r, width, is, advance.Round(), want)
			}
			if ours.Shape(r) == "" {
				t.Errorf("%s %q has no shape", name, r)
			}
			read++
		}
		if read < 200 {
			t.Errorf("%s: only %d glyphs", name, read)
		}
	}
}

// What a file has of a typeface is as in the typeface, and characters that look
// alike at no size differ.
func TestSubsetsHaveTheShapesOfTheirTypeface(t *testing.T) {
	s := newSample()
	s.addPage()
	const said = "0123456789 äÅç ½ Ω"
	s.text(RoleH1, "sans", 9, 72, 72, said)
	r, err := Open(s.finished(t))
	if err != nil {
		t.Fatal(err)
	}
	used, err := r.UsedTypefaces()
	i := slices.IndexFunc(used, func(u *UsedTypeface) bool { _, ok := u.First['½']; return ok })
	if err != nil || i < 0 {
		t.Fatalf("%d typefaces, %v", len(used), err)
	}
	whole, err := ReadTypeface("sans", fonts.Sans)
	if err != nil {
		t.Fatal(err)
	}
	u := used[i]
	if u.Hinted() || !whole.Hinted() {
		t.Errorf("hinted: the file's %t, the typeface %t", u.Hinted(), whole.Hinted())
	}
	whole = whole.Unhinted()
	seen := map[string]rune{}
	for _, c := range u.Chars() {
		shape := u.Shape(c)
		if shape == "" || shape != whole.Shape(c) {
			t.Errorf("%q has another shape", c)
		}
		if other, twice := seen[shape]; twice {
			t.Errorf("%q and %q look alike", c, other)
		}
		seen[shape] = c
		if shown, ok := whole.Showing(shape); !ok || shown != c {
			t.Errorf("%q shows as %q, %t", c, shown, ok)
		}
	}
	if len(seen) < 15 || !u.SameCut(whole) {
		t.Errorf("%d characters, same cut %t", len(seen), u.SameCut(whole))
	}
	other, err := ReadTypeface("condensed", fonts.SansCondensed)
	if err != nil || u.Shape('8') == other.Shape('8') || u.Shape('8') == "" {
		t.Errorf("another typeface has the same shape, %v", err)
	}
}

// Without what fits it to a screen, every glyph has the outline that
// golang.org/x/image reads from the whole typeface, and half of the bytes are gone.
func TestUnhinted(t *testing.T) {
	for name, b := range map[string][]byte{"sans": fonts.Sans, "condensed": fonts.SansCondensed, "mono": fonts.Mono} {
		f, err := readFont(b)
		if err != nil {
			t.Fatal(err)
		}
		plain, err := f.unhinted()
		if err != nil {
			t.Fatal(err)
		}
		written := plain.write(slices.Collect(maps.Keys(plain.tables)))
		if len(plain.tables["glyf"]) > 2*len(f.tables["glyf"])/3 || plain.hinted() || !f.hinted() {
			t.Errorf("%s: %d bytes of outlines, without instructions %d", name, len(f.tables["glyf"]), len(plain.tables["glyf"]))
		}
		before, err := opentype.Parse(b)
		if err != nil {
			t.Fatal(err)
		}
		after, err := opentype.Parse(written)
		if err != nil {
			t.Fatal(err)
		}
		var one, two opentype.Buffer
		for g := range opentype.GlyphIndex(f.glyphs) {
			want, err := before.LoadGlyph(&one, g, fixed.I(f.em), nil)
			if err != nil {
				t.Fatal(err)
			}
			got, err := after.LoadGlyph(&two, g, fixed.I(f.em), nil)
			if err != nil || !slices.Equal(got, want) {
				t.Errorf("%s: glyph %d changed: %v", name, g, err)
			}
		}
	}
}

// A glyph of parts of itself, and one that is cut off, have no shape.
func TestDamagedGlyphs(t *testing.T) {
	f, err := readFont(bytes.Clone(fonts.Sans))
	if err != nil {
		t.Fatal(err)
	}
	f.tables["loca"], f.glyphs = []byte{0, 0, 0, 0, 0, 0, 0, 16}, 1
	f.tables["head"][51] = 1
	for name, glyf := range map[string]string{
		"itself":  "\xff\xff\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00",
		"cut off": "\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\xff\x00\x00",
	} {
		f.tables["glyf"] = []byte(glyf)
		if o, err := f.outlineOf(0, false); err == nil {
			t.Errorf("%s: %q", name, o.spell)
		}
		if _, err := f.unhinted(); name == "cut off" && err == nil {
			t.Errorf("%s: written without instructions", name)
		}
	}
}
