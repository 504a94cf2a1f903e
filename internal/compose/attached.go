package compose

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"asleft/internal/data"
	"asleft/internal/enclosure"
	"asleft/internal/field"
	"asleft/internal/page"
)

// errNoFile: a row of attachments names a stored file that was not handed over.
var errNoFile = errors.New("stored, but not handed over")

// enclosed are the stored files of the rows that belong to this package.
func (in *Input) enclosed() ([]data.Part, error) {
	var parts []data.Part
	seen := map[string]bool{}
	for _, a := range in.Record.Attachments {
		name := a.Stored.Name
		if name == "" || seen[name] {
			continue
		}
		seen[name] = true
		i := slices.IndexFunc(in.Enclosures, func(f enclosure.File) bool { return f.Name == name })
		if i < 0 {
			return nil, fmt.Errorf("%s: %s: %w", a.At, name, errNoFile)
		}
		f := in.Enclosures[i]
		parts = append(parts, data.Part{Name: name, MIME: f.MIME, Kind: data.Supplement, Bytes: f.Bytes, Original: f.Original})
	}
	return parts, nil
}

// attached is a row of attachments that is in this package; n counts the rows
// from 1, as the names of the stored files do.
type attached struct {
	*field.Attachment
	n int
}

func (b *book) attachedHere() []attached {
	var out []attached
	for i := range b.in.Record.Attachments {
		if a := &b.in.Record.Attachments[i]; a.Stored.Name != "" {
			out = append(out, attached{a, i + 1})
		}
	}
	return out
}

// photosOf are the photos of a cell; those of the tower belong to cell 0.
func (b *book) photosOf(cell int) []attached {
	return slices.DeleteFunc(b.attachedHere(), func(a attached) bool {
		return a.Kind.Value != field.Photo || a.Cell.Value != cell
	})
}

func photosAnchor(cell int) string { return cellAnchor(cell) + ".photos" }

// Heights that photos may have, in points: alone in a row, and two side by side.
const (
	photoAlone  = 330
	photoBeside = 225
	photoPixel  = 0.75 // of one pixel at most, so that a small picture stays small
)

// photoPages are the photos of a cell, or of the tower, from a new page on.
func (b *book) photoPages(cell int) []page.Block {
	list := b.photosOf(cell)
	if len(list) == 0 {
		return nil
	}
	blocks := []page.Block{page.Heading{Level: 3, Runs: plain(b.say("attached.photos")), Anchor: photosAnchor(cell)}}
	if len(list) == 1 {
		return append(blocks, b.photo(list[0], photoAlone))
	}
	for pair := range slices.Chunk(list, 2) {
		row := halves([]page.Block{b.photo(pair[0], photoBeside)}, nil)
		if len(pair) == 2 {
			row.Blocks[1] = []page.Block{b.photo(pair[1], photoBeside)}
		}
		blocks = append(blocks, row)
	}
	return blocks
}

// cellPhotos begin a page of their own.
func (b *book) cellPhotos(c towerCell) []page.Block {
	blocks := b.photoPages(c.judged.Number)
	if len(blocks) == 0 {
		return nil
	}
	return append([]page.Block{page.Break{}}, blocks...)
}

// photo is a photo with its number, its caption, and the hash of the picture as
// it came from the camera.
func (b *book) photo(a attached, height float64) page.Photo {
	i := slices.IndexFunc(b.in.Enclosures, func(f enclosure.File) bool { return f.Name == a.Stored.Name })
	caption := b.text(a.Caption)
	number := b.say("attached.number.photo", "n", strconv.Itoa(a.n))
	hash, half := a.Stored.Original, len(a.Stored.Original)/2
	return page.Photo{
		JPEG: b.in.Enclosures[i].Bytes, Width: a.Stored.Width, Height: a.Stored.Height,
		MaxHeight: min(height, photoPixel*float64(a.Stored.Height)),
		Alt:       join(": ", number, caption),
		Caption: []page.Run{
			{Text: number + "  ", Face: page.Bold}, {Text: caption + " "},
			{Text: b.say("attached.original") + " ", Face: page.Muted, Break: true},
			{Text: hash[:half] + " ", Face: page.Mono, Break: true},
			{Text: hash[half:], Face: page.Mono, Break: true},
		},
	}
}

// attachments lists everything that was attached, and shows the photos of the
// tower.
func (b *book) attachedPages() []page.Block {
	blocks := []page.Block{b.h2("attached.title", anchorAttached), b.lead(b.attachedIntro()), b.attachedTable()}
	return append(blocks, b.photoPages(0)...)
}

func (b *book) attachedIntro() string {
	if b.attaches() {
		return "attached.inside"
	}
	return "attached.beside"
}

// attachedTable has a row for each attachment. The hash is that of the file as
// the workbook named it.
func (b *book) attachedTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Fit: true, Align: page.Right}, {Fit: true}, {Fit: true}, {Width: 1}},
		Head:    [][]page.TableCell{b.headRow("attached.no", "attached.what", "lists.cell", "attached.caption")},
		Summary: b.say("attached.table"),
	}
	for _, a := range b.attachedHere() {
		what := plain(b.code("choice.attachment", a.Kind))
		if a.Kind.Value == field.Photo {
			what = linked(what, photosAnchor(a.Cell.Value))
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(strconv.Itoa(a.n)), {Runs: what}, textCell(b.or(b.counted(a.Cell), "attached.tower")),
			{Runs: []page.Run{
				{Text: b.text(a.Caption) + " "},
				{Text: b.text(a.File) + " ", Face: page.Muted, Break: true},
				{Text: a.Stored.Original, Face: page.Mono, Break: true, ID: b.claim(data.AttachmentID(a.n-1, "original"))},
			}},
		}})
	}
	return t
}

// attachedWord says what a stored file is: what kind of paper, and its caption.
func (b *book) attachedWord(name string) string {
	for _, a := range b.attachedHere() {
		if a.Stored.Name == name {
			return join(": ", b.code("choice.attachment", a.Kind), b.text(a.Caption))
		}
	}
	return b.say("archive.part.source")
}
