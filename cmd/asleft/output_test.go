package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

func put(t *testing.T, path, content string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
}

func want(t *testing.T, path, content string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != content {
		t.Errorf("%s holds %q (%v), want %q", path, got, err, content)
	}
}

// onlyNames asserts that a folder holds these names and no temporary file.
func onlyNames(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(names, " ") {
		t.Errorf("folder holds %v, want %v", got, names)
	}
}

func TestOutputReplacesAndKeepsPermissions(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out.pdf")
	put(t, out, "old")
	if err := os.Chmod(out, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := writeOutput(out, nil, []byte("new")); err != nil {
		t.Fatal(err)
	}
	want(t, out, "new")
	info, err := os.Stat(out)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v", info.Mode())
	}
	onlyNames(t, dir, "out.pdf")
}

func TestOutputThroughALinkKeepsTheLink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.pdf"), filepath.Join(dir, "link.pdf")
	put(t, real, "old")
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links on this system")
	}
	if err := writeOutput(link, nil, []byte("new")); err != nil {
		t.Fatal(err)
	}
	want(t, real, "new")
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Error("link was replaced")
	}
}

func TestOutputRefuses(t *testing.T) {
	dir := t.TempDir()
	input := filepath.Join(dir, "in.xlsx")
	hard, soft, lost := filepath.Join(dir, "hard"), filepath.Join(dir, "soft"), filepath.Join(dir, "lost")
	put(t, input, "workbook")
	if os.Link(input, hard) != nil || os.Symlink(input, soft) != nil || os.Symlink("nowhere", lost) != nil {
		t.Skip("no links on this system")
	}
	signed := filepath.Join(dir, "signed.pdf")
	put(t, signed, "%PDF-1.7 ... /ByteRange [0 1 2 3]")
	info, err := os.Stat(input)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		path string
		want error
	}{
		"the input":             {input, errIsInput},
		"hard link to it":       {hard, errIsInput},
		"symbolic link to it":   {soft, errIsInput},
		"link to nothing":       {lost, nil},
		"folder":                {dir, errIsFolder},
		"signed package":        {signed, errSigned},
		"no such folder":        {filepath.Join(dir, "no", "out.pdf"), fs.ErrNotExist},
		"below a regular file":  {filepath.Join(input, "out.pdf"), nil},
		"device or other thing": {os.DevNull, errNotRegular},
	} {
		err := writeOutput(c.path, []fs.FileInfo{info}, []byte("new"))
		if err == nil || c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: got %v", name, err)
			continue
		}
		if !strings.HasPrefix(err.Error(), c.path+": ") {
			t.Errorf("%s: error does not begin with the path: %v", name, err)
		}
	}
	want(t, input, "workbook")
	onlyNames(t, dir, "hard", "in.xlsx", "lost", "signed.pdf", "soft")
}

func TestAWordInAnotherFileIsNoSignature(t *testing.T) {
	out := filepath.Join(t.TempDir(), "notes.txt")
	put(t, out, "about /ByteRange")
	if err := writeOutput(out, nil, []byte("new")); err != nil {
		t.Error(err)
	}
}

func TestLeftTemporaryFilesAreNotTouched(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, ".out.pdf.0.tmp"), "of another run")
	if err := writeOutput(filepath.Join(dir, "out.pdf"), nil, []byte("new")); err != nil {
		t.Fatal(err)
	}
	want(t, filepath.Join(dir, ".out.pdf.0.tmp"), "of another run")
	onlyNames(t, dir, ".out.pdf.0.tmp", "out.pdf")
}

func TestOldTemporaryFilesAreRemoved(t *testing.T) {
	dir := t.TempDir()
	for i, age := range []time.Duration{2 * time.Hour, 0, 3 * time.Hour} {
		name := filepath.Join(dir, temporaryName("out.pdf", i))
		put(t, name, "left")
		then := time.Now().Add(-age)
		if err := os.Chtimes(name, then, then); err != nil {
			t.Fatal(err)
		}
	}
	put(t, filepath.Join(dir, ".other.pdf.0.tmp"), "of another output")
	if err := writeOutput(filepath.Join(dir, "out.pdf"), nil, []byte("new")); err != nil {
		t.Fatal(err)
	}
	onlyNames(t, dir, ".other.pdf.0.tmp", ".out.pdf.1.tmp", "out.pdf")
}

func TestOutputNames(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"two words.pdf", "Küchen-Übergabe.pdf", "Градирня 2.pdf", "冷却塔.pdf", "-o.pdf",
		strings.Repeat("n", 251) + ".pdf", strings.Repeat("ю", 120) + ".pdf"} {
		if err := writeOutput(filepath.Join(dir, name), nil, []byte("new")); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		want(t, filepath.Join(dir, name), "new")
		if n := len(temporaryName(name, maxTries-1)); n > 255 {
			t.Errorf("%s: temporary name of %d bytes", name, n)
		}
	}
}

// Naming files, paths and namespaces, learn.microsoft.com: the reserved names.
func TestReservedNames(t *testing.T) {
	for name, reserved := range map[string]bool{
		"nul": true, "NUL.pdf": true, "aux.tower.pdf": true, "COM1": true, "lpt9.pdf": true, "COM¹.pdf": true, "con .pdf": true,
		"tower.": true, "tower ": true, "a:b.pdf": true, "what?.pdf": true,
		"console.pdf": false, "COM.pdf": false, "COM10.pdf": false, "null.pdf": false, "tower.pdf": false, "CT-2 north.pdf": false,
	} {
		if got := reservedName(name); got != reserved {
			t.Errorf("%q: %v", name, got)
		}
	}
}
