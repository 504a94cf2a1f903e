package audit

import (
	"strconv"

	"asleft/internal/screen"
)

// Asked is a question on the readings as a whole, with the words of package screen.
// It accuses nobody.
type Asked struct {
	Code  string   `json:"code"`
	Cells []int    `json:"cells,omitempty"`
	N     int      `json:"n,omitempty"`    // readings that were looked at
	Odds  int      `json:"odds,omitempty"` // at most 1 honest tower in so many shows as much; 0 where chance has no part
	Args  []Arg    `json:"args,omitempty"`
	At    []string `json:"at,omitempty"` // where to look in the workbooks
}

// Kinds of arguments of questions, besides those of findings.
const (
	ArgCheck ArgKind = "check"
	ArgRound ArgKind = "round"
)

// questions asks what may be asked of the readings as a whole.
func (a *audit) questions() {
	if a.made == nil || a.made.Record == nil {
		return
	}
	for _, q := range screen.Questions(a.made.Record) {
		out := Asked{Code: q.Code, Cells: q.Cells, N: q.N, Odds: q.Odds}
		for _, x := range q.Args {
			out.Args = append(out.Args, asked(x))
		}
		for _, at := range q.At {
			out.At = append(out.At, at.String())
		}
		a.out.Questions = append(a.out.Questions, out)
	}
}

// asked is an argument of a question.
func asked(x screen.Arg) Arg {
	switch {
	case x.Number != nil:
		return text(x.Name, strconv.Itoa(*x.Number))
	case x.Name == "check" || x.Name == "othercheck":
		return Arg{x.Name, ArgCheck, x.Text}
	case x.Name == "round" || x.Name == "other":
		return Arg{x.Name, ArgRound, x.Text}
	}
	return text(x.Name, x.Text)
}
