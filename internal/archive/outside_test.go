//go:build outside

package archive

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// validator is the script that runs veraPDF.
const validator = "../../.ci/verapdf/check"

// writeSamples writes one file of each profile and returns their paths.
func writeSamples(t *testing.T) (a3, a2 string) {
	t.Helper()
	dir := t.TempDir()
	a3, a2 = filepath.Join(dir, "a3.pdf"), filepath.Join(dir, "a2.pdf")
	s := drawSample()
	s.doc.Profile, s.doc.Files = PDFA2A, nil
	for path, b := range map[string][]byte{a3: drawSample().finished(t), a2: s.finished(t)} {
		if err := os.WriteFile(path, b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return a3, a2
}

// tool runs a program and returns what it says; it must succeed, and say
// nothing on its error output.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Errorf("%s %v: %v\n%s%s", name, args, err, out.Bytes(), errs.Bytes())
	}
	return out.String()
}

// quiet is a tool whose error output must be empty.
func quiet(t *testing.T, name string, args ...string) {
	t.Helper()
	cmd := exec.Command(name, args...)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	err := cmd.Run()
	said := strings.ReplaceAll(errs.String(), "warning: ICC support is not available\n", "")
	if err != nil || said != "" {
		t.Errorf("%s: %v: %s", name, err, said)
	}
}

func TestValidatorPasses(t *testing.T) {
	a3, a2 := writeSamples(t)
	for _, run := range [][]string{{"3a", a3}, {"2a", a2}, {"ua1", a3, a2}} {
		t.Log(tool(t, validator, run...))
	}
}

// The validator must be able to say no.
func TestValidatorFails(t *testing.T) {
	path := filepath.Join(t.TempDir(), "raw.pdf")
	if err := os.WriteFile(path, drawSample().output(t), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(validator, "3a", path).CombinedOutput()
	if err == nil || !strings.Contains(string(out), "FAIL") {
		t.Errorf("page writer's output passes: %s", out)
	}
}

func TestOtherReadersAreContent(t *testing.T) {
	a3, a2 := writeSamples(t)
	for _, path := range []string{a3, a2} {
		if out := tool(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
			t.Errorf("qpdf: %s", out)
		}
		quiet(t, "mutool", "draw", "-q", "-o", filepath.Join(t.TempDir(), "p%d.png"), path)
		quiet(t, "pdftotext", path, filepath.Join(t.TempDir(), "text"))
		tool(t, "go", "run", "github.com/pdfcpu/pdfcpu/cmd/pdfcpu@v0.15.0", "validate", "-m", "relaxed", "--conf", "disable", path)
		for _, line := range strings.Split(tool(t, "pdffonts", path), "\n")[2:] {
			if line != "" && !strings.Contains(line, "yes yes yes") {
				t.Errorf("font not embedded, subset and with meaning: %s", line)
			}
		}
	}
}

func TestStructureReadsWellElsewhere(t *testing.T) {
	a3, _ := writeSamples(t)
	out := tool(t, "pdfinfo", "-struct-text", a3)
	for _, want := range []string{"Table (block)", "/Scope /Column", "/RowSpan 2", "\"0.037\"", "\"Prüfsumme 00ff17ab\"",
		"\"Plain text, Ελληνικά and Русский; “quotes” (and parentheses\\). \""} {
		if !strings.Contains(out, want) {
			t.Errorf("no %s in the structure text", want)
		}
	}
}

func TestAttachmentsComeOutElsewhere(t *testing.T) {
	a3, _ := writeSamples(t)
	dir := t.TempDir()
	tool(t, "pdfdetach", "-saveall", "-o", dir, a3)
	for _, f := range drawSample().doc.Files {
		if b, err := os.ReadFile(filepath.Join(dir, f.Name)); err != nil || !bytes.Equal(b, f.Bytes) {
			t.Errorf("%s: not what was attached (%v)", f.Name, err)
		}
	}
}
