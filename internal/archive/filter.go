package archive

import (
	"bytes"
	"compress/zlib"
	"errors"
	"io"
)

// errTooLong is what inflate returns for data over its limit.
var errTooLong = errors.New("decoded data too long")

// inflater undoes Flate coding, again and again with the same tables.
type inflater struct {
	reader io.ReadCloser
	buf    bytes.Buffer
}

// inflate returns the decoded data, at most limit bytes. It is valid until the
// next call.
func (f *inflater) inflate(raw []byte, limit int64) ([]byte, error) {
	var err error
	src := bytes.NewReader(raw)
	if again, ok := f.reader.(zlib.Resetter); ok {
		err = again.Reset(src, nil)
	} else {
		f.reader, err = zlib.NewReader(src)
	}
	if err != nil {
		return nil, err
	}
	f.buf.Reset()
	n, err := f.buf.ReadFrom(io.LimitReader(f.reader, limit+1))
	if err != nil {
		return nil, err
	}
	if n > limit {
		return nil, errTooLong
	}
	return f.buf.Bytes(), f.reader.Close()
}

// decode undoes the filter of a stream: none, or Flate with or without a PNG
// predictor. Other filters are image codings and are left alone by callers.
func decode(s *Stream, limit int64) ([]byte, error) {
	switch s.Dict["Filter"] {
	case nil:
		return s.Raw, nil
	case Name("FlateDecode"):
	default:
		return nil, foreign("filter %v", s.Dict["Filter"])
	}
	var f inflater
	data, err := f.inflate(s.Raw, limit)
	if err != nil {
		if errors.Is(err, errTooLong) {
			return nil, overLimit(0, "stream longer than %d bytes", limit)
		}
		return nil, malformed(0, "flate data: %v", err)
	}
	parms := s.Dict["DecodeParms"]
	if parms == nil {
		return data, nil
	}
	d, ok := parms.(Dict)
	if !ok {
		return nil, foreign("decode parameters")
	}
	return unpredict(data, d)
}

// unpredict undoes the PNG predictors (ISO 32000-1, 7.4.4.4) for one byte
// per sample and one sample per column, which is what cross-reference streams use.
func unpredict(data []byte, parms Dict) ([]byte, error) {
	predictor, columns := intOr(parms["Predictor"], 1), intOr(parms["Columns"], 1)
	if predictor == 1 {
		return data, nil
	}
	if predictor < 10 || predictor > 15 || columns < 1 || columns > 1<<16 ||
		intOr(parms["Colors"], 1) != 1 || intOr(parms["BitsPerComponent"], 8) != 8 {
		return nil, foreign("predictor %d", predictor)
	}
	width := int(columns)
	if len(data)%(width+1) != 0 {
		return nil, malformed(len(data), "predicted rows are not whole")
	}
	out := make([]byte, 0, len(data)/(width+1)*width)
	above := make([]byte, width)
	for ; len(data) > 0; data = data[width+1:] {
		out = append(out, data[1:width+1]...)
		row := out[len(out)-width:]
		if err := unfilterRow(data[0], row, above); err != nil {
			return nil, err
		}
		above = row
	}
	return out, nil
}

// unfilterRow undoes one PNG row filter in place (ISO/IEC 15948, clause 9).
func unfilterRow(filter byte, row, above []byte) error {
	for i := range row {
		var left, corner byte
		if i > 0 {
			left, corner = row[i-1], above[i-1]
		}
		switch filter {
		case 0:
		case 1:
			row[i] += left
		case 2:
			row[i] += above[i]
		case 3:
			row[i] += byte((int(left) + int(above[i])) / 2)
		case 4:
			row[i] += paeth(left, above[i], corner)
		default:
			return malformed(i, "row filter %d", filter)
		}
	}
	return nil
}

// paeth picks the neighbor nearest to left + above - corner.
func paeth(left, above, corner byte) byte {
	distance := func(x byte) int {
		d := int(left) + int(above) - int(corner) - int(x)
		return max(d, -d)
	}
	switch dl, da, dc := distance(left), distance(above), distance(corner); {
	case dl <= da && dl <= dc:
		return left
	case da <= dc:
		return above
	}
	return corner
}

// intOr is o as an integer, or def if it is none.
func intOr(o Object, def int64) int64 {
	if n, ok := o.(int64); ok {
		return n
	}
	return def
}
