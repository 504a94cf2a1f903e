package archive

import (
	"math"
	"strings"
)

// leafSize is how many entries go into one leaf of a number tree.
const leafSize = 128

// writeTree writes the structure tree root, the elements, and the tree that leads
// from pages and annotations to elements. The elements of a page stand behind its rows
// of tables, which name the most of them in the same words.
func (w *writer) writeTree() {
	annots := make(map[any]int, len(w.tree.annots))
	for i, a := range w.tree.annots {
		if a.link != nil {
			annots[a.link] = w.firstAnnot + i
		} else {
			annots[a.field] = w.firstAnnot + i
		}
	}
	arrays, page := w.reserve(len(w.doc.Pages)), 0
	for _, i := range w.order {
		if e := w.tree.nodes[i].Element; e.Role == RoleRow {
			for ; page < e.page(); page++ {
				w.owners(arrays, page)
			}
		}
		w.element(i, annots)
	}
	for ; page < len(w.doc.Pages); page++ {
		w.owners(arrays, page)
	}
	parents := w.parentTree(arrays)
	w.begin(w.structRoot)
	w.text("<</Type/StructTreeRoot/K ")
	w.ref(w.nodes[0])
	w.text("/ParentTree ")
	w.ref(parents)
	w.text("/ParentTreeNextKey ")
	w.int(len(w.doc.Pages) + len(w.tree.annots))
	w.text(">>")
	w.end()
}

// numberNodes numbers the elements level by level. The elements under one are
// then numbered in a row, elements of a kind lie together, and the tree
// compresses by a fifteenth better than in the order of reading.
func (w *writer) numberNodes() {
	n := len(w.tree.nodes)
	kids, end := w.tree.kids()
	first := w.reserve(n)
	w.nodes, w.under = make([]int, n), make([]int, n)
	w.order = append(make([]int, 0, n), 0)
	for k := range n {
		i := w.order[k]
		w.nodes[i], w.under[i] = first+k, first+len(w.order)
		from := 0
		if i > 0 {
			from = end[i-1]
		}
		w.order = append(w.order, kids[from:end[i]]...)
	}
}

// kids are the nodes under every node, one node after the other, and where those
// of each end.
func (t *tree) kids() (kids, end []int) {
	n := len(t.nodes)
	kids, end = make([]int, n-1), make([]int, n)
	for _, k := range t.nodes[1:] {
		end[k.up]++
	}
	sum := 0
	for i, count := range end {
		end[i] = sum // where they begin; filling moves it to their end
		sum += count
	}
	for i, k := range t.nodes[1:] {
		kids[end[k.up]] = i + 1
		end[k.up]++
	}
	return kids, end
}

// element writes one structure element. Type is left out, as it may be; what
// elements beside each other have in common comes first, so that it packs as one.
func (w *writer) element(i int, annots map[any]int) {
	n := &w.tree.nodes[i]
	w.begin(w.nodes[i])
	w.text("<</S/" + string(n.Role))
	w.attributes(n.Element)
	w.text("/P ")
	if n.up < 0 {
		w.ref(w.structRoot)
	} else {
		w.ref(w.nodes[n.up])
	}
	w.elementKids(n, w.under[i], annots)
	if d := n.Detail; d != nil {
		w.optional("/T", d.Title)
		w.optional("/Alt", d.Alt)
		w.optional("/ActualText", d.Actual)
		w.optional("/Lang", d.Lang)
	}
	w.text(">>")
	w.end()
}

func (w *writer) optional(key, value string) {
	if value != "" {
		w.text(key)
		w.textString(value)
	}
}

// idProperty is the user property that holds the identifier of an element. A key ID
// would need a tree of all identifiers beside the elements, which is twice as long.
const idProperty = "data.json"

// attributes of cells, figures and values (ISO 32000-1, 14.7.5 and 14.8.5).
func (w *writer) attributes(e *Element) {
	shaped := e.Role == RoleFigure || e.Scope != "" || e.ColSpan > 1 || e.RowSpan > 1
	if e.ID == "" && !shaped {
		return
	}
	w.text("/A")
	if e.ID == "" {
		w.shape(e)
		return
	}
	if shaped {
		w.text("[")
		w.shape(e)
	}
	w.text("<</O/UserProperties/P[")
	paths, _ := Several(e.ID, "")
	for _, p := range paths {
		w.text("<</N(" + idProperty + ")/V")
		w.arena = appendLiteral(w.arena, p)
		w.text(">>")
	}
	w.text("]>>")
	if shaped {
		w.text("]")
	}
}

// shape is where a figure stands, and how a cell lies in its table.
func (w *writer) shape(e *Element) {
	switch {
	case e.Role == RoleFigure:
		w.text("<</O/Layout/Placement/Block/BBox")
		w.rect(e.detail().BBox)
		w.text(">>")
	default:
		w.text("<</O/Table")
		if e.Scope != "" {
			w.text("/Scope/" + e.Scope)
		}
		if e.ColSpan > 1 {
			w.text("/ColSpan ")
			w.int(int(e.ColSpan))
		}
		if e.RowSpan > 1 {
			w.text("/RowSpan ")
			w.int(int(e.RowSpan))
		}
		w.text(">>")
	}
}

// elementKids writes /K, and /Pg for the page of the runs; a run on another
// page names that page itself. Elements are numbered from next on.
func (w *writer) elementKids(n *node, next int, annots map[any]int) {
	page := -1
	for _, k := range n.Kids {
		if k.Run != nil {
			page = k.Run.Page
			w.text("/Pg ")
			w.ref(w.firstPage + page)
			break
		}
	}
	if len(n.Kids) == 0 {
		return
	}
	// A field alone stands without brackets: that is where programs that judge what
	// was changed after a signature expect it, and nowhere else.
	if f := n.Kids[0].Field; f != nil && len(n.Kids) == 1 {
		w.text("/K")
		w.objectReference(annots[f], f.Page)
		return
	}
	// One run or element needs no brackets either.
	if k := n.Kids[0]; len(n.Kids) == 1 && (k.Element != nil || k.Run != nil) {
		w.text("/K ")
		if k.Element != nil {
			w.ref(next)
		} else {
			w.int(k.Run.MCID)
		}
		return
	}
	w.text("/K[")
	for i, k := range n.Kids {
		if i > 0 {
			w.text(" ")
		}
		switch {
		case k.Element != nil:
			w.ref(next)
			next++
		case k.Run != nil && k.Run.Page == page:
			w.int(k.Run.MCID)
		case k.Run != nil:
			w.text("<</Type/MCR/Pg ")
			w.ref(w.firstPage + k.Run.Page)
			w.text("/MCID ")
			w.int(k.Run.MCID)
			w.text(">>")
		case k.Link != nil:
			w.objectReference(annots[k.Link], k.Link.Page)
		case k.Field != nil:
			w.objectReference(annots[k.Field], k.Field.Page)
		}
	}
	w.text("]")
}

func (w *writer) objectReference(object, page int) {
	w.text("<</Type/OBJR/Pg ")
	w.ref(w.firstPage + page)
	w.text("/Obj ")
	w.ref(object)
	w.text(">>")
}

// page is the page of the first run in an element, or -1.
func (e *Element) page() int {
	for _, k := range e.Kids {
		switch {
		case k.Run != nil:
			return k.Run.Page
		case k.Element != nil:
			if page := k.Element.page(); page >= 0 {
				return page
			}
		}
	}
	return -1
}

// owners writes the elements of the runs of a page, in order.
func (w *writer) owners(arrays, page int) {
	w.begin(arrays + page)
	w.text("[")
	for k, n := range w.tree.parent[page] {
		if k > 0 {
			w.text(" ")
		}
		w.ref(w.nodes[n])
	}
	w.text("]")
	w.end()
}

// parentTree writes the tree from pages (their runs, in order) and annotations
// to elements; its keys are page numbers, then annotations.
func (w *writer) parentTree(arrays int) int {
	values := make([]int, 0, len(w.doc.Pages)+len(w.tree.annots))
	for i := range w.doc.Pages {
		values = append(values, arrays+i)
	}
	for _, a := range w.tree.annots {
		values = append(values, w.nodes[a.owner])
	}
	return w.numberTree(values)
}

// numberTree writes a tree of two levels from 0, 1, 2 … to objects and returns its
// root. A tree that fits into one leaf is its own root, without limits.
func (w *writer) numberTree(values []int) int {
	root := w.reserve(1)
	if len(values) <= leafSize {
		w.begin(root)
		w.leaf("<<", 0, values)
		return root
	}
	var kids []int
	for first := 0; first < len(values); first += leafSize {
		end := min(first+leafSize, len(values))
		n := w.reserve(1)
		kids = append(kids, n)
		w.begin(n)
		w.text("<</Limits[")
		w.int(first)
		w.text(" ")
		w.int(end - 1)
		w.leaf("]", first, values[first:end])
	}
	w.begin(root)
	w.text("<</Kids")
	w.refs(kids)
	w.text(">>")
	w.end()
	return root
}

func (w *writer) leaf(open string, first int, values []int) {
	w.text(open + "/Nums[")
	for i, v := range values {
		w.int(first + i)
		w.text(" ")
		w.ref(v)
		w.text("\n")
	}
	w.text("]>>")
	w.end()
}

// writeAnnots writes links and signature fields.
func (w *writer) writeAnnots() {
	fields := &fieldNode{}
	for i, a := range w.tree.annots {
		if a.field != nil {
			fields.add(strings.Split(a.field.Name, "."), i)
		}
	}
	if len(fields.kids) > 0 {
		w.form = w.reserve(1)
		w.fieldTree(fields)
	}
	for i, a := range w.tree.annots {
		if a.link != nil {
			w.writeLink(i, a.link)
		}
	}
}

// writeLink writes the area of a link. Nothing is drawn of it, so that whole
// points do, outwards.
func (w *writer) writeLink(i int, l *Link) {
	w.begin(w.firstAnnot + i)
	w.text("<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect")
	r := l.Rect
	w.rect(Rect{math.Floor(r.X0), math.Floor(r.Y0), math.Ceil(r.X1), math.Ceil(r.Y1)})
	w.text("/P ")
	w.ref(w.firstPage + l.Page)
	w.text("/StructParent ")
	w.int(len(w.doc.Pages) + i)
	w.text("/Contents")
	w.textString(l.Text)
	w.destination(l.To)
	w.text(">>")
	w.end()
}

func (w *writer) destination(t Target) {
	w.text("/Dest[")
	w.ref(w.firstPage + t.Page)
	w.text("/XYZ null ")
	w.points(math.Ceil(t.Top))
	w.text(" null]")
}
