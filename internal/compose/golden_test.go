package compose

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/page"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference before committing it")

// TestContentOfSmallTowers keeps what stands on the pages of small towers as
// text. Regenerate with: go test ./internal/compose -run Content -update
func TestContentOfSmallTowers(t *testing.T) {
	small := plan{cells: 1, blades: 4, positions: 4, rounds: 2}
	for _, c := range []struct {
		name    string
		plan    plan
		profile archive.Profile
	}{
		{"one_cell", small, archive.PDFA3A},
		{"one_cell_archive_only", small, archive.PDFA2A},
		{"one_cell_whole_job", plan{cells: 1, blades: 4, positions: 4, rounds: 2, full: true}, archive.PDFA3A},
		{"three_cells_with_gaps", plan{cells: 3, blades: 4, positions: 8, rounds: 3}, archive.PDFA3A},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := inputOf(t, c.plan)
			in.Options.Profile = c.profile
			b, err := Package(in)
			if err != nil {
				t.Fatal(err)
			}
			golden(t, filepath.Join("testdata", c.name+".txt"), dump(b))
		})
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
		t.Errorf("%s (-want +got):\n%s", name, d)
	}
}

// dump prints a book for people: a line per line, tables by row, marks and
// tones in words.
func dump(b page.Book) string {
	var s strings.Builder
	fmt.Fprintf(&s, "%s, %s, draft %q\n%s\n", b.Title, b.Paper.Name, b.Draft, b.Subject)
	for _, f := range b.Files {
		fmt.Fprintf(&s, "file %s %s %s: %s\n", f.Name, f.MIME, f.Relationship, f.Description)
	}
	for _, x := range b.Sections {
		fmt.Fprintf(&s, "\n==== %s | %s | %s | %s | %s\n", x.Key, x.Head.Left, x.Head.Right, x.Head.FootLeft, x.Head.Notice)
		dumpBlocks(&s, "", x.Blocks)
	}
	return s.String()
}

func dumpBlocks(s *strings.Builder, indent string, blocks []page.Block) {
	for _, b := range blocks {
		dumpBlock(s, indent, b)
	}
}

func dumpBlock(s *strings.Builder, indent string, b page.Block) {
	line := func(format string, a ...any) { fmt.Fprintf(s, indent+format+"\n", a...) }
	switch b := b.(type) {
	case page.Heading:
		line("%s %s  [%s]", strings.Repeat("#", b.Level), text(b.Runs), b.Bookmark)
	case page.Paragraph:
		line("%s", text(b.Runs))
	case page.List:
		for i, item := range b.Items {
			sign := "-"
			if b.Numbered {
				sign = fmt.Sprintf("%d.", i+1)
			}
			line("%s %s", sign, text(item))
		}
	case page.Table:
		line("table: %s", b.Summary)
		for _, row := range b.Head {
			line("  | %s", cells(row))
		}
		for _, row := range b.Rows {
			line("  %s", cells(row.Cells))
		}
	case page.Picture:
		w, h := b.Figure.Size()
		line("figure %gx%g: %s", w, h, b.Alt)
	case page.Columns:
		for i, col := range b.Blocks {
			line("column %d", i+1)
			dumpBlocks(s, indent+"    ", col)
		}
	case page.Panel:
		line("panel %s", toneWords[b.Tone])
		dumpBlocks(s, indent+"    ", b.Blocks)
	case page.Tiles:
		for _, tile := range b.Tiles {
			var lines []string
			for _, l := range tile.Lines {
				lines = append(lines, text(l))
			}
			line("tile %s %s: %s", toneWords[tile.Tone], text(tile.Head), strings.Join(lines, " / "))
		}
	case page.Signature:
		line("signature %s, %s (%s)", b.Name, b.Title, b.Tooltip)
		for _, l := range b.Lines {
			line("    %s: %s", l.Label, l.Text)
		}
	default:
		line("%T", b)
	}
}

var toneWords = map[page.Tone]string{page.Plain: "plain", page.Quiet: "quiet", page.Good: "good", page.Warn: "warn", page.Bad: "bad"}

var markWords = map[page.Mark]string{page.MarkWithin: "(/)", page.MarkNear: "(_)", page.MarkOutside: "(!)",
	page.MarkRecheck: "(re)", page.MarkMissing: "[ ]", page.MarkNoLimit: "[?]", page.MarkNotAsked: "(-)",
	page.MarkByOthers: "(..)", page.MarkBox: "[box]", page.MarkReady: "[/]", page.MarkNotReady: "[=]"}

func text(runs []page.Run) string {
	var s strings.Builder
	for _, r := range runs {
		if m := markWords[r.Mark]; m != "" {
			s.WriteString(m + " ")
		}
		s.WriteString(r.Text)
		if r.ID != "" {
			s.WriteString(" {" + r.ID + "}")
		}
	}
	return s.String()
}

func cells(row []page.TableCell) string {
	var out []string
	for _, c := range row {
		t := text(c.Runs)
		if c.Span > 1 {
			t += fmt.Sprintf(" <%d>", c.Span)
		}
		out = append(out, t)
	}
	return strings.Join(out, " | ")
}
