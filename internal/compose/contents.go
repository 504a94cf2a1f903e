package compose

import "asleft/internal/page"

// contentsDepth takes the sections and the cells, not the checks of a cell.
const contentsDepth = 2

// closeContents is the most cells whose contents leave room for the rest of the
// page; those of more stand in two columns.
const closeContents = 12

// contents lists the sections and says how to check the package.
func (b *book) contents() []page.Block {
	where := "verify.beside"
	if b.attaches() {
		where = "verify.inside"
	}
	steps := append(b.steps("verify", "fingerprint", b.made.fingerprint), linked(plain(b.say(where)), anchorArchive))
	list := page.Contents{Depth: contentsDepth}
	if len(b.cells()) > closeContents {
		list.Columns = 2
	}
	return []page.Block{
		b.h2("contents.title", ""),
		list,
		halves(b.issueBlocks(), b.countBlocks()),
		b.h2("verify.title", ""),
		page.List{Numbered: true, Items: steps},
		b.para("verify.whole"),
	}
}

// h2 is the heading of a section, with its bookmark.
func (b *book) h2(key, anchor string) page.Heading {
	text := b.say(key)
	return page.Heading{Level: 2, Runs: plain(text), Anchor: anchor, Bookmark: text}
}

// h3 is a heading inside a section.
func (b *book) h3(key string, pairs ...string) page.Heading {
	return page.Heading{Level: 3, Runs: plain(b.say(key, pairs...))}
}
