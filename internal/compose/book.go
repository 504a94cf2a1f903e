package compose

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// book is a package in the making: what it is made from, what has been printed
// under a path, and what went wrong. Mistakes are collected, so that all are
// told at once.
type book struct {
	in     *Input
	made   made // files and fingerprint
	first  measure.Unit
	second measure.Unit
	ids    map[string]bool
	typed  map[string]field.Ref // texts of the workbook and where they stand
	told   map[field.Ref]bool   // cells of the workbook that pages tell
	errs   []error
	fails  *book                // collects the mistakes of a part in other words
	reach  map[string][]float64 // of the polar figures of a check in all cells, widest first
	common *scales
	known  *roster
	packed chan *archive.Packed // of the files, in their order

	shortTiles bool // tiles of the first page have the number of the cell alone
}

// ErrNoWords: the language has no phrase for something to be said.
var ErrNoWords = errors.New("no words")

// ErrTwice: two places of the book claim the same path of the data file.
var ErrTwice = errors.New("printed twice under one path")

// ErrText: a text of the workbook holds a character that is not to be seen.
var ErrText = errors.New("character that cannot be printed")

func newBook(in *Input, m made) *book {
	b := &book{in: in, made: m, ids: map[string]bool{}, typed: map[string]field.Ref{}, told: map[field.Ref]bool{}, reach: map[string][]float64{}}
	b.first, b.second = in.units()
	return b
}

// err is everything that went wrong so far.
func (b *book) err() error { return errors.Join(b.errs...) }

func (b *book) fail(err error) {
	if b.fails != nil {
		b = b.fails
	}
	b.errs = append(b.errs, err)
}

// say is the phrase of the key, its places filled. All words of the package
// pass here.
func (b *book) say(key string, pairs ...string) string {
	if !b.in.Words.Has(key) {
		b.fail(fmt.Errorf("%w for %q in language %q", ErrNoWords, key, b.in.Words.Tag()))
		return ""
	}
	return b.in.Words.Say(key, pairs...)
}

// optional is the phrase of the key where there is one, else empty.
func (b *book) optional(key string, pairs ...string) string {
	if !b.in.Words.Has(key) {
		return ""
	}
	return b.in.Words.Say(key, pairs...)
}

// count is the phrase of the key for a number of things: key.one for one, else
// key.many; {n} is the number.
func (b *book) count(key string, n int, pairs ...string) string {
	form := ".many"
	if n == 1 {
		form = ".one"
	}
	return b.say(key+form, append(pairs, "n", fmt.Sprint(n))...)
}

// value is a run that prints a value of the data file under its path. Every
// value is printed so at one place, the most authoritative: the tables of the
// cell for readings, results and verdicts, the limits page for limits. Where it
// is printed again it has no path.
func (b *book) value(id, text string) page.Run {
	return page.Run{Text: text, ID: b.claim(id)}
}

// found is how many readings there are of those asked for: two values in one run.
func (b *book) found(id string, found, expected int) page.Run {
	return page.Run{Text: strconv.Itoa(found) + unbroken(" "+b.say("cell.ofword")+" ") + strconv.Itoa(expected), Face: page.Muted,
		ID: b.claim(data.Under(id, "found")) + " " + b.claim(data.Under(id, "expected"))}
}

// claim takes a path for one run. That two runs want it is a mistake of ours.
func (b *book) claim(id string) string {
	if b.ids[id] {
		b.fail(fmt.Errorf("%s: %w", id, ErrTwice))
	}
	b.ids[id] = true
	return id
}

// text is a text of the workbook, fit to print. Line ends become spaces; what
// cannot be seen is an error that names the cell.
func (b *book) text(t field.Text) string {
	if !t.Set {
		return ""
	}
	b.tell(t.At)
	return b.clean(t.Value, t.At)
}

// typedText is what was typed for a value of any kind.
func typedText[T any](b *book, e field.Entry[T]) string {
	if !e.Set {
		return ""
	}
	b.tell(e.At)
	return b.clean(e.Text, e.At)
}

// clean makes a text of the workbook fit to print and remembers where it came
// from.
func (b *book) clean(s string, at field.Ref) string {
	s = strings.Join(strings.Fields(s), " ")
	for _, r := range s {
		if r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			b.fail(fmt.Errorf("%s: %w: %q", at, ErrText, r))
			return ""
		}
	}
	if _, known := b.typed[s]; !known && s != "" {
		b.typed[s] = at
	}
	return s
}

// or is the text, or the phrase of the key where it is empty.
func (b *book) or(text, key string) string {
	if text == "" {
		return b.say(key)
	}
	return text
}

// code is the text of a cell with a choice: the phrase of kind.code, or nothing.
func (b *book) code(kind string, t field.Text) string {
	if !t.Set || t.Value == "" {
		return ""
	}
	b.tell(t.At)
	return b.say(kind + "." + t.Value)
}
