package data

import (
	"errors"
	"fmt"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Input is everything a data file is made of.
type Input struct {
	Program    string       // version of the program, e.g. "0.1.0"
	Language   string       // BCP 47
	Paper      string       // "Letter" or "A4"
	Profile    string       // e.g. "PDF/A-3a"
	Units      measure.Unit // of the results: UnitInch or UnitMillimeter
	Rules      assess.Rules
	Record     *field.Record
	Assessment *assess.Assessment
	Moves      []correct.Moves // of the same record and assessment; may be left out
	Cell       int             // the one cell that was asked for; 0: all of the package
	Previous   *Previous       // the package that came before; nil: none
}

var errUnits = errors.New("results can be in inches or millimeters only")

// Encode writes the data file: JSON, a newline at the end.
func Encode(in Input) ([]byte, error) {
	d, err := document(in)
	if err != nil {
		return nil, fmt.Errorf("data file: %w", err)
	}
	return write(d, packed)
}

type encoder struct{ in Input }

func document(in Input) (*Document, error) {
	if in.Units != measure.UnitInch && in.Units != measure.UnitMillimeter {
		return nil, errUnits
	}
	e := &encoder{in}
	r, a := in.Record, in.Assessment
	d := &Document{
		Schema:      SchemaName,
		Program:     in.Program,
		Rules:       RuleSet{in.Rules.Version, in.Rules.Hash},
		Options:     Options{in.Language, in.Paper, in.Units.String(), in.Profile, []int{}, in.Cell},
		State:       string(a.State),
		Expected:    a.Expected,
		Found:       a.Found,
		Reasons:     e.reasons(a.Reasons),
		Files:       files(r.Files),
		Project:     projectRow(&r.Project),
		Tower:       towerRow(&r.Tower),
		Geometry:    geometryRow(&r.Tower.Geometry),
		Feet:        feetRows(r.Tower.Geometry.Feet),
		Stock:       stockRows(r.Tower.Geometry.Stock),
		Positions:   positions(r.Tower.Positions),
		Limits:      Keyed[Row]{},
		Instruments: rows(r.Instruments, instrumentRow),
		People:      rows(r.People, personRow),
		Roles:       rows(r.Roles, roleRow),
		Waivers:     rows(r.Waivers, waiverRow),
		Deviations:  rows(r.Deviations, deviationRow),
		OpenItems:   rows(r.OpenItems, openItemRow),
		Attachments: attachments(r.Attachments),
		Previous:    in.Previous,
		Cells:       Keyed[Cell]{},
	}
	if r.Project.IssueDate.Set {
		d.Issued = r.Project.IssueDate.Value.String()
	}
	for _, l := range r.Limits {
		d.Limits = append(d.Limits, Member[Row]{l.Check, limitRow(l)})
	}
	return d, e.cells(d)
}

// cells adds the cells of the assessment with what the record says of each.
func (e *encoder) cells(d *Document) error {
	for i := range e.in.Assessment.Cells {
		a := &e.in.Assessment.Cells[i]
		f := find(e.in.Record.Cells, a.Number)
		if f == nil {
			return fmt.Errorf("cell %d is assessed but not in the record", a.Number)
		}
		if a.InPackage {
			d.Options.Cells = append(d.Options.Cells, a.Number)
		}
		d.Cells = append(d.Cells, Member[Cell]{strconv.Itoa(a.Number), e.cell(f, a)})
	}
	return nil
}

func find(cells []field.Cell, number int) *field.Cell {
	for i := range cells {
		if cells[i].Number == number {
			return &cells[i]
		}
	}
	return nil
}

func (e *encoder) cell(f *field.Cell, a *assess.Cell) Cell {
	c := Cell{
		InPackage:   a.InPackage,
		State:       string(a.State),
		Entries:     cellRow(f),
		Blocks:      blocks(f),
		Moves:       rows(f.Moves, moveRow),
		Corrections: e.corrections(a.Number),
		Stacks:      stackRows(f.Stacks),
		MotorStacks: motorStackRows(f.MotorStacks),
		Stuck:       stuck(f.Stuck),
		Fasteners:   fastenerRows(f.Fasteners),
		Pins:        pinRows(f.Pins),
		PreStart:    preStartRows(f.PreStart),
		StartUps:    startUpRows(f.StartUps),
		Reasons:     e.reasons(a.Reasons),
		Waits:       e.reasons(a.Waits),
		Questions:   e.codes(a.Questions),
		Due:         e.codes(a.Due),

		Mechanical: a.Mechanical,
		Started:    a.Started,
		AfterRun:   a.AfterRun,
	}
	for i := range a.Checks {
		k := &a.Checks[i]
		c.Checks = append(c.Checks, Member[Check]{k.Key, e.check(f, k)})
	}
	return c
}
