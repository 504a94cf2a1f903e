package audit

import (
	"fmt"
	"slices"
	"strings"

	"asleft/internal/archive"
)

// compareKeys looks for properties that this version writes nowhere. What hides,
// moves or covers something, or does something by itself, has no place in the file
// of any version; of anything else another version may know, so it is asked.
func (a *audit) compareKeys(is, should *archive.Reader) {
	known := keysIn(should)
	pages, _ := is.Pages()
	for i, p := range pages {
		if box, ok := p.Dict["MediaBox"].(archive.Array); ok && (len(box) != 4 || box[0] != archive.Object(int64(0)) || box[1] != archive.Object(int64(0))) {
			a.place(CodeSheet, i+1, "MediaBox")
		}
	}
	for _, found := range keysIn(is).list {
		if known.seen[found.kind][found.key] || slices.Contains(former[found.kind], found.key) {
			continue
		}
		path := append(found.at.keys(), found.key)
		where := strings.Join(path, "/")
		switch c := classify(path); c {
		case CodeLayer, CodeAction, CodeSheet, CodeAnnotation, CodePainting, CodeGlyphs, CodeMeaning:
			a.place(c, found.at.page, where)
		default:
			a.addFinding(Finding{Severity: Question, Code: CodeKey, Page: found.at.page, Args: []Arg{text("place", where)}})
		}
	}
	a.compareAnnotations(is)
	a.comparePictures(is, should)
}

// former are the properties, by the kind of object, that earlier versions wrote and
// this one does not, or not in a file as small: the paths of values as identifiers, with
// a tree of them, and the branches of the tree from pages to elements.
var former = map[string][]string{
	"StructElem/":     {"ID"},
	"StructTreeRoot/": {"IDTree"},
	"IDTree":          {"Kids", "Names"},
	"ParentTree":      {"Kids", "Nums"},
	"Kids":            {"Limits", "Names", "Nums"},
}

// foundKey is a property, and the first object of its kind that has it.
type foundKey struct {
	kind, key string
	at        *place
}

// keySet is the properties that the objects of a file have, by the kind of object.
type keySet struct {
	r     *archive.Reader
	seen  map[string]map[string]bool
	list  []foundKey
	pages map[archive.Ref]int
	done  map[archive.Ref]bool
	queue []archive.Ref
	under []*place
}

// keysIn collects the properties of everything that the trailer leads to.
func keysIn(r *archive.Reader) *keySet {
	s := &keySet{r: r, seen: map[string]map[string]bool{}, pages: map[archive.Ref]int{}, done: map[archive.Ref]bool{}}
	if pages, err := r.Pages(); err == nil {
		for i, p := range pages {
			s.pages[archive.Ref(p.Object)] = i + 1
		}
	}
	s.object(trailer(r), &place{})
	for len(s.queue) > 0 {
		ref, at := s.queue[0], s.under[0]
		s.queue, s.under = s.queue[1:], s.under[1:]
		if n := s.pages[ref]; n > 0 {
			at = &place{at.up, at.key, n}
		}
		if o, err := r.Object(int(ref)); err == nil {
			s.object(o, at)
		}
	}
	return s
}

func (s *keySet) object(o archive.Object, at *place) {
	switch v := o.(type) {
	case archive.Ref:
		if !s.done[v] {
			s.done[v] = true
			s.queue, s.under = append(s.queue, v), append(s.under, at)
		}
	case archive.Array:
		for _, e := range v {
			s.object(e, at)
		}
	case archive.Dict:
		s.dict(v, at)
	case *archive.Stream:
		s.dict(v.Dict, at)
	}
}

func (s *keySet) dict(d archive.Dict, at *place) {
	kind := kindOf(d, at.key)
	if s.seen[kind] == nil {
		s.seen[kind] = map[string]bool{}
	}
	for _, k := range sortedKeys(d) {
		if !slices.Contains(nameLists, at.key) && !skipped[k] && !s.seen[kind][string(k)] {
			s.seen[kind][string(k)] = true
			s.list = append(s.list, foundKey{kind, string(k), at})
		}
		s.object(d[k], at.under(string(k)))
	}
}

// nameLists are the keys of dictionaries whose own keys are names of the file's
// making.
var nameLists = []string{"Font", "XObject"}

// kindOf is what sort of object a dictionary is: as it says itself, an element of
// the structure, or what the key that leads to it means.
func kindOf(d archive.Dict, key string) string {
	if kind, ok := d["Type"].(archive.Name); ok {
		sub, _ := d["Subtype"].(archive.Name)
		return string(kind + "/" + sub)
	}
	if _, ok := d["S"].(archive.Name); ok && d["P"] != nil {
		return "StructElem/"
	}
	return key
}

// compareAnnotations looks for what fields and links draw: nothing.
func (a *audit) compareAnnotations(is *archive.Reader) {
	pages, _ := is.Pages()
	for i, p := range pages {
		list, _ := is.Resolve(p.Dict["Annots"])
		annots, _ := list.(archive.Array)
		for _, o := range annots {
			if paints(is, dictOf(is, o)) {
				a.place(CodeAnnotation, i+1, "Annots")
			}
		}
	}
}

// paints tells whether an annotation has a border or an appearance that paints.
func paints(r *archive.Reader, d archive.Dict) bool {
	border, _ := d["Border"].(archive.Array)
	for _, v := range border {
		if v != archive.Object(int64(0)) {
			return true
		}
	}
	if len(border) == 0 && d["Subtype"] == archive.Name("Link") {
		return true // a line of one point, if nothing else is said
	}
	appearance := dictOf(r, d["AP"])
	for _, k := range sortedKeys(appearance) {
		v, err := r.Resolve(appearance[k])
		s, ok := v.(*archive.Stream)
		if err != nil || !ok {
			return true
		}
		if b, err := r.Decode(s); err != nil || len(b) > 0 {
			return true
		}
	}
	return false
}

// comparePictures asks about pictures that this version does not print.
func (a *audit) comparePictures(is, should *archive.Reader) {
	known, strange := map[string]bool{}, 0
	for _, p := range pictures(should) {
		known[p] = true
	}
	for _, p := range pictures(is) {
		if !known[p] {
			strange++
		}
	}
	if strange > 0 {
		a.add(Question, CodePicture, text("n", fmt.Sprint(strange)))
	}
}

// pictures are the data of the pictures that all pages share.
func pictures(r *archive.Reader) []string {
	pages, _ := r.Pages()
	done := map[archive.Object]bool{}
	var list []string
	for _, p := range pages {
		images := dictOf(r, dictOf(r, p.Dict["Resources"])["XObject"])
		for _, k := range sortedKeys(images) {
			ref, ok := images[k].(archive.Ref)
			if !ok || done[ref] {
				continue
			}
			done[ref] = true
			if o, err := r.Resolve(ref); err == nil {
				if s, ok := o.(*archive.Stream); ok {
					list = append(list, string(s.Raw))
				}
			}
		}
	}
	return list
}

func dictOf(r *archive.Reader, o archive.Object) archive.Dict {
	v, err := r.Resolve(o)
	if err != nil {
		return nil
	}
	d, _ := v.(archive.Dict)
	return d
}
