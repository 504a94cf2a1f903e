package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// Notes on the tension of a set; they stand with it, not with the torque.
var tensionNotes = []string{"note.nothread", "note.nocoefficient", "note.noclass", "note.noproof"}

// fastenersPage is every set of fasteners: how it was torqued and locked, the
// tension that follows; the dowel pins and the list before the first start.
func (b *book) fastenersPage(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.fasteners")}
	torque, r := b.itemCheck(c, assess.FastenerTorque)
	locking, l := b.itemCheck(c, assess.Locking)
	if r == nil || l == nil {
		blocks = append(blocks, halves(torque, locking))
	} else {
		blocks = append(append(blocks, torque...), b.torqueTable(c, r))
		blocks = append(append(blocks, b.itemFindings(r)...), b.itemNotes(r, true, tensionNotes...)...)
		blocks = append(append(blocks, locking...), b.lockingTable(c, l, r))
		blocks = append(append(blocks, b.itemFindings(l)...), b.itemNotes(r, false, tensionNotes...)...)
	}
	pins, list := b.pinBlocks(c), b.preStartBlocks(c)
	if b.nothingOf(c, assess.DowelPins) && b.nothingOf(c, assess.PreStart) {
		return append(blocks, halves(pins, list))
	}
	return append(append(blocks, pins...), list...)
}

// nothingOf tells whether nothing was entered of a check.
func (b *book) nothingOf(c towerCell, key string) bool {
	k := c.judged.Check(key)
	return k == nil || k.StandingRound() == nil
}

// setAt is the row of the schedule that an item judges; they stand in one
// order.
func setAt(c towerCell, i int) *field.Fasteners {
	if i < len(c.read.Fasteners) {
		return &c.read.Fasteners[i]
	}
	return &field.Fasteners{}
}

func (b *book) torqueTable(c towerCell, r *assess.Round) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.9}, {Width: 0.95}, {Width: 1.15}, {Width: 1.35}, {Width: 0.65},
			{Width: 0.8}, {Width: 0.45}, {Width: 1.6}, {Width: 0.85}},
		Head: [][]page.TableCell{b.headRow("fasteners.set", "fasteners.first", "fasteners.final", "fasteners.required",
			"fasteners.clicks", "fasteners.done", "fasteners.tool", "fasteners.when", "cell.verdict")},
		Summary: b.say("fasteners.table"),
	}
	for i := range r.Items {
		t.Rows = append(t.Rows, page.TableRow{Cells: b.torqueRow(c, r, &r.Items[i], setAt(c, i))})
	}
	return t
}

func (b *book) torqueRow(c towerCell, r *assess.Round, it *assess.Item, f *field.Fasteners) []page.TableCell {
	id := func(entry string) string { return data.FastenersID(c.judged.Number, it.Key, entry) }
	b.tell(f.Set.At)
	b.tellAs(f.Name.At, f.Name.Text, b.itemWord(it))
	name := below(plain(b.itemWord(it)),
		b.typedRuns(id("size"), b.text(f.Size)), b.typedRuns(id("class"), b.text(f.Class)), plain(b.code("material", f.Material)))
	final := b.typedRuns(id("final"), b.quantityTyped(f.Final))
	final = below(final, b.placedIf("fasteners.running", b.typedRuns(id("running"), b.quantityTyped(f.Running))))
	required := below(b.typedRuns(id("required"), b.quantityTyped(f.Required)), plain(b.code("authority", f.Authority)))
	first := below(b.typedRuns(id("firstPass"), b.quantityTyped(f.FirstPass)),
		b.placedIf("fasteners.under", b.typedRuns(id("firstUnder"), b.quantityTyped(f.FirstUnder))))
	clicks := slices.Concat(b.typedRuns(id("clicks"), b.counted(f.Clicks)),
		[]page.Run{{Text: " " + b.say("cell.ofword") + " ", Face: page.Muted}}, b.typedRuns(id("count"), b.counted(f.Count)))
	return []page.TableCell{
		{Runs: name, Header: true}, {Runs: first}, {Runs: final}, {Runs: required}, {Runs: clicks},
		textCell(join(", ", b.yesNo("fasteners.pattern", f.Pattern), b.yesNo("fasteners.stripe", f.Stripe))),
		{Runs: b.typedRuns(id("tool"), b.text(f.Tool))},
		{Runs: below(plain(b.typedDay(f.Date)), plain(b.typedTime(f.Time)), plain(b.text(f.By)))},
		b.itemVerdict(c, assess.FastenerTorque, r.Key, it),
	}
}

// placedIf puts runs into the place {value} of a phrase; nothing where there are
// none.
func (b *book) placedIf(key string, runs []page.Run) []page.Run {
	if len(runs) == 0 {
		return nil
	}
	return b.placed(key, runs[0])
}

// lockingTable is how every set was locked, against its schedule; beside it, for
// the engineer, the tension that its torque comes to.
func (b *book) lockingTable(c towerCell, l, torque *assess.Round) page.Table {
	low := b.headRow("fasteners.set", "fasteners.scheduled", "fasteners.locked", "cell.verdict",
		"fasteners.coefficient", "fasteners.area", "fasteners.tension", "fasteners.ofproof", "fasteners.tooltolerance")
	info := headCell(b.say("fasteners.information"), len(tensionResults))
	info.Align = &centered
	t := page.Table{
		Columns: []page.Column{{Width: 2}, {Width: 1.4}, {Width: 1.65}, {Width: 0.8},
			{Width: 0.95, Align: page.Right}, {Width: 0.85, Align: page.Right}, {Width: 0.8, Align: page.Right},
			{Width: 0.7, Align: page.Right}, {Width: 0.6, Align: page.Right}},
		Head:    [][]page.TableCell{{headCell("", 4), info}, low},
		Summary: b.say("fasteners.lockingtable"),
	}
	for i := range l.Items {
		f := setAt(c, i)
		row := []page.TableCell{
			rowHead(b.itemWord(&l.Items[i])), textCell(b.code("locking", f.Scheduled)),
			textCell(join(", ", b.lockedAs(f), b.code("lockingtime", f.LockingTime))),
			b.itemVerdict(c, assess.Locking, l.Key, &l.Items[i]),
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: append(row, b.tensionCells(c, torque, i)...)})
	}
	return t
}

// lockedAs is how a set was locked; where that was as scheduled it says so, so that
// what was not stands out.
func (b *book) lockedAs(f *field.Fasteners) string {
	if f.Locking.Set && f.Locking.Value == f.Scheduled.Value {
		b.tell(f.Locking.At)
		return b.say("fasteners.asscheduled")
	}
	return b.code("locking", f.Locking)
}

// tensionResults are the results of a set that inform the engineer.
var tensionResults = []string{"coefficient", "area", "tension", "ofproof", "tooltolerance"}

// tensionCells are set in muted type: they are no verdict.
func (b *book) tensionCells(c towerCell, torque *assess.Round, i int) []page.TableCell {
	out := make([]page.TableCell, len(tensionResults))
	if i >= len(torque.Items) {
		return out
	}
	for j, key := range tensionResults {
		runs := b.itemAmount(c, assess.FastenerTorque, torque.Key, &torque.Items[i], key)
		if lubricant := b.code("lubricant", setAt(c, i).Lubricant); key == "coefficient" && lubricant != "" {
			runs = append(plain(lubricant+" "), runs...)
		}
		for n := range runs {
			runs[n].Face = page.Muted
		}
		out[j].Runs = runs
	}
	return out
}

// pinBlocks is the dowel pins of every place.
func (b *book) pinBlocks(c towerCell) []page.Block {
	blocks, r := b.itemCheck(c, assess.DowelPins)
	if r == nil {
		return blocks
	}
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 1.9}, {Width: 0.7}, {Width: 0.7}, {Width: 0.7}, {Width: 0.7}, {Width: 1.1}, {Width: 1}},
		Head: [][]page.TableCell{b.headRow("pins.where", "fasteners.when", "pins.count", "pins.hole", "pins.above", "pins.below",
			"pins.difference", "cell.verdict")},
		Summary: b.say("pins.table"),
	}
	for i := range r.Items {
		t.Rows = append(t.Rows, page.TableRow{Cells: b.pinRow(c, r, &r.Items[i], i)})
	}
	return append(append(blocks, t), b.itemFindings(r)...)
}

func (b *book) pinRow(c towerCell, r *assess.Round, it *assess.Item, i int) []page.TableCell {
	p := &field.Pins{}
	if i < len(c.read.Pins) {
		p = &c.read.Pins[i]
	}
	id := func(entry string) string { return data.PinsID(c.judged.Number, it.Key, entry) }
	var count []page.Run
	if p.Found.Set || p.Count.Set {
		count = slices.Concat(b.typedRuns(id("found"), b.counted(p.Found)),
			[]page.Run{{Text: " " + b.say("cell.ofword") + " ", Face: page.Muted}}, b.typedRuns(id("count"), b.counted(p.Count)))
	}
	return []page.TableCell{
		rowHead(b.pinPlace(p, it)),
		textCell(join(", ", join(" ", b.typedDay(p.Date), b.typedTime(p.Time)), b.text(p.By))),
		{Runs: count},
		{Runs: b.typedRuns(id("hole"), b.asTyped(p.Hole))},
		{Runs: b.typedRuns(id("above"), b.asTyped(p.Above))},
		{Runs: b.typedRuns(id("below"), b.asTyped(p.Below))},
		{Runs: b.itemDeciding(c, assess.DowelPins, r.Key, it)},
		b.itemVerdict(c, assess.DowelPins, r.Key, it),
	}
}

// pinPlace is where the pins are, short.
func (b *book) pinPlace(p *field.Pins, it *assess.Item) string {
	if words := b.optional("pins.at." + p.Where.Value); words != "" {
		b.tell(p.Where.At)
		return words
	}
	return b.itemWord(it)
}

// preStartBlocks is the list that comes before any start.
func (b *book) preStartBlocks(c towerCell) []page.Block {
	blocks, r := b.itemCheck(c, assess.PreStart)
	if r == nil {
		return blocks
	}
	t := page.Table{
		Summary: b.say("prestart.table"),
		Head:    make([][]page.TableCell, 1),
	}
	for range linesAbreast {
		t.Columns = append(t.Columns, page.Column{Width: 1.3}, page.Column{Width: 1.3}, page.Column{Width: 0.8})
		t.Head[0] = append(t.Head[0], b.headRow("prestart.line", "prestart.who", "cell.verdict")...)
	}
	var lines [][]page.TableCell
	for i := range r.Items {
		x := &field.Item{}
		if i < len(c.read.PreStart) {
			x = &c.read.PreStart[i]
		}
		b.tell(x.Done.At) // the verdict is the answer
		lines = append(lines, []page.TableCell{
			{Runs: below(plain(b.lineWord(&r.Items[i])), plain(b.text(x.Note))), Header: true},
			textCell(join(", ", b.text(x.By), b.typedDay(x.Date))),
			b.itemVerdict(c, assess.PreStart, r.Key, &r.Items[i]),
		})
	}
	for from, half := 0, (len(lines)+linesAbreast-1)/linesAbreast; from < half; from++ {
		row := page.TableRow{Cells: lines[from]}
		if next := from + half; next < len(lines) {
			row.Cells = append(row.Cells, lines[next]...)
		} else {
			row.Cells = append(row.Cells, page.TableCell{Span: 3})
		}
		t.Rows = append(t.Rows, row)
	}
	return append(append(blocks, t), b.itemFindings(r)...)
}

// linesAbreast is how many lines of the list stand side by side.
const linesAbreast = 2

// lineWord is a line of the list; one that is not of the required ones has only
// its note.
func (b *book) lineWord(it *assess.Item) string {
	if words := b.optional("prestart." + it.Code); words != "" {
		return words
	}
	return b.clean(it.Code, it.At)
}
