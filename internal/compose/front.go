package compose

import (
	"fmt"
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// Layout of the first page.
const (
	// Points: the state is read from across the table, on one line.
	notReadySize   = 26
	readySize      = 19
	frontReasons   = 9 // the most that are read
	tilesPerRow    = 3
	manyCells      = 9 // from here on tiles are small
	tilesPerRowBig = 6
)

// frontSection is the first page with as many reasons as it has room for; where
// names are so long that not even one has, the tiles go without the names.
func (b *book) frontSection() page.Section {
	metrics, err := page.NewMetrics()
	if err != nil {
		b.fail(err)
		return page.Section{}
	}
	var s page.Section
	fits := func(short bool, most int) bool {
		b.shortTiles = short
		s = b.section("front", "", b.front(most))
		if b.err() != nil {
			return true
		}
		n, err := page.PagesOf(b.in.paper(), s, metrics)
		return n == 1 || err != nil // an error is said again where the book is placed
	}
	if b.many() && !fits(true, 1) { // then nothing does, and all other trials take long
		return s
	}
	for _, short := range []bool{false, true} {
		for most := frontReasons; most > 0; most-- {
			if fits(short, most) {
				return s
			}
		}
	}
	return s
}

// front is the first page: can the tower be handed over, and what stands in the
// way, the worst first, with what to do about it.
func (b *book) front(most int) []page.Block {
	p := &b.in.Record.Project
	blocks := []page.Block{
		page.Heading{Level: 1, Runs: plain(b.say("package.title")), Bookmark: b.stateTitle()},
		page.Paragraph{Runs: bold(join(" · ", b.subject(), b.text(b.in.Record.Tower.Location), b.text(p.Plant))), Keep: true},
		page.Columns{Widths: []float64{56, 44}, Blocks: [][]page.Block{
			{b.statePanel()}, {b.documentTable()},
		}},
	}
	blocks = append(blocks, b.frontReasons(most)...)
	blocks = append(blocks, b.tiles())
	if len(b.in.Assessment.Cells) > tilesPerRow {
		return append(blocks, b.frontSmall()...)
	}
	return append(blocks, halves(b.blankSignatures(), b.notProved()))
}

// many tells whether there are so many cells that the first page has to be
// close set.
func (b *book) many() bool { return len(b.in.Assessment.Cells) >= manyCells }

func (b *book) stateTitle() string {
	return join(": ", b.subject(), b.say("state."+string(b.in.Assessment.State)))
}

// statePanel is the state of the package in a word, and what it rests on.
func (b *book) statePanel() page.Block {
	a := &b.in.Assessment
	cells := b.cells()
	clear := 0
	for _, c := range cells {
		if len(c.judged.Own()) == 0 {
			clear++
		}
	}
	size := float64(notReadySize)
	if a.State == assess.Ready {
		size = readySize
	}
	blocks := []page.Block{
		page.Paragraph{Runs: []page.Run{b.state(a.State)}, Size: size},
		b.para("front.cells", "n", strconv.Itoa(len(cells)), "clear", strconv.Itoa(clear)),
		b.para("front.readings", "found", strconv.Itoa(a.Found), "expected", strconv.Itoa(a.Expected)),
	}
	blocks = append(append(blocks, b.wholeTally(cells)...), b.worstCell(cells)...)
	if b.in.Options.Cell != 0 {
		blocks = append(blocks, b.para("each.part", "cell", strconv.Itoa(b.in.Options.Cell), "n", strconv.Itoa(len(b.allCells()))))
	}
	if b.in.Previous != nil {
		blocks = append(blocks, page.Paragraph{Runs: b.frontChanges()})
	}
	return page.Panel{Tone: stateTone(a.State), Blocks: blocks}
}

// wholeTally counts what stands against all cells together; nothing for a single
// cell, and where nothing does.
func (b *book) wholeTally(cells []towerCell) []page.Block {
	sum := map[assess.Verdict]int{}
	for _, c := range cells {
		for v, n := range c.tally() {
			sum[v] += n
		}
	}
	if len(cells) < 2 || sum[assess.Outside]+sum[assess.Recheck]+sum[assess.Missing]+sum[assess.NoLimit] == 0 {
		return nil
	}
	counts := b.tallyOf(sum, b.word)
	runs := []page.Run{{Text: b.say("front.checks") + " "}}
	return []page.Block{page.Paragraph{Runs: append(runs, apart(counts)...)}}
}

// worstCell names the worst cell with what counts against it; nothing where none
// has anything of its own against it, and in a tower of one cell.
func (b *book) worstCell(cells []towerCell) []page.Block {
	if len(cells) < 2 {
		return nil
	}
	for _, c := range cells {
		if c.judged.Number != b.cellOrder()[0] || len(c.judged.Reasons) == 0 {
			continue
		}
		runs := []page.Run{{Text: b.say("front.worst") + " ", Face: page.Bold},
			{Text: b.cellName(c), Link: cellAnchor(c.judged.Number)}, {Text: ": "}}
		return []page.Block{page.Paragraph{Runs: append(runs, b.tallyRuns(c)...)}}
	}
	return nil
}

// tallyRuns are the verdicts of a cell that count against it, in one line.
func (b *book) tallyRuns(c towerCell) []page.Run { return apart(b.tallyLines(c)) }

// apart sets runs apart in a line.
func apart(runs []page.Run) []page.Run {
	var out []page.Run
	for i, line := range runs {
		if i > 0 {
			out[len(out)-1].Text += "   "
		}
		out = append(out, line)
	}
	return out
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
		{"front.issued", join(" ", b.typedDay(p.IssueDate), b.text(p.TimeZone))},
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

// frontReasons are the first reasons, each with what to do, and where the others
// are.
func (b *book) frontReasons(most int) []page.Block {
	groups := b.reasonGroups()
	head := page.Heading{Level: 2, Runs: plain(b.say("front.missing"))}
	if len(groups) == 0 {
		head.Runs = plain(b.say("summary.clear"))
		return []page.Block{head, b.para("summary.noreasons")}
	}
	shown := len(groups)
	if shown > most+1 { // a line that says "and 1 more" could say it
		shown = most
	}
	list := page.List{Numbered: true}
	said := map[string]int{}
	for i, g := range groups[:shown] {
		runs := b.groupRuns(g)
		if cure := b.sayOnce(g, said, i+1); cure != nil {
			runs[len(runs)-1].Text += " "
			runs = append(runs, cure...)
		}
		list.Items = append(list.Items, runs)
	}
	blocks := []page.Block{head, list}
	if rest := len(groups) - shown; rest > 0 {
		blocks = append(blocks, page.Paragraph{
			Runs: toPage(func(page string) string { return b.count("front.more", rest, "page", page) }, anchorReasons),
		})
	}
	return blocks
}

// sayOnce is the line below a reason. Where the same moves of the same cells were
// told before it points there, so that one job is not read as two.
func (b *book) sayOnce(g reasonGroup, said map[string]int, number int) []page.Run {
	cure := b.cureLine(g)
	if cure == nil || family(g.first.Key) != reasonOutside || !slices.Contains(curable, g.first.Check) {
		return cure
	}
	key := fmt.Sprint(g.cells)
	for _, r := range cure {
		key += r.Text
	}
	if first := said[key]; first != 0 {
		return append(cure[:1:1], page.Run{Text: b.say("cure.same", "number", strconv.Itoa(first))})
	}
	said[key] = number
	return cure
}

// blankSignatures lists the blocks of the sign-off page, all blank in a file
// that has just been made.
func (b *book) blankSignatures() []page.Block {
	blocks := []page.Block{b.frontHead("front.signatures")}
	for _, r := range b.in.Record.Roles {
		blocks = append(blocks, page.Paragraph{Runs: []page.Run{b.blankRole(r)}})
	}
	if len(b.in.Record.Roles) == 0 {
		return append(blocks, b.para("front.noroles"))
	}
	return blocks
}

func (b *book) notProved() []page.Block {
	return []page.Block{
		b.frontHead("front.notproved.title"),
		page.List{Items: b.steps("front.notproved")},
	}
}

// frontHead is a heading in the lower part of the first page.
func (b *book) frontHead(key string) page.Block {
	return page.Heading{Level: 3, Runs: plain(b.say(key))}
}

// frontSmall says in two small paragraphs what blankSignatures and notProved
// say in lists.
func (b *book) frontSmall() []page.Block {
	signed := bold(b.say("front.signatures") + ": ")
	for _, r := range b.in.Record.Roles {
		signed = append(signed, b.blankRole(r), page.Run{Text: "  "})
	}
	if len(b.in.Record.Roles) == 0 {
		signed = plain(b.say("front.noroles"))
	}
	doubts := bold(b.say("front.notproved.title") + ": ")
	for _, item := range b.steps("front.notproved") {
		doubts = append(append(doubts, item...), page.Run{Text: " "})
	}
	return []page.Block{
		page.Paragraph{Runs: signed, Size: smallSize},
		page.Paragraph{Runs: doubts, Size: smallSize},
	}
}

// blankRole is a role whose signature is blank; it says so where nobody is named.
func (b *book) blankRole(r field.Role) page.Run {
	return page.Run{Text: join(", ", b.text(r.Title), b.or(b.text(r.Name), "front.unnamed"), b.text(r.Organization)),
		Mark: page.MarkBox, Link: anchorSignOff}
}
