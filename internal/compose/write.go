package compose

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/page"
)

// made is what exists before the first page: the files of the package, the
// manifest over them last, and the fingerprint that every page prints.
type made struct {
	parts       []data.Part
	set         *data.Set
	fingerprint string
	changes     changes // since the package that came before
}

const workbookMIME = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

// makeFiles makes the data file, the tables and the manifest. They come before
// the pages, which print their hashes.
func makeFiles(in *Input) (made, error) {
	files := in.Record.Files
	if len(in.Sources) != len(files) {
		return made{}, fmt.Errorf("%d workbooks for a record of %d", len(in.Sources), len(files))
	}
	var sources []data.Part
	for i, name := range sourceNames(files) {
		sources = append(sources, data.Part{Name: name, MIME: workbookMIME, Kind: data.Source, Bytes: in.Sources[i]})
	}
	enclosed, err := in.enclosed()
	if err != nil {
		return made{}, err
	}
	sources = append(append(sources, enclosed...), in.Previous.parts()...)
	set, err := data.Make(in.dataInput(), sources)
	if err != nil {
		return made{}, err
	}
	m := made{parts: set.Parts, set: set, fingerprint: set.Fingerprint}
	err = m.compare(in)
	return m, err
}

// dataInput is the same input as the data file takes it.
func (in *Input) dataInput() data.Input {
	first, _ := in.units()
	return data.Input{
		Program:    in.Program,
		Language:   in.Words.Tag(),
		Paper:      in.paper().Name,
		Profile:    ProfileName(in.Options.Profile),
		Units:      first,
		Rules:      in.Rules,
		Record:     &in.Record,
		Assessment: &in.Assessment,
		Moves:      in.Moves,
		Cell:       in.Options.Cell,
		Previous:   in.Previous.stated(),
	}
}

// ProfileName is what the file claims, as it is written everywhere.
func ProfileName(p archive.Profile) string {
	if p == archive.PDFA2A {
		return "PDF/A-2a"
	}
	return "PDF/A-3a"
}

// asciiName makes a file name that every system and archive takes: ASCII
// letters, digits, dot, hyphen and underscore.
func asciiName(name string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9',
			strings.ContainsRune("._-", r):
			return r
		}
		return '_'
	}, name)
}

// Write makes the package and returns the finished bytes. Nothing comes back
// where anything at all is wrong; every mistake found is in the error.
func Write(in Input) ([]byte, error) {
	m, err := makeFiles(&in)
	if err != nil {
		return nil, err
	}
	b := newBook(&in, m)
	b.packFiles()
	content := b.book()
	if err := b.err(); err != nil {
		return nil, err
	}
	// What the pages hold in another form is let go: of a great tower it is a lot.
	m, b.made, b.ids, b.told = made{}, made{}, nil, nil
	out, err := page.Write(content)
	if err != nil {
		return nil, b.locate(err)
	}
	return out, nil
}

// locate adds the cell of the workbook to an error about a text that cannot be
// printed.
func (b *book) locate(err error) error {
	var bad *page.TextError
	if !errors.As(err, &bad) {
		return err
	}
	if at, known := b.typed[bad.Text]; known && at.Sheet != "" {
		return fmt.Errorf("%s: %w", at, err)
	}
	for _, text := range slices.Sorted(maps.Keys(b.typed)) {
		if at := b.typed[text]; at.Sheet != "" && strings.ContainsRune(text, bad.Rune) {
			return fmt.Errorf("%s: %w", at, err)
		}
	}
	return err
}

// Data is the data file alone, as it goes into the package.
func Data(in Input) ([]byte, error) {
	return data.Encode(in.dataInput())
}

// File is a file that goes into the package, or, with the archive-only profile,
// into the folder beside it.
type File struct {
	Name  string
	Bytes []byte
}

// Files are the workbooks, the data file, the tables and the manifest.
func Files(in Input) ([]File, error) {
	parts, err := Parts(in)
	var out []File
	for _, p := range parts {
		out = append(out, File{p.Name, p.Bytes})
	}
	return out, err
}

// Parts is [Files] with what each one is.
func Parts(in Input) ([]data.Part, error) {
	m, err := makeFiles(&in)
	return m.parts, err
}
