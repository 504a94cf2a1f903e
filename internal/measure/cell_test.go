package measure

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
)

func TestFromCell(t *testing.T) {
	tests := []struct {
		raw         string
		denominator int
		want        string
	}{
		{"0.5625", 0, "0.5625"}, {"0.5625", 16, "9/16"}, {"0.5625", 99, "9/16"}, {"0.5625", 9, "9/16"},
		{"0.56250000000000011", 16, "9/16"}, // one unit in the last place off
		{"1.25", 4, "1-1/4"}, {"-1.25", 4, "−1-1/4"}, {"3", 16, "3"}, {"0", 16, "0"}, {"-0", 16, "0"},
		{"0.03125", 16, "1/32"}, {"0.015625", 8, "1/64"}, {"0.0078125", 16, "0.0078125"}, // 1/128
		{"0.33333333333333331", 9, "1/3"}, {"0.33333333333333331", 16, "0.3333333333"},
		{"0.33333333333333331", 0, "0.3333333333"}, {"0.33333333299999999", 9, "0.333333333"},
		{"0.2", 10, "1/5"}, {"0.2", 9, "1/5"}, {"0.2", 16, "0.2"}, {"0.01", 100, "1/100"}, {"0.01", 99, "0.01"},
		{"0.51", 16, "0.51"}, {"0.0010000000000000000208", 0, "0.001"}, {"5E-3", 0, "0.005"}, {"1.2e1", 0, "12"},
		{"12345678901", 0, "12345678900"}, {"0.12345678905", 0, "0.1234567891"}, {"999999999999", 0, "1000000000000"},
		{"1000.5", 2, "1000.5"}, {"999.5", 2, "999-1/2"}, {"1e-16", 0, "0"}, {"-1e-16", 0, "0"},
		{"0.30000000000000004", 0, "0.3"}, {"2.0000000000000001E-3", 0, "0.002"},
	}
	for _, test := range tests {
		if got, err := FromCell(test.raw, test.denominator); err != nil || got != test.want {
			t.Errorf("%s over %d: %q, %v, want %q", test.raw, test.denominator, got, err, test.want)
		}
	}
	refused := map[string]ErrorKind{
		"": Empty, "NaN": NotANumber, "Inf": NotANumber, "0x10": NotANumber, "1_0": NotANumber, "1,5": NotANumber,
		" 1": NotANumber, "1/2": NotANumber, "e5": NotANumber, "--1": NotANumber, "1e16": TooLarge, "-1e16": TooLarge,
		"1e999": TooLarge, strings.Repeat("1", MaxText+1): TooLong,
	}
	for raw, kind := range refused {
		_, err := FromCell(raw, 16)
		wantKind(t, raw, err, kind)
	}
}

// Every sixty-fourth up to three feet, as a spreadsheet stores it, is read as
// exactly that length.
func TestCellsOfSixtyFourthsAreExact(t *testing.T) {
	for n := range 64 * 36 {
		raw := strconv.FormatFloat(float64(n)/64, 'G', 17, 64)
		for _, denominator := range []int{0, 16, 64, 99} {
			text, err := FromCell(raw, denominator)
			if err != nil {
				t.Fatal(err)
			}
			got, _, err := ParseLength(text, UnitInch)
			if want := Length(n) * SixtyFourth; err != nil || got != want {
				t.Fatalf("%d/64 over %d: %q, %d, %v", n, denominator, text, got, err)
			}
		}
	}
}

func FuzzFromCell(f *testing.F) {
	f.Add("0.5625", 16)
	f.Add("-1.2500000000000002", 99)
	f.Add("5E-3", 0)
	f.Fuzz(func(t *testing.T, raw string, denominator int) {
		if denominator > 1000 {
			denominator %= 1000 // no format has more digits; only time is saved
		}
		text, err := FromCell(raw, denominator)
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Kind == 0 {
				t.Fatalf("%q: odd error %#v", raw, err)
			}
			return
		}
		n, err := ParseNumber(text)
		if err != nil {
			t.Fatalf("%q gives %q, which is refused: %v", raw, text, err)
		}
		value, err := strconv.ParseFloat(raw, 64)
		if err != nil && value != 0 {
			t.Fatalf("%q read as %q", raw, text)
		}
		// Within half a unit of the tenth digit, or the floor for noise.
		if off := math.Abs(n.Float() - value); off > math.Abs(value)*0.5001e-9 && off > minCell {
			t.Fatalf("%q gives %q", raw, text)
		}
	})
}
