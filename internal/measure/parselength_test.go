package measure

import (
	"errors"
	"math/big"
	"regexp"
	"strings"
	"testing"
)

// wantKind fails unless err is a ParseError of the kind.
func wantKind(t *testing.T, text string, err error, kind ErrorKind) {
	t.Helper()
	var parse *ParseError
	if !errors.As(err, &parse) || parse.Kind != kind {
		t.Errorf("%q: error %v, want %s", text, err, kind)
	}
}

func TestParseLength(t *testing.T) {
	tests := []struct {
		text string
		def  Unit
		want Length
		unit Unit
	}{
		{"0.5", UnitInch, 12_700_000, UnitInch},
		{".5", UnitInch, 12_700_000, UnitInch},
		{"1/2", UnitInch, 12_700_000, UnitInch},
		{"1 / 2", UnitInch, 12_700_000, UnitInch},
		{"9/16", UnitInch, 9 * Inch / 16, UnitInch},
		{"17/16", UnitInch, 17 * Inch / 16, UnitInch},
		{"9⁄16", UnitInch, 9 * Inch / 16, UnitInch}, // U+2044
		{"1/64", UnitInch, SixtyFourth, UnitInch},
		{"1-1/4", UnitInch, 5 * Inch / 4, UnitInch},
		{"1–1/4", UnitInch, 5 * Inch / 4, UnitInch}, // en dash
		{"1   1/4", UnitInch, 5 * Inch / 4, UnitInch},
		{`1 1/4"`, UnitMillimeter, 5 * Inch / 4, UnitInch},
		{"1 1/4”", UnitMillimeter, 5 * Inch / 4, UnitInch},
		{"1-1/4''", UnitMillimeter, 5 * Inch / 4, UnitInch},
		{"½", UnitInch, Inch / 2, UnitInch},
		{"1¼", UnitInch, 5 * Inch / 4, UnitInch},
		{"1 ¼ in.", UnitNone, 5 * Inch / 4, UnitInch},
		{"1-¼", UnitInch, 5 * Inch / 4, UnitInch},
		{"⅝ in", UnitNone, 5 * Inch / 8, UnitInch},
		{"12,7 mm", UnitInch, 12_700_000, UnitMillimeter},
		{"12.7mm", UnitInch, 12_700_000, UnitMillimeter},
		{"0,125", UnitInch, Inch / 8, UnitInch},
		{"00,125", UnitInch, Inch / 8, UnitInch},
		{",125", UnitInch, Inch / 8, UnitInch},
		{"1,2500", UnitInch, 5 * Inch / 4, UnitInch},
		{"1.250", UnitInch, 5 * Inch / 4, UnitInch},
		{"3 ft 2-1/2 in", UnitNone, 38*Inch + Inch/2, UnitInch},
		{"3ft. 2 in.", UnitNone, 38 * Inch, UnitInch},
		{`3'-2 1/2"`, UnitNone, 38*Inch + Inch/2, UnitInch},
		{`3' - 2"`, UnitNone, 38 * Inch, UnitInch},
		{`3'2"`, UnitNone, 38 * Inch, UnitInch},
		{"3′ 2″", UnitNone, 38 * Inch, UnitInch},
		{"3 feet 0.5 inches", UnitNone, 36*Inch + Inch/2, UnitInch},
		{`-3'-2"`, UnitNone, -38 * Inch, UnitInch},
		{"3'", UnitNone, 3 * Foot, UnitFoot},
		{"1/3 ft", UnitNone, 4 * Inch, UnitFoot},
		{"5 thou", UnitInch, 5 * Thou, UnitThou},
		{"5 mils", UnitMillimeter, 5 * Thou, UnitThou},
		{"1/2 mil", UnitNone, Thou / 2, UnitThou},
		{"20 µm", UnitNone, 20 * Micrometer, UnitMicrometer}, // micro sign
		{"20 μm", UnitNone, 20 * Micrometer, UnitMicrometer}, // Greek mu
		{"2.134 m", UnitInch, 2134 * Millimeter, UnitMeter},
		{"1.5 cm", UnitInch, 15 * Millimeter, UnitCentimeter},
		{"5 MM", UnitInch, 5 * Millimeter, UnitMillimeter},
		{"-0.003", UnitInch, -3 * Thou, UnitInch},
		{"−0.003", UnitInch, -3 * Thou, UnitInch}, // U+2212
		{"+0.003", UnitInch, 3 * Thou, UnitInch},
		{"-1-1/4", UnitInch, -5 * Inch / 4, UnitInch},
		{"-0", UnitInch, 0, UnitInch},
		{"0", UnitMillimeter, 0, UnitMillimeter},
		{" 12.7\u00a0mm ", UnitInch, 12_700_000, UnitMillimeter},
		{"0.000001 mm", UnitInch, 1, UnitMillimeter}, // one nanometer
		{"0.0000005 in", UnitNone, 0, UnitNone},      // 12.7 nm: refused below
		{"1000000 m", UnitNone, MaxLength, UnitMeter},
	}
	for _, test := range tests {
		got, unit, err := ParseLength(test.text, test.def)
		if test.unit == UnitNone {
			wantKind(t, test.text, err, NotExact)
			continue
		}
		if err != nil || got != test.want || unit != test.unit {
			t.Errorf("%q: %d nm, %s, %v, want %d nm, %s", test.text, got, unit, err, test.want, test.unit)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	tests := []struct {
		text string
		kind ErrorKind
	}{
		{"", Empty}, {"   ", Empty}, {"\u00a0", Empty},
		{"1/0", DivideByZero}, {"1-1/0", DivideByZero},
		{"1-1/4-3", NotANumber}, {"--1", NotANumber}, {"- 1", NotANumber}, {"1 2", NotANumber},
		{"NaN", NotANumber}, {"Inf", NotANumber}, {"-", NotANumber}, {"n/a", NotANumber},
		{"5.", NotANumber}, {"3 ft.5 in", TwoUnits}, {"5 ft.5", NotANumber}, {".", NotANumber}, {"1.5/2", NotANumber}, {"1/2.5", NotANumber},
		{"1.5 1/2", NotANumber}, {"1 -1/4", NotANumber}, {"1- 1/4", NotANumber}, {"1 - 1/4", NotANumber},
		{"1−1/4", NotANumber}, // a true minus subtracts
		{"1/4-1", NotANumber}, {"½½", NotANumber}, {"1/2/", NotANumber}, {"mm 5", NotANumber},
		{"1_000", NotANumber}, {"٣", NotANumber}, {"５", NotANumber}, {"(5)", NotANumber}, {"=5", NotANumber},
		{"0x1", UnknownUnit}, {"1e9", UnknownUnit}, {"5 furlongs", UnknownUnit}, {"5 M", UnknownUnit}, {"5%", UnknownUnit},
		{"5 mm in", TwoUnits}, {`5" in`, TwoUnits}, {"3 ft 2 mm", TwoUnits}, {"3 in 2 ft", TwoUnits},
		{"3.5 ft 2 in", TwoUnits}, {"1 m 20 cm", TwoUnits},
		{"3' 2", MissingUnit},
		{"1,250", AmbiguousComma}, {"12,500 mm", AmbiguousComma}, {"1,250.5", AmbiguousComma},
		{"1.250,5", AmbiguousComma}, {"1,250,000", AmbiguousComma},
		{"9/16 strong", Vague}, {"9/16 full", Vague}, {"1/2+", Vague}, {"1/2-", Vague}, {"1/2 −", Vague},
		{"~3", Vague}, {"about 1/2", Vague}, {"< 5", Vague}, {"1/2 to 5/8", Vague}, {"±1/8", Vague}, {"3?", Vague},
		{"1-17/16", Improper}, {"1-4/4", Improper}, {"1 0/4", Improper}, {"3 ft 12 in", Improper},
		{"1/2/3", LooksLikeDate}, {"03/04/26", LooksLikeDate}, {"2026-09-16", LooksLikeDate},
		{"1.2.3", LooksLikeDate}, {"16-Sep", LooksLikeDate}, {"Sep-16", LooksLikeDate}, {"9. march", LooksLikeDate},
		{"1/3", NotExact}, {"0.00000001", NotExact}, {"1/7 mm", NotExact},
		{"1000000.000000001 m", TooLarge}, {"99999999999999999999", TooLarge}, {"-99999999999999999999", TooLarge},
		{strings.Repeat("1", MaxText+1), TooLong},
		{"1\t2", Control}, {"1\n", Control}, {"\u202e1", Control}, {"1\u200b", Control}, {"1\u00ad2", Control},
		{"1\u2028", Control}, {"1\xff", Control}, {"\ufeff1", Control}, {"1\x00", Control},
	}
	for _, test := range tests {
		_, unit, err := ParseLength(test.text, UnitInch)
		wantKind(t, test.text, err, test.kind)
		if unit != UnitNone {
			t.Errorf("%q: refused, yet unit %s", test.text, unit)
		}
	}
	_, _, err := ParseLength("1/2", UnitNone)
	wantKind(t, "1/2", err, MissingUnit)
}

func TestParseErrorIsSafeToPrint(t *testing.T) {
	_, _, err := ParseLength("5\u202e\x1b[31m", UnitInch)
	for _, r := range err.Error() {
		if hidden(r) {
			t.Fatalf("error holds %U: %q", r, err.Error())
		}
	}
	_, _, err = ParseLength(strings.Repeat("é", 500), UnitInch)
	var parse *ParseError
	if !errors.As(err, &parse) || len(parse.Text) > MaxText || strings.ContainsRune(parse.Text, '\ufffd') {
		t.Errorf("long text kept as %q", parse.Text)
	}
}

func TestParseUnit(t *testing.T) {
	for u := UnitInch; int(u) < len(unitTable); u++ {
		got, err := ParseUnit(u.String())
		if err != nil || got != u {
			t.Errorf("%q reads as %v, %v", u.String(), got, err)
		}
	}
	for _, text := range []string{"", "M", "furlong", "mm mm", "5 mm", "\""} {
		if u, err := ParseUnit(text); (err == nil) != (text == "\"") {
			t.Errorf("%q: %v, %v", text, u, err)
		}
	}
}

// The grammar that a person would agree to, written apart from the parser: a
// regular expression for the form and a rational evaluator for the value.
var (
	oracleNumber = `(?:(\d+)(?: *|-)(?P<v>[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])|(\d+)(?: +|-)(\d+) */ *(\d+)|(\d+) */ *(\d+)|([½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒])|(\d*[.,]\d+)|(\d+))`
	oracleForm   = regexp.MustCompile(`(?i)^[-+−]?` + `(?:(\d+) *(?:ft\.?|foot|feet|') *-? *)?` + oracleNumber + ` *(\pL+\.?|"|'|'')?$`)
)

// oracleValue evaluates a match of oracleForm, in units, or nil if the number is
// one that must be refused.
func oracleValue(m []string) *big.Rat {
	rat := func(s string) *big.Rat { r, _ := new(big.Rat).SetString(s); return r }
	over := func(n, d string) *big.Rat {
		if rat(d).Sign() == 0 {
			return nil
		}
		return new(big.Rat).Quo(rat(n), rat(d))
	}
	one := big.NewRat(1, 1)
	switch {
	case m[3] != "":
		return new(big.Rat).Add(rat(m[2]), vulgar(m[3]))
	case m[4] != "":
		part := over(m[5], m[6])
		if part == nil || part.Sign() == 0 || part.Cmp(one) >= 0 {
			return nil
		}
		return part.Add(part, rat(m[4]))
	case m[7] != "":
		return over(m[7], m[8])
	case m[9] != "":
		return vulgar(m[9])
	case m[10] != "":
		whole, frac, comma := strings.Cut(m[10], ",")
		if comma && len(frac) == 3 && strings.Trim(whole, "0") != "" {
			return nil
		}
		return rat("0" + strings.Replace(m[10], ",", ".", 1))
	}
	return rat(m[11])
}

// oracle returns the length in nanometers, or nil if the text must be refused.
func oracle(text string, def Unit) *big.Rat {
	s, err := clean(text)
	if err != nil {
		return nil
	}
	m := oracleForm.FindStringSubmatch(strings.ReplaceAll(s, "''", `"`))
	if m == nil {
		return nil
	}
	value := oracleValue(m)
	if value == nil {
		return nil
	}
	unit := def
	if m[12] != "" {
		if unit, err = ParseUnit(m[12]); err != nil {
			return nil
		}
	}
	if m[1] != "" {
		if strings.HasPrefix(strings.ReplaceAll(m[10], ",", "."), ".") {
			return nil // "3 ft.5 in": half an inch, or five?
		}
		if unit != UnitInch || m[12] == "" || value.Cmp(big.NewRat(12, 1)) >= 0 {
			return nil
		}
		feet, _ := new(big.Rat).SetString(m[1])
		value = new(big.Rat).Add(value, feet.Mul(feet, big.NewRat(12, 1)))
	}
	if unit.Size() == 0 {
		return nil
	}
	value = new(big.Rat).Mul(value, new(big.Rat).SetInt64(int64(unit.Size())))
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−") {
		value.Neg(value)
	}
	return value
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"0.5", "9/16", "1-1/4", `1 1/4"`, "12,7 mm", "3 ft 2-1/2 in", `3'-2 1/2"`,
		"½", "1¼", "1  ¼", "−5 mils", "1,250", "9/16 strong", "1/0", "5 mm in", "1e9", "3 ft 2", "16-Sep"} {
		f.Add(seed, uint8(UnitInch))
	}
	f.Fuzz(func(t *testing.T, text string, def uint8) {
		u := Unit(def % uint8(len(unitTable)))
		got, unit, err := ParseLength(text, u)
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Kind == 0 || len(parse.Text) > MaxText {
				t.Fatalf("%q: odd error %#v", text, err)
			}
			return
		}
		want := oracle(text, u)
		if want == nil || want.Cmp(new(big.Rat).SetInt64(int64(got))) != 0 {
			t.Fatalf("%q (%s): %d nm, oracle %v", text, u, got, want)
		}
		roundTrip(t, text, got, unit)
	})
}

// roundTrip prints a length in all exact ways and reads it again.
func roundTrip(t *testing.T, text string, l Length, unit Unit) {
	t.Helper()
	texts := []string{l.In(UnitMillimeter) + " mm", l.String()}
	if unit.Size() != 0 && l.ExactIn(unit) {
		texts = append(texts, l.In(unit)+" "+unit.String(), ASCII(l.In(unit))+" "+unit.String())
	}
	if fraction, exact := l.FormatFraction(64); exact {
		texts = append(texts, fraction+" in")
	}
	for _, printed := range texts {
		if len(printed) > MaxText {
			continue
		}
		again, _, err := ParseLength(printed, UnitNone)
		if err != nil || again != l {
			t.Fatalf("%q: %d nm prints %q, reads %d, %v", text, l, printed, again, err)
		}
	}
}
