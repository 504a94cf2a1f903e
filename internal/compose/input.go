package compose

import (
	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/enclosure"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// Words gives the phrases of one language; [templates.Words] is one.
type Words interface {
	Tag() string
	Has(key string) bool
	Say(key string, pairs ...string) string
}

// Input is everything a package is made from. The record must be free of
// faults and the assessment must be its own.
type Input struct {
	Record     field.Record
	Assessment assess.Assessment
	Moves      []correct.Moves // of the same record and assessment
	Rules      assess.Rules
	Words      Words
	Beside     Words // safety wording is printed in these, too; nil: nowhere
	Options    Options
	Program    string           // name and version, e.g. "asleft 0.1.0"
	Sources    [][]byte         // the workbooks as received, in the order of Record.Files
	Enclosures []enclosure.File // what the attachments of the record name as stored
	Previous   *Previous        // the package to compare with; nil: none
}

// Options is what was asked for. The zero value follows the record.
type Options struct {
	Paper   page.Paper   // zero: as the project sheet says, else Letter
	Units   measure.Unit // printed first: inch or millimeter; zero: as the project sheet says, else inch
	Profile archive.Profile
	Cell    int // the one cell that the package is of; 0: all that are in it
}

// paper is the sheet to print on.
func (in *Input) paper() page.Paper {
	switch {
	case in.Options.Paper.W > 0:
		return in.Options.Paper
	case in.Record.Project.Paper.Value == page.A4.Name:
		return page.A4
	}
	return page.Letter
}

// units are the length units of computed values, the leading one first.
func (in *Input) units() (first, second measure.Unit) {
	first = in.Options.Units
	if first == measure.UnitNone && in.Record.Project.Units.Value == measure.UnitMillimeter.String() {
		first = measure.UnitMillimeter
	}
	if first == measure.UnitMillimeter {
		return measure.UnitMillimeter, measure.UnitInch
	}
	return measure.UnitInch, measure.UnitMillimeter
}
