package correct

import (
	"asleft/internal/assess"
	"asleft/internal/measure"
)

// clearance finds the slide, as the shims leave the fan.
func (p *planner) clearance() {
	s, ok := p.source(assess.Clearance)
	if !ok {
		return
	}
	p.gaps = s.readings()
	least, most := s.bounds()
	if least == nil && most == nil {
		return
	}
	problem := p.centerProblem(s, least, most)
	plan, err := SolveCenter(problem)
	if err != nil {
		p.note(needSurround)
		return
	}
	p.gaps = plan.Shimmed
	if plan.MarginShims >= 0 && !p.asked(assess.Clearance) && s.round.Verdict != assess.Outside {
		if p.shims != nil {
			p.predictGaps(s, &plan, plan.Shimmed, plan.MarginShims)
		}
		return
	}
	p.out.Center = &plan
	if p.out.Round == "" {
		p.out.Round = s.round.Key
	}
	p.judgeCenter(s, problem, &plan)
}

func (p *planner) centerProblem(s source, least, most *measure.Length) CenterProblem {
	g := &p.in.Geometry
	out := CenterProblem{Gaps: s.readings(), TipRadius: p.in.Diameter / 2, Least: least, Most: most,
		Step: p.step(), U: s.u, Segments: p.in.Segments}
	if p.shims != nil {
		if !g.HubHeight.Set {
			p.note(needHub)
		}
		out.shimmedPrecise = hubShift(g.HubHeight.Value, p.shims.taken)
		out.Shimmed = shiftOf(out.shimmedPrecise)
	}
	if g.SlotAlong.Set {
		out.Slots.Toward, out.Slots.Away = &g.SlotAlong.Value, &g.SlotAlong.Value
	}
	if g.SlotAcross.Set {
		out.Slots.Ninety, out.Slots.Other = &g.SlotAcross.Value, &g.SlotAcross.Value
	}
	for _, s := range p.in.Record.Stuck {
		if s.What.Value == p.shimmed() { // a slide takes all feet along
			out.Slots.block(s.Way.Value)
		}
	}
	return out
}

// judgeCenter decides between nothing, a slide, and a slide with work on the
// wall; the whole cylinder is always shown as the other way to slide.
func (p *planner) judgeCenter(s source, problem CenterProblem, plan *CenterPlan) {
	slide := Move{Kind: KindSlide, Event: p.event("slide"), Along: plan.Slide.Along, Front: plan.Slide.Across,
		Rear: plan.Slide.Across, Uncertainty: plan.Uncertainty, Notes: plan.Binding}
	cylinder := Move{Kind: KindCylinder, Event: "cylinder.adjust", Along: plan.Cylinder.Along,
		Front: plan.Cylinder.Across, Rear: plan.Cylinder.Across, Uncertainty: plan.Uncertainty}
	after, margin := plan.Shimmed, plan.MarginShims
	p.notes(plan.Notes...)
	switch gain := p.gain(plan); {
	case plan.MarginShims >= 0 && !p.asked(assess.Clearance):
		p.note(whyWithin, textArg("check", assess.Clearance))
	case !plan.Enough:
		p.wallAlone(s, problem)
	case !gain && plan.Margin < 0 && len(plan.Binding) > 0:
		p.note(whyNoVerdict, textArg("check", assess.Clearance), lengthArg("value", plan.Margin))
		p.wallAlone(s, problem)
	case !gain:
		p.note(whyNothing, textArg("check", assess.Clearance), lengthArg("move", plan.Slide.longest()),
			lengthArg("uncertainty", coverage*plan.Uncertainty))
		p.wallAlone(s, problem)
	case plan.Margin >= 0:
		p.slide(slide, cylinder, plan)
		after, margin = plan.After, plan.Margin
	case plan.wallCures(problem):
		p.slide(slide, cylinder, plan)
		after, margin = plan.After, plan.Margin
		p.wall(plan)
	default:
		p.note(whyNoVerdict, textArg("check", assess.Clearance), lengthArg("value", plan.Margin))
		p.instead(slide)
		p.instead(cylinder)
	}
	p.notes(plan.Binding...)
	p.limits(s, problem, plan)
	p.predictGaps(s, plan, after, margin)
}

// gain tells whether the slide is more than twice its uncertainty.
func (p *planner) gain(plan *CenterPlan) bool {
	return !plan.Slide.zero() && plan.Slide.longest() > coverage*plan.Uncertainty
}

func (p *planner) slide(slide, cylinder Move, plan *CenterPlan) {
	p.center = plan
	p.gaps = plan.After
	p.moved.Slide = plan.Slide
	p.needSlots()
	p.advise(slide)
	p.instead(cylinder)
}

func (p *planner) needSlots() {
	if g := &p.in.Geometry; !g.SlotAlong.Set || !g.SlotAcross.Set {
		p.note(needSlots)
	}
}

// wallAlone gives the wall's list without a slide.
func (p *planner) wallAlone(s source, problem CenterProblem) {
	none := measure.Length(0)
	problem.Slots = Slots{Toward: &none, Away: &none, Ninety: &none, Other: &none}
	still, err := SolveCenter(problem)
	if err != nil || still.Margin >= 0 || !still.wallCures(problem) || s.round.Verdict != assess.Outside {
		return
	}
	if still.Enough {
		p.wall(&still)
	}
}

// wallCures tells whether the gaps are within once the wall has been moved as
// listed.
func (c *CenterPlan) wallCures(p CenterProblem) bool {
	if len(c.Wall) != len(c.After) {
		return false
	}
	cured := make([]Reading, len(c.After))
	for i, r := range c.After {
		cured[i] = r
		cured[i].Value -= c.Wall[i].In
	}
	return p.margin(cured) >= 0
}

func (p *planner) wall(plan *CenterPlan) {
	p.advise(Move{Kind: KindWall, Event: "cylinder.adjust", Wall: plan.Wall})
}

// limits says what no slide can cure.
func (p *planner) limits(s source, problem CenterProblem, plan *CenterPlan) {
	if half, ok := halfZone(problem); ok && plan.Floor != nil && *plan.Floor > half {
		p.note(whyFloor, textArg("check", assess.Clearance), lengthArg("floor", *plan.Floor))
	}
	if plan.Margin < 0 && problem.Least != nil && problem.Most != nil && plan.MeanOver.Abs() > problem.Step {
		p.note(warnMean, lengthArg("amount", plan.MeanOver))
	}
	if s.u == 0 {
		p.note(warnUncertain, textArg("check", assess.Clearance))
	}
}

func halfZone(p CenterProblem) (measure.Length, bool) {
	if p.Least == nil || p.Most == nil {
		return 0, false
	}
	return (*p.Most - *p.Least) / 2, true
}

// predictGaps states the gaps as they will be read.
func (p *planner) predictGaps(s source, plan *CenterPlan, after []Reading, margin measure.Length) {
	expanded := worstOf(len(after), s.u)
	value := s.worstGap(after)
	p.out.Predictions = append(p.out.Predictions, Prediction{Check: assess.Clearance, Round: s.round.Key, Readings: after,
		Each: confirmed(s.u), Value: value, Expanded: expanded, Floor: plan.Floor, Before: s.round.Verdict,
		After: outcome(margin, expanded), Margin: &margin, Certificate: &plan.Certificate})
}

// worstGap is the reading with the least margin, as the check decides by.
func (s source) worstGap(in []Reading) measure.Length {
	lo, hi := extremes(in)
	least, most := s.bounds()
	if least == nil || most != nil && *most-hi < lo-*least {
		return hi
	}
	return lo
}
