package compose

import (
	"slices"
	"strings"

	"asleft/internal/data"
)

// change is a line of what has changed: one value, or many values of one place
// of which there was none before, or is none any more.
type change struct {
	keys       []string // of the path
	kind       data.DifferenceKind
	name       string // of the row, where rows have names
	cell       int
	check      string
	old, new   *data.Printed
	more, lost int // values of the place that are new, or gone
}

// isVerdict tells a verdict or a state.
func (x *change) isVerdict() bool { return x.kind == data.DiffVerdict }

// changes are what a person wants to know of what is not as it was: in cells
// there are, verdicts and states, limits, readings, other entries.
type changes struct{ cells, verdicts, limits, readings, entries []change }

func (c *changes) none() bool {
	return len(c.cells)+len(c.verdicts)+len(c.limits)+len(c.readings)+len(c.entries) == 0
}

// verdictCount leaves out the states, which follow from the verdicts.
func (c *changes) verdictCount() int {
	n := 0
	for _, x := range c.verdicts {
		if x.check != "" {
			n++
		}
	}
	return n
}

// count is how many values the lines stand for.
func count(lines []change) int {
	n := 0
	for _, x := range lines {
		n += max(1, x.more+x.lost)
	}
	return n
}

// sortChanges sorts differences of data files; only is the one cell of the
// package, 0 for all. What is computed, and what the files are called, is left
// out: it follows from the rest.
func sortChanges(list []data.Difference, only int) changes {
	var c changes
	whole := wholeCells(list)
	for _, d := range list {
		x := newChange(d)
		switch {
		case only != 0 && (x.cell != 0 && x.cell != only || d.Path() == "state"):
		case x.cell != 0 && whole[x.cell] != 0:
			if !slices.ContainsFunc(c.cells, func(y change) bool { return y.cell == x.cell }) {
				y := change{keys: x.keys[:2], cell: x.cell}
				y.more, y.lost = max(whole[x.cell], 0), max(-whole[x.cell], 0)
				c.cells = append(c.cells, y)
			}
		case isMembership(d):
			c.cells = append(c.cells, x)
		case d.Kind == data.DiffVerdict && ownVerdict(d.Keys):
			c.verdicts = append(c.verdicts, x)
		case d.Kind == data.DiffLimit:
			c.limits = append(c.limits, x)
		case d.Kind == data.DiffReading:
			c.readings = append(c.readings, x)
		case d.Kind == data.DiffTyped && !repeated(d.Keys):
			c.entries = append(c.entries, x)
		}
	}
	c.limits, c.readings, c.entries = gathered(c.limits), gathered(c.readings), gathered(c.entries)
	return c
}

func newChange(d data.Difference) change {
	x := change{keys: d.Keys, kind: d.Kind, name: d.Name, old: d.Old, new: d.New}
	if d.Keys[0] == "cells" && len(d.Keys) > 1 {
		x.cell = cellKey(d.Keys[1])
		if len(d.Keys) > 3 && d.Keys[2] == "checks" {
			x.check = d.Keys[3]
		}
	}
	return x
}

// wholeCells are the cells that came in (more than 0: how many values) or went
// out (less than 0) as a whole: nothing of them was there before, or is now. What
// every cell has tells it: its state.
func wholeCells(list []data.Difference) map[int]int {
	whole := map[int]int{}
	for _, d := range list {
		if len(d.Keys) == 3 && d.Keys[0] == "cells" && d.Keys[2] == "state" {
			switch {
			case d.Old == nil:
				whole[cellKey(d.Keys[1])] = 1
			case d.New == nil:
				whole[cellKey(d.Keys[1])] = -1
			}
		}
	}
	return whole
}

// isMembership tells whether a cell was taken into the package or left out.
func isMembership(d data.Difference) bool {
	return len(d.Keys) == 3 && d.Keys[0] == "cells" && d.Keys[2] == "inPackage"
}

// ownVerdict leaves the verdicts of rounds and lines to the check's own.
func ownVerdict(keys []string) bool {
	switch len(keys) {
	case 1, 3:
		return keys[len(keys)-1] == "state"
	case 5:
		return keys[2] == "checks" && keys[4] == "verdict"
	}
	return false
}

// repeated is what stands in the data file a second time: beside the check that
// it concerns, or as what follows from it.
func repeated(keys []string) bool {
	return len(keys) > 4 && keys[0] == "cells" && (keys[4] == "deviation" || keys[4] == "waiver") ||
		len(keys) == 4 && keys[2] == "entries" && keys[3] == "inPackage" || keys[0] == "issued" ||
		keys[0] == "roles" && keys[len(keys)-1] == "key"
}

// gathered makes one line of the values of a place that are all new, or all
// gone, where there are more than a few.
func gathered(lines []change) []change {
	const few = 2
	places := map[string][]change{}
	var order []string
	for _, x := range lines {
		p := place(x.keys) + nameMark + x.name
		if places[p] == nil {
			order = append(order, p)
		}
		places[p] = append(places[p], x)
	}
	var out []change
	for _, p := range order {
		group := places[p]
		all := func(f func(change) bool) bool {
			return !slices.ContainsFunc(group, func(x change) bool { return !f(x) })
		}
		one := group[0]
		inside, _, _ := strings.Cut(p, nameMark)
		one.keys = strings.Split(inside, placeMark)
		one.old, one.new = nil, nil
		switch {
		case len(group) <= few || inside == "":
			out = append(out, group...)
		case all(func(x change) bool { return x.old == nil }):
			one.more = len(group)
			out = append(out, one)
		case all(func(x change) bool { return x.new == nil }):
			one.lost = len(group)
			out = append(out, one)
		default:
			out = append(out, group...)
		}
	}
	return out
}

// Marks between the keys of a place, and before the name of a row, are in neither.
const (
	placeMark = "\x00"
	nameMark  = "\x01"
)

// place is what a value is a part of: a round of a check, the head of a round, a
// row of a list, a limit.
func place(keys []string) string {
	n := 1
	switch keys[0] {
	case "limits", "instruments", "people", "roles", "waivers", "deviations", "openItems", "attachments", "feet":
		n = 2
	case "cells":
		n = min(len(keys), 4)
		if len(keys) > 6 && keys[2] == "checks" {
			n = 6
			if keys[6] == "head" {
				n = 7
			}
		}
	}
	return strings.Join(keys[:min(n, len(keys)-1)], placeMark)
}
