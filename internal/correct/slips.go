package correct

import (
	"math"
	"slices"

	"asleft/internal/measure"
)

// hypothesis is one way in which the job may have gone; several may share a
// slip.
type hypothesis struct {
	slip string
	chi  float64
}

// name looks for the one slip that explains the readings. Every hypothesis has
// the same weight beforehand; those of one slip stand together against all
// others and against the log as it is.
func (p *LoopProblem) name(out *Loop) {
	all := p.hypotheses()
	best, least := "", math.Inf(1)
	for _, h := range all {
		if h.slip != "" && h.chi < least {
			best, least = h.slip, h.chi
		}
	}
	if best == "" || least > p.quantile(1-loopFit) {
		out.Code = code(loopDiffers)
		return
	}
	top := p.logLikelihood(least)
	with, against := 0.0, 0.0
	for _, h := range all {
		weight := math.Exp(p.logLikelihood(h.chi) - top)
		if h.slip == best {
			with += weight
		} else {
			against += weight
		}
	}
	out.Odds = int64(math.Min(math.Floor(with/math.Max(against, 1e-300)), maxOdds))
	if out.Odds < loopOdds {
		out.Code = code(loopDiffers)
		return
	}
	out.Slip = best
	out.Code = code(loopSlip, textArg("slip", best), numberArg("odds", int(out.Odds)))
}

// hypotheses weighs every slip that can be told from the log at all.
func (p *LoopProblem) hypotheses() []hypothesis {
	var out []hypothesis
	readAs := func(slip string, done Logged, found, left func([]Reading) []Reading) {
		drops, gaps := p.predict(found(p.Found), found(p.FoundGaps), done)
		out = append(out, hypothesis{slip, p.chi(drops, gaps, left(p.Left), left(p.LeftGaps))})
	}
	moved := func(slip string, done Logged) { readAs(slip, done, asIs, asIs) }

	moved("", p.Done)
	for _, order := range []struct {
		slip string
		turn func([]Reading) []Reading
	}{{SlipCountedOther, mirrored}, {SlipOneOff, turned(1)}, {SlipOneOff, turned(-1)}} {
		readAs(order.slip, p.Done, asIs, order.turn)
		readAs(order.slip, p.Done, order.turn, asIs)
		readAs(order.slip, p.Done, order.turn, order.turn)
	}
	moved(SlipBackwards, p.Done.scaled(-1, 1))
	moved(SlipBackwards, p.Done.scaled(1, -1))
	moved(SlipBackwards, p.Done.scaled(-1, -1))
	moved(SlipNotMade, p.Done.scaled(0, 0))
	for _, f := range []float64{measure.Inch.Float(measure.UnitMillimeter), 10} {
		for _, f := range []float64{f, 1 / f} {
			moved(SlipUnit, p.Done.scaled(f, 1))
			moved(SlipUnit, p.Done.scaled(1, f))
			moved(SlipUnit, p.Done.scaled(f, f))
		}
	}
	for _, mixed := range p.mixed() {
		moved(SlipFeet, mixed)
	}
	return p.distinct(out)
}

// distinct drops what cannot be told from an earlier one by any reading: moving
// nothing backwards is no slip, and shims under the feet opposite tilt the fan
// just as shims made backwards do.
func (p *LoopProblem) distinct(in []hypothesis) []hypothesis {
	const same = 1e-9
	var out []hypothesis
	for _, h := range in {
		if !slices.ContainsFunc(out, func(o hypothesis) bool { return math.Abs(h.chi-o.chi) <= same*(1+o.chi) }) {
			out = append(out, h)
		}
	}
	return out
}

// scaled multiplies shims and slides.
func (d Logged) scaled(shims, slides float64) Logged {
	times := func(l measure.Length, f float64) measure.Length { return nearest(float64(l) * f) }
	out := Logged{Along: times(d.Along, slides), Front: times(d.Front, slides), Rear: times(d.Rear, slides)}
	for _, f := range d.Feet {
		out.Feet = append(out.Feet, FootMoved{f.Foot, times(f.Change, shims)})
	}
	return out
}

// mixed lists the log with the feet numbered from another foot, or the other way
// round.
func (p *LoopProblem) mixed() []Logged {
	n := len(p.Feet)
	if n == 0 || len(p.Done.Feet) == 0 {
		return nil
	}
	place := make(map[int]int, n)
	for k, f := range p.Feet {
		place[f.Number] = k
	}
	var out []Logged
	for _, way := range []int{1, -1} {
		for first := range n {
			if way == 1 && first == 0 {
				continue
			}
			d := p.Done
			d.Feet = nil
			for _, f := range p.Done.Feet {
				k, known := place[f.Foot]
				if !known {
					continue
				}
				to := ((first+way*k)%n + n) % n
				d.Feet = append(d.Feet, FootMoved{p.Feet[to].Number, f.Change})
			}
			out = append(out, d)
		}
	}
	return out
}

func asIs(in []Reading) []Reading { return in }

// mirrored gives the readings as they belong if the positions were counted the
// other way from the same first one.
func mirrored(in []Reading) []Reading {
	return reordered(in, func(i, n int) int { return (n - i) % n })
}

// turned gives them as they belong if the first position was by so many off.
func turned(by int) func([]Reading) []Reading {
	return func(in []Reading) []Reading {
		return reordered(in, func(i, n int) int { return (i + by + n) % n })
	}
}

func reordered(in []Reading, from func(i, n int) int) []Reading {
	out := make([]Reading, len(in))
	for i, r := range in {
		out[i] = r
		out[i].Value = in[from(i, len(in))].Value
	}
	return out
}
