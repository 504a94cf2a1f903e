package workbook_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/workbook"
)

// The form offers the checks, sets, lockings, lubricants and lines that are
// judged, by their codes.
func TestCodesAreThoseOfJudging(t *testing.T) {
	offered := workbook.Codes()
	for name, want := range map[string][]string{
		"check": assess.AllChecks(), "set": assess.Sets(), "locking": assess.Lockings(), "lubricant": assess.Lubricants(),
		"prestart":  assess.PreStartLines(),
		"criterion": {assess.CriterionRange, assess.CriterionPlane, assess.CriterionTotal},
		"round":     {field.AsFound, field.Second, field.Third, field.AsLeft, "run1", "run2", "run3", "run4"},
	} {
		if !slices.Equal(offered[name], want) {
			t.Errorf("%s: %v, judged are %v", name, offered[name], want)
		}
	}
}
