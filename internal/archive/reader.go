package archive

import (
	"bytes"
	"errors"
)

// Reader gives access to the objects of a file. It is not safe for use by
// several goroutines at once.
type Reader struct {
	src      []byte
	sections []section // newest first
	places   map[int]place
	trailer  Dict
	packed   map[int]*pack    // object streams, decoded
	decoded  int64            // bytes decoded so far
	limit    int64            // of decoded
	pages    []PageObject     // once read
	text     *textReader      // once needed
	codes    map[Ref]bool     // fonts with short codes, as far as asked
	fonts    map[Ref]*rawFont // as far as text was placed
}

// pack is a decoded object stream.
type pack struct {
	data    []byte
	numbers []int
	starts  []int
}

// Open reads the cross-references of a file. The bytes must not change while
// the Reader is in use. All errors are [ReadError] values.
func Open(b []byte) (*Reader, error) {
	if len(b) > maxFileSize {
		return nil, overLimit(0, "file of %d bytes", len(b))
	}
	if len(b) < 9 || !bytes.HasPrefix(b, []byte("%PDF-1.")) || b[7] < '0' || b[7] > '7' {
		return nil, malformed(0, "no PDF header")
	}
	list, err := sections(b)
	if err != nil {
		return nil, err
	}
	r := &Reader{src: b, sections: list, trailer: list[0].trailer,
		places: map[int]place{}, packed: map[int]*pack{},
		limit: min(maxTotalDecoded, baseDecoded+decodedRatio*int64(len(b)))}
	for i := len(list) - 1; i >= 0; i-- {
		for _, n := range list[i].free {
			delete(r.places, n)
		}
		for n, p := range list[i].places {
			r.places[n] = p
		}
	}
	if _, ok := r.trailer["Root"].(Ref); !ok {
		return nil, malformed(0, "no document catalog")
	}
	return r, nil
}

// Revisions returns the end offset of each revision, oldest first; the last
// is the length of the file.
func (r *Reader) Revisions() []int64 {
	ends := make([]int64, len(r.sections))
	for i, s := range r.sections {
		ends[len(ends)-1-i] = s.end
	}
	return ends
}

// ID returns the two halves of the file identifier.
func (r *Reader) ID() (first, last []byte) {
	a, ok := r.trailer["ID"].(Array)
	if !ok || len(a) != 2 {
		return nil, nil
	}
	f, _ := a[0].(String)
	l, _ := a[1].(String)
	return []byte(f), []byte(l)
}

// Object returns the newest version of an object.
func (r *Reader) Object(n int) (Object, error) {
	p, ok := r.places[n]
	switch {
	case !ok:
		return nil, inObject(n, malformed(0, "no such object"))
	case p.stream > 0:
		return r.unpack(n, p)
	}
	got, o, _, err := indirect(r.src, int(p.offset), "", maxSignature)
	if err != nil {
		return nil, err
	}
	if got != n {
		return nil, inObject(n, malformed(int(p.offset), "object %d stands here", got))
	}
	return o, nil
}

// unpack reads an object out of an object stream.
func (r *Reader) unpack(n int, p place) (Object, error) {
	pk, err := r.pack(p.stream)
	if err != nil {
		return nil, err
	}
	if p.index >= len(pk.numbers) || pk.numbers[p.index] != n {
		return nil, inObject(n, malformed(0, "not in object stream %d", p.stream))
	}
	end := len(pk.data)
	if p.index+1 < len(pk.starts) {
		end = pk.starts[p.index+1]
	}
	o, err := newParser(pk.data[:end], pk.starts[p.index]).object()
	return o, inObject(n, err)
}

// pack decodes an object stream (ISO 32000-1, 7.5.7), once.
func (r *Reader) pack(n int) (*pack, error) {
	if pk := r.packed[n]; pk != nil {
		return pk, nil
	}
	p, ok := r.places[n]
	if !ok || p.stream != 0 {
		return nil, inObject(n, malformed(0, "no object stream"))
	}
	o, err := r.Object(n)
	if err != nil {
		return nil, err
	}
	s, ok := o.(*Stream)
	if !ok || s.Dict["Type"] != Name("ObjStm") || s.Dict["Extends"] != nil {
		return nil, inObject(n, malformed(0, "no object stream"))
	}
	data, err := r.Decode(s)
	if err != nil {
		return nil, inObject(n, err)
	}
	pk, err := readPack(data, intOr(s.Dict["N"], -1), intOr(s.Dict["First"], -1))
	if err != nil {
		return nil, inObject(n, err)
	}
	r.packed[n] = pk
	return pk, nil
}

func readPack(data []byte, count, first int64) (*pack, error) {
	if count < 0 || first < 0 || first > int64(len(data)) || count > first {
		return nil, malformed(0, "head of an object stream")
	}
	pk := &pack{data: data, numbers: make([]int, count), starts: make([]int, count)}
	l := lexer{src: data[:first]}
	read := func() int {
		t, err := l.next()
		if err != nil || t.kind != tokenInt {
			return -1
		}
		n, err := l.integer(t)
		if err != nil || n > maxStreamDecoded {
			return -1
		}
		return int(n)
	}
	for i := range pk.numbers {
		pk.numbers[i] = read()
		at := read()
		pk.starts[i] = int(first) + at
		if pk.numbers[i] < 1 || at < 0 || pk.starts[i] > len(data) || i > 0 && pk.starts[i] < pk.starts[i-1] {
			return nil, malformed(l.pos, "head of an object stream")
		}
	}
	return pk, nil
}

// Decode returns the data of a stream without filter or with Flate.
func (r *Reader) Decode(s *Stream) ([]byte, error) {
	allowed := min(maxStreamDecoded, r.limit-r.decoded)
	b, err := decode(s, allowed)
	r.decoded += int64(len(b))
	if errors.Is(err, ErrLimit) {
		r.decoded += allowed // it was decoded as far, and must not be again and again
	}
	return b, err
}

// Resolve follows o if it is a reference. A reference to a reference is an
// error: nothing we read has one.
func (r *Reader) Resolve(o Object) (Object, error) {
	ref, ok := o.(Ref)
	if !ok {
		return o, nil
	}
	o, err := r.Object(int(ref))
	if err != nil {
		return nil, err
	}
	if _, again := o.(Ref); again {
		return nil, inObject(int(ref), malformed(0, "reference to a reference"))
	}
	return o, nil
}

// dict resolves o and wants a dictionary; nil gives nil.
func (r *Reader) dict(o Object, what string) (Dict, error) {
	v, err := r.Resolve(o)
	if v == nil || err != nil {
		return nil, err
	}
	d, ok := v.(Dict)
	if !ok {
		return nil, foreign("%s is no dictionary", what)
	}
	return d, nil
}

// array resolves o and wants an array; nil gives nil.
func (r *Reader) array(o Object, what string) (Array, error) {
	v, err := r.Resolve(o)
	if v == nil || err != nil {
		return nil, err
	}
	a, ok := v.(Array)
	if !ok {
		return nil, foreign("%s is no array", what)
	}
	return a, nil
}

// stream resolves o, decodes it, and wants a stream.
func (r *Reader) stream(o Object, what string) (*Stream, []byte, error) {
	v, err := r.Resolve(o)
	if err != nil {
		return nil, nil, err
	}
	s, ok := v.(*Stream)
	if !ok {
		return nil, nil, foreign("%s is no stream", what)
	}
	b, err := r.Decode(s)
	return s, b, err
}

// Catalog returns the document catalog.
func (r *Reader) Catalog() (Dict, error) {
	d, err := r.dict(r.trailer["Root"], "document catalog")
	if err == nil && (d == nil || d["Type"] != Name("Catalog")) {
		return nil, foreign("document catalog")
	}
	return d, err
}
