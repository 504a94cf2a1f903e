package page

import (
	"errors"
	"fmt"
)

// ErrNoRoom: a piece of content does not fit on an empty page.
var ErrNoRoom = errors.New("does not fit on a page")

// TextError is a text that cannot be printed: it is no UTF-8, or holds a
// character for which there is no glyph, or one that is none (a control
// character, a line break, a mark that changes the direction of writing).
type TextError struct {
	Section string
	ID      string // of the run, if it has one
	Text    string // the whole run
	Rune    rune   // the first bad character
	Why     string
}

// Error quotes the text escaped: it may hold what must not reach a terminal.
func (e *TextError) Error() string {
	where := "section " + e.Section
	if e.ID != "" {
		where += ", value " + e.ID
	}
	return fmt.Sprintf("%s: text %+q, character %U: %s", where, e.Text, e.Rune, e.Why)
}

// RowError is a table of which not every row was placed.
type RowError struct{ Count Count }

// Error names the table and both numbers.
func (e *RowError) Error() string {
	return fmt.Sprintf("section %s, table %d %q: %d of %d rows placed",
		e.Count.Section, e.Count.Table, e.Count.Caption, e.Count.Placed, e.Count.Rows)
}
