package compose

import (
	"errors"
	"slices"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/page"
)

// ErrNoCard: no cell that was asked for needs a card.
var ErrNoCard = errors.New("no cell needs a move")

// Card says what stands on the crew cards: a page for each cell where something
// is to be moved, or something must be read or filled in first. Cells picks
// them; none is all cells of the package.
func Card(in Input, cells ...int) (page.Book, error) {
	m, err := makeFiles(&in)
	if err != nil {
		return page.Book{}, err
	}
	metrics, err := page.NewMetrics()
	if err != nil {
		return page.Book{}, err
	}
	b := newBook(&in, m)
	out := b.cardBook()
	for _, moves := range in.Moves {
		c, ok := b.cellOf(moves.Cell)
		if !ok || len(cells) > 0 && !slices.Contains(cells, moves.Cell) || !b.wantsCard(c, moves) {
			continue
		}
		section, err := b.fitted(out, c, moves, metrics)
		if err != nil {
			return page.Book{}, errors.Join(b.err(), err)
		}
		out.Sections = append(out.Sections, section)
	}
	if err := b.err(); err != nil {
		return page.Book{}, err
	}
	if len(out.Sections) == 0 {
		return page.Book{}, ErrNoCard
	}
	return out, nil
}

// WriteCard makes the cards and returns the finished bytes.
func WriteCard(in Input, cells ...int) ([]byte, error) {
	content, err := Card(in, cells...)
	if err != nil {
		return nil, err
	}
	out, err := page.Write(content)
	if err != nil {
		return nil, newBook(&in, made{}).locate(err)
	}
	return out, nil
}

func (b *book) cardBook() page.Book {
	p := &b.in.Record.Project
	return page.Book{
		Paper:    b.in.paper(),
		Title:    b.say("card.document") + " – " + b.towerName(),
		Author:   b.text(p.Contractor),
		Subject:  b.say("card.subject", "tower", b.towerName(), "plant", b.text(p.Plant)),
		Keywords: []string{b.say("card.keyword")},
		Creator:  b.in.Program,
		Lang:     b.in.Words.Tag(),
		Issued:   b.issued(),
		Profile:  b.in.Options.Profile,
		Effort:   b.effort(),
	}
}

// density is how much of what is only useful stands on a card. What must be on
// it is the same at each.
type density int

const (
	allBoxes   density = iota // a box for every reading to be taken again
	mainBoxes                 // for what the moves are for, and the drive line
	fewBoxes                  // the same without the shaft ends, and a smaller sketch
	leastBoxes                // for what the moves are for
	oneRow                    // for the first of them
	lowSketch                 // the same with a low sketch, and what is said beside it across the page
)

// fitted is the card with as much on it as one page holds. Where all moves do not
// fit, the last ones wait for the re-read.
func (b *book) fitted(frame page.Book, c towerCell, m correct.Moves, metrics *page.Metrics) (page.Section, error) {
	for n := max(1, len(m.Moves)); ; n-- {
		for d := allBoxes; d <= lowSketch; d++ {
			s := b.cardSection(c, firstMoves(m, n), d, n >= len(m.Moves))
			if err := b.err(); err != nil {
				return s, err
			}
			frame.Sections = []page.Section{s}
			placed, err := page.Place(frame, metrics)
			if err != nil || placed.Pages() == 1 || n == 1 && d == lowSketch {
				return s, err
			}
		}
	}
}

// firstMoves is the same with the first n moves; what is foretold is so of all,
// and is left out where some wait.
func firstMoves(m correct.Moves, n int) correct.Moves {
	if n >= len(m.Moves) {
		return m
	}
	m.Later = append(append([]correct.Move(nil), m.Moves[n:]...), m.Later...)
	m.Moves = m.Moves[:n]
	return m
}

// movable are the checks that a move can be advised for.
var movable = []string{assess.Tilt, assess.Track, assess.TipRadius, assess.Clearance, assess.Pitch, assess.PitchSpread,
	assess.CouplingGear, assess.CouplingMotor, assess.ShaftEnds}

// wantsCard tells whether there is something to move, or a check that calls for
// a move and something that keeps it from being said.
func (b *book) wantsCard(c towerCell, m correct.Moves) bool {
	if len(m.Moves) > 0 {
		return true
	}
	if len(m.Notes) == 0 {
		return false
	}
	for _, key := range movable {
		k := c.judged.Check(key)
		if k != nil && (k.Verdict == assess.Outside || k.Verdict == assess.Recheck || b.lastOutside(k)) {
			return true
		}
	}
	return false
}

// lastOutside tells whether the last round that was read is outside: a crew asks
// before there is an as left.
func (b *book) lastOutside(k *assess.Check) bool {
	r := used(k)
	return r != nil && r.Verdict == assess.Outside
}

// used is the round that moves start from: the standing one, else the last that
// was read.
func used(k *assess.Check) *assess.Round {
	if r := k.StandingRound(); r != nil {
		return r
	}
	for i := len(k.Rounds) - 1; i >= 0; i-- {
		if k.Rounds[i].Found > 0 {
			return &k.Rounds[i]
		}
	}
	return nil
}

// Type sizes of a card in points: what is moved is read at arm's length.
const (
	cardMove = 16.0
	cardText = 11.0
	// cardPieces is that of a table with a column more.
	cardPieces = 13.0
)

func (b *book) cardSection(c towerCell, m correct.Moves, d density, whole bool) page.Section {
	name := b.cellName(c)
	blocks := []page.Block{
		page.Heading{Level: 1, Runs: plain(b.cardTitle(name, m)), Bookmark: name},
		b.lockOut(c),
	}
	if len(m.Moves) > 0 {
		blocks = append(blocks, b.cardMoves(c, m, d, whole)...)
	} else {
		blocks = append(blocks, b.cardWhyNot(c, m, d)...)
	}
	return page.Section{Key: cellAnchor(m.Cell), Blocks: blocks, Head: page.Head{
		Left:      b.say("card.head", "tower", b.towerName(), "cell", name),
		Right:     b.documentName(),
		FootLeft:  b.say("card.foot", "fingerprint", b.made.fingerprint),
		FootRight: b.say("page.number", "page", "{page}", "pages", "{pages}"),
		Notice:    b.text(b.in.Record.Project.Notice),
	}}
}

func (b *book) cardTitle(name string, m correct.Moves) string {
	key := "card.cannot"
	switch {
	case len(m.Moves) > 0:
		key = "card.title"
	case hasCode(m.Notes, keyOvertaken):
		key = "card.stop"
	}
	return b.say(key, "cell", name)
}

func hasCode(notes []assess.Code, key string) bool {
	return slices.ContainsFunc(notes, func(c assess.Code) bool { return c.Key == key })
}

// lockOut is the first thing on the card: the tags of this cell.
func (b *book) lockOut(c towerCell) page.Block {
	starter := b.or(b.text(c.read.Starter), "card.notag")
	disconnect := b.or(b.text(c.read.Disconnect), "card.notag")
	return page.Panel{Tone: page.Bad, Blocks: []page.Block{page.Paragraph{Size: cardMove, Runs: []page.Run{
		{Text: b.say("card.lock") + " ", Face: page.Bold},
		{Text: b.say("card.starter", "tag", starter) + " · " + b.say("card.disconnect", "tag", disconnect), Face: page.Bold},
	}}}}
}

// cardMoves is a card with something to do; whole tells that all moves are on it.
func (b *book) cardMoves(c towerCell, m correct.Moves, d density, whole bool) []page.Block {
	right := b.cardList(m)
	beside := append(append(b.cardRemarks(c), b.cardSaid(m, d)...), b.voidLine(c, m))
	if d < lowSketch {
		right, beside = append(right, beside...), nil
	}
	blocks := append([]page.Block{page.Columns{Widths: []float64{sketchWidth, b.fullWidth() - columnGap - sketchWidth},
		Blocks: [][]page.Block{{b.cardSketch(m, d)}, right}}}, beside...)
	for _, x := range m.Moves {
		if t, ok := b.moveTable(x); ok {
			blocks = append(blocks, t)
		}
	}
	blocks = append(blocks, b.cautions())
	return append(blocks, b.cardAfter(m, d, whole)...)
}

// cardWhyNot is a card that says what is to be read or filled in.
func (b *book) cardWhyNot(c towerCell, m correct.Moves, d density) []page.Block {
	var why []page.Block
	for _, n := range b.saidAlong(m) {
		if n.Key != keyOvertaken {
			why = append(why, page.Paragraph{Runs: plain(b.moveCode(n)), Size: 14})
		}
	}
	if text := b.overtakenText(m); text != "" {
		why = append(why, page.Paragraph{Runs: plain(text), Size: 14})
	}
	out := append([]page.Block{page.Panel{Tone: page.Warn, Blocks: why}}, b.cardRemarks(c)...)
	out = append(out, b.cautions())
	if again := overtakenChecks(m); len(again) > 0 {
		out = append(out, b.boxes(again, d))
	}
	return out
}

// overtakenChecks are the checks that are to be read again first.
func overtakenChecks(m correct.Moves) []string {
	var out []string
	for _, n := range m.Notes {
		for _, a := range n.Args {
			if n.Key == keyOvertaken && a.Name == "check" && !slices.Contains(out, a.Text) {
				out = append(out, a.Text)
			}
		}
	}
	return out
}

// cardList is the moves in order, big. What a table below holds is not said
// twice.
func (b *book) cardList(m correct.Moves) []page.Block {
	var out []page.Block
	for i, x := range m.Moves {
		out = append(out, page.Paragraph{Size: cardMove, Keep: true, Runs: bold(numbered(i+1, b.moveTitle(x)))})
		if _, tabled := b.moveTable(x); tabled {
			continue
		}
		for _, s := range b.moveSteps(x) {
			out = append(out, page.Paragraph{Size: cardMove, Runs: plain(s)})
		}
	}
	if len(m.Later) > 0 {
		out = append(out, page.Paragraph{Size: cardText + 2, Runs: bold(b.say("card.rest"))})
	}
	return out
}

func numbered(n int, text string) string { return strings.Join([]string{itoa(n), text}, ". ") }

// unsaid are codes that stay off a card: they say why something else is not
// done, which the crew need not know to move what is.
var unsaid = []string{"correct.restwaits", "correct.nothingtogain", "correct.within", "correct.floor", "correct.verdictstays",
	"correct.drivereread", "correct.motorwaits"} // the list of what to read again has it

func hasKind(moves []correct.Move, kind string) bool {
	return slices.ContainsFunc(moves, func(m correct.Move) bool { return m.Kind == kind })
}

// cardSaid is what must be known while moving: limits that bind and inputs that
// are not there. Where room is short, that nobody knows how sure the readings
// are is left to the pages of the package, and to the box that asks for the first
// position again.
func (b *book) cardSaid(m correct.Moves, d density) []page.Block {
	var out []page.Block
	for _, n := range b.saidAlong(m) {
		short := n.Key == "correct.nouncertainty" && d >= fewBoxes
		waits := n.Key == "correct.need.slots" && !hasKind(m.Moves, correct.KindSlide)
		if !short && !waits && n.Key != keyOvertaken && !slices.Contains(unsaid, n.Key) {
			out = append(out, page.Paragraph{Size: cardText, Runs: plain(b.moveCode(n))})
		}
	}
	if text := b.overtakenText(m); text != "" {
		out = append(out, page.Paragraph{Size: cardText, Runs: plain(text)})
	}
	return out
}

const keyOvertaken = "correct.overtaken"

// overtakenText says once for all checks what the codes say of each.
func (b *book) overtakenText(m correct.Moves) string {
	var names []string
	for _, key := range overtakenChecks(m) {
		names = append(names, b.say("check."+key))
	}
	if len(names) == 0 {
		return ""
	}
	return b.say("card.overtaken", "checks", strings.Join(names, "; "))
}
