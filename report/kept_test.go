package report

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/internal/sign"
)

// keptCase is a case that was frozen with a release (DEVELOPERS.md, "Kept
// promises"), and what today's program makes of its workbooks.
type keptCase struct {
	folder            string
	data, pdf, audits []byte // frozen
	job               *Job   // today's
	now               []byte // its data file
	otherRules        bool   // than those of the release
}

// What was released is read, recomputed and audited for ever.
func TestKeptPromises(t *testing.T) {
	folders, err := filepath.Glob(filepath.Join("testdata", "kept", "*", "*"))
	if err != nil || len(folders) == 0 {
		t.Fatalf("nothing is kept: %v", err)
	}
	for _, folder := range folders {
		name := filepath.Base(filepath.Dir(folder)) + "/" + filepath.Base(folder)
		t.Run(name, func(t *testing.T) {
			k := openKept(t, folder)
			t.Run("data", k.sameValues)
			t.Run("schema", k.sameSchema)
			t.Run("audit", k.sameAudit)
			t.Run("register", k.inRegister)
			t.Run("previous", k.asPrevious)
		})
	}
}

// openKept reads the workbooks with today's reader.
func openKept(t *testing.T, folder string) *keptCase {
	t.Helper()
	k := &keptCase{folder: folder, data: keptFile(t, folder, "data.json"), pdf: keptFile(t, folder, "package.pdf"),
		audits: keptFile(t, folder, "audit.json")}
	k.job = k.open(t, Options{})
	k.now = jsonOf(t, k.job)
	k.otherRules = flat(t, k.data)["rules.sha256"] != flat(t, k.now)["rules.sha256"]
	return k
}

func (k *keptCase) open(t *testing.T, o Options) *Job {
	t.Helper()
	books, err := filepath.Glob(filepath.Join(k.folder, "*.xlsx"))
	if err != nil || len(books) == 0 {
		t.Fatalf("no workbooks: %v", err)
	}
	var sources []Source
	for _, book := range books {
		b := keptFile(t, k.folder, filepath.Base(book))
		sources = append(sources, Source{Name: filepath.Base(book), Reader: bytes.NewReader(b), Size: int64(len(b)), Folder: os.DirFS(k.folder)})
	}
	j, err := OpenAll(sources, o)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func keptFile(t *testing.T, folder, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func jsonOf(t *testing.T, j *Job) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := j.WriteJSON(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func flat(t *testing.T, file []byte) data.Values {
	t.Helper()
	v, err := data.Flatten(file)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// sameValues holds today's data file to the frozen one: values may be added, and
// other rules may judge otherwise; nothing else.
func (k *keptCase) sameValues(t *testing.T) {
	for _, d := range compared(t, k.data, k.now) {
		switch {
		case d.Keys[0] == "program" || d.Keys[0] == "rules":
		case k.otherRules && (d.Kind == data.DiffVerdict || d.Kind == data.DiffComputed):
			t.Logf("judged otherwise: %s: %s, now %s", d.Path(), d.Old, d.New)
		default:
			t.Errorf("%s: %s, now %s", d.Path(), d.Old, d.New)
		}
	}
	now := flat(t, k.now)
	for path, was := range flat(t, k.data) {
		if is, both := now[path]; both && is.Text == was.Text && is.Unit == was.Unit && is.Base != was.Base {
			t.Errorf("%s: %s in base units, now %s", path, was.Base, is.Base)
		}
	}
}

// compared lists what of an older file is otherwise in a newer one. What is new
// there is left out.
func compared(t *testing.T, old, new []byte) []data.Difference {
	t.Helper()
	list, err := data.CompareFiles(old, new)
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(list, func(d data.Difference) bool { return d.Old == nil })
}

// sameSchema: whoever reads data files by today's schema takes the frozen one.
func (k *keptCase) sameSchema(t *testing.T) {
	if _, err := data.Read(k.data); err != nil {
		t.Fatal(err)
	}
	schema, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", schema); err != nil {
		t.Fatal(err)
	}
	compiled, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(k.data))
	if err != nil {
		t.Fatal(err)
	}
	if err := compiled.Validate(v); err != nil {
		t.Error(err)
	}
}

// ofFile are the parts of an audit that follow from the audited file alone,
// whatever the version that audits.
var ofFile = []string{"schema", "file", "package", "origin", "signatures", "revisions"}

// sameAudit audits the package as it was signed, and as it was before.
func (k *keptCase) sameAudit(t *testing.T) {
	a := audited(t, k.pdf)
	k.holds(t, a)
	var now bytes.Buffer
	if err := a.WriteJSON(&now); err != nil {
		t.Fatal(err)
	}
	for _, d := range compared(t, k.audits, now.Bytes()) {
		if slices.Contains(ofFile, d.Keys[0]) {
			t.Errorf("audit: %s: %s, now %s", d.Path(), d.Old, d.New)
		}
	}
	signed, err := sign.Verify(k.pdf, sign.Trusted{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range signed.Fields {
		if f.Signed && (!f.Intact() || len(f.Faults) > 0) {
			t.Errorf("the signature in %s does not hold: %v", f.Name, f.Faults)
		}
	}
	if len(signed.Revisions) > 1 {
		k.holds(t, audited(t, k.pdf[:signed.Revisions[0].End]))
	}
}

// holds asks that nothing in a package differs from what this version makes of
// its workbooks but what another version may change. The pages are compared byte
// for byte by the audit itself where the version is the same.
func (k *keptCase) holds(t *testing.T, a *Audited) {
	if s := a.result.Strength; s != audit.StrengthBytes && s != audit.StrengthValues {
		t.Errorf("only %s reached", s)
	}
	for _, f := range a.result.Findings {
		switch {
		case f.Severity == audit.Differs, f.Code == audit.CodeOtherwise && !k.otherRules:
			t.Errorf("%s %s %s %v", f.Severity, f.Code, f.Path, f.Args)
		default:
			t.Logf("%s %s %s %v", f.Severity, f.Code, f.Path, f.Args)
		}
	}
}

// inRegister: a register takes the tower from its package, with all its cells.
func (k *keptCase) inRegister(t *testing.T) {
	root, err := os.OpenRoot(k.folder)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	r, err := Gather(context.Background(), []Folder{{"kept", root}}, Many{})
	if err != nil {
		t.Fatal(err)
	}
	if want := (Counts{Towers: 1, Cells: len(k.job.Cells())}); r.Counts() != want || len(r.Unread()) > 0 {
		t.Errorf("%+v, expected %+v; unread: %v", r.Counts(), want, r.Unread())
	}
}

// asPrevious: a new package says what changed since the kept one.
func (k *keptCase) asPrevious(t *testing.T) {
	j := k.open(t, Options{Previous: k.pdf})
	if j.previous == nil {
		t.Error("not compared")
	}
	var out bytes.Buffer
	if err := j.WritePDF(&out); err != nil {
		t.Error(err)
	}
}
