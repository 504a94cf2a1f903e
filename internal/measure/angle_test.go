package measure

import (
	"errors"
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"
)

func TestParseAngle(t *testing.T) {
	tests := []struct {
		text string
		want Angle
	}{
		{"12.5", 25 * Degree / 2}, {"12,5°", 25 * Degree / 2}, {"12 deg", 12 * Degree}, {"12º", 12 * Degree},
		{"-1/2", -Degree / 2}, {"−1/2°", -Degree / 2}, {"10-1/2°", 21 * Degree / 2}, {"½ degree", Degree / 2},
		{"12°30'", 25 * Degree / 2}, {"12 deg 30 min", 25 * Degree / 2}, {"12° 30′ 15.5″", 12*Degree + 30*ArcMinute + 31*ArcSecond/2},
		{"-12°30'", -25 * Degree / 2}, {"30'", 30 * ArcMinute}, {"30'15''", 30*ArcMinute + 15*ArcSecond},
		{"12° 15\"", 12*Degree + 15*ArcSecond}, {"45 sec", 45 * ArcSecond}, {"90 min", 90 * ArcMinute},
		{"0.1", 360 * ArcSecond}, {"1/3", 20 * ArcMinute}, {"0.00000001", 36}, {"360", 360 * Degree}, {"0", 0},
	}
	for _, test := range tests {
		if got, err := ParseAngle(test.text); err != nil || got != test.want {
			t.Errorf("%q: %v, %v, want %v", test.text, got, err, test.want)
		}
	}
	refused := map[string]ErrorKind{
		"": Empty, "12 30": NotANumber, "12 30'": NotANumber, "12° 30": MissingUnit, "12°60'": Improper, "12° 30' 60\"": Improper,
		"1°2°": TwoUnits, "30' 12°": TwoUnits, "1.5°30'": NotANumber, "12 deg.5 min": NotANumber, "12°.5'": NotANumber, "1/0": DivideByZero,
		"12 in": UnknownUnit, "12 rad": UnknownUnit, "1e9": UnknownUnit, "NaN": NotANumber, "12-30": NotANumber,
		"about 12": Vague, "0.000000001": NotExact, "1/7": NotExact, "1000000.1": TooLarge, "1,250": AmbiguousComma,
	}
	for text, kind := range refused {
		_, err := ParseAngle(text)
		wantKind(t, text, err, kind)
	}
}

func TestAngleForms(t *testing.T) {
	if got := (25 * Degree / 2).String(); got != "12.5°" {
		t.Error(got)
	}
	if got := (-Degree / 20).Format(1); got != "−0.1" { // half away from zero
		t.Error(got)
	}
	if got := Degree.Radians(); math.Abs(got-math.Pi/180) > 1e-17 {
		t.Error(got)
	}
	for _, a := range []Angle{0, 1, -1, Degree, -359 * Degree, MaxAngle} {
		back, err := FromRadians(a.Radians())
		// A million degrees are 3.6e15 units, where a float64 is good to a few.
		if err != nil || (back-a).Abs() > 4 || a.Abs() <= 360*Degree && back != a {
			t.Errorf("%d comes back as %d, %v", a, back, err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), 1e9} {
		if _, err := FromRadians(bad); err == nil {
			t.Errorf("%v radians accepted", bad)
		}
	}
	for in, want := range map[Angle]Angle{-90: 270, 360: 0, 725: 5, 0: 0, -360: 0} {
		if got := (in * Degree).Normalize(); got != want*Degree {
			t.Errorf("%d° normalizes to %v", in, got)
		}
	}
}

// oracleAngle is the form of a signed angle in degrees, minutes and seconds,
// after folding, with whole parts before smaller ones.
var oracleAngle = regexp.MustCompile(`(?i)^[-+−]?(?:(\d+) *(?:°|(?:degrees|degree|degs|deg)\.?) *)??(?:(\d+) *(?:'|(?:minutes|minute|mins|min)\.?) *)??` +
	oracleNumber + ` *(?:(°|degrees\.?|degree\.?|degs\.?|deg\.?)|('|minutes\.?|minute\.?|mins\.?|min\.?)|("|seconds\.?|second\.?|secs\.?|sec\.?))?$`)

func angleOracle(text string) *big.Rat {
	s, err := clean(text)
	if err != nil {
		return nil
	}
	m := oracleAngle.FindStringSubmatch(strings.ReplaceAll(s, "''", `"`))
	if m == nil {
		return nil
	}
	value := oracleValue(m[1:])
	if value == nil || (m[1] != "" || m[2] != "") && strings.HasPrefix(strings.ReplaceAll(m[11], ",", "."), ".") {
		return nil // a later part that begins with a point
	}
	number := func(s string) int64 {
		r, ok := new(big.Rat).SetString("0" + s)
		if !ok {
			return 0
		}
		return r.Num().Int64()
	}
	size := int64(Degree)
	switch {
	case m[15] != "":
		size = int64(ArcSecond)
	case m[14] != "":
		size = int64(ArcMinute)
	}
	compound := m[1] != "" || m[2] != ""
	if compound && value.Cmp(big.NewRat(60, 1)) >= 0 || m[1] != "" && m[2] != "" && number(m[2]) >= 60 {
		return nil
	}
	total := new(big.Rat).Mul(value, big.NewRat(size, 1))
	total.Add(total, new(big.Rat).SetInt64(number(m[1])*int64(Degree)))
	total.Add(total, new(big.Rat).SetInt64(number(m[2])*int64(ArcMinute)))
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−") {
		total.Neg(total)
	}
	return total
}

func FuzzParseAngle(f *testing.F) {
	for _, seed := range []string{"12.5", "12,5°", "12°30'", "12 deg 30 min", "-1/2", "12° 30' 15.5\"", "30'", "1°2°"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ParseAngle(text)
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Kind == 0 {
				t.Fatalf("%q: odd error %#v", text, err)
			}
			return
		}
		want := angleOracle(text)
		if want == nil || want.Cmp(new(big.Rat).SetInt64(int64(got))) != 0 {
			t.Fatalf("%q: %d, oracle %v", text, got, want)
		}
		if printed, exact := exactText(got.degrees(), 0); exact {
			if again, err := ParseAngle(printed + "°"); err != nil || again != got {
				t.Fatalf("%q prints %q, reads %v, %v", text, printed, again, err)
			}
		}
	})
}
