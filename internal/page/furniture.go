package page

import (
	"fmt"
	"strings"

	"asleft/internal/plot"
)

// furniture is what stands on every page around its content.
type furniture struct {
	head, foot layer // the same on all pages of a section, as far as they have no slots
	number     layer // what has slots
	draft      []ink // along the outer edge, turned by a quarter
}

const (
	draftSize  mp = 25_000
	loudSize   mp = 10_500
	draftAir   mp = 60_000 // between two words along the edge
	stampPad   mp = 4_000
	headAir    mp = 12_000 // least distance of left and right
	ellipsis      = "…"
	draftEdge  mp = 15_500 // base line of the turned word, from the outer edge
	stampInset mp = 3_400
)

// furnisher makes the furniture of one section.
type furnisher struct {
	b     *builder
	head  *Head
	draft string
	paper Paper
	pages string // how many there are, as printed
}

// page is the furniture of the page with a printed number.
func (fu *furnisher) page(label string) (furniture, error) {
	var f furniture
	put := func(l *layer, left, right string, y, x mp) error {
		on := func(s string) *layer {
			if hasSlot(s) {
				return &f.number
			}
			return l
		}
		loud := l == &f.head && fu.head.Loud
		return fu.line(on(left), on(right), fu.fill(left, label), fu.fill(right, label), x, y, loud)
	}
	x := marginLeft
	if fu.draft != "" {
		w, err := fu.stamp(&f.head, x)
		if err != nil {
			return f, err
		}
		x += w + 7_000
		if f.draft, err = fu.edge(); err != nil {
			return f, err
		}
	}
	h := pt(fu.paper.H)
	w := pt(fu.paper.W) - marginLeft - marginRight
	f.head.ground = append(f.head.ground, rect{x: marginLeft, y: headRule, w: w, h: hairline, color: plot.Muted})
	f.foot.ground = append(f.foot.ground, rect{x: marginLeft, y: h - footRule, w: w, h: hairline, color: plot.Muted})
	if err := put(&f.head, fu.head.Left, fu.head.Right, headBase, x); err != nil {
		return f, err
	}
	if err := put(&f.foot, fu.head.FootLeft, fu.head.FootRight, h-footBase, marginLeft); err != nil {
		return f, err
	}
	return f, put(&f.foot, fu.head.Notice, "", h-noteBase, marginLeft)
}

func hasSlot(s string) bool { return strings.Contains(s, "{page") }

// fill puts page numbers into their slots.
func (fu *furnisher) fill(s, label string) string {
	if !hasSlot(s) {
		return s
	}
	return strings.ReplaceAll(strings.ReplaceAll(s, "{pages}", fu.pages), "{page}", label)
}

// line sets a text at the left from x and one at the right; where both are too
// long together the left one is cut short. The right one may be loud.
func (fu *furnisher) line(onLeft, onRight *layer, left, right string, x, y mp, loud bool) error {
	edge := pt(fu.paper.W) - marginRight
	st := quiet()
	if loud {
		st = set(tabular, loudSize)
		st.bold = true
	}
	r, rw, err := fu.small(right, edge-x, st)
	if err != nil {
		return err
	}
	room := edge - x
	if rw > 0 {
		room -= rw + headAir
	}
	lt, _, err := fu.small(left, room, quiet())
	if err != nil {
		return err
	}
	for _, k := range lt {
		k.x += x
		k.y = y
		onLeft.ink = append(onLeft.ink, k)
	}
	for _, k := range r {
		k.x += edge - rw
		k.y = y
		onRight.ink = append(onRight.ink, k)
	}
	return nil
}

// quiet is how furniture is set.
func quiet() setting {
	st := set(tabular, smallSize)
	st.quiet = true
	return st
}

// small sets a furniture text from x 0, cut short to fit into w.
func (fu *furnisher) small(s string, w mp, st setting) ([]ink, mp, error) {
	if s == "" {
		return nil, 0, nil
	}
	runs := []Run{{Text: s}}
	gs, err := fu.b.flatten(nil, runs, st)
	if err != nil {
		return nil, 0, err
	}
	if width(gs) > w {
		return fu.small(shorten(gs, s, w-st.size), w, st)
	}
	ln := fu.b.line(gs, runs, make([]tag, 1), st)
	return ln.ink, ln.w, nil
}

// shorten cuts s where its glyphs reach w, and its width for the recursion.
func shorten(gs []glyph, s string, w mp) string {
	n := len(gs) - 2
	for n > 0 && width(gs[:n]) > w {
		n--
	}
	if n <= 0 {
		return ""
	}
	return strings.TrimRight(s[:gs[n].off], " ") + ellipsis
}

// stamp is the draft word in the running head, light on dark.
func (fu *furnisher) stamp(l *layer, x mp) (mp, error) {
	ink, w, err := fu.word(smallSize, plot.White)
	if err != nil {
		return 0, err
	}
	w += 2 * stampPad
	l.ground = append(l.ground, rect{x: x, y: headBase - smallSize*7/10 - stampInset, w: w, h: smallSize*7/10 + 2*stampInset, color: plot.Ink})
	for _, k := range ink {
		k.x += x + stampPad
		k.y = headBase
		l.ink = append(l.ink, k)
	}
	return w, nil
}

// word sets the draft word from 0, 0.
func (fu *furnisher) word(size mp, c color) ([]ink, mp, error) {
	s := set(running, size)
	s.bold = true
	runs := []Run{{Text: fu.draft}}
	gs, err := fu.b.flatten(nil, runs, s)
	if err != nil {
		return nil, 0, err
	}
	ln := fu.b.line(gs, runs, make([]tag, 1), s)
	for i := range ln.ink {
		ln.ink[i].color = c
	}
	return ln.ink, ln.w, nil
}

// edge is the draft word, as often as it goes along the outer edge, read from
// below. x and y are of the turned base line's beginning.
func (fu *furnisher) edge() ([]ink, error) {
	word, w, err := fu.word(draftSize, plot.Muted)
	if err != nil {
		return nil, err
	}
	h := pt(fu.paper.H) - marginTop - marginBottom
	if w > h {
		return nil, fmt.Errorf("draft mark %q: %w", fu.draft, ErrNoRoom)
	}
	n := max(int((h+draftAir)/(w+draftAir)), 1)
	x := pt(fu.paper.W) - draftEdge
	y := marginTop + h - (h-mp(n)*w-mp(n-1)*draftAir)/2
	var out []ink
	for range n {
		for _, k := range word {
			k.y = y - k.x
			k.x = x
			out = append(out, k)
		}
		y -= w + draftAir
	}
	return out, nil
}
