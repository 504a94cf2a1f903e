package correct_test

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

// TestCenterOptimum compares with slides found by a linear program: scipy's
// linprog, whose version and call stand at the head of the file, with the script
// that wrote it beside it.
func TestCenterOptimum(t *testing.T) {
	text, err := os.ReadFile("testdata/centers.txt")
	if err != nil {
		t.Fatal(err)
	}
	cases := 0
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cases++
		parts := strings.Split(strings.TrimSpace(line), "|")
		head := strings.Fields(parts[0])
		n, _ := strconv.Atoi(head[0])
		gaps := strings.Fields(parts[1])
		want, _ := strconv.ParseFloat(strings.TrimSpace(parts[2]), 64)
		i := -1
		p := correct.CenterProblem{Step: 1, Least: thou(head[1]), Most: thou(head[2]),
			Slots: correct.Slots{Away: thou(head[3]), Toward: thou(head[4]), Other: thou(head[5]), Ninety: thou(head[6])},
			Gaps:  read(n, func(float64) float64 { i++; v, _ := strconv.ParseFloat(gaps[i], 64); return v / 1000 })}
		got, err := correct.SolveCenter(p)
		if err != nil {
			t.Fatal(line, err)
		}
		if d := math.Abs(float64(got.Margin)/float64(measure.Thou) - want); d > 1e-4 {
			t.Errorf("%smargin %.6f, want %.6f", line, float64(got.Margin)/float64(measure.Thou), want)
		}
		bound := p.Slots.Away != nil && got.Slide != got.Ideal && got.MarginIdeal > got.Margin+10
		if bound != (len(got.Binding) > 0) {
			t.Errorf("%sbinding %v, ideal %v, slide %v", line, got.Binding, got.Ideal, got.Slide)
		}
	}
	if cases != 60 {
		t.Errorf("%d cases", cases)
	}
}

func thou(s string) *measure.Length {
	if s == "-" {
		return nil
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		panic(err)
	}
	l := measure.Length(n) * measure.Thou
	return &l
}

// TestSlideSteps compares whole steps with all that are near: without curvature
// exactly. With a tip circle of 100 in, sideways of two opposite positions that
// decide alone there may be a gain of the second order, which is not sought.
func TestSlideSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for k := range 60 {
		radius, bound := 0.0, 1e-6
		if k%2 == 0 {
			radius, bound = 100, 1.5e-4
		}
		least, most := nm(0.375), nm(0.625)
		gaps := read(8, func(t float64) float64 { return 0.5 + 0.1*r.NormFloat64() })
		got, err := correct.SolveCenter(correct.CenterProblem{Gaps: gaps, TipRadius: nm(radius), Least: &least, Most: &most, Step: measure.SixtyFourth})
		if err != nil {
			t.Fatal(err)
		}
		best := math.Inf(-1)
		for i := -40; i <= 40; i++ {
			for j := -40; j <= 40; j++ {
				x, y, margin := float64(i)/64, float64(j)/64, math.Inf(1)
				for _, g := range gaps {
					s, c := math.Sincos(g.Degrees.Radians())
					q := 100 + in(g.Value)
					d := math.Hypot(q*c-x, q*s-y) - 100
					if radius == 0 {
						d = in(g.Value) - x*c - y*s
					}
					margin = min(margin, d-0.375, 0.625-d)
				}
				best = math.Max(best, margin)
			}
		}
		if math.Abs(best-in(got.Margin)) > bound {
			t.Errorf("margin %g, brute force %g", in(got.Margin), best)
		}
	}
}

// TestCoarseSteps: with few positions and coarse steps the best whole step may be
// far from the best place.
func TestCoarseSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 300 {
		least := nm(0.375)
		p := correct.CenterProblem{Least: &least, Step: inch / 8}
		for i, deg := range []int{0, 100 + r.IntN(60), 200 + r.IntN(70), 185} {
			p.Gaps = append(p.Gaps, correct.Reading{Position: i, Degrees: measure.Angle(deg) * measure.Degree, Value: nm(0.5 + 0.2*r.NormFloat64())})
		}
		got, err := correct.SolveCenter(p)
		if err != nil {
			t.Fatal(err)
		}
		best := math.Inf(-1)
		for i := -80; i <= 80; i++ {
			for j := -80; j <= 80; j++ {
				margin := math.Inf(1)
				for _, g := range p.Gaps {
					s, c := math.Sincos(g.Degrees.Radians())
					margin = min(margin, in(g.Value)-float64(i)/8*c-float64(j)/8*s-0.375)
				}
				best = math.Max(best, margin)
			}
		}
		if math.Abs(best-in(got.Margin)) > 1e-6 {
			t.Errorf("margin %g at %v, brute force %g", in(got.Margin), got.Slide, best)
		}
	}
}

// TestShimsBruteForce tries all whole steps of all four stacks that stay in a
// plane, under limits of pieces and level.
func TestShimsBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	bound := 0
	for c := range 120 {
		p := correct.ShimProblem{Radius: 80 * inch, Feet: rectangle(measure.Length(8+r.IntN(10))*inch, measure.Length(8+r.IntN(10))*inch),
			Step: 10 * measure.Thou, MaxPieces: []int{0, 2, 3}[c%3]}
		a, b := 0.5*r.NormFloat64(), 0.5*r.NormFloat64()
		p.Drops = read(8, func(t float64) float64 { return a*math.Cos(t) + b*math.Sin(t) + 0.1*r.NormFloat64() })
		for k := range p.Feet {
			p.Feet[k].Now = measure.Length(r.IntN(8)) * p.Step
		}
		if c%2 == 0 {
			p.Level = &correct.OwnLevel{Limit: measure.Slope{Rise: measure.Length(1 + r.IntN(4)), Run: 1000}}
			p.Level.Along = measure.Slope{Rise: measure.Length(r.IntN(3) - 1), Run: 1000}
		}
		plan, err := correct.SolveShims(p)
		if err != nil {
			t.Fatal(err)
		}
		best := bruteShims(p)
		if got := in(plan.After); math.Abs(got-best) > 1.01e-4 {
			t.Errorf("case %d: %v leaves %g, brute force %g", c, plan.Feet, got, best)
		}
		checkShims(t, p, plan)
		if len(plan.Binding) > 0 {
			bound++
		}
	}
	if bound < 10 {
		t.Errorf("only %d cases were bound by a limit", bound)
	}
}

// checkShims holds a plan against every limit.
func checkShims(t *testing.T, p correct.ShimProblem, plan correct.ShimPlan) {
	t.Helper()
	f := plan.Feet
	if f[0].Change+f[2].Change != f[1].Change+f[3].Change {
		t.Errorf("not in a plane: %v", f)
	}
	for _, x := range f {
		if x.New < 0 || x.Change%p.Step != 0 || x.New != x.Now+x.Change || p.MaxPieces > 0 && x.Change != 0 && fewestPieces(x.New, p.Step) > p.MaxPieces {
			t.Errorf("foot %+v", x)
		}
	}
}

// fewestPieces of stock 1, 2, 5, 10, 20 … steps, by dynamic programming.
func fewestPieces(l, step measure.Length) int {
	n := int(l / step)
	count := make([]int, n+1)
	for i := 1; i <= n; i++ {
		count[i] = i
		for _, s := range []int{1, 2, 5, 10, 20, 50, 100} {
			if s <= i {
				count[i] = min(count[i], count[i-s]+1)
			}
		}
	}
	return count[n]
}

func bruteShims(p correct.ShimProblem) float64 {
	best, first := math.Inf(1), spreadOf(p.Drops)
	w, d := in(p.Feet[0].Along)*2, in(p.Feet[0].Across)*2
	const reach = 45
	for along := -reach; along <= reach; along++ { // motor side less the other
		for across := -reach; across <= reach; across++ { // 90° side less the other
			gx, gy := 0.01*float64(along)/w, 0.01*float64(across)/d
			if p.Level != nil && (math.Abs(p.Level.Along.Float()+gx) > p.Level.Limit.Float()+1e-13 || math.Abs(gy) > p.Level.Limit.Float()+1e-13) {
				continue
			}
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, x := range p.Drops {
				s, c := math.Sincos(x.Degrees.Radians())
				v := in(x.Value) - 80*(gx*c+gy*s)
				lo, hi = min(lo, v), max(hi, v)
			}
			if hi-lo < best && liftExists(p, along, across) {
				best = hi - lo
			}
		}
	}
	return min(best, first)
}

func liftExists(p correct.ShimProblem, along, across int) bool {
	for lift := -40; lift <= 120; lift++ {
		ok := true
		for k, d := range []int{along + across, across, 0, along} {
			c := measure.Length(lift+d) * p.Step
			n := p.Feet[k].Now + c
			ok = ok && n >= 0 && (p.MaxPieces == 0 || c == 0 || fewestPieces(n, p.Step) <= p.MaxPieces)
		}
		if ok {
			return true
		}
	}
	return false
}

// TestBladesBruteForce tries every set of blades to keep.
func TestBladesBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 3000 {
		n := 3 + r.IntN(8)
		p := correct.BladeProblem{Width: int64(5 + r.IntN(20)), Step: int64(1 + r.IntN(9))}
		for i := range n {
			p.Blades = append(p.Blades, correct.BladeValue{Blade: i + 1, Value: int64(r.IntN(40))})
		}
		p.Least, p.Most, p.LongestMost = maybe(r, 15), maybe(r, 40), maybe(r, 30)
		got := correct.SolveBlades(p)
		want := bruteKeep(p)
		if len(got.Keep) != want || got.Possible != (want > 0) {
			t.Fatalf("%+v: keeps %v, brute force %d", p, got.Keep, want)
		}
		if got.Possible && got.After > p.Width {
			t.Fatalf("%+v: %+v still spreads %d", p, got, got.After)
		}
	}
}

func maybe(r *rand.Rand, upTo int) *int64 {
	if r.IntN(2) == 0 {
		return nil
	}
	v := int64(r.IntN(upTo))
	return &v
}

func bruteKeep(p correct.BladeProblem) int {
	best := 0
	for set := 1; set < 1<<len(p.Blades); set++ {
		lo, hi, n, ok := int64(math.MaxInt64), int64(math.MinInt64), 0, true
		for i, b := range p.Blades {
			if set>>i&1 == 0 {
				continue
			}
			lo, hi, n = min(lo, b.Value), max(hi, b.Value), n+1
			ok = ok && (p.Least == nil || b.Value >= *p.Least) && (p.Most == nil || b.Value <= *p.Most)
		}
		if ok && hi-lo <= p.Width && (p.LongestMost == nil || lo <= *p.LongestMost) {
			best = max(best, n)
		}
	}
	return best
}
