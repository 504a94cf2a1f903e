package correct_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

// sumsOf lists every height that up to so many pieces make, and the fewest pieces
// that make it, by trying all of them.
func sumsOf(stock []measure.Length, most int) map[measure.Length]int {
	out := map[measure.Length]int{0: 0}
	var add func(from int, height measure.Length, n int)
	add = func(from int, height measure.Length, n int) {
		if was, there := out[height]; !there || n < was {
			out[height] = n
		}
		for i := from; i < len(stock) && n < most; i++ {
			add(i, height+stock[i], n+1)
		}
	}
	add(0, 0, 0)
	return out
}

// bruteStock is the smallest largest-less-smallest drop of any whole steps of all
// four feet that stay in a plane and that the shims at hand make: a changed
// stack is all new, or has pieces added on top of those it has.
func bruteStock(p correct.ShimProblem, sums map[measure.Length]int) float64 {
	buildable := func(f correct.Foot, change measure.Length) bool {
		if change == 0 {
			return true
		}
		if f.Fixed || f.Now+change < 0 {
			return false
		}
		if n, ok := sums[f.Now+change]; ok && n <= p.MaxPieces {
			return true
		}
		n, ok := sums[change]
		return ok && f.Pieces > 0 && n+f.Pieces <= p.MaxPieces
	}
	best, w, d := spreadOf(p.Drops), in(p.Feet[0].Along)*2, in(p.Feet[0].Across)*2
	const reach = 45
	for along := -reach; along <= reach; along++ {
		for across := -reach; across <= reach; across++ {
			gx, gy := in(p.Step)*float64(along)/w, in(p.Step)*float64(across)/d
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, x := range p.Drops {
				s, c := math.Sincos(x.Degrees.Radians())
				v := in(x.Value) - 80*(gx*c+gy*s)
				lo, hi = min(lo, v), max(hi, v)
			}
			if hi-lo >= best {
				continue
			}
			for lift := -60; lift <= 110; lift++ {
				ok := true
				for k, d := range []int{along + across, across, 0, along} {
					ok = ok && buildable(p.Feet[k], measure.Length(lift+d)*p.Step)
				}
				if ok {
					best = hi - lo
					break
				}
			}
		}
	}
	return best
}

// TestStockBruteForce: shims at hand and stacks that must stay, against all that
// can be built.
func TestStockBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	bound := map[string]int{}
	for c := range 60 {
		p := correct.ShimProblem{Radius: 80 * inch, Feet: rectangle(measure.Length(8+r.IntN(6))*inch, measure.Length(8+r.IntN(6))*inch),
			Step: 5 * measure.Thou, MaxPieces: 2 + c%3}
		for range 3 + r.IntN(3) {
			p.Stock = append(p.Stock, measure.Length(1+r.IntN(24))*5*measure.Thou)
		}
		a, b := 0.25*r.NormFloat64(), 0.25*r.NormFloat64()
		p.Drops = read(8, func(t float64) float64 { return a*math.Cos(t) + b*math.Sin(t) + 0.05*r.NormFloat64() })
		for k := range p.Feet {
			p.Feet[k].Now = measure.Length(r.IntN(20)) * p.Step
			p.Feet[k].Pieces = r.IntN(3)
		}
		for range c % 3 {
			p.Feet[r.IntN(4)].Fixed = true
		}
		plan, err := correct.SolveShims(p)
		if err != nil {
			t.Fatal(err)
		}
		sums := sumsOf(p.Stock, p.MaxPieces)
		if got, want := in(plan.After), bruteStock(p, sums); math.Abs(got-want) > 1.01e-4 {
			t.Errorf("case %d: %+v leaves %g, brute force %g", c, plan.Feet, got, want)
		}
		checkBuilt(t, p, plan, sums)
		for _, code := range plan.Binding {
			bound[code.Key]++
		}
	}
	for _, key := range []string{"correct.bind.stock", "correct.bind.foot", "correct.bind.pieces"} {
		if bound[key] == 0 {
			t.Errorf("%s never bound: %v", key, bound)
		}
	}
}

// checkBuilt adds up the pieces that are named.
func checkBuilt(t *testing.T, p correct.ShimProblem, plan correct.ShimPlan, sums map[measure.Length]int) {
	t.Helper()
	for k, f := range plan.Feet {
		if f.Change == 0 {
			continue
		}
		sum, pieces := measure.Length(0), len(f.Stack)
		for _, s := range f.Stack {
			sum += s
			if !slices.Contains(p.Stock, s) {
				t.Errorf("foot %d: %s is not at hand", f.Foot, s)
			}
		}
		want := f.New
		if f.Keeps {
			want, pieces = f.Change, pieces+p.Feet[k].Pieces
		}
		if sum != want || pieces != f.Pieces || pieces > p.MaxPieces || p.Feet[k].Fixed {
			t.Errorf("foot %+v of stock %v", f, p.Stock)
		}
		if n := sums[sum]; n != len(f.Stack) {
			t.Errorf("foot %d: %v, %d pieces would do", f.Foot, f.Stack, n)
		}
	}
}

// TestFixedFeet: one stack that must stay leaves both slopes, as long as nothing
// has to come out that is not there; two at one end leave one; feet that are no
// rectangle, too.
func TestFixedFeet(t *testing.T) {
	p := correct.ShimProblem{Drops: read(12, func(t float64) float64 { return 0.25 * math.Cos(t) }), Radius: 84 * inch,
		Feet: rectangle(12*inch, 12*inch), Step: measure.Thou}
	for _, x := range []struct {
		name  string
		fixed []int
		now   measure.Length
		after float64 // left at most
		binds bool
	}{
		{"high corner", []int{1}, 0, 0.005, false},
		{"low corner, nothing to take out", []int{0}, 0, 0.6, true},
		{"low corner, shims to take out", []int{0}, 100 * measure.Thou, 0.005, false},
		{"two along the slope", []int{0, 1}, 100 * measure.Thou, 0.6, true},
		{"two across the slope", []int{0, 3}, 100 * measure.Thou, 0.005, false},
		{"all", []int{0, 1, 2, 3}, 100 * measure.Thou, 0.6, true},
	} {
		for _, irregular := range []bool{false, true} {
			q := p
			q.Feet = slices.Clone(p.Feet)
			if irregular {
				q.Feet[1].Along -= inch
			}
			for k := range q.Feet {
				q.Feet[k].Now = x.now
				q.Feet[k].Fixed = slices.Contains(x.fixed, k)
			}
			plan, err := correct.SolveShims(q)
			if err != nil {
				t.Fatal(err)
			}
			if got := in(plan.After); got > x.after || got < 0.4 && x.after > 0.4 {
				t.Errorf("%s, irregular %v: %g in is left by %+v", x.name, irregular, got, plan.Feet)
			}
			if binds := slices.Contains(keys(plan.Binding), "correct.bind.foot"); binds != x.binds {
				t.Errorf("%s, irregular %v: binding %v", x.name, irregular, keys(plan.Binding))
			}
			for k, f := range plan.Feet {
				if q.Feet[k].Fixed && f.Change != 0 || f.New < 0 {
					t.Errorf("%s: %+v", x.name, f)
				}
			}
		}
	}
}

// TestStockOnce: worked by hand. Shims of 0.005, 0.010, 0.025, 0.050 in: a stack
// of 0.071 does not exist, 0.070 is 0.050 + 0.010 + 0.010; with 0.030 in two
// pieces there, 0.040 more on top (0.025, 0.010, 0.005) makes five pieces, so
// the stack is made new of three.
func TestStockOnce(t *testing.T) {
	feet := rectangle(12*inch, 12*inch)
	for k := range feet {
		feet[k].Now, feet[k].Pieces = 30*measure.Thou, 2
	}
	p := correct.ShimProblem{Drops: read(12, func(t float64) float64 { return 0.14 * math.Cos(t) }), Radius: 84 * inch, Feet: feet,
		Step: measure.Thou, MaxPieces: 5, Stock: []measure.Length{5 * measure.Thou, 10 * measure.Thou, 25 * measure.Thou, 50 * measure.Thou}}
	plan, err := correct.SolveShims(p)
	if err != nil {
		t.Fatal(err)
	}
	f := plan.Feet[0]
	if f.New != 70*measure.Thou || f.Keeps || !slices.Equal(f.Stack, []measure.Length{50 * measure.Thou, 10 * measure.Thou, 10 * measure.Thou}) {
		t.Errorf("%+v", f)
	}
	// Nobody knows what is there: what goes in is said.
	for k := range p.Feet {
		p.Feet[k].Now, p.Feet[k].Pieces, p.Feet[k].Known = 0, 0, false
	}
	if plan, err = correct.SolveShims(p); err != nil || !plan.Feet[0].Keeps || len(plan.Feet[0].Stack) == 0 {
		t.Errorf("%+v, %v", plan.Feet, err)
	}
}
