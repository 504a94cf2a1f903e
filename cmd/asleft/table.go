package main

import (
	"strings"
	"unicode/utf8"
)

// column is a column of a text table. Only columns that wrap give way where
// the table is wider than the terminal.
type column struct {
	head  string
	right bool
	wraps bool
}

// gap stands between columns; leastWidth is the narrowest a wrapped column gets.
const (
	gap        = "  "
	leastWidth = 8
)

// table sets rows under their heads, in aligned columns. A width of 0 is no
// limit: nothing is wrapped. No row and no word is ever left out; what does not
// fit a narrow terminal runs over its edge. Rows in bold are set in the
// terminal's bold face. A row of one cell is a head: it stands whole, across the
// columns.
func table(columns []column, rows [][]string, bold func(row int) bool, width int) string {
	head := make([]string, len(columns))
	for i, c := range columns {
		head[i] = c.head
	}
	widths := fit(columns, append([][]string{head}, rows...), width)
	var b strings.Builder
	b.WriteString(line(columns, widths, head))
	for i, r := range rows {
		text := acrossOrLine(columns, widths, r)
		if bold != nil && bold(i) {
			text = embolden(text)
		}
		b.WriteString(text)
	}
	return b.String()
}

func acrossOrLine(columns []column, widths []int, row []string) string {
	if len(row) == 1 {
		return row[0] + "\n"
	}
	return line(columns, widths, row)
}

// fit finds the width of each column: its widest cell, less where the whole
// would be wider than allowed.
func fit(columns []column, rows [][]string, width int) []int {
	widths := make([]int, len(columns))
	for _, r := range rows {
		if len(r) == 1 {
			continue
		}
		for i, cell := range r {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for width > 0 && total(widths) > width {
		widest := -1
		for i, c := range columns {
			if c.wraps && widths[i] > leastWidth && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		widths[widest]--
	}
	return widths
}

func total(widths []int) int {
	sum := len(gap) * (len(widths) - 1)
	for _, w := range widths {
		sum += w
	}
	return sum
}

// line sets one row, on as many lines as its tallest cell needs.
func line(columns []column, widths []int, row []string) string {
	cells := make([][]string, len(row))
	height := 1
	for i, cell := range row {
		cells[i] = wrap(cell, widths[i])
		height = max(height, len(cells[i]))
	}
	var b strings.Builder
	for y := range height {
		var parts []string
		for i, lines := range cells {
			text := ""
			if y < len(lines) {
				text = lines[y]
			}
			parts = append(parts, pad(text, widths[i], columns[i].right))
		}
		b.WriteString(strings.TrimRight(strings.Join(parts, gap), " "))
		b.WriteByte('\n')
	}
	return b.String()
}

func pad(text string, width int, right bool) string {
	blank := strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
	if right {
		return blank + text
	}
	return text + blank
}

// wrap breaks a text at spaces; a word that is too long stays whole, and a text
// that is set in stays so on every line. A width of 0 is no limit.
func wrap(text string, width int) []string {
	if width <= 0 || utf8.RuneCountInString(text) <= width {
		return []string{text}
	}
	var lines []string
	indent := text[:len(text)-len(strings.TrimLeft(text, " "))]
	current := indent
	for _, word := range strings.Fields(text) {
		switch {
		case current == indent:
			current += word
		case utf8.RuneCountInString(current)+1+utf8.RuneCountInString(word) <= width:
			current += " " + word
		default:
			lines = append(lines, current)
			current = indent + word
		}
	}
	return append(lines, current)
}

// embolden sets each line in the terminal's bold face.
func embolden(text string) string {
	var b strings.Builder
	for l := range strings.Lines(text) {
		b.WriteString("\x1b[1m" + strings.TrimRight(l, "\n") + "\x1b[0m\n")
	}
	return b.String()
}
