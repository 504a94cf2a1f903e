package archive

import (
	"encoding/binary"
	"fmt"
	"sort"
)

// sfnt is a TrueType program cut into its tables.
type sfnt struct {
	tables map[string][]byte
	em     int // units per em
	glyphs int
	wide   int // glyphs with an advance of their own in hmtx
}

// programTables are the tables that a font program inside a PDF needs
// (ISO 32000-1, 9.9, table 126); the others are dropped. The page writer's
// character map among them is damaged, and codes reach glyphs without it.
var programTables = []string{"cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep"}

// readFont cuts a font program into tables and checks what widths need.
func readFont(b []byte) (*sfnt, error) {
	if len(b) < 12 || binary.BigEndian.Uint32(b) != 0x00010000 {
		return nil, fmt.Errorf("no TrueType program")
	}
	f := &sfnt{tables: map[string][]byte{}}
	for i := range int(binary.BigEndian.Uint16(b[4:])) {
		at := 12 + 16*i
		if at+16 > len(b) {
			return nil, fmt.Errorf("font directory is cut off")
		}
		offset, length := binary.BigEndian.Uint32(b[at+8:]), binary.BigEndian.Uint32(b[at+12:])
		if uint64(offset)+uint64(length) > uint64(len(b)) {
			return nil, fmt.Errorf("font table %q is cut off", b[at:at+4])
		}
		f.tables[string(b[at:at+4])] = b[offset : offset+length]
	}
	return f, f.measure()
}

// measure reads the sizes (OpenType 1.9: head, hhea, maxp, hmtx).
func (f *sfnt) measure() error {
	head, hhea, maxp := f.tables["head"], f.tables["hhea"], f.tables["maxp"]
	if len(head) < 54 || len(hhea) < 36 || len(maxp) < 6 {
		return fmt.Errorf("font without head, hhea or maxp")
	}
	f.em = int(binary.BigEndian.Uint16(head[18:]))
	f.wide = int(binary.BigEndian.Uint16(hhea[34:]))
	f.glyphs = int(binary.BigEndian.Uint16(maxp[4:]))
	loca := 2
	if binary.BigEndian.Uint16(head[50:]) == 1 {
		loca = 4
	}
	if f.em == 0 || f.wide == 0 || f.wide > f.glyphs || len(f.tables["hmtx"]) < 4*f.wide ||
		len(f.tables["loca"]) < loca*(f.glyphs+1) || f.tables["glyf"] == nil {
		return fmt.Errorf("font with damaged tables")
	}
	return nil
}

// advance is the width of a glyph in thousandths of an em, rounded.
func (f *sfnt) advance(glyph int) int {
	units := int(binary.BigEndian.Uint16(f.tables["hmtx"][4*min(glyph, f.wide-1):]))
	return (2000*units + f.em) / (2 * f.em)
}

// program writes the needed tables as a font program of their own.
func (f *sfnt) program() []byte {
	var names []string
	for _, n := range programTables {
		if len(f.tables[n]) > 0 {
			names = append(names, n)
		}
	}
	return f.write(names)
}

// write writes the tables of those names as a font program.
func (f *sfnt) write(names []string) []byte {
	sort.Strings(names)
	out := directory(len(names))
	for i, n := range names {
		table := f.tables[n]
		if n == "head" {
			table = append([]byte(nil), table...)
			binary.BigEndian.PutUint32(table[8:], 0) // checksum adjustment, set below
		}
		entry := out[12+16*i:]
		copy(entry, n)
		binary.BigEndian.PutUint32(entry[4:], checksum(table))
		binary.BigEndian.PutUint32(entry[8:], uint32(len(out)))
		binary.BigEndian.PutUint32(entry[12:], uint32(len(table)))
		out = append(out, table...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	adjustChecksum(out, names)
	return out
}

// directory is the head of a font program, its entries still zero.
func directory(n int) []byte {
	power, log := 1, 0
	for power*2 <= n {
		power, log = power*2, log+1
	}
	out := make([]byte, 12+16*n)
	binary.BigEndian.PutUint32(out, 0x00010000)
	binary.BigEndian.PutUint16(out[4:], uint16(n))
	binary.BigEndian.PutUint16(out[6:], uint16(16*power))
	binary.BigEndian.PutUint16(out[8:], uint16(log))
	binary.BigEndian.PutUint16(out[10:], uint16(16*(n-power)))
	return out
}

// adjustChecksum makes the sum over the whole program what OpenType wants.
func adjustChecksum(program []byte, names []string) {
	const wanted = 0xB1B0AFBA
	for i, n := range names {
		if n == "head" {
			at := binary.BigEndian.Uint32(program[12+16*i+8:])
			binary.BigEndian.PutUint32(program[at+8:], wanted-checksum(program))
		}
	}
}

// checksum is the sum of big-endian words, the last one filled with zeros.
func checksum(b []byte) uint32 {
	var sum uint32
	for ; len(b) >= 4; b = b[4:] {
		sum += binary.BigEndian.Uint32(b)
	}
	var last [4]byte
	copy(last[:], b)
	return sum + binary.BigEndian.Uint32(last[:])
}
