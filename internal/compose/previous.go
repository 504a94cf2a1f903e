package compose

import (
	"fmt"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/page"
)

// Previous is the package that came before, as far as it is needed to say what
// has changed, and to say it again from inside the new one.
type Previous struct {
	data, manifest []byte
	head           *data.Previous
}

// NewPrevious takes the data file of the earlier package and its manifest, nil
// where that is not at hand.
func NewPrevious(file, manifest []byte) (*Previous, error) {
	head, err := data.ReadPrevious(file, manifest)
	if err != nil {
		return nil, err
	}
	return &Previous{file, manifest, head}, nil
}

func (p *Previous) stated() *data.Previous {
	if p == nil {
		return nil
	}
	return p.head
}

// parts are the files of the earlier package that go into the new one.
func (p *Previous) parts() []data.Part {
	if p == nil {
		return nil
	}
	parts := []data.Part{{Name: data.PreviousDataName, MIME: jsonMIME, Kind: data.Earlier, Bytes: p.data}}
	if p.manifest != nil {
		parts = append(parts, data.Part{Name: data.PreviousManifestName, MIME: jsonMIME, Kind: data.Earlier, Bytes: p.manifest})
	}
	return parts
}

const jsonMIME = "application/json"

// compare finds what is not as it was in the earlier package.
func (m *made) compare(in *Input) error {
	if in.Previous == nil {
		return nil
	}
	for _, p := range m.parts {
		if p.Name == data.DataName {
			list, err := data.CompareFiles(in.Previous.data, p.Bytes)
			if err != nil {
				return fmt.Errorf("compare with the earlier package: %w", err)
			}
			m.changes = sortChanges(list, in.Options.Cell)
		}
	}
	return nil
}

// changesPages say what has changed since the last issue.
func (b *book) changesPages() []page.Block {
	c, p := &b.made.changes, b.in.Previous.head
	blocks := []page.Block{
		b.h2("changes.title", anchorChanges),
		b.pairs("changes.summary", [][2]string{
			{"changes.reason", b.text(b.in.Record.Project.RevisionReason)},
			{"changes.last", join(", ", b.previousName(), b.clean(p.Issued, noPlace))},
			{"changes.laststate", b.optional("state." + p.State)},
			{"changes.lastprint", b.or(p.Fingerprint, "changes.noprint")},
		}),
	}
	if c.none() {
		return append(blocks, b.para("changes.none"))
	}
	blocks = append(blocks, b.para("changes.intro"))
	for _, part := range []struct {
		key   string
		lines []change
	}{{"changes.cells", c.cells}, {"changes.verdicts", c.verdicts}, {"changes.limits", c.limits},
		{"changes.readings", c.readings}, {"changes.entries", c.entries}} {
		if len(part.lines) > 0 {
			blocks = append(blocks, b.h3(part.key), b.changeTable(part.key, part.lines))
		}
	}
	return blocks
}

// previousName is the number and revision of the last issue.
func (b *book) previousName() string {
	p := b.in.Previous.head
	number, revision := b.clean(p.Document, noPlace), b.clean(p.Revision, noPlace)
	switch {
	case number == "":
		return b.say("page.nonumber")
	case revision == "":
		return number
	}
	return b.say("page.document", "number", number, "revision", revision)
}

// changeTable has a line for each change: where, what it was, what it is.
func (b *book) changeTable(summary string, lines []change) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 2.4}, {Width: 1.3}, {Width: 1.3}},
		Head:    [][]page.TableCell{b.headRow("changes.where", "changes.was", "changes.is")},
		Summary: b.say(summary),
	}
	for _, x := range lines {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			{Header: true, Runs: b.whereRuns(x)}, b.changeCell(x, x.old, x.lost, false), b.changeCell(x, x.new, x.more, true),
		}})
	}
	return t
}

// whereRuns name the place of a change; a check of a cell of this package is a
// link to it.
func (b *book) whereRuns(x change) []page.Run {
	runs := plain(b.whereText(x))
	if x.cell > 0 && x.check != "" && b.judgedHere(x.cell, x.check) {
		return linked(runs, b.checkAnchor(x.cell, x.check))
	}
	return runs
}

func (b *book) judgedHere(cell int, check string) bool {
	c, here := b.cellOf(cell)
	return here && c.judged.Check(check) != nil
}

// changeCell is one side of a change.
func (b *book) changeCell(x change, v *data.Printed, many int, isNew bool) page.TableCell {
	switch {
	case many > 0 && len(x.keys) == 2 && x.cell > 0:
		return textCell(b.say("changes.cell." + map[bool]string{true: "in", false: "out"}[isNew]))
	case many > 0 && isNew:
		return textCell(b.count("changes.added", many))
	case many > 0:
		return textCell(b.count("changes.removed", many))
	case v == nil:
		return page.TableCell{Runs: muted(b.say("changes.nothing"))}
	case x.isVerdict() && b.in.Words.Has("verdict."+v.Value):
		return b.verdictCell(assess.Verdict(v.Value))
	case x.isVerdict() && b.in.Words.Has("state."+v.Value):
		return cell(b.state(assess.State(v.Value)))
	}
	return textCell(b.changedText(x, v))
}

// changedText is a value as people read it: a code in its word, else as typed.
func (b *book) changedText(x change, v *data.Printed) string {
	if word := b.codeWord(x, v.Value); word != "" {
		return word
	}
	if v.Typed != "" {
		return b.clean(v.Typed, noPlace)
	}
	unit := v.Unit
	if unit == "1" || v.Index != "" {
		unit = ""
	}
	return b.clean(join(" ", v.Value, unit), noPlace)
}

// frontChanges tells on the first page how much has changed.
func (b *book) frontChanges() []page.Run {
	c := &b.made.changes
	since := b.say("changes.since", "document", b.previousName())
	if c.none() {
		return linked(plain(since+" "+b.say("changes.nonefront")), anchorChanges)
	}
	var parts []string
	for _, x := range []struct {
		key string
		n   int
	}{{"changes.count.cells", len(c.cells)}, {"changes.count.verdicts", c.verdictCount()}, {"changes.count.limits", count(c.limits)},
		{"changes.count.readings", count(c.readings)}, {"changes.count.entries", len(c.entries)}} {
		if x.n > 0 {
			parts = append(parts, b.count(x.key, x.n))
		}
	}
	return linked(plain(since+" "+join(", ", parts...)), anchorChanges)
}

func cellKey(key string) int {
	n, err := strconv.Atoi(key)
	if err != nil {
		return 0
	}
	return n
}
