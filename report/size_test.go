package report_test

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strconv"
	"testing"

	"asleft/report"
)

// A cell takes at most 100 KB, without photos. What each kind of object takes of it is
// held here as well, so that a change that makes packages grow is seen; -v shows it.
func TestSizeOfPackage(t *testing.T) {
	const cells = 6
	file := pdf(t, open(t, "demo.xlsx", report.Options{}))
	limits := map[string]int{ // KB a cell
		"workbook": 28, "pages": 32, "structure": 25, "data": 16, "fixed": 5,
	}
	total := 0
	for kind, size := range sizes(t, file) {
		total += size
		t.Logf("%-10s %4d KB, %5.1f KB a cell", kind, size>>10, float64(size)/1024/cells)
		if size > limits[kind]*1024*cells {
			t.Errorf("%s: %d bytes a cell, limit %d KB", kind, size/cells, limits[kind])
		}
	}
	if len(file) > 100*1024*cells {
		t.Errorf("the package has %d bytes a cell", len(file)/cells)
	}
	t.Logf("%-10s %4d KB, %5.1f KB a cell", "all", len(file)>>10, float64(len(file))/1024/cells)
	if rest := len(file) - total; rest < 0 || rest > 1024 {
		t.Errorf("%d bytes are of no kind", rest)
	}
}

// object is an object of a finished file as it stands in it.
var object = regexp.MustCompile(`(?s)\d+ 0 obj\n<<(.*?)/Length (\d+)>>\nstream\n`)

// sizes adds up what lies in the file: the workbook, the content of pages, all
// objects without data of their own (structure, links, bookmarks), the data
// files, and what does not grow with the cells.
func sizes(t *testing.T, file []byte) map[string]int {
	t.Helper()
	out := map[string]int{}
	for at := 0; ; {
		m := object.FindSubmatchIndex(file[at:])
		if m == nil {
			return out
		}
		dict := file[at+m[2] : at+m[3]]
		length, err := strconv.Atoi(string(file[at+m[4] : at+m[5]]))
		if err != nil {
			t.Fatal(err)
		}
		data := file[at+m[1] : at+m[1]+length]
		end := at + m[1] + length + len("\nendstream\nendobj\n")
		out[kindOf(dict, data)] += end - at - m[0]
		at = end
	}
}

func kindOf(dict, data []byte) string {
	has := func(s string) bool { return bytes.Contains(dict, []byte(s)) }
	switch {
	case has("spreadsheetml"):
		return "workbook"
	case has("/EmbeddedFile"):
		return "data"
	case has("/ObjStm"), has("/XRef"):
		return "structure"
	case string(dict) == "/Filter/FlateDecode":
		if r, err := zlib.NewReader(bytes.NewReader(data)); err == nil {
			if b, err := io.ReadAll(r); err == nil && bytes.Contains(b, []byte("BDC")) {
				return "pages"
			}
		}
	}
	return "fixed"
}
