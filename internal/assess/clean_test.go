package assess_test

import (
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// TestCleanCell: a job done in the advised order raises nothing.
func TestCleanCell(t *testing.T) {
	a := assess.Assess(record(cleanCell(1), cleanCell(2)), ruleSet(t))
	if len(a.Reasons) > 0 {
		t.Errorf("reasons %v", reasonKeys(a.Reasons))
	}
	if a.State != assess.Ready {
		t.Errorf("state %q", a.State)
	}
	if a.Expected != 2*(2*positions+3*blades) || a.Found != a.Expected {
		t.Errorf("found %d of %d readings", a.Found, a.Expected)
	}
	for i := range a.Cells {
		c := &a.Cells[i]
		if len(c.Checks) != len(assess.AllChecks()) {
			t.Fatalf("cell %d: %d checks", c.Number, len(c.Checks))
		}
		for k, key := range assess.Checks() {
			if c.Checks[k].Key != key || c.Checks[k].Verdict != assess.Within {
				t.Errorf("cell %d %s: %s %s", c.Number, key, c.Checks[k].Key, c.Checks[k].Verdict)
			}
			if len(c.Checks[k].Notes) > 0 || len(c.Checks[k].Overtaken) > 0 {
				t.Errorf("cell %d %s: notes %v, overtaken %v", c.Number, key, c.Checks[k].Notes, c.Checks[k].Overtaken)
			}
		}
		if len(c.Questions) > 0 {
			t.Errorf("cell %d: questions %v", c.Number, c.Questions)
		}
	}
}

// TestEmptyCell: what was not read is missing, every check is there.
func TestEmptyCell(t *testing.T) {
	a := assess.Assess(record(field.Cell{Number: 7}), ruleSet(t))
	for _, c := range fan(&a.Cells[0]) {
		if c.Verdict != assess.Missing || c.Standing != -1 {
			t.Errorf("%s: %s, standing %d", c.Key, c.Verdict, c.Standing)
		}
	}
	if n := len(a.Cells[0].Reasons); n != len(assess.Checks()) {
		t.Errorf("%d reasons", n)
	}
}
