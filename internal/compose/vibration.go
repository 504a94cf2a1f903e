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
	checks := []string{assess.Vibration, assess.VibrationSwitch}
	text := b.say("startup." + partVibration)
	blocks := []page.Block{page.Heading{Level: 4, Anchor: startUpAnchor(c.judged.Number, partVibration), Runs: plain(text), Bookmark: text}}
	if len(c.read.StartUps) == 0 {
		return append(blocks, b.partVerdicts(c, checks)...)
	}
	t := page.Table{
		Columns: []page.Column{{Width: 0.7}, {Width: 1.8}, {Width: 1}, {Width: 0.9}, {Width: 0.7}, {Width: 0.9}, {Width: 0.9}, {Width: 1.2}},
		Head: [][]page.TableCell{b.headRow("startup.run", "startup.point", "startup.axis", "cell.reading", "startup.detector",
			"limits.value", "cell.margin", "cell.verdict")},
		Summary: b.say("startup.vibrationtable"),
	}
	for i := range c.read.StartUps {
		t.Rows = append(t.Rows, b.vibrationRows(c, i)...)
	}
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	if t, any := b.runTable(c, switchLines(), b.say("check."+assess.VibrationSwitch)); any {
		t.Head[0][0] = headCell(b.say("check."+assess.VibrationSwitch), 0)
		blocks = append(blocks, t)
	}
	return blocks
}

// vibrationRows are the points of one run. Points that were left blank have no
// item and no row.
func (b *book) vibrationRows(c towerCell, run int) []page.TableRow {
	r := roundOf(c, assess.Vibration, runKey(run))
	if r == nil {
		return nil
	}
	var rows []page.TableRow
	for i := range c.read.StartUps[run].Vibration {
		v := &c.read.StartUps[run].Vibration[i]
		if v.Value.Set || v.Point.Value != "" {
			if n := len(rows); n < len(r.Items) {
				rows = append(rows, b.vibrationRow(c, r, &r.Items[n], v, i+1))
			}
		}
	}
	return rows
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

func (b *book) vibrationRow(c towerCell, r *assess.Round, it *assess.Item, v *field.Vibration, n int) page.TableRow {
	id := func(entry string) string { return data.StartUpID(c.judged.Number, r.Key, entry+"-"+strconv.Itoa(n)) }
	limit := b.typedRuns(id("vibrationLimit"), b.quantityTyped(v.Limit))
	if limit == nil {
		limit = b.itemAmount(c, assess.Vibration, r.Key, it, "limit")
	}
	return page.TableRow{Cells: []page.TableCell{
		textCell(b.roundWord(r.Key)),
		{Runs: b.typedRuns(id("vibrationPoint"), b.text(v.Point)), Header: true},
		textCell(b.code("axis.direction", v.Axis)),
		{Runs: b.typedRuns(id("vibration"), b.quantityTyped(v.Value))},
		textCell(b.code("detector", v.Detector)),
		{Runs: limit},
		{Runs: b.itemMargin(c, assess.Vibration, r.Key, it)},
		b.itemVerdict(c, assess.Vibration, r.Key, it),
	}}
}
