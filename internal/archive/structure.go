package archive

import (
	"fmt"
	"slices"
	"strings"
)

// tree is the structure tree in the order in which it is written, and what
// the checks of it find.
type tree struct {
	*findings
	doc    *Document
	nodes  []node
	parent [][]int // by page and identifier: index of the owning node, -1 if none
	annots []annot
	ids    []identified // sorted when the walk is done
	fields map[string]bool
	placed map[*Link]bool
	level  int   // of the last heading
	broken bool  // too deep to go on: an element that holds itself, most likely
	path   []int // indices of the nodes above the one being walked
}

// node is an element with its parent's index (-1 for the root).
type node struct {
	*Element
	up int
}

// identified is a node with an identifier.
type identified struct {
	id   string
	node int
}

// annot is a link or field with its owning node.
type annot struct {
	link  *Link
	field *Field
	owner int
	page  int
}

// buildTree walks over the declared structure once, checking it and giving
// every element its place in the order of writing.
func buildTree(d *Document, out *findings) *tree {
	t := &tree{findings: out, doc: d, fields: map[string]bool{}, placed: map[*Link]bool{}}
	t.parent = make([][]int, len(d.Pages))
	for i, p := range d.Pages {
		if p.Runs < 0 || p.Runs > maxRuns {
			out.add(RulePage, pageName(i), "%d runs", p.Runs)
			continue
		}
		t.parent[i] = make([]int, p.Runs)
		for k := range t.parent[i] {
			t.parent[i][k] = -1
		}
	}
	if d.Root == nil || d.Root.Role != RoleDocument {
		out.add(RuleStructure, "document", "root is no Document element")
		return t
	}
	t.walk(d.Root, -1)
	t.unowned()
	t.fieldNames()
	t.identifiers()
	return t
}

// where is the path of the element being walked, e.g. "Document/Sect 3/Table 1".
func (t *tree) where() string {
	var b strings.Builder
	for i, n := range t.path {
		if i == 0 {
			b.WriteString(string(t.nodes[n].Role))
			continue
		}
		fmt.Fprintf(&b, "/%s %d", t.nodes[n].Role, t.position(t.path[i-1], n))
	}
	return b.String()
}

// position is the place of a node among its parent's kids, from 1.
func (t *tree) position(up, n int) int {
	for i, k := range t.nodes[up].Kids {
		if k.Element == t.nodes[n].Element {
			return i + 1
		}
	}
	return 0
}

func (t *tree) fault(rule Rule, format string, args ...any) {
	t.add(rule, t.where(), format, args...)
}

func (t *tree) walk(e *Element, up int) {
	n := len(t.nodes)
	t.nodes = append(t.nodes, node{Element: e, up: up})
	t.path = append(t.path, n)
	defer func() { t.path = t.path[:len(t.path)-1] }()
	if len(t.path) > maxTreeDepth {
		t.fault(RuleStructure, "deeper than %d", maxTreeDepth)
		t.broken = true
		return
	}
	t.element(n)
	for i := range e.Kids {
		if t.broken {
			return
		}
		t.kid(n, &e.Kids[i])
	}
	if e.Role == RoleTable {
		t.table(e)
	}
}

// kid checks one kid, which must be one thing.
func (t *tree) kid(n int, k *Kid) {
	parent := t.nodes[n].Role
	things := 0
	for _, there := range []bool{k.Element != nil, k.Run != nil, k.Link != nil, k.Field != nil} {
		if there {
			things++
		}
	}
	switch {
	case things != 1:
		t.fault(RuleStructure, "a kid is %d things", things)
	case k.Element != nil:
		if !mayHold(parent, k.Element.Role) {
			t.fault(RuleStructure, "%s under %s", k.Element.Role, parent)
		}
		t.walk(k.Element, n)
	case k.Run != nil:
		if !roleRules[parent].runs {
			t.fault(RuleStructure, "text directly under %s", parent)
		}
		t.own(n, *k.Run)
	case k.Link != nil:
		t.link(n, k.Link)
	case k.Field != nil:
		t.field(n, k.Field)
	}
}

// own notes that a run belongs to node n, and to no other.
func (t *tree) own(n int, r Run) {
	switch {
	case r.Page < 0 || r.Page >= len(t.parent) || r.MCID < 0 || r.MCID >= len(t.parent[r.Page]):
		t.fault(RuleRun, "run %d of %s does not exist", r.MCID, pageName(r.Page))
	case t.parent[r.Page][r.MCID] >= 0:
		t.fault(RuleRun, "run %d of %s is used twice", r.MCID, pageName(r.Page))
	default:
		t.parent[r.Page][r.MCID] = n
	}
}

// unowned reports runs that no element holds.
func (t *tree) unowned() {
	for page, owners := range t.parent {
		for mcid, n := range owners {
			if n < 0 {
				t.add(RuleRun, pageName(page), "run %d is in no element", mcid)
			}
		}
	}
}

func (t *tree) link(n int, l *Link) {
	switch {
	case t.nodes[n].Role != RoleLink:
		t.fault(RuleLink, "link under %s", t.nodes[n].Role)
	case t.placed[l]:
		t.fault(RuleLink, "link in two places")
	case !spoken(l.Text):
		t.fault(RuleLink, "no text")
	case l.Page < 0 || l.Page >= len(t.doc.Pages) || !l.Rect.valid():
		t.fault(RuleLink, "no area on a page")
	case !l.To.valid(len(t.doc.Pages)):
		t.fault(RuleLink, "target is not in the document")
	default:
		t.annots = append(t.annots, annot{link: l, owner: n, page: l.Page})
	}
	t.placed[l] = true
}

func (t *tree) field(n int, f *Field) {
	switch {
	case t.nodes[n].Role != RoleForm || len(t.nodes[n].Kids) != 1:
		t.fault(RuleField, "field not alone in a Form")
	case !validFieldName(f.Name):
		t.fault(RuleField, "name %q", f.Name)
	case t.fields[f.Name]:
		t.fault(RuleField, "name %q twice", f.Name)
	case !spoken(f.Text):
		t.fault(RuleField, "no tooltip")
	case f.Page < 0 || f.Page >= len(t.doc.Pages) || !f.Rect.valid():
		t.fault(RuleField, "no area on a page")
	default:
		t.annots = append(t.annots, annot{field: f, owner: n, page: f.Page})
	}
	t.fields[f.Name] = true
}

// fieldNames reports names that are also the beginning of another name: a
// field is either signed or holds fields.
func (t *tree) fieldNames() {
	for _, a := range t.annots {
		if a.field == nil {
			continue
		}
		for i, c := range a.field.Name {
			if c == '.' && t.fields[a.field.Name[:i]] {
				t.add(RuleField, "document", "name %q is the beginning of %q", a.field.Name[:i], a.field.Name)
			}
		}
	}
}

// validFieldName wants parts of letters and digits, joined by periods.
func validFieldName(s string) bool {
	for _, part := range strings.Split(s, ".") {
		if part == "" || !fontName.MatchString(part) {
			return false
		}
	}
	return true
}

// element checks what stands in the element itself.
func (t *tree) element(n int) {
	e := t.nodes[n].Element
	if !knownRole(e.Role) || e.Role == RoleDocument && n > 0 {
		t.fault(RuleStructure, "role %q", e.Role)
	}
	t.identifier(n)
	detail := e.detail()
	for _, s := range []string{detail.Title, detail.Alt, detail.Actual} {
		if !printable(s) {
			t.fault(RuleStructure, "text too long or not printable: %.40q", s)
		}
	}
	if l := detail.Lang; l != "" && !languageTag.MatchString(l) {
		t.fault(RuleMetadata, "%q is no language tag", l)
	}
	t.heading(e)
	t.cell(e)
	t.figure(e)
	switch {
	case len(e.Kids) > 0:
	case headingLevel(e.Role) > 0 || e.Role == RoleFigure || e.Role == RoleLink || e.Role == RoleForm || e.Role == RoleCaption:
		t.fault(RuleStructure, "nothing in it")
	}
	t.captions(e)
}

func (t *tree) identifier(n int) {
	id := t.nodes[n].ID
	if id == "" {
		return
	}
	paths, _ := Several(id, "")
	if len(paths) > maxSeveral {
		t.fault(RuleID, "%d paths", len(paths))
	}
	for _, p := range paths {
		if p == "" || !textID(p) {
			t.fault(RuleID, "%q is not printable", id)
		}
		t.ids = append(t.ids, identified{p, n})
	}
}

// identifiers sorts the identifiers, and reports those used twice.
func (t *tree) identifiers() {
	slices.SortFunc(t.ids, func(a, b identified) int { return strings.Compare(a.id, b.id) })
	for i := 1; i < len(t.ids); i++ {
		if t.ids[i].id == t.ids[i-1].id {
			t.add(RuleID, "document", "%q twice", t.ids[i].id)
		}
	}
}

// heading checks that levels go down one at a time (ISO 14289-1, 7.4.2).
func (t *tree) heading(e *Element) {
	l := headingLevel(e.Role)
	if l == 0 {
		return
	}
	if l > t.level+1 {
		t.fault(RuleHeading, "level %d after level %d", l, t.level)
	}
	t.level = l
}

func (t *tree) figure(e *Element) {
	if e.Role != RoleFigure {
		return
	}
	if !spoken(e.detail().Alt) {
		t.fault(RuleFigure, "no alternative text")
	}
	if !e.detail().BBox.valid() {
		t.fault(RuleFigure, "no bounding box")
	}
	page := -1
	for _, k := range e.Kids {
		if k.Run == nil {
			continue
		}
		if page >= 0 && k.Run.Page != page {
			t.fault(RuleFigure, "on more than one page")
			return
		}
		page = k.Run.Page
	}
}

// captions checks that a caption is alone and comes first; that of a table or a
// figure may come last (ISO 14289-1, 7.2).
func (t *tree) captions(e *Element) {
	count, last := 0, len(e.Kids)-1
	for i, k := range e.Kids {
		if k.role() != RoleCaption {
			continue
		}
		count++
		mayEnd := e.Role == RoleTable || e.Role == RoleFigure
		if count > 1 || i != 0 && (i != last || !mayEnd) {
			t.fault(RuleStructure, "caption neither first nor last, or not alone")
		}
	}
}

// role is the role of a kid that is an element.
func (k Kid) role() Role {
	if k.Element == nil {
		return ""
	}
	return k.Element.Role
}
