//go:build outside

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The README shows how to check a package with programs that are not ours.
// Needs bash, pdfdetach and sha256sum.
func TestReadmeCommandsWithOtherPrograms(t *testing.T) {
	all := examples(t)
	books, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.Symlink(books, "testdata"); err != nil {
		t.Fatal(err)
	}
	ran := 0
	for _, e := range all {
		if args, ok := strings.CutPrefix(e.command, ours); ok {
			var ignored strings.Builder
			if status := run(strings.Fields(args), nil, &ignored, &ignored); status == statusWrong {
				t.Fatalf("%s: %s", e.command, ignored.String())
			}
			continue
		}
		if strings.HasPrefix(e.command, "go ") {
			continue
		}
		out, err := exec.Command("bash", "-c", e.command).CombinedOutput()
		if err != nil {
			t.Errorf("%s: %v: %s", e.command, err, out)
		}
		if e.output != "" && string(out) != e.output {
			t.Errorf("%s: got\n%s", e.command, out)
		}
		ran++
	}
	if ran < 2 {
		t.Errorf("only %d commands were run", ran)
	}
}
