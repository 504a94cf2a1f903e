package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"golang.org/x/term"

	"asleft/report"
)

// checks prints the table of checks: per cell, in the parts of the job. What is
// not within stands in bold. On a narrow terminal the limit of what is open stands
// on a line of its own, so that no name of a check is broken.
func (p *program) checks(w io.Writer, job *report.Job, s screen, show selection) {
	var columns []column
	for _, c := range []column{
		{"check", false, true}, {"round", false, true}, {"value", true, false},
		{"limit", false, true}, {"margin", true, false}, {"verdict", false, true},
	} {
		if s.narrow() && (c.head == "round" || c.head == "limit") {
			continue
		}
		c.head = p.words.Say("cli.check." + c.head)
		columns = append(columns, c)
	}
	t := &checkTable{p: p, short: show.short, narrow: s.narrow()}
	rows := job.Rows()
	for _, c := range job.Cells() {
		if show.has(c.Number) {
			t.cell(c, rows)
		}
	}
	var bold func(int) bool
	if s.bold {
		bold = func(i int) bool { return t.open[i] }
	}
	fmt.Fprint(w, table(columns, t.lines, bold, s.width))
}

// checkTable collects the lines of the table, and which of them are open.
type checkTable struct {
	p      *program
	short  bool
	narrow bool
	lines  [][]string
	open   []bool
}

func (t *checkTable) add(open bool, cells ...string) {
	t.lines, t.open = append(t.lines, cells), append(t.open, open)
}

// Lines are set in below the head of their cell, and again below the check they
// belong to.
const (
	inGroup = " "
	inCheck = "  "
	inItem  = "    "
)

// cell adds the lines of one cell under a head for each part of the job.
func (t *checkTable) cell(c report.Cell, rows []report.Row) {
	t.add(false, "")
	t.add(!c.Ready, t.p.cellHead(c))
	group, any := "", false
	for _, r := range rows {
		if r.Cell != c.Number || t.short && r.Within {
			continue
		}
		if any = true; r.Group != group {
			group = r.Group
			t.add(false, inGroup+r.GroupName)
		}
		t.row(r)
	}
	if !any {
		t.add(false, inGroup+t.p.words.Say("cli.check.nothing"))
	}
}

// row adds a check, and those of its items that are open.
func (t *checkTable) row(r report.Row) {
	t.line(!r.Within, inCheck+r.Name, r.Read, r.Value, t.p.limit(r), r.Margin, t.p.verdict(r))
	for _, i := range r.Items {
		if !i.Within && len(r.Items) > 1 {
			t.line(true, inItem+i.Name, "", i.Value, "", i.Margin, i.Word)
		}
	}
}

// line adds a row; where there is little room, without the round and the unit of
// the margin, which is that of the value, and with the limit below where the row
// is open.
func (t *checkTable) line(open bool, name, round, value, limit, margin, verdict string) {
	if !t.narrow {
		t.add(open, name, round, value, limit, margin, verdict)
		return
	}
	number, _, _ := strings.Cut(margin, " ")
	t.add(open, name, value, number, verdict)
	if open && limit != "" {
		t.add(open, inItem+t.p.words.Say("cli.check.below", "limit", limit))
	}
}

// cellHead names a cell, its state, and how far it has come.
func (p *program) cellHead(c report.Cell) string {
	name := strconv.Itoa(c.Number)
	if c.Name != "" {
		name = p.words.Say("cli.check.cellname", "cell", name, "name", c.Name)
	}
	state := c.Word
	if !c.Package {
		state = p.words.Say("cli.check.notin")
	}
	text := p.words.Say("cli.check.cellhead", "cell", name, "state", state)
	if c.Package && c.Waits {
		text = p.words.Say("cli.check.waits", "head", text)
	}
	if c.Milestone == "" {
		return text
	}
	return p.words.Say("cli.check.passed", "head", text, "milestone", p.words.Say("cli.check."+c.Milestone))
}

// limit marks a starting value that nobody has accepted.
func (p *program) limit(r report.Row) string {
	if r.Starting && r.Limit != "" {
		return p.words.Say("cli.check.starting", "limit", r.Limit)
	}
	return r.Limit
}

// verdict says beside a verdict that somebody accepted it, or what the readings
// are that do not count yet.
func (p *program) verdict(r report.Row) string {
	switch {
	case r.Accepted:
		return p.words.Say("cli.check.accepted", "verdict", r.Word)
	case r.Last != "":
		return p.words.Say("cli.check.last", "verdict", r.Word, "last", r.Last)
	}
	return r.Word
}

// screen is what the output can show; zero for a pipe or a file.
type screen struct {
	width int
	bold  bool
}

// wholeTable is how wide a terminal must be for all columns side by side.
const wholeTable = 110

func (s screen) narrow() bool { return s.width > 0 && s.width < wholeTable }

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
