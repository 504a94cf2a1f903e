package main

import (
	"math"
	"strconv"
)

// trade is what a plant's crew reads the drive line with, and what is asked of
// it.
type trade struct {
	machine
	gauge, level, tape string     // instruments: for gaps, for slopes, for distances
	gaugeStep          float64    // of the gauge
	gaugeNoise         float64    // of a person with it
	levelScale         float64    // of a slope as it is typed: 12 for in/ft, 1000 for mm/m
	levelStep          float64    // of what is typed
	levelDigits        int        // after the point
	indicator          string     // for soft feet
	rise               float64    // its step
	gapDigits          int        // after the point
	cylinder           float64    // inside diameter
	guard              [2]float64 // gap at the end, and around the shaft
	sets               []set      // of the schedule
	firstUnder         float64    // first pass under the final torque
	tools              []tool     // smallest first
	run                goodRun    // a start-up with water on
	points             []point    // of vibration
	detector           string     // of them
	pins               [2]string  // hole, projection
	softFoot           [4]float64 // usual rises
	stacks             [4]float64 // usual shims
	people             [3]string  // lead, second, witness
	hot                string     // air temperature of the drive readings
}

// set is a line of the fastener schedule.
type set struct {
	name                               string // in words
	count                              int
	size, class, material, lubricant   string
	torque, running                    float64
	locking, when, coefficient, source string
}

// tool is a torque wrench and the greatest torque it sets.
type tool struct {
	id       string
	capacity float64
}

// goodRun is a start-up as a machine in good order gives it.
type goodRun struct {
	air, hertz                        string
	volts, amps                       [3]float64
	motor, ratio                      float64
	insulation, winding, test, kind   string
	oil, bearing, other, setPoint, on string
}

// point is a place where vibration is read.
type point struct {
	name, axis string
	value      float64
	digits     int
}

// works is what was done in a cell beside moving and reading.
type works struct {
	bolted, pinned day               // blank: not yet
	early          map[string][2]any // sets done before the others: date, time
	wrong          map[string]func(*done)
	ready          day // pre-start list
	runs           []day
}

// done is what was done to a set.
type done struct{ first, final, clicks any }

// driveBlocks are those read in rounds, in the order in which a crew gets to
// them.
var driveBlocks = []string{"gearlevel", "motorlevel", "cylinderplumb", "cylinderround", "softfootgear", "softfootmotor",
	"couplinggear", "couplingmotor", "shaftends", "guardend", "guardaround"}

// driveAgain are those read again after a move.
var driveAgain = []string{"gearlevel", "motorlevel", "softfootgear", "softfootmotor", "couplinggear", "couplingmotor",
	"shaftends", "guardend", "guardaround"}

// driveRound fills one round of the drive line.
func (p plant) driveRound(f *filler, prefix string, seed uint64, c cell, r round) {
	if len(r.drive) == 0 {
		return
	}
	t := p.trade
	f.set(prefix+"drive_"+r.key+"_head", r.date, nil, nil, nil, t.people[1], t.people[1], nil, r.sheet, t.hot, "cold", "yes", t.people[2])
	for i, block := range r.drive {
		head := []any{nil, minutes(r.driveHour(), i*7), nil, t.instrument(block)}
		if holdDowns(block) {
			head = append(head, nil)
		}
		if r.accepted || contains(r.stands, block) {
			head = append(head, "yes")
		}
		name := prefix + block + "_" + r.key
		f.set(name+"_head", head...)
		values := p.driveValues(newReader(seed+uint64(i), t.gaugeNoise, t.gaugeStep), block, c, r.line)
		f.set(name, values[:len(values)-1]...)
		f.set(name+"_return", values[len(values)-1])
	}
}

// driveHour is when the drive line is begun: after the fan where both are read.
func (r round) driveHour() int {
	if r.drivesAt > 0 {
		return r.drivesAt
	}
	return r.hour + 2
}

func holdDowns(block string) bool {
	return contains([]string{"gearlevel", "motorlevel", "couplinggear", "couplingmotor", "shaftends"}, block)
}

// instrument of a block.
func (t trade) instrument(block string) any {
	switch block {
	case "gearlevel", "motorlevel", "cylinderplumb":
		return t.level
	case "softfootgear", "softfootmotor":
		return t.indicator
	case "cylinderround", "shaftends", "guardend", "guardaround":
		return t.tape
	}
	return t.gauge
}

// driveValues are the readings of a block as they are typed, and the first one
// read again.
func (p plant) driveValues(gauge *reader, block string, c cell, s state) []any {
	t := p.trade
	slope := func(x float64) any {
		return t.decimal(math.Round((x*t.levelScale+gauge.rand.NormFloat64()*t.levelStep/4)/t.levelStep)*t.levelStep, t.levelDigits)
	}
	gap := func(x float64) any { return t.decimal(gauge.read(x), t.gapDigits) }
	tape := func(x float64) any { return p.texts([]float64{math.Round(x/p.rough) * p.rough}, p.rough)[0] }
	upGear, upMotor := s.up.bends(t.span)
	acrossGear, acrossMotor := s.across.bends(t.span)
	switch block {
	case "gearlevel":
		return []any{slope(-s.gx), slope(-s.gy), slope(-s.gx)}
	case "motorlevel":
		return []any{slope(0.0002), slope(-0.0004), slope(0.0002)}
	case "cylinderplumb":
		return []any{slope(0.0011), slope(-0.0008), slope(0.0011)}
	case "cylinderround":
		across := func(deg float64) any { return tape(t.cylinder + 2*c.fan.oval*math.Cos(2*rad(deg-c.fan.ovalAt))) }
		return []any{across(0), across(90), across(45), across(135), across(0)}
	case "softfootgear", "softfootmotor":
		rise := func(i int) any { return t.decimal(math.Round(t.softFoot[i]/t.rise)*t.rise, t.levelDigits) }
		return []any{rise(0), rise(1), rise(2), rise(3), rise(0)}
	case "couplinggear": // read from the gear reducer: the right hand is on the 90° side
		g := t.faces(upGear, acrossGear)
		return []any{gap(g[0]), gap(g[1]), gap(g[2]), gap(g[3]), gap(g[0])}
	case "couplingmotor": // read from behind the motor: the left hand is
		g := t.faces(upMotor, acrossMotor)
		return []any{gap(g[0]), gap(g[3]), gap(g[2]), gap(g[1]), gap(g[0])}
	case "shaftends":
		return []any{tape(t.ends + s.ends), tape(t.ends + s.ends)}
	case "guardend":
		return []any{tape(t.guard[0]), tape(t.guard[0])}
	}
	g := t.guard[1]
	return []any{tape(g), tape(g + p.rough), tape(g), tape(g - p.rough), tape(g)}
}

// decimal writes a number with its digits, and no minus before a zero.
func (t trade) decimal(x float64, digits int) string {
	text := strconv.FormatFloat(x, 'f', digits, 64)
	if v, _ := strconv.ParseFloat(text, 64); v == 0 {
		return strconv.FormatFloat(0, 'f', digits, 64)
	}
	return text
}

// works fills what stands below the readings on the drive sheet.
func (p plant) works(f *filler, prefix string, c cell) {
	t := p.trade
	f.set(prefix+"couplinggear_stood", "at the gear reducer, looking to the motor")
	f.set(prefix+"couplingmotor_stood", "behind the motor, looking to the gear reducer")
	for _, k := range []string{"couplinggear_", "couplingmotor_"} {
		f.set(prefix+k+"together", "yes")
		f.set(prefix+k+"sweep", "no")
	}
	for i, now := range c.stacks {
		f.row(prefix+"stacks", i+1, i+1, pieces(now, t.stacks[i]), t.decimal(now, t.gapDigits))
	}
	p.log(f, prefix, c.moves)
	if c.works.bolted != "" {
		p.bolts(f, prefix, c.works)
	}
	if c.works.pinned != "" {
		f.row(prefix+"pins", 1, "gear reducer", "yes", 2, 2, t.pins[0], t.pins[1], t.pins[1], c.works.pinned, clock("16:00"), nil, t.people[1])
		f.row(prefix+"pins", 2, "motor", "yes", 2, 2, t.pins[0], t.pins[1], t.pins[1], c.works.pinned, clock("16:20"), nil, t.people[1])
	}
	if c.works.ready != "" {
		for i := range 7 {
			f.row(prefix+"prestart", i+1, "yes", t.people[0], nil, nil, c.works.ready)
		}
	}
	for i, d := range c.works.runs {
		p.startUp(f, prefix, i, d)
	}
	if len(c.works.runs) > 0 {
		p.vibrations(f, prefix, len(c.works.runs))
	}
}

// pieces counts those of a stack: the one it began with, and what was added.
func pieces(now, was float64) int {
	if math.Abs(now-was) < 1e-9 {
		return 2
	}
	return 4
}

// log fills the move log; the first foot stands on the move's own line.
func (p plant) log(f *filler, prefix string, moves []move) {
	row := 0
	length := func(x float64) any {
		if x == 0 {
			return nil
		}
		return p.trade.decimal(x, p.trade.gapDigits)
	}
	for _, m := range moves {
		line := []any{m.event, m.sequence, m.date, m.at, m.detail, nil, nil, m.by, nil, nil, nil, length(m.along), length(m.front), length(m.rear)}
		if m.blades != "" {
			line[8] = m.blades
		}
		for i, s := range m.shims {
			if i > 0 {
				line = make([]any, 8, 11)
				line = append(line, nil, nil, nil)
			}
			line[8], line[9], line[10] = s.foot, p.trade.decimal(s.was, p.trade.gapDigits), p.trade.decimal(s.now, p.trade.gapDigits)
			row++
			f.row(prefix+"moves", row, line...)
		}
		if len(m.shims) == 0 {
			row++
			f.row(prefix+"moves", row, line...)
		}
	}
}

// bolts fills a column for each set.
func (p plant) bolts(f *filler, prefix string, w works) {
	t := p.trade
	for i, s := range t.sets {
		d := done{t.torqueText(s.torque - t.firstUnder), t.torqueText(s.torque), s.count}
		if wrong := w.wrong[s.name]; wrong != nil {
			wrong(&d)
		}
		var running any
		if s.running > 0 {
			running = t.torqueText(s.running)
		}
		date, at := any(w.bolted), any(minutes(15, i*8))
		if early, ok := w.early[s.name]; ok {
			date, at = early[0], early[1]
		}
		for _, v := range []struct {
			line  string
			value any
		}{{"set", s.name}, {"firstpass", d.first}, {"final", d.final}, {"clicks", d.clicks}, {"running", running},
			{"pattern", "yes"}, {"stripe", "yes"}, {"tool", t.tool(s.torque)}, {"locking", s.locking}, {"lockingtime", s.when},
			{"date", date}, {"time", at}, {"by", t.people[1]}} {
			f.across(prefix+"fasteners_"+v.line, i, 1, v.value)
		}
	}
}

func (t trade) torqueText(x float64) string { return t.decimal(x, 0) }

// tool is the smallest wrench that takes the torque.
func (t trade) tool(torque float64) string {
	for _, w := range t.tools {
		if torque <= w.capacity {
			return w.id
		}
	}
	return ""
}

// startUp fills a run: the first one dry, later ones with water on.
func (p plant) startUp(f *filler, prefix string, n int, d day) {
	t, r := p.trade, p.trade.run
	water, hours, load := "on", "6 h", 1.0
	if n == 0 {
		water, hours, load = "off", "4 h 30 min", 1.02 // cold dry air is denser
	}
	put := func(line string, v any) { f.across(prefix+"startup_"+line, n, 3, v) }
	for _, x := range []struct {
		line  string
		value any
	}{{"date", d}, {"time", clock("9:15")}, {"by", t.people[0]}, {"air", r.air}, {"water", water}, {"hertz", r.hertz},
		{"rotation", "yes"}, {"uncoupled", "yes"}, {"motorspeed", t.decimal(r.motor, 0)},
		{"fanspeed", t.decimal(r.motor/r.ratio, 1)}, {"oillevel", "yes"}, {"oiltemp", r.oil}, {"bearingdrive", r.bearing},
		{"bearingother", r.other}, {"runtime", hours}, {"setpoint", r.setPoint}, {"trip", "yes"}} {
		put(x.line, x.value)
	}
	if n == 0 { // tested once, before the first run
		put("insulation", r.insulation)
		put("insulationtemp", r.winding)
		put("insulationtest", r.test)
		put("winding", r.kind)
	}
	for i, phase := range []string{"12", "23", "31"} {
		put("volts"+phase, t.decimal(r.volts[i]+float64(n), 0))
		put("amps"+strconv.Itoa(i+1), t.decimal(r.amps[i]*load, 0))
	}
}

func (p plant) vibrations(f *filler, prefix string, runs int) {
	for i, x := range p.trade.points {
		row := []any{x.name, x.axis, p.trade.detector, nil, nil, nil}
		for n := range runs {
			row = append(row, strconv.FormatFloat(x.value*(1+0.05*float64(n)), 'f', x.digits, 64)+p.trade.run.on, nil)
		}
		f.row(prefix+"vibration", i+1, row...)
	}
}

// geometry fills the tower's sheets of the drive.
func (p plant) geometry(f *filler, values [][2]string) {
	t := p.trade
	for _, v := range values {
		f.set("geometry_"+v[0], v[1])
	}
	for i, foot := range t.feet() {
		f.row("feet", i+1, i+1, t.decimal(foot[0], 0), t.decimal(foot[1], 0))
	}
	for i, s := range t.sets {
		f.row("schedule", i+1, s.name, nil, s.count, s.size, s.class, s.material, s.lubricant, s.coefficient,
			t.torqueText(s.torque), nil, s.locking, s.source)
	}
}
