package correct_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

// seeds is how many noisy jobs a test of coverage makes.
func seeds() int {
	if testing.Short() {
		return 1000
	}
	return 10_000
}

// covered checks the share of cases in which the truth lay within the stated
// uncertainty. Under -short the bounds are wider by what fewer cases scatter.
func covered(t *testing.T, what string, hits, of int, least, most float64) {
	t.Helper()
	share := float64(hits) / float64(of)
	slack := 3 * math.Sqrt(0.05*0.95) * (1/math.Sqrt(float64(of)) - 1/math.Sqrt(10_000))
	t.Logf("%s: %.2f %%", what, 100*share)
	if share < least-slack || share > most+slack {
		t.Errorf("%s: %.2f %% of %d, want %.0f to %.0f", what, 100*share, of, 100*least, 100*most)
	}
}

// TestCoverageCenter: readings of a fan off center in a lobed wall, with noise.
// A new reading lies within the stated uncertainty of its prediction in 95 ± 1 %
// of cases; the best move, within its uncertainty or its room, whichever is
// more, and the worst gap in at least 90 %.
func TestCoverageCenter(t *testing.T) {
	const sd = 0.01
	r := rand.New(rand.NewPCG(11, 12))
	least, most := nm(0.375), nm(0.625)
	n, confirmed, readings, moveHits, worstHits := seeds(), 0, 0, 0, 0
	for k := range n {
		lobes := []float64{0, 0.02, 0.06}[k%3]
		x, y, phase := 0.2*r.NormFloat64(), 0.2*r.NormFloat64(), 6*r.Float64()
		true_ := func(t float64) float64 { return 0.5 - x*math.Cos(t) - y*math.Sin(t) + lobes*math.Cos(2*t+phase) }
		noisy := func(t float64) float64 { return true_(t) + sd*r.NormFloat64() }
		size := []int{8, 12, 16}[k/3%3]
		p := correct.CenterProblem{Gaps: read(size, noisy), Least: &least, Most: &most, Step: measure.SixtyFourth, U: nm(sd)}
		got, err := correct.SolveCenter(p)
		if err != nil {
			t.Fatal(err)
		}
		p.Gaps = read(size, true_)
		ideal, err := correct.SolveCenter(p)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(in(got.Ideal.Along-ideal.Ideal.Along)) <= in(max(2*got.Uncertainty, got.Room)) {
			moveHits++
		}
		mx, my := in(got.Slide.Along), in(got.Slide.Across)
		margin := math.Inf(1)
		for i, g := range got.After {
			th := g.Degrees.Radians()
			after := true_(th) - mx*math.Cos(th) - my*math.Sin(th)
			margin = min(margin, after-0.375, 0.625-after)
			readings++
			if i == k%size && math.Abs(after+sd*r.NormFloat64()-in(g.Value)) <= in(correct.Confirmed(p.U)) {
				confirmed++
			}
		}
		if math.Abs(margin-in(got.Margin)) <= in(correct.WorstOf(size, p.U)) {
			worstHits++
		}
	}
	covered(t, "new reading", confirmed, n, 0.94, 0.96)
	covered(t, "best move", moveHits, n, 0.90, 1)
	covered(t, "worst gap", worstHits, n, 0.90, 1)
}

// TestCoverageShims: the predicted range of the drops, and single new readings.
func TestCoverageShims(t *testing.T) {
	const sd = 0.02
	r := rand.New(rand.NewPCG(13, 14))
	feet := rectangle(12*inch, 10*inch)
	n, rangeHits, confirmed := seeds(), 0, 0
	stated := map[int]float64{8: in(correct.RangeOf(8, nm(sd))), 12: in(correct.RangeOf(12, nm(sd)))}
	for k := range n {
		a, b, wave := 0.4*r.NormFloat64(), 0.4*r.NormFloat64(), []float64{0, 0.05}[k%2]
		true_ := func(t float64) float64 { return 3 + a*math.Cos(t) + b*math.Sin(t) + wave*math.Cos(3*t) }
		size := []int{8, 12}[k/2%2]
		plan, err := correct.SolveShims(correct.ShimProblem{Radius: 84 * inch, Feet: feet, Step: 5 * measure.Thou,
			Drops: read(size, func(t float64) float64 { return true_(t) + sd*r.NormFloat64() })})
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for i, d := range plan.Drops {
			th := d.Degrees.Radians()
			after := true_(th) - in(plan.Raised) - 84*(plan.Taken.Along.Float()*math.Cos(th)+plan.Taken.Across.Float()*math.Sin(th))
			lo, hi = min(lo, after), max(hi, after)
			if i == k%size && math.Abs(after+sd*r.NormFloat64()-in(d.Value)) <= in(correct.Confirmed(nm(sd))) {
				confirmed++
			}
		}
		if math.Abs(hi-lo-in(plan.After)) <= stated[size] {
			rangeHits++
		}
	}
	covered(t, "new reading", confirmed, n, 0.94, 0.96)
	covered(t, "range", rangeHits, n, 0.90, 1)
}

// TestCoverageDrive: the amounts at the motor's feet.
func TestCoverageDrive(t *testing.T) {
	const sd = 0.002
	r := rand.New(rand.NewPCG(15, 16))
	n, front, rear := seeds(), 0, 0
	p := correct.DriveProblem{Span: 120 * inch, FrontFeet: 6 * inch, RearFeet: 22 * inch, MotorStep: 1, PushStep: 1, U: nm(sd)}
	true_ := [8]float64{1.01, 1, 0.99, 1.003, 0.995, 1.002, 1.005, 1}
	for range n {
		var exact, noisy [2][4]float64
		for i, v := range true_ {
			exact[i/4][i%4], noisy[i/4][i%4] = v, v+sd*r.NormFloat64()
		}
		solve := func(f [2][4]float64) correct.DrivePlan {
			p.Gear, p.Motor = facesOf(f[0], 10), facesOf(f[1], 8)
			plan, err := correct.SolveDrive(p)
			if err != nil {
				t.Fatal(err)
			}
			return plan
		}
		got, want := solve(noisy), solve(exact)
		if (got.Exact.Front - want.Exact.Front).Abs() <= 2*got.UncertainFront {
			front++
		}
		if (got.ExactPush.Rear - want.ExactPush.Rear).Abs() <= 2*got.UncertainRear {
			rear++
		}
	}
	covered(t, "front feet", front, n, 0.94, 0.96)
	covered(t, "rear feet", rear, n, 0.94, 0.96)
}
