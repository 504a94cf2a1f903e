package sign

import (
	"bytes"
	"crypto"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"asleft/internal/archive"
)

// update is a revision in the making, behind the bytes of a file that it does not
// touch (ISO 32000-1, 7.5.6).
type update struct {
	out     []byte
	offsets map[int]int
	next    int // object number that is free
	prev    int64
	trailer archive.Dict
	gap     [2]int // the value of the signature, delimiters included
	ranges  int    // where the byte range is to be written
}

// rangeWidth is room for a byte range of the largest file.
const rangeWidth = len("[0 1073741824 1073741824 1073741824]")

// newUpdate begins a revision. The file has to have a cross-reference stream, as
// ours do: a table behind a stream is no valid PDF.
func newUpdate(file []byte, r *archive.Reader) (*update, error) {
	ends := r.Revisions()
	newest := r.RevisionObjects(len(ends) - 1)
	t := r.Trailer()
	size, okSize := t["Size"].(int64)
	if newest.Stream == 0 || !okSize || size < 1 || size > maxSize {
		return nil, fmt.Errorf("%w: no cross-reference stream", ErrForm)
	}
	tail := bytes.Fields(file[max(0, bytes.LastIndex(file, []byte("startxref"))):])
	if len(tail) < 2 {
		return nil, fmt.Errorf("%w: startxref", ErrForm)
	}
	prev, err := strconv.ParseInt(string(tail[1]), 10, 64)
	if err != nil {
		return nil, fmt.Errorf("%w: startxref: %w", ErrForm, err)
	}
	return &update{out: slices.Clone(file), offsets: map[int]int{}, next: int(size), prev: prev, trailer: t}, nil
}

// maxSize is the highest object number that is given out (ISO 19005-3, 6.1.13;
// value from memory).
const maxSize = 8_388_000

// reserve gives out an object number.
func (u *update) reserve() int {
	u.next++
	return u.next - 1
}

// put writes an object.
func (u *update) put(n int, o archive.Object) {
	u.offsets[n] = len(u.out)
	u.out = fmt.Appendf(u.out, "%d 0 obj\n", n)
	u.out = appendObject(u.out, o)
	u.out = append(u.out, "\nendobj\n"...)
}

// stream writes a stream; d gets its length.
func (u *update) stream(n int, d archive.Dict, data []byte) {
	d["Length"] = int64(len(data))
	u.offsets[n] = len(u.out)
	u.out = fmt.Appendf(u.out, "%d 0 obj\n", n)
	u.out = appendObject(u.out, d)
	u.out = append(u.out, "\nstream\n"...)
	u.out = append(u.out, data...)
	u.out = append(u.out, "\nendstream\nendobj\n"...)
}

// signature writes the signature dictionary with room for byte range and value.
func (u *update) signature(n int, d archive.Dict, room int) {
	u.offsets[n] = len(u.out)
	u.out = fmt.Appendf(u.out, "%d 0 obj\n", n)
	inner := appendObject(nil, d)
	u.out = append(u.out, inner[:len(inner)-len(">>")]...)
	u.out = append(u.out, "/ByteRange"...)
	u.ranges = len(u.out)
	u.out = append(u.out, bytes.Repeat([]byte{' '}, rangeWidth)...)
	u.out = append(u.out, "/Contents"...)
	u.gap[0] = len(u.out)
	u.out = append(u.out, '<')
	u.out = append(u.out, bytes.Repeat([]byte{'0'}, 2*room)...)
	u.out = append(u.out, '>')
	u.gap[1] = len(u.out)
	u.out = append(u.out, ">>\nendobj\n"...)
}

// finish ends the revision and writes the byte range.
func (u *update) finish(id []byte) {
	u.references(id)
	copy(u.out[u.ranges:], fmt.Sprintf("[0 %d %d %d]", u.gap[0], u.gap[1], len(u.out)-u.gap[1]))
}

// references writes the cross-reference stream. The second half of the identifier
// is a hash of the file so far, so it tells revisions apart and is the same for
// the same revision.
func (u *update) references(id []byte) {
	n := u.reserve()
	start := len(u.out)
	u.offsets[n] = start
	sum := sha256.Sum256(u.out)
	numbers := slices.Sorted(maps.Keys(u.offsets))
	var index archive.Array
	var rows []byte
	for _, n := range numbers {
		index = append(index, int64(n), int64(1))
		at := u.offsets[n]
		rows = append(rows, 1, byte(at>>24), byte(at>>16), byte(at>>8), byte(at), 0, 0)
	}
	d := archive.Dict{"Type": archive.Name("XRef"), "Size": int64(u.next), "W": archive.Array{int64(1), int64(4), int64(2)},
		"Index": index, "Root": u.trailer["Root"], "Prev": u.prev,
		"ID": archive.Array{archive.String(id), archive.String(sum[:len(id)])}}
	if info := u.trailer["Info"]; info != nil {
		d["Info"] = info
	}
	u.stream(n, d, rows)
	u.out = fmt.Appendf(u.out, "startxref\n%d\n%%%%EOF\n", start)
}

// digest hashes all of the file but the value of the signature.
func (u *update) digest(hash crypto.Hash) []byte {
	h := hash.New()
	h.Write(u.out[:u.gap[0]])
	h.Write(u.out[u.gap[1]:])
	return h.Sum(nil)
}

// fill writes the value of the signature into its room; the rest stays zero.
func (u *update) fill(value []byte) error {
	room := (u.gap[1] - u.gap[0] - len("<>")) / 2
	if len(value) > room {
		return fmt.Errorf("signature of %d bytes, room for %d", len(value), room)
	}
	hex.Encode(u.out[u.gap[0]+1:], value)
	return nil
}
