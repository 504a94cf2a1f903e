//go:build outside && unix

package main

import (
	"bytes"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// kills is how many runs of each command are killed.
const kills = 130

// TestKilledAtAnyInstant kills runs that replace an output, half of them at any
// instant and half while the new file is being written beside the old one. The
// old output or the new one is there, whole, and what else is left has the name
// of a temporary file.
func TestKilledAtAnyInstant(t *testing.T) {
	dir := t.TempDir()
	program := built(t, dir)
	demo, err := filepath.Abs("../../testdata/demo.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	key := filepath.Join(dir, "key.pem")
	cert := filepath.Join(dir, "certificate.pem")
	if b, err := exec.Command("openssl", "req", "-x509", "-newkey", "rsa:2048", "-noenc", "-days", "9", "-subj", "/CN=Test",
		"-keyout", key, "-out", cert).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, b)
	}
	unsigned := filepath.Join(dir, "unsigned.pdf")
	work(t, program, "report", demo, "-o", unsigned)
	made, err := os.ReadFile(unsigned)
	if err != nil {
		t.Fatal(err)
	}
	signed := func(b []byte) bool {
		return bytes.HasPrefix(b, made) && len(b) > len(made) && bytes.HasSuffix(b, []byte("%%EOF\n"))
	}
	for _, c := range []struct {
		name string
		args []string
		new  func([]byte) bool // nil: the same bytes as of a run that was let be
	}{
		{"report", []string{"report", demo}, nil},
		{"form", []string{"form", "--cells", "2"}, nil},
		{"card", []string{"card", demo}, nil},
		{"sign", []string{"sign", unsigned, "--role", "2", "--key", key, "--cert", cert, "--as-is"}, signed},
	} {
		t.Run(c.name, func(t *testing.T) { killed(t, program, c.args, c.new) })
	}
}

// built is the program.
func built(t *testing.T, dir string) string {
	program := filepath.Join(dir, "asleft")
	if b, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, b)
	}
	return program
}

// work lets a run be; status 1 is an answer.
func work(t *testing.T, program string, args ...string) time.Duration {
	t.Helper()
	start := time.Now()
	b, err := exec.Command(program, args...).CombinedOutput()
	if s, ok := err.(*exec.ExitError); err != nil && (!ok || s.ExitCode() > 1) {
		t.Fatalf("%s: %v: %s", args, err, b)
	}
	return time.Since(start)
}

func killed(t *testing.T, program string, args []string, isNew func([]byte) bool) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	args = append(args, "-o", out)
	whole := work(t, program, args...)
	if isNew == nil {
		finished, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		isNew = func(b []byte) bool { return bytes.Equal(b, finished) }
	}
	old := bytes.Repeat([]byte("the old output, whole\n"), 4000)
	r := rand.New(rand.NewPCG(1, 2))
	kept, replaced, left := 0, 0, 0
	for i := range kills {
		if err := os.WriteFile(out, old, 0o644); err != nil {
			t.Fatal(err)
		}
		p := exec.Command(program, args...)
		p.Stdout, p.Stderr = io.Discard, io.Discard
		if err := p.Start(); err != nil {
			t.Fatal(err)
		}
		if i%2 == 0 {
			time.Sleep(time.Duration(r.Int64N(int64(whole) * 5 / 4)))
		} else {
			untilWriting(dir, whole*4)
			time.Sleep(time.Duration(r.Int64N(int64(4 * time.Millisecond))))
		}
		_ = p.Process.Kill()
		_ = p.Wait()
		got, err := os.ReadFile(out)
		switch {
		case err == nil && bytes.Equal(got, old):
			kept++
		case err == nil && isNew(got):
			replaced++
		default:
			t.Fatalf("kill %d left %d bytes, neither the old output nor the new one (%v)", i, len(got), err)
		}
		left += clearLeft(t, dir)
	}
	t.Logf("%d kills: old output kept %d times, new one there %d times; temporary files left %d times", kills, kept, replaced, left)
	if replaced == 0 || kept == 0 || left == 0 {
		t.Error("the kills did not come at all instants")
	}
}

// untilWriting waits until a temporary file is there.
func untilWriting(dir string, most time.Duration) {
	for end := time.Now().Add(most); time.Now().Before(end); time.Sleep(200 * time.Microsecond) {
		if names, _ := filepath.Glob(filepath.Join(dir, ".*.tmp")); len(names) > 0 {
			return
		}
	}
}

// clearLeft removes temporary files and counts them; anything else but the
// output is an error.
func clearLeft(t *testing.T, dir string) (left int) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		switch name := e.Name(); {
		case name == "out":
		case strings.HasPrefix(name, ".out.") && strings.HasSuffix(name, ".tmp"):
			left++
			if err := os.Remove(filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
		default:
			t.Errorf("%s was left", name)
		}
	}
	return left
}

// TestFaultsOfTheSystem: a full disk, a folder that cannot be written, a pipe
// that closes, no temporary folder, no terminal, two runs at once.
func TestFaultsOfTheSystem(t *testing.T) {
	dir := t.TempDir()
	program := built(t, dir)
	demo, err := filepath.Abs("../../testdata/demo.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	shell := func(script string) string {
		c := exec.Command("bash", "-c", script)
		c.Dir = dir
		c.Env = append(os.Environ(), "ASLEFT="+program, "DEMO="+demo)
		b, err := c.CombinedOutput()
		if err != nil {
			t.Errorf("%s: %v\n%s", script, err, b)
		}
		return string(b)
	}
	// A file system of 100 KB: the old output stays, nothing else is left.
	small := shell(`mkdir small && unshare -rm bash -c '
		mount -t tmpfs -o size=100k tmpfs small && echo old >small/out.pdf
		"$ASLEFT" report "$DEMO" -o small/out.pdf; echo "status $?"; cat small/out.pdf; ls -A small'`)
	if !strings.Contains(small, "no space left") || !strings.HasSuffix(small, "status 2\nold\nout.pdf\n") {
		t.Errorf("full disk: %s", small)
	}
	// Root may write anywhere, so the whole file system is read-only.
	readOnly := shell(`mkdir ro && echo old >ro/out.pdf && unshare -rm bash -c '
		mount --bind ro ro && mount -o remount,ro,bind ro
		"$ASLEFT" report "$DEMO" -o ro/out.pdf; echo "status $?"; cat ro/out.pdf'`)
	if !strings.Contains(readOnly, "read-only") || !strings.HasSuffix(readOnly, "status 2\nold\n") {
		t.Errorf("read-only folder: %s", readOnly)
	}
	if got := shell(`"$ASLEFT" check "$DEMO" 2>&1 | head -1 | wc -l`); strings.TrimSpace(got) != "1" {
		t.Errorf("broken pipe: %s", got)
	}
	if got := shell(`"$ASLEFT" check "$DEMO" >/dev/full; echo "status $?"`); !strings.Contains(got, "no space left") || !strings.HasSuffix(got, "status 2\n") {
		t.Errorf("full standard output: %.200s", got)
	}
	shell(`mkdir "a b Übergabe Градирня" && TMPDIR=/nowhere TMP=/nowhere HOME=/nowhere "$ASLEFT" report "$DEMO" -o "a b Übergabe Градирня/out put.pdf"`)
	shell(`setsid "$ASLEFT" check "$DEMO" </dev/null >no-terminal.txt 2>&1; [ $? -eq 1 ] && [ -s no-terminal.txt ]`)
	shell(`for i in 1 2 3 4; do "$ASLEFT" report "$DEMO" -o both.pdf & done; wait; cmp both.pdf "a b Übergabe Градирня/out put.pdf"; [ -z "$(ls -A | grep tmp$)" ]`)
	gone := shell(`cp "$DEMO" gone.xlsx; "$ASLEFT" report gone.xlsx -o gone.pdf & sleep 0.02; rm -f gone.xlsx; wait; ls gone.pdf 2>/dev/null | wc -l`)
	if !strings.HasSuffix(strings.TrimSpace(gone), "1") && !strings.Contains(gone, "no such file") {
		t.Errorf("a vanishing workbook: %s", gone)
	}
}
