package archive

import (
	"bytes"
	"slices"
)

// Stray returns the byte ranges of the file that belong to no object, no
// cross-reference section and no header of any revision, white space apart: room
// in which something could hide. The ranges are in rising order.
func (r *Reader) Stray() ([][2]int64, error) {
	spans := [][2]int64{{0, r.headerEnd()}}
	for i := range r.sections {
		s := &r.sections[i]
		spans = append(spans, [2]int64{s.start, s.end})
		for n, p := range s.places {
			if p.stream > 0 || p.offset == s.start {
				continue
			}
			got, _, end, err := indirect(r.src, int(p.offset), "", maxSignature)
			if err != nil {
				return nil, err
			}
			if got != n {
				return nil, inObject(n, malformed(int(p.offset), "object %d stands here", got))
			}
			spans = append(spans, [2]int64{p.offset, int64(end)})
		}
	}
	slices.SortFunc(spans, func(a, b [2]int64) int { return int(a[0] - b[0]) })
	var stray [][2]int64
	at := int64(0)
	for _, s := range spans {
		if s[0] > at && len(bytes.TrimSpace(r.src[at:s[0]])) > 0 {
			stray = append(stray, [2]int64{at, s[0]})
		}
		at = max(at, s[1])
	}
	return stray, nil
}

// headerEnd is the end of our header, or of the version in any other one with the
// short line behind it that says that the file is not text (ISO 32000-1, 7.5.2).
func (r *Reader) headerEnd() int64 {
	if bytes.HasPrefix(r.src, []byte(header)) {
		return int64(len(header))
	}
	end := len("%PDF-1.7")
	rest := bytes.TrimLeft(r.src[end:min(len(r.src), end+2)], "\r\n")
	at := min(len(r.src), end+2) - len(rest)
	if at >= len(r.src) || r.src[at] != '%' {
		return int64(end)
	}
	for n := 1; n <= maxBinaryMark && at+n < len(r.src); n++ {
		switch c := r.src[at+n]; {
		case c == '\r' || c == '\n':
			return int64(at + n)
		case c < 0x80:
			return int64(end)
		}
	}
	return int64(end)
}

// maxBinaryMark is how long that line may be.
const maxBinaryMark = 8
