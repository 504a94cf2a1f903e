package workbook

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
)

// formBox is a cell of a form that people fill.
type formBox struct {
	sheet   string
	at      pos
	slot    slot
	unknown bool // what it is for
	free    bool // nothing reads it
}

func (b formBox) String() string { return b.sheet + "!" + b.at.String() }

// boxesOf are all boxes of a new form.
func boxesOf(o FormOptions) ([]formBox, error) {
	o, err := o.complete()
	if err != nil {
		return nil, err
	}
	p, err := newPlan(o)
	if err != nil {
		return nil, err
	}
	var out []formBox
	for _, s := range p.sheets {
		for _, in := range s.inputs {
			for row := in.area.from.row; row <= in.area.to.row; row++ {
				for col := in.area.from.col; col <= in.area.to.col; col += max(in.span, 1) {
					out = append(out, formBox{sheet: s.title, at: pos{col, row}, slot: in.slot, free: in.free || in.closed})
				}
			}
		}
	}
	return out, nil
}

// likely is something of a box's kind, as a spreadsheet's library takes it.
func likely(s slot, n int) any {
	if s.list != nil {
		return s.list.codes[n%len(s.list.codes)]
	}
	switch s.kind {
	case kindLength, kindResolution, kindRise:
		return fmt.Sprintf("%d/64", 2*(n%30)+1)
	case kindAngle, kindNumber:
		return float64(n%40) / 4
	case kindCount:
		return n%2 + 1
	case kindFlag:
		return "yes"
	case kindDate:
		return fmt.Sprintf("2026-03-%02d", n%28+1)
	case kindClock:
		return fmt.Sprintf("%d:%02d", n%24, n%60)
	case kindSlope:
		return "0.005 in/ft"
	case kindNumbers:
		return "1, 2"
	case kindQuantity:
		return nil
	}
	return fmt.Sprintf("Text %d (invented)", n)
}

// filledForm is a small form with something in nearly every box, and no fault.
var filledForm = sync.OnceValues(func() ([]byte, error) { return fillForm(tiny) })

// fillForm fills a form: what is not right together is taken out again.
func fillForm(o FormOptions) ([]byte, error) {
	var form bytes.Buffer
	if err := WriteForm(&form, o); err != nil {
		return nil, err
	}
	boxes, err := boxesOf(o)
	if err != nil {
		return nil, err
	}
	skip := map[string]bool{}
	for range 12 {
		b, err := fillBoxes(form.Bytes(), boxes, skip)
		if err != nil {
			return nil, err
		}
		_, faults, err := Read([]Input{{"filled.xlsx", b}}, nil)
		if err != nil || len(faults) == 0 {
			return b, err
		}
		for _, f := range faults {
			skip[f.At.String()] = true
			for _, b := range boxes { // a row without its number cannot stay
				if at, _ := parsePos(f.At.Cell); f.Kind == Required && b.sheet == f.At.Sheet && b.at.row == at.row {
					skip[b.String()] = true
				}
			}
		}
	}
	return nil, fmt.Errorf("the form does not get right")
}

func fillBoxes(form []byte, boxes []formBox, skip map[string]bool) ([]byte, error) {
	f, err := openEditor(form)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	for i, b := range boxes {
		v := likely(b.slot, i)
		old, err := f.GetCellValue(b.sheet, b.at.String())
		if err != nil {
			return nil, err
		}
		if skip[b.String()] || b.free || v == nil || old != "" || b.slot.key == "reason" {
			continue
		}
		if err := f.SetCellValue(b.sheet, b.at.String(), v); err != nil {
			return nil, err
		}
	}
	var out bytes.Buffer
	_, err = f.WriteTo(&out)
	return out.Bytes(), err
}

// The form that mutants are made of is worth it: most boxes are filled, and
// what was typed arrives.
func TestFilledForm(t *testing.T) {
	b, err := filledForm()
	if err != nil {
		t.Fatal(err)
	}
	boxes, err := boxesOf(tiny)
	if err != nil {
		t.Fatal(err)
	}
	all := leaves(clean(t, b))
	filled, kinds := 0, map[kind]bool{}
	for _, x := range boxes {
		if len(all[x.String()]) > 0 {
			filled++
			kinds[x.slot.kind] = true
		}
	}
	t.Logf("%d of %d boxes are filled, of %d kinds", filled, len(boxes), len(kinds))
	if filled < len(boxes)/2 || len(kinds) < 10 {
		t.Error("too few")
	}
	if !slices.ContainsFunc(all["Project!B5"], func(l leaf) bool { return strings.HasPrefix(l.typed, "Text ") }) {
		t.Errorf("Project!B5 holds %v", all["Project!B5"])
	}
}
