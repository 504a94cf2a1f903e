package page

import (
	"errors"
	"fmt"
	"math/rand"
	"strings"
	"testing"
)

// author makes random books.
type author struct {
	r     *rand.Rand
	ids   int
	depth int
	rows  int
}

var vocabulary = []string{"gap", "blade", "tip", "clearance", "the", "of", "μέτρηση", "измерение", "½", "1-1/4", "≤", "Straßenverkehrsordnungsamt", "c03_clearance_asleft", "210°"}

func (a *author) run(most int) Run {
	var s []string
	for range 1 + a.r.Intn(most) {
		s = append(s, vocabulary[a.r.Intn(len(vocabulary))])
	}
	r := Run{Text: strings.Join(s, " ") + " ", Face: Face(a.r.Intn(4)), Break: a.r.Intn(9) == 0}
	if a.r.Intn(6) == 0 {
		r.Text = strings.Repeat("0123456789abcdef", 1+a.r.Intn(8)) + " "
		r.Face = Regular
	}
	if r.Face == Mono {
		r.Text = "abc Δθ 012 " // the Greek is lent
	}
	if a.r.Intn(4) == 0 {
		a.ids++
		r.ID = fmt.Sprintf("v.%d", a.ids)
	}
	if a.r.Intn(5) == 0 {
		r.Mark, r.Say = Mark(1+a.r.Intn(11)), "mark"
	}
	return r
}

func (a *author) runs() []Run {
	var out []Run
	for range 1 + a.r.Intn(4) {
		out = append(out, a.run(12))
	}
	return out
}

// cellRuns are mostly short, as what stands in tables is.
func (a *author) cellRuns() []Run {
	if a.r.Intn(20) == 0 && a.depth < 3 {
		return a.runs()
	}
	return runs(a.run(2))
}

func (a *author) blocks(n int) []Block {
	var out []Block
	a.depth++
	for range n {
		out = append(out, a.block())
	}
	a.depth--
	return out
}

func (a *author) block() Block {
	kinds := 9
	if a.depth > 2 {
		kinds = 5
	}
	switch a.r.Intn(kinds) {
	case 0:
		return Heading{Level: 2, Runs: a.runs(), Bookmark: "b"}
	case 1:
		return Paragraph{Runs: a.runs(), Tone: Tone(a.r.Intn(5)), Align: Align(a.r.Intn(3)), Keep: a.r.Intn(4) == 0}
	case 2:
		return List{Numbered: a.r.Intn(2) == 0, Items: [][]Run{a.runs(), a.runs()}}
	case 3:
		return a.table(1 + a.r.Intn(6))
	case 4:
		return Space(a.r.Intn(40))
	case 5:
		return a.table(1 + a.r.Intn(80))
	case 6:
		return Panel{Tone: Tone(a.r.Intn(5)), Blocks: a.blocks(1 + a.r.Intn(4))}
	case 7:
		a.depth += 2 // nothing in columns may be higher than a page
		defer func() { a.depth -= 2 }()
		return Columns{Widths: []float64{1, 1 + a.r.Float64()}, Blocks: [][]Block{a.blocks(1), a.blocks(1)}}
	}
	return Tiles{PerRow: 1 + a.r.Intn(4), Tiles: []Tile{{Head: a.runs(), Lines: [][]Run{a.runs(), a.runs()}}, {Head: a.runs()}}}
}

func (a *author) table(rows int) Table {
	n := 1 + a.r.Intn(5)
	t := Table{Caption: a.runs()}
	var head []TableCell
	for range n {
		t.Columns = append(t.Columns, Column{Width: 0.5 + a.r.Float64(), Fit: a.r.Intn(2) == 0, Align: Align(a.r.Intn(4))})
		head = append(head, cell(run("head")))
	}
	t.Head = [][]TableCell{head}
	for range rows {
		var cells []TableCell
		for range n {
			cells = append(cells, TableCell{Runs: a.cellRuns(), Tone: Tone(a.r.Intn(5))})
		}
		if n > 1 && a.r.Intn(8) == 0 {
			cells = append(cells[2:], TableCell{Runs: a.cellRuns(), Span: 2})
		}
		t.Rows = append(t.Rows, TableRow{Cells: cells, Keep: a.r.Intn(8) == 0})
	}
	a.rows += rows
	return t
}

// TestRandomBooks: whatever the content, no two boxes overlap, none stands
// outside the margins, all rows and every value are there once, all text is
// there, and what is drawn agrees with what is recorded.
func TestRandomBooks(t *testing.T) {
	m := metrics(t)
	placed, refused := 0, 0
	for seed := range int64(60) {
		a := &author{r: rand.New(rand.NewSource(seed))}
		b := testBook()
		if seed%2 == 0 {
			b.Paper = A4
		}
		b.Sections = nil
		for i := range 2 {
			b.Sections = append(b.Sections, Section{Key: fmt.Sprint("s", i), Head: testHead("Random"), Blocks: append(
				[]Block{Heading{Level: 1, Runs: runs(run("Title")), Bookmark: "t"}}, a.blocks(4+a.r.Intn(8))...)})
		}
		p, err := Place(b, m)
		if errors.Is(err, ErrNoRoom) {
			refused++ // columns higher than a page
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		placed++
		rows := 0
		for _, c := range p.Counts {
			rows += c.Placed
		}
		if rows != a.rows {
			t.Errorf("seed %d: %d rows placed, %d given", seed, rows, a.rows)
		}
		checkBoxes(t, fmt.Sprintf("seed %d", seed), p)
		raw, doc, err := Emit(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		checkMarks(t, fmt.Sprintf("seed %d", seed), raw, &doc, &b)
		if t.Failed() {
			return
		}
	}
	t.Logf("%d books placed, %d refused", placed, refused)
	if placed < 2*refused {
		t.Errorf("only %d of %d books could be placed", placed, placed+refused)
	}
}

// checkBoxes asks that no text overlaps and that all stands in its place.
func checkBoxes(t *testing.T, name string, p *Placed) {
	t.Helper()
	w, h := pt(p.book.Paper.W), pt(p.book.Paper.H)
	for i := range p.pages {
		pg := &p.pages[i]
		for j := range pg.ink {
			k := &pg.ink[j]
			if k.x < marginLeft || k.x+k.w > w-marginRight || k.top() < marginTop || k.top()+k.height() > h-marginBottom {
				t.Errorf("%s: page %d: %q stands at %v %v, %v wide: outside the margins", name, i+1, k.text, k.x, k.top(), k.w)
			}
			for l := range j {
				o := &pg.ink[l]
				if k.x < o.x+o.w && o.x < k.x+k.w && k.top() < o.top()+o.height() && o.top() < k.top()+k.height() {
					t.Errorf("%s: page %d: %q and %q overlap", name, i+1, k.text, o.text)
				}
			}
		}
		for _, r := range pg.ground {
			if r.x < marginLeft || r.x+r.w > w-marginRight || r.y < marginTop || r.y+r.h > h-marginBottom || r.w < 0 || r.h < 0 {
				t.Errorf("%s: page %d: a fill at %v %v, %v by %v: outside the margins", name, i+1, r.x, r.y, r.w, r.h)
			}
		}
	}
}
