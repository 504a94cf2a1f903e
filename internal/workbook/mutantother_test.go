package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strconv"
	"strings"
)

// packTight packs the parts of the order, and one more that is compressed.
func (o *original) packTight(name string, body []byte) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	put := func(name string, body []byte, method uint16) {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		if err == nil {
			_, err = w.Write(body)
		}
		if err != nil {
			panic(err)
		}
	}
	for _, n := range o.order {
		put(n, o.parts[n], zip.Store)
	}
	put(name, body, zip.Deflate)
	if err := z.Close(); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// compareRaw asks another program's library what stands in the cells that were
// taken differently from the original. Where it does not read the file, or
// reads the same, nothing is wrong.
func compareRaw(b []byte, changed []string, was, got map[string][]leaf) string {
	f, err := openEditor(b)
	if err != nil {
		return ""
	}
	defer f.Close()
	for _, at := range changed {
		sheet, cell, ok := strings.Cut(at, "!")
		if !ok {
			continue
		}
		raw, err := f.GetCellValue(sheet, cell, rawValues)
		if err != nil {
			return "" // it does not read that sheet
		}
		raw = spaced(raw)
		switch l := got[at]; {
		case len(l) == 0 && raw != "" && len(was[at]) > 0:
			return fmt.Sprintf("%s holds %q and was passed over in silence", at, raw)
		case len(l) > 0 && !alike(raw, l[0].typed):
			return fmt.Sprintf("%s holds %q and was taken as %q", at, raw, l[0].typed)
		}
	}
	return ""
}

// alike compares a text, or a number in two ways of writing, or what a
// spreadsheet's number stands for and cannot be compared.
func alike(raw, typed string) bool {
	if raw == typed {
		return true
	}
	a, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return strings.Contains(raw, ":") && strings.HasSuffix("0"+raw, typed) // a time of day
	}
	b, err := strconv.ParseFloat(typed, 64)
	return err != nil && strings.ContainsAny(typed, ":-/y") || err == nil && a == b
}
