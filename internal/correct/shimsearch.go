package correct

import (
	"cmp"
	"math"
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// rules are the limits that a search respects; each can be left off to see
// whether it binds.
type rules struct{ level, pieces, stock, fixed bool }

var allRules = rules{true, true, true, true}

// pair is two slopes in whole steps and the range of drops they leave.
type pair struct {
	i, j   int
	spread float64
}

// choice is a pair with a lift.
type choice struct {
	pair
	lift, feet, pieces int     // feet: how many are changed
	raise              float64 // at the fan's axis, without its sign
}

// compare puts the plan that disturbs less first: fewer feet, fewer pieces,
// then the smaller range, then the one that raises the fan least.
func (a choice) compare(b choice) int {
	return cmp.Or(cmp.Compare(a.feet, b.feet), cmp.Compare(a.pieces, b.pieces), cmp.Compare(a.spread, b.spread),
		cmp.Compare(a.raise, b.raise), cmp.Compare(a.lift, b.lift), cmp.Compare(a.i, b.i), cmp.Compare(a.j, b.j))
}

// shimSearch tries pairs of steps over one set of drops.
type shimSearch struct {
	p      *ShimProblem
	l      lattice
	u      []vec
	ideal  vec
	floor  float64
	ri, rj float64 // steps per unit of range, for the window
	gate   *gate
}

// search finds the best plan and which limits keep it from being better.
func (p *ShimProblem) search(l lattice, ideal vec, floor float64) ShimPlan {
	s := &shimSearch{p: p, l: l, u: directions(p.Drops), ideal: ideal, floor: floor, gate: newGate(l, p.Level)}
	s.scale()
	best := s.best(allRules)
	out := p.plan(l, best)
	if p.Level != nil {
		if b := s.best(rules{false, true, true, true}); b.spread < best.spread-float64(sameSpread) {
			out.Binding = append(out.Binding, s.gate.codes(b)...)
		}
	}
	better := func(r rules) bool { return s.best(r).spread < best.spread-float64(sameSpread) }
	if p.MaxPieces > 0 && better(rules{true, false, true, true}) {
		out.Binding = append(out.Binding, code(bindPieces, numberArg("pieces", p.MaxPieces)))
	}
	if p.builder.stock != nil && better(rules{true, true, false, true}) {
		out.Binding = append(out.Binding, code(bindStock))
	}
	if p.fixed() && better(rules{true, true, true, false}) {
		out.Binding = append(out.Binding, p.fixedCodes()...)
	}
	return out
}

// fixed tells whether any stack must stay as it is.
func (p *ShimProblem) fixed() bool {
	return slices.ContainsFunc(p.Feet, func(f Foot) bool { return f.Fixed })
}

func (p *ShimProblem) fixedCodes() []assess.Code {
	var out []assess.Code
	for _, f := range p.Feet {
		if f.Fixed {
			out = append(out, code(bindFoot, numberArg("foot", f.Number)))
		}
	}
	return out
}

// codes names the ways in which a better plan would leave the level.
func (g *gate) codes(better choice) []assess.Code {
	var out []assess.Code
	along, across := g.binds(better.i, better.j)
	if along {
		out = append(out, code(bindLevel, textArg("direction", "along")))
	}
	if across {
		out = append(out, code(bindLevel, textArg("direction", "across")))
	}
	return out
}

// scale finds how many steps away from the ideal a range can hide. A slope δ off
// the ideal spreads the readings by at least R·|δ|·w less the floor, where w is
// the narrowest extent of the directions; beyond that no pair can be better.
func (s *shimSearch) scale() {
	const tries = 180
	w := math.Inf(1)
	for k := range tries {
		d := direction(measure.Angle(k) * measure.Degree)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, u := range s.u {
			lo, hi = math.Min(lo, d.dot(u)), math.Max(hi, d.dot(u))
		}
		w = math.Min(w, hi-lo)
	}
	w -= math.Pi / tries // between two directions tried the extent may be less
	e := hypot(float64(s.l.e.x), float64(s.l.e.y)) / float64(s.l.step)
	f := hypot(float64(s.l.f.x), float64(s.l.f.y)) / float64(s.l.step)
	s.ri, s.rj = e/(float64(s.p.Radius)*w), f/(float64(s.p.Radius)*w)
	if w <= 0 {
		s.ri, s.rj = math.Inf(1), math.Inf(1)
	}
}

// best is the plan to take under the rules. Doing nothing is always one. A look
// around the ideal, and around the nearest slope that the level allows, gives
// the range to beat and so the window to search.
func (s *shimSearch) best(r rules) choice {
	const near = 3
	some := append(s.pairs(s.ideal, near, near, r), pair{0, 0, s.spread(0, 0)})
	if r.level && s.gate != nil {
		some = append(some, s.pairs(s.p.clipped(s.ideal), near, near, r)...)
	}
	first, _ := s.pick(some, r)
	limit := first.spread + float64(sameSpread)
	reach := limit + s.floor
	window := func(per float64) int { return int(math.Min(math.Ceil(per*reach)+1, maxWindow)) }
	all := append(s.pairs(s.ideal, window(s.ri), window(s.rj), r), pair{0, 0, s.spread(0, 0)})
	all = slices.DeleteFunc(all, func(x pair) bool { return x.spread > limit })
	out, found := s.pick(all, r)
	if !found {
		return first
	}
	return out
}

// pairs lists the pairs up to ni and nj steps from a slope that the level allows.
func (s *shimSearch) pairs(around vec, ni, nj int, r rules) []pair {
	ci, cj := s.l.steps(around)
	bound := float64(1 << 30)
	i0, j0 := int(math.Round(max(-bound, min(bound, ci)))), int(math.Round(max(-bound, min(bound, cj))))
	var out []pair
	for i := i0 - ni; i <= i0+ni; i++ {
		for j := j0 - nj; j <= j0+nj; j++ {
			if !r.level || s.gate.allows(i, j) {
				out = append(out, pair{i, j, s.spread(i, j)})
			}
		}
	}
	return out
}

func (s *shimSearch) spread(i, j int) float64 {
	g := s.l.slope(i, j).times(float64(s.p.Radius))
	lo, hi := math.Inf(1), math.Inf(-1)
	for k, u := range s.u {
		d := float64(s.p.Drops[k].Value) - g.dot(u)
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return hi - lo
}

// pick goes through the pairs from the smallest range and stops where no later
// one counts as equal to the best that is allowed.
func (s *shimSearch) pick(all []pair, r rules) (choice, bool) {
	slices.SortFunc(all, func(a, b pair) int {
		return cmp.Or(cmp.Compare(a.spread, b.spread), cmp.Compare(a.i, b.i), cmp.Compare(a.j, b.j))
	})
	var best choice
	found, limit := false, math.Inf(1)
	for _, x := range all {
		if x.spread > limit {
			break
		}
		c, ok := s.lift(x, r)
		if !ok {
			continue
		}
		if !found {
			limit = c.spread + float64(sameSpread)
		}
		if !found || c.compare(best) < 0 {
			best, found = c, true
		}
	}
	return best, found
}

// lift chooses how high the whole goes for a pair: from every stack taken out as
// far as it goes, to the highest corner getting nothing. Only where each of
// these makes a stack of too many pieces, all feet are raised.
func (s *shimSearch) lift(x pair, r rules) (choice, bool) {
	lo, hi := math.MinInt, math.MinInt
	for k, f := range s.l.feet {
		d := s.l.change(k, x.i, x.j, 0)
		lo, hi = max(lo, -d-int(f.Now/s.l.step)), max(hi, -d)
	}
	for k, f := range s.l.feet {
		if r.fixed && f.Fixed { // it alone says how high the whole goes
			lift := -s.l.change(k, x.i, x.j, 0)
			return s.lightest(x, max(lift, lo), lift, r)
		}
	}
	best, found := s.lightest(x, max(lo, hi-maxLifts), hi, r)
	if !found {
		best, found = s.lightest(x, hi+1, hi+maxExtra, r)
	}
	return best, found
}

// lightest is the lift from lo to hi that disturbs least.
func (s *shimSearch) lightest(x pair, lo, hi int, r rules) (best choice, found bool) {
	for lift := hi; lift >= lo; lift-- {
		c, ok := s.weigh(x, lift, r)
		if ok && (!found || c.compare(best) < 0) {
			best, found = c, true
		}
	}
	return best, found
}

// weigh counts what a lift disturbs.
func (s *shimSearch) weigh(x pair, lift int, r rules) (choice, bool) {
	c := choice{pair: x, lift: lift, raise: math.Abs(s.l.raise(x.i, x.j, lift))}
	for k, f := range s.l.feet {
		change := measure.Length(s.l.change(k, x.i, x.j, lift)) * s.l.step
		n, ok := s.p.builder.pieces(f, change)
		if !ok {
			if r.stock {
				return choice{}, false
			}
			n = usualPieces(f.Now+change, s.l.step)
		}
		if change != 0 {
			c.feet++
			if r.pieces && s.p.MaxPieces > 0 && n > s.p.MaxPieces || r.fixed && f.Fixed {
				return choice{}, false
			}
		}
		c.pieces += n
	}
	return c, true
}

// plan states a choice.
func (p *ShimProblem) plan(l lattice, c choice) ShimPlan {
	changes := make([]measure.Length, len(p.Feet))
	for k := range p.Feet {
		changes[k] = measure.Length(l.change(k, c.i, c.j, c.lift)) * l.step
	}
	return p.state(changes, l.slope(c.i, c.j), l.raise(c.i, c.j, c.lift))
}

// changed is the foot after its change.
func (f Foot) changed(change measure.Length, b builder) FootChange {
	made := b.build(f, change)
	return FootChange{Foot: f.Number, Now: f.Now, Change: change, New: f.Now + change, Known: f.Known,
		Pieces: made.pieces, Stack: made.stack, Keeps: made.keeps}
}

// state fills in the plan that follows from the change of each stack.
func (p *ShimProblem) state(changes []measure.Length, g vec, c float64) ShimPlan {
	out := ShimPlan{Taken: leanOf(g), Raised: nearest(c), Drops: p.after(g, c), taken: g}
	for k, f := range p.Feet {
		out.Feet = append(out.Feet, f.changed(changes[k], p.builder))
		out.changedAtAll = out.changedAtAll || changes[k] != 0
	}
	return out
}
