package data

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Difference is one value that two data files do not have alike.
type Difference struct {
	Keys []string // of the path, in the new file; of what is gone, in the old one
	Kind DifferenceKind
	Name string // of the row it stands in, where rows are told apart by a name: "T-1"
	// Old and New are nil where the value is not there.
	Old, New *Printed
}

// Path is where the value stands.
func (d *Difference) Path() string { return join(d.Keys...) }

// Printed is a value as a person reads it.
type Printed struct {
	Value string
	Unit  string
	Typed string // as it was typed, where that is not Value
	Exact string // fraction, where Value is rounded
	Index string // position or blade that a result is of
}

// String is the value with its unit, in brackets how it was typed, and where a
// result of a series was found.
func (p *Printed) String() string {
	if p == nil {
		return ""
	}
	s := p.Value
	if p.Unit != "" && p.Unit != unitOne {
		s += " " + p.Unit
	}
	if p.Typed != "" && p.Typed != s {
		s += " (" + p.Typed + ")"
	}
	if p.Index != "" {
		s += " #" + p.Index
	}
	return s
}

// DifferenceKind says what sort of value it is.
type DifferenceKind string

// Kinds of differences.
const (
	DiffReading  DifferenceKind = "reading"  // read on the tower: readings, torques, stacks, start-ups
	DiffLimit    DifferenceKind = "limit"    // a limit and who accepted it
	DiffVerdict  DifferenceKind = "verdict"  // a verdict or state
	DiffTyped    DifferenceKind = "typed"    // anything else that was typed
	DiffComputed DifferenceKind = "computed" // what follows from the above
	DiffMaker    DifferenceKind = "maker"    // program, rules, options, files
)

// Compare lists what two data files have unlike, in the order of the new one.
// Where a value stands in the workbook makes no difference, nor does the order of
// rows that have a name of their own: instruments, people, roles, deviations,
// moves. Units make one.
func Compare(old, new *Document) ([]Difference, error) {
	a, err := write(old, lined)
	if err != nil {
		return nil, err
	}
	b, err := write(new, lined)
	if err != nil {
		return nil, err
	}
	return CompareFiles(a, b)
}

var errNoObject = errors.New("not an object")

// CompareFiles is [Compare] for data files of any version.
func CompareFiles(old, new []byte) ([]Difference, error) {
	a, err := parse(old)
	if err != nil {
		return nil, err
	}
	b, err := parse(new)
	if err != nil {
		return nil, err
	}
	if a.kind != '{' || b.kind != '{' {
		return nil, fmt.Errorf("data file: %w", errNoObject)
	}
	var c comparison
	c.compare(&a, &b)
	return c.list, nil
}

// comparison goes down two trees at once.
type comparison struct {
	keys []string
	name string
	list []Difference
}

// compare compares what stands at the same path; nil is nothing.
func (c *comparison) compare(old, new *node) {
	a, isLeafA := old.leaf()
	b, isLeafB := new.leaf()
	if isLeafA || isLeafB {
		c.leaves(old, new, a, b, isLeafA, isLeafB)
		return
	}
	if isList(old) || isList(new) {
		c.lists(old, new)
		return
	}
	was, is := old.members(), new.members()
	if new != nil {
		for i, key := range new.keys {
			c.under(key, was[key], &new.below[i])
		}
	}
	if old != nil {
		for i, key := range old.keys {
			if is[key] == nil {
				c.under(key, &old.below[i], nil)
			}
		}
	}
}

// members are the members of an object by key.
func (n *node) members() map[string]*node {
	if n == nil || n.kind != '{' {
		return nil
	}
	m := make(map[string]*node, len(n.keys))
	for i, key := range n.keys {
		m[key] = &n.below[i]
	}
	return m
}

func isList(n *node) bool { return n != nil && n.kind == '[' }

// leaves compares two values, or a value with what is none.
func (c *comparison) leaves(old, new *node, a, b Printed, isLeafA, isLeafB bool) {
	switch {
	case isLeafA && isLeafB:
		if a != b {
			c.add(&a, &b)
		}
	case isLeafA:
		c.add(&a, nil)
		c.compare(nil, new)
	default:
		c.compare(old, nil)
		c.add(nil, &b)
	}
}

func (c *comparison) add(old, new *Printed) {
	if c.isPlace() || old == nil && new == nil {
		return
	}
	keys := slices.Clone(c.keys)
	c.list = append(c.list, Difference{keys, kindOf(keys), c.name, old, new})
}

// isPlace tells whether the path is that of a place in a workbook.
func (c *comparison) isPlace() bool {
	last := c.keys[len(c.keys)-1]
	return len(c.keys) > 1 && (last == "at" || last == "file")
}

func (c *comparison) under(key string, old, new *node) {
	if old == nil && new == nil {
		return
	}
	c.keys = append(c.keys, key)
	c.compare(old, new)
	c.keys = c.keys[:len(c.keys)-1]
}

// lists compares two lists, item by item: those of one name, those that are
// equal, or else those of one index.
func (c *comparison) lists(old, new *node) {
	a, b := c.named(old), c.named(new)
	was := make(map[string]*node, len(a))
	for i, n := range a {
		was[n.whole] = &old.below[i]
	}
	is := make(map[string]bool, len(b))
	for i, n := range b {
		is[n.whole] = true
		c.item(i, n, was[n.whole], &new.below[i])
	}
	for i, n := range a {
		if !is[n.whole] {
			c.item(i, n, &old.below[i], nil)
		}
	}
}

func (c *comparison) item(i int, n itemName, old, new *node) {
	outer := c.name
	if n.shown != "" {
		c.name = n.shown
	}
	c.under(strconv.Itoa(i), old, new)
	c.name = outer
}

// identity are the entries by which the rows of a list are told apart, the one
// that people call them by first.
var identity = map[string][]string{
	"instruments": {"id"},
	"people":      {"name", "initials"},
	"roles":       {"key"},
	"waivers":     {"check", "cell"},
	"deviations":  {"number"},
	"openItems":   {"number"},
	"moves":       {"sequence"},
	"files":       {"name"},
}

// separator stands between the parts of a name, and in no typed text.
const separator = "\x00"

// itemName is by what an item of a list is known: to this comparison, and to
// people where it has a name.
type itemName struct{ whole, shown string }

// named gives every item of a list a name that no other has.
func (c *comparison) named(n *node) []itemName {
	if !isList(n) {
		return nil
	}
	entries := identity[c.keys[len(c.keys)-1]]
	seen := map[string]int{}
	names := make([]itemName, 0, len(n.below))
	for i := range n.below {
		name := nameOf(&n.below[i], i, entries)
		seen[name.whole]++
		if again := seen[name.whole]; again > 1 {
			name.whole += separator + strconv.Itoa(again)
		}
		names = append(names, name)
	}
	return names
}

// nameOf is the name of an item of a list: that of a row by its entries, that of
// a code all it says, else its index.
func nameOf(n *node, index int, entries []string) itemName {
	var parts []string
	for _, e := range entries {
		p, _ := n.get(e).leaf()
		parts = append(parts, p.Value)
	}
	if name := strings.Join(parts, separator); strings.Trim(name, separator) != "" {
		return itemName{name, parts[0]}
	}
	if n.get("code") != nil {
		var b strings.Builder
		n.spell(&b)
		return itemName{whole: b.String()}
	}
	return itemName{whole: strconv.Itoa(index)}
}

// spell writes everything in n, without places.
func (n *node) spell(b *strings.Builder) {
	b.WriteString(n.text)
	for i := range n.below {
		if n.kind == '{' {
			b.WriteString(separator + n.keys[i] + separator)
		}
		n.below[i].spell(b)
	}
}

// kindOf sorts a path.
func kindOf(keys []string) DifferenceKind {
	switch keys[0] {
	case "schema", "program", "rules", "options", "files", "partial", "previous":
		return DiffMaker
	case "limits":
		return DiffLimit
	case "state":
		return DiffVerdict
	case "expected", "found", "reasons":
		return DiffComputed
	case "cells":
		return kindInCell(keys)
	case "attachments":
		if len(keys) > 2 && keys[2] == "stored" {
			return DiffMaker
		}
	}
	return DiffTyped
}

// kindInCell sorts a path below "cells" and the number.
func kindInCell(keys []string) DifferenceKind {
	if len(keys) < 3 {
		return DiffTyped
	}
	switch last := keys[len(keys)-1]; keys[2] {
	case "state":
		return DiffVerdict
	case "stacks", "motorStacks", "fasteners", "pins", "preStart", "startUps":
		return DiffReading
	case "entries", "blocks", "moves":
		return DiffTyped
	case "checks":
		switch {
		case last == "verdict" || last == "before":
			return DiffVerdict
		case last == "read" || last == "mark" || last == "return":
			return DiffReading
		case len(keys) > 4 && (keys[4] == "deviation" || keys[4] == "waiver"):
			return DiffTyped
		case len(keys) > 6 && keys[6] == "head" || last == "reason":
			return DiffTyped
		}
	}
	return DiffComputed
}
