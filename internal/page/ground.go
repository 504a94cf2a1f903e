package page

import (
	"cmp"
	"slices"
)

// fills is rects of one color that are painted as one.
type fills struct {
	color  color
	dotted bool
	rects  []rect
}

// fillsOf gathers rects by color. One may be painted earlier than it stood, with
// others of its color, where nothing in between lies under it.
func fillsOf(rects []rect) []fills {
	var out []fills
	for _, r := range rects {
		into := len(out)
		for i := len(out) - 1; i >= 0; i-- {
			if out[i].color == r.color && out[i].dotted == r.dotted {
				into = i
				break
			}
			if slices.ContainsFunc(out[i].rects, r.overlaps) {
				break
			}
		}
		if into == len(out) {
			out = append(out, fills{color: r.color, dotted: r.dotted})
		}
		out[into].rects = append(out[into].rects, r)
	}
	for i := range out {
		if !out[i].dotted {
			out[i].rects = joined(out[i].rects)
		}
	}
	return out
}

func (r rect) overlaps(o rect) bool {
	return r.x < o.x+o.w && o.x < r.x+r.w && r.y < o.y+o.h && o.y < r.y+r.h
}

// joined makes one of rects that go on in each other, first those beside each
// other, then those below. It sorts them so that most differ in their height on
// the page alone.
func joined(rects []rect) []rect {
	slices.SortFunc(rects, func(a, b rect) int {
		return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.h, b.h), cmp.Compare(a.x, b.x))
	})
	rects = merged(rects, func(last *rect, r rect) bool {
		if last.y != r.y || last.h != r.h || r.x > last.x+last.w {
			return false
		}
		last.w = max(last.w, r.x+r.w-last.x)
		return true
	})
	slices.SortFunc(rects, func(a, b rect) int {
		return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.w, b.w), cmp.Compare(a.y, b.y), cmp.Compare(a.h, b.h))
	})
	rects = merged(rects, func(last *rect, r rect) bool {
		if last.x != r.x || last.w != r.w || r.y > last.y+last.h {
			return false
		}
		last.h = max(last.h, r.y+r.h-last.y)
		return true
	})
	slices.SortFunc(rects, func(a, b rect) int {
		return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.w, b.w), cmp.Compare(a.rule(), b.rule()), cmp.Compare(a.y, b.y))
	})
	return rects
}

// merged is sorted rects, each taken into the one before where into does so.
func merged(rects []rect, into func(last *rect, r rect) bool) []rect {
	out := rects[:0]
	for _, r := range rects {
		if len(out) == 0 || !into(&out[len(out)-1], r) {
			out = append(out, r)
		}
	}
	return out
}

// ruleHeight is less than the height of any ground.
const ruleHeight = 3_000

// rule is the height of a rule, 0 of a ground.
func (r rect) rule() mp {
	if r.h >= ruleHeight {
		return 0
	}
	return r.h
}

// ground paints fills, rules and leaders. Edges stand on the grid of tenths; what
// is thin keeps how thin it is.
func (w *writer) ground(rects []rect) {
	p := path{buf: w.buf[:0]}
	for _, f := range fillsOf(rects) {
		if f.dotted {
			w.dots(&p, f.rects)
			continue
		}
		p.rgb(f.color, "rg")
		for _, r := range f.rects {
			x, wide := onGrid(r.x.points(), (r.x + r.w).points())
			y, high := onGrid(w.height-(r.y+r.h).points(), w.height-r.y.points())
			p.rect(x, y, wide, high)
		}
		p.op("f")
	}
	w.buf = p.buf
	if len(p.buf) > 0 {
		w.raw("q\n" + string(p.buf) + "Q")
	}
}

// onGrid is where an extent begins and how long it is.
func onGrid(from, to float64) (at, long float64) {
	at = tenth(from)
	if long = to - from; long < mp(ruleHeight).points() {
		return at, long
	}
	return at, tenth(to) - at
}

// dots draws leaders. Their dots stand on a grid of the page, so that they align
// over lines.
func (w *writer) dots(p *path, rects []rect) {
	const step = 4_000
	p.buf = append(p.buf, "q\n"...)
	p.pen(rects[0].color, rects[0].h.points())
	p.op("J", 1)
	p.buf = append(p.buf, "[0 4] 0 d\n"...)
	for _, r := range rects {
		y := w.height - r.y.points() - r.h.points()/2
		p.move(((r.x + step - 1) / step * step).points(), y)
		p.line((r.x + r.w).points(), y)
	}
	p.op("S")
	p.buf = append(p.buf, "Q\n"...)
}
