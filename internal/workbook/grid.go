package workbook

import "strconv"

// rawKind is what the file says a cell holds.
type rawKind int

const (
	rawNumber rawKind = iota
	rawText
	rawBool
	rawError
	rawDate // a date written as text by its own type
)

// rawCell is a cell with contents. A formula is known by its last result.
type rawCell struct {
	kind    rawKind
	text    string // digits of a number as the file has them
	formula bool
	result  bool // of a formula: there is one
	style   numberStyle
}

// grid holds the cells of a sheet that have contents.
type grid struct {
	cells  []rawCell
	places map[uint32]int32 // of the cells, by place
	merges []area
	rows   int // one more than the last with contents
}

// place is a key of a cell that lies where a form reaches.
func place(p pos) uint32 { return uint32(p.row)<<10 | uint32(p.col) }

// put adds a cell.
func (g *grid) put(p pos, c rawCell) {
	if g.places == nil {
		g.places = make(map[uint32]int32, 512) // as many as a sheet of the form has
	}
	g.places[place(p)] = int32(len(g.cells))
	g.rows = max(g.rows, p.row+1)
	g.cells = append(g.cells, c)
}

// at is the cell at a place; blank is true where it has no contents.
func (g *grid) at(p pos) (c rawCell, blank bool) {
	if p.row < 1 || p.row > maxGridRow || p.col < 1 || p.col > maxGridCol {
		return rawCell{}, true
	}
	i, ok := g.places[place(p)]
	if !ok {
		return rawCell{}, true
	}
	return g.cells[i], false
}

// gridScan is the state of reading a sheet.
type gridScan struct {
	book *book
	scanner
	grid     *grid
	row, col int // of the last cell seen; cells may leave out their address
}

// readGrid reads a sheet in one pass.
func (k *book) readGrid(b []byte) (*grid, error) {
	s := &gridScan{book: k, scanner: scanner{b: b}, grid: &grid{}}
	for {
		t, err := s.next()
		if err != nil {
			return nil, refusal(ErrDamaged, err.Error())
		}
		if t.kind == endOfPart {
			return s.grid, nil
		}
		if t.kind != startTag {
			continue
		}
		switch string(t.name) {
		case "row":
			err = s.startRow(t)
		case "c":
			err = s.cell(t)
		case "mergeCell":
			err = s.merge(t)
		}
		if err != nil {
			return nil, err
		}
	}
}

func (s *gridScan) startRow(t token) error {
	s.row, s.col = s.row+1, 0
	if r := t.attr("r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil || n < 1 || n > maxRows {
			return refusal(ErrDamaged, "row "+shown(r))
		}
		s.row = n
	}
	return nil
}

// cell reads a cell and keeps it if it has contents.
func (s *gridScan) cell(t token) error {
	at := pos{s.col + 1, s.row}
	if r := t.rawAttr("r"); len(r) > 0 {
		var ok bool
		if at, ok = parsePos(string(r)); !ok {
			return refusal(ErrDamaged, "cell "+shown(string(r)))
		}
	}
	s.row, s.col = at.row, at.col
	if t.empty {
		return nil
	}
	kind := t.attr("t")
	style := atoi(t.attr("s"))
	c, err := s.contents()
	if err != nil {
		return err
	}
	if err := s.meaning(&c, kind); err != nil {
		return err
	}
	if c.text == "" && (!c.formula || c.result) { // blank, or a formula that gives ""
		return nil
	}
	if style >= 0 && style < len(s.book.formats) {
		c.style = s.book.formats[style]
	}
	return s.keep(at, c)
}

// keep refuses what lies where no form reaches, and more than a form holds.
func (s *gridScan) keep(at pos, c rawCell) error {
	if at.row > maxGridRow || at.col > maxGridCol || len(s.grid.cells) == maxCells {
		return refusal(ErrTooLarge, "contents at "+at.String())
	}
	if _, blank := s.grid.at(at); !blank {
		return refusal(ErrDamaged, "cell "+at.String()+" stands twice")
	}
	s.grid.put(at, c)
	return nil
}

// contents reads up to the end of the cell.
func (s *gridScan) contents() (rawCell, error) {
	var c rawCell
	for {
		t, err := s.next()
		if err != nil || t.kind == endOfPart {
			return c, refusal(ErrDamaged, "cell without an end")
		}
		switch {
		case t.kind == endTag && t.is("c"):
			return c, nil
		case t.kind != startTag:
		case t.is("f"):
			c.formula = true
		case c.result && (t.is("v") || t.is("is")):
			return c, refusal(ErrDamaged, "cell with two values")
		case t.is("v"):
			c.result = true
			if !t.empty {
				c.text, err = s.content()
			}
		case t.is("is"):
			c.result = true
			if !t.empty {
				c.text, err = s.richText("is")
			}
		}
		if err != nil {
			return c, err
		}
	}
}

// meaning applies the cell's type.
func (s *gridScan) meaning(c *rawCell, kind string) error {
	switch kind {
	case "s":
		n, err := strconv.Atoi(c.text)
		if c.text == "" {
			return nil
		}
		if err != nil || n < 0 || n >= len(s.book.strings) {
			return refusal(ErrDamaged, "shared text "+shown(c.text))
		}
		c.kind, c.text = rawText, s.book.strings[n]
	case "str":
		c.kind, c.text = rawText, underscores(c.text)
	case "inlineStr":
		c.kind = rawText
	case "b":
		c.kind = rawBool
	case "e":
		c.kind = rawError
	case "d":
		c.kind = rawDate
	case "", "n":
	default:
		return refusal(ErrDamaged, "cell of type "+shown(kind))
	}
	return nil
}

func (s *gridScan) merge(t token) error {
	a, ok := parseArea("x!" + t.attr("ref"))
	if !ok || len(s.grid.merges) == maxMerges {
		return refusal(ErrDamaged, "merged cells "+shown(t.attr("ref")))
	}
	if s.grid.merges == nil {
		s.grid.merges = make([]area, 0, 1024) // as many as a sheet of the form has
	}
	s.grid.merges = append(s.grid.merges, a)
	return nil
}
