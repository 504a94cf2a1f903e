package measure

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// cellDigits are the significant digits kept of a spreadsheet's number. The
// program stores binary floating point, good for 15; ten drop its noise and
// keep every reading a person can make.
const cellDigits = 10

// Bounds of a numeric cell that could be a reading.
const (
	maxCell = 1e15
	minCell = 1e-15
)

// maxCellFraction bounds the numbers printed as fractions: below it, ten digits
// tell any two fractions with denominators up to 999 apart.
const maxCellFraction = 1000

// FromCell turns the raw text of a spreadsheet's numeric cell (the digits of a
// float64: "0.56250000000000004", "5E-3") into text for the parsers.
//
// denominator is that of the cell's fraction format: 16 for "# ?/16"; 9, 99 or
// 999 for a format of up to one, two or three digits; 0 for a format that is
// no fraction. A number that is, to ten digits, a fraction of that format or a
// binary fraction down to 1/64 (a format in 1/16 shows 1/32 rounded, but 1/32
// is what was typed) gives "9/16", "1-1/4" or "3". Every other number gives
// its shortest decimal at ten significant digits, without an exponent.
func FromCell(raw string, denominator int) (text string, err error) {
	value, err := cellNumber(raw)
	if err != nil {
		return "", err
	}
	magnitude := math.Abs(value)
	text = tenDigits(magnitude)
	if denominator > 0 && magnitude < maxCellFraction {
		text = fractionText(text, magnitude, denominator)
	}
	if value < 0 {
		text = string(minusSign) + text
	}
	return text, nil
}

// cellNumber reads the number grammar of a spreadsheet file: no hexadecimal, no
// NaN, no infinity, no underscore, all of which strconv would read.
func cellNumber(raw string) (float64, error) {
	if len(raw) > MaxText {
		return 0, refuse(TooLong, raw, "")
	}
	if raw == "" {
		return 0, refuse(Empty, raw, "")
	}
	if strings.Trim(raw, "0123456789+-.eE") != "" {
		return 0, refuse(NotANumber, raw, "")
	}
	value, err := strconv.ParseFloat(raw, 64)
	if math.Abs(value) > maxCell { // infinite if out of range
		return 0, refuse(TooLarge, raw, "")
	}
	if err != nil {
		return 0, refuse(NotANumber, raw, "")
	}
	if math.Abs(value) < minCell {
		return 0, nil // binary noise about zero
	}
	return value, nil
}

// tenDigits is the plain decimal text of a magnitude at cellDigits.
func tenDigits(magnitude float64) string {
	if magnitude == 0 {
		return "0"
	}
	text := strconv.FormatFloat(magnitude, 'e', cellDigits-1, 64) // d.ddddddddde±xx
	mantissa, exponent, _ := strings.Cut(text, "e")
	shift, err := strconv.Atoi(exponent)
	if err != nil { // not reachable: FormatFloat wrote it
		return text
	}
	return trimFloat(strings.Replace(mantissa, ".", "", 1), shift+1)
}

// fractionText returns the fraction with the smallest allowed denominator that
// has the given ten digits, or the decimal itself.
func fractionText(decimal string, magnitude float64, denominator int) string {
	for q := 1; q <= max(denominator, 64); q++ {
		if !fractionOf(q, denominator) {
			continue
		}
		p := math.Round(magnitude * float64(q))
		if tenDigits(p/float64(q)) == decimal {
			return mixedText(big.NewRat(int64(p), int64(q)))
		}
	}
	return decimal
}

// fractionOf reports whether a format with the given denominator, or a rule
// divided by halving, has marks at 1/q.
func fractionOf(q, denominator int) bool {
	if q <= 64 && 64%q == 0 {
		return true
	}
	if denominator == 9 || denominator == 99 || denominator == 999 {
		return q <= denominator
	}
	return q <= denominator && denominator%q == 0
}
