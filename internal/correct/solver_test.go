package correct_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/measure"
)

func keys(codes []assess.Code) []string {
	var out []string
	for _, c := range codes {
		out = append(out, c.Key)
	}
	return out
}

// TestRangeQuantile against the studentized range with known deviation, upper 5 %:
// Pearson and Hartley, Biometrika Tables for Statisticians, volume 1, table 29,
// values from memory.
func TestRangeQuantile(t *testing.T) {
	for n, want := range map[int]float64{2: 2.77, 3: 3.31, 4: 3.63, 5: 3.86, 6: 4.03, 8: 4.29, 10: 4.47, 20: 5.01} {
		if got := correct.RangeQuantile(n, 0.95); math.Abs(got-want) > 0.005 {
			t.Errorf("n %d: %.4f, want %.2f", n, got, want)
		}
	}
	// Two readings: the √2·u that a spread of two has, twice.
	if got := correct.RangeOf(2, 1_000_000); got != 2_828_427 {
		t.Errorf("range of two: %d", got)
	}
	if got := correct.WorstOf(1, 1_000_000); got != 2_000_000 {
		t.Errorf("worst of one: %d", got)
	}
}

// TestHubOutOfSquare: all track, no tilt. A hub out of square makes one cycle in
// the tip heights; the same blade turned once round shows nothing. The hub is
// named, and no shim.
func TestHubOutOfSquare(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for _, blades := range []int{6, 8, 10, 12} {
		var tips []correct.BladeValue
		for b := range blades {
			v := 0.5*math.Cos(2*math.Pi*float64(b-2)/float64(blades)) + 0.02*r.NormFloat64()
			tips = append(tips, correct.BladeValue{Blade: b + 1, Value: int64(nm(v))})
		}
		got := correct.SolveCycle(tips, blades)
		if !got.Named || got.Blade != 3 || math.Abs(in(measure.Length(got.Amplitude))-0.5) > 0.03 {
			t.Errorf("%d blades: %+v", blades, got)
		}
	}
	level := read(8, func(float64) float64 { return 3 })
	plan, err := correct.SolveShims(correct.ShimProblem{Drops: level, Radius: 84 * inch, Feet: rectangle(12*inch, 12*inch), Step: measure.Thou})
	if err != nil || plan.Changes() {
		t.Errorf("shims for a level fan: %+v, %v", plan.Feet, err)
	}
}

// TestScatterIsNoHub: blades that merely scatter are called a hub at most once in
// a hundred, the stated chance; four blades are never enough.
func TestScatterIsNoHub(t *testing.T) {
	r := rand.New(rand.NewPCG(53, 54))
	for _, blades := range []int{4, 5, 6, 8, 12} {
		named, n := 0, seeds()
		for range n {
			var tips []correct.BladeValue
			for b := range blades {
				tips = append(tips, correct.BladeValue{Blade: b + 1, Value: int64(nm(0.1 * r.NormFloat64()))})
			}
			if correct.SolveCycle(tips, blades).Named {
				named++
			}
		}
		if limit := float64(n)*0.01 + 4*math.Sqrt(float64(n)*0.01); float64(named) > limit || blades == 4 && named > 0 {
			t.Errorf("%d blades: %d of %d", blades, named, n)
		}
	}
}

// TestWrongCrowd: six blades near .20 and two near .50 (and .49, .51). Without
// another condition the crowd stays. With a clearance of 1/2 ± 1/8 in on the
// blade that was carried round, number 6, the crowd would strike: it is the five
// that move. Worked by hand.
func TestWrongCrowd(t *testing.T) {
	var p correct.BladeProblem
	for i, v := range []int64{20, 21, 22, 21, 20, 50, 51, 49} {
		p.Blades = append(p.Blades, correct.BladeValue{Blade: i + 1, Value: v * int64(inch) / 100})
	}
	p.Width, p.Step = int64(inch/4), int64(measure.SixtyFourth)
	if got := correct.SolveBlades(p); !slices.Equal(got.Keep, []int{1, 2, 3, 4, 5}) || len(got.Touch) != 3 || got.Conditioned {
		t.Errorf("bare: %+v", got)
	}
	least, most := int64(nm(0.375)), int64(nm(0.625))
	p.Least, p.LongestMost = &least, &most
	got := correct.SolveBlades(p)
	if !slices.Equal(got.Keep, []int{6, 7, 8}) || len(got.Touch) != 5 || !got.Conditioned {
		t.Errorf("with clearance: %+v", got)
	}
	for _, b := range got.Touch {
		if b.Change%p.Step != 0 || math.Abs(in(measure.Length(b.New))-0.5) > 1.0/64 {
			t.Errorf("%+v", b)
		}
	}
}

// TestAliases: n positions cannot tell k = jn ± 1 lobes from an off-center fan. A
// wall of eleven lobes read at twelve positions looks exactly like one; the
// caution is there. Sixteen positions tell them apart, and there is no caution.
func TestAliases(t *testing.T) {
	for k, want := range map[int]bool{0: false, 6: false, 10: false, 11: true, 12: true, 13: true, 14: false, 23: true, 24: true, 25: true} {
		if correct.Aliases(k, 12) != want {
			t.Errorf("%d lobes at 12 positions: %v", k, !want)
		}
	}
	least, most := nm(0.375), nm(0.625)
	p := correct.CenterProblem{Gaps: read(12, func(t float64) float64 { return 0.5 + 0.15*math.Cos(11*t) }), Least: &least, Most: &most,
		Step: measure.SixtyFourth, Segments: 11}
	got, err := correct.SolveCenter(p)
	if err != nil || !slices.Contains(keys(got.Notes), "correct.alias") || math.Abs(in(got.Ideal.Along)-0.15) > 1e-6 {
		t.Errorf("%+v, %v", got, err)
	}
	p.Gaps, p.Segments = read(16, func(t float64) float64 { return 0.5 + 0.15*math.Cos(11*t) }), 11
	got, err = correct.SolveCenter(p)
	if err != nil || len(got.Notes) != 0 || got.Ideal.Along.Abs() > nm(0.04) {
		t.Errorf("16 positions: ideal %v, notes %v, %v", got.Ideal, got.Notes, err)
	}
	p.Gaps = p.Gaps[:7]
	if got, err := correct.SolveCenter(p); err == nil && got.Enough {
		t.Error("seven positions are enough")
	}
}

// TestWall: what is left to the wall sums to nothing, for a wall keeps its length,
// and brings every gap to one mean; the mean is the blades' or the joints'.
func TestWall(t *testing.T) {
	least, most := nm(0.375), nm(0.625)
	got, err := correct.SolveCenter(correct.CenterProblem{TipRadius: 120 * inch, Least: &least, Most: &most, Step: 1,
		Gaps: read(16, func(t float64) float64 { return 0.6 + 0.1*math.Cos(t) + 0.2*math.Cos(2*t) })})
	if err != nil {
		t.Fatal(err)
	}
	sum := measure.Length(0)
	for i, w := range got.Wall {
		sum += w.In
		if left := (got.After[i].Value - w.In - nm(0.5) - got.MeanOver).Abs(); left > 2 {
			t.Errorf("position %d: %d nm off the mean", w.Position, left)
		}
		if w.Needed != (got.After[i].Value < least || got.After[i].Value > most) {
			t.Errorf("position %d: needed %v", w.Position, w.Needed)
		}
	}
	if sum.Abs() > 20 || math.Abs(in(got.MeanOver)-0.1) > 1e-4 {
		t.Errorf("sum %d nm, mean over by %s", sum, got.MeanOver)
	}
	if math.Abs(in(*got.Floor)-0.2) > 1e-3 { // two lobes of 0.2 in: no move cures them
		t.Errorf("floor %s", *got.Floor)
	}
}

// TestFeetElsewhere: three feet always lie in a plane; five feet are set by a plane, and the worst
// of them is named.
func TestFeetElsewhere(t *testing.T) {
	drops := read(8, func(t float64) float64 { return 3 + 0.25*math.Cos(t) + 0.1*math.Sin(t) })
	p := correct.ShimProblem{Drops: drops, Radius: 84 * inch, Step: measure.Thou,
		Feet: []correct.Foot{{Number: 1, Along: 14 * inch}, {Number: 2, Along: -8 * inch, Across: 9 * inch}, {Number: 3, Along: -8 * inch, Across: -9 * inch}}}
	plan, err := correct.SolveShims(p)
	if err != nil || plan.OutOfPlane != 0 || in(plan.After) > 0.006 {
		t.Errorf("three feet: %+v, %v", plan, err)
	}
	p.Feet = append(rectangle(15*inch, 11*inch), correct.Foot{Number: 5, Along: 7 * inch, Across: -13 * inch})
	plan, err = correct.SolveShims(p)
	if err != nil || in(plan.After) > 0.015 || plan.OutOfPlane.Abs() > measure.Thou {
		t.Errorf("five feet: after %s, out of plane %s at %d, %v", plan.After, plan.OutOfPlane, plan.OutOfFoot, err)
	}
	least := plan.Feet[0].Change
	for _, f := range plan.Feet {
		least = min(least, f.Change)
	}
	if least != 0 {
		t.Errorf("the highest corner gets %s", least)
	}
	// Limits bind here, too: at most two pieces, and a level that allows half.
	p.MaxPieces = 2
	plan, err = correct.SolveShims(p)
	for _, f := range plan.Feet {
		if err != nil || f.Change != 0 && f.Pieces > 2 {
			t.Errorf("%+v, %v", f, err)
		}
	}
	p.MaxPieces, p.Level = 0, &correct.OwnLevel{Limit: measure.Slope{Rise: 1, Run: 1000}}
	plan, err = correct.SolveShims(p)
	if err != nil || plan.Taken.Along.Float() > 0.001 || !slices.Contains(keys(plan.Binding), "correct.bind.level") {
		t.Errorf("level: %+v, %v", plan, err)
	}
	p.Level = nil
	for _, feet := range [][]correct.Foot{nil, p.Feet[:2], {{Number: 1, Along: 1}, {Number: 2, Along: 2}, {Number: 3, Along: 3}}} {
		p.Feet = feet
		if _, err := correct.SolveShims(p); !errors.Is(err, correct.ErrFeet) {
			t.Errorf("%v: %v", feet, err)
		}
	}
}

// TestLevelBinds: the fan asks for a slope that would take the gear reducer's own
// level outside its limit. The plan stops at the limit, which is named; exactly at
// the limit is allowed.
func TestLevelBinds(t *testing.T) {
	p := correct.ShimProblem{Radius: 84 * inch, Feet: rectangle(12*inch, 10*inch), Step: 12 * measure.Thou,
		Drops: read(8, func(t float64) float64 { return 3 + 0.5*math.Cos(t) })}
	// Twelve thousandths over 24 in is 0.0005: 4 steps make exactly 0.002.
	p.Level = &correct.OwnLevel{Limit: measure.Slope{Rise: 2, Run: 1000}}
	plan, err := correct.SolveShims(p)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Feet[0].Change != 48*measure.Thou || plan.Feet[1].Change != 0 {
		t.Errorf("feet %+v", plan.Feet)
	}
	if !slices.Equal(keys(plan.Binding), []string{"correct.bind.level"}) || plan.Binding[0].Args[0].Text != "along" {
		t.Errorf("binding %v", plan.Binding)
	}
	p.Level.Limit.Rise, p.Level.Limit.Run = 1_999_999_999, 1_000_000_000_000
	if plan, _ := correct.SolveShims(p); plan.Feet[0].Change != 36*measure.Thou {
		t.Errorf("just under the limit: %+v", plan.Feet)
	}
}

// TestStacks: shims come out where that disturbs less, and no stack gets more than
// its pieces.
func TestStacks(t *testing.T) {
	p := correct.ShimProblem{Radius: 84 * inch, Feet: rectangle(12*inch, 12*inch), Step: measure.Thou, MaxPieces: 4,
		Drops: read(8, func(t float64) float64 { return 3 + 0.25*math.Cos(t) })}
	for k := range p.Feet {
		p.Feet[k].Now = 100 * measure.Thou
	}
	plan, err := correct.SolveShims(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range plan.Feet {
		if f.New < 0 || f.Pieces > 4 {
			t.Errorf("%+v", f)
		}
	}
	if d := plan.Feet[0].Change - plan.Feet[1].Change; (d - 71*measure.Thou).Abs() > measure.Thou {
		t.Errorf("slope of %s", d)
	}
	if plan.Feet[1].Change >= 0 {
		t.Errorf("nothing comes out: %+v", plan.Feet)
	}
}

// TestNoPanic throws extremes at every solver.
func TestNoPanic(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	wild := func() measure.Length {
		return []measure.Length{0, 1, -1, inch, -inch, measure.MaxLength, -measure.MaxLength, math.MaxInt64, math.MinInt64, measure.Length(r.Int64())}[r.IntN(10)]
	}
	for range 3000 {
		n := r.IntN(10)
		ring := make([]correct.Reading, n)
		blades := make([]correct.BladeValue, n)
		feet := make([]correct.Foot, r.IntN(6))
		for i := range ring {
			ring[i] = correct.Reading{Position: i, Degrees: measure.Angle(r.Int64()), Value: wild()}
			blades[i] = correct.BladeValue{Blade: r.IntN(12) - 2, Value: int64(wild() / 4)}
		}
		for i := range feet {
			feet[i] = correct.Foot{Number: i, Along: wild() / 4, Across: wild() / 4, Now: wild()}
		}
		a, b := wild(), wild()
		_, _ = correct.SolveShims(correct.ShimProblem{Drops: ring, Radius: wild(), Feet: feet, Step: wild(), MaxPieces: r.IntN(3)})
		_, _ = correct.SolveCenter(correct.CenterProblem{Gaps: ring, TipRadius: wild(), Least: &a, Most: &b, Step: wild(), U: wild(),
			Slots: correct.Slots{Toward: &a, Ninety: &b}})
		correct.SolveCycle(blades, r.IntN(14))
		correct.SolveBlades(correct.BladeProblem{Blades: blades, Width: int64(wild() / 4), Step: int64(wild())})
		f := correct.Faces{Top: wild() / 4, Ninety: wild() / 4, Bottom: wild() / 4, Other: wild() / 4, Diameter: wild()}
		_, _ = correct.SolveDrive(correct.DriveProblem{Gear: f, Motor: f, Span: wild(), FrontFeet: wild() / 4, RearFeet: wild() / 4, MotorStep: wild(), PushStep: wild(), U: wild()})
		_, _ = correct.CloseLoop(correct.LoopProblem{Found: ring, Left: ring, Radius: wild(), Feet: feet, U: wild(), Pairs: r.IntN(3),
			Done: correct.Logged{Along: wild(), Feet: []correct.FootMoved{{Foot: 1, Change: wild()}}}})
	}
}
