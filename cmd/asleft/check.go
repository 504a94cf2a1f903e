package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"asleft/report"
)

// check prints verdicts and reasons, or the data file.
func (p *program) check(args []string) error {
	f := p.flags("check")
	asJSON := f.Bool("json", false, "")
	var show selection
	f.BoolVar(&show.short, "short", false, "")
	f.IntVar(&show.cell, "cell", 0, "")
	files, done, err := p.parse(f, args)
	switch {
	case err != nil || done:
		return err
	case len(files) == 0:
		return useError("noFile", "command", "check")
	case *asJSON && (show.short || f.Changed("cell")):
		return useError("jsonPart")
	}
	s, err := open(files, report.Options{})
	if err != nil {
		return err
	}
	if f.Changed("cell") && !slices.ContainsFunc(s.job.Cells(), func(c report.Cell) bool { return c.Number == show.cell }) {
		return noSuchCell(s, show.cell)
	}
	var b bytes.Buffer
	if *asJSON {
		if err := s.job.WriteJSON(&b); err != nil {
			return inFile(s.name(), err)
		}
	} else {
		p.verdicts(&b, s, show)
	}
	if _, err := p.out.Write(b.Bytes()); err != nil {
		return err
	}
	if !show.within(s.job) {
		return errNo
	}
	return nil
}

// selection is what is printed of all that there is to say.
type selection struct {
	short bool // only what is not within its limit
	cell  int  // only this one; 0 is all
}

// has tells whether something about a cell is printed; 0 is the tower.
func (s selection) has(cell int) bool { return s.cell == 0 || cell == 0 || cell == s.cell }

func (s selection) notes(all []report.Note) []report.Note {
	return slices.DeleteFunc(all, func(n report.Note) bool { return !s.has(n.Cell) })
}

// within tells whether nothing stands against the checks: of the cell, else of
// all in the package.
func (s selection) within(job *report.Job) bool {
	if s.cell == 0 {
		return job.AllWithin()
	}
	return !slices.ContainsFunc(job.Rows(), func(r report.Row) bool { return r.Cell == s.cell && !r.Within })
}

// verdicts prints what the crew wants to know, the state first.
func (p *program) verdicts(w io.Writer, s *source, show selection) {
	screen := terminal(p.out)
	job := s.job
	_, state := job.Ready()
	title := job.Title()
	if title == "" {
		title = filepath.Base(s.paths[0])
	}
	fmt.Fprintf(w, "%s\n\n", p.words.Say("cli.check.title", "title", title, "state", state))
	p.checks(w, job, screen, show)
	p.list(w, "cli.check.reasons", show.notes(job.Reasons()), screen.width)
	p.moves(w, job, show, screen.width)
	p.list(w, "cli.check.questions", show.notes(job.Questions()), screen.width)
	p.list(w, "cli.check.due", show.notes(job.Due()), screen.width)
	p.list(w, "cli.check.notes", show.notes(job.Notes()), screen.width)
}

// list prints notes under a head. Those with the same words about the same check
// are one line, with all their cells.
func (p *program) list(w io.Writer, head string, notes []report.Note, width int) {
	if len(notes) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", p.words.Say(head))
	for _, g := range group(notes) {
		mark := "- "
		text := p.groupText(g)
		for n, l := range wrap(text, width-len(gap)-len(mark)) {
			if n > 0 {
				mark = strings.Repeat(" ", len(mark))
			}
			fmt.Fprintf(w, "%s%s%s\n", gap, mark, l)
		}
	}
}

// noteGroup is one line: a text, the lines judged by themselves that it is about,
// the checks, the cells it holds in.
type noteGroup struct {
	text, pattern string
	items, checks []string
	cells         []int
}

// group gathers like notes at the place of the first: those of one check over
// its cells, then those with the same cells over the items, then over the checks.
func group(notes []report.Note) []noteGroup {
	var one []noteGroup
	for _, n := range notes {
		i := slices.IndexFunc(one, func(g noteGroup) bool {
			return g.checks[0] == n.Check && g.text == n.Text && (g.cells == nil) == (n.Cell == 0)
		})
		if i < 0 {
			i = len(one)
			g := noteGroup{text: n.Text, pattern: n.Pattern, checks: []string{n.Check}}
			if n.Item != "" {
				g.items = []string{n.Item}
			}
			one = append(one, g)
		}
		if n.Cell != 0 && !slices.Contains(one[i].cells, n.Cell) {
			one[i].cells = append(one[i].cells, n.Cell)
		}
	}
	return overChecks(overItems(one))
}

// overItems makes one line of those that say the same of several items.
func overItems(one []noteGroup) []noteGroup {
	var groups []noteGroup
	for _, g := range one {
		i := slices.IndexFunc(groups, func(have noteGroup) bool {
			return g.pattern != "" && have.pattern == g.pattern && have.checks[0] == g.checks[0] && slices.Equal(have.cells, g.cells)
		})
		if i < 0 {
			groups = append(groups, g)
			continue
		}
		have := &groups[i]
		have.items = append(have.items, g.items...)
		have.text = strings.ReplaceAll(g.pattern, report.ItemPlace, strings.Join(have.items, ", "))
	}
	return groups
}

// overChecks makes one line of those that say the same of several checks.
func overChecks(one []noteGroup) []noteGroup {
	var groups []noteGroup
	for _, g := range one {
		i := slices.IndexFunc(groups, func(have noteGroup) bool {
			return have.text == g.text && slices.Equal(have.cells, g.cells)
		})
		if i < 0 {
			groups = append(groups, g)
			continue
		}
		groups[i].checks = append(groups[i].checks, g.checks...)
	}
	return groups
}

func (p *program) groupText(g noteGroup) string {
	var checks, cells []string
	for _, c := range g.checks {
		if c != "" {
			checks = append(checks, p.words.Say("check."+c))
		}
	}
	for _, c := range g.cells {
		cells = append(cells, strconv.Itoa(c))
	}
	text := g.text
	if len(checks) > 0 {
		text = strings.Join(checks, "; ") + ": " + text
	}
	switch len(cells) {
	case 0:
		return text
	case 1:
		return p.words.Say("cli.check.onecell", "cells", cells[0], "text", text)
	}
	return p.words.Say("cli.check.cells", "cells", strings.Join(cells, ", "), "text", text)
}
