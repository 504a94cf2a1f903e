package compose

import (
	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// verdictTables are the cell at a glance. For the whole job two narrow tables stand
// side by side, and limits and their sources stand with the readings; where many
// reasons leave too little of the page for that, one table with all of it runs
// on over the page.
func (b *book) verdictTables(c towerCell) []page.Block {
	if len(b.cellGroups(c)) > fewReasons {
		return []page.Block{b.verdictTable(c)}
	}
	left := []string{groupBases, groupDriveLine, groupFan}
	var sides [2][]checkGroup
	for _, g := range allGroups() {
		i := 1
		for _, key := range left {
			if g.key == key {
				i = 0
			}
		}
		sides[i] = append(sides[i], g)
	}
	widths := []float64{50, 50}
	if n := c.tally(); n[assess.Recheck]+n[accepted] > 0 { // the longest words, and most of them at the left
		widths = []float64{53, 47}
	}
	return []page.Block{page.Columns{Widths: widths, Blocks: [][]page.Block{{b.narrowTable(c, sides[0])}, {b.narrowTable(c, sides[1])}}}}
}

// narrowTable is value, margin and verdict of the checks of some groups.
func (b *book) narrowTable(c towerCell, groups []checkGroup) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Fit: true, Align: page.Right}, {Fit: true, Align: page.Right}, {Fit: true}},
		Head:    [][]page.TableCell{b.headRow("limits.check", "cell.reading", "cell.margin", "cell.verdict")},
		Summary: b.say("cell.verdicttable"),
	}
	for _, g := range groups {
		t.Rows = append(t.Rows, b.groupLink(c, g, len(t.Columns))...)
		for _, key := range g.checks {
			if k := c.judged.Check(key); k != nil {
				v := b.verdictParts(c, k)
				t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{v.name, v.reading, v.margin, v.word}})
			}
		}
	}
	return t
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
	for _, g := range allGroups() {
		t.Rows = append(t.Rows, b.groupLink(c, g, len(t.Columns))...)
		for _, key := range g.checks {
			if k := c.judged.Check(key); k != nil {
				t.Rows = append(t.Rows, b.verdictRow(c, k))
			}
		}
	}
	return t
}

// groupLink names a part of the job and links to where its readings begin. Checks
// link to theirs only where there is something to look up, as in the summary.
func (b *book) groupLink(c towerCell, g checkGroup, columns int) []page.TableRow {
	rows := b.groupRow(g, columns)
	for _, key := range g.checks {
		if c.judged.Check(key) != nil {
			rows[0].Cells[0].Runs = linked(rows[0].Cells[0].Runs, b.checkAnchor(c.judged.Number, key))
			break
		}
	}
	return rows
}

func (b *book) verdictRow(c towerCell, k *assess.Check) page.TableRow {
	v := b.verdictParts(c, k)
	return page.TableRow{Cells: []page.TableCell{
		v.name, textCell(b.mustHold(k)), v.reading, v.margin, v.word, {Runs: b.sourceRuns(k)},
	}}
}

// verdictParts are the cells that every table of verdicts has.
type verdictParts struct{ name, reading, margin, word page.TableCell }

func (b *book) verdictParts(c towerCell, k *assess.Check) verdictParts {
	var v verdictParts
	n := c.judged.Number
	v.name = rowHead(b.say("check." + k.Key))
	if c.lookUp(k) {
		v.name.Runs = linked(v.name.Runs, b.checkAnchor(n, k.Key))
	}
	v.word = b.verdictCell(c.told(k))
	v.word.Runs[0].ID = b.claim(data.VerdictID(n, k.Key))
	if r := k.StandingRound(); r != nil {
		id := data.RoundID(n, k.Key, r.Key)
		if r.Deciding != nil {
			v.reading = cell(b.value(data.Under(id, "deciding"), b.amount(*r.Deciding)))
		}
		if r.Margin != nil {
			v.margin = cell(b.value(data.Under(id, "margin"),
				withUnit(margin(*r.Margin, b.first), unitOf(*r.Margin, b.first))))
		}
	}
	return v
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
