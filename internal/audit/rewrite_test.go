package audit_test

import (
	"bytes"
	"compress/zlib"
	"crypto/md5"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"asleft/internal/archive"
)

// document is a file taken apart, to be put together otherwise. It stands for what
// anybody can do with a library for such files.
type document struct {
	t       testing.TB
	reader  *archive.Reader
	objects map[int]archive.Object
	trailer archive.Dict
	junk    string // written between two objects
	touched map[int]bool
}

// takeApart reads every object of a file.
func takeApart(t testing.TB, file []byte) *document {
	t.Helper()
	r, err := archive.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	d := &document{t: t, reader: r, objects: map[int]archive.Object{}, touched: map[int]bool{},
		trailer: archive.Dict{"Root": r.Trailer()["Root"], "Info": r.Trailer()["Info"], "ID": r.Trailer()["ID"]}}
	for i := range r.Revisions() {
		for _, n := range r.RevisionObjects(i).Written {
			o, err := r.Object(n)
			if err != nil {
				t.Fatal(err)
			}
			if s, ok := o.(*archive.Stream); ok && (s.Dict["Type"] == archive.Name("XRef") || s.Dict["Type"] == archive.Name("ObjStm")) {
				continue
			}
			d.objects[n] = o
		}
	}
	return d
}

// whole writes the file anew, all in one revision.
func (d *document) whole() []byte {
	out := []byte("%PDF-1.7\n%\xE2\xE3\xCF\xD3\n")
	return d.revision(out, slices.Sorted(maps.Keys(d.objects)), -1)
}

// behind writes the objects that were touched as a revision behind the file.
func (d *document) behind(file []byte) []byte {
	tail := bytes.Fields(file[bytes.LastIndex(file, []byte("startxref")):])
	prev, err := strconv.Atoi(string(tail[1]))
	if err != nil {
		d.t.Fatal(err)
	}
	return d.revision(slices.Clone(file), slices.Sorted(maps.Keys(d.touched)), prev)
}

func (d *document) revision(out []byte, numbers []int, prev int) []byte {
	var index archive.Array
	var rows []byte
	for i, n := range numbers {
		if i == 1 {
			out = append(out, d.junk...)
		}
		index = append(index, int64(n), int64(1))
		at := len(out)
		rows = append(rows, 1, byte(at>>24), byte(at>>16), byte(at>>8), byte(at), 0, 0)
		out = fmt.Appendf(out, "%d 0 obj\n", n)
		out = appendObject(out, d.objects[n])
		out = append(out, "\nendobj\n"...)
	}
	size := slices.Max(slices.Collect(maps.Keys(d.objects))) + 2
	at := len(out)
	index = append(index, int64(size-1), int64(1))
	rows = append(rows, 1, byte(at>>24), byte(at>>16), byte(at>>8), byte(at), 0, 0)
	x := archive.Dict{"Type": archive.Name("XRef"), "Size": int64(size), "W": archive.Array{int64(1), int64(4), int64(2)},
		"Index": index, "Length": int64(len(rows))}
	if prev >= 0 {
		x["Prev"] = int64(prev)
	}
	maps.Copy(x, d.trailer)
	out = fmt.Appendf(out, "%d 0 obj\n", size-1)
	out = appendObject(out, &archive.Stream{Dict: x, Raw: rows})
	return fmt.Appendf(out, "\nendobj\nstartxref\n%d\n%%%%EOF\n", at)
}

// appendObject writes an object (ISO 32000-1, 7.3).
func appendObject(out []byte, o archive.Object) []byte {
	switch v := o.(type) {
	case nil:
		return append(out, "null"...)
	case bool:
		return strconv.AppendBool(out, v)
	case int64:
		return strconv.AppendInt(out, v, 10)
	case archive.Real:
		return append(out, v...)
	case archive.Name:
		out = append(out, '/')
		for _, c := range []byte(v) {
			if c <= ' ' || c > '~' || bytes.IndexByte([]byte("()<>[]{}/%#"), c) >= 0 {
				out = fmt.Appendf(out, "#%02X", c)
				continue
			}
			out = append(out, c)
		}
		return out
	case archive.String:
		return fmt.Appendf(out, "<%x>", string(v))
	case archive.Ref:
		return fmt.Appendf(out, "%d 0 R", v)
	case archive.Array:
		out = append(out, '[')
		for _, e := range v {
			out = append(appendObject(out, e), ' ')
		}
		return append(out, ']')
	case archive.Dict:
		out = append(out, "<<"...)
		for _, k := range slices.Sorted(maps.Keys(v)) {
			out = appendObject(append(appendObject(out, k), ' '), v[k])
		}
		return append(out, ">>"...)
	case *archive.Stream:
		dict := maps.Clone(v.Dict)
		dict["Length"] = int64(len(v.Raw))
		out = append(appendObject(out, dict), "\nstream\n"...)
		return append(append(out, v.Raw...), "\nendstream"...)
	}
	panic(fmt.Sprintf("object %T", o))
}

// dict follows o to a dictionary that may be changed; stream data are left alone.
func (d *document) dict(o archive.Object) archive.Dict {
	d.t.Helper()
	if ref, ok := o.(archive.Ref); ok {
		d.touched[int(ref)] = true
		o = d.objects[int(ref)]
	}
	switch v := o.(type) {
	case archive.Dict:
		return v
	case *archive.Stream:
		return v.Dict
	}
	d.t.Fatalf("no dictionary: %T", o)
	return nil
}

func (d *document) catalog() archive.Dict { return d.dict(d.trailer["Root"]) }

// page is a page from 0.
func (d *document) page(i int) archive.Dict {
	d.t.Helper()
	pages, err := d.reader.Pages()
	if err != nil {
		d.t.Fatal(err)
	}
	return d.dict(archive.Ref(pages[i].Object))
}

// ownContent is the stream of a page that no other page has.
func (d *document) ownContent(i int) archive.Ref {
	d.t.Helper()
	switch c := d.page(i)["Contents"].(type) {
	case archive.Ref:
		return c
	case archive.Array:
		return c[len(c)-1].(archive.Ref)
	}
	d.t.Fatalf("page %d has no content", i+1)
	return 0
}

// data is a decoded stream.
func (d *document) data(o archive.Object) []byte {
	d.t.Helper()
	s, ok := d.objects[int(o.(archive.Ref))].(*archive.Stream)
	if !ok {
		d.t.Fatal("no stream")
	}
	b, err := d.reader.Decode(s)
	if err != nil {
		d.t.Fatal(err)
	}
	return b
}

// set puts other data into a stream.
func (d *document) set(o archive.Object, b []byte) {
	d.t.Helper()
	n := int(o.(archive.Ref))
	d.touched[n] = true
	dict := maps.Clone(d.objects[n].(*archive.Stream).Dict)
	delete(dict, "DecodeParms")
	dict["Filter"] = archive.Name("FlateDecode")
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	if _, err := w.Write(b); err != nil {
		d.t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		d.t.Fatal(err)
	}
	d.objects[n] = &archive.Stream{Dict: dict, Raw: packed.Bytes()}
}

// add puts a new object into the file.
func (d *document) add(o archive.Object) archive.Ref {
	size, _ := d.reader.Trailer()["Size"].(int64)
	n := max(slices.Max(slices.Collect(maps.Keys(d.objects))), int(size)) + 2 // one is left for a cross-reference stream
	d.objects[n], d.touched[n] = o, true
	return archive.Ref(n)
}

// file is the embedded stream of an attached file.
func (d *document) file(name string) archive.Ref {
	d.t.Helper()
	for _, n := range slices.Sorted(maps.Keys(d.objects)) {
		if f, ok := d.objects[n].(archive.Dict); ok && f["Type"] == archive.Name("Filespec") {
			if s, _ := f["UF"].(archive.String); archive.Text(s) == name {
				return d.dict(f["EF"])["F"].(archive.Ref)
			}
		}
	}
	d.t.Fatalf("no file %s", name)
	return 0
}

// setFile exchanges the bytes of an attached file; mended sets its size and its
// checksum, too.
func (d *document) setFile(name string, b []byte, mended bool) {
	d.t.Helper()
	ref := d.file(name)
	d.set(ref, b)
	if mended {
		sum := md5.Sum(b)
		params := maps.Clone(d.dict(d.dict(ref)["Params"]))
		params["Size"], params["CheckSum"] = int64(len(b)), archive.String(sum[:])
		d.dict(ref)["Params"] = params
	}
}

// content changes what draws a page.
func (d *document) content(page int, change func([]byte) []byte) {
	d.t.Helper()
	ref := d.ownContent(page)
	was := d.data(ref)
	is := change(bytes.Clone(was))
	if bytes.Equal(was, is) {
		d.t.Fatalf("page %d: nothing changed", page+1)
	}
	d.set(ref, is)
}

var digit = regexp.MustCompile(`\([^()]*?[0-9]`)

// otherDigit changes the first digit that is shown in a run.
func otherDigit(t testing.TB, content []byte, mcid int) []byte {
	t.Helper()
	open := bytes.Index(content, []byte(fmt.Sprintf("<</MCID %d>>BDC", mcid)))
	if open < 0 {
		t.Fatalf("no run %d", mcid)
	}
	end := open + bytes.Index(content[open:], []byte("EMC"))
	at := digit.FindIndex(content[open:end])
	if at == nil {
		t.Fatalf("no digit in run %d", mcid)
	}
	c := &content[open+at[1]-1]
	*c = '0' + (*c-'0'+3)%10
	return content
}

// value finds a printed value with a digit: its page and run, from 0.
func (d *document) value(id string) (page, mcid int) {
	d.t.Helper()
	root, err := d.reader.Structure()
	if err != nil {
		d.t.Fatal(err)
	}
	e := find(root, id)
	if e == nil {
		d.t.Fatalf("no value %s", id)
	}
	for _, k := range e.Kids {
		if k.Run != nil {
			return k.Run.Page, k.Run.MCID
		}
	}
	d.t.Fatalf("value %s is not drawn", id)
	return 0, 0
}

func find(e *archive.Element, id string) *archive.Element {
	if e.ID == id {
		return e
	}
	for _, k := range e.Kids {
		if k.Element != nil {
			if f := find(k.Element, id); f != nil {
				return f
			}
		}
	}
	return nil
}

// font is a font of a page that shows digits.
func (d *document) font(page int) archive.Dict {
	d.t.Helper()
	fonts := d.dict(d.dict(d.page(page)["Resources"])["Font"])
	for _, name := range slices.Sorted(maps.Keys(fonts)) {
		f := d.dict(fonts[name])
		if bytes.Contains(d.data(f["ToUnicode"]), []byte("<35> <0035>")) {
			return f
		}
	}
	d.t.Fatal("no font with digits")
	return nil
}
