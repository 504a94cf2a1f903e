package audit

import (
	"bytes"
	"fmt"
	"maps"
	"slices"

	"asleft/internal/archive"
	"asleft/internal/data"
)

// rebuild makes the package anew from its workbooks and compares.
func (a *audit) rebuild() {
	p := &a.out.Package
	a.foreign = p.Program != a.o.Program
	if a.foreign {
		a.add(Note, CodeVersion, text("made", p.Program), text("audited", a.o.Program))
	}
	if !a.make() {
		if a.o.Make != nil {
			a.inspect()
		}
		return
	}
	first := a.firstRevision()
	a.equal = bytes.Equal(first, a.made.PDF)
	earlier := a.earlier()
	a.compareFiles(earlier)
	if a.equal {
		return
	}
	a.compareData(earlier[data.DataName])
	again, err := archive.Open(a.made.PDF)
	if err != nil {
		a.add(Differs, CodeUnread, text("what", "rebuilt"), text("fact", err.Error()))
		return
	}
	if onlyWrittenOtherwise(a.reader, again) {
		a.add(Question, CodeBytes, text("n", fmt.Sprint(firstDifference(first, a.made.PDF))))
		return
	}
	a.inspect()
	if a.foreign {
		a.compareValues(a.reader, again)
		return
	}
	a.comparePages(a.reader, again, false)
}

// onlyWrittenOtherwise tells whether two files have the same objects in the same
// places, and nothing else: another program has opened the one and saved it again.
// It gives the file a new second identifier, as it has to (ISO 32000-1, 14.4).
func onlyWrittenOtherwise(is, should *archive.Reader) bool {
	g := differences(is, should)
	for _, p := range g.found {
		if !slices.Equal(p.keys(), []string{"ID", "1"}) {
			return false
		}
	}
	return g.whole && g.unused() == 0
}

func (a *audit) firstRevision() []byte {
	return a.file[:a.signed.Revisions[0].End]
}

func firstDifference(x, y []byte) int {
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return i
		}
	}
	return min(len(x), len(y))
}

// longestProgram is the longest name of a program that is taken over.
const longestProgram = 80

// make makes the package anew; false where it cannot be made.
func (a *audit) make() bool {
	if a.o.Make == nil {
		return false
	}
	q := Request{Program: a.o.Program, Files: a.parts, Names: a.names()}
	p := &a.out.Package
	q.Language, q.Paper, q.Units, q.Profile = p.Language, p.Paper, p.Units, p.Profile
	if p.Program != "" && len(p.Program) <= longestProgram {
		q.Program = p.Program
	}
	if !slices.ContainsFunc(a.parts, func(p data.Part) bool { return p.Kind == data.Source }) {
		a.add(Question, CodeNoSources)
		return false
	}
	made, err := a.o.Make(q)
	if err != nil {
		a.add(Differs, CodeWorkbook, text("fact", err.Error()))
		return false
	}
	a.made = made
	return true
}

// compareFiles compares the files with those made anew, the data file apart: it is
// compared value by value.
func (a *audit) compareFiles(earlier map[string][]byte) {
	for _, m := range a.made.Files {
		p := a.find(m.Name)
		if p == nil || m.Name == data.DataName || m.Name == data.ManifestName || bytes.Equal(p.Bytes, m.Bytes) {
			continue
		}
		if was, ok := earlier[m.Name]; ok && bytes.Equal(p.Bytes, was) {
			continue
		}
		severity := Differs
		if a.foreign {
			severity = Question
		}
		a.add(severity, CodeFileRebuilt, text("file", m.Name))
	}
	if a.stated == nil && a.find(data.DataName) == nil {
		a.add(Differs, CodeDataFile, text("fact", ""))
	}
}

// earlier are data file and tables as the first release wrote them, from the data
// file made anew; none of a package that this version wrote.
func (a *audit) earlier() map[string][]byte {
	i := slices.IndexFunc(a.made.Files, func(p data.Part) bool { return p.Name == data.DataName })
	if !a.foreign || i < 0 {
		return nil
	}
	d, err := data.Read(a.made.Files[i].Bytes)
	if err != nil {
		return nil
	}
	files, err := d.Earlier()
	if err != nil {
		return nil
	}
	return files
}

// compareData compares every value of the data file with the one made anew, or as
// an earlier version would have written it.
func (a *audit) compareData(earlier []byte) {
	i := slices.IndexFunc(a.made.Files, func(p data.Part) bool { return p.Name == data.DataName })
	if a.stated == nil || i < 0 || bytes.Equal(a.stated, a.made.Files[i].Bytes) || earlier != nil && bytes.Equal(a.stated, earlier) {
		return
	}
	list, err := data.CompareFiles(a.stated, a.made.Files[i].Bytes)
	if err != nil {
		a.add(Differs, CodeDataFile, text("fact", err.Error()))
		return
	}
	if len(list) == 0 {
		a.add(Differs, CodeFileRebuilt, text("file", data.DataName))
	}
	for i := range list {
		a.value(&list[i])
	}
}

// value tells of a value that is stated otherwise than recomputed. Another version
// may judge otherwise, and may have values that this one did not know yet.
func (a *audit) value(d *data.Difference) {
	f := Finding{Severity: Differs, Code: CodeData + Code(d.Kind), Path: d.Path(), keys: d.Keys,
		Args: []Arg{valueArg("stated", d, d.Old), valueArg("recomputed", d, d.New)}}
	if a.foreign {
		switch d.Kind {
		case data.DiffMaker:
			return
		case data.DiffVerdict, data.DiffComputed:
			f.Severity, f.Code = Question, CodeOtherwise
		}
		if d.Old == nil {
			f.Severity = Note
		}
	}
	a.addFinding(f)
}

func valueArg(name string, d *data.Difference, p *data.Printed) Arg {
	if d.Kind == data.DiffVerdict && p != nil {
		return code(name, clip(p.Value))
	}
	return text(name, p.String())
}

// inspect tells what in the file this program does not write.
func (a *audit) inspect() {
	report, err := archive.Inspect(a.firstRevision())
	if err != nil {
		a.add(Differs, CodeUnread, text("what", "file"), text("fact", err.Error()))
	}
	for _, v := range report.Violations {
		a.add(Differs, CodeShape, text("where", v.Where), text("rule", string(v.Rule)), text("fact", v.Fact))
	}
}

func sortedKeys[K ~string, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
