package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// vibrationBlocks is what was read at each point, and the switch that stops the
// motor.
func (b *book) vibrationBlocks(c towerCell) []page.Block {
	text := b.say("startup." + partVibration)
	blocks := []page.Block{page.Heading{Level: 4, Anchor: startUpAnchor(c.judged.Number, partVibration), Runs: plain(text), Bookmark: text}}
	t := b.vibrationTable(c)
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	if t, any := b.runTable(c, switchLines(), b.say("check."+assess.VibrationSwitch)); any {
		t.Head[0][0] = headCell(b.say("check."+assess.VibrationSwitch), 0)
		blocks = append(blocks, t)
	}
	return blocks
}

// shaken is a point of one run as read and as judged.
type shaken struct {
	round *assess.Round
	item  *assess.Item
	read  *field.Vibration
	id    func(entry string) string
}

// shakenPoints are the points of a run. Points that were left blank have no item.
func (b *book) shakenPoints(c towerCell, run int) []shaken {
	r := roundOf(c, assess.Vibration, runKey(run))
	if r == nil {
		return nil
	}
	var out []shaken
	for i := range c.read.StartUps[run].Vibration {
		v := &c.read.StartUps[run].Vibration[i]
		if n := len(out); (v.Value.Set || v.Point.Value != "") && n < len(r.Items) {
			out = append(out, shaken{r, &r.Items[n], v, func(entry string) string {
				return data.StartUpID(c.judged.Number, r.Key, entry+"-"+strconv.Itoa(i+1))
			}})
		}
	}
	return out
}

// runsAbreast is how many runs stand side by side.
const runsAbreast = 2

// vibrationTable has a row per point, with its runs side by side where they were
// read at the same points; else a row per run and point.
func (b *book) vibrationTable(c towerCell) page.Table {
	var runs [][]shaken
	for i := range c.read.StartUps {
		if list := b.shakenPoints(c, i); len(list) > 0 {
			runs = append(runs, list)
		}
	}
	if len(runs) == 0 {
		return page.Table{}
	}
	if len(runs) <= runsAbreast && samePoints(runs) {
		return b.vibrationOf(c, runs)
	}
	var rows []page.TableRow
	var t page.Table
	for i := range runs {
		t = b.vibrationOf(c, runs[i:i+1])
		for j := range t.Rows {
			rows = append(rows, page.TableRow{Cells: append([]page.TableCell{textCell(b.roundWord(runs[i][j].round.Key))}, t.Rows[j].Cells...)})
		}
	}
	t.Head = [][]page.TableCell{append([]page.TableCell{headCell(b.say("startup.run"), 0)}, t.Head[1]...)}
	t.Columns = append([]page.Column{{Width: 0.7}}, t.Columns...)
	t.Rows = rows
	return t
}

// samePoints tells whether all runs were read at the same points, of one kind and
// against one limit.
func samePoints(runs [][]shaken) bool {
	for _, list := range runs {
		if len(list) != len(runs[0]) {
			return false
		}
		for i := range list {
			x, y := list[i].read, runs[0][i].read
			if x.Point.Value != y.Point.Value || x.Axis.Value != y.Axis.Value || x.Detector.Value != y.Detector.Value || x.Limit.Text != y.Limit.Text {
				return false
			}
		}
	}
	return true
}

// vibrationOf is the table of runs that stand side by side.
func (b *book) vibrationOf(c towerCell, runs [][]shaken) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.7}, {Width: 0.9}, {Width: 0.6}, {Width: 1}},
		Head:    [][]page.TableCell{{headCell("", 4)}, b.headRow("startup.point", "startup.axis", "startup.detector", "limits.value")},
		Summary: b.say("startup.vibrationtable"),
	}
	for i := range runs[0] {
		x := &runs[0][i]
		limit := b.typedRuns(x.id("vibrationLimit"), b.quantityTyped(x.read.Limit))
		if limit == nil {
			limit = b.itemAmount(c, assess.Vibration, x.round.Key, x.item, "limit")
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			{Runs: b.typedRuns(x.id("vibrationPoint"), b.text(x.read.Point)), Header: true},
			textCell(b.code("axis.direction", x.read.Axis)), textCell(b.code("detector", x.read.Detector)), {Runs: limit},
		}})
	}
	for _, list := range runs {
		head := headCell(b.roundWord(list[0].round.Key), 3)
		head.Align = &centered
		t.Head[0] = append(t.Head[0], head)
		t.Head[1] = append(t.Head[1], b.headRow("cell.reading", "cell.margin", "cell.verdict")...)
		t.Columns = append(t.Columns, page.Column{Width: 1, Align: page.Right}, page.Column{Width: 1, Align: page.Right}, page.Column{Width: 1.1})
		for i := range list {
			x := &list[i]
			t.Rows[i].Cells = append(t.Rows[i].Cells,
				page.TableCell{Runs: b.typedRuns(x.id("vibration"), b.quantityTyped(x.read.Value))},
				page.TableCell{Runs: b.itemMargin(c, assess.Vibration, x.round.Key, x.item)},
				b.itemVerdict(c, assess.Vibration, x.round.Key, x.item))
		}
	}
	return t
}

// roundOf finds a round of a check, nil where there is none.
func roundOf(c towerCell, check, key string) *assess.Round {
	k := c.judged.Check(check)
	if k == nil {
		return nil
	}
	for i := range k.Rounds {
		if k.Rounds[i].Key == key {
			return &k.Rounds[i]
		}
	}
	return nil
}
