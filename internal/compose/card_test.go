package compose

import (
	"errors"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
	"asleft/templates"
)

const inch = measure.Inch

// cardTower is a tower of one cell whose fan is well inside its limits; the
// tests bend it.
func cardTower(t testing.TB) field.Record {
	t.Helper()
	r := towerOf(plan{cells: 1, blades: 8, positions: 12, rounds: 2, good: true})
	m := &maker{sheet: "Cell 1"}
	place := func(l measure.Length) field.Length { return m.length(l.In(measure.UnitInch)) }
	g := field.Geometry{Shimmed: m.text("gear"), HubHeight: m.length("60"), ShimStep: m.length("0.001"), MaxPieces: m.count(5),
		SlotAlong: m.length("1/2"), SlotAcross: m.length("1/2"), SlideFront: m.length("12"), SlideRear: m.length("12"),
		BladesSlide: m.flag(true), FlexSpan: m.length("120"), FlexGear: m.length("20"), FlexHeight: m.length("30"),
		FaceGear: m.length("10"), FaceMotor: m.length("10"), MotorFront: m.length("6"), MotorRear: m.length("22"), MotorStep: m.length("0.001")}
	for i, f := range [][2]measure.Length{{12, 12}, {-12, 12}, {-12, -12}, {12, -12}} {
		g.Feet = append(g.Feet, field.Foot{Number: i + 1, Along: place(f[0] * inch), Across: place(f[1] * inch)})
	}
	r.Tower.Geometry = g
	r.Tower.FanDiameter = m.length("20 ft")
	r.Limits[0].Max = m.length("1/4 in")
	r.Limits = append(r.Limits,
		field.Limit{Check: assess.CouplingGear, Criterion: m.text(assess.CriterionRange), Max: m.length("1/32"), Authority: m.text("contract")},
		field.Limit{Check: assess.CouplingMotor, Criterion: m.text(assess.CriterionRange), Max: m.length("1/32"), Authority: m.text("contract")})
	c := &r.Cells[0]
	c.Moves = nil
	for i := range c.Tilt.Rounds {
		c.Tilt.Rounds[i] = bent(m, c.Tilt.Rounds[i], func(float64) float64 { return 10 })
		c.Track.Rounds[i] = bent(m, c.Track.Rounds[i], func(float64) float64 { return 12 })
		c.TipRadius.Rounds[i] = bent(m, c.TipRadius.Rounds[i], func(float64) float64 { return 0.5 })
		c.Clearance.Rounds[i].Series = bent(m, c.Clearance.Rounds[i].Series, func(float64) float64 { return 0.5 })
	}
	for f := 1; f <= 4; f++ {
		c.Stacks = append(c.Stacks, field.Stack{Foot: f, Now: m.length("0.050"), Pieces: m.count(2)})
	}
	face := field.Series[field.Length]{Round: field.AsLeft, Head: c.Tilt.Rounds[1].Head}
	for i := range 4 {
		face.Readings = append(face.Readings, field.Reading[field.Length]{Index: i + 1, Value: m.length("1/2")})
	}
	face.Return = m.length("1/2")
	c.Drive.CouplingGear = field.Coupling{Stood: m.text("gear"), Together: m.flag(true), Rounds: []field.Series[field.Length]{face}}
	face.Readings = append([]field.Reading[field.Length](nil), face.Readings...)
	c.Drive.CouplingMotor = field.Coupling{Stood: m.text("motor"), Together: m.flag(true), Rounds: []field.Series[field.Length]{face}}
	return r
}

// bent replaces the readings of a round, to 1/64 in.
func bent(m *maker, s field.Series[field.Length], f func(theta float64) float64) field.Series[field.Length] {
	out := s
	out.Readings = append([]field.Reading[field.Length](nil), s.Readings...)
	for i := range out.Readings {
		v := f(2 * math.Pi * float64(i) / float64(len(out.Readings)))
		out.Readings[i] = field.Reading[field.Length]{Index: i + 1, Value: m.length(sixteenths(v))}
	}
	out.Return = out.Readings[0].Value
	return out
}

// cardCases are towers that ask for each kind of move.
var cardCases = []struct {
	name string
	bend func(m *maker, r *field.Record)
	kind []string
}{
	{"shims_and_slide", func(m *maker, r *field.Record) {
		eachTilt(m, r, func(t float64) float64 { return 10 + 0.4*math.Cos(t-0.6) })
	}, []string{correct.KindShim, correct.KindSlide}},
	{"shims_of_unsure_readings", func(m *maker, r *field.Record) {
		eachTilt(m, r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
		r.Tower.Geometry.SlotAlong, r.Tower.Geometry.SlotAcross = field.Length{}, field.Length{}
		r.Instruments = nil
		for i := range r.Cells[0].Tilt.Rounds {
			r.Cells[0].Tilt.Rounds[i].Return, r.Cells[0].Clearance.Rounds[i].Return = field.Length{}, field.Length{}
		}
	}, []string{correct.KindShim, correct.KindSlide}},
	{"slide", func(m *maker, r *field.Record) {
		eachGap(m, r, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) + 0.15*math.Sin(t) })
	}, []string{correct.KindSlide}},
	{"wall", func(m *maker, r *field.Record) {
		eachGap(m, r, func(t float64) float64 { return 0.5 + 0.2*math.Cos(2*t) })
	}, []string{correct.KindWall}},
	{"blades", func(m *maker, r *field.Record) {
		crowd := []float64{.20, .21, .22, .21, .20, .50, .51, .49}
		i := 0
		for n := range r.Cells[0].TipRadius.Rounds {
			i = -1
			r.Cells[0].TipRadius.Rounds[n] = bent(m, r.Cells[0].TipRadius.Rounds[n], func(float64) float64 { i++; return crowd[i] })
			r.Cells[0].Clearance.Rounds[n].Blade = m.count(6)
		}
	}, []string{correct.KindBladeOut}},
	{"hub", func(m *maker, r *field.Record) {
		for n := range r.Cells[0].Track.Rounds {
			r.Cells[0].Track.Rounds[n] = bent(m, r.Cells[0].Track.Rounds[n], func(t float64) float64 { return 12 + 0.5*math.Cos(t) })
		}
	}, []string{correct.KindHub}},
	{"seat", func(m *maker, r *field.Record) {
		for n := range r.Cells[0].Track.Rounds {
			r.Cells[0].Track.Rounds[n].Readings[4].Value = m.length("13 1/4")
		}
	}, []string{correct.KindBladeSeat}},
	{"pitch", func(m *maker, r *field.Record) {
		for n := range r.Cells[0].Pitch.Rounds {
			r.Cells[0].Pitch.Rounds[n].Readings[2].Value = m.angle("14.3")
			r.Cells[0].Pitch.Rounds[n].Readings[5].Value = m.angle("10.9")
		}
	}, []string{correct.KindBladePitch}},
	{"motor_shims", func(m *maker, r *field.Record) {
		eachFace(m, r, []string{"15/32", "1/2", "17/32", "1/2"})
	}, []string{correct.KindMotorShim}},
	{"motor_push", func(m *maker, r *field.Record) {
		eachFace(m, r, []string{"1/2", "15/32", "1/2", "17/32"})
	}, []string{correct.KindMotorPush}},
	{"slot_binds", func(m *maker, r *field.Record) {
		eachGap(m, r, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) })
		r.Tower.Geometry.SlotAlong = m.length("1/16")
	}, nil},
	{"no_geometry", func(m *maker, r *field.Record) {
		eachTilt(m, r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
		r.Tower.Geometry = field.Geometry{}
	}, nil},
	{"overtaken", func(m *maker, r *field.Record) {
		eachGap(m, r, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) })
		r.Cells[0].Moves = []field.Move{{Sequence: m.count(9), Date: m.date(2026, 5, 8), Time: m.clock(9, 0), Event: m.text("gear.slide"), At: m.at()}}
	}, nil},
	{"stock", func(m *maker, r *field.Record) {
		eachTilt(m, r, func(t float64) float64 { return 10 + 0.4*math.Cos(t-0.6) })
		for _, l := range []string{"0.005", "0.010", "0.025", "0.0625"} {
			r.Tower.Geometry.Stock = append(r.Tower.Geometry.Stock, field.StockShim{Thickness: m.length(l)})
		}
		r.Cells[0].Remarks = m.text("Anchor bolt 3 seized; penetrating oil is on it.")
		r.Cells[0].Stuck = []field.Stuck{{What: m.text("gear"), Way: m.text("shims"), Foot: m.count(3), Reason: m.text("anchor bolt seized")},
			{What: m.text("motor"), Way: m.text("toward"), Feet: m.text("rear")}}
	}, []string{correct.KindShim, correct.KindSlide}},
	{"motor_stacks", func(m *maker, r *field.Record) {
		eachFace(m, r, []string{"15/32", "1/2", "17/32", "1/2"})
		for _, p := range []string{field.FrontNinety, field.FrontOther, field.RearNinety, field.RearOther} {
			r.Cells[0].MotorStacks = append(r.Cells[0].MotorStacks, field.MotorStack{Place: p, Now: m.length("1.25"), Pieces: m.count(3)})
		}
	}, []string{correct.KindMotorShim}},
	{"motor_stuck", func(m *maker, r *field.Record) {
		eachFace(m, r, []string{"15/32", "1/2", "17/32", "1/2"})
		r.Cells[0].MotorStacks = []field.MotorStack{{Place: field.RearOther, Now: m.length("0.1")}}
		r.Cells[0].Remarks = m.text(strings.Repeat("The motor's rear feet stand on the grout. ", 20))
	}, nil},
	{"no_stacks", func(m *maker, r *field.Record) {
		eachTilt(m, r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
		r.Cells[0].Stacks = nil
	}, nil},
}

func eachTilt(m *maker, r *field.Record, f func(float64) float64) {
	for n := range r.Cells[0].Tilt.Rounds {
		r.Cells[0].Tilt.Rounds[n] = bent(m, r.Cells[0].Tilt.Rounds[n], f)
	}
}

func eachGap(m *maker, r *field.Record, f func(float64) float64) {
	for n := range r.Cells[0].Clearance.Rounds {
		r.Cells[0].Clearance.Rounds[n].Series = bent(m, r.Cells[0].Clearance.Rounds[n].Series, f)
	}
}

func eachFace(m *maker, r *field.Record, v []string) {
	s := &r.Cells[0].Drive.CouplingGear.Rounds[0]
	for i := range v {
		s.Readings[i].Value = m.length(v[i])
	}
	s.Return = s.Readings[0].Value
}

// cardInput is the whole input of the cards of a record.
func cardInput(t testing.TB, r field.Record) Input {
	t.Helper()
	w, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	set, err := templates.RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	rules := assess.Rules{Version: set.Version, Hash: set.Hash}
	for _, e := range set.Events {
		rules.Events = append(rules.Events, assess.Event(e))
	}
	a := assess.Assess(r, rules)
	return Input{Record: r, Assessment: a, Moves: correct.Correct(r, a, rules), Rules: rules, Words: w,
		Program: "asleft 0.1.0", Sources: [][]byte{[]byte("workbook")}}
}

// signed finds an amount with a sign before it.
var signed = regexp.MustCompile(`(^|[\s(])[-+\x{2212}\x{00b1}]\s?[0-9]`)

var fingerprintOf = regexp.MustCompile(`Data [0-9a-f]{8}`)

// jargon are words of the method page that no crew is to meet.
var jargon = regexp.MustCompile(`(?i)minimax|probabilit|\bRONt\b|harmonic|certificate|slope vector`)

// TestCards: for each kind of move, on both papers and in both units, one page
// that says it in words. The text of the cards in inches is golden.
func TestCards(t *testing.T) {
	metrics, err := page.NewMetrics()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cardCases {
		t.Run(c.name, func(t *testing.T) {
			r := cardTower(t)
			c.bend(&maker{sheet: "Cell 1"}, &r)
			in := cardInput(t, r)
			if got := kindsOf(in.Moves[0].Moves); c.kind != nil && !slices.Equal(got, c.kind) {
				t.Errorf("moves %v, want %v", got, c.kind)
			}
			for _, paper := range []page.Paper{page.Letter, page.A4} {
				for _, unit := range []measure.Unit{measure.UnitInch, measure.UnitMillimeter} {
					in.Options.Paper, in.Options.Units = paper, unit
					b, err := Card(in)
					if err != nil {
						t.Fatal(err)
					}
					placed, err := page.Place(b, metrics)
					if err != nil {
						t.Fatal(err)
					}
					if n := placed.Pages(); n != 1 {
						t.Errorf("%s, %v: %d pages", paper.Name, unit, n)
					}
					for _, p := range printedIn(b) {
						if signed.MatchString(p.text) || jargon.MatchString(p.text) {
							t.Errorf("%s: %q", p.where, p.text)
						}
					}
					checkCard(t, in, b)
					if paper == page.Letter && unit == measure.UnitInch {
						// The fingerprint changes with the data file, which has goldens of its own.
						text := fingerprintOf.ReplaceAllString(dump(b), "Data FINGERPRINT")
						golden(t, filepath.Join("testdata", "card_"+c.name+".txt"), text)
					}
				}
			}
		})
	}
}

func kindsOf(moves []correct.Move) []string {
	var out []string
	for _, m := range moves {
		out = append(out, m.Kind)
	}
	return out
}

// checkCard counts what must be on a card: the tags, every foot or blade in its
// table, and a box for each reading and the return reading of the first check.
func checkCard(t *testing.T, in Input, b page.Book) {
	t.Helper()
	all := dump(b)
	for _, tag := range []string{"MCC-2-01", "DS-2-01", "LOCK OUT"} {
		if !strings.Contains(all, tag) {
			t.Errorf("no %q", tag)
		}
	}
	if remark := in.Record.Cells[0].Remarks; remark.Set && !strings.Contains(all, remark.Value[:30]) {
		t.Error("the crew's remark is not on the card")
	}
	m := in.Moves[0]
	if len(m.Moves) == 0 {
		return
	}
	if !strings.Contains(all, "VOID IF ANYTHING WAS MOVED") || !strings.Contains(all, "2026-05-03 10:35") {
		t.Error("no line that says what makes the card void")
	}
	for _, x := range m.Moves {
		want := max(len(x.Feet), len(x.Blades), len(x.Stacks))
		if want > 0 && !slices.ContainsFunc(b.Sections[0].Blocks, func(k page.Block) bool {
			table, ok := k.(page.Table)
			return ok && len(table.Rows) == want
		}) {
			t.Errorf("%s: no table of %d rows", x.Kind, want)
		}
	}
	boxes, ok := lastBoxes(b)
	if !ok {
		t.Fatal("no boxes")
	}
	want := map[string]int{assess.Tilt: 13, assess.Clearance: 13, assess.TipRadius: 9, assess.Track: 9, assess.Pitch: 9, assess.CouplingGear: 5, assess.CouplingMotor: 5}
	if first := rereadFirst(m)[0]; len(boxes.Rows) < 2 || len(boxes.Rows[0].Heads) != want[first] {
		t.Errorf("%s: boxes %+v", first, boxes.Rows)
	}
}

func lastBoxes(b page.Book) (plot.Boxes, bool) {
	blocks := b.Sections[0].Blocks
	p, ok := blocks[len(blocks)-1].(page.Picture)
	if !ok {
		return plot.Boxes{}, false
	}
	f, ok := p.Figure.(plot.Boxes)
	return f, ok
}

// TestCorrectionsAreDrawn: every kind of move can be drawn in the package, too,
// where its sketch is smaller than on a card.
func TestCorrectionsAreDrawn(t *testing.T) {
	for _, c := range cardCases {
		t.Run(c.name, func(t *testing.T) {
			r := cardTower(t)
			c.bend(&maker{sheet: "Cell 1"}, &r)
			for _, paper := range []page.Paper{page.Letter, page.A4} {
				in := cardInput(t, r)
				in.Options.Paper = paper
				if _, err := Write(in); err != nil {
					t.Error(err)
				}
			}
		})
	}
}

// TestFullCard: six moves of many rows still make one page; what has no room
// waits.
func TestFullCard(t *testing.T) {
	r := cardTower(t)
	m := &maker{sheet: "Cell 1"}
	eachTilt(m, &r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
	eachGap(m, &r, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) + 0.2*math.Cos(2*t) })
	for n := range r.Cells[0].Pitch.Rounds {
		for i := range r.Cells[0].Pitch.Rounds[n].Readings {
			r.Cells[0].Pitch.Rounds[n].Readings[i].Value = m.angle([]string{"14.4", "10.1"}[i%2])
		}
	}
	in := cardInput(t, r)
	if len(in.Moves[0].Moves) < 3 || len(in.Moves[0].Later) == 0 {
		t.Fatalf("moves %v, later %v", kindsOf(in.Moves[0].Moves), kindsOf(in.Moves[0].Later))
	}
	b, err := Card(in)
	if err != nil {
		t.Fatal(err)
	}
	metrics, _ := page.NewMetrics()
	placed, err := page.Place(b, metrics)
	if err != nil || placed.Pages() != 1 {
		t.Fatalf("%v, %d pages", err, placed.Pages())
	}
	if !strings.Contains(dump(b), "The rest waits for the re-read") {
		t.Error("nothing says that the rest waits")
	}
}

// TestNoCard: a tower with nothing to move has no card, and a cell that is not
// there neither.
func TestNoCard(t *testing.T) {
	in := cardInput(t, cardTower(t))
	if _, err := WriteCard(in); !errors.Is(err, ErrNoCard) {
		t.Errorf("got %v", err)
	}
	r := cardTower(t)
	eachTilt(&maker{}, &r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
	if _, err := WriteCard(cardInput(t, r), 2); !errors.Is(err, ErrNoCard) {
		t.Errorf("got %v", err)
	}
}

// TestDirectionsInWords: the literal turns of a low side at 0°, 90°, 180° and 270°
// name the feet and the ways that geometry says: the feet of the low side go up.
func TestDirectionsInWords(t *testing.T) {
	for turn, want := range map[float64]string{
		0: "foot 1: add", 90: "foot 2: add", 180: "foot 3: add", 270: "foot 4: add",
	} {
		r := cardTower(t)
		for i := range r.Cells[0].Stacks {
			r.Cells[0].Stacks[i].Now = (&maker{}).length("0")
		}
		eachTilt(&maker{}, &r, func(x float64) float64 { return 10 + 0.4*math.Cos(x-turn*math.Pi/180) })
		lines, err := MoveLines(cardInput(t, r))
		if err != nil || len(lines) == 0 {
			t.Fatal(err, lines)
		}
		if !strings.Contains(lines[0].Text, want) {
			t.Errorf("low at %g°: %s", turn, lines[0].Text)
		}
	}
	r := cardTower(t)
	eachGap(&maker{}, &r, func(x float64) float64 { return 0.5 - 0.25*math.Sin(x) }) // tight at 90°
	lines, err := MoveLines(cardInput(t, r))
	if err != nil || len(lines) == 0 || !strings.Contains(lines[0].Text, "1/4\u00a0in (0.250\u00a0in, 6.35\u00a0mm) away from the river side") {
		t.Errorf("%v %v", lines, err)
	}
}

// TestEveryMoveHasWords: kinds, codes, directions and slips, with no place for an
// argument that there is not.
func TestEveryMoveHasWords(t *testing.T) {
	w, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range correct.Kinds() {
		if !w.Has(k) {
			t.Errorf("no words for %s", k)
		}
	}
	for _, c := range correct.Codes() {
		for _, key := range []string{c.Key, "less." + c.Key} {
			if key == c.Key && !w.Has(key) {
				t.Errorf("no words for %s", key)
			}
			for _, place := range places(w.Say(key)) {
				if !slices.Contains(c.Args, place) {
					t.Errorf("%s has no argument {%s}", key, place)
				}
			}
		}
	}
	for _, key := range []string{"end.front", "end.rear", "direction.shims", "direction.motortoward", "direction.motoraway", "motorfoot.frontninety",
		"motorfoot.frontother", "motorfoot.rearninety", "motorfoot.rearother", "moved.gear", "moved.support", "moved.motor", "direction.along", "direction.across", "direction.both", "direction.toward", "direction.away", "direction.ninety",
		"direction.other", "slip." + correct.SlipCountedOther, "slip." + correct.SlipOneOff, "slip." + correct.SlipBackwards,
		"slip." + correct.SlipFeet, "slip." + correct.SlipUnit, "slip." + correct.SlipNotMade} {
		if !w.Has(key) {
			t.Errorf("no words for %s", key)
		}
	}
	for _, key := range w.Keys() {
		if head, _, _ := strings.Cut(key, "."); slices.Contains([]string{"move", "moveline", "step", "way", "shims", "blade", "wall", "correct", "less", "slip", "card"}, head) {
			if text := w.Say(key); signed.MatchString(text) || jargon.MatchString(text) {
				t.Errorf("%s: %q", key, text)
			}
		}
	}
}
