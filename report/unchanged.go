package report

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"slices"

	"asleft/internal/archive"
	"asleft/internal/compose"
	"asleft/internal/data"
	"asleft/internal/enclosure"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/register"
)

// unchanged tells whether the package that is there was made from these very
// workbooks and what they name, by this program and rule set, with what was asked for. Making it
// again would then give the same bytes.
func (b *Batch) unchanged(files []register.File, folder fs.FS, old func(name string) []byte) bool {
	pdf := old("")
	if pdf == nil {
		return false
	}
	manifest, d, err := register.Data(pdf, old)
	rules, rerr := ruleSet()
	if err != nil || rerr != nil || d.Program != program || d.Rules.SHA256 != rules.Hash || !b.asked(d) || !sameAttachments(d, folder) {
		return false
	}
	var was, now []string
	for _, f := range d.Files {
		was = append(was, f.Name+" "+f.SHA256)
	}
	for _, f := range files {
		sum := sha256.Sum256(f.Bytes)
		now = append(now, f.Name+" "+hex.EncodeToString(sum[:]))
	}
	return slices.Equal(was, now) && (!b.Options.ArchiveOnly || besideWhole(manifest, old))
}

// besideWhole tells whether the folder beside an archive-only package holds what
// its manifest lists.
func besideWhole(manifest []byte, old func(name string) []byte) bool {
	list, err := data.ReadManifest(manifest)
	if err != nil {
		return false
	}
	return !slices.ContainsFunc(list.Files, func(f data.Listed) bool {
		part := data.Part{Bytes: old(f.Name)}
		return part.SHA256() != f.SHA256
	})
}

// sameAttachments tells whether the files that the workbooks name are still those
// that went into a package.
func sameAttachments(d *data.Document, folder fs.FS) bool {
	for _, a := range d.Attachments {
		typed, _ := a.Entries.Get("file")
		if a.Stored == nil || enclosure.Hash(folder, typed.Value) != a.Stored.Original {
			return false
		}
	}
	return true
}

// asked tells whether a package was made with the options asked for. What is not
// asked for follows the workbook, which is the same. A package of one cell, and one
// that says what has changed, is another one than a folder gets.
func (b *Batch) asked(d *data.Document) bool {
	profile := compose.ProfileName(archive.PDFA3A)
	if b.Options.ArchiveOnly {
		profile = compose.ProfileName(archive.PDFA2A)
	}
	said := func(key string) string { e, _ := d.Project.Get(key); return e.Value }
	return len(b.Options.Previous) == 0 && d.Previous == nil && d.Options.Cell == 0 &&
		d.Options.Profile == profile &&
		d.Options.Language == first(b.Options.Language, said("language"), english) &&
		d.Options.Paper == first(b.Options.Paper, said("paper"), page.Letter.Name) &&
		d.Options.Units == first(b.Options.Units, said("units"), measure.UnitInch.String())
}
