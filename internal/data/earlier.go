package data

import "reflect"

// Earlier are the data file and the tables as version 0.1.0 wrote them, by name, so
// that an audit can follow those of its packages: every member on a line; integers
// in base units in the tables, and all that was typed in one of them, every line of
// it whole.
func (d *Document) Earlier() (map[string][]byte, error) {
	file, err := write(d, lined)
	if err != nil {
		return nil, err
	}
	out := map[string][]byte{DataName: file}
	for name, table := range map[string]func(chooser) ([]byte, error){
		ReadingsName: d.readings, ItemsName: d.items, LimitsName: d.limitTable, EntriesName: d.wholeEntries,
	} {
		b, err := table(all)
		if err != nil {
			return nil, err
		}
		out[name] = b
	}
	return out, nil
}

// wholeEntries has a cell of the workbook in one line, under its first path.
func (d *Document) wholeEntries(choose chooser) ([]byte, error) {
	t := newTable(choose, "path", "value", "unit", "base", "exact", "typed", "file", "sheet", "sheet_cell")
	type said struct {
		place
		value string
	}
	told := map[said]bool{}
	eachEntry(nil, reflect.ValueOf(d).Elem(), func(keys []string, e *Entry) {
		if here := (said{place{e.File, e.At}, e.Value}); e.At != "" {
			if told[here] {
				return
			}
			told[here] = true
		}
		sheet, cell := splitAt(e.At)
		t.add(join(keys...), e.safeValue(), e.Unit, e.base(), e.Exact, SafeText(e.typed()), SafeText(fileName(d.Files, e.File)), SafeText(sheet), cell)
	})
	return t.bytes()
}
