package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/term"

	"asleft/report"
)

// check prints verdicts and reasons, or the data file.
func (p *program) check(args []string) error {
	f := p.flags("check")
	asJSON := f.Bool("json", false, "")
	files, done, err := p.parse(f, args)
	if err != nil || done {
		return err
	}
	if len(files) != 1 {
		return useError("oneFile", "command", "check")
	}
	s, err := open(files[0], report.Options{})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if *asJSON {
		if err := s.job.WriteJSON(&b); err != nil {
			return inFile(s.path, err)
		}
	} else {
		p.verdicts(&b, s.path, s.job)
	}
	if _, err := p.out.Write(b.Bytes()); err != nil {
		return err
	}
	if !s.job.AllWithin() {
		return errNo
	}
	return nil
}

// verdicts prints what the crew wants to know, the state first.
func (p *program) verdicts(w io.Writer, path string, job *report.Job) {
	screen := terminal(p.out)
	_, state := job.Ready()
	title := job.Title()
	if title == "" {
		title = filepath.Base(path)
	}
	fmt.Fprintf(w, "%s\n\n", p.words.Say("cli.check.title", "title", title, "state", state))
	p.checks(w, job, screen)
	p.list(w, "cli.check.reasons", job.Reasons(), screen.width)
	p.moves(w, job, screen.width)
	p.list(w, "cli.check.questions", job.Questions(), screen.width)
	p.list(w, "cli.check.notes", job.Notes(), screen.width)
}

// checks prints the table of all checks. What is not within stands in bold.
func (p *program) checks(w io.Writer, job *report.Job, s screen) {
	var columns []column
	for _, c := range []column{
		{"cell", true, false}, {"check", false, true}, {"round", false, true}, {"value", true, false},
		{"limit", false, true}, {"margin", true, false}, {"verdict", false, true},
	} {
		c.head = p.words.Say("cli.check." + c.head)
		columns = append(columns, c)
	}
	rows := job.Rows()
	var lines [][]string
	for _, r := range rows {
		lines = append(lines, []string{strconv.Itoa(r.Cell), r.Name, r.Read, r.Value, p.limit(r), r.Margin, p.verdict(r)})
	}
	var bold func(int) bool
	if s.bold {
		bold = func(i int) bool { return !rows[i].Within }
	}
	fmt.Fprint(w, table(columns, lines, bold, s.width))
}

// limit marks a starting value that nobody has accepted.
func (p *program) limit(r report.Row) string {
	if r.Starting {
		return p.words.Say("cli.check.starting", "limit", r.Limit)
	}
	return r.Limit
}

// verdict says beside a verdict that somebody accepted it.
func (p *program) verdict(r report.Row) string {
	if r.Accepted {
		return p.words.Say("cli.check.accepted", "verdict", r.Word)
	}
	return r.Word
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

// noteGroup is one line: a text, the checks it is about, the cells it holds in.
type noteGroup struct {
	text   string
	checks []string
	cells  []int
}

// group gathers like notes at the place of the first: those of one check over
// its cells, then those with the same cells over their checks.
func group(notes []report.Note) []noteGroup {
	var one []noteGroup
	for _, n := range notes {
		i := slices.IndexFunc(one, func(g noteGroup) bool {
			return g.checks[0] == n.Check && g.text == n.Text && (g.cells == nil) == (n.Cell == 0)
		})
		if i < 0 {
			i = len(one)
			one = append(one, noteGroup{text: n.Text, checks: []string{n.Check}})
		}
		if n.Cell != 0 && !slices.Contains(one[i].cells, n.Cell) {
			one[i].cells = append(one[i].cells, n.Cell)
		}
	}
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

// screen is what the output can show; zero for a pipe or a file.
type screen struct {
	width int
	bold  bool
}

func terminal(w io.Writer) screen {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return screen{}
	}
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		width = 0
	}
	return screen{width: width, bold: os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
}
