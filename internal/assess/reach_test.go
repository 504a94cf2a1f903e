package assess_test

import (
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// TestRange: readings outside the range that is typed for their instrument are
// asked about; what the text does not say is not. The coupling as left is read
// with T2 at 0.500 to 0.502 in, soft feet with T2 at 0 and 0.001 in.
func TestRange(t *testing.T) {
	couplings := []string{"couplinggear second", "couplinggear asleft", "couplingmotor second", "couplingmotor asleft"}
	feet := []string{"softfootgear asleft", "softfootmotor asleft"}
	for _, x := range []struct {
		name, instrument, text string
		want                   []string
	}{
		{"blank", "T2", "", nil},
		{"in words", "T2", "the small one", nil},
		{"no unit", "T2", "0 to 0.1", nil},
		{"of another kind", "T2", "0 to 10 V", nil},
		{"wide enough", "T2", "12 in", nil},
		{"just wide enough", "T2", "0 to 0.504 in", nil},
		{"in the other unit", "T2", "0 to 12.8 mm", []string{"couplinggear second"}},
		{"too short", "T2", "0.050 in", couplings},
		{"too short, up to", "T2", "up to 0.050 in", couplings},
		{"begins too high", "T2", "0.2–1.2 in", feet},
		{"two parts", "T2", "0.0005 to 0.05 in, 0.2 to 1 in", nil},
		{"both ways", "T2", "±0.1 in", couplings},
		{"pitch", "T1", "0 to 20 ft; ±10°", []string{"pitch asleft"}},
		{"pitch within", "T1", "0 to 300 in; ±45°", []string{"cylinderround asleft"}},
		{"slopes", "T1", "±0.005 in/ft", []string{"cylinderplumb asleft"}},
	} {
		a := judged(t, func(r *field.Record) {
			for i := range r.Instruments {
				if r.Instruments[i].ID.Value == x.instrument {
					r.Instruments[i].Range = text(x.text)
				}
			}
		})
		var got []string
		for _, q := range a.Cells[0].Questions {
			if q.Key == "question.range" {
				got = append(got, q.Args[0].Text+" "+q.Args[1].Text)
			}
		}
		if x.name == "pitch" { // 20 ft are too little for the cylinder, too
			got = slices.DeleteFunc(got, func(s string) bool { return s == "cylinderround asleft" })
		}
		slices.Sort(got)
		want := slices.Sorted(slices.Values(x.want))
		if !slices.Equal(got, want) || len(a.Reasons) > 0 || a.State != assess.Ready {
			t.Errorf("%s: %q asks about %v, want %v; reasons %v", x.name, x.text, got, want, reasonTexts(a.Reasons))
		}
	}
}
