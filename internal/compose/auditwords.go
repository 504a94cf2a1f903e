package compose

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"asleft/internal/audit"
	"asleft/internal/data"
)

// Audit is an audit in words, for a terminal or the audit note.
type Audit struct {
	Title      string
	Facts      [][2]string // label and text
	Reached    string
	Findings   []AuditFinding
	Signatures []AuditSignature
	Questions  []AuditQuestion
	Compared   bool // with an earlier package
	Changes    []AuditChange
	MoreChange string // how many more there are, empty for none
	Conclusion string // one line: what was proved and what not
}

// AuditFinding is one finding in words.
type AuditFinding struct {
	Severity audit.Severity
	Word     string // of the severity
	Text     string
}

// AuditSignature is a signature field in words.
type AuditSignature struct {
	Role   string
	Signed bool
	Lines  []string
}

// AuditQuestion is a question on the readings as a whole: the rule that it is asked
// by, how many readings were looked at, and the odds.
type AuditQuestion struct{ Text, Rule, N, Odds, Where string }

// AuditChange is a value that is not as in the earlier package.
type AuditChange struct{ Where, Old, New string }

// DescribeAudit puts an audit into words. Texts that came out of the file are made
// fit for a terminal.
func DescribeAudit(r *audit.Result, w Words) (*Audit, error) {
	d := describer{newBook(&Input{Words: w}, made{}), r}
	out := &Audit{
		Title:    d.say("audit.heading", "title", first(visible(r.Package.Title), d.say("audit.untitled"))),
		Facts:    d.facts(),
		Reached:  d.say("audit.strength." + string(r.Strength)),
		Compared: r.Compared,
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		out.Findings = append(out.Findings, AuditFinding{f.Severity, d.say("audit.severity." + string(f.Severity)), d.finding(f)})
	}
	for i := range r.Signatures {
		out.Signatures = append(out.Signatures, d.signature(&r.Signatures[i]))
	}
	for i := range r.Questions {
		out.Questions = append(out.Questions, d.question(&r.Questions[i]))
	}
	out.Changes, out.MoreChange = d.changes()
	out.Conclusion = d.conclusion()
	return out, d.err()
}

// describer puts the parts of a result into words.
type describer struct {
	*book
	r *audit.Result
}

func first(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}

// visible is a text of an audited file with everything that is not to be seen made
// visible: it may come from anybody.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029' {
			return '?'
		}
		return r
	}, strings.ToValidUTF8(s, "?"))
}

func (d describer) facts() [][2]string {
	p := &d.r.Package
	or := func(s string) string { return first(visible(s), d.say("audit.unknown")) }
	state := d.say("audit.unknown")
	if p.State != "" {
		state = first(d.optional("state."+p.State), visible(p.State))
	}
	return [][2]string{
		{d.say("audit.state"), state},
		{d.say("audit.fingerprint"), or(p.Fingerprint)},
		{d.say("audit.made"), or(p.Program)},
		{d.say("audit.audited"), d.r.Program},
		{d.say("audit.size"), d.say("audit.bytes", "n", strconv.Itoa(d.r.File.Size))},
		{d.say("audit.hash"), d.r.File.SHA256},
	}
}

// finding is where it is and what it is.
func (d describer) finding(f *audit.Finding) string {
	pairs := make([]string, 0, 2*len(f.Args))
	for _, a := range f.Args {
		pairs = append(pairs, a.Name, d.arg(a))
	}
	page := ""
	if f.Page > 0 {
		page = d.say("audit.page", "n", strconv.Itoa(f.Page))
	}
	text := strings.TrimSpace(d.say("audit.finding."+string(f.Code), pairs...))
	return join(": ", page, d.place(f.Keys(), ""), text)
}

func (d describer) arg(a audit.Arg) string {
	text := visible(a.Text)
	switch {
	case text == "":
		return d.say("audit.none")
	case a.Kind == audit.ArgField:
		return d.role(a.Text)
	case a.Kind == audit.ArgCode:
		return first(d.optional("verdict."+text), d.optional("state."+text), text)
	}
	return text
}

// role is what people call a signature field.
func (d describer) role(field string) string {
	for i := range d.r.Signatures {
		if s := &d.r.Signatures[i]; s.Field == field && s.Role != "" {
			return visible(s.Role)
		}
	}
	return visible(field)
}

// place says where in the data file something stands, as people would: "cell 3,
// Tip clearance, As left, 4, as read".
func (d describer) place(keys []string, name string) string {
	var out []string
	check := ""
	say := func(s string) { out = append(out, s) }
	for i := 0; i < len(keys); i++ {
		key, next := keys[i], ""
		if i+1 < len(keys) {
			next = keys[i+1]
		}
		if words, ok := d.pair(key, next, &check); ok && next != "" {
			say(words)
			i++
			continue
		}
		if name != "" && i == 1 {
			say(d.say("audit.row", "name", visible(name)))
			continue
		}
		say(first(d.optional("audit.member."+key), visible(key)))
	}
	return strings.Join(out, ", ")
}

// pair puts two keys of a path into words that mean something together.
func (d describer) pair(key, next string, check *string) (string, bool) {
	switch key {
	case "cells":
		return d.say("audit.cell", "n", visible(next)), true
	case "checks", "limits":
		*check = next
		word := first(d.optional("check."+next), visible(next))
		if key == "limits" {
			word = d.say("audit.limit", "check", word)
		}
		return word, true
	case "rounds":
		return first(d.optional("round."+next), visible(next)), true
	case "items":
		return first(d.optional("check."+next), d.optional("prestart."+next), visible(next)), true
	case "readings":
		if n, err := strconv.Atoi(next); err == nil && placeKinds[*check] != "" {
			return d.placeName(*check, n), true
		}
		return d.say("place.numbered", "n", visible(next)), true
	case "results":
		return first(d.optional("result."+next), visible(next)), true
	}
	return "", false
}

// maxChanges is how many changes are listed in words.
const maxChanges = 60

// changes are those that were typed or decided; the rest follows from them.
func (d describer) changes() (list []AuditChange, more string) {
	left := 0
	for i := range d.r.Changes {
		c := &d.r.Changes[i]
		kind := data.DifferenceKind(c.Kind)
		if kind == data.DiffComputed || kind == data.DiffMaker || len(list) == maxChanges {
			left++
			continue
		}
		list = append(list, AuditChange{d.place(c.Keys(), c.Name), d.changed(kind, c.Was, c.Old), d.changed(kind, c.Is, c.New)})
	}
	if left > 0 {
		more = d.say("audit.morechanges", "n", strconv.Itoa(left))
	}
	return list, more
}

func (d describer) changed(kind data.DifferenceKind, there bool, value string) string {
	if !there || value == "" {
		return d.say("audit.none")
	}
	if kind == data.DiffVerdict {
		return first(d.optional("verdict."+value), d.optional("state."+value), visible(value))
	}
	return visible(value)
}

func (d describer) conclusion() string {
	list := func(prefix string, all []audit.Statement) string {
		var out []string
		for _, s := range all {
			out = append(out, d.say(prefix+string(s)))
		}
		return strings.Join(out, "; ")
	}
	proved := d.say("audit.provesnothing")
	if len(d.r.Proved) > 0 {
		proved = d.say("audit.proves", "list", list("audit.proved.", d.r.Proved))
	}
	return fmt.Sprint(proved, " ", d.say("audit.not", "list", list("audit.notproved.", d.r.NotProved)))
}

func (d describer) signature(s *audit.Signature) AuditSignature {
	out := AuditSignature{Role: d.role(s.Field), Signed: s.Signed}
	say := func(key string, pairs ...string) {
		for i := 1; i < len(pairs); i += 2 {
			pairs[i] = visible(pairs[i])
		}
		out.Lines = append(out.Lines, d.say("audit.signature."+key, pairs...))
	}
	if !s.Signed {
		say("open")
		return out
	}
	say("by", "name", first(s.Name, d.say("audit.signature.noname")), "claimed", first(s.Claimed, d.say("audit.signature.notime")))
	if !s.Intact {
		say("broken")
		return out
	}
	if s.Level == "" {
		say("nolevel")
	} else {
		say("level", "level", s.Level)
	}
	if s.Stamped != "" {
		say("stamped", "stamped", s.Stamped, "notary", s.Notary)
	}
	if s.Subject != "" {
		say(s.Trust, "subject", s.Subject, "issuer", s.Issuer)
	}
	d.covers(s, say)
	return out
}

// covers says what a signature covers and what came after it.
func (d describer) covers(s *audit.Signature, say func(string, ...string)) {
	say("covers", "end", strconv.Itoa(s.End), "size", strconv.Itoa(d.r.File.Size))
	switch {
	case len(s.After) == 0 && s.End == d.r.File.Size:
		say("nothingafter")
	case d.changedIn(s.After) || s.End < d.r.File.Size && len(s.After) == 0:
		say("changedafter")
	default:
		var fields []string
		for _, f := range s.SignedAfter {
			fields = append(fields, d.role(f))
		}
		say("signedafter", "fields", strings.Join(fields, ", "))
	}
	const nothing = 1 // ISO 32000-1, table 254
	switch {
	case s.Certifies && s.Permission == nothing:
		say("closes")
	case s.Certifies:
		say("certifies")
	}
}

// changedIn tells whether any of the revisions changed something for no signature.
func (d describer) changedIn(revisions []int) bool {
	for _, n := range revisions {
		if n < 1 || n > len(d.r.Revisions) || d.r.Revisions[n-1].Unexplained > 0 {
			return true
		}
	}
	return false
}
