package compose

import (
	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/page"
)

// roundLine is one line of the table of rounds: the checks that were read under
// the same head.
type roundLine struct {
	round, checks, who, when, instrument, conditions, final, witness string
}

// roundsTable says when, by whom, with what and under which conditions the
// readings were taken. Checks with the same head share a line.
func (b *book) roundsTable(c towerCell) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.85}, {Width: 0.75}, {Width: 1.05}, {Width: 1.1}, {Width: 1},
			{Width: 2.4}, {Width: 1.3}, {Width: 0.75}},
		Head: [][]page.TableCell{b.headRow("cell.round", "cell.read", "cell.when", "cell.who", "cell.instrument",
			"cell.conditions", "cell.final", "cell.witness")},
		Summary: b.say("cell.roundstable"),
	}
	return rows(b, t, b.roundLines(c), func(l roundLine) []string {
		return []string{l.round, l.checks, l.when, l.who, l.instrument, l.conditions, l.final, l.witness}
	})
}

// roundLines says "all" where a line holds for every check with readings.
func (b *book) roundLines(c towerCell) []roundLine {
	var out []roundLine
	for _, key := range []string{field.AsFound, field.Second, field.Third, field.AsLeft} {
		lines := b.linesOf(c, key)
		if len(lines) == 1 {
			lines[0].checks = b.say("cell.allread")
		}
		out = append(out, lines...)
	}
	return out
}

// linesOf are the lines of one round.
func (b *book) linesOf(c towerCell, round string) []roundLine {
	var out []roundLine
	for i := range c.judged.Checks {
		k := &c.judged.Checks[i]
		if derived(k.Key) {
			continue
		}
		for j := range k.Rounds {
			if k.Rounds[j].Key == round {
				out = b.mergeLine(out, b.roundLine(k, &k.Rounds[j]), b.say("check."+k.Key))
			}
		}
	}
	return out
}

// mergeLine adds a check to the line with the same head, or starts one.
func (b *book) mergeLine(lines []roundLine, l roundLine, check string) []roundLine {
	for i := range lines {
		same := lines[i]
		same.checks = ""
		if same == l {
			lines[i].checks = join(", ", lines[i].checks, check)
			return lines
		}
	}
	l.checks = check
	return append(lines, l)
}

func (b *book) roundLine(k *assess.Check, r *assess.Round) roundLine {
	h := &r.Head
	who := b.text(h.ReadBy)
	if t := b.text(h.TypedBy); t != "" && t != who {
		who = join(", ", who, b.say("cell.typedby", "name", t))
	}
	hours := join("–", typedTime(h.Start), typedTime(h.Finish))
	return roundLine{
		round:      b.say("round." + r.Key),
		when:       join(" ", typedDay(h.Date), hours, b.wordFor("cell.sequenceno", counted(h.Sequence))),
		who:        who,
		instrument: join(", ", b.text(h.Instrument), b.wordFor("cell.sheet", b.text(h.PaperSheet))),
		conditions: b.conditions(h),
		final:      b.finalTorque(h),
		witness:    b.text(h.Witness),
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
	switch {
	case !f.Set:
		return ""
	case f.Value:
		return b.say(key + ".yes")
	}
	return b.say(key + ".no")
}

// eventWord is the word for the event of a move; an event that the rule set
// does not know is printed as it was typed.
func (b *book) eventWord(m field.Move) string {
	for _, e := range b.in.Rules.Events {
		if e.Key == m.Event.Value {
			return b.say("event." + e.Key)
		}
	}
	return b.text(m.Event)
}
