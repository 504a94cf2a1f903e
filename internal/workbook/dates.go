package workbook

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"asleft/internal/field"
)

// Days on which anything of a tower's record can have happened.
const (
	firstYear = 1990
	lastYear  = 2099
)

// dayOf turns a spreadsheet's serial number into a day. Serial 1 is 1900-01-01,
// and there was a 1900-02-29 (serial 60), which never was; from 61 on, days run
// from 1899-12-30. Workbooks from old Macintosh versions count from 1904-01-01.
func dayOf(serial float64, from1904 bool) (field.Day, bool) {
	whole := math.Floor(serial)
	if !(whole >= 0 && whole < 3000000) {
		return field.Day{}, false
	}
	start := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case from1904:
		start = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case whole == 60:
		return field.Day{Year: 1900, Month: 2, Day: 29}, true
	case whole < 60:
		start = start.AddDate(0, 0, 1)
	}
	t := start.AddDate(0, 0, int(whole))
	return field.Day{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}, true
}

// likelyFractions guesses what was typed where a spreadsheet shows a date:
// 9/16 became September 16, 9/32 became September 1932, 1-1/4 became January 1
// of 2004. Month before day and day before month are both tried, because both
// are habits of some country. The guess is only ever shown.
func likelyFractions(d field.Day) string {
	var guesses []string
	add := func(text string) {
		for _, g := range guesses {
			if g == text {
				return
			}
		}
		guesses = append(guesses, text)
	}
	short := d.Year % 100
	switch {
	case d.Day == 1 && (short == 32 || short == 64):
		add(fmt.Sprintf("%d/%d", d.Month, short))
	case halved(d.Day) && d.Month < d.Day:
		add(fmt.Sprintf("%d/%d", d.Month, d.Day))
	case halved(d.Month) && d.Day < d.Month:
		add(fmt.Sprintf("%d/%d", d.Day, d.Month))
	case halved(short) && d.Day < short:
		add(fmt.Sprintf("%d-%d/%d", d.Month, d.Day, short))
	}
	return strings.Join(guesses, ", ")
}

// halved reports the denominators of a rule.
func halved(n int) bool { return n >= 2 && n <= 64 && n&(n-1) == 0 }

func (v *cellReader) date(e *field.Date) {
	day, ok := v.day()
	if !ok {
		return
	}
	if day.Year < firstYear || day.Year > lastYear {
		v.refuse(OddDate, day.String())
		return
	}
	*e = field.Date{Value: day, Set: true, Text: day.String(), At: v.here()}
}

// day is the day of a date cell or of a date typed as text.
func (v *cellReader) day() (field.Day, bool) {
	c := v.cell
	switch {
	case c.kind == rawText && spaced(c.text) == "":
		return field.Day{}, false
	case c.kind == rawText || c.kind == rawDate:
		return v.textDay(spaced(strings.TrimSuffix(c.text, "T00:00:00")))
	}
	n, err := strconv.ParseFloat(c.text, 64)
	day, ok := dayOf(n, v.book.is1904)
	switch {
	case err != nil || !ok || !c.style.date:
		v.refuse(NotDate, "")
		return day, false
	case n != math.Floor(n):
		v.refuse(DateAndTime, day.String())
		return day, false
	}
	return day, true
}

// textDay reads 2026-03-04 and dates with the month's name and a full year.
// Three bare numbers in any other order mean different days to different
// people.
func (v *cellReader) textDay(text string) (field.Day, bool) {
	parts := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" -/.,", r) })
	if len(parts) != 3 {
		v.refuse(NotDate, "")
		return field.Day{}, false
	}
	d, ok := isoDay(text, parts)
	if !ok {
		d, ok = namedDay(parts)
	}
	switch {
	case ok && validDay(d):
		return d, true
	case !ok && digitsOnly(parts[0]) && digitsOnly(parts[1]) && digitsOnly(parts[2]):
		v.refuse(AmbiguousDate, "")
	default:
		v.refuse(NotDate, "")
	}
	return field.Day{}, false
}

func digitsOnly(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

func isoDay(text string, parts []string) (field.Day, bool) {
	if len(text) != 10 || text[4] != '-' || text[7] != '-' || !digitsOnly(strings.Join(parts, "")) {
		return field.Day{}, false
	}
	return field.Day{Year: atoi(parts[0]), Month: atoi(parts[1]), Day: atoi(parts[2])}, true
}

// months are the English names' beginnings.
const months = "janfebmaraprmayjunjulaugsepoctnovdec"

// namedDay reads 4 March 2026, Mar 4, 2026 and 4-Mar-2026.
func namedDay(parts []string) (field.Day, bool) {
	var d field.Day
	for _, part := range parts {
		switch {
		case digitsOnly(part) && len(part) == 4 && d.Year == 0:
			d.Year = atoi(part)
		case digitsOnly(part) && len(part) <= 2 && d.Day == 0:
			d.Day = atoi(part)
		case d.Month == 0 && len(part) >= 3:
			if at := strings.Index(months, strings.ToLower(part[:3])); at >= 0 && at%3 == 0 {
				d.Month = at/3 + 1
			}
		}
	}
	return d, d.Year != 0 && d.Month != 0 && d.Day != 0
}

// validDay reports a day that there is.
func validDay(d field.Day) bool {
	t := time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	return t.Year() == d.Year && int(t.Month()) == d.Month && t.Day() == d.Day
}

func (v *cellReader) clock(e *field.Clock) {
	m, ok := v.minute()
	if !ok {
		return
	}
	*e = field.Clock{Value: m, Set: true, Text: m.String(), At: v.here()}
}

// minute is the time of day of a time cell or of a time typed as text.
func (v *cellReader) minute() (field.Minute, bool) {
	c := v.cell
	if c.kind == rawText {
		text := spaced(c.text)
		m, ok := textMinute(strings.ToLower(text))
		if !ok && text != "" {
			v.refuse(NotClock, "")
		}
		return m, ok
	}
	n, err := strconv.ParseFloat(c.text, 64)
	minutes := math.Round(n * 24 * 60)
	// Half a second is far above what storing a time as a fraction loses.
	if err != nil || !c.style.clock || !(n >= 0 && n < 1) || math.Abs(n*24*60-minutes) > 0.5/60 || minutes >= 24*60 { // NaN is in no order
		v.refuse(NotClock, "")
		return 0, false
	}
	return field.Minute(minutes), true
}

// textMinute reads 14:05 and 2:05 pm.
func textMinute(text string) (field.Minute, bool) {
	half := ""
	for _, mark := range []string{"am", "pm"} {
		if rest := strings.TrimSuffix(text, mark); rest != text {
			half, text = mark, strings.TrimSpace(rest)
		}
	}
	hour, minute, ok := strings.Cut(text, ":")
	if !ok || !digitsOnly(hour) || !digitsOnly(minute) || len(hour) > 2 || len(minute) != 2 {
		return 0, false
	}
	h, m := atoi(hour), atoi(minute)
	switch {
	case half != "" && (h < 1 || h > 12), h > 23, m > 59:
		return 0, false
	case half == "am" && h == 12:
		h = 0
	case half == "pm" && h < 12:
		h += 12
	}
	return field.Minute(h*60 + m), true
}
