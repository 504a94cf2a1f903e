package compose

import (
	"math"
	"strings"
	"unicode"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// quantityTyped prints a quantity as it was typed, with the unit that was meant
// where none was typed.
func (b *book) quantityTyped(q field.Quantity) string {
	text := typedText(b, q)
	if text == "" || strings.ContainsFunc(text, quantityRune) {
		return text
	}
	return withUnit(text, q.Value.Unit.String())
}

// quantityRune tells whether a character of a typed quantity belongs to a unit.
func quantityRune(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("%°Ω", r) }

// slopeTyped prints a slope as it was typed.
func (b *book) slopeTyped(s field.Slope) string {
	if !s.Set {
		return ""
	}
	text := b.slopeText(b.clean(s.Text, s.At), s.Value.Float())
	b.tellAs(s.At, s.Text, text)
	return text
}

// slopeText is a typed slope; one without a unit gets that in which it is the
// same number, else it is printed anew.
func (b *book) slopeText(text string, value float64) string {
	if text == "" || strings.ContainsFunc(text, slopeRune) {
		return text
	}
	const same = 1e-9 // base units of slopes
	for _, u := range []measure.Unit{b.first, b.second} {
		if n, err := measure.ParseSlope(text, u, slopeRun(u)); err == nil && math.Abs(n.Float()-value) <= same {
			return withUnit(text, u.String()+"/"+slopeRun(u).String())
		}
	}
	return b.amount(assess.Amount{Kind: assess.KindSlope, N: int64(math.Round(value / same))})
}

// slopeRune tells whether a character of a typed slope belongs to a unit.
func slopeRune(r rune) bool { return unitRune(r) || strings.ContainsRune("°%/:", r) }

// numberTyped prints a plain number as it was typed.
func (b *book) numberTyped(n field.Number) string { return typedText(b, n) }

// typedRuns are the one run of what was typed, under its path; none where the
// cell was blank.
func (b *book) typedRuns(id, text string) []page.Run {
	if text == "" {
		return nil
	}
	return []page.Run{b.value(id, text)}
}

// answer is the word of a yes or a no, nothing where the cell was blank.
func (b *book) answer(f field.Flag) string { return b.yesNo("answer", f) }

// then puts the parts that are not empty in one line.
func then(sep string, parts ...[]page.Run) []page.Run {
	var out []page.Run
	for _, p := range parts {
		if len(p) == 0 {
			continue
		}
		if len(out) > 0 {
			out = append(out, page.Run{Text: sep, Face: page.Muted})
		}
		out = append(out, p...)
	}
	return out
}

// below starts a new line in muted type with the parts, where there are any.
func below(above []page.Run, parts ...[]page.Run) []page.Run {
	low := then(", ", parts...)
	if len(low) == 0 {
		return above
	}
	if len(above) > 0 {
		above[len(above)-1].Text += " "
		low[0].Break = true
	}
	for i := range low {
		low[i].Face = page.Muted
	}
	return append(above, low...)
}
