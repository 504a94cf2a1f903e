package measure

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxText is the longest text, in bytes, that any parser of this package
// reads. The longest sensible one is a length in feet and inches with units
// spelled out, about 40 bytes.
const MaxText = 64

// minusSign is the mark printed before negative numbers.
const minusSign = '\u2212'

// clean checks a text and folds the many ways to write one mark into one. The
// result holds ASCII spaces only, none at the ends, '-' for every hyphen
// and dash, '/' for every slash, '"' and "'" for every quote and prime. The true
// minus U+2212 is kept, since "1−1/4" is no mixed number.
func clean(text string) (string, error) {
	if len(text) > MaxText {
		return "", refuse(TooLong, text, "")
	}
	if !utf8.ValidString(text) {
		return "", refuse(Control, text, "")
	}
	for _, r := range text {
		if hidden(r) {
			return "", refuse(Control, text, string(r))
		}
	}
	s := strings.Trim(strings.Map(fold, text), " ")
	if s == "" {
		return "", refuse(Empty, text, "")
	}
	return s, nil
}

// hidden reports control characters, and those that change what a reader sees
// without being seen: bidirectional marks and overrides and zero-width
// characters (category Cf), and the line and paragraph separators.
func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp)
}

// fold maps a rune to the one that the parsers know for its meaning.
func fold(r rune) rune {
	switch r {
	case '\u00a0', '\u2007', '\u2009', '\u200a', '\u202f': // no-break, figure and thin spaces
		return ' '
	case '\u2010', '\u2011', '\u2013': // hyphen, no-break hyphen, en dash
		return '-'
	case '\u2044', '\u2215': // fraction slash, division slash
		return '/'
	case '\u201c', '\u201d', '\u2033': // curly quotes, double prime
		return '"'
	case '\u2018', '\u2019', '\u2032': // curly apostrophes, prime
		return '\''
	case '\u00ba', '\u02da': // ordinal mark and ring, typed for a degree sign
		return '°'
	case '\u03bc': // Greek mu, for the micro sign
		return 'µ'
	case '\u2126': // ohm sign, for Greek omega
		return 'Ω'
	case '\u22c5', '\u2219', '\u2022': // dots and bullets, for the middle dot
		return '·'
	}
	return r
}

// vagueMarks and vagueWords show that the writer did not mean one value. The
// words are what people add to a tape reading (common practice, no source).
const vagueMarks = "~≈±<>≤≥?"

var vagueWords = []string{
	"strong", "full", "heavy", "light", "scant", "shy", "bare", "good", "plus",
	"minus", "about", "approx", "approximately", "ca", "circa", "roughly",
	"nearly", "almost", "over", "under", "less", "more", "ish", "to", "or",
}

// vague returns the mark or word that makes a cleaned text indefinite, or "".
func vague(s string) string {
	if i := strings.IndexAny(s, vagueMarks); i >= 0 {
		r, _ := utf8.DecodeRuneInString(s[i:])
		return string(r)
	}
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, v := range vagueWords {
			if strings.EqualFold(word, v) {
				return word
			}
		}
	}
	// A sign at the end ("1/2+") is a workman's "and a bit".
	last, _ := utf8.DecodeLastRuneInString(s)
	if isSign(last) && strings.ContainsAny(s, "0123456789") {
		return string(last)
	}
	return ""
}
