package audit_test

import (
	"bytes"
	"encoding/binary"

	"asleft/internal/archive"
)

// program is the font program behind a font, cut into tables.
type program struct {
	order  []string
	tables map[string][]byte
}

func (d *document) program(f archive.Dict) (archive.Ref, *program) {
	d.t.Helper()
	child := d.dict(f["DescendantFonts"].(archive.Array)[0])
	ref := d.dict(child["FontDescriptor"])["FontFile2"].(archive.Ref)
	b := bytes.Clone(d.data(ref))
	p := &program{tables: map[string][]byte{}}
	for i := range int(binary.BigEndian.Uint16(b[4:])) {
		e := b[12+16*i:]
		at, n := binary.BigEndian.Uint32(e[8:]), binary.BigEndian.Uint32(e[12:])
		p.order = append(p.order, string(e[:4]))
		p.tables[string(e[:4])] = bytes.Clone(b[at : at+n])
	}
	return ref, p
}

func (p *program) bytes() []byte {
	head := make([]byte, 12+16*len(p.order))
	binary.BigEndian.PutUint32(head, 0x00010000)
	binary.BigEndian.PutUint16(head[4:], uint16(len(p.order)))
	out := head
	for i, n := range p.order {
		copy(out[12+16*i:], n)
		binary.BigEndian.PutUint32(out[12+16*i+8:], uint32(len(out)))
		binary.BigEndian.PutUint32(out[12+16*i+12:], uint32(len(p.tables[n])))
		out = append(out, p.tables[n]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	return out
}

// glyphs cuts glyf by loca; join puts it together again.
func (p *program) glyphs() [][]byte {
	long := p.tables["head"][51] == 1
	loca, glyf := p.tables["loca"], p.tables["glyf"]
	at := func(i int) int {
		if long {
			return int(binary.BigEndian.Uint32(loca[4*i:]))
		}
		return 2 * int(binary.BigEndian.Uint16(loca[2*i:]))
	}
	var list [][]byte
	for i := range int(binary.BigEndian.Uint16(p.tables["maxp"][4:])) {
		list = append(list, glyf[at(i):at(i+1)])
	}
	return list
}

func (p *program) join(list [][]byte) {
	var loca, glyf []byte
	for _, g := range list {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, g...)
	}
	p.tables["loca"], p.tables["glyf"] = binary.BigEndian.AppendUint32(loca, uint32(len(glyf))), glyf
	p.tables["head"][51] = 1
}

// glyphOf is the glyph of a character.
func (d *document) glyphOf(f archive.Dict, c byte) int {
	m := d.data(d.dict(f["DescendantFonts"].(archive.Array)[0])["CIDToGIDMap"])
	return int(binary.BigEndian.Uint16(m[2*int(c):]))
}

// redraw changes a point of the glyph of a character.
func redraw(d *document, f archive.Dict, p *program, c byte) {
	list := p.glyphs()
	g := bytes.Clone(list[d.glyphOf(f, c)])
	contours := int(binary.BigEndian.Uint16(g))
	instructions := int(binary.BigEndian.Uint16(g[10+2*contours:]))
	points := int(binary.BigEndian.Uint16(g[10+2*contours-2:])) + 1
	// A byte near the end of the coordinates; which one makes no difference.
	at := 10 + 2*contours + 2 + instructions + points
	g[min(at, len(g)-8)]++
	list[d.glyphOf(f, c)] = g
	p.join(list)
}
