package main

import (
	"math"
	"math/rand/v2"
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
	rough              float64    // step of a long distance
	guard              [2]float64 // gap at the end, and around the shaft
	guardSpread        float64    // from cell to cell
	rule               string     // instrument for the guard's gaps
	sets               []set      // of the schedule
	firstUnder         float64    // first pass under the final torque
	tools              []tool     // smallest first
	run                goodRun    // a start-up with water on
	points             []point    // of vibration
	detector           string     // of them
	meters             [5]string  // of volts and amps, insulation, speeds, temperatures, vibration
	hole               string     // of the dowel pins
	pin, pinStep       float64    // how far they stand out, and to what it is read
	stack, stackStep   float64    // usual shims
	motorStack         float64    // those under the motor
	people             [3]string  // lead, second, witness
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

// goodRun is a start-up as a machine in good order gives it: middle values,
// from which each cell's own are a little off.
type goodRun struct {
	hertz               string
	air, winding        float64 // temperatures
	volts, amps         float64
	motor, ratio        float64
	megohms             float64
	oil, bearing, other float64
	degree, test, kind  string // unit of temperatures, test voltage, winding
	setPoint, on        string
}

// point is a place where vibration is read.
type point struct {
	name, axis string
	value      float64
	digits     int
}

// works is what was done in a cell beside moving and reading.
type works struct {
	built   day      // the day on which what no move loosens was bolted; blank: not yet
	held    [2]when  // hold-downs of gear reducer and motor torqued
	guarded when     // guard bolts torqued
	pinned  when     // dowel pins set
	left    []string // sets that nobody got to
	wrong   map[string]func(*done)
	ready   when // pre-start list
	runs    []when
}

// torqued is when a set was, from its place in the schedule.
func (w works) torqued(name string, n int) when {
	switch name {
	case gearHeld:
		return w.held[0]
	case motorHeld:
		return w.held[1]
	case guardBolts:
		return w.guarded
	}
	return when{w.built, "9:10"}.after(n * 23)
}

// Sets that are torqued as the work goes on.
const (
	gearHeld   = "gear reducer hold-downs"
	motorHeld  = "motor hold-downs"
	guardBolts = "guard bolts"
)

// done is what was done to a set.
type done struct{ first, final, clicks any }

// driveBlocks are those read in rounds, in the order in which a crew gets to
// them.
var driveBlocks = []string{"gearlevel", "motorlevel", "cylinderplumb", "cylinderround", "softfootgear", "softfootmotor",
	"couplinggear", "couplingmotor", "shaftends", "guardend", "guardaround"}

// driveAgain are those read again after a move.
var driveAgain = []string{"gearlevel", "motorlevel", "softfootgear", "softfootmotor", "couplinggear", "couplingmotor",
	"shaftends", "guardend", "guardaround"}

// driveRound fills one round of the drive line, begun after the fan.
func (p plant) driveRound(f *filler, prefix string, seed uint64, c cell, r round) {
	if len(r.drive) == 0 {
		return
	}
	t := p.trade
	air := r.head[4]
	f.set(prefix+"drive_"+r.key+"_head", r.date, nil, nil, nil, t.people[1], t.people[1], nil, r.sheet, air, "cold", "yes", t.people[2])
	next := when{r.date, minutes(r.hour+2, 5)}
	for i, block := range r.drive {
		at := next
		switch block {
		case "softfootgear":
			at = r.soft[0]
		case "softfootmotor":
			at = r.soft[1]
		default:
			next = next.after(6 + int(seed+uint64(i))%4)
		}
		p.driveBlock(f, prefix+block+"_"+r.key, seed+uint64(i), block, at, c, r)
	}
}

func (p plant) driveBlock(f *filler, name string, seed uint64, block string, at when, c cell, r round) {
	t := p.trade
	head := []any{nil, at.at, nil, t.instrument(block)}
	if at.day != r.date {
		head[0] = at.day
	}
	if holdDowns(block) {
		head = append(head, nil)
	}
	if r.accepted || contains(r.stands, block) {
		head = append(head, "yes")
	}
	f.set(name+"_head", head...)
	values := p.driveValues(newReader(seed, t.gaugeNoise, t.gaugeStep), block, c, r.line)
	f.set(name, values[:len(values)-1]...)
	f.set(name+"_return", values[len(values)-1])
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
	case "cylinderround", "shaftends":
		return t.tape
	case "guardend", "guardaround":
		return t.rule
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
	rule := func(x float64) any { return p.texts([]float64{math.Round(x/p.step) * p.step}, p.step)[0] }
	b := t.basesOf(uint64(c.number))
	upGear, upMotor := s.up.bends(t.span)
	acrossGear, acrossMotor := s.across.bends(t.span)
	switch block {
	case "gearlevel":
		return []any{slope(-s.gx), slope(-s.gy), slope(-s.gx)}
	case "motorlevel":
		return []any{slope(b.motor[0]), slope(b.motor[1]), slope(b.motor[0])}
	case "cylinderplumb":
		return []any{slope(b.wall[0]), slope(b.wall[1]), slope(b.wall[0])}
	case "cylinderround":
		across := func(deg float64) any {
			return tape(t.cylinder + b.cylinder + 2*c.fan.oval*math.Cos(2*rad(deg-c.fan.ovalAt)))
		}
		return []any{across(0), across(90), across(45), across(135), across(0)}
	case "softfootgear", "softfootmotor":
		var rises []any
		for range 4 {
			rises = append(rises, t.decimal(float64(gauge.rand.IntN(2))*t.rise, t.gapDigits))
		}
		return append(rises, rises[0])
	case "couplinggear": // read from the gear reducer: the right hand is on the 90° side
		g := t.faces(upGear, acrossGear)
		return []any{gap(g[0]), gap(g[1]), gap(g[2]), gap(g[3]), gap(g[0])}
	case "couplingmotor": // read from behind the motor: the left hand is
		g := t.faces(upMotor, acrossMotor)
		return []any{gap(g[0]), gap(g[3]), gap(g[2]), gap(g[1]), gap(g[0])}
	case "shaftends":
		return []any{tape(t.ends + s.ends), tape(t.ends + s.ends)}
	case "guardend":
		g := rule(t.guard[0] + b.guardEnd)
		return []any{g, g}
	}
	var gaps []any
	for _, x := range b.guardAround {
		gaps = append(gaps, rule(t.guard[1]+2*x))
	}
	return append(gaps, gaps[0])
}

// decimal writes a number with its digits, and no minus before a zero.
func (t trade) decimal(x float64, digits int) string {
	text := strconv.FormatFloat(x, 'f', digits, 64)
	if v, _ := strconv.ParseFloat(text, 64); v == 0 {
		return strconv.FormatFloat(0, 'f', digits, 64)
	}
	return text
}

// works fills what is no reading of the drive line: stacks, the log, fasteners,
// pins and runs.
func (p plant) works(f *filler, prefix string, c cell) {
	t := p.trade
	f.set(prefix+"couplinggear_stood", "at the gear reducer, looking to the motor")
	f.set(prefix+"couplingmotor_stood", "behind the motor, looking to the gear reducer")
	for _, k := range []string{"couplinggear_", "couplingmotor_"} {
		f.set(prefix+k+"together", "yes")
		f.set(prefix+k+"sweep", "no")
	}
	for i, now := range c.stacks {
		f.row(prefix+"stacks", i+1, i+1, pieces(now, t.stacksOf(c.number)[i]), t.decimal(now, t.gapDigits))
	}
	p.log(f, prefix, c.moves)
	if c.works.built != "" {
		p.bolts(f, prefix, c.works)
	}
	p.pinRows(f, prefix, c)
	if c.works.ready.day != "" {
		for i := range 7 {
			f.row(prefix+"prestart", i+1, "yes", t.people[0], c.works.ready.day)
		}
	}
	own := chance(uint64(c.number), forRuns)
	for i, run := range c.works.runs {
		p.startUp(f, prefix, i, run, own)
	}
	if len(c.works.runs) > 0 {
		p.vibrations(f, prefix, len(c.works.runs), own)
	}
}

// pinRows are the dowel pins of gear reducer and motor.
func (p plant) pinRows(f *filler, prefix string, c cell) {
	t, w := p.trade, c.works.pinned
	if w.day == "" {
		return
	}
	own := chance(uint64(c.number), forPins)
	out := func() any {
		return p.texts([]float64{t.pin + float64(own.IntN(3)-1)*t.pinStep}, t.pinStep)[0]
	}
	for i, place := range []string{"gear reducer", "motor"} {
		at := w.after(i * (17 + own.IntN(9)))
		f.row(prefix+"pins", i+1, place, "yes", 2, 2, t.hole, out(), out(), at.day, at.at, nil, t.people[1])
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
	n := 0
	for i, s := range t.sets {
		if contains(w.left, s.name) {
			continue
		}
		d := done{t.torqueText(s.torque - t.firstUnder), t.torqueText(s.torque), s.count}
		if wrong := w.wrong[s.name]; wrong != nil {
			wrong(&d)
		}
		var running any
		if s.running > 0 {
			running = t.torqueText(s.running)
		}
		at := w.torqued(s.name, i)
		for _, v := range []struct {
			line  string
			value any
		}{{"set", s.name}, {"firstpass", d.first}, {"final", d.final}, {"clicks", d.clicks}, {"running", running},
			{"pattern", "yes"}, {"stripe", "yes"}, {"tool", t.tool(s.torque)}, {"locking", s.locking}, {"lockingtime", s.when},
			{"date", at.day}, {"time", at.at}, {"by", t.people[1]}} {
			f.across(prefix+"fasteners_"+v.line, n, v.value)
		}
		n++
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
func (p plant) startUp(f *filler, prefix string, n int, at when, own *rand.Rand) {
	t, r := p.trade, p.trade.run
	water, hours, load := "on", 5.5, 1.0
	if n == 0 {
		water, hours, load = "off", 4.5, 1.02 // cold dry air is denser
	}
	off := func(x, spread float64) float64 { return around(own, 1, x, spread, 2*spread)[0] }
	warm := func(x, spread float64) string { return digits(off(x, spread), 0) + " " + r.degree }
	motor := math.Round(off(r.motor, r.motor*0.0005))
	put := func(line string, v any) { f.across(prefix+"startup_"+line, n, v) }
	for _, x := range []struct {
		line  string
		value any
	}{{"date", at.day}, {"time", at.at}, {"by", t.people[0]}, {"air", warm(r.air, 3)}, {"water", water}, {"hertz", r.hertz},
		{"rotation", "yes"}, {"uncoupled", "yes"}, {"motorspeed", digits(motor, 0)},
		{"fanspeed", digits(off(motor/r.ratio, motor/r.ratio*0.001), 1)}, {"oillevel", "yes"}, {"oiltemp", warm(r.oil, 3)},
		{"bearingdrive", warm(r.bearing, 3)}, {"bearingother", warm(r.other, 3)}, {"runtime", digits(math.Round(4*off(hours, 0.2))/4, 2) + " h"},
		{"setpoint", r.setPoint}, {"trip", "yes"}} {
		put(x.line, x.value)
	}
	for j, line := range []string{"meter", "insulationtester", "tachometer", "thermometer", "vibrationmeter"} {
		if n == 0 || line != "insulationtester" {
			put(line, t.meters[j])
		}
	}
	if n == 0 { // tested once, before the first run
		put("insulation", digits(10*math.Round(off(r.megohms, r.megohms*0.12)/10), 0)+" MΩ")
		put("insulationtemp", warm(r.winding, 2))
		put("insulationtest", r.test)
		put("winding", r.kind)
	}
	for i, phase := range []string{"12", "23", "31"} {
		put("volts"+phase, digits(off(r.volts*(1+0.003*float64(i-1)), r.volts*0.001), 0))
		put("amps"+strconv.Itoa(i+1), digits(off(r.amps*load, r.amps*0.008), 0))
	}
}

func (p plant) vibrations(f *filler, prefix string, runs int, own *rand.Rand) {
	for i, x := range p.trade.points {
		row := []any{x.name, x.axis, p.trade.detector, nil}
		at := x.value * (0.8 + 0.4*own.Float64())
		for range runs {
			row = append(row, digits(at*(1+0.08*own.NormFloat64()), x.digits)+p.trade.run.on)
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
