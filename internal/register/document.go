package register

import (
	"slices"
	"strconv"

	"asleft/internal/data"
)

// towerOf takes from a data file what a register says of a tower.
func towerOf(d *data.Document) Tower {
	t := Tower{
		Program:  d.Program,
		Plant:    entry(d.Project, "plant"),
		Tag:      entry(d.Tower, "tag"),
		Document: entry(d.Project, "document"),
		Revision: entry(d.Project, "revision"),
		Issued:   d.Issued,
		State:    d.State,
		Reasons:  len(d.Reasons),
	}
	for i := range d.Cells {
		c := &d.Cells[i]
		if c.Value.InPackage {
			t.Cells = append(t.Cells, cellOf(c.Key, &c.Value))
		}
	}
	slices.SortStableFunc(t.Cells, func(a, b Cell) int { return a.Number - b.Number })
	return t
}

func entry(k data.Keyed[data.Entry], key string) string {
	e, _ := k.Get(key)
	return e.Value
}

func cellOf(key string, d *data.Cell) Cell {
	n, _ := strconv.Atoi(key) // the decoder has seen to it
	c := Cell{Number: n, Name: entry(d.Entries, "name"), State: d.State, Milestone: milestone(d), Reasons: len(d.Reasons)}
	for i := range d.Checks {
		c.Checks = append(c.Checks, checkOf(d.Checks[i].Key, &d.Checks[i].Value))
	}
	return c
}

// milestone is the last one passed.
func milestone(d *data.Cell) string {
	switch {
	case d.AfterRun:
		return "afterrun"
	case d.Started:
		return "started"
	case d.Mechanical:
		return "mechanical"
	}
	return ""
}

func checkOf(key string, d *data.Check) Check {
	k := Check{Key: key, Verdict: d.Verdict, Accepted: len(d.Deviation) > 0}
	if r, ok := d.Rounds.Get(d.Standing); ok {
		k.Margin = r.Margin
	}
	for i := range d.Rounds {
		if v := d.Rounds[i].Value.Verdict; judged(v) {
			k.First = v
			break
		}
	}
	return k
}

// judged tells verdicts that stand on a reading and a limit.
func judged(verdict string) bool { return right(verdict) || verdict == "outside" }

// right tells verdicts of readings within their limit.
func right(verdict string) bool { return verdict == "within" || verdict == "near" }
