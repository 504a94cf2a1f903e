package compose

import (
	"fmt"
	"strings"

	"asleft/internal/page"
)

// plain, bold, muted and mono make the runs of a line of one face.
func plain(text string) []page.Run { return faced(text, page.Regular) }
func bold(text string) []page.Run  { return faced(text, page.Bold) }
func muted(text string) []page.Run { return faced(text, page.Muted) }
func mono(text string) []page.Run  { return faced(text, page.Mono) }

func faced(text string, f page.Face) []page.Run {
	if text == "" {
		return nil
	}
	return []page.Run{{Text: text, Face: f}}
}

// linked makes every run a link to the anchor.
func linked(runs []page.Run, anchor string) []page.Run {
	out := append([]page.Run(nil), runs...)
	for i := range out {
		out[i].Link = anchor
	}
	return out
}

// slotMark stands in a phrase where the number of a page comes.
const slotMark = "\x00"

// toPage is a line with a link to an anchor, and with the number of its page for
// those who read on paper. The phrase should end with its place {page}, since the
// number may be shorter than the room for it.
func toPage(say func(page string) string, anchor string) []page.Run {
	before, after, _ := strings.Cut(say(slotMark), slotMark)
	runs := append(linked(plain(before), anchor), page.Run{Text: page.PageSlot, PageOf: anchor})
	return append(runs, plain(after)...)
}

// smallSize is for lines that belong to a table or a figure, in points.
const smallSize = 8.25

// cell, head and rowHead are table cells.
func cell(runs ...page.Run) page.TableCell { return page.TableCell{Runs: runs} }

func textCell(text string) page.TableCell { return page.TableCell{Runs: plain(text)} }

func rowHead(text string) page.TableCell { return page.TableCell{Runs: plain(text), Header: true} }

func headCell(text string, span int) page.TableCell {
	return page.TableCell{Runs: bold(text), Header: true, Span: span}
}

// headRow is a head row of plain heads, each the phrase of its key; an empty
// key is an empty cell.
func (b *book) headRow(keys ...string) []page.TableCell {
	var row []page.TableCell
	for _, k := range keys {
		if k == "" {
			row = append(row, headCell("", 0))
			continue
		}
		row = append(row, headCell(b.say(k), 0))
	}
	return row
}

// para is a paragraph of the key's phrase.
func (b *book) para(key string, pairs ...string) page.Paragraph {
	return page.Paragraph{Runs: plain(b.say(key, pairs...))}
}

// lead is a paragraph that stays with what follows.
func (b *book) lead(key string, pairs ...string) page.Paragraph {
	return page.Paragraph{Runs: plain(b.say(key, pairs...)), Keep: true}
}

// placed is the phrase of the key with a run in its place {value}.
func (b *book) placed(key string, r page.Run) []page.Run {
	const mark = "\x00" // in no phrase and in no text that may be printed
	before, after, _ := strings.Cut(b.say(key, "value", mark), mark)
	var out []page.Run
	for _, x := range []page.Run{{Text: before, Face: page.Muted}, r, {Text: after, Face: page.Muted}} {
		if x.Text != "" {
			out = append(out, x)
		}
	}
	return out
}

// steps are the phrases key.1, key.2 … as the items of a list.
func (b *book) steps(key string, pairs ...string) [][]page.Run {
	var items [][]page.Run
	for n := 1; b.in.Words.Has(fmt.Sprintf("%s.%d", key, n)); n++ {
		items = append(items, plain(b.say(fmt.Sprintf("%s.%d", key, n), pairs...)))
	}
	if items == nil {
		b.say(key + ".1") // tells that the list has no words
	}
	return items
}

// join puts the texts that are not empty in one line.
func join(sep string, texts ...string) string {
	var kept []string
	for _, t := range texts {
		if t != "" {
			kept = append(kept, t)
		}
	}
	return strings.Join(kept, sep)
}
