package page

import (
	"cmp"
	"fmt"
	"slices"

	"asleft/fonts"
	"asleft/internal/archive"
)

// emitter collects, while pages are drawn, what the finishing pass must know.
type emitter struct {
	p *Placed
	w *writer
	// Chunks and links of all sections are counted through: those of section i
	// follow chunkBase[i] and linkBase[i].
	chunkBase, linkBase []int
	runs                [][]archive.Run // by chunk
	links               [][]*archive.Link
	fields              map[*node]*archive.Field
	boxes               map[*node]archive.Rect
	pages               []archive.Page
}

// Emit draws a placed book and tells what was drawn. The file is complete but
// for what the finishing pass adds. Same book, same bytes.
func Emit(p *Placed) ([]byte, archive.Document, error) { return emit(p, false) }

// emit is Emit; with release, each page lets its boxes go when it is drawn, and
// each section its nodes when they are elements.
func emit(p *Placed, release bool) ([]byte, archive.Document, error) {
	e := newEmitter(p)
	for i := range p.pages {
		if err := e.page(i); err != nil {
			return nil, archive.Document{}, err
		}
		if release {
			p.pages[i] = placedPage{}
		}
	}
	raw, err := e.w.bytes()
	if err != nil {
		return nil, archive.Document{}, err
	}
	return raw, e.document(release), nil
}

func newEmitter(p *Placed) *emitter {
	e := &emitter{
		p: p, w: newWriter(p.book.Paper, p.metrics, p.book.Issued),
		fields: map[*node]*archive.Field{}, boxes: map[*node]archive.Rect{},
	}
	chunks, links := 0, 0
	for i := range p.sections {
		e.chunkBase = append(e.chunkBase, chunks)
		e.linkBase = append(e.linkBase, links)
		chunks += len(p.sections[i].roles)
		links += len(p.sections[i].links)
	}
	e.runs = make([][]archive.Run, chunks+1)
	e.links = make([][]*archive.Link, links+1)
	return e
}

// page draws one page: what lies beneath, its content in reading order, and the
// furniture.
func (e *emitter) page(i int) error {
	pg := &e.p.pages[i]
	w := e.w
	w.page()
	unread := unreadMarks(pg.ink)
	if len(pg.ground) > 0 || len(unread) > 0 {
		w.artifact("/Type /Layout")
		w.ground(pg.ground)
	}
	if len(unread) > 0 {
		w.marks(unread)
	}
	if err := e.furniture(&pg.head, "/Type /Pagination /Subtype /Header"); err != nil {
		return err
	}
	for j := range pg.ink {
		k := &pg.ink[j]
		if k.unreadMark() {
			continue
		}
		if k.chunk == 0 {
			w.artifact("/Type /Layout")
		} else {
			e.run(i, pg.section, k.chunk)
		}
		if err := w.ink(k); err != nil {
			return err
		}
		if k.fig != nil {
			e.boxes[k.fig.node] = e.rect(k.x, k.y, k.fig.w, k.fig.h)
		}
	}
	if err := e.furniture(&pg.foot, "/Type /Pagination /Subtype /Footer"); err != nil {
		return err
	}
	// What says which part of the page it is, is taken for what pages share.
	if err := e.furniture(&pg.number, "/Type /Pagination"); err != nil {
		return err
	}
	if len(pg.draft) > 0 {
		w.artifact("/Type /Pagination /Subtype /Watermark")
		w.outlined(pg.draft)
	}
	w.end()
	e.clickable(i, pg)
	e.pages = append(e.pages, archive.Page{Label: pg.label, Runs: w.mcid})
	return nil
}

func (k *ink) unreadMark() bool { return k.mark != NoMark && k.chunk == 0 }

// unreadMarks are the marks beside words that say the same, like with like and from
// the top down. They are drawn beneath the text, all at once.
func unreadMarks(inks []ink) []*ink {
	var out []*ink
	for i := range inks {
		if inks[i].unreadMark() {
			out = append(out, &inks[i])
		}
	}
	slices.SortStableFunc(out, func(a, b *ink) int {
		return cmp.Or(cmp.Compare(a.mark, b.mark), cmp.Compare(a.size, b.size), cmp.Compare(a.color, b.color),
			cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y))
	})
	return out
}

// run marks what comes next as part of a chunk.
func (e *emitter) run(page, section int, chunk int32) {
	key := e.chunkBase[section] + int(chunk)
	mcid, fresh := e.w.begin(key, e.p.sections[section].roles[chunk-1])
	if fresh {
		e.runs[key] = append(e.runs[key], archive.Run{Page: page, MCID: mcid})
	}
}

func (e *emitter) furniture(l *layer, properties string) error {
	if len(l.ground)+len(l.ink) == 0 {
		return nil
	}
	e.w.artifact(properties)
	e.w.ground(l.ground)
	for i := range l.ink {
		if err := e.w.ink(&l.ink[i]); err != nil {
			return err
		}
	}
	return nil
}

// clickable collects links and fields of a page.
func (e *emitter) clickable(i int, pg *placedPage) {
	for _, a := range pg.areas {
		l := e.p.sections[pg.section].links[a.link-1]
		to := l.heading
		if to == 0 {
			to = e.p.index.anchors[l.anchor]
		}
		key := e.linkBase[pg.section] + a.link
		e.links[key] = append(e.links[key], &archive.Link{Page: i, Rect: e.rect(a.x, a.y, a.w, a.h), To: e.target(to), Text: l.text})
	}
	for _, f := range pg.fields {
		e.fields[f.node] = &archive.Field{Name: f.name, Page: i, Rect: e.rect(f.x, f.y, f.w, f.h), Text: f.tooltip}
	}
}

// rect is a box as the file has it: from the lower left corner of the page.
func (e *emitter) rect(x, y, w, h mp) archive.Rect {
	top := pt(e.p.book.Paper.H) - y
	return archive.Rect{X0: x.points(), Y0: (top - h).points(), X1: (x + w).points(), Y1: top.points()}
}

// target shows a heading with a little air above it.
func (e *emitter) target(heading int) archive.Target {
	g := e.p.goals[heading-1]
	return archive.Target{Page: g.page, Top: (pt(e.p.book.Paper.H) - max(g.y-8_000, 0)).points()}
}

// document is everything that is not drawn.
func (e *emitter) document(release bool) archive.Document {
	b := e.p.book
	root := &archive.Element{Role: archive.RoleDocument}
	for i := range e.p.sections {
		root.Kids = append(root.Kids, archive.Kid{Element: e.element(i, e.p.sections[i].root)})
		if release {
			e.p.sections[i] = placedSection{}
		}
	}
	return archive.Document{
		Title: b.Title, Author: b.Author, Subject: b.Subject, Keywords: b.Keywords,
		Creator: b.Creator, Lang: b.Lang, Issued: b.Issued, Profile: b.Profile, Effort: b.Effort,
		Pages: e.pages, Root: root, Outline: e.outline(), Fonts: e.w.fonts(),
		Files: b.Files, ColorProfile: fonts.SRGB,
	}
}

// element is a node of a section with its runs.
func (e *emitter) element(section int, n *node) *archive.Element {
	el := &archive.Element{Role: n.role, ID: n.id, Scope: n.scope, ColSpan: n.colSpan, Detail: n.detail}
	if box, drawn := e.boxes[n]; drawn {
		el.Detail = &archive.Detail{Alt: n.detail.Alt, BBox: box}
	}
	el.Kids = make([]archive.Kid, 0, len(n.kids))
	for _, k := range n.kids {
		switch {
		case k.node != nil:
			el.Kids = append(el.Kids, archive.Kid{Element: e.element(section, k.node)})
		case k.chunk != 0:
			runs := e.runs[e.chunkBase[section]+int(k.chunk)]
			for i := range runs {
				el.Kids = append(el.Kids, archive.Kid{Run: &runs[i]})
			}
		case k.link != 0:
			for _, l := range e.links[e.linkBase[section]+int(k.link)] {
				el.Kids = append(el.Kids, archive.Kid{Link: l})
			}
		case k.isField():
			el.Kids = append(el.Kids, archive.Kid{Field: e.fields[n]})
		}
	}
	return el
}

// outline nests bookmarks as headings are nested.
func (e *emitter) outline() []archive.Bookmark {
	var marked []int
	for i, en := range e.p.index.entries {
		if en.bookmark != "" {
			marked = append(marked, i)
		}
	}
	return e.nest(marked)
}

// nest makes bookmarks of headings given by index: each takes those below it
// that are of a deeper level.
func (e *emitter) nest(marked []int) []archive.Bookmark {
	var out []archive.Bookmark
	for len(marked) > 0 {
		first := e.p.index.entries[marked[0]]
		n := 1
		for n < len(marked) && e.p.index.entries[marked[n]].level > first.level {
			n++
		}
		out = append(out, archive.Bookmark{Text: first.bookmark, To: e.target(marked[0] + 1), Kids: e.nest(marked[1:n])})
		marked = marked[n:]
	}
	return out
}

// Write places a book, draws it and finishes it for the archive. What one step
// has taken over, the one before lets go of: of a great book only one form is
// in memory as a whole, unless the caller keeps its own.
func Write(b Book) ([]byte, error) {
	m, err := NewMetrics()
	if err != nil {
		return nil, err
	}
	b.Sections = slices.Clone(b.Sections)
	p, err := place(b, m, true)
	if err != nil {
		return nil, err
	}
	raw, doc, err := emit(p, true)
	if err != nil {
		return nil, fmt.Errorf("draw pages: %w", err)
	}
	return archive.Finish(raw, doc)
}
