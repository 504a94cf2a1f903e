package compose

import (
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// appendixOf is all that the appendix of a package says.
func appendixOf(t *testing.T, in Input) string {
	t.Helper()
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, s := range b.Sections {
		if s.Key == "appendix" {
			for _, x := range printedIn(bookOf(s)) {
				out = append(out, loose(x.text))
			}
		}
	}
	return strings.Join(out, "\n")
}

// TestAppendixGivesWhatNoOtherPageHas: what is printed otherwise than it was typed,
// and what no page has a use for, stands in the appendix with its cell; what the
// pages have as it was typed does not.
func TestAppendixGivesWhatNoOtherPageHas(t *testing.T) {
	in := inputOf(t, wholePlan)
	c := &in.Record.Cells[0]
	at := func(cell string) field.Ref { return field.Ref{Sheet: "Somewhere", Cell: cell} }
	c.Tilt.Rounds[0].Head.Wind = field.Text{Value: "gusty, from the north", Set: true, Text: "gusty, from the north", At: at("A1")}
	c.Fasteners[0].Date = field.Date{Value: field.Day{Year: 2026, Month: 3, Day: 4}, Set: true, Text: "4 March 2026", At: at("A2")}
	c.Fasteners[0].Sequence = field.Count{Value: 77, Set: true, Text: "77", At: at("A3")}
	c.Rounds = append(c.Rounds, field.Head{Wind: field.Text{Value: "a gale", Set: true, Text: "a gale", At: at("A4")}})
	in.Assessment = assess.Assess(in.Record, in.Rules)
	said := appendixOf(t, in)
	for _, want := range []string{"4 March 2026 A2", "77 A3", "Wind a gale A4", "“Somewhere”"} {
		if !strings.Contains(said, want) {
			t.Errorf("the appendix does not say %q:\n%s", want, said)
		}
	}
	if strings.Contains(said, "gusty") {
		t.Errorf("the appendix repeats what the page of the cell has:\n%s", said)
	}
}

// TestAppendixLeavesOutCellsThatAreNotInThePackage: their entries are nobody's
// business here.
func TestAppendixLeavesOutCellsThatAreNotInThePackage(t *testing.T) {
	in := inputOf(t, wholePlan)
	c := &in.Record.Cells[len(in.Record.Cells)-1]
	c.InPackage = field.Flag{Set: true, Text: "no", At: field.Ref{Sheet: "Elsewhere", Cell: "B2"}}
	c.Remarks = field.Text{Value: "secret", Set: true, Text: "secret", At: field.Ref{Sheet: "Elsewhere", Cell: "B3"}}
	in.Assessment = assess.Assess(in.Record, in.Rules)
	if said := appendixOf(t, in); strings.Contains(said, "secret") || strings.Contains(said, "Elsewhere") {
		t.Errorf("the appendix tells of a cell that is not in the package:\n%s", said)
	}
}
