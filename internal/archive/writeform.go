package archive

// fieldNode is a node of the field tree: periods in a full field name separate
// the partial names of a field and its ancestors (ISO 32000-1, 12.7.3.2).
type fieldNode struct {
	name   string
	annot  int // index of the annotation of a terminal field
	kids   []*fieldNode
	object int
}

// add puts annotation i under the path of partial names.
func (f *fieldNode) add(path []string, i int) {
	for _, k := range f.kids {
		if k.name == path[0] && len(path) > 1 && len(k.kids) > 0 {
			k.add(path[1:], i)
			return
		}
	}
	k := &fieldNode{name: path[0], annot: i}
	f.kids = append(f.kids, k)
	if len(path) > 1 {
		k.add(path[1:], i)
	}
}

// signatureFlags say that the document has signature fields and may only be
// appended to (ISO 32000-1, table 219). They are set from the start, so that
// signing needs not touch the form.
const signatureFlags = 3

// fieldTree writes the form and all its fields.
func (w *writer) fieldTree(root *fieldNode) {
	w.numberFields(root)
	w.begin(w.form)
	w.text("<</SigFlags ")
	w.int(signatureFlags)
	w.text("/Fields")
	w.fieldRefs(root)
	w.text(">>")
	w.end()
	for _, k := range root.kids {
		w.fieldBranch(k, 0)
	}
}

func (w *writer) numberFields(f *fieldNode) {
	for _, k := range f.kids {
		if len(k.kids) == 0 {
			k.object = w.firstAnnot + k.annot
		} else {
			k.object = w.reserve(1)
		}
		w.numberFields(k)
	}
}

func (w *writer) fieldRefs(f *fieldNode) {
	list := make([]int, len(f.kids))
	for i, k := range f.kids {
		list[i] = k.object
	}
	w.refs(list)
}

// fieldBranch writes a field and those under it.
func (w *writer) fieldBranch(f *fieldNode, parent int) {
	if len(f.kids) == 0 {
		w.terminalField(f, parent)
		return
	}
	w.begin(f.object)
	w.fieldHead(f, parent)
	w.text("/Kids")
	w.fieldRefs(f)
	w.text(">>")
	w.end()
	for _, k := range f.kids {
		w.fieldBranch(k, f.object)
	}
}

func (w *writer) fieldHead(f *fieldNode, parent int) {
	w.text("<</T")
	w.textString(f.name)
	if parent > 0 {
		w.text("/Parent ")
		w.ref(parent)
	}
}

// terminalField writes an empty signature field with its widget in one
// object. The appearance paints nothing, but has to be there (ISO 19005-3, 6.3.3).
func (w *writer) terminalField(f *fieldNode, parent int) {
	field := w.tree.annots[f.annot].field
	appearance := w.reserve(1)
	r := field.Rect
	w.stream(appearance, "/Type/XObject/Subtype/Form/Resources<<>>/BBox[0 0 "+
		string(appendPoints(nil, r.X1-r.X0))+" "+string(appendPoints(nil, r.Y1-r.Y0))+"]", nil)
	w.begin(f.object)
	w.fieldHead(f, parent)
	w.text("/Type/Annot/Subtype/Widget/FT/Sig/F 4/Rect")
	w.rect(r)
	w.text("/P ")
	w.ref(w.firstPage + field.Page)
	w.text("/StructParent ")
	w.int(len(w.doc.Pages) + f.annot)
	w.text("/TU")
	w.textString(field.Text)
	w.text("/AP<</N ")
	w.ref(appearance)
	w.text(">>>>")
	w.end()
}
