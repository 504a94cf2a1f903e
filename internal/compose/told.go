package compose

import (
	"strings"

	"asleft/internal/field"
)

// tell notes that what was typed in a cell of a workbook stands on a page as it
// was typed. What nobody told is listed in the appendix, so that nothing is
// missing from the pages.
func (b *book) tell(at field.Ref) { b.told[at] = true }

// tellAs notes it where the text that is printed is the one that was typed, or the
// part of it before a unit that the head of a column has.
func (b *book) tellAs(at field.Ref, typed, printed string) {
	typed, printed = spaced(typed), spaced(printed)
	if printed != "" && (strings.Contains(printed, typed) || strings.HasPrefix(typed, printed)) {
		b.tell(at)
	}
}

// spaced has one plain space wherever there is any.
func spaced(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
}
