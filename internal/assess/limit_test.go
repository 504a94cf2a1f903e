package assess_test

import (
	"fmt"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// TestLimitsAtTheEdge: exactly at the limit is within, 1/64 in less is within,
// 1/64 in or a nanometer more is outside. The limits are common practice, no
// source.
func TestLimitsAtTheEdge(t *testing.T) {
	const (
		tenth = measure.Degree / 10
		mil   = measure.Millimeter
	)
	tests := []struct {
		check string
		limit field.Limit
		set   func(c *field.Cell, off int64) // puts the deciding value at the limit plus off
		step  int64
	}{
		{assess.Tilt, field.Limit{Max: typed(inch)}, spreadOf(tiltRound, 10*inch, inch), int64(step)},
		{assess.Tilt, field.Limit{Max: typed(25 * mil)}, spreadOf(tiltRound, 250*mil, 25*mil), int64(mil)},
		{assess.Track, field.Limit{Max: typed(inch / 2)}, spreadOf(trackRound, 12*inch, inch/2), int64(step)},
		{assess.Track, field.Limit{Max: typed(12 * mil)}, spreadOf(trackRound, 300*mil, 12*mil), int64(mil)},
		{assess.TipRadius, field.Limit{Tolerance: typed(inch / 8)}, spreadOf(tipRound, inch/2, inch/4), int64(step)},
		{assess.TipRadius, field.Limit{Tolerance: typed(3 * mil)}, spreadOf(tipRound, 12*mil, 6*mil), int64(mil)},
		{assess.Clearance, field.Limit{Nominal: typed(inch / 2), Tolerance: typed(inch / 8)}, gapAt(5*inch/8, +1), int64(step)},
		{assess.Clearance, field.Limit{Nominal: typed(inch / 2), Tolerance: typed(inch / 8)}, gapAt(3*inch/8, -1), int64(step)},
		{assess.Clearance, field.Limit{Nominal: typed(13 * mil), Tolerance: typed(3 * mil)}, gapAt(16*mil, +1), int64(mil)},
		{assess.Clearance, field.Limit{Min: typed(inch / 4)}, gapAt(inch/4, -1), int64(step)},
		{assess.Clearance, field.Limit{Max: typed(inch)}, gapAt(inch, +1), int64(step)},
		{assess.Clearance, field.Limit{Min: typed(inch / 4), Max: typed(inch)}, gapAt(inch/4, -1), int64(step)},
		{assess.Clearance, field.Limit{Min: typed(inch / 4), Max: typed(inch)}, gapAt(inch, +1), int64(step)},
		// All that are given hold: a maximum may cut the tolerance short.
		{assess.Clearance, field.Limit{Nominal: typed(inch / 2), Tolerance: typed(inch / 8), Max: typed(9 * inch / 16)},
			gapAt(9*inch/16, +1), int64(step)},
		{assess.Clearance, field.Limit{Nominal: typed(inch / 2), Tolerance: typed(inch / 8), Min: typed(7 * inch / 16)},
			gapAt(7*inch/16, -1), int64(step)},
		{assess.Clearance, field.Limit{Nominal: typed(inch / 2), Tolerance: typed(inch / 8), Min: typed(inch / 16), Max: typed(inch)},
			gapAt(3*inch/8, -1), int64(step)},
		{assess.Pitch, field.Limit{AngleNominal: deg(12 * measure.Degree), AngleTol: deg(5 * tenth)}, pitchAt(125*tenth, +1), int64(tenth)},
		{assess.Pitch, field.Limit{AngleNominal: deg(12 * measure.Degree), AngleTol: deg(5 * tenth)}, pitchAt(115*tenth, -1), int64(tenth)},
		{assess.PitchSpread, field.Limit{AngleTol: deg(5 * tenth)}, pitchAt(125*tenth, +1), int64(tenth)},
	}
	for _, test := range tests {
		for _, x := range []struct {
			off  int64
			want assess.Verdict
		}{{-test.step, assess.Within}, {0, assess.Within}, {1, assess.Outside}, {test.step, assess.Outside}} {
			c := cleanCell(1)
			test.set(&c, x.off)
			r := record(c)
			r.Instruments = nil // no near limit
			test.limit.Check = test.check
			for i := range r.Limits {
				if r.Limits[i].Check == test.check {
					r.Limits[i] = contract(test.limit)
				}
			}
			k := verdict(t, r, test.check)
			if k.Verdict != x.want {
				t.Errorf("%s %v, %d beyond the limit: %s, want %s", test.check, test.limit, x.off, k.Verdict, x.want)
			}
			if m := k.StandingRound().Margin; m == nil || m.N != -x.off {
				t.Errorf("%s, %d beyond the limit: margin %v", test.check, x.off, m)
			}
		}
	}
}

func tiltRound(c *field.Cell) []field.Reading[field.Length]  { return c.Tilt.Rounds[0].Readings }
func trackRound(c *field.Cell) []field.Reading[field.Length] { return c.Track.Rounds[0].Readings }
func tipRound(c *field.Cell) []field.Reading[field.Length]   { return c.TipRadius.Rounds[0].Readings }

// spreadOf makes all readings equal but two, spread apart by d and off.
func spreadOf(round func(*field.Cell) []field.Reading[field.Length], base, d measure.Length) func(*field.Cell, int64) {
	return func(c *field.Cell, off int64) {
		readings := round(c)
		for i := range readings {
			readings[i].Value = typed(base + d/2)
		}
		readings[1].Value = typed(base)
		readings[4].Value = typed(base + d + measure.Length(off))
	}
}

// gapAt puts one gap at a limit, off beyond it in the given direction, and all
// others where every limit of the table holds.
func gapAt(limit measure.Length, direction int64) func(*field.Cell, int64) {
	return func(c *field.Cell, off int64) {
		readings := c.Clearance.Rounds[0].Readings
		for i := range readings {
			readings[i].Value = typed(inch / 2)
		}
		readings[3].Value = typed(limit + measure.Length(direction*off))
	}
}

func pitchAt(limit measure.Angle, direction int64) func(*field.Cell, int64) {
	return func(c *field.Cell, off int64) {
		c.Pitch.Rounds[0].Readings[6].Value = deg(limit + measure.Angle(direction*off))
	}
}

// TestClearanceAllEdge: the largest gap of any blade anywhere is the largest
// gap read plus what the shortest blade falls short by.
func TestClearanceAllEdge(t *testing.T) {
	for _, x := range []struct {
		off  measure.Length
		want assess.Verdict
	}{{-step, assess.Within}, {0, assess.Within}, {1, assess.Outside}, {step, assess.Outside}} {
		c := cleanCell(1)
		c.TipRadius.Rounds[0].Readings[5].Value = typed(inch/2 + inch/4) // 4/64 + 16/64 shorter than blade 3
		c.Clearance.Rounds[0].Readings[8].Value = typed(inch - 20*step + x.off)
		r := record(c)
		r.Instruments = nil
		k := verdict(t, r, assess.ClearanceAll)
		if k.Verdict != x.want {
			t.Errorf("%d beyond: %s, want %s", x.off, k.Verdict, x.want)
		}
		if got := value(t, k, "largest"); got.Amount.N != int64(inch+x.off) || got.Index != 9 {
			t.Errorf("largest %+v", got)
		}
		if got := value(t, k, "largestblade"); got.Index != 6 {
			t.Errorf("blade %+v", got)
		}
	}
}

// TestLimitRows: no limit, no verdict; a row that is not complete is said to be
// so; a starting value gives its verdict and a mark.
func TestLimitRows(t *testing.T) {
	start := field.Limit{Max: typed(inch), Authority: text("start")}
	accepted := start
	accepted.AcceptedBy = text("Owner's engineer")
	tests := []struct {
		name     string
		check    string
		limit    field.Limit
		want     assess.Verdict
		reason   string
		starting bool
	}{
		{"blank", assess.Tilt, field.Limit{}, assess.NoLimit, "reason.nolimit", false},
		{"only a tolerance", assess.Tilt, contract(field.Limit{Tolerance: typed(inch)}), assess.NoLimit, "reason.nolimit", false},
		{"nominal without tolerance", assess.Clearance, contract(field.Limit{Nominal: typed(inch)}), assess.NoLimit, "reason.nolimit", false},
		{"tolerance without nominal", assess.Clearance, contract(field.Limit{Tolerance: typed(inch), Min: typed(0)}), assess.NoLimit, "reason.nolimit", false},
		{"least above most", assess.Clearance, contract(field.Limit{Min: typed(inch), Max: typed(inch / 2)}), assess.NoLimit, "reason.nolimit", false},
		{"all blades, not complete", assess.ClearanceAll, contract(field.Limit{Nominal: typed(inch)}), assess.NoLimit, "reason.nolimit", false},
		{"negative tolerance", assess.TipRadius, contract(field.Limit{Tolerance: typed(-1)}), assess.NoLimit, "reason.nolimit", false},
		{"starting value", assess.Tilt, start, assess.Within, "reason.starting", true},
		{"starting value accepted", assess.Tilt, accepted, assess.Within, "", false},
		{"no authority", assess.Tilt, field.Limit{Max: typed(inch)}, assess.Within, "reason.noauthority", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r := record(cleanCell(1))
			test.limit.Check = test.check
			for i := range r.Limits {
				if r.Limits[i].Check == test.check {
					r.Limits[i] = test.limit
				}
			}
			a := assess.Assess(r, ruleSet(t))
			k := a.Cells[0].Check(test.check)
			if k.Verdict != test.want || k.Starting != test.starting || (k.Limit == nil) != (test.want == assess.NoLimit) {
				t.Errorf("%s, starting %v, limit %v", k.Verdict, k.Starting, k.Limit)
			}
			want := []string(nil)
			if test.reason != "" {
				want = append(want, test.check+":"+test.reason)
			}
			if got := reasonKeys(a.Reasons); !slices.Equal(got, want) {
				t.Errorf("reasons %v, want %v", got, want)
			}
		})
	}
}

// TestLimitTwice: two rows with numbers for one check make the limit ambiguous.
func TestLimitTwice(t *testing.T) {
	r := record(cleanCell(1))
	r.Limits = append(r.Limits, field.Limit{Check: assess.Track}, contract(field.Limit{Check: assess.Tilt, Max: typed(2 * inch)}))
	a := assess.Assess(r, ruleSet(t))
	if got, want := reasonKeys(a.Reasons), []string{"tilt:reason.limittwice"}; !slices.Equal(got, want) {
		t.Errorf("reasons %v, want %v", got, want)
	}
}

// TestNotAsked: gaps of all blades and blade to blade are judged only where the
// contract asks, and never keep a package from being ready where it does not.
func TestNotAsked(t *testing.T) {
	drop := func(r *field.Record, check string) {
		for i := range r.Limits {
			if r.Limits[i].Check == check {
				r.Limits[i] = field.Limit{Check: check}
			}
		}
	}
	r := record(cleanCell(1))
	drop(&r, assess.ClearanceAll)
	drop(&r, assess.PitchSpread)
	a := assess.Assess(r, ruleSet(t))
	for _, key := range []string{assess.ClearanceAll, assess.PitchSpread} {
		k := a.Cells[0].Check(key)
		if k.Verdict != assess.NotRequired || !slices.Equal(keys(k.Notes), []string{"note.notasked"}) {
			t.Errorf("%s: %s %v", key, k.Verdict, k.Notes)
		}
	}
	if got := value(t, a.Cells[0].Check(assess.ClearanceAll), "largest").Amount.N; got != int64(inch/2) {
		t.Errorf("largest %d is stated all the same", got)
	}
	if len(a.Reasons) > 0 {
		t.Errorf("reasons %v", reasonKeys(a.Reasons))
	}
	drop(&r, assess.Pitch) // now neither is given
	if k := verdict(t, r, assess.PitchSpread); k.Verdict != assess.NoLimit {
		t.Errorf("pitchspread without any pitch limit: %s", k.Verdict)
	}
}

// TestBounds: what a row allows, for those who draw it or solve for it.
func TestBounds(t *testing.T) {
	for _, test := range []struct {
		check       string
		limit       *field.Limit
		least, most string
	}{
		{assess.Tilt, nil, "open", "open"},
		{assess.Tilt, &field.Limit{Max: typed(3)}, "open", "{0 3}"},
		{assess.TipRadius, &field.Limit{Tolerance: typed(3)}, "open", "{0 6}"},
		{assess.Clearance, &field.Limit{Min: typed(3)}, "{0 3}", "open"},
		{assess.Clearance, &field.Limit{Nominal: typed(5), Tolerance: typed(3)}, "{0 2}", "{0 8}"},
		{assess.Clearance, &field.Limit{Nominal: typed(5)}, "open", "open"},
		{assess.Pitch, &field.Limit{AngleNominal: deg(5), AngleTol: deg(3)}, "{1 2}", "{1 8}"},
		{assess.SoftFootGear, &field.Limit{Max: typed(3)}, "{0 -3}", "{0 3}"},
		{assess.DowelPins, &field.Limit{Tolerance: typed(3)}, "{0 -3}", "{0 3}"},
		{assess.GuardEnd, &field.Limit{Nominal: typed(5)}, "open", "open"},
		{assess.GearLevel, &field.Limit{Slope: slope(t, "0.4 mm/m")}, "{3 -400000}", "{3 400000}"},
		{assess.GearLevel, &field.Limit{Slope: slope(t, "-0.4 mm/m")}, "open", "open"},
		{assess.CouplingGear, &field.Limit{Max: typed(3), Criterion: text("range")}, "open", "{0 3}"},
		{assess.CouplingGear, &field.Limit{Max: typed(3)}, "open", "open"},
		{assess.CouplingGear, &field.Limit{Slope: slope(t, "0.4 mm/m"), Criterion: text("plane")}, "{3 -400000}", "{3 400000}"},
		{assess.RunTime, &field.Limit{Quantities: field.QuantityLimit{Min: quantity(t, "4 h", measure.Time)}}, "{5 4000000}", "open"},
		{assess.SpeedRatio, &field.Limit{Quantities: field.QuantityLimit{Tolerance: quantity(t, "1 %", measure.Percentage)}}, "{5 -1000000}", "{5 1000000}"},
		{assess.RunTime, &field.Limit{Quantities: field.QuantityLimit{Min: quantity(t, "4 V", measure.Voltage)}}, "open", "open"},
	} {
		least, most := assess.Bounds(test.check, test.limit)
		if bound(least) != test.least || bound(most) != test.most {
			t.Errorf("%s %+v: %s to %s", test.check, test.limit, bound(least), bound(most))
		}
	}
}

func bound(a *assess.Amount) string {
	if a == nil {
		return "open"
	}
	return fmt.Sprintf("{%d %d}", a.Kind, a.N)
}
