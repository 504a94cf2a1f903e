package page

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// rowHeight is the height of a one-line table row at the table size.
const rowHeight = 10_500 + 2*cellPadY

const twoLines = "This paragraph is here to keep the title company; it fills one line of the column to its very end and goes on to a second one."

// intro is the height that the title and the two lines take, with the gap below.
func intro() mp {
	h := headingStyle(1)
	return h.lead + h.below + 2*set(running, textSize).lead + paraGap
}

// oneSection is a book of one section.
func oneSection(blocks ...Block) Book {
	b := testBook()
	b.Draft = ""
	// Two lines free the title from what comes after them.
	first := []Block{Heading{Level: 1, Runs: runs(run("Title"))}, words(twoLines)}
	b.Sections = []Section{{Key: "only", Head: testHead("Only"), Blocks: append(first, blocks...)}}
	return b
}

// onPage is the text of a page in reading order, boxes parted by a bar.
func (p *Placed) onPage(i int) string {
	var s []string
	for _, k := range p.pages[i].ink {
		if k.text != "" {
			s = append(s, k.text)
		}
	}
	return strings.Join(s, "|")
}

// rowsOf is a table of n one-line rows "row 0", "row 1", … under a head.
func rowsOf(n int) Table {
	t := Table{Columns: []Column{{Width: 1}, {Width: 1}}, Head: [][]TableCell{{cell(run("head")), cell(run("other"))}}}
	for i := range n {
		t.Rows = append(t.Rows, TableRow{Cells: []TableCell{cell(run(fmt.Sprintf("row %d.", i))), cell(run("x"))}})
	}
	return t
}

// bodyHeight is the height of the column on a Letter page.
func bodyHeight() mp { return pt(Letter.H) - marginTop - marginBottom }

// filler takes up the page so that room is left below the gap of the intro.
func filler(room mp) Space { return Space((bodyHeight() - intro() - room).points()) }

func TestTableJustFits(t *testing.T) {
	// The gap after a paragraph is as wide as the one that a table asks for.
	const rows = 10
	need := mp(rows+1) * rowHeight
	for _, c := range []struct {
		name  string
		room  mp
		rows  int
		pages int
	}{
		{"exactly", need, rows, 1},
		{"a thousandth of a point less", need - 1, rows, 2},
		{"one more row", need, rows + 1, 2},
	} {
		p := placed(t, oneSection(filler(c.room), rowsOf(c.rows)))
		if p.Pages() != c.pages {
			t.Errorf("%s: %d pages, expected %d", c.name, p.Pages(), c.pages)
		}
		if p.Counts[0].Placed != c.rows {
			t.Errorf("%s: %d rows placed, expected %d", c.name, p.Counts[0].Placed, c.rows)
		}
		if c.pages == 2 {
			// Three rows go over together, under the repeated head.
			want := fmt.Sprintf("head|other|row %d.|x|row %d.|x|row %d.|x", c.rows-3, c.rows-2, c.rows-1)
			if got := p.onPage(1); got != want {
				t.Errorf("%s: second page %q, expected %q", c.name, got, want)
			}
			if p.pages[1].ink[0].chunk != 0 || p.pages[0].ink[3].chunk == 0 {
				t.Errorf("%s: the head is to be read once, its repeat never", c.name)
			}
		}
	}
}

// TestSmallTableStaysWhole: what fits no more goes over with all its rows.
func TestSmallTableStaysWhole(t *testing.T) {
	const rows = 9
	for room, want := range map[mp]string{(rows + 1) * rowHeight: "", (rows+1)*rowHeight - 1: "head|other|row 0.|x"} {
		p := placed(t, oneSection(filler(room), rowsOf(rows)))
		if want == "" {
			if p.Pages() != 1 {
				t.Errorf("room %v: %d pages", room, p.Pages())
			}
			continue
		}
		if p.Pages() != 2 || !strings.HasPrefix(p.onPage(1), want) {
			t.Errorf("room %v: %d pages, the last begins not with %q", room, p.Pages(), want)
		}
	}
}

func TestHeadingStaysWithThreeRows(t *testing.T) {
	head := Heading{Level: 2, Runs: runs(run("Readings"))}
	hs := headingStyle(2)
	need := hs.lead + max(hs.below, paraGap) + 4*rowHeight // heading, table head, three rows
	above := hs.above - paraGap                            // what it asks for beyond the gap of the intro
	for _, c := range []struct {
		room mp
		last string
	}{{need + above, "row 2.|x"}, {need + above - 1, "|one."}} {
		p := placed(t, oneSection(filler(c.room), head, rowsOf(12)))
		if got := p.onPage(0); !strings.HasSuffix(got, c.last) {
			t.Errorf("room %v: first page ends %q, expected %q", c.room, got, c.last)
		}
	}
}

func TestHeadingStaysWithTwoLines(t *testing.T) {
	long := strings.Repeat("word and word ", 60)
	lead := set(running, textSize).lead
	hs := headingStyle(2)
	above := hs.above - paraGap
	for n := mp(0); n < 4; n++ {
		p := placed(t, oneSection(filler(hs.lead+hs.below+above+n*lead), Heading{Level: 2, Runs: runs(run("Readings"))}, words(long)))
		var lines int
		for _, k := range p.pages[0].ink {
			if strings.HasPrefix(k.text, "word") || strings.HasPrefix(k.text, "and") {
				lines++
			}
		}
		want := int(n)
		if n < 2 {
			want = 0
		}
		if lines != want {
			t.Errorf("room for %d lines: %d stand under the heading, expected %d", n, lines, want)
		}
		if has := strings.Contains(p.onPage(0), "Readings"); has != (want > 0) {
			t.Errorf("room for %d lines: heading on the first page: %v", n, has)
		}
	}
}

func TestHeadingWithOneLineTakesMore(t *testing.T) {
	p := placed(t, oneSection(filler(90_000), Heading{Level: 2, Runs: runs(run("Readings"))}, words("One line."), rowsOf(9)))
	if !strings.Contains(p.onPage(0), "row 1.") && strings.Contains(p.onPage(0), "Readings") {
		t.Errorf("the heading stands with one line only: %q", p.onPage(0))
	}
}

func TestNoWidow(t *testing.T) {
	// Five lines with room for four: three stay and two go.
	lead := set(running, textSize).lead
	text := strings.Repeat("abcdefghij ", 45)
	whole := placed(t, oneSection(words(text)))
	n := len(whole.pages[0].ink) - 3
	if n < 5 {
		t.Fatalf("%d lines, expected five or more", n)
	}
	p := placed(t, oneSection(filler(mp(n-1)*lead), words(text)))
	if got := len(p.pages[1].ink); got != 2 {
		t.Errorf("%d lines on the second page, expected 2", got)
	}
}

// tall is a row with n lines in its first cell.
func tall(n int) TableRow {
	return TableRow{Cells: []TableCell{cell(run(strings.TrimSpace(strings.Repeat("LINE ", n)))), cell(run("beside"))}}
}

// narrow is a table whose first column holds one word to the line.
func narrow(rows ...TableRow) Table {
	return Table{Columns: []Column{{Width: 0.06}, {Width: 1}}, Head: [][]TableCell{{cell(run("a")), cell(run("b"))}}, Rows: rows}
}

func TestTallRow(t *testing.T) {
	// Under its head a page has room for n lines.
	n := int((bodyHeight() - rowHeight - 2*cellPadY) / 11_250)
	for _, c := range []struct{ lines, pages int }{{n, 2}, {n + 1, 3}, {3 * n, 5}} {
		p := placed(t, oneSection(narrow(tall(1), tall(1), tall(c.lines), tall(1), tall(1))))
		all := ""
		for i := range p.pages {
			all += p.onPage(i)
		}
		if got := strings.Count(all, "LINE"); got != c.lines+4 {
			t.Errorf("%d lines: %d are on pages", c.lines, got-4)
		}
		if p.Counts[0].Placed != 5 {
			t.Errorf("%d lines: %d rows placed, expected 5", c.lines, p.Counts[0].Placed)
		}
		for i := 1; i < p.Pages(); i++ {
			if !strings.HasPrefix(p.onPage(i), "a|b|") {
				t.Errorf("%d lines: page %d begins %.20q, expected the head", c.lines, i+1, p.onPage(i))
			}
		}
	}
}

// TestTallRowKeepsValues: where a row is parted, no value is.
func TestTallRowKeepsValues(t *testing.T) {
	// Values too long for any column in both of them halve the width.
	n := int((bodyHeight() - rowHeight - 2*cellPadY) / 11_250)
	const perLine = 11 // words, at least
	text := func(lines int) string { return strings.TrimSpace(strings.Repeat("LINE ", perLine*lines)) }
	row := TableRow{Cells: []TableCell{
		cell(run(text(n-10)+" "), value("v", text(25))),
		cell(run(text(n-20)+" "), value("w", text(30))),
	}}
	p := placed(t, oneSection(narrow(row)))
	if p.Pages() < 2 {
		t.Fatalf("%d pages: the row is not parted", p.Pages())
	}
	raw, doc, err := Emit(p)
	if err != nil {
		t.Fatal(err)
	}
	checkMarks(t, "tall row", raw, &doc, p.book)
	// Long enough for no page: an error, not a loss.
	row.Cells[0] = cell(value("v", text(2*n)))
	if _, err := Place(oneSection(narrow(row)), metrics(t)); !errors.Is(err, ErrNoRoom) {
		t.Errorf("a value too long for a page: %v, expected no room", err)
	}
}

func TestNothingVanishes(t *testing.T) {
	huge := rowsOf(60)
	for range 70 {
		huge.Head = append(huge.Head, []TableCell{cell(run("head")), cell(run("other"))})
	}
	for name, b := range map[string]Book{
		"heads higher than a page":  oneSection(huge),
		"figure higher than a page": oneSection(Picture{Figure: testFigure{100, 700}, Alt: "x"}),
		"columns higher than a page": oneSection(Columns{Widths: []float64{1, 1}, Blocks: [][]Block{
			{Panel{Blocks: []Block{rowsOf(60)}}}, {words("x")}}}),
		"a column too narrow": oneSection(Columns{Widths: []float64{1, 1000}, Blocks: [][]Block{{words("x")}, {words("y")}}, Gap: 1}),
	} {
		if _, err := Place(b, metrics(t)); !errors.Is(err, ErrNoRoom) {
			t.Errorf("%s: %v, expected no room", name, err)
		}
	}
}

// TestColumnsPartWhereNothingIsCut: tables side by side go on on the next page
// under their heads where their rows end at one height; where no height is free
// in both, they stay whole.
func TestColumnsPartWhereNothingIsCut(t *testing.T) {
	two := Columns{Widths: []float64{1, 1}, Blocks: [][]Block{{rowsOf(60)}, {rowsOf(70)}}}
	p := placed(t, oneSection(two))
	if p.Pages() != 2 || p.Counts[0].Placed != 60 || p.Counts[1].Placed != 70 {
		t.Fatalf("%d pages, %+v", p.Pages(), p.Counts)
	}
	if got := p.onPage(1); !strings.HasPrefix(got, "head|other|head|other|row ") {
		t.Errorf("second page %q, expected the heads of both tables", got)
	}
	uneven := rowsOf(10)
	uneven.Size = 9.25
	p = placed(t, oneSection(filler(100_000), Columns{Widths: []float64{1, 1}, Blocks: [][]Block{{uneven}, {rowsOf(10)}}}))
	if got := p.onPage(0); strings.Contains(got, "row") {
		t.Errorf("rows of different heights were parted: %q", got)
	}
}

func TestPanelSplitsOnlyWhenHigherThanPage(t *testing.T) {
	small := Panel{Tone: Warn, Blocks: []Block{rowsOf(10)}}
	p := placed(t, oneSection(filler(100_000), small))
	if got := p.onPage(0); !strings.HasSuffix(got, "|one.") {
		t.Errorf("a panel that fits on a page was parted: %q", got)
	}
	p = placed(t, oneSection(Panel{Tone: Warn, Blocks: []Block{rowsOf(100)}}))
	if p.Pages() < 3 || p.Counts[0].Placed != 100 {
		t.Errorf("%d pages, %d rows", p.Pages(), p.Counts[0].Placed)
	}
	for i := range p.pages {
		if p.pages[i].ground[0].color != groundWarn {
			t.Errorf("page %d: the panel's ground is missing", i+1)
		}
	}
}

// TestRefused: books that contradict themselves.
func TestRefused(t *testing.T) {
	heading := func(level int, anchor string) Heading {
		return Heading{Level: level, Runs: runs(run("h")), Anchor: anchor}
	}
	for name, c := range map[string]struct {
		block Block
		want  string
	}{
		"level skipped":      {heading(3, ""), "level 3 after one of level 1"},
		"level 0":            {heading(0, ""), "level 0"},
		"anchor twice":       {Panel{Blocks: []Block{heading(2, "a"), heading(2, "a")}}, `anchor "a" used twice`},
		"value twice":        {Paragraph{Runs: runs(value("v", "1"), value("v", "2"))}, `value "v" printed under the same ID twice`},
		"page of nowhere":    {Paragraph{Runs: runs(Run{Text: PageSlot, PageOf: "nowhere"})}, `anchor "nowhere"`},
		"dead link":          {Paragraph{Runs: runs(Run{Text: "there", Link: "nowhere"})}, `anchor "nowhere"`},
		"cells missing":      {Table{Columns: make([]Column, 2), Rows: []TableRow{{Cells: []TableCell{cell(run("x"))}}}}, "fills 1 of 2 columns"},
		"span too wide":      {Table{Columns: make([]Column, 2), Rows: []TableRow{{Cells: []TableCell{{Span: 3}}}}}, "span 3 of 2"},
		"no columns":         {Table{}, "without columns"},
		"no figure":          {Picture{Alt: "x"}, "without a figure"},
		"no alternative":     {Picture{Figure: testFigure{10, 10}}, "without alternative text"},
		"value without text": {Paragraph{Runs: runs(value("v", ""))}, "a value without text"},
		"break in columns":   {Columns{Widths: []float64{1}, Blocks: [][]Block{{words("a"), Break{}, words("b")}}}, "page break inside columns"},
		"bad share":          {Columns{Widths: []float64{-1}, Blocks: [][]Block{{words("a")}}}, "share -1"},
		"bad space":          {Space(-1), "space is -1 points"},
		"field twice":        {Panel{Blocks: []Block{Signature{Name: "a", Tooltip: "t"}, Signature{Name: "a", Tooltip: "t"}}}, `signature field "a"`},
		"no tooltip":         {Signature{Name: "a"}, "without a tooltip"},
		"no tiles to a row":  {Tiles{Tiles: make([]Tile, 1)}, "0 tiles to the row"},
	} {
		_, err := Place(oneSection(c.block), metrics(t))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, expected %q", name, err, c.want)
		}
		if err != nil && !strings.Contains(err.Error(), "only") {
			t.Errorf("%s: %v does not name the section", name, err)
		}
	}
}

func TestContents(t *testing.T) {
	p := placed(t, testBook())
	got := strings.Split(p.onPage(1), "|")
	// The numbers were read off the placed pages by eye.
	for entry, number := range map[string]string{"Summary ": "1", "Contents ": "2", "Cell 3 — outside ": "3", "Tip clearance ": "3", "Legend ": "5", "Sign-off ": "6"} {
		i := slices.Index(got[1:], entry) + 1
		if i == 0 || i+1 >= len(got) || got[i+1] != number {
			t.Errorf("contents %q: expected %q on page %s", got, entry, number)
		}
	}
}

func TestLostRowIsAnError(t *testing.T) {
	err := error(&RowError{Count{Section: "s", Table: 1, Caption: "c", Rows: 3, Placed: 2}})
	if want := `section s, table 1 "c": 2 of 3 rows placed`; err.Error() != want {
		t.Errorf("%q, expected %q", err, want)
	}
}

// TestPageOfAnAnchor: the number stands where its slot was, whatever its length.
func TestPageOfAnAnchor(t *testing.T) {
	b := oneSection(Paragraph{Runs: runs(run("as on page "), Run{Text: PageSlot, PageOf: "there"})})
	for i := range 11 {
		h := Heading{Level: 1, Runs: runs(run("Section"))}
		if i == 10 {
			h.Anchor = "there"
		}
		b.Sections = append(b.Sections, Section{Key: fmt.Sprint(i), Head: testHead("More"), Blocks: []Block{h}})
	}
	m, err := NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	p, err := Place(b, m)
	if err != nil {
		t.Fatal(err)
	}
	if text := p.onPage(0); !strings.Contains(text, "as on page |12") {
		t.Error(text)
	}
	if text := p.onPage(11); !strings.Contains(text, "Section") {
		t.Error(text)
	}
}
