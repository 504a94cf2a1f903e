package audit_test

import (
	"crypto/x509"
	"slices"
	"testing"

	"asleft/internal/audit"
	"asleft/report"
)

// Untouched packages of every kind raise nothing, and every byte is rebuilt.
func TestUntouchedPackagesAgree(t *testing.T) {
	authority := newSigner(t, "Example Authority", nil)
	lead := newSigner(t, "Example Lead", authority)
	roots := x509.NewCertPool()
	roots.AddCert(authority.cert)
	plain := metricPackage(t)
	once := signed(t, plain, "2", lead, true)
	twice := signed(t, once, "1", newSigner(t, "Example Owner", authority), false)
	other, _ := pack(t, report.Options{Paper: "Letter", Units: "in"}, source("metric.xlsx", book(t, "metric.xlsx")))
	several, _ := pack(t, report.Options{}, source("crew ä.xlsx", form(t, 1)), source("crew ö.xlsx", form(t, 2)))
	alone, files := pack(t, report.Options{ArchiveOnly: true}, source("form.xlsx", form(t, 1)))
	beside := map[string][]byte{}
	for _, f := range files {
		beside[f.Name] = f.Bytes
	}
	for _, c := range []struct {
		name   string
		file   []byte
		o      audit.Options
		origin audit.Origin
	}{
		{"unsigned", plain, audit.Options{}, audit.OriginNone},
		{"signed once", once, audit.Options{}, audit.OriginSigned},
		{"signed twice, under a root", twice, audit.Options{Roots: roots}, audit.OriginTrusted},
		{"other paper and units", other, audit.Options{}, audit.OriginNone},
		{"several workbooks", several, audit.Options{}, audit.OriginNone},
		{"files beside it", alone, audit.Options{Beside: beside}, audit.OriginNone},
		{"against itself", plain, audit.Options{Previous: plain}, audit.OriginNone},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := run(t, c.file, c.o)
			if !r.Agrees || r.Strength != audit.StrengthBytes || r.Origin != c.origin || len(r.Changes) > 0 {
				t.Errorf("agrees %t, strength %s, origin %s, %d changes\n%s", r.Agrees, r.Strength, r.Origin, len(r.Changes), codes(r))
			}
			if remade := slices.Contains(r.NotProved, audit.NotProvedRemade); remade != (c.origin == audit.OriginNone && !r.Compared) {
				t.Errorf("says that it may be made anew: %t", remade)
			}
		})
	}
}

func TestFingerprintGivenIsCompared(t *testing.T) {
	plain := metricPackage(t)
	own := run(t, plain, audit.Options{}).Package.Fingerprint
	if r := run(t, plain, audit.Options{Fingerprint: own}); r.Origin != audit.OriginFingerprint || !r.Agrees {
		t.Errorf("origin %s\n%s", r.Origin, codes(r))
	}
	if r := run(t, plain, audit.Options{Fingerprint: "00000000"}); !hasCode(r, audit.CodeFingerprintGiven) {
		t.Errorf("another fingerprint is taken\n%s", codes(r))
	}
}

func TestWithoutSourcesNothingIsRecomputed(t *testing.T) {
	alone, _ := pack(t, report.Options{ArchiveOnly: true}, source("form.xlsx", form(t, 1)))
	r := run(t, alone, audit.Options{})
	if !hasCode(r, audit.CodeNoSources) || r.Strength != audit.StrengthNone || r.Agrees {
		t.Errorf("strength %s\n%s", r.Strength, codes(r))
	}
	r = run(t, signed(t, alone, "1", newSigner(t, "Example Lead", nil), false), audit.Options{})
	if r.Strength != audit.StrengthSignatures {
		t.Errorf("signed: strength %s\n%s", r.Strength, codes(r))
	}
}
