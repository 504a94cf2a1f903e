package workbook

import "asleft/internal/field"

// geometryBlock is what drawings and a tape say of the drive, once for all
// cells.
func geometryBlock() block {
	type g = field.Geometry
	b := form("geometry", func(r *field.Record) *g { return &r.Tower.Geometry },
		entry("shimmed", func(x *g) any { return &x.Shimmed }).of(shimmed()),
		entry("hubheight", func(x *g) any { return &x.HubHeight }),
		entry("shimstep", func(x *g) any { return &x.ShimStep }),
		entry("maxpieces", func(x *g) any { return &x.MaxPieces }),
		entry("slotalong", func(x *g) any { return &x.SlotAlong }),
		entry("slotacross", func(x *g) any { return &x.SlotAcross }),
		entry("slidefront", func(x *g) any { return &x.SlideFront }),
		entry("sliderear", func(x *g) any { return &x.SlideRear }),
		entry("bladesslide", func(x *g) any { return &x.BladesSlide }).of(yesNo()),
		entry("flexspan", func(x *g) any { return &x.FlexSpan }),
		entry("flexgear", func(x *g) any { return &x.FlexGear }),
		entry("flexheight", func(x *g) any { return &x.FlexHeight }),
		entry("facegear", func(x *g) any { return &x.FaceGear }),
		entry("facemotor", func(x *g) any { return &x.FaceMotor }),
		entry("motorfront", func(x *g) any { return &x.MotorFront }),
		entry("motorrear", func(x *g) any { return &x.MotorRear }),
		entry("motorstep", func(x *g) any { return &x.MotorStep }),
		entry("growthfront", func(x *g) any { return &x.GrowthFront }),
		entry("growthrear", func(x *g) any { return &x.GrowthRear }),
		entry("ratio", func(x *g) any { return &x.Ratio }),
		entry("backstop", func(x *g) any { return &x.Backstop }).of(yesNo()),
		entry("reversing", func(x *g) any { return &x.Reversing }).of(yesNo()),
		entry("motorspeed", func(x *g) any { return &x.MotorSpeed }).in(turning),
		entry("motorcurrent", func(x *g) any { return &x.MotorCurrent }).in(current),
		entry("motorvolts", func(x *g) any { return &x.MotorVolts }).in(voltage),
	)
	b.optional = true
	return b
}

// feetBlock is where shims go: the feet of what is shimmed.
func feetBlock() block {
	b := table("feet", 6, func(a *aside) *[]footRow { return &a.feet },
		func(x *footRow) *field.Ref { return &x.foot.At },
		entry("number", func(x *footRow) any { return &x.number }),
		entry("along", func(x *footRow) any { return &x.foot.Along }),
		entry("across", func(x *footRow) any { return &x.foot.Across }),
	)
	b.optional, b.aside = true, true
	return b
}

// stockBlock is the thicknesses of the shims at hand.
func stockBlock() block {
	type x = field.StockShim
	b := table("stock", 10, func(r *field.Record) *[]x { return &r.Tower.Geometry.Stock },
		func(s *x) *field.Ref { return &s.At },
		entry("thickness", func(s *x) any { return &s.Thickness }).across(2),
	)
	b.optional = true
	return b
}

// scheduleBlock is what is asked of each set of fasteners, the same in every
// cell.
func scheduleBlock() block {
	type f = field.Fasteners
	b := table("schedule", 12, func(a *aside) *[]f { return &a.schedule },
		func(x *f) *field.Ref { return &x.At },
		entry("set", func(x *f) any { return &x.Set }).of(fastenerSet()).wide(24),
		entry("name", func(x *f) any { return &x.Name }).wide(14),
		entry("count", func(x *f) any { return &x.Count }).wide(8),
		entry("size", func(x *f) any { return &x.Size }).wide(11),
		entry("class", func(x *f) any { return &x.Class }).wide(10),
		entry("material", func(x *f) any { return &x.Material }).of(material()).wide(12),
		entry("lubricant", func(x *f) any { return &x.Lubricant }).of(lubricant()).wide(15),
		entry("coefficient", func(x *f) any { return &x.Coefficient }).wide(8),
		entry("required", func(x *f) any { return &x.Required }).in(torque).wide(11),
		entry("firstunder", func(x *f) any { return &x.FirstUnder }).in(torqueOrPart).wide(11),
		entry("scheduled", func(x *f) any { return &x.Scheduled }).of(locking()).wide(18),
		entry("authority", func(x *f) any { return &x.Authority }).of(authority()).wide(16),
	)
	b.optional, b.aside = true, true
	return b
}

// instrumentsOutBlock is instruments that were found out: whatever they read in
// any cell since they were last known to be good needs a re-check.
func instrumentsOutBlock() block {
	type m = field.Move
	b := table("instrumentsout", 3, func(a *aside) *[]m { return &a.out },
		func(x *m) *field.Ref { return &x.At },
		entry("instrument", func(x *m) any { return &x.Instrument }).from(pickInstruments),
		entry("by", func(x *m) any { return &x.By }).from(pickPeople),
		entry("date", func(x *m) any { return &x.Date }),
		entry("lastgood", func(x *m) any { return &x.LastGood }),
		entry("detail", func(x *m) any { return &x.Detail }).across(4),
	)
	b.optional, b.aside = true, true
	return b
}

// driveLimitRows says which columns the criteria beyond the fan use. Checks
// that ask for something done, and have nothing to compare, have no row.
func driveLimitRows() []keyedRow {
	type l = field.Limit
	least := func(u unitSet) slot {
		return entry("min", func(x *l) any { return &x.Quantities.Min }).in(u)
	}
	most := func(u unitSet) slot {
		return entry("max", func(x *l) any { return &x.Quantities.Max }).in(u)
	}
	within := func(u unitSet) slot {
		return entry("tolerance", func(x *l) any { return &x.Quantities.Tolerance }).in(u)
	}
	slope := entry("max", func(x *l) any { return &x.Slope })
	by := entry("judged", func(x *l) any { return &x.Criterion }).of(criterion())
	either := entry("max", func(x *l) any { return rise{&x.Max, &x.Slope} })
	gap := []slot{limitMin(), limitNominal(), limitMax(), limitTolerance()}
	around := append(append([]slot{}, gap...), limitCount())
	return []keyedRow{
		{"couplinggear", []slot{by, either}},
		{"couplingmotor", []slot{by, either}},
		{"shaftends", gap},
		{"gearlevel", []slot{slope}},
		{"motorlevel", []slot{slope}},
		{"cylinderplumb", []slot{slope}},
		{"cylinderround", []slot{limitMax(), limitCount()}},
		{"softfootgear", []slot{limitMax()}},
		{"softfootmotor", []slot{limitMax()}},
		{"guardend", gap},
		{"guardaround", around},
		{"fasteners", []slot{least(torqueOrPart), most(torqueOrPart)}},
		{"pins", []slot{limitTolerance()}},
		{"voltunbalance", []slot{most(percentage)}},
		{"ampunbalance", []slot{most(percentage)}},
		{"ampload", []slot{most(currentOrPart)}},
		{"insulation", []slot{least(resistance)}},
		{"oiltemp", []slot{least(temperature), most(temperature)}},
		{"bearingtemp", []slot{most(temperature)}},
		{"vibration", []slot{most(vibration)}},
		{"vibrationswitch", []slot{least(vibration), most(vibration)}},
		{"speedratio", []slot{within(percentage)}},
		{"tipspeed", []slot{most(tipSpeed)}},
		{"runtime", []slot{least(duration)}},
	}
}

// markable tells whether numbers typed for the row's check can be marked while
// they are typed: slopes and quantities are texts to a spreadsheet.
func (r keyedRow) markable() bool {
	plain := false
	for _, q := range r.quantities {
		switch q.kind {
		case kindLength, kindAngle:
			plain = true
		case kindRise, kindSlope, kindQuantity:
			return false
		}
	}
	return plain
}
