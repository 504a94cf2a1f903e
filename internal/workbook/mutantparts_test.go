package workbook

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
)

// mutantMakers are all ways of changing a workbook.
func mutantMakers() []maker {
	part := func(class string, make func(*original, *rand.Rand) (mutant, bool)) maker { return maker{class, make} }
	cells := []maker{
		part("cell: another value", (*original).otherValue),
		part("cell: another value", (*original).otherValue),
		part("cell: another value", (*original).otherValue),
		part("cell: not readable", (*original).unreadable),
		part("cell: no number", (*original).notALength),
		part("cell: made a date", (*original).madeADate),
		part("cell: any characters", (*original).anyBytes),
		part("cell: any characters", (*original).anyBytes),
		part("cell: cleared", (*original).cleared),
		part("cell: two swapped", (*original).swapped),
		part("cell: twice", (*original).twiceCell),
		part("cell: label changed", (*original).otherLabel),
	}
	return append(cells,
		part("file: truncated", (*original).truncated),
		part("file: bytes flipped", (*original).flipped),
		part("file: entry twice", (*original).twiceEntry),
		part("file: part missing", (*original).withoutPart),
		part("file: bombs", (*original).bombed),
		part("xml: bytes flipped", (*original).flippedXML),
		part("xml: bytes flipped", (*original).flippedXML),
		part("xml: piece cut or doubled", (*original).cutXML),
		part("xml: entities, types, depth", (*original).hostileXML),
		part("xml: written otherwise", (*original).otherXML),
		part("name: lost", (*original).withoutName),
		part("name: lost with its block", (*original).withoutNames),
		part("name: elsewhere", (*original).nameElsewhere),
		part("name: twice", (*original).twiceName),
		part("sheet: lost, renamed, doubled", (*original).sheetList),
		part("sheet: merged", (*original).merged),
		part("sheet: rows", (*original).manyRows),
	)
}

func (o *original) truncated(r *rand.Rand) (mutant, bool) {
	return mutant{bytes: o.bytes[:r.IntN(len(o.bytes))], same: true}, true
}

// flipped changes bytes of the file as it lies on the disk: its checksums tell.
func (o *original) flipped(r *rand.Rand) (mutant, bool) {
	b := bytes.Clone(o.bytes)
	for range 1 + r.IntN(6) {
		b[r.IntN(len(b))] ^= 1 << r.IntN(8)
	}
	return mutant{bytes: b, same: true}, true
}

// readParts are the parts that the reader reads.
func (o *original) readParts() []string {
	parts := []string{"xl/workbook.xml", "xl/_rels/workbook.xml.rels", "[Content_Types].xml", "_rels/.rels", "xl/sharedStrings.xml", "xl/styles.xml"}
	parts = append(parts, slices.Sorted(maps.Values(o.sheets))...)
	return slices.DeleteFunc(parts, func(p string) bool { return len(o.parts[p]) < 100 })
}

func (o *original) anyPart(r *rand.Rand) string {
	parts := o.readParts()
	return parts[r.IntN(len(parts))]
}

// twiceEntry puts a part into the archive twice, once changed.
func (o *original) twiceEntry(r *rand.Rand) (mutant, bool) {
	name := o.anyPart(r)
	m := mutant{refused: true}
	m.bytes = o.pack(map[string][]byte{name + again: bytes.Replace(o.parts[name], []byte("1"), []byte("2"), 3)})
	return m, true
}

func (o *original) withoutPart(r *rand.Rand) (mutant, bool) {
	m := mutant{same: true, bytes: nil}
	name := o.anyPart(r)
	parts := maps.Clone(o.parts)
	delete(parts, name)
	c := *o
	c.parts = parts
	m.bytes = c.pack(nil)
	return m, true
}

// flippedXML changes bytes of a part that is packed again, so that no checksum
// tells. What is taken must be what another program reads there.
func (o *original) flippedXML(r *rand.Rand) (mutant, bool) {
	name := o.anyPart(r)
	b := bytes.Clone(o.parts[name])
	for range 1 + r.IntN(3) {
		b[r.IntN(len(b))] = byte(' ' + r.IntN(95))
	}
	return o.with(name, b), true
}

func (o *original) cutXML(r *rand.Rand) (mutant, bool) {
	name := o.anyPart(r)
	b := o.parts[name]
	from := r.IntN(len(b))
	to := min(from+1+r.IntN(400), len(b))
	if r.IntN(2) == 0 {
		return o.with(name, slices.Concat(b[:from], b[to:])), true
	}
	return o.with(name, slices.Concat(b[:to], b[from:])), true
}

// afterTag puts something behind the first tag of a part.
func afterTag(b []byte, text string) []byte {
	at := bytes.Index(b, []byte("?>")) + 2
	at += bytes.IndexByte(b[at:], '>') + 1
	return slices.Concat(b[:at], []byte(text), b[at:])
}

func (o *original) hostileXML(r *rand.Rand) (mutant, bool) {
	name := o.anyPart(r)
	b := o.parts[name]
	var m mutant
	switch r.IntN(6) {
	case 0:
		bomb := `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]>`
		at := max(bytes.Index(b, []byte("?>"))+2, 0)
		m = o.with(name, slices.Concat(b[:at], []byte(bomb), b[at:]))
		m.refused = true
	case 1:
		m = o.with(name, bytes.Replace(b, []byte("1"), []byte("&xxe;"), 1))
		m.refused = true
	case 2:
		m = o.with(name, afterTag(b, strings.Repeat("<x>", 100_000)+strings.Repeat("</x>", 100_000)))
		m.same = true
	case 3:
		m = o.with(name, afterTag(b, strings.Repeat("<x>", 100_000)))
		m.same = true
	case 4:
		m = o.with(name, append([]byte("\xff\xfe"), b...))
		m.refused = true
	default:
		m = o.with(name, bytes.Replace(b, []byte(">"), []byte("><![CDATA[1]]>"), 3))
		m.refused = true
	}
	if name == "[Content_Types].xml" { // one word is looked for in it, no more
		m.refused, m.same = false, true
	}
	return m, true
}

// otherXML writes a sheet in other words that mean the same.
func (o *original) otherXML(r *rand.Rand) (mutant, bool) {
	part := o.sheets[o.anyBox(r).sheet]
	b := o.parts[part]
	switch r.IntN(7) {
	case 0: // blanks between tags
		b = bytes.ReplaceAll(b, []byte("</row>"), []byte("\n\t</row>\r\n  "))
	case 1: // other quotes
		b = regexp.MustCompile(`<c r="([A-Z]+\d+)"`).ReplaceAll(b, []byte(`<c  r = '$1'`))
	case 2: // a prefix on every tag
		b = regexp.MustCompile(`<(/?)(row|c|v|f|is|t|sheetData|mergeCell|mergeCells)([ >/])`).ReplaceAll(b, []byte("<${1}x:$2$3"))
	case 3: // another dimension
		b = regexp.MustCompile(`<dimension ref="[^"]*"`).ReplaceAll(b, []byte(`<dimension ref="A1:XFD1048576"`))
	case 4: // texts in the cells
		return o.inlined(part)
	case 5: // comments
		b = bytes.ReplaceAll(b, []byte("<v>"), []byte("<!-- 1 --><v>"))
	default: // rows in another order
		rows := regexp.MustCompile(`(?s)<row .*?</row>`).FindAll(b, -1)
		if len(rows) == 0 {
			return mutant{}, false
		}
		first, last := bytes.Index(b, rows[0]), bytes.LastIndex(b, rows[len(rows)-1])+len(rows[len(rows)-1])
		mixed := slices.Clone(rows)
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		b = slices.Concat(b[:first], bytes.Join(mixed, nil), b[last:])
	}
	m := o.with(part, b)
	m.same = true
	return m, true
}

// inlined puts every shared text of a sheet into its cell.
func (o *original) inlined(part string) (mutant, bool) {
	book, err := openBook(o.bytes)
	if err != nil {
		return mutant{}, false
	}
	shared := regexp.MustCompile(` t="s"><v>(\d+)</v></c>`)
	b := shared.ReplaceAllFunc(o.parts[part], func(cell []byte) []byte {
		n := atoi(string(shared.FindSubmatch(cell)[1]))
		return fmt.Appendf(nil, ` t="inlineStr"><is><t>%s</t></is></c>`, strings.NewReplacer("&", "&amp;", "<", "&lt;").Replace(book.strings[n]))
	})
	m := o.with(part, b)
	m.same = true
	return m, true
}
