package measure

import (
	"errors"
	"testing"
)

func TestParseSlope(t *testing.T) {
	tests := []struct {
		text      string
		rise, run Unit
		want      Slope
	}{
		{"0.005 in/ft", UnitNone, UnitNone, Slope{5 * Thou, Foot}},
		{"0.4 mm/m", UnitNone, UnitNone, Slope{400 * Micrometer, Meter}},
		{"0,4 mm per m", UnitNone, UnitNone, Slope{400 * Micrometer, Meter}},
		{"5 mil/in", UnitNone, UnitNone, Slope{5 * Thou, Inch}},
		{"-5 mils per inch", UnitNone, UnitNone, Slope{-5 * Thou, Inch}},
		{"0.002 in / 12 in", UnitNone, UnitNone, Slope{2 * Thou, Foot}},
		{"1/64 in/ft", UnitNone, UnitNone, Slope{SixtyFourth, Foot}},
		{"1/64\"/1'", UnitNone, UnitNone, Slope{SixtyFourth, Foot}},
		{"0.005", UnitInch, UnitFoot, Slope{5 * Thou, Foot}},
		// 0.1° = 1.745329251994e-3 rad, rounded once to 1e-9.
		{"0.1°", UnitInch, UnitFoot, Slope{1_745_329, 1_000_000_000}},
		{"-0.1 deg", UnitNone, UnitNone, Slope{-1_745_329, 1_000_000_000}},
		{"0°6'", UnitNone, UnitNone, Slope{1_745_329, 1_000_000_000}},
		// 3° = 0.0523598775598 rad
		{"3°", UnitNone, UnitNone, Slope{52_359_878, 1_000_000_000}},
	}
	for _, test := range tests {
		if got, err := ParseSlope(test.text, test.rise, test.run); err != nil || got != test.want {
			t.Errorf("%q: %+v, %v, want %+v", test.text, got, err, test.want)
		}
	}
	refused := map[string]ErrorKind{
		"": Empty, "0.005": MissingUnit, "0.005 in": MissingUnit, "0.005 in/": UnknownUnit, "0.005 in/0 ft": DivideByZero,
		"0.005 in/ft/ft": UnknownUnit, "0.005 /ft": NotANumber, "0.005 in/s": UnknownUnit, "3.1°": TooLarge,
		"1/3 in/ft": NotExact, "1/0 in/ft": DivideByZero, "about 0.005 in/ft": Vague, "0.1° in/ft": UnknownUnit,
	}
	for text, kind := range refused {
		_, err := ParseSlope(text, UnitNone, UnitNone)
		wantKind(t, text, err, kind)
	}
}

func TestSlopeCmp(t *testing.T) {
	tests := []struct {
		a, b Slope
		want int
	}{
		{Slope{5 * Thou, Foot}, Slope{10 * Thou, 2 * Foot}, 0},
		{Slope{5 * Thou, Foot}, Slope{10*Thou + 1, 2 * Foot}, -1},
		{Slope{5*Thou + 1, Foot}, Slope{10 * Thou, 2 * Foot}, +1},
		{Slope{-1, Meter}, Slope{1, Meter}, -1},
		{Slope{-2, Meter}, Slope{-1, Meter}, -1},
		{Slope{}, Slope{0, Meter}, 0},
		{Slope{}, Slope{1, MaxLength}, -1},
		// One part in 1e15: lost in float64, kept in 128 bits.
		{Slope{MaxLength, MaxLength - 1}, Slope{MaxLength - 1, MaxLength - 2}, -1},
		{Slope{1, 3}, Slope{333_333_333_333_333, MaxLength}, +1},
	}
	for _, test := range tests {
		if got := test.a.Cmp(test.b); got != test.want {
			t.Errorf("%+v against %+v: %d, want %d", test.a, test.b, got, test.want)
		}
		if got := test.b.Cmp(test.a); got != -test.want {
			t.Errorf("%+v against %+v: %d, want %d", test.b, test.a, got, -test.want)
		}
	}
}

func TestSlopeForms(t *testing.T) {
	s, err := NewSlope(-5*Thou, -Foot)
	if err != nil || s != (Slope{5 * Thou, Foot}) {
		t.Errorf("%+v, %v", s, err)
	}
	if got := s.Format(UnitInch, UnitFoot, 3); got != "0.005" {
		t.Error(got)
	}
	if got := s.Format(UnitMillimeter, UnitMeter, 3); got != "0.417" { // 0.41666…
		t.Error(got)
	}
	if _, err := NewSlope(1, 0); err == nil {
		t.Error("slope over no length accepted")
	}
	if got := (Slope{}).Format(UnitInch, UnitNone, 3); got != "" {
		t.Error(got)
	}
}

func FuzzParseSlope(f *testing.F) {
	for _, seed := range []string{"0.005 in/ft", "0.4 mm/m", "0.002 in / 12 in", "0.1°", "0.005"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseSlope(text, UnitInch, UnitFoot)
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Kind == 0 {
				t.Fatalf("%q: odd error %#v", text, err)
			}
			return
		}
		printed := s.Rise.In(UnitMillimeter) + " mm/" + s.Run.In(UnitMillimeter) + " mm"
		if again, err := ParseSlope(printed, UnitNone, UnitNone); len(printed) <= MaxText && (err != nil || again.Cmp(s) != 0) {
			t.Fatalf("%q prints %q, reads %+v, %v", text, printed, again, err)
		}
	})
}
