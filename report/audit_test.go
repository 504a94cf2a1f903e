package report

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"asleft/internal/assess"
	"asleft/internal/audit"
	"asleft/internal/compose"
)

// oldProgram is a version that this one is not.
const oldProgram = "asleft 0.0.1"

// otherVersion is a package as another version of the program would have written
// it, changed in the assessment by change.
func otherVersion(t *testing.T, change func(*compose.Input)) []byte {
	t.Helper()
	path := filepath.Join("..", "testdata", "metric.xlsx")
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	j, err := Open(bytes.NewReader(b), int64(len(b)), "metric.xlsx", Options{})
	if err != nil {
		t.Fatal(err)
	}
	in := j.input()
	in.Program = oldProgram
	change(&in)
	out, err := compose.Write(in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func audited(t *testing.T, file []byte) *Audited {
	t.Helper()
	a, err := Audit(bytes.NewReader(file), int64(len(file)), AuditOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func countCode(a *Audited, c audit.Code) int {
	n := 0
	for _, f := range a.result.Findings {
		if f.Code == c {
			n++
		}
	}
	return n
}

// Where another version gives the same, all is rebuilt with its name in it.
func TestPackageOfAnotherVersionIsRebuilt(t *testing.T) {
	a := audited(t, otherVersion(t, func(*compose.Input) {}))
	if !a.Agrees() || a.result.Strength != audit.StrengthBytes || countCode(a, audit.CodeVersion) != 1 {
		t.Errorf("agrees %t, strength %s", a.Agrees(), a.result.Strength)
	}
}

// Where it judges otherwise that is a question, not a difference.
func TestAnotherVersionJudgesOtherwise(t *testing.T) {
	judge := func(in *compose.Input) {
		i := slices.IndexFunc(in.Assessment.Cells[0].Checks, func(c assess.Check) bool { return c.Key == assess.Tilt })
		in.Assessment.Cells[0].Checks[i].Verdict = assess.NearLimit
	}
	a := audited(t, otherVersion(t, judge))
	if a.Agrees() || a.result.Strength != audit.StrengthValues {
		t.Errorf("agrees %t, strength %s", a.Agrees(), a.result.Strength)
	}
	if countCode(a, audit.CodeOtherwise) == 0 {
		t.Error("not said that this version judges otherwise")
	}
	text, err := a.Text("")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(text.Findings, func(f compose.AuditFinding) bool {
		return strings.Contains(f.Text, "Fan tilt, verdict: judged otherwise by this version: the package says near limit, recomputed within")
	}) {
		t.Errorf("findings %v", text.Findings)
	}
	for _, f := range a.result.Findings {
		if f.Severity == audit.Differs || f.Code == audit.CodeMeaning || f.Code == audit.CodeShape {
			t.Errorf("%s %s: %v", f.Severity, f.Code, f.Args)
		}
	}
}

func TestAuditRefuses(t *testing.T) {
	file := []byte("%PDF-1.7\n")
	for _, o := range []AuditOptions{{}, {Roots: []byte("none")}, {Fingerprint: "12345"}, {Fingerprint: "1234567g"}} {
		if _, err := Audit(bytes.NewReader(file), int64(len(file)), o); err == nil {
			t.Errorf("%+v: taken", o)
		}
	}
}

// A note says whatever came out of a hostile file in characters that can be set.
func TestNoteOfAnything(t *testing.T) {
	a := audited(t, otherVersion(t, func(*compose.Input) {}))
	hostile := "\x1b[2J\u202e漢字" + strings.Repeat("long ", 100)
	a.result.Package.Title = hostile
	for range 60 {
		a.result.Findings = append(a.result.Findings, audit.Finding{Severity: audit.Differs, Code: audit.CodeShape,
			Args: []audit.Arg{{Name: "where", Kind: audit.ArgText, Text: hostile}}})
	}
	var out bytes.Buffer
	if err := a.WritePDF(&out, hostile+".pdf", time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), "", "A4"); err != nil {
		t.Fatal(err)
	}
	text, err := a.Text("")
	if err != nil || strings.ContainsAny(text.Title, "\x1b\u202e") {
		t.Errorf("%q, %v", text.Title, err)
	}
}
