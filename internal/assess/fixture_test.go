package assess_test

import (
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// ruleSet is the built-in rule set as the program passes it in.
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
func count(n int) field.Count  { return field.Count{Value: n, Set: true} }
func flag(b bool) field.Flag   { return field.Flag{Value: b, Set: true} }
func clock(m int) field.Clock  { return field.Clock{Value: field.Minute(m), Set: true} }
func day(d int) field.Date {
	return field.Date{Value: field.Day{Year: 2026, Month: 3, Day: d}, Set: true}
}

func typed(n measure.Length) field.Length {
	return field.Length{
		Entry: field.Entry[measure.Length]{Value: n, Set: true, Text: n.In(measure.UnitInch)},
		Unit:  measure.UnitInch,
	}
}

func deg(a measure.Angle) field.Angle { return field.Angle{Value: a, Set: true, Text: a.String()} }

// read makes the readings 1, 2, 3 … of a series.
func read(values ...measure.Length) []field.Reading[field.Length] {
	var out []field.Reading[field.Length]
	for i, v := range values {
		out = append(out, field.Reading[field.Length]{Index: i + 1, Value: typed(v)})
	}
	return out
}

func readAngles(values ...measure.Angle) []field.Reading[field.Angle] {
	var out []field.Reading[field.Angle]
	for i, v := range values {
		out = append(out, field.Reading[field.Angle]{Index: i + 1, Value: deg(v)})
	}
	return out
}

// same is n equal readings.
func same(n int, v measure.Length) []measure.Length {
	out := make([]measure.Length, n)
	for i := range out {
		out[i] = v
	}
	return out
}

const (
	blades    = 8
	positions = 12
	inch      = measure.Inch
	step      = measure.SixtyFourth
)

// head is a complete head: day, minute of the day, everything at final torque.
func head(d, minute int) field.Head {
	return field.Head{
		Date: day(d), Start: clock(minute), Finish: clock(minute + 10), Instrument: text("T1"),
		HoldDownsFinal: flag(true), ClampsFinal: flag(true),
	}
}

// lengths is one round of lengths.
func lengths(round string, h field.Head, values ...measure.Length) field.Series[field.Length] {
	return field.Series[field.Length]{Round: round, Head: h, Readings: read(values...), Return: typed(values[0])}
}

// cleanCell was read as left on day 5 in the advised order, everything well
// inside its limits; blade 3 is the longest and was carried round.
func cleanCell(number int) field.Cell {
	gaps := same(blades, inch/2)
	gaps[2] -= 4 * step
	return field.Cell{
		Number: number,
		Tilt: field.Tilt{
			Sense: text("down"), Blade: count(1), Radius: typed(84 * inch),
			Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 480), same(positions, 10*inch)...)},
		},
		Track: field.Track{
			Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 500), same(blades, 12*inch)...)},
		},
		TipRadius: field.TipRadius{
			Position: count(4), PulledOut: flag(true),
			Rounds: []field.Series[field.Length]{lengths(field.AsLeft, head(5, 520), gaps...)},
		},
		Clearance: field.Clearance{
			PulledOut: flag(true),
			Rounds: []field.ClearanceRound{{
				Series: lengths(field.AsLeft, head(5, 540), same(positions, inch/2-4*step)...), Blade: count(3),
			}},
		},
		Pitch: field.Pitch{
			Position: count(1),
			Rounds: []field.Series[field.Angle]{{
				Round: field.AsLeft, Head: head(5, 460), Readings: readAngles(sameAngles(blades, 12*measure.Degree)...),
			}},
		},
	}
}

func sameAngles(n int, v measure.Angle) []measure.Angle {
	out := make([]measure.Angle, n)
	for i := range out {
		out[i] = v
	}
	return out
}

// contract marks a limit as the contract's.
func contract(l field.Limit) field.Limit {
	l.Authority, l.Document = text("contract"), text("Specification 1")
	return l
}

// record is a tower with complete limits and instruments. Limits are those of
// common practice, no source.
func record(cells ...field.Cell) field.Record {
	r := field.Record{
		Project: field.Project{Units: text("in")},
		Tower:   field.Tower{Blades: count(blades), FanRotation: text("cw"), Segments: count(6)},
		Limits: []field.Limit{
			contract(field.Limit{Check: assess.Tilt, Max: typed(inch)}),
			contract(field.Limit{Check: assess.Track, Max: typed(inch)}),
			contract(field.Limit{Check: assess.TipRadius, Tolerance: typed(inch / 8)}),
			contract(field.Limit{Check: assess.Clearance, Nominal: typed(inch / 2), Tolerance: typed(inch / 8)}),
			contract(field.Limit{Check: assess.ClearanceAll, Max: typed(inch)}),
			contract(field.Limit{Check: assess.Pitch, AngleNominal: deg(12 * measure.Degree), AngleTol: deg(measure.Degree / 2)}),
			contract(field.Limit{Check: assess.PitchSpread, AngleTol: deg(measure.Degree / 2)}),
		},
		Instruments: []field.Instrument{{
			ID: text("T1"), Class: text("checked"), Resolution: typed(step),
			AngleResolution: deg(measure.Degree / 10), Calibrated: day(1), Due: day(28),
		}},
		Cells: cells,
	}
	for i := range positions {
		r.Tower.Positions = append(r.Tower.Positions,
			field.Position{Number: i + 1, Degrees: measure.Angle(i) * 30 * measure.Degree})
	}
	r.Waivers = restWaived()
	return r
}

// fan is the checks of the fan.
func fan(c *assess.Cell) []assess.Check { return c.Checks[:len(assess.Checks())] }

// restWaived asks for no check but those of the fan.
func restWaived() []field.Waiver {
	var out []field.Waiver
	for _, key := range assess.AllChecks()[len(assess.Checks()):] {
		out = append(out, field.Waiver{Check: text(key), Kind: text("notrequired"), Reason: text("fan only"), By: text("owner")})
	}
	return out
}

// verdict assesses the record and returns a check of its first cell.
func verdict(t testing.TB, r field.Record, check string) *assess.Check {
	t.Helper()
	a := assess.Assess(r, ruleSet(t))
	return a.Cells[0].Check(check)
}

// keys are the keys of the codes, for comparing and printing.
func keys(codes []assess.Code) []string {
	out := []string{}
	for _, c := range codes {
		out = append(out, c.Key)
	}
	return out
}

func reasonKeys(reasons []assess.Reason) []string {
	out := []string{}
	for _, r := range reasons {
		out = append(out, r.Check+":"+r.Key)
	}
	return out
}

// value is the integer of a named result of the standing round.
func value(t testing.TB, c *assess.Check, key string) assess.Result {
	t.Helper()
	r := c.StandingRound()
	if r == nil {
		t.Fatalf("%s: no standing round", c.Key)
	}
	x, ok := r.Result(key)
	if !ok {
		t.Fatalf("%s: no result %q in %v", c.Key, key, r.Results)
	}
	return x
}
