package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// trackRounds is a cell whose track was read in the given rounds, all heights
// of a round within the named spread.
func trackRounds(rounds map[string]measure.Length) field.Cell {
	c := cleanCell(1)
	c.Track.Rounds = nil
	for i, key := range []string{field.AsLeft, field.Third, field.Second, field.AsFound} { // not in order
		spread, read := rounds[key]
		if !read {
			continue
		}
		values := same(blades, 10*inch)
		values[3] += spread
		c.Track.Rounds = append(c.Track.Rounds, lengths(key, head(5-i, 500), values...))
	}
	return c
}

func TestStandingRound(t *testing.T) {
	far := 2 * inch
	for _, test := range []struct {
		name     string
		rounds   map[string]measure.Length
		accepted bool
		want     assess.Verdict
		standing string
		note     string
	}{
		{"as left", map[string]measure.Length{field.AsFound: far, field.AsLeft: 0}, false, assess.Within, field.AsLeft, ""},
		{"as found only", map[string]measure.Length{field.AsFound: 0}, false, assess.Missing, "", "note.asfoundonly"},
		{"as found accepted", map[string]measure.Length{field.AsFound: 0}, true, assess.Within, field.AsFound, ""},
		{"as found accepted but outside", map[string]measure.Length{field.AsFound: far}, true, assess.Outside, field.AsFound, ""},
		{"as left outside after as found accepted", map[string]measure.Length{field.AsFound: 0, field.AsLeft: far}, true, assess.Outside, field.AsLeft, ""},
		{"a round in between never stands", map[string]measure.Length{field.Second: 0, field.Third: 0}, false, assess.Missing, "", ""},
		{"read on after as found accepted", map[string]measure.Length{field.AsFound: 0, field.Second: far}, true, assess.Within, field.AsFound, "note.laterround"},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := trackRounds(test.rounds)
			for i := range c.Track.Rounds {
				if c.Track.Rounds[i].Round == field.AsFound {
					c.Track.Rounds[i].Accepted = flag(test.accepted)
				}
			}
			k := verdict(t, record(c), assess.Track)
			standing := ""
			if r := k.StandingRound(); r != nil {
				standing = r.Key
			}
			if k.Verdict != test.want || standing != test.standing {
				t.Errorf("%s, standing %q", k.Verdict, standing)
			}
			if got := keys(k.Notes); test.note != "" && !slices.Contains(got, test.note) || test.note == "" && len(got) > 0 {
				t.Errorf("notes %v, want %q", got, test.note)
			}
			for i := 1; i < len(k.Rounds); i++ {
				if k.Rounds[i-1].Head.Date.Value.Compare(k.Rounds[i].Head.Date.Value) > 0 {
					t.Errorf("rounds out of order: %s after %s", k.Rounds[i].Key, k.Rounds[i-1].Key)
				}
			}
		})
	}
}

// TestAsFoundKeepsItsVerdict: every round is judged, whichever stands.
func TestAsFoundKeepsItsVerdict(t *testing.T) {
	k := verdict(t, record(trackRounds(map[string]measure.Length{field.AsFound: 2 * inch})), assess.Track)
	if k.Verdict != assess.Missing || k.Rounds[0].Verdict != assess.Outside {
		t.Errorf("%s, as found %s", k.Verdict, k.Rounds[0].Verdict)
	}
}

// TestMissing: a blank is missing; a blocked position is missing below the count
// that the contract asks for, and all are asked for where it gives none.
func TestMissing(t *testing.T) {
	for _, test := range []struct {
		name           string
		blank, blocked int
		minCount       int
		want           assess.Verdict
		needed         int // of the note; 0: none
	}{
		{"all read", 0, 0, 0, assess.Within, 0},
		{"one blocked, no count given", 0, 1, 0, assess.Missing, positions},
		{"one blocked, contract asks for all but one", 0, 1, positions - 1, assess.Within, 0},
		{"two blocked, contract asks for all but one", 0, 2, positions - 1, assess.Missing, positions - 1},
		{"one blank, contract asks for fewer", 1, 0, 8, assess.Missing, positions},
		{"one blank, one blocked", 1, 1, 8, assess.Missing, positions - 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := cleanCell(1)
			readings := c.Clearance.Rounds[0].Readings
			for i := range test.blank + test.blocked {
				readings[i].Value = field.Length{}
				if i >= test.blank {
					readings[i].Reason = text("drive shaft")
				}
			}
			r := record(c)
			if test.minCount > 0 {
				r.Limits[3].MinCount = count(test.minCount)
			}
			k := verdict(t, r, assess.Clearance)
			round := k.StandingRound()
			if k.Verdict != test.want || round.Blocked != test.blocked {
				t.Errorf("%s, %d blocked", k.Verdict, round.Blocked)
			}
			needed := 0
			for _, n := range round.Notes {
				if n.Key == "note.incomplete" {
					needed = *n.Args[1].Number
				}
			}
			if needed != test.needed {
				t.Errorf("needed %d, want %d", needed, test.needed)
			}
		})
	}
}

// TestOutsideAndMissing: what was read is outside whatever else is read; both
// reasons are given.
func TestOutsideAndMissing(t *testing.T) {
	c := cleanCell(1)
	c.Clearance.Rounds[0].Readings[0].Value = field.Length{}
	c.Clearance.Rounds[0].Readings[1].Value = typed(2 * inch)
	r := record(c)
	r.Limits[4] = field.Limit{}
	a := assess.Assess(r, ruleSet(t))
	want := []string{"clearance:reason.outside.gaplarge", "clearance:reason.missing"}
	if got := reasonKeys(a.Reasons); !slices.Equal(got, want) {
		t.Errorf("reasons %v, want %v", got, want)
	}
}

// TestClearanceAllNeedsTips: the gaps of all blades need the tip radius of all.
func TestClearanceAllNeedsTips(t *testing.T) {
	for _, drop := range []int{1, blades} {
		c := cleanCell(1)
		for i := range drop {
			c.TipRadius.Rounds[0].Readings[i].Value = field.Length{}
		}
		if k := verdict(t, record(c), assess.ClearanceAll); k.Verdict != assess.Missing {
			t.Errorf("%d tips not read: %s", drop, k.Verdict)
		}
	}
}

// TestBlockedBlade: where the contract asks for fewer blades, one that was
// blocked for a reason leaves the gaps of all blades complete, as it leaves the
// tip radius; and so does a blocked position.
func TestBlockedBlade(t *testing.T) {
	c := cleanCell(1)
	c.TipRadius.Rounds[0].Readings[0] = field.Reading[field.Length]{Index: 1, Reason: text("ladder")}
	c.Clearance.Rounds[0].Readings[0] = field.Reading[field.Length]{Index: 1, Reason: text("drive shaft")}
	r := record(c)
	if k := verdict(t, r, assess.ClearanceAll); k.Verdict != assess.Missing {
		t.Errorf("all asked for: %s", k.Verdict)
	}
	r.Limits[2].MinCount, r.Limits[3].MinCount = count(blades-1), count(positions-1)
	for _, key := range []string{assess.TipRadius, assess.Clearance, assess.ClearanceAll} {
		if k := verdict(t, r, key); k.Verdict != assess.Within {
			t.Errorf("%s: %s", key, k.Verdict)
		}
	}
}

// TestFinalTorque: as-left tilt and clearance count only with the hold-downs at
// final torque, what is read on the blades only with their clamps so.
func TestFinalTorque(t *testing.T) {
	holdDowns := []string{assess.Tilt, assess.Clearance, assess.ClearanceAll}
	clamps := []string{assess.Track, assess.TipRadius, assess.Pitch, assess.PitchSpread, assess.ClearanceAll}
	for _, test := range []struct {
		name     string
		change   func(*field.Head)
		recheck  []string // set aside
		reason   string
		unstated bool
	}{
		{"hold-downs no", func(h *field.Head) { h.HoldDownsFinal = flag(false) }, holdDowns, "reason.holddowns", false},
		{"clamps no", func(h *field.Head) { h.ClampsFinal = flag(false) }, clamps, "reason.clamps", false},
		{"hold-downs blank", func(h *field.Head) { h.HoldDownsFinal = field.Flag{} }, nil, "reason.holddownsblank", true},
		{"clamps blank", func(h *field.Head) { h.ClampsFinal = field.Flag{} }, nil, "reason.clampsblank", true},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := cleanCell(1)
			for _, h := range []*field.Head{&c.Tilt.Rounds[0].Head, &c.Track.Rounds[0].Head, &c.TipRadius.Rounds[0].Head,
				&c.Clearance.Rounds[0].Head, &c.Pitch.Rounds[0].Head} {
				test.change(h)
			}
			a := assess.Assess(record(c), ruleSet(t))
			for _, k := range fan(&a.Cells[0]) {
				want := assess.Within
				if slices.Contains(test.recheck, k.Key) {
					want = assess.Recheck
				}
				if k.Verdict != want || want == assess.Recheck && k.Before != assess.Within {
					t.Errorf("%s: %s, before %s", k.Key, k.Verdict, k.Before)
				}
			}
			n := 0
			for _, r := range a.Cells[0].Reasons {
				if r.Key != test.reason {
					t.Errorf("%s: %s", r.Check, r.Key)
				}
				n++
			}
			if n == 0 {
				t.Error("no reason")
			}
		})
	}
}
