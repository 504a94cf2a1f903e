package archive

// SignatureField is a signature field as found in a file.
type SignatureField struct {
	Name      string // full name
	Object    int    // of the field, which is its widget too
	Page      int    // zero-based
	Rect      Rect
	Text      string          // tooltip
	Signature *SignatureValue // nil while the field is empty
}

// SignatureValue is where and what a signature dictionary is.
type SignatureValue struct {
	Object int
	Offset int64 // of "n 0 obj" in the file
	Dict   Dict
	// ByteRange is as written; the reader does not judge it.
	ByteRange []int64
	Contents  []byte   // the signature with its padding
	Gap       [2]int64 // offsets of the string Contents, delimiters included
}

// maxFields bounds the fields of a form.
const maxFields = 1000

// Fields returns all signature fields in the order of the form. A field of
// another type is an error.
func (r *Reader) Fields() ([]SignatureField, error) {
	c, err := r.Catalog()
	if err != nil {
		return nil, err
	}
	form, err := r.dict(c["AcroForm"], "form")
	if err != nil {
		return nil, err
	}
	top, err := r.array(form["Fields"], "form fields")
	if err != nil {
		return nil, err
	}
	pages, err := r.Pages()
	if err != nil {
		return nil, err
	}
	w := fieldWalk{r: r, pageOf: map[Ref]int{}, seen: map[Ref]bool{}}
	for i, p := range pages {
		w.pageOf[Ref(p.Object)] = i
	}
	for _, o := range top {
		if err := w.walk(o, "", 0); err != nil {
			return nil, err
		}
	}
	return w.list, nil
}

type fieldWalk struct {
	r      *Reader
	pageOf map[Ref]int
	seen   map[Ref]bool
	list   []SignatureField
}

func (w *fieldWalk) walk(o Object, prefix string, depth int) error {
	ref, ok := o.(Ref)
	if !ok || w.seen[ref] || depth > maxTreeDepth || len(w.list) == maxFields {
		return malformed(0, "form is no tree, or too large")
	}
	w.seen[ref] = true
	d, err := w.r.dict(ref, "field")
	if err != nil {
		return err
	}
	name := prefix + text(d["T"])
	if d["Kids"] == nil {
		return w.terminal(ref, d, name)
	}
	kids, err := w.r.array(d["Kids"], "fields")
	if err != nil {
		return err
	}
	for _, k := range kids {
		if err := w.walk(k, name+".", depth+1); err != nil {
			return err
		}
	}
	return nil
}

func (w *fieldWalk) terminal(ref Ref, d Dict, name string) error {
	if d["FT"] != Name("Sig") || d["Subtype"] != Name("Widget") {
		return inObject(int(ref), foreign("field %q is no signature field with its widget", name))
	}
	pg, _ := d["P"].(Ref)
	page, ok := w.pageOf[pg]
	if !ok {
		return inObject(int(ref), malformed(0, "field %q is on no page", name))
	}
	f := SignatureField{Name: name, Object: int(ref), Page: page, Rect: rectOf(d["Rect"]), Text: text(d["TU"])}
	if d["V"] != nil {
		var err error
		if f.Signature, err = w.r.signature(d["V"]); err != nil {
			return err
		}
	}
	w.list = append(w.list, f)
	return nil
}

// signature reads a signature dictionary, which has to stand in the file as an
// object of its own, so that its place can be known.
func (r *Reader) signature(o Object) (*SignatureValue, error) {
	ref, ok := o.(Ref)
	p := r.places[int(ref)]
	if !ok || p.offset == 0 {
		return nil, foreign("signature is no object of its own")
	}
	n, v, src, err := openObject(r.src, int(p.offset), "Contents", maxSignature)
	if err != nil {
		return nil, err
	}
	d, ok := v.(Dict)
	contents, okContents := d["Contents"].(String)
	if !ok || !okContents || n != int(ref) {
		return nil, inObject(int(ref), malformed(int(p.offset), "signature without contents"))
	}
	s := &SignatureValue{Object: int(ref), Offset: p.offset, Dict: d, Contents: []byte(contents),
		Gap: [2]int64{int64(src.span[0]), int64(src.span[1])}}
	ranges, _ := d["ByteRange"].(Array)
	for _, n := range ranges {
		s.ByteRange = append(s.ByteRange, intOr(n, -1))
	}
	return s, nil
}
