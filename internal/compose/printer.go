package compose

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// Printer prints single values and codes as the pages do, as plain text, for
// tables on a terminal. It is for one goroutine.
type Printer struct{ b *book }

// NewPrinter makes a printer of the input's words and units.
func NewPrinter(in Input) Printer { return Printer{newBook(&in, made{})} }

// Amount prints a value with its unit.
func (p Printer) Amount(a assess.Amount) string { return loose(p.b.amount(a)) }

// Margin prints a distance to a limit with its sign and unit. One that is not
// zero never prints as zero.
func (p Printer) Margin(a assess.Amount) string {
	return loose(withUnit(margin(a, p.b.first), unitOf(a, p.b.first)))
}

// Limit prints the values of a row of the limits sheet as typed.
func (p Printer) Limit(l *field.Limit) string { return loose(p.b.limitText(l)) }

// Code puts a code of the assessment into words.
func (p Printer) Code(c assess.Code) string { return loose(p.b.codeText(c)) }

// Group is a part of the job, whose checks stand together.
type Group struct {
	Key    string
	Name   string
	Checks []string
}

// Groups are the parts of the job in the order in which they are printed.
func (p Printer) Groups() []Group {
	var out []Group
	for _, g := range allGroups() {
		out = append(out, Group{g.key, p.b.say("group." + g.key), g.checks})
	}
	return out
}

// Item names a line that is judged by itself.
func (p Printer) Item(i *assess.Item) string { return loose(p.b.itemWord(i)) }

// ItemName is the name for the text of an argument "item".
func (p Printer) ItemName(text string) string { return loose(p.b.itemText(text)) }

// loose lets a text be broken anywhere: a page must not part a number from its
// unit, a terminal may.
func loose(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }
