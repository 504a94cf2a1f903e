package assess_test

import (
	"fmt"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// BenchmarkAssess judges towers of cells that were read as found and as left,
// with a shim between.
func BenchmarkAssess(b *testing.B) {
	rules := ruleSet(b)
	for _, n := range []int{12, 100, 500} {
		b.Run(fmt.Sprintf("cells=%d", n), func(b *testing.B) {
			var cells []field.Cell
			for i := range n {
				c := cleanCell(i + 1)
				c.Tilt.Rounds = append(c.Tilt.Rounds, lengths(field.AsFound, head(2, 480), same(positions, 10*inch)...))
				c.Clearance.Rounds = append(c.Clearance.Rounds, field.ClearanceRound{
					Series: lengths(field.AsFound, head(2, 540), same(positions, inch/2)...), Blade: count(3),
				})
				c.Clearance.Rounds[0].Readings[i%positions].Value = typed(inch/2 + step)
				c.Tilt.Rounds[0].Readings[i%positions].Value = typed(10*inch + 9*step)
				c.Moves = []field.Move{event("gear.shim", 3, 480)}
				cells = append(cells, c)
			}
			r := record(cells...)
			b.ReportAllocs()
			for b.Loop() {
				assess.Assess(r, rules)
			}
		})
	}
}

// BenchmarkWholeJob judges towers whose every check was read.
func BenchmarkWholeJob(b *testing.B) {
	rules := ruleSet(b)
	for _, n := range []int{12, 100} {
		b.Run(fmt.Sprintf("cells=%d", n), func(b *testing.B) {
			var cells []field.Cell
			for i := range n {
				cells = append(cells, fullCell(b, i+1))
			}
			r := fullRecord(b, cells...)
			b.ReportAllocs()
			for b.Loop() {
				assess.Assess(r, rules)
			}
		})
	}
}
