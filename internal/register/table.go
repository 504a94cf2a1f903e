package register

import (
	"strconv"
	"strings"
)

// tone is how a cell of a table is set off.
type tone int

const (
	plainTone tone = iota
	badTone        // outside, broken
	openTone       // to be read or read again
	quietTone      // not required, by others
)

// value is a cell of a table: a text, a count, an amount or a share.
type value struct {
	text   string
	count  *int
	amount *amount
	share  *float64
	link   string // path of a file
	tone   tone
}

func text(s string) value { return value{text: s} }

func count(n int) value { return value{count: &n} }

// countIf leaves zero blank, so that what is there stands out.
func countIf(n int, t tone) value {
	if n == 0 {
		return value{}
	}
	return value{count: &n, tone: t}
}

func share(part, whole int) value {
	if whole == 0 {
		return value{}
	}
	s := float64(part) / float64(whole)
	return value{share: &s}
}

// String is the value as text, for CSV and for the widths of columns.
func (v value) String() string {
	switch {
	case v.count != nil:
		return strconv.Itoa(*v.count)
	case v.amount != nil:
		return v.amount.text()
	case v.share != nil:
		return strconv.FormatFloat(100**v.share, 'f', 1, 64) + " %"
	}
	return v.text
}

// table is a sheet of the register.
type table struct {
	title  string
	frozen int // columns that stay in sight
	head   []string
	// units are the heads of the units of columns of amounts, by their index:
	// where a cell holds only a number, as in CSV, the unit stands beside it.
	units map[int]string
	size  int                 // rows
	row   func(i int) []value // made when asked for: a thousand towers have half a million values
}

// rows sets the rows of a small table.
func (t *table) rows(rows [][]value) {
	t.size, t.row = len(rows), func(i int) []value { return rows[i] }
}

// checkKeys are the checks of all cells, in the order of the first that has each.
func (r *Register) checkKeys() []string {
	var keys []string
	seen := map[string]bool{}
	for i := range r.Towers {
		for _, c := range r.Towers[i].Cells {
			for _, k := range c.Checks {
				if !seen[k.Key] {
					seen[k.Key] = true
					keys = append(keys, k.Key)
				}
			}
		}
	}
	return keys
}

// cellTable has a row for each cell.
func (r *Register) cellTable(p *Print) table {
	t := table{title: p.say("cells"), frozen: 3, units: map[int]string{}}
	for _, key := range []string{"tower", "cell", "name", "state", "milestone", "reasons", "file", "signatures", "fingerprint",
		"plant", "document", "revision", "issued", "note"} {
		t.head = append(t.head, p.head(key))
	}
	checks := r.checkKeys()
	for _, key := range checks {
		t.units[len(t.head)+1] = p.head("unit", "check", p.check(key))
		t.head = append(t.head, p.head("verdict", "check", p.check(key)), p.head("margin", "check", p.check(key)))
	}
	type of struct {
		tower *Tower
		cell  *Cell
	}
	var all []of
	for i := range r.Towers {
		tower := &r.Towers[i]
		for n := range tower.Cells {
			all = append(all, of{tower, &tower.Cells[n]})
		}
	}
	t.size, t.row = len(all), func(i int) []value {
		return append(cellFront(p, all[i].tower, all[i].cell), checkValues(p, all[i].cell, checks)...)
	}
	return t
}

func cellFront(p *Print, t *Tower, c *Cell) []value {
	return []value{text(t.Tag), count(c.Number), text(c.Name), stateValue(p, c.State), text(p.milestone(c.Milestone)),
		countIf(c.Reasons, plainTone), fileValue(t.Path), signedValue(p, t), text(t.Fingerprint),
		text(t.Plant), text(t.Document), text(t.Revision), text(t.Issued), text(p.note(t))}
}

func stateValue(p *Print, state string) value {
	v := text(p.state(state))
	if state != "ready" {
		v.tone = openTone
	}
	return v
}

func signedValue(p *Print, t *Tower) value {
	v := text(p.signed(t))
	if t.Signatures.Broken() > 0 {
		v.tone = badTone
	}
	return v
}

func fileValue(path string) value { return value{text: path, link: path} }

// checkValues are verdict and margin of each check, blank where the cell has no
// such check.
func checkValues(p *Print, c *Cell, keys []string) []value {
	out := make([]value, 2*len(keys))
	byKey := map[string]*Check{}
	for i := range c.Checks {
		byKey[c.Checks[i].Key] = &c.Checks[i]
	}
	for i, key := range keys {
		k := byKey[key]
		if k == nil {
			continue
		}
		out[2*i] = value{text: p.verdict(k), tone: verdictTone(k)}
		if k.Margin != nil {
			a := p.amount(k.Margin)
			out[2*i+1] = value{amount: &a}
		}
	}
	return out
}

func verdictTone(k *Check) tone {
	switch k.Verdict {
	case "within", "near":
		return plainTone
	case "outside":
		if k.Accepted {
			return quietTone
		}
		return badTone
	case "notrequired", "byothers":
		return quietTone
	}
	return openTone
}

// checkTable has a row for each check: what fails most stands first.
func (r *Register) checkTable(p *Print) table {
	t := table{title: p.say("checks"), frozen: 1}
	for _, key := range []string{"check", "judged", "outside", "share", "worst", "worstat", "median", "accepted", "near", "within",
		"recheck", "missing", "nolimit", "exempt", "first", "firstof", "firstshare"} {
		t.head = append(t.head, p.head(key))
	}
	var rows [][]value
	for _, l := range r.Summary() {
		row := []value{text(p.check(l.Check)), count(l.Judged()), countIf(l.Outside, badTone), share(l.Outside, l.Judged()), {}, {}, {},
			countIf(l.Accepted, plainTone), countIf(l.Near, plainTone), countIf(l.Within, plainTone),
			countIf(l.Recheck, openTone), countIf(l.Missing, openTone), countIf(l.NoLimit, openTone), countIf(l.Exempt, quietTone),
			count(l.First), count(l.FirstOf), share(l.First, l.FirstOf)}
		if l.Worst != nil {
			worst, middle := p.amount(l.Worst).without(), p.amount(l.Median).without()
			row[4] = value{amount: &worst}
			row[5] = value{text: p.say("note.at", "tower", l.WorstAt.Tag, "cell", strconv.Itoa(l.WorstCell)), link: l.WorstAt.Path}
			row[6] = value{amount: &middle}
		}
		rows = append(rows, row)
	}
	t.rows(rows)
	return t
}

// without turns a margin into how far something is outside.
func (a amount) without() amount { a.value = -a.value; return a }

// towerTable has a row for each package or tower.
func (r *Register) towerTable(p *Print) table {
	t := table{title: p.say("towers"), frozen: 1}
	for _, key := range []string{"tower", "state", "cells", "ready", "reasons", "file", "signatures", "name", "fingerprint", "plant",
		"document", "revision", "issued", "program", "workbooks", "note"} {
		t.head = append(t.head, p.head(key))
	}
	var rows [][]value
	for i := range r.Towers {
		o := &r.Towers[i]
		ready := 0
		for _, c := range o.Cells {
			if c.State == "ready" {
				ready++
			}
		}
		rows = append(rows, []value{text(o.Tag), stateValue(p, o.State), count(len(o.Cells)), count(ready), countIf(o.Reasons, plainTone),
			fileValue(o.Path), signedValue(p, o), text(p.signatories(&o.Signatures)), text(o.Fingerprint), text(o.Plant),
			text(o.Document), text(o.Revision), text(o.Issued), text(o.Program), text(strings.Join(o.Workbooks, ", ")), text(p.note(o))})
	}
	t.rows(rows)
	return t
}

// faultTable has a row for each thing wrong with a file.
func (r *Register) faultTable(p *Print) table {
	t := table{title: p.say("faults"), frozen: 1, head: []string{p.head("file"), p.head("why")}}
	var rows [][]value
	for _, f := range r.Faults {
		for _, line := range strings.Split(f.Text, "\n") {
			rows = append(rows, []value{fileValue(f.Path), text(line)})
		}
	}
	t.rows(rows)
	return t
}
