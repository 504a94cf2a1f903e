package compose

import (
	"slices"
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// startUpPage is the start-up: conditions first, since no number means anything
// without them.
func (b *book) startUpPage(c towerCell) []page.Block {
	head := b.cellPart(c, "cell.startup")
	if len(c.read.StartUps) == 0 {
		return b.notStarted(c, head)
	}
	blocks := []page.Block{head}
	for _, p := range runParts() {
		blocks = append(blocks, b.runPart(c, p)...)
	}
	blocks = append(blocks, b.vibrationBlocks(c)...)
	blocks = append(blocks, b.runLimits(c)...)
	return append(blocks, b.partNotes(c, assess.StartUpChecks())...)
}

// notStarted is the record of a cell that was not started up: what every check
// comes to, by verdict. Its limits stand on the limits page.
func (b *book) notStarted(c towerCell, head page.Heading) []page.Block {
	head.Anchor = startUpAnchor(c.judged.Number, partNone)
	head.Bookmark = b.say("group." + groupStartUp)
	var runs []page.Run
	for _, v := range verdicts {
		var names []string
		for _, key := range assess.StartUpChecks() {
			if k := c.judged.Check(key); k != nil && c.told(k) == v {
				names = append(names, b.say("check."+key))
			}
		}
		if len(names) > 0 {
			runs = append(runs, b.verdict(v), page.Run{Text: ": " + join(", ", names...) + ".  "})
		}
	}
	return []page.Block{head, page.Paragraph{Runs: runs}}
}

// runPart is one part of the record, a row per run.
func (b *book) runPart(c towerCell, p runPart) []page.Block {
	text := b.say("startup." + p.key)
	head := page.Heading{Level: 4, Anchor: startUpAnchor(c.judged.Number, p.key), Runs: plain(text), Bookmark: text}
	blocks := []page.Block{head}
	for _, lines := range p.tables {
		if t, any := b.runTable(c, lines, text); any {
			blocks = append(blocks, t)
		}
	}
	return blocks
}

// runTable has a row per run and a column per line that has anything in it;
// false where none has.
func (b *book) runTable(c towerCell, lines []runLine, name string) (page.Table, bool) {
	t := page.Table{Columns: []page.Column{{Fit: true}}, Head: [][]page.TableCell{{headCell(b.say("startup.run"), 0)}},
		Summary: b.say("startup.table", "part", name)}
	for i := range c.read.StartUps {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(unbroken(b.roundWord(runKey(i))))}})
	}
	for _, line := range lines {
		cells, any := b.runCells(c, line)
		if !any {
			continue
		}
		width := 1.0
		switch {
		case line.wide:
			width = whenWidth
		case line.verdict:
			width = verdictWidth
		}
		t.Columns = append(t.Columns, page.Column{Width: width})
		t.Head[0] = append(t.Head[0], headCell(b.say(line.label), 0))
		for i := range t.Rows {
			t.Rows[i].Cells = append(t.Rows[i].Cells, cells[i])
		}
	}
	t.Rows = slices.DeleteFunc(t.Rows, func(r page.TableRow) bool {
		return !slices.ContainsFunc(r.Cells[1:], func(x page.TableCell) bool { return len(x.Runs) > 0 })
	})
	return t, len(t.Columns) > 1
}

// verdictWidth is the width of a column that holds a verdict beside its value,
// whenWidth of one with a day, an hour and a name.
const (
	verdictWidth = 1.7
	whenWidth    = 2.2
)

// runKey is the round key of a run by its index.
func runKey(i int) string { return "run" + strconv.Itoa(i+1) }

// roundWord names a round or a run.
func (b *book) roundWord(key string) string {
	if n, ok := strings.CutPrefix(key, "run"); ok {
		return b.say("round.run", "n", n)
	}
	return b.say("round." + key)
}

// runCells are a line for all runs; false where it is blank in all of them and no
// verdict stands in it.
func (b *book) runCells(c towerCell, line runLine) (cells []page.TableCell, any bool) {
	any = line.verdict
	k := c.judged.Check(line.check)
	for i := range c.read.StartUps {
		tc := page.TableCell{Runs: b.runRuns(c, k, line, i)}
		any = any || len(tc.Runs) > 0
		if line.verdict && k != nil && b.verdictIn(c, k) == i {
			if len(tc.Runs) > 0 {
				tc.Runs = append(tc.Runs, page.Run{Text: "  "})
			}
			tc.Runs, tc.Tone = append(tc.Runs, b.verdict(c.told(k))), verdictTone(c.told(k))
		}
		cells = append(cells, tc)
	}
	return cells, any
}

// verdictIn is the run that holds the verdict of a check: the one that stands,
// else the last.
func (b *book) verdictIn(c towerCell, k *assess.Check) int {
	if r := k.StandingRound(); r != nil {
		for i := range c.read.StartUps {
			if runKey(i) == r.Key {
				return i
			}
		}
	}
	return len(c.read.StartUps) - 1
}

// runRuns is what a line says of a run.
func (b *book) runRuns(c towerCell, k *assess.Check, line runLine, i int) []page.Run {
	s := &c.read.StartUps[i]
	switch {
	case line.words != nil:
		return plain(line.words(b, s))
	case line.typed != nil:
		return b.typedRuns(data.StartUpID(c.judged.Number, runKey(i), line.entry), line.typed(b, s))
	case k == nil:
		return nil
	}
	for j := range k.Rounds {
		r := &k.Rounds[j]
		if r.Key != runKey(i) {
			continue
		}
		if line.result == "deciding" {
			return b.decidingRuns(c, k, r)
		}
		if x, ok := r.Result(line.result); ok {
			return []page.Run{b.value(data.ResultID(c.judged.Number, k.Key, r.Key, line.result), b.amount(x.Amount))}
		}
	}
	return nil
}

// decidingRuns is what a round holds against its limit. That of the standing
// round has its path in the table of verdicts.
func (b *book) decidingRuns(c towerCell, k *assess.Check, r *assess.Round) []page.Run {
	switch {
	case r.Deciding == nil:
		return nil
	case r == k.StandingRound():
		return plain(b.amount(*r.Deciding))
	}
	return []page.Run{b.value(data.Under(data.RoundID(c.judged.Number, k.Key, r.Key), "deciding"), b.amount(*r.Deciding))}
}

// partNotes are what is to be said of several checks; what is said of more than one
// stands once.
func (b *book) partNotes(c towerCell, checks []string) []page.Block {
	var texts []string
	of := map[string][]string{}
	for _, key := range checks {
		k := c.judged.Check(key)
		if k == nil {
			continue
		}
		for _, t := range append(b.noteTexts(k), b.findingTexts(k)...) {
			if of[t] == nil {
				texts = append(texts, t)
			}
			of[t] = append(of[t], b.say("check."+key))
		}
	}
	for i, t := range texts {
		texts[i] = b.say("grouping.check", "check", join("; ", of[t]...), "text", t)
	}
	return b.quietList(texts)
}

// runLimits is what the runs are held against, and on whose authority.
func (b *book) runLimits(c towerCell) []page.Block {
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 1.1}, {Width: 1.9}},
		Head:    [][]page.TableCell{b.headRow("limits.check", "limits.value", "limits.authority")},
		Summary: b.say("startup.limits"),
	}
	for _, key := range assess.StartUpChecks() {
		k := c.judged.Check(key)
		if k == nil || k.Limit == nil && k.Waiver == nil {
			continue
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(b.say("check." + key)), textCell(b.or(b.limitText(k.Limit), "verdict."+string(k.Verdict))), {Runs: b.sourceRuns(k)},
		}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}

// findingTexts are what the items of the standing round of a check are found to
// lack.
func (b *book) findingTexts(k *assess.Check) []string {
	var out []string
	if r := k.StandingRound(); r != nil {
		for i := range r.Items {
			for _, f := range r.Items[i].Findings {
				out = append(out, b.codeText(f))
			}
		}
	}
	return out
}
