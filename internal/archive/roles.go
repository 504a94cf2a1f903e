package archive

import "slices"

// roleRule says where a role may stand and what may stand in it
// (ISO 32000-1, 14.8.4). Roles without a list of parents or kids are free.
type roleRule struct {
	parents []Role
	kids    []Role
	runs    bool // may hold marked runs itself
}

// roleRules has every role; it is never changed.
var roleRules = map[Role]roleRule{
	RoleDocument:  {},
	RoleSect:      {},
	RoleH1:        {runs: true},
	RoleH2:        {runs: true},
	RoleH3:        {runs: true},
	RoleH4:        {runs: true},
	RoleP:         {runs: true},
	RoleSpan:      {runs: true},
	RoleReference: {runs: true},
	RoleItemBody:  {runs: true},
	RoleFigure:    {runs: true},
	RoleLink:      {runs: true, kids: []Role{RoleSpan}},
	RoleForm:      {kids: []Role{}},
	RoleList:      {kids: []Role{RoleCaption, RoleItem}},
	RoleItem:      {parents: []Role{RoleList}, kids: []Role{RoleLabel, RoleItemBody}},
	RoleLabel:     {parents: []Role{RoleItem, RoleEntry}, runs: true},
	RoleTable:     {kids: []Role{RoleCaption, RoleTableHead, RoleTableBody, RoleRow}},
	RoleTableHead: {parents: []Role{RoleTable}, kids: []Role{RoleRow}},
	RoleTableBody: {parents: []Role{RoleTable}, kids: []Role{RoleRow}},
	RoleRow:       {parents: []Role{RoleTable, RoleTableHead, RoleTableBody}, kids: []Role{RoleHeadCell, RoleCell}},
	RoleHeadCell:  {parents: []Role{RoleRow}, runs: true},
	RoleCell:      {parents: []Role{RoleRow}, runs: true},
	RoleCaption:   {parents: []Role{RoleTable, RoleFigure, RoleList, RoleContents}, runs: true},
	RoleContents:  {kids: []Role{RoleCaption, RoleEntry, RoleContents}},
	RoleEntry: {parents: []Role{RoleContents},
		kids: []Role{RoleLabel, RoleReference, RoleP, RoleLink, RoleSpan, RoleContents}, runs: true},
}

func knownRole(r Role) bool {
	_, ok := roleRules[r]
	return ok
}

// roleOf is the role of a tag, empty if there is none; it makes no garbage.
func roleOf(tag []byte) Role {
	for _, r := range roles {
		if string(tag) == string(r) {
			return r
		}
	}
	return ""
}

// roles are all roles, the most frequent first.
var roles = [...]Role{RoleCell, RoleHeadCell, RoleP, RoleSpan, RoleItemBody, RoleLabel, RoleH1, RoleH2, RoleH3,
	RoleH4, RoleCaption, RoleFigure, RoleLink, RoleReference, RoleEntry, RoleContents, RoleList, RoleItem, RoleTable,
	RoleTableHead, RoleTableBody, RoleRow, RoleForm, RoleSect, RoleDocument}

// mayHold tells whether a kid may stand directly under parent.
func mayHold(parent, kid Role) bool {
	p, k := roleRules[parent], roleRules[kid]
	return (p.kids == nil || slices.Contains(p.kids, kid)) &&
		(k.parents == nil || slices.Contains(k.parents, parent))
}

// headingLevel is 1 … 4 for headings, else 0.
func headingLevel(r Role) int {
	return slices.Index([]Role{RoleH1, RoleH2, RoleH3, RoleH4}, r) + 1
}
