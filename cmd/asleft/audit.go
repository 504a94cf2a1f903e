package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"asleft/report"
)

// auditing is what the options of the command say.
type auditing struct {
	file, output, roots, sources, previous, paper string
	json                                          bool
	o                                             report.AuditOptions
	infos                                         []fs.FileInfo // files that no output may replace
}

// audit recomputes a package and says what differs.
func (p *program) audit(args []string) error {
	var a auditing
	f := p.flags("audit")
	f.StringVarP(&a.output, "output", "o", "", "")
	f.BoolVar(&a.json, "json", false, "")
	f.StringVar(&a.roots, "roots", "", "")
	f.StringVar(&a.sources, "sources", "", "")
	f.StringVar(&a.previous, "previous", "", "")
	f.StringVar(&a.o.Fingerprint, "fingerprint", "", "")
	f.StringVar(&a.paper, "paper", "", "")
	files, done, err := p.parse(f, args)
	switch {
	case err != nil || done:
		return err
	case len(files) != 1:
		return useError("audit.onefile")
	case a.paper != "" && a.output == "":
		return useError("audit.paper")
	}
	a.file = files[0]
	return p.auditFile(&a)
}

func (p *program) auditFile(a *auditing) error {
	file, err := a.read(a.file)
	if err != nil {
		return err
	}
	if err := a.readOthers(); err != nil {
		return err
	}
	if a.output != "" {
		if err := a.mayWrite(); err != nil {
			return err // before the work is done
		}
	}
	found, err := report.Audit(bytes.NewReader(file), int64(len(file)), a.o)
	switch {
	case errors.Is(err, report.ErrRoots):
		return inFile(a.roots, err)
	case errors.Is(err, report.ErrFingerprint):
		return fmt.Errorf("--fingerprint %w", err)
	case err != nil:
		return inFile(a.file, err)
	}
	if err := p.auditOut(a, found); err != nil {
		return err
	}
	if !found.Agrees() {
		return errNo
	}
	return nil
}

// auditOut writes the note and prints what was found.
func (p *program) auditOut(a *auditing, found *report.Audited) error {
	var out bytes.Buffer
	if a.json {
		if err := found.WriteJSON(&out); err != nil {
			return err
		}
	} else {
		text, err := found.Text(language)
		if err != nil {
			return err
		}
		p.auditText(&out, text)
	}
	if a.output != "" {
		var note bytes.Buffer
		if err := found.WritePDF(&note, filepath.Base(a.file), time.Now(), language, a.paper); err != nil {
			return err
		}
		if err := writeOutput(a.output, a.infos, note.Bytes()); err != nil {
			return err
		}
	}
	_, err := p.out.Write(out.Bytes())
	return err
}

// read reads a file that is not to be replaced.
func (a *auditing) read(path string) ([]byte, error) {
	b, info, err := readInput(path)
	a.infos = append(a.infos, info)
	return b, err
}

// readOthers reads everything besides the package.
func (a *auditing) readOthers() (err error) {
	if a.roots != "" {
		if a.o.Roots, err = a.read(a.roots); err != nil {
			return err
		}
	}
	if a.previous != "" {
		if err := a.readPrevious(); err != nil {
			return err
		}
	}
	if a.sources != "" {
		return a.readFolder()
	}
	return nil
}

// readPrevious reads the earlier package, and the data file in the folder beside it
// where there is one.
func (a *auditing) readPrevious() (err error) {
	if a.o.Previous, err = a.read(a.previous); err != nil {
		return err
	}
	beside := filepath.Join(folderBeside(a.previous), "data.json")
	if _, err := os.Stat(beside); err != nil {
		return nil
	}
	a.o.PreviousData, err = a.read(beside)
	return err
}

// Bounds of a folder of files beside a package.
const (
	maxBeside      = 1000
	maxBesideBytes = 512 << 20
)

// readFolder reads the regular files of the folder; what lies deeper, and links, are
// left alone.
func (a *auditing) readFolder() error {
	entries, err := os.ReadDir(a.sources)
	if err != nil {
		return inFile(a.sources, plainCause(err))
	}
	total := 0
	for _, e := range entries {
		if !e.Type().IsRegular() {
			continue
		}
		b, err := a.read(filepath.Join(a.sources, e.Name()))
		if err != nil {
			return err
		}
		total += len(b)
		if len(a.o.Beside) == maxBeside || total > maxBesideBytes {
			return useError("audit.folder", "folder", a.sources)
		}
		a.o.Beside = append(a.o.Beside, report.File{Name: e.Name(), Bytes: b})
	}
	if len(a.o.Beside) == 0 {
		return useError("audit.empty", "folder", a.sources)
	}
	return nil
}

// mayWrite refuses an output that is one of the inputs, or signed.
func (a *auditing) mayWrite() error {
	_, _, err := checkOutput(a.output, a.infos)
	if errors.Is(err, errIsInput) {
		return useError("audit.isinput", "output", a.output)
	}
	return err
}

// auditText prints an audit for people, the worst first, and ends with the line
// that says what was proved.
func (p *program) auditText(w io.Writer, t *report.AuditText) {
	width := terminal(p.out).width
	fmt.Fprintf(w, "%s\n", t.Title)
	say := func(indent, mark, text string) {
		for n, l := range wrap(text, max(0, width-len(indent)-len(mark))) {
			if n > 0 {
				mark = strings.Repeat(" ", len(mark))
			}
			fmt.Fprintf(w, "%s%s%s\n", indent, mark, l)
		}
	}
	for _, f := range t.Facts {
		say(gap, f[0]+": ", f[1])
	}
	fmt.Fprintf(w, "\n%s\n", p.words.Say("audit.findings"))
	for _, f := range t.Findings {
		say(gap, f.Word+gap, f.Text)
	}
	if len(t.Findings) == 0 {
		say(gap, "", p.words.Say("audit.nothing"))
	}
	fmt.Fprintf(w, "\n%s\n", p.words.Say("audit.signatures"))
	for _, s := range t.Signatures {
		say(gap, s.Role+": ", strings.Join(s.Lines, "; "))
	}
	if len(t.Signatures) == 0 {
		say(gap, "", p.words.Say("audit.nofields"))
	}
	if len(t.Questions) > 0 {
		fmt.Fprintf(w, "\n%s\n", p.words.Say("screen.title"))
		say(gap, "", p.words.Say("screen.intro"))
	}
	for _, q := range t.Questions {
		say(gap, "- ", q.Text)
		for _, l := range []string{q.Rule, q.N, q.Odds, q.Where} {
			if l != "" {
				say(gap+gap, "", l)
			}
		}
	}
	p.auditChanges(w, t, say)
	fmt.Fprintln(w)
	say("", p.words.Say("audit.reached")+": ", t.Reached)
	say("", "", t.Conclusion)
}

func (p *program) auditChanges(w io.Writer, t *report.AuditText, say func(indent, mark, text string)) {
	if !t.Compared {
		return
	}
	fmt.Fprintf(w, "\n%s\n", p.words.Say("audit.changes"))
	for _, c := range t.Changes {
		say(gap, "", c.Where+": "+p.words.Say("audit.changed", "old", c.Old, "new", c.New))
	}
	if len(t.Changes) == 0 {
		say(gap, "", p.words.Say("audit.nochanges"))
	}
	if t.MoreChange != "" {
		say(gap, "", t.MoreChange)
	}
}
