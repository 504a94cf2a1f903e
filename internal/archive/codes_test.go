package archive

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"asleft/fonts"
)

func TestCodes(t *testing.T) {
	for cid := range 1 << 16 {
		code := appendCode(nil, cid)
		if want := map[bool]int{true: 1, false: 3}[cid >= 0x20 && cid < 0x80 || cid >= 0xA0 && cid < 0x100]; len(code) != want {
			t.Fatalf("U+%04X: % X", cid, code)
		}
		back, ok := appendCIDs(nil, code)
		if !slices.Contains(planes, cid>>8) {
			if ok {
				t.Fatalf("U+%04X is taken", cid)
			}
			continue
		}
		if !ok || !bytes.Equal(back, []byte{byte(cid >> 8), byte(cid)}) {
			t.Fatalf("U+%04X: % X reads % X", cid, code, back)
		}
	}
	for _, bad := range [][]byte{{0}, {0, 1}, {0, 0, 'a'}, {0x80, 0, 0}, {0x1F}, {'a', 0, 3}} {
		if _, ok := appendCIDs(nil, bad); ok {
			t.Errorf("% X is taken", bad)
		}
	}
}

// Every character of our typefaces has a code.
func TestPlanesAreThoseOfTheTypefaces(t *testing.T) {
	var have []int
	for name, b := range map[string][]byte{"sans": fonts.Sans, "condensed": fonts.SansCondensed, "mono": fonts.Mono} {
		f, err := ReadTypeface(name, b)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range f.all() {
			have = append(have, int(r>>8))
		}
	}
	slices.Sort(have)
	if have = slices.Compact(have); !slices.Equal(have, planes) {
		t.Errorf("%X, the typefaces have %X", planes, have)
	}
}

// A font with another CMap than ours is not read: its codes could mean anything.
func TestForeignCodes(t *testing.T) {
	b := drawSample().finished(t)
	font := 0
	for n, p := range mustOpen(t, b).places {
		if o, err := mustOpen(t, b).Object(n); err == nil && p.stream > 0 {
			if d, ok := o.(Dict); ok && d["Subtype"] == Name("Type0") {
				font = n
			}
		}
	}
	o, err := mustOpen(t, b).Object(font)
	if err != nil {
		t.Fatal(err)
	}
	unicode := o.(Dict)["ToUnicode"].(Ref)
	forged := revise(b, "", map[int]string{font: "<</Type/Font/Subtype/Type0/BaseFont/X/Encoding " + fmt.Sprint(int(unicode)) + " 0 R/DescendantFonts[]>>"})
	if _, err := mustOpen(t, forged).Values(); err == nil {
		t.Error("read all the same")
	}
}
