package workbook

import "testing"

// Column names are base 26 without a zero: Z is followed by AA.
func TestColumnNames(t *testing.T) {
	for _, c := range []struct {
		n    int
		name string
	}{{1, "A"}, {26, "Z"}, {27, "AA"}, {52, "AZ"}, {53, "BA"}, {702, "ZZ"}, {703, "AAA"}, {16384, "XFD"}} {
		if got := columnName(c.n); got != c.name {
			t.Errorf("%d: %s, want %s", c.n, got, c.name)
		}
		if p, ok := parsePos(c.name + "7"); !ok || p != (pos{c.n, 7}) {
			t.Errorf("%s7: %v %v", c.name, p, ok)
		}
	}
	for n := 1; n <= maxColumns; n++ {
		if p, ok := parsePos("$" + columnName(n) + "$12"); !ok || p.col != n {
			t.Fatalf("%d: %s comes back as %d", n, columnName(n), p.col)
		}
	}
	for _, bad := range []string{"", "A", "7", "A0", "XFE1", "AAAA1", "A1048577", "A12345678", "A1 ", "Ä1", "A-1"} {
		if p, ok := parsePos(bad); ok {
			t.Errorf("%q was read as %s", bad, p)
		}
	}
}

func TestAreas(t *testing.T) {
	for _, c := range []struct{ text, sheet, cells string }{
		{"'Cell 1'!$C$12:$C$23", "Cell 1", "C12:C23"},
		{"Project!$B$5", "Project", "B5"},
		{"'It''s'!$A$1", "It's", "A1"},
		{"'a!b'!$A$1", "a!b", "A1"},
	} {
		a, ok := parseArea(c.text)
		if !ok || a.sheet != c.sheet || a.cells() != c.cells {
			t.Errorf("%s: %v %v", c.text, a, ok)
		}
		if a, ok = parseArea(a.absolute()); !ok || a.sheet != c.sheet || a.cells() != c.cells {
			t.Errorf("%s does not come back: %v", c.text, a)
		}
	}
	for _, bad := range []string{"", "#REF!", "Sheet1!#REF!", "Sheet1!$A$1,Sheet1!$B$2", "OFFSET(Sheet1!$A$1,1,1)",
		"Sheet1!$B$2:$A$1", "Sheet1!$A:$A", "[1]Sheet1!$A$1", "Sheet1!$1:$2", "1+1", "'Sheet1!$A$1"} {
		if a, ok := parseArea(bad); ok {
			t.Errorf("%q was read as %s %s", bad, a.sheet, a.cells())
		}
	}
}
