package report

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/compose"
)

// Row is the outcome of one check of one cell, judged on its standing round.
// Keys are those of the data file; the other texts are for people.
type Row struct {
	Cell      int
	Package   bool   // the cell is in the package
	Check     string // key, e.g. "clearance"
	Group     string // key of the part of the job, e.g. "fan"
	Round     string // key of the standing round, empty where there is none
	Verdict   string // key, e.g. "outside"
	Name      string // of the check
	GroupName string // of the part of the job
	Read      string // of the standing round, or else of the last that was read
	Word      string // of the verdict
	Last      string // where the round that counts is missing: word of the verdict on the last that was read
	Value     string // what is held against the limit, with its unit
	Limit     string // as typed
	Margin    string // inside the limit, with its sign; negative outside
	Within    bool   // nothing stands against this check
	Accepted  bool   // the deviation was accepted by somebody, and still holds
	Starting  bool   // judged by a starting value that nobody has accepted
	Items     []Item // where each line is judged by itself
}

// Item is a line of a check that is judged by itself: a set of fasteners, a line
// of the pre-start list, a point of vibration.
type Item struct {
	Key     string // as in the data file
	Name    string
	Verdict string // key
	Word    string // of the verdict
	Value   string // what is held against a limit, with its unit
	Margin  string
	Within  bool // nothing stands against it
}

// Note is something said about the tower (Cell 0), a cell or a check.
type Note struct {
	Cell  int
	Check string // key; empty where it is not about one check
	Key   string // of the phrase
	Text  string
	// Item names the line that it is about, e.g. a set of fasteners, and Pattern
	// is the text with {item} in its place; both are empty where there is none.
	Item, Pattern string
}

// ItemPlace stands for the item in the pattern of a note.
const ItemPlace = "{item}"

// Rows are all checks of all cells, in the order of cells and, in each, in the
// order in which they are printed.
func (j *Job) Rows() []Row {
	p := j.printer()
	var rows []Row
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for _, g := range p.Groups() {
			for _, key := range g.Checks {
				row := j.row(p, c.Number, c.Check(key))
				row.Package, row.Group, row.GroupName = c.InPackage, g.Key, g.Name
				rows = append(rows, row)
			}
		}
	}
	return rows
}

func (j *Job) row(p compose.Printer, cell int, k *assess.Check) Row {
	r := Row{
		Cell:     cell,
		Check:    k.Key,
		Verdict:  string(k.Verdict),
		Name:     j.words.Say("check." + k.Key),
		Word:     j.words.Say("verdict." + string(k.Verdict)),
		Limit:    p.Limit(k.Limit),
		Within:   j.within(k.Verdict),
		Accepted: k.Deviation != nil,
		Starting: k.Starting,
	}
	if k.Key == assess.FastenerTorque {
		r.Limit = "" // it is on the first pass, not on the torque that stands beside it
	}
	round := k.StandingRound()
	switch {
	case round != nil:
		r.Round = round.Key
	case len(k.Rounds) == 0:
		return r
	default: // the crew is at it: what was found is what it works from
		round = &k.Rounds[len(k.Rounds)-1]
		if k.Verdict == assess.Missing {
			r.Last = j.words.Say("verdict." + string(round.Verdict))
		}
	}
	if !slices.Contains(assess.OnceChecks(), k.Key) { // those have no rounds to tell apart
		r.Read = j.words.Say("round." + round.Key)
	}
	r.Value, r.Margin = values(p, round.Deciding, round.Margin)
	for i := range round.Items {
		r.Items = append(r.Items, j.item(p, &round.Items[i]))
	}
	return r
}

// values prints what is held against a limit, and how far inside it is.
func values(p compose.Printer, deciding, margin *assess.Amount) (value, inside string) {
	if deciding != nil {
		value = p.Amount(*deciding)
	}
	if margin != nil {
		inside = p.Margin(*margin)
	}
	return value, inside
}

func (j *Job) item(p compose.Printer, i *assess.Item) Item {
	out := Item{Key: i.Key, Name: p.Item(i), Verdict: string(i.Verdict),
		Word: j.words.Say("verdict." + string(i.Verdict)), Within: j.within(i.Verdict)}
	out.Value, out.Margin = values(p, i.Deciding, i.Margin)
	return out
}

// Cell is how far a cell is.
type Cell struct {
	Number  int
	Name    string // the owner's tag of it
	Package bool   // in the package
	Ready   bool
	Word    string // of that
	// Waits: it is not ready and nothing of its own is open; it waits for what is
	// open for the whole tower.
	Waits bool
	// Milestone is the key of the last one that was passed: "mechanical",
	// "started", "afterrun", or empty.
	Milestone string
}

// Cells are all cells of the tower.
func (j *Job) Cells() []Cell {
	var cells []Cell
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		cells = append(cells, Cell{
			Number:    c.Number,
			Name:      j.cellName(c.Number),
			Package:   c.InPackage,
			Ready:     c.State == assess.Ready,
			Word:      j.words.Say("state." + string(c.State)),
			Waits:     c.State == assess.NotReady && len(c.Own()) == 0,
			Milestone: milestone(c),
		})
	}
	return cells
}

func (j *Job) cellName(number int) string {
	for _, c := range j.record.Cells {
		if c.Number == number {
			return c.Name.Value
		}
	}
	return ""
}

func milestone(c *assess.Cell) string {
	switch {
	case c.AfterRun:
		return "afterrun"
	case c.Started:
		return "started"
	case c.Mechanical:
		return "mechanical"
	}
	return ""
}

// within tells whether nothing stands against a check with the verdict. Near
// the limit is within it, except where the contract asks for a guard.
func (j *Job) within(v assess.Verdict) bool {
	switch v {
	case assess.Within, assess.NotRequired, assess.ByOthers:
		return true
	case assess.NearLimit:
		return j.record.Tower.Decision.Value != guarded
	}
	return false
}

// guarded is the code of the decision rule that counts readings near the limit
// against the work.
const guarded = "guarded"

// AllWithin tells whether nothing stands against any check of the cells in the
// package. It says nothing of readiness.
func (j *Job) AllWithin() bool {
	for _, r := range j.Rows() {
		if r.Package && !r.Within {
			return false
		}
	}
	return true
}

// Ready tells whether the package is ready for sign-off, and the words for it.
func (j *Job) Ready() (bool, string) {
	s := j.assessment.State
	return s == assess.Ready, j.words.Say("state." + string(s))
}

// Reasons are why the package is not ready, numbered from 1 in print.
func (j *Job) Reasons() []Note {
	p := j.printer()
	var notes []Note
	for _, r := range j.assessment.Reasons {
		notes = append(notes, note(p, r.Cell, r.Check, r.Code))
	}
	return notes
}

// Notes are remarks on the standing rounds, their items and the checks.
func (j *Job) Notes() []Note {
	p := j.printer()
	var notes []Note
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for k := range c.Checks {
			for _, code := range remarks(&c.Checks[k]) {
				notes = append(notes, note(p, c.Number, c.Checks[k].Key, code))
			}
		}
	}
	return notes
}

func remarks(k *assess.Check) []assess.Code {
	var codes []assess.Code
	if r := k.StandingRound(); r != nil {
		codes = append(codes, r.Notes...)
		for i := range r.Items {
			codes = append(codes, r.Items[i].Notes...)
		}
	}
	return append(codes, k.Notes...)
}

// Questions are things in the readings that are worth a second look.
func (j *Job) Questions() []Note {
	asked := j.perCell(func(c *assess.Cell) []assess.Code { return c.Questions })
	lines, err := compose.LoopLines(j.input())
	if err != nil {
		return asked // a text that cannot be printed: the package says which
	}
	for _, l := range lines {
		asked = append(asked, Note{Cell: l.Cell, Key: l.Key, Text: l.Text})
	}
	return asked
}

// Due is what is to be done after the first run or the first water. It does not
// make a package less ready.
func (j *Job) Due() []Note {
	return j.perCell(func(c *assess.Cell) []assess.Code { return c.Due })
}

func (j *Job) perCell(list func(*assess.Cell) []assess.Code) []Note {
	p := j.printer()
	var notes []Note
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for _, code := range list(c) {
			notes = append(notes, note(p, c.Number, "", code))
		}
	}
	return notes
}

func note(p compose.Printer, cell int, check string, c assess.Code) Note {
	n := Note{Cell: cell, Check: check, Key: c.Key, Text: p.Code(c)}
	for i, a := range c.Args {
		if a.Name == "item" {
			n.Item = p.ItemName(a.Text)
			c.Args = slices.Clone(c.Args)
			c.Args[i].Text = ItemPlace
			n.Pattern = p.Code(c)
		}
	}
	return n
}
