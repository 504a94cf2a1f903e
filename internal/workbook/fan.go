package workbook

import "asleft/internal/field"

// fanBlocks are the blocks of a cell's first sheet, in the advised order of work.
func fanBlocks() []block {
	return []block{identityBlock(), cellHeadBlock(), pitchBlock(), tiltBlock(), trackBlock(),
		tipRadiusBlock(), clearanceBlock()}
}

func identityBlock() block {
	type c = field.Cell
	return form("", func(x *c) *c { return x },
		entry("name", func(x *c) any { return &x.Name }),
		entry("inpackage", func(x *c) any { return &x.InPackage }).of(yesNo()),
		entry("motor", func(x *c) any { return &x.Motor }),
		entry("gearreducer", func(x *c) any { return &x.GearReducer }),
		entry("driveshaft", func(x *c) any { return &x.DriveShaft }),
		entry("fan", func(x *c) any { return &x.Fan }),
		entry("starter", func(x *c) any { return &x.Starter }),
		entry("disconnect", func(x *c) any { return &x.Disconnect }),
		entry("remarks", func(x *c) any { return &x.Remarks }).high(2),
	)
}

// cellHeadBlock is the round heads that the cell's blocks fall back on.
func cellHeadBlock() block {
	return block{key: "", shape: headShape, slots: headSlots()}
}

// headSlots are all lines of a head.
func headSlots() []slot {
	type h = field.Head
	return []slot{
		entry("date", func(x *h) any { return &x.Date }),
		entry("start", func(x *h) any { return &x.Start }),
		entry("finish", func(x *h) any { return &x.Finish }),
		entry("sequence", func(x *h) any { return &x.Sequence }),
		entry("readby", func(x *h) any { return &x.ReadBy }).from(pickPeople),
		entry("typedby", func(x *h) any { return &x.TypedBy }).from(pickPeople),
		entry("instrument", func(x *h) any { return &x.Instrument }).from(pickInstruments),
		entry("papersheet", func(x *h) any { return &x.PaperSheet }),
		entry("airtemperature", func(x *h) any { return &x.AirTemperature }),
		entry("wind", func(x *h) any { return &x.Wind }),
		entry("surface", func(x *h) any { return &x.Surface }).of(surface()),
		entry("water", func(x *h) any { return &x.Water }).of(water()),
		entry("neighbors", func(x *h) any { return &x.NeighborsRunning }),
		entry("warmth", func(x *h) any { return &x.GearReducer }).of(warmth()),
		entry("holddowns", func(x *h) any { return &x.HoldDownsFinal }).of(yesNo()),
		entry("clamps", func(x *h) any { return &x.ClampsFinal }).of(yesNo()),
		entry("witness", func(x *h) any { return &x.Witness }).from(pickPeople),
	}
}

// seriesHeads are the lines of a block's own round heads: when, by whom, with
// what, and the torque state that decides whether its readings count. All else
// stands in the cell's head.
func seriesHeads(torque string, more ...slot) []slot {
	type r = roundEntry
	lines := []slot{
		entry("date", func(x *r) any { return &x.head.Date }),
		entry("start", func(x *r) any { return &x.head.Start }),
		entry("finish", func(x *r) any { return &x.head.Finish }),
		entry("sequence", func(x *r) any { return &x.head.Sequence }),
		entry("readby", func(x *r) any { return &x.head.ReadBy }).from(pickPeople),
		entry("instrument", func(x *r) any { return &x.head.Instrument }).from(pickInstruments),
	}
	if torque == clampTorque {
		lines = append(lines, entry("clamps", func(x *r) any { return &x.head.ClampsFinal }).of(yesNo()))
	} else {
		lines = append(lines, entry("holddowns", func(x *r) any { return &x.head.HoldDownsFinal }).of(yesNo()))
	}
	lines = append(lines, more...)
	return append(lines, entry("accepted", func(x *r) any { return &x.accepted }).of(yesNo()))
}

// What must be at final torque for a block's as-left readings to count.
const (
	clampTorque    = "clamps"
	holdDownTorque = "holddowns"
)

func pitchBlock() block {
	type p = field.Pitch
	return block{key: "pitch", shape: seriesShape,
		owner: func(c any) any { return &c.(*field.Cell).Pitch },
		slots: []slot{
			entry("position", func(x *p) any { return &x.Position }),
			entry("radius", func(x *p) any { return &x.Radius }),
			entry("surface", func(x *p) any { return &x.Surface }),
		},
		run: &series{over: blades, value: kindAngle, heads: seriesHeads(clampTorque),
			put: func(c *field.Cell, s *seriesReader) { c.Pitch.Rounds = s.angles() }}}
}

func tiltBlock() block {
	type t = field.Tilt
	return block{key: "tilt", shape: seriesShape,
		owner: func(c any) any { return &c.(*field.Cell).Tilt },
		slots: []slot{
			entry("sense", func(x *t) any { return &x.Sense }).of(sense()),
			entry("reference", func(x *t) any { return &x.Reference }).of(reference()),
			entry("blade", func(x *t) any { return &x.Blade }),
			entry("radius", func(x *t) any { return &x.Radius }),
		},
		run: &series{over: positions, value: kindLength, marks: true, spread: true, heads: seriesHeads(holdDownTorque),
			put: func(c *field.Cell, s *seriesReader) { c.Tilt.Rounds = s.lengths() }}}
}

func trackBlock() block {
	type t = field.Track
	return block{key: "track", shape: seriesShape,
		owner: func(c any) any { return &c.(*field.Cell).Track },
		slots: []slot{entry("place", func(x *t) any { return &x.Place })},
		run: &series{over: blades, value: kindLength, spread: true, heads: seriesHeads(clampTorque),
			put: func(c *field.Cell, s *seriesReader) { c.Track.Rounds = s.lengths() }}}
}

func tipRadiusBlock() block {
	type t = field.TipRadius
	return block{key: "tipradius", shape: seriesShape,
		owner: func(c any) any { return &c.(*field.Cell).TipRadius },
		slots: []slot{
			entry("position", func(x *t) any { return &x.Position }),
			entry("pulledout", func(x *t) any { return &x.PulledOut }).of(yesNo()),
		},
		run: &series{over: blades, value: kindLength, spread: true, heads: seriesHeads(clampTorque),
			put: func(c *field.Cell, s *seriesReader) { c.TipRadius.Rounds = s.lengths() }}}
}

func clearanceBlock() block {
	type t = field.Clearance
	return block{key: "clearance", shape: seriesShape,
		owner: func(c any) any { return &c.(*field.Cell).Clearance },
		slots: []slot{entry("pulledout", func(x *t) any { return &x.PulledOut }).of(yesNo())},
		run: &series{over: positions, value: kindLength,
			heads: seriesHeads(holdDownTorque, entry("blade", func(x *roundEntry) any { return &x.blade })),
			put: func(c *field.Cell, s *seriesReader) {
				for i, round := range s.lengths() {
					c.Clearance.Rounds = append(c.Clearance.Rounds,
						field.ClearanceRound{Series: round, Blade: s.rounds[i].entry.blade})
				}
			}}}
}
