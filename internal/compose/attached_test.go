package compose

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/enclosure"
	"asleft/internal/field"
	"asleft/internal/page"
)

// attach gives a tower photos and a certificate.
func attach(t testing.TB, in *Input) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 640, 480))
	for i := range 480 {
		img.SetRGBA(i, i, color.RGBA{200, 40, uint8(i), 255})
	}
	var picture bytes.Buffer
	if err := png.Encode(&picture, img); err != nil {
		t.Fatal(err)
	}
	folder := fstest.MapFS{"certificate.pdf": {Data: []byte(certificate)}}
	m := &maker{sheet: "Attachments"}
	for i, name := range []string{"hub.png", "guard.png", "shims.png", "plate.png"} {
		folder[name] = &fstest.MapFile{Data: append(bytes.Clone(picture.Bytes()), byte(i))} // each its own hash
		a := field.Attachment{Kind: m.text("photo"), File: m.text(name), Caption: m.text("What " + name + " shows")}
		if i < 3 {
			a.Cell = m.count(1)
		}
		in.Record.Attachments = append(in.Record.Attachments, a)
	}
	in.Record.Attachments = append(in.Record.Attachments, field.Attachment{
		Kind: m.text("certificate"), File: m.text("certificate.pdf"), Caption: m.text("Certificate C-2231")})
	files, faults := enclosure.Load(in.Record.Attachments, []fs.FS{folder})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	in.Enclosures = files
}

// certificate is the least file that has a page.
const certificate = "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n" +
	"2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n" +
	"3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>\nendobj\n" +
	"xref\n0 4\n0000000000 65535 f \n0000000009 00000 n \n0000000054 00000 n \n0000000105 00000 n \n" +
	"trailer\n<</Size 4/Root 1 0 R>>\nstartxref\n166\n%%EOF\n"

func photosIn(b page.Book) map[string][]page.Photo {
	out := map[string][]page.Photo{}
	var walk func(key string, blocks []page.Block)
	walk = func(key string, blocks []page.Block) {
		for _, x := range blocks {
			switch x := x.(type) {
			case page.Photo:
				out[key] = append(out[key], x)
			case page.Columns:
				for _, c := range x.Blocks {
					walk(key, c)
				}
			}
		}
	}
	for _, s := range b.Sections {
		walk(s.Key, s.Blocks)
	}
	return out
}

// TestPhotosStandWhereTheyBelong: those of a cell at the end of it, those of the
// tower and the list of all in a section of their own; each with its caption for
// those who cannot see it and with the hash of what came from the camera.
func TestPhotosStandWhereTheyBelong(t *testing.T) {
	in := inputOf(t, goodPlan)
	attach(t, &in)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	got := photosIn(b)
	if len(got["cell.1"]) != 3 || len(got["attachments"]) != 1 {
		t.Fatalf("photos in %v", got)
	}
	for i, p := range got["cell.1"] {
		a := in.Record.Attachments[i]
		var caption strings.Builder
		for _, r := range p.Caption {
			caption.WriteString(r.Text)
		}
		if !strings.Contains(p.Alt, a.Caption.Value) || !strings.Contains(strings.ReplaceAll(caption.String(), " ", ""), a.Stored.Original) {
			t.Errorf("photo %d: alternative %q, caption %q", i, p.Alt, caption.String())
		}
	}
	if rows := len(tablesIn(b)["attachments"][0].Rows); rows != 5 {
		t.Errorf("%d rows in the list", rows)
	}
	out, err := Write(in)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Write(in)
	if err != nil || !bytes.Equal(out, again) {
		t.Errorf("two runs gave different bytes: %v", err)
	}
	files, err := Files(in)
	if err != nil {
		t.Fatal(err)
	}
	manifest := string(files[len(files)-1].Bytes)
	for _, a := range in.Record.Attachments {
		if !strings.Contains(manifest, a.Stored.Original) {
			t.Errorf("the hash of %s is not in the manifest", a.File.Value)
		}
	}
}

func TestStoredFileThatIsNotHandedOver(t *testing.T) {
	in := inputOf(t, goodPlan)
	attach(t, &in)
	in.Enclosures = in.Enclosures[1:]
	if _, err := Write(in); err == nil {
		t.Error("no error")
	}
}

// later is a tower and, as Previous, how it was before something of every kind
// has changed in it.
func later(t testing.TB, p plan, change func(*field.Record)) Input {
	t.Helper()
	in := inputOf(t, p)
	before, err := Data(in)
	if err != nil {
		t.Fatal(err)
	}
	if in.Previous, err = NewPrevious(before, nil); err != nil {
		t.Fatal(err)
	}
	change(&in.Record)
	in.Assessment = assess.Assess(in.Record, in.Rules)
	return in
}

// changesIn are the lines of the section, by heading's table.
func changesIn(t *testing.T, in Input) string {
	t.Helper()
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	var s strings.Builder
	for _, table := range tablesIn(b)["changes"][1:] {
		s.WriteString("== " + table.Summary + "\n")
		for _, row := range table.Rows {
			for i, c := range row.Cells {
				if i > 0 {
					s.WriteString(" | ")
				}
				for _, r := range c.Runs {
					s.WriteString(r.Text)
				}
			}
			s.WriteString("\n")
		}
	}
	return s.String()
}

// TestChangesAreTold changes one thing of every kind, and asks for it in words.
func TestChangesAreTold(t *testing.T) {
	m := &maker{sheet: "Changed"}
	in := later(t, demoPlan, func(r *field.Record) {
		r.Project.Revision = m.text("B")
		r.Cells[0].Tilt.Rounds[1].Readings[3].Value = m.length("9")
		r.Cells[1].Clearance.Rounds[0].Readings[0].Value = field.Length{}
		r.Cells[2].InPackage = m.flag(false)
		r.Cells[0].Tilt.Rounds[1].Head.ReadBy = m.text("K. New")
		r.Limits[0].Max = m.length("3/8")
		r.OpenItems = append(r.OpenItems, field.OpenItem{Number: m.text("X-7"), Item: m.text("new one"), Owner: m.text("K. New"), Status: m.text("open")})
		gone := r.Cells[5]
		r.Cells = r.Cells[:5]
		gone.Number = 9
		r.Cells = append(r.Cells, gone)
	})
	got := changesIn(t, in)
	for _, want := range []string{
		"== Cells\nCell 3, In this package | yes | no\nCell 9 | nothing | added\nCell 6 | taken out | nothing\n",
		"Cell 1, Fan tilt | ", " | outside\n",
		"Fan tilt, Most | ", " | 3/8\n",
		"Cell 1, Fan tilt, As left, Position 4 | ", " | 9 in\n",
		"Cell 2, Tip clearance, As found, Position 1 | ", " | nothing\n",
		"Project, Revision | A | B\n",
		"Open items, X-7 | nothing | 4 values added\n",
		"Cell 1, Fan tilt, As left, Read by | ", " | K. New\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not told in:\n%s", want, got)
		}
	}
}

func TestNothingChanged(t *testing.T) {
	in := later(t, goodPlan, func(*field.Record) {})
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(tablesIn(b)["changes"]); n != 1 {
		t.Errorf("%d tables", n)
	}
}

// TestEveryChangeHasWords compares with a form on which nothing was typed, and
// the other way round: every entry that there is changes. None is named by its
// key in the data file.
func TestEveryChangeHasWords(t *testing.T) {
	full, bare := inputOf(t, wholePlan), inputOf(t, wholePlan)
	attach(t, &full)
	for i := range bare.Record.Cells {
		bare.Record.Cells[i] = field.Cell{Number: bare.Record.Cells[i].Number}
	}
	bare.Record = field.Record{Files: bare.Record.Files, Cells: bare.Record.Cells, Project: field.Project{IssueDate: bare.Record.Project.IssueDate}}
	bare.Assessment = assess.Assess(bare.Record, bare.Rules)
	for _, way := range [][2]*Input{{&full, &bare}, {&bare, &full}} {
		before, err := Data(*way[0])
		if err != nil {
			t.Fatal(err)
		}
		in := *way[1]
		if in.Previous, err = NewPrevious(before, nil); err != nil {
			t.Fatal(err)
		}
		after, err := Data(in)
		if err != nil {
			t.Fatal(err)
		}
		list, err := data.CompareFiles(before, after)
		if err != nil {
			t.Fatal(err)
		}
		b := newBook(&in, made{})
		for _, d := range list {
			if d.Kind != data.DiffTyped && d.Kind != data.DiffReading && d.Kind != data.DiffLimit || repeated(d.Keys) {
				continue
			}
			if w := b.whereText(newChange(d)); w == "" || strings.HasSuffix(w, ", "+b.say("changes.value")) {
				t.Errorf("%s is named %q", d.Path(), w)
			}
		}
		if err := b.err(); err != nil {
			t.Error(err)
		}
		if _, err := Package(in); err != nil {
			t.Error(err)
		}
	}
}

// TestOneCellAlone: the pages of one cell, with its own state, and the tower told.
func TestOneCellAlone(t *testing.T) {
	in := inputOf(t, demoPlan)
	attach(t, &in)
	in.Options.Cell = 2
	in.Assessment = assess.AssessCell(in.Record, in.Rules, 2)
	for i := range in.Record.Attachments[:3] {
		in.Record.Attachments[i].Stored = field.Stored{}
	}
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	var cells []string
	for _, s := range b.Sections {
		if strings.HasPrefix(s.Key, "cell.") {
			cells = append(cells, s.Key)
		}
		if !strings.Contains(s.Head.Left, "cell 2") {
			t.Errorf("head %q", s.Head.Left)
		}
	}
	if len(cells) != 1 || cells[0] != "cell.2" || !strings.HasSuffix(b.Title, "cell 2") {
		t.Errorf("cells %v, title %q", cells, b.Title)
	}
	if n := len(photosIn(b)["attachments"]); n != 1 {
		t.Errorf("%d photos of the tower", n)
	}
	for _, f := range b.Files {
		if f.Name == data.DataName && !bytes.Contains(f.Bytes, []byte("\"cell\":2\n")) {
			t.Error("the data file does not say which cell")
		}
	}
}
