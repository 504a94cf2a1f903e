package workbook

// A plan is a form laid out: what stands in which cell of which sheet. It is
// plain data; write.go puts it into a file and names.go lists its names.
type plan struct {
	sheets []*sheetPlan
	names  []Name
	bounds map[string]area // by check: two cells, what is marked below and above
}

// Name is a defined name of a form.
type Name struct {
	Name  string
	Sheet string // as the new form names it
	Cells string // e.g. "C12:C23"
	Holds string // in the form's language
	// Rows and Columns are the shape of the new form.
	Rows, Columns int
}

// sheetPlan is one sheet.
type sheetPlan struct {
	title   string
	wide    bool
	widths  []float64       // of the columns from A, in characters
	heights map[int]float64 // of rows that differ from rowHeight, in points
	texts   []text
	inputs  []input
	merges  []area
	marks   []mark
	sums    []sum
	bounds  []bound
	units   []int // rows at which something starts that one page should hold
	breaks  []int // rows at which a printed page starts
	scale   int   // of the print, in percent
	frozen  int   // rows at the top that stay on the screen and head every page
	rows    int
	printed area       // the print area, where not all is printed
	guide   *guidePlan // the drawing, on the guide sheet only
}

// text is a cell that the form fills.
type text struct {
	at   pos
	text string
	look look
}

// input is a range of like cells that people fill.
type input struct {
	area    area // up to the first column of the last cell
	slot    slot
	initial []string // of the first rows, "" for blank
	span    int      // sheet columns that each cell takes
	closed  bool     // not used in this row: filled dark and locked
	free    bool     // the notes area
	line    bool     // a line of a form: set to the left
	narrow  bool     // words need the whole width
}

// mark is ranges side by side that are marked while typing where a number is
// outside what the limits sheet says for the check.
type mark struct {
	areas []area
	check string
	value bool // the ranges hold numbers, not typed text
}

// sum is a cell that shows the highest minus the lowest of a column while it
// is typed. Nobody reads it back.
type sum struct {
	at     pos
	values area
	unless area // shows nothing while this range has contents; zero: always shows
}

// bound is a pair of cells on the limits sheet that show what is marked while
// it is typed. Nobody reads them back.
type bound struct {
	check string
	area  area
	cells map[string]string // addresses of the row's quantities by column key
}

// look is how a cell of the form is drawn.
type look int

const (
	lookTitle look = iota
	lookIntro
	lookBlock
	lookNote
	lookLabel
	lookHead
	lookHint  // wraps in its column
	lookAside // runs on over the columns beside it
	lookPlain
	lookInput
	lookCentered
	lookClosed
	lookFree
	lookSum
)

// Heights in points. A box is high enough to write in by hand.
const (
	rowHeight   = 21
	titleHeight = 30
	introHeight = 30
	blockHeight = 24
	noteLine    = 13.5
	headHeight  = 32
	formLine    = 21
	tableRow    = 26
	narrowRow   = 31 // two lines of words
	limitRow    = 42 // wrapped criteria
	hintLine    = 27
)

// hintLetters is how many letters of a hint stand on one row.
const hintLetters = 46

// noteDensity is how many letters of a note stand in the width of one digit.
const noteDensity = 1.2

// builder lays out one sheet from the top down.
type builder struct {
	o      FormOptions
	plan   *plan
	sheet  *sheetPlan
	prefix string    // of the names, "" for the tower's sheets
	row    int       // the next free row
	grid   roundGrid // how the sheet shares its columns
	limits map[string]map[string]string
}

// newPlan lays out the form. The options are complete.
func newPlan(o FormOptions) (*plan, error) {
	limits, err := startingLimits(o)
	if err != nil {
		return nil, err
	}
	p := &plan{bounds: map[string]area{}}
	b := &builder{o: o, plan: p, limits: limits, grid: towerGrid()}
	b.guideSheet()
	for _, s := range towerSheets() {
		if b.o.without(s.blocks[0]) {
			continue
		}
		b.open(o.Words.Say("form.sheet."+s.key), s.key, s.wide, sheetWidths(s))
		b.blocks(s.blocks)
	}
	for n := o.FirstCell; n < o.FirstCell+o.Cells; n++ {
		b.cellSheets(n)
	}
	b.scriptPart()
	return p, nil
}

// cellSheets lays out the sheets of one cell.
func (b *builder) cellSheets(n int) {
	b.prefix = cellPrefix(n)
	for _, s := range cellSheets() {
		b.grid = s.grid(b.o.Rounds)
		b.open(b.say("form.sheet."+s.key, "n", itoa(n)), s.key, s.wide, b.grid.widths)
		b.blocks(s.blocks)
	}
	b.prefix = ""
}

// open begins a sheet with its title and one sentence on what it is for.
func (b *builder) open(title, key string, wide bool, widths []float64) {
	b.sheet = &sheetPlan{title: title, wide: wide, widths: widths, heights: map[int]float64{}}
	b.plan.sheets = append(b.plan.sheets, b.sheet)
	b.row = 1
	b.put(1, title, lookTitle, titleHeight)
	b.put(1, b.say("form.intro."+key), lookIntro, introHeight)
	b.sheet.frozen = 1
}

// blocks lays out blocks below one another and the notes area below them.
func (b *builder) blocks(blocks []block) {
	for _, block := range blocks {
		if b.o.without(block) {
			continue
		}
		start := b.row
		b.block(block)
		b.keep(start)
	}
	b.notes()
	b.paginate()
}

func (b *builder) block(k block) {
	b.put(1, b.say("form.block."+k.words()), lookBlock, blockHeight)
	if note := "form.note." + k.words(); b.o.Words.Has(note) {
		b.note(b.say(note, "unit", b.o.slopeUnit()))
	}
	if k.key == "waivers" { // room for those of the order and more
		k.rows = max(k.rows, len(b.o.waivedChecks())+k.rows/2)
	}
	switch k.shape {
	case formShape:
		b.form(k)
	case tableShape:
		b.table(k)
	case keyedShape:
		b.keyed(k)
	case degreeShape:
		b.degrees(k)
	case headShape:
		b.roundHeads(k)
	case columnShape:
		b.columns(k)
	case listShape:
		b.list(k)
	case seriesShape:
		b.series(k)
	}
	b.row++ // a blank row keeps what is typed below a block apart from it
}

// put writes a full line and moves to the next row.
func (b *builder) put(col int, s string, l look, height float64) {
	b.text(pos{col, b.row}, s, l)
	b.next(height)
}

// note writes a text over the sheet's whole width, as high as it needs.
func (b *builder) note(s string) {
	chars := 0.0
	for _, w := range b.sheet.widths {
		chars += w
	}
	lines := (len(s) + int(chars*noteDensity)) / int(chars*noteDensity)
	if len(b.sheet.widths) > 1 {
		b.sheet.merges = append(b.sheet.merges, b.area(1, b.row, len(b.sheet.widths), 1))
	}
	b.put(1, s, lookNote, float64(lines)*noteLine+5)
}

func (b *builder) text(at pos, s string, l look) {
	b.sheet.texts = append(b.sheet.texts, text{at: at, text: s, look: l})
}

// next ends the current row with its height.
func (b *builder) next(height float64) {
	if height != rowHeight {
		b.sheet.heights[b.row] = height
	}
	b.row++
	b.sheet.rows = b.row - 1
}

func (b *builder) say(key string, pairs ...string) string { return b.o.Words.Say(key, pairs...) }

// area is a rectangle of the current sheet.
func (b *builder) area(col, row, cols, rows int) area {
	return area{b.sheet.title, pos{col, row}, pos{col + cols - 1, row + rows - 1}}
}

// name records a defined name.
func (b *builder) name(name string, a area, holds string) {
	b.plan.names = append(b.plan.names, Name{Name: name, Sheet: a.sheet, Cells: a.cells(),
		Holds: holds, Rows: a.rows(), Columns: a.cols()})
}

// input adds a range of cells to fill and merges each over span columns.
func (b *builder) input(in input) {
	b.sheet.inputs = append(b.sheet.inputs, in)
	if in.span < 2 {
		return
	}
	for r := in.area.from.row; r <= in.area.to.row; r++ {
		for col := in.area.from.col; col <= in.area.to.col; col += in.span {
			b.sheet.merges = append(b.sheet.merges, b.area(col, r, in.span, 1))
		}
	}
}
