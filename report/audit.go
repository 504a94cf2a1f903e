package report

import (
	"bytes"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"
	"time"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/compose"
	"asleft/internal/data"
	"asleft/internal/page"
)

// AuditOptions says what a package is held against besides itself. The zero value
// is itself alone.
type AuditOptions struct {
	Roots       []byte    // PEM: certificates of those whose word counts for who signed
	At          time.Time // when certificates are judged; zero is when each signature says it was made
	Fingerprint string    // of the package, known from elsewhere: 8 hex digits
	Beside      []File    // files of an archive-only package
	Previous    []byte    // an earlier package or its data file
	// PreviousData is the data file beside an earlier package that holds none.
	PreviousData []byte
}

// Reasons for not auditing.
var (
	// ErrRoots is a file without a certificate in PEM form.
	ErrRoots = errors.New("no certificate in PEM form")
	// ErrFingerprint is a text that is no fingerprint.
	ErrFingerprint = errors.New("a fingerprint is 8 hex digits")
	// ErrNotAudited is in the chain of errors about the file itself: it cannot be
	// read at all.
	ErrNotAudited = errors.New("cannot be audited")
)

// Audited is what an audit found.
type Audited struct{ result *audit.Result }

// Audit recomputes a package from what is inside it. An error means that it cannot
// be read; all that is wrong with it otherwise is in what comes back.
func Audit(r io.ReaderAt, size int64, o AuditOptions) (*Audited, error) {
	in := audit.Options{Program: program, Make: remake, At: o.At, Fingerprint: o.Fingerprint, Previous: o.Previous,
		PreviousData: o.PreviousData}
	if !isFingerprint(o.Fingerprint) {
		return nil, fmt.Errorf("%q: %w", o.Fingerprint, ErrFingerprint)
	}
	var err error
	if in.Typefaces, err = typefaces(); err != nil {
		return nil, err
	}
	if o.Roots != nil {
		in.Roots = x509.NewCertPool()
		if !in.Roots.AppendCertsFromPEM(o.Roots) {
			return nil, ErrRoots
		}
	}
	if len(o.Beside) > 0 {
		in.Beside = map[string][]byte{}
		for _, f := range o.Beside {
			in.Beside[f.Name] = f.Bytes
		}
	}
	file := make([]byte, max(0, min(size, audit.MaxSize+1)))
	if _, err := io.ReadFull(io.NewSectionReader(r, 0, size), file); err != nil {
		return nil, err
	}
	result, err := audit.Run(file, in)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNotAudited, err)
	}
	return &Audited{result}, nil
}

// typefaces are those that this version prints with.
var typefaces = sync.OnceValues(func() (map[string]*archive.Typeface, error) {
	out := map[string]*archive.Typeface{}
	for name, b := range page.Typefaces() {
		t, err := archive.ReadTypeface(name, b)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out[name] = t
	}
	return out, nil
})

func isFingerprint(s string) bool {
	const digits = 8
	hex := func(r rune) bool {
		return r >= '0' && r <= '9' || r >= 'a' && r <= 'f' || r >= 'A' && r <= 'F'
	}
	return s == "" || len(s) == digits && !slices.ContainsFunc([]rune(s), func(r rune) bool { return !hex(r) })
}

// remake makes a package from the workbooks inside another one, with the options
// that it names.
func remake(q audit.Request) (*audit.Made, error) {
	var sources []Source
	for _, p := range q.Files {
		if p.Kind != data.Source {
			continue
		}
		s := Source{Name: p.Name, Reader: bytes.NewReader(p.Bytes), Size: int64(len(p.Bytes))}
		if i := len(sources); i < len(q.Names) {
			s.Name = q.Names[i]
		}
		sources = append(sources, s)
	}
	j, err := OpenAll(sources, Options{Language: q.Language, Paper: q.Paper, Units: q.Units,
		ArchiveOnly: q.Profile == compose.ProfileName(archive.PDFA2A), packed: takePacked(q.Files)})
	if err != nil {
		return nil, err
	}
	in := j.input()
	in.Program = q.Program
	m := &audit.Made{Record: &j.record}
	if m.Files, err = compose.Parts(in); err != nil {
		return nil, err
	}
	m.PDF, err = compose.Write(in)
	return m, err
}

// Agrees tells whether nothing differs and nothing is asked.
func (a *Audited) Agrees() bool { return a.result.Agrees }

// WriteJSON writes all that was found.
func (a *Audited) WriteJSON(w io.Writer) error {
	b, err := data.Write(a.result)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// AuditText is what was found, in words.
type AuditText = compose.Audit

// Text is what was found, in the words of a language; blank is English.
func (a *Audited) Text(tag string) (*AuditText, error) {
	words, err := language(tag)
	if err != nil {
		return nil, err
	}
	return compose.DescribeAudit(a.result, words)
}

// WritePDF writes an audit note about the file of that name, dated at. Paper is
// "Letter" or "A4"; blank is that of the package.
func (a *Audited) WritePDF(w io.Writer, name string, at time.Time, tag, paper string) error {
	if err := checkPaper(paper); err != nil {
		return err
	}
	words, err := language(tag)
	if err != nil {
		return err
	}
	in := compose.AuditNote{Result: a.result, Words: words, Name: name, Program: program, At: at, Paper: page.Letter}
	if first(paper, a.result.Package.Paper) == page.A4.Name {
		in.Paper = page.A4
	}
	b, err := compose.WriteAuditNote(in)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrRefused, err)
	}
	_, err = w.Write(b)
	return err
}
