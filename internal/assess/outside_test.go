package assess_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// spoken is a reason as "key name=value …": lengths in 64ths of an inch, angles
// in tenths of a degree.
func spoken(r assess.Reason) string {
	out := strings.TrimPrefix(r.Key, assess.ReasonOutside)
	for _, a := range r.Args {
		switch {
		case a.Number != nil:
			out += fmt.Sprintf(" %s=%d", a.Name, *a.Number)
		case a.Amount == nil:
			out += fmt.Sprintf(" %s=%s", a.Name, a.Text)
		case a.Amount.Kind == assess.KindAngle:
			out += fmt.Sprintf(" %s=%d°", a.Name, a.Amount.N*10/int64(measure.Degree))
		default:
			out += fmt.Sprintf(" %s=%d", a.Name, a.Amount.N/int64(step))
		}
	}
	return out
}

// TestOutsideReasons: a reason names the side, the place, how many are out and
// the other end. All by hand, in 64ths of an inch: clearance is 32 ± 8, tip
// radius may differ by 16, track and tilt by 64; pitch is 12° ± 0.5°.
func TestOutsideReasons(t *testing.T) {
	gaps := func(c *field.Cell, changed map[int]measure.Length) {
		for i, n := range changed {
			c.Clearance.Rounds[0].Readings[i-1].Value = typed(n * step)
		}
	}
	tips := func(c *field.Cell, values ...measure.Length) {
		for i, n := range values {
			c.TipRadius.Rounds[0].Readings[i].Value = typed(n * step)
		}
	}
	pitch := func(c *field.Cell, changed map[int]measure.Angle) {
		for i, n := range changed {
			c.Pitch.Rounds[0].Readings[i-1].Value = deg(n * measure.Degree / 10)
		}
	}
	for _, x := range []struct {
		name, check, want string
		change            func(r *field.Record, c *field.Cell)
	}{
		{"two gaps too small", assess.Clearance, "gapsmall degrees=2100° value=22 over=2 limit=24 out=2 found=12 largest=30",
			func(r *field.Record, c *field.Cell) { gaps(c, map[int]measure.Length{8: 22, 9: 23, 2: 30}) }},
		{"one gap too large", assess.Clearance, "gaplarge degrees=300° value=42 over=2 limit=40 out=1 found=12 smallest=28",
			func(r *field.Record, c *field.Cell) { gaps(c, map[int]measure.Length{2: 42}) }},
		{"gaps too small and too large", assess.Clearance,
			"gapuneven smallat=2100° smallest=20 least=24 small=1 largeat=300° largest=43 most=40 large=2 found=12",
			func(r *field.Record, c *field.Cell) { gaps(c, map[int]measure.Length{2: 43, 3: 41, 8: 20}) }},
		{"places not known", assess.Clearance, "toosmall value=22 over=2 limit=24",
			func(r *field.Record, c *field.Cell) {
				gaps(c, map[int]measure.Length{8: 22})
				r.Tower.Positions = nil
			}},
		{"a short blade is too far off the wall", assess.ClearanceAll, "alllarge degrees=300° blade=5 value=65 over=1 limit=64",
			func(r *field.Record, c *field.Cell) { // 39 there, and blade 5 has 26 more than blade 3
				gaps(c, map[int]measure.Length{2: 39})
				tips(c, 32, 32, 28, 32, 54)
			}},
		{"one blade does not fit", assess.TipRadius,
			"tips value=26 over=10 limit=16 smallest=28 smallblade=3 largest=54 largeblade=5 blades=5",
			func(r *field.Record, c *field.Cell) { tips(c, 32, 32, 28, 32, 54) }},
		{"two blades do not fit", assess.TipRadius,
			"tips value=34 over=18 limit=16 smallest=20 smallblade=7 largest=54 largeblade=5 blades=5, 7",
			func(r *field.Record, c *field.Cell) { tips(c, 38, 36, 30, 38, 54, 34, 20, 38) }},
		{"either of two blades", assess.TipRadius,
			"apart value=20 over=4 limit=16 smallest=28 smallblade=3 largest=48 largeblade=5",
			func(r *field.Record, c *field.Cell) { tips(c, 38, 38, 28, 38, 48, 38, 38, 38) }},
		{"track", assess.Track, "apart value=66 over=2 limit=64 smallest=768 smallblade=1 largest=834 largeblade=6",
			func(r *field.Record, c *field.Cell) { c.Track.Rounds[0].Readings[5].Value = typed(834 * step) }},
		{"tilt, read down", assess.Tilt, "tilted low=600° high=2400° value=80 over=16 limit=64",
			func(r *field.Record, c *field.Cell) {
				c.Tilt.Rounds[0].Readings[2].Value, c.Tilt.Rounds[0].Readings[8].Value = typed(680*step), typed(600*step)
			}},
		{"tilt, read up", assess.Tilt, "tilted low=2400° high=600° value=80 over=16 limit=64",
			func(r *field.Record, c *field.Cell) {
				c.Tilt.Sense = text("up")
				c.Tilt.Rounds[0].Readings[2].Value, c.Tilt.Rounds[0].Readings[8].Value = typed(680*step), typed(600*step)
			}},
		{"pitch", assess.Pitch, "pitchless blade=2 value=114° over=1° limit=115° out=1 found=8 largest=120°",
			func(r *field.Record, c *field.Cell) { pitch(c, map[int]measure.Angle{2: 114}) }},
		{"more pitch", assess.Pitch, "pitchmore blade=4 value=128° over=3° limit=125° out=2 found=8 smallest=120°",
			func(r *field.Record, c *field.Cell) { pitch(c, map[int]measure.Angle{4: 128, 5: 127}) }},
		{"pitch both ways", assess.Pitch,
			"pitchuneven smallblade=1 smallest=110° least=115° small=1 largeblade=4 largest=128° most=125° large=1 found=8",
			func(r *field.Record, c *field.Cell) { pitch(c, map[int]measure.Angle{1: 110, 4: 128}) }},
		{"shaft ends", assess.ShaftEnds, "toolong value=7690 over=6 limit=7684",
			func(r *field.Record, c *field.Cell) {
				c.Drive.ShaftEnds.Rounds[0].Readings[0].Value = typed(7690 * step)
			}},
		{"shaft ends", assess.ShaftEnds, "tooshort value=7670 over=6 limit=7676",
			func(r *field.Record, c *field.Cell) {
				c.Drive.ShaftEnds.Rounds[0].Readings[0].Value = typed(7670 * step)
			}},
		{"guard", assess.GuardEnd, "toosmall value=8 over=4 limit=12",
			func(r *field.Record, c *field.Cell) { c.Drive.GuardEnd.Rounds[0].Readings[0].Value = typed(8 * step) }},
	} {
		t.Run(x.name, func(t *testing.T) {
			a := judged(t, func(r *field.Record) { x.change(r, &r.Cells[0]) })
			var got []string
			for _, r := range a.Reasons {
				if r.Check == x.check && strings.HasPrefix(r.Key, assess.ReasonOutside) {
					got = append(got, spoken(r))
				}
			}
			if !slices.Equal(got, []string{x.want}) {
				t.Errorf("%q\nwant %q", got, x.want)
			}
		})
	}
}
