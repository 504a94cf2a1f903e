package measure

import (
	"fmt"
	"unicode/utf8"
)

// An ErrorKind says why a text was refused. The words that people read are
// made from it elsewhere.
type ErrorKind uint8

// The reasons for refusing a text.
const (
	Empty          ErrorKind = iota + 1 // nothing but spaces
	NotANumber                          // no number that is understood, or something beside it
	AmbiguousComma                      // "1,250": a decimal comma or a thousands comma
	Vague                               // "9/16 strong", "1/2+", "~3": not one value
	Improper                            // "1-17/16", "3 ft 14 in", "5° 75'": part too large for its place
	UnknownUnit                         // a unit that is not of this kind, or no unit at all
	MissingUnit                         // no unit was typed and none is implied
	TwoUnits                            // "5 mm in"
	LooksLikeDate                       // "03/04/26", "16-Sep"
	DivideByZero                        // "1/0"
	NotExact                            // no whole number of base units: "1/3 in"
	TooLarge                            // beyond the stated bound of the type
	TooLong                             // more than MaxText bytes
	Control                             // a control, bidirectional or invisible character, or bad UTF-8
	DifferentKinds                      // two quantities that cannot be compared
)

// kindNames is indexed by ErrorKind.
var kindNames = [...]string{
	Empty: "empty", NotANumber: "not a number", AmbiguousComma: "ambiguous comma",
	Vague: "not one definite value", Improper: "part too large for its place",
	UnknownUnit: "unknown unit", MissingUnit: "no unit", TwoUnits: "two units",
	LooksLikeDate: "looks like a date", DivideByZero: "division by zero",
	NotExact: "no exact value", TooLarge: "too large", TooLong: "too long",
	Control: "control or invisible character", DifferentKinds: "different kinds of quantity",
}

// String returns a short lower-case English name, for logs and tests.
func (k ErrorKind) String() string {
	if int(k) < len(kindNames) && kindNames[k] != "" {
		return kindNames[k]
	}
	return fmt.Sprintf("error kind %d", uint8(k))
}

// A ParseError is the one error type of this package.
type ParseError struct {
	Kind   ErrorKind
	Text   string // what was read, at most MaxText bytes of it, not escaped
	Detail string // the part that was not understood, or the bound; may be empty
}

// Error states the facts, with Text and Detail quoted so that no control
// character reaches a terminal.
func (e *ParseError) Error() string {
	if e.Detail == "" {
		return fmt.Sprintf("%q: %s", e.Text, e.Kind)
	}
	return fmt.Sprintf("%q: %s: %q", e.Text, e.Kind, e.Detail)
}

// refuse builds the error for a text of any length.
func refuse(kind ErrorKind, text, detail string) error {
	return &ParseError{Kind: kind, Text: clip(text), Detail: clip(detail)}
}

// clip cuts a text to MaxText bytes without cutting a rune.
func clip(text string) string {
	if len(text) <= MaxText {
		return text
	}
	end := MaxText
	for end > 0 && !utf8.RuneStart(text[end]) {
		end--
	}
	return text[:end]
}
