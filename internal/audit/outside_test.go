//go:build outside

package audit_test

import (
	"bytes"
	"crypto/x509"
	"encoding/pem"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"software.sslmate.com/src/go-pkcs12"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/report"
)

// tool runs a program that has to succeed.
func tool(t *testing.T, name string, args ...string) {
	t.Helper()
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s %v: %v\n%s", filepath.Base(name), args, err, out)
	}
}

func save(t *testing.T, path string, b []byte) string {
	t.Helper()
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func load(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// A thousand single bits of a package, unsigned and signed, and of the signature
// itself: every one is found.
func TestThousandFlippedBitsAreFound(t *testing.T) {
	small := smallForm(t)
	once := signed(t, small, "1", newSigner(t, "Example Lead", nil), true)
	flips(t, small, 500, 11)
	flips(t, once, 250, 12)
	tail := len(once) - len(small)
	seed := uint64(13)
	for range 250 {
		seed = seed*6364136223846793005 + 1442695040888963407 // Knuth, MMIX
		at := len(small) + int(seed>>11%uint64(tail))
		b := bytes.Clone(once)
		b[at] ^= 1 << (seed >> 8 & 7)
		r, err := audit.Run(b, audit.Options{Program: own, Make: remake})
		if err == nil && r.Agrees {
			t.Errorf("byte %d: not found", at)
		}
	}
}

func TestDemonstrationAgrees(t *testing.T) {
	file, _ := pack(t, report.Options{}, source("demo.xlsx", book(t, "demo.xlsx")))
	if r := run(t, file, audit.Options{}); !r.Agrees || r.Strength != audit.StrengthBytes {
		t.Errorf("strength %s\n%s", r.Strength, codes(r))
	}
}

// A field signed by pyHanko audits as one signed by this program. $PYTHON is a
// Python that has it, else python3.
func TestSignedByAnotherProgramAuditsTheSame(t *testing.T) {
	dir := t.TempDir()
	authority := newSigner(t, "Example Authority", nil)
	lead := newSigner(t, "Example Lead", authority)
	p12, err := pkcs12.Modern.Encode(lead.key, lead.cert, []*x509.Certificate{authority.cert}, "secret")
	if err != nil {
		t.Fatal(err)
	}
	python := os.Getenv("PYTHON")
	if python == "" {
		python = "python3"
	}
	plain := metricPackage(t)
	in, out := save(t, filepath.Join(dir, "in.pdf"), plain), filepath.Join(dir, "out.pdf")
	tool(t, python, "../sign/testdata/sign.py", save(t, filepath.Join(dir, "lead.p12"), p12), "secret", "sign.2", in, out)
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: authority.cert.Raw}))
	r := run(t, load(t, out), audit.Options{Roots: roots})
	if !r.Agrees || r.Strength != audit.StrengthBytes || r.Origin != audit.OriginTrusted {
		t.Errorf("strength %s, origin %s\n%s", r.Strength, r.Origin, codes(r))
	}
	again := signed(t, load(t, out), "1", lead, false)
	if r := run(t, again, audit.Options{Roots: roots}); !r.Agrees || r.Strength != audit.StrengthBytes {
		t.Errorf("signed again: strength %s\n%s", r.Strength, codes(r))
	}
}

// A file that another program has opened and saved again is not the one that this
// program wrote, but says the same; where it lost a page, that is named. Some are
// written so that the reader does not take them.
func TestRewrittenByAnotherProgramIsFound(t *testing.T) {
	dir := t.TempDir()
	in, out := save(t, filepath.Join(dir, "in.pdf"), metricPackage(t)), filepath.Join(dir, "out.pdf")
	for name, c := range map[string]struct {
		program string
		args    []string
		want    audit.Code // empty where it may be refused
	}{
		"qpdf":             {"qpdf", []string{"--deterministic-id", in, out}, audit.CodeBytes},
		"qpdf, unpacked":   {"qpdf", []string{"--object-streams=disable", in, out}, audit.CodeBytes},
		"qpdf, packed":     {"qpdf", []string{"--object-streams=generate", "--recompress-flate", in, out}, audit.CodeBytes},
		"qpdf, in full":    {"qpdf", []string{"--qdf", in, out}, ""},
		"qpdf, linear":     {"qpdf", []string{"--linearize", in, out}, ""},
		"qpdf, page less":  {"qpdf", []string{in, "--pages", in, "1,3-z", "--", out}, audit.CodePages},
		"mutool":           {"mutool", []string{"clean", in, out}, audit.CodeBytes},
		"mutool, packed":   {"mutool", []string{"clean", "-gg", "-z", in, out}, audit.CodeBytes},
		"mutool, sanitary": {"mutool", []string{"clean", "-s", in, out}, ""},
	} {
		tool(t, c.program, c.args...)
		r, err := audit.Run(load(t, out), audit.Options{Program: own, Make: remake})
		switch {
		case err != nil && c.want != "":
			t.Errorf("%s: %v", name, err)
		case err == nil && (r.Agrees || c.want != "" && !hasCode(r, c.want)):
			t.Errorf("%s: agrees %t, no %s\n%s", name, r.Agrees, c.want, codes(r))
		case c.want == audit.CodeBytes && r.Strength != audit.StrengthValues:
			t.Errorf("%s: strength %s\n%s", name, r.Strength, codes(r))
		}
	}
}

var word = regexp.MustCompile(`<page|<word xMin="([0-9.]+)" yMin="([0-9.]+)" xMax="([0-9.]+)" yMax="([0-9.]+)">(.*?)</word>`)

// Text stands where poppler finds it: what is painted where a word stands says it.
func TestPaintsAreWhereAnotherReaderSeesThem(t *testing.T) {
	dir := t.TempDir()
	file := metricPackage(t)
	out := filepath.Join(dir, "out.html")
	tool(t, "pdftotext", "-bbox", save(t, filepath.Join(dir, "in.pdf"), file), out)
	r, err := archive.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := r.Pages()
	if err != nil {
		t.Fatal(err)
	}
	page, words := -1, 0
	var list []archive.Paint
	for _, m := range word.FindAllStringSubmatch(string(load(t, out)), -1) {
		if m[5] == "" {
			page++
			if list, err = r.Paints(page); err != nil {
				t.Fatal(err)
			}
			continue
		}
		number := func(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }
		top := pages[page].Height
		box := archive.Box{Left: number(m[1]), Bottom: top - number(m[4]), Right: number(m[3]), Top: top - number(m[2])}
		said := html.UnescapeString(m[5])
		words++
		there := ""
		for _, p := range list {
			if p.Kind == archive.PaintText && p.Bounds.Meets(box) {
				there += p.Text
			}
		}
		if !strings.Contains(there, said) {
			t.Errorf("page %d: %q at %v is painted elsewhere", page+1, said, box)
		}
	}
	if words < 1000 {
		t.Errorf("only %d words", words)
	}
}

// The note is PDF/A-3a and PDF/UA-1.
func TestNoteIsAnArchiveFile(t *testing.T) {
	dir := t.TempDir()
	file := signed(t, metricPackage(t), "2", newSigner(t, "Example Lead", nil), true)
	a, err := report.Audit(bytes.NewReader(file), int64(len(file)), report.AuditOptions{Fingerprint: "00000000", Previous: smallForm(t)})
	if err != nil {
		t.Fatal(err)
	}
	var note bytes.Buffer
	if err := a.WritePDF(&note, "metric.pdf", time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), "", ""); err != nil {
		t.Fatal(err)
	}
	path := save(t, filepath.Join(dir, "note.pdf"), note.Bytes())
	for _, flavor := range []string{"3a", "ua1"} {
		tool(t, "sh", "../../.ci/verapdf/check", flavor, path)
	}
	tool(t, "qpdf", "--check", path)
}
