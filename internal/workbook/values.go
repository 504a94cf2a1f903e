package workbook

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// maxCount is the largest whole number that a box takes: nothing that is
// counted on a tower comes near.
const maxCount = 9999

// fill reads a cell into the entry that its slot fills.
func (r *reader) fill(s slot, owner any, sheet *bookSheet, p pos) {
	if s.unitsOf != nil {
		s.units = s.unitsOf(owner)
	}
	r.read(s.ref(owner), s, sheet, p)
}

// quiet reads without reporting: the cell has been read and reported before.
func (r *reader) quiet(entry any, s slot, sheet *bookSheet, p pos, quiet bool) {
	n := len(r.faults)
	if quiet {
		delete(r.filled, cellPlace{sheet, p})
	}
	r.read(entry, s, sheet, p)
	if quiet {
		r.faults = r.faults[:n]
	}
}

// read reads a cell as its slot's kind. A blank cell leaves the entry unset.
func (r *reader) read(entry any, s slot, sheet *bookSheet, p pos) {
	v := &cellReader{reader: r, sheet: sheet, at: p, slot: s}
	c, blank := r.at(sheet, p)
	if blank || r.err != nil {
		return
	}
	v.cell = c
	if !v.sound() || r.taken(sheet, p, c) {
		return
	}
	switch e := entry.(type) {
	case *field.Length:
		v.length(e)
	case *field.Angle: // the same type as any other entry of an angle
		v.angle(e)
	case resolution:
		v.resolution(e)
	case *field.Count:
		v.count(e)
	case *field.Flag:
		v.flag(e)
	case *field.Date:
		v.date(e)
	case *field.Clock:
		v.clock(e)
	case *field.Entry[field.Direction]:
		v.direction(e)
	case *field.Text:
		v.text(e)
	case *field.Number:
		v.number(e)
	case *field.Slope:
		v.slope(e)
	case *field.Quantity:
		v.quantity(e)
	case rise:
		v.rise(e)
	case *numbers:
		v.numbers(e)
	}
}

// taken tells whether a cell has been read before: two names of the form point to
// it, and whose value it is is not known.
func (r *reader) taken(s *bookSheet, p pos, c rawCell) bool {
	at := cellPlace{s, p}
	if r.filled[at] {
		r.fault(TwiceRead, s, p, c.text, "onecell", "")
		return true
	}
	if r.filled == nil {
		r.filled = map[cellPlace]bool{}
	}
	r.filled[at] = true
	return false
}

// cellPlace is a cell of a sheet.
type cellPlace struct {
	sheet *bookSheet
	at    pos
}

// cellReader reads one cell.
type cellReader struct {
	*reader
	sheet *bookSheet
	at    pos
	cell  rawCell
	slot  slot
}

// expect is the code of what the cell should hold.
func (v *cellReader) expect() string {
	if v.slot.list != nil {
		return "choice"
	}
	return [...]string{kindText: "text", kindLength: "length", kindAngle: "angle", kindResolution: "resolution",
		kindCount: "count", kindFlag: "choice", kindDate: "date", kindClock: "clock", kindDirection: "choice",
		kindNumber: "number", kindSlope: "slope", kindQuantity: "quantity", kindRise: "rise", kindNumbers: "numbers"}[v.slot.kind]
}

func (v *cellReader) refuse(kind field.FaultKind, detail string) {
	v.fault(kind, v.sheet, v.at, v.cell.text, v.expect(), detail)
}

func (v *cellReader) here() field.Ref { return v.ref(v.sheet, v.at) }

// sound refuses what no kind of cell can hold.
func (v *cellReader) sound() bool {
	c := v.cell
	switch {
	case c.formula && !c.result:
		v.refuse(NoResult, "")
	case c.kind == rawError:
		v.refuse(ErrorValue, "")
	case c.kind == rawBool && v.slot.kind != kindFlag:
		v.refuse(TrueFalse, "")
	case c.kind == rawNumber && c.style.percent:
		v.refuse(Percent, "")
	case c.kind == rawText && len(c.text) > maxText:
		v.cell.text = clip(c.text, maxText)
		v.refuse(TooLong, itoa(maxText))
	case c.kind == rawText && strings.IndexFunc(c.text, hidden) >= 0:
		v.refuse(Control, fmt.Sprintf("U+%04X", firstHidden(c.text)))
	default:
		return true
	}
	return false
}

// hidden reports characters that change what is seen without being seen:
// controls, bidirectional overrides, zero-width marks. A line break in a text
// is none: people type it, and it is read as a space.
func hidden(r rune) bool {
	if r == '\n' || r == '\r' || r == '\t' {
		return false
	}
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == utf8.RuneError
}

func firstHidden(s string) rune {
	for _, r := range s {
		if hidden(r) {
			return r
		}
	}
	return 0
}

// shown is a text for a message: hidden characters escaped, and not too long.
func shown(s string) string {
	var out strings.Builder
	for i, r := range s {
		if i > 120 {
			out.WriteString(" …")
			break
		}
		if hidden(r) || unicode.IsControl(r) {
			out.WriteString(strings.Trim(strconv.QuoteRuneToASCII(r), "'"))
			continue
		}
		out.WriteRune(r)
	}
	return out.String()
}

// clip cuts a text without cutting a letter.
func clip(s string, n int) string {
	for n > 0 && !utf8.RuneStart(s[n]) {
		n--
	}
	return s[:n]
}

// spaced is a typed text on one line.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// typed is the text of a cell that holds a quantity: of a number, as it was
// most likely typed. What a spreadsheet may have made of a fraction is refused.
func (v *cellReader) typed() (string, bool) {
	c := v.cell
	switch {
	case c.kind == rawDate:
		v.refuse(DateRead, "")
		return "", false
	case c.kind == rawText:
		text := spaced(c.text)
		if serialLike(text) && v.fractional() {
			v.refuse(Serial, v.meant(text))
			return "", false
		}
		return text, text != ""
	case c.style.date || c.style.clock:
		v.refuse(DateRead, v.meant(c.text))
		return "", false
	}
	text, err := measure.FromCell(c.text, c.style.denominator)
	if err != nil {
		v.parseFault(err)
		return "", false
	}
	if serialLike(text) && v.fractional() {
		v.refuse(Serial, v.meant(text))
		return "", false
	}
	return text, true
}

// fractional tells whether people type fractions in such a box, which a
// spreadsheet makes dates of.
func (v *cellReader) fractional() bool {
	switch v.slot.kind {
	case kindCount, kindNumber, kindQuantity, kindNumbers:
		return false
	}
	return true
}

// serialLike reports a bare whole number of five digits: no reading has five,
// and every date between 1927 and 2173 has.
func serialLike(text string) bool {
	return len(text) == 5 && strings.Trim(text, "0123456789") == "" && text[0] != '0'
}

// meant is the date that a serial number stands for and the fraction that it
// was most likely typed as. It is for the message alone.
func (v *cellReader) meant(serial string) string {
	n, err := strconv.ParseFloat(serial, 64)
	if err != nil {
		return ""
	}
	day, ok := dayOf(n, v.book.is1904)
	if !ok {
		return ""
	}
	if f := likelyFractions(day); f != "" {
		return day.String() + " / " + f
	}
	return day.String()
}

// parseKinds are the fault kinds of the parsers' refusals.
var parseKinds = map[measure.ErrorKind]field.FaultKind{
	measure.NotANumber: NotNumber, measure.Empty: NotNumber, measure.AmbiguousComma: AmbiguousComma,
	measure.Vague: Vague, measure.Improper: Improper, measure.UnknownUnit: WrongUnit,
	measure.MissingUnit: NoUnit, measure.TwoUnits: TwoUnits, measure.LooksLikeDate: TextDate,
	measure.DivideByZero: DivideByZero, measure.NotExact: NotExact, measure.TooLarge: TooLarge,
	measure.TooLong: TooLong, measure.Control: Control, measure.DifferentKinds: WrongUnit,
}

// parseFault reports a parser's refusal.
func (v *cellReader) parseFault(err error) {
	var p *measure.ParseError
	if !errors.As(err, &p) {
		v.refuse(NotNumber, "")
		return
	}
	v.refuse(parseKinds[p.Kind], shown(p.Detail))
}

func (v *cellReader) length(e *field.Length) {
	text, ok := v.typed()
	if !ok {
		return
	}
	value, unit, err := measure.ParseLength(text, v.unit)
	if err != nil {
		v.parseFault(err)
		return
	}
	e.Entry = field.Entry[measure.Length]{Value: value, Set: true, Text: text, At: v.here()}
	e.Unit = unit
}

func (v *cellReader) angle(e *field.Angle) {
	text, ok := v.typed()
	if !ok {
		return
	}
	value, err := measure.ParseAngle(text)
	if err != nil {
		v.parseFault(err)
		return
	}
	*e = field.Angle{Value: value, Set: true, Text: text, At: v.here()}
}

func (v *cellReader) count(e *field.Count) {
	text, ok := v.typed()
	if !ok {
		return
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > maxCount {
		v.refuse(NotCount, itoa(maxCount))
		return
	}
	*e = field.Count{Value: n, Set: true, Text: text, At: v.here()}
}

// text is free text or one of a list.
func (v *cellReader) text(e *field.Text) {
	text, ok := v.words()
	if !ok {
		return
	}
	if v.slot.list != nil {
		code, ok := v.choice(v.slot.list, text)
		if ok {
			*e = field.Text{Value: code, Set: true, Text: text, At: v.here()}
		}
		return
	}
	*e = field.Text{Value: text, Set: true, Text: text, At: v.here()}
}

// words is the text of a cell that holds words; a number keeps its digits.
func (v *cellReader) words() (string, bool) {
	c := v.cell
	switch {
	case c.kind == rawText:
		text := spaced(c.text)
		return text, text != ""
	case c.kind == rawDate || c.style.date || c.style.clock:
		v.refuse(DateRead, v.meant(c.text))
		return "", false
	}
	digits := strings.TrimPrefix(c.text, "-")
	if strings.Trim(digits, "0123456789") == "" && len(digits) <= 15 {
		return c.text, true
	}
	if n, err := strconv.ParseFloat(c.text, 64); err != nil || n >= 1e15 || n <= -1e15 {
		v.refuse(Rounded, "15")
		return "", false
	}
	text, err := measure.FromCell(c.text, c.style.denominator)
	if err != nil {
		v.parseFault(err)
	}
	return text, err == nil
}

// choice finds the code of a word of the list; the code itself is taken, too.
func (v *cellReader) choice(l *list, text string) (string, bool) {
	var allowed []string
	for _, code := range l.codes {
		word := v.reader.words.Say(l.say(code))
		if strings.EqualFold(text, code) || normal(text) == normal(word) {
			return code, true
		}
		allowed = append(allowed, word)
	}
	v.refuse(UnknownChoice, strings.Join(allowed, ", "))
	return "", false
}

func (v *cellReader) flag(e *field.Flag) {
	text, ok := "", true
	if v.cell.kind == rawBool {
		text = map[bool]string{true: "yes", false: "no"}[isTrue(v.cell.text)]
	} else if text, ok = v.words(); !ok {
		return
	}
	code := map[string]string{"y": "yes", "n": "no", "true": "yes", "false": "no", "✓": "yes", "✔": "yes"}[strings.ToLower(text)]
	if code == "" {
		if code, ok = v.choice(yesNo(), text); !ok {
			return
		}
	}
	*e = field.Flag{Value: code == "yes", Set: true, Text: text, At: v.here()}
}

func (v *cellReader) direction(e *field.Entry[field.Direction]) {
	text, ok := v.words()
	if !ok {
		return
	}
	code, ok := v.choice(v.slot.list, text)
	if !ok {
		return
	}
	*e = field.Entry[field.Direction]{Set: true, Text: text, At: v.here()}
	if code == "ccw" {
		e.Value = field.CounterClockwise
	}
}
