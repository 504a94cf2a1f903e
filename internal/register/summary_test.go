package register

import (
	"testing"

	"asleft/internal/data"

	"github.com/google/go-cmp/cmp"
)

func inch(thousandths int64) *data.Amount {
	return &data.Amount{Value: "", Unit: "in", Base: thousandths * 25400}
}

func towerWith(path string, checks ...Check) Tower {
	t := Tower{Path: path, Tag: path}
	for i, k := range checks {
		t.Cells = append(t.Cells, Cell{Number: i + 1, Checks: []Check{k}})
	}
	return t
}

// Counted by hand.
func TestSummaryCountsWhatFails(t *testing.T) {
	r := &Register{Towers: []Tower{
		towerWith("a",
			Check{Key: "tilt", Verdict: "within", First: "outside", Margin: inch(10)},
			Check{Key: "clearance", Verdict: "outside", First: "outside", Margin: inch(-94)},
			Check{Key: "clearance", Verdict: "near", First: "near", Margin: inch(0)}),
		towerWith("b",
			Check{Key: "clearance", Verdict: "outside", First: "within", Margin: inch(-31)},
			Check{Key: "clearance", Verdict: "outside", Accepted: true, First: "outside", Margin: inch(-200)},
			Check{Key: "clearance", Verdict: "missing"},
			Check{Key: "clearance", Verdict: "recheck", First: "within"},
			Check{Key: "clearance", Verdict: "byothers"},
			Check{Key: "clearance", Verdict: "nolimit"}),
	}}
	got := r.Summary()
	if len(got) != 2 || got[0].Check != "clearance" || got[1].Check != "tilt" {
		t.Fatalf("order: %+v", got)
	}
	c := got[0]
	at := c.WorstAt
	c.WorstAt = nil
	want := Line{Check: "clearance", Near: 1, Outside: 2, Accepted: 1, Missing: 1, Recheck: 1, NoLimit: 1, Exempt: 1,
		Worst: inch(-200), Median: inch(-94), WorstCell: 2, First: 3, FirstOf: 5}
	if diff := cmp.Diff(want, c); diff != "" {
		t.Error(diff)
	}
	if at == nil || at.Path != "b" || c.Judged() != 4 {
		t.Errorf("worst at %v, judged %d", at, c.Judged())
	}
	if k := got[1]; k.Within != 1 || k.First != 0 || k.FirstOf != 1 || k.Worst != nil {
		t.Errorf("tilt: %+v", k)
	}
}

func TestMedianIsTheLowerMiddle(t *testing.T) {
	for _, c := range []struct {
		in   []*data.Amount
		want *data.Amount
	}{
		{nil, nil},
		{[]*data.Amount{inch(-5)}, inch(-5)},
		{[]*data.Amount{inch(-1), inch(-9), inch(-4)}, inch(-4)},
		{[]*data.Amount{inch(-1), inch(-9)}, inch(-9)},
	} {
		if diff := cmp.Diff(c.want, median(c.in)); diff != "" {
			t.Error(diff)
		}
	}
}

func TestTowersOfOneDocumentAreNamed(t *testing.T) {
	one := func(path, tag, revision string) Tower {
		return Tower{Path: path, Plant: "P", Tag: tag, Document: "D-1", Revision: revision}
	}
	r := &Register{Towers: []Tower{one("c", "CT-1", "0"), one("a", "CT-1", "0"), one("b", "CT-1", "1"), {Path: "d"}, {Path: "e"}}}
	r.finish()
	var got []string
	for _, o := range r.Towers {
		got = append(got, o.Path)
		for _, s := range o.Same {
			got = append(got, o.Path+"="+s)
		}
	}
	if diff := cmp.Diff([]string{"a", "a=c", "b", "c", "c=a", "d", "e"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestAmountsComeInOneUnit(t *testing.T) {
	for _, c := range []struct {
		in   data.Amount
		mm   bool
		want string
	}{
		{data.Amount{Value: "12.7", Unit: "mm", Base: 12_700_000}, false, "+0.500 in"},
		{data.Amount{Value: "-0.5", Unit: "in", Base: -12_700_000}, true, "−12.70 mm"},
		{data.Amount{Value: "0.000416666", Unit: "m/m", Base: 416_667}, false, "+0.0050 in/ft"}, // 0.005 in/ft = 1/2400
		{data.Amount{Value: "0.001", Unit: "m/m", Base: 1_000_000}, true, "+1.00 mm/m"},
		{data.Amount{Value: "-10", Unit: "lbf·ft", Base: -10_000_000}, true, "−10.000 lbf·ft"},
		{data.Amount{Value: "0", Unit: "in"}, false, "0.000 in"},
	} {
		p := Print{Millimeters: c.mm}
		if got := p.amount(&c.in).text(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.in, got, c.want)
		}
	}
}
