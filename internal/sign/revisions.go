package sign

import (
	"reflect"
	"slices"

	"asleft/internal/archive"
)

// Revision is one revision of a file and what it did to the one before.
type Revision struct {
	Number int      // from 1
	End    int64    // offset behind its last byte
	Signed []string // names of the fields that it signs
	// Noted are changes that no signature needs, but that programs make when they
	// sign: who produced the file last and when, which version of the format it is
	// in, with which extensions. They show on no page.
	Noted []Change
	// Other are changes that nothing explains, in the order of their objects. In
	// the first revision, which changes nothing, there are none.
	Other []Change
}

// Change is an object that a revision added, replaced or deleted.
type Change struct {
	Object int
	What   What
	Kind   string // of the object: its /Type, else /Subtype, else empty
}

// What happened to an object.
type What string

const (
	Added    What = "added"
	Replaced What = "replaced"
	Deleted  What = "deleted"
)

// revisions compares every revision with the one before. Each is read as if the
// file ended there, so that nothing later can change what is found.
func revisions(file []byte, newest *archive.Reader) ([]Revision, error) {
	ends := newest.Revisions()
	list := []Revision{{Number: 1, End: ends[0]}}
	if len(ends) == 1 {
		return list, nil
	}
	old, err := openForm(file[:ends[0]])
	if err != nil {
		return nil, err
	}
	for i := 1; i < len(ends); i++ {
		now, err := openForm(file[:ends[i]])
		if err != nil {
			return nil, err
		}
		c := comparison{old: old, now: now, explained: map[int]bool{}, noted: map[int]bool{}}
		c.signatures()
		c.document()
		v := Revision{Number: i + 1, End: ends[i], Signed: c.signed}
		c.changes(i, &v)
		list = append(list, v)
		old = now
	}
	return list, nil
}

// form is a file with its fields.
type form struct {
	*archive.Reader
	fields []archive.SignatureField
}

func openForm(file []byte) (form, error) {
	r, err := archive.Open(file)
	if err != nil {
		return form{}, err
	}
	fields, err := r.Fields()
	return form{r, fields}, err
}

// comparison explains what changed by what was signed.
type comparison struct {
	old, now  form
	signed    []string
	explained map[int]bool
	noted     map[int]bool
}

// signatures finds the fields that were signed. A signature explains its field
// with value and appearance, the signature dictionary and the objects of the new
// appearance; the first one of a file explains the tooltip too.
func (c *comparison) signatures() {
	for i := range c.now.fields {
		f := &c.now.fields[i]
		if f.Signature == nil || !c.wasEmpty(f) {
			continue
		}
		c.signed = append(c.signed, f.Name)
		c.explain(f)
	}
}

// wasEmpty tells whether a field was there before, without signature.
func (c *comparison) wasEmpty(f *archive.SignatureField) bool {
	for i := range c.old.fields {
		o := &c.old.fields[i]
		if o.Name == f.Name && o.Object == f.Object {
			return o.Signature == nil
		}
	}
	return false
}

// wasSigned tells whether any field was signed before.
func (c *comparison) wasSigned() bool {
	return slices.ContainsFunc(c.old.fields, func(f archive.SignatureField) bool { return f.Signature != nil })
}

func (c *comparison) explain(f *archive.SignatureField) {
	was, _ := object(c.old, f.Object).(archive.Dict)
	is, _ := object(c.now, f.Object).(archive.Dict)
	keys := []archive.Name{"V", "AP", "M"} // M is the day of the change
	if !c.wasSigned() {
		keys = append(keys, "TU")
	}
	c.explained[f.Object] = sameBut(was, is, keys...)
	if object(c.old, f.Signature.Object) == nil {
		c.explained[f.Signature.Object] = true
	}
	if reference := is["AP"]; !reflect.DeepEqual(reference, was["AP"]) {
		c.drawing(reference, 0)
	}
}

// maxDrawing bounds how deep the objects of an appearance are followed.
const maxDrawing = 16

// drawing explains the new objects that an appearance is made of.
func (c *comparison) drawing(o archive.Object, depth int) {
	if depth > maxDrawing {
		return
	}
	switch v := o.(type) {
	case archive.Ref:
		n := int(v)
		if c.explained[n] || object(c.old, n) != nil {
			return
		}
		c.explained[n] = true
		c.drawing(object(c.now, n), depth+1)
	case archive.Array:
		for _, e := range v {
			c.drawing(e, depth+1)
		}
	case archive.Dict:
		for _, e := range v {
			c.drawing(e, depth+1)
		}
	case *archive.Stream:
		c.drawing(v.Dict, depth+1)
	}
}

// document looks at what stands for the document as a whole: the catalog, which
// the first certification changes, and where programs put their names.
func (c *comparison) document() {
	root, _ := c.now.Trailer()["Root"].(archive.Ref)
	was, _ := object(c.old, int(root)).(archive.Dict)
	is, _ := object(c.now, int(root)).(archive.Dict)
	if c.old.Trailer()["Root"] != root || !c.certified(was, is) {
		return
	}
	switch {
	case sameBut(was, is, "Perms"):
		c.explained[int(root)] = true
	case sameBut(was, is, "Perms", "Extensions", "Version"):
		c.noted[int(root)] = true
	}
	info, _ := c.now.Trailer()["Info"].(archive.Ref)
	wasInfo, _ := object(c.old, int(info)).(archive.Dict)
	isInfo, _ := object(c.now, int(info)).(archive.Dict)
	if c.old.Trailer()["Info"] == info && sameTexts(wasInfo, isInfo, "Producer", "ModDate") {
		c.noted[int(info)] = true
	}
	if m, ok := is["Metadata"].(archive.Ref); ok && was["Metadata"] == m {
		c.noted[int(m)] = true
	}
}

// certified tells whether the permissions are as before, or are the first
// certification, by a signature made now.
func (c *comparison) certified(was, is archive.Dict) bool {
	if reflect.DeepEqual(was["Perms"], is["Perms"]) {
		return true
	}
	perms, _ := resolveDict(c.now.Reader, is["Perms"])
	ref, _ := perms["DocMDP"].(archive.Ref)
	return was["Perms"] == nil && len(perms) == 1 && !c.wasSigned() &&
		slices.ContainsFunc(c.now.fields, func(f archive.SignatureField) bool {
			return f.Signature != nil && f.Signature.Object == int(ref) && slices.Contains(c.signed, f.Name)
		})
}

// changes sorts the changes of revision i that no signature explains.
func (c *comparison) changes(i int, v *Revision) {
	objects := c.now.RevisionObjects(i)
	v.Other = c.trailer()
	for _, n := range objects.Written {
		was, is := object(c.old, n), object(c.now, n)
		if c.explained[n] || c.inner(n, objects.Stream) || was != nil && reflect.DeepEqual(was, is) {
			continue
		}
		change := Change{n, Replaced, kind(is)}
		if was == nil {
			change.What = Added
		}
		if c.noted[n] {
			v.Noted = append(v.Noted, change)
			continue
		}
		v.Other = append(v.Other, change)
	}
	for _, n := range objects.Deleted {
		if was := object(c.old, n); was != nil {
			v.Other = append(v.Other, Change{n, Deleted, kind(was)})
		}
	}
	slices.SortStableFunc(v.Other, func(a, b Change) int { return a.Object - b.Object })
}

// inner tells whether an object is new and only holds others, which are looked at
// themselves: an object stream, or the cross-reference stream.
func (c *comparison) inner(n, references int) bool {
	if object(c.old, n) != nil {
		return false
	}
	s, ok := object(c.now, n).(*archive.Stream)
	return ok && (n == references || s.Dict["Type"] == archive.Name("ObjStm"))
}

// trailer looks for another catalog or document information: both may be made
// of objects that were there before.
func (c *comparison) trailer() []Change {
	var list []Change
	for _, key := range []archive.Name{"Root", "Info"} {
		if ref, ok := c.now.Trailer()[key].(archive.Ref); c.old.Trailer()[key] != c.now.Trailer()[key] {
			if !ok {
				ref = 0
			}
			list = append(list, Change{int(ref), Replaced, "trailer " + string(key)})
		}
	}
	return list
}

// sameBut compares two dictionaries but for some keys.
func sameBut(a, b archive.Dict, keys ...archive.Name) bool {
	for _, pair := range [][2]archive.Dict{{a, b}, {b, a}} {
		for k, v := range pair[0] {
			if !slices.Contains(keys, k) && !reflect.DeepEqual(v, pair[1][k]) {
				return false
			}
		}
	}
	return a != nil && b != nil
}

// sameTexts compares the texts of two dictionaries but for some keys. Programs
// write the same text in other encodings.
func sameTexts(a, b archive.Dict, but ...archive.Name) bool {
	for _, d := range []archive.Dict{a, b} {
		for k := range d {
			x, isText := a[k].(archive.String)
			y, isTextToo := b[k].(archive.String)
			if !slices.Contains(but, k) && (!isText || !isTextToo || archive.Text(x) != archive.Text(y)) {
				return false
			}
		}
	}
	return a != nil && b != nil
}

// object is an object, nil where it is not there or cannot be read.
func object(f form, n int) archive.Object {
	o, err := f.Object(n)
	if err != nil {
		return nil
	}
	return o
}

func kind(o archive.Object) string {
	var d archive.Dict
	switch v := o.(type) {
	case archive.Dict:
		d = v
	case *archive.Stream:
		d = v.Dict
	}
	for _, key := range []archive.Name{"Type", "Subtype"} {
		if n, ok := d[key].(archive.Name); ok {
			return string(n)
		}
	}
	return ""
}
