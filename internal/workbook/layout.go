package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"asleft/internal/field"
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
	}
	return kindText
}

// Modifiers, so that the layout reads as a list.
func (s slot) of(l *list) slot         { s.list = l; return s }
func (s slot) from(pick string) slot   { s.pick = pick; return s }
func (s slot) wide(chars float64) slot { s.width = chars; return s }
func (s slot) high(rows int) slot      { s.tall = rows; return s }
func (s slot) across(cols int) slot    { s.span = cols; return s }

// shape is how a block lies on its sheet.
type shape int

const (
	formShape   shape = iota // lines of label and value, each with its own name
	tableShape               // a head line and rows; one name for the body
	keyedShape               // a table whose rows have fixed labels
	degreeShape              // positions and their own degrees
	headShape                // rounds side by side, lines of a head
	seriesShape              // rounds side by side, head lines and readings
)

// A block is a part of a sheet that is found by defined names beginning with
// its key; a cell's blocks have the cell's prefix before it ("c03_").
type block struct {
	key   string
	shape shape
	slots []slot // form: lines; table: columns; series: lines above the rounds
	rows  int    // table: blank rows of the form
	keyed []keyedRow
	owner func(any) any // form: pointer to what the slots fill, from *field.Record or *field.Cell
	grow  func(any) any // table: appends a row to its list and returns a pointer to it
	at    func(any) *field.Ref
	run   *series
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
	angle bool   // readings are angles, else lengths
	marks bool   // a column for the marks' own heights
	heads []slot // lines of a round's head, filling a roundEntry
	put   func(*field.Cell, *seriesReader)
	// spread marks the highest minus the lowest while typing; else each reading
	// is marked against the limit of the block's key.
	spread bool
}

// over is what a series runs over.
type over int

const (
	positions over = iota
	blades
)

// key is the last part of the name of the labels' column.
func (o over) key() string {
	if o == blades {
		return "blades"
	}
	return "positions"
}

// roundEntry is what the head lines of a series fill.
type roundEntry struct {
	head     field.Head
	accepted field.Flag
	blade    field.Count
}

// resolution is a slot that takes a length or, for levels and protractors, an
// angle.
type resolution struct {
	length *field.Length
	angle  *field.Angle
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

// headLabel is the words key of a line of a round's head.
func headLabel(s slot) string { return "form.head." + s.key }

// cellPrefix begins the defined names of a cell.
func cellPrefix(number int) string { return fmt.Sprintf("c%02d_", number) }

// cellOf is the number of the cell that a defined name belongs to.
func cellOf(name string) (number int, ok bool) {
	if len(name) < 5 || name[0] != 'c' || name[3] != '_' {
		return 0, false
	}
	number, err := strconv.Atoi(name[1:3])
	return number, err == nil && number > 0 && name[1] != '+' && name[1] != '-'
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
