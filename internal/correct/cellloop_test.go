package correct_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// stamp puts a move on a day at a minute.
func stamp(m field.Move, day, minute int) field.Move {
	h := head(day, minute)
	m.Date, m.Time = h.Date, h.Start
	return m
}

// again lets the return reading of a round differ by 1/64 in, so that
// repeatability is known.
func again(s field.Series[field.Length]) field.Series[field.Length] {
	s.Return = typed(s.Readings[0].Value.Value + measure.SixtyFourth)
	return s
}

// shimmedAndSlid is a cell whose tilt was read before and after the shims, and
// whose clearance was read before them and after the slide that followed. The
// low side at the motor is raised by 0.214 in over 24 in, which levels
// 0.75·cos θ at 84 in, takes the hub 60·0.214/24 = 0.535 in from the motor, and
// is slid back by that.
func shimmedAndSlid() field.Record {
	r := fan()
	cell := &r.Cells[0]
	cell.Tilt.Rounds = []field.Series[field.Length]{
		again(lengths(field.AsFound, head(3, 480), 12, func(t float64) float64 { return 10 + 0.75*math.Cos(t) })),
		again(lengths(field.AsLeft, head(4, 600), 12, flat(10)))}
	cell.Clearance.Rounds = []field.ClearanceRound{
		{Series: again(lengths(field.AsFound, head(3, 540), 12, flat(0.5))), Blade: whole(3)},
		{Series: again(lengths(field.AsLeft, head(5, 510), 12, flat(0.5))), Blade: whole(3)}}
	shim := field.Move{Event: text("gear.shim")}
	for f, now := range []measure.Length{214, 0, 0, 214} {
		shim.Feet = append(shim.Feet, field.FootMove{Foot: f + 1, Was: typed(0), Now: typed(now * measure.Thou)})
	}
	slide := field.Move{Event: text("gear.slide"), Along: typed(535 * measure.Thou)}
	cell.Moves = []field.Move{stamp(shim, 4, 480), stamp(slide, 4, 660)}
	return r
}

// TestLoopSpans: the tilt follows from the moves between its own two rounds, the
// clearance from those between its own, which may be more.
func TestLoopSpans(t *testing.T) {
	m := plan(t, shimmedAndSlid())
	if m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 11+12 {
		t.Fatalf("%+v", m.Loop)
	}
	if want := []correct.Compared{{Check: "tilt", From: field.AsFound, To: field.AsLeft}, {Check: "clearance", From: field.AsFound, To: field.AsLeft}}; !slices.Equal(m.Loop.Compared, want) {
		t.Errorf("compared %+v", m.Loop.Compared)
	}
	for _, r := range m.Loop.PredictedGaps {
		if math.Abs(in(r.Value)-0.5) > 0.003 {
			t.Errorf("gap at %d foretold as %s", r.Position, r.Value)
		}
	}
	// The other way round: the clearance alone was read between the moves.
	r := shimmedAndSlid()
	cell := &r.Cells[0]
	cell.Tilt.Rounds[1].Head = head(5, 480)
	between := lengths(field.AsLeft, head(4, 600), 12, func(t float64) float64 { return 0.5 + 0.535*math.Cos(t) })
	cell.Clearance.Rounds[1].Series = again(between)
	if m = plan(t, r); m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 11+12 {
		t.Errorf("%+v", m.Loop)
	}
}

// without takes the readings at some positions out of every round.
func without(r field.Record, positions ...int) field.Record {
	block := func(s *field.Series[field.Length]) {
		for i := range s.Readings {
			if slices.Contains(positions, s.Readings[i].Index) {
				s.Readings[i].Value, s.Readings[i].Reason = field.Length{}, text("drive-shaft opening")
			}
		}
		if !s.Readings[0].Value.Set {
			s.Return = field.Length{}
		}
	}
	for i := range r.Cells[0].Tilt.Rounds {
		block(&r.Cells[0].Tilt.Rounds[i])
	}
	for i := range r.Cells[0].Clearance.Rounds {
		block(&r.Cells[0].Clearance.Rounds[i].Series)
	}
	return r
}

// TestLoopBlocked: rings with blocked positions are compared by what both hold;
// where that is too little, it is said.
func TestLoopBlocked(t *testing.T) {
	m := plan(t, without(shimmedAndSlid(), 4, 5))
	if m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 9+10 || len(m.Loop.Notes) != 0 {
		t.Errorf("two blocked: %+v", m.Loop)
	}
	// A round read at other positions than the one before it.
	r := shimmedAndSlid()
	r.Cells[0].Tilt.Rounds[0].Readings[6].Value = field.Length{}
	r.Cells[0].Tilt.Rounds[1].Readings[8].Value = field.Length{}
	if m = plan(t, r); m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 9+12 {
		t.Errorf("other positions: %+v", m.Loop)
	}
	// Half the ring is not there.
	m = plan(t, without(shimmedAndSlid(), 3, 4, 5, 6, 7, 8))
	if m.Loop == nil || m.Loop.Agrees || m.Loop.Code.Key != "correct.loop.few" || *m.Loop.Code.Args[1].Number != 6 {
		t.Errorf("half: %+v", m.Loop)
	}
	// Too little of one check leaves the other.
	r = shimmedAndSlid()
	for i := 2; i < 12; i++ {
		r.Cells[0].Tilt.Rounds[0].Readings[i].Value = field.Length{}
	}
	if m = plan(t, r); m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 12 || !slices.Equal(keys(m.Loop.Notes), []string{"correct.loop.few"}) {
		t.Errorf("one check: %+v", m.Loop)
	}
}

// TestLoopNotForetold: what was done to blades or hub between two rounds cannot
// be foretold, and a gap of another blade is not the same gap.
func TestLoopNotForetold(t *testing.T) {
	r := shimmedAndSlid()
	r.Cells[0].Moves = append(r.Cells[0].Moves, stamp(field.Move{Event: text("blade.move"), Blades: []int{3}}, 4, 700))
	m := plan(t, r)
	if m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 11 || !slices.Equal(keys(m.Loop.Notes), []string{"correct.loop.other"}) {
		t.Errorf("blade moved: %+v", m.Loop)
	}
	r = shimmedAndSlid()
	r.Cells[0].Clearance.Rounds[1].Blade = whole(4)
	if m = plan(t, r); m.Loop == nil || m.Loop.Freedom != 11 || !slices.Equal(keys(m.Loop.Notes), []string{"correct.loop.blade"}) {
		t.Errorf("other blade: %+v", m.Loop)
	}
	// Letting go belongs to every move.
	r = shimmedAndSlid()
	r.Cells[0].Moves = append(r.Cells[0].Moves, stamp(field.Move{Event: text("gear.loosen")}, 4, 470))
	if m = plan(t, r); m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 11+12 {
		t.Errorf("loosened: %+v", m.Loop)
	}
	// A cylinder that was moved is not where the tilt was read from, unless it is.
	r = shimmedAndSlid()
	r.Cells[0].Moves = append(r.Cells[0].Moves, stamp(field.Move{Event: text("cylinder.adjust")}, 4, 490))
	if m = plan(t, r); m.Loop == nil || !m.Loop.Agrees || m.Loop.Freedom != 11 {
		t.Errorf("cylinder: %+v", m.Loop)
	}
	r.Cells[0].Tilt.Reference = text("cylinder")
	if m = plan(t, r); m.Loop == nil || m.Loop.Code.Key != "correct.loop.other" {
		t.Errorf("cylinder as reference: %+v", m.Loop)
	}
}

// TestSlipsBlocked: slips are found by name, and clean jobs are named in fewer
// than one of a thousand, where a position of the ring is blocked.
func TestSlipsBlocked(t *testing.T) {
	blocked := func(j *job) {
		for _, s := range []*[]correct.Reading{&j.p.Found, &j.p.Left, &j.p.FoundGaps, &j.p.LeftGaps} {
			if s == &j.p.Found || s == &j.p.FoundGaps {
				ring := []int{}
				for _, x := range *s {
					ring = append(ring, x.Position)
				}
				j.p.Ring, j.p.RingGaps = ring, ring
			}
			*s = slices.Delete(*s, 3, 4)
		}
	}
	r := rand.New(rand.NewPCG(51, 52))
	named := 0
	for range seeds() {
		j := newJob(r, 1.0/16, 24, nil)
		blocked(j)
		got, err := correct.CloseLoop(j.p)
		if err != nil || got.Freedom != 6+7 {
			t.Fatalf("%+v, %v", got, err)
		}
		if got.Slip != "" {
			named++
		}
	}
	t.Logf("clean: %d of %d named", named, seeds())
	if named*1000 >= seeds() {
		t.Errorf("%d of %d clean jobs named", named, seeds())
	}
	for _, x := range []struct {
		slip  string
		typed func(*job)
	}{
		{correct.SlipCountedOther, func(j *job) { j.p.Left, j.p.LeftGaps = mirror(j.p.Left), mirror(j.p.LeftGaps) }},
		{correct.SlipOneOff, func(j *job) { j.p.Left, j.p.LeftGaps = turnBy(j.p.Left, 1), turnBy(j.p.LeftGaps, 1) }},
	} {
		right, wrong, jobs := 0, 0, 200
		for range jobs {
			j := newJob(r, 1.0/32, 5000, nil)
			x.typed(j)
			blocked(j)
			got, err := correct.CloseLoop(j.p)
			switch {
			case err != nil:
				t.Fatal(err)
			case got.Slip == x.slip:
				right++
			case got.Slip != "":
				wrong++
			}
		}
		t.Logf("%s: %d of %d named, %d wrongly", x.slip, right, jobs, wrong)
		if right < jobs*6/10 || wrong > jobs/100 {
			t.Errorf("%s: %d of %d named, %d wrongly", x.slip, right, jobs, wrong)
		}
	}
}
