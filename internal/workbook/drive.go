package workbook

import "asleft/internal/field"

// cellSheet is a sheet that a form has for each cell.
type cellSheet struct {
	sheet
	grid func(rounds int) roundGrid
}

// cellSheets are the sheets of a cell.
func cellSheets() []cellSheet {
	return []cellSheet{
		{sheet{key: "cell", wide: true, blocks: fanBlocks()}, fanGrid},
		{sheet{key: "drive", wide: true, blocks: driveBlocks()}, driveGrid},
		{sheet{key: "work", wide: true, blocks: workBlocks()}, workGrid},
	}
}

// driveBlocks are the blocks of a cell's second sheet, in the advised order of
// work: bases, drive line, start-up.
func driveBlocks() []block {
	return []block{driveHeadBlock(), stacksBlock(), motorStacksBlock(), stuckBlock(),
		levelBlock("gearlevel", func(d *field.Drive) *field.Level { return &d.GearLevel }, true),
		levelBlock("motorlevel", func(d *field.Drive) *field.Level { return &d.MotorLevel }, true),
		levelBlock("cylinderplumb", func(d *field.Drive) *field.Level { return &d.CylinderPlumb }, false),
		gapBlock("cylinderround", diameters, func(d *field.Drive) *field.Gap { return &d.CylinderRound }, false),
		gapBlock("softfootgear", footNumbers, func(d *field.Drive) *field.Gap { return &d.SoftFootGear }, false),
		gapBlock("softfootmotor", footNumbers, func(d *field.Drive) *field.Gap { return &d.SoftFootMotor }, false),
		couplingBlock("couplinggear", func(d *field.Drive) *field.Coupling { return &d.CouplingGear }),
		couplingBlock("couplingmotor", func(d *field.Drive) *field.Coupling { return &d.CouplingMotor }),
		gapBlock("shaftends", onePlace, func(d *field.Drive) *field.Gap { return &d.ShaftEnds }, true),
		gapBlock("guardend", onePlace, func(d *field.Drive) *field.Gap { return &d.GuardEnd }, false),
		gapBlock("guardaround", aroundShaft, func(d *field.Drive) *field.Gap { return &d.GuardAround }, false),
		preStartBlock(), startUpBlock(), vibrationBlock(),
	}
}

// workBlocks are the blocks of a cell's third sheet: what was moved, bolted and
// pinned.
func workBlocks() []block { return []block{movesBlock(), fastenersBlock(), pinsBlock()} }

// driveHeadBlock is the heads of the drive line's rounds: its crew is often
// another than the fan's.
func driveHeadBlock() block {
	return block{key: "drive", shape: headShape, drive: true, slots: pick(headSlots(),
		"date", "start", "finish", "sequence", "readby", "typedby", "instrument", "papersheet", "airtemperature",
		"warmth", "holddowns", "witness")}
}

// pick is the slots of these keys, in the list's order.
func pick(all []slot, keys ...string) []slot {
	var out []slot
	for _, s := range all {
		for _, key := range keys {
			if s.key == key {
				out = append(out, s)
			}
		}
	}
	return out
}

// driveSeriesHeads are the lines of a drive block's own round heads.
func driveSeriesHeads(holdDowns bool) []slot {
	keys := []string{"date", "start", "sequence", "instrument", "accepted"}
	if holdDowns {
		keys = append(keys, "holddowns")
	}
	return pick(seriesHeads(holdDownTorque), keys...)
}

func levelBlock(key string, of func(*field.Drive) *field.Level, holdDowns bool) block {
	return block{key: key, shape: seriesShape, drive: true,
		owner: func(c any) any { return of(&c.(*field.Cell).Drive) },
		run: &series{over: twoWays, value: kindSlope, heads: driveSeriesHeads(holdDowns),
			put: func(c *field.Cell, s *seriesReader) { of(&c.Drive).Rounds = s.slopes() }}}
}

func gapBlock(key string, o over, of func(*field.Drive) *field.Gap, holdDowns bool) block {
	return block{key: key, shape: seriesShape, drive: true,
		owner: func(c any) any { return of(&c.(*field.Cell).Drive) },
		run: &series{over: o, value: kindLength, spread: o == diameters, heads: driveSeriesHeads(holdDowns),
			put: func(c *field.Cell, s *seriesReader) { of(&c.Drive).Rounds = s.lengths() }}}
}

func couplingBlock(key string, of func(*field.Drive) *field.Coupling) block {
	type c = field.Coupling
	return block{key: key, shape: seriesShape, drive: true,
		owner: func(owner any) any { return of(&owner.(*field.Cell).Drive) },
		slots: []slot{
			entry("stood", func(x *c) any { return &x.Stood }).of(stood()),
			entry("together", func(x *c) any { return &x.Together }).of(yesNo()),
			entry("sweep", func(x *c) any { return &x.Sweep }).of(yesNo()),
		},
		run: &series{over: clockFaces, value: kindLength, spread: true, heads: driveSeriesHeads(true),
			put: func(owner *field.Cell, s *seriesReader) {
				coupling := of(&owner.Drive)
				coupling.Rounds = s.faces(coupling.Stood)
			}}}
}

func stacksBlock() block {
	b := table("stacks", 8, func(a *aside) *[]stackRow { return &a.stacks },
		func(x *stackRow) *field.Ref { return &x.stack.At },
		entry("foot", func(x *stackRow) any { return &x.foot }),
		entry("pieces", func(x *stackRow) any { return &x.stack.Pieces }),
		entry("now", func(x *stackRow) any { return &x.stack.Now }),
	)
	b.aside = true
	return b
}

// motorStacksBlock has a line for each foot of the motor.
func motorStacksBlock() block {
	type s = field.MotorStack
	b := table("motorstacks", 0, func(c *field.Cell) *[]s { return &c.MotorStacks },
		func(x *s) *field.Ref { return &x.At },
		entry("pieces", func(x *s) any { return &x.Pieces }),
		entry("now", func(x *s) any { return &x.Now }),
	)
	b.shape = listShape
	b.begin = func(row any, key string) { row.(*s).Place = key }
	for _, key := range []string{field.FrontNinety, field.FrontOther, field.RearNinety, field.RearOther} {
		b.keyed = append(b.keyed, keyedRow{key: key})
	}
	return b
}

// stuckBlock is what cannot be moved, and which way.
func stuckBlock() block {
	type s = field.Stuck
	return table("stuck", 5, func(c *field.Cell) *[]s { return &c.Stuck },
		func(x *s) *field.Ref { return &x.At },
		entry("what", func(x *s) any { return &x.What }).of(pinPlace()),
		entry("way", func(x *s) any { return &x.Way }).of(stuckWay()).across(2),
		entry("feet", func(x *s) any { return &x.Feet }).of(motorEnd()),
		entry("foot", func(x *s) any { return &x.Foot }),
		entry("reason", func(x *s) any { return &x.Reason }).across(2),
	)
}

func movesBlock() block {
	type m = moveRow
	b := table("moves", 18, func(a *aside) *[]m { return &a.moves },
		func(x *m) *field.Ref { return &x.move.At },
		entry("event", func(x *m) any { return &x.move.Event }).of(event()),
		entry("sequence", func(x *m) any { return &x.move.Sequence }),
		entry("date", func(x *m) any { return &x.move.Date }),
		entry("time", func(x *m) any { return &x.move.Time }),
		entry("detail", func(x *m) any { return &x.move.Detail }).across(3),
		entry("by", func(x *m) any { return &x.move.By }).from(pickPeople),
		entry("numbers", func(x *m) any { return &x.numbers }),
		entry("was", func(x *m) any { return &x.was }),
		entry("now", func(x *m) any { return &x.now }),
		entry("along", func(x *m) any { return &x.move.Along }),
		entry("front", func(x *m) any { return &x.move.Front }),
		entry("rear", func(x *m) any { return &x.move.Rear }),
	)
	b.aside = true
	return b
}
