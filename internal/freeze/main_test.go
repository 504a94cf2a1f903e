package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"asleft/report"
)

// from is a folder with one case: a workbook that is there.
func from(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "metric.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "case"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "case", "metric.xlsx"), b, 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// A case is frozen with two signatures that hold long after the certificates.
func TestFreezes(t *testing.T) {
	to := filepath.Join(t.TempDir(), "kept", "release")
	if err := run([]string{from(t), to}, "1.0.0"); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"metric.xlsx", dataFile, packageFile, auditFile} {
		if info, err := os.Stat(filepath.Join(to, "case", name)); err != nil || info.Size() == 0 {
			t.Errorf("%s: %v", name, err)
		}
	}
	b, err := os.ReadFile(filepath.Join(to, "case", packageFile))
	if err != nil {
		t.Fatal(err)
	}
	a, err := report.Audit(bytes.NewReader(b), int64(len(b)), report.AuditOptions{})
	if err != nil {
		t.Fatal(err)
	}
	text, err := a.Text("")
	if err != nil {
		t.Fatal(err)
	}
	signed := 0
	for _, s := range text.Signatures {
		if len(s.Lines) > 1 {
			signed++
		}
	}
	if !a.Agrees() || signed != len(signers) {
		t.Errorf("agrees %t, %d signed", a.Agrees(), signed)
	}
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(to), ".*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

// What is there is never written into, not even where it is empty.
func TestNeverOverwrites(t *testing.T) {
	to := t.TempDir()
	if err := run([]string{from(t), to}, "1.0.0"); !errors.Is(err, errThere) {
		t.Errorf("got %v", err)
	}
	if entries, err := os.ReadDir(to); err != nil || len(entries) > 0 {
		t.Errorf("written: %v %v", entries, err)
	}
}

// Only a release promises anything.
func TestFreezesReleasesOnly(t *testing.T) {
	to := filepath.Join(t.TempDir(), "release")
	if err := run([]string{from(t), to}, "1.0.0-dev"); !errors.Is(err, errDevelopment) {
		t.Errorf("got %v", err)
	}
	if _, err := os.Lstat(to); err == nil {
		t.Error("written")
	}
}

// What cannot be frozen leaves nothing.
func TestLeavesNothing(t *testing.T) {
	bad := t.TempDir()
	if err := os.Mkdir(filepath.Join(bad, "case"), 0o755); err != nil {
		t.Fatal(err)
	}
	above := t.TempDir()
	for _, folder := range []string{bad, t.TempDir()} {
		if err := run([]string{folder, filepath.Join(above, "release")}, "1.0.0"); err == nil {
			t.Error("frozen")
		}
	}
	if entries, err := os.ReadDir(above); err != nil || len(entries) > 0 {
		t.Errorf("left behind: %v %v", entries, err)
	}
}
