package compose

import (
	"slices"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/page"
)

// cureOf is what to do about a reason, in words: the moves that were worked out
// for it, what keeps them from being said, or what the reason itself calls for;
// nil where there is nothing to be said. Readings that have no cure of their own
// are simply to be taken.
func (b *book) cureOf(g reasonGroup) []page.Run {
	text := ""
	if len(g.cells) == 1 {
		text = b.moveCure(g.cells[0], g.first.Check, g.first.Key)
	}
	if text == "" {
		pairs := append(b.codePairs(g.first.Code), "asked", b.askedBelow(g))
		text = b.optional("cure."+strings.TrimPrefix(family(g.first.Key), "reason."), pairs...)
	}
	return plain(text)
}

// moveCure is the cure that was worked out from the readings of a check.
func (b *book) moveCure(cell int, check, reason string) string {
	m, ok := b.movesOf(cell)
	if !ok || family(reason) != reasonOutside || !slices.Contains(curable, check) {
		return ""
	}
	var moves []string
	for _, x := range b.movesFor(m, check) {
		moves = append(moves, strings.TrimSuffix(b.moveLine(x), "."))
	}
	if len(moves) > 0 {
		cause := b.say("cure.cause." + strings.TrimPrefix(b.movesFor(m, check)[0].Kind, "move."))
		return b.say("cure.moves", "cause", cause, "moves", join("; ", moves...))
	}
	if said := b.stuckCure(m, check); said != "" {
		return said
	}
	for _, n := range m.Notes {
		if about(n, check) && !slices.Contains(unsaid, n.Key) || n.Key == "correct.meangap" && check == assess.Clearance {
			return b.say("cure.first", "what", b.moveCode(n))
		}
	}
	for _, n := range m.Notes {
		if about(n, check) && n.Key != "correct.within" {
			return b.say("cure.first", "what", b.moveCode(n))
		}
	}
	return ""
}

// stuckCure says what the best move would leave, and what keeps it from more;
// empty where something else is the matter.
func (b *book) stuckCure(m correct.Moves, check string) string {
	what, binds := "", []string{}
	for _, n := range m.Notes {
		switch {
		case strings.HasSuffix(n.Key, "correct.verdictstays") && about(n, check):
			what = b.moveCode(n)
		case strings.HasPrefix(n.Key, "correct.bind."):
			binds = append(binds, b.moveCode(n))
		}
	}
	if what == "" {
		return ""
	}
	return b.say("cure.stuck", "what", what, "binds", strings.Join(binds, " "), "engineer", b.toEngineer())
}

// toEngineer says who decides what no move cures: the contractor's engineer, by
// name where the sign-off sheet has one.
func (b *book) toEngineer() string {
	for _, r := range b.in.Record.Roles {
		if name := b.text(r.Name); name != "" && strings.EqualFold(r.Title.Text, b.say("form.role.engineer.title")) {
			return b.say("cure.engineer.named", "name", name)
		}
	}
	return b.say("cure.engineer.role")
}

// askedBelow is how far below the final pass the first pass of the set that a
// reason is about should have been; empty for all other reasons.
func (b *book) askedBelow(g reasonGroup) string {
	if g.first.Key != "reason.firstpass" || len(g.cells) == 0 {
		return ""
	}
	if c, ok := b.cellOf(g.cells[0]); ok {
		if r := c.judged.Check(g.first.Check).StandingRound(); r != nil {
			if i := slices.IndexFunc(r.Items, func(it assess.Item) bool { return it.Key == itemOf(g.first.Code) }); i >= 0 {
				if under := setAt(c, i).FirstUnder; under.Set {
					return b.say("cure.below.set", "value", b.quantityTyped(under))
				}
			}
		}
	}
	if l := b.limitOf(assess.FastenerTorque); l != nil {
		return b.limitText(l)
	}
	return b.say("cure.below.any")
}

// itemOf is the key of the item that a code is about.
func itemOf(c assess.Code) string {
	for _, a := range c.Args {
		if a.Name == "item" {
			return a.Text
		}
	}
	return ""
}

// curable are the checks that moves are worked out for.
var curable = append(slices.Clone(movable), assess.ClearanceAll)

// about tells whether a code names the check.
func about(n assess.Code, check string) bool {
	return slices.ContainsFunc(n.Args, func(a assess.Arg) bool { return a.Name == "check" && a.Text == check })
}

// kindsFor are the kinds of move that can bring a check back.
var kindsFor = map[string][]string{
	assess.Tilt:          {correct.KindHub, correct.KindShim},
	assess.Track:         {correct.KindHub, correct.KindBladeSeat},
	assess.TipRadius:     {correct.KindHub, correct.KindBladeOut},
	assess.Clearance:     {correct.KindShim, correct.KindSlide, correct.KindBladeOut, correct.KindWall},
	assess.ClearanceAll:  {correct.KindShim, correct.KindSlide, correct.KindBladeOut, correct.KindWall},
	assess.Pitch:         {correct.KindBladePitch},
	assess.PitchSpread:   {correct.KindBladePitch},
	assess.CouplingGear:  {correct.KindMotorShim, correct.KindMotorPush, correct.KindMotorAxial},
	assess.CouplingMotor: {correct.KindMotorShim, correct.KindMotorPush, correct.KindMotorAxial},
	assess.ShaftEnds:     {correct.KindMotorAxial},
}

// movesFor are the moves of a cell that are for a check.
func (b *book) movesFor(m correct.Moves, check string) []correct.Move {
	return slices.DeleteFunc(slices.Clone(m.Moves), func(x correct.Move) bool {
		return !slices.Contains(kindsFor[check], x.Kind)
	})
}

// cardRuns name the crew card of a cell, where one comes out for it.
func (b *book) cardRuns(cell int) []page.Run {
	c, ok := b.cellOf(cell)
	m, found := b.movesOf(cell)
	if !ok || !found || !b.wantsCard(c, m) {
		return nil
	}
	return toPage(func(page string) string { return b.say("cure.card", "cell", itoa(cell), "page", page) }, correctionAnchor(cell))
}

// cureLine is the line below a reason: what to do, and the card that has it.
func (b *book) cureLine(g reasonGroup) []page.Run {
	runs := b.cureOf(g)
	if len(runs) == 0 {
		return nil
	}
	if len(g.cells) == 1 && slices.Contains(curable, g.first.Check) {
		if card := b.cardRuns(g.cells[0]); card != nil {
			runs = append(append(runs, page.Run{Text: " "}), card...)
		}
	}
	head := page.Run{Text: b.say("cure.todo") + " ", Face: page.Bold, Break: true}
	return append([]page.Run{head}, runs...)
}

// correctionAnchor is where the moves of a cell stand.
func correctionAnchor(cell int) string { return cellAnchor(cell) + ".corrections" }
