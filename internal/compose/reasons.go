package compose

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// reasonGroup is one numbered line: the same reason about the same check, in
// one cell or in several; or about several checks in the same cells.
type reasonGroup struct {
	first  assess.Reason
	checks []string
	cells  []int
}

// reasonGroups gathers the reasons of the package, the gravest first and the
// worst cell before the others. Their numbers are the same on every page.
func (b *book) reasonGroups() []reasonGroup {
	var out []reasonGroup
	at := map[string]int{}
	for _, r := range b.in.Assessment.Reasons {
		key := b.reasonKey(r)
		i, known := at[key]
		if !known {
			i = len(out)
			at[key] = i
			out = append(out, reasonGroup{first: r, checks: []string{r.Check}})
		}
		if r.Cell != 0 && !slices.Contains(out[i].cells, r.Cell) {
			out[i].cells = append(out[i].cells, r.Cell)
		}
	}
	out = b.joinChecks(out)
	b.worstFirst(out)
	return out
}

// reasonKey is what reasons have in common that stand in one line: the check,
// and the item that it is about; where no phrase holds for several cells, the
// whole text.
func (b *book) reasonKey(r assess.Reason) string {
	key := family(r.Key) + "\x00" + r.Check
	if r.Cell == 0 || b.grouped(r.Code) == "" && len(r.Args) > 0 {
		return key + "\x00" + b.codeText(r.Code)
	}
	for _, a := range r.Args {
		if a.Name == "item" {
			key += "\x00" + a.Text
		}
	}
	return key
}

// grouped is the phrase of a reason for several cells, empty where there is none.
func (b *book) grouped(c assess.Code) string {
	key := "grouped." + strings.TrimPrefix(family(c.Key), "reason.")
	for _, a := range c.Args {
		if a.Name == "item" {
			return b.optional(key, "item", b.argText(a))
		}
	}
	return b.optional(key)
}

// joinChecks makes one group of those that say the same of the same cells.
func (b *book) joinChecks(groups []reasonGroup) []reasonGroup {
	var out []reasonGroup
	first := map[string]int{} // by what is said of which cells
	for _, g := range groups {
		key := fmt.Sprint(g.cells) + g.text(b)
		i, known := first[key]
		switch {
		case known && g.first.Check != "":
			out[i].checks = append(out[i].checks, g.first.Check)
			continue
		case !known:
			first[key] = len(out)
		}
		out = append(out, g)
	}
	return out
}

// text is the reason; the numbers of single cells are left out where there are
// several.
func (g reasonGroup) text(b *book) string {
	if len(g.cells) > 1 {
		if phrase := b.grouped(g.first.Code); phrase != "" {
			return phrase
		}
	}
	return b.codeText(g.first.Code)
}

// groupRuns is the line of a group: the check, the cells as links, what is
// wrong.
func (b *book) groupRuns(g reasonGroup) []page.Run {
	var runs []page.Run
	if g.first.Check != "" {
		var names []string
		for _, n := range b.checkList(g.checks, g.cells) {
			names = append(names, n.text)
		}
		runs = bold(join("; ", names...))
	}
	if len(g.cells) > 0 {
		runs = append(runs, page.Run{Text: ", " + b.count("grouping.cells", len(g.cells)) + " "})
		runs = append(runs, cellLinks(g.cells, func(n int) string {
			if g.first.Check == "" {
				return cellAnchor(n)
			}
			return b.checkAnchor(n, g.first.Check)
		})...)
	}
	if len(runs) > 0 {
		runs = append(runs, page.Run{Text: ": "})
	}
	return append(runs, page.Run{Text: g.text(b)})
}

// codeText puts a code of the assessment into words.
func (b *book) codeText(c assess.Code) string { return b.say(c.Key, b.codePairs(c)...) }

// codePairs are the names of the arguments of a code with their words.
func (b *book) codePairs(c assess.Code) []string {
	var pairs []string
	for _, a := range c.Args {
		pairs = append(pairs, a.Name, b.argText(a))
	}
	return pairs
}

// placeArgs are the arguments that name a position by its angle.
var placeArgs = []string{"degrees", "low", "high", "smallat", "largeat"}

// argText is an argument of a code. The text of an argument named after one of
// the kinds of key is such a key, and has words of its own.
func (b *book) argText(a assess.Arg) string {
	switch {
	case a.Amount != nil && slices.Contains(placeArgs, a.Name):
		return degrees(measure.Angle(a.Amount.N))
	case a.Amount != nil:
		return b.amount(*a.Amount)
	case a.Number != nil:
		return strconv.Itoa(*a.Number)
	}
	switch a.Name {
	case "check", "event":
		return b.say(a.Name + "." + a.Text)
	case "round":
		return b.roundWord(a.Text)
	case "item":
		return b.itemText(a.Text)
	case "locking", "scheduled":
		return b.say("locking." + a.Text)
	}
	return b.clean(a.Text, field.Ref{})
}
