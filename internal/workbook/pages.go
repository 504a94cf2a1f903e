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
// block on one page: a box then prints about 5.3 mm high.
const minScale = 72

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
	top := 1 // of the current page
	for i, start := range s.units {
		if i > 0 && b.heightOf(top, b.unitEnd(i)) > height-b.frozenHeight(top) {
			s.breaks = append(s.breaks, start)
			top = start
		}
		top = b.lastTop(top, b.unitEnd(i), height)
	}
}

// lastTop is where the last page of rows begins that a spreadsheet breaks
// itself, because no page holds them.
func (b *builder) lastTop(top, end int, height float64) int {
	for row := top; row < end; row++ {
		if b.heightOf(top, row+1) > height-b.frozenHeight(top) {
			top = row
		}
	}
	return top
}

// unitEnd is the row after a unit's last, without the blank row that follows.
func (b *builder) unitEnd(i int) int {
	if i+1 < len(b.sheet.units) {
		return b.sheet.units[i+1] - 1
	}
	return b.sheet.rows + 1
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

// roundGrid is how labels, rounds and tables share the columns of a sheet. A
// round has a column for its values and one for reasons. No box takes two
// columns that could take one: every merged box is heavy in the file.
type roundGrid struct {
	widths []float64
	labels int // the column of the labels; one before it is for degrees
	first  int // the first column of boxes
}

// roundWidth is how many columns a round has.
const roundWidth = 2

// column is the column of a round's values; that of its reasons follows.
func (g roundGrid) column(i int) int { return g.first + roundWidth*i }

// towerGrid has a label, a value and a hint.
func towerGrid() roundGrid { return roundGrid{labels: 1, first: 2} }

// fanGrid has the degrees before the labels, and the marks behind the rounds.
func fanGrid(rounds int) roundGrid {
	g := roundGrid{widths: []float64{8, 32}, labels: 2, first: 3}
	for range rounds {
		g.widths = append(g.widths, []float64{20, 18, 14}[rounds-MinRounds], []float64{18, 14, 10}[rounds-MinRounds])
	}
	g.widths = append(g.widths, 12)
	if rounds == MinRounds {
		g.widths = append(g.widths, 20)
	}
	return g
}

// driveColumns is how many columns the tables of the drive sheet need.
const driveColumns = 7

// driveGrid has columns of one width: runs of a start-up stand in them, too.
func driveGrid(rounds int) roundGrid {
	g := roundGrid{widths: []float64{32}, labels: 1, first: 2}
	n := max(driveColumns, roundWidth*rounds)
	for range n {
		g.widths = append(g.widths, float64(228/n)/2)
	}
	return g
}

// Columns of the sheet for what was moved and bolted.
const (
	setColumns  = 12 // a cell's sets of fasteners
	moveColumns = 13 // what a line of the move log says
)

// workGrid has narrow columns.
func workGrid(int) roundGrid {
	g := roundGrid{widths: []float64{22}, labels: 1, first: 2}
	for range moveColumns {
		g.widths = append(g.widths, 10)
	}
	return g
}
