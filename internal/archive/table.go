package archive

// maxSpan bounds the columns or rows that one cell covers.
const maxSpan = 4096

// cell checks the attributes of table cells.
func (t *tree) cell(e *Element) {
	isCell := e.Role == RoleHeadCell || e.Role == RoleCell
	switch {
	case !isCell && (e.Scope != "" || e.ColSpan != 0 || e.RowSpan != 0):
		t.fault(RuleTable, "cell attributes on %s", e.Role)
	case e.ColSpan < 0 || e.RowSpan < 0 || e.ColSpan > maxSpan || e.RowSpan > maxSpan:
		t.fault(RuleTable, "span %d × %d", e.ColSpan, e.RowSpan)
	case e.Role == RoleHeadCell && e.Scope != "Row" && e.Scope != "Column":
		t.fault(RuleTable, "header cell with scope %q", e.Scope)
	case e.Role == RoleCell && e.Scope != "":
		t.fault(RuleTable, "data cell with a scope")
	}
}

// table checks that the cells of a table fill a rectangle without gaps or
// overlaps (ISO 14289-1, 7.2): head and body apart, for a cell does not span both.
func (t *tree) table(e *Element) {
	var loose []*Element
	width, heads, bodies := -1, 0, 0
	for _, k := range e.Kids {
		switch k.role() {
		case RoleRow:
			loose = append(loose, k.Element)
		case RoleTableHead, RoleTableBody:
			if k.role() == RoleTableHead {
				heads++
			} else {
				bodies++
			}
			width = t.rows(elements(k.Element), width)
		}
	}
	if len(loose) > 0 {
		width = t.rows(loose, width)
	}
	if width < 1 {
		t.fault(RuleTable, "no cells")
	}
	if heads > 1 || heads == 1 && bodies == 0 || heads+bodies > 0 && len(loose) > 0 {
		t.fault(RuleTable, "%d heads, %d bodies, %d rows outside them", heads, bodies, len(loose))
	}
}

func elements(e *Element) []*Element {
	var out []*Element
	for _, k := range e.Kids {
		if k.Element != nil {
			out = append(out, k.Element)
		}
	}
	return out
}

// rows checks one group of rows against the width of those before it, and
// returns the width.
func (t *tree) rows(rows []*Element, width int) int {
	var below []int // per column: rows that a cell above still covers
	for i, r := range rows {
		column := 0
		for _, c := range elements(r) {
			for column < len(below) && below[column] > 0 {
				column++
			}
			for range span1(c.ColSpan) {
				if column < len(below) && below[column] > 0 {
					t.fault(RuleTable, "cells overlap in row %d", i+1)
					return width
				}
				if column == len(below) {
					below = append(below, 0)
				}
				below[column] = span1(c.RowSpan)
				column++
			}
		}
		for column < len(below) && below[column] > 0 {
			column++
		}
		if width < 0 {
			width = column
		}
		if column != width {
			t.fault(RuleTable, "row %d has %d columns, others have %d", i+1, column, width)
			return width
		}
		for k := range below {
			below[k]--
		}
	}
	for _, left := range below {
		if left > 0 {
			t.fault(RuleTable, "a cell reaches below the last row")
			break
		}
	}
	return width
}

// span1 is a declared span, where 0 stands for 1, within bounds.
func span1(n int32) int { return int(min(max(n, 1), maxSpan)) }
