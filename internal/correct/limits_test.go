package correct_test

import (
	"math"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
)

func stuck(what, way, feet string, foot int) field.Stuck {
	s := field.Stuck{What: text(what), Way: text(way), Feet: text(feet)}
	if foot > 0 {
		s.Foot = whole(foot)
	}
	return s
}

// tilted is a fan with its low side toward the motor.
func tilted(drop float64) field.Record {
	r := fan()
	r.Cells[0].Tilt.Rounds[0] = lengths(field.AsLeft, head(5, 480), 12, func(t float64) float64 { return 10 + drop*math.Cos(t) })
	return r
}

// TestStuckFoot: a foot whose stack must stay as it is.
func TestStuckFoot(t *testing.T) {
	r := tilted(0.25)
	r.Cells[0].Stuck = []field.Stuck{stuck("gear", "shims", "", 2)}
	m := plan(t, r)
	if len(m.Moves) == 0 || m.Moves[0].Kind != correct.KindShim || m.Moves[0].Feet[1].Change != 0 || slices.Contains(keys(m.Notes), "correct.bind.foot") {
		t.Errorf("foot 2: %+v, notes %v", m.Moves, keys(m.Notes))
	}
	// Feet at the motor's end and one at the other: nothing levels the fan.
	r.Cells[0].Stuck = []field.Stuck{stuck("gear", "shims", "front", 0), stuck("gear", "shims", "rear", 0)}
	m = plan(t, r)
	if slices.Contains(kinds(m.Moves), correct.KindShim) || !slices.Contains(keys(m.Notes), "correct.bind.foot") || !slices.Contains(keys(m.Notes), "correct.verdictstays") {
		t.Errorf("all feet: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	// What is said of another machine says nothing here.
	r.Cells[0].Stuck = []field.Stuck{stuck("support", "shims", "", 0), stuck("motor", "shims", "", 0)}
	if m = plan(t, r); !slices.Contains(kinds(m.Moves), correct.KindShim) {
		t.Errorf("another machine: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestStock: the new stacks are made of the shims at hand, and where those do not
// do, that is said.
func TestStock(t *testing.T) {
	stock := func(thou ...measure.Length) []field.StockShim {
		var out []field.StockShim
		for _, l := range thou {
			out = append(out, field.StockShim{Thickness: typed(l * measure.Thou)})
		}
		return out
	}
	r := tilted(0.25)
	r.Tower.Geometry.Stock = stock(5, 10, 25, 50)
	m := plan(t, r)
	if len(m.Moves) == 0 || m.Moves[0].Kind != correct.KindShim {
		t.Fatalf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	for _, f := range m.Moves[0].Feet {
		if f.Change != 0 && (len(f.Stack) == 0 || f.Change%(5*measure.Thou) != 0) {
			t.Errorf("%+v", f)
		}
	}
	// Thinnest shim blank: the finest that the stock can make.
	r.Tower.Geometry.ShimStep = field.Length{}
	if m = plan(t, r); len(m.Moves) == 0 || slices.Contains(keys(m.Notes), "correct.need.step") {
		t.Errorf("notes %v", keys(m.Notes))
	}
	r = tilted(0.25)
	r.Tower.Geometry.Stock = stock(500)
	if m = plan(t, r); !slices.Contains(keys(m.Notes), "correct.bind.stock") || m.Moves[0].Feet[1].New != 0 {
		t.Errorf("taking all out still helps: %+v, notes %v", m.Moves, keys(m.Notes))
	}
	r.Cells[0].Stacks = nil // nothing can come out
	m = plan(t, r)
	if slices.Contains(kinds(m.Moves), correct.KindShim) || !slices.Contains(keys(m.Notes), "correct.bind.stock") || !slices.Contains(keys(m.Notes), "correct.verdictstays") {
		t.Errorf("coarse stock: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestBlockedSide: something stands in the way of the slide.
func TestBlockedSide(t *testing.T) {
	r := fan() // the fan stands off by 0.25 in toward the motor, or toward the 90° side
	off := func(x, y float64) {
		r.Cells[0].Clearance.Rounds[0] = field.ClearanceRound{Blade: whole(3), Series: lengths(field.AsLeft, head(5, 510), 12,
			func(t float64) float64 { return 0.5 - x*math.Cos(t) - y*math.Sin(t) })}
	}
	for _, x := range []struct {
		x, y float64
		way  string
	}{{0.25, 0, "away"}, {-0.25, 0, "toward"}, {0, 0.25, "other"}, {0, -0.25, "ninety"}} {
		off(x.x, x.y)
		r.Cells[0].Stuck = nil
		if m := plan(t, r); !slices.Equal(kinds(m.Moves), []string{correct.KindSlide}) {
			t.Fatalf("free: %v, notes %v", kinds(m.Moves), keys(m.Notes))
		}
		r.Cells[0].Stuck = []field.Stuck{stuck("gear", x.way, "", 0)}
		m := plan(t, r)
		if slices.Contains(kinds(m.Moves), correct.KindSlide) {
			t.Errorf("%s blocked: %+v", x.way, m.Moves)
		}
		i := slices.IndexFunc(m.Notes, func(c assess.Code) bool { return c.Key == "correct.bind.side" })
		if i < 0 || m.Notes[i].Args[0].Text != x.way || !slices.Contains(keys(m.Notes), "correct.verdictstays") {
			t.Errorf("%s blocked: notes %v", x.way, keys(m.Notes))
		}
	}
	// A side that is not needed does not bind; slots not on the form stay asked for.
	off(0.25, 0)
	r.Tower.Geometry.SlotAlong = field.Length{}
	r.Cells[0].Stuck = []field.Stuck{stuck("gear", "toward", "", 0)}
	if m := plan(t, r); !slices.Equal(kinds(m.Moves), []string{correct.KindSlide}) || !slices.Contains(keys(m.Notes), "correct.need.slots") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// highMotor is a cell whose motor has to come down by 0.788 in at the front and
// 0.888 in at the rear feet, as in TestDriveAlone.
func highMotor() field.Record {
	r := fan()
	g := &r.Cells[0].Drive.CouplingGear.Rounds[0]
	for i, v := range []float64{0.46875, 0.5, 0.53125, 0.5} {
		g.Readings[i].Value = typed(nm(v))
	}
	g.Return = g.Readings[0].Value
	return r
}

func under(r *field.Record, thou ...measure.Length) {
	r.Cells[0].MotorStacks = nil
	for i, place := range []string{field.FrontNinety, field.FrontOther, field.RearNinety, field.RearOther} {
		r.Cells[0].MotorStacks = append(r.Cells[0].MotorStacks, field.MotorStack{Place: place, Now: typed(thou[i] * measure.Thou)})
	}
}

// TestMotorStacks: NOW, CHANGE and NEW under the motor; what is not there cannot
// come out.
func TestMotorStacks(t *testing.T) {
	r := highMotor()
	under(&r, 900, 950, 1000, 1000)
	m := plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindMotorShim}) || len(m.Moves[0].Stacks) != 4 {
		t.Fatalf("%+v, notes %v", m.Moves, keys(m.Notes))
	}
	for i, want := range []measure.Length{112, 162, 112, 112} {
		if s := m.Moves[0].Stacks[i]; (s.New-want*measure.Thou).Abs() > measure.Thou || s.New != s.Now+s.Change || !s.Known {
			t.Errorf("%+v, want %d thou", s, want)
		}
	}
	if slices.Contains(keys(m.Notes), "correct.motorshimsout") || slices.Contains(keys(m.Moves[0].Notes), "correct.motorshimsout") {
		t.Error("asks to check stacks that are known")
	}
	under(&r, 900, 500, 1000, 1000)
	m = plan(t, r)
	i := slices.IndexFunc(m.Notes, func(c assess.Code) bool { return c.Key == "correct.bind.shimsout" })
	if len(m.Moves) != 0 || i < 0 || m.Notes[i].Args[0].Text != "front" || m.Notes[i].Args[1].Amount.N != int64(inch/2) {
		t.Errorf("%v, notes %+v", kinds(m.Moves), m.Notes)
	}
	if !slices.Contains(keys(m.Notes), "correct.verdictstays") {
		t.Errorf("notes %v", keys(m.Notes))
	}
	// Shims at hand make no stack of 0.112 in; 0.110 in is near enough.
	under(&r, 900, 900, 1000, 1000)
	for _, l := range []measure.Length{5, 10, 50, 100} {
		r.Tower.Geometry.Stock = append(r.Tower.Geometry.Stock, field.StockShim{Thickness: typed(l * measure.Thou)})
	}
	m = plan(t, r)
	if len(m.Moves) != 1 || len(m.Moves[0].Stacks) != 4 || !slices.Equal(m.Moves[0].Stacks[0].Stack, []measure.Length{100 * measure.Thou, 10 * measure.Thou}) {
		t.Errorf("%+v, notes %v", m.Moves, keys(m.Notes))
	}
	if p := prediction(t, m, assess.CouplingGear); p.After != assess.Within {
		t.Errorf("%+v", p)
	}
}

// TestStuckMotor: shims that must stay, and pushes that something is in the way of.
func TestStuckMotor(t *testing.T) {
	r := highMotor()
	r.Cells[0].Stuck = []field.Stuck{stuck("motor", "shims", "rear", 0)}
	m := plan(t, r)
	if len(m.Moves) != 0 || !slices.Contains(keys(m.Notes), "correct.bind.motorfeet") || !slices.Contains(keys(m.Notes), "correct.verdictstays") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	r = fan()
	g := &r.Cells[0].Drive.CouplingGear.Rounds[0]
	for i, v := range []float64{0.5, 0.46875, 0.5, 0.53125} {
		g.Readings[i].Value = typed(nm(v))
	}
	m = plan(t, r)
	if !slices.Equal(kinds(m.Moves), []string{correct.KindMotorPush}) {
		t.Fatalf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	way, free := "other", "ninety"
	if m.Moves[0].Motor.Front > 0 {
		way, free = free, way
	}
	r.Cells[0].Stuck = []field.Stuck{stuck("motor", free, "", 0)}
	if m = plan(t, r); !slices.Equal(kinds(m.Moves), []string{correct.KindMotorPush}) {
		t.Errorf("the free side: %v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
	r.Cells[0].Stuck = []field.Stuck{stuck("motor", way, "", 0)}
	m = plan(t, r)
	i := slices.IndexFunc(m.Notes, func(c assess.Code) bool { return c.Key == "correct.bind.motor" })
	if len(m.Moves) != 0 || i < 0 || m.Notes[i].Args[1].Text != way {
		t.Errorf("%v, notes %+v", kinds(m.Moves), m.Notes)
	}
}

// TestLevelForetold: the shims raise the gear reducer by what they take out of
// the fan; worked by hand: 0.25/84 toward the motor on a gear reducer that
// stands 0.001 high there and 0.0005 low on the 90° side.
func TestLevelForetold(t *testing.T) {
	slope := func(rise measure.Length) field.Slope {
		return field.Slope{Value: measure.Slope{Rise: rise, Run: 10_000}, Set: true, Text: "x"}
	}
	r := tilted(0.25)
	r.Cells[0].Drive.GearLevel.Rounds = []field.Series[field.Slope]{{Round: field.AsLeft, Head: head(5, 470),
		Readings: []field.Reading[field.Slope]{{Index: 1, Value: slope(10)}, {Index: 2, Value: slope(-5)}}}}
	r.Limits = append(r.Limits, field.Limit{Check: assess.GearLevel, Slope: slope(60), Authority: text("contract")})
	p := prediction(t, plan(t, r), assess.GearLevel)
	want := 0.001 + 0.25/84
	if p.Kind != assess.KindSlope || p.Round != field.AsLeft || p.After != assess.Within ||
		math.Abs(float64(p.Value)/1e9-want) > 1.0/24_000 || math.Abs(float64(p.Readings[1].Value)/1e9+0.0005) > 1.0/24_000 {
		t.Errorf("%+v, want %g", p, want)
	}
	if x := prediction(t, plan(t, r), assess.Tilt); x.Round != field.AsLeft {
		t.Errorf("tilt starts from %q", x.Round)
	}
	// Without a limit it is foretold all the same, without a verdict of its own.
	r.Limits = r.Limits[:len(r.Limits)-1]
	if p = prediction(t, plan(t, r), assess.GearLevel); p.Margin != nil || p.After != assess.NoLimit {
		t.Errorf("%+v", p)
	}
	// Nothing is said of it where it was not read, or was overtaken.
	r.Cells[0].Moves = []field.Move{stamp(field.Move{Event: text("gear.loosen")}, 5, 475)}
	m := plan(t, r)
	for _, p := range m.Predictions {
		if p.Check == assess.GearLevel {
			t.Errorf("%+v", p)
		}
	}
	if len(m.Moves) == 0 || slices.Contains(keys(m.Notes), "correct.overtaken") {
		t.Errorf("%v, notes %v", kinds(m.Moves), keys(m.Notes))
	}
}

// TestMotorStackNotBuilt: nothing near the wanted amount can be stacked; the motor
// stays, and that is said. The amounts are those of TestTwoPlanes, turned round.
func TestMotorStackNotBuilt(t *testing.T) {
	p := correct.DriveProblem{Gear: faced(-0.010, 0, 8), Motor: faced(0.004, 0, 8), Span: 120 * inch, FrontFeet: 6 * inch,
		RearFeet: 22 * inch, MotorStep: inch / 100, PushStep: inch / 1000}
	for _, place := range []string{field.FrontNinety, field.FrontOther, field.RearNinety, field.RearOther} {
		p.Feet = append(p.Feet, correct.MotorFoot{Place: place, Front: place == field.FrontNinety || place == field.FrontOther,
			Foot: correct.Foot{Now: inch / 5, Known: true, Pieces: 2}})
	}
	for _, x := range []struct {
		stock []measure.Length
		most  int
		front measure.Length
		binds string
	}{
		{nil, 0, 15 * inch / 100, ""},
		{[]measure.Length{inch}, 5, 0, "correct.bind.stock"},
		{[]measure.Length{inch / 20, inch / 5}, 5, 15 * inch / 100, ""},
		{nil, 1, 0, "correct.bind.pieces"},
	} {
		p.Stock, p.MaxPieces = x.stock, x.most
		got, err := correct.SolveDrive(p)
		if err != nil {
			t.Fatal(err)
		}
		binds := ""
		if len(got.Binding) > 0 {
			binds = got.Binding[0].Key
		}
		if got.Shims.Front != x.front || binds != x.binds {
			t.Errorf("stock %v, %d pieces: front %s, binding %q", x.stock, x.most, got.Shims.Front.In(measure.UnitInch), binds)
		}
	}
}
