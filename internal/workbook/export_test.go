package workbook

import "testing"

// Put is a value at a place of a named range, counted from 0.
type Put struct {
	Name     string
	Col, Row int
	Value    any
}

// Fill fills a form as people and scripts do.
func Fill(t testing.TB, form []byte, values []Put) []byte {
	return edit(t, form, func(e *sheetEditor) {
		for _, v := range values {
			e.setAt(v.Name, v.Col, v.Row, v.Value)
		}
	})
}

// Codes lists what the form offers where the judging part knows the same codes:
// checks, sets, lockings, lubricants, criteria, rounds and pre-start lines.
func Codes() map[string][]string {
	return map[string][]string{"check": checkKeys(), "set": setKeys(), "locking": lockingKeys(),
		"lubricant": lubricantKeys(), "criterion": criterion().codes, "round": round().codes, "prestart": preStartKeys()}
}
