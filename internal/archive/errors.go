package archive

import (
	"errors"
	"fmt"
	"strings"
)

// Causes of a [ReadError].
var (
	// ErrMalformed is a file that is damaged or no PDF.
	ErrMalformed = errors.New("malformed")
	// ErrLimit is a file that exceeds one of the named limits.
	ErrLimit = errors.New("over the limit")
	// ErrForeign is a file, perhaps valid, that our writer does not make.
	ErrForeign = errors.New("not written by this program")
	// ErrCodes is a font whose codes stand for other characters than in our files.
	ErrCodes = fmt.Errorf("%w: codes of a font", ErrForeign)
	// ErrTrailing is a file with bytes behind the end of its last revision.
	ErrTrailing = errors.New("bytes behind the end of the file")
)

// ReadError says where reading stopped and why.
type ReadError struct {
	Offset int64  // from the start of the file or of the decoded stream
	Object int    // object number, or 0 where none is known
	Fact   string // what was found
	Err    error  // one of the causes above
}

func (e *ReadError) Error() string {
	if e.Object > 0 {
		return fmt.Sprintf("object %d, offset %d: %s: %v", e.Object, e.Offset, e.Fact, e.Err)
	}
	return fmt.Sprintf("offset %d: %s: %v", e.Offset, e.Fact, e.Err)
}

func (e *ReadError) Unwrap() error { return e.Err }

func malformed(offset int, format string, args ...any) error {
	return &ReadError{Offset: int64(offset), Fact: fmt.Sprintf(format, args...), Err: ErrMalformed}
}

func overLimit(offset int, format string, args ...any) error {
	return &ReadError{Offset: int64(offset), Fact: fmt.Sprintf(format, args...), Err: ErrLimit}
}

func foreign(format string, args ...any) error {
	return &ReadError{Fact: fmt.Sprintf(format, args...), Err: ErrForeign}
}

// inObject notes the object number on errors that do not have one yet.
func inObject(n int, err error) error {
	var e *ReadError
	if errors.As(err, &e) && e.Object == 0 {
		e.Object = n
	}
	return err
}

// Violation is one thing that keeps a file from being an archive file.
type Violation struct {
	Rule  Rule
	Where string // "page 3", "object 12", or the path of a structure element
	Fact  string
}

func (v Violation) String() string { return fmt.Sprintf("%s: %s: %s", v.Where, v.Rule, v.Fact) }

// Rule names what was violated.
type Rule string

const (
	RuleShape     Rule = "unexpected object"    // not what the page writer makes
	RuleContent   Rule = "unexpected content"   // operator, operand or resource
	RuleMarks     Rule = "marked content"       // unbalanced, nested, misnumbered
	RuleUnmarked  Rule = "painting outside"     // painting outside marked content
	RuleGlyph     Rule = "missing glyph"        // .notdef, or a code without meaning
	RuleWidth     Rule = "glyph width"          // page width differs from the font's
	RuleRun       Rule = "run"                  // not used exactly once by the tree
	RuleStructure Rule = "structure"            // an element where it may not stand
	RuleHeading   Rule = "heading level"        // levels skipped
	RuleTable     Rule = "table"                // no scope, rows of unequal length
	RuleFigure    Rule = "figure"               // no alternative text, no box
	RuleID        Rule = "identifier"           // twice, or not printable
	RuleLink      Rule = "link"                 // no text, no target, no area
	RuleField     Rule = "field"                // no name, twice, no tooltip
	RulePage      Rule = "page"                 // label twice, count differs
	RuleOutline   Rule = "bookmark"             // no text, no target
	RuleFont      Rule = "font"                 // undeclared, damaged
	RuleFile      Rule = "attached file"        // name twice, no type, not allowed
	RuleMetadata  Rule = "document information" // missing or unprintable
	RuleReference Rule = "dangling reference"   // to an object that is not there
	RuleParents   Rule = "parent tree"          // disagrees with the structure
)

// RefusedError is returned instead of a file; it holds every violation found.
type RefusedError struct{ Violations []Violation }

// shownViolations is how many violations the error text spells out.
const shownViolations = 12

func (e *RefusedError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "file refused: %d violations", len(e.Violations))
	for i, v := range e.Violations {
		if i == shownViolations {
			fmt.Fprintf(&b, "; and %d more", len(e.Violations)-i)
			break
		}
		b.WriteString("; ")
		b.WriteString(v.String())
	}
	return b.String()
}

// findings collects violations in the order in which they are found.
type findings struct{ list []Violation }

func (f *findings) add(rule Rule, where, format string, args ...any) {
	f.list = append(f.list, Violation{rule, where, fmt.Sprintf(format, args...)})
}

// refusal is nil if nothing was found.
func (f *findings) refusal() error {
	if len(f.list) == 0 {
		return nil
	}
	return &RefusedError{f.list}
}
