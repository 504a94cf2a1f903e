//go:build outside

package lookbook_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"asleft/internal/lookbook"
	"asleft/report"
)

// look is a page of the book: the last page of a document that has all these
// words.
type look struct {
	name, document string
	words          []string
}

var looks = []look{
	{"front", "demo", []string{"Fan drive alignment and turnover record", "Plant", "Document no."}},
	{"contents", "demo", []string{"How to check this record", "Revision"}},
	{"summary", "demo", []string{"Heads link to cells"}},
	{"all-cells", "demo", []string{"All cells at one scale", "Fan tilt", "Tip clearance"}},
	{"cell", "demo", []string{"Cell 3 (CT-2/3)", "Lock out: starter"}},
	{"moves", "demo", []string{"Cell 3 (CT-2/3)", "What to move"}},
	{"drive-line", "demo", []string{"Cell 3 (CT-2/3)", "drive line", "seen from above", "Coupling at the motor"}},
	{"by-position", "demo", []string{"Cell 3 (CT-2/3): by position"}},
	{"by-blade", "demo", []string{"Cell 3 (CT-2/3): by blade"}},
	{"fasteners", "demo", []string{"Cell 3 (CT-2/3): fasteners"}},
	{"start-up", "demo", []string{"Cell 1 (CT-2/1)", "Electrical", "Volts 1 to 2"}},
	{"sign-off", "demo", []string{"Sign in ink here"}},
	{"archive", "demo", []string{"Laid out as", "PDF/UA-1"}},
	{"metric-front", "metric", []string{"Fan drive alignment and turnover record", "Plant", "Document no."}},
	{"metric-by-position", "metric", []string{"Cell 2 (K2): by position"}},
	{"card", "card", []string{"Cell 4 (CT-2/4): what to move"}},
	{"note", "note", []string{"Audit of Fan drive alignment"}},
}

// documents makes a file of each kind.
func documents(t *testing.T) map[string]string {
	t.Helper()
	demo, metric := open(t, "demo.xlsx"), open(t, "metric.xlsx")
	var pdf, a4, card, note bytes.Buffer
	must(t, demo.WritePDF(&pdf))
	must(t, metric.WritePDF(&a4))
	must(t, demo.WriteCard(&card))
	audited, err := report.Audit(bytes.NewReader(pdf.Bytes()), int64(pdf.Len()), report.AuditOptions{})
	must(t, err)
	must(t, audited.WritePDF(&note, "demo.pdf", time.Date(2026, 4, 1, 8, 0, 0, 0, time.UTC), "", ""))
	files, folder := map[string]string{}, t.TempDir()
	for name, b := range map[string]*bytes.Buffer{"demo": &pdf, "metric": &a4, "card": &card, "note": &note} {
		files[name] = filepath.Join(folder, name+".pdf")
		must(t, os.WriteFile(files[name], b.Bytes(), 0o644))
	}
	return files
}

func open(t *testing.T, name string) *report.Job {
	t.Helper()
	const folder = "../../testdata"
	f, err := os.Open(filepath.Join(folder, name))
	must(t, err)
	t.Cleanup(func() { f.Close() })
	stat, err := f.Stat()
	must(t, err)
	job, err := report.OpenAll([]report.Source{{Name: name, Reader: f, Size: stat.Size(), Folder: os.DirFS(folder)}}, report.Options{})
	must(t, err)
	return job
}

// printed are the words of a document by pdftotext, page by page.
type printed struct {
	Pages []struct {
		Words []word `xml:"word"`
	} `xml:"body>doc>page"`
}

type word struct {
	Left   float64 `xml:"xMin,attr"`
	Top    float64 `xml:"yMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Text   string  `xml:",chardata"`
}

func wordsOf(t *testing.T, file string) printed {
	t.Helper()
	var p printed
	must(t, xml.Unmarshal([]byte(output(t, "pdftotext", "-bbox", file, "-")), &p))
	return p
}

// find is the number of the page of a look, from 1.
func (p printed) find(t *testing.T, l look) int {
	t.Helper()
	for n := len(p.Pages); n > 0; n-- {
		var text strings.Builder
		for _, w := range p.Pages[n-1].Words {
			text.WriteString(strings.ReplaceAll(w.Text, "\u00a0", " ") + " ")
		}
		if containsAll(text.String(), l.words) {
			return n
		}
	}
	t.Fatalf("%s: no page of %s has %q", l.name, l.document, l.words)
	return 0
}

func containsAll(s string, parts []string) bool {
	for _, p := range parts {
		if !strings.Contains(s, p) {
			return false
		}
	}
	return true
}

// hash is a text that changes with any byte of the workbook or the program: a hash, or
// the size of a file.
var hash = regexp.MustCompile(`^([0-9a-f]{8,}[.,]?|[0-9]{6,7})$`)

// hashes are the places of such texts on a page.
func (p printed) hashes(page int) (found []image.Rectangle) {
	const scale = lookbook.Resolution / 72.0
	for _, w := range p.Pages[page-1].Words {
		if hash.MatchString(w.Text) {
			found = append(found, image.Rect(int(w.Left*scale), int(w.Top*scale),
				int(math.Ceil(w.Right*scale)), int(math.Ceil(w.Bottom*scale))))
		}
	}
	return found
}

// rendered is a page as poppler draws it.
func rendered(t *testing.T, file string, page int) image.Image {
	t.Helper()
	to := filepath.Join(t.TempDir(), "page")
	n := strconv.Itoa(page)
	output(t, "pdftoppm", "-png", "-singlefile", "-r", strconv.Itoa(2*lookbook.Resolution), "-f", n, "-l", n, file, to)
	return halved(t, to+".png")
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	c := exec.Command(name, args...)
	var stderr bytes.Buffer
	c.Stderr = &stderr
	out, err := c.Output()
	if err != nil {
		t.Fatalf("%s: %v: %s", c, err, stderr.Bytes())
	}
	return string(out)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
