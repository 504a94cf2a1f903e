package correct_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

func ruleSet(t testing.TB) assess.Rules {
	t.Helper()
	set, err := templates.RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	rules := assess.Rules{Version: set.Version, Hash: set.Hash}
	for _, e := range set.Events {
		rules.Events = append(rules.Events, assess.Event(e))
	}
	return rules
}

func text(s string) field.Text { return field.Text{Value: s, Set: s != "", Text: s} }
func whole(n int) field.Count  { return field.Count{Value: n, Set: true} }
func yes(b bool) field.Flag    { return field.Flag{Value: b, Set: true} }
func typed(l measure.Length) field.Length {
	return field.Length{Entry: field.Entry[measure.Length]{Value: l, Set: true, Text: l.In(measure.UnitInch)}, Unit: measure.UnitInch}
}

func head(day, minute int) field.Head {
	return field.Head{Date: field.Date{Value: field.Day{Year: 2026, Month: 3, Day: day}, Set: true}, HoldDownsFinal: yes(true),
		Start: field.Clock{Value: field.Minute(minute), Set: true}, Instrument: text("T1"), ClampsFinal: yes(true)}
}

// lengths is a round of n readings at even positions or of n blades.
func lengths(round string, h field.Head, n int, f func(theta float64) float64) field.Series[field.Length] {
	s := field.Series[field.Length]{Round: round, Head: h}
	for i := range n {
		v := nm(f(2 * math.Pi * float64(i) / float64(n))).RoundTo(measure.SixtyFourth)
		s.Readings = append(s.Readings, field.Reading[field.Length]{Index: i + 1, Value: typed(v)})
	}
	s.Return = s.Readings[0].Value
	return s
}

func flat(v float64) func(float64) float64 { return func(float64) float64 { return v } }

// fan is a record of one cell with all that is well inside its limits; the tests
// bend it.
func fan() field.Record {
	cell := field.Cell{Number: 1, Stacks: nil}
	cell.Tilt = field.Tilt{Sense: text("down"), Radius: typed(84 * inch), Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 480), 12, flat(10))}}
	cell.Track.Rounds = []field.Series[field.Length]{lengths(field.AsLeft, head(5, 490), 8, flat(12))}
	cell.TipRadius = field.TipRadius{Position: whole(4), PulledOut: yes(true), Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 500), 8, flat(0.5))}}
	cell.Clearance = field.Clearance{PulledOut: yes(true), Rounds: []field.ClearanceRound{{Series: lengths(field.AsLeft, head(5, 510), 12, flat(0.5)), Blade: whole(3)}}}
	for f := 1; f <= 4; f++ {
		cell.Stacks = append(cell.Stacks, field.Stack{Foot: f, Now: typed(50 * measure.Thou), Pieces: whole(2)})
	}
	cell.Drive.CouplingGear = field.Coupling{Stood: text("gear"), Together: yes(true), Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 530), 4, flat(0.5))}}
	cell.Drive.CouplingMotor = field.Coupling{Stood: text("motor"), Together: yes(true), Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 530), 4, flat(0.5))}}
	contract := func(l field.Limit) field.Limit { l.Authority = text("contract"); return l }
	r := field.Record{Project: field.Project{Units: text("in")}, Tower: field.Tower{Blades: whole(8), Segments: whole(6), FanDiameter: typed(240 * inch)},
		Limits: []field.Limit{
			contract(field.Limit{Check: assess.Tilt, Max: typed(inch / 4)}), contract(field.Limit{Check: assess.Track, Max: typed(inch / 2)}),
			contract(field.Limit{Check: assess.TipRadius, Tolerance: typed(inch / 8)}),
			contract(field.Limit{Check: assess.Clearance, Nominal: typed(inch / 2), Tolerance: typed(inch / 8)}),
			contract(field.Limit{Check: assess.CouplingGear, Criterion: text(assess.CriterionRange), Max: typed(inch / 32)}),
			contract(field.Limit{Check: assess.CouplingMotor, Criterion: text(assess.CriterionRange), Max: typed(inch / 32)}),
		},
		Instruments: []field.Instrument{{ID: text("T1"), Class: text("checked"), Resolution: typed(measure.SixtyFourth)}},
		Cells:       []field.Cell{cell}}
	for i := range 12 {
		r.Tower.Positions = append(r.Tower.Positions, field.Position{Number: i + 1, Degrees: measure.Angle(i) * 30 * measure.Degree})
	}
	g := &r.Tower.Geometry
	*g = field.Geometry{Shimmed: text("gear"), HubHeight: typed(60 * inch), ShimStep: typed(measure.Thou), MaxPieces: whole(5),
		SlotAlong: typed(inch / 2), SlotAcross: typed(inch / 2), SlideFront: typed(12 * inch), SlideRear: typed(-12 * inch), BladesSlide: yes(true),
		FlexSpan: typed(120 * inch), FlexGear: typed(20 * inch), FlexHeight: typed(30 * inch), FaceGear: typed(10 * inch), FaceMotor: typed(10 * inch),
		MotorFront: typed(6 * inch), MotorRear: typed(22 * inch), MotorStep: typed(measure.Thou)}
	for _, f := range rectangle(12*inch, 12*inch) {
		g.Feet = append(g.Feet, field.Foot{Number: f.Number, Along: typed(f.Along), Across: typed(f.Across)})
	}
	return r
}

func plan(t testing.TB, r field.Record, asked ...string) correct.Moves {
	t.Helper()
	rules := ruleSet(t)
	out := correct.Correct(r, assess.Assess(r, rules), rules, asked...)
	if len(out) != 1 {
		t.Fatalf("%d cells", len(out))
	}
	for _, c := range spoken(out[0]) {
		i := slices.IndexFunc(correct.Codes(), func(s assess.CodeSpec) bool { return s.Key == c.Key })
		if i < 0 {
			t.Errorf("%s is not listed", c.Key)
			continue
		}
		var names []string
		for _, a := range c.Args {
			names = append(names, a.Name)
		}
		if !slices.Equal(names, correct.Codes()[i].Args) {
			t.Errorf("%s has %v, listed %v", c.Key, names, correct.Codes()[i].Args)
		}
	}
	return out[0]
}

// spoken gathers every code of the moves.
func spoken(m correct.Moves) []assess.Code {
	out := slices.Clone(m.Notes)
	for _, list := range [][]correct.Move{m.Moves, m.Later, m.Alternatives} {
		for _, x := range list {
			out = append(out, x.Notes...)
		}
	}
	if m.Loop != nil {
		out = append(out, m.Loop.Code)
	}
	return out
}

func kinds(m []correct.Move) []string {
	var out []string
	for _, x := range m {
		out = append(out, x.Kind)
	}
	return out
}

func prediction(t *testing.T, m correct.Moves, check string) correct.Prediction {
	t.Helper()
	for _, p := range m.Predictions {
		if p.Check == check {
			return p
		}
	}
	t.Fatalf("no prediction of %s in %+v", check, m.Predictions)
	return correct.Prediction{}
}

// TestNothingToMove: what is within is left alone.
func TestNothingToMove(t *testing.T) {
	m := plan(t, fan())
	if len(m.Moves)+len(m.Later)+len(m.Alternatives)+len(m.Reread) != 0 || m.Loop != nil {
		t.Errorf("%+v", m)
	}
}

// TestTiltThenCenter: a tilted fan, centered as it stands. The shims move the hub,
// which takes the clearance outside; the slide brings it back.
func TestTiltThenCenter(t *testing.T) {
	r := fan()
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 12, func(t float64) float64 { return 10 + 0.25*math.Cos(t) })
	m := plan(t, r)
	if got := kinds(m.Moves); !slices.Equal(got, []string{correct.KindShim, correct.KindSlide}) {
		t.Fatalf("%v, notes %v", got, keys(m.Notes))
	}
	if f := m.Moves[0].Feet; (f[0].Change-f[1].Change-71*measure.Thou).Abs() > measure.Thou || f[0].New != f[0].Now+f[0].Change {
		t.Errorf("feet %+v", f)
	}
	if s := m.Moves[1]; math.Abs(in(s.Along)-0.18) > 1.0/64 || s.Front != 0 || s.Rear != 0 {
		t.Errorf("slide %+v", s)
	}
	if m.Moves[0].Event != "gear.shim" || m.Moves[1].Event != "gear.slide" {
		t.Error("events")
	}
	if p := prediction(t, m, assess.Tilt); p.Before != assess.Outside || p.After != assess.Within || in(p.Value) > 0.05 {
		t.Errorf("%+v", p)
	}
	if p := prediction(t, m, assess.Clearance); p.Before != assess.Within || p.After != assess.Within || p.Certificate == nil {
		t.Errorf("%+v", p)
	}
	if !slices.Contains(kinds(m.Alternatives), correct.KindCylinder) {
		t.Error("moving the cylinder is not shown")
	}
	if !slices.Contains(m.Reread, assess.CouplingGear) || slices.Contains(m.Reread, assess.Track) {
		t.Errorf("re-read %v", m.Reread)
	}
	if !slices.Contains(keys(m.Notes), "correct.drivereread") || m.Drive == nil {
		t.Errorf("notes %v", keys(m.Notes))
	}
	if m.Drive != nil && len(m.Later) == 0 {
		t.Errorf("the motor does not wait: drive %+v", m.Drive)
	}
	if m.Round != field.AsLeft {
		t.Errorf("round %q", m.Round)
	}
}

// TestOffCenter: slot travel, positions, what is gained and what cannot be.
func TestOffCenter(t *testing.T) {
	off := func(n int, x float64) field.ClearanceRound {
		return field.ClearanceRound{Series: lengths(field.AsLeft, head(5, 510), n, func(t float64) float64 { return 0.5 - x*math.Cos(t) }), Blade: whole(3)}
	}
	r := fan()
	r.Cells[0].Clearance.Rounds[0] = off(12, 0.25)
	m := plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindSlide}) || m.Moves[0].Along != -inch/4 {
		t.Errorf("%+v, notes %v", m.Moves, keys(m.Notes))
	}
	if c := m.Alternatives[0]; c.Kind != correct.KindCylinder || c.Along != inch/4 {
		t.Errorf("cylinder %+v", c)
	}

	r.Tower.Geometry.SlotAlong = typed(inch / 16)
	m = plan(t, r)
	if len(m.Moves) != 1 || m.Moves[0].Kind != correct.KindWall || !slices.Contains(keys(m.Notes), "correct.bind.slot") {
		// The slide within the slots cannot make it; with the wall it can.
		if got := kinds(m.Moves); !slices.Equal(got, []string{correct.KindSlide, correct.KindWall}) {
			t.Errorf("%v, notes %v", got, keys(m.Notes))
		}
	}

	r = fan()
	r.Cells[0].Clearance.Rounds[0] = off(12, 0.15)
	if m = plan(t, r); len(m.Moves) != 1 {
		t.Errorf("0.15 in off: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}

	r = fan()
	r.Tower.Positions = r.Tower.Positions[:0]
	for i := range 6 {
		r.Tower.Positions = append(r.Tower.Positions, field.Position{Number: i + 1, Degrees: measure.Angle(i) * 60 * measure.Degree})
	}
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 6, flat(10))
	r.Cells[0].Clearance.Rounds[0] = off(6, 0.25)
	if m = plan(t, r); len(m.Moves) != 0 || !slices.Contains(keys(m.Notes), "correct.fewpositions") {
		t.Errorf("six positions: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestOutOfRound: what no slide cures is left to the wall, or, where the mean gap
// is wrong, to blades and joints.
func TestOutOfRound(t *testing.T) {
	r := fan()
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, func(t float64) float64 { return 0.5 + 0.2*math.Cos(2*t) })
	m := plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindWall}) || !slices.Contains(keys(m.Notes), "correct.floor") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, flat(0.75))
	m = plan(t, r)
	if len(m.Moves) != 0 || !slices.Contains(keys(m.Notes), "correct.meangap") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestWallAlone: off center by less than the readings can tell, and out of round:
// the wall's list starts from where the fan stands.
func TestWallAlone(t *testing.T) {
	r := fan()
	r.Instruments[0].Resolution = typed(inch / 4)
	gap := func(t float64) float64 { return 0.5 + 0.05*math.Cos(t) + 0.25*math.Cos(2*t) }
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, gap)
	m := plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindWall}) || !slices.Contains(keys(m.Notes), "correct.nothingtogain") {
		t.Fatalf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	for i, w := range m.Moves[0].Wall {
		if want := gap(2*math.Pi*float64(i)/12) - 0.5; math.Abs(in(w.In)-want) > 1.01/64 {
			t.Errorf("position %d: in by %s, want %g", w.Position, w.In, want)
		}
	}
}

// TestHubFirst: a cycle over the blades is the hub's; what hangs on it waits.
func TestHubFirst(t *testing.T) {
	r := fan()
	r.Cells[0].Track.Rounds[0] = lengths(field.AsLeft, head(5, 490), 8, func(t float64) float64 { return 12 + 0.5*math.Cos(t) })
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, func(t float64) float64 { return 0.5 + 0.25*math.Sin(t) })
	m := plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindHub}) || !slices.Equal(kinds(m.Later), []string{correct.KindSlide}) ||
		!slices.Contains(kinds(m.Alternatives), correct.KindBladeSeat) {
		t.Errorf("moves %v, later %v, instead %v", kinds(m.Moves), kinds(m.Later), kinds(m.Alternatives))
	}
	if !slices.Contains(keys(m.Notes), "correct.restwaits") || !slices.Contains(m.Reread, assess.Track) {
		t.Errorf("notes %v, re-read %v", keys(m.Notes), m.Reread)
	}
}

// TestBlades: fewest, under clearance, and not at all where they cannot slide.
func TestBlades(t *testing.T) {
	r := fan()
	crowd := []float64{.20, .21, .22, .21, .20, .50, .51, .49}
	s := &r.Cells[0].TipRadius.Rounds[0]
	for i, v := range crowd {
		s.Readings[i].Value = typed(nm(v).RoundTo(measure.SixtyFourth))
	}
	s.Return = s.Readings[0].Value
	r.Cells[0].Clearance.Rounds[0].Blade = whole(6)
	m := plan(t, r)
	if len(m.Moves) != 1 || m.Moves[0].Kind != correct.KindBladeOut || len(m.Moves[0].Blades) != 5 || m.Moves[0].Blades[0].Change.N <= 0 {
		t.Fatalf("%+v, notes %v", m.Moves, keys(m.Notes))
	}
	if p := prediction(t, m, assess.TipRadius); p.After != assess.Within {
		t.Errorf("%+v", p)
	}
	r.Tower.Geometry.BladesSlide = yes(false)
	if m = plan(t, r); len(m.Moves) != 0 || !slices.Contains(keys(m.Notes), "correct.bind.blades") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestCardIsFull: more than six moves; the worst blades first, the rest waits.
func TestCardIsFull(t *testing.T) {
	r := fan()
	r.Tower.Blades = whole(12)
	r.Cells[0].TipRadius.Rounds[0] = lengths(field.AsLeft, head(5, 500), 12, flat(0.5))
	for i := range 8 {
		r.Cells[0].TipRadius.Rounds[0].Readings[i].Value = typed(nm(0.9 + 0.6*float64(i%2)))
	}
	r.Cells[0].TipRadius.Rounds[0].Readings[9].Value = typed(nm(0.5))
	r.Cells[0].Clearance.Rounds[0].Blade = whole(10)
	m := plan(t, r)
	if len(m.Moves) != 1 || len(m.Moves[0].Blades) != 6 || len(m.Later) != 1 || len(m.Later[0].Blades) != 2 {
		t.Errorf("moves %+v, later %+v, notes %v", m.Moves, m.Later, keys(m.Notes))
	}
}

// TestOvertaken: never from readings that a later move has overtaken.
func TestOvertaken(t *testing.T) {
	r := fan()
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, func(t float64) float64 { return 0.5 - 0.25*math.Cos(t) })
	h := head(5, 600)
	r.Cells[0].Moves = []field.Move{{Date: h.Date, Time: h.Start, Event: text("gear.slide")}}
	m := plan(t, r)
	if len(m.Moves) != 0 || !slices.Contains(keys(m.Notes), "correct.overtaken") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestAsked: what is within is improved where it is asked for.
func TestAsked(t *testing.T) {
	r := fan()
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, func(t float64) float64 { return 0.5 - 0.1*math.Cos(t) })
	if m := plan(t, r); len(m.Moves) != 0 {
		t.Errorf("%v", kinds(m.Moves))
	}
	if m := plan(t, r, assess.Clearance); !slices.Equal(kinds(m.Moves), []string{correct.KindSlide}) {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestDriveAlone: the motor moves where nothing else does.
func TestDriveAlone(t *testing.T) {
	r := fan()
	g := &r.Cells[0].Drive.CouplingGear.Rounds[0]
	for i, v := range []float64{0.46875, 0.5, 0.53125, 0.5} { // top, 90° side, bottom, other
		g.Readings[i].Value = typed(nm(v))
	}
	g.Return = g.Readings[0].Value
	m := plan(t, r)
	// σ_B = 0.0625/10: 120 in on, the motor is 0.75 in high at A, and rises on.
	if !slices.Equal(kinds(m.Moves), []string{correct.KindMotorShim}) {
		t.Fatalf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	if f := m.Moves[0].Motor; f.Front != nm(-0.788).RoundTo(measure.Thou) || f.Rear != nm(-0.888).RoundTo(measure.Thou) {
		t.Errorf("%v", f)
	}
	if p := prediction(t, m, assess.CouplingGear); p.Before != assess.Outside || p.After != assess.Within || in(p.Value) > 0.001 {
		t.Errorf("%+v", p)
	}
}

// TestLoopOfCell: as found, logged shims, as left.
func TestLoopOfCell(t *testing.T) {
	r := fan()
	tilt := &r.Cells[0].Tilt
	tilt.Rounds = append([]field.Series[field.Length]{lengths(field.AsFound, head(3, 480), 12, func(t float64) float64 { return 10 + 0.75*math.Cos(t) })}, tilt.Rounds...)
	tilt.Rounds[0].Return = typed(tilt.Rounds[0].Readings[0].Value.Value + measure.SixtyFourth)
	tilt.Rounds[1].Return = typed(tilt.Rounds[1].Readings[0].Value.Value + measure.SixtyFourth)
	h := head(4, 480)
	shim := field.Move{Date: h.Date, Time: h.Start, Event: text("gear.shim")}
	for f, now := range []measure.Length{214, 0, 0, 214} {
		shim.Feet = append(shim.Feet, field.FootMove{Foot: f + 1, Was: typed(0), Now: typed(now * measure.Thou)})
	}
	r.Cells[0].Moves = []field.Move{shim}
	m := plan(t, r)
	if m.Loop == nil || !m.Loop.Agrees || m.Loop.Code.Key != "correct.loop.agrees" {
		t.Fatalf("%+v", m.Loop)
	}
}

// TestSameAnswer: the same record gives the same moves, and is not changed.
func TestSameAnswer(t *testing.T) {
	r := fan()
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 12, func(t float64) float64 { return 10 + 0.25*math.Cos(t+1) })
	before := fan()
	before.Cells[0].Tilt.Rounds[0] = r.Cells[0].Tilt.Rounds[0]
	a, b := plan(t, r), plan(t, r)
	if !reflect.DeepEqual(a, b) || !reflect.DeepEqual(r, before) {
		t.Error("differs")
	}
}

// TestCodes: every code that comes out is listed, once, with its arguments.
func TestCodes(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range correct.Codes() {
		if seen[c.Key] {
			t.Errorf("%s stands twice", c.Key)
		}
		seen[c.Key] = true
	}
}

// TestNothingToGain: readings to half an inch cannot call for a move of less.
func TestNothingToGain(t *testing.T) {
	r := fan()
	r.Instruments[0].Resolution = typed(inch / 2)
	r.Cells[0].Clearance.Rounds[0].Series = lengths(field.AsLeft, head(5, 510), 12, func(t float64) float64 { return 0.5 - 0.15*math.Cos(t) })
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 12, func(t float64) float64 { return 10 + 0.15*math.Cos(t) })
	m := plan(t, r)
	n := 0
	for _, k := range keys(m.Notes) {
		if k == "correct.nothingtogain" {
			n++
		}
	}
	if n != 2 || slices.Contains(kinds(m.Moves), correct.KindShim) || slices.Contains(kinds(m.Moves), correct.KindSlide) {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}
