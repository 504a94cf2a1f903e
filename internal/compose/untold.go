package compose

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/page"
)

// untold is what was typed in a cell of a workbook and stands on no page before
// the appendix, or not as it was typed.
type untold struct {
	typedCell
	what string
}

// typedPlaces says on which sheets stands what was typed of the tower and of each of
// its cells, and which of it no page has told.
func (b *book) typedPlaces() (lines [][]page.TableCell, rest []untold) {
	add := func(of string, cells []typedCell) {
		lines = append(lines, []page.TableCell{rowHead(of), textCell(b.sheetsOf(cells))})
		for _, c := range cells {
			if !b.told[c.at] {
				rest = append(rest, untold{c, ""})
			}
		}
	}
	add(b.say("appendix.tower"), typedCells(b.towerParts()...))
	for _, c := range b.cells() {
		add(b.cellName(c), typedCells(c.read))
	}
	return lines, b.nameUntold(rest)
}

// nameUntold says of each what it is.
func (b *book) nameUntold(out []untold) []untold {
	names := b.entryNames(out)
	for i := range out {
		if out[i].what = names[out[i].at]; out[i].what == "" { // the data file has no use for it
			out[i].what = b.entryWord("head", []string{"", lowered(out[i].name)})
		}
	}
	return out
}

// entryNames are what the form calls the entries in these cells of the workbook.
func (b *book) entryNames(cells []untold) map[field.Ref]string {
	names := map[field.Ref]string{}
	for _, c := range cells {
		names[c.at] = ""
	}
	b.made.set.EachTyped(func(t data.Typed) {
		if known, asked := names[t.At]; asked && known == "" {
			names[t.At] = b.entryName(t.Keys)
		}
	})
	return names
}

// entryName names an entry by its path, without what its sheet says.
func (b *book) entryName(keys []string) string {
	switch keys[0] {
	case "cells":
		return b.belowCell(keys[2:])
	case "project", "tower", "geometry":
		return b.entryWord(keys[0], keys[1:])
	case "feet":
		return join(", ", b.say("form.foot", "n", keys[1]), b.entryWord(keys[0], keys[2:]))
	}
	return b.whereText(change{keys: keys})
}

// lowered is the name of a field as the data file has it.
func lowered(name string) string {
	r, n := utf8.DecodeRuneInString(name)
	return string(unicode.ToLower(r)) + name[n:]
}

// untoldInRow keeps the rows of the table low enough to fill the page.
const untoldInRow = 24

// untoldTable has a row for each sheet, or several, in which every entry stands
// with its cell.
func (b *book) untoldTable(list []untold) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 7}},
		Head:    [][]page.TableCell{b.headRow("appendix.sheets", "appendix.each")},
		Summary: b.say("appendix.resttable"),
	}
	for len(list) > 0 {
		n := slices.IndexFunc(list, func(x untold) bool { return x.at.File != list[0].at.File || x.at.Sheet != list[0].at.Sheet })
		if n < 0 {
			n = len(list)
		}
		n = min(n, untoldInRow)
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(b.sheetName(list[0].at)), {Runs: b.untoldRuns(list[:n])}}})
		list = list[n:]
	}
	return t
}

// together keeps a number and its unit on one line.
func together(text string) string {
	if strings.ContainsAny(text[:min(len(text), 2)], "0123456789") && strings.Count(text, " ") == 1 {
		return unbroken(text)
	}
	return text
}

func (b *book) untoldRuns(list []untold) []page.Run {
	var runs []page.Run
	for i, x := range list {
		if i > 0 {
			runs = append(runs, page.Run{Text: "; ", Face: page.Muted})
		}
		runs = append(runs, page.Run{Text: x.what + " ", Face: page.Muted}, page.Run{Text: together(b.clean(x.text, x.at))},
			page.Run{Text: "\u00a0" + b.clean(x.at.Cell, x.at), Face: page.Muted})
	}
	return runs
}
