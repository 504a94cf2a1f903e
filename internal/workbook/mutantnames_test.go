package workbook

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"asleft/internal/field"
)

const workbookXML = "xl/workbook.xml"

// nameTag is a defined name for the whole workbook.
var nameTag = regexp.MustCompile(`<definedName [^>]*name="([a-z][a-z0-9_]*)"[^>]*>([^<]*)</definedName>`)

// anyName is a defined name of the form: where it stands in the part, the name
// and what it refers to.
func (o *original) anyName(r *rand.Rand) (at []int, name, refersTo string) {
	b := o.parts[workbookXML]
	all := nameTag.FindAllSubmatchIndex(b, -1)
	at = all[r.IntN(len(all))]
	return at, string(b[at[2]:at[3]]), string(b[at[4]:at[5]])
}

// withoutName deletes or renames one name. Everything it stands for is then
// missed by name, or it was not needed.
func (o *original) withoutName(r *rand.Rand) (mutant, bool) {
	at, _, _ := o.anyName(r)
	b := o.parts[workbookXML]
	m := o.with(workbookXML, slices.Concat(b[:at[0]], b[at[1]:]))
	if r.IntN(2) == 0 {
		m = o.with(workbookXML, slices.Concat(b[:at[2]], []byte("my_"), b[at[2]:]))
	}
	m.same = true
	return m, true
}

// withoutNames deletes every name of a block, or of a cell.
func (o *original) withoutNames(r *rand.Rand) (mutant, bool) {
	_, name, _ := o.anyName(r)
	parts := strings.Split(name, "_")
	prefix := parts[0]
	if _, ok := cellOf(name); ok && r.IntN(4) > 0 {
		prefix += "_" + parts[1]
	}
	b := o.parts[workbookXML]
	m := o.with(workbookXML, regexp.MustCompile(`<definedName [^>]*name="`+prefix+`(_[^"]*)?"[^>]*>[^<]*</definedName>`).ReplaceAll(b, nil))
	m.same = true
	return m, true
}

// nameElsewhere lets a name refer to something else.
func (o *original) nameElsewhere(r *rand.Rand) (mutant, bool) {
	at, _, refersTo := o.anyName(r)
	b := o.parts[workbookXML]
	a, ok := parseArea(strings.ReplaceAll(refersTo, "&#39;", "'"))
	if !ok {
		return mutant{}, false
	}
	moved := func(dc, dr int) string {
		c := a
		c.from.col, c.to.col = max(c.from.col+dc, 1), max(c.to.col+dc, 1)
		c.from.row, c.to.row = max(c.from.row+dr, 1), max(c.to.row+dr, 1)
		return c.absolute()
	}
	_, _, another := o.anyName(r)
	to := [...]string{"#REF!", moved(0, 1), moved(0, -1), moved(1, 0), moved(-1, 0), moved(0, 3), another,
		quoteSheet(a.sheet) + "!$A$1:$XFD$1048576", "[1]Sheet1!$A$1", "'[book.xlsx]Cell 1'!$A$1:$A$8", refersTo + "," + refersTo,
		"OFFSET(" + refersTo + ",0,0)", quoteSheet(a.sheet) + "!$B:$B", "'No such sheet'!$A$1", "1/2", ""}[r.IntN(16)]
	m := o.with(workbookXML, slices.Concat(b[:at[4]], []byte(strings.ReplaceAll(to, "'", "&#39;")), b[at[5]:]))
	m.same = true
	return m, true
}

// twiceName says two things of one name.
func (o *original) twiceName(r *rand.Rand) (mutant, bool) {
	at, name, refersTo := o.anyName(r)
	b := o.parts[workbookXML]
	_, _, another := o.anyName(r)
	if another == refersTo {
		return mutant{}, false
	}
	if r.IntN(2) == 0 {
		name = strings.ToUpper(name)
	}
	tag := []byte(fmt.Sprintf(`<definedName name="%s">%s</definedName>`, name, another))
	place := at[r.IntN(2)] // before or behind
	m := o.with(workbookXML, slices.Concat(b[:place], tag, b[place:]))
	m.refused = true
	return m, true
}

// sheetTag is a sheet in the list of sheets.
var sheetTag = regexp.MustCompile(`<sheet [^>]*name="([^"]*)"[^>]*>(</sheet>)?`)

// sheetList loses, renames or doubles a sheet.
func (o *original) sheetList(r *rand.Rand) (mutant, bool) {
	b := o.parts[workbookXML]
	all := sheetTag.FindAllSubmatchIndex(b, -1)
	at := all[r.IntN(len(all))]
	title := string(b[at[2]:at[3]])
	var m mutant
	switch r.IntN(4) {
	case 0:
		m = o.with(workbookXML, slices.Concat(b[:at[0]], b[at[1]:]))
		m.same = true
	case 1:
		m = o.with(workbookXML, slices.Concat(b[:at[2]], []byte("My "), b[at[2]:]))
		m.same = true
	case 2: // two sheets of one title
		other := all[r.IntN(len(all))]
		if other[0] == at[0] {
			return mutant{}, false
		}
		m = o.with(workbookXML, slices.Concat(b[:other[2]], []byte(strings.ToUpper(title)), b[other[3]:]))
		m.refused = true
	default: // hidden
		m = o.with(workbookXML, bytes.Replace(b, []byte(`name="`+title+`"`), []byte(`name="`+title+`" state="veryHidden"`), 1))
		m.same = true
	}
	return m, true
}

// merged merges boxes.
func (o *original) merged(r *rand.Rand) (mutant, bool) {
	box := o.anyBox(r)
	part := o.sheets[box.sheet]
	to := pos{box.at.col + r.IntN(3), box.at.row + 1 + r.IntN(40)}
	ref := box.at.String() + ":" + to.String()
	if r.IntN(4) == 0 {
		ref = "A1:XFD1048576"
	}
	m := o.with(part, bytes.Replace(o.parts[part], []byte("</sheetData>"), []byte(`</sheetData><mergeCells><mergeCell ref="`+ref+`"/></mergeCells>`), 1))
	m.refused = true
	return m, true
}

// manyRows adds rows without contents, or with contents out of reach.
func (o *original) manyRows(r *rand.Rand) (mutant, bool) {
	part := o.sheets[o.anyBox(r).sheet]
	rows := func(n int, row string) []byte {
		return bytes.Replace(o.parts[part], []byte("</sheetData>"), []byte(strings.Repeat(row, n)+"</sheetData>"), 1)
	}
	var m mutant
	switch r.IntN(6) {
	case 0:
		m = o.with(part, rows(1_000_000, `<row></row>`)) // more than a part may have
		m.refused = true
	case 1:
		m = o.with(part, rows(100_000, `<row/>`))
		m.same = true
	case 2:
		m = o.with(part, rows(1, `<row r="1048576"><c r="XFD1048576" s="1"/></row>`))
		m.same = true
	case 3:
		m = o.with(part, rows(1, `<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>`))
		m.refused = true
	case 4:
		m = o.with(part, rows(1, manyCells(maxCells+10)))
		m.refused = true
	default:
		m = o.with(part, rows(1, `<row r="0"><c r="A0"><v>1</v></c></row>`))
		m.refused = true
	}
	return m, true
}

// twiceCell says two things of one cell.
func (o *original) twiceCell(r *rand.Rand) (mutant, bool) {
	b := o.anyBox(r)
	part := o.sheets[b.sheet]
	xml := o.parts[part]
	start, end, ok := cellSpan(xml, b.at.String())
	if !ok {
		return mutant{}, false
	}
	twin := fmt.Sprintf(`<c r="%s"><v>7</v></c>`, b.at)
	place := [...]int{start, end}[r.IntN(2)]
	m := o.with(part, slices.Concat(xml[:place], []byte(twin), xml[place:]))
	m.refused = true
	return m, true
}

// otherLabel changes a text that people do not fill in.
func (o *original) otherLabel(r *rand.Rand) (mutant, bool) {
	part := o.sheets[o.anyBox(r).sheet]
	xml := o.parts[part]
	all := regexp.MustCompile(`<c r="([A-Z]+\d+)"[^>]* t="s"><v>(\d+)</v></c>`).FindAllSubmatchIndex(xml, -1)
	if len(all) == 0 { // the texts are in the cells
		return mutant{}, false
	}
	at := all[r.IntN(len(all))]
	title := ""
	for t, p := range o.sheets {
		if p == part {
			title = t
		}
	}
	if len(o.record[title+"!"+string(xml[at[2]:at[3]])]) > 0 {
		return mutant{}, false
	}
	m := o.with(part, slices.Concat(xml[:at[4]], []byte(itoa(r.IntN(40))), xml[at[5]:]))
	m.same = true
	return m, true
}

// bombed makes one part, or the file, unpack to far more than it packs to.
func (o *original) bombed(r *rand.Rand) (mutant, bool) {
	name := o.anyPart(r)
	size := (9 + r.IntN(8)) << 20
	body := append(bytes.Clone(o.parts[name]), bytes.Repeat([]byte(" "), size)...)
	c := *o
	c.order = []string{}
	for _, n := range o.order {
		if n != name {
			c.order = append(c.order, n)
		}
	}
	m := mutant{bytes: c.packTight(name, body), refused: true}
	return m, true
}

// TestTwoNamesOnOneBox: a value is never two entries.
func TestTwoNamesOnOneBox(t *testing.T) {
	o := filledOriginal(t)
	b := o.parts[workbookXML]
	refersTo := func(name string) []byte {
		_, tag, ok := bytes.Cut(b, []byte(`name="`+name+`">`))
		if !ok {
			t.Fatalf("no name %s", name)
		}
		out, _, _ := bytes.Cut(tag, []byte("<"))
		return out
	}
	const moved, other = "c01_gearlevel_asleft_return", "c01_motorlevel_asleft_return"
	m := o.with(workbookXML, bytes.Replace(b, refersTo(moved), refersTo(other), 1))
	_, faults, err := readGuarded(m.bytes)
	if err != nil || !slices.ContainsFunc(faults, func(f field.Fault) bool { return f.Kind == TwiceRead }) {
		t.Errorf("%v, %v", faults, err)
	}
}
