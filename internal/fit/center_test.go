package fit

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// nm is the tolerance for inputs in meters.
const nm = 1e-9

// solveProblem calls the solver that a Problem names.
func solveProblem(problem Problem, theta, c []float64, nominal, radius, tol float64) (Center, error) {
	switch problem {
	case Minimax:
		return MinimaxCenter(theta, c, nominal, radius, tol)
	case Zone:
		return MinimumZone(theta, c, radius, tol)
	}
	return MaximinCenter(theta, c, radius, tol)
}

func goalOf(problem Problem, nominal float64) goal {
	if problem != Minimax {
		nominal = 0
	}
	return goal{nominal: nominal, freeMean: problem == Zone, lowOnly: problem == Maximin}
}

// bruteForce finds the best objective of the linear problem by trying every
// vertex: all pairs, triples or quadruples of rows that could hold it. It
// shares no code with the exchange but the rows.
func bruteForce(theta, c []float64, g goal) float64 {
	var rows [][4]float64 // q·x + p ≤ h
	for i := range theta {
		sin, cos := math.Sincos(theta[i])
		for _, s := range []float64{1, -1} {
			if g.lowOnly && s > 0 {
				continue
			}
			mean := 0.0
			if g.freeMean {
				mean = -s
			}
			rows = append(rows, [4]float64{-s * cos, -s * sin, mean, s * (c[i] - g.nominal)})
		}
	}
	size := 3
	if g.freeMean {
		size = 4
	}
	best := math.Inf(1)
	subsets(len(rows), size, func(pick []int) {
		z, ok := intersect(rows, pick)
		if !ok {
			return
		}
		worst := math.Inf(-1)
		for _, r := range rows {
			worst = math.Max(worst, r[0]*z[0]+r[1]*z[1]+r[2]*z[2]+r[3])
		}
		best = math.Min(best, worst)
	})
	return best
}

// subsets calls f with every increasing choice of size numbers below n.
func subsets(n, size int, f func([]int)) {
	pick := make([]int, 0, size)
	var walk func(from int)
	walk = func(from int) {
		if len(pick) == size {
			f(pick)
			return
		}
		for i := from; i < n; i++ {
			pick = append(pick, i)
			walk(i + 1)
			pick = pick[:len(pick)-1]
		}
	}
	walk(0)
}

// intersect solves q·x + p = h for the picked rows: x in the first places, for
// size 3 without a mean.
func intersect(rows [][4]float64, pick []int) (z [3]float64, ok bool) {
	n := len(pick)
	m := make([][]float64, n)
	for i, k := range pick {
		r := rows[k]
		m[i] = []float64{r[0], r[1], r[2], -1, -r[3]}
		if n == 3 {
			m[i] = []float64{r[0], r[1], -1, -r[3]}
		}
	}
	for col := range n {
		pivot := col
		for i := col; i < n; i++ {
			if math.Abs(m[i][col]) > math.Abs(m[pivot][col]) {
				pivot = i
			}
		}
		if math.Abs(m[pivot][col]) < 1e-9 {
			return z, false
		}
		m[col], m[pivot] = m[pivot], m[col]
		for i := range n {
			if i == col {
				continue
			}
			f := m[i][col] / m[col][col]
			for j := col; j <= n; j++ {
				m[i][j] -= f * m[col][j]
			}
		}
	}
	for i := range n - 1 {
		z[i] = m[i][n] / m[i][i]
	}
	return z, true
}

// readings makes gaps like those of a crew: about half an inch, in meters, to
// the nearest 1/64 in or not at all.
func readings(r *rand.Rand, n int, stepped bool) []float64 {
	c := make([]float64, n)
	for i := range c {
		sixtyFourths := 32 + 16*(r.Float64()-0.5)
		if stepped {
			sixtyFourths = math.Round(sixtyFourths)
		}
		c[i] = sixtyFourths * 0.0254 / 64
	}
	return c
}

func TestCentersAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for round := range 150 {
		n := 3 + r.IntN(6)
		theta := evenly(n)
		if round%3 == 0 {
			for i := range theta {
				theta[i] += (r.Float64() - 0.5) * math.Pi / float64(n)
			}
		}
		c := readings(r, n, round%2 == 0)
		for _, problem := range []Problem{Minimax, Zone, Maximin} {
			g := goalOf(problem, 0.0127)
			a, err := solveProblem(problem, theta, c, 0.0127, 0, nm)
			if err != nil {
				t.Fatalf("round %d, problem %d: %v", round, problem, err)
			}
			p, _ := newPoints(theta, c, 0)
			got := p.objective([2]float64{a.X, a.Y}, g)
			if a.Status == Unbounded {
				continue
			}
			if n == 3 && problem == Zone { // three points always fit one circle
				near(t, "zone of three", got, 0, 1e-12)
				continue
			}
			near(t, "objective", got, bruteForce(theta, c, g), 1e-12)
		}
	}
}

// Every answer, exact or linear, has a certificate that checks, and no nearby
// center is better.
func TestCentersAreCertifiedAndLocallyBest(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for round := range 400 {
		n := 8 + r.IntN(29)
		theta, c := evenly(n), readings(r, n, round%2 == 0)
		radius := 2.1
		if round%5 == 0 {
			radius = 0.5 + r.Float64()
		}
		for _, problem := range []Problem{Minimax, Zone, Maximin} {
			a, err := solveProblem(problem, theta, c, 0.0127, radius, nm)
			if err != nil {
				t.Fatalf("round %d, problem %d: %v", round, problem, err)
			}
			if err := Check(problem, theta, c, 0.0127, radius, nm, a); err != nil {
				t.Fatalf("round %d, problem %d: %v", round, problem, err)
			}
			if a.Status == Flat {
				continue // best to first order only
			}
			p, _ := newPoints(theta, c, radius)
			g := goalOf(problem, 0.0127)
			best := p.objective([2]float64{a.X, a.Y}, g)
			for k := range 16 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 8)
				for _, far := range []float64{1e-6, 1e-4} {
					other := p.objective([2]float64{a.X + far*cos, a.Y + far*sin}, g)
					if other < best-1e-13 {
						t.Fatalf("round %d, problem %d: %g better at %g in direction %d", round, problem, best-other, far, k)
					}
				}
			}
		}
	}
}

// A round wall with its center moved by a known m must give m back.
func TestKnownMoveIsRecovered(t *testing.T) {
	const radius, x, y = 2.1336, 0.0043, -0.0021 // 84 in
	theta := evenly(12)
	c := make([]float64, len(theta))
	for i, th := range theta {
		// Distance from the origin to a circle of radius + 12.7 mm about (x, y).
		sin, cos := math.Sincos(th)
		along, across := x*cos+y*sin, -x*sin+y*cos
		c[i] = along + math.Sqrt((radius+0.0127)*(radius+0.0127)-across*across) - radius
	}
	for _, problem := range []Problem{Minimax, Zone, Maximin} {
		a, err := solveProblem(problem, theta, c, 0.0127, radius, nm)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "x", a.X, x, 1e-11)
		near(t, "y", a.Y, y, 1e-11)
		near(t, "mean", a.Mean, 0.0127, 1e-11)
		near(t, "half width", a.HalfWidth, 0, 1e-11)
	}
}

// Turning the positions turns the answer.
func TestCenterTurnsWithThePositions(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		theta, c := evenly(12), readings(r, 12, false)
		a, err := MinimaxCenter(theta, c, 0.0127, 2.1, nm)
		if err != nil {
			t.Fatal(err)
		}
		turned := make([]float64, len(theta))
		for i := range theta {
			turned[i] = theta[i] + 1
		}
		b, err := MinimaxCenter(turned, c, 0.0127, 2.1, nm)
		if err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(1)
		near(t, "x", b.X, a.X*cos-a.Y*sin, nm)
		near(t, "y", b.Y, a.X*sin+a.Y*cos, nm)
	}
}

func TestFlatAndUnbounded(t *testing.T) {
	four := evenly(4)
	half := []float64{0, 0.5, 1, 1.5, 2, 2.5, 3}
	tests := []struct {
		name    string
		problem Problem
		theta   []float64
		c       []float64
		status  Status
	}{
		{"opposite pair decides", Minimax, four, []float64{0.016, 0.013, 0.016, 0.0127}, Flat},
		{"one position", Minimax, []float64{1}, []float64{0.02}, Flat},
		{"one position, largest circle", Maximin, []float64{1}, []float64{0.02}, Unbounded},
		{"one line", Minimax, []float64{0, math.Pi}, []float64{0.01, 0.02}, Flat},
		{"half a turn, largest circle", Maximin, half, []float64{1, 2, 1, 2, 1, 2, 1}, Unbounded},
		{"half a turn, ring", Zone, half, []float64{0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1}, Optimal},
		{"three positions, ring", Zone, evenly(3), []float64{0.01, 0.02, 0.03}, Flat},
		{"same position twice, ring", Zone, []float64{0, 0, 2, 4}, []float64{0.01, 0.02, 0.03, 0.01}, Flat},
		{"all equal", Zone, evenly(12), equal(12, 0.0127), Flat},
		{"all equal, as wanted", Minimax, evenly(12), equal(12, 0.0127), Flat},
		{"all equal, too large", Minimax, evenly(12), equal(12, 0.02), Flat},
		{"all zero", Minimax, evenly(12), equal(12, 0), Flat},
	}
	for _, test := range tests {
		for _, radius := range []float64{0, 2.1} {
			a, err := solveProblem(test.problem, test.theta, test.c, 0.0127, radius, nm)
			if err != nil {
				t.Errorf("%s, radius %v: %v", test.name, radius, err)
				continue
			}
			if a.Status != test.status && !(test.status == Flat && a.Status == Optimal) {
				t.Errorf("%s, radius %v: status %v, want %v", test.name, radius, a.Status, test.status)
			}
			if math.Hypot(a.X, a.Y) > 0.2 {
				t.Errorf("%s, radius %v: center wandered to %v, %v", test.name, radius, a.X, a.Y)
			}
		}
	}
}

func equal(n int, v float64) []float64 {
	c := make([]float64, n)
	for i := range c {
		c[i] = v
	}
	return c
}

// Two opposite gaps decide the objective and leave the sideways move free: the
// answer does not use that freedom.
func TestFlatTakesTheShortestMove(t *testing.T) {
	a, err := MinimaxCenter(evenly(4), []float64{0.018, 0.0127, 0.016, 0.0127}, 0.0127, 0, nm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", a.X, 0.001, 1e-9)
	near(t, "y", a.Y, 0, 1e-9)
	near(t, "half width", a.HalfWidth, 0.0043, 1e-12)
}

func TestCheckRefusesWrongCertificates(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	theta, c := evenly(12), readings(r, 12, false)
	good, err := MinimumZone(theta, c, 2.1, nm)
	if err != nil {
		t.Fatal(err)
	}
	tests := map[string]func(a *Center){
		"center elsewhere": func(a *Center) { a.X += 1e-5 },
		"narrower":         func(a *Center) { a.HalfWidth -= 1e-6 },
		"mean":             func(a *Center) { a.Mean += 1e-6 },
		"negative weight":  func(a *Center) { a.Multipliers[0] = -a.Multipliers[0] },
		"weights":          func(a *Center) { a.Multipliers[0], a.Multipliers[1] = 0.6, 0.1 },
		"weights doubled": func(a *Center) {
			for i := range a.Multipliers {
				a.Multipliers[i] *= 2
			}
		},
		"other side":     func(a *Center) { a.Sign[0] = -a.Sign[0] },
		"other position": func(a *Center) { a.Active[0] = (a.Active[0] + 1) % 12 },
		"no position":    func(a *Center) { a.Active[0] = 12 },
		"no weights":     func(a *Center) { a.Multipliers = nil },
		"nothing":        func(a *Center) { a.Active, a.Sign, a.Multipliers = nil, nil, nil },
		"not a number":   func(a *Center) { a.Multipliers[0] = math.NaN() },
		"nan center":     func(a *Center) { a.X = math.NaN() },
	}
	for name, spoil := range tests {
		bad := good
		bad.Active = append([]int(nil), good.Active...)
		bad.Sign = append([]float64(nil), good.Sign...)
		bad.Multipliers = append([]float64(nil), good.Multipliers...)
		if err := Check(Zone, theta, c, 0, 2.1, nm, bad); err != nil {
			t.Fatalf("%s: copy refused: %v", name, err)
		}
		spoil(&bad)
		if err := Check(Zone, theta, c, 0, 2.1, nm, bad); !errors.Is(err, ErrUncertified) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Weights that balance and sum to 1, but not all positive, prove nothing: here
// they would pass a center half a unit from the best one.
func TestCheckRefusesNegativeWeights(t *testing.T) {
	theta, c := evenly(4), []float64{1, 2, 1, 2}
	bad := Center{X: 0.5, Mean: 0.5, Active: []int{0, 1, 2, 3}, Sign: []float64{-1, -1, -1, -1},
		Multipliers: []float64{0.75, -0.25, 0.75, -0.25}, Status: Optimal}
	if err := Check(Maximin, theta, c, 0, 0, nm, bad); !errors.Is(err, ErrUncertified) {
		t.Error(err)
	}
	good := Center{Mean: 1, Active: []int{0, 2}, Sign: []float64{-1, -1}, Multipliers: []float64{0.5, 0.5}, Status: Optimal}
	if err := Check(Maximin, theta, c, 0, 0, nm, good); err != nil {
		t.Error(err)
	}
}

func TestCenterRefusesBadInput(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	tests := []struct {
		theta, c             []float64
		nominal, radius, tol float64
	}{
		{nil, nil, 0, 1, nm},
		{[]float64{0}, []float64{1, 2}, 0, 1, nm},
		{[]float64{0, nan}, []float64{1, 2}, 0, 1, nm},
		{[]float64{0, 1e9}, []float64{1, 2}, 0, 1, nm},
		{[]float64{0, 1}, []float64{1, inf}, 0, 1, nm},
		{[]float64{0, 1}, []float64{1, -2}, 0, 1, nm},
		{[]float64{0, 1}, []float64{1, 2}, nan, 1, nm},
		{[]float64{0, 1}, []float64{1, 2}, 0, nan, nm},
		{[]float64{0, 1}, []float64{1, 2}, 0, 1, 0},
		{[]float64{0, 1}, []float64{1, 2}, 0, 1, nan},
		{evenly(MaxPositions + 1), equal(MaxPositions+1, 1), 0, 1, nm},
	}
	for i, test := range tests {
		if _, err := MinimaxCenter(test.theta, test.c, test.nominal, test.radius, test.tol); !errors.Is(err, ErrInput) {
			t.Errorf("row %d: %v", i, err)
		}
	}
}

// The largest problem allowed, with many ties, must finish.
func TestLargestProblem(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	theta, c := evenly(MaxPositions), readings(r, MaxPositions, true)
	for _, problem := range []Problem{Minimax, Zone, Maximin} {
		if _, err := solveProblem(problem, theta, c, 0.0127, 2.1, nm); err != nil {
			t.Error(err)
		}
	}
}

func FuzzCenters(f *testing.F) {
	f.Add(uint64(1), 12, 0.0127, 2.1)
	f.Add(uint64(2), 3, 1e-9, 0.0)
	f.Add(uint64(3), 40, -5.0, 1e6)
	f.Fuzz(func(t *testing.T, seed uint64, n int, nominal, radius float64) {
		if n < 1 || n > 60 {
			t.Skip("only the size of the problem")
		}
		r := rand.New(rand.NewPCG(seed, 1))
		theta := make([]float64, n)
		for i := range theta {
			theta[i] = r.Float64() * 7
		}
		c := readings(r, n, seed%2 == 0)
		for _, problem := range []Problem{Minimax, Zone, Maximin} {
			a, err := solveProblem(problem, theta, c, nominal, radius, nm)
			if err == nil && a.Status != Unbounded {
				err = Check(problem, theta, c, nominal, radius, nm, a)
				if err != nil {
					t.Errorf("returned without a certificate: %v", err)
				}
			}
		}
	})
}

func BenchmarkMinimumZone36(b *testing.B) {
	r := rand.New(rand.NewPCG(11, 12))
	theta, c := evenly(36), readings(r, 36, true)
	for b.Loop() {
		if _, err := MinimumZone(theta, c, 2.1, nm); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMinimax360(b *testing.B) {
	r := rand.New(rand.NewPCG(13, 14))
	theta, c := evenly(360), readings(r, 360, true)
	for b.Loop() {
		if _, err := MinimaxCenter(theta, c, 0.0127, 2.1, nm); err != nil {
			b.Fatal(err)
		}
	}
}
