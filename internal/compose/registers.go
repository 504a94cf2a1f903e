package compose

import (
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// registers lists equipment, instruments and people.
func (b *book) registers() []page.Block {
	return []page.Block{
		b.h2("registers.title", ""),
		b.h3("registers.equipment"), b.towerTable(), b.equipmentTable(),
		b.h3("registers.instruments"), b.instrumentTable(),
		b.h3("registers.people"), b.peopleTable(),
	}
}

// rows fills a table with a row per element; a table without any says so.
func rows[T any](b *book, t page.Table, list []T, row func(T) []string) page.Table {
	for _, x := range list {
		var r page.TableRow
		for i, text := range row(x) {
			r.Cells = append(r.Cells, page.TableCell{Runs: plain(text), Header: i == 0})
		}
		t.Rows = append(t.Rows, r)
	}
	if len(t.Rows) == 0 {
		t.Rows = []page.TableRow{{Cells: []page.TableCell{{
			Runs: muted(b.say("registers.none")), Span: len(t.Columns),
		}}}}
	}
	return t
}

// towerTable is what all fans of the tower have in common.
func (b *book) towerTable() page.Table {
	t := &b.in.Record.Tower
	out := b.pairs("registers.towertable", [][2]string{
		{"registers.drivetype", b.code("drivetype", t.DriveType)},
		{"registers.diameter", b.leading(t.FanDiameter)},
		{"registers.blades", b.counted(t.Blades)},
		{"registers.rotation", b.code("rotation", t.FanRotation)},
		{"registers.segments", b.counted(t.Segments)},
	})
	g := &t.Geometry
	for _, x := range []struct{ key, entry, text string }{
		{"registers.ratio", "ratio", b.numberTyped(g.Ratio)},
		{"registers.backstop", "", b.answer(g.Backstop)},
		{"registers.reversing", "", b.answer(g.Reversing)},
		{"registers.motorspeed", "motorSpeed", b.quantityTyped(g.MotorSpeed)},
		{"registers.motorcurrent", "motorCurrent", b.quantityTyped(g.MotorCurrent)},
		{"registers.motorvolts", "motorVolts", b.quantityTyped(g.MotorVolts)},
		{"registers.facegear", "faceGear", b.asTyped(g.FaceGear)},
		{"registers.facemotor", "faceMotor", b.asTyped(g.FaceMotor)},
	} {
		value := plain(x.text)
		switch {
		case x.text == "":
			value = muted(b.say("front.blank"))
		case x.entry != "":
			value = b.typedRuns(data.GeometryID(x.entry), x.text)
		}
		out.Rows = append(out.Rows, page.TableRow{Cells: []page.TableCell{{Runs: muted(b.say(x.key)), Header: true}, {Runs: value}}})
	}
	return out
}

func (b *book) equipmentTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.7}, {Width: 1}, {Width: 1}, {Width: 1}, {Width: 1}, {Width: 1}, {Width: 1}},
		Head: [][]page.TableCell{b.headRow("registers.cell", "registers.motor", "registers.gearreducer",
			"registers.driveshaft", "registers.fan", "registers.starter", "registers.disconnect")},
		Summary: b.say("registers.equipmenttable"),
	}
	return rows(b, t, b.cells(), func(c towerCell) []string {
		r := c.read
		return []string{b.cellName(c), b.text(r.Motor), b.text(r.GearReducer), b.text(r.DriveShaft),
			b.text(r.Fan), b.text(r.Starter), b.text(r.Disconnect)}
	})
}

func (b *book) instrumentTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.7}, {Width: 1.2}, {Width: 0.9}, {Width: 1}, {Width: 0.8}, {Width: 1},
			{Width: 0.9}, {Width: 0.9}, {Width: 0.9}, {Width: 1}},
		Head: [][]page.TableCell{b.headRow("registers.id", "registers.kind", "registers.serial", "registers.range",
			"registers.resolution", "registers.expanded", "registers.class", "registers.calibrated",
			"registers.due", "registers.certificate")},
		Summary: b.say("registers.instrumenttable"),
	}
	return rows(b, t, b.in.Record.Instruments, func(i field.Instrument) []string {
		expanded := join(", ", b.asTyped(i.Expanded), b.typedAngle(i.AngleExpanded), b.slopeTyped(i.SlopeExpanded))
		if expanded != "" {
			expanded = b.say("registers.uncertainty", "value", expanded, "k", b.or(b.text(i.Coverage), "registers.k"))
		}
		return []string{b.text(i.ID), b.text(i.Kind), b.text(i.Serial),
			join(", ", b.text(i.Range), b.wordFor("registers.capacity", b.quantityTyped(i.Capacity))),
			join(", ", b.asTyped(i.Resolution), b.typedAngle(i.AngleResolution), b.slopeTyped(i.SlopeResolution)), expanded, b.code("class", i.Class),
			b.typedDay(i.Calibrated), b.typedDay(i.Due), b.text(i.Certificate)}
	})
}

func (b *book) peopleTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.4}, {Width: 0.6}, {Width: 1.4}, {Width: 1.2}, {Width: 1.6}},
		Head: [][]page.TableCell{b.headRow("registers.name", "registers.initials", "registers.organization",
			"registers.job", "registers.qualification")},
		Summary: b.say("registers.peopletable"),
	}
	return rows(b, t, b.in.Record.People, func(p field.Person) []string {
		return []string{b.text(p.Name), b.text(p.Initials), b.text(p.Organization), b.text(p.Job), b.text(p.Qualification)}
	})
}

// typedDay is a day as 2026-03-04, the one form that nobody reads two ways.
func (b *book) typedDay(d field.Date) string {
	if !d.Set {
		return ""
	}
	text := d.Value.String()
	b.tellAs(d.At, d.Text, text)
	return text
}

func (b *book) typedTime(c field.Clock) string {
	if !c.Set {
		return ""
	}
	text := c.Value.String()
	b.tellAs(c.At, c.Text, text)
	return text
}
