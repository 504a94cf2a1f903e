package compose

import (
	"fmt"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// Layout of the first page.
const (
	stateSize      = 26 // points: the state is read from across the table
	frontReasons   = 8
	tilesPerRow    = 3
	manyCells      = 9 // from here on tiles are small
	tilesPerRowBig = 6
)

// front is the first page: can the tower be handed over, and what is missing.
func (b *book) front() []page.Block {
	p := &b.in.Record.Project
	blocks := []page.Block{
		page.Heading{Level: 1, Runs: plain(b.say("package.title")), Bookmark: b.stateTitle()},
		page.Paragraph{Runs: bold(join(" · ", b.towerName(), b.text(b.in.Record.Tower.Location), b.text(p.Plant))), Keep: true},
		page.Columns{Widths: []float64{56, 44}, Blocks: [][]page.Block{
			{b.statePanel()}, {b.documentTable()},
		}},
	}
	blocks = append(blocks, b.frontReasons()...)
	blocks = append(blocks, b.tiles(),
		page.Columns{Widths: []float64{50, 50}, Blocks: [][]page.Block{
			b.blankSignatures(), b.notProved(),
		}})
	return blocks
}

func (b *book) stateTitle() string {
	return join(": ", b.towerName(), b.say("state."+string(b.in.Assessment.State)))
}

// statePanel is the state of the package in a word, and what it rests on.
func (b *book) statePanel() page.Block {
	a := &b.in.Assessment
	cells := b.cells()
	clear := 0
	for _, c := range cells {
		if len(c.judged.Reasons) == 0 {
			clear++
		}
	}
	blocks := []page.Block{
		page.Paragraph{Runs: []page.Run{b.state(a.State)}, Size: stateSize},
		page.Paragraph{Runs: plain(b.count("front.cells", len(cells), "clear", strconv.Itoa(clear)))},
		b.para("front.readings", "found", strconv.Itoa(a.Found), "expected", strconv.Itoa(a.Expected)),
	}
	if a.Partial {
		blocks = append(blocks,
			page.Paragraph{Runs: bold(b.say("front.partial")), Keep: true},
			b.para("front.partialwhy"))
	}
	return page.Panel{Tone: stateTone(a.State), Blocks: blocks}
}

// documentTable names the document and the parties.
func (b *book) documentTable() page.Block {
	p := &b.in.Record.Project
	rows := [][2]string{
		{"front.plant", b.text(p.Plant)},
		{"front.tower", join(", ", b.text(b.in.Record.Tower.Tag), b.text(b.in.Record.Tower.Location))},
		{"front.owner", join(", ", b.text(p.Owner), b.text(p.OwnerContact))},
		{"front.contractor", join(", ", b.text(p.Contractor), b.text(p.ContractorAddress))},
		{"front.contract", b.text(p.Contract)},
		{"front.document", b.text(p.Document)},
		{"front.revision", join(": ", b.text(p.Revision), b.text(p.RevisionReason))},
		{"front.issued", join(" ", typedDay(p.IssueDate), b.text(p.TimeZone))},
		{"front.fingerprint", b.made.fingerprint},
	}
	if s := b.text(p.Supersedes); s != "" {
		rows = append(rows, [2]string{"front.supersedes", s})
	}
	return b.pairs("front.documentsummary", rows)
}

// pairs is a table of names and values. What is not filled in says so.
func (b *book) pairs(summary string, rows [][2]string) page.Table {
	t := page.Table{
		Columns: []page.Column{{Fit: true}, {Width: 1}},
		Summary: b.say(summary),
	}
	for _, r := range rows {
		value := plain(r[1])
		if r[1] == "" {
			value = muted(b.say("front.blank"))
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			{Runs: muted(b.say(r[0])), Header: true}, {Runs: value},
		}})
	}
	return t
}

// frontReasons are the first reasons, and where the others are.
func (b *book) frontReasons() []page.Block {
	groups := b.reasonGroups()
	if len(groups) == 0 {
		return nil
	}
	shown := len(groups)
	if shown > frontReasons+1 { // a line that says "and 1 more" could say it
		shown = frontReasons
	}
	list := page.List{Numbered: true}
	for _, g := range groups[:shown] {
		list.Items = append(list.Items, b.groupRuns(g))
	}
	blocks := []page.Block{
		page.Heading{Level: 2, Runs: plain(b.say("front.missing"))},
		list,
	}
	if rest := len(groups) - shown; rest > 0 {
		blocks = append(blocks, page.Paragraph{
			Runs: linked(plain(b.count("front.more", rest)), anchorReasons),
		})
	}
	return blocks
}

// tiles is one small panel per cell, each a link to its pages.
func (b *book) tiles() page.Block {
	all := b.allCells()
	out := page.Tiles{PerRow: tilesPerRow}
	if len(all) >= manyCells {
		out.PerRow = tilesPerRowBig
	}
	for _, c := range all {
		out.Tiles = append(out.Tiles, b.tile(c))
	}
	return out
}

func (b *book) tile(c towerCell) page.Tile {
	t := page.Tile{Head: bold(b.cellName(c))}
	if !c.present {
		t.Tone = page.Quiet
		t.Lines = [][]page.Run{muted(b.say("cell.absent"))}
		return t
	}
	found, expected := b.readings(c.judged)
	t.Tone = tileTone(c.judged)
	t.Link = cellAnchor(c.judged.Number)
	t.Lines = [][]page.Run{{b.state(c.judged.State)}}
	for _, line := range b.tallyLines(c.judged) {
		t.Lines = append(t.Lines, []page.Run{line})
	}
	t.Lines = append(t.Lines, muted(b.say("cell.readings",
		"found", strconv.Itoa(found), "expected", strconv.Itoa(expected))))
	return t
}

// tileTone leaves a cell pale that is held back by the tower alone.
func tileTone(c *assess.Cell) page.Tone {
	if c.State != assess.Ready && len(c.Reasons) == 0 {
		return page.Plain
	}
	return stateTone(c.State)
}

// tallyLines are the verdicts of a cell with their numbers, what needs
// attention first; "within" only where nothing does.
func (b *book) tallyLines(c *assess.Cell) []page.Run {
	n := tally(c)
	var out []page.Run
	for _, v := range []assess.Verdict{assess.Outside, assess.Recheck, assess.Missing, assess.NoLimit, assess.NearLimit} {
		if n[v] > 0 {
			run := b.verdict(v)
			run.Text = fmt.Sprintf("%d %s", n[v], run.Text)
			run.Face = page.Regular
			out = append(out, run)
		}
	}
	if len(out) == 0 {
		run := b.verdict(assess.Within)
		run.Text = fmt.Sprintf("%d %s", n[assess.Within], run.Text)
		out = append(out, run)
	}
	return out
}

// blankSignatures lists the blocks of the sign-off page, all blank in a file
// that has just been made.
func (b *book) blankSignatures() []page.Block {
	blocks := []page.Block{page.Heading{Level: 2, Runs: plain(b.say("front.signatures"))}}
	for _, r := range b.in.Record.Roles {
		blocks = append(blocks, page.Paragraph{Runs: []page.Run{{
			Text: join(", ", b.text(r.Title), b.text(r.Name), b.text(r.Organization)),
			Mark: page.MarkBox, Link: anchorSignOff}}})
	}
	if len(b.in.Record.Roles) == 0 {
		return append(blocks, b.para("front.noroles"))
	}
	return blocks
}

func (b *book) notProved() []page.Block {
	return []page.Block{
		page.Heading{Level: 2, Runs: plain(b.say("front.notproved.title"))},
		page.List{Items: b.steps("front.notproved")},
	}
}
