package main

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
)

// perBook is how many cells are stamped into one workbook.
const perBook = 84

// tower stamps workbooks of a tower with n cells out of a filled form: its
// cells in turn, each with both sheets and all names, under new numbers. The
// sheets about the tower as a whole stay as they are, in every workbook.
func tower(form []byte, n int) ([][]byte, error) {
	s, err := newStamp(form)
	if err != nil {
		return nil, err
	}
	if n < len(s.cells) {
		s.clear("Not required", "Deviations", "Open items")
	}
	var books [][]byte
	for first := 1; first <= n; first += perBook {
		b, err := s.book(first, min(n, first+perBook-1))
		if err != nil {
			return nil, err
		}
		books = append(books, b)
	}
	return books, nil
}

// part is a file inside a workbook.
type part struct {
	name string
	body []byte
}

// stamp is a workbook taken apart: what belongs to its cells, and the rest.
type stamp struct {
	parts  []part            // without the sheets of cells
	sheets map[string]string // parts of the other sheets, by title
	cells  []stampCell
}

// stampCell is what one cell adds to the workbook, with its own number in it.
type stampCell struct {
	number int
	sheets []stampSheet
	names  string
}

type stampSheet struct {
	title string // after "Cell 3", e.g. " drive"
	body  []byte
}

const (
	workbookPart  = "xl/workbook.xml"
	relationsPart = "xl/_rels/workbook.xml.rels"
	typesPart     = "[Content_Types].xml"
)

var (
	sheetTag = regexp.MustCompile(`<sheet name="([^"]*)"[^>]* r:id="([^"]*)"/>`)
	cellTag  = regexp.MustCompile(`<sheet name="Cell \d[^>]*/>`)
	title    = regexp.MustCompile(`^Cell (\d+)(.*)`)
	nameTag  = regexp.MustCompile(`<definedName [^>]*name="c(\d\d+)_[^"]*"[^>]*>[^<]*</definedName>`)
	localTag = regexp.MustCompile(`<definedName localSheetId=[^>]*>[^<]*</definedName>`)
)

func newStamp(form []byte) (*stamp, error) {
	z, err := zip.NewReader(bytes.NewReader(form), int64(len(form)))
	if err != nil {
		return nil, err
	}
	bodies := map[string][]byte{}
	var order []string
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		if bodies[f.Name], err = io.ReadAll(r); err != nil {
			return nil, err
		}
		order = append(order, f.Name)
	}
	s := &stamp{sheets: map[string]string{}}
	if err := s.takeCells(bodies); err != nil {
		return nil, err
	}
	for _, name := range order {
		if body, ok := bodies[name]; ok {
			s.parts = append(s.parts, part{name, body})
		}
	}
	return s, nil
}

// takeCells moves everything of cells out of the parts.
func (s *stamp) takeCells(bodies map[string][]byte) error {
	book, relations, types := bodies[workbookPart], bodies[relationsPart], bodies[typesPart]
	byNumber := map[int]*stampCell{}
	for _, m := range sheetTag.FindAllSubmatch(book, -1) {
		tag := regexp.MustCompile(`<Relationship Id="` + regexp.QuoteMeta(string(m[2])) + `" Target="([^"]*)"[^>]*/>`)
		target := tag.FindSubmatch(relations)
		if target == nil {
			return fmt.Errorf("no relation %s", m[2])
		}
		name := "xl/" + string(target[1])
		of := title.FindSubmatch(m[1])
		if of == nil {
			s.sheets[string(m[1])] = name
			continue
		}
		n, err := strconv.Atoi(string(of[1]))
		if err != nil {
			return err
		}
		if byNumber[n] == nil {
			byNumber[n] = &stampCell{number: n}
		}
		byNumber[n].sheets = append(byNumber[n].sheets, stampSheet{string(of[2]), bodies[name]})
		relations = tag.ReplaceAll(relations, nil)
		types = regexp.MustCompile(`<Override PartName="/`+regexp.QuoteMeta(name)+`"[^>]*/>`).ReplaceAll(types, nil)
		delete(bodies, name)
	}
	for _, m := range nameTag.FindAllSubmatch(book, -1) {
		if n, err := strconv.Atoi(string(m[1])); err == nil && byNumber[n] != nil {
			byNumber[n].names += string(m[0])
		}
	}
	for n := 1; byNumber[n] != nil; n++ {
		s.cells = append(s.cells, *byNumber[n])
	}
	if len(s.cells) == 0 {
		return errors.New("no cells in the form")
	}
	book = cellTag.ReplaceAll(book, nil)
	book = nameTag.ReplaceAll(book, nil)
	bodies[workbookPart] = localTag.ReplaceAll(book, nil) // print areas, counted by sheet
	bodies[relationsPart], bodies[typesPart] = relations, types
	return nil
}

// rows are the cells of a sheet below its heads.
var rows = regexp.MustCompile(`(<c r="[A-Z]+(?:[5-9]|\d\d+)")[^>/]*>.*?</c>`)

// clear takes the rows that name cells off the sheets of the tower: a smaller
// tower does not have those cells.
func (s *stamp) clear(titles ...string) {
	for i := range s.parts {
		for _, title := range titles {
			if p := &s.parts[i]; p.name == s.sheets[title] {
				p.body = rows.ReplaceAll(p.body, []byte("$1/>"))
			}
		}
	}
}

// book is a workbook with the cells from first to last.
func (s *stamp) book(first, last int) ([]byte, error) {
	var sheets, names, relations, types strings.Builder
	var added []part
	for n := first; n <= last; n++ {
		c := s.cells[(n-1)%len(s.cells)]
		for i, sh := range c.sheets {
			id := fmt.Sprintf("cell%dsheet%d", n, i)
			fmt.Fprintf(&sheets, `<sheet name="Cell %d%s" sheetId="%d" r:id="%s"/>`, n, sh.title, 1000+10*n+i, id)
			fmt.Fprintf(&relations, `<Relationship Id="%s" Target="worksheets/%s.xml" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet"/>`, id, id)
			fmt.Fprintf(&types, `<Override PartName="/xl/worksheets/%s.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`, id)
			added = append(added, part{"xl/worksheets/" + id + ".xml", sh.body})
		}
		renumber := strings.NewReplacer(c.changes(n)...)
		names.WriteString(renumber.Replace(c.names))
	}
	insert := map[string][2]string{
		relationsPart: {"</Relationships>", relations.String()},
		typesPart:     {"</Types>", types.String()},
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, p := range s.parts {
		if in, ok := insert[p.name]; ok {
			p.body = bytes.Replace(p.body, []byte(in[0]), []byte(in[1]+in[0]), 1)
		}
		if p.name == workbookPart {
			p.body = bytes.Replace(p.body, []byte("</sheets>"), []byte(sheets.String()+"</sheets>"), 1)
			p.body = bytes.Replace(p.body, []byte("</definedNames>"), []byte(names.String()+"</definedNames>"), 1)
		}
		added = append(added, p)
	}
	for _, p := range added {
		f, err := w.Create(p.name)
		if err != nil {
			return nil, err
		}
		if _, err := f.Write(p.body); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// changes are the texts in the names of a cell that hold its number, each with
// what it is for cell n.
func (c *stampCell) changes(n int) []string {
	pairs := []string{fmt.Sprintf(`name="c%02d_`, c.number), fmt.Sprintf(`name="c%02d_`, n)}
	for _, sh := range c.sheets {
		pairs = append(pairs, fmt.Sprintf("Cell %d%s'!", c.number, sh.title), fmt.Sprintf("Cell %d%s'!", n, sh.title))
	}
	return pairs
}
