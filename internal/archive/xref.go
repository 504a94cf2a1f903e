package archive

import (
	"bytes"
	"strconv"
)

// place is where an object is: at an offset of the file, or the index-th in
// an object stream.
type place struct {
	offset int64 // of "n 0 obj"; 0 if in a stream
	stream int   // number of the object stream; 0 if at an offset
	index  int
}

// section is one cross-reference section with its trailer.
type section struct {
	start   int64 // of the table or of the stream object
	end     int64 // behind the %%EOF line: the revision ends here
	trailer Dict
	places  map[int]place
	free    []int // objects that this section deletes
	stream  int   // object number of a cross-reference stream
}

// sections reads the chain of cross-reference sections, newest first.
func sections(src []byte) ([]section, error) {
	at, err := startOffset(src)
	if err != nil {
		return nil, err
	}
	var list []section
	end := int64(len(src))
	for {
		if len(list) == maxRevisions {
			return nil, overLimit(int(at), "more than %d revisions", maxRevisions)
		}
		s, err := readSection(src, at)
		if err != nil {
			return nil, err
		}
		if s.end > end || len(list) == 0 && s.end != end {
			return nil, &ReadError{Offset: s.end, Fact: "revision ends here", Err: ErrTrailing}
		}
		list = append(list, s)
		prev, more := s.trailer["Prev"]
		if !more {
			return list, nil
		}
		// A revision can only follow what it changes, so offsets fall along the
		// chain; this also rules out cycles.
		p, ok := prev.(int64)
		if !ok || p <= 0 || p >= s.start {
			return nil, malformed(int(s.start), "/Prev does not point backward")
		}
		at, end = p, s.start
	}
}

// tailLength is how far from the end startxref is looked for.
const tailLength = 64

// startOffset is the offset that the last startxref of the file gives.
func startOffset(src []byte) (int64, error) {
	tail := max(0, len(src)-tailLength)
	i := bytes.LastIndex(src[tail:], []byte("startxref"))
	if i < 0 {
		if bytes.Contains(src, []byte("\n%%EOF")) {
			return 0, &ReadError{Offset: int64(bytes.LastIndex(src, []byte("%%EOF"))) + 5, Fact: "file should end here", Err: ErrTrailing}
		}
		return 0, malformed(len(src), "no startxref at the end")
	}
	l := lexer{src: src, pos: tail + i + len("startxref")}
	t, err := l.next()
	if err != nil || t.kind != tokenInt {
		return 0, malformed(tail+i, "startxref without offset")
	}
	return l.integer(t)
}

func readSection(src []byte, at int64) (section, error) {
	if at <= 0 || at >= int64(len(src)) {
		return section{}, malformed(int(at), "cross-reference section out of the file")
	}
	s := section{start: at, places: map[int]place{}}
	var pos int
	var err error
	if bytes.HasPrefix(src[at:], []byte("xref")) {
		pos, err = s.readTable(src)
	} else {
		pos, err = s.readStream(src)
	}
	if err != nil {
		return s, err
	}
	if s.trailer["XRefStm"] != nil || s.trailer["Encrypt"] != nil {
		return s, foreign("encrypted file or hybrid cross-reference")
	}
	return s, s.readEnd(src, pos)
}

// readEnd checks the startxref behind the section and finds its end.
func (s *section) readEnd(src []byte, pos int) error {
	l := lexer{src: src, pos: pos}
	word, err := l.next()
	if err != nil || string(l.text(word)) != "startxref" {
		return malformed(pos, "no startxref behind the cross-reference section")
	}
	t, err := l.next()
	if err != nil || t.kind != tokenInt {
		return malformed(pos, "startxref without offset")
	}
	if n, err := l.integer(t); err != nil || n != s.start {
		return malformed(t.start, "startxref does not point to its section")
	}
	rest := bytes.TrimLeft(src[l.pos:], "\r\n")
	if !bytes.HasPrefix(rest, []byte("%%EOF")) {
		return malformed(l.pos, "no end-of-file mark")
	}
	rest = rest[len("%%EOF"):]
	for _, eol := range []string{"\r\n", "\n", "\r"} {
		if bytes.HasPrefix(rest, []byte(eol)) {
			rest = rest[len(eol):]
			break
		}
	}
	s.end = int64(len(src) - len(rest))
	return nil
}

// tableEntry is the fixed length of an entry of a table, line end included.
const tableEntry = 20

// readTable reads a classic table and its trailer.
func (s *section) readTable(src []byte) (int, error) {
	p := newParser(src, int(s.start)+len("xref"))
	for {
		t, err := p.next()
		if err != nil {
			return 0, err
		}
		if t.kind == tokenWord && string(p.text(t)) == "trailer" {
			break
		}
		first, err1 := p.integer(t)
		t, err = p.next()
		if err != nil || t.kind != tokenInt || err1 != nil {
			return 0, malformed(t.start, "cross-reference subsection")
		}
		count, err := p.integer(t)
		if err != nil || first < 0 || count < 0 || first+count > maxObjects+1 {
			return 0, overLimit(t.start, "cross-reference subsection of %d entries", count)
		}
		p.skipSpace()
		if int64(p.pos)+count*tableEntry > int64(len(src)) {
			return 0, malformed(p.pos, "cross-reference table is cut off")
		}
		for i := range int(count) {
			if err := s.tableEntry(src[p.pos:p.pos+tableEntry], p.pos, int(first)+i); err != nil {
				return 0, err
			}
			p.pos += tableEntry
		}
	}
	o, err := p.object()
	if err != nil {
		return 0, err
	}
	d, ok := o.(Dict)
	if !ok {
		return 0, malformed(p.pos, "trailer")
	}
	s.trailer = d
	return p.pos, nil
}

func (s *section) tableEntry(line []byte, at, n int) error {
	offset, err1 := strconv.ParseUint(string(line[:10]), 10, 40)
	_, err2 := strconv.ParseUint(string(line[11:16]), 10, 17)
	if err1 != nil || err2 != nil || line[10] != ' ' || line[16] != ' ' {
		return malformed(at, "cross-reference entry")
	}
	switch {
	case line[17] == 'f':
		s.free = append(s.free, n)
	case line[17] == 'n' && string(line[11:16]) == "00000" && n > 0 && offset > 0:
		return s.put(n, place{offset: int64(offset)}, at)
	default:
		return malformed(at, "cross-reference entry of object %d", n)
	}
	return nil
}

func (s *section) put(n int, p place, at int) error {
	if _, twice := s.places[n]; twice {
		return malformed(at, "object %d twice in a cross-reference section", n)
	}
	s.places[n] = p
	return nil
}

// readStream reads a cross-reference stream; its dictionary is the trailer.
func (s *section) readStream(src []byte) (int, error) {
	n, o, end, err := indirect(src, int(s.start), "", maxStringLength)
	if err != nil {
		return 0, err
	}
	stream, ok := o.(*Stream)
	if !ok || stream.Dict["Type"] != Name("XRef") {
		return 0, malformed(int(s.start), "no cross-reference section")
	}
	s.trailer, s.stream = stream.Dict, n
	data, err := decode(stream, maxStreamDecoded)
	if err != nil {
		return 0, inObject(n, err)
	}
	if err := s.streamEntries(data); err != nil {
		return 0, inObject(n, err)
	}
	return end, nil
}

// streamEntries reads the entries of a cross-reference stream
// (ISO 32000-1, 7.5.8.3).
func (s *section) streamEntries(data []byte) error {
	w, err := widths(s.trailer["W"])
	if err != nil {
		return err
	}
	size := intOr(s.trailer["Size"], 0)
	index, ok := s.trailer["Index"].(Array)
	if !ok {
		index = Array{int64(0), size}
	}
	if len(index)%2 != 0 {
		return malformed(0, "index of a cross-reference stream")
	}
	row := w[0] + w[1] + w[2]
	for ; len(index) > 0; index = index[2:] {
		first, count := intOr(index[0], -1), intOr(index[1], -1)
		if first < 0 || count < 0 || first+count > maxObjects+1 || count*int64(row) > int64(len(data)) {
			return malformed(0, "index of a cross-reference stream")
		}
		for i := range int(count) {
			if err := s.streamEntry(data[:row], w, int(first)+i); err != nil {
				return err
			}
			data = data[row:]
		}
	}
	if len(data) != 0 {
		return malformed(0, "cross-reference stream is too long")
	}
	return nil
}

func widths(o Object) ([3]int, error) {
	var w [3]int
	a, ok := o.(Array)
	if !ok || len(a) != 3 {
		return w, malformed(0, "field widths of a cross-reference stream")
	}
	for i := range w {
		n := intOr(a[i], -1)
		if n < 0 || n > 8 {
			return w, malformed(0, "field widths of a cross-reference stream")
		}
		w[i] = int(n)
	}
	if w[1] == 0 {
		return w, malformed(0, "field widths of a cross-reference stream")
	}
	return w, nil
}

func (s *section) streamEntry(row []byte, w [3]int, n int) error {
	field := func(from, width int) int64 {
		var v int64
		for _, c := range row[from : from+width] {
			v = v<<8 | int64(c)
		}
		return v
	}
	kind := int64(1) // the default where the first field has no width
	if w[0] > 0 {
		kind = field(0, w[0])
	}
	a, b := field(w[0], w[1]), field(w[0]+w[1], w[2])
	switch {
	case kind == 0:
		s.free = append(s.free, n)
		return nil
	case kind == 1 && b == 0 && a > 0 && n > 0:
		return s.put(n, place{offset: a}, 0)
	case kind == 2 && a > 0 && a <= maxObjects && b >= 0 && b <= maxObjects && n > 0:
		return s.put(n, place{stream: int(a), index: int(b)}, 0)
	}
	return malformed(0, "cross-reference entry of object %d", n)
}

// indirect reads "n 0 obj … endobj" at an offset: its number, the object, and
// where it ends. A stream needs a direct length.
func indirect(src []byte, at int, watch Name, longest int) (int, Object, int, error) {
	n, o, p, err := openObject(src, at, watch, longest)
	if err != nil {
		return 0, nil, 0, err
	}
	t, err := p.next()
	if err == nil && t.kind == tokenWord && string(p.text(t)) == "stream" {
		if o, err = p.stream(o); err != nil {
			return 0, nil, 0, inObject(n, err)
		}
		t, err = p.next()
	}
	if err != nil || t.kind != tokenWord || string(p.text(t)) != "endobj" {
		return 0, nil, 0, inObject(n, malformed(p.pos, "object does not end"))
	}
	return n, o, p.pos, nil
}

// openObject reads "n 0 obj" and the object behind it.
func openObject(src []byte, at int, watch Name, longest int) (int, Object, *parser, error) {
	if at < 0 || at >= len(src) || classOf(src[at]) != classRegular {
		return 0, nil, nil, malformed(at, "no object here")
	}
	p := newParser(src, at)
	p.watch, p.longest = watch, longest
	number, err1 := p.next()
	gen, err2 := p.next()
	word, err3 := p.next()
	if err1 != nil || err2 != nil || err3 != nil || number.kind != tokenInt ||
		string(p.text(gen)) != "0" || string(p.text(word)) != "obj" {
		return 0, nil, nil, malformed(at, "no object here")
	}
	n, err := p.integer(number)
	if err != nil || n < 1 || n > maxObjects {
		return 0, nil, nil, malformed(at, "object number")
	}
	o, err := p.object()
	return int(n), o, p, inObject(int(n), err)
}

// stream reads the data behind the word stream.
func (p *parser) stream(o Object) (Object, error) {
	d, ok := o.(Dict)
	if !ok {
		return nil, malformed(p.pos, "stream without dictionary")
	}
	length, ok := d["Length"].(int64)
	if !ok {
		return nil, foreign("stream without direct length")
	}
	switch {
	case p.at(0) == '\r' && p.at(1) == '\n':
		p.pos += 2
	case p.at(0) == '\n':
		p.pos++
	default:
		return nil, malformed(p.pos, "no line end behind the word stream")
	}
	if length < 0 || length > int64(len(p.src)-p.pos) {
		return nil, malformed(p.pos, "stream length %d", length)
	}
	s := &Stream{Dict: d, Raw: p.src[p.pos : p.pos+int(length)]}
	p.pos += int(length)
	t, err := p.next()
	if err != nil || t.kind != tokenWord || string(p.text(t)) != "endstream" {
		return nil, malformed(p.pos, "stream is not as long as it says")
	}
	return s, nil
}
