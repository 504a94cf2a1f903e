package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// itemWord names an item: its code's phrase, else what was typed, else its
// number.
func (b *book) itemWord(it *assess.Item) string {
	if it.Code != "" && it.Code != assess.SetOther {
		return b.itemText(it.Code)
	}
	return b.or(b.clean(it.Name, it.At), "items.unnamed")
}

// itemText is the phrase of an item's code, or what was typed.
func (b *book) itemText(text string) string {
	for _, kind := range []string{"check.", "prestart."} {
		if words := b.optional(kind + text); words != "" {
			return words
		}
	}
	return b.clean(text, field.Ref{})
}

// itemVerdict is the verdict of an item under its path.
func (b *book) itemVerdict(c towerCell, check, round string, it *assess.Item) page.TableCell {
	out := b.verdictCell(it.Verdict)
	out.Runs[0].ID = b.claim(data.Under(data.ItemID(c.judged.Number, check, round, it.Key), "verdict"))
	return out
}

// itemAmount is a result of an item under its path.
func (b *book) itemAmount(c towerCell, check, round string, it *assess.Item, key string) []page.Run {
	names := data.ResultNames(it.Results)
	for i, x := range it.Results {
		if x.Key == key {
			id := data.Under(data.Under(data.ItemID(c.judged.Number, check, round, it.Key), "results"), names[i])
			return []page.Run{b.value(id, b.amount(x.Amount))}
		}
	}
	return nil
}

// itemDeciding is what is held against the limit of an item, under its path.
func (b *book) itemDeciding(c towerCell, check, round string, it *assess.Item) []page.Run {
	if it.Deciding == nil {
		return nil
	}
	id := data.Under(data.ItemID(c.judged.Number, check, round, it.Key), "deciding")
	return []page.Run{b.value(id, b.amount(*it.Deciding))}
}

// itemMargin is the distance inside the limit of an item, under its path.
func (b *book) itemMargin(c towerCell, check, round string, it *assess.Item) []page.Run {
	if it.Margin == nil {
		return nil
	}
	id := data.Under(data.ItemID(c.judged.Number, check, round, it.Key), "margin")
	return []page.Run{b.value(id, withUnit(margin(*it.Margin, b.first), unitOf(*it.Margin, b.first)))}
}

// itemFindings say of every item of a round what is not as it should be; none
// where all is well.
func (b *book) itemFindings(r *assess.Round) []page.Block {
	var texts []string
	for i := range r.Items {
		for _, f := range r.Items[i].Findings {
			texts = append(texts, b.codeText(f))
		}
	}
	return b.quietList(texts)
}

// itemNotes are the notes of the items whose code is one of the keys, or, with
// not, none of them.
func (b *book) itemNotes(r *assess.Round, not bool, keys ...string) []page.Block {
	var texts []string
	for i := range r.Items {
		for _, n := range r.Items[i].Notes {
			if slices.Contains(keys, n.Key) != not {
				texts = append(texts, b.codeText(n))
			}
		}
	}
	if !not && len(texts) > 0 {
		return []page.Block{page.Paragraph{Runs: muted(join(" ", texts...)), Size: smallSize}}
	}
	return b.quietList(texts)
}

func (b *book) quietList(texts []string) []page.Block {
	if len(texts) == 0 {
		return nil
	}
	list := page.List{Tone: page.Quiet}
	for _, t := range texts {
		list.Items = append(list.Items, plain(t))
	}
	return []page.Block{list}
}

// itemCheck is the heading of a check that is judged line by line, how many
// lines there are, and its limit; the round is nil where nothing was entered.
func (b *book) itemCheck(c towerCell, key string) ([]page.Block, *assess.Round) {
	k := c.judged.Check(key)
	if k == nil {
		return nil, nil
	}
	blocks := []page.Block{b.checkHeading(c, k)}
	r := k.StandingRound()
	if r == nil {
		if k.Waiver != nil || k.Verdict != assess.Missing { // missing says it all
			blocks = append(blocks, b.unread(k))
		}
		return append(blocks, b.notes(k)...), nil
	}
	id := data.RoundID(c.judged.Number, key, r.Key)
	runs := []page.Run{b.found(id, r.Found, r.Expected), {Text: " " + b.say("items."+key) + "; " + b.mustHold(k)}}
	if source := b.sourceRuns(k); len(source) > 0 {
		runs = append(append(append(runs, page.Run{Text: " ("}), source...), page.Run{Text: ")"})
	}
	for i := range runs {
		runs[i].Face = page.Muted
	}
	return append(blocks, page.Paragraph{Runs: runs, Size: smallSize, Keep: true}), r
}
