package compose

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"asleft/internal/audit"
	"asleft/templates"
)

var wordPlace = regexp.MustCompile(`{([a-z]+)}`)

// Every code of an audit has words, and words ask for no argument that is not
// there; no words are left over.
func TestEveryFindingHasWords(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, c := range audit.Codes() {
		key := "audit.finding." + string(c.Code)
		known[key] = true
		if !words.Has(key) {
			t.Errorf("no words for %s", key)
		}
		for _, m := range wordPlace.FindAllStringSubmatch(words.Say(key), -1) {
			if !slices.Contains(c.Args, m[1]) {
				t.Errorf("%s has no argument {%s}", key, m[1])
			}
		}
	}
	for _, key := range words.Keys() {
		if strings.HasPrefix(key, "audit.finding.") && !known[key] {
			t.Errorf("nobody finds %s", key)
		}
	}
}

// everything is a result with everything in it that is to be put into words.
func everything() *audit.Result {
	r := &audit.Result{Program: "asleft 1", Origin: audit.OriginNone, Strength: audit.StrengthNone, Compared: true,
		Proved: []audit.Statement{audit.ProvedBytes, audit.ProvedValues, audit.ProvedFingerprint, audit.ProvedUnchanged, audit.ProvedWho},
		NotProved: []audit.Statement{audit.NotProvedContent, audit.NotProvedRebuild, audit.NotProvedOrigin, audit.NotProvedWho,
			audit.NotProvedRemade, audit.NotProvedEnclosed, audit.NotProvedReadings}}
	for i, c := range audit.Codes() {
		f := audit.Finding{Code: c.Code, Page: i, Severity: []audit.Severity{audit.Differs, audit.Question, audit.Note}[i%3]}
		for _, a := range c.Args {
			f.Args = append(f.Args, audit.Arg{Name: a, Kind: audit.ArgText, Text: "text of " + a})
		}
		r.Findings = append(r.Findings, f)
	}
	for _, trust := range []string{"root", "self", "none", ""} {
		r.Signatures = append(r.Signatures, audit.Signature{Field: "sign.1", Signed: true, Intact: true, Subject: trust, Trust: trust,
			Stamped: "2026-04-01", Revision: 2, After: []int{3}, Certifies: true, Permission: 1})
	}
	r.Signatures = append(r.Signatures, audit.Signature{Field: "sign.2"}, audit.Signature{Signed: true},
		audit.Signature{Signed: true, Intact: true, Level: "B-B", Trust: "self", Subject: "x", Certifies: true, Permission: 2, SignedAfter: []string{"a"}, After: []int{1}})
	r.Revisions = []audit.Revision{{Number: 1}}
	r.Changes = []audit.Change{{Kind: "reading", Path: "x", Was: true, Old: "1"}, {Kind: "verdict", Is: true, New: "within"}, {Kind: "computed"}}
	return r
}

func TestEverythingOfAnAuditCanBeSaid(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []audit.Strength{audit.StrengthNone, audit.StrengthSignatures, audit.StrengthValues, audit.StrengthBytes} {
		r := everything()
		r.Strength = s
		d, err := DescribeAudit(r, words)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range d.Findings {
			if strings.ContainsAny(f.Text, "{}[]") || f.Text == "" {
				t.Errorf("%q", f.Text)
			}
		}
	}
	if _, err := WriteAuditNote(AuditNote{Result: everything(), Words: words, Name: "a.pdf", Program: "asleft 1",
		At: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)}); err != nil {
		t.Error(err)
	}
}

func TestPlacesAreNamedAsPeopleDo(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	d := describer{newBook(&Input{Words: words}, made{}), everything()}
	for path, want := range map[string]string{
		"cells.3.checks.clearance.rounds.asleft.readings.4.read": "cell 3, Tip clearance, As left, No. 4, as read",
		"limits.tilt.max":             "limit of Fan tilt, most",
		"cells.2.checks.tilt.verdict": "cell 2, Fan tilt, verdict",
		"cells.1.stacks.2.now":        "cell 1, shims under foot, 2, now",
		"state":                       "state",
		"cells.1.checks.nobody.rounds.x.results.y": "cell 1, nobody, x, y",
		"cells": "cells",
	} {
		if got := d.place(strings.Split(path, "."), ""); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
	if got := d.place([]string{"instruments", "0", "due"}, "T-1"); got != "instrument, row T-1, due" {
		t.Errorf("%q", got)
	}
	if err := d.err(); err != nil {
		t.Error(err)
	}
}
