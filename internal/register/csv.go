package register

import (
	"encoding/csv"
	"io"
	"strconv"

	"asleft/internal/data"
)

// WriteCSV writes the table of cells as CSV (RFC 4180, UTF-8): a header line and
// a line for each cell. A margin is a plain number, with its unit beside it.
func (r *Register) WriteCSV(w io.Writer, p Print) error {
	t := r.cellTable(&p)
	out := csv.NewWriter(w)
	out.UseCRLF = true
	var head []string
	for i, h := range t.head {
		head = append(head, h)
		if unit, ok := t.units[i]; ok {
			head = append(head, unit)
		}
	}
	_ = out.Write(head) // errors stick until Flush
	for n := range t.size {
		var line []string
		for i, v := range t.row(n) {
			_, two := t.units[i]
			line = append(line, fields(v, two)...)
		}
		_ = out.Write(line)
	}
	out.Flush()
	return out.Error()
}

// fields are the fields of a value: two in a column of amounts.
func fields(v value, two bool) []string {
	switch {
	case v.amount != nil:
		return []string{strconv.FormatFloat(v.amount.value, 'f', v.amount.decimals, 64), v.amount.unit}
	case two:
		return []string{"", ""}
	}
	return []string{data.SafeText(v.String())}
}
