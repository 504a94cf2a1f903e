package correct

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// FewestCompared is the least number of positions at which rounds are compared:
// a mean and two slopes leave two that can speak against the log. Common
// practice, no source.
const FewestCompared = 5

// loop compares the last two rounds of tilt, and of the clearance of one blade,
// where the log has moves of the gear reducer or its support between them. Each
// of the two follows from the moves between its own rounds.
func (p *planner) loop() {
	tilt, gaps := p.pair(assess.Tilt), p.pair(assess.Clearance)
	if !tilt.any && !gaps.any {
		return
	}
	out := LoopProblem{Radius: p.in.Record.Tilt.Radius.Value, TipRadius: p.in.Diameter / 2, Feet: p.feet(),
		HubHeight: p.in.Geometry.HubHeight.Value, FrontAt: p.in.Geometry.SlideFront.Value,
		RearAt: p.in.Geometry.SlideRear.Value}
	var notes []assess.Code
	var held []Compared
	if tilt.usable(&notes) && out.Radius > 0 {
		out.Found, out.Left, out.Ring, out.Done = tilt.found, tilt.left, tilt.ring, tilt.done
		out.U, out.Pairs = readingUncertainty(assess.Tilt, tilt.later), p.in.TiltPairs
		held = append(held, tilt.held())
	}
	if gaps.usable(&notes) {
		out.FoundGaps, out.LeftGaps, out.RingGaps, out.DoneGaps = gaps.found, gaps.left, gaps.ring, gaps.done
		out.UGaps = readingUncertainty(assess.Clearance, gaps.later)
		held = append(held, gaps.held())
		out.Pairs = p.in.ClearancePairs
		if len(out.Found) > 0 {
			out.Pairs = min(p.in.TiltPairs, p.in.ClearancePairs)
		}
	}
	found, err := CloseLoop(out)
	switch {
	case err == nil:
		found.Notes, found.Compared = notes, held
	case len(notes) > 0:
		found = Loop{Code: notes[0], Notes: notes[1:]}
	default:
		found = Loop{Code: code(loopNotRead)}
	}
	p.out.Loop = &found
}

// compared is the last two rounds of a check and what the log has between them.
type compared struct {
	check          string
	earlier, later *assess.Round // nil where there are not two
	found, left    []Reading     // at the positions that both hold
	ring           []int
	done           Logged
	any            bool // the log has a move that the readings follow from
	other          bool // and one that they cannot be foretold after
}

func (c *compared) held() Compared { return Compared{c.check, c.earlier.Key, c.later.Key} }

// pair finds the last two rounds of a check that say enough to be compared, or
// else the last two.
func (p *planner) pair(check string) compared {
	out := compared{check: check}
	c := p.in.Cell.Check(check)
	if c == nil {
		return out
	}
	var all, enough []*assess.Round
	for i := range c.Rounds {
		r := &c.Rounds[i]
		if r.Found == 0 {
			continue
		}
		all = append(all, r)
		if surrounds(readingsOf(r)) {
			enough = append(enough, r)
		}
	}
	if len(enough) >= 2 {
		all = enough
	}
	if len(all) < 2 {
		return out
	}
	out.earlier, out.later = all[len(all)-2], all[len(all)-1]
	out.found, out.left = both(readingsOf(out.earlier), readingsOf(out.later))
	for _, x := range out.later.Points {
		out.ring = append(out.ring, x.Index)
	}
	p.logged(&out)
	return out
}

// both keeps the positions that both rounds hold.
func both(found, left []Reading) (a, b []Reading) {
	for _, r := range found {
		i := slices.IndexFunc(left, func(l Reading) bool { return l.Position == r.Position })
		if i >= 0 {
			a, b = append(a, r), append(b, left[i])
		}
	}
	return a, b
}

// surrounds tells whether the readings are enough to be compared: so many, and
// no half of the ring without one.
func surrounds(in []Reading) bool {
	if len(in) < FewestCompared {
		return false
	}
	var at []measure.Angle
	for _, r := range in {
		at = append(at, r.Degrees.Normalize())
	}
	slices.Sort(at)
	widest := at[0] + 360*measure.Degree - at[len(at)-1]
	for i := range len(at) - 1 {
		widest = max(widest, at[i+1]-at[i])
	}
	return widest < 180*measure.Degree
}

// usable tells whether the two rounds can be compared, and says why not.
func (c *compared) usable(notes *[]assess.Code) bool {
	switch {
	case !c.any:
		return false
	case c.other:
		*notes = append(*notes, code(loopOther, textArg("check", c.check)))
	case c.check == assess.Clearance && (c.earlier.Blade != c.later.Blade || c.later.Blade == 0):
		*notes = append(*notes, code(loopBlade, textArg("check", c.check)))
	case !surrounds(c.found):
		*notes = append(*notes, code(loopFew, textArg("check", c.check), numberArg("found", len(c.found)), numberArg("needed", FewestCompared)))
	default:
		return true
	}
	return false
}

// logged sums the moves that the log has between the two rounds.
func (p *planner) logged(c *compared) {
	for _, m := range p.in.Record.Moves {
		if before(m, c.earlier.Head) || !before(m, c.later.Head) {
			continue
		}
		switch m.Event.Value {
		case p.event("shim"), p.event("slide"):
			c.done.add(m)
			c.any = true
		default:
			c.other = c.other || p.unforeseen(m.Event.Value, c.check)
		}
	}
}

// unforeseen tells whether an event changes the readings of the check by what
// nobody logged. Letting go and tightening again is part of every move.
func (p *planner) unforeseen(event, check string) bool {
	const adjusted, onCylinder = "cylinder.adjust", "cylinder"
	if event == p.event("loosen") || event == adjusted && check == assess.Tilt && p.in.Record.Tilt.Reference.Value != onCylinder {
		return false
	}
	return slices.Contains(p.overtakes(event), check)
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
