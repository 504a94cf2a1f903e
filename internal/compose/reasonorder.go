package compose

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// severity orders reasons: what was found wrong, then what is not there, then
// what is not said. Reasons not named come last.
var severity = [][]string{
	{reasonOutside, "reason.itemoutside", "reason.finaltorque", "reason.firstpass", "reason.clicks",
		"reason.toolrange", "reason.locking", "reason.locktime", "reason.pins", "reason.line", "reason.oil",
		"reason.rotation", "reason.coupled", "reason.reverse", "reason.trip"},
	{"reason.recheck", "reason.itemrecheck", "reason.pinsalignment", "reason.noprestart", "reason.holddowns", "reason.clamps",
		"reason.near", "reason.notcovered"},
	{"reason.notread", "reason.missing", "reason.itemnotread", "reason.setnotdone", "reason.nofinal", "reason.nofirst", "reason.noclicks",
		"reason.nolocking", "reason.pinscount", "reason.pinsprojection", "reason.setpoint", "reason.notcomputed"},
	{"reason.instrument", "reason.calibratedlater",
		"reason.nolimit", "reason.limittwice", "reason.norequired", "reason.itemlimit", "reason.starting", "reason.noauthority"},
}

// reasonOutside stands for all reasons that a check is outside: one for each way
// of being it.
const reasonOutside = "reason.outside"

// family is a reason's key, or what its likes are told by.
func family(key string) string {
	if strings.HasPrefix(key, assess.ReasonOutside) {
		return reasonOutside
	}
	return key
}

// rank is the class of a reason and its place in it.
func rank(g reasonGroup) (class, place int) {
	for i, keys := range severity {
		if j := slices.Index(keys, family(g.first.Key)); j >= 0 {
			return i, j
		}
	}
	return len(severity), 0
}

// worstFirst orders groups: what was found wrong first, and of the same class
// the worst cell first.
func (b *book) worstFirst(groups []reasonGroup) {
	r := b.roster()
	first := func(g reasonGroup) int {
		best := len(r.order)
		for _, c := range g.cells {
			at, here := r.place[c]
			if !here {
				return -1
			}
			best = min(best, at)
		}
		return best
	}
	slices.SortStableFunc(groups, func(x, y reasonGroup) int {
		xc, xp := rank(x)
		yc, yp := rank(y)
		return cmp.Or(cmp.Compare(xc, yc), cmp.Compare(first(x), first(y)), cmp.Compare(xp, yp))
	})
}

// cellOrder are the numbers of the cells, the worst first. They are for reading
// only.
func (b *book) cellOrder() []int { return b.roster().order }

// worstCells are the numbers of cells, the worst first: the one with most found
// wrong, then with most to read again, then with most missing.
func worstCells(cells []towerCell) []int {
	count := map[int][]int{}
	var out []int
	for _, c := range cells {
		n := make([]int, len(severity)+1)
		for _, r := range c.judged.Reasons {
			class, _ := rank(reasonGroup{first: r})
			n[class]++
		}
		count[c.judged.Number] = n
		out = append(out, c.judged.Number)
	}
	slices.SortStableFunc(out, func(x, y int) int { return slices.Compare(count[y], count[x]) })
	return out
}

// cellLinks are the numbers of cells, each a link; three and more in a row are
// told by the first and the last.
func cellLinks(cells []int, anchor func(int) string) []page.Run {
	var runs []page.Run
	for i := 0; i < len(cells); {
		n := i + 1
		for n < len(cells) && cells[n] == cells[n-1]+1 {
			n++
		}
		if i > 0 {
			runs = append(runs, page.Run{Text: ", "})
		}
		link := func(j int) page.Run { return page.Run{Text: strconv.Itoa(cells[j]), Link: anchor(cells[j])} }
		if n-i < 3 {
			runs, i = append(runs, link(i)), i+1
			continue
		}
		runs, i = append(runs, link(i), page.Run{Text: "–"}, link(n-1)), n
	}
	return runs
}

// named is a check, or all checks of a part of the job, with the first of them.
type named struct{ text, check string }

// checkList are the names of checks. All that cells have to meet of a part of the
// job are told by its name.
func (b *book) checkList(checks []string, cells []int) []named {
	var out []named
	left := slices.Clone(checks)
	for _, g := range allGroups() {
		all := slices.DeleteFunc(slices.Clone(g.checks), func(key string) bool { return !b.asksFor(key, cells) })
		if len(all) > 2 && !slices.ContainsFunc(all, func(key string) bool { return !slices.Contains(left, key) }) {
			out = append(out, named{b.say("grouping.all." + g.key), all[0]})
			left = slices.DeleteFunc(left, func(key string) bool { return slices.Contains(all, key) })
		}
	}
	var names []named
	for _, key := range left {
		if key != "" {
			names = append(names, named{b.say("check." + key), key})
		}
	}
	return append(names, out...)
}

// asksFor tells whether any of the cells has to meet a check.
func (b *book) asksFor(key string, cells []int) bool {
	for _, n := range cells {
		c, here := b.cellOf(n)
		if !here {
			continue
		}
		if k := c.judged.Check(key); k != nil && k.Verdict != assess.NotRequired && k.Verdict != assess.ByOthers {
			return true
		}
	}
	return false
}
