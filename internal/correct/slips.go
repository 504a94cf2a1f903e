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
// others and against the log as it is. Where positions were not read, all of
// them are weighed by the readings that every one of them foretells.
func (p *LoopProblem) name(out *Loop) {
	out.Code = code(loopDiffers)
	p, rings := p.weighed()
	if p.freedom() < 1 {
		return
	}
	all := p.hypotheses(rings)
	best, least := "", math.Inf(1)
	for _, h := range all {
		if h.slip != "" && h.chi < least {
			best, least = h.slip, h.chi
		}
	}
	if best == "" || least > p.quantile(1-loopFit) {
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
	if out.Odds >= loopOdds {
		out.Slip = best
		out.Code = code(loopSlip, textArg("slip", best), numberArg("odds", int(out.Odds)))
	}
}

// hypotheses weighs every slip that can be told from the log at all.
func (p *LoopProblem) hypotheses(rings rings) []hypothesis {
	var out []hypothesis
	readAs := func(slip string, done moved, found, left order) {
		drops, gaps := p.predict(rings.found.as(found), rings.foundGaps.as(found), done)
		out = append(out, hypothesis{slip, p.chi(drops, gaps, rings.left.as(left), rings.leftGaps.as(left))})
	}
	movedAs := func(slip string, done moved) { readAs(slip, done, asIs, asIs) }
	log := p.log()

	movedAs("", log)
	for _, o := range []struct {
		slip string
		turn order
	}{{SlipCountedOther, mirrored}, {SlipOneOff, turned(1)}, {SlipOneOff, turned(-1)}} {
		readAs(o.slip, log, asIs, o.turn)
		readAs(o.slip, log, o.turn, asIs)
		readAs(o.slip, log, o.turn, o.turn)
	}
	movedAs(SlipBackwards, log.scaled(-1, 1))
	movedAs(SlipBackwards, log.scaled(1, -1))
	movedAs(SlipBackwards, log.scaled(-1, -1))
	movedAs(SlipNotMade, log.scaled(0, 0))
	for _, f := range []float64{measure.Inch.Float(measure.UnitMillimeter), 10} {
		for _, f := range []float64{f, 1 / f} {
			movedAs(SlipUnit, log.scaled(f, 1))
			movedAs(SlipUnit, log.scaled(1, f))
			movedAs(SlipUnit, log.scaled(f, f))
		}
	}
	for _, mixed := range p.mixed() {
		movedAs(SlipFeet, mixed)
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

func (m moved) scaled(shims, slides float64) moved {
	return moved{m.tilt.scaled(shims, slides), m.gaps.scaled(shims, slides)}
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
func (p *LoopProblem) mixed() []moved {
	n := len(p.Feet)
	if n == 0 || len(p.Done.Feet)+len(p.DoneGaps.Feet) == 0 {
		return nil
	}
	place := make(map[int]int, n)
	for k, f := range p.Feet {
		place[f.Number] = k
	}
	var out []moved
	for _, way := range []int{1, -1} {
		for first := range n {
			if way == 1 && first == 0 {
				continue
			}
			to := func(foot int) (int, bool) {
				k, known := place[foot]
				return p.Feet[((first+way*k)%n+n)%n].Number, known
			}
			out = append(out, moved{p.Done.under(to), p.DoneGaps.under(to)})
		}
	}
	return out
}

// under is the log with the shims under other feet.
func (d Logged) under(to func(foot int) (int, bool)) Logged {
	out := d
	out.Feet = nil
	for _, f := range d.Feet {
		if foot, known := to(f.Foot); known {
			out.Feet = append(out.Feet, FootMoved{foot, f.Change})
		}
	}
	return out
}
