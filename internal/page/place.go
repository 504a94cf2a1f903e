package page

import (
	"fmt"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"

	"asleft/internal/archive"
)

// topicTop is how far below the margin a heading at the top of a page may stand.
const topicTop mp = 12_000

// maxPages is the most pages of a book, so that a page number fits its slot.
const maxPages = 9999

// Placed is a book on its pages: every box has its place, every link its goal.
type Placed struct {
	// Counts has one entry for each table, in the order of the book.
	Counts []Count
	// Cuts are the texts that were broken inside a word.
	Cuts []Cut

	book     *Book
	metrics  *Metrics
	index    *index
	sections []placedSection
	pages    []placedPage
	goals    []goal // of headings, in the order of the book
}

// placedSection is a section's structure; its chunks and links are counted
// from 1.
type placedSection struct {
	key  string
	root *node
	chunks
}

// placedPage is one page.
type placedPage struct {
	layer
	furniture
	section int
	label   string
}

// goal is where a heading stands: zero-based page, and from its top.
type goal struct {
	page int
	y    mp
}

// Pages is the number of pages.
func (p *Placed) Pages() int { return len(p.pages) }

// laid is a section placed on pages of its own.
type laid struct {
	b     *builder
	root  *node
	pages []*sheet
	err   error
}

// Place finds the place of everything in the book. It is a pure function:
// nothing is read but the book and the metrics, the book is not changed. Errors
// are [TextError] for text that cannot be printed, wrapped [ErrNoRoom] for what
// is too large for a page, [RowError] if a table row were lost, and plain ones
// for a book that contradicts itself; all name the section.
func Place(b Book, m *Metrics) (*Placed, error) { return place(b, m, false) }

// place is Place; with release, each section lets its blocks go when it is
// placed.
func place(b Book, m *Metrics, release bool) (*Placed, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	x, err := newIndex(&b)
	if err != nil {
		return nil, err
	}
	p := &Placed{book: &b, metrics: m, index: x, goals: make([]goal, len(x.entries))}
	for i, l := range layAll(&b, m, x, release) {
		if l.err != nil {
			return nil, l.err
		}
		if err := p.join(i, &l); err != nil {
			return nil, err
		}
	}
	if len(p.pages) > maxPages {
		return nil, fmt.Errorf("%d pages, expected at most %d", len(p.pages), maxPages)
	}
	return p, p.finish()
}

// PagesOf is how many pages a section takes by itself. Its links may lead out of
// it.
func PagesOf(paper Paper, s Section, m *Metrics) (int, error) {
	b := Book{Paper: paper, Sections: []Section{s}}
	x, err := newIndex(&b)
	if err != nil {
		return 0, err
	}
	l := lay(&b, 0, m, x)
	return len(l.pages), l.err
}

// check refuses a book that has nowhere to go.
func (b *Book) check() error {
	if b.Issued.IsZero() {
		return fmt.Errorf("book without an issue date")
	}
	if len(b.Sections) == 0 {
		return fmt.Errorf("book without sections")
	}
	// Narrower than this the running heads collide with the margins.
	for what, v := range map[string]float64{"paper width": b.Paper.W, "paper height": b.Paper.H} {
		if _, err := length(what, v, 200, maxPoints); err != nil {
			return err
		}
	}
	return nil
}

// layAll places the sections, on all processors: none needs another.
func layAll(b *Book, m *Metrics, x *index, release bool) []laid {
	out := make([]laid, len(b.Sections))
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(b.Sections)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				out[i] = lay(b, i, m, x)
				if release {
					b.Sections[i].Blocks = nil
				}
			}
		}()
	}
	for i := range b.Sections {
		next <- i
	}
	close(next)
	wg.Wait()
	return out
}

// lay places one section.
func lay(b *Book, i int, m *Metrics, x *index) laid {
	s := &b.Sections[i]
	bl := &builder{m: m, key: s.Key, index: x, heading: x.first[i]}
	l := laid{b: bl, root: &node{role: archive.RoleSect}}
	col := column{marginLeft, pt(b.Paper.W) - marginLeft - marginRight}
	content, err := bl.blocks(col, l.root, s.Blocks)
	if err != nil {
		l.err = err
		return l
	}
	f := newFlow(s.Key, b.Paper, bl.counts)
	if l.err = f.run(content.strips); l.err != nil {
		return l
	}
	for _, c := range bl.counts {
		if c.Rows != c.Placed {
			l.err = &RowError{c}
			return l
		}
	}
	l.pages = f.pages
	return l
}

// join adds a placed section at the end.
func (p *Placed) join(i int, l *laid) error {
	p.Counts = append(p.Counts, l.b.counts...)
	p.Cuts = append(p.Cuts, l.b.cut...)
	p.sections = append(p.sections, placedSection{key: l.b.key, root: l.root, chunks: l.b.chunks})
	for _, sh := range l.pages {
		for _, t := range sh.targets {
			p.goals[t.heading-1] = goal{len(p.pages), t.y}
		}
		p.pages = append(p.pages, placedPage{layer: sh.layer, section: i, label: strconv.Itoa(len(p.pages) + 1)})
	}
	for _, k := range slices.Concat(l.b.links, l.b.pages) {
		if k.heading == 0 && p.index.anchors[k.anchor] == 0 {
			return fmt.Errorf("section %s: link %q to anchor %q, which is nowhere", l.b.key, k.text, k.anchor)
		}
	}
	return nil
}

// finish sets what depends on page numbers: the furniture, and the pages in the
// contents.
func (p *Placed) finish() error {
	for i := range p.pages {
		pg := &p.pages[i]
		key := p.sections[pg.section].key
		fu := furnisher{
			b: &builder{m: p.metrics, key: key}, head: p.headOf(i),
			draft: p.book.Draft, paper: p.book.Paper, pages: strconv.Itoa(len(p.pages)),
		}
		var err error
		if pg.furniture, err = fu.page(pg.label); err != nil {
			return err
		}
		for j := range pg.ink {
			if k := &pg.ink[j]; k.entry != 0 {
				p.number(k)
			}
		}
	}
	return nil
}

// headOf is the running head of a page, with its topic.
func (p *Placed) headOf(page int) *Head {
	h := &p.book.Sections[p.pages[page].section].Head
	if !strings.Contains(h.Left, Topic) {
		return h
	}
	own := *h
	own.Left = strings.ReplaceAll(h.Left, Topic, p.topic(page))
	return &own
}

// topic is the last heading of level 2 before the page or at its very top; on a
// page that begins with something else, and none before it, the first on it.
func (p *Placed) topic(page int) string {
	text := ""
	for i, e := range p.index.entries {
		g := p.goals[i]
		if e.section != p.pages[page].section || e.level != 2 {
			continue
		}
		if text != "" && (g.page > page || g.page == page && g.y > marginTop+topicTop) {
			break
		}
		text = e.text
	}
	return text
}

// number prints the page of a heading, ending at the box's x or beginning there.
func (p *Placed) number(k *ink) {
	heading := max(k.entry, -k.entry)
	k.text = p.pages[p.goals[heading-1].page].label
	k.w = 0
	for _, r := range k.text {
		_, units, _ := p.metrics.glyph(k.face, r)
		k.w += advance(units, k.size)
	}
	if k.entry > 0 {
		k.x -= k.w
	}
}
