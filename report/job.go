package report

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/compose"
	"asleft/internal/correct"
	"asleft/internal/enclosure"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/workbook"
	"asleft/templates"
)

// Version is the version of the program: it stands in the data file, on the
// archive page and in the properties of the document. Between releases it is the
// next one with "-dev" behind it (DEVELOPERS.md, "Kept promises").
const Version = "0.2.0-dev"

// program is what the documents name as their maker.
const program = "asleft " + Version

// Options is what is asked for besides the workbook. The zero value follows the
// workbook; where that says nothing it is English, US Letter and inches.
type Options struct {
	Language    string // BCP 47, e.g. "en"
	Paper       string // "Letter" or "A4"
	Units       string // "in" or "mm": of computed values, printed first
	ArchiveOnly bool   // no files inside the PDF; [Job.Files] are to lie beside it
	// Unattached leaves photos, certificates and manuals unread. That is enough
	// for verdicts, cards and figures, but not for the package and its data file.
	Unattached bool
	// Previous is the package that came before this one, as PDF, or its data file;
	// the new one then says what has changed.
	Previous []byte

	packed *packed // instead of the folders and of Previous
}

// Job is the workbooks of one tower, read and judged. Its methods change nothing and may be
// called in any order.
type Job struct {
	record     field.Record
	assessment assess.Assessment
	moves      []correct.Moves
	rules      assess.Rules
	words      *templates.Words
	sources    [][]byte
	units      measure.Unit
	paper      page.Paper
	profile    archive.Profile
	enclosures []enclosure.File
	unattached bool
	cell       int // the one cell of the package; 0: all that are in it
	previous   *compose.Previous
}

// Source is a workbook as it was handed over. The name is the base name of its
// file and goes into the package.
type Source struct {
	Name   string
	Reader io.ReaderAt
	Size   int64
	// Folder is where the workbook lies: photos, certificates and manuals are read
	// from it. It must lead nowhere else, as that of an [os.Root] does. It may be
	// nil where the workbook names none.
	Folder fs.FS
}

// Open reads and judges a workbook of the given size that has no attachments;
// see [OpenAll].
func Open(r io.ReaderAt, size int64, name string, o Options) (*Job, error) {
	return OpenAll([]Source{{Name: name, Reader: r, Size: size}}, o)
}

// OpenAll reads and judges the workbooks of one tower, as one: what two of them
// say differently is a fault. What cannot be read as intended comes back as a
// [FaultError]; a file that is no workbook of the form, as another error;
// options that do not exist, as an [OptionError].
func OpenAll(sources []Source, o Options) (*Job, error) {
	j := &Job{}
	if err := j.choose(o); err != nil {
		return nil, err
	}
	inputs, err := j.load(sources)
	if err != nil {
		return nil, err
	}
	record, faults, err := workbook.Read(inputs, j.words)
	if err != nil {
		return nil, nameless(err, len(sources))
	}
	missing, err := j.attach(&record, sources, o)
	if err != nil {
		return nil, err
	}
	faults = append(faults, missing...)
	if err := j.follow(o, &record, faults); err != nil {
		return nil, err
	}
	if j.rules, err = ruleSet(); err != nil {
		return nil, err
	}
	j.record, j.cell = record, o.packed.cell()
	j.judge()
	return j, j.compareWith(o)
}

func (j *Job) judge() {
	j.assessment = assess.Assess(j.record, j.rules)
	if j.cell != 0 {
		j.assessment = assess.AssessCell(j.record, j.rules, j.cell)
	}
	j.moves = correct.Correct(j.record, j.assessment, j.rules)
}

// load reads the files. More of them than a tower can have are refused unread.
func (j *Job) load(sources []Source) ([]workbook.Input, error) {
	if len(sources) > workbook.MaxFiles {
		return nil, workbook.ErrSeveral
	}
	var inputs []workbook.Input
	for _, s := range sources {
		b, err := bytesOf(s.Reader, s.Size)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", s.Name, err)
		}
		j.sources = append(j.sources, b)
		inputs = append(inputs, workbook.Input{Name: s.Name, Bytes: b})
	}
	return inputs, nil
}

// bytesOf reads a file, no more of it than the reader of workbooks needs to
// see that it is too large.
func bytesOf(r io.ReaderAt, size int64) ([]byte, error) {
	b := make([]byte, max(0, min(size, workbook.MaxFileSize+1)))
	if _, err := io.ReadFull(io.NewSectionReader(r, 0, size), b); err != nil {
		return nil, err
	}
	return b, nil
}

// nameless takes the file's name off an error about the only file: the caller
// knows its path.
func nameless(err error, files int) error {
	var refused *workbook.FileError
	if !errors.As(err, &refused) || files > 1 {
		return err
	}
	if refused.Detail == "" {
		return refused.Kind
	}
	return fmt.Errorf("%w: %s", refused.Kind, refused.Detail)
}

// choose reads the options that do not depend on the workbook.
func (j *Job) choose(o Options) (err error) {
	if j.units, err = unitOf(o.Units); err != nil {
		return err
	}
	if err := checkPaper(o.Paper); err != nil {
		return err
	}
	if o.ArchiveOnly {
		j.profile = archive.PDFA2A
	}
	j.words, err = language(o.Language)
	return err
}

// follow takes from the project sheet what the options leave open. Faults are
// told in the language of the options.
func (j *Job) follow(o Options, r *field.Record, faults []field.Fault) (err error) {
	if len(faults) > 0 {
		return j.faultError(r.Files, faults)
	}
	p := &r.Project
	if j.words, err = language(first(o.Language, p.Language.Value)); err != nil {
		return err
	}
	if j.units == measure.UnitNone {
		if j.units, err = unitOf(first(p.Units.Value, measure.UnitInch.String())); err != nil {
			return err
		}
	}
	j.paper = page.Letter
	if first(o.Paper, p.Paper.Value) == page.A4.Name {
		j.paper = page.A4
	}
	return nil
}

// first is the first text that is not blank.
func first(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}

const english = "en"

// language finds the words of a language; blank is English.
func language(tag string) (*templates.Words, error) {
	tag = first(tag, english)
	all := templates.Languages()
	for _, known := range all {
		if known == tag {
			return templates.Language(tag)
		}
	}
	return nil, &OptionError{"language", tag, strings.Join(all, ", ")}
}

// RuleSet is the built-in rule set: what overtakes what.
type RuleSet struct{ Version, SHA256 string }

// Rules names the built-in rule set.
func Rules() (RuleSet, error) {
	r, err := ruleSet()
	return RuleSet{r.Version, r.Hash}, err
}

func ruleSet() (assess.Rules, error) {
	t, err := templates.RuleSet()
	if err != nil {
		return assess.Rules{}, err
	}
	r := assess.Rules{Version: t.Version, Hash: t.Hash}
	for _, e := range t.Events {
		r.Events = append(r.Events, assess.Event(e))
	}
	return r, nil
}

// Title names the tower and the plant.
func (j *Job) Title() string {
	var parts []string
	for _, t := range []string{j.record.Project.Plant.Value, j.record.Tower.Tag.Value} {
		if t != "" {
			parts = append(parts, t)
		}
	}
	return strings.Join(parts, ", ")
}
