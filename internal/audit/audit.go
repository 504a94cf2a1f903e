package audit

import (
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"time"

	"asleft/internal/archive"
	"asleft/internal/data"
	"asleft/internal/field"
	"asleft/internal/sign"
)

// MaxSize is the largest file that is audited, in bytes.
const MaxSize = 256 << 20

// ErrTooLarge is a file larger than [MaxSize].
var ErrTooLarge = errors.New("file is too large")

// Options is what an audit is done with.
type Options struct {
	Program string // that audits, as it writes itself into packages
	Make    Maker  // rebuilds; nil rebuilds nothing
	// Typefaces are those of the program, by name; a file may name any.
	Typefaces map[string]*archive.Typeface
	Roots     *x509.CertPool // whom to trust; nil is nobody
	At        time.Time      // when certificates are judged; zero is as each signature says
	// Fingerprint is one known from elsewhere, empty for none.
	Fingerprint string
	// Beside are the files of an archive-only package by name; nil for none.
	Beside map[string][]byte
	// Previous is an earlier package, or its data file; nil for none.
	Previous []byte
	// PreviousData is the data file beside an earlier package that holds none; nil
	// for none.
	PreviousData []byte
}

// Maker makes a package the way the program does.
type Maker func(Request) (*Made, error)

// Request is what a package is to be made of, as the audited one says.
type Request struct {
	Program                         string // to be named as its maker
	Language, Paper, Units, Profile string // empty where not known
	Files                           []data.Part
	Names                           []string // of the workbooks among the files, as they were called
}

// Made is a package made anew.
type Made struct {
	Record *field.Record // what was read; nil asks no questions on the readings
	PDF    []byte
	Files  []data.Part
}

// audit is one audit under way.
type audit struct {
	o       Options
	file    []byte // without what stands behind its end
	out     *Result
	reader  *archive.Reader // of the first revision
	signed  *sign.Report
	parts   []data.Part // attached, or beside
	stated  []byte      // data file of the package, nil where there is none
	values  data.Values // the same, flat
	made    *Made
	equal   bool // the first revision is the one made anew
	counts  map[Code]int
	foreign bool // another version of the program wrote it
	known   bool // the fingerprint given is its own
	// shapesUnknown: it has shapes of characters that this version cannot know.
	shapesUnknown bool
}

// Run audits a file. An error means that it cannot be read at all; anything else
// that is wrong is a finding.
func Run(file []byte, o Options) (*Result, error) {
	if len(file) > MaxSize {
		return nil, fmt.Errorf("%w: %d bytes", ErrTooLarge, len(file))
	}
	sum := sha256.Sum256(file)
	a := &audit{o: o, file: file, counts: map[Code]int{}, out: &Result{Schema: Schema, Program: o.Program,
		File:     File{hex.EncodeToString(sum[:]), len(file)},
		Strength: StrengthNone, Origin: OriginNone,
		Findings: []Finding{}, Signatures: []Signature{}, Revisions: []Revision{}, Questions: []Asked{}}}
	if err := a.open(); err != nil {
		return nil, err
	}
	a.collect()
	a.describe()
	a.signatures()
	a.files()
	a.rebuild()
	a.questions()
	a.previous()
	a.conclude()
	return a.out, nil
}

// open reads the file, without the bytes behind its end if there are any, and its
// first revision: the file as it was written.
func (a *audit) open() error {
	all, err := archive.Open(a.file)
	var e *archive.ReadError
	if errors.Is(err, archive.ErrTrailing) && errors.As(err, &e) && e.Offset > 0 && e.Offset < int64(len(a.file)) {
		a.add(Differs, CodeTrailing, text("n", fmt.Sprint(int64(len(a.file))-e.Offset)))
		a.file = a.file[:e.Offset]
		all, err = archive.Open(a.file)
	}
	if err != nil {
		return err
	}
	ends := all.Revisions()
	if a.signed, err = sign.Verify(a.file, sign.Trusted{Roots: a.o.Roots, At: a.o.At}); err != nil {
		return err
	}
	a.reader, err = archive.Open(a.file[:ends[0]])
	return err
}

// maxFindings is how many findings of one code are listed.
const maxFindings = 40

func (a *audit) add(s Severity, c Code, args ...Arg) {
	a.addFinding(Finding{Severity: s, Code: c, Args: args})
}

func (a *audit) addFinding(f Finding) {
	if a.counts[f.Code]++; a.counts[f.Code] <= maxFindings {
		a.out.Findings = append(a.out.Findings, f)
	}
}

// settle puts the worst findings first and tells of those left out.
func (a *audit) settle() {
	rank := map[Severity]int{Differs: 0, Question: 1, Note: 2}
	var codes []Code
	for c, n := range a.counts {
		if n > maxFindings {
			codes = append(codes, c)
		}
	}
	slices.Sort(codes)
	for _, c := range codes {
		i := slices.IndexFunc(a.out.Findings, func(f Finding) bool { return f.Code == c })
		a.out.Findings = append(a.out.Findings, Finding{Severity: a.out.Findings[i].Severity, Code: CodeMore,
			Args: []Arg{code("of", string(c)), text("n", fmt.Sprint(a.counts[c]-maxFindings))}})
	}
	slices.SortStableFunc(a.out.Findings, func(x, y Finding) int { return rank[x.Severity] - rank[y.Severity] })
}

// has tells whether there is a finding of that weight or worse.
func (a *audit) has(worst ...Severity) bool {
	return slices.ContainsFunc(a.out.Findings, func(f Finding) bool { return slices.Contains(worst, f.Severity) })
}
