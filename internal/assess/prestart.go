package assess

import (
	"slices"

	"asleft/internal/field"
)

// preStartCheck asks that every line of the pre-start list was done. A line
// that is required and not on the list is missing.
func (w *work) preStartCheck() Check {
	if len(w.cell.PreStart) == 0 {
		return w.onceCheck(PreStart, nil)
	}
	var items []Item
	for i := range w.cell.PreStart {
		x := &w.cell.PreStart[i]
		it := newItem(items, x.Key, x.Note.Value, x.At)
		switch {
		case !x.Done.Set:
			it.find(Missing, reasonLineBlank)
		case !x.Done.Value:
			it.find(Outside, reasonLine)
		case !x.Date.Set || x.By.Value == "":
			it.find(Missing, reasonLineBy)
		}
		items = append(items, it)
	}
	for _, key := range PreStartLines() {
		if !w.hasLine(key) {
			it := newItem(items, key, "", field.Ref{})
			it.find(Missing, reasonLineBlank)
			items = append(items, it)
		}
	}
	return w.onceCheck(PreStart, items)
}

func (w *work) hasLine(key string) bool {
	return slices.ContainsFunc(w.cell.PreStart, func(x field.Item) bool { return x.Key == key })
}

// clearedFor tells whether the whole list was done by the day of a run.
func (w *work) clearedFor(run *field.StartUp) bool {
	for _, key := range PreStartLines() {
		if !w.hasLine(key) {
			return false
		}
	}
	for _, x := range w.cell.PreStart {
		late := run.Date.Set && x.Date.Value.Compare(run.Date.Value) > 0
		if !x.Done.Set || !x.Done.Value || !x.Date.Set || late {
			return false
		}
	}
	return true
}
