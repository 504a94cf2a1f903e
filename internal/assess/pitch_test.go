package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// TestPitchTiltShare: the fan of the tilt example, 0.25 in over 84 in low
// toward 0°. At 90° the plane rises with the degrees, by 0.25/84 = 0.170523°
// (as an angle in radians); a clockwise fan that blows up carries its leading
// edge low and reads that much less than its pitch. Worked by hand.
func TestPitchTiltShare(t *testing.T) {
	const share = 613_883_352 // 1/336 rad in millionths of an arc second
	c, place := tiltCell("down", 10*inch+inch/4, 10*inch, 10*inch-inch/4, 10*inch)
	r := record(c)
	r.Tower.Positions = place
	for _, x := range []struct {
		rotation string
		place    int
		share    int64
	}{{"cw", 1, 0}, {"cw", 2, -share}, {"cw", 4, share}, {"ccw", 2, share}, {"ccw", 3, 0}} {
		r.Tower.FanRotation = text(x.rotation)
		r.Cells[0].Pitch.Position = count(x.place)
		k := verdict(t, r, assess.Pitch)
		if got := value(t, k, "tiltshare").Amount.N; got < x.share-1 || got > x.share+1 {
			t.Errorf("%s at position %d: share %d, want %d", x.rotation, x.place, got, x.share)
		}
		p := k.StandingRound().Points[0]
		if got := p.Corrected.N; got != p.Value.N-value(t, k, "tiltshare").Amount.N {
			t.Errorf("%s at position %d: corrected %d", x.rotation, x.place, got)
		}
		if p.Deviation.N != 0 || k.Verdict != assess.Within {
			t.Errorf("deviation %d, %s: the verdict is of the reading", p.Deviation.N, k.Verdict)
		}
	}
}

// TestPitchNotCorrected: without what the correction needs it is left out, with
// a note.
func TestPitchNotCorrected(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*field.Record)
		note   string
	}{
		{"no rotation", func(r *field.Record) { r.Tower.FanRotation = text("") }, "note.norotation"},
		{"no sense", func(r *field.Record) { r.Cells[0].Tilt.Sense = text("") }, "note.notilt"},
		{"no radius", func(r *field.Record) { r.Cells[0].Tilt.Radius = field.Length{} }, "note.notilt"},
		{"no tilt", func(r *field.Record) { r.Cells[0].Tilt.Rounds = nil }, "note.notilt"},
		{"no place", func(r *field.Record) { r.Cells[0].Pitch.Position = field.Count{} }, "note.notilt"},
		// Tilt of another state of the fan is none.
		{"tilt of another round", func(r *field.Record) {
			r.Cells[0].Tilt.Rounds[0].Round = field.AsFound
		}, "note.notilt"},
	} {
		t.Run(test.name, func(t *testing.T) {
			r := record(cleanCell(1))
			test.change(&r)
			round := verdict(t, r, assess.Pitch).StandingRound()
			if !slices.Contains(keys(round.Notes), test.note) || round.Points[0].Corrected != nil {
				t.Errorf("notes %v, corrected %v", round.Notes, round.Points[0].Corrected)
			}
		})
	}
}

// TestPitchMean rounds once, halves away from zero.
func TestPitchMean(t *testing.T) {
	c := cleanCell(1)
	for i := range c.Pitch.Rounds[0].Readings {
		c.Pitch.Rounds[0].Readings[i].Value = deg(12*measure.Degree + measure.Angle(i%2))
	}
	if got := value(t, verdict(t, record(c), assess.Pitch), "mean").Amount.N; got != int64(12*measure.Degree+1) {
		t.Errorf("mean %d", got)
	}
}
