package compose

import (
	"strings"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// limits lists what every check is judged by, and on whose authority.
func (b *book) limits() []page.Block {
	blocks := []page.Block{
		b.h2("limits.title", anchorLimits),
		b.lead("limits.intro"),
		b.limitTable(),
		b.h3("limits.decision"),
		b.para("limits.rule." + b.decision()),
		b.para("limits.at"),
	}
	if b.hasStarting() {
		blocks = append(blocks, page.Panel{Tone: page.Warn, Blocks: []page.Block{b.para("limits.starting")}})
	}
	return blocks
}

// decision is the code of the decision rule; blank means simple acceptance.
func (b *book) decision() string {
	if d := b.in.Record.Tower.Decision; d.Value != "" {
		b.tell(d.At)
		return d.Value
	}
	return "simple"
}

func (b *book) hasStarting() bool {
	for _, l := range b.in.Record.Limits {
		if l.Authority.Value == "start" {
			return true
		}
	}
	return false
}

func (b *book) limitTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1.2}, {Width: 2.1}, {Width: 1.9}, {Width: 2.2}, {Width: 1.7}},
		Head: [][]page.TableCell{b.headRow("limits.check", "limits.criterion",
			"limits.value", "limits.authority", "limits.accepted")},
		Summary: b.say("limits.table"),
	}
	for _, g := range allGroups() {
		t.Rows = append(t.Rows, b.groupRow(g, len(t.Columns))...)
		for _, key := range g.checks {
			t.Rows = append(t.Rows, b.limitRow(key))
		}
	}
	return t
}

// groupRow names a part of the job in a table of checks.
func (b *book) groupRow(g checkGroup, columns int) []page.TableRow {
	return []page.TableRow{{Keep: true, Rule: true, Cells: []page.TableCell{
		{Runs: bold(b.say("group." + g.key)), Header: true, Span: columns}}}}
}

func (b *book) limitRow(key string) page.TableRow {
	l := b.limitOf(key)
	row := page.TableRow{Cells: []page.TableCell{
		rowHead(b.say("check." + key)),
		textCell(b.say("criterion." + key)),
	}}
	switch words := b.optional("limits.without." + key); {
	case l == nil && words != "":
		row.Cells = append(row.Cells, page.TableCell{Runs: muted(words), Span: 3})
		return row
	case l == nil:
		row.Cells = append(row.Cells, b.verdictCell(b.withoutLimit(key)), page.TableCell{}, page.TableCell{})
		return row
	}
	row.Cells = append(row.Cells,
		page.TableCell{Runs: b.limitRuns(l)},
		page.TableCell{Runs: b.authorityRuns(l)},
		page.TableCell{Runs: b.acceptedRuns(l)})
	return row
}

// withoutLimit is what a check without a limit comes to: nobody asked, or no
// limit.
func (b *book) withoutLimit(key string) assess.Verdict {
	for _, c := range b.cells() {
		if k := c.judged.Check(key); k != nil && k.Waiver == nil && k.Verdict == assess.NotRequired {
			return assess.NotRequired
		}
	}
	return assess.NoLimit
}

// limitOf is the row of the limits sheet for a check, where it holds a value.
func (b *book) limitOf(check string) *field.Limit {
	for i := range b.in.Record.Limits {
		l := &b.in.Record.Limits[i]
		if l.Check == check && len(b.limitParts(l)) > 0 {
			return l
		}
	}
	return nil
}

// limitPart is one value of a limit: its member in the data file and its text.
type limitPart struct{ member, text, other string }

func (b *book) limitParts(l *field.Limit) []limitPart {
	var out []limitPart
	for _, p := range []limitPart{
		{"min", b.asTyped(l.Min), b.otherUnit(l.Min)},
		{"nominal", b.asTyped(l.Nominal), b.otherUnit(l.Nominal)},
		{"angleNominal", b.typedAngle(l.AngleNominal), ""},
		{"tolerance", b.asTyped(l.Tolerance), b.otherUnit(l.Tolerance)},
		{"angleTolerance", b.typedAngle(l.AngleTol), ""},
		{"max", b.asTyped(l.Max), b.otherUnit(l.Max)},
		{"slope", b.slopeTyped(l.Slope), ""},
		{"quantityMin", b.quantityTyped(l.Quantities.Min), ""},
		{"quantityNominal", b.quantityTyped(l.Quantities.Nominal), ""},
		{"quantityTolerance", b.quantityTyped(l.Quantities.Tolerance), ""},
		{"quantityMax", b.quantityTyped(l.Quantities.Max), ""},
	} {
		if p.text != "" {
			out = append(out, p)
		}
	}
	return out
}

// limitRuns prints the values of a limit with their words, each under its path.
func (b *book) limitRuns(l *field.Limit) []page.Run {
	var runs []page.Run
	parts := b.limitParts(l)
	alone := len(parts) == 1
	for _, p := range parts {
		word := b.say(b.limitWord(l.Check, "limits."+p.member, alone))
		if len(runs) > 0 {
			word = ", " + word
		}
		runs = append(runs, page.Run{Text: word + " "}, b.value(data.LimitID(l.Check, p.member), p.text))
		if p.other != "" {
			runs = append(runs, page.Run{Text: " (" + p.other + ")", Face: page.Muted})
		}
	}
	if word := b.code("limits.criterion", l.Criterion); word != "" {
		runs = append([]page.Run{{Text: word + ": "}}, runs...)
	}
	if l.MinCount.Set {
		runs = append(runs, page.Run{Text: b.say("limits.mincount") + " "},
			b.value(data.LimitID(l.Check, "minCount"), b.counted(l.MinCount)))
	}
	return runs
}

// limitText is the limit in one short line, for the tables of cells.
func (b *book) limitText(l *field.Limit) string {
	if l == nil {
		return ""
	}
	var out string
	alone := len(b.limitParts(l)) == 1
	for _, p := range []struct{ word, text string }{
		{"limits.short.min", b.leading(l.Min)},
		{"limits.short.nominal", b.leading(l.Nominal)},
		{"limits.short.nominal", b.typedAngle(l.AngleNominal)},
		{"limits.short.tolerance", b.leading(l.Tolerance)},
		{"limits.short.tolerance", b.typedAngle(l.AngleTol)},
		{"limits.short.max", b.leading(l.Max)},
		{"limits.short.max", b.slopeTyped(l.Slope)},
		{"limits.short.min", b.quantityTyped(l.Quantities.Min)},
		{"limits.short.nominal", b.quantityTyped(l.Quantities.Nominal)},
		{"limits.short.tolerance", b.quantityTyped(l.Quantities.Tolerance)},
		{"limits.short.max", b.quantityTyped(l.Quantities.Max)},
	} {
		if p.text == "" {
			continue
		}
		word, between := b.limitWord(l.Check, p.word, alone), " "
		if word == "limits.short.max" { // "at least this, at most that"
			between = ", "
		}
		out = join(between, out, b.say(word, "value", p.text, "whole", b.whole(l)))
	}
	return join(": ", b.code("limits.criterion", l.Criterion), out)
}

// limitWord is the key of a word for a value of a limit: the check's own where
// the common one would be read wrongly, and another where it is the only one.
func (b *book) limitWord(check, word string, alone bool) string {
	own := "limits.of." + check + "." + strings.TrimPrefix(word, "limits.")
	switch {
	case alone && b.in.Words.Has(own+"Alone"):
		return own + "Alone"
	case b.in.Words.Has(own):
		return own
	}
	return word
}

// whole is the widest range that a limit of one same distance allows.
func (b *book) whole(l *field.Limit) string {
	_, most := assess.Bounds(l.Check, l)
	if most == nil || l.Check != assess.TipRadius {
		return ""
	}
	return b.amount(*most)
}

// authorityText is the document a limit stands in.
func (b *book) authorityText(l *field.Limit) string {
	if l == nil {
		return ""
	}
	return join(", ", b.code("authority", l.Authority), b.text(l.Document),
		b.wordFor("limits.clause", b.text(l.Clause)), b.wordFor("limits.revision", b.text(l.Revision)))
}

// wordFor puts a text into the phrase of the key, and nothing into nothing.
func (b *book) wordFor(key, text string) string {
	if text == "" {
		return ""
	}
	return b.say(key, "text", text)
}

func (b *book) authorityRuns(l *field.Limit) []page.Run {
	text := b.authorityText(l)
	if text == "" {
		return muted(b.say("limits.noauthority"))
	}
	return plain(text)
}

func (b *book) acceptedRuns(l *field.Limit) []page.Run {
	text := join(", ", b.text(l.AcceptedBy), b.text(l.Organization), b.typedDay(l.AcceptedOn))
	if text == "" {
		return muted(b.say("limits.notaccepted"))
	}
	return plain(text)
}
