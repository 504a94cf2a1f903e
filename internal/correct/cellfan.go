package correct

import (
	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Codes of what is shimmed.
const shimmedSupport = "support"

// Codes of what cannot be moved.
const (
	stuckShims = "shims"
	stuckMotor = "motor"
	endFront   = "front"
	endRear    = "rear"
)

func (p *planner) support() bool { return p.in.Geometry.Shimmed.Value == shimmedSupport }

// shimmed is the code of what is shimmed, as the log and what cannot be moved
// name it.
func (p *planner) shimmed() string {
	if p.support() {
		return shimmedSupport
	}
	return "gear"
}

// event names a move of what is shimmed as the log does.
func (p *planner) event(what string) string { return p.shimmed() + "." + what }

// tilt finds the shims.
func (p *planner) tilt() {
	s, ok := p.source(assess.Tilt)
	if !ok {
		return
	}
	_, limit := s.bounds()
	pred := Prediction{Check: assess.Tilt, Round: s.round.Key, Readings: s.readings(), Before: s.round.Verdict, After: s.round.Verdict}
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
	nothing := !plan.Changes() || gain <= rangeOf(2, s.u)
	switch {
	case nothing && limit != nil && plan.After > *limit && len(plan.Binding) > 0:
		p.note(whyNoVerdict, textArg("check", assess.Tilt), lengthArg("value", plan.After))
	case nothing:
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
		MaxPieces: max(g.MaxPieces.Value, 0), Stock: p.stock(), Level: p.level()}
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
		out.Step = p.finest(out.Stock)
	}
	if !out.Feet[0].Known {
		p.note(needStacks)
	}
	return out, true
}

// stock is the thicknesses of shims at hand, nil where not given.
func (p *planner) stock() []measure.Length {
	var out []measure.Length
	for _, s := range p.in.Geometry.Stock {
		if s.Thickness.Set && s.Thickness.Value > 0 {
			out = append(out, s.Thickness.Value)
		}
	}
	return out
}

// finest is the step that stacks of stock can be told apart by, where the form
// gives no thinnest shim; the usual one where it gives no stock either.
func (p *planner) finest(stock []measure.Length) measure.Length {
	if s := newStockroom(stock); s != nil && s.unit >= measure.Thou/10 {
		return s.unit
	}
	p.note(needStep)
	if p.in.Metric {
		return shimStepMetric
	}
	return shimStep
}

// fixedFoot tells whether the stack of a foot must stay as it is.
func (p *planner) fixedFoot(f field.Foot) bool {
	mean := measure.Length(0)
	for _, o := range p.in.Geometry.Feet {
		mean += o.Along.Value / measure.Length(len(p.in.Geometry.Feet))
	}
	front := f.Along.Value > mean
	for _, s := range p.in.Record.Stuck {
		if s.What.Value != p.shimmed() || s.Way.Value != stuckShims {
			continue
		}
		if s.Foot.Set && s.Foot.Value != f.Number || s.Feet.Value == endFront && !front || s.Feet.Value == endRear && front {
			continue
		}
		return true
	}
	return false
}

// feet with today's stacks. A stack that is not given makes all of them unknown:
// what is taken out of one would have to be known of the others.
func (p *planner) feet() []Foot {
	var out []Foot
	known := true
	for _, f := range p.in.Geometry.Feet {
		foot := Foot{Number: f.Number, Along: f.Along.Value, Across: f.Across.Value, Fixed: p.fixedFoot(f)}
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
	lean, _, ok := p.levelRead()
	if !ok {
		p.note(needLevel)
		return nil
	}
	return &OwnLevel{Lean: lean, Limit: c.Limit.Slope.Value}
}

// levelRead is the gear reducer's own level where it was read both ways.
func (p *planner) levelRead() (Lean, source, bool) {
	s, ok := p.source(assess.GearLevel)
	if !ok {
		return Lean{}, s, false
	}
	var lean Lean
	ways := 0
	for _, series := range p.in.Record.Drive.GearLevel.Rounds {
		if series.Round == s.round.Key {
			ways = lean.take(series.Readings)
		}
	}
	return lean, s, ways == 2
}

// predictLevel states the gear reducer's own level once the shims have raised it.
func (p *planner) predictLevel() {
	if p.shims == nil {
		return
	}
	said := len(p.out.Notes)
	lean, s, ok := p.levelRead()
	if !ok {
		p.out.Notes = p.out.Notes[:said] // nobody asked for it
		return
	}
	taken := p.shims.taken
	along, across := billionths(lean.Along.Float()+taken.x), billionths(lean.Across.Float()+taken.y)
	x := Prediction{Check: assess.GearLevel, Round: s.round.Key, Kind: assess.KindSlope, Value: max(along.Abs(), across.Abs()),
		Readings: []Reading{{Position: 1, Value: along}, {Position: 2, Value: across}}, Before: s.round.Verdict, After: s.round.Verdict}
	var limit *measure.Length
	if l := s.check.Limit; l != nil && l.Slope.Set {
		b := billionths(l.Slope.Value.Abs().Float())
		limit = &b
	}
	p.predict(x, limit, worstOf(2, s.u), s.u)
}

// billionths is a slope in the base unit of amounts.
func billionths(x float64) measure.Length { return nearest(x * 1e9) }

// take reads both ways and returns how many were read.
func (o *Lean) take(in []field.Reading[field.Slope]) int {
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
