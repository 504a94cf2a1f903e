package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// cellSection is all pages of a cell.
func (b *book) cellSection(c towerCell) page.Section {
	s := b.section(cellAnchor(c.judged.Number), b.cellName(c), b.wholeJob(c))
	s.Head.Left, s.Head.Loud = join(" · ", b.documentName(), b.subject()), true
	s.Head.Right = b.say("cell.head", "cell", b.cellName(c), "state", b.say("state."+string(c.state())))
	return s
}

func (b *book) cellSummary(c towerCell) []page.Block {
	state := b.state(c.state())
	name := b.cellName(c)
	blocks := []page.Block{
		page.Heading{Level: 2, Anchor: cellAnchor(c.judged.Number),
			Runs:     []page.Run{{Text: name + ": "}, state},
			Bookmark: name + ": " + state.Text},
	}
	if reasons := b.cellReasons(c); len(b.cellGroups(c)) > fewReasons {
		left, right := b.identity(c), b.identity(c)
		half := len(left.Rows) / 2
		left.Rows, right.Rows = left.Rows[:half], right.Rows[half:]
		blocks = append(append(blocks, halves([]page.Block{left}, []page.Block{right})), reasons...)
	} else {
		blocks = append(blocks, page.Columns{Widths: []float64{40, 60}, Blocks: [][]page.Block{{b.identity(c)}, reasons}})
	}
	blocks = slices.Concat(blocks, b.milestones(c), b.verdictTables(c),
		b.due(c), b.questions(c),
		[]page.Block{b.h3("cell.rounds"), b.roundsTable(c)}, b.moves(c), b.corrections(c))
	if r := b.text(c.read.Remarks); r != "" {
		blocks = append(blocks, b.h3("cell.remarks"), page.Paragraph{Runs: plain(r)})
	}
	return blocks
}

// identity names the machine, and the tags to lock out.
func (b *book) identity(c towerCell) page.Table {
	r := c.read
	t := b.pairs("cell.identity", [][2]string{
		{"cell.starter", b.text(r.Starter)},
		{"cell.disconnect", b.text(r.Disconnect)},
		{"registers.motor", b.text(r.Motor)},
		{"registers.gearreducer", b.text(r.GearReducer)},
		{"registers.driveshaft", b.text(r.DriveShaft)},
		{"registers.fan", b.text(r.Fan)},
	})
	for i := range 2 { // the tags stand out: they are what saves a life
		for j := range t.Rows[i].Cells[1].Runs {
			if r.Starter.Set || r.Disconnect.Set {
				t.Rows[i].Cells[1].Runs[j].Face = page.Bold
			}
		}
	}
	return t
}

// fewReasons is the number of reasons that stand beside the identity of a cell.
const fewReasons = 7

// cellGroups are the reasons of a cell; checks that have the same one share a
// line.
func (b *book) cellGroups(c towerCell) []reasonGroup {
	var groups []reasonGroup
	for _, r := range c.judged.Reasons {
		groups = append(groups, reasonGroup{first: r, checks: []string{r.Check}, cells: []int{c.judged.Number}})
	}
	groups = b.joinChecks(groups)
	b.worstFirst(groups)
	return groups
}

// cellReason is a line of the reasons of a cell, each check a link to where it
// stands.
func (b *book) cellReason(c towerCell, g reasonGroup) []page.Run {
	var runs []page.Run
	for i, n := range b.checkList(g.checks, g.cells) {
		if i > 0 {
			runs = append(runs, page.Run{Text: "; "})
		}
		runs = append(runs, page.Run{Text: n.text, Link: b.checkAnchor(c.judged.Number, n.check)})
	}
	if len(runs) > 0 {
		runs = append(runs, page.Run{Text: ": "})
	}
	runs = append(runs, page.Run{Text: b.codeText(g.first.Code)})
	if cure := b.cureLine(g); cure != nil {
		runs[len(runs)-1].Text += " "
		runs = append(runs, cure...)
	}
	return runs
}

// cellReasons says why the cell is not ready.
func (b *book) cellReasons(c towerCell) []page.Block {
	switch c.state() {
	case assess.Ready:
		return []page.Block{page.Panel{Tone: page.Good, Blocks: []page.Block{b.para("cell.noreasons")}}}
	case waits:
		list := page.List{}
		for _, r := range c.judged.Waits {
			list.Items = append(list.Items, b.groupRuns(reasonGroup{first: r, checks: []string{r.Check}}))
		}
		return []page.Block{page.Panel{Tone: page.Plain, Blocks: []page.Block{
			page.Paragraph{Runs: linked(plain(b.say("cell.waits")), anchorReasons), Keep: true}, list}}}
	}
	list := page.List{}
	for _, g := range b.cellGroups(c) {
		list.Items = append(list.Items, b.cellReason(c, g))
	}
	return []page.Block{page.Panel{Tone: page.Bad, Blocks: []page.Block{
		page.Paragraph{Runs: bold(b.say("cell.why")), Keep: true}, list,
	}}}
}

// questions are what is worth a second look, said without judging anybody.
func (b *book) questions(c towerCell) []page.Block {
	if len(c.judged.Questions) == 0 {
		return nil
	}
	list := page.List{}
	for _, q := range c.judged.Questions {
		list.Items = append(list.Items, plain(b.codeText(q)))
	}
	return []page.Block{b.h3("cell.questions"), list}
}

// moves is the move log of the cell.
func (b *book) moves(c towerCell) []page.Block {
	if len(c.read.Moves) == 0 {
		return []page.Block{b.h3("cell.moves"), b.para("cell.nomoves")}
	}
	t := page.Table{
		Columns: []page.Column{{Width: 1.3}, {Width: 1.6}, {Width: 2.7}, {Width: 1}},
		Head:    [][]page.TableCell{b.headRow("cell.moved", "cell.event", "cell.detail", "cell.by")},
		Summary: b.say("cell.movestable"),
	}
	numbered := slices.ContainsFunc(c.read.Moves, func(m field.Move) bool { return m.Sequence.Set })
	if numbered {
		t.Columns = append([]page.Column{{Width: 0.4, Align: page.Right}}, t.Columns...)
		t.Head[0] = append(b.headRow("cell.sequence"), t.Head[0]...)
	}
	for i := range c.read.Moves {
		m := &c.read.Moves[i]
		var cells []page.TableCell
		if numbered {
			cells = append(cells, textCell(b.counted(m.Sequence)))
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: append(cells,
			textCell(join(" ", b.typedDay(m.Date), b.typedTime(m.Time))),
			textCell(b.eventWord(*m)),
			page.TableCell{Runs: b.moveDetail(c, i, m)},
			textCell(b.text(m.By)),
		)})
	}
	return []page.Block{b.h3("cell.moves"), t}
}

// moveDetail is how something was moved: in words, then by feet and slides.
func (b *book) moveDetail(c towerCell, i int, m *field.Move) []page.Run {
	id := func(entry string) string { return data.MoveID(c.judged.Number, i, entry) }
	parts := [][]page.Run{plain(b.text(m.Detail))}
	for _, f := range m.Feet {
		n := strconv.Itoa(f.Foot)
		was, now := b.typedRuns(id("was-"+n), b.asTyped(f.Was)), b.typedRuns(id("now-"+n), b.asTyped(f.Now))
		parts = append(parts, slices.Concat(plain(b.say("moved.foot", "n", n)+" "), was, plain(" "+b.say("moved.to")+" "), now))
	}
	for _, x := range []struct {
		entry string
		l     field.Length
	}{{"along", m.Along}, {"front", m.Front}, {"rear", m.Rear}} {
		if x.l.Set {
			parts = append(parts, slices.Concat(plain(b.say("moved."+x.entry)+" "), b.typedRuns(id(x.entry), b.asTyped(x.l))))
		}
	}
	if len(m.Blades) > 0 {
		var list []string
		for _, n := range m.Blades {
			list = append(list, strconv.Itoa(n))
		}
		parts = append(parts, plain(b.say("moved.blades", "list", join(", ", list...))))
	}
	if name := b.text(m.Instrument); name != "" {
		parts = append(parts, plain(b.say("moved.instrument", "name", name)))
	}
	return then("; ", parts...)
}
