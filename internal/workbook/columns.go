package workbook

import "strings"

// A column block has lines of like entries over numbered columns: the runs of a
// start-up, the sets of fasteners. Each line has its own name; the heads over
// the columns have one, too.

// runs is how many start-up records a cell's sheet has.
const runs = 4

// columnsOf is how many columns a block has.
func (b block) columnsOf() int {
	if b.aligned {
		return runs
	}
	return setColumns
}

// columnHead is the words of a column's head.
func (b block) columnHead(say func(string, ...string) string, n int) string {
	return say("form.column."+b.key, "n", itoa(n))
}

// columns lays out the heads and the lines.
func (b *builder) columns(k block) {
	n := k.columnsOf()
	b.rowLabel(b.say("form.over." + k.key))
	for i := range n {
		b.head(b.grid.first+i, k.columnHead(b.say, i+1))
	}
	line := func() area { return b.area(b.grid.first, b.row, n, 1) }
	b.name(k.name(b.prefix, "columns"), line(), b.say("form.over."+k.key))
	b.next(blockHeight)
	for _, s := range k.slots {
		label := b.say(k.label(s))
		b.rowLabel(label)
		b.input(input{area: line(), slot: s, narrow: true})
		b.name(k.name(b.prefix, s.key), line(), label)
		b.next(b.labelHeight(label, formLine*float64(max(s.tall, 1))))
	}
}

// list lays out rows with fixed labels.
func (b *builder) list(k block) {
	first := b.row + 1
	b.head(b.grid.labels, b.say("form.over."+k.key))
	col := b.grid.first
	var heads []string
	for _, s := range k.slots {
		span := max(s.span, 1)
		heads = append(heads, b.say(k.label(s)))
		b.wideHead(col, span, heads[len(heads)-1])
		b.input(input{area: b.area(col, first, 1, len(k.keyed)), slot: s, span: span})
		col += span
	}
	b.next(blockHeight)
	for _, row := range k.keyed {
		label := b.say(k.rowLabel(row))
		b.rowLabel(label)
		b.next(b.labelHeight(label, formLine))
	}
	b.name(k.name(b.prefix, "rows"), b.area(b.grid.labels, first, 1, len(k.keyed)), b.say("form.over."+k.key))
	b.name(k.name(b.prefix), b.area(b.grid.first, first, col-b.grid.first, len(k.keyed)), strings.Join(heads, "; "))
}

// columnBlock reads the columns that have something in them.
func (r *reader) columnBlock(k block, prefix string, owner any) {
	s, heads, ok := r.named(k.name(prefix, "columns"))
	if !ok {
		return
	}
	columns, ok := r.numberedColumns(k, s, heads)
	if !ok {
		return
	}
	rows := make([]int, len(k.slots))
	for i, line := range k.slots {
		rows[i] = r.lineRow(k, prefix, line, s, heads)
		ok = ok && rows[i] > 0
	}
	if !ok {
		return
	}
	last := len(columns)
	for last > 0 && r.blankColumn(s, columns[last-1], rows) {
		last--
	}
	for _, col := range columns[:last] {
		// A column that keeps its number counts although it is blank.
		if !k.aligned && r.blankColumn(s, col, rows) {
			continue
		}
		into := k.grow(owner)
		if col == 0 {
			continue
		}
		*k.at(into) = r.ref(s, pos{col, rows[0]})
		for j, line := range k.slots {
			r.fill(line, into, s, pos{col, rows[j]})
		}
	}
}

// numberedColumns finds the column of each number by its head.
func (r *reader) numberedColumns(k block, s *bookSheet, a area) ([]int, bool) {
	if a.rows() != 1 {
		r.fault(BadShape, s, a.from, a.cells(), "onerow", k.name("", "columns"))
		return nil, false
	}
	index := numberAfter(k.columnHead(r.words.Say, 0))
	var columns []int
	ok := true
	for col := a.from.col; col <= a.to.col && r.err == nil; col++ {
		p := pos{col, a.from.row}
		text := r.label(s, p)
		if text == "" {
			continue
		}
		n := index(text)
		switch {
		case n < 1 || n > a.cols():
			r.fault(WrongLabel, s, p, text, "labels", "")
			ok = false
		case n <= len(columns) && columns[n-1] != 0:
			r.fault(TwiceLabel, s, p, text, "labels", pos{columns[n-1], a.from.row}.String())
			ok = false
		default:
			for len(columns) < n {
				columns = append(columns, 0)
			}
			columns[n-1] = col
		}
	}
	return columns, ok && r.err == nil
}

// lineRow is the row of a line, 0 where its name or label is wrong. A value
// under no head is a fault.
func (r *reader) lineRow(k block, prefix string, line slot, s *bookSheet, heads area) int {
	name := k.name(prefix, line.key)
	own, a, ok := r.named(name)
	switch {
	case !ok:
		return 0
	case own != s || a.rows() != 1 || a.from.col != heads.from.col || a.to.col != heads.to.col:
		r.fault(BadShape, own, a.from, a.cells(), "samecolumns", name+" / "+heads.cells())
		return 0
	case !r.labeled(s, a.from, k.label(line)):
		return 0
	}
	for col := a.from.col; col <= a.to.col; col++ {
		p := pos{col, a.from.row}
		if c, blank := r.at(s, p); !blank && r.label(s, pos{col, heads.from.row}) == "" {
			r.fault(NoLabel, s, p, c.text, "labels", "")
		}
	}
	return a.from.row
}

func (r *reader) blankColumn(s *bookSheet, col int, rows []int) bool {
	for _, row := range rows {
		if _, blank := r.at(s, pos{col, row}); col > 0 && !blank {
			return false
		}
	}
	return true
}
