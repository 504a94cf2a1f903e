package compose

import (
	"strconv"

	"asleft/internal/field"
	"asleft/internal/page"
)

// lists holds the accepted deviations, what is not asked for, and the open
// items of the tower.
func (b *book) lists() []page.Block {
	r := b.in.Record
	blocks := []page.Block{b.h2("lists.title", ""), b.h3("lists.deviations")}
	if len(r.Deviations) > 0 {
		blocks = append(blocks, b.lead("lists.deviationsintro"))
	}
	blocks = append(blocks, b.orNone(len(r.Deviations), b.deviationTable()), b.h3("lists.waivers"), b.orNone(len(r.Waivers), b.waiverTable()))
	return append(blocks, b.h3("lists.open"), b.orNone(len(r.OpenItems), b.openTable()))
}

// orNone is a table of n entries, or the words that there are none.
func (b *book) orNone(n int, t page.Table) page.Block {
	if n == 0 {
		return page.Paragraph{Runs: muted(b.say("registers.none"))}
	}
	return t
}

func (b *book) deviationTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.5}, {Width: 0.5}, {Width: 1.1}, {Width: 0.9}, {Width: 0.8},
			{Width: 1}, {Width: 1.5}, {Width: 0.9}, {Width: 1.5}},
		Head: [][]page.TableCell{b.headRow("lists.number", "lists.cell", "lists.check", "lists.round", "lists.value",
			"lists.authority", "lists.person", "lists.date", "lists.note")},
		Summary: b.say("lists.deviationtable"),
	}
	return rows(b, t, b.in.Record.Deviations, func(d field.Deviation) []string {
		return []string{b.text(d.Number), b.counted(d.Cell), b.code("check", d.Check), b.deviationRound(d),
			b.text(d.Value), b.text(d.Authority), join(", ", b.text(d.Person), b.text(d.Organization)),
			b.typedDay(d.Date), join(". ", b.text(d.Note), b.deviationState(d))}
	})
}

// deviationRound is the round that a deviation names.
func (b *book) deviationRound(d field.Deviation) string {
	if !d.Round.Set {
		return ""
	}
	b.tell(d.Round.At)
	return b.roundWord(d.Round.Value)
}

// deviationState says whether the assessment found the deviation to stand.
func (b *book) deviationState(d field.Deviation) string {
	for _, c := range b.in.Assessment.Cells {
		for i := range c.Checks {
			if k := c.Checks[i].Deviation; k != nil && k.At == d.At {
				return b.say("lists.stands")
			}
		}
	}
	return b.say("lists.void")
}

func (b *book) waiverTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.6}, {Width: 1.4}, {Width: 1}, {Width: 2.4}, {Width: 1.4}},
		Head:    [][]page.TableCell{b.headRow("lists.cell", "lists.check", "lists.kind", "lists.reason", "lists.by")},
		Summary: b.say("lists.waivertable"),
	}
	return rows(b, t, b.in.Record.Waivers, func(w field.Waiver) []string {
		where := b.counted(w.Cell)
		if where == "" {
			where = b.say("lists.everycell")
		}
		return []string{where, b.code("check", w.Check), b.code("verdict", w.Kind), b.text(w.Reason), b.text(w.By)}
	})
}

func (b *book) openTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 0.5}, {Width: 0.6}, {Width: 3.4}, {Width: 1.4}, {Width: 0.9}, {Width: 0.7}},
		Head: [][]page.TableCell{b.headRow("lists.number", "lists.cell", "lists.item", "lists.owner", "lists.due",
			"lists.status")},
		Summary: b.say("lists.opentable"),
	}
	return rows(b, t, b.in.Record.OpenItems, func(o field.OpenItem) []string {
		return []string{b.text(o.Number), b.counted(o.Cell), b.text(o.Item), b.text(o.Owner), b.typedDay(o.Due),
			b.code("status", o.Status)}
	})
}

// counted is a typed whole number, empty where none was typed.
func (b *book) counted(c field.Count) string {
	if !c.Set {
		return ""
	}
	text := strconv.Itoa(c.Value)
	b.tellAs(c.At, c.Text, text)
	return text
}
