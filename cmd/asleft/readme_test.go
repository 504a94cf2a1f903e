package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// example is a command of the README and the output shown under it.
type example struct{ command, output string }

const (
	readme    = "../../README.md"
	fenceOpen = "```console\n"
	fenceEnd  = "```\n"
)

// examples are the commands of all console blocks.
func examples(t *testing.T) []example {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	var all []example
	parts := strings.Split(string(text), fenceOpen)
	for _, part := range parts[1:] {
		block, _, closed := strings.Cut(part, fenceEnd)
		if !closed {
			t.Fatal("a block is not closed")
		}
		for line := range strings.Lines(block) {
			if command, ok := strings.CutPrefix(line, "$ "); ok {
				all = append(all, example{command: strings.TrimSpace(command)})
			} else if len(all) > 0 {
				all[len(all)-1].output += line
			}
		}
	}
	if len(all) == 0 {
		t.Fatal("no commands found")
	}
	return all
}

// ours begins the commands that this test runs itself. elsewhere are those that
// it cannot: this test is part of the first; the others need more than Go, and
// are run by the test with the build tag outside.
const ours = "go run ./cmd/asleft "

var elsewhere = []string{"go test ./...", "mkdir ", "pdfdetach ", "sha256sum "}

func TestReadmeCommandsDoWhatIsShown(t *testing.T) {
	all := examples(t)
	books, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	page, err := filepath.Abs(readme)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.Symlink(books, "testdata"); err != nil {
		t.Skip("no links on this system")
	}
	for _, e := range all {
		args, ok := strings.CutPrefix(e.command, ours)
		if !ok {
			known := false
			for _, prefix := range elsewhere {
				known = known || strings.HasPrefix(e.command, prefix)
			}
			if !known {
				t.Errorf("nothing runs %q", e.command)
			}
			continue
		}
		var out, stderr bytes.Buffer
		status := run(strings.Fields(args), nil, &out, &stderr)
		if status == statusWrong {
			t.Errorf("%s: status %d: %s", e.command, status, stderr.Bytes())
		}
		if got := out.String() + stderr.String(); got != e.output {
			if *update {
				showOutput(t, page, e, got)
				continue
			}
			t.Errorf("%s: got\n%s", e.command, got)
		}
	}
}

// showOutput puts the real output under a command.
func showOutput(t *testing.T, page string, e example, output string) {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	line := "$ " + e.command + "\n"
	changed := strings.Replace(string(text), line+e.output, line+output, 1)
	if err := os.WriteFile(page, []byte(changed), 0o644); err != nil {
		t.Fatal(err)
	}
}
