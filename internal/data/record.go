package data

import (
	"strconv"

	"asleft/internal/field"
)

// This file turns the record's sheets into rows. Keys are the field names of
// package field with a small first letter.

func projectRow(p *field.Project) Row {
	var r row
	return r.text("plant", p.Plant).text("owner", p.Owner).text("ownerContact", p.OwnerContact).
		text("contractor", p.Contractor).text("contractorAddress", p.ContractorAddress).
		text("contract", p.Contract).text("document", p.Document).text("revision", p.Revision).
		text("revisionReason", p.RevisionReason).text("supersedes", p.Supersedes).
		date("issueDate", p.IssueDate).text("timeZone", p.TimeZone).
		text("language", p.Language).text("paper", p.Paper).text("units", p.Units).
		text("notice", p.Notice).done()
}

func towerRow(t *field.Tower) Row {
	var r row
	r.text("tag", t.Tag).text("location", t.Location).text("driveType", t.DriveType).
		count("blades", t.Blades).length("fanDiameter", t.FanDiameter).
		text("fanRotation", t.FanRotation).text("sideName", t.SideName).
		count("segments", t.Segments).text("decision", t.Decision)
	word := "clockwise"
	if t.CrewDirection.Value == field.CounterClockwise {
		word = "counterclockwise"
	}
	r.add("crewDirection", t.CrewDirection.Set, entry(word, t.CrewDirection.Text, t.CrewDirection.At))
	return r.angle("crewFirst", t.CrewFirst).done()
}

func positions(list []field.Position) Row {
	var r row
	for _, p := range list {
		e := angleEntry(field.Angle{Value: p.Degrees, At: p.At})
		e.Typed = ""
		r.add(strconv.Itoa(p.Number), true, e)
	}
	return r.done()
}

func limitRow(l field.Limit) Row {
	var r row
	return r.length("min", l.Min).length("nominal", l.Nominal).length("max", l.Max).
		length("tolerance", l.Tolerance).angle("angleNominal", l.AngleNominal).
		angle("angleTolerance", l.AngleTol).count("minCount", l.MinCount).
		text("criterion", l.Criterion).slope("slope", l.Slope).
		quantity("quantityMin", l.Quantities.Min).quantity("quantityNominal", l.Quantities.Nominal).
		quantity("quantityMax", l.Quantities.Max).quantity("quantityTolerance", l.Quantities.Tolerance).
		text("authority", l.Authority).text("document", l.Document).text("clause", l.Clause).
		text("revision", l.Revision).text("acceptedBy", l.AcceptedBy).
		text("organization", l.Organization).date("acceptedOn", l.AcceptedOn).done()
}

func instrumentRow(i field.Instrument) Row {
	var r row
	return r.text("id", i.ID).text("kind", i.Kind).text("serial", i.Serial).text("range", i.Range).
		length("resolution", i.Resolution).length("expanded", i.Expanded).
		angle("angleResolution", i.AngleResolution).angle("angleExpanded", i.AngleExpanded).
		slope("slopeResolution", i.SlopeResolution).slope("slopeExpanded", i.SlopeExpanded).
		quantity("capacity", i.Capacity).text("coverage", i.Coverage).
		text("class", i.Class).date("calibrated", i.Calibrated).date("due", i.Due).
		text("certificate", i.Certificate).done()
}

func personRow(p field.Person) Row {
	var r row
	return r.text("name", p.Name).text("initials", p.Initials).text("organization", p.Organization).
		text("job", p.Job).text("qualification", p.Qualification).done()
}

func roleRow(o field.Role) Row {
	var r row
	return r.add("key", true, Entry{Value: o.Key, At: o.At.String(), File: o.At.File}).
		text("title", o.Title).text("name", o.Name).text("organization", o.Organization).
		text("meaning", o.Meaning).done()
}

func waiverRow(w field.Waiver) Row {
	var r row
	return r.count("cell", w.Cell).text("check", w.Check).text("kind", w.Kind).
		text("reason", w.Reason).text("by", w.By).done()
}

func deviationRow(d field.Deviation) Row {
	var r row
	return r.text("number", d.Number).count("cell", d.Cell).text("check", d.Check).
		text("round", d.Round).text("value", d.Value).text("authority", d.Authority).
		text("person", d.Person).text("organization", d.Organization).date("date", d.Date).
		text("note", d.Note).done()
}

func openItemRow(o field.OpenItem) Row {
	var r row
	return r.text("number", o.Number).text("item", o.Item).text("owner", o.Owner).
		count("cell", o.Cell).date("due", o.Due).text("status", o.Status).done()
}

func headRow(h *field.Head) Row {
	var r row
	return r.date("date", h.Date).clock("start", h.Start).clock("finish", h.Finish).
		count("sequence", h.Sequence).text("readBy", h.ReadBy).text("typedBy", h.TypedBy).
		text("instrument", h.Instrument).text("paperSheet", h.PaperSheet).
		text("airTemperature", h.AirTemperature).text("wind", h.Wind).text("surface", h.Surface).
		text("water", h.Water).text("neighborsRunning", h.NeighborsRunning).
		text("gearReducer", h.GearReducer).flag("holdDownsFinal", h.HoldDownsFinal).
		flag("clampsFinal", h.ClampsFinal).text("witness", h.Witness).done()
}

func cellRow(c *field.Cell) Row {
	var r row
	return r.text("name", c.Name).flag("inPackage", c.InPackage).text("motor", c.Motor).
		text("gearReducer", c.GearReducer).text("driveShaft", c.DriveShaft).text("fan", c.Fan).
		text("starter", c.Starter).text("disconnect", c.Disconnect).text("remarks", c.Remarks).done()
}

func files(list []field.File) []File {
	out := make([]File, 0, len(list))
	for _, f := range list {
		g := File{Name: f.Name, SHA256: f.SHA256, Size: f.Size, Form: f.Form,
			Hidden: f.Hidden, Extra: f.Extra, Authors: f.Authors}
		for _, c := range f.Comments {
			g.Comments = append(g.Comments, Comment{At: c.At.String(), Author: c.Author, Text: c.Text})
		}
		out = append(out, g)
	}
	return out
}
