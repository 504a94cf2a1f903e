package main

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"asleft/report"
)

// card writes the crew cards.
func (p *program) card(args []string) error {
	f := p.flags("card")
	out := f.StringP("output", "o", "", "")
	cell := f.Int("cell", 0, "")
	o := report.Options{Unattached: true}
	f.StringVar(&o.Paper, "paper", "", "")
	f.StringVar(&o.Units, "units", "", "")
	f.StringVar(&o.Language, "lang", "", "")
	files, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	switch {
	case len(files) == 0:
		return useError("noFile", "command", "card")
	case *out == "":
		return useError("noOutput", "command", "card")
	}
	s, err := open(files, o)
	if err != nil {
		return err
	}
	var cells []int
	if f.Changed("cell") {
		if !slices.Contains(inPackage(s.job), *cell) {
			return noSuchCell(s, *cell)
		}
		cells = []int{*cell}
	}
	return p.writeCards(s, *out, cells)
}

func noSuchCell(s *source, cell int) error {
	return useError("noSuchCell", "file", s.name(), "cell", strconv.Itoa(cell), "cells", list(inPackage(s.job)))
}

// inPackage are the numbers of the cells in the package.
func inPackage(job *report.Job) []int {
	var out []int
	for _, c := range job.Cells() {
		if c.Package {
			out = append(out, c.Number)
		}
	}
	return out
}

func list(cells []int) string {
	var out []string
	for _, c := range cells {
		out = append(out, strconv.Itoa(c))
	}
	return strings.Join(out, ", ")
}

// writeCards writes the cards of the cells; none is all. That nothing is to be
// moved is a negative answer, and nothing is written.
func (p *program) writeCards(s *source, out string, cells []int) error {
	var pdf bytes.Buffer
	err := s.job.WriteCard(&pdf, cells...)
	switch {
	case errors.Is(err, report.ErrNothingToMove) && len(cells) == 1:
		p.say("cli.error.nothingToMoveIn", "", "file", s.name(), "cell", strconv.Itoa(cells[0]))
		return errNo
	case errors.Is(err, report.ErrNothingToMove):
		p.say("cli.error.nothingToMove", "", "file", s.name())
		return errNo
	case err != nil:
		return inFile(s.name(), err)
	}
	return writeOutput(out, s.infos, pdf.Bytes())
}

// moves prints what to move in words, under the reasons.
func (p *program) moves(w io.Writer, job *report.Job, show selection, width int) {
	notes, err := job.Moves()
	if err != nil {
		return // a text that cannot be printed: the package and the card say which
	}
	p.list(w, "cli.check.moves", show.notes(notes), width)
}
