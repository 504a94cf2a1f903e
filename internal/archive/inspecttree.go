package archive

import "fmt"

// structure checks the structure tree by itself and against the parent tree,
// the annotations and the tree of identifiers.
func (in *inspection) structure() error {
	w, err := in.r.newTreeWalk()
	if err != nil {
		return err
	}
	root, err := w.document()
	if err != nil {
		return err
	}
	pages, err := in.r.Pages()
	if err != nil {
		return err
	}
	d := Document{Root: root}
	for i, p := range pages {
		d.Pages = append(d.Pages, Page{Label: p.Label, Runs: in.runs[i]})
	}
	checkLabels(d.Pages, &in.findings)
	t := buildTree(&d, &in.findings)
	in.report.Elements, in.report.Identifiers = len(t.nodes), len(t.ids)
	for _, a := range t.annots {
		if a.link != nil {
			in.report.Links++
		} else {
			in.report.Fields++
		}
	}
	if err := in.parents(w); err != nil {
		return err
	}
	if err := in.annotations(w, pages); err != nil {
		return err
	}
	return in.identifiers(w)
}

// parents compares the parent tree with what the structure owns.
func (in *inspection) parents(w *treeWalk) error {
	last, entries := -1, 0
	err := in.r.eachNumber(w.root["ParentTree"], func(key int, o Object) error {
		if key <= last {
			in.add(RuleParents, "parent tree", "key %d after %d", key, last)
		}
		last = key
		entries++
		if key < len(w.runs) {
			return in.pageParents(key, o, w.runs[key])
		}
		return nil
	})
	if err != nil {
		return err
	}
	if want := len(w.runs) + len(w.annots); entries != want || w.root["ParentTreeNextKey"] != int64(want) {
		in.add(RuleParents, "parent tree", "%d entries for %d pages and annotations", entries, want)
	}
	return nil
}

func (in *inspection) pageParents(page int, o Object, owners []Ref) error {
	list, err := in.r.array(o, "parent tree entry")
	if err != nil {
		return err
	}
	if len(list) != len(owners) {
		in.add(RuleParents, pageName(page), "%d entries for %d runs", len(list), len(owners))
		return nil
	}
	for mcid, owner := range owners {
		if list[mcid] != owner {
			in.add(RuleParents, pageName(page), "run %d leads to %v, its owner is %d", mcid, list[mcid], owner)
		}
	}
	return nil
}

// annotations checks every annotation of every page, and that each belongs to
// an element and each element's annotation to a page.
func (in *inspection) annotations(w *treeWalk, pages []PageObject) error {
	owners := map[int64]Object{}
	err := in.r.eachNumber(w.root["ParentTree"], func(key int, o Object) error {
		owners[int64(key)] = o
		return nil
	})
	if err != nil {
		return err
	}
	count := 0
	for i, p := range pages {
		list, err := in.r.array(p.Dict["Annots"], "annotations")
		if err != nil {
			return err
		}
		for _, o := range list {
			count++
			if err := in.annotation(pageName(i), o, w, owners); err != nil {
				return err
			}
		}
	}
	if count != len(w.annots) {
		in.add(RuleParents, "document", "%d annotations on pages, %d in the structure", count, len(w.annots))
	}
	return nil
}

// printFlag is the annotation flag that makes it print; all others are off
// (ISO 19005-3, 6.3.2).
const printFlag = 4

func (in *inspection) annotation(where string, o Object, w *treeWalk, owners map[int64]Object) error {
	ref, _ := o.(Ref)
	d, err := in.r.dict(o, "annotation")
	if err != nil {
		return err
	}
	owner, owned := w.annots[ref]
	key := intOr(d["StructParent"], -1)
	if !owned || owners[key] != owner {
		in.add(RuleParents, where, "annotation %d and its element do not know each other", ref)
	}
	flags := intOr(d["F"], 0)
	switch d["Subtype"] {
	case Name("Link"):
		if flags != printFlag || text(d["Contents"]) == "" {
			in.add(RuleLink, where, "link %d does not print or has no text", ref)
		}
	case Name("Widget"):
		// Signing may lock the field (flag 8), which does not hide it.
		if flags&printFlag == 0 || flags&0x23 != 0 || text(d["TU"]) == "" || d["AP"] == nil {
			in.add(RuleField, where, "field %d does not print, or has no tooltip or appearance", ref)
		}
	default:
		in.add(RuleStructure, where, "annotation %v", d["Subtype"])
	}
	return nil
}

// identifiers checks that the tree of identifiers has every key ID once, in order,
// and nothing else, and that identifiers among the properties are announced.
func (in *inspection) identifiers(w *treeWalk) error {
	c, err := in.r.Catalog()
	if err != nil {
		return err
	}
	mark, err := in.r.dict(c["MarkInfo"], "mark information")
	if err != nil {
		return err
	}
	if announced := mark["UserProperties"] == true; announced != (w.properties > 0) {
		in.add(RuleID, "document", "%d elements with user properties, announced: %t", w.properties, announced)
	}
	last, count := "", 0
	err = in.r.eachName(w.root["IDTree"], func(id string, o Object) error {
		refs := w.ids[id]
		if id <= last || len(refs) != 1 || Object(refs[0]) != o {
			in.add(RuleID, fmt.Sprintf("identifier %q", id), "out of order, or not that of one element")
		}
		last = id
		count++
		return nil
	})
	if err == nil && count != len(w.ids) {
		in.add(RuleID, "document", "%d identifiers in their tree, %d on elements", count, len(w.ids))
	}
	return err
}
