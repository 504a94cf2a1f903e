package workbook

import (
	"archive/zip"
	"bytes"
	"hash/crc32"
	"io"
	"strings"

	"asleft/internal/deflate"
)

// Shorten packs a workbook of ours again, smaller: elements without contents
// close themselves, what is so anyway is not said, quotes stand for themselves where
// they can, and every part is compressed as far as it goes. What the workbook holds
// is the same. The library writes quickly instead.
func Shorten(workbook []byte) ([]byte, error) {
	in, err := zip.NewReader(bytes.NewReader(workbook), int64(len(workbook)))
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	packer := deflate.Packer{Depth: 48}
	for _, f := range in.File {
		if err := shortenPart(out, f, &packer); err != nil {
			return nil, err
		}
	}
	err = out.Close()
	return b.Bytes(), err
}

func shortenPart(out *zip.Writer, f *zip.File, packer *deflate.Packer) error {
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	part, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	if strings.HasSuffix(f.Name, ".xml") || strings.HasSuffix(f.Name, ".rels") {
		part = plainQuotes(leaveDefaults(closeEmpty(part)))
	}
	// Without a date: equal contents give equal bytes.
	packed := packer.Raw(nil, part)
	w, err := out.CreateRaw(&zip.FileHeader{Name: f.Name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE(part),
		CompressedSize64: uint64(len(packed)), UncompressedSize64: uint64(len(part))})
	if err != nil {
		return err
	}
	_, err = w.Write(packed)
	return err
}

// closeEmpty writes <a b="c"></a> as <a b="c"/>.
func closeEmpty(xml []byte) []byte {
	out := make([]byte, 0, len(xml))
	for {
		i := bytes.Index(xml, []byte("></"))
		if i < 0 {
			return append(out, xml...)
		}
		start := bytes.LastIndexByte(xml[:i], '<')
		end := bytes.IndexByte(xml[i+3:], '>')
		if start >= 0 && end >= 0 && opens(xml[start+1:i], xml[i+3:i+3+end]) {
			out = append(append(out, xml[:i]...), "/>"...)
			xml = xml[i+3+end+1:]
			continue
		}
		out = append(out, xml[:i+2]...)
		xml = xml[i+2:]
	}
}

// opens tells whether a tag, its attributes included, opens an element of a
// name.
func opens(tag, name []byte) bool {
	return bytes.HasPrefix(tag, name) && (len(tag) == len(name) || tag[len(name)] == ' ')
}

// defaults are attributes that say what ECMA-376 part 1, 18.3.1.85 and 18.3.1.32,
// takes for said.
var defaults = []struct {
	tag        string
	attributes []string
}{
	{"<sheetProtection", []string{` objects="false"`, ` scenarios="false"`, ` deleteColumns="true"`, ` selectLockedCells="false"`,
		` pivotTables="true"`, ` selectUnlockedCells="false"`}},
	{"<dataValidation", []string{` operator="between"`, ` errorStyle="stop"`}},
}

// leaveDefaults takes them out, and a size of the sheet that is none.
func leaveDefaults(xml []byte) []byte {
	for _, d := range defaults {
		xml = eachPiece(xml, d.tag, ">", func(tag []byte) []byte {
			for _, a := range d.attributes {
				tag = bytes.Replace(tag, []byte(a), nil, 1)
			}
			return tag
		})
	}
	return bytes.Replace(xml, []byte(noDimension), nil, 1)
}

// noDimension is what the library says of every sheet.
const noDimension = `<dimension ref="A1"/>`

// plainQuotes writes quotes as they are between tags. In a tag they may end an
// attribute.
func plainQuotes(xml []byte) []byte {
	return eachPiece(xml, ">", "<", func(text []byte) []byte {
		text = bytes.ReplaceAll(text, []byte("&#34;"), []byte(`"`))
		return bytes.ReplaceAll(text, []byte("&#39;"), []byte("'"))
	})
}

// eachPiece changes whatever lies between two marks.
func eachPiece(b []byte, from, to string, change func([]byte) []byte) []byte {
	out := make([]byte, 0, len(b))
	for {
		before, piece, found := bytes.Cut(b, []byte(from))
		out = append(out, before...)
		if !found {
			return out
		}
		n := bytes.Index(piece, []byte(to))
		if n < 0 {
			n = len(piece)
		}
		out = append(append(out, from...), change(piece[:n:n])...)
		b = piece[n:]
	}
}
