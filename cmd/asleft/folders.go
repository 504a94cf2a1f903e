package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"asleft/report"
)

// openFolders opens folders to be gone through. Nothing outside them is read,
// whatever a link in them says.
func openFolders(paths []string) (folders []report.Folder, closeAll func(), err error) {
	var open []*os.Root
	closeAll = func() {
		for _, r := range open {
			_ = r.Close()
		}
	}
	for _, path := range paths {
		r, err := os.OpenRoot(path)
		if err != nil {
			closeAll()
			return nil, nil, inFile(path, plainCause(err))
		}
		open = append(open, r)
		folders = append(folders, report.Folder{Name: filepath.ToSlash(path), Root: r})
	}
	return folders, closeAll, nil
}

// anyFolder tells whether one of the paths is a folder.
func anyFolder(paths []string) bool {
	for _, p := range paths {
		if info, err := os.Stat(p); err == nil && info.IsDir() {
			return true
		}
	}
	return false
}

// interruptible ends with the first interrupt from the keyboard.
func interruptible() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// many is how towers are worked on: with a bar on the terminal, and nothing where
// the errors go elsewhere.
func (p *program) many(workers int, what string) (m report.Many, end func()) {
	m = report.Many{Workers: workers}
	f, ok := p.err.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return m, func() {}
	}
	var bar *progressbar.ProgressBar
	m.Progress = func(done, total int) {
		if bar == nil {
			bar = p.bar(f, total, what)
		}
		_ = bar.Set(done)
	}
	return m, func() {
		if bar != nil {
			_ = bar.Finish()
		}
	}
}

// bar shows count, rate and time left.
func (p *program) bar(w io.Writer, total int, what string) *progressbar.ProgressBar {
	return progressbar.NewOptions(total,
		progressbar.OptionSetWriter(w),
		progressbar.OptionSetDescription(p.words.Say(what)),
		progressbar.OptionShowCount(),
		progressbar.OptionShowIts(),
		progressbar.OptionSetItsString(p.words.Say("cli.many.unit")),
		progressbar.OptionSetPredictTime(true),
		progressbar.OptionSetWidth(24),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
	)
}

// unread names the files that could not be read, each with all its causes, and
// last.
func (p *program) unread(files []report.Unread) {
	for _, f := range files {
		lines := strings.Split(f.Text, "\n")
		if len(lines) == 1 {
			fmt.Fprintf(p.err, "asleft: %s: %s\n", f.Path, lines[0])
			continue
		}
		fmt.Fprintf(p.err, "asleft: %s: %s\n", f.Path, p.words.Say("cli.faults.many", "n", fmt.Sprint(len(lines))))
		for _, line := range lines {
			fmt.Fprintf(p.err, "  %s\n", line)
		}
	}
}

// stopped tells an interrupt from other errors.
func stopped(err error) error {
	if errors.Is(err, context.Canceled) {
		return useError("stopped")
	}
	return err
}
