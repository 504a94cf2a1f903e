package archive

import (
	"bytes"
	"errors"
)

// Reasons why somebody else's file is no use as an attachment.
var (
	ErrNotPDF    = errors.New("no PDF")
	ErrEncrypted = errors.New("encrypted")
)

// Where readers look for the head and the end of other people's files
// (ISO 32000-1, annex H.3.4.1 and H.3.4.4).
const (
	headWithin = 1024
	endWithin  = 1024
)

// Readable tells whether a PDF from any program can be opened without a
// password and has pages: its cross-references lead to a catalog and a page. It
// is lenient where [Open] is strict, and says nothing of what is on the pages.
// Errors are [ErrNotPDF], [ErrEncrypted] or [ErrMalformed], some wrapped.
func Readable(b []byte) error {
	head := bytes.Index(b[:min(len(b), headWithin)], []byte("%PDF-"))
	if head < 0 {
		return ErrNotPDF
	}
	b = b[head:] // offsets count from here
	if len(b) > maxFileSize {
		return ErrMalformed
	}
	r, err := lenient(b)
	if err != nil {
		return err
	}
	c, err := r.dict(r.trailer["Root"], "document catalog")
	if err != nil || c == nil {
		return ErrMalformed
	}
	if !r.anyPage(c["Pages"], map[Ref]bool{}) {
		return ErrMalformed
	}
	return nil
}

// lenient follows the cross-references of a file as far as they are needed to
// find its objects.
func lenient(b []byte) (*Reader, error) {
	r := &Reader{src: b, places: map[int]place{}, packed: map[int]*pack{},
		limit: min(maxTotalDecoded, baseDecoded+decodedRatio*int64(len(b)))}
	at, ok := lastStart(b)
	seen := map[int64]bool{}
	for ok && !seen[at] && len(seen) < maxRevisions {
		seen[at] = true
		s, err := looseSection(b, at)
		if err != nil {
			return nil, err
		}
		if r.trailer == nil {
			r.trailer = s.trailer
		}
		if s.trailer["Encrypt"] != nil {
			return nil, ErrEncrypted
		}
		r.older(&s)
		if hybrid, isHybrid := s.trailer["XRefStm"].(int64); isHybrid {
			if h, err := looseSection(b, hybrid); err == nil {
				r.older(&h)
			}
		}
		at, ok = s.trailer["Prev"].(int64)
	}
	if r.trailer == nil {
		return nil, ErrMalformed
	}
	return r, nil
}

// older adds a section beneath those that were read before.
func (r *Reader) older(s *section) {
	for n, p := range s.places {
		if _, newer := r.places[n]; !newer {
			r.places[n] = p
		}
	}
}

// lastStart is the offset behind the last startxref.
func lastStart(b []byte) (int64, bool) {
	if !bytes.Contains(b[max(0, len(b)-endWithin):], []byte("%%EOF")) {
		return 0, false
	}
	i := bytes.LastIndex(b, []byte("startxref"))
	if i < 0 {
		return 0, false
	}
	l := lexer{src: b, pos: i + len("startxref")}
	t, err := l.next()
	if err != nil || t.kind != tokenInt {
		return 0, false
	}
	n, err := l.integer(t)
	return n, err == nil
}

// looseSection reads a cross-reference section, with entries that our own files
// would not have.
func looseSection(b []byte, at int64) (section, error) {
	s := section{start: at, places: map[int]place{}}
	if at <= 0 || at >= int64(len(b)) {
		return s, ErrMalformed
	}
	rest := bytes.TrimLeft(b[at:], " \t\r\n\f\x00")
	at = int64(len(b) - len(rest))
	s.start = at
	if bytes.HasPrefix(rest, []byte("xref")) {
		return s, s.looseTable(b)
	}
	_, o, _, err := indirect(b, int(at), "", maxStringLength)
	stream, ok := o.(*Stream)
	if err != nil || !ok || stream.Dict["Type"] != Name("XRef") {
		return s, ErrMalformed
	}
	s.trailer = stream.Dict
	if s.trailer["Encrypt"] != nil {
		return s, nil
	}
	data, err := decode(stream, maxStreamDecoded)
	if err != nil {
		return s, ErrMalformed
	}
	return s, s.looseEntries(data)
}

// looseTable reads a table word by word, whatever its line ends.
func (s *section) looseTable(b []byte) error {
	p := newParser(b, int(s.start)+len("xref"))
	for {
		t, err := p.next()
		if err != nil {
			return ErrMalformed
		}
		if t.kind == tokenWord && string(p.text(t)) == "trailer" {
			break
		}
		first, err1 := p.integer(t)
		count, ok := p.whole()
		if err1 != nil || t.kind != tokenInt || !ok || first < 0 || count < 0 || first+count > maxObjects+1 {
			return ErrMalformed
		}
		for i := range count {
			offset, ok1 := p.whole()
			_, ok2 := p.whole()
			word, err := p.next()
			if !ok1 || !ok2 || err != nil || word.kind != tokenWord {
				return ErrMalformed
			}
			if string(p.text(word)) == "n" && offset > 0 {
				s.places[int(first+i)] = place{offset: offset}
			}
		}
	}
	o, err := p.object()
	d, ok := o.(Dict)
	if err != nil || !ok {
		return ErrMalformed
	}
	s.trailer = d
	return nil
}

// whole reads a whole number.
func (p *parser) whole() (int64, bool) {
	t, err := p.next()
	if err != nil || t.kind != tokenInt {
		return 0, false
	}
	n, err := p.integer(t)
	return n, err == nil
}

// looseEntries reads the entries of a cross-reference stream, leaving out what
// it does not know.
func (s *section) looseEntries(data []byte) error {
	w, err := widths(s.trailer["W"])
	if err != nil {
		return ErrMalformed
	}
	index, ok := s.trailer["Index"].(Array)
	if !ok {
		index = Array{int64(0), intOr(s.trailer["Size"], 0)}
	}
	row := w[0] + w[1] + w[2]
	for ; len(index) > 1; index = index[2:] {
		first, count := intOr(index[0], -1), intOr(index[1], -1)
		if first < 0 || count < 0 || first+count > maxObjects+1 || count*int64(row) > int64(len(data)) {
			return ErrMalformed
		}
		for i := range int(count) {
			_ = s.streamEntry(data[:row], w, int(first)+i)
			data = data[row:]
		}
	}
	return nil
}

// anyPage tells whether a page tree has a page that can be read. Kids that
// cannot be read are passed over: of a large file in which one object is odd,
// people can still read the rest.
func (r *Reader) anyPage(o Object, seen map[Ref]bool) bool {
	ref, ok := o.(Ref)
	d, err := r.dict(o, "page")
	if err != nil || d == nil || !ok || seen[ref] {
		return false
	}
	seen[ref] = true
	if d["Kids"] == nil {
		return d["Contents"] != nil || d["MediaBox"] != nil || d["Type"] == Name("Page")
	}
	kids, err := r.array(d["Kids"], "page tree")
	if err != nil {
		return false
	}
	for _, k := range kids {
		if r.anyPage(k, seen) {
			return true
		}
	}
	return false
}
