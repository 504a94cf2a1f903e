package correct

import (
	"asleft/internal/assess"
	"asleft/internal/measure"
)

// hubs looks for a cycle over the blades before any single blade is blamed.
func (p *planner) hubs() {
	for _, key := range []string{assess.Track, assess.TipRadius} {
		c := p.in.Cell.Check(key)
		if c == nil || len(c.Rounds) == 0 {
			continue
		}
		if cycle, s, ok := p.cycle(key); ok && p.wanted(s) && cycle.Named {
			p.hub = true
			p.advise(Move{Kind: KindHub, Event: "hub.open", Notes: []assess.Code{code(warnHub, textArg("check", key),
				lengthArg("amount", measure.Length(cycle.Amplitude)), numberArg("blade", cycle.Blade))}})
		}
	}
}

func (p *planner) cycle(key string) (Cycle, source, bool) {
	s, ok := p.source(key)
	if !ok {
		return Cycle{}, s, false
	}
	return SolveCycle(s.blades(), p.in.Blades), s, true
}

// tipRadius finds the fewest blades to move in or out.
func (p *planner) tipRadius() {
	cycle, s, ok := p.cycle(assess.TipRadius)
	_, most := s.boundsIf(ok)
	if !ok || most == nil || !p.wanted(s) {
		return
	}
	b := BladeProblem{Blades: s.blades(), Width: int64(*most), Step: int64(p.step())}
	p.clearanceOf(&b)
	plan := SolveBlades(b)
	slides := p.in.Geometry.BladesSlide
	switch {
	case slides.Set && !slides.Value:
		p.note(bindBlades)
		return
	case !plan.Possible:
		p.note(bindClearance)
		return
	case !slides.Set:
		p.note(needSlide)
	}
	if plan.Conditioned {
		p.note(bindClearance)
	}
	m := Move{Kind: KindBladeOut, Event: "blade.move", Blades: changes(plan.Touch, assess.KindLength),
		Notes: []assess.Code{code(warnBalance), code(warnLongest)}}
	p.blades(s, m, plan, cycle.Named, most)
}

// blades advises a list of blades, or shows it where the hub comes first.
func (p *planner) blades(s source, m Move, plan BladePlan, hubFirst bool, limit *measure.Length) {
	if len(plan.Touch) == 0 {
		return
	}
	if hubFirst {
		p.instead(m)
		return
	}
	p.advise(m)
	after := after(s.blades(), plan)
	kind := assess.KindLength
	if m.Kind == KindBladePitch {
		kind = assess.KindAngle
	}
	p.predict(Prediction{Check: s.check.Key, Round: s.round.Key, Kind: kind, Readings: after, Value: spread(after), Before: s.round.Verdict,
		After: s.round.Verdict}, limit, rangeOf(len(after), s.u), s.u)
}

func after(blades []BladeValue, plan BladePlan) []Reading {
	var out []Reading
	for _, b := range blades {
		r := Reading{Position: b.Blade, Value: measure.Length(b.Value)}
		for _, t := range plan.Touch {
			if t.Blade == b.Blade {
				r.Value = measure.Length(t.New)
			}
		}
		out = append(out, r)
	}
	return out
}

func (s source) boundsIf(ok bool) (least, most *measure.Length) {
	if !ok {
		return nil, nil
	}
	return s.bounds()
}

// clearanceOf is what the kept blades must have so that they also clear the wall
// after centering: at position i blade j has the gap gap_i + (r_j − r_carried).
func (p *planner) clearanceOf(b *BladeProblem) {
	c := p.in.Cell.Check(assess.Clearance)
	carried, ok := p.carried(b.Blades)
	if c == nil || len(p.gaps) == 0 || !ok {
		p.note(warnUnchecked, textArg("check", assess.Clearance))
		return
	}
	lo, hi := extremes(p.gaps)
	least, most := assess.Bounds(assess.Clearance, c.Limit)
	if least != nil {
		v := least.N + carried - int64(lo)
		b.Least = &v
	}
	if most != nil {
		v := most.N + carried - int64(hi)
		b.LongestMost = &v
	}
	all := p.in.Cell.Check(assess.ClearanceAll)
	if all == nil {
		return
	}
	least, most = assess.Bounds(assess.ClearanceAll, all.Limit)
	if least != nil {
		v := least.N + carried - int64(lo)
		if b.Least == nil || v > *b.Least {
			b.Least = &v
		}
	}
	if most != nil {
		v := most.N + carried - int64(hi)
		b.Most = &v
	}
}

// carried is the tip-radius gap of the blade whose clearance was read.
func (p *planner) carried(blades []BladeValue) (int64, bool) {
	s, ok := p.source(assess.Clearance)
	if !ok {
		return 0, false
	}
	for _, b := range blades {
		if b.Blade == s.round.Blade {
			return b.Value, true
		}
	}
	return 0, false
}

// track finds the fewest blades whose seats to look at: no blade is moved in or
// out for its height.
func (p *planner) track() {
	cycle, s, ok := p.cycle(assess.Track)
	_, most := s.boundsIf(ok)
	if !ok || most == nil || !p.wanted(s) {
		return
	}
	plan := SolveBlades(BladeProblem{Blades: s.blades(), Width: int64(*most), Step: int64(p.step())})
	m := Move{Kind: KindBladeSeat, Event: "blade.move", Blades: changes(plan.Touch, assess.KindLength)}
	p.blades(s, m, plan, cycle.Named, most)
}

// pitch finds the fewest blades to turn: the kept ones meet the set angle and lie
// within the spread.
func (p *planner) pitch() {
	s, ok := p.source(assess.Pitch)
	if !ok {
		return
	}
	spreadOf, okSpread := p.source(assess.PitchSpread)
	if !p.wanted(s) && !(okSpread && p.wanted(spreadOf)) {
		return
	}
	b := BladeProblem{Blades: s.blades(), Step: int64(pitchStep), Width: bladeSpread(s.blades())}
	least, most := assess.Bounds(assess.Pitch, s.check.Limit)
	if least != nil && most != nil {
		b.Least, b.Most = &least.N, &most.N
		target := least.N + (most.N-least.N)/2
		b.Target, b.Width = &target, most.N-least.N
	}
	if okSpread {
		if _, width := assess.Bounds(assess.PitchSpread, spreadOf.check.Limit); width != nil {
			b.Width = min(b.Width, width.N)
		}
	}
	plan := p.pitchPlan(b)
	m := Move{Kind: KindBladePitch, Event: "blade.pitch", Blades: changes(plan.Touch, assess.KindAngle)}
	p.blades(s, m, plan, false, nil)
}

// pitchPlan sets every blade where none can be kept.
func (p *planner) pitchPlan(b BladeProblem) BladePlan {
	plan := SolveBlades(b)
	if plan.Possible || b.Target == nil {
		return plan
	}
	plan.Possible = true
	for _, v := range b.Blades {
		s := BladeSet{Blade: v.Blade, Now: v.Value, New: b.settable(v.Value, *b.Target, *b.Target-b.Width/2, *b.Target+b.Width/2)}
		s.Change = s.New - s.Now
		plan.Touch = append(plan.Touch, s)
	}
	return plan
}

func changes(in []BladeSet, kind assess.Kind) []BladeChange {
	var out []BladeChange
	for _, s := range in {
		amount := func(n int64) assess.Amount { return assess.Amount{Kind: kind, N: n} }
		out = append(out, BladeChange{s.Blade, amount(s.Now), amount(s.Change), amount(s.New)})
	}
	return out
}
