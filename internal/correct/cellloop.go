package correct

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// loop compares the last two rounds where the log has moves of the gear reducer
// or its support between them.
func (p *planner) loop() {
	tilt, gaps := p.rounds(assess.Tilt), p.rounds(assess.Clearance)
	done, cylinder, any := p.done(tilt, gaps)
	if !any {
		return
	}
	out := LoopProblem{Radius: p.in.Record.Tilt.Radius.Value, TipRadius: p.in.Diameter / 2, Feet: p.feet(),
		HubHeight: p.in.Geometry.HubHeight.Value, FrontAt: p.in.Geometry.SlideFront.Value,
		RearAt: p.in.Geometry.SlideRear.Value, Done: done, Pairs: min(p.in.TiltPairs, p.in.ClearancePairs)}
	if len(tilt) == 2 && out.Radius > 0 {
		out.Found, out.Left = readingsOf(tilt[0]), readingsOf(tilt[1])
		out.U, out.Pairs = readingUncertainty(assess.Tilt, tilt[1]), p.in.TiltPairs
	}
	if len(gaps) == 2 && !cylinder && gaps[0].Blade == gaps[1].Blade && gaps[0].Blade != 0 {
		out.FoundGaps, out.LeftGaps = readingsOf(gaps[0]), readingsOf(gaps[1])
		out.UGaps = readingUncertainty(assess.Clearance, gaps[1])
		out.Pairs = p.in.ClearancePairs
		if len(out.Found) > 0 {
			out.Pairs = min(p.in.TiltPairs, p.in.ClearancePairs)
		}
	}
	found, err := CloseLoop(out)
	if err != nil {
		found = Loop{Code: code(loopNotRead)}
	}
	p.out.Loop = &found
}

// rounds returns the last two complete rounds of a check, earlier first; fewer
// where there are not two. An incomplete ring cannot be turned or counted the
// other way.
func (p *planner) rounds(key string) []*assess.Round {
	c := p.in.Cell.Check(key)
	if c == nil {
		return nil
	}
	var out []*assess.Round
	for i := range c.Rounds {
		if r := &c.Rounds[i]; r.Found > 0 && r.Found == r.Expected {
			out = append(out, r)
		}
	}
	if len(out) > 2 {
		out = out[len(out)-2:]
	}
	return out
}

// done sums the logged moves between the two rounds of a check; cylinder tells
// whether the wall or a blade was moved, too.
func (p *planner) done(tilt, gaps []*assess.Round) (sum Logged, cylinder, any bool) {
	rounds := tilt
	if len(rounds) != 2 {
		rounds = gaps
	}
	if len(rounds) != 2 {
		return Logged{}, false, false
	}
	for _, m := range p.in.Record.Moves {
		if before(m, rounds[0].Head) || !before(m, rounds[1].Head) {
			continue
		}
		switch m.Event.Value {
		case p.event("shim"), p.event("slide"):
			sum.add(m)
			any = true
		default:
			cylinder = cylinder || slices.Contains(p.overtakes(m.Event.Value), assess.Clearance)
		}
	}
	return sum, cylinder, any
}

func (d *Logged) add(m field.Move) {
	for _, f := range m.Feet {
		if f.Was.Set && f.Now.Set {
			d.Feet = append(d.Feet, FootMoved{f.Foot, f.Now.Value - f.Was.Value})
		}
	}
	value := func(l field.Length) measure.Length { return l.Value }
	d.Along += value(m.Along)
	d.Front += value(m.Front)
	d.Rear += value(m.Rear)
}
