package assess_test

import (
	"math"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// tiltCell has one tilt round with the values at even positions, and the
// degrees of those positions.
func tiltCell(sense string, values ...measure.Length) (field.Cell, []field.Position) {
	c := cleanCell(1)
	c.Tilt.Sense = text(sense)
	c.Tilt.Rounds = []field.Series[field.Length]{lengths(field.AsLeft, head(5, 480), values...)}
	var place []field.Position
	for i := range values {
		place = append(place, field.Position{
			Number: i + 1, Degrees: measure.Angle(i) * 360 * measure.Degree / measure.Angle(len(values)),
		})
	}
	return c, place
}

// TestTiltTurns: radius 84 in, drop 0.50 in greater at 0° than at 180°: the
// slope is 0.25/84 and the low side 0°; and its turns by 90°, 180° and 270°.
// Worked by hand from drop = h0 + a·cos θ + b·sin θ.
func TestTiltTurns(t *testing.T) {
	const quarter = int64(inch / 4)
	around := []measure.Length{10*inch + inch/4, 10 * inch, 10*inch - inch/4, 10 * inch}
	for turn, want := range []struct {
		cos, sin, lowside int64
	}{{quarter, 0, 0}, {0, quarter, 90}, {-quarter, 0, 180}, {0, -quarter, 270}} {
		values := append(slices.Clone(around[len(around)-turn:]), around[:len(around)-turn]...)
		for _, sense := range []string{"down", "up"} {
			if sense == "up" { // measured upward, a lower blade reads less
				for i := range values {
					values[i] = 20*inch - values[i]
				}
			}
			c, place := tiltCell(sense, values...)
			r := record(c)
			r.Tower.Positions = place
			k := verdict(t, r, assess.Tilt)
			for key, n := range map[string]int64{
				"cos": want.cos, "sin": want.sin, "amplitude": quarter, "range": 2 * quarter,
				"lowside":     want.lowside * int64(measure.Degree),
				"slope":       2_976_190, // 0.25/84 = 0.002976190
				"residualrms": 0, "residualmax": 0,
			} {
				if got := value(t, k, key); got.Amount.N != n {
					t.Errorf("turned by %d×90°, %s: %s %d, want %d", turn, sense, key, got.Amount.N, n)
				}
			}
			if low := value(t, k, "lowest"); low.Index != turn+1 {
				t.Errorf("turned by %d×90°, %s: lowest at position %d", turn, sense, low.Index)
			}
		}
	}
}

// TestTiltCounterClockwise: a crew that counts the other way has its positions
// turned into the frame by the reader; the low side follows the degrees, not
// the numbers.
func TestTiltCounterClockwise(t *testing.T) {
	c, place := tiltCell("down", 10*inch, 10*inch+inch/4, 10*inch, 10*inch-inch/4)
	for i := range place {
		place[i].Degrees = (360*measure.Degree - place[i].Degrees).Normalize()
	}
	r := record(c)
	r.Tower.Positions = place
	if got := value(t, verdict(t, r, assess.Tilt), "lowside").Amount.N; got != 270*int64(measure.Degree) {
		t.Errorf("low side %d", got)
	}
}

// TestTiltPlane recovers a plane laid over twelve positions, to the rounding of
// its readings.
func TestTiltPlane(t *testing.T) {
	const a, b, mean = 3_000_000.0, -4_000_000.0, 254_000_000.0
	var values []measure.Length
	for i := range positions {
		theta := float64(i) * math.Pi / 6
		values = append(values, measure.Length(math.Round(mean+a*math.Cos(theta)+b*math.Sin(theta))))
	}
	c, place := tiltCell("down", values...)
	r := record(c)
	r.Tower.Positions = place
	k := verdict(t, r, assess.Tilt)
	for key, want := range map[string]int64{"mean": mean, "cos": a, "sin": b, "amplitude": 5_000_000} {
		if got := value(t, k, key).Amount.N; got < want-1 || got > want+1 {
			t.Errorf("%s %d, want %d", key, got, want)
		}
	}
	// atan2(−4, 3) = −53.130°
	if got := value(t, k, "lowside").Amount.N; got != 306_870*int64(measure.Degree)/1000 {
		t.Errorf("low side %d", got)
	}
}

// TestTiltSense: without a sense the range is judged all the same, and no side
// is named.
func TestTiltSense(t *testing.T) {
	c, place := tiltCell("", 10*inch, 10*inch+inch/2, 10*inch, 10*inch)
	r := record(c)
	r.Tower.Positions = place
	k := verdict(t, r, assess.Tilt)
	if k.Verdict != assess.Within || !slices.Contains(keys(k.Notes), "note.sense") {
		t.Errorf("%s, notes %v", k.Verdict, k.Notes)
	}
	for _, key := range []string{"cos", "lowside", "lowest", "slope"} {
		if _, ok := k.StandingRound().Result(key); ok {
			t.Errorf("%s is named without a sense", key)
		}
	}
}

// TestTiltMarks: the height of the mark is taken off where every reading has
// one. Here the deck falls away under the marks and the fan is level.
func TestTiltMarks(t *testing.T) {
	heights := []measure.Length{0, -inch, -2 * inch, -inch}
	for _, test := range []struct {
		name    string
		sense   string
		marks   int
		spread  measure.Length
		note    string
		verdict assess.Verdict
	}{
		{"down", "down", 4, 0, "", assess.Within},
		{"up", "up", 4, 0, "", assess.Within},
		{"none", "down", 0, 2 * inch, "note.todeck", assess.Outside},
		{"one missing", "down", 3, 2 * inch, "note.markssome", assess.Outside},
		{"no sense", "", 4, 2 * inch, "note.marksnosense", assess.Outside},
	} {
		t.Run(test.name, func(t *testing.T) {
			var values []measure.Length
			for _, h := range heights {
				if test.sense == "up" {
					values = append(values, 10*inch-h) // from the mark up to the blade
				} else {
					values = append(values, 10*inch+h) // from the mark down to the blade
				}
			}
			c, place := tiltCell(test.sense, values...)
			for i := range test.marks {
				c.Tilt.Rounds[0].Readings[i].Mark = typed(heights[i])
			}
			r := record(c)
			r.Tower.Positions = place
			k := verdict(t, r, assess.Tilt)
			if got := value(t, k, "range").Amount.N; got != int64(test.spread) || k.Verdict != test.verdict {
				t.Errorf("range %d, %s", got, k.Verdict)
			}
			if got := keys(k.StandingRound().Notes); slices.Contains(got, "note.todeck") != (test.note == "note.todeck") ||
				test.note != "" && !slices.Contains(got, test.note) {
				t.Errorf("notes %v", got)
			}
		})
	}
}

// TestTiltFewPositions: two positions give a range and no plane.
func TestTiltFewPositions(t *testing.T) {
	c, place := tiltCell("down", 10*inch, 10*inch+inch/2)
	r := record(c)
	r.Tower.Positions = place
	k := verdict(t, r, assess.Tilt)
	if k.Verdict != assess.Within || !slices.Contains(keys(k.StandingRound().Notes), "note.nofit") {
		t.Errorf("%s, notes %v", k.Verdict, k.StandingRound().Notes)
	}
	r.Tower.Positions = nil
	k = verdict(t, r, assess.Tilt)
	if !slices.Contains(keys(k.StandingRound().Notes), "note.noangle") {
		t.Errorf("notes %v", k.StandingRound().Notes)
	}
}
