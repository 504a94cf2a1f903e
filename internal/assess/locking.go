package assess

import (
	"asleft/internal/field"
)

// materialStainless is the code of a material that galls when turned dry.
const materialStainless = "stainless"

// lockingCheck holds how every set was locked against the schedule.
func (w *work) lockingCheck() Check {
	var items []Item
	for i := range w.cell.Fasteners {
		f := &w.cell.Fasteners[i]
		it := newItem(items, setCode(f), f.Name.Value, f.At)
		judgeLocking(f, &it)
		items = append(items, it)
	}
	return w.onceCheck(Locking, items)
}

func judgeLocking(f *field.Fasteners, it *Item) {
	switch {
	case f.Scheduled.Value == "":
		it.find(NoLimit, reasonNoSchedule)
	case f.Locking.Value == "":
		it.find(Missing, reasonNoLocking)
	case f.Locking.Value != f.Scheduled.Value:
		it.find(Outside, reasonLocking, textArg("locking", f.Locking.Value), textArg("scheduled", f.Scheduled.Value))
	}
	lockingTime(f, it)
}

// lockingTime asks that liquid threadlocker went on before assembly, and the
// wicking kind after the final torque.
func lockingTime(f *field.Fasteners, it *Item) {
	want := ""
	switch f.Locking.Value {
	case LockLiquid:
		want = timingBefore
	case LockWicking:
		want = timingAfter
	default:
		return
	}
	switch f.LockingTime.Value {
	case want:
	case "":
		it.find(Missing, reasonNoLockTime, textArg("locking", f.Locking.Value))
	default:
		it.find(Outside, reasonLockTime, textArg("locking", f.Locking.Value))
	}
}

// lockingQuestions asks about what does not go together in one set.
func (w *work) lockingQuestions(out *Cell) {
	for i := range w.cell.Fasteners {
		f := &w.cell.Fasteners[i]
		it := Item{Key: setCode(f), Code: setCode(f), Name: f.Name.Value}
		adhesive := f.Locking.Value == LockLiquid || f.Locking.Value == LockWicking
		switch {
		case adhesive && f.Lubricant.Value == lubricantPaste:
			out.ask(questionAntiSeize, itemArg(&it))
		case f.Material.Value == materialStainless && !adhesive && (f.Lubricant.Value == "" || f.Lubricant.Value == "dry"):
			out.ask(questionGalling, itemArg(&it))
		}
	}
}
