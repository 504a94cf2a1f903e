package report

import (
	"asleft/internal/assess"
)

// Row is the outcome of one check of one cell, judged on its standing round.
// Keys are those of the data file; the other texts are for people.
type Row struct {
	Cell     int
	Package  bool   // the cell is in the package
	Check    string // key, e.g. "clearance"
	Round    string // key of the standing round, empty where there is none
	Verdict  string // key, e.g. "outside"
	Name     string // of the check
	Read     string // of the standing round
	Word     string // of the verdict
	Value    string // what is held against the limit, with its unit
	Limit    string
	Margin   string // inside the limit, with its sign; negative outside
	Within   bool   // nothing stands against this check
	Accepted bool   // the deviation was accepted by somebody, and still holds
	Starting bool   // judged by a starting value that nobody has accepted
}

// Note is something said about the tower (Cell 0), a cell or a check.
type Note struct {
	Cell  int
	Check string // key; empty where it is not about one check
	Key   string // of the phrase
	Text  string
}

// Rows are all checks of all cells, in the order of cells and checks.
func (j *Job) Rows() []Row {
	var rows []Row
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for k := range c.Checks {
			row := j.row(c.Number, &c.Checks[k])
			row.Package = c.InPackage
			rows = append(rows, row)
		}
	}
	return rows
}

func (j *Job) row(cell int, k *assess.Check) Row {
	r := Row{
		Cell:     cell,
		Check:    k.Key,
		Verdict:  string(k.Verdict),
		Name:     j.words.Say("check." + k.Key),
		Word:     j.words.Say("verdict." + string(k.Verdict)),
		Limit:    j.limit(k.Limit),
		Within:   j.within(k.Verdict),
		Accepted: k.Deviation != nil,
		Starting: k.Starting,
	}
	round := k.StandingRound()
	if round == nil {
		return r
	}
	r.Round, r.Read = round.Key, j.words.Say("round."+round.Key)
	if round.Deciding != nil {
		r.Value = j.amount(*round.Deciding)
	}
	if round.Margin != nil {
		r.Margin = j.margin(*round.Margin)
	}
	return r
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
	var notes []Note
	for _, r := range j.assessment.Reasons {
		notes = append(notes, j.note(r.Cell, r.Check, r.Code))
	}
	return notes
}

// Notes are remarks on the standing rounds and the checks.
func (j *Job) Notes() []Note {
	var notes []Note
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for k := range c.Checks {
			check := &c.Checks[k]
			codes := check.Notes
			if r := check.StandingRound(); r != nil {
				codes = append(append([]assess.Code(nil), r.Notes...), codes...)
			}
			for _, code := range codes {
				notes = append(notes, j.note(c.Number, check.Key, code))
			}
		}
	}
	return notes
}

// Questions are things in the readings that are worth a second look.
func (j *Job) Questions() []Note {
	var notes []Note
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		for _, code := range c.Questions {
			notes = append(notes, j.note(c.Number, "", code))
		}
	}
	return notes
}

func (j *Job) note(cell int, check string, c assess.Code) Note {
	return Note{Cell: cell, Check: check, Key: c.Key, Text: j.code(c)}
}
