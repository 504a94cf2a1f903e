package compose

import (
	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// cellSection is all pages of a cell: what it is and how it stands; what was
// read by position; what was read by blade; the readings themselves. With few
// rounds each part fills a page; with more they follow on, so that none is left
// half blank.
func (b *book) cellSection(c towerCell) page.Section {
	var pageEnd []page.Block
	blocks := b.cellSummary(c)
	switch n := b.rounds(c); {
	case n > fewRounds:
		blocks = append(blocks, page.Break{}) // before the figures in any case
	case n > 0:
		pageEnd = []page.Block{page.Break{}}
		blocks = append(blocks, page.Break{})
	}
	blocks = append(append(blocks, b.byPosition(c)...), pageEnd...)
	blocks = append(blocks, b.byBlade(c)...)
	if tables := b.readingPage(c); len(tables) > 0 {
		blocks = append(append(blocks, pageEnd...), tables...)
	}
	s := b.section(cellAnchor(c.judged.Number), b.cellName(c), blocks)
	s.Head.Right = b.say("cell.head", "cell", b.cellName(c), "state", b.say("state."+string(c.judged.State)))
	return s
}

// rounds is the largest number of rounds of any check.
func (b *book) rounds(c towerCell) int {
	n := 0
	for _, k := range c.judged.Checks {
		n = max(n, len(k.Rounds))
	}
	return n
}

func (b *book) cellSummary(c towerCell) []page.Block {
	state := b.state(c.judged.State)
	name := b.cellName(c)
	blocks := []page.Block{
		page.Heading{Level: 2, Anchor: cellAnchor(c.judged.Number),
			Runs:     []page.Run{{Text: name + ": "}, state},
			Bookmark: name + ": " + state.Text},
		page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{
			{b.identity(c)}, b.cellReasons(c),
		}},
		b.verdictTable(c),
		page.Paragraph{Runs: muted(b.say("cell.scope")), Size: smallSize},
	}
	blocks = append(blocks, b.questions(c)...)
	blocks = append(blocks, b.h3("cell.rounds"), b.roundsTable(c))
	blocks = append(blocks, b.moves(c)...)
	if r := b.text(c.read.Remarks); r != "" {
		blocks = append(blocks, b.h3("cell.remarks"), page.Paragraph{Runs: plain(r)})
	}
	return blocks
}

// identity names the machine, and the tags to lock out.
func (b *book) identity(c towerCell) page.Block {
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

// cellReasons says why the cell is not ready.
func (b *book) cellReasons(c towerCell) []page.Block {
	if len(c.judged.Reasons) == 0 {
		key, tone := "cell.waits", page.Plain
		if c.judged.State == assess.Ready {
			key, tone = "cell.noreasons", page.Good
		}
		return []page.Block{page.Panel{Tone: tone, Blocks: []page.Block{
			page.Paragraph{Runs: linked(plain(b.say(key)), anchorReasons)}}}}
	}
	list := page.List{}
	for _, r := range c.judged.Reasons {
		runs := plain(b.reasonText(r))
		if r.Check != "" {
			runs = linked(runs, checkAnchor(c.judged.Number, r.Check))
		}
		list.Items = append(list.Items, runs)
	}
	return []page.Block{page.Panel{Tone: page.Bad, Blocks: []page.Block{
		page.Paragraph{Runs: bold(b.say("cell.why")), Keep: true}, list,
	}}}
}

// verdictTable is the cell in one table: what was read, what is allowed, how
// far inside it is, and who says so.
func (b *book) verdictTable(c towerCell) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.1}, {Width: 1.9}, {Width: 0.75, Align: page.Right},
			{Width: 0.75, Align: page.Right}, {Width: 1.2}, {Width: 2.5}},
		Head: [][]page.TableCell{b.headRow("limits.check", "limits.criterion", "cell.reading",
			"cell.margin", "cell.verdict", "cell.source")},
		Summary: b.say("cell.verdicttable"),
	}
	for i := range c.judged.Checks {
		t.Rows = append(t.Rows, b.verdictRow(c.judged.Number, &c.judged.Checks[i]))
	}
	return t
}

func (b *book) verdictRow(n int, k *assess.Check) page.TableRow {
	word := b.verdictCell(k.Verdict)
	word.Runs[0].ID = b.claim(data.VerdictID(n, k.Key))
	reading, inside := page.TableCell{}, page.TableCell{}
	if r := k.StandingRound(); r != nil {
		id := data.RoundID(n, k.Key, r.Key)
		if r.Deciding != nil {
			reading = cell(b.value(data.Under(id, "deciding"), b.amount(*r.Deciding)))
		}
		if r.Margin != nil {
			inside = cell(b.value(data.Under(id, "margin"),
				withUnit(margin(*r.Margin, b.first), unitOf(*r.Margin, b.first))))
		}
	}
	name := page.TableCell{Header: true, Runs: linked(plain(b.say("check."+k.Key)), checkAnchor(n, k.Key))}
	return page.TableRow{Cells: []page.TableCell{
		name, textCell(b.mustHold(k)), reading, inside, word, {Runs: b.sourceRuns(k)},
	}}
}

// mustHold is what is compared, and the limit it is held against.
func (b *book) mustHold(k *assess.Check) string {
	limit := b.limitText(k.Limit)
	if limit == "" {
		return b.say("short." + k.Key)
	}
	return b.say("cell.musthold", "what", b.say("short."+k.Key), "limit", limit)
}

// sourceRuns names what a verdict rests on: the document of the limit, the
// accepted deviation, or who said that it is not asked for.
func (b *book) sourceRuns(k *assess.Check) []page.Run {
	if w := k.Waiver; w != nil && (k.Verdict == assess.NotRequired || k.Verdict == assess.ByOthers) {
		return plain(join(", ", b.text(w.Reason), b.text(w.By)))
	}
	text := b.authorityText(k.Limit)
	if k.Starting {
		text = join(", ", text, b.say("limits.notaccepted"))
	}
	if d := k.Deviation; d != nil {
		text = join(". ", text, b.say("cell.deviation", "number", b.text(d.Number), "person", b.text(d.Person)))
	}
	return plain(text)
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
		Columns: []page.Column{{Width: 0.4, Align: page.Right}, {Width: 1.3}, {Width: 1.6}, {Width: 2.7}, {Width: 1}},
		Head:    [][]page.TableCell{b.headRow("cell.sequence", "cell.when", "cell.event", "cell.detail", "cell.by")},
		Summary: b.say("cell.movestable"),
	}
	for _, m := range c.read.Moves {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			textCell(counted(m.Sequence)),
			textCell(join(" ", typedDay(m.Date), typedTime(m.Time))),
			textCell(b.eventWord(m)),
			textCell(b.text(m.Detail)),
			textCell(b.text(m.By)),
		}})
	}
	return []page.Block{b.h3("cell.moves"), t}
}
