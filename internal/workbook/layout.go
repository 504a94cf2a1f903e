package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// A slot is one cell of the form, or one column or row of like cells: its key,
// and the entry of the record it fills. What it may hold follows from the Go
// type of that entry, so layout and reader cannot disagree.
type slot struct {
	key   string        // last part of defined name and words key
	ref   func(any) any // pointer to the entry, from a pointer to its owner
	kind  kind
	list  *list   // closed choice; nil where the text is free
	pick  string  // register offered as a drop-down: pickPeople, pickInstruments
	width float64 // as a table column, in characters
	span  int     // as a table column, in sheet columns; 0 means 1
	tall  int     // as a form line, in rows' heights; 0 means 1
	units unitSet // of a quantity
	// unitsOf gives the units that go by what stands in the same row before.
	unitsOf func(any) unitSet
}

// Registers offered as drop-downs. Other text is allowed: the name of a person
// who is not in the register is a question, not a fault.
const (
	pickPeople      = "people"
	pickInstruments = "instruments"
)

// entry makes a slot of a field of T.
func entry[T any](key string, ref func(*T) any) slot {
	return slot{key: key, kind: kindOf(ref(new(T))),
		ref: func(owner any) any { return ref(owner.(*T)) }}
}

// kind is what a cell of the form holds.
type kind int

const (
	kindText kind = iota
	kindLength
	kindAngle
	kindResolution
	kindCount
	kindFlag
	kindDate
	kindClock
	kindDirection
	kindNumber
	kindSlope
	kindQuantity
	kindRise    // a length or a slope
	kindNumbers // a list of whole numbers
)

// kindOf is the kind that fills an entry of the record.
func kindOf(entry any) kind {
	switch entry.(type) {
	case *field.Length:
		return kindLength
	case *field.Angle:
		return kindAngle
	case resolution:
		return kindResolution
	case *field.Count:
		return kindCount
	case *field.Flag:
		return kindFlag
	case *field.Date:
		return kindDate
	case *field.Clock:
		return kindClock
	case *field.Entry[field.Direction]:
		return kindDirection
	case *field.Number:
		return kindNumber
	case *field.Slope:
		return kindSlope
	case *field.Quantity:
		return kindQuantity
	case rise:
		return kindRise
	case *numbers:
		return kindNumbers
	}
	return kindText
}

// Modifiers, so that the layout reads as a list.
func (s slot) of(l *list) slot         { s.list = l; return s }
func (s slot) from(pick string) slot   { s.pick = pick; return s }
func (s slot) wide(chars float64) slot { s.width = chars; return s }
func (s slot) high(rows int) slot      { s.tall = rows; return s }
func (s slot) across(cols int) slot    { s.span = cols; return s }
func (s slot) in(u unitSet) slot       { s.units = u; return s }

// shape is how a block lies on its sheet.
type shape int

const (
	formShape   shape = iota // lines of label and value, each with its own name
	tableShape               // a head line and rows; one name for the body
	keyedShape               // a table whose rows have fixed labels
	degreeShape              // positions and their own degrees
	headShape                // rounds side by side, lines of a head
	columnShape              // lines, each with its own name, over like columns
	listShape                // a keyed table without limits, on a cell's sheet
	seriesShape              // rounds side by side, head lines and readings
)

// A block is a part of a sheet that is found by defined names beginning with
// its key; a cell's blocks have the cell's prefix before it ("c03_").
type block struct {
	key   string
	shape shape
	slots []slot // form: lines; table: columns; series: lines above the rounds; column: lines
	rows  int    // table: blank rows of the form
	keyed []keyedRow
	owner func(any) any // form: pointer to what the slots fill, from *field.Record or *field.Cell
	grow  func(any) any // table: appends a row to its list and returns a pointer to it
	at    func(any) *field.Ref
	begin func(row any, key string) // keyed: puts the row's key in
	run   *series
	// optional blocks of the tower: a form may be without them.
	optional bool
	// drive tells that the heads of this block fall back on the drive line's.
	drive bool
	// aside tells that rows go into the reader's aside, to be put together with
	// others before they are in the record.
	aside bool
	// aligned columns keep their numbers: a blank one before a filled one counts.
	aligned bool
}

// keyedRow is a row with a fixed label. Columns of its block that are also in
// quantities are open only where listed here.
type keyedRow struct {
	key        string
	quantities []slot
}

// A series is a set of readings in rounds.
type series struct {
	over  over
	value kind   // of a reading: kindLength, kindAngle, kindSlope
	marks bool   // a column for the marks' own heights
	heads []slot // lines of a round's head, filling a roundEntry
	put   func(*field.Cell, *seriesReader)
	// spread marks the highest minus the lowest while typing; else each reading
	// is marked against the limit of the block's key.
	spread bool
}

// roundEntry is what the head lines of a series fill.
type roundEntry struct {
	head     field.Head
	accepted field.Flag
	blade    field.Count
}

// resolution is a slot that takes a length or, for levels and protractors, an
// angle or a slope.
type resolution struct {
	length *field.Length
	angle  *field.Angle
	slope  *field.Slope
}

// rise is a slot that takes a length or a slope: what a coupling may differ by.
type rise struct {
	length *field.Length
	slope  *field.Slope
}

// numbers is an entry of several whole numbers: feet, or blades.
type numbers = field.Entry[[]int]

// unitSet is what a quantity may be, and the unit that is meant where none is
// typed: in a form in inches, and in one in millimeters. NoUnit: it must be
// typed.
type unitSet struct {
	kinds        []measure.QuantityKind
	inch, metric measure.QuantityUnit
}

// form makes a block of lines that fill a T.
func form[O, T any](key string, owner func(*O) *T, slots ...slot) block {
	return block{key: key, shape: formShape, slots: slots,
		owner: func(o any) any { return owner(o.(*O)) }}
}

// table makes a block of rows that fill a list of T.
func table[O, T any](key string, rows int, list func(*O) *[]T, at func(*T) *field.Ref, slots ...slot) block {
	return block{key: key, shape: tableShape, rows: rows, slots: slots,
		grow: func(o any) any {
			rows := list(o.(*O))
			*rows = append(*rows, *new(T))
			return &(*rows)[len(*rows)-1]
		},
		at: func(row any) *field.Ref { return at(row.(*T)) }}
}

// words is the part of the words keys that belongs to the block.
func (b block) words() string {
	switch {
	case b.key != "":
		return b.key
	case b.shape == headShape:
		return "head"
	}
	return "identity"
}

// name is the defined name of a part of the block; prefix is "" or a cell's.
func (b block) name(prefix string, parts ...string) string {
	all := make([]string, 0, 4)
	if b.key != "" {
		all = append(all, b.key)
	}
	return prefix + strings.Join(append(all, parts...), "_")
}

// label is the words key of a slot's label.
func (b block) label(s slot) string { return "form." + b.words() + "." + s.key }

// rowLabel is the words key of a keyed row's label.
func (b block) rowLabel(row keyedRow) string {
	if b.key == "limits" {
		return "check." + row.key
	}
	return b.words() + "." + row.key
}

// headLabel is the words key of a line of a round's head.
func headLabel(s slot) string { return "form.head." + s.key }

// cellPrefix begins the defined names of a cell.
func cellPrefix(number int) string { return fmt.Sprintf("c%02d_", number) }

// cellOf is the number of the cell that a defined name belongs to.
func cellOf(name string) (number int, ok bool) {
	rest, ok := strings.CutPrefix(name, "c")
	digits, _, found := strings.Cut(rest, "_")
	if !ok || !found {
		return 0, false
	}
	number, err := strconv.Atoi(digits)
	return number, err == nil && number > 0 && number <= MaxCell && strings.HasPrefix(name, cellPrefix(number))
}

// A sheet of the form, in order.
type sheet struct {
	key    string // words key below "form.sheet."
	blocks []block
	wide   bool // landscape
}

// Round keys that a form with so many rounds has.
func roundKeys(rounds int) []string {
	switch rounds {
	case 2:
		return []string{field.AsFound, field.AsLeft}
	case 4:
		return []string{field.AsFound, field.Second, field.Third, field.AsLeft}
	}
	return []string{field.AsFound, field.Second, field.AsLeft}
}

// allRounds are the round keys there can be, in order.
var allRounds = roundKeys(4)
