package workbook

import (
	"bytes"
	"path"
	"strconv"
	"strings"
)

// book is a workbook taken apart: its sheets in order, its names, and what is
// needed to read cells.
type book struct {
	pack    *pack
	path    string // of the workbook part
	is1904  bool   // days are counted from 1904
	sheets  []*bookSheet
	names   map[string]string // what workbook-wide names refer to, by lower-case name
	local   []localName       // names of one sheet only
	strings []string
	formats []numberStyle // by the cell's style number
	authors []string
}

// bookSheet is a sheet of the workbook; its grid is read when first asked for.
type bookSheet struct {
	title  string
	hidden bool
	part   string
	index  int
	grid   *grid
}

// localName is a defined name that a sheet has for itself: what a copied sheet
// is left with.
type localName struct {
	name, refersTo string
	sheet          int
}

// openBook reads all but the sheets.
func openBook(b []byte) (*book, error) {
	p, err := openPack(b)
	if err != nil {
		return nil, err
	}
	k := &book{pack: p, names: map[string]string{}}
	for _, step := range []func() error{k.findWorkbook, k.readWorkbook, k.readStrings, k.readStyles, k.readProps} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return k, nil
}

func (k *book) findWorkbook() error {
	top, err := k.pack.relations("")
	if err != nil {
		return err
	}
	for _, r := range top {
		if r.kind == "officeDocument" {
			k.path = r.target
		}
	}
	if k.path == "" {
		return refusal(ErrNotWorkbook, "")
	}
	return nil
}

// readWorkbook reads the list of sheets and the defined names.
func (k *book) readWorkbook() error {
	b, err := k.pack.read(k.path)
	if err != nil {
		return err
	}
	relations, err := k.pack.relations(k.path)
	if err != nil {
		return err
	}
	parts := map[string]string{}
	for _, r := range relations {
		parts[r.id] = r.target
	}
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil {
			return refusal(ErrDamaged, err.Error())
		}
		if t.kind == endOfPart {
			return k.checkSheets()
		}
		if t.kind != startTag {
			continue
		}
		switch {
		case t.is("workbookPr"):
			k.is1904 = isTrue(t.attr("date1904"))
		case t.is("sheet"):
			k.sheets = append(k.sheets, &bookSheet{title: t.attr("name"), index: len(k.sheets),
				hidden: strings.HasSuffix(strings.ToLower(t.attr("state")), "hidden"), part: parts[t.attr("id")]})
		case t.is("definedName") && !t.empty:
			text, err := s.content()
			if err != nil {
				return err
			}
			if err := k.addName(t, text); err != nil {
				return err
			}
		}
	}
}

func isTrue(s string) bool { return s == "1" || s == "true" }

// content is the text up to the next end tag.
func (s *scanner) content() (string, error) {
	var text strings.Builder
	for {
		t, err := s.next()
		switch {
		case err != nil || t.kind == endOfPart:
			return "", refusal(ErrDamaged, "text without an end")
		case t.kind == endTag:
			return text.String(), nil
		case t.kind == textToken:
			text.WriteString(unescape(t.text))
		}
	}
}

// addName keeps a defined name. One that stands twice with two meanings is
// refused: which of them a program takes is chance.
func (k *book) addName(t token, refersTo string) error {
	name := strings.ToLower(t.attr("name"))
	if scope := t.attr("localSheetId"); scope != "" {
		if n, err := strconv.Atoi(scope); err == nil {
			k.local = append(k.local, localName{name, refersTo, n})
		}
		return nil
	}
	if other, twice := k.names[name]; twice && other != refersTo {
		return refusal(ErrDamaged, "name "+shown(name)+" stands twice")
	}
	k.names[name] = refersTo
	return nil
}

func (k *book) checkSheets() error {
	switch {
	case len(k.sheets) == 0:
		return refusal(ErrDamaged, "no sheets")
	case len(k.sheets) > maxSheets:
		return refusal(ErrTooLarge, strconv.Itoa(len(k.sheets))+" sheets")
	case len(k.names)+len(k.local) > maxNames:
		return refusal(ErrTooLarge, strconv.Itoa(len(k.names)+len(k.local))+" names")
	}
	titles := map[string]bool{}
	for _, s := range k.sheets {
		title := strings.ToLower(s.title)
		if titles[title] {
			return refusal(ErrDamaged, "sheet "+shown(s.title)+" stands twice")
		}
		titles[title] = true
	}
	return nil
}

// sheet finds a sheet by its title. Titles differ in more than capitals.
func (k *book) sheet(title string) *bookSheet {
	for _, s := range k.sheets {
		if strings.EqualFold(s.title, title) {
			return s
		}
	}
	return nil
}

// sibling is the part that the workbook's relation of a kind points to.
func (k *book) sibling(kind string) ([]byte, error) {
	relations, err := k.pack.relations(k.path)
	if err != nil {
		return nil, err
	}
	for _, r := range relations {
		if r.kind == kind {
			return k.pack.read(r.target)
		}
	}
	return nil, nil
}

// readStrings reads the texts that cells share. Runs of one text are joined;
// readings aids for Japanese (rPh) are not part of it.
func (k *book) readStrings() error {
	b, err := k.sibling("sharedStrings")
	if err != nil {
		return err
	}
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil {
			return refusal(ErrDamaged, err.Error())
		}
		switch {
		case t.kind == endOfPart:
			return nil
		case t.kind == startTag && t.is("si"):
			text := ""
			if !t.empty {
				if text, err = s.richText("si"); err != nil {
					return err
				}
			}
			if len(k.strings) == maxStrings {
				return refusal(ErrTooLarge, "shared texts")
			}
			k.strings = append(k.strings, text)
		}
	}
}

// richText joins the texts up to the end of the element.
func (s *scanner) richText(element string) (string, error) {
	var text strings.Builder
	phonetic, inside := false, false
	for {
		t, err := s.next()
		if err != nil || t.kind == endOfPart {
			return "", refusal(ErrDamaged, "text without an end")
		}
		switch {
		case t.kind == endTag && t.is(element):
			return underscores(text.String()), nil
		case t.is("rPh"):
			phonetic = t.kind == startTag && !t.empty
		case t.is("t"):
			inside = t.kind == startTag && !t.empty
		case t.kind == textToken && inside && !phonetic:
			text.WriteString(unescape(t.text))
			if text.Len() > maxRuns { // joined runs would grow without bound
				return "", refusal(ErrTooLarge, "text of a cell")
			}
		}
	}
}

// readStyles reads the number format of every style of a cell.
func (k *book) readStyles() error {
	b, err := k.sibling("styles")
	if err != nil {
		return err
	}
	custom := map[int]string{}
	inside := false
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil {
			return refusal(ErrDamaged, err.Error())
		}
		switch {
		case t.kind == endOfPart:
			return nil
		case t.is("numFmt") && t.kind == startTag:
			custom[atoi(t.attr("numFmtId"))] = t.attr("formatCode")
		case t.is("cellXfs"):
			inside = t.kind == startTag && !t.empty
		case t.is("xf") && t.kind == startTag && inside:
			if len(k.formats) == maxStyles {
				return refusal(ErrTooLarge, "styles")
			}
			id := atoi(t.attr("numFmtId"))
			k.formats = append(k.formats, styleOf(id, custom[id]))
		}
	}
}

// atoi is the number, or 0.
func atoi(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		return 0
	}
	return n
}

// readProps reads who wrote the file.
func (k *book) readProps() error {
	if !k.pack.has("docProps/core.xml") {
		return nil
	}
	b, err := k.pack.read("docProps/core.xml")
	if err != nil {
		return err
	}
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil || t.kind == endOfPart {
			return err
		}
		if t.kind == startTag && !t.empty && (t.is("creator") || t.is("lastModifiedBy")) {
			name, err := s.content()
			if err != nil {
				return err
			}
			k.author(name)
		}
	}
}

// author adds a name once.
func (k *book) author(name string) {
	name = shown(strings.TrimSpace(name))
	for _, a := range k.authors {
		if a == name {
			return
		}
	}
	if name != "" {
		k.authors = append(k.authors, name)
	}
}

// bookComment is a comment of a cell.
type bookComment struct{ cell, author, text string }

// comments reads those of a sheet.
func (k *book) comments(s *bookSheet) ([]bookComment, error) {
	relations, err := k.pack.relations(s.part)
	if err != nil {
		return nil, err
	}
	for _, r := range relations {
		if r.kind == "comments" && path.Ext(r.target) == ".xml" {
			b, err := k.pack.read(r.target)
			if err != nil {
				return nil, err
			}
			return readComments(b)
		}
	}
	return nil, nil
}

func readComments(b []byte) ([]bookComment, error) {
	var all []bookComment
	var authors []string
	s := scanner{b: b}
	for {
		t, err := s.next()
		if err != nil {
			return nil, refusal(ErrDamaged, err.Error())
		}
		switch {
		case t.kind == endOfPart:
			return all, nil
		case t.kind != startTag || t.empty:
		case t.is("author"):
			name, err := s.content()
			if err != nil {
				return nil, err
			}
			authors = append(authors, name)
		case t.is("comment"):
			c := bookComment{cell: t.attr("ref")}
			if i := atoi(t.attr("authorId")); i >= 0 && i < len(authors) {
				c.author = authors[i]
			}
			if c.text, err = s.richText("comment"); err != nil {
				return nil, err
			}
			if all = append(all, c); len(all) > maxComments {
				return nil, refusal(ErrTooLarge, "comments")
			}
		}
	}
}

// gridOf reads the cells of a sheet once.
func (k *book) gridOf(s *bookSheet) (*grid, error) {
	if s.grid != nil {
		return s.grid, nil
	}
	b, err := k.pack.read(s.part)
	if err != nil {
		return nil, err
	}
	if _, err := k.pack.relations(s.part); err != nil { // refuses links to other files
		return nil, err
	}
	if bytes.Contains(b, []byte("<!")) && bytes.Contains(b, []byte("<!DOCTYPE")) {
		return nil, refusal(ErrDamaged, "document type")
	}
	s.grid, err = k.readGrid(b)
	return s.grid, err
}
