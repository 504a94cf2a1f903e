package page

import "asleft/internal/archive"

// node is an element of the structure tree before its runs have numbers.
type node struct {
	role    archive.Role
	id      string
	scope   string
	colSpan int32
	detail  *archive.Detail // of most nodes none
	kids    []kid
}

// kid is one of: a node, a chunk, a link, or the field that names this node.
// Chunks and links are counted from 1 within their section.
type kid struct {
	node  *node
	chunk int32
	link  int32
}

// isField tells whether a kid is none of the others.
func (k kid) isField() bool { return k == kid{} }

// child adds a new element at the end of n.
func (n *node) child(role archive.Role) *node {
	c := &node{role: role}
	n.kids = append(n.kids, kid{node: c})
	return c
}

// link is where a link goes: to an anchor, or to a heading of the book.
type link struct {
	anchor  string
	heading int
	text    string
}

// chunkRole is the role that a chunk's marks carry; chunks of one section are
// told apart by number.
type chunks struct {
	roles []archive.Role
	links []link
}

// chunk starts a piece of content in n, the end of its kids.
func (c *chunks) chunk(n *node) int32 {
	c.roles = append(c.roles, n.role)
	n.kids = append(n.kids, kid{chunk: int32(len(c.roles))})
	return int32(len(c.roles))
}

// tail is the chunk at the end of n, new if there is none.
func (c *chunks) tail(n *node) int32 {
	if k := len(n.kids); k > 0 && n.kids[k-1].chunk != 0 {
		return n.kids[k-1].chunk
	}
	return c.chunk(n)
}

// link adds a link to n.
func (c *chunks) link(n *node, l link) int {
	c.links = append(c.links, l)
	n.kids = append(n.kids, kid{link: int32(len(c.links))})
	return len(c.links)
}
