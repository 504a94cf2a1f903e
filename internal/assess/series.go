package assess

import (
	"cmp"
	"math/big"
	"slices"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// value is one typed reading as a whole number of its base unit.
type value struct {
	n     int64
	set   bool
	text  string
	unit  measure.Unit
	at    field.Ref
	exact *big.Rat // slopes only: n before rounding
}

// reading is one expected reading; index is a position or a blade.
type reading struct {
	index  int
	value  value
	mark   value // tilt only
	reason string
}

// series is one round of a block of readings, in order of index.
type series struct {
	round    string
	head     field.Head
	accepted bool // as found accepted, nothing moved
	readings []reading
	again    value // the first reading, read again at the end
	blade    int   // clearance: the blade that was carried round, 0 where not stated
	at       field.Ref
}

func lengthValue(l field.Length) value {
	return value{n: int64(l.Value), set: l.Set, text: l.Text, unit: l.Unit, at: l.At}
}

func angleValue(a field.Angle) value {
	return value{n: int64(a.Value), set: a.Set, text: a.Text, at: a.At}
}

func slopeValue(s field.Slope) value {
	exact := slopeRat(s.Value)
	return value{n: roundRat(exact), set: s.Set, text: s.Text, at: s.At, exact: exact}
}

// newSeries turns one round of the record into whole numbers. The record's own
// slices are never changed or kept.
func newSeries[V any](in field.Series[V], get func(V) value) series {
	s := series{
		round:    in.Round,
		head:     in.Head,
		accepted: in.Accepted.Set && in.Accepted.Value,
		readings: make([]reading, 0, len(in.Readings)),
		again:    get(in.Return),
		at:       in.At,
	}
	for _, r := range in.Readings {
		s.readings = append(s.readings, reading{r.Index, get(r.Value), lengthValue(r.Mark), r.Reason.Value})
	}
	slices.SortStableFunc(s.readings, func(a, b reading) int { return cmp.Compare(a.index, b.index) })
	return s
}

// allSeries turns all rounds of a block, in the order of the rounds.
func allSeries[V any](in []field.Series[V], get func(V) value) []series {
	out := make([]series, 0, len(in))
	for _, s := range in {
		out = append(out, newSeries(s, get))
	}
	sortRounds(out)
	return out
}

func clearanceSeries(in []field.ClearanceRound) []series {
	out := make([]series, 0, len(in))
	for _, c := range in {
		s := newSeries(c.Series, lengthValue)
		if c.Blade.Set {
			s.blade = c.Blade.Value
		}
		out = append(out, s)
	}
	sortRounds(out)
	return out
}

// sortRounds puts rounds in the order in which they are read. A round with a
// key that is not known comes last and never stands.
func sortRounds(s []series) {
	slices.SortStableFunc(s, func(a, b series) int { return cmp.Compare(roundRank(a.round), roundRank(b.round)) })
}

func roundRank(key string) int {
	switch key {
	case field.AsFound:
		return 0
	case field.Second:
		return 1
	case field.Third:
		return 2
	case field.AsLeft:
		return 3
	}
	return unknownRound
}

const unknownRound = 4

func isRound(key string) bool { return roundRank(key) != unknownRound || isRun(key) }

// found returns the readings that were read.
func (s *series) found() []reading {
	if !slices.ContainsFunc(s.readings, func(r reading) bool { return !r.value.set }) {
		return s.readings // all of them; nobody changes what comes out of here
	}
	out := make([]reading, 0, len(s.readings))
	for _, r := range s.readings {
		if r.value.set {
			out = append(out, r)
		}
	}
	return out
}

// any tells whether anything was read.
func (s *series) any() bool {
	return slices.ContainsFunc(s.readings, func(r reading) bool { return r.value.set })
}

// count returns how many readings were read and how many were not, with a
// reason.
func (s *series) count() (found, blocked int) {
	for _, r := range s.readings {
		switch {
		case r.value.set:
			found++
		case r.reason != "":
			blocked++
		}
	}
	return found, blocked
}

// of returns the value read at an index.
func (s *series) of(index int) (int64, bool) {
	for _, r := range s.readings {
		if r.index == index && r.value.set {
			return r.value.n, true
		}
	}
	return 0, false
}

// extremes of a set of readings; of equal ones the lowest index is named.
type extremes struct {
	least, most reading
}

func (e extremes) spread() int64 { return e.most.value.n - e.least.value.n }

// findExtremes returns false where nothing was read.
func findExtremes(found []reading) (extremes, bool) {
	if len(found) == 0 {
		return extremes{}, false
	}
	e := extremes{found[0], found[0]}
	for _, r := range found[1:] {
		if r.value.n < e.least.value.n {
			e.least = r
		}
		if r.value.n > e.most.value.n {
			e.most = r
		}
	}
	return e, true
}

// standing returns the round that is judged: the as left, or the as found that
// was accepted as it was; −1 where there is neither. A round in between never
// stands.
func standing(rounds []series) int {
	for i := range rounds {
		if rounds[i].round == field.AsLeft && rounds[i].any() {
			return i
		}
	}
	for i := range rounds {
		if rounds[i].round == field.AsFound && rounds[i].accepted && rounds[i].any() {
			return i
		}
	}
	return -1
}

// standingSeries returns the series that is judged, nil where there is none.
func standingSeries(rounds []series) *series {
	if i := standing(rounds); i >= 0 {
		return &rounds[i]
	}
	return nil
}

// sameState returns the series of one block that goes with a round of another:
// the one of the same round, or, for the standing round, the standing one. Nil
// where there is none.
func sameState(rounds []series, round string, stands bool) *series {
	for i := range rounds {
		if rounds[i].round == round && rounds[i].any() {
			return &rounds[i]
		}
	}
	if stands {
		return standingSeries(rounds)
	}
	return nil
}
