package workbook

import (
	"archive/zip"
	"bytes"
	"regexp"
	"strings"
	"testing"

	"asleft/internal/enclosure"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// Every text of every sheet comes from the language file.
func TestFormHasAllItsWords(t *testing.T) {
	for _, o := range []FormOptions{small, {Cells: 1, Rounds: 4, Direction: field.CounterClockwise, Units: measure.UnitMillimeter}} {
		o, err := o.complete()
		if err != nil {
			t.Fatal(err)
		}
		p, err := newPlan(o)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range p.sheets {
			for _, x := range s.texts {
				if strings.HasPrefix(x.text, "[") || strings.Contains(x.text, "{") {
					t.Errorf("%s %s: %s", s.title, x.at, x.text)
				}
			}
		}
	}
}

// Every fault can be told, and every code of what was expected.
func TestFaultsHaveWords(t *testing.T) {
	w := english(t)
	for _, kind := range append(FaultKinds(), enclosure.FaultKinds()...) {
		if !w.Has("fault." + string(kind)) {
			t.Errorf("no words for fault %s", kind)
		}
	}
	for _, key := range w.Keys() {
		kind, ok := strings.CutPrefix(key, "fault.")
		if ok && !strings.Contains(strings.Join(kindStrings(), " ")+" ", kind+" ") {
			t.Errorf("words for a fault that there is not: %s", kind)
		}
	}
}

func kindStrings() []string {
	var all []string
	for _, k := range append(FaultKinds(), enclosure.FaultKinds()...) {
		all = append(all, string(k))
	}
	return all
}

// The move log offers the events of the rule set, except the one that nobody
// logs because it is found from the readings, and instruments found out, which
// have a table of their own.
func TestEventsAreThoseOfTheRuleSet(t *testing.T) {
	rules, err := templates.RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	offered := map[string]bool{}
	for _, key := range eventKeys() {
		offered[key] = true
	}
	for _, e := range rules.Events {
		if e.Key == "longest.change" || e.Key == "instrument.out" {
			continue
		}
		if !offered[e.Key] {
			t.Errorf("the form does not offer %s", e.Key)
		}
		delete(offered, e.Key)
	}
	for key := range offered {
		t.Errorf("the rule set does not know %s", key)
	}
}

func TestSameOrderSameBytes(t *testing.T) {
	first := blank(t, small)
	for range 3 {
		if !bytes.Equal(first, blank(t, small)) {
			t.Fatal("the same order gave other bytes")
		}
	}
	other := small
	other.Units = measure.UnitMillimeter
	if bytes.Equal(first, blank(t, other)) {
		t.Error("another order gave the same bytes")
	}
}

// Every box that people fill lies in a range with a name of the pattern, and
// the file has the names that Names lists.
func TestEveryBoxHasAName(t *testing.T) {
	names, err := Names(small)
	if err != nil {
		t.Fatal(err)
	}
	pattern := regexp.MustCompile(`^(c\d\d_)?[a-z]+(_[a-z]+[0-9]*)*$`)
	listed := map[string]Name{}
	for _, n := range names {
		if !pattern.MatchString(n.Name) {
			t.Errorf("name %s", n.Name)
		}
		if n.Holds == "" {
			t.Errorf("%s: nothing said of what it holds", n.Name)
		}
		if _, twice := listed[n.Name]; twice {
			t.Errorf("%s twice", n.Name)
		}
		listed[n.Name] = n
	}
	for _, want := range []string{"project_owner", "tower_blades", "positions", "limits", "instruments", "people", "roles",
		"waivers", "deviations", "openitems", "attachments", "c01_motor", "c02_clearance_asleft", "c02_clearance_asleft_head",
		"c02_clearance_asfound_reasons", "c02_clearance_asfound_return", "c02_clearance_positions", "c01_track_blades",
		"c01_tilt_marks", "c01_tilt_sense", "c01_asfound_head", "c01_heads", "c01_moves", "form_version"} {
		if _, ok := listed[want]; !ok {
			t.Errorf("no name %s", want)
		}
	}
	o, _ := small.complete()
	p, err := newPlan(o)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range p.sheets {
		for _, in := range s.inputs {
			if !in.free && !covered(in.area, names) {
				t.Errorf("%s %s: no name", s.title, in.area.cells())
			}
		}
	}
	edit(t, blankSmall(t), func(e *sheetEditor) {
		for _, n := range e.GetDefinedName() {
			a, _ := parseArea(n.RefersTo)
			if l, ok := listed[n.Name]; ok && (l.Sheet != a.sheet || l.Cells != a.cells()) {
				t.Errorf("%s: listed at %s %s, refers to %s", n.Name, l.Sheet, l.Cells, n.RefersTo)
			}
		}
	})
}

func covered(in area, names []Name) bool {
	for _, n := range names {
		a, _ := parseArea(quoteSheet(n.Sheet) + "!" + n.Cells)
		if a.sheet == in.sheet && a.from.col <= in.from.col && in.from.col <= a.to.col &&
			a.from.row <= in.from.row && in.to.row <= a.to.row {
			return true
		}
	}
	return false
}

// Boxes are open, labels are locked, and the lock has no password.
func TestOnlyBoxesAreOpen(t *testing.T) {
	edit(t, blankSmall(t), func(e *sheetEditor) {
		locked := func(sheet, cell string) bool {
			id, err := e.GetCellStyle(sheet, cell)
			e.must(err)
			style, err := e.GetStyle(id)
			e.must(err)
			return style.Protection == nil || style.Protection.Locked
		}
		for _, name := range []string{"project_plant", "c01_tilt_asleft", "c01_tilt_asleft_reasons", "limits", "c02_moves"} {
			col := 0
			if name == "limits" {
				col = 3 // tilt has a highest value and no lowest
			}
			if sheet, cell := e.cell(name, col, 0); locked(sheet, cell) {
				t.Errorf("%s at %s %s is locked", name, sheet, cell)
			}
		}
		if sheet, cell := e.cell("limits", 0, 0); !locked(sheet, cell) {
			t.Error("a box that the tilt limit does not use is open")
		}
		if sheet, cell := e.cell("c01_tilt_positions", 0, 0); !locked(sheet, cell) {
			t.Error("a label is open")
		}
	})
}

// A length in inches is kept as typed; a spreadsheet would make 9/16 a date in
// a cell without a format, and 1-1/4 one in a cell with a fraction format.
func TestLengthBoxesKeepWhatIsTyped(t *testing.T) {
	for _, c := range []struct {
		units measure.Unit
		want  string
	}{{measure.UnitInch, formatText}, {measure.UnitMillimeter, formatMetric}} {
		o := small
		o.Units = c.units
		edit(t, blank(t, o), func(e *sheetEditor) {
			sheet, cell := e.cell("c01_clearance_asleft", 0, 0)
			id, err := e.GetCellStyle(sheet, cell)
			e.must(err)
			style, err := e.GetStyle(id)
			e.must(err)
			got := formatText
			if style.CustomNumFmt != nil {
				got = *style.CustomNumFmt
			}
			if got != c.want || c.want == formatText && style.NumFmt != 49 && style.CustomNumFmt == nil {
				t.Errorf("%s: format %q, number %d", c.units, got, style.NumFmt)
			}
		})
	}
}

func TestFormRefusesImpossibleOrders(t *testing.T) {
	for _, o := range []FormOptions{{Cells: 100}, {Cells: -1}, {Blades: 1}, {Blades: 33}, {Positions: 2}, {Positions: 73},
		{Rounds: 1}, {Rounds: 5}, {Paper: "A3"}, {Units: measure.UnitFoot}, {Positions: 4, Degrees: make([]measure.Angle, 3)}} {
		if err := WriteForm(&bytes.Buffer{}, o); err == nil {
			t.Errorf("%+v was written", o)
		}
	}
	for _, o := range []FormOptions{{Blades: MinBlades, Positions: MinPositions, Rounds: MinRounds}, {Blades: MaxBlades, Positions: MaxPositions, Rounds: MaxRounds}} {
		clean(t, blank(t, o))
	}
}

// The largest form is still read. Writing it takes long, so it is taken apart: as
// many cells as there can be, each as small as can be; one as large as can be;
// and, for an order of both, what a file holds, reckoned from one cell and two.
func TestLargestForm(t *testing.T) {
	least := FormOptions{Cells: MaxCells, Blades: MinBlades, Positions: MinPositions, Rounds: 2, Without: Blocks()}
	if record := clean(t, blank(t, least)); len(record.Cells) != MaxCells {
		t.Errorf("%d cells", len(record.Cells))
	}
	most := FormOptions{Cells: 1, Blades: MaxBlades, Positions: MaxPositions, Rounds: MaxRounds}
	if record := clean(t, blank(t, most)); len(record.Cells) != 1 || len(record.Tower.Positions) != MaxPositions {
		t.Errorf("%d cells, %d positions", len(record.Cells), len(record.Tower.Positions))
	}
	usual := FormOptions{Cells: 1, Blades: 12, Positions: 16, Rounds: MaxRounds}
	one := contents(t, usual)
	usual.Cells = 2
	two := contents(t, usual)
	for _, x := range []struct {
		what             string
		one, two, limits int
	}{{"bytes unpacked", one.unpacked, two.unpacked, maxUnpacked}, {"names", one.names, two.names, maxNames},
		{"sheets", one.sheets, two.sheets, maxSheets}, {"parts", one.parts, two.parts, maxParts}, {"bytes", one.size, two.size, MaxFileSize}} {
		whole := x.one + (MaxCells-1)*(x.two-x.one)
		t.Logf("%s: %d of %d", x.what, whole, x.limits)
		if x.two < x.one || whole > x.limits {
			t.Errorf("%s: %d with %d cells, no more than %d are read", x.what, whole, MaxCells, x.limits)
		}
	}
}

// content is how much there is of what a file may not hold too much of.
type content struct{ unpacked, names, sheets, parts, size int }

func contents(t *testing.T, o FormOptions) content {
	t.Helper()
	b := blank(t, o)
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	names, err := Names(o)
	if err != nil {
		t.Fatal(err)
	}
	out := content{names: len(names), parts: len(z.File), size: len(b)}
	for _, f := range z.File {
		out.unpacked += int(f.UncompressedSize64)
		if strings.HasPrefix(f.Name, "xl/worksheets/sheet") {
			out.sheets++
		}
	}
	return out
}

// The drawing and the labels follow the crew's counting.
func TestNewFormAnswersItsOrder(t *testing.T) {
	record := clean(t, blank(t, FormOptions{Positions: 8, Blades: 6, Direction: field.CounterClockwise,
		First: 90 * measure.Degree, Units: measure.UnitMillimeter}))
	if record.Tower.Blades.Value != 6 || record.Project.Units.Value != "mm" || record.Project.Paper.Value != "A4" {
		t.Errorf("tower %+v", record.Tower)
	}
	// Counted counter-clockwise, 90° lies at 270° clockwise, and 90° + 45° at 225°.
	for i, want := range []measure.Angle{270, 225, 180, 135, 90, 45, 0, 315} {
		if got := record.Tower.Positions[i].Degrees; got != want*measure.Degree {
			t.Errorf("position %d at %s, want %d°", i+1, got, want)
		}
	}
}

func TestOwnDegrees(t *testing.T) {
	o := small
	o.Degrees = []measure.Angle{5 * measure.Degree, 95 * measure.Degree, 180 * measure.Degree, 270 * measure.Degree}
	record := clean(t, blank(t, o))
	for i, p := range record.Tower.Positions {
		if p.Degrees != o.Degrees[i] || p.At.Cell == "" {
			t.Errorf("position %+v", p)
		}
	}
}
