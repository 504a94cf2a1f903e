package archive

// writeOutlines writes the bookmarks: the first level open, those under it
// closed, so that a package of many cells opens as a short list.
func (w *writer) writeOutlines() {
	if len(w.doc.Outline) == 0 {
		return
	}
	w.outlines = w.reserve(1)
	first, last := w.bookmarks(w.doc.Outline, w.outlines)
	w.begin(w.outlines)
	w.text("<</Type/Outlines/First ")
	w.ref(first)
	w.text("/Last ")
	w.ref(last)
	w.text("/Count ")
	w.int(len(w.doc.Outline))
	w.text(">>")
	w.end()
}

// bookmarks writes one level and what is under it.
func (w *writer) bookmarks(list []Bookmark, parent int) (first, last int) {
	first = w.reserve(len(list))
	last = first + len(list) - 1
	for i, b := range list {
		var kidFirst, kidLast int
		if len(b.Kids) > 0 {
			kidFirst, kidLast = w.bookmarks(b.Kids, first+i)
		}
		w.begin(first + i)
		w.text("<</Title")
		w.textString(b.Text)
		w.text("/Parent ")
		w.ref(parent)
		if i > 0 {
			w.text("/Prev ")
			w.ref(first + i - 1)
		}
		if i < len(list)-1 {
			w.text("/Next ")
			w.ref(first + i + 1)
		}
		if kidFirst > 0 {
			w.text("/First ")
			w.ref(kidFirst)
			w.text("/Last ")
			w.ref(kidLast)
			w.text("/Count ")
			// Negative: closed, with this many to show when opened; what is under
			// those is closed too and does not count.
			w.int(-len(b.Kids))
		}
		w.destination(b.To)
		w.text(">>")
		w.end()
	}
	return first, last
}
