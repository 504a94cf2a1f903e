package report

import (
	"asleft/internal/field"
)

// faultError puts the faults of a workbook into words.
func (j *Job) faultError(files []field.File, faults []field.Fault) error {
	e := &FaultError{Several: len(files) > 1}
	for _, f := range faults {
		text := j.words.Say("fault."+string(f.Kind), "read", f.Read, "expected", j.expected(f.Expected), "detail", f.Detail)
		out := Fault{Sheet: f.At.Sheet, Cell: f.At.Cell, Text: text}
		if f.At.File >= 0 && f.At.File < len(files) {
			out.File = files[f.At.File].Name
		}
		e.Faults = append(e.Faults, out)
	}
	return e
}

// expected is the word for what a cell should hold.
func (j *Job) expected(code string) string {
	if key := "expected." + code; j.words.Has(key) {
		return j.words.Say(key)
	}
	return code
}
