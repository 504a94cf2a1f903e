package correct

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// CellInput is everything that the moves of one cell follow from.
type CellInput struct {
	Cell     assess.Cell // as assessed
	Record   field.Cell  // stacks, drive line, log and what says how the readings were taken
	Geometry field.Geometry
	Blades   int // of the fan
	Segments int // of the cylinder, 0 where not known
	Diameter measure.Length
	Metric   bool // slides and blades in half millimeters instead of 1/64 in
	Rules    assess.Rules
	Asked    []string // checks to improve although they are within
	// Return readings that repeatability was pooled from, over the tower; 0 where
	// there are none.
	TiltPairs, ClearancePairs int
}

// Steps that slides and blades are set to where the form gives none.
const (
	slideStep       = measure.SixtyFourth
	slideStepMetric = measure.Millimeter / 2
	shimStep        = measure.Thou
	shimStepMetric  = 20 * measure.Micrometer
	pitchStep       = measure.Degree / 10
)

// planner is the work on one cell.
type planner struct {
	in     *CellInput
	out    *Moves
	shims  *ShimPlan // advised
	center *CenterPlan
	hub    bool // a hub is to be opened first
	gaps   []Reading
	later  []Move
	moved  GearMoved
}

// CellPlan says what to move in one cell: tilt, then the fan center as the shims
// leave it, blades, wall, and the drive line last. A check that is within is
// left alone unless asked for, or unless an earlier move takes it outside.
func CellPlan(in CellInput) Moves {
	p := &planner{in: &in, out: &Moves{Cell: in.Cell.Number}}
	p.hubs()
	p.tilt()
	p.clearance()
	p.tipRadius()
	p.track()
	p.pitch()
	p.drive()
	p.predictLevel()
	p.fill()
	p.reread()
	p.loop()
	return *p.out
}

// note says a thing once.
func (p *planner) note(key string, args ...assess.Arg) { p.notes(code(key, args...)) }

func (p *planner) notes(in ...assess.Code) {
	for _, n := range in {
		if !slices.ContainsFunc(p.out.Notes, func(m assess.Code) bool { return sameCode(m, n) }) {
			p.out.Notes = append(p.out.Notes, n)
		}
	}
}

func (p *planner) step() measure.Length {
	if p.in.Metric {
		return slideStepMetric
	}
	return slideStep
}

func (p *planner) asked(check string) bool { return slices.Contains(p.in.Asked, check) }

// advise puts a move in; what hangs on readings that opening the hub overtakes
// waits for them.
func (p *planner) advise(m Move) {
	if p.hub && m.Kind != KindHub && m.Kind != KindShim {
		p.later = append(p.later, m)
		return
	}
	p.out.Moves = append(p.out.Moves, m)
}

func (p *planner) instead(m Move) { p.out.Alternatives = append(p.out.Alternatives, m) }

// fill keeps what one card holds: moves in order, and of a list of blades, which
// is worst first, as many as there is room for.
func (p *planner) fill() {
	all, room, n := p.out.Moves, MaxMoves, 0
	p.out.Moves = nil
	var rest []Move
	for _, m := range all {
		n += m.count()
		switch {
		case m.count() <= room:
			p.out.Moves, room = append(p.out.Moves, m), room-m.count()
		case room > 0 && len(m.Blades) > room:
			first, second := m, m
			first.Blades, second.Blades = m.Blades[:room], m.Blades[room:]
			p.out.Moves, rest, room = append(p.out.Moves, first), append(rest, second), 0
		default:
			rest, room = append(rest, m), 0
		}
	}
	p.out.Later = append(rest, p.later...)
	if len(p.out.Later) > 0 {
		p.note(warnMoreThanOne, numberArg("moves", n+count(p.later)))
	}
}

func count(moves []Move) int {
	n := 0
	for _, m := range moves {
		n += m.count()
	}
	return n
}

// count is how much of a card a move takes.
func (m Move) count() int { return max(1, len(m.Blades)) }

// reread lists the checks that the moves overtake, in the order of the checks.
func (p *planner) reread() {
	var over []string
	for _, m := range p.out.Moves {
		over = append(over, p.overtakes(m.Event)...)
	}
	for _, key := range assess.AllChecks() {
		if slices.Contains(over, key) {
			p.out.Reread = append(p.out.Reread, key)
		}
	}
}

func (p *planner) overtakes(event string) []string {
	for _, e := range p.in.Rules.Events {
		if e.Key == event {
			return e.Overtakes
		}
	}
	return nil
}

// outcome is the verdict of a predicted margin with its expanded uncertainty.
func outcome(margin, expanded measure.Length) assess.Verdict {
	switch {
	case margin < 0:
		return assess.Outside
	case margin < expanded:
		return assess.NearLimit
	}
	return assess.Within
}
