package assess_test

import (
	"fmt"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// event is a row of the move log on a day at a minute.
func event(key string, d, minute int) field.Move {
	return field.Move{Event: text(key), Date: day(d), Time: clock(minute), At: field.Ref{Sheet: "Cell 1", Cell: fmt.Sprintf("B%d", minute)}}
}

// overtakes is the table of what overtakes what among the checks of the fan,
// written out by hand: nothing else is overtaken. Common practice, no source.
var (
	gear  = []string{assess.Tilt, assess.Clearance, assess.ClearanceAll}
	blade = []string{assess.Track, assess.TipRadius, assess.Clearance, assess.ClearanceAll, assess.Pitch, assess.PitchSpread}
	edges = map[string][]string{
		"gear.shim": gear, "gear.slide": gear, "gear.loosen": gear, "support.shim": gear, "support.slide": gear, "support.loosen": gear,
		"motor.shim": nil, "motor.slide": nil, "motor.loosen": nil, "coupling.open": nil, "guard.off": nil, "holddown.torque": nil,
		"cylinder.adjust": {assess.Clearance, assess.ClearanceAll},
		"blade.move":      blade, "blade.replace": blade, "blade.pitch": blade, "blade.loosen": blade, "blade.torque": blade,
		"hub.open": {assess.Tilt, assess.Track, assess.TipRadius, assess.Clearance, assess.ClearanceAll, assess.Pitch, assess.PitchSpread},
	}
)

// TestEdges: every event after the readings overtakes what the table says and
// nothing else; before the readings it overtakes nothing.
func TestEdges(t *testing.T) {
	for _, e := range ruleSet(t).Events {
		want, listed := edges[e.Key]
		if e.Key == assess.EventLongest || e.Key == "instrument.out" {
			continue // TestLongestChange, TestInstrumentOut
		}
		if !listed {
			t.Errorf("%s is in the rules and not in the table", e.Key)
		}
		for _, when := range []struct {
			name string
			move field.Move
			hit  bool
		}{
			{"the day after", event(e.Key, 6, 0), true},
			{"later that day", event(e.Key, 5, 1000), true},
			{"the day before", event(e.Key, 4, 1000), false},
			{"earlier that day", event(e.Key, 5, 400), false},
		} {
			c := cleanCell(1)
			c.Moves = []field.Move{when.move}
			a := assess.Assess(record(c), ruleSet(t))
			for _, k := range a.Cells[0].Checks {
				hit := when.hit && slices.Contains(want, k.Key)
				if (k.Verdict == assess.Recheck) != hit || (len(k.Overtaken) > 0) != hit {
					t.Errorf("%s %s: %s is %s, overtaken by %d", e.Key, when.name, k.Key, k.Verdict, len(k.Overtaken))
				}
				if hit && (k.Before != assess.Within || !k.Overtaken[0].Shown || k.Overtaken[0].Event != e.Key) {
					t.Errorf("%s: %s before %s, %+v", e.Key, k.Key, k.Before, k.Overtaken[0])
				}
			}
			if len(a.Cells[0].Questions) > 0 {
				t.Errorf("%s %s: questions %v", e.Key, when.name, a.Cells[0].Questions)
			}
		}
	}
}

// TestOrder: a reading stands only if it is shown to be strictly later; what the
// record does not show is a question and no verdict.
func TestOrder(t *testing.T) {
	sequence := func(h *field.Head, m *field.Move, reading, event int) {
		h.Sequence, m.Sequence = count(reading), count(event)
	}
	for _, test := range []struct {
		name   string
		change func(h *field.Head, m *field.Move)
		want   string // "later", "overtaken", "not shown"
	}{
		{"started after", func(h *field.Head, m *field.Move) { m.Time = clock(479) }, "later"},
		{"started at the same minute", func(h *field.Head, m *field.Move) { m.Time = clock(480) }, "not shown"},
		{"moved while reading", func(h *field.Head, m *field.Move) { m.Time = clock(485) }, "overtaken"},
		{"only a finish, before", func(h *field.Head, m *field.Move) { h.Start = field.Clock{}; m.Time = clock(491) }, "overtaken"},
		{"only a finish, after", func(h *field.Head, m *field.Move) { h.Start = field.Clock{}; m.Time = clock(485) }, "not shown"},
		{"no time of the event", func(h *field.Head, m *field.Move) { m.Time = field.Clock{} }, "not shown"},
		{"no times of the reading", func(h *field.Head, m *field.Move) { h.Start, h.Finish = field.Clock{}, field.Clock{} }, "not shown"},
		{"no date of the reading", func(h *field.Head, m *field.Move) { h.Date = field.Date{} }, "not shown"},
		{"no date of the event", func(h *field.Head, m *field.Move) { m.Date = field.Date{} }, "not shown"},
		{"sequence later", func(h *field.Head, m *field.Move) { m.Time = field.Clock{}; sequence(h, m, 4, 3) }, "later"},
		{"sequence earlier", func(h *field.Head, m *field.Move) { m.Time = field.Clock{}; sequence(h, m, 3, 4) }, "overtaken"},
		{"sequence equal", func(h *field.Head, m *field.Move) { m.Time = field.Clock{}; sequence(h, m, 3, 3) }, "not shown"},
		{"sequence equal, times tell", func(h *field.Head, m *field.Move) { m.Time = clock(100); sequence(h, m, 3, 3) }, "later"},
		{"sequence and times agree", func(h *field.Head, m *field.Move) { m.Time = clock(100); sequence(h, m, 4, 3) }, "later"},
		{"sequence and times disagree", func(h *field.Head, m *field.Move) { m.Time = clock(600); sequence(h, m, 4, 3) }, "not shown"},
		{"day after, sequence of another day", func(h *field.Head, m *field.Move) { m.Date = day(4); sequence(h, m, 1, 9) }, "later"},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := cleanCell(1)
			m := event("gear.shim", 5, 600)
			test.change(&c.Tilt.Rounds[0].Head, &m)
			c.Moves = []field.Move{m}
			a := assess.Assess(record(c), ruleSet(t))
			k := a.Cells[0].Check(assess.Tilt)
			got := "later"
			if len(k.Overtaken) > 0 {
				got = map[bool]string{true: "overtaken", false: "not shown"}[k.Overtaken[0].Shown]
			}
			if got != test.want || (k.Verdict == assess.Recheck) != (test.want == "overtaken") {
				t.Errorf("%s, %s", got, k.Verdict)
			}
			asked := slices.ContainsFunc(a.Cells[0].Questions, func(q assess.Code) bool {
				return q.Key == "question.order" && q.Args[0].Text == assess.Tilt
			})
			if asked != (test.want == "not shown") {
				t.Errorf("questions %v", a.Cells[0].Questions)
			}
		})
	}
}

// TestReadAgain: a reading overtaken and read again stands, and a move between
// rounds overtakes only the round before it.
func TestReadAgain(t *testing.T) {
	c := cleanCell(1)
	c.Tilt.Rounds = append(c.Tilt.Rounds, lengths(field.AsFound, head(2, 480), same(positions, 10*inch)...))
	c.Moves = []field.Move{event("gear.shim", 3, 480), event("blade.torque", 4, 480)}
	if k := verdict(t, record(c), assess.Tilt); k.Verdict != assess.Within || len(k.Overtaken) > 0 {
		t.Errorf("%s, %v", k.Verdict, k.Overtaken)
	}
	c.Tilt.Rounds = c.Tilt.Rounds[1:]
	c.Tilt.Rounds[0].Accepted = flag(true)
	if k := verdict(t, record(c), assess.Tilt); k.Verdict != assess.Recheck {
		t.Errorf("as found accepted, then shimmed: %s", k.Verdict)
	}
}

// TestAdvisedOrder: a whole job in the advised order, every kind of event
// logged where it belongs, overtakes nothing; torque after the last move does
// not either.
func TestAdvisedOrder(t *testing.T) {
	c := cleanCell(1)
	c.Pitch.Rounds[0].Head = head(5, 440)
	c.Tilt.Rounds[0].Head = head(5, 480)
	c.Track.Rounds[0].Head = head(5, 500)
	c.TipRadius.Rounds[0].Head = head(5, 520)
	c.Clearance.Rounds[0].Head = head(5, 540)
	c.Moves = []field.Move{
		event("support.shim", 3, 420), event("support.slide", 3, 430), event("motor.shim", 4, 420), event("motor.slide", 4, 430),
		event("hub.open", 5, 400), event("blade.replace", 5, 405), event("blade.loosen", 5, 410), event("blade.pitch", 5, 420),
		event("blade.move", 5, 425), event("blade.torque", 5, 430),
		event("gear.loosen", 5, 460), event("gear.shim", 5, 465), event("gear.slide", 5, 470),
		event("cylinder.adjust", 5, 535), event("holddown.torque", 5, 560), event("motor.shim", 5, 600), event("motor.slide", 5, 610),
	}
	a := assess.Assess(record(c), ruleSet(t))
	for _, k := range fan(&a.Cells[0]) {
		if k.Verdict != assess.Within || len(k.Overtaken) > 0 {
			t.Errorf("%s: %s, %v", k.Key, k.Verdict, k.Overtaken)
		}
	}
	if len(a.Reasons) > 0 || len(a.Cells[0].Questions) > 0 {
		t.Errorf("reasons %v, questions %v", reasonKeys(a.Reasons), a.Cells[0].Questions)
	}
}

// TestBetweenTipsAndClearance: a blade moved after the tip radius and before the
// clearance leaves the clearance standing, but not the gaps of all blades.
func TestBetweenTipsAndClearance(t *testing.T) {
	c := cleanCell(1)
	c.Moves = []field.Move{event("blade.move", 5, 535)}
	r := record(c)
	if k := verdict(t, r, assess.Clearance); k.Verdict != assess.Within {
		t.Errorf("clearance: %s", k.Verdict)
	}
	k := verdict(t, r, assess.ClearanceAll)
	if k.Verdict != assess.Recheck || len(k.Overtaken) != 1 || k.Overtaken[0].Event != "blade.move" {
		t.Errorf("all blades: %s, %v", k.Verdict, k.Overtaken)
	}
}

// TestLongestChange: the tip radius is read again after the clearance, and
// another blade is the longest now.
func TestLongestChange(t *testing.T) {
	change := func(blade, minute int) field.Record {
		c := cleanCell(1)
		c.TipRadius.Rounds[0].Round = field.AsFound
		c.TipRadius.Rounds[0].Head = head(3, 520)
		gaps := same(blades, inch/2)
		gaps[blade-1] -= 4 * step
		c.TipRadius.Rounds = append(c.TipRadius.Rounds, lengths(field.AsLeft, head(5, minute), gaps...))
		return record(c)
	}
	for _, test := range []struct {
		name          string
		blade, minute int
		want          assess.Verdict
		asked         bool
	}{
		{"still the longest", 3, 600, assess.Within, false},
		{"another, read after the clearance", 5, 600, assess.Recheck, true},
		{"another, read before the clearance", 5, 500, assess.Within, true},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := assess.Assess(change(test.blade, test.minute), ruleSet(t))
			for _, key := range []string{assess.Clearance, assess.ClearanceAll} {
				k := a.Cells[0].Check(key)
				if k.Verdict != test.want {
					t.Errorf("%s: %s, want %s", key, k.Verdict, test.want)
				}
				if test.want == assess.Recheck && (len(k.Overtaken) != 1 || k.Overtaken[0].Event != assess.EventLongest) {
					t.Errorf("%s: overtaken %v", key, k.Overtaken)
				}
			}
			if got := slices.Contains(keys(a.Cells[0].Questions), "question.longest"); got != test.asked {
				t.Errorf("questions %v", a.Cells[0].Questions)
			}
		})
	}
}

// TestPhysicsQuestions: each is asked for its own cause, and changes nothing
// else.
func TestPhysicsQuestions(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*field.Record)
		want   []string
	}{
		{"clearance on another blade", func(r *field.Record) { r.Cells[0].Clearance.Rounds[0].Blade = count(1) },
			// its tip gap, 4/64 larger than the clearance there, is seen as well
			[]string{"question.longest", "question.tipgap"}},
		{"gap where the tips were read", func(r *field.Record) {
			r.Cells[0].Clearance.Rounds[0].Readings[3].Value = typed(inch / 2)
		}, []string{"question.tipgap"}},
		{"the same gap a step away", func(r *field.Record) {
			r.Cells[0].Clearance.Rounds[0].Readings[3].Value = typed(inch/2 - 4*step + step/2)
		}, nil},
		{"gap where the tips were read, moved between", func(r *field.Record) {
			r.Cells[0].Clearance.Rounds[0].Readings[3].Value = typed(inch / 2)
			r.Cells[0].Moves = []field.Move{event("gear.slide", 5, 535)}
			r.Cells[0].Tilt.Rounds[0].Head = head(5, 560)
		}, nil},
		{"return a step off", func(r *field.Record) { r.Cells[0].Tilt.Rounds[0].Return = typed(10*inch + step) }, nil},
		{"return more than a step off", func(r *field.Record) { r.Cells[0].Tilt.Rounds[0].Return = typed(10*inch + step + 1) },
			[]string{"question.return"}},
		{"coarse instrument", func(r *field.Record) { r.Instruments[0].Resolution = typed(inch / 8) },
			[]string{"question.coarse", "question.coarse"}}, // tip radius ±1/8, clearance ±1/8
		{"coarse protractor", func(r *field.Record) { r.Instruments[0].AngleResolution = deg(measure.Degree) },
			[]string{"question.coarse"}},
		{"unknown event", func(r *field.Record) { r.Cells[0].Moves = []field.Move{event("paint", 9, 0)} },
			[]string{"question.event"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := record(cleanCell(1))
			test.change(&r)
			a := assess.Assess(r, ruleSet(t))
			if got := keys(a.Cells[0].Questions); !slices.Equal(got, test.want) && len(got)+len(test.want) > 0 {
				t.Errorf("questions %v, want %v", a.Cells[0].Questions, test.want)
			}
			if len(a.Reasons) > 0 {
				t.Errorf("reasons %v", reasonKeys(a.Reasons))
			}
		})
	}
}
