package archive

import (
	"strconv"
	"strings"
	"unicode/utf16"
)

// PageObject is a page as found in a file.
type PageObject struct {
	Object        int // its object number
	Label         string
	Width, Height float64 // in points
	Dict          Dict
}

// Pages returns the pages in order.
func (r *Reader) Pages() ([]PageObject, error) {
	if r.pages != nil {
		return r.pages, nil
	}
	c, err := r.Catalog()
	if err != nil {
		return nil, err
	}
	w := pageWalk{r: r, seen: map[int]bool{}}
	if err := w.walk(c["Pages"], 0); err != nil {
		return nil, err
	}
	labels := map[int]Dict{}
	err = r.eachNumber(c["PageLabels"], func(n int, o Object) error {
		d, err := r.dict(o, "page label")
		labels[n] = d
		return err
	})
	if err != nil {
		return nil, err
	}
	labelPages(w.list, labels)
	r.pages = w.list
	return r.pages, nil
}

// pageWalk walks over a page tree.
type pageWalk struct {
	r    *Reader
	seen map[int]bool
	list []PageObject
}

func (w *pageWalk) walk(o Object, depth int) error {
	ref, ok := o.(Ref)
	if !ok || w.seen[int(ref)] || depth > maxTreeDepth {
		return malformed(0, "page tree is no tree")
	}
	w.seen[int(ref)] = true
	d, err := w.r.dict(ref, "page")
	if err != nil {
		return err
	}
	switch d["Type"] {
	case Name("Pages"):
		kids, err := w.r.array(d["Kids"], "page tree")
		for _, k := range kids {
			if err := w.walk(k, depth+1); err != nil {
				return err
			}
		}
		return err
	case Name("Page"):
		return w.page(int(ref), d)
	}
	return inObject(int(ref), foreign("page tree with %v", d["Type"]))
}

func (w *pageWalk) page(n int, d Dict) error {
	if len(w.list) == maxPages {
		return overLimit(0, "more than %d pages", maxPages)
	}
	box, err := w.r.array(d["MediaBox"], "page size")
	if err != nil || len(box) != 4 {
		return inObject(n, foreign("page without a size of its own"))
	}
	w.list = append(w.list, PageObject{Object: n, Width: number(box[2]), Height: number(box[3]), Dict: d})
	return nil
}

// labelPages spells out the page labels (ISO 32000-1, 12.4.2), decimal or none.
func labelPages(pages []PageObject, labels map[int]Dict) {
	var d Dict
	first := 0
	for i := range pages {
		if l := labels[i]; l != nil {
			d, first = l, i
		}
		prefix, _ := d["P"].(String)
		pages[i].Label = Text(prefix)
		if d["S"] == Name("D") {
			pages[i].Label += strconv.FormatInt(intOr(d["St"], 1)+int64(i-first), 10)
		}
	}
}

// content is the decoded content of a page: of one stream, or of several, one
// after the other.
func (r *Reader) content(p PageObject) ([]byte, error) {
	v, err := r.Resolve(p.Dict["Contents"])
	if err != nil {
		return nil, err
	}
	list, several := v.(Array)
	if !several {
		list = Array{p.Dict["Contents"]}
	}
	if len(list) > maxContents {
		return nil, overLimit(0, "content of a page in more than %d streams", maxContents)
	}
	var out []byte
	for _, o := range list {
		_, b, err := r.stream(o, "page content")
		if err != nil || !several {
			return b, err
		}
		out = append(append(out, b...), '\n')
	}
	return out, nil
}

// maxContents bounds the streams of a page.
const maxContents = 64

// eachNumber calls f for each entry of a number tree, in order.
func (r *Reader) eachNumber(o Object, f func(n int, o Object) error) error {
	return r.eachEntry(o, "Nums", map[int]bool{}, 0, func(key, value Object) error {
		n, ok := key.(int64)
		if !ok || n < 0 || n > maxObjects {
			return malformed(0, "key of a number tree")
		}
		return f(int(n), value)
	})
}

// eachName calls f for each entry of a name tree, in order.
func (r *Reader) eachName(o Object, f func(name string, o Object) error) error {
	return r.eachEntry(o, "Names", map[int]bool{}, 0, func(key, value Object) error {
		s, ok := key.(String)
		if !ok {
			return malformed(0, "key of a name tree")
		}
		return f(string(s), value)
	})
}

// eachEntry walks over a name or number tree (ISO 32000-1, 7.9.6 and 7.9.7).
func (r *Reader) eachEntry(o Object, list Name, seen map[int]bool, depth int, f func(key, value Object) error) error {
	if ref, ok := o.(Ref); ok {
		if seen[int(ref)] {
			return inObject(int(ref), malformed(0, "tree is no tree"))
		}
		seen[int(ref)] = true
	}
	if depth > maxTreeDepth {
		return overLimit(0, "tree deeper than %d", maxTreeDepth)
	}
	d, err := r.dict(o, "tree node")
	if err != nil || d == nil {
		return err
	}
	kids, err := r.array(d["Kids"], "tree node")
	if err != nil {
		return err
	}
	for _, k := range kids {
		if err := r.eachEntry(k, list, seen, depth+1, f); err != nil {
			return err
		}
	}
	entries, err := r.array(d[list], "tree leaf")
	if err != nil {
		return err
	}
	if len(entries)%2 != 0 {
		return malformed(0, "tree leaf with half an entry")
	}
	for ; len(entries) > 0; entries = entries[2:] {
		if err := f(entries[0], entries[1]); err != nil {
			return err
		}
	}
	return nil
}

// docEncoding are the characters of PDFDocEncoding from 0x80 on that are not those
// of Latin-1 (ISO 32000-1, D.2; values from memory).
var docEncoding = []rune("•†‡…—–ƒ⁄‹›−‰„“”‘’‚™ﬁﬂŁŒŠŸŽıłœšž\uFFFD€")

const docStart = 0x80

// Text is the text of a text string: UTF-16 where it begins with its byte-order
// mark, else PDFDocEncoding.
func Text(s String) string {
	if !strings.HasPrefix(string(s), "\xFE\xFF") {
		runes := make([]rune, len(s))
		for i := range len(s) {
			runes[i] = rune(s[i])
			if n := int(s[i]) - docStart; n >= 0 && n < len(docEncoding) {
				runes[i] = docEncoding[n]
			}
		}
		return string(runes)
	}
	units := make([]uint16, 0, len(s)/2)
	for i := 2; i+1 < len(s); i += 2 {
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	return string(utf16.Decode(units))
}

// text is the text of a dictionary entry, empty if it is no string.
func text(o Object) string {
	s, _ := o.(String)
	return Text(s)
}

func rectOf(o Object) Rect {
	a, ok := o.(Array)
	if !ok || len(a) != 4 {
		return Rect{}
	}
	return Rect{coordinate(a[0]), coordinate(a[1]), coordinate(a[2]), coordinate(a[3])}
}

// coordinate is a number, 0 if o is none.
func coordinate(o Object) float64 {
	switch v := o.(type) {
	case int64:
		return float64(v)
	case Real:
		f, err := strconv.ParseFloat(string(v), 64)
		if err == nil {
			return f
		}
	}
	return 0
}
