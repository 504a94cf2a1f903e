package report

import (
	"errors"
	"fmt"
	"strings"
)

// Fault is a cell of the workbook that could not be read as intended.
type Fault struct {
	File  string // name of the workbook
	Sheet string // empty where the fault is of the file as a whole
	Cell  string // e.g. "D14"
	Text  string // what was read, what was expected, and what was likely meant
}

// String is the fault on one line: "Cell 3!D14: …".
func (f Fault) String() string {
	switch {
	case f.Sheet == "":
		return f.File + ": " + f.Text
	case f.Cell == "":
		return f.Sheet + ": " + f.Text
	}
	return f.Sheet + "!" + f.Cell + ": " + f.Text
}

// FaultError is all faults of the workbooks, in the order of their sheets.
type FaultError struct {
	Faults  []Fault
	Several bool // of more than one workbook
}

// Error lists the faults, one a line.
func (e *FaultError) Error() string {
	lines := make([]string, 0, len(e.Faults))
	for _, f := range e.Faults {
		lines = append(lines, f.String())
	}
	return strings.Join(lines, "\n")
}

// OptionError is an option with a value that is not one of those allowed.
type OptionError struct {
	Option, Value string
	Allowed       string
}

func (e *OptionError) Error() string {
	return fmt.Sprintf("%s %q is not one of %s", e.Option, e.Value, e.Allowed)
}

// ErrRefused is in the chain of errors of [Job.WritePDF] and [Job.Plots] when
// the workbook was read and judged, but holds something that cannot be printed.
var ErrRefused = errors.New("cannot be printed")
