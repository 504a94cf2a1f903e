package workbook

import "strconv"

func itoa(n int) string { return strconv.Itoa(n) }

// Paper, margins and the width of a character, in points. A column of w
// characters is 8w+5 pixels wide at 96 pixels to the inch, as spreadsheets draw
// it in the form's type.
const (
	marginSide   = 36.0
	marginTop    = 44.0
	marginBottom = 40.0
)

// page is the printable size of a sheet's paper in points.
func (o FormOptions) page(wide bool) (width, height float64) {
	w, h := 612.0, 792.0
	if o.Paper == "A4" {
		w, h = 595.0, 842.0
	}
	if wide {
		w, h = h, w
	}
	return w - 2*marginSide, h - marginTop - marginBottom
}

func columnPoints(chars float64) float64 { return (8*chars + 5) * 0.75 }

// minScale is the smallest print scale, in percent, that is used to keep a
// block on one page: a box then prints about 5.5 mm high.
const minScale = 74

// widthScale is the print scale in percent at which all columns fit on the
// paper's width. Scales are set outright: spreadsheets ignore page breaks in
// sheets that are told to fit themselves.
func (o FormOptions) widthScale(s *sheetPlan) int {
	total := 0.0
	for i, w := range s.widths {
		if s.printed.sheet == "" || i < s.printed.to.col {
			total += columnPoints(w)
		}
	}
	width, _ := o.page(s.wide)
	return max(10, min(100, int(100*width/total)-1))
}

// keep makes the rows from start to here one unit: it is not broken over two
// pages if a page can hold it.
func (b *builder) keep(start int) { b.sheet.units = append(b.sheet.units, start) }

// paginate chooses the scale and the page breaks of a finished sheet.
func (b *builder) paginate() {
	s := b.sheet
	s.scale = b.o.widthScale(s)
	_, height := b.o.page(s.wide)
	for i, start := range s.units {
		need := int(100 * height / (b.heightOf(start, b.unitEnd(i)) + b.frozenHeight(start)))
		if need >= minScale {
			s.scale = min(s.scale, need)
		}
	}
	height *= 100 / float64(s.scale)
	for i, start := range s.units {
		top := b.pageTop()
		if i > 0 && b.heightOf(top, b.unitEnd(i)) > height-b.frozenHeight(top) {
			s.breaks = append(s.breaks, start)
		}
	}
}

// unitEnd is the row after a unit's last, without the blank row that follows.
func (b *builder) unitEnd(i int) int {
	if i+1 < len(b.sheet.units) {
		return b.sheet.units[i+1] - 1
	}
	return b.sheet.rows + 1
}

// pageTop is the first row of the current page.
func (b *builder) pageTop() int {
	if n := len(b.sheet.breaks); n > 0 {
		return b.sheet.breaks[n-1]
	}
	return 1
}

// frozenHeight is what the repeated top rows take on a page that begins at a
// row.
func (b *builder) frozenHeight(top int) float64 {
	if top == 1 {
		return 0
	}
	return b.heightOf(1, 1+b.sheet.frozen)
}

func (b *builder) heightOf(from, to int) float64 {
	sum := 0.0
	for r := from; r < to; r++ {
		if h, ok := b.sheet.heights[r]; ok {
			sum += h
		} else {
			sum += rowHeight
		}
	}
	return sum
}

// sheetWidths are the columns of a tower sheet: as wide as its table, or a
// label, a value and a hint.
func sheetWidths(s sheet) []float64 {
	k := s.blocks[0]
	var widths []float64
	switch k.shape {
	case keyedShape:
		widths = []float64{15, 28}
	case formShape:
		if k.key == "geometry" { // its labels say more
			return []float64{42, 26, 40}
		}
		return []float64{32, 38, 38}
	}
	for _, c := range k.slots {
		widths = append(widths, c.width)
	}
	if k.shape == keyedShape {
		widths = append(widths, 8, 8) // what is marked while typing
	}
	return widths
}

// roundGrid is how rounds share the columns of a cell's sheet.
type roundGrid struct {
	widths []float64
	width  int // columns of a round
	value  int // of them, for values; the others take reasons
}

// column is the first column of a round.
func (g roundGrid) column(i int) int { return firstRound + g.width*i }

// fanGrid has a value and a reason for each round, and the marks.
func fanGrid(rounds int) roundGrid {
	g := roundGrid{widths: []float64{24, 8}, width: 2, value: 1}
	for range rounds {
		g.widths = append(g.widths, 12, 13)
	}
	g.widths = append(g.widths, 12)
	if rounds == MinRounds {
		g.widths = append(g.widths, 20)
	}
	return g
}

// driveColumns is a number that two, three and four rounds divide, and enough
// for a cell's sets of fasteners.
const driveColumns = 12

// driveGrid has narrower columns, that the tables of the sheet need.
func driveGrid(rounds int) roundGrid {
	g := roundGrid{widths: []float64{20, 8}, width: driveColumns / rounds}
	g.value = (g.width + 1) / 2
	for range driveColumns {
		g.widths = append(g.widths, 10)
	}
	return g
}
