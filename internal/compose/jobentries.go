package compose

import (
	"maps"
	"slices"
	"strconv"

	"asleft/internal/field"
	"asleft/internal/page"
)

// entry is one cell of the workbook with its name.
type entry struct {
	label, text string
	at          field.Ref
}

// entrySet gathers what was typed of one thing; blank cells add nothing.
type entrySet struct {
	b    *book
	what string
	list []entry
}

func put[T any](s *entrySet, label string, e field.Entry[T]) {
	if e.Set {
		s.list = append(s.list, entry{label, typedText(s.b, e), e.At})
	}
}

// jobSets are what was typed of fasteners, dowel pins, the list before the start
// and the start-up of a cell.
func (b *book) jobSets(c towerCell) []entrySet {
	var sets []entrySet
	for i := range c.read.Fasteners {
		sets = append(sets, b.fastenerEntries(&c.read.Fasteners[i]))
	}
	for i := range c.read.Pins {
		sets = append(sets, b.pinEntries(&c.read.Pins[i]))
	}
	for i := range c.read.PreStart {
		sets = append(sets, b.lineEntries(&c.read.PreStart[i]))
	}
	for i := range c.read.StartUps {
		sets = append(sets, b.runEntries(i, &c.read.StartUps[i])...)
	}
	return sets
}

// sharedEntries are the cells of the workbook that hold for several cells of the
// tower, as a schedule of fasteners does.
func (b *book) sharedEntries() map[field.Ref]bool {
	seen, shared := map[field.Ref]bool{}, map[field.Ref]bool{}
	for _, c := range b.cells() {
		own := map[field.Ref]bool{}
		for _, s := range b.jobSets(c) {
			for _, e := range s.list {
				shared[e.at] = shared[e.at] || seen[e.at]
				own[e.at] = true
			}
		}
		maps.Copy(seen, own)
	}
	return shared
}

// scheduleEntries are the shared entries, once.
func (b *book) scheduleEntries() []page.Block {
	cells, shared := b.cells(), b.sharedEntries()
	if len(cells) == 0 {
		return nil
	}
	tables := b.setTables(b.jobSets(cells[0]), func(e entry) bool { return shared[e.at] })
	if len(tables) == 0 {
		return nil
	}
	return append([]page.Block{b.h3("appendix.shared")}, tables...)
}

// jobEntries are the entries of a cell of its own: a row for each thing, in which
// every entry stands with its cell.
func (b *book) jobEntries(c towerCell, shared map[field.Ref]bool) []page.Block {
	return b.setTables(b.jobSets(c), func(e entry) bool { return !shared[e.at] })
}

// setTables is a table per sheet of the entries that are asked for.
func (b *book) setTables(sets []entrySet, want func(entry) bool) []page.Block {
	var sheets []string
	for _, s := range sets {
		for _, e := range s.list {
			if want(e) && !slices.Contains(sheets, e.at.Sheet) {
				sheets = append(sheets, e.at.Sheet)
			}
		}
	}
	var out []page.Block
	for _, sheet := range sheets {
		t := page.Table{
			Columns: []page.Column{{Width: 1.5}, {Width: 6}},
			Head:    [][]page.TableCell{b.headRow("appendix.what", "appendix.each")},
			Summary: b.say("appendix.table"),
			Caption: muted(b.say("appendix.sheet", "sheet", b.clean(sheet, field.Ref{}))),
		}
		for i := range sets {
			some := sets[i]
			some.list = slices.DeleteFunc(slices.Clone(some.list), func(e entry) bool { return !want(e) || e.at.Sheet != sheet })
			if len(some.list) > 0 {
				t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(some.what), {Runs: b.entryRuns(&some, sheet)}}})
			}
		}
		out = append(out, t)
	}
	return out
}

// entryRuns are the entries of one thing in a line.
func (b *book) entryRuns(s *entrySet, sheet string) []page.Run {
	var runs []page.Run
	for i, e := range s.list {
		if i > 0 {
			runs = append(runs, page.Run{Text: "; ", Face: page.Muted})
		}
		runs = append(runs, page.Run{Text: b.say(e.label) + " ", Face: page.Muted}, page.Run{Text: e.text},
			page.Run{Text: "\u00a0" + b.address(e.at, sheet), Face: page.Muted})
	}
	return runs
}

func (b *book) fastenerEntries(f *field.Fasteners) entrySet {
	s := entrySet{b: b, what: b.or(join(", ", b.code("check", f.Set), b.text(f.Name)), "items.unnamed")}
	put(&s, "entry.set", f.Set)
	put(&s, "entry.set", f.Name)
	put(&s, "entry.count", f.Count)
	put(&s, "entry.size", f.Size)
	put(&s, "entry.class", f.Class)
	put(&s, "entry.material", f.Material)
	put(&s, "entry.lubricant", f.Lubricant)
	put(&s, "entry.coefficient", f.Coefficient)
	put(&s, "entry.firstpass", f.FirstPass)
	put(&s, "entry.final", f.Final)
	put(&s, "entry.required", f.Required)
	put(&s, "entry.under", f.FirstUnder)
	put(&s, "entry.clicks", f.Clicks)
	put(&s, "entry.running", f.Running)
	put(&s, "entry.pattern", f.Pattern)
	put(&s, "entry.stripe", f.Stripe)
	put(&s, "entry.tool", f.Tool)
	put(&s, "entry.scheduled", f.Scheduled)
	put(&s, "entry.locking", f.Locking)
	put(&s, "entry.locktime", f.LockingTime)
	put(&s, "entry.authority", f.Authority)
	s.when(f.Date, f.Time, f.Sequence, f.By)
	return s
}

func (s *entrySet) when(d field.Date, t field.Clock, n field.Count, by field.Text) {
	put(s, "entry.date", d)
	put(s, "entry.time", t)
	put(s, "entry.sequence", n)
	put(s, "entry.by", by)
}

func (b *book) pinEntries(p *field.Pins) entrySet {
	s := entrySet{b: b, what: b.say("check.pins")}
	if p.Where.Value != "" {
		s.what = b.or(b.optional("check.dowel."+p.Where.Value), "check.pins")
	}
	put(&s, "entry.where", p.Where)
	put(&s, "entry.needed", p.Required)
	put(&s, "entry.count", p.Count)
	put(&s, "entry.found", p.Found)
	put(&s, "entry.hole", p.Hole.Entry)
	put(&s, "entry.above", p.Above.Entry)
	put(&s, "entry.below", p.Below.Entry)
	s.when(p.Date, p.Time, p.Sequence, p.By)
	return s
}

func (b *book) lineEntries(i *field.Item) entrySet {
	s := entrySet{b: b, what: b.or(b.optional("prestart."+i.Key), "check.prestart")}
	put(&s, "entry.done", i.Done)
	put(&s, "entry.by", i.By)
	put(&s, "entry.date", i.Date)
	put(&s, "entry.note", i.Note)
	return s
}

// runEntries are the entries of a run, and those of its points of vibration.
func (b *book) runEntries(i int, r *field.StartUp) []entrySet {
	s := entrySet{b: b, what: join(", ", b.say("group."+groupStartUp), b.roundWord(runKey(i)))}
	put(&s, "entry.date", r.Date)
	put(&s, "entry.time", r.Time)
	put(&s, "entry.by", r.By)
	put(&s, "startup.air", r.AirTemperature)
	put(&s, "startup.water", r.Water)
	put(&s, "startup.frequency", r.Frequency)
	put(&s, "entry.rotation", r.RotationOK)
	put(&s, "entry.uncoupled", r.Uncoupled)
	for j, n := range []string{"12", "23", "31"} {
		put(&s, "startup.volts"+n, r.Volts[j])
	}
	for j, n := range []string{"1", "2", "3"} {
		put(&s, "startup.amps"+n, r.Amps[j])
	}
	put(&s, "startup.motorspeed", r.MotorSpeed)
	put(&s, "startup.fanspeed", r.FanSpeed)
	put(&s, "check.insulation", r.Insulation)
	put(&s, "startup.windingtemp", r.InsulationTemp)
	put(&s, "startup.testvolts", r.InsulationTest)
	put(&s, "startup.winding", r.WindingType)
	put(&s, "check.oillevel", r.OilLevelOK)
	put(&s, "check.oiltemp", r.OilTemperature)
	put(&s, "startup.bearingdrive", r.Bearing[0])
	put(&s, "startup.bearingother", r.Bearing[1])
	put(&s, "check.runtime", r.RunTime)
	put(&s, "check.reverse", r.ReverseOK)
	put(&s, "startup.setpoint", r.SwitchSetPoint)
	put(&s, "startup.trip", r.SwitchTrip)
	shake := entrySet{b: b, what: join(", ", b.say("check.vibration"), b.roundWord(runKey(i)))}
	for j := range r.Vibration {
		v := &r.Vibration[j]
		put(&shake, "startup.point", v.Point)
		put(&shake, "startup.axis", v.Axis)
		put(&shake, "entry.value", v.Value)
		put(&shake, "startup.detector", v.Detector)
		put(&shake, "limits.value", v.Limit)
	}
	return []entrySet{s, shake}
}

// bladeEntry is the blade that was turned or carried round, as entered.
func (b *book) bladeEntry(col readingColumn) enteredAt {
	if !col.series.blade.Set {
		return enteredAt{}
	}
	return enteredAt{strconv.Itoa(col.series.blade.Value), col.series.blade.At}
}
