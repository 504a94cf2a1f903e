package screen

import (
	"cmp"
	"math"
	"slices"

	"asleft/internal/field"
)

// Question is something in a record that is worth a second look. It accuses
// nobody: an honest tower may raise one, as often as Odds says.
type Question struct {
	Code  string // one of [Codes]; its words are under "screen.question." and "screen.rule." + Code
	Cells []int  // ascending; none where it is about the tower's registers
	N     int    // readings that were looked at; 0 where it is about a date
	// Odds: at most one honest tower in Odds raises this question on evidence as
	// strong, however many cells and rows were looked at for it. One digit and
	// zeros, rounded down. 0 where chance has no part in it: a date or a time.
	Odds int
	Args []Arg
	At   []field.Ref // where to look, in the order in which the arguments name it
}

// Arg is a named argument of a question's words. The text of those named check,
// round or other is a key with words of its own, "check." or "round." + Text.
type Arg struct {
	Name   string
	Text   string
	Number *int
}

// Codes of the questions.
const (
	SameRow    = "samerow"    // one block of two cells
	SameSheet  = "samesheet"  // several blocks of two cells
	SameRound  = "sameround"  // two rounds of one cell
	NoScatter  = "noscatter"  // first readings read again, never different
	RoundMarks = "roundmarks" // a cell read to other marks of the scale than the others

	Uncalibrated = "uncalibrated" // used before it was calibrated
	PastDue      = "pastdue"      // used after it was due
	DueFirst     = "duefirst"     // due before it was calibrated
	Backward     = "backward"     // a later round dated before an earlier one
	Finish       = "finish"       // finished before started
	TwoPlaces    = "twoplaces"    // one person reading in two cells at once
	Sequence     = "sequence"     // numbers and times of one day tell two orders
	Issued       = "issued"       // read or done after the document was issued
	Accepted     = "accepted"     // a deviation accepted before it was read
)

// Risk is the most that each statistical question adds to the chance that an
// honest tower is asked about; [Statistical] counts them.
const Risk = 1.0 / 1000

// CodeSpec is a code, and the names of its arguments.
type CodeSpec struct {
	Code        string
	Statistical bool
	Args        []string
}

// Codes lists every question there is.
func Codes() []CodeSpec {
	return []CodeSpec{
		{SameRow, true, []string{"check", "cell", "round", "second", "other", "same", "n"}},
		{SameSheet, true, []string{"cell", "round", "second", "other", "same", "n"}},
		{SameRound, true, []string{"cell", "round", "other", "same", "n"}},
		{NoScatter, true, []string{"n"}},
		{RoundMarks, true, []string{"cell", "fine", "n", "usual"}},
		{Uncalibrated, false, []string{"instrument", "used", "date"}},
		{PastDue, false, []string{"instrument", "used", "date"}},
		{DueFirst, false, []string{"instrument", "date", "due"}},
		{Backward, false, []string{"cell", "check", "round", "date", "other", "otherdate"}},
		{Finish, false, []string{"cell", "check", "round", "start", "finish"}},
		{TwoPlaces, false, []string{"person", "date", "cell", "check", "time", "second", "othercheck", "othertime"}},
		{Sequence, false, []string{"cell", "date", "first", "time", "then", "othertime"}},
		{Issued, false, []string{"date", "cell", "latest"}},
		{Accepted, false, []string{"cell", "number", "date", "read"}},
	}
}

// Questions looks a whole record through. The order is fixed: by code in the
// order of [Codes], then by cell.
func Questions(r *field.Record) []Question {
	if r == nil {
		return nil
	}
	t := newTower(r)
	var all []Question
	for _, ask := range []func() []Question{
		t.sameCells, t.sameRounds, t.noScatter, t.roundMarks,
		t.calibration, t.backward, t.finish, t.twoPlaces, t.sequences, t.issued, t.accepted,
	} {
		all = append(all, ask()...)
	}
	rank := map[string]int{}
	for i, c := range Codes() {
		rank[c.Code] = i
	}
	slices.SortStableFunc(all, func(a, b Question) int {
		return cmp.Or(cmp.Compare(rank[a.Code], rank[b.Code]), slices.Compare(a.Cells, b.Cells))
	})
	return all
}

func text(name, s string) Arg { return Arg{Name: name, Text: s} }

func number(name string, n int) Arg { return Arg{Name: name, Number: &n} }

// MostOdds is where a chance is only called smaller still: the words are then
// "screen.oddsmost" instead of "screen.odds".
const MostOdds = 1_000_000_000

// odds turns a chance into 1 in so many, one digit and zeros, rounded down: the
// model behind it is no better than that, and the last bits of a float64 do not
// show.
func odds(chance float64) int {
	if !(chance > 1.0/MostOdds) {
		return MostOdds
	}
	x := 1 / chance
	unit := math.Pow(10, math.Floor(math.Log10(x)))
	return int(math.Floor(x/unit+1e-9) * unit)
}
