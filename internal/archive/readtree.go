package archive

import (
	"strings"
)

// Structure returns the structure tree: the element of role Document, with
// identifiers, texts, attributes, runs, links and fields as they were declared.
func (r *Reader) Structure() (*Element, error) {
	w, err := r.newTreeWalk()
	if err != nil {
		return nil, err
	}
	return w.document()
}

// document reads the whole tree.
func (w *treeWalk) document() (*Element, error) {
	if w.root == nil {
		return nil, foreign("no structure")
	}
	e, err := w.element(w.root["K"], 0)
	if err == nil && e.Role != RoleDocument {
		err = foreign("structure does not begin with one Document element")
	}
	return e, err
}

// treeWalk walks over a structure tree.
type treeWalk struct {
	r      *Reader
	root   Dict
	pageOf map[Ref]int // page index by page object
	fields map[Ref]SignatureField
	seen   map[Ref]bool
	// what the walk finds: the element that owns each run, by page and
	// identifier (0 if none), each annotation, each key ID, and how many elements
	// have their identifier as a property.
	runs       [][]Ref
	annots     map[Ref]Ref
	ids        map[string][]Ref
	properties int
}

func (r *Reader) newTreeWalk() (*treeWalk, error) {
	c, err := r.Catalog()
	if err != nil {
		return nil, err
	}
	root, err := r.dict(c["StructTreeRoot"], "structure tree root")
	if err != nil {
		return nil, err
	}
	pages, err := r.Pages()
	if err != nil {
		return nil, err
	}
	w := &treeWalk{r: r, root: root, pageOf: map[Ref]int{}, fields: map[Ref]SignatureField{},
		seen: map[Ref]bool{}, runs: make([][]Ref, len(pages)), annots: map[Ref]Ref{}, ids: map[string][]Ref{}}
	for i, p := range pages {
		w.pageOf[Ref(p.Object)] = i
	}
	fields, err := r.Fields()
	for _, f := range fields {
		w.fields[Ref(f.Object)] = f
	}
	return w, err
}

func (w *treeWalk) element(o Object, depth int) (*Element, error) {
	ref, ok := o.(Ref)
	if !ok || w.seen[ref] || depth > maxTreeDepth {
		return nil, malformed(0, "structure tree is no tree")
	}
	w.seen[ref] = true
	d, err := w.r.dict(ref, "structure element")
	if err != nil {
		return nil, err
	}
	role, _ := d["S"].(Name)
	id, _ := d["ID"].(String)
	e := &Element{Role: roleOf([]byte(role)), ID: string(id), Detail: &Detail{Title: text(d["T"]), Alt: text(d["Alt"]),
		Actual: text(d["ActualText"]), Lang: text(d["Lang"])}}
	if e.Role == "" {
		return nil, inObject(int(ref), foreign("structure element of role %q", role))
	}
	if e.ID != "" {
		w.ids[e.ID] = append(w.ids[e.ID], ref)
	}
	if err := w.attributes(e, d["A"]); err != nil {
		return nil, inObject(int(ref), err)
	}
	if *e.Detail == (Detail{}) {
		e.Detail = nil
	}
	page := -1
	if pg, ok := d["Pg"].(Ref); ok {
		if page, ok = w.pageOf[pg]; !ok {
			return nil, inObject(int(ref), malformed(0, "element on a page that is none"))
		}
	}
	kids, err := w.r.Resolve(d["K"])
	if err != nil {
		return nil, err
	}
	list, ok := kids.(Array)
	if !ok && kids != nil {
		list = Array{d["K"]}
	}
	for _, k := range list {
		kid, err := w.kid(k, ref, page, depth)
		if err != nil {
			return nil, inObject(int(ref), err)
		}
		e.Kids = append(e.Kids, kid)
	}
	return e, nil
}

// attributes reads the attributes of cells, figures and values.
func (w *treeWalk) attributes(e *Element, o Object) error {
	o, err := w.r.Resolve(o)
	if err != nil {
		return err
	}
	list, ok := o.(Array)
	if !ok {
		list = Array{o}
	}
	owners := map[Name]bool{}
	for _, o := range list {
		a, err := w.r.dict(o, "attributes")
		if err != nil {
			return err
		}
		if a == nil {
			continue
		}
		owner, _ := a["O"].(Name)
		if owners[owner] {
			return foreign("attributes of %q twice", owner)
		}
		owners[owner] = true
		if err := w.attribute(e, owner, a); err != nil {
			return err
		}
	}
	return nil
}

// attribute reads the attributes of one owner.
func (w *treeWalk) attribute(e *Element, owner Name, a Dict) error {
	switch owner {
	case "UserProperties":
		return w.property(e, a)
	case "Table":
		scope, _ := a["Scope"].(Name)
		e.Scope, e.ColSpan, e.RowSpan = string(scope), spanOf(a["ColSpan"]), spanOf(a["RowSpan"])
	case "Layout":
		e.Detail.BBox = rectOf(a["BBox"])
	default:
		return foreign("attributes of %q", owner)
	}
	return nil
}

// property reads the identifier of an element from its user properties: a path in
// each. Files of version 0.1.0 have it under the key ID.
func (w *treeWalk) property(e *Element, a Dict) error {
	list, err := w.r.array(a["P"], "user properties")
	if err != nil {
		return err
	}
	if len(list) == 0 || len(list) > maxSeveral || e.ID != "" {
		return foreign("%d user properties", len(list))
	}
	var paths []string
	for _, o := range list {
		p, err := w.r.dict(o, "user property")
		if err != nil {
			return err
		}
		id, _ := p["V"].(String)
		if n, _ := p["N"].(String); n != idProperty || id == "" || strings.Contains(string(id), " ") {
			return foreign("user property %q", n)
		}
		paths = append(paths, string(id))
	}
	e.ID = strings.Join(paths, " ")
	w.properties++
	return nil
}

// spanOf is a number of columns or rows; one that is out of all bounds stays so.
func spanOf(o Object) int32 { return int32(max(-1, min(intOr(o, 0), maxSpan+1))) }

// kid reads one kid: a number is a run on the element's page, a reference an
// element, and a dictionary a run on another page or an annotation.
func (w *treeWalk) kid(o Object, owner Ref, page, depth int) (Kid, error) {
	switch v := o.(type) {
	case int64:
		if page < 0 || v < 0 || v > maxRuns {
			return Kid{}, malformed(0, "run without a page")
		}
		w.own(owner, page, int(v))
		return Kid{Run: &Run{page, int(v)}}, nil
	case Ref:
		e, err := w.element(v, depth+1)
		return Kid{Element: e}, err
	case Dict:
		pg, _ := v["Pg"].(Ref)
		on, ok := w.pageOf[pg]
		if !ok {
			return Kid{}, malformed(0, "kid on a page that is none")
		}
		if _, isInt := v["MCID"].(int64); isInt && v["Type"] == Name("MCR") {
			return w.kid(v["MCID"], owner, on, depth)
		}
		if obj, ok := v["Obj"].(Ref); ok && v["Type"] == Name("OBJR") {
			w.annots[obj] = owner
			return w.annotation(obj, on)
		}
	}
	return Kid{}, foreign("kid %v", o)
}

// own notes the owner of a run; a run with two owners is found by the checks of
// the tree itself.
func (w *treeWalk) own(owner Ref, page, mcid int) {
	for len(w.runs[page]) <= mcid {
		w.runs[page] = append(w.runs[page], 0)
	}
	w.runs[page][mcid] = owner
}

func (w *treeWalk) annotation(ref Ref, page int) (Kid, error) {
	d, err := w.r.dict(ref, "annotation")
	if err != nil {
		return Kid{}, err
	}
	switch d["Subtype"] {
	case Name("Link"):
		l := &Link{Page: page, Rect: rectOf(d["Rect"]), Text: text(d["Contents"])}
		dest, err := w.r.array(d["Dest"], "destination")
		if err != nil || len(dest) != 5 {
			return Kid{}, foreign("link without an explicit destination")
		}
		to, _ := dest[0].(Ref)
		var ok bool
		if l.To.Page, ok = w.pageOf[to]; !ok {
			return Kid{}, malformed(0, "link to a page that is none")
		}
		l.To.Top = coordinate(dest[3])
		return Kid{Link: l}, nil
	case Name("Widget"):
		f, ok := w.fields[ref]
		if !ok {
			return Kid{}, foreign("field that is not in the form")
		}
		return Kid{Field: &Field{Name: f.Name, Page: page, Rect: f.Rect, Text: f.Text}}, nil
	}
	return Kid{}, foreign("annotation %v", d["Subtype"])
}

// Value is a printed value that can be found by its identifier.
type Value struct {
	ID     string
	Role   Role
	Text   string // what the marked runs show, by the meaning of their codes
	Actual string // replacement text, where marks are drawn
	Page   int    // zero-based page of the first run; -1 if nothing is drawn
}

// Values returns every element with an identifier, in reading order, with the
// text of all runs in it and under it.
func (r *Reader) Values() ([]Value, error) {
	root, err := r.Structure()
	if err != nil {
		return nil, err
	}
	return r.texts().values(root, nil)
}

func (t *textReader) values(e *Element, list []Value) ([]Value, error) {
	if e.ID != "" {
		v := Value{Role: e.Role, Actual: e.detail().Actual, Page: -1}
		var b strings.Builder
		if err := t.gather(e, &b, &v.Page); err != nil {
			return nil, err
		}
		paths, texts := Several(e.ID, b.String())
		for i := range paths {
			v.ID, v.Text = paths[i], texts[i]
			list = append(list, v)
		}
	}
	for _, k := range e.Kids {
		if k.Element == nil {
			continue
		}
		var err error
		if list, err = t.values(k.Element, list); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// TextOf is the text of all runs of an element and what stands under it.
func (r *Reader) TextOf(e *Element) (string, error) {
	var b strings.Builder
	page := -1
	err := r.texts().gather(e, &b, &page)
	return b.String(), err
}

// gather appends the text of all runs of e and its descendants.
func (t *textReader) gather(e *Element, b *strings.Builder, page *int) error {
	for _, k := range e.Kids {
		if k.Element != nil {
			if err := t.gather(k.Element, b, page); err != nil {
				return err
			}
		}
		if k.Run == nil {
			continue
		}
		if *page < 0 {
			*page = k.Run.Page
		}
		runs, err := t.page(k.Run.Page)
		if err != nil {
			return err
		}
		b.WriteString(runs[k.Run.MCID])
	}
	return nil
}
