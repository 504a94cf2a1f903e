package compose

import (
	"slices"

	"asleft/internal/field"
	"asleft/internal/page"
)

// appendix says where in the workbooks the readings stand, and gives whatever was
// typed that no other page tells as it was typed. It is made after them.
func (b *book) appendix() []page.Block {
	intro := "appendix.beside"
	if b.attaches() {
		intro = "appendix.inside"
	}
	blocks := []page.Block{b.h2("appendix.title", anchorAppendix), b.para("appendix.intro"), b.para(intro)}
	sheets, rest := b.typedPlaces()
	blocks = append(blocks, b.sheetTable(sheets), b.h3("appendix.rest"))
	if len(rest) > 0 {
		blocks = append(blocks, b.lead("appendix.restintro"), b.untoldTable(rest))
	} else {
		blocks = append(blocks, b.para("appendix.norest"))
	}
	return append(blocks, b.workbookNotes()...)
}

// towerParts are the parts of the record that belong to no cell, or to one of the
// package.
func (b *book) towerParts() []any {
	r := &b.in.Record
	here := map[int]bool{0: true}
	for _, c := range b.cells() {
		here[c.judged.Number] = true
	}
	attached := slices.DeleteFunc(slices.Clone(r.Attachments), func(a field.Attachment) bool { return !here[a.Cell.Value] })
	return []any{&r.Project, &r.Tower, r.Limits, r.Instruments, r.People, r.Roles, r.Waivers, r.Deviations, r.OpenItems, attached}
}

// sheetLines is how many cells of the tower stand side by side.
const sheetLines = 2

// sheetTable says on which sheets stands what was typed of the tower and of each
// of its cells.
func (b *book) sheetTable(lines [][]page.TableCell) page.Table {
	t := page.Table{Summary: b.say("appendix.sheettable"), Head: make([][]page.TableCell, 1)}
	for range sheetLines {
		t.Columns = append(t.Columns, page.Column{Width: 1}, page.Column{Width: 2})
		t.Head[0] = append(t.Head[0], b.headRow("appendix.of", "appendix.sheets")...)
	}
	half := (len(lines) + 1) / sheetLines
	for i := range half {
		row := page.TableRow{Cells: lines[i]}
		if i+half < len(lines) {
			row.Cells = append(row.Cells, lines[i+half]...)
		} else {
			row.Cells = append(row.Cells, page.TableCell{Span: 2})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// sheetsOf are the sheets that something was typed on.
func (b *book) sheetsOf(cells []typedCell) string {
	var out []string
	var last field.Ref
	for _, c := range cells {
		if len(out) > 0 && c.at.Sheet == last.Sheet && c.at.File == last.File {
			continue
		}
		last = c.at
		if s := b.sheetName(c.at); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return b.or(join(", ", out...), "appendix.none")
}

// sheetName is a sheet, with its workbook where there are several.
func (b *book) sheetName(at field.Ref) string {
	name := b.say("appendix.sheet", "sheet", b.clean(at.Sheet, at))
	if files := b.in.Record.Files; len(files) > 1 && at.File < len(files) {
		name = join(" ", name, b.clean(files[at.File].Name, at))
	}
	return name
}

// workbookNotes list what else is in the workbooks, since they go into the
// package whole.
func (b *book) workbookNotes() []page.Block {
	blocks := []page.Block{b.h3("appendix.workbooks")}
	t := page.Table{
		Columns: []page.Column{{Width: 1.6}, {Width: 0.5}, {Width: 1.3}, {Width: 1.3}, {Width: 1.2}},
		Head: [][]page.TableCell{b.headRow("appendix.file", "appendix.form", "appendix.hidden",
			"appendix.extra", "appendix.authors")},
		Summary: b.say("appendix.workbooktable"),
	}
	t = rows(b, t, b.in.Record.Files, func(f field.File) []string {
		return []string{b.clean(f.Name, field.Ref{}), b.clean(f.Form, field.Ref{}),
			b.names(f.Hidden), b.names(f.Extra), b.names(f.Authors)}
	})
	return append(append(blocks, t), b.comments()...)
}

func (b *book) names(list []string) string {
	var out []string
	for _, s := range list {
		out = append(out, b.clean(s, field.Ref{}))
	}
	return b.or(join(", ", out...), "appendix.none")
}

// comments are the cell comments of all workbooks.
func (b *book) comments() []page.Block {
	var all []field.Comment
	for _, f := range b.in.Record.Files {
		all = append(all, f.Comments...)
	}
	if len(all) == 0 {
		return nil
	}
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 1}, {Width: 4}},
		Head:    [][]page.TableCell{b.headRow("appendix.where", "appendix.author", "appendix.comment")},
		Summary: b.say("appendix.commenttable"),
	}
	return []page.Block{b.h3("appendix.comments"), rows(b, t, all, func(c field.Comment) []string {
		return []string{b.clean(c.At.String(), c.At), b.clean(c.Author, c.At), b.clean(c.Text, c.At)}
	})}
}
