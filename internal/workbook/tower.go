package workbook

import "asleft/internal/field"

// towerSheets are the sheets that a form has once.
func towerSheets() []sheet {
	return []sheet{
		{key: "project", blocks: []block{projectBlock(), towerBlock(), positionsBlock()}},
		{key: "geometry", blocks: []block{geometryBlock(), feetBlock(), stockBlock()}},
		{key: "limits", wide: true, blocks: []block{limitsBlock()}},
		{key: "schedule", wide: true, blocks: []block{scheduleBlock()}},
		{key: "instruments", wide: true, blocks: []block{instrumentsBlock(), instrumentsOutBlock()}},
		{key: "people", wide: true, blocks: []block{peopleBlock()}},
		{key: "signoff", wide: true, blocks: []block{rolesBlock()}},
		{key: "waivers", wide: true, blocks: []block{waiversBlock()}},
		{key: "deviations", wide: true, blocks: []block{deviationsBlock()}},
		{key: "openitems", wide: true, blocks: []block{openItemsBlock()}},
		{key: "attachments", wide: true, blocks: []block{attachmentsBlock()}},
	}
}

func projectBlock() block {
	type p = field.Project
	return form("project", func(r *field.Record) *p { return &r.Project },
		entry("plant", func(x *p) any { return &x.Plant }),
		entry("owner", func(x *p) any { return &x.Owner }),
		entry("ownercontact", func(x *p) any { return &x.OwnerContact }),
		entry("contractor", func(x *p) any { return &x.Contractor }),
		entry("contractoraddress", func(x *p) any { return &x.ContractorAddress }).high(2),
		entry("contract", func(x *p) any { return &x.Contract }),
		entry("document", func(x *p) any { return &x.Document }),
		entry("revision", func(x *p) any { return &x.Revision }),
		entry("revisionreason", func(x *p) any { return &x.RevisionReason }),
		entry("supersedes", func(x *p) any { return &x.Supersedes }),
		entry("issuedate", func(x *p) any { return &x.IssueDate }),
		entry("timezone", func(x *p) any { return &x.TimeZone }),
		entry("language", func(x *p) any { return &x.Language }),
		entry("paper", func(x *p) any { return &x.Paper }).of(paper()),
		entry("units", func(x *p) any { return &x.Units }).of(units()),
		entry("notice", func(x *p) any { return &x.Notice }).high(2),
	)
}

func towerBlock() block {
	type t = field.Tower
	return form("tower", func(r *field.Record) *t { return &r.Tower },
		entry("tag", func(x *t) any { return &x.Tag }),
		entry("location", func(x *t) any { return &x.Location }),
		entry("drivetype", func(x *t) any { return &x.DriveType }).of(driveType()),
		entry("blades", func(x *t) any { return &x.Blades }),
		entry("fandiameter", func(x *t) any { return &x.FanDiameter }),
		entry("fanrotation", func(x *t) any { return &x.FanRotation }).of(rotation()),
		entry("sidename", func(x *t) any { return &x.SideName }),
		entry("segments", func(x *t) any { return &x.Segments }),
		entry("decision", func(x *t) any { return &x.Decision }).of(decision()),
		entry("direction", func(x *t) any { return &x.CrewDirection }).of(rotation()),
		entry("first", func(x *t) any { return &x.CrewFirst }),
	)
}

// positionsBlock has a line per position; its readers and writers know it by
// its shape.
func positionsBlock() block {
	return block{key: "positions", shape: degreeShape}
}

func limitsBlock() block {
	type l = field.Limit
	b := table("limits", 0, func(r *field.Record) *[]l { return &r.Limits },
		func(x *l) *field.Ref { return &x.At },
		entry("judged", func(x *l) any { return &x.Criterion }).of(criterion()).wide(12),
		limitMin().wide(9), limitNominal().wide(9), limitMax().wide(9), limitTolerance().wide(9),
		limitCount().wide(8),
		entry("authority", func(x *l) any { return &x.Authority }).of(authority()).wide(15),
		entry("document", func(x *l) any { return &x.Document }).wide(16),
		entry("clause", func(x *l) any { return &x.Clause }).wide(7),
		entry("revision", func(x *l) any { return &x.Revision }).wide(8),
		entry("acceptedby", func(x *l) any { return &x.AcceptedBy }).wide(13),
		entry("organization", func(x *l) any { return &x.Organization }).wide(14),
		entry("acceptedon", func(x *l) any { return &x.AcceptedOn }).wide(11),
	)
	b.shape, b.keyed = keyedShape, limitRows()
	b.begin = func(row any, key string) { row.(*l).Check = key }
	return b
}

// The columns of a limit that hold what is compared.
func limitMin() slot { return entry("min", func(x *field.Limit) any { return &x.Min }) }
func limitNominal() slot {
	return entry("nominal", func(x *field.Limit) any { return &x.Nominal })
}
func limitMax() slot { return entry("max", func(x *field.Limit) any { return &x.Max }) }
func limitTolerance() slot {
	return entry("tolerance", func(x *field.Limit) any { return &x.Tolerance })
}
func limitCount() slot { return entry("mincount", func(x *field.Limit) any { return &x.MinCount }) }

// limitRows says which of the columns a check's criterion uses; a pitch is an
// angle, and the largest difference between blades stands in the column Most.
func limitRows() []keyedRow {
	pitch := entry("nominal", func(x *field.Limit) any { return &x.AngleNominal })
	pitchTol := entry("tolerance", func(x *field.Limit) any { return &x.AngleTol })
	spread := entry("max", func(x *field.Limit) any { return &x.AngleTol })
	return append([]keyedRow{
		{"tilt", []slot{limitMax(), limitCount()}},
		{"track", []slot{limitMax(), limitCount()}},
		{"tipradius", []slot{limitTolerance(), limitCount()}},
		{"clearance", []slot{limitMin(), limitNominal(), limitMax(), limitTolerance(), limitCount()}},
		{"clearanceall", []slot{limitMin(), limitNominal(), limitMax(), limitTolerance()}},
		{"pitch", []slot{pitch, pitchTol, limitCount()}},
		{"pitchspread", []slot{spread}},
	}, driveLimitRows()...)
}

func instrumentsBlock() block {
	type i = field.Instrument
	return table("instruments", 16, func(r *field.Record) *[]i { return &r.Instruments },
		func(x *i) *field.Ref { return &x.At },
		entry("id", func(x *i) any { return &x.ID }).wide(12),
		entry("kind", func(x *i) any { return &x.Kind }).wide(22),
		entry("serial", func(x *i) any { return &x.Serial }).wide(15),
		entry("range", func(x *i) any { return &x.Range }).wide(14),
		entry("resolution", func(x *i) any { return resolution{&x.Resolution, &x.AngleResolution, &x.SlopeResolution} }).wide(13),
		entry("expanded", func(x *i) any { return resolution{&x.Expanded, &x.AngleExpanded, &x.SlopeExpanded} }).wide(13),
		entry("coverage", func(x *i) any { return &x.Coverage }).wide(10),
		entry("class", func(x *i) any { return &x.Class }).of(class()).wide(16),
		entry("calibrated", func(x *i) any { return &x.Calibrated }).wide(12),
		entry("due", func(x *i) any { return &x.Due }).wide(12),
		entry("certificate", func(x *i) any { return &x.Certificate }).wide(18),
		entry("capacity", func(x *i) any { return &x.Capacity }).in(torque).wide(12),
	)
}

func peopleBlock() block {
	type p = field.Person
	return table("people", 12, func(r *field.Record) *[]p { return &r.People },
		func(x *p) *field.Ref { return &x.At },
		entry("name", func(x *p) any { return &x.Name }).wide(26),
		entry("initials", func(x *p) any { return &x.Initials }).wide(10),
		entry("organization", func(x *p) any { return &x.Organization }).wide(30),
		entry("job", func(x *p) any { return &x.Job }).wide(26),
		entry("qualification", func(x *p) any { return &x.Qualification }).wide(34),
	)
}

func rolesBlock() block {
	type o = field.Role
	return table("roles", 8, func(r *field.Record) *[]o { return &r.Roles },
		func(x *o) *field.Ref { return &x.At },
		entry("title", func(x *o) any { return &x.Title }).wide(28),
		entry("name", func(x *o) any { return &x.Name }).from(pickPeople).wide(28),
		entry("organization", func(x *o) any { return &x.Organization }).wide(28),
		entry("meaning", func(x *o) any { return &x.Meaning }).wide(44),
	)
}

func waiversBlock() block {
	type v = field.Waiver
	return table("waivers", 12, func(r *field.Record) *[]v { return &r.Waivers },
		func(x *v) *field.Ref { return &x.At },
		entry("cell", func(x *v) any { return &x.Cell }).wide(8),
		entry("check", func(x *v) any { return &x.Check }).of(check()).wide(28),
		entry("kind", func(x *v) any { return &x.Kind }).of(waiver()).wide(18),
		entry("reason", func(x *v) any { return &x.Reason }).wide(50),
		entry("by", func(x *v) any { return &x.By }).wide(26),
	)
}

func deviationsBlock() block {
	type d = field.Deviation
	return table("deviations", 14, func(r *field.Record) *[]d { return &r.Deviations },
		func(x *d) *field.Ref { return &x.At },
		entry("number", func(x *d) any { return &x.Number }).wide(9),
		entry("cell", func(x *d) any { return &x.Cell }).wide(7),
		entry("check", func(x *d) any { return &x.Check }).of(check()).wide(25),
		entry("round", func(x *d) any { return &x.Round }).of(round()).wide(16),
		entry("value", func(x *d) any { return &x.Value }).wide(13),
		entry("authority", func(x *d) any { return &x.Authority }).wide(20),
		entry("person", func(x *d) any { return &x.Person }).wide(18),
		entry("organization", func(x *d) any { return &x.Organization }).wide(18),
		entry("date", func(x *d) any { return &x.Date }).wide(12),
		entry("note", func(x *d) any { return &x.Note }).wide(26),
	)
}

func openItemsBlock() block {
	type o = field.OpenItem
	return table("openitems", 12, func(r *field.Record) *[]o { return &r.OpenItems },
		func(x *o) *field.Ref { return &x.At },
		entry("number", func(x *o) any { return &x.Number }).wide(9),
		entry("item", func(x *o) any { return &x.Item }).wide(60),
		entry("owner", func(x *o) any { return &x.Owner }).from(pickPeople).wide(26),
		entry("cell", func(x *o) any { return &x.Cell }).wide(8),
		entry("due", func(x *o) any { return &x.Due }).wide(13),
		entry("status", func(x *o) any { return &x.Status }).of(status()).wide(12),
	)
}
