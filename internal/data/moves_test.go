package data

import (
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/measure"
)

// everyMove has something in each member that moves can have.
func everyMove() correct.Moves {
	inch := measure.Inch
	floor, margin := inch/8, -inch/16
	amount := assess.Length
	number := 3
	move := func(kind string) correct.Move {
		return correct.Move{Kind: kind, Event: "gear.shim", Along: inch / 4, Front: -inch / 8, Rear: inch / 8, Uncertainty: 1234,
			Feet:   []correct.FootChange{{Foot: 1, Now: inch / 20, Change: -inch / 50, New: 762000, Known: true, Pieces: 2}, {Foot: 2, Change: inch}},
			Blades: []correct.BladeChange{{Blade: 4, Now: amount(inch), Change: amount(-inch / 64), New: amount(inch * 63 / 64)}},
			Wall:   []correct.WallMove{{Position: 7, Degrees: 180 * measure.Degree, In: -inch / 32, Needed: true}},
			Motor:  correct.MotorFeet{Front: inch, Rear: -inch},
			Notes:  []assess.Code{{Key: "correct.bind.pieces", Args: []assess.Arg{{Name: "pieces", Number: &number}}}}}
	}
	readings := []correct.Reading{{Position: 1, Value: inch / 3}, {Position: 2, Degrees: 90 * measure.Degree, Value: -inch / 3}}
	cert := &correct.Certificate{Positions: []int{1, 7, 1}, Sides: []int{1, -1, -1}, Weights: []int64{500, 500, 0}, Gap: 3}
	out := correct.Moves{Cell: 3, Round: "asleft", Later: []correct.Move{move(correct.KindMotorAxial)}, Alternatives: []correct.Move{move(correct.KindCylinder)},
		Predictions: []correct.Prediction{
			{Check: assess.Tilt, Readings: readings, Each: 5, Value: inch, Expanded: 7, Floor: &floor, Margin: &margin, Before: assess.Outside, After: assess.Within, Certificate: cert},
			{Check: assess.Pitch, Readings: readings[:1], Value: measure.Length(12 * measure.Degree)},
		},
		Notes: []assess.Code{{Key: "correct.drivereread"}}, Reread: []string{assess.Tilt, assess.Clearance},
		Loop: &correct.Loop{Predicted: readings, PredictedGaps: readings, ChiSquare: 4, Threshold: 9, Freedom: 12, Slip: correct.SlipUnit, Odds: 200,
			Code: assess.Code{Key: "correct.loop.agrees"}},
		Shims: &correct.ShimPlan{Raised: 5, Certificate: *cert}, Center: &correct.CenterPlan{Ideal: correct.Shift{Along: 1, Across: -2}, Certificate: *cert},
		Drive: &correct.DrivePlan{Exact: correct.MotorFeet{Front: 4, Rear: 5}, Axial: -6}}
	for _, k := range correct.Kinds() {
		out.Moves = append(out.Moves, move(k))
	}
	return out
}

// TestMovesFollowTheSchema: with every member filled the file is as its schema
// says, comes back the same, and has its values where the paths say.
func TestMovesFollowTheSchema(t *testing.T) {
	in := small()
	m := everyMove()
	m.Cell = in.Assessment.Cells[0].Number
	in.Moves = []correct.Moves{m}
	file, err := Encode(in)
	if err != nil {
		t.Fatal(err)
	}
	if err := validate(t, compileSchema(t), file); err != nil {
		t.Error(err)
	}
	if _, err := Decode(file); err != nil {
		t.Error(err)
	}
	values, err := Flatten(file)
	if err != nil {
		t.Fatal(err)
	}
	for path, base := range map[string]string{
		CorrectionID(m.Cell, 1, "feet", "1", "change"): "-508000", // −inch/50
		CorrectionID(m.Cell, 2, "along"):               "6350000",
		PredictionID(m.Cell, assess.Tilt, "value"):     "25400000",
		CellID(m.Cell) + ".corrections.drive.axial":    "-6",
	} {
		if v, ok := values.Find(path); !ok || v.Base != base {
			t.Errorf("%s: %+v, want %s", path, v, base)
		}
	}
	bad := strings.Replace(string(file), `"kind":"move.hub"`, `"kind":"hub"`, 1)
	if validate(t, compileSchema(t), []byte(bad)) == nil {
		t.Error("the schema takes any kind")
	}
}
