package page

import (
	"bytes"
	"fmt"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"asleft/internal/archive"
)

// contents are the pages' contents of an uncompressed file.
func contents(t *testing.T, raw []byte) [][]byte {
	t.Helper()
	var out [][]byte
	for _, m := range regexp.MustCompile(`/Contents (\d+) 0 R`).FindAllSubmatch(raw, -1) {
		at := bytes.Index(raw, []byte("\n"+string(m[1])+" 0 obj\n"))
		rest := raw[at:]
		from := bytes.Index(rest, []byte("stream\n")) + len("stream\n")
		out = append(out, rest[from:from+bytes.Index(rest[from:], []byte("\nendstream"))])
	}
	return out
}

// opens is what begins a line of content that opens marked content.
var opens = regexp.MustCompile(`^/(\w+) <<(?:/MCID (\d+)|/Type /(\w+)).*>> BDC$`)

// spoken reads a page: the text of each marked run, and whether it is balanced
// and without a painting operator outside of marked content.
func spoken(content []byte) (map[int]string, map[int]string, error) {
	texts, roles := map[int]string{}, map[int]string{}
	in, mcid, depth := false, -1, 0
	shows := regexp.MustCompile(`(?s)\((.*)\) Tj`)
	paints := regexp.MustCompile(`(?:^|\s)(?:f|S|B|Tj)$`)
	for _, line := range lexLines(content) {
		switch {
		case opens.Match(line):
			m := opens.FindSubmatch(line)
			if in {
				return nil, nil, fmt.Errorf("marked content inside marked content")
			}
			in, mcid = true, -1
			if len(m[2]) > 0 {
				mcid, _ = strconv.Atoi(string(m[2]))
				if mcid != len(texts) {
					return nil, nil, fmt.Errorf("run %d after %d runs", mcid, len(texts))
				}
				texts[mcid], roles[mcid] = "", string(m[1])
			}
		case string(line) == "EMC":
			if !in {
				return nil, nil, fmt.Errorf("end of marked content that is not open")
			}
			in = false
		case bytes.HasPrefix(line, []byte("q")):
			depth++
		case string(line) == "Q":
			depth--
		case paints.Match(bytes.TrimSuffix(line, []byte(" ET"))) && !in:
			return nil, nil, fmt.Errorf("%q outside of marked content", line)
		}
		if m := shows.FindSubmatch(line); m != nil && mcid >= 0 {
			texts[mcid] += utf16Text(m[1])
		}
	}
	if in || depth != 0 {
		return nil, nil, fmt.Errorf("not closed at the end of the page")
	}
	return texts, roles, nil
}

// lexLines splits content at line ends outside of strings.
func lexLines(content []byte) [][]byte {
	var out [][]byte
	start, text := 0, false
	for i := 0; i < len(content); i++ {
		switch c := content[i]; {
		case text && c == '\\':
			i++
		case c == '(' && !text:
			text = true
		case c == ')' && text:
			text = false
		case c == '\n' && !text:
			out = append(out, content[start:i])
			start = i + 1
		}
	}
	return append(out, content[start:])
}

// utf16Text undoes the escapes of a string and its UTF-16.
func utf16Text(s []byte) string {
	var b []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' {
			i++
			if s[i] == 'r' {
				b = append(b, '\r')
				continue
			}
		}
		b = append(b, s[i])
	}
	var u []uint16
	for i := 0; i+1 < len(b); i += 2 {
		u = append(u, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(u))
}

// reader follows the structure tree through the pages.
type reader struct {
	t      *testing.T
	name   string
	pages  []map[int]string
	roles  []map[int]string
	seen   map[archive.Run]bool
	values map[string]string
	text   strings.Builder
}

func (r *reader) walk(e *archive.Element) {
	direct := 0
	for _, k := range e.Kids {
		switch {
		case k.Element != nil:
			r.walk(k.Element)
		case k.Run != nil:
			direct++
			if r.seen[*k.Run] {
				r.t.Errorf("%s: run %v belongs to two elements", r.name, *k.Run)
			}
			r.seen[*k.Run] = true
			if got := r.roles[k.Run.Page][k.Run.MCID]; got != string(e.Role) {
				r.t.Errorf("%s: run %v is marked %s, its element is %s", r.name, *k.Run, got, e.Role)
			}
			s := r.pages[k.Run.Page][k.Run.MCID]
			r.text.WriteString(s)
			if e.ID != "" {
				r.values[e.ID] = s
			}
		}
	}
	if e.ID != "" && (direct != 1 || len(e.Kids) != 1) {
		r.t.Errorf("%s: value %s has %d runs and %d kids, expected one", r.name, e.ID, direct, len(e.Kids))
	}
}

// checkMarks asks that every page is balanced, every run is in the structure
// once, every value can be read back, and all text is there in its order.
func checkMarks(t *testing.T, name string, raw []byte, doc *archive.Document, b *Book) {
	t.Helper()
	r := &reader{t: t, name: name, seen: map[archive.Run]bool{}, values: map[string]string{}}
	total := 0
	for i, c := range contents(t, raw) {
		texts, roles, err := spoken(c)
		if err != nil {
			t.Errorf("%s: page %d: %v", name, i+1, err)
			return
		}
		if len(texts) != doc.Pages[i].Runs {
			t.Errorf("%s: page %d has %d runs, recorded are %d", name, i+1, len(texts), doc.Pages[i].Runs)
		}
		total += len(texts)
		r.pages, r.roles = append(r.pages, texts), append(r.roles, roles)
	}
	if len(r.pages) != len(doc.Pages) {
		t.Errorf("%s: %d pages drawn, %d recorded", name, len(r.pages), len(doc.Pages))
		return
	}
	r.walk(doc.Root)
	if len(r.seen) != total {
		t.Errorf("%s: %d runs drawn, %d in the structure", name, total, len(r.seen))
	}
	given := gather(b)
	for _, g := range given {
		if g.ID != "" && r.values[g.ID] != g.Text {
			t.Errorf("%s: value %s reads %q, given was %q", name, g.ID, r.values[g.ID], g.Text)
		}
	}
	read := r.text.String()
	for _, g := range given {
		at := strings.Index(read, g.Text)
		if at < 0 {
			t.Errorf("%s: %q is not in what is read, or not in its place", name, g.Text)
			return
		}
		read = read[at+len(g.Text):]
	}
}

// gather is every run of a book in reading order.
func gather(b *Book) []Run {
	var out []Run
	var blocks func([]Block)
	cells := func(cs []TableCell) {
		for _, c := range cs {
			out = append(out, c.Runs...)
		}
	}
	blocks = func(bs []Block) {
		for _, bl := range bs {
			switch v := bl.(type) {
			case Heading:
				out = append(out, v.Runs...)
			case Paragraph:
				out = append(out, v.Runs...)
			case List:
				out = append(out, slices.Concat(v.Items...)...)
			case Table:
				out = append(out, v.Caption...)
				for _, h := range v.Head {
					cells(h)
				}
				for _, r := range v.Rows {
					cells(r.Cells)
				}
			case Columns:
				for _, c := range v.Blocks {
					blocks(c)
				}
			case Panel:
				blocks(v.Blocks)
			case Tiles:
				for _, t := range v.Tiles {
					out = append(append(out, t.Head...), slices.Concat(t.Lines...)...)
				}
			}
		}
	}
	for _, s := range b.Sections {
		blocks(s.Blocks)
	}
	return slices.DeleteFunc(out, func(r Run) bool { return r.Text == "" })
}

func TestMarks(t *testing.T) {
	b := testBook()
	raw, doc, err := Emit(placed(t, b))
	if err != nil {
		t.Fatal(err)
	}
	checkMarks(t, "book", raw, &doc, &b)
}

// TestSameBytes: drawn twice, placed on one processor or on several, a book is
// the same.
func TestSameBytes(t *testing.T) {
	write := func() []byte {
		out, err := Write(testBook())
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	first := write()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, n := range []int{1, 4} {
		runtime.GOMAXPROCS(n)
		if !bytes.Equal(first, write()) {
			t.Errorf("other bytes on %d processors", n)
		}
	}
	p := placed(t, testBook())
	before := p.Dump()
	for range 2 {
		if _, _, err := Emit(p); err != nil {
			t.Fatal(err)
		}
	}
	if p.Dump() != before {
		t.Error("drawing changes the placed book")
	}
}

func TestOutline(t *testing.T) {
	_, doc, err := Emit(placed(t, testBook()))
	if err != nil {
		t.Fatal(err)
	}
	var s []string
	for _, b := range doc.Outline {
		s = append(s, fmt.Sprint(b.Text, " ", b.To.Page))
		for _, k := range b.Kids {
			s = append(s, fmt.Sprint("> ", k.Text, " ", k.To.Page))
		}
	}
	want := "Summary 0|Contents 1|Cell 3 — outside 2|> Tip clearance 2|Legend 4|Sign-off 5"
	if got := strings.Join(s, "|"); got != want {
		t.Errorf("outline %q, expected %q", got, want)
	}
}

// TestColorsAreRGB: no gray or process color, which another output intent would
// be needed for; and no color state that the page writer keeps to itself.
func TestColorsAreRGB(t *testing.T) {
	raw, _, err := Emit(placed(t, testBook()))
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range contents(t, raw) {
		if m := regexp.MustCompile(`(?m)(?:^|\s)(?:g|G|k|K|cs|CS|sc|gs)$`).Find(c); m != nil {
			t.Errorf("page %d: operator %q", i+1, m)
		}
	}
}
