package correct_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
)

func BenchmarkSolveShims(b *testing.B) {
	p := correct.ShimProblem{Radius: 84 * inch, Feet: rectangle(12*inch, 10*inch), Step: measure.Thou, MaxPieces: 5,
		Drops: read(12, func(t float64) float64 { return 3 + 0.4*math.Cos(t) + 0.1*math.Sin(2*t) })}
	for b.Loop() {
		if _, err := correct.SolveShims(p); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSolveShimsBound is the widest search: the level forbids nearly all.
func BenchmarkSolveShimsBound(b *testing.B) {
	p := correct.ShimProblem{Radius: 84 * inch, Feet: rectangle(12*inch, 10*inch), Step: measure.Thou, MaxPieces: 5,
		Drops: read(12, func(t float64) float64 { return 3 + 2*math.Cos(t) + math.Sin(2*t) }),
		Level: &correct.OwnLevel{Limit: measure.Slope{Rise: 1, Run: 5000}}}
	for b.Loop() {
		if _, err := correct.SolveShims(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolveCenter(b *testing.B) {
	least, most := nm(0.375), nm(0.625)
	p := correct.CenterProblem{Gaps: read(12, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) + 0.05*math.Cos(2*t) }), TipRadius: 120 * inch,
		Least: &least, Most: &most, Step: measure.SixtyFourth, U: nm(0.01)}
	for b.Loop() {
		if _, err := correct.SolveCenter(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCloseLoop(b *testing.B) {
	j := newJob(rand.New(rand.NewPCG(1, 1)), 1.0/32, 24, nil)
	j.p.Left = mirror(j.p.Left)
	for b.Loop() {
		if _, err := correct.CloseLoop(j.p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCorrect(b *testing.B) {
	r := fan()
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 12, func(t float64) float64 { return 10 + 0.25*math.Cos(t) })
	rules := ruleSet(b)
	a := assess.Assess(r, rules)
	for b.Loop() {
		correct.Correct(r, a, rules)
	}
}
