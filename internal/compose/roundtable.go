package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// roundLine is one line of the table of rounds: the checks that were read on one
// day, by the same people and under the same conditions.
type roundLine struct {
	roundHead
	parts    []readPart
	accepted []string // checks of the round in which nothing had to be moved
}

// roundHead is what the checks of a line have in common.
type roundHead struct {
	round, day, who, conditions, final, witness string
}

// readPart names the checks that were read in the same hours with the same
// instrument.
type readPart struct {
	checks []string
	detail string
}

// roundsTable says when, by whom, with what and under which conditions the
// readings were taken. Checks with all that in common share a line.
func (b *book) roundsTable(c towerCell) page.Table {
	t := page.Table{
		Columns: b.roundColumns(),
		Head:    [][]page.TableCell{b.headRow("cell.round", "cell.read", "cell.when", "cell.conditions")},
		Summary: b.say("cell.roundstable"),
	}
	return rows(b, t, b.roundLines(c), func(l roundLine) []string {
		return []string{l.round, b.readText(c, l), join(", ", l.day, l.who), join("; ", l.conditions, l.final, l.witness)}
	})
}

// roundColumns give the more room to what was read the more there was to read.
func (b *book) roundColumns() []page.Column {
	return []page.Column{{Fit: true}, {Width: 4.1}, {Width: 1.6}, {Width: 3.5}}
}

// roundLines are the lines of all rounds, in order.
func (b *book) roundLines(c towerCell) []roundLine {
	var out []roundLine
	for _, key := range []string{field.AsFound, field.Second, field.Third, field.AsLeft} {
		for i := range c.judged.Checks {
			k := &c.judged.Checks[i]
			if !inRounds(k.Key) {
				continue
			}
			for j := range k.Rounds {
				if r := &k.Rounds[j]; r.Key == key {
					out = mergeLine(out, b.headOf(r), k.Key, b.readDetail(r), b.acceptedAsFound(c, k.Key, r.Key))
				}
			}
		}
	}
	return out
}

// mergeLine adds a check to the line with the same head, or starts one.
func mergeLine(lines []roundLine, h roundHead, check, detail string, accepted bool) []roundLine {
	i := slices.IndexFunc(lines, func(l roundLine) bool { return l.roundHead == h })
	if i < 0 {
		i = len(lines)
		lines = append(lines, roundLine{roundHead: h})
	}
	if accepted {
		lines[i].accepted = append(lines[i].accepted, check)
	}
	parts := lines[i].parts
	j := slices.IndexFunc(parts, func(p readPart) bool { return p.detail == detail })
	if j < 0 {
		lines[i].parts = append(parts, readPart{[]string{check}, detail})
		return lines
	}
	parts[j].checks = append(parts[j].checks, check)
	return lines
}

// readText is what was read, at which hours and with which instrument.
func (b *book) readText(c towerCell, l roundLine) string {
	var out []string
	for _, p := range l.parts {
		out = append(out, join(" ", join(", ", b.checkNames(c, p.checks)...), p.detail))
	}
	if len(l.accepted) > 0 {
		out = append(out, b.say("cell.accepted", "checks", join(", ", b.checkNames(c, l.accepted)...)))
	}
	return join("; ", out...)
}

// acceptedAsFound tells whether a round was accepted as it was found, with nothing
// moved.
func (b *book) acceptedAsFound(c towerCell, check, round string) bool {
	f := blockOf(c.read, check, round).accepted
	if f.Value {
		b.tell(f.At)
	}
	return f.Value
}

// checkNames are the names of checks; where all of a part of the job that were
// read in rounds are among them, its name stands for them.
func (b *book) checkNames(c towerCell, checks []string) []string {
	var out []string
	left := slices.Clone(checks)
	for _, g := range allGroups() {
		var all []string
		for _, key := range g.checks {
			if k := c.judged.Check(key); k != nil && inRounds(key) && len(k.Rounds) > 0 {
				all = append(all, key)
			}
		}
		whole := len(all) > 1 && !slices.ContainsFunc(all, func(k string) bool { return !slices.Contains(left, k) })
		if whole {
			out = append(out, b.say("group."+g.key))
			left = slices.DeleteFunc(left, func(k string) bool { return slices.Contains(all, k) })
		}
	}
	for _, key := range left {
		out = append(out, b.say("check."+key))
	}
	return out
}

// inRounds tells whether a check has rounds of readings with a head of their own.
func inRounds(check string) bool {
	return !derived(check) && (inGroup(groupFan, check) || inGroup(groupBases, check) || inGroup(groupDriveLine, check))
}

func (b *book) readDetail(r *assess.Round) string {
	h := &r.Head
	return join(", ",
		join("–", b.typedTime(h.Start), b.typedTime(h.Finish)), b.text(h.Instrument),
		b.wordFor("cell.sequenceno", b.counted(h.Sequence)))
}

func (b *book) headOf(r *assess.Round) roundHead {
	h := &r.Head
	who := b.text(h.ReadBy)
	if t := b.text(h.TypedBy); t != "" && t != who {
		who = join(", ", who, b.say("cell.typedby", "name", t))
	}
	return roundHead{
		round:      b.say("round." + r.Key),
		day:        join(", ", b.typedDay(h.Date), b.wordFor("cell.sheet", b.text(h.PaperSheet))),
		who:        who,
		conditions: b.conditions(h),
		final:      b.finalTorque(h),
		witness:    b.wordFor("cell.witness", b.text(h.Witness)),
	}
}

// conditions are what can move a reading, as far as they were typed.
func (b *book) conditions(h *field.Head) string {
	return join(", ",
		b.text(h.AirTemperature),
		b.wordFor("cell.wind", b.text(h.Wind)),
		b.code("surface", h.Surface),
		b.code("water", h.Water),
		b.code("gear", h.GearReducer),
		b.wordFor("cell.neighbors", b.text(h.NeighborsRunning)))
}

func (b *book) finalTorque(h *field.Head) string {
	return join(", ", b.yesNo("cell.holddowns", h.HoldDownsFinal), b.yesNo("cell.clamps", h.ClampsFinal))
}

// yesNo is the phrase key.yes or key.no, nothing where the cell was blank.
func (b *book) yesNo(key string, f field.Flag) string {
	if !f.Set {
		return ""
	}
	b.tell(f.At)
	if f.Value {
		return b.say(key + ".yes")
	}
	return b.say(key + ".no")
}

// eventWord is the word for the event of a move; an event that the rule set
// does not know is printed as it was typed.
func (b *book) eventWord(m field.Move) string {
	for _, e := range b.in.Rules.Events {
		if e.Key == m.Event.Value {
			b.tell(m.Event.At)
			return b.say("event." + e.Key)
		}
	}
	return b.text(m.Event)
}
