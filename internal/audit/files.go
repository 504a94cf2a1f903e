package audit

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/data"
)

// files compares the attached files, or those beside the package, with the
// manifest, and both with what the pages print.
func (a *audit) files() {
	m := a.find(data.ManifestName)
	printed, fingerprints := printedIn(a.reader)
	if m == nil {
		if len(a.parts) > 0 {
			a.add(Differs, CodeManifest, text("fact", ""))
		}
		a.given(fingerprints...)
		return
	}
	a.out.Package.Fingerprint = data.Fingerprint(m.Bytes)
	a.given(a.out.Package.Fingerprint)
	if len(fingerprints) > 0 && !slices.Contains(fingerprints, a.out.Package.Fingerprint) {
		a.add(Differs, CodeManifestPrinted, text("found", a.out.Package.Fingerprint), text("printed", strings.Join(fingerprints, ", ")))
	}
	list, err := data.ReadManifest(m.Bytes)
	if err != nil {
		a.add(Differs, CodeManifest, text("fact", err.Error()))
		list = &data.Listing{}
	} else {
		a.manifest(list)
	}
	for i := range a.parts {
		p := &a.parts[i]
		if want, ok := printed[p.Name]; ok && want != p.SHA256() {
			a.add(Differs, CodeFilePrinted, text("file", p.Name))
		}
	}
	a.order(list)
}

// collect takes the attached files; a package for archives has them beside it.
func (a *audit) collect() {
	found, faults := a.reader.FoundFiles()
	for _, f := range faults {
		a.add(Differs, CodeFileBroken, text("file", f.Name), text("fact", f.Err.Error()))
	}
	for _, f := range found {
		kind := data.Derived
		if f.Relationship == archive.Source {
			kind = data.Source
		}
		a.parts = append(a.parts, data.Part{Name: f.Name, MIME: f.MIME, Kind: kind, Bytes: f.Bytes})
	}
	if len(a.parts) > 0 || len(faults) > 0 {
		return
	}
	for _, name := range sortedKeys(a.o.Beside) {
		kind := data.Derived
		if strings.HasSuffix(strings.ToLower(name), ".xlsx") {
			kind = data.Source
		}
		a.parts = append(a.parts, data.Part{Name: name, Kind: kind, Bytes: a.o.Beside[name]})
	}
}

func (a *audit) find(name string) *data.Part {
	for i := range a.parts {
		if a.parts[i].Name == name {
			return &a.parts[i]
		}
	}
	return nil
}

// manifest compares every file with its line.
func (a *audit) manifest(list *data.Listing) {
	lines, byHash := map[string]data.Listed{}, map[string]string{}
	for _, l := range list.Files {
		lines[l.Name], byHash[l.SHA256] = l, l.Name
	}
	seen := map[string]bool{data.ManifestName: true}
	for i := range a.parts {
		p := &a.parts[i]
		if p.Name == data.ManifestName {
			continue
		}
		seen[p.Name] = true
		l, ok := lines[p.Name]
		other := byHash[p.SHA256()]
		switch {
		case !ok:
			a.add(Differs, CodeFileUnlisted, text("file", p.Name))
		case l.SHA256 == p.SHA256() && l.Size == len(p.Bytes):
		case other != "" && other != p.Name:
			a.add(Differs, CodeFileSwapped, text("file", p.Name), text("other", other))
		default:
			a.add(Differs, CodeFileHash, text("file", p.Name))
		}
	}
	for _, l := range list.Files {
		if !seen[l.Name] {
			seen[l.Name] = true
			a.add(Differs, CodeFileMissing, text("file", l.Name))
		}
	}
}

// order puts the files in the order of the manifest, and takes their kinds from
// it.
func (a *audit) order(list *data.Listing) {
	var out []data.Part
	taken := map[string]bool{}
	for _, l := range list.Files {
		if p := a.find(l.Name); p != nil && !taken[l.Name] {
			taken[l.Name] = true
			q := *p
			q.Kind = l.Kind
			out = append(out, q)
		}
	}
	for _, p := range a.parts {
		if !taken[p.Name] {
			out = append(out, p)
		}
	}
	a.parts = out
}

// given compares a fingerprint known from elsewhere with that of the manifest, or
// else with what is printed.
func (a *audit) given(found ...string) {
	if a.o.Fingerprint == "" {
		return
	}
	given := strings.ToLower(a.o.Fingerprint)
	if a.known = slices.Contains(found, given); !a.known {
		a.add(Differs, CodeFingerprintGiven, text("given", given), text("found", strings.Join(found, ", ")))
	}
}

// describe takes from the data file what the package says about itself.
func (a *audit) describe() {
	p := &a.out.Package
	info, _ := a.reader.Info()
	p.Program, p.Title = clip(info["Creator"]), clip(info["Title"])
	if catalog, err := a.reader.Catalog(); err == nil {
		tag, _ := catalog["Lang"].(archive.String)
		p.Language = clip(archive.Text(tag))
	}
	f := a.find(data.DataName)
	if f == nil {
		return
	}
	values, err := data.Flatten(f.Bytes)
	if err != nil {
		a.add(Differs, CodeDataFile, text("fact", err.Error()))
		return
	}
	a.stated, a.values = f.Bytes, values
	say := func(path string) string { return clip(values[path].Text) }
	p.Program, p.State, p.Rules = say("program"), say("state"), say("rules.sha256")
	p.Language, p.Paper, p.Units, p.Profile = say("options.language"), say("options.paper"), say("options.units"), say("options.profile")
}

// Forms of what the archive page prints.
var (
	hashForm        = regexp.MustCompile(`^[0-9a-f]{64}$`)
	fingerprintForm = regexp.MustCompile(`^[0-9a-f]{8}$`)
)

// maxPrinted is how many texts in the form of a fingerprint are kept.
const maxPrinted = 50

// printedIn finds the hashes of files by name, and what may be the fingerprint, in
// the tables of the pages: a row of a hash begins with the name of its file.
func printedIn(r *archive.Reader) (hashes map[string]string, fingerprints []string) {
	hashes = map[string]string{}
	root, err := r.Structure()
	if err != nil {
		return hashes, nil
	}
	rows(root, func(row *archive.Element) {
		var cells []string
		for _, k := range row.Kids {
			if k.Element == nil || len(cells) > 8 {
				continue
			}
			s, err := r.TextOf(k.Element)
			if err != nil {
				return
			}
			cells = append(cells, s)
		}
		if len(cells) < 2 {
			return
		}
		switch last := cells[len(cells)-1]; {
		case hashForm.MatchString(last):
			hashes[cells[0]] = last
		case len(cells) == 2 && fingerprintForm.MatchString(last) && len(fingerprints) < maxPrinted:
			fingerprints = append(fingerprints, last)
		}
	})
	return hashes, fingerprints
}

// rows visits the rows of all tables.
func rows(e *archive.Element, visit func(*archive.Element)) {
	if e.Role == archive.RoleRow {
		visit(e)
	}
	for _, k := range e.Kids {
		if k.Element != nil {
			rows(k.Element, visit)
		}
	}
}

// names are the names of the workbooks as they were called.
func (a *audit) names() []string {
	var out []string
	for i := range maxNames {
		v, ok := a.values[fmt.Sprintf("files.%d.name", i)]
		if !ok {
			break
		}
		out = append(out, v.Text)
	}
	return out
}

// maxNames is more than a package has workbooks.
const maxNames = 1000
