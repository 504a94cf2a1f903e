package page

import (
	"fmt"
)

// flow puts the strips of a section on pages, one after the other.
type flow struct {
	key    string
	counts []Count
	pages  []*sheet
	cur    *sheet
	y      mp
	top    mp
	bottom mp
}

func newFlow(key string, paper Paper, counts []Count) *flow {
	f := &flow{key: key, counts: counts, top: marginTop, bottom: pt(paper.H) - marginBottom}
	f.turn()
	return f
}

// turn starts a new page.
func (f *flow) turn() {
	if f.cur != nil {
		f.cur.close()
	}
	f.cur = newSheet()
	if n := len(f.pages); n > 0 {
		f.cur.ink = make([]ink, 0, len(f.pages[n-1].ink)) // pages of a section are alike
	}
	f.pages = append(f.pages, f.cur)
	f.y = f.top
}

// run places all strips.
func (f *flow) run(strips []strip) error {
	err := f.each(strips)
	f.cur.close()
	return err
}

// each places strips group by group.
func (f *flow) each(strips []strip) error {
	for len(strips) > 0 {
		n := bonded(strips, bondPanel)
		if strips[0].breaks && !f.cur.empty {
			f.turn()
		}
		if err := f.place(strips[:n], bondPanel); err != nil {
			return err
		}
		strips = strips[n:]
	}
	return nil
}

// bonded is how many of the first strips hold together by at least b.
func bonded(strips []strip, b bond) int {
	n := 1
	for n < len(strips) && strips[n-1].bond >= b && !strips[n].breaks {
		n++
	}
	return n
}

// place puts a group of strips that should stay together on this page or the
// next; a group higher than a page is parted at its weakest bonds, which are
// those below b+1.
func (f *flow) place(group []strip, b bond) error {
	switch {
	case f.need(group, f.cur.empty) <= f.room(f.cur.empty, group):
		f.putAll(group)
		return nil
	case partable(group):
		return f.each(partAll(group))
	case !f.cur.empty && f.need(group, true) <= f.room(true, group):
		f.turn()
		f.putAll(group)
		return nil
	case len(group) == 1:
		return f.giant(&group[0])
	case b >= bondValue:
		return fmt.Errorf("section %s: a value of %d lines: %w", f.key, len(group), ErrNoRoom)
	case b == bondLead && !f.cur.empty:
		// A heading before something that cannot stay whole: start both afresh.
		f.turn()
	}
	for len(group) > 0 {
		n := bonded(group, b+1)
		if err := f.place(group[:n], b+1); err != nil {
			return err
		}
		group = group[n:]
	}
	return nil
}

// need is the height of a group, on a fresh page with the heads that are
// repeated above it.
func (f *flow) need(group []strip, fresh bool) mp {
	h := stackHeight(group)
	if !fresh {
		return h + group[0].above
	}
	return h + repeated(&group[0])
}

// repeated is the height of the heads to repeat above a strip that starts a
// page.
func repeated(st *strip) mp {
	if st.headsHeight > 0 {
		return st.headsHeight
	}
	if st.table == nil || st.row == nil {
		return 0
	}
	return st.table.height
}

// room is the height left for a group, on this page or a fresh one. Inside a
// panel the border needs its distance at both ends of the page.
func (f *flow) room(fresh bool, group []strip) mp {
	h := f.bottom - f.y
	if fresh {
		h = f.bottom - f.top
		if group[0].goesOn() {
			h -= inset
		}
	}
	if group[len(group)-1].staysOpen() {
		h -= inset
	}
	return h
}

func (f *flow) putAll(group []strip) {
	for i := range group {
		f.put(&group[i])
	}
}

// put places one strip that fits.
func (f *flow) put(st *strip) {
	if f.cur.empty {
		if st.goesOn() {
			f.y += inset
		}
		for i := range st.heads {
			f.cur.put(&st.heads[i], f.y+st.heads[i].above)
		}
		f.y += st.headsHeight
		if repeated(st) > 0 && st.table != nil {
			for i := range st.table.heads {
				h := &st.table.heads[i]
				h.frames = st.frames
				f.cur.put(h, f.y)
				f.y += h.h
			}
		}
	} else {
		f.y += st.above
	}
	f.cur.put(st, f.y)
	f.y += st.h
	st.tally(f.counts)
}

// tally counts a row that has been placed to its end.
func (st *strip) tally(counts []Count) {
	for _, t := range st.rows() {
		counts[t.count].Placed++
	}
}

// giant places a strip that is higher than a page: a table row line by line, on
// as many pages as it takes. Nothing else can be cut.
func (f *flow) giant(st *strip) error {
	if st.row == nil {
		return fmt.Errorf("section %s: a block %s points high: %w", f.key, st.h, ErrNoRoom)
	}
	if !f.cur.empty && f.bottom-f.y < st.above+4*st.row.lead {
		f.turn()
	}
	rest := st.row
	for from := rest.start(); ; {
		fresh := f.cur.empty
		room := f.room(fresh, []strip{*st}) - st.above
		if fresh {
			room += st.above - repeated(st)
		}
		part, next, done := rest.part(from, room)
		if !done && next.equal(from) {
			if fresh {
				return fmt.Errorf("section %s: a line of a table row under its heads: %w", f.key, ErrNoRoom)
			}
			f.turn()
			continue
		}
		part.above, part.frames, part.table, part.row, part.ends = st.above, st.frames, st.table, st.row, done
		f.put(&part)
		if done {
			return nil
		}
		from = next
		f.turn()
	}
}
