package compose

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// plan is the shape of an invented tower.
type plan struct {
	cells, blades, positions, rounds int
	good                             bool // nothing against it but that only the fan is covered
	full                             bool // the whole job, not only the fan
	names                            func(string) string
}

// demoPlan is a tower of ordinary size, with something wrong in some cells.
var demoPlan = plan{cells: 6, blades: 8, positions: 12, rounds: 2}

// maker types entries into a sheet, one cell after another.
type maker struct {
	sheet string
	row   int
}

func (m *maker) at() field.Ref {
	m.row++
	return field.Ref{Sheet: m.sheet, Cell: fmt.Sprintf("%c%d", 'B'+m.row%12, 4+m.row/12)}
}

func (m *maker) text(s string) field.Text {
	return field.Text{Value: s, Set: s != "", Text: s, At: m.at()}
}

func (m *maker) count(n int) field.Count {
	return field.Count{Value: n, Set: true, Text: fmt.Sprint(n), At: m.at()}
}

func (m *maker) flag(v bool) field.Flag {
	return field.Flag{Value: v, Set: true, Text: map[bool]string{true: "yes", false: "no"}[v], At: m.at()}
}

func (m *maker) date(y, mo, d int) field.Date {
	v := field.Day{Year: y, Month: mo, Day: d}
	return field.Date{Value: v, Set: true, Text: v.String(), At: m.at()}
}

func (m *maker) clock(h, min int) field.Clock {
	v := field.Minute(60*h + min)
	return field.Clock{Value: v, Set: true, Text: v.String(), At: m.at()}
}

func (m *maker) length(text string) field.Length {
	v, u, err := measure.ParseLength(text, measure.UnitInch)
	if err != nil {
		panic(err)
	}
	return field.Length{Entry: field.Entry[measure.Length]{Value: v, Set: true, Text: text, At: m.at()}, Unit: u}
}

func (m *maker) angle(text string) field.Angle {
	v, err := measure.ParseAngle(text)
	if err != nil {
		panic(err)
	}
	return field.Angle{Value: v, Set: true, Text: text, At: m.at()}
}

// sixteenths is a gap as a tape is read.
func sixteenths(inches float64) string {
	text, _ := measure.Length(math.Round(inches*64) * float64(measure.SixtyFourth)).FormatFraction(64)
	return text
}

func decimalText(inches float64) string { return fmt.Sprintf("%.2f", inches) }

// towerOf builds the record of a plan.
func towerOf(p plan) field.Record {
	if p.names == nil {
		p.names = func(s string) string { return s }
	}
	m := &maker{sheet: "Project"}
	r := field.Record{
		Files: []field.File{{Name: "tower.xlsx", SHA256: strings.Repeat("ab", 32), Size: 8, Form: "1",
			Extra: []string{"Scratch"}, Authors: []string{p.names("Field office")},
			Comments: []field.Comment{{At: field.Ref{Sheet: "Cell 1", Cell: "C9"}, Author: p.names("R. Moss"), Text: "read twice"}}}},
		Project: field.Project{
			Plant: m.text(p.names("Heron Bend Station")), Owner: m.text(p.names("Heron Bend Water & Power")),
			OwnerContact: m.text(p.names("L. Achterberg")), Contractor: m.text(p.names("Tallgrass Field Services")),
			ContractorAddress: m.text(p.names("14 Depot Road, Larkfield")), Contract: m.text("PO 88-1207"),
			Document: m.text("HB-CT2-FD-001"), Revision: m.text("A"), RevisionReason: m.text("first issue"),
			IssueDate: m.date(2026, 5, 9), TimeZone: m.text("-06:00"), Language: m.text("en"), Paper: m.text("Letter"),
			Units: m.text("in"), Notice: m.text("Invented plant: for demonstration only"),
		},
		Limits: limitsOf(p),
		Instruments: []field.Instrument{
			{ID: m.text("T-04"), Kind: m.text("steel rule, 24 in"), Serial: m.text("0417"), Range: m.text("24 in"),
				Resolution: m.length("1/64"), Expanded: m.length("0.005"), Coverage: m.text("2"), Class: m.text("calibrated"),
				Calibrated: m.date(2026, 1, 12), Due: m.date(2027, 1, 12), Certificate: m.text("C-2231"), At: m.at()},
			{ID: m.text("L-02"), Kind: m.text("digital level"), Serial: m.text("L2-19"), Range: m.text("360°"),
				Class: m.text("calibrated"), Calibrated: m.date(2026, 2, 3), Due: m.date(2027, 2, 3),
				Certificate: m.text("C-2307"), At: m.at()},
		},
		People: []field.Person{
			{Name: m.text(p.names("R. Moss")), Initials: m.text("RM"), Organization: m.text(p.names("Tallgrass Field Services")),
				Job: m.text("crew lead"), Qualification: m.text("millwright"), At: m.at()},
			{Name: m.text(p.names("J. Teller")), Initials: m.text("JT"), Organization: m.text(p.names("Tallgrass Field Services")),
				Job: m.text("project engineer"), At: m.at()},
		},
		Roles: []field.Role{
			{Key: "1", Title: m.text("Contractor"), Name: m.text(p.names("J. Teller")),
				Organization: m.text(p.names("Tallgrass Field Services")),
				Meaning:      m.text("The readings were taken as stated and the work is complete."), At: m.at()},
			{Key: "2", Title: m.text("Owner's engineer"), Organization: m.text(p.names("Heron Bend Water & Power")),
				Meaning: m.text("Reviewed and accepted."), At: m.at()},
			{Key: "3", Title: m.text("Witness"), Meaning: m.text("Present when the as-left readings were taken."), At: m.at()},
		},
	}
	r.Tower = field.Tower{
		Tag: m.text("CT-2"), Location: m.text("north yard"), DriveType: m.text("rightangle"), Blades: m.count(p.blades),
		FanDiameter: m.length("28 ft"), FanRotation: m.text("cw"), SideName: m.text(p.names("river")), Segments: m.count(8),
		Decision: m.text("simple"), CrewFirst: m.angle("0"),
	}
	for i := range p.positions {
		r.Tower.Positions = append(r.Tower.Positions, field.Position{Number: i + 1,
			Degrees: 360 * measure.Degree * measure.Angle(i) / measure.Angle(p.positions)})
	}
	for n := 1; n <= p.cells; n++ {
		r.Cells = append(r.Cells, cellOf(p, n))
	}
	if p.full {
		wholeTower(p, &r)
	}
	if !p.good {
		lists(m, p, &r)
	}
	return r
}

// lists adds a waiver, a deviation and open items.
func lists(m *maker, p plan, r *field.Record) {
	r.OpenItems = []field.OpenItem{
		{Number: m.text("1"), Item: m.text("Touch up galvanizing at cylinder joint 3"), Owner: m.text(p.names("R. Moss")),
			Cell: m.count(1), Due: m.date(2026, 6, 1), Status: m.text("open"), At: m.at()},
	}
	r.Deviations = []field.Deviation{{Number: m.text("D-1"), Cell: m.count(2), Check: m.text(assess.Clearance),
		Round: m.text(field.AsLeft), Value: m.text("0.80 in"), Authority: m.text("owner's letter 17"),
		Person: m.text(p.names("L. Achterberg")), Organization: m.text(p.names("Heron Bend Water & Power")),
		Date: m.date(2026, 5, 7), Note: m.text("until the next outage"), At: m.at()}}
	if p.cells >= 5 {
		r.Waivers = []field.Waiver{{Cell: m.count(5), Check: m.text(assess.Track), Kind: m.text("byothers"),
			Reason: m.text("read by the fan maker"), By: m.text(p.names("fan maker's field service")), At: m.at()}}
	}
}

func limitsOf(p plan) []field.Limit {
	m := &maker{sheet: "Limits"}
	own := func(l field.Limit) field.Limit {
		l.Authority, l.Document, l.Clause, l.Revision = m.text("contract"), m.text("HB-SPEC-23-65"), m.text("3.4.2"), m.text("2")
		l.AcceptedBy, l.Organization, l.AcceptedOn = m.text(p.names("L. Achterberg")), m.text(p.names("Heron Bend Water & Power")), m.date(2026, 3, 2)
		l.At = m.at()
		return l
	}
	out := []field.Limit{
		own(field.Limit{Check: assess.Tilt, Max: m.length("1 in")}),
		own(field.Limit{Check: assess.Track, Max: m.length("3/4 in")}),
		own(field.Limit{Check: assess.TipRadius, Tolerance: m.length("1/8 in")}),
		own(field.Limit{Check: assess.Clearance, Nominal: m.length("1/2 in"), Tolerance: m.length("1/8 in")}),
		own(field.Limit{Check: assess.ClearanceAll, Max: m.length("7/8 in")}),
		own(field.Limit{Check: assess.Pitch, AngleNominal: m.angle("12.5"), AngleTol: m.angle("0.5")}),
	}
	if p.good {
		return append(out, own(field.Limit{Check: assess.PitchSpread, AngleTol: m.angle("0.6")}))
	}
	out[2].Authority, out[2].AcceptedBy, out[2].Organization = m.text("start"), field.Text{}, field.Text{}
	out[2].Document, out[2].Clause, out[2].Revision, out[2].AcceptedOn = field.Text{}, field.Text{}, field.Text{}, field.Date{}
	return out
}

// heads are the rounds of a cell, a day apart.
func heads(m *maker, p plan, n int) []field.Head {
	var out []field.Head
	for i := range p.rounds {
		out = append(out, field.Head{
			Date: m.date(2026, 5, 2+i), Start: m.clock(8+n%8, 10), Finish: m.clock(9+n%8, 35),
			ReadBy: m.text(p.names("R. Moss")), TypedBy: m.text(p.names("J. Teller")), Instrument: m.text("T-04"),
			PaperSheet: m.text(fmt.Sprintf("%d-%d", n, i+1)), AirTemperature: m.text("18 °C"), Wind: m.text("light"),
			Surface: m.text("dry"), Water: m.text("off"), NeighborsRunning: m.text("none"), GearReducer: m.text("cold"),
			HoldDownsFinal: m.flag(true), ClampsFinal: m.flag(true), Witness: m.text(p.names("P. Quill")),
		})
	}
	return out
}

// keys of the rounds of a plan, the last one always as left.
func roundKeysOf(p plan) []string {
	return append([]string{field.AsFound, field.Second, field.Third}[:p.rounds-1], field.AsLeft)
}

func cellOf(p plan, n int) field.Cell {
	m := &maker{sheet: fmt.Sprintf("Cell %d", n)}
	c := field.Cell{
		Number: n, Name: m.text(p.names(fmt.Sprintf("2%c", 'A'+n-1))), InPackage: m.flag(true),
		Motor: m.text(fmt.Sprintf("M-%d07", n)), GearReducer: m.text(fmt.Sprintf("G-%d31", n)),
		DriveShaft: m.text(fmt.Sprintf("S-%d12", n)), Fan: m.text(fmt.Sprintf("F-%d55", n)),
		Starter: m.text(fmt.Sprintf("MCC-2-%02d", n)), Disconnect: m.text(fmt.Sprintf("DS-2-%02d", n)), At: m.at(),
	}
	hs := heads(m, p, n)
	c.Tilt = field.Tilt{Sense: m.text("down"), Blade: m.count(1), Radius: m.length("13 ft 6 in")}
	c.Track = field.Track{Place: m.text("at the motor")}
	c.TipRadius = field.TipRadius{Position: m.count(1), PulledOut: m.flag(true)}
	c.Clearance = field.Clearance{PulledOut: m.flag(true)}
	c.Pitch = field.Pitch{Position: m.count(1), Radius: m.length("11 ft"), Surface: m.text("upper")}
	for i, key := range roundKeysOf(p) {
		if i > 0 {
			c.Moves = append(c.Moves, field.Move{Sequence: m.count(i), Date: m.date(2026, 5, 2), Time: m.clock(15, 20),
				Event: m.text("gear.shim"), Detail: m.text("0.072 in under both motor-side feet"), By: m.text(p.names("R. Moss")), At: m.at()})
		}
		fanRounds(&c, m, p, n, i, key, hs[i])
	}
	if !p.good && n == 6 { // overtakes what was read before it
		c.Moves = append(c.Moves, field.Move{Sequence: m.count(p.rounds), Date: m.date(2026, 5, 8), Time: m.clock(10, 5),
			Event: m.text("gear.shim"), Detail: m.text("0.030 in out of the motor-side feet"), By: m.text(p.names("R. Moss")), At: m.at()})
	}
	return c
}

// fanRounds adds a round to every block. Early rounds are off; in a tower that
// is not good some cells stay so.
func fanRounds(c *field.Cell, m *maker, p plan, n, i int, key string, h field.Head) {
	off := 1.0
	if i == p.rounds-1 {
		off = 0.25
		if !p.good && n == 2 {
			off = 1.1
		}
	}
	longest := 1 + n%p.blades
	around := func(k int) float64 { return math.Cos(2*math.Pi*float64(k)/float64(p.positions) - float64(n)) }
	blade := func(k int) float64 { return math.Sin(2.4 * float64(k-longest+1)) }
	tip := func(k int) float64 {
		if k == longest {
			return 0.46
		}
		return 0.53 + 0.05*blade(k)
	}
	series := func(count int, value func(int) float64, text func(float64) string) field.Series[field.Length] {
		s := field.Series[field.Length]{Round: key, Head: h, At: m.at()}
		for k := 1; k <= count; k++ {
			s.Readings = append(s.Readings, field.Reading[field.Length]{Index: k, Value: m.length(text(value(k)))})
		}
		s.Return = m.length(text(value(1)))
		return s
	}
	tilt := series(p.positions, func(k int) float64 { return 22 + 0.7*off*around(k) + 0.02*math.Cos(5*float64(k)) }, decimalText)
	for k := range tilt.Readings {
		tilt.Readings[k].Mark = m.length(decimalText(0.1 * math.Cos(float64(k))))
	}
	c.Tilt.Rounds = append(c.Tilt.Rounds, tilt)
	if !p.good && n == 5 {
		// read by others
	} else {
		c.Track.Rounds = append(c.Track.Rounds, series(p.blades, func(k int) float64 { return 8 + 0.2*blade(k) }, sixteenths))
	}
	if p.good || n != 4 || i == 0 {
		c.TipRadius.Rounds = append(c.TipRadius.Rounds, series(p.blades, tip, sixteenths))
	}
	clear := series(p.positions, func(k int) float64 { return 0.5 + 0.23*off*around(k) + 0.01*math.Cos(3*float64(k)) }, sixteenths)
	if !p.good && n == 3 {
		clear.Readings[0].Value = field.Length{}
		clear.Readings[0].Reason = m.text("drive-shaft opening")
	}
	c.Clearance.Rounds = append(c.Clearance.Rounds, field.ClearanceRound{Series: clear, Blade: m.count(longest)})
	pitch := field.Series[field.Angle]{Round: key, Head: h, At: m.at()}
	for k := 1; k <= p.blades; k++ {
		pitch.Readings = append(pitch.Readings, field.Reading[field.Angle]{Index: k,
			Value: m.angle(fmt.Sprintf("%.1f", 12.5+0.25*off*blade(k)))})
	}
	c.Pitch.Rounds = append(c.Pitch.Rounds, pitch)
}

// testRules is a rule set of the events in use here.
var testRules = assess.Rules{Version: "1", Hash: strings.Repeat("0f", 32), Events: []assess.Event{
	{Key: "gear.shim", Overtakes: []string{assess.Tilt, assess.Clearance, assess.ClearanceAll}},
	{Key: "motor.shim"},
	{Key: "blade.move", Overtakes: []string{assess.Track, assess.TipRadius, assess.Clearance, assess.ClearanceAll}},
}}

// inputOf is the whole input of a package of the plan.
func inputOf(t testing.TB, p plan) Input {
	t.Helper()
	w, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	r, rules := towerOf(p), testRules
	if p.full {
		if rules, err = fullRules(); err != nil {
			t.Fatal(err)
		}
	}
	return Input{
		Record: r, Assessment: assess.Assess(r, rules), Rules: rules, Words: w,
		Program: "asleft 0.1.0", Sources: [][]byte{[]byte("workbook")},
	}
}
