package report

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/workbook"
	"asleft/templates"
)

// Version is the version of the program: it stands in the data file, on the
// archive page and in the properties of the document.
const Version = "0.1.0"

// program is what the documents name as their maker.
const program = "asleft " + Version

// Options is what is asked for besides the workbook. The zero value follows the
// workbook; where that says nothing it is English, US Letter and inches.
type Options struct {
	Language    string // BCP 47, e.g. "en"
	Paper       string // "Letter" or "A4"
	Units       string // "in" or "mm": of computed values, printed first
	ArchiveOnly bool   // no files inside the PDF; [Job.Files] are to lie beside it
}

// Job is one workbook, read and judged. Its methods change nothing and may be
// called in any order.
type Job struct {
	record     field.Record
	assessment assess.Assessment
	moves      []correct.Moves
	rules      assess.Rules
	words      *templates.Words
	source     []byte
	units      measure.Unit
	paper      page.Paper
	profile    archive.Profile
}

// Open reads and judges a workbook of the given size. The name is its base name
// and goes into the package. What cannot be read as intended comes back as a
// [FaultError]; a file that is no workbook of the form, as another error;
// options that do not exist, as an [OptionError].
func Open(r io.ReaderAt, size int64, name string, o Options) (*Job, error) {
	j := &Job{}
	if err := j.choose(o); err != nil {
		return nil, err
	}
	var err error
	if j.source, err = bytesOf(r, size); err != nil {
		return nil, err
	}
	record, faults, err := workbook.Read([]workbook.Input{{Name: name, Bytes: j.source}}, j.words)
	if err != nil {
		return nil, nameless(err)
	}
	if err := j.follow(o, &record, faults); err != nil {
		return nil, err
	}
	if j.rules, err = ruleSet(); err != nil {
		return nil, err
	}
	j.record = record
	j.assessment = assess.Assess(record, j.rules)
	j.moves = correct.Correct(record, j.assessment, j.rules)
	return j, nil
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

// nameless takes the file's name off an error: the caller knows the path.
func nameless(err error) error {
	var refused *workbook.FileError
	if !errors.As(err, &refused) {
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

// language finds the words of a language; blank is English.
func language(tag string) (*templates.Words, error) {
	tag = first(tag, "en")
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
