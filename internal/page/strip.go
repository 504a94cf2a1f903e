package page

// bond is how strongly a strip holds on to the one below it. When strips are
// higher together than a page, the weakest bonds give way first.
type bond int

const (
	bondNone  bond = iota
	bondPanel      // inside a panel
	bondPair       // two lines, two rows
	bondLead       // heading, caption or table head with what follows
	bondValue      // lines of one value: never parted
)

// strip is a piece across the column that is never cut: a line, a table row, a
// figure. Its layer has x on the page and y from its top.
type strip struct {
	layer
	above  mp // space above it, dropped at the top of a page
	h      mp
	bond   bond
	breaks bool     // starts a new page
	opens  bool     // the first strip of its innermost panel
	closes bool     // the last one
	frames []*frame // panels it lies in, outermost first
	table  *tableRun
	row    *rowBox // a body row, to be split if higher than a page
	ends   bool    // the last strip of its row
	inner  bool    // a further line of one text
	// Of columns side by side: what stands in each, to be parted if need be; the
	// tables whose rows end in the strip, one for each row; heads to repeat, each as
	// far below the top as its above says, and their height.
	stacks      [][]strip
	tables      []*tableRun
	heads       []strip
	headsHeight mp
}

// rows are the tables whose rows end in the strip, one for each row.
func (st *strip) rows() []*tableRun {
	if st.row != nil && st.ends {
		return []*tableRun{st.table}
	}
	return st.tables
}

// frame is a panel's ground and border, drawn around its strips on each page.
type frame struct {
	x, w mp
	tone Tone
	bare bool // a toned paragraph: ground and bar, no border
}

// tableRun is what the rows of a table share: heads to repeat, and its count.
type tableRun struct {
	heads  []strip // furniture
	height mp
	count  int // index into the section's counts
}

// stackHeight is the height of strips under each other.
func stackHeight(strips []strip) mp {
	var h mp
	for i := range strips {
		if i > 0 {
			h += strips[i].above
		}
		h += strips[i].h
	}
	return h
}

// sheet takes strips onto a layer: a page, or a column in a strip.
type sheet struct {
	layer
	open  []openFrame
	under []rect // grounds and borders of panels: beneath everything
	empty bool
}

type openFrame struct {
	f           *frame
	top, bottom mp
	closed      bool
}

// inset is the distance of a strip that starts a page from the border of panels
// that go on there, and of one that ends a page from that of panels that go on
// on the next.
const inset = panelPad / 2

// outer is the panels of a strip but for its innermost one.
func (st *strip) outer() []*frame { return st.frames[:max(len(st.frames)-1, 0)] }

// goesOn: panels that began before the strip hold it.
func (st *strip) goesOn() bool {
	return len(st.outer()) > 0 || len(st.frames) > 0 && !st.opens
}

// staysOpen: panels go on after the strip.
func (st *strip) staysOpen() bool {
	return len(st.outer()) > 0 || len(st.frames) > 0 && !st.closes
}

func newSheet() *sheet { return &sheet{empty: true} }

// put places a strip with its top at y.
func (sh *sheet) put(st *strip, y mp) {
	for n, f := range st.frames {
		innermost := n == len(st.frames)-1
		i := 0
		for i < len(sh.open) && sh.open[i].f != f {
			i++
		}
		if i == len(sh.open) {
			top := y - inset
			if innermost && st.opens {
				top = y
			}
			sh.open = append(sh.open, openFrame{f: f, top: top})
		}
		sh.open[i].bottom = y + st.h
		sh.open[i].closed = innermost && st.closes
	}
	sh.add(&st.layer, y)
	sh.empty = false
}

// close draws the panels.
func (sh *sheet) close() {
	for _, o := range sh.open {
		if !o.closed {
			o.bottom += inset
		}
		sh.under = append(sh.under, o.f.draw(o.top, o.bottom)...)
	}
	sh.ground = append(sh.under, sh.ground...)
	sh.under, sh.open = nil, nil
}

// draw is the ground and border of a panel.
func (f *frame) draw(top, bottom mp) []rect {
	h := bottom - top
	var out []rect
	if c, ok := ground(f.tone); ok {
		out = append(out, rect{x: f.x, y: top, w: f.w, h: h, color: c})
	}
	if f.tone == Quiet {
		out = append(out, rect{x: f.x, y: top, w: f.w, h: h, color: groundGood})
	}
	if !f.bare && f.tone != Quiet {
		c, t := toneRule(f.tone)
		out = append(out, border(f.x, top, f.w, h, t, c)...)
	}
	if f.tone == Bad || f.tone == Warn {
		c, _ := toneRule(f.tone)
		out = append(out, rect{x: f.x, y: top, w: toneBar, h: h, color: c})
	}
	return out
}

// border is four rules inside a box.
func border(x, y, w, h, t mp, c color) []rect {
	return []rect{
		{x: x, y: y, w: w, h: t, color: c},
		{x: x, y: y + h - t, w: w, h: t, color: c},
		{x: x, y: y + t, w: t, h: h - 2*t, color: c},
		{x: x + w - t, y: y + t, w: t, h: h - 2*t, color: c},
	}
}
