package main

import (
	"bytes"
	"strconv"

	"github.com/spf13/pflag"

	"asleft/report"
)

// formFlags are the options that order a workbook; 0 and blank are the
// defaults of the library.
func (p *program) formFlags(o *report.FormOptions) (f *pflag.FlagSet, direction *string) {
	f = p.flags("form")
	const cells = 6
	f.IntVar(&o.Cells, "cells", cells, "")
	f.IntVar(&o.Blades, "blades", 0, "")
	f.IntVar(&o.Positions, "positions", 0, "")
	f.IntVar(&o.Rounds, "rounds", 0, "")
	f.IntVar(&o.FirstCell, "first-cell", 0, "")
	f.StringSliceVar(&o.Without, "without", nil, "")
	f.StringVar(&o.DriveType, "drive", "", "")
	f.StringVar(&o.Units, "units", "", "")
	f.StringVar(&o.First, "first", "", "")
	f.StringVar(&o.Paper, "paper", "", "")
	return f, f.String("direction", "cw", "")
}

// form writes a blank workbook, or lists its names.
func (p *program) form(args []string) error {
	var o report.FormOptions
	f, direction := p.formFlags(&o)
	out := f.StringP("output", "o", "", "")
	names := f.Bool("names", false, "")
	rest, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	if err := tooFew(f); err != nil {
		return err
	}
	switch {
	case len(rest) > 0:
		return useError("formFile", "word", rest[0])
	case *direction != "cw" && *direction != "ccw":
		return &report.OptionError{Option: "direction", Value: *direction, Allowed: "cw, ccw"}
	case *names && *out != "":
		return useError("namesOutput")
	case !*names && *out == "":
		return useError("noOutput", "command", "form")
	}
	o.CounterClockwise = *direction == "ccw"
	if *names {
		return p.listNames(o)
	}
	var b bytes.Buffer
	if err := report.WriteForm(&b, o); err != nil {
		return err
	}
	return writeOutput(*out, nil, b.Bytes())
}

// tooFew refuses a count below one: the library takes 0 for its default.
func tooFew(f *pflag.FlagSet) error {
	for _, name := range []string{"cells", "blades", "positions", "rounds", "first-cell"} {
		if n, err := f.GetInt(name); err == nil && f.Changed(name) && n < 1 {
			return useError("tooFew", "option", name, "n", strconv.Itoa(n))
		}
	}
	return nil
}

// listNames prints one defined name a line: where it is and what it holds.
func (p *program) listNames(o report.FormOptions) error {
	names, err := report.FormNames(o)
	if err != nil {
		return err
	}
	columns := []column{}
	for _, head := range []string{"name", "sheet", "cells", "holds"} {
		columns = append(columns, column{head: p.words.Say("cli.names." + head), wraps: head == "holds"})
	}
	var rows [][]string
	for _, n := range names {
		rows = append(rows, []string{n.Name, n.Sheet, n.Cells, n.Holds})
	}
	_, err = p.out.Write([]byte(table(columns, rows, nil, terminal(p.out).width)))
	return err
}
