package compose

import (
	"slices"
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// baseline is what the owner keeps for the life of the fans: the settings as left,
// the shims, what comes next, and who stood by at the points that hold the work.
func (b *book) baseline() []page.Block {
	blocks := []page.Block{b.h2("baseline.title", anchorBaseline), b.lead("baseline.intro")}
	for _, cells := range b.cellsAbreast() {
		blocks = append(blocks, b.settingsTable(cells))
	}
	blocks = append(blocks, b.h3("baseline.shims"))
	blocks = append(blocks, b.shimTable())
	blocks = append(blocks, b.h3("baseline.next"), b.lead("baseline.nextintro"), b.nextTable())
	blocks = append(blocks, b.h3("baseline.points"), b.lead("baseline.pointsintro"))
	for _, cells := range b.cellsAbreast() {
		blocks = append(blocks, b.pointsTable(cells))
	}
	return append(blocks, b.h3("baseline.changed"), b.lead("baseline.changedintro"), b.changedTable())
}

// cellsAbreast are the cells in groups that fit side by side.
func (b *book) cellsAbreast() [][]towerCell {
	cells := b.cells()
	if len(cells) == 0 {
		return nil
	}
	tables := (len(cells) + matrixColumns - 1) / matrixColumns
	each := (len(cells) + tables - 1) / tables
	return slices.Collect(slices.Chunk(cells, each))
}

// cellColumns is a table with a column for each cell, which leads to it.
func (b *book) cellColumns(cells []towerCell, first page.Column, head, summary string) page.Table {
	t := page.Table{Columns: []page.Column{first}, Head: [][]page.TableCell{b.headRow(head)}, Summary: b.say(summary)}
	for _, c := range cells {
		n := c.judged.Number
		t.Columns = append(t.Columns, page.Column{Width: 1, Even: true})
		t.Head[0] = append(t.Head[0], page.TableCell{Header: true,
			Runs: linked(bold(b.say("cell.number", "number", strconv.Itoa(n))), cellAnchor(n))})
	}
	return t
}

// settingsTable is what was read last of every check, with the marks of what does
// not stand.
func (b *book) settingsTable(cells []towerCell) page.Table {
	t := b.cellColumns(cells, page.Column{Width: 2.2}, "baseline.setting", "baseline.settingstable")
	for i := range cells {
		t.Columns[i+1].Align = page.Right
	}
	for _, g := range allGroups() {
		var rows []page.TableRow
		for _, key := range g.checks {
			row := page.TableRow{Cells: []page.TableCell{rowHead(b.say("check." + key))}}
			any := false
			for _, c := range cells {
				x := b.settingCell(c, key)
				any = any || len(x.Runs) > 0
				row.Cells = append(row.Cells, x)
			}
			if any {
				rows = append(rows, row)
			}
		}
		if len(rows) > 0 {
			t.Rows = append(append(t.Rows, b.groupRow(g, len(t.Columns))...), rows...)
		}
	}
	if len(t.Rows) == 0 {
		return b.noRows(t)
	}
	return t
}

func (b *book) settingCell(c towerCell, key string) page.TableCell {
	k := c.judged.Check(key)
	if k == nil {
		return page.TableCell{}
	}
	r := k.StandingRound()
	if r == nil || r.Deciding == nil {
		return page.TableCell{}
	}
	run := page.Run{Text: b.amount(*r.Deciding)}
	v := c.told(k)
	if v != assess.Within {
		run.Mark, run.Say = marks[v], b.say("verdict."+string(v))
	}
	return page.TableCell{Runs: []page.Run{run}, Tone: verdictTone(v)}
}

func (b *book) noRows(t page.Table) page.Table {
	t.Rows = []page.TableRow{{Cells: []page.TableCell{{Runs: muted(b.say("registers.none")), Span: len(t.Columns)}}}}
	return t
}

// footStack is what lies under a foot at the end, and where that is known from.
type footStack struct {
	foot  string
	stack field.Length
	from  string
}

// shimTable is the stack under every foot after the last move that was logged, else
// as it was entered.
func (b *book) shimTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 1.6}, {Width: 4}, {Width: 1.8}},
		Head:    [][]page.TableCell{b.headRow("lists.cell", "baseline.machine", "baseline.stacks", "baseline.source")},
		Summary: b.say("baseline.shimtable"),
	}
	type line struct{ cell, machine, stacks, source string }
	var lines []line
	for _, c := range b.cells() {
		for _, what := range []string{"gear", "support", "motor"} {
			var stacks, from []string
			for _, s := range b.lastStacks(c, what) {
				stacks = append(stacks, b.say("baseline.foot", "n", s.foot, "stack", b.asTyped(s.stack)))
				if !slices.Contains(from, s.from) {
					from = append(from, s.from)
				}
			}
			if len(stacks) > 0 {
				lines = append(lines, line{b.cellName(c), b.say("baseline.of." + what), join("; ", stacks...), join("; ", from...)})
			}
		}
	}
	return rows(b, t, lines, func(l line) []string { return []string{l.cell, l.machine, l.stacks, l.source} })
}

// lastStacks are the stacks of a machine foot by foot.
func (b *book) lastStacks(c towerCell, what string) []footStack {
	at := map[int]footStack{}
	var feet []int
	set := func(foot int, stack field.Length, from string) {
		if _, known := at[foot]; !known {
			feet = append(feet, foot)
		}
		at[foot] = footStack{strconv.Itoa(foot), stack, from}
	}
	if what == b.shimmed() {
		for _, s := range c.read.Stacks {
			if s.Now.Set {
				set(s.Foot, s.Now, b.say("baseline.entered"))
			}
		}
	}
	for i := range c.read.Moves {
		m := &c.read.Moves[i]
		if !strings.HasPrefix(m.Event.Value, what+".") {
			continue
		}
		for _, f := range m.Feet {
			if f.Now.Set {
				set(f.Foot, f.Now, join(" ", b.say("baseline.logged"), b.typedDay(m.Date)))
			}
		}
	}
	slices.Sort(feet)
	var out []footStack
	for _, f := range feet {
		out = append(out, at[f])
	}
	return out
}

// shimmed is what the shims of the form lie under.
func (b *book) shimmed() string {
	if b.in.Record.Tower.Geometry.Shimmed.Value == "support" {
		return "support"
	}
	return "gear"
}

// nextTable is what comes next in each cell: what must be read again, and what is
// due after the run.
func (b *book) nextTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 5}, {Width: 2}},
		Head:    [][]page.TableCell{b.headRow("lists.cell", "baseline.what", "baseline.done")},
		Summary: b.say("baseline.nexttable"),
	}
	for _, c := range b.cells() {
		add := func(runs []page.Run) {
			t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(b.cellName(c)), {Runs: runs}, {}}})
		}
		for _, g := range b.cellGroups(c) {
			if class, _ := rank(g); class == 1 {
				add(b.cellReason(c, g))
			}
		}
		for _, d := range c.judged.Due {
			add([]page.Run{{Text: b.codeText(d), Mark: page.MarkBox}})
		}
	}
	if len(t.Rows) == 0 {
		return b.noRows(t)
	}
	return t
}

// holdPoints are the points at which the work is looked at by somebody else, with
// the checks that show it.
var holdPoints = []struct {
	key    string
	checks []string
}{
	{"level", []string{assess.GearLevel}},
	{"alignment", []string{assess.CouplingGear, assess.CouplingMotor}},
	{"pitch", []string{assess.Pitch, assess.TipRadius}},
	{"clearance", []string{assess.Clearance, assess.Tilt}},
	{"torque", []string{assess.FastenerTorque}},
	{"prestart", []string{assess.PreStart}},
	{"rotation", []string{assess.Rotation}},
	{"trip", []string{assess.VibrationSwitch}},
	{"run", []string{assess.RunTime}},
}

// pointsTable says who stood by at each point, and when.
func (b *book) pointsTable(cells []towerCell) page.Table {
	t := b.cellColumns(cells, page.Column{Width: 2.2}, "baseline.point", "baseline.pointstable")
	for _, p := range holdPoints {
		row := page.TableRow{Cells: []page.TableCell{rowHead(b.say("holdpoint." + p.key))}}
		for _, c := range cells {
			row.Cells = append(row.Cells, b.pointCellOf(c, p.checks))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// pointCellOf is the day and the witness of the checks of a point, or a box where
// one of them does not stand.
func (b *book) pointCellOf(c towerCell, checks []string) page.TableCell {
	var days, people []string
	open := false
	for _, key := range checks {
		k := c.judged.Check(key)
		if k == nil || k.Verdict == assess.NotRequired || k.Verdict == assess.ByOthers {
			continue
		}
		r := k.StandingRound()
		if r == nil || k.Verdict == assess.Recheck || k.Verdict == assess.Missing {
			open = true
			continue
		}
		day, who := b.pointSeen(c, key, r)
		if day != "" && !slices.Contains(days, day) {
			days = append(days, day)
		}
		if who != "" && !slices.Contains(people, who) {
			people = append(people, who)
		}
	}
	switch {
	case open:
		return page.TableCell{Runs: []page.Run{{Text: b.say("baseline.open"), Mark: page.MarkBox}}}
	case len(days)+len(people) == 0:
		return page.TableCell{Runs: muted(b.say("baseline.notnamed"))}
	}
	slices.Sort(days)
	return page.TableCell{Runs: []page.Run{{Text: join(", ", days[max(0, len(days)-1):]...) + " ", Mark: page.MarkWithin},
		{Text: join(", ", people...), Face: page.Muted}}}
}

// pointSeen is the day of a check and who stood by.
func (b *book) pointSeen(c towerCell, key string, r *assess.Round) (day, who string) {
	switch {
	case key == assess.FastenerTorque:
		for i := range c.read.Fasteners {
			day = max(day, b.typedDay(c.read.Fasteners[i].Date))
		}
		return day, ""
	case key == assess.PreStart:
		for i := range c.read.PreStart {
			day = max(day, b.typedDay(c.read.PreStart[i].Date))
		}
		return day, ""
	}
	for i := range c.read.StartUps {
		if runKey(i) == r.Key {
			return b.typedDay(c.read.StartUps[i].Date), ""
		}
	}
	return b.typedDay(r.Head.Date), b.or(b.initials(r.Head.Witness), "baseline.nowitness")
}

// initials are those of a person in the register, else the name.
func (b *book) initials(name field.Text) string {
	for _, p := range b.in.Record.People {
		if p.Name.Value == name.Value && p.Initials.Set {
			return b.text(p.Initials)
		}
	}
	return b.text(name)
}

// changedTable are the checks whose verdict the work changed.
func (b *book) changedTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 2.2}, {Width: 1.3}, {Width: 1.3}, {Width: 1.3}, {Width: 1.4}},
		Head: [][]page.TableCell{b.headRow("lists.cell", "lists.check", "baseline.before", "cell.verdict",
			"baseline.after", "cell.verdict")},
		Summary: b.say("baseline.changedtable"),
	}
	for _, c := range b.cells() {
		for _, key := range b.checkKeys() {
			k := c.judged.Check(key)
			if k == nil || !inRounds(key) && !derived(key) || key == assess.Locking {
				continue
			}
			last := k.StandingRound()
			if last == nil || len(k.Rounds) < 2 {
				continue
			}
			first := &k.Rounds[0]
			if first == last || good(first.Verdict) == good(last.Verdict) {
				continue
			}
			value := func(r *assess.Round) page.TableCell {
				if r.Deciding == nil {
					return page.TableCell{}
				}
				return textCell(b.amount(*r.Deciding))
			}
			t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(b.cellName(c)),
				{Runs: linked(plain(b.say("check."+key)), b.checkAnchor(c.judged.Number, key))},
				value(first), b.verdictCell(first.Verdict), value(last), b.verdictCell(c.told(k))}})
		}
	}
	if len(t.Rows) == 0 {
		return b.noRows(t)
	}
	return t
}

// good tells whether a verdict lets a reading stand.
func good(v assess.Verdict) bool { return v == assess.Within || v == assess.NearLimit }
