package measure

import (
	"errors"
	"testing"
)

// mustQuantity reads a quantity that the test needs.
func mustQuantity(t *testing.T, text string, kind QuantityKind) Quantity {
	t.Helper()
	q, err := ParseQuantity(text, kind, NoUnit)
	if err != nil {
		t.Fatalf("%q as %s: %v", text, kind, err)
	}
	return q
}

// Conversion factors: NIST SP 811 (2008), appendix B.8, to the digits printed
// there (values from memory, recomputed from the exact definitions).
func TestQuantityConversions(t *testing.T) {
	tests := []struct {
		text     string
		unit     QuantityUnit
		decimals int
		want     string
	}{
		{"1 lbf·ft", NewtonMeter, 6, "1.355818"}, {"1 in-lb", NewtonMeter, 7, "0.1129848"}, {"12 in-lb", PoundFoot, 3, "1.000"},
		{"60 ft·lbs", NewtonMeter, 2, "81.35"}, {"1 lbf", Newton, 6, "4.448222"}, {"1 kip", Kilonewton, 6, "4.448222"},
		{"1 psi", Pascal, 3, "6894.757"}, {"1 ksi", Megapascal, 6, "6.894757"}, {"1 bar", PSI, 4, "14.5038"},
		{"32 °F", Celsius, 3, "0.000"}, {"212 F", Celsius, 1, "100.0"}, {"-40 C", Fahrenheit, 1, "−40.0"}, {"40 °C", Fahrenheit, 1, "104.0"},
		{"1 hp", Watt, 4, "745.6999"}, {"7,5 kW", Horsepower, 3, "10.058"},
		{"11000 ft/min", MeterPerSecond, 2, "55.88"}, {"53.34 m/s", FootPerMinute, 0, "10500"},
		{"1 lb", Gram, 5, "453.59237"}, {"1 oz", Gram, 5, "28.34952"}, {"16 oz", Pound, 2, "1.00"},
		{"0.25 in/s peak", MillimeterPerSecondPeak, 2, "6.35"}, {"4.5 mm/s", InchPerSecondRMS, 4, "0.1772"},
		{"2 mils p-p", MicrometerPeakToPeak, 1, "50.8"}, {"29 µm", MilRMS, 3, "1.142"},
		{"2 Mohm", Ohm, 0, "2000000"}, {"0.5 GΩ", Megohm, 0, "500"}, {"4.16 kV", Volt, 0, "4160"},
		{"1750 rpm", RPM, 0, "1750"}, {"60 Hz", CyclesPerMinute, 0, "3600"}, {"1 h 30 min", Hour, 1, "1.5"}, {"90 min", Hour, 1, "1.5"},
		{"1/2 h", Minute, 0, "30"}, {"95 %", Percent, 0, "95"}, {"12.5 A", Ampere, 1, "12.5"},
	}
	for _, test := range tests {
		q := mustQuantity(t, test.text, test.unit.Kind())
		if got, err := q.Format(test.unit, test.decimals); err != nil || got != test.want {
			t.Errorf("%s in %s: %q, %v, want %q", test.text, test.unit, got, err, test.want)
		}
	}
	// 18 °F of difference are 10 °C, and 18 °F on the scale are not.
	rise := mustQuantity(t, "18 °F", TemperatureDifference)
	if got, err := rise.Format(CelsiusDegrees, 1); err != nil || got != "10.0" {
		t.Errorf("18 °F of difference: %s, %v", got, err)
	}
}

// Comparisons are exact: 10 lbf·ft is 13.558179483314004 N·m, no digit more.
func TestQuantityCmp(t *testing.T) {
	tests := []struct {
		a, b string
		kind QuantityKind
		want int
	}{
		{"10 ft-lb", "13.558179483314004 N·m", Torque, 0},
		{"10 ft-lb", "13.558179483314003 N·m", Torque, +1},
		{"10 ft-lb", "13.558179483314005 Nm", Torque, -1},
		{"10 ft-lb", "120 in-lb", Torque, 0},
		{"100 °C", "212 °F", Temperature, 0},
		{"-17 7/9 C", "0 F", Temperature, 0},
		{"1/3 h", "20 min", Time, 0},
		{"0.5 in/s", "12,7 mm/s", VibrationVelocityRMS, 0},
	}
	for _, test := range tests {
		a, b := mustQuantity(t, test.a, test.kind), mustQuantity(t, test.b, test.kind)
		if got, err := a.Cmp(b); err != nil || got != test.want {
			t.Errorf("%s against %s: %d, %v, want %d", test.a, test.b, got, err, test.want)
		}
		if a.Equal(b) != (test.want == 0) {
			t.Errorf("%s equal to %s: %v", test.a, test.b, a.Equal(b))
		}
	}
	rms, peak := mustQuantity(t, "5 mm/s", VibrationVelocityRMS), mustQuantity(t, "5 mm/s", VibrationVelocityPeak)
	_, err := rms.Cmp(peak)
	wantKind(t, "rms against peak", err, DifferentKinds)
	_, err = rms.In(Kilogram)
	wantKind(t, "velocity in kg", err, DifferentKinds)
	_, err = Quantity{}.Cmp(Quantity{})
	wantKind(t, "nothing against nothing", err, DifferentKinds)
}

func TestQuantitySub(t *testing.T) {
	hot, cold := mustQuantity(t, "180 °F", Temperature), mustQuantity(t, "35 °C", Temperature)
	rise, err := hot.Sub(cold)
	if err != nil || rise.String() != "85 °F" || rise.Kind() != TemperatureDifference {
		t.Errorf("%v, %v", rise, err)
	}
}

func TestParseQuantityUnits(t *testing.T) {
	if q, err := ParseQuantity("60", Torque, PoundFoot); err != nil || q.Unit != PoundFoot || q.Text != "60" {
		t.Errorf("%+v, %v", q, err)
	}
	if q, err := ParseQuantity("−5", Temperature, Celsius); err != nil || q.Value.String() != "−5" {
		t.Errorf("%+v, %v", q, err)
	}
	tests := []struct {
		text string
		kind QuantityKind
		def  QuantityUnit
		want ErrorKind
	}{
		{"60", Torque, NoUnit, MissingUnit}, {"60 psi", Torque, PoundFoot, UnknownUnit}, {"60 ft-lb in", Torque, NoUnit, UnknownUnit},
		{"60 -ft lb", Torque, NoUnit, NotANumber}, {"60 70 ft-lb", Torque, NoUnit, NotANumber}, {"60", Torque, PSI, DifferentKinds},
		{"5 mohm", Resistance, NoUnit, UnknownUnit}, // milli or mega?
		{"5 MOhm x", Resistance, NoUnit, UnknownUnit}, {"5 mm/s rms", VibrationVelocityPeak, NoUnit, UnknownUnit},
		{"1,250 rpm", RotationalSpeed, RPM, AmbiguousComma}, {"1e3", RotationalSpeed, RPM, UnknownUnit},
		{"1 h 60 min", Time, NoUnit, Improper}, {"1 h 5", Time, NoUnit, UnknownUnit}, {"1:30", Time, Hour, NotANumber},
		{"1.5 h 30 min", Time, NoUnit, UnknownUnit}, {"", Mass, Kilogram, Empty}, {"> 500 Mohm", Resistance, Megohm, Vague},
		{"1000000000001 V", Voltage, NoUnit, TooLarge}, {"5 V", KindNone, NoUnit, UnknownUnit}, {"5", 200, NoUnit, MissingUnit}, {"5", KindNone, 200, DifferentKinds},
	}
	for _, test := range tests {
		_, err := ParseQuantity(test.text, test.kind, test.def)
		wantKind(t, test.text, err, test.want)
	}
}

// Within a kind no spelling belongs to two units, every symbol reads back, and
// the table is complete.
func TestQuantityUnitTable(t *testing.T) {
	for kind := Torque; int(kind) < len(kindWords); kind++ {
		if kind.String() == "" || len(kind.Units()) == 0 {
			t.Errorf("kind %d has no name or no unit", kind)
		}
		for _, u := range kind.Units() {
			got, err := ParseQuantityUnit(u.String(), kind)
			if err != nil || got != u {
				t.Errorf("%s %q reads as %q, %v", kind, u, got, err)
			}
			for _, other := range kind.Units() {
				for _, word := range words(u) {
					if other != u && (listed(unitRows[other].spellings, word) || listed(unitRows[other].exact, word)) {
						t.Errorf("%s: %q is both %s and %s", kind, word, u, other)
					}
				}
			}
		}
	}
	for u := range unitRows {
		if u != 0 && (unitRows[u].kind == KindNone || unitRows[u].num <= 0 || unitRows[u].den <= 0) {
			t.Errorf("unit %d is not described", u)
		}
	}
	if QuantityUnit(250).String() != "" || QuantityUnit(250).Kind() != KindNone || KindNone.Units() != nil {
		t.Error("unknown units are described")
	}
}

// words are the spellings of a unit.
func words(u QuantityUnit) []string {
	var list []string
	word := ""
	for _, r := range unitRows[u].spellings + " " {
		if r != ' ' {
			word += string(r)
			continue
		}
		list, word = append(list, word), ""
	}
	return list
}

func TestNumber(t *testing.T) {
	third, _ := NewNumber(1, 3)
	half, _ := NewNumber(-1, 2)
	if _, ok := NewNumber(1, 0); ok {
		t.Error("1/0 is a number")
	}
	if _, ok := third.Quo(Number{}); ok {
		t.Error("1/3 over 0 is a number")
	}
	quotient, _ := half.Quo(third)
	for want, got := range map[string]string{
		"1/3": third.String(), "−0.5": half.String(), "−1/6": third.Add(half).String(), "5/6": third.Sub(half).String(),
		"−1.5": quotient.String(), "0": Number{}.String(), "0.33": third.Format(2), "0.5": half.Abs().String(), "7": Whole(7).String(),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if third.Rat().Sign() != 1 || !third.Equal(third.Mul(Whole(1))) || third.Float() != 1.0/3 {
		t.Error("thirds differ")
	}
	if n, ok := Whole(-7).Int64(); !ok || n != -7 {
		t.Error(n, ok)
	}
	if _, ok := third.Int64(); ok {
		t.Error("1/3 is whole")
	}
	// Voltage unbalance, NEMA MG 1 example (value from memory): 460, 467, 450 V
	// are 9 V from their mean of 459, 1.96 %.
	mean, _ := Whole(460 + 467 + 450).Quo(Whole(3))
	percent, _ := mean.Sub(Whole(450)).Mul(Whole(100)).Quo(mean)
	if percent.Format(2) != "1.96" || !mean.Equal(Whole(459)) {
		t.Errorf("unbalance %s of %s", percent.Format(2), mean)
	}
	for text, want := range map[string]string{"12": "12", "12,7": "12.7", "1-1/4": "1.25", "−3": "−3", "1/3": "1/3"} {
		if n, err := ParseNumber(text); err != nil || n.String() != want {
			t.Errorf("%q: %s, %v", text, n, err)
		}
	}
	for text, kind := range map[string]ErrorKind{"12 mm": UnknownUnit, "1 2": NotANumber, "": Empty, "1,250": AmbiguousComma} {
		_, err := ParseNumber(text)
		wantKind(t, text, err, kind)
	}
}

func FuzzParseQuantity(f *testing.F) {
	for _, seed := range []string{"60 ft-lb", "12,7 N·m", "-40 °F", "2 Mohm", "1 h 30 min", "5 mm/s rms", "95%", "1750 rpm"} {
		for _, kind := range []QuantityKind{Torque, Temperature, Resistance, Time} {
			f.Add(seed, uint8(kind), uint8(NoUnit))
		}
	}
	f.Fuzz(func(t *testing.T, text string, kind, def uint8) {
		q, err := ParseQuantity(text, QuantityKind(kind), QuantityUnit(def))
		if err != nil {
			var parse *ParseError
			if !errors.As(err, &parse) || parse.Kind == 0 {
				t.Fatalf("%q: odd error %#v", text, err)
			}
			return
		}
		if q.Kind() != QuantityKind(kind) {
			t.Fatalf("%q: %s, not %s", text, q.Kind(), QuantityKind(kind))
		}
		// The number before the unit is the one that ParseNumber reads, but for
		// times in parts.
		for _, u := range q.Kind().Units() {
			n, err := q.In(u)
			if err != nil {
				t.Fatal(err)
			}
			back, err := NewQuantity(n, u).In(q.Unit)
			if err != nil || !back.Equal(q.Value) {
				t.Fatalf("%q in %s comes back as %s, %v", text, u, back, err)
			}
		}
		printed := q.String()
		if again, err := ParseQuantity(printed, q.Kind(), NoUnit); len(printed) <= MaxText && (err != nil || !again.Equal(q)) {
			t.Fatalf("%q prints %q, reads %v, %v", text, printed, again, err)
		}
	})
}
