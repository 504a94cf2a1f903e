package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"regexp"
	"strings"
	"testing"

	"asleft/internal/measure"
)

// part unpacks one part of a workbook.
func part(t *testing.T, b []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The workbook as received lies in every package, so a cell of the form has to
// be light: it takes 19.8 KB of a blank one, and took 34.9 KB when most of its
// boxes were merged of narrow columns.
func TestCellIsLight(t *testing.T) {
	one, two := blank(t, FormOptions{Cells: 1}), blank(t, FormOptions{Cells: 2})
	if cell := len(two) - len(one); cell > 20800 {
		t.Errorf("a cell takes %d bytes", cell)
	}
}

// Every drop-down offers words of its own or points to a range that there is: a
// spreadsheet calls a workbook damaged where one does not.
func TestDropDownsAreThere(t *testing.T) {
	b := blank(t, FormOptions{Cells: 1, Units: measure.UnitMillimeter})
	book, err := openBook(b)
	if err != nil {
		t.Fatal(err)
	}
	list := regexp.MustCompile(`type="list"><formula1>([^<]*)</formula1>`)
	found := 0
	for n := range book.sheets {
		for _, m := range list.FindAllStringSubmatch(part(t, b, "xl/worksheets/sheet"+itoa(n+1)+".xml"), -1) {
			if strings.HasPrefix(m[1], `"`) || strings.HasPrefix(m[1], "&#34;") {
				continue
			}
			found++
			if a, ok := parseArea(m[1]); !ok || book.sheet(a.sheet) == nil {
				t.Errorf("sheet %d: a drop-down of %s", n+1, m[1])
			}
		}
	}
	if found < 10 { // people, instruments, and the lists of the guide
		t.Errorf("only %d drop-downs point anywhere", found)
	}
}

func TestJoined(t *testing.T) {
	for _, c := range []struct{ cells, want string }{
		{"C5 C6 C7", "C5:C7"},
		{"C5 D5 E5", "C5:E5"},
		{"C5 D5 C6 D6", "C5:D6"},
		{"C5 E5 C6 E6", "C5:C6 E5:E6"},
		{"C5 C7", "C5 C7"},
		{"C5:D5 C6", "C5:D5 C6"},
	} {
		var areas []area
		for _, cells := range strings.Fields(c.cells) {
			a, ok := parseArea("'x'!" + cells)
			if !ok {
				t.Fatal(cells)
			}
			areas = append(areas, a)
		}
		if got := listed(joined(areas)); got != c.want {
			t.Errorf("%s joined is %s, want %s", c.cells, got, c.want)
		}
	}
}
