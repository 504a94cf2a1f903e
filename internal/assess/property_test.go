package assess_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"

	"github.com/google/go-cmp/cmp"
)

// wild makes a record from a seed: blanks, odd codes, values far out of range,
// rows that fit nothing.
func wild(seed uint64) field.Record {
	g := &generator{rand.New(rand.NewPCG(seed, 1))}
	r := record()
	if seed%3 > 0 { // the whole job
		r.Waivers = nil
	}
	r.Tower.Segments = count(g.IntN(30))
	r.Tower.Decision = g.word("", "simple", "guarded", "x")
	r.Tower.FanRotation = g.word("", "cw", "ccw")
	r.Tower.FanDiameter = g.length(200 * inch)
	if g.IntN(4) == 0 {
		r.Tower.Positions = r.Tower.Positions[:g.IntN(positions)]
	}
	for i := range r.Limits {
		l := &r.Limits[i]
		if g.IntN(2) == 0 {
			l.Min, l.Nominal, l.Max, l.Tolerance = g.length(inch), g.length(inch), g.length(inch), g.length(inch)
			l.AngleNominal, l.AngleTol = g.angle(), g.angle()
			l.Authority, l.AcceptedBy = g.word("", "start", "contract"), g.word("", "somebody")
		}
		l.MinCount = g.count(positions + 2)
	}
	r.Instruments[0].Range = g.word("", "1 in", "0.4 to 20 in", "±20°", "x")
	r.Instruments[0].Expanded, r.Instruments[0].Coverage = g.length(inch/64), g.word("", "2", "1.96", "0", "x")
	for n := range 1 + g.IntN(2) {
		r.Cells = append(r.Cells, g.cell(n+1))
	}
	for i := range r.Cells {
		g.job(&r.Cells[i])
	}
	g.jobTower(&r)
	for range g.IntN(3) {
		r.Waivers = append(r.Waivers, field.Waiver{Cell: g.count(3), Check: g.check(), Kind: g.word("", "notrequired", "byothers"), By: g.word("", "x"), At: g.ref()})
		r.Deviations = append(r.Deviations, field.Deviation{Cell: g.count(3), Check: g.check(), Round: g.round(), Value: g.word("", "1 in", "1/2", "12°", "x"),
			Authority: g.word("", "x"), Person: text("x"), Date: day(1 + g.IntN(9)), At: g.ref()})
	}
	return r
}

type generator struct{ *rand.Rand }

func (g *generator) word(words ...string) field.Text { return text(words[g.IntN(len(words))]) }

func (g *generator) check() field.Text {
	if g.IntN(2) == 0 {
		return g.word(append(assess.Checks(), "x")...)
	}
	return g.word(assess.AllChecks()...)
}

func (g *generator) round() field.Text {
	return g.word(field.AsFound, field.Second, field.Third, field.AsLeft, "run1", "x")
}

func (g *generator) ref() field.Ref {
	return field.Ref{Sheet: "S", Cell: string(rune('A'+g.IntN(26))) + string(rune('A'+g.IntN(26)))}
}

func (g *generator) count(n int) field.Count {
	if g.IntN(3) == 0 {
		return field.Count{}
	}
	return count(g.IntN(n))
}

func (g *generator) flag() field.Flag {
	if g.IntN(5) == 0 {
		return field.Flag{}
	}
	return flag(g.IntN(5) > 0)
}

// length is a 64th up to most, now and then negative, enormous or blank.
func (g *generator) length(most measure.Length) field.Length {
	switch g.IntN(12) {
	case 0:
		return field.Length{}
	case 1:
		return typed(-inch)
	case 2:
		return typed(measure.MaxLength - measure.Length(g.IntN(3)))
	case 3:
		return typed(-measure.MaxLength)
	}
	return typed(measure.Length(g.Int64N(int64(most/step)+1)) * step)
}

func (g *generator) angle() field.Angle {
	if g.IntN(10) == 0 {
		return field.Angle{}
	}
	return deg(measure.Angle(g.IntN(200)) * measure.Degree / 10)
}

func (g *generator) head() field.Head {
	h := head(1+g.IntN(9), g.IntN(1000))
	h.Sequence = g.count(9)
	h.HoldDownsFinal, h.ClampsFinal = g.flag(), g.flag()
	if g.IntN(6) == 0 {
		h.Date, h.Start = field.Date{}, field.Clock{}
	}
	h.Instrument = g.word("T1", "T1", "T1", "T1", "T1", "", "T9")
	return h
}

func (g *generator) series(n int, around measure.Length) []field.Series[field.Length] {
	var out []field.Series[field.Length]
	for _, key := range []string{field.AsFound, field.Second, field.AsLeft} {
		if g.IntN(4) == 0 {
			continue
		}
		s := field.Series[field.Length]{Round: key, Head: g.head(), Accepted: g.flag(), Return: g.length(around)}
		blanks, few := g.IntN(3) == 0, g.IntN(2*n)
		for i := range n {
			x := field.Reading[field.Length]{Index: i + 1, Value: typed(around + measure.Length(g.IntN(40))*step)}
			if blanks {
				x.Value, x.Mark, x.Reason = g.length(around), g.length(inch), g.word("", "", "blocked")
				if i > few {
					x.Value = field.Length{}
				}
			}
			s.Readings = append(s.Readings, x)
		}
		out = append(out, s)
	}
	return out
}

func (g *generator) cell(number int) field.Cell {
	c := field.Cell{Number: number, InPackage: g.flag()}
	c.Tilt = field.Tilt{Sense: g.word("", "down", "up"), Radius: g.length(84 * inch), Rounds: g.series(positions, 10*inch)}
	c.Track.Rounds = g.series(blades, 12*inch)
	c.TipRadius = field.TipRadius{Position: g.count(positions + 2), PulledOut: g.flag(), Rounds: g.series(blades, inch/2)}
	for _, s := range g.series(positions, inch/2) {
		c.Clearance.Rounds = append(c.Clearance.Rounds, field.ClearanceRound{Series: s, Blade: g.count(blades + 2)})
	}
	c.Pitch.Position = g.count(positions)
	for _, key := range []string{field.AsFound, field.AsLeft} {
		s := field.Series[field.Angle]{Round: key, Head: g.head(), Return: g.angle()}
		for i := range blades {
			s.Readings = append(s.Readings, field.Reading[field.Angle]{Index: i + 1, Value: g.angle()})
		}
		c.Pitch.Rounds = append(c.Pitch.Rounds, s)
	}
	keys := []string{"gear.shim", "gear.slide", "blade.move", "blade.torque", "cylinder.adjust", "motor.shim", "hub.open", "instrument.out", "coupling.open", "gear.loosen", "x", ""}
	for i := range g.IntN(4) {
		m := event(keys[g.IntN(len(keys))], 1+g.IntN(9), g.IntN(1000))
		m.Sequence = g.count(9)
		m.At.Cell += string(rune('A' + i))
		if g.IntN(2) == 0 {
			m.Instrument = text("T1")
		}
		c.Moves = append(c.Moves, m)
	}
	return c
}

// shuffle reorders every list of the record whose order means nothing.
func shuffle(seed uint64, r field.Record) field.Record {
	g := rand.New(rand.NewPCG(seed, 2))
	r.Cells = mixed(g, r.Cells)
	r.Limits, r.Instruments = mixed(g, r.Limits), mixed(g, r.Instruments)
	r.Waivers, r.Deviations = mixed(g, r.Waivers), mixed(g, r.Deviations)
	r.Tower.Positions = mixed(g, r.Tower.Positions)
	for i := range r.Cells {
		c := &r.Cells[i]
		c.Moves = mixed(g, c.Moves)
		c.Tilt.Rounds, c.Track.Rounds, c.TipRadius.Rounds = mixed(g, c.Tilt.Rounds), mixed(g, c.Track.Rounds), mixed(g, c.TipRadius.Rounds)
		c.Clearance.Rounds, c.Pitch.Rounds = mixed(g, c.Clearance.Rounds), mixed(g, c.Pitch.Rounds)
		c.Drive.GearLevel.Rounds, c.Drive.ShaftEnds.Rounds = mixed(g, c.Drive.GearLevel.Rounds), mixed(g, c.Drive.ShaftEnds.Rounds)
		c.Drive.CouplingGear.Rounds = mixed(g, c.Drive.CouplingGear.Rounds)
		for k := range c.Tilt.Rounds {
			c.Tilt.Rounds[k].Readings = mixed(g, c.Tilt.Rounds[k].Readings)
		}
		for k := range c.Clearance.Rounds {
			c.Clearance.Rounds[k].Readings = mixed(g, c.Clearance.Rounds[k].Readings)
		}
	}
	return r
}

func mixed[T any](g *rand.Rand, in []T) []T {
	out := slices.Clone(in)
	g.Shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	return out
}

// differ says how two values differ; comparing in words is slow, so it is done
// only where they do.
func differ[T any](a, b T) string {
	if reflect.DeepEqual(a, b) {
		return ""
	}
	return cmp.Diff(a, b)
}

// TestSameWhateverTheOrder: the same assessment twice, and from the same record
// in another order; the record itself is left alone.
func TestSameWhateverTheOrder(t *testing.T) {
	for seed := range uint64(150) {
		rules := ruleSet(t)
		before, r := wild(seed), wild(seed)
		first := assess.Assess(r, rules)
		if d := differ(before, r); d != "" {
			t.Fatalf("seed %d: record changed: %s", seed, d)
		}
		if d := differ(first, assess.Assess(r, rules)); d != "" {
			t.Fatalf("seed %d: not the same twice: %s", seed, d)
		}
		if d := differ(first, assess.Assess(shuffle(seed, r), rules)); d != "" {
			t.Fatalf("seed %d: not the same in another order: %s", seed, d)
		}
	}
}

// TestInvariants hold for every record there is.
func TestInvariants(t *testing.T) {
	seen := map[string]bool{}
	for seed := range uint64(400) {
		checkInvariants(t, assess.Assess(wild(seed), ruleSet(t)), seen)
	}
	for _, v := range []assess.Verdict{assess.Within, assess.NearLimit, assess.Outside, assess.Recheck, assess.Missing,
		assess.NoLimit, assess.NotRequired, assess.ByOthers} {
		if !seen[string(v)] {
			t.Errorf("no record came out %q", v)
		}
	}
	for _, c := range assess.Codes() {
		if !seen[c.Key] && !slices.Contains([]string{"reason.limittwice", "reason.instrument", "reason.calibratedlater", "note.noduedate"}, c.Key) {
			t.Errorf("no record gave %q", c.Key)
		}
	}
}

func checkInvariants(t *testing.T, a assess.Assessment, seen map[string]bool) {
	t.Helper()
	specs := map[string][]string{}
	for _, c := range assess.Codes() {
		specs[c.Key] = c.Args
	}
	code := func(c assess.Code) {
		seen[c.Key] = true
		want, listed := specs[c.Key]
		var got []string
		for _, arg := range c.Args {
			got = append(got, arg.Name)
			if arg.Amount == nil && arg.Number == nil && arg.Text == "" && arg.Name != "name" && arg.Name != "at" &&
				arg.Name != "number" && arg.Name != "round" && arg.Name != "event" {
				t.Errorf("%s: %s is empty", c.Key, arg.Name)
			}
		}
		if !listed || !slices.Equal(got, want) {
			t.Errorf("%s: arguments %v, listed %v", c.Key, got, want)
		}
	}
	for _, r := range a.Reasons {
		code(r.Code)
	}
	for _, c := range a.Cells {
		for _, q := range append(slices.Clone(c.Questions), c.Due...) {
			code(q)
		}
		for i := range c.Checks {
			checkCheck(t, &c.Checks[i], code, seen)
		}
	}
}

func checkCheck(t *testing.T, k *assess.Check, code func(assess.Code), seen map[string]bool) {
	t.Helper()
	seen[string(k.Verdict)] = true
	if k.Verdict == "" || (k.Before != "") != (k.Verdict == assess.Recheck) {
		t.Errorf("%s: verdict %q, before %q", k.Key, k.Verdict, k.Before)
	}
	for _, n := range k.Notes {
		code(n)
	}
	for _, r := range k.Rounds {
		for _, n := range r.Notes {
			code(n)
		}
		for _, it := range r.Items {
			checkItem(t, k, it, code)
		}
		if r.Verdict == "" || len(r.Items) == 0 && r.Found+r.Blocked == 0 {
			t.Errorf("%s %s: verdict %q, %d found, %d blocked", k.Key, r.Key, r.Verdict, r.Found, r.Blocked)
		}
		if len(r.Items) == 0 && r.Margin != nil && (r.Margin.N < 0) != (r.Verdict == assess.Outside) {
			t.Errorf("%s %s: %s with margin %d", k.Key, r.Key, r.Verdict, r.Margin.N)
		}
		for _, p := range r.Points {
			if p.Verdict == assess.Outside && r.Verdict != assess.Outside {
				t.Errorf("%s %s: point %d outside, round %s", k.Key, r.Key, p.Index, r.Verdict)
			}
		}
		names := map[[2]any]bool{}
		for _, x := range r.Results {
			if names[[2]any{x.Key, x.Index}] {
				t.Errorf("%s %s: result %s %d stands twice", k.Key, r.Key, x.Key, x.Index)
			}
			names[[2]any{x.Key, x.Index}] = true
		}
	}
}

func checkItem(t *testing.T, k *assess.Check, it assess.Item, code func(assess.Code)) {
	t.Helper()
	for _, c := range append(slices.Clone(it.Findings), it.Notes...) {
		code(c)
	}
	if it.Key == "" || it.Verdict == "" || (it.Before != "") != (it.Verdict == assess.Recheck) {
		t.Errorf("%s: item %q: verdict %q, before %q", k.Key, it.Key, it.Verdict, it.Before)
	}
	own := it.Verdict
	if own == assess.Recheck {
		own = it.Before
	}
	if own != assess.Within && own != assess.NotRequired && len(it.Findings) == 0 {
		t.Errorf("%s: item %s is %s and nothing is found", k.Key, it.Key, own)
	}
	if it.Margin != nil && it.Margin.N < 0 && own != assess.Outside {
		t.Errorf("%s: item %s is %s with margin %d", k.Key, it.Key, own, it.Margin.N)
	}
}

func FuzzAssess(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		r, rules := wild(seed), ruleSet(t)
		a := assess.Assess(r, rules)
		checkInvariants(t, a, map[string]bool{})
		if d := differ(a, assess.Assess(shuffle(seed, r), rules)); d != "" {
			t.Error(d)
		}
	})
}
