package archive

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/golang/freetype/truetype"
)

// Typeface is a whole typeface or what a file has of one: the shape of each
// character in it.
type Typeface struct {
	Name  string // without the tag of a subset
	glyph func(r rune) int
	sfnt  *sfnt
	plain bool          // as if nothing fitted its shapes to a screen
	all   func() []rune // every character, of a whole typeface
}

// ReadTypeface reads a TrueType font with a character map.
func ReadTypeface(name string, b []byte) (*Typeface, error) {
	program, err := readFont(b)
	if err != nil {
		return nil, err
	}
	f, err := truetype.Parse(b)
	if err != nil {
		return nil, fmt.Errorf("character map: %w", err)
	}
	t := &Typeface{Name: name, sfnt: program, glyph: func(r rune) int { return int(f.Index(r)) }}
	t.all = func() []rune {
		var list []rune
		for r := rune(' '); r <= lastBasic; r++ {
			if f.Index(r) > 0 {
				list = append(list, r)
			}
		}
		return list
	}
	return t, nil
}

// lastBasic is the last character that a code of two bytes can be.
const lastBasic = 0xFFFF

// Shape is how a character is drawn, and how wide it is: equal for two that look
// the same at every size. It is empty where the typeface has no such character or
// its glyph is damaged.
func (t *Typeface) Shape(r rune) string {
	g := t.glyph(r)
	if g == 0 {
		return ""
	}
	o, err := t.sfnt.outlineOf(g, t.plain)
	if err != nil {
		return ""
	}
	return string(o.spell)
}

// Showing is the first character that is drawn with a shape, whatever its width;
// false where none is.
func (t *Typeface) Showing(shape string) (rune, bool) {
	if t.all == nil || len(shape) < metricsLength {
		return 0, false
	}
	for _, r := range t.all() {
		if s := t.Shape(r); len(s) >= metricsLength && s[metricsLength:] == shape[metricsLength:] {
			return r, true
		}
	}
	return 0, false
}

// Hinted tells whether a program in the font fits its shapes to a screen. A file has
// none since 0.2.0.
func (t *Typeface) Hinted() bool { return t.sfnt.hinted() }

// Unhinted is the typeface as if it had no such program.
func (t *Typeface) Unhinted() *Typeface {
	plain := *t
	plain.plain = true
	return &plain
}

// SameCut tells whether two were made by the same hand at the same time: units,
// revision and dates, and the programs that fit shapes to a screen, unless one is to
// be taken as without.
func (t *Typeface) SameCut(other *Typeface) bool {
	a, b := t.sfnt.tables, other.sfnt.tables
	for _, n := range hintTables {
		if !t.plain && !other.plain && !bytes.Equal(a[n], b[n]) {
			return false
		}
	}
	// From revision to dates, but for the checksum (OpenType 1.9, table head).
	return bytes.Equal(a["head"][4:8], b["head"][4:8]) && bytes.Equal(a["head"][12:36], b["head"][12:36])
}

// UsedTypeface is a font of a file and the characters that are shown in it, each
// with the first page it is on.
type UsedTypeface struct {
	Typeface
	Object int
	First  map[rune]int // page, from 0
}

// Chars are the characters in use, rising.
func (u *UsedTypeface) Chars() []rune { return slices.Sorted(maps.Keys(u.First)) }

// UsedTypefaces reads every font with which a page shows text. What a code means
// has to be its own value, as everywhere in our files; [Reader.Meanings] tells.
func (r *Reader) UsedTypefaces() ([]*UsedTypeface, error) {
	pages, err := r.Pages()
	if err != nil {
		return nil, err
	}
	used := map[Ref]*UsedTypeface{}
	for i, p := range pages {
		if err := r.usedOn(i, p, used); err != nil {
			return nil, err
		}
	}
	var list []*UsedTypeface
	for _, ref := range slices.Sorted(maps.Keys(used)) {
		list = append(list, used[ref])
	}
	return list, nil
}

func (r *Reader) usedOn(i int, p PageObject, used map[Ref]*UsedTypeface) error {
	fonts, err := r.fontsOf(p)
	if err != nil {
		return err
	}
	content, err := r.content(p)
	if err != nil {
		return err
	}
	short, err := r.codesOf(fonts)
	if err != nil {
		return err
	}
	var fault error
	s := pageScan{short: short, show: func(_ int, name Name, codes []byte) {
		ref, ok := fonts[name].(Ref)
		if !ok || fault != nil {
			if fault == nil {
				fault = foreign("%s: no font /%s", pageName(i), name)
			}
			return
		}
		u := used[ref]
		if u == nil {
			if u, fault = r.usedTypeface(ref); fault != nil {
				return
			}
			used[ref] = u
		}
		for k := 0; k+1 < len(codes); k += 2 {
			c := rune(codes[k])<<8 | rune(codes[k+1])
			if _, known := u.First[c]; !known {
				u.First[c] = i
			}
		}
	}}
	scan(content, &s)
	return fault
}

func (r *Reader) fontsOf(p PageObject) (Dict, error) {
	resources, err := r.dict(p.Dict["Resources"], "resources")
	if err != nil {
		return nil, err
	}
	return r.dict(resources["Font"], "fonts")
}

func (r *Reader) usedTypeface(ref Ref) (*UsedTypeface, error) {
	d, err := r.dict(ref, "font")
	if err != nil {
		return nil, err
	}
	f, err := r.embeddedFont(d)
	if err != nil {
		return nil, inObject(int(ref), err)
	}
	name := string(f.written)
	if tag, rest, ok := strings.Cut(name, "+"); ok && len(tag) == subsetTagLength {
		name = rest
	}
	return &UsedTypeface{Typeface{Name: name, sfnt: f.program, glyph: func(c rune) int { return f.glyph(int(c)) }}, int(ref), map[rune]int{}}, nil
}
