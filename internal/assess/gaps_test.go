package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// hundredths of an inch
const hundredth = inch / 100

// TestTipRadiusMiddle: six blades near .20 and two near .50. All within ±t of
// one same distance is a matter of the middle of the extremes; the mean, .276,
// would side with the crowd and leave the two out. Worked by hand.
func TestTipRadiusMiddle(t *testing.T) {
	for _, x := range []struct {
		tolerance measure.Length
		want      assess.Verdict
	}{{155 * inch / 1000, assess.Within}, {155*inch/1000 - 1, assess.Outside}} {
		c := cleanCell(1)
		for i, h := range []measure.Length{20, 21, 22, 21, 20, 50, 51, 49} {
			c.TipRadius.Rounds[0].Readings[i].Value = typed(h * hundredth)
		}
		r := record(c)
		r.Instruments = nil
		r.Limits[2].Tolerance = typed(x.tolerance)
		k := verdict(t, r, assess.TipRadius)
		if k.Verdict != x.want {
			t.Errorf("±%s: %s, want %s", x.tolerance, k.Verdict, x.want)
		}
		if got := value(t, k, "middle").Amount.N; got != int64(355*inch/1000) {
			t.Errorf("middle %d, want .355 in", got)
		}
		// Largest deviation .155 at blades 1, 5 and 7.
		for _, p := range k.StandingRound().Points {
			far := p.Index == 1 || p.Index == 5 || p.Index == 7
			if (p.Verdict == assess.Outside) != (far && x.want == assess.Outside) {
				t.Errorf("±%s, blade %d: %s", x.tolerance, p.Index, p.Verdict)
			}
			if p.Deviation.N != p.Value.N-int64(355*inch/1000) {
				t.Errorf("blade %d: deviation %d", p.Index, p.Deviation.N)
			}
		}
	}
}

// TestTipRadiusHalf: the middle may fall on half a nanometer; the verdict does
// not depend on how it is rounded for print.
func TestTipRadiusHalf(t *testing.T) {
	c := cleanCell(1)
	for i := range c.TipRadius.Rounds[0].Readings {
		c.TipRadius.Rounds[0].Readings[i].Value = typed(measure.Length(100 + 3*(i%2)))
	}
	r := record(c)
	r.Instruments = nil
	for _, x := range []struct {
		tolerance measure.Length
		want      assess.Verdict
	}{{1, assess.Outside}, {2, assess.Within}} {
		r.Limits[2].Tolerance = typed(x.tolerance)
		k := verdict(t, r, assess.TipRadius)
		if k.Verdict != x.want {
			t.Errorf("spread 3 nm, ±%d nm: %s", x.tolerance, k.Verdict)
		}
		for _, p := range k.StandingRound().Points {
			if p.Verdict != x.want {
				t.Errorf("±%d nm, blade %d: %s", x.tolerance, p.Index, p.Verdict)
			}
		}
	}
}

// TestLongestBlade: the smallest gap; equal within one step of the instrument
// is a tie.
func TestLongestBlade(t *testing.T) {
	for _, x := range []struct {
		resolution measure.Length
		want       []int
	}{{step, []int{3, 5}}, {step - 1, []int{3}}, {0, []int{3}}} {
		c := cleanCell(1)
		c.TipRadius.Rounds[0].Readings[4].Value = typed(inch/2 - 3*step) // one step more than blade 3
		r := record(c)
		r.Instruments[0].Resolution = typed(x.resolution)
		var got []int
		for _, y := range verdict(t, r, assess.TipRadius).StandingRound().Results {
			if y.Key == "longest" {
				got = append(got, y.Index)
			}
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("resolution %d: longest %v, want %v", x.resolution, got, x.want)
		}
	}
}

// TestOffCenter: the fan stands an eighth toward 90°: the gap is an eighth less
// there and an eighth more at 270°. Worked by hand.
func TestOffCenter(t *testing.T) {
	c := cleanCell(1)
	eighth := inch / 8
	gaps := []measure.Length{inch / 2, inch/2 - eighth, inch / 2, inch/2 + eighth}
	c.Clearance.Rounds[0].Readings = read(gaps...)
	_, place := tiltCell("down", gaps...)
	r := record(c)
	r.Tower.Positions = place
	k := verdict(t, r, assess.Clearance)
	for key, want := range map[string]int64{
		"least": int64(inch/2 - eighth), "greatest": int64(inch/2 + eighth), "mean": int64(inch / 2),
		"sin": -int64(eighth), "cos": 0, "offcenter": int64(eighth),
		"closeside": 90 * int64(measure.Degree), "roundness": 0, "floor": 0,
	} {
		if got := value(t, k, key).Amount.N; got != want {
			t.Errorf("%s %d, want %d", key, got, want)
		}
	}
	if k.StandingRound().Blade != 3 {
		t.Errorf("blade %d", k.StandingRound().Blade)
	}
	if !slices.Contains(keys(k.StandingRound().Notes), "note.fewpositions") {
		t.Errorf("notes %v", k.StandingRound().Notes)
	}
}

// TestOutOfRound: two lobes of an eighth are no off center, and no move brings
// any gap nearer than an eighth. Worked by hand: at 8 positions the readings
// alternate + 0 − 0, extremes on all sides.
func TestOutOfRound(t *testing.T) {
	c := cleanCell(1)
	eighth := inch / 8
	var gaps []measure.Length
	for i := range 8 {
		gaps = append(gaps, inch/2+eighth*[]measure.Length{1, 0, -1, 0}[i%4])
	}
	c.Clearance.Rounds[0].Readings = read(gaps...)
	_, place := tiltCell("down", gaps...)
	r := record(c)
	r.Tower.Positions = place
	k := verdict(t, r, assess.Clearance)
	for key, want := range map[string]int64{
		"offcenter": 0, "roundness": 2 * int64(eighth), "floor": int64(eighth), "residualmax": int64(eighth),
		"residualrms": 2_245_064, // 1/8 in at every other position: (1/8)/√2 in
	} {
		if got := value(t, k, key).Amount.N; got != want {
			t.Errorf("%s %d, want %d", key, got, want)
		}
	}
	if _, ok := k.StandingRound().Result("closeside"); ok {
		t.Error("a close side without off center")
	}
	if slices.Contains(keys(k.StandingRound().Notes), "note.fewpositions") {
		t.Error("8 positions are enough")
	}
}

// TestLobes: n positions cannot tell k = jn ± 1 lobes from an off-center fan,
// nor k = jn from a larger gap.
func TestLobes(t *testing.T) {
	for segments, want := range map[int]bool{
		0: false, 1: false, 6: false, 10: false, 11: true, 12: true, 13: true, 14: false, 22: false, 23: true, 24: true, 25: true,
	} {
		r := record(cleanCell(1))
		r.Tower.Segments = count(segments)
		got := slices.Contains(keys(verdict(t, r, assess.Clearance).StandingRound().Notes), "note.lobes")
		if got != want {
			t.Errorf("%d segments, %d positions: %v", segments, positions, got)
		}
	}
}
