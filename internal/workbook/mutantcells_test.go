package workbook

import (
	"bytes"
	"fmt"
	"html"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"asleft/internal/measure"
)

// intended is what a changed cell must be taken as, if it is taken at all.
type intended struct {
	refused bool   // it must not be
	blank   bool   // nothing may be taken from it
	typed   string // as typed; "" is not compared
	value   string // as a leaf prints it; "" is not compared
}

// compare says what is wrong with what was taken from the cell.
func (w *intended) compare(got []leaf) string {
	switch {
	case w == nil:
		return ""
	case w.refused && len(got) > 0:
		return fmt.Sprintf("taken as %v, must be refused", got)
	case w.blank && len(got) > 0:
		return fmt.Sprintf("taken as %v, must be blank", got)
	case w.refused:
		return "passed over in silence, must be refused"
	case !w.blank && len(got) == 0:
		return fmt.Sprintf("passed over in silence, must be %q", w.typed)
	}
	for _, l := range got {
		if l.value == "instrument.out" && l.typed != l.value {
			continue // an event of the program's own, told at the cell that tells it
		}
		if w.typed != "" && l.typed != w.typed || w.value != "" && l.value != w.value {
			return fmt.Sprintf("taken as %v, must be %q, %s", got, w.typed, w.value)
		}
	}
	return ""
}

// cellSpan finds a cell in a sheet: its tag and its end.
func cellSpan(xml []byte, at string) (start, end int, ok bool) {
	start = bytes.Index(xml, []byte(`<c r="`+at+`"`))
	if start < 0 {
		return 0, 0, false
	}
	tag := start + bytes.IndexByte(xml[start:], '>') + 1
	if xml[tag-2] == '/' {
		return start, tag, true
	}
	end = bytes.Index(xml[tag:], []byte("</c>"))
	return start, tag + end + len("</c>"), end >= 0
}

// styleIn is the style attribute of a cell's tag.
func styleIn(cell []byte) string {
	tag, _, _ := bytes.Cut(cell, []byte(">"))
	if _, rest, ok := bytes.Cut(tag, []byte(` s="`)); ok {
		style, _, _ := bytes.Cut(rest, []byte(`"`))
		return string(style)
	}
	return ""
}

// anyBox is a filled box.
func (o *original) anyBox(r *rand.Rand) formBox { return o.boxes[r.IntN(len(o.boxes))] }

// retyped is a mutant whose box holds other contents: the rest of the cell's
// tag and what is inside.
func (o *original) retyped(b formBox, style, contents string, want *intended) (mutant, bool) {
	part := o.sheets[b.sheet]
	xml := o.parts[part]
	start, end, ok := cellSpan(xml, b.at.String())
	if !ok {
		return mutant{}, false
	}
	if style == "" {
		style = styleIn(xml[start:end])
	}
	cell := fmt.Sprintf(`<c r="%s" s="%s"%s</c>`, b.at, style, contents)
	m := o.with(part, slices.Concat(xml[:start], []byte(cell), xml[end:]))
	m.box, m.want = b.String(), want
	return m, true
}

// written writes a text in one of the ways that spreadsheets do.
func written(text string, r *rand.Rand) string {
	esc := html.EscapeString(text)
	switch r.IntN(5) {
	case 0:
		return ` t="str"><f>A1</f><v>` + esc + `</v>`
	case 1:
		return ` t="inlineStr"><is><t xml:space="preserve"> ` + esc + "\n</t></is>"
	case 2:
		cut := r.IntN(len(text) + 1)
		for cut > 0 && cut < len(text) && text[cut]&0xC0 == 0x80 {
			cut--
		}
		return ` t="inlineStr"><is><r><t>` + html.EscapeString(text[:cut]) + `</t></r><r><rPr><b/></rPr><t>` +
			html.EscapeString(text[cut:]) + `</t></r><rPh sb="0" eb="1"><t>x</t></rPh></is>`
	case 3:
		var out strings.Builder
		for _, c := range text {
			fmt.Fprintf(&out, "&#%d;", c)
		}
		return ` t="str"><v>` + out.String() + `</v>`
	}
	return ` t="inlineStr"><is><t>` + esc + `</t></is>`
}

// rawNumber writes a number in one of the ways that a file may hold it.
func rawNumberOf(v float64, r *rand.Rand) string {
	tag := []string{">", ` t="n">`}[r.IntN(2)]
	return tag + "<v>" + []string{
		strconv.FormatFloat(v, 'f', -1, 64), strconv.FormatFloat(v, 'E', -1, 64), strconv.FormatFloat(v, 'f', 14, 64),
	}[r.IntN(3)] + "</v>"
}

// otherValue puts another value of the box's kind into it, known beforehand.
func (o *original) otherValue(r *rand.Rand) (mutant, bool) {
	b := o.anyBox(r)
	switch s := b.slot; {
	case b.unknown:
	case s.list != nil:
		code := s.list.codes[r.IntN(len(s.list.codes))]
		return o.retyped(b, "", written(code, r), &intended{typed: code})
	case s.kind == kindLength:
		k := r.Int64N(400) + 1
		bare := o.unit()
		if r.IntN(3) == 0 {
			return o.retyped(b, "", rawNumberOf(float64(k)/64, r), &intended{value: sixtyFourths(k, bare)})
		}
		text := fractionText(k, r)
		if strings.ContainsAny(text, `"n`) {
			bare = measure.UnitInch
		}
		return o.retyped(b, "", written(text, r), &intended{typed: text, value: sixtyFourths(k, bare)})
	case s.kind == kindAngle:
		k := r.Int64N(80)
		want := &intended{value: fmt.Sprint(measure.Angle(k * int64(measure.Degree) / 4))}
		if r.IntN(2) == 0 {
			return o.retyped(b, "", rawNumberOf(float64(k)/4, r), want)
		}
		return o.retyped(b, "", written(strconv.FormatFloat(float64(k)/4, 'f', -1, 64), r), want)
	case s.kind == kindCount:
		n := r.IntN(12)
		if r.IntN(2) == 0 {
			return o.retyped(b, "", rawNumberOf(float64(n), r), &intended{value: itoa(n)})
		}
		return o.retyped(b, "", written(itoa(n), r), &intended{typed: itoa(n), value: itoa(n)})
	case s.kind == kindFlag:
		return o.retyped(b, "", []string{` t="b"><v>1</v>`, ` t="b"><v>true</v>`, ` t="str"><v>Yes</v>`}[r.IntN(3)], &intended{value: "true"})
	case s.kind == kindDate && len(o.dated) > 0:
		// Serial 45000 is 2023-03-15: 44927 is 2023-01-01 (ISO 29500-1, 18.17.4.1).
		day := r.IntN(28) + 1
		return o.retyped(b, o.dated[r.IntN(len(o.dated))], rawNumberOf(float64(44927+day-1), r), &intended{typed: fmt.Sprintf("2023-01-%02d", day)})
	case s.kind == kindClock:
		h, m := r.IntN(24), r.IntN(60)
		text := fmt.Sprintf("%02d:%02d", h, m)
		return o.retyped(b, "", written(text, r), &intended{typed: text})
	case s.kind == kindText:
		text := [...]string{"Ærø 7", "=1+1", "-x", "@me", "+1 555 0100", "a & b <c>", "9/16", "true", "0012"}[r.IntN(9)]
		return o.retyped(b, "", written(text, r), &intended{typed: text, value: text})
	}
	return mutant{}, false
}

// unit is what a bare number of the form means.
func (o *original) unit() measure.Unit {
	for _, l := range o.record[o.units()] {
		if l.value == measure.UnitMillimeter.String() {
			return measure.UnitMillimeter
		}
	}
	return measure.UnitInch
}

// sixtyFourths is k/64 of a unit as a leaf prints it. An inch is 25 400 000 nm.
func sixtyFourths(k int64, u measure.Unit) string {
	of := map[measure.Unit]int64{measure.UnitInch: 25_400_000, measure.UnitMillimeter: 1_000_000}[u]
	return fmt.Sprint(measure.Length(k*of/64)) + " " + u.String()
}

// fractionText is k/64 in as people type it.
func fractionText(k int64, r *rand.Rand) string {
	n, d := k, int64(64)
	for n%2 == 0 && d > 1 {
		n, d = n/2, d/2
	}
	text := fmt.Sprintf("%d/%d", n, d)
	switch {
	case d == 1:
		text = fmt.Sprint(n)
	case n > d:
		text = fmt.Sprintf("%d%s%d/%d", n/d, []string{"-", " "}[r.IntN(2)], n%d, d)
	}
	if r.IntN(3) == 0 {
		text = strconv.FormatFloat(float64(k)/64, 'f', -1, 64)
	}
	return text + [...]string{"", "", `"`, " in"}[r.IntN(4)]
}

// notReadable are contents that no box takes, whatever its kind.
var notReadable = []string{
	` t="e"><v>#DIV/0!</v>`, ` t="e"><f>A1</f><v>#REF!</v>`, `><f>A1+1</f>`, `><f t="shared" si="0"/>`,
	` t="str"><v>1/2&#x202e;</v>`, ` t="inlineStr"><is><t>1/2_x0007_</t></is>`, ` t="inlineStr"><is><t>1&#x200b;2</t></is>`,
	` t="s"><v>999999</v>`, ` t="s"><v>-1</v>`, ` t="s"><v>1.5</v>`, ` t="s"><v>x</v>`,
	` t="d"><v>2026-09-16T10:00:00</v>`, ` t="inlineStr"><is><t>` + strings.Repeat("x", maxText+1) + `</t></is>`,
	`><v>1E400</v>`, `><v>NaN</v>`, `><v>0x10</v>`, `><v>1,5</v>`, ` t="n"><v>9/16</v>`, ` t="n"><v>abc</v>`, `><v>&bogus;</v>`,
	`><v>1</v><v>2</v>`, ` t="inlineStr"><is><t>1</t></is><v>2</v>`, ` t="strange"><v>1</v>`,
}

// unreadable puts contents into a box that it must not take.
func (o *original) unreadable(r *rand.Rand) (mutant, bool) {
	return o.retyped(o.anyBox(r), "", notReadable[r.IntN(len(notReadable))], &intended{refused: true})
}

// notLengths are no lengths, and no other numbers either.
var notLengths = []string{"9/16 strong", "about 1/2", "1/0", "1/3", "1-17/16", "1,250", "03/04/26", "9/16/26", "5 mm in", "5 lb",
	"1/2/3", "--5", "1..5", "1e300", "46281", "", " ", "x", "=1/2", "½½", "five", "N/A", "n/a", "-", "?", "1 2", "1/2 1/4", "#REF!", "16-Sep"}

// notALength puts into a reading what is no number.
func (o *original) notALength(r *rand.Rand) (mutant, bool) {
	for range 50 {
		b := o.anyBox(r)
		if k := b.slot.kind; b.unknown || b.slot.list != nil || k != kindLength && k != kindSlope && k != kindAngle {
			continue
		}
		text := notLengths[r.IntN(len(notLengths))]
		want := &intended{refused: true}
		if strings.TrimSpace(text) == "" {
			want = &intended{blank: true}
		}
		if text == "1/3" && b.slot.kind != kindLength {
			want = nil // a slope or an angle may be a third
		}
		return o.retyped(b, "", written(text, r), want)
	}
	return mutant{}, false
}

// madeADate gives a number in any box that takes none the format of a date.
func (o *original) madeADate(r *rand.Rand) (mutant, bool) {
	for range 50 {
		b := o.anyBox(r)
		if b.unknown || b.slot.kind == kindDate || b.slot.kind == kindClock || len(o.dated) == 0 {
			continue
		}
		return o.retyped(b, o.dated[r.IntN(len(o.dated))], rawNumberOf(float64(30000+r.IntN(20000)), r), &intended{refused: true})
	}
	return mutant{}, false
}

// anyBytes types anything at all into a box. What is taken must be what was
// typed.
func (o *original) anyBytes(r *rand.Rand) (mutant, bool) {
	const letters = "0123456789/-.,'\" =+@#%°½⁄×eEinmft  ′″−–xyzÄЖ٣９"
	all := []rune(letters)
	var text strings.Builder
	for range 1 + r.IntN(8) {
		text.WriteRune(all[r.IntN(len(all))])
	}
	want := &intended{typed: spaced(text.String())}
	if want.typed == "" {
		want = &intended{blank: true}
	}
	return o.retyped(o.anyBox(r), "", written(text.String(), r), want)
}

// cleared empties a box in one of the ways of spreadsheets.
func (o *original) cleared(r *rand.Rand) (mutant, bool) {
	return o.retyped(o.anyBox(r), "", []string{`>`, ` t="s">`, ` t="inlineStr"><is><t></t></is>`, ` t="str"><f>""</f><v></v>`, ` t="s"><v></v>`}[r.IntN(5)],
		&intended{blank: true})
}

// swapped exchanges the contents of two boxes.
func (o *original) swapped(r *rand.Rand) (mutant, bool) {
	a, b := o.anyBox(r), o.anyBox(r)
	part := o.sheets[a.sheet]
	xml := o.parts[part]
	from, end, ok1 := cellSpan(xml, a.at.String())
	from2, end2, ok2 := cellSpan(xml, b.at.String())
	if a.sheet != b.sheet || a.at == b.at || !ok1 || !ok2 {
		return mutant{}, false
	}
	if from > from2 {
		a, b, from, end, from2, end2 = b, a, from2, end2, from, end
	}
	renamed := func(cell []byte, was, is formBox) []byte {
		return bytes.Replace(cell, []byte(`r="`+was.at.String()+`"`), []byte(`r="`+is.at.String()+`"`), 1)
	}
	return o.with(part, slices.Concat(xml[:from], renamed(xml[from2:end2], b, a), xml[end:from2], renamed(xml[from:end], a, b), xml[end2:])), true
}
