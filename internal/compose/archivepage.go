package compose

import (
	"maps"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"asleft/internal/data"
	"asleft/internal/licenses"
	"asleft/internal/page"
)

// hashSize keeps the 64 digits of a hash on one line.
const hashSize = 7.5

// archivePage is the last page: what the file claims to be, what made it, what
// is inside, and how to check all that without the program.
func (b *book) archivePage() []page.Block {
	blocks := []page.Block{
		b.h2("archive.title", anchorArchive),
		b.pairs("archive.facts", [][2]string{
			{"archive.profile", b.say("archive.profiles", "profile", ProfileName(b.in.Options.Profile))},
			{"archive.program", b.in.Program},
			{"archive.libraries", licensed(licenses.Modules())},
			{"archive.faces", licensed(licenses.Embedded())},
			{"archive.rules", b.say("archive.ruleset", "version", b.in.Rules.Version, "hash", b.in.Rules.Hash)},
			{"front.fingerprint", b.made.fingerprint},
			{"archive.language", b.in.Words.Tag()},
		}),
		b.h3("archive.files"),
	}
	if b.attaches() {
		blocks = append(blocks, b.lead("archive.insideintro"))
	} else {
		blocks = append(blocks, b.lead("archive.besideintro"))
	}
	blocks = append(blocks, b.fileTable(),
		b.h3("archive.check"),
		page.List{Numbered: true, Items: b.steps(b.checkSteps(), "fingerprint", b.made.fingerprint,
			"manifest", data.ManifestName)},
		b.para("archive.fingerprintwhy"))
	if !b.attaches() {
		blocks = append(blocks, b.manifest()...)
	}
	return append(blocks, page.Paragraph{Runs: bold(b.say("archive.end")), Align: page.Center})
}

// majorVersion ends the path of a module.
var majorVersion = regexp.MustCompile(`/v\d+$`)

// licensed names what others made, by license.
func licensed(parts []licenses.Part) string {
	names := map[string][]string{}
	for _, p := range parts {
		name := strings.TrimPrefix(majorVersion.ReplaceAllString(p.Name, ""), "golang.org/")
		if !strings.HasPrefix(name, "x/") {
			name = path.Base(name)
		}
		names[p.License] = append(names[p.License], name)
	}
	var out []string
	for _, license := range slices.Sorted(maps.Keys(names)) {
		out = append(out, license+": "+strings.Join(names[license], ", "))
	}
	return strings.Join(out, "; ")
}

func (b *book) checkSteps() string {
	if b.attaches() {
		return "archive.inside"
	}
	return "archive.beside"
}

// fileTable lists the files of the package with what a person needs to find and
// check them.
func (b *book) fileTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 1.2}, {Fit: true, Align: page.Right}, {Fit: true}},
		Head:    [][]page.TableCell{b.headRow("archive.file", "archive.what", "archive.size", "archive.sha256")},
		Size:    hashSize,
		Summary: b.say("archive.filetable"),
	}
	for _, p := range b.made.parts {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(p.Name),
			textCell(join(", ", b.say("archive.relationship."+string(relationship(p.Kind))), b.partWord(p))),
			textCell(strconv.Itoa(len(p.Bytes))),
			{Runs: mono(p.SHA256())},
		}})
	}
	return t
}

// manifest prints the manifest line by line, for archives that keep no other
// file: whoever types it in again gets its hash, and so the fingerprint.
func (b *book) manifest() []page.Block {
	t := page.Table{
		Columns: []page.Column{{Fit: true, Align: page.Right}, {Width: 1}},
		Head:    [][]page.TableCell{b.headRow("archive.line", "archive.text")},
		Size:    hashSize,
		Summary: b.say("archive.manifesttable"),
	}
	text := string(b.made.parts[len(b.made.parts)-1].Bytes)
	for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(strconv.Itoa(i + 1)), {Runs: mono(line)},
		}})
	}
	return []page.Block{b.h3("archive.manifest"), b.lead("archive.manifestintro"), t}
}
