package correct

import (
	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Codes of what is shimmed.
const shimmedSupport = "support"

func (p *planner) support() bool { return p.in.Geometry.Shimmed.Value == shimmedSupport }

// event names a move of what is shimmed as the log does.
func (p *planner) event(what string) string {
	if p.support() {
		return "support." + what
	}
	return "gear." + what
}

// tilt finds the shims.
func (p *planner) tilt() {
	s, ok := p.source(assess.Tilt)
	if !ok {
		return
	}
	_, limit := s.bounds()
	pred := Prediction{Check: assess.Tilt, Readings: s.readings(), Before: s.round.Verdict, After: s.round.Verdict}
	pred.Value = spread(pred.Readings)
	if !p.wanted(s) {
		return
	}
	problem, ok := p.shimProblem(s)
	if !ok {
		return
	}
	plan, err := SolveShims(problem)
	if err != nil {
		p.note(needSurround)
		return
	}
	p.out.Shims, p.out.Round = &plan, s.round.Key
	p.judgeShims(s, limit, &plan)
	pred.Floor, pred.Certificate = &plan.Floor, &plan.Certificate
	if p.shims != nil {
		pred.Readings, pred.Value = plan.Drops, plan.After
	}
	p.predict(pred, limit, rangeOf(len(plan.Drops), s.u), s.u)
}

// predict completes a prediction that is judged by a largest allowed value.
func (p *planner) predict(x Prediction, limit *measure.Length, expanded, u measure.Length) {
	x.Each, x.Expanded = confirmed(u), expanded
	if limit != nil {
		m := *limit - x.Value
		x.Margin, x.After = &m, outcome(m, expanded)
	}
	p.out.Predictions = append(p.out.Predictions, x)
}

// judgeShims decides whether the plan is advised: it must change the verdict, and
// gain more than the readings can show by chance.
func (p *planner) judgeShims(s source, limit *measure.Length, plan *ShimPlan) {
	m := Move{Kind: KindShim, Event: p.event("shim"), Feet: plan.Feet, Notes: plan.Binding}
	if plan.OutOfPlane != 0 {
		m.Notes = append(m.Notes, code(warnResidual, numberArg("foot", plan.OutOfFoot), lengthArg("rise", plan.OutOfPlane)))
	}
	gain := plan.Before - plan.After
	switch {
	case !plan.Changes() || gain <= rangeOf(2, s.u):
		p.note(whyNothing, textArg("check", assess.Tilt), lengthArg("move", gain), lengthArg("uncertainty", rangeOf(2, s.u)))
	case limit != nil && plan.After > *limit:
		p.note(whyNoVerdict, textArg("check", assess.Tilt), lengthArg("value", plan.After))
		p.instead(m)
	default:
		p.shims = plan
		p.moved.Slope, p.moved.slope, p.moved.Raised = plan.Taken, plan.taken, plan.Raised
		p.advise(m)
	}
	if limit != nil && plan.Floor > *limit {
		p.note(whyFloor, textArg("check", assess.Tilt), lengthArg("floor", plan.Floor))
	}
	p.notes(plan.Binding...)
	if s.u == 0 {
		p.note(warnUncertain, textArg("check", assess.Tilt))
	}
}

// shimProblem gathers the problem, or notes what is not there.
func (p *planner) shimProblem(s source) (ShimProblem, bool) {
	g, cell := &p.in.Geometry, &p.in.Record
	out := ShimProblem{Drops: s.readings(), Radius: cell.Tilt.Radius.Value, Feet: p.feet(), Step: g.ShimStep.Value,
		MaxPieces: max(g.MaxPieces.Value, 0), Level: p.level()}
	switch {
	case cell.Tilt.Sense.Value == "":
		p.note(needSense)
		return out, false
	case !cell.Tilt.Radius.Set || out.Radius <= 0:
		p.note(needRadius)
		return out, false
	case len(out.Feet) < 3:
		p.note(needFeet)
		return out, false
	}
	if !g.ShimStep.Set || out.Step <= 0 {
		p.note(needStep)
		out.Step = shimStep
		if p.in.Metric {
			out.Step = shimStepMetric
		}
	}
	if !out.Feet[0].Known {
		p.note(needStacks)
	}
	return out, true
}

// feet with today's stacks. A stack that is not given makes all of them unknown:
// what is taken out of one would have to be known of the others.
func (p *planner) feet() []Foot {
	var out []Foot
	known := true
	for _, f := range p.in.Geometry.Feet {
		foot := Foot{Number: f.Number, Along: f.Along.Value, Across: f.Across.Value}
		for _, s := range p.in.Record.Stacks {
			if s.Foot == f.Number && s.Now.Set {
				foot.Now, foot.Known, foot.Pieces = s.Now.Value, true, max(s.Pieces.Value, 0)
			}
		}
		known = known && foot.Known
		if f.Along.Set && f.Across.Set {
			out = append(out, foot)
		}
	}
	for i := range out {
		if !known {
			out[i].Now, out[i].Pieces, out[i].Known = 0, 0, false
		}
	}
	return out
}

// level is the gear reducer's own, nil where it or its limit is not known.
func (p *planner) level() *OwnLevel {
	c := p.in.Cell.Check(assess.GearLevel)
	if c == nil || c.Limit == nil || !c.Limit.Slope.Set {
		return nil
	}
	s, ok := p.source(assess.GearLevel)
	if !ok {
		p.note(needLevel)
		return nil
	}
	out := &OwnLevel{Limit: c.Limit.Slope.Value}
	ways := 0
	for _, series := range p.in.Record.Drive.GearLevel.Rounds {
		if series.Round == s.round.Key {
			ways = out.take(series.Readings)
		}
	}
	if ways != 2 {
		p.note(needLevel)
		return nil
	}
	return out
}

// take reads both ways and returns how many were read.
func (o *OwnLevel) take(in []field.Reading[field.Slope]) int {
	ways := 0
	for _, r := range in {
		switch {
		case !r.Value.Set:
		case r.Index == 1:
			o.Along = r.Value.Value
			ways++
		case r.Index == 2:
			o.Across = r.Value.Value
			ways++
		}
	}
	return ways
}
