package workbook

import (
	"fmt"
	"strconv"
	"strings"
)

// pos is a cell, column and row counted from 1.
type pos struct{ col, row int }

// String is the name people use, e.g. "AB12".
func (p pos) String() string { return columnName(p.col) + strconv.Itoa(p.row) }

// Excel's own bounds.
const (
	maxColumns = 16384
	maxRows    = 1048576
)

// columnName writes a column number in bijective base 26: there is no zero, so
// Z is followed by AA.
func columnName(n int) string {
	name := ""
	for ; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// parsePos reads a cell name, with or without dollar signs.
func parsePos(name string) (pos, bool) {
	var p pos
	name = strings.TrimPrefix(name, "$")
	letters := 0
	for letters < len(name) && letters < 3 && isLetter(name[letters]) {
		p.col = p.col*26 + int(name[letters]|0x20-'a') + 1
		letters++
	}
	digits := strings.TrimPrefix(name[letters:], "$")
	if letters == 0 || digits == "" || len(digits) > 7 {
		return pos{}, false
	}
	for i := range len(digits) {
		if digits[i] < '0' || digits[i] > '9' {
			return pos{}, false
		}
		p.row = p.row*10 + int(digits[i]-'0')
	}
	return p, p.row >= 1 && p.row <= maxRows && p.col <= maxColumns
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// area is a rectangle of cells of one sheet, named as the spreadsheet names
// it.
type area struct {
	sheet    string
	from, to pos
}

func (a area) rows() int { return a.to.row - a.from.row + 1 }
func (a area) cols() int { return a.to.col - a.from.col + 1 }

// cells is the address without the sheet, e.g. "C4:C15".
func (a area) cells() string {
	if a.from == a.to {
		return a.from.String()
	}
	return a.from.String() + ":" + a.to.String()
}

// absolute is the form a defined name refers to.
func (a area) absolute() string {
	quoted := quoteSheet(a.sheet) + "!"
	at := func(p pos) string { return fmt.Sprintf("$%s$%d", columnName(p.col), p.row) }
	if a.from == a.to {
		return quoted + at(a.from)
	}
	return quoted + at(a.from) + ":" + at(a.to)
}

func quoteSheet(title string) string {
	return "'" + strings.ReplaceAll(title, "'", "''") + "'"
}

// parseArea reads what a defined name refers to. It is false for anything but
// one rectangle of one sheet: unions, formulas, #REF!.
func parseArea(text string) (area, bool) {
	bang := strings.LastIndex(text, "!")
	if bang < 1 {
		return area{}, false
	}
	sheet, cells := strings.TrimPrefix(text[:bang], "="), text[bang+1:]
	if strings.HasPrefix(sheet, "'") {
		if len(sheet) < 3 || !strings.HasSuffix(sheet, "'") {
			return area{}, false
		}
		sheet = strings.ReplaceAll(sheet[1:len(sheet)-1], "''", "'")
	} else if strings.ContainsAny(sheet, "',[]() ") {
		return area{}, false
	}
	first, last, two := strings.Cut(cells, ":")
	from, ok := parsePos(first)
	to := from
	if ok && two {
		to, ok = parsePos(last)
	}
	if !ok || to.col < from.col || to.row < from.row {
		return area{}, false
	}
	return area{sheet, from, to}, true
}

// listed is the ranges as a list, without their sheet.
func listed(areas []area) string {
	var all []string
	for _, a := range areas {
		all = append(all, a.cells())
	}
	return strings.Join(all, " ")
}

// joined makes one range of those that touch and are as wide or as high as each
// other.
func joined(areas []area) []area {
	var out []area
	for _, a := range areas {
		for i := 0; i < len(out); i++ {
			if whole, ok := join(out[i], a); ok {
				a, out = whole, append(out[:i:i], out[i+1:]...)
				i = -1
			}
		}
		out = append(out, a)
	}
	return out
}

func join(a, b area) (area, bool) {
	sameRows := a.from.row == b.from.row && a.to.row == b.to.row
	sameColumns := a.from.col == b.from.col && a.to.col == b.to.col
	if sameRows && a.to.col+1 == b.from.col || sameColumns && a.to.row+1 == b.from.row {
		return area{a.sheet, a.from, b.to}, true
	}
	return area{}, false
}
