package workbook

import (
	"strings"

	"asleft/internal/field"
)

// nameParts splits a defined name.
func nameParts(name string) []string { return strings.Split(name, "_") }

// headSearch is how many rows over a block the line of its heads is looked
// for: rows may have been inserted between.
const headSearch = 6

// named is the range of a defined name and its sheet. A fault is recorded
// where there is none.
func (r *reader) named(name string) (*bookSheet, area, bool) {
	if r.err != nil {
		return nil, area{}, false
	}
	refersTo, ok := r.book.names[name]
	if !ok {
		r.faults = append(r.faults, field.Fault{Kind: NoName, Expected: "name", Detail: name})
		return nil, area{}, false
	}
	a, ok := parseArea(refersTo)
	s := r.book.sheet(a.sheet)
	if !ok || s == nil {
		r.faults = append(r.faults, field.Fault{Kind: BadName, Read: shown(refersTo), Expected: "range", Detail: name})
		return nil, area{}, false
	}
	r.used[s.index] = true
	if a.rows() > maxGridRow || a.cols() > maxGridCol {
		r.fault(BadShape, s, a.from, a.cells(), "range", name)
		return nil, area{}, false
	}
	return s, a, true
}

// single is a named range of one cell.
func (r *reader) single(name string) (*bookSheet, pos, bool) {
	s, a, ok := r.named(name)
	if ok && a.from != a.to {
		r.fault(BadShape, s, a.from, a.cells(), "onecell", name)
		return nil, pos{}, false
	}
	return s, a.from, ok
}

// column is a named range one column wide, on the same sheet and rows as
// others if given.
func (r *reader) column(name string, beside *labelColumn) (*bookSheet, area, bool) {
	s, a, ok := r.named(name)
	switch {
	case !ok:
	case a.cols() != 1:
		r.fault(BadShape, s, a.from, a.cells(), "onecolumn", name)
		ok = false
	case beside != nil && (s != beside.sheet || a.from.row != beside.area.from.row || a.to.row != beside.area.to.row):
		r.fault(BadShape, s, a.from, a.cells(), "samerows", name+" / "+beside.area.cells())
		ok = false
	}
	return s, a, ok
}

// label is the text of a cell as labels are compared: without spaces at the
// ends, double spaces, capitals or a colon.
func (r *reader) label(s *bookSheet, p pos) string {
	c, _ := r.at(s, p)
	return r.normal(c.text)
}

// normal is a label as it is compared; the same ones come in every cell.
func (r *reader) normal(s string) string {
	if s == "" {
		return ""
	}
	n, ok := r.normals[s]
	if !ok {
		if r.normals == nil {
			r.normals = map[string]string{}
		}
		n = normal(s)
		r.normals[s] = n
	}
	return n
}

func normal(s string) string {
	return strings.ToLower(strings.TrimRight(strings.Join(strings.Fields(s), " "), ": "))
}

// word is a phrase of the form as labels are compared.
func (r *reader) word(key string) string {
	if r.labels == nil {
		r.labels = map[string]string{}
	}
	w, ok := r.labels[key]
	if !ok {
		w = normal(r.words.Say(key))
		r.labels[key] = w
	}
	return w
}

// labeled checks that the nearest text to the left of a cell is the label.
func (r *reader) labeled(s *bookSheet, p pos, key string) bool {
	for col := p.col - 1; col > 0; col-- {
		left := pos{col, p.row}
		c, blank := r.at(s, left)
		if blank || r.normal(c.text) == "" {
			continue
		}
		if r.normal(c.text) == r.word(key) {
			return true
		}
		r.fault(WrongLabel, s, left, c.text, "label", r.words.Say(key))
		return false
	}
	if r.err == nil {
		r.fault(WrongLabel, s, p, "", "label", r.words.Say(key))
	}
	return false
}

// headed checks that the nearest text over a cell is the head.
func (r *reader) headed(s *bookSheet, p pos, key string) bool {
	for row := p.row - 1; row > 0 && row >= p.row-headSearch; row-- {
		over := pos{p.col, row}
		c, blank := r.at(s, over)
		if blank {
			continue
		}
		if r.normal(c.text) == r.word(key) {
			return true
		}
		r.fault(WrongLabel, s, over, c.text, "label", r.words.Say(key))
		return false
	}
	if r.err == nil {
		r.fault(WrongLabel, s, p, "", "label", r.words.Say(key))
	}
	return false
}

// labelColumn is a column of labels with the rows where each stands.
type labelColumn struct {
	sheet *bookSheet
	area  area
	rows  []int        // by index from 0; 0 where the label is missing
	known map[int]bool // rows with a label of the form
}

// column reads a column of n labels; index is the index from 1 of a normalized
// label, 0 for none of them. Labels beyond n are returned as the count found.
func (r *reader) labelsOf(name string, index func(string) int) (*labelColumn, bool) {
	s, a, ok := r.column(name, nil)
	if !ok {
		return nil, false
	}
	l := &labelColumn{sheet: s, area: a, known: map[int]bool{}}
	for row := a.from.row; row <= a.to.row && r.err == nil; row++ {
		p := pos{a.from.col, row}
		text := r.label(s, p)
		if text == "" {
			continue
		}
		i := index(text)
		switch {
		case i < 1 || i > a.rows():
			r.fault(WrongLabel, s, p, text, "labels", "")
			ok = false
		case i <= len(l.rows) && l.rows[i-1] != 0:
			r.fault(TwiceLabel, s, p, text, "labels", pos{a.from.col, l.rows[i-1]}.String())
			ok = false
		default:
			for len(l.rows) < i {
				l.rows = append(l.rows, 0)
			}
			l.rows[i-1] = row
		}
		l.known[row] = true
	}
	return l, ok
}

// strays reports values in a column that stand beside no label.
func (r *reader) strays(l *labelColumn, col int) {
	for row := l.area.from.row; row <= l.area.to.row && r.err == nil; row++ {
		p := pos{col, row}
		if c, blank := r.at(l.sheet, p); !blank && !l.known[row] {
			r.fault(NoLabel, l.sheet, p, c.text, "labels", "")
		}
	}
}

// below reports a value just below a table: it would be lost.
func (r *reader) below(s *bookSheet, a area) {
	for col := a.from.col; col <= a.to.col; col++ {
		p := pos{col, a.to.row + 1}
		if c, blank := r.at(s, p); !blank {
			r.fault(Beyond, s, p, c.text, "blank", a.cells())
		}
	}
}
