package workbook

import (
	"slices"
	"strings"

	"asleft/internal/field"
)

// together checks what single cells cannot show: that rows name cells, blades
// and positions that there are, and that boxes are not merged into one.
func (r *reader) together() {
	if r.err != nil {
		return
	}
	if r.record.Tower.Blades.Value == 0 {
		if s, p, ok := r.quietSingle("tower_blades"); ok {
			c, _ := r.at(s, p)
			r.fault(Required, s, p, c.text, "count", "")
		}
	}
	for i := range r.record.Roles {
		r.record.Roles[i].Key = itoa(i + 1)
	}
	for i := range r.record.Cells {
		r.indexesThere(&r.record.Cells[i])
		r.numbersThere(&r.record.Cells[i])
	}
	r.attachmentsWhole()
	r.strangers(r.copies())
	r.mergedBoxes()
}

// quietSingle is a named cell whose faults have been reported.
func (r *reader) quietSingle(name string) (*bookSheet, pos, bool) {
	n := len(r.faults)
	s, p, ok := r.single(name)
	r.faults = r.faults[:n]
	return s, p, ok
}

// noSuchCells reports rows that name a cell without a sheet in any workbook.
func noSuchCells(record *field.Record) []field.Fault {
	var named []field.Count
	for _, w := range record.Waivers {
		named = append(named, w.Cell)
	}
	for _, d := range record.Deviations {
		named = append(named, d.Cell)
	}
	for _, o := range record.OpenItems {
		named = append(named, o.Cell)
	}
	for _, a := range record.Attachments {
		named = append(named, a.Cell)
	}
	var faults []field.Fault
	for _, n := range named {
		if n.Set && !slices.ContainsFunc(record.Cells, func(c field.Cell) bool { return c.Number == n.Value }) {
			faults = append(faults, field.Fault{Kind: NoSuchCell, At: n.At, Read: shown(n.Text), Expected: "count", Detail: "cell"})
		}
	}
	return faults
}

// indexesThere checks blade and position numbers that stand in a cell's blocks.
func (r *reader) indexesThere(c *field.Cell) {
	blades, positions := r.record.Tower.Blades.Value, len(r.record.Tower.Positions)
	r.indexThere(c.Tilt.Blade, blades)
	r.indexThere(c.TipRadius.Position, positions)
	r.indexThere(c.Pitch.Position, positions)
	for _, round := range c.Clearance.Rounds {
		r.indexThere(round.Blade, blades)
	}
}

func (r *reader) indexThere(n field.Count, most int) {
	if n.Set && most > 0 && (n.Value < 1 || n.Value > most) {
		r.faultAt(NoSuchIndex, n.At, n.Text, itoa(most))
	}
}

func (r *reader) faultAt(kind field.FaultKind, at field.Ref, read, detail string) {
	r.faultHere(kind, at, read, "count", detail)
}

// copies reports sheets that were made by copying one of the form's: their
// names are valid on the copy only, so what is typed there would be lost.
func (r *reader) copies() (told map[int]bool) {
	told = map[int]bool{}
	for _, n := range r.book.local {
		_, inForm := r.book.names[n.name]
		if !inForm || told[n.sheet] || n.sheet < 0 || n.sheet >= len(r.book.sheets) {
			continue
		}
		told[n.sheet] = true
		r.fault(CopiedSheet, r.book.sheets[n.sheet], pos{1, 1}, n.name, "sheet", "")
	}
	return told
}

// lost reports blocks whose names are all gone although the block still stands
// on a sheet: what is typed there would not be read. A block that is not on the
// sheet is one that the form was made without.
func (r *reader) lost(missing []block, prefix string) {
	if len(missing) == 0 || r.err != nil {
		return
	}
	titles := map[string]block{}
	for _, k := range missing {
		titles[r.word("form.block."+k.words())] = k
	}
	for _, s := range r.sheetsOf(prefix) {
		r.eachFirst(s, func(p pos, text string) bool {
			if k, ok := titles[text]; ok {
				r.fault(NoName, s, p, "", "name", k.name(prefix))
			}
			return true
		})
	}
}

// sheetsOf are the sheets that names with a prefix refer to; without one, all
// that have a name of the tower.
func (r *reader) sheetsOf(prefix string) []*bookSheet {
	found := map[int]bool{}
	for name, refersTo := range r.book.names {
		if _, ofCell := cellOf(name); ofCell == (prefix == "") || !strings.HasPrefix(name, prefix) {
			continue
		}
		if a, ok := parseArea(refersTo); ok {
			if s := r.book.sheet(a.sheet); s != nil {
				found[s.index] = true
			}
		}
	}
	var out []*bookSheet
	for _, s := range r.book.sheets {
		if found[s.index] {
			out = append(out, s)
		}
	}
	return out
}

// eachFirst calls f with the labels in the first column of a sheet until it
// returns false.
func (r *reader) eachFirst(s *bookSheet, f func(pos, string) bool) {
	g, err := r.book.gridOf(s)
	if err != nil {
		r.err = err
		return
	}
	for row := 1; row < g.rows; row++ {
		p := pos{1, row}
		if c, blank := g.at(p); !blank && !f(p, r.normal(c.text)) {
			return
		}
	}
}

// strangers reports sheets that look like the form's, though no name of the form
// points there: what is typed on them would not be read. Those told before are
// not told again.
func (r *reader) strangers(told map[int]bool) {
	titles := map[string]bool{}
	for _, s := range towerSheets() {
		for _, k := range s.blocks {
			titles[r.word("form.block."+k.words())] = true
		}
	}
	for _, k := range r.cellBlocks {
		titles[r.word("form.block."+k.words())] = true
	}
	for _, s := range r.book.sheets {
		if r.used[s.index] || told[s.index] || r.err != nil {
			continue
		}
		r.eachFirst(s, func(p pos, text string) bool {
			if titles[text] {
				r.fault(CopiedSheet, s, p, text, "sheet", "")
			}
			return !titles[text]
		})
	}
}

// mergedBoxes reports boxes that were merged into one: which of them the value
// belongs to is not known. Merges that the form itself makes join a box with
// cells that are none, so it is enough to look at columns and rows of boxes
// that have their own names or labels.
func (r *reader) mergedBoxes() {
	bySheet := map[*bookSheet][]area{}
	for _, refersTo := range r.book.names {
		if a, ok := parseArea(refersTo); ok {
			s := r.book.sheet(a.sheet)
			bySheet[s] = append(bySheet[s], a)
		}
	}
	for _, s := range r.book.sheets {
		if s.grid == nil {
			continue
		}
		for _, m := range s.grid.merges {
			if m.rows() > 1 && touches(m, bySheet[s]) {
				c, _ := r.at(s, m.from)
				r.fault(Merged, s, m.from, c.text, "onecell", m.cells())
			}
		}
	}
}

// touches tells whether a merge reaches into one of the ranges.
func touches(m area, ranges []area) bool {
	for _, a := range ranges {
		if a.from.col <= m.to.col && m.from.col <= a.to.col && a.from.row <= m.to.row && m.from.row <= a.to.row {
			return true
		}
	}
	return false
}

// contents lists what else is in the workbook, since it goes into the package
// whole.
func (r *reader) contents() {
	file := &r.record.Files[0]
	for _, s := range r.book.sheets {
		if s.hidden {
			file.Hidden = append(file.Hidden, shown(s.title))
		}
		if !r.used[s.index] {
			file.Extra = append(file.Extra, shown(s.title))
		}
		comments, err := r.book.comments(s)
		if err != nil {
			r.err = err
			return
		}
		for _, c := range comments {
			r.book.author(c.author)
			file.Comments = append(file.Comments, field.Comment{At: field.Ref{Sheet: s.title, Cell: shown(c.cell)},
				Author: shown(c.author), Text: shown(c.text)})
		}
	}
	file.Authors = r.book.authors
}
