package correct

import (
	"math"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// gearMoves tells whether a move above is of the gear reducer.
func (p *planner) gearMoves() bool { return p.shims != nil || p.center != nil }

// drive finds the motor's move. After a move of the gear reducer it waits: the
// drive line is always read again then.
func (p *planner) drive() {
	gear, ok := p.source(assess.CouplingGear)
	motor, okMotor := p.source(assess.CouplingMotor)
	if p.gearMoves() && !p.support() {
		p.note(warnDriveReread)
	}
	if !ok || !okMotor || !p.wanted(gear) && !p.wanted(motor) && !p.gearMoves() {
		return
	}
	problem, ok := p.driveProblem(gear, motor)
	if !ok {
		return
	}
	plan, err := SolveDrive(problem)
	if err != nil {
		p.note(needFlex)
		return
	}
	p.out.Drive = &plan
	p.judgeDrive(gear, motor, problem, &plan)
}

func (p *planner) driveProblem(gear, motor source) (DriveProblem, bool) {
	g := &p.in.Geometry
	out := DriveProblem{Span: g.FlexSpan.Value, FrontFeet: g.MotorFront.Value, RearFeet: g.MotorRear.Value,
		MotorStep: g.MotorStep.Value, PushStep: shimStep, GrowFront: g.GrowthFront.Value, GrowRear: g.GrowthRear.Value,
		U: max(faceUncertainty(gear, g.FaceGear.Value), faceUncertainty(motor, g.FaceMotor.Value)), Along: g.FlexGear.Value, Height: g.FlexHeight.Value, Moved: p.moved, RidesAlong: p.support()}
	var a, b bool
	out.Gear, a = faces(p.in.Record.Drive.CouplingGear, gear.round.Key, g.FaceGear)
	out.Motor, b = faces(p.in.Record.Drive.CouplingMotor, motor.round.Key, g.FaceMotor)
	if p.in.Metric {
		out.PushStep = shimStepMetric
	}
	if out.MotorStep <= 0 {
		out.MotorStep = out.PushStep
	}
	switch {
	case !a || !b:
		p.note(warnFaces)
		return out, false
	case !g.FlexSpan.Set || !g.FaceGear.Set || !g.FaceMotor.Set || p.gearMoves() && !p.support() && (!g.FlexGear.Set || !g.FlexHeight.Set):
		p.note(needFlex)
		return out, false
	case !g.MotorFront.Set || !g.MotorRear.Set:
		p.note(needMotorFeet)
		return out, false
	}
	p.ends(&out)
	out.MotorLimits = p.motorLimits()
	return out, true
}

// motorLimits gathers what is under the motor, what is at hand, and what is in
// the way.
func (p *planner) motorLimits() MotorLimits {
	out := MotorLimits{Stock: p.stock(), MaxPieces: max(p.in.Geometry.MaxPieces.Value, 0)}
	for _, f := range []struct {
		place string
		front bool
	}{{field.FrontNinety, true}, {field.FrontOther, true}, {field.RearNinety, false}, {field.RearOther, false}} {
		foot := MotorFoot{Place: f.place, Front: f.front}
		for _, s := range p.in.Record.MotorStacks {
			if s.Place == f.place && s.Now.Set {
				foot.Now, foot.Known, foot.Pieces = s.Now.Value, true, max(s.Pieces.Value, 0)
			}
		}
		out.Feet = append(out.Feet, foot)
	}
	for _, s := range p.in.Record.Stuck {
		if s.What.Value != stuckMotor {
			continue
		}
		for _, front := range []bool{true, false} {
			if !s.Feet.Set || s.Feet.Value == endName(front) {
				out.Blocked = append(out.Blocked, MotorWay{s.Way.Value, front})
			}
		}
	}
	return out
}

// faceUncertainty is that of one face reading. Where the contract judges by an
// angle it is stated of that: √2 readings over the face.
func faceUncertainty(s source, face measure.Length) measure.Length {
	x, ok := s.round.Result("uncertainty")
	if !ok || x.Amount.Kind != assess.KindSlope {
		return s.u
	}
	const billionth = 1e-9
	return nearest(float64(x.Amount.N) / coverage * billionth * float64(face) / math.Sqrt2)
}

// ends takes the distance between shaft ends where it was read.
func (p *planner) ends(out *DriveProblem) {
	s, ok := p.source(assess.ShaftEnds)
	if !ok {
		return
	}
	for _, r := range s.readings() {
		v := r.Value
		out.ShaftEnds = &v
		break
	}
	if l := s.check.Limit; l != nil && l.Nominal.Set && s.round.Verdict == assess.Outside {
		out.EndsNominal = &l.Nominal.Value
	}
}

// faces of a round; false where one of the four was not read.
func faces(c field.Coupling, round string, diameter field.Length) (Faces, bool) {
	out := Faces{Diameter: diameter.Value}
	n := 0
	for _, s := range c.Rounds {
		if s.Round != round {
			continue
		}
		for _, r := range s.Readings {
			if at := out.at(r.Index); at != nil && r.Value.Set {
				*at = r.Value.Value
				n++
			}
		}
	}
	return out, n == 4
}

func (f *Faces) at(clock int) *measure.Length {
	switch clock {
	case field.ClockTop:
		return &f.Top
	case field.ClockNinety:
		return &f.Ninety
	case field.ClockBottom:
		return &f.Bottom
	case field.ClockOther:
		return &f.Other
	}
	return nil
}

// judgeDrive advises the motor's moves where they make both couplings right and
// are more than the readings can show by chance.
func (p *planner) judgeDrive(gear, motor source, problem DriveProblem, plan *DrivePlan) {
	now := p.facesWithin(gear, plan.FacesGear) && p.facesWithin(motor, plan.FacesMotor)
	p.predictFaces(gear, problem.U, plan.FacesGear, plan.HotGear, now)
	p.predictFaces(motor, problem.U, plan.FacesMotor, plan.HotMotor, now)
	asked := p.asked(assess.CouplingGear) || p.asked(assess.CouplingMotor)
	if now && !asked {
		p.axial(problem, plan)
		return
	}
	u := max(plan.UncertainFront, plan.UncertainRear)
	moves := []Move{
		{Kind: KindMotorShim, Event: "motor.shim", Motor: plan.Shims, Uncertainty: u, Notes: plan.Notes, Stacks: problem.stackList(plan.Shims)},
		{Kind: KindMotorPush, Event: "motor.slide", Motor: plan.Push, Uncertainty: u},
	}
	cured := p.facesWithin(gear, plan.HotGear) && p.facesWithin(motor, plan.HotMotor)
	largest := measure.Length(0)
	for _, m := range moves {
		most := max(m.Motor.Front.Abs(), m.Motor.Rear.Abs())
		largest = max(largest, most)
		switch {
		case most <= coverage*u:
		case !cured:
			p.instead(m)
		default:
			p.motorMove(m)
		}
	}
	switch {
	case largest <= coverage*u && (cured || len(plan.Binding) == 0):
		p.note(whyNothing, textArg("check", assess.CouplingMotor), lengthArg("move", largest), lengthArg("uncertainty", coverage*u))
	case !cured:
		p.note(whyNoVerdict, textArg("check", assess.CouplingMotor), lengthArg("value", plan.HotMotor.spread()))
	}
	p.notes(plan.Binding...)
	p.axial(problem, plan)
}

// axial moves the motor along the shaft, unless something is in the way at either
// end.
func (p *planner) axial(problem DriveProblem, plan *DrivePlan) {
	way := towardMotor
	if plan.Axial < 0 {
		way = awayMotor
	}
	for _, front := range []bool{true, false} {
		if plan.Axial != 0 && problem.blocked(way, front) {
			p.note(bindMotor, textArg("feet", endName(front)), textArg("direction", way))
			return
		}
	}
	if plan.Axial != 0 {
		p.motorMove(Move{Kind: KindMotorAxial, Event: "motor.slide", Along: plan.Axial})
	}
}

// motorMove waits where the gear reducer moves first.
func (p *planner) motorMove(m Move) {
	if !p.gearMoves() {
		p.advise(m)
		return
	}
	if !noted(p.out.Notes, warnMotorFirst) {
		p.note(warnMotorFirst)
	}
	p.later = append(p.later, m)
}

func noted(notes []assess.Code, key string) bool {
	for _, n := range notes {
		if n.Key == key {
			return true
		}
	}
	return false
}

// predictFaces states the faces that the next reading will find: after the gear
// reducer's move, or, where that is not moved, after the motor's.
func (p *planner) predictFaces(s source, u measure.Length, moved, hot Faces, now bool) {
	f := hot
	if p.gearMoves() || now {
		f = moved
	}
	readings := []Reading{{Position: field.ClockTop, Value: f.Top}, {Position: field.ClockNinety, Value: f.Ninety},
		{Position: field.ClockBottom, Value: f.Bottom}, {Position: field.ClockOther, Value: f.Other}}
	x := Prediction{Check: s.check.Key, Round: s.round.Key, Readings: readings, Value: f.spread(), Before: s.round.Verdict,
		Each: confirmed(u), Expanded: rangeOf(4, u), After: assess.Outside}
	if p.facesWithin(s, f) {
		x.After = assess.Within
	}
	p.out.Predictions = append(p.out.Predictions, x)
}

// spread is the highest less the lowest of the four.
func (f Faces) spread() measure.Length {
	return max(f.Top, f.Ninety, f.Bottom, f.Other) - min(f.Top, f.Ninety, f.Bottom, f.Other)
}

// facesWithin judges by the kind that the contract names. Without a limit there
// is no verdict, and nothing to move for.
func (p *planner) facesWithin(s source, f Faces) bool {
	l := s.check.Limit
	if l == nil {
		return true
	}
	v := measure.Slope{Rise: f.Bottom - f.Top, Run: f.Diameter}
	h := measure.Slope{Rise: f.Other - f.Ninety, Run: f.Diameter}
	switch l.Criterion.Value {
	case assess.CriterionPlane:
		return v.Abs().Cmp(l.Slope.Value) <= 0 && h.Abs().Cmp(l.Slope.Value) <= 0
	case assess.CriterionTotal:
		return measure.CmpHypotSlope(v, h, l.Slope.Value) <= 0
	}
	return f.spread() <= l.Max.Value
}
