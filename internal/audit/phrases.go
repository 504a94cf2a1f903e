package audit

import (
	"regexp"
	"strings"

	"asleft/internal/archive"
)

// phrase is what a page says in one piece: a paragraph, a heading, a cell, the
// other text of a figure, the head and foot of a page.
type phrase struct {
	text   string
	page   int    // from 1
	before string // the phrase before it
	head   bool   // of a table, which is repeated at the edge of pages
	edge   bool   // no part of the reading order: heads, feet, repeated headings
	times  int    // how often, once merged
	taken  bool   // has its counterpart
}

// hole stands in a phrase for a value that has a path of its own, and for the
// number of a page: both are compared by themselves.
const hole = "…"

// bullet stands before an item of a list; earlier versions have it in the structure.
const bullet = "•"

// inline are the roles of what is part of a phrase.
var inline = map[archive.Role]bool{archive.RoleSpan: true, archive.RoleLink: true, archive.RoleReference: true, archive.RoleLabel: true}

// phrases are the phrases of a file in the order of reading, those at the edge of
// pages last.
func phrases(r *archive.Reader) ([]phrase, error) {
	root, err := r.Structure()
	if err != nil {
		return nil, err
	}
	c := phraseReader{r: r}
	if c.pages, err = r.Pages(); err != nil {
		return nil, err
	}
	c.walk(root)
	c.hidden()
	for i := range c.pages {
		c.edge(i)
	}
	if catalog, err := r.Catalog(); err == nil {
		c.bookmarks(dictOf(r, catalog["Outlines"])["First"], 0)
	}
	return c.list, nil
}

// hidden adds what links say that stands nowhere in print.
func (c *phraseReader) hidden() {
	shown := map[string]bool{}
	for i := range c.list {
		shown[c.list[i].key()] = true
	}
	for _, p := range c.links {
		if !shown[p.key()] {
			c.add(p.text, p.page)
		}
	}
}

// Bounds of bookmarks.
const (
	maxBookmarks     = 1 << 17
	maxBookmarkDepth = 8
)

// bookmarks reads their titles.
func (c *phraseReader) bookmarks(o archive.Object, depth int) {
	for range maxBookmarks {
		d := dictOf(c.r, o)
		if d == nil || depth > maxBookmarkDepth || c.marks > maxBookmarks {
			return
		}
		c.marks++
		title, _ := d["Title"].(archive.String)
		c.add(archive.Text(title), 0)
		c.bookmarks(d["First"], depth+1)
		o = d["Next"]
	}
}

type phraseReader struct {
	r     *archive.Reader
	pages []archive.PageObject
	list  []phrase
	links []phrase // what links say to those who do not see them
	marks int      // bookmarks so far
}

// edge reads what stands on a page outside the reading order, without the number
// of the page and of the last one.
func (c *phraseReader) edge(i int) {
	list, err := c.r.Paints(i)
	if err != nil {
		return // told elsewhere
	}
	last := c.pages[len(c.pages)-1].Label
	for _, p := range list {
		if p.Kind != archive.PaintText || p.Run >= 0 {
			continue
		}
		said := p.Text
		for _, label := range []string{last, c.pages[i].Label} {
			said = withoutNumber(said, label)
		}
		c.add(said, i+1)
		if n := len(c.list); n > 0 {
			c.list[n-1].edge = true
		}
	}
}

// withoutNumber puts a hole where a number stands last in a text.
func withoutNumber(s, number string) string {
	isDigit := func(b byte) bool { return b >= '0' && b <= '9' }
	k := strings.LastIndex(s, number)
	end := k + len(number)
	if number == "" || k < 0 || k > 0 && isDigit(s[k-1]) || end < len(s) && isDigit(s[end]) {
		return s
	}
	return s[:k] + hole + s[end:]
}

func (c *phraseReader) add(text string, page int) {
	if strings.Trim(text, hole+bullet+" ") == "" {
		return
	}
	p := phrase{text: text, page: page}
	if n := len(c.list); n > 0 {
		p.before = c.list[n-1].text
	}
	c.list = append(c.list, p)
}

func (c *phraseReader) walk(e *archive.Element) {
	if e.ID != "" {
		c.add(c.holes(e), firstPage(e))
		return
	}
	if e.Detail != nil && e.Detail.Alt != "" {
		c.add(e.Detail.Alt, firstPage(e))
	}
	var b strings.Builder
	links := len(c.links)
	for _, k := range e.Kids {
		switch {
		case k.Run != nil:
			b.WriteString(c.run(*k.Run))
		case k.Element != nil && inline[k.Element.Role]:
			c.inline(&b, k.Element)
		case k.Element != nil:
			c.walk(k.Element)
		case k.Field != nil:
			c.add(k.Field.Text, k.Field.Page+1)
		}
	}
	c.add(b.String(), firstPage(e))
	c.dropLinks(links, b.String())
	if n := len(c.list); n > 0 {
		c.list[n-1].head = c.list[n-1].head || e.Role == archive.RoleHeadCell
	}
}

// dropLinks forgets the links from one on that only say what the phrase says that
// they stand in.
func (c *phraseReader) dropLinks(from int, phrase string) {
	if from == len(c.links) {
		return
	}
	phrase = squeezed(phrase)
	kept := c.links[:from]
	for _, l := range c.links[from:] {
		if !strings.Contains(phrase, squeezed(l.text)) {
			kept = append(kept, l)
		}
	}
	c.links = kept
}

func (c *phraseReader) inline(b *strings.Builder, e *archive.Element) {
	if e.ID != "" {
		b.WriteString(c.holes(e))
		return
	}
	var own strings.Builder
	target := ""
	for _, k := range e.Kids {
		switch {
		case k.Run != nil:
			own.WriteString(c.run(*k.Run))
		case k.Element != nil:
			c.inline(&own, k.Element)
		case k.Link != nil && k.Link.To.Page < len(c.pages):
			target = c.pages[k.Link.To.Page].Label
			c.links = append(c.links, phrase{text: k.Link.Text, page: k.Link.Page + 1})
		}
	}
	// The number of the page that a link leads to is not the same in all versions.
	b.WriteString(withoutNumber(own.String(), target))
}

// holes is the text of an element with a path: a hole, or, of several values, what
// stands between them, too.
func (c *phraseReader) holes(e *archive.Element) string {
	if paths, _ := archive.Several(e.ID, ""); len(paths) == 1 {
		return hole
	}
	said, err := c.r.TextOf(e)
	if err != nil {
		return hole // told elsewhere
	}
	return wholeNumber.ReplaceAllString(said, hole)
}

// wholeNumber is a value among several.
var wholeNumber = regexp.MustCompile("[0-9]+")

func (c *phraseReader) run(at archive.Run) string {
	runs, err := c.r.PageText(at.Page)
	if err != nil {
		return ""
	}
	return runs[at.MCID]
}
