package field

import (
	"fmt"

	"asleft/internal/measure"
)

// Ref says where a value stands: File is an index into [Record.Files], Sheet
// and Cell are as the spreadsheet names them. The zero Ref means "nowhere".
type Ref struct {
	File        int
	Sheet, Cell string
}

// String is the address people use, e.g. "Cell 3!D14".
func (r Ref) String() string {
	if r.Sheet == "" {
		return ""
	}
	return fmt.Sprintf("%s!%s", r.Sheet, r.Cell)
}

// Entry is one typed value: what it means, what was typed, and where. Set is
// false where the cell was blank; a blank is never a zero.
type Entry[T any] struct {
	Value T
	Set   bool
	Text  string // as typed, or the canonical text of a numeric cell
	At    Ref
}

// Length is a typed distance with the unit it was meant in.
type Length struct {
	Entry[measure.Length]
	Unit measure.Unit
}

// Angle is a typed angle.
type Angle = Entry[measure.Angle]

// Text is a typed string, trimmed.
type Text = Entry[string]

// Count is a typed whole number.
type Count = Entry[int]

// Flag is a typed yes or no.
type Flag = Entry[bool]

// Date is a typed calendar day, without a clock or a zone.
type Date = Entry[Day]

// Clock is a typed time of day.
type Clock = Entry[Minute]

// Day is a calendar day.
type Day struct{ Year, Month, Day int }

// String is the ISO 8601 form, e.g. "2026-03-04".
func (d Day) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// Compare orders days: negative where d is before e.
func (d Day) Compare(e Day) int {
	return (d.Year-e.Year)*512 + (d.Month-e.Month)*32 + (d.Day - e.Day)
}

// Minute is a time of day in minutes after midnight.
type Minute int

// String is the 24-hour form, e.g. "14:05".
func (m Minute) String() string { return fmt.Sprintf("%02d:%02d", int(m)/60, int(m)%60) }
