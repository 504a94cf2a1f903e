package report

import (
	"io"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/workbook"
)

// FormOptions orders a blank workbook. Zero values take the defaults: one cell,
// 8 blades, 12 positions clockwise from the motor, 3 rounds, inches, and the
// paper that goes with the units.
type FormOptions struct {
	Cells, Blades, Positions, Rounds int
	Units                            string   // "in" or "mm"
	First                            string   // degrees of position 1 as the crew counts, e.g. "15" or "7.5"
	CounterClockwise                 bool     // the crew counts counter-clockwise, seen from above
	Paper                            string   // "Letter" or "A4"
	Language                         string   // BCP 47; blank is English
	FirstCell                        int      // number of the first cell: for workbooks that are judged together
	DriveType                        string   // code of the drive; blank leaves it to the crew
	Without                          []string // blocks that the tower does not need: keys of [FormBlocks]
}

// FormBlocks are the keys of the blocks that a form can be made without.
func FormBlocks() []string { return workbook.Blocks() }

// Name is a defined name of a workbook: how a script finds a block of it.
type Name struct {
	Name  string // e.g. "c03_clearance_asleft"
	Sheet string
	Cells string // e.g. "C12:C23"
	Holds string // what belongs there
}

// WriteForm writes a blank workbook. The same options give the same bytes.
func WriteForm(w io.Writer, o FormOptions) error {
	order, err := o.order()
	if err != nil {
		return err
	}
	return workbook.WriteForm(w, order)
}

// FormNames lists the defined names of such a workbook, sheet by sheet.
func FormNames(o FormOptions) ([]Name, error) {
	order, err := o.order()
	if err != nil {
		return nil, err
	}
	names, err := workbook.Names(order)
	if err != nil {
		return nil, err
	}
	out := make([]Name, 0, len(names))
	for _, n := range names {
		out = append(out, Name{n.Name, n.Sheet, n.Cells, n.Holds})
	}
	return out, nil
}

func (o FormOptions) order() (workbook.FormOptions, error) {
	out := workbook.FormOptions{Cells: o.Cells, Blades: o.Blades, Positions: o.Positions,
		Rounds: o.Rounds, Paper: o.Paper, FirstCell: o.FirstCell, DriveType: o.DriveType, Without: o.Without}
	var err error
	if out.Units, err = unitOf(o.Units); err != nil {
		return out, err
	}
	if err := checkPaper(o.Paper); err != nil {
		return out, err
	}
	if o.CounterClockwise {
		out.Direction = field.CounterClockwise
	}
	if o.First != "" {
		if out.First, err = measure.ParseAngle(o.First); err != nil {
			return out, &OptionError{"first position", o.First, "degrees from the motor"}
		}
	}
	if out.Words, err = language(o.Language); err == nil && !out.Words.Owns("form.title") {
		err = &OptionError{"language of the form", o.Language, "en"}
	}
	return out, err
}

// unitOf reads a unit option; blank is none.
func unitOf(text string) (measure.Unit, error) {
	switch text {
	case "":
		return measure.UnitNone, nil
	case "in":
		return measure.UnitInch, nil
	case "mm":
		return measure.UnitMillimeter, nil
	}
	return measure.UnitNone, &OptionError{"units", text, "in, mm"}
}

func checkPaper(text string) error {
	switch text {
	case "", "Letter", "A4":
		return nil
	}
	return &OptionError{"paper", text, "Letter, A4"}
}
