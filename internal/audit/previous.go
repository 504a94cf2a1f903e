package audit

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/sign"
)

// previous compares with an earlier package, or with its data file.
func (a *audit) previous() {
	if a.o.Previous == nil {
		return
	}
	old, signers, err := earlier(a.o.Previous, a.o.PreviousData)
	if err == nil && a.stated == nil {
		a.add(Question, CodePreviousMissing, text("fact", ""))
		return
	}
	if was, is := a.towers(old); err == nil && was != is {
		a.add(Question, CodePreviousTower, text("old", was), text("new", is))
		return
	}
	var list []data.Difference
	if err == nil {
		list, err = data.CompareFiles(old, a.stated)
	}
	if err != nil {
		a.add(Question, CodePreviousMissing, text("fact", err.Error()))
		return
	}
	a.out.Compared = true
	for i := range list {
		a.change(&list[i])
	}
	for _, name := range signers {
		if s := a.signed.Field(name); s == nil || !s.Signed {
			a.add(Question, CodePrevious+"signature", Arg{"field", ArgField, name})
		}
	}
}

// towers names the towers of an earlier data file and of this one, alike where they
// are one: by plant and tag, or, since these may have been corrected, by the
// number of the document. What an earlier one does not say is no difference.
func (a *audit) towers(old []byte) (was, is string) {
	values, err := data.Flatten(old)
	if err != nil {
		return "", "" // told by the comparison
	}
	before := func(path string) string { return strings.TrimSpace(values[path].Text) }
	now := func(path string) string { return strings.TrimSpace(a.values[path].Text) }
	const document = "project.document"
	if n := before(document); n != "" && n == now(document) {
		return "", ""
	}
	same := true
	for _, path := range []string{"tower.tag", "project.plant"} {
		x, y := before(path), now(path)
		same = same && (x == "" || y == "" || strings.EqualFold(x, y))
		was, is = joined(was, x), joined(is, y)
	}
	if same {
		return "", ""
	}
	return was, is
}

func joined(texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(s string) bool { return s == "" }), ", ")
}

// errOtherData: a data file was handed over that is not the one of the package.
var errOtherData = errors.New("the data file beside it is not the one whose hash it prints")

// earlier takes the data file and the names of the signed fields out of an earlier
// package. Beside is the data file that lies beside one that holds none.
func earlier(file, beside []byte) (stated []byte, signed []string, err error) {
	if !bytes.HasPrefix(file, []byte("%PDF-")) {
		return file, nil, nil
	}
	r, err := archive.Open(file)
	if err != nil {
		return nil, nil, err
	}
	found, faults := r.FoundFiles()
	for _, f := range found {
		if f.Name == data.DataName {
			stated = f.Bytes
		}
	}
	if report, err := sign.Verify(file, sign.Trusted{}); err == nil {
		for i := range report.Fields {
			if report.Fields[i].Signed {
				signed = append(signed, report.Fields[i].Name)
			}
		}
	}
	if stated == nil && len(faults) > 0 {
		return nil, signed, faults[0].Err
	}
	if stated == nil && beside != nil {
		part := data.Part{Bytes: beside}
		if hashes, _ := printedIn(r); hashes[data.DataName] != part.SHA256() {
			return nil, signed, errOtherData
		}
		return beside, signed, nil
	}
	if stated == nil {
		return nil, signed, errNoData
	}
	return stated, signed, nil
}

// change lists a value that is not as before. One that was read, or a limit, and
// is now another or gone, is a question; what was added is not.
func (a *audit) change(d *data.Difference) {
	c := Change{Kind: string(d.Kind), Path: d.Path(), Name: d.Name, Old: clip(d.Old.String()), New: clip(d.New.String()),
		Was: d.Old != nil, Is: d.New != nil, keys: d.Keys}
	a.out.Changes = append(a.out.Changes, c)
	if d.Old == nil {
		return
	}
	if d.Kind == data.DiffReading || d.Kind == data.DiffLimit {
		a.addFinding(Finding{Severity: Question, Code: CodePrevious + Code(d.Kind), Path: c.Path, keys: d.Keys,
			Args: []Arg{text("old", c.Old), text("new", c.New)}})
	}
}
