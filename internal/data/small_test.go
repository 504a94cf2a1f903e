package data

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// text, length and the like type something into a cell.
func text(s, at string) field.Text {
	return field.Text{Value: s, Set: true, Text: s, At: ref("Project", at)}
}

func quantity(typed string, kind measure.QuantityKind, at string) field.Quantity {
	q, err := measure.ParseQuantity(typed, kind, measure.NoUnit)
	if err != nil {
		panic(err) // a mistake in the test
	}
	return field.Quantity{Value: q, Set: true, Text: typed, At: ref("Drive 3", at)}
}

func slope(typed, at string) field.Slope {
	s, err := measure.ParseSlope(typed, measure.UnitNone, measure.UnitNone)
	if err != nil {
		panic(err) // a mistake in the test
	}
	return field.Slope{Value: s, Set: true, Text: typed, At: ref("Drive 3", at)}
}

func ref(sheet, cell string) field.Ref { return field.Ref{Sheet: sheet, Cell: cell} }

func length(typed string, u measure.Unit, at string) field.Length {
	l, u, err := measure.ParseLength(typed, u)
	if err != nil {
		panic(err) // a mistake in the test
	}
	return field.Length{Entry: field.Entry[measure.Length]{Value: l, Set: true, Text: typed, At: ref("Cell 3", at)}, Unit: u}
}

// small is a tower of one cell with a clearance of four positions, one blocked,
// and a pitch of two blades, with every kind of member in it.
func small() Input {
	limits := []field.Limit{
		{Check: assess.Clearance, Nominal: length("1/2", measure.UnitInch, "C4"),
			Tolerance: length("1/8 in", measure.UnitInch, "D4"), Authority: text("contract", "F4"),
			Document: text("=SUM(A1:A9)", "G4"), AcceptedBy: text("R. Example", "J4"),
			AcceptedOn: field.Date{Value: field.Day{Year: 2026, Month: 3, Day: 2}, Set: true, Text: "2026-03-02", At: ref("Limits", "L4")}},
		{Check: assess.GearLevel, Slope: slope("0.005 in/ft", "E8"), Criterion: text("plane", "K8")},
		{Check: assess.VoltUnbalance, Quantities: field.QuantityLimit{Max: quantity("1 %", measure.Percentage, "E9")}},
		{Check: assess.Pitch, AngleNominal: field.Angle{Value: 12 * measure.Degree, Set: true, Text: "12", At: ref("Limits", "C7")}},
	}
	rec := &field.Record{
		Files: []field.File{{Name: "tower.xlsx", SHA256: strings.Repeat("0", 64), Size: 12345, Form: "1",
			Extra: []string{"Notes <old>"}, Authors: []string{"Crew"},
			Comments: []field.Comment{{At: ref("Cell 3", "D14"), Author: "Crew", Text: "read twice"}}}},
		Project: field.Project{Plant: text("Example Plant", "C3"), Units: text("in", "C20"),
			IssueDate: field.Date{Value: field.Day{Year: 2026, Month: 3, Day: 4}, Set: true, Text: "2026-03-04", At: ref("Project", "C12")}},
		Tower: field.Tower{Tag: text("CT-1", "C5"), Blades: field.Count{Value: 2, Set: true, Text: "2"},
			CrewDirection: field.Entry[field.Direction]{Value: field.CounterClockwise, Set: true, Text: "counter-clockwise"}},
		Limits: limits,
		Instruments: []field.Instrument{{ID: text("W-1", "B2"), Capacity: quantity("150 ft-lb", measure.Torque, "H2"),
			SlopeResolution: slope("0.0005 in/ft", "I2")}},
		Cells: []field.Cell{smallCell()},
		Roles: []field.Role{{Key: "1", Title: text("Contractor", "B30")}},
	}
	rec.Tower.Geometry = field.Geometry{Shimmed: text("gear", "C30"), HubHeight: length("60", measure.UnitInch, "C31"),
		Ratio: field.Number{Value: measure.Whole(12), Set: true, Text: "12", At: ref("Tower", "C32")},
		Feet:  []field.Foot{{Number: 2, Along: length("-12", measure.UnitInch, "C40")}},
		Stock: []field.StockShim{{Thickness: length("0.005", measure.UnitInch, "A50")}}}
	for i := range 4 {
		rec.Tower.Positions = append(rec.Tower.Positions,
			field.Position{Number: i + 1, Degrees: measure.Angle(i) * 90 * measure.Degree})
	}
	return Input{Program: "0.1.0", Language: "en", Paper: "Letter", Profile: "PDF/A-3a", Units: measure.UnitInch,
		Rules:      assess.Rules{Version: "1", Hash: strings.Repeat("a", 64)},
		Record:     rec,
		Assessment: smallAssessment(rec)}
}

func smallCell() field.Cell {
	gaps := field.Series[field.Length]{Round: field.AsLeft, Return: length("15/32", measure.UnitInch, "D20"),
		Accepted: field.Flag{Value: true, Set: true, Text: "x"}}
	for i, typed := range []string{"15/32", "12,7 mm", "", "-1/2"} {
		r := field.Reading[field.Length]{Index: i + 1}
		if typed != "" {
			r.Value = length(typed, measure.UnitInch, "D1"+key(i+1))
		} else {
			r.Reason = text("-opening", "E13")
		}
		gaps.Readings = append(gaps.Readings, r)
	}
	c := field.Cell{Number: 3, Name: text("C", "C2"),
		Moves: []field.Move{{Event: text("gear.shim", "B40"), Time: field.Clock{Value: 845, Set: true, Text: "2:05 pm"}}}}
	c.Clearance.Rounds = []field.ClearanceRound{{Series: gaps, Blade: field.Count{Value: 2, Set: true, Text: "2"}}}
	c.Moves[0].Feet = []field.FootMove{{Foot: 2, Was: length("0.020", measure.UnitInch, "G40"), Now: length("0.045", measure.UnitInch, "H40")}}
	c.Moves[0].Blades, c.Moves[0].At = []int{1, 4}, ref("Drive 3", "B40")
	c.Stacks = []field.Stack{{Foot: 2, Now: length("0.045", measure.UnitInch, "C5"), Pieces: field.Count{Value: 3, Set: true, Text: "3"}}}
	c.MotorStacks = []field.MotorStack{{Place: field.RearOther, Now: length("1/4", measure.UnitInch, "C9")}}
	c.Stuck = []field.Stuck{{What: text("gear", "A12"), Way: text("shims", "C12"), Foot: field.Count{Value: 3, Set: true, Text: "3"}, Reason: text("seized", "H12")}}
	set := field.Fasteners{Set: text("gear.holddown", "B60"), Final: quantity("150 ft-lb", measure.Torque, "C60")}
	c.Fasteners = []field.Fasteners{set, set}
	c.Pins = []field.Pins{{Where: text("gear", "B70"), Above: length("1/4", measure.UnitInch, "G70")}}
	c.PreStart = []field.Item{{Key: assess.LineBlocks, Done: field.Flag{Value: true, Set: true, Text: "yes"}}}
	c.StartUps = []field.StartUp{{Water: text("on", "C80"), Bearing: [2]field.Quantity{{}, quantity("148 °F", measure.Temperature, "C81")},
		Vibration: []field.Vibration{{Point: text("motor", "B90"), Value: quantity("0.12 in/s rms", measure.VibrationVelocityRMS, "F90")}}}}
	c.Drive.GearLevel.Rounds = []field.Series[field.Slope]{{Round: field.AsLeft,
		Readings: []field.Reading[field.Slope]{{Index: 1, Value: slope("0.001 in/ft", "C20")}}}}
	c.Drive.CouplingGear.Stood = text("motor", "C24")
	c.Tilt.Radius = length("84", measure.UnitInch, "C9")
	return c
}

func smallAssessment(rec *field.Record) *assess.Assessment {
	round := assess.Round{Key: field.AsLeft, Expected: 4, Found: 3, Blocked: 1, Verdict: assess.Outside,
		Results: []assess.Result{
			{Key: "least", Amount: assess.Length(-12700000), Index: 4},
			{Key: "mean", Amount: assess.Amount{Kind: assess.KindLength, N: 4035425}},
			{Key: "longest", Amount: assess.Length(0), Index: 1},
			{Key: "longest", Amount: assess.Length(0), Index: 2},
			{Key: "level", Amount: assess.Amount{Kind: assess.KindSlope, N: 208_333}},
			{Key: "conformance", Amount: assess.Amount{Kind: assess.KindRatio, N: 2976}},
			{Key: "phase", Amount: assess.Angle(measure.Degree / 3)},
		},
		Notes: []assess.Code{{Key: "note.blocked", Args: []assess.Arg{{Name: "n", Number: new(int)}}}}}
	margin := assess.Length(-22225000)
	round.Margin, round.Deciding = &margin, &round.Results[0].Amount
	for i, r := range rec.Cells[0].Clearance.Rounds[0].Readings {
		p := assess.Point{Index: r.Index, Degrees: measure.Angle(i) * 90 * measure.Degree, Found: r.Value.Set,
			Value: assess.Length(r.Value.Value), Reason: r.Reason.Value, At: ref("Cell 3", "D1"+key(r.Index))}
		if p.Found {
			p.Verdict, p.Margin = assess.Within, assess.Length(794)
		}
		round.Points = append(round.Points, p)
	}
	amount := assess.Length(1)
	torque := assess.Amount{Kind: assess.KindQuantity, N: 45_500_000}
	round.Items = []assess.Item{{Key: "gear.holddown-2", Code: "gear.holddown", Verdict: assess.Outside, Deciding: &torque,
		Margin: &torque, Results: []assess.Result{{Key: "area", Amount: assess.Amount{Kind: assess.KindArea, N: 91_548_000_000_000}}},
		Findings: []assess.Code{{Key: "finding.x"}}, At: ref("Cell 3", "B60")}}
	check := assess.Check{Key: assess.Clearance, Limit: &rec.Limits[0], Rounds: []assess.Round{round},
		Verdict: assess.Recheck, Before: assess.Outside,
		Overtaken: []assess.Overtaking{{Event: "gear.shim", Move: rec.Cells[0].Moves[0]}}}
	level := assess.Check{Key: assess.GearLevel, Limit: &rec.Limits[1], Verdict: assess.Within, Rounds: []assess.Round{{
		Key: field.AsLeft, Expected: 1, Found: 1, Points: []assess.Point{{Index: 1, Found: true,
			Value: assess.Amount{Kind: assess.KindSlope, N: 83_333}, At: ref("Drive 3", "C20")}}}}}
	bearing := assess.Check{Key: assess.BearingTemp, Verdict: assess.NoLimit, Rounds: []assess.Round{{
		Key: "run1", Expected: 2, Found: 1, Points: []assess.Point{{Index: 1}, {Index: 2, Found: true,
			Value: assess.Amount{Kind: assess.KindQuantity, N: 148_000_000, Unit: measure.Fahrenheit}, At: ref("Drive 3", "C81")}}}}}
	tilt := assess.Check{Key: assess.Tilt, Standing: -1, Verdict: assess.Missing}
	cell := assess.Cell{Number: 3, InPackage: true, State: assess.NotReady, Checks: []assess.Check{tilt, check, level, bearing}, Due: []assess.Code{{Key: "due.x"}}, Mechanical: true,
		Questions: []assess.Code{{Key: "question.x", Args: []assess.Arg{{Name: "by", Amount: &amount}}}}}
	reason := assess.Reason{Code: assess.Code{Key: "reason.missing", Args: []assess.Arg{{Name: "check", Text: "tilt"}}}, Cell: 3, Check: "tilt"}
	cell.Reasons = []assess.Reason{reason}
	return &assess.Assessment{State: assess.NotReady, Expected: 4, Found: 3,
		Cells: []assess.Cell{cell}, Reasons: []assess.Reason{{Code: assess.Code{Key: "reason.partial"}}, reason}}
}
