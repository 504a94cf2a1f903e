package archive

import (
	"bytes"
	"crypto/md5"
)

// Packed is the content of a file as it stands in the document. Files that are
// known long before the pages can be packed meanwhile, and need not be held as
// they are.
type Packed struct {
	data     []byte
	deflated bool
	size     int      // unpacked
	sum      [16]byte // MD5 by the standard (ISO 32000-1, table 46), no security
}

// Pack packs the content of a file, which is as it is where that is shorter.
func Pack(content []byte, e Effort) *Packed {
	return (&deflater{tight: e == Tight && !packedAlready(content)}).pack(content)
}

// packedAlready tells a workbook, which gains next to nothing.
func packedAlready(content []byte) bool { return bytes.HasPrefix(content, []byte("PK\x03\x04")) }

func (d *deflater) pack(content []byte) *Packed {
	p := &Packed{data: d.deflate(content), deflated: true, size: len(content), sum: md5.Sum(content)}
	if len(p.data) >= len(content) { // a workbook is compressed already
		p.data, p.deflated = content, false
	}
	return p
}
