package compose

import (
	"strings"
	"time"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/page"
)

// AuditNote is what an audit note is made of.
type AuditNote struct {
	Result  *audit.Result
	Words   Words
	Paper   page.Paper // zero is Letter
	Name    string     // of the audited file
	Program string
	At      time.Time // day of the note
}

// WriteAuditNote makes the note and returns the finished bytes, in the same form
// as the packages.
func WriteAuditNote(in AuditNote) ([]byte, error) {
	b := newBook(&Input{Words: in.Words, Program: in.Program, Options: Options{Paper: in.Paper}}, made{})
	text, err := DescribeAudit(in.Result, in.Words)
	if err != nil {
		return nil, err
	}
	m, err := page.NewMetrics()
	if err != nil {
		return nil, err
	}
	n := note{b, text, func(s string) string { return m.Printable(s, '?') }}
	fingerprint := n.fit(first(in.Result.Package.Fingerprint, b.say("audit.unknown")))
	out := page.Book{
		Paper: b.in.paper(), Title: n.fit(text.Title), Subject: b.say("audit.subject"),
		Keywords: []string{b.say("audit.keyword"), fingerprint}, Author: in.Program, Creator: in.Program,
		Lang: in.Words.Tag(), Issued: in.At, Profile: archive.PDFA3A,
		Sections: []page.Section{{Key: "audit", Blocks: n.blocks(n.fit(in.Name)), Head: page.Head{
			Left: b.say("audit.title"), Right: b.say("audit.fingerprint") + " " + fingerprint,
			FootLeft:  b.say("audit.foot", "fingerprint", fingerprint),
			FootRight: b.say("page.number", "page", "{page}", "pages", "{pages}"),
		}}},
	}
	if err := b.err(); err != nil {
		return nil, err
	}
	return page.Write(out)
}

// note is an audit note in the making; fit makes texts printable.
type note struct {
	*book
	text *Audit
	fit  func(string) string
}

func (n note) blocks(name string) []page.Block {
	facts := append([][2]string{{n.say("audit.name"), name}}, n.text.Facts...)
	facts = append(facts, [2]string{n.say("audit.reached"), n.text.Reached})
	blocks := []page.Block{
		page.Heading{Level: 1, Runs: plain(wholeDash.Replace(n.fit(n.text.Title))), Bookmark: n.say("audit.title")},
		page.Panel{Tone: n.tone(), Blocks: []page.Block{
			page.Paragraph{Runs: bold(n.say("audit.conclusion"))},
			page.Paragraph{Runs: plain(n.fit(n.text.Conclusion))},
		}},
		n.factTable(facts),
		n.h2("audit.findings", ""), n.findings(),
		n.h2("audit.signatures", ""), n.signatures(),
	}
	blocks = append(blocks, n.questions()...)
	if n.text.Compared {
		blocks = append(blocks, n.h2("audit.changes", ""))
		blocks = append(blocks, n.changes()...)
	}
	return blocks
}

// tone is that of the worst finding.
func (n note) tone() page.Tone {
	tone := page.Good
	for _, f := range n.text.Findings {
		switch f.Severity {
		case audit.Differs:
			return page.Bad
		case audit.Question:
			tone = page.Warn
		}
	}
	return tone
}

func (n note) factTable(facts [][2]string) page.Table {
	t := page.Table{Columns: []page.Column{{Fit: true}, {Width: 1}}, Summary: n.say("audit.filecaption")}
	for _, f := range facts {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			{Runs: muted(f[0]), Header: true}, textCell(n.fit(f[1])),
		}})
	}
	return t
}

func (n note) findings() page.Block {
	t := page.Table{
		Columns: []page.Column{{Fit: true}, {Width: 1}},
		Head:    [][]page.TableCell{n.headRow("audit.weight", "audit.what")},
		Summary: n.say("audit.findingtable"),
	}
	tones := map[audit.Severity]page.Tone{audit.Differs: page.Bad, audit.Question: page.Warn}
	for _, f := range n.text.Findings {
		t.Rows = append(t.Rows, page.TableRow{Tone: tones[f.Severity],
			Cells: []page.TableCell{rowHead(f.Word), textCell(n.fit(f.Text))}})
	}
	if len(t.Rows) == 0 {
		return n.para("audit.nothing")
	}
	return t
}

func (n note) signatures() page.Block {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 3}},
		Head:    [][]page.TableCell{n.headRow("audit.role", "audit.signed")},
		Summary: n.say("audit.signaturetable"),
	}
	for _, s := range n.text.Signatures {
		var runs []page.Run
		for i, l := range s.Lines {
			if i > 0 {
				runs[i-1].Text += " "
			}
			runs = append(runs, page.Run{Text: n.fit(l), Break: i > 0})
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(n.fit(s.Role)), cell(runs...)}})
	}
	if len(t.Rows) == 0 {
		return n.para("front.noroles")
	}
	return t
}

// questions are those on the readings as a whole.
func (n note) questions() []page.Block {
	blocks := []page.Block{n.h2("screen.title", "")}
	if len(n.text.Questions) == 0 {
		return append(blocks, n.para("screen.none"))
	}
	list := page.List{}
	for _, q := range n.text.Questions {
		list.Items = append(list.Items, append(plain(n.fit(q.Text)+" "),
			page.Run{Text: n.fit(join("; ", q.Rule, q.N, q.Odds, q.Where)), Face: page.Muted, Break: true}))
	}
	return append(blocks, n.lead("screen.intro"), list)
}

func (n note) changes() []page.Block {
	t := page.Table{
		Columns: []page.Column{{Width: 2}, {Width: 1}, {Width: 1}},
		Head:    [][]page.TableCell{n.headRow("audit.where", "audit.was", "audit.is")},
		Summary: n.say("audit.changetable"),
	}
	for _, c := range n.text.Changes {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(n.fit(c.Where)), textCell(n.fit(c.Old)), textCell(n.fit(c.New))}})
	}
	var blocks []page.Block
	if len(t.Rows) == 0 {
		blocks = append(blocks, n.para("audit.nochanges"))
	} else {
		blocks = append(blocks, t)
	}
	if n.text.MoreChange != "" {
		blocks = append(blocks, page.Paragraph{Runs: muted(n.text.MoreChange)})
	}
	return blocks
}

// wholeDash keeps a dash with the words on both of its sides.
var wholeDash = strings.NewReplacer(" – ", "\u00a0–\u00a0")
