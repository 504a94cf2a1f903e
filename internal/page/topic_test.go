package page

import (
	"fmt"
	"strings"
	"testing"
)

// topicBook has a section on which three topics follow each other: the second
// begins down a page, the third on a page of its own.
func topicBook() Book {
	b := testBook()
	lines := func(n int) []Block {
		var out []Block
		for i := range n {
			out = append(out, Paragraph{Runs: runs(run(fmt.Sprintf("line %d", i)))})
		}
		return out
	}
	title := func(level int, s string) Block { return Heading{Level: level, Runs: runs(run(s)), Bookmark: s} }
	blocks := []Block{title(1, "Book"), title(2, "First")}
	blocks = append(append(blocks, lines(10)...), title(2, "Second"))
	blocks = append(append(blocks, lines(60)...), Break{}, title(2, "Third"))
	b.Sections = []Section{{Key: "all", Head: testHead("about: " + Topic), Blocks: append(blocks, lines(1)...)}}
	return b
}

// TestHeadNamesTheTopic: a page is named after what it begins with; what begins
// down the page names the next one.
func TestHeadNamesTheTopic(t *testing.T) {
	p := placed(t, topicBook())
	var got []string
	for i := range p.pages {
		for _, k := range p.pages[i].head.ink {
			if s, ok := strings.CutPrefix(strings.ReplaceAll(k.text, "\u00a0", " "), "about: "); ok {
				got = append(got, s)
			}
		}
	}
	if want := "[First Second Second Third]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %s", got, want)
	}
}

// TestNoItemStandsAlone: wherever a list is parted, two items are on either side.
func TestNoItemStandsAlone(t *testing.T) {
	for before := range 45 {
		b := testBook()
		blocks := []Block{Heading{Level: 1, Runs: runs(run("Book")), Bookmark: "Book"}}
		for range before {
			blocks = append(blocks, Paragraph{Runs: runs(run("before"))})
		}
		list := List{}
		for range 5 {
			list.Items = append(list.Items, runs(run("item")))
		}
		b.Sections = []Section{{Key: "all", Head: testHead("x"), Blocks: append(blocks, list)}}
		p := placed(t, b)
		for i := range p.pages {
			n := 0
			for _, k := range p.pages[i].ink {
				if k.text == "item" {
					n++
				}
			}
			if n == 1 || n == 4 {
				t.Errorf("%d lines before it: %d items on page %d", before, n, i+1)
			}
		}
	}
}

// TestContentsInColumns has every heading once, half of them beside the others.
func TestContentsInColumns(t *testing.T) {
	b := topicBook()
	b.Sections[0].Blocks = append(b.Sections[0].Blocks, Contents{Depth: 2, Columns: 2})
	p := placed(t, b)
	left, right := 0, 0
	pg := p.pages[len(p.pages)-1]
	middle := (pt(b.Paper.W) - marginLeft - marginRight) / 2
	for _, k := range pg.ink {
		switch {
		case k.entry == 0:
		case k.x < marginLeft+middle:
			left++
		default:
			right++
		}
	}
	if left != 2 || right != 2 {
		t.Errorf("%d entries at the left and %d at the right, want 2 and 2", left, right)
	}
}
