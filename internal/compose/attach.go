package compose

import (
	"fmt"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/field"
)

// sourceNames are the names of the workbooks inside the package: plain ASCII,
// and no two the same.
func sourceNames(files []field.File) []string {
	var out []string
	seen := map[string]bool{}
	for _, f := range files {
		name := asciiName(f.Name)
		for n := 2; seen[name]; n++ {
			name = fmt.Sprintf("%d-%s", n, asciiName(f.Name))
		}
		seen[name] = true
		out = append(out, name)
	}
	return out
}

// attachments are the files inside the document; none where the profile keeps
// them in a folder beside it.
func (b *book) attachments() []archive.File {
	if !b.attaches() {
		return nil
	}
	var out []archive.File
	for _, p := range b.made.parts {
		f := archive.File{
			Name:         p.Name,
			MIME:         p.MIME,
			Description:  b.partWord(p),
			Relationship: relationship(p.Kind),
			Modified:     b.issued(),
			Bytes:        p.Bytes,
		}
		if b.packed != nil {
			f.Packed, f.Bytes = <-b.packed, nil
		}
		out = append(out, f)
	}
	return out
}

// packFiles begins to pack the attachments, while the pages are being composed.
func (b *book) packFiles() {
	if !b.attaches() {
		return
	}
	effort := b.effort()
	parts, packed := b.made.parts, make(chan *archive.Packed, len(b.made.parts))
	b.packed = packed
	go func() {
		for _, p := range parts {
			packed <- archive.Pack(p.Bytes, effort)
		}
	}()
}

// effort is more for a small tower, whose package has much that does not grow with its
// cells: 100 KB a cell are kept from 6 cells on, and the time that it takes is little.
func (b *book) effort() archive.Effort {
	const small, middle = 8, 24
	switch n := len(b.cells()); {
	case n <= small:
		return archive.Tight
	case n <= middle:
		return archive.Balanced
	}
	return archive.Quick
}

func (b *book) attaches() bool { return b.in.Options.Profile == archive.PDFA3A }

func relationship(k data.Kind) archive.Relationship {
	switch k {
	case data.Source:
		return archive.Source
	case data.Supplement:
		return archive.Supplement
	}
	return archive.Data
}

// partWord says what a file of the package is.
func (b *book) partWord(p data.Part) string {
	if p.Kind == data.Supplement {
		return b.attachedWord(p.Name)
	}
	switch p.Name {
	case data.DataName:
		return b.say("archive.part.data")
	case data.ReadingsName:
		return b.say("archive.part.readings")
	case data.ItemsName:
		return b.say("archive.part.items")
	case data.EntriesName:
		return b.say("archive.part.entries")
	case data.PreviousDataName:
		return b.say("archive.part.previous")
	case data.PreviousManifestName:
		return b.say("archive.part.previousmanifest")
	case data.LimitsName:
		return b.say("archive.part.limits")
	case data.ManifestName:
		return b.say("archive.part.manifest")
	}
	return b.say("archive.part.source")
}
