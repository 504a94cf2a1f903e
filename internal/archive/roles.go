package archive

import "slices"

// roleRule says where a role may stand and what may stand in it
// (ISO 32000-1, 14.8.4). Roles without a list of parents or kids are free.
type roleRule struct {
	parents []Role
	kids    []Role
	runs    bool // may hold marked runs itself
}

func rule(r Role) (roleRule, bool) {
	switch r {
	case RoleDocument, RoleSect:
		return roleRule{}, true
	case RoleH1, RoleH2, RoleH3, RoleH4, RoleP, RoleSpan, RoleReference, RoleItemBody:
		return roleRule{runs: true}, true
	case RoleFigure:
		return roleRule{runs: true}, true
	case RoleLink:
		return roleRule{runs: true, kids: []Role{RoleSpan}}, true
	case RoleForm:
		return roleRule{kids: []Role{}}, true
	case RoleList:
		return roleRule{kids: []Role{RoleCaption, RoleItem}}, true
	case RoleItem:
		return roleRule{parents: []Role{RoleList}, kids: []Role{RoleLabel, RoleItemBody}}, true
	case RoleLabel:
		return roleRule{parents: []Role{RoleItem, RoleEntry}, runs: true}, true
	case RoleTable:
		return roleRule{kids: []Role{RoleCaption, RoleTableHead, RoleTableBody, RoleRow}}, true
	case RoleTableHead, RoleTableBody:
		return roleRule{parents: []Role{RoleTable}, kids: []Role{RoleRow}}, true
	case RoleRow:
		return roleRule{parents: []Role{RoleTable, RoleTableHead, RoleTableBody}, kids: []Role{RoleHeadCell, RoleCell}}, true
	case RoleHeadCell, RoleCell:
		return roleRule{parents: []Role{RoleRow}, runs: true}, true
	case RoleCaption:
		return roleRule{parents: []Role{RoleTable, RoleFigure, RoleList, RoleContents}, runs: true}, true
	case RoleContents:
		return roleRule{kids: []Role{RoleCaption, RoleEntry, RoleContents}}, true
	case RoleEntry:
		return roleRule{parents: []Role{RoleContents},
			kids: []Role{RoleLabel, RoleReference, RoleP, RoleLink, RoleSpan, RoleContents}, runs: true}, true
	}
	return roleRule{}, false
}

func knownRole(r Role) bool {
	_, ok := rule(r)
	return ok
}

// mayHold tells whether a kid may stand directly under parent.
func mayHold(parent, kid Role) bool {
	p, _ := rule(parent)
	k, _ := rule(kid)
	return (p.kids == nil || slices.Contains(p.kids, kid)) &&
		(k.parents == nil || slices.Contains(k.parents, parent))
}

// headingLevel is 1 … 4 for headings, else 0.
func headingLevel(r Role) int {
	return slices.Index([]Role{RoleH1, RoleH2, RoleH3, RoleH4}, r) + 1
}
