package compose

import (
	"slices"
	"time"

	"asleft/internal/assess"
	"asleft/internal/page"
)

// Anchors that other pages link to.
const (
	anchorReasons   = "reasons"
	anchorLimits    = "limits"
	anchorMethod    = "method"
	anchorSafety    = "safety"
	anchorSignOff   = "signoff"
	anchorArchive   = "archive"
	anchorAttached  = "attachments"
	anchorChanges   = "changes"
	anchorAppendix  = "appendix"
	anchorMultiples = "multiples"
	anchorBaseline  = "baseline"
)

// Package says what stands on every page of the package. It is pure: same
// input, same book. All that is wrong is returned at once.
func Package(in Input) (page.Book, error) {
	m, err := makeFiles(&in)
	if err != nil {
		return page.Book{}, err
	}
	b := newBook(&in, m)
	out := b.book()
	return out, b.err()
}

func (b *book) book() page.Book {
	p := &b.in.Record.Project
	return page.Book{
		Paper:    b.in.paper(),
		Title:    b.title(),
		Author:   b.text(p.Contractor),
		Subject:  b.say("package.subject", "tower", b.towerName(), "plant", b.text(p.Plant)),
		Keywords: b.keywords(),
		Creator:  b.in.Program,
		Lang:     b.in.Words.Tag(),
		Issued:   b.issued(),
		Profile:  b.in.Options.Profile,
		Effort:   b.effort(),
		Draft:    b.draft(),
		Sections: b.sections(),
		Files:    b.attachments(),
	}
}

// sections are all pages in order. Each function gives one section, which
// starts on a new page; the list is the table of what the package holds.
func (b *book) sections() []page.Section {
	out := []page.Section{
		b.frontSection(),
	}
	if b.in.Previous != nil {
		out = append(out, b.section("changes", b.say("changes.title"), b.changesPages()))
	}
	out = append(out,
		b.section("contents", b.say("contents.title"), b.contents()),
		b.section("summary", page.Topic, slices.Concat(b.summary(), b.limits(), b.method(), b.registers(), b.safety())),
	)
	for _, c := range b.cells() {
		out = append(out, b.cellSection(c))
	}
	out = append(out, b.section("baseline", page.Topic, append(b.baseline(), b.lists()...)))
	if len(b.attachedHere()) > 0 {
		out = append(out, b.section("attachments", b.say("attached.title"), b.attachedPages()))
	}
	return append(out,
		b.section("signoff", b.say("signoff.title"), b.signOff()),
		b.section("appendix", b.say("appendix.title"), b.appendix()),
		b.section("archive", b.say("archive.title"), b.archivePage()),
	)
}

// section wraps blocks with the running head and foot that every page has.
func (b *book) section(key, name string, blocks []page.Block) page.Section {
	return page.Section{Key: key, Head: b.head(name), Blocks: blocks}
}

func (b *book) head(name string) page.Head {
	p := &b.in.Record.Project
	a := &b.in.Assessment
	return page.Head{
		Left:  join(" · ", b.documentName(), b.subject(), name),
		Right: b.say("state." + string(a.State)),
		FootLeft: b.say("page.foot", "fingerprint", b.made.fingerprint,
			"contractor", b.or(b.text(p.Contractor), "front.blank")),
		FootRight: b.say("page.number", "page", "{page}", "pages", "{pages}"),
		Notice:    b.text(p.Notice),
	}
}

// documentName is number and revision, as far as they were given.
func (b *book) documentName() string {
	p := &b.in.Record.Project
	number, revision := b.text(p.Document), b.text(p.Revision)
	switch {
	case number == "":
		return b.say("page.nonumber")
	case revision == "":
		return number
	}
	return b.say("page.document", "number", number, "revision", revision)
}

func (b *book) towerName() string {
	return b.or(b.text(b.in.Record.Tower.Tag), "front.notower")
}

func (b *book) title() string {
	return b.say("package.title") + " – " + b.subject()
}

// subject is the tower, or the one cell of it that the package is of.
func (b *book) subject() string {
	if b.in.Options.Cell == 0 {
		return b.towerName()
	}
	return b.say("each.title", "tower", b.towerName(), "cell", itoa(b.in.Options.Cell))
}

func (b *book) keywords() []string {
	p, t := &b.in.Record.Project, &b.in.Record.Tower
	var out []string
	for _, s := range []string{b.text(p.Plant), b.text(t.Tag), b.text(p.Document), b.text(p.Contract)} {
		if s != "" {
			out = append(out, s)
		}
	}
	return append(out, b.say("package.keyword"))
}

// draft is the mark on every page of a package that is not ready.
func (b *book) draft() string {
	if b.in.Assessment.State == assess.Ready {
		return ""
	}
	return b.say("page.draft")
}

// issued is the day typed on the project sheet, at midnight of its time zone;
// without a zone, of the universal one. The clock is never read.
func (b *book) issued() time.Time {
	p := &b.in.Record.Project
	d := p.IssueDate.Value
	if !p.IssueDate.Set {
		d.Year, d.Month, d.Day = 1970, 1, 1
	}
	zone := time.UTC
	if t, err := time.Parse("-07:00", p.TimeZone.Value); err == nil {
		_, offset := t.Zone()
		zone = time.FixedZone("", offset)
	}
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, zone)
}
