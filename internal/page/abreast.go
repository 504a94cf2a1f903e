package page

// gap is the space between two strips of a column, from the end of the one to the
// beginning of the other, and how strongly they hold on to each other.
type gap struct {
	from, to mp
	bond     bond
}

// gaps are the places where a column can be parted; none inside panels. After its
// end it can be parted anywhere.
func gaps(strips []strip, h mp) []gap {
	var out []gap
	var y mp
	for i := range strips {
		if len(strips[i].frames) > 0 {
			return nil
		}
		if i > 0 {
			if !strips[i].inner {
				out = append(out, gap{y, y + strips[i].above, strips[i-1].bond})
			}
			y += strips[i].above
		}
		y += strips[i].h
	}
	return append(out, gap{from: y, to: h})
}

// commonCuts are the places where all columns can be parted at once, inside their
// height.
func commonCuts(stacks [][]strip, h mp) []gap {
	cuts := gaps(stacks[0], h)
	for _, s := range stacks[1:] {
		var both []gap
		for _, y := range gaps(s, h) {
			for _, x := range cuts {
				if g := (gap{max(x.from, y.from), min(x.to, y.to), max(x.bond, y.bond)}); g.from <= g.to {
					both = append(both, g)
				}
			}
		}
		cuts = both
	}
	var out []gap
	for _, c := range cuts {
		if c.from > 0 && c.to < h && (len(out) == 0 || c.from >= out[len(out)-1].to) {
			out = append(out, c)
		}
	}
	return out
}

// partable tells whether a group holds columns that can be parted.
func partable(group []strip) bool {
	for i := range group {
		if len(group[i].cuts()) > 0 {
			return true
		}
	}
	return false
}

// cuts are the places where a strip of columns can be parted.
func (st *strip) cuts() []gap {
	if len(st.stacks) == 0 || len(st.frames) > 0 {
		return nil
	}
	return commonCuts(st.stacks, st.h)
}

// partAll is the group with its columns in parts.
func partAll(group []strip) []strip {
	var out []strip
	for i := range group {
		st := &group[i]
		cuts := st.cuts()
		if len(cuts) == 0 {
			out = append(out, *st)
			continue
		}
		parts := parted(st.stacks, cuts, st.h)
		parts[0].above, parts[0].breaks = st.above, st.breaks
		parts[len(parts)-1].bond = st.bond
		out = append(out, parts...)
	}
	return out
}

// parted are the strips between the cuts. One that begins with rows of tables has
// their heads to repeat.
func parted(stacks [][]strip, cuts []gap, h mp) []strip {
	out := make([]strip, len(cuts)+1)
	for i := range out {
		st := &out[i]
		from, to := mp(0), h
		if i > 0 {
			from = cuts[i-1].to
			st.above = cuts[i-1].to - cuts[i-1].from
		}
		if i < len(cuts) {
			to = cuts[i].from
			st.bond = cuts[i].bond
		}
		st.h = to - from
		for _, s := range stacks {
			st.between(s, from, to, h)
		}
	}
	return out
}

// between puts the strips of a column that stand between two heights on the
// strip; end is the end of all.
func (st *strip) between(strips []strip, from, to, end mp) {
	var y mp
	first := true
	for i := range strips {
		s := &strips[i]
		if i > 0 {
			y += s.above
		}
		if y >= from && (y < to || to == end) {
			if first && s.table != nil && s.row != nil {
				st.repeatHeads(s.table)
			}
			first = false
			st.add(&s.layer, y-from)
			st.tables = append(st.tables, s.rows()...)
		}
		y += s.h
	}
}

// repeatHeads sets the heads of one more table over the strip, standing on it.
func (st *strip) repeatHeads(t *tableRun) {
	if grow := t.height - st.headsHeight; grow > 0 {
		for i := range st.heads {
			st.heads[i].above += grow
		}
		st.headsHeight = t.height
	}
	at := st.headsHeight - t.height
	for i := range t.heads {
		h := t.heads[i]
		h.above = at // from the top of all heads
		at += h.h
		st.heads = append(st.heads, h)
	}
}
