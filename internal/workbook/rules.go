package workbook

import (
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"

	"asleft/internal/measure"

	"github.com/xuri/excelize/v2"
)

// maxDropList is how many characters of words a drop-down holds itself.
const maxDropList = 255

// dropDown offers the words of a choice or the entries of a register.
func (w *writer) dropDown(s *sheetPlan, in input) {
	dv := excelize.NewDataValidation(true)
	switch {
	case in.slot.pick != "":
		a := w.area(in.slot.pick)
		a.to.col = a.from.col // the first column is the one that rounds name
		dv.SetSqrefDropList(a.absolute())
	case in.slot.kind == kindFlag || in.slot.list != nil:
		w.choice(dv, in.slot)
		dv.SetError(excelize.DataValidationErrorStyleStop, w.o.Words.Say("form.error.title"),
			w.o.Words.Say("form.error.choice"))
	default:
		return
	}
	w.rule(dv, in.area)
}

// entryRule is a rule and the cells of a sheet that share it.
type entryRule struct {
	rule  *excelize.DataValidation
	cells []area
}

// rule keeps cells to a rule.
func (w *writer) rule(dv *excelize.DataValidation, cells area) {
	for i := range w.rules {
		if reflect.DeepEqual(w.rules[i].rule, dv) {
			w.rules[i].cells = append(w.rules[i].cells, cells)
			return
		}
	}
	w.rules = append(w.rules, entryRule{dv, []area{cells}})
}

// addRules puts the rules of a sheet into it.
func (w *writer) addRules(s *sheetPlan) {
	for _, r := range w.rules {
		r.rule.SetSqref(listed(joined(r.cells)))
		w.must(w.file.AddDataValidation(s.title, r.rule))
	}
	w.rules = nil
}

// choice lists the words in the cell, or points to the guide where they are
// too long for that.
func (w *writer) choice(dv *excelize.DataValidation, s slot) {
	l := s.list
	if l == nil {
		l = yesNo()
	}
	words := w.o.wordsOf(l)
	if fitsDropList(words) {
		w.must(dv.SetDropList(words))
		return
	}
	dv.SetSqrefDropList(w.area(l.name()).absolute())
}

// fitsDropList tells whether a drop-down can hold the words itself.
func fitsDropList(words []string) bool {
	return utf8.RuneCountInString(strings.Join(words, ",")) <= maxDropList && !strings.Contains(strings.Join(words, ""), ",")
}

// entryRules keep dates, times and counts what they are.
func (w *writer) entryRules(s *sheetPlan, in input) {
	dv := excelize.NewDataValidation(true)
	var err error
	var message string
	switch in.slot.kind {
	case kindDate: // 2000-01-01 to 2099-12-31
		err = dv.SetRange(36526, 73050, excelize.DataValidationTypeDate, excelize.DataValidationOperatorBetween)
		message = "form.error.date"
	case kindClock:
		err = dv.SetRange(0, 0.999988426, excelize.DataValidationTypeTime, excelize.DataValidationOperatorBetween)
		message = "form.error.clock"
	case kindCount:
		err = dv.SetRange(0, maxCount, excelize.DataValidationTypeWhole, excelize.DataValidationOperatorBetween)
		message = "form.error.count"
	default:
		return
	}
	w.must(err)
	dv.SetError(excelize.DataValidationErrorStyleStop, w.o.Words.Say("form.error.title"), w.o.Words.Say(message))
	w.rule(dv, in.area)
}

// number is a spreadsheet expression for the number typed in a cell or range,
// "" where it is none: 0.5, 1/2, 1-1/4, 9/16 in. It serves the marks while
// typing and nothing else; a text in another unit counts as no number.
func number(ref string, u measure.Unit) string {
	text := fmt.Sprintf(`SUBSTITUTE(%s,"%s","")`, ref, u)
	if u == measure.UnitInch {
		text = fmt.Sprintf(`SUBSTITUTE(%s,"""","")`, text)
	}
	// The guard 0 before a fraction keeps 9/16 from being read as a date.
	text = fmt.Sprintf(`TRIM(SUBSTITUTE(SUBSTITUTE(%s,"°",""),"-"," "))`, text)
	return fmt.Sprintf(`IFERROR(IF(ISNUMBER(FIND("/",%s)),IFERROR(VALUE("0 "&%s),VALUE(%s)),VALUE(%s)),"")`,
		text, text, text, text)
}

// sums shows the highest minus the lowest of a column.
func (w *writer) sums(s *sheetPlan) {
	for _, x := range s.sums {
		n := number(x.values.cells(), w.o.Units)
		formula := fmt.Sprintf(`IF(COUNT(%s)<2,"",MAX(%s)-MIN(%s))`, n, n, n)
		if x.unless.sheet != "" {
			formula = fmt.Sprintf(`IF(COUNTA(%s)>0,"",%s)`, x.unless.cells(), formula)
		}
		w.array(s, x.at, formula)
	}
	for _, x := range s.sums {
		w.style(s, area{s.title, x.at, x.at}, lookSum, w.sumFormat())
	}
}

func (w *writer) sumFormat() string {
	if w.o.Units == measure.UnitInch {
		return "0.0###"
	}
	return formatMetric
}

// array sets a formula that runs over ranges.
func (w *writer) array(s *sheetPlan, at pos, formula string) {
	ref, kind := at.String(), excelize.STCellFormulaTypeArray
	w.must(w.file.SetCellFormula(s.title, ref, formula, excelize.FormulaOpts{Ref: &ref, Type: &kind}))
}

// marks hatches what lies outside the limits sheet's row for the check.
func (w *writer) marks(s *sheetPlan) {
	for _, m := range s.marks {
		bounds, ok := w.plan.bounds[m.check]
		if !ok {
			continue
		}
		low, high := area{bounds.sheet, bounds.from, bounds.from}.absolute(),
			area{bounds.sheet, bounds.to, bounds.to}.absolute()
		x := m.areas[0].from.String()
		n := number(x, w.o.Units)
		if m.value {
			n = x
		}
		// The tiny allowance keeps a reading at its limit unmarked in spite of
		// the spreadsheet's binary numbers.
		rule := fmt.Sprintf(`IF(ISNUMBER(%s),OR(IF(ISNUMBER(%s),%s<%s-0.0000001,FALSE),IF(ISNUMBER(%s),%s>%s+0.0000001,FALSE)),FALSE)`,
			n, low, n, low, high, n, high)
		if w.outside == nil {
			format, err := w.file.NewConditionalStyle(outside())
			w.must(err)
			w.outside = &format
		}
		w.must(w.file.SetConditionalFormat(s.title, listed(m.areas), []excelize.ConditionalFormatOptions{
			{Type: "formula", Criteria: rule, Format: w.outside}}))
	}
}

// bounds shows, beside each limit, what is marked while it is typed.
func (w *writer) bounds(s *sheetPlan) {
	for _, x := range s.bounds {
		q := map[string]string{}
		for _, key := range []string{"min", "nominal", "max", "tolerance"} {
			q[key] = number(x.cells[key], w.o.Units)
		}
		// A criterion on the spread of readings has no lower bound.
		low, high := `""`, fmt.Sprintf(`IF(ISNUMBER(%s),%s,"")`, q["max"], q["max"])
		switch x.check {
		case "tipradius":
			high = fmt.Sprintf(`IFERROR(2*%s,"")`, q["tolerance"])
		case "clearance", "clearanceall", "pitch", "shaftends", "guardend", "guardaround":
			low = fmt.Sprintf(`IF(ISNUMBER(%s),%s,IFERROR(%s-%s,""))`, q["min"], q["min"], q["nominal"], q["tolerance"])
			high = fmt.Sprintf(`IF(ISNUMBER(%s),%s,IFERROR(%s+%s,""))`, q["max"], q["max"], q["nominal"], q["tolerance"])
		}
		w.must(w.file.SetCellFormula(s.title, x.area.from.String(), low))
		w.must(w.file.SetCellFormula(s.title, x.area.to.String(), high))
		w.style(s, x.area, lookSum, w.sumFormat())
	}
}
