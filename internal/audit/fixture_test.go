package audit_test

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"asleft/internal/archive"
	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/internal/page"
	"asleft/report"
)

// own is the program as it names itself.
const own = "asleft " + report.Version

// remade keeps what was made before: most tests make the same package again.
var remade sync.Map

// remake is a [audit.Maker] on the library that the command uses.
func remake(q audit.Request) (*audit.Made, error) {
	key := sha256.New()
	for _, p := range q.Files {
		if p.Kind == data.Source {
			fmt.Fprintf(key, "%s %x\n", p.Name, sha256.Sum256(p.Bytes))
		}
	}
	fmt.Fprintf(key, "%q %q %q %q %q %q", q.Program, q.Language, q.Paper, q.Units, q.Profile, q.Names)
	id := string(key.Sum(nil))
	if m, ok := remade.Load(id); ok {
		return m.(*audit.Made), nil
	}
	m, err := remakeNow(q)
	if err == nil {
		remade.Store(id, m)
	}
	return m, err
}

func remakeNow(q audit.Request) (*audit.Made, error) {
	if q.Program != own {
		return nil, errors.New("another program")
	}
	var sources []report.Source
	for _, p := range q.Files {
		if p.Kind == data.Source {
			s := report.Source{Name: p.Name, Reader: bytes.NewReader(p.Bytes), Size: int64(len(p.Bytes))}
			if len(sources) < len(q.Names) {
				s.Name = q.Names[len(sources)]
			}
			sources = append(sources, s)
		}
	}
	pdf, files, err := make2(sources, report.Options{Language: q.Language, Paper: q.Paper, Units: q.Units, ArchiveOnly: q.Profile == "PDF/A-2a"})
	if err != nil {
		return nil, err
	}
	m := &audit.Made{PDF: pdf}
	for _, f := range files {
		m.Files = append(m.Files, data.Part{Name: f.Name, Bytes: f.Bytes})
	}
	return m, nil
}

func make2(sources []report.Source, o report.Options) (pdf []byte, files []report.File, err error) {
	j, err := report.OpenAll(sources, o)
	if err != nil {
		return nil, nil, err
	}
	var out bytes.Buffer
	if err := j.WritePDF(&out); err != nil {
		return nil, nil, err
	}
	files, err = j.Files()
	return out.Bytes(), files, err
}

// book is a workbook by its name in testdata.
func book(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// form is a blank workbook of few readings.
func form(t testing.TB, first int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := report.WriteForm(&out, report.FormOptions{Cells: 1, FirstCell: first, Blades: 4, Positions: 8}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func source(name string, b []byte) report.Source {
	return report.Source{Name: name, Reader: bytes.NewReader(b), Size: int64(len(b))}
}

func pack(t testing.TB, o report.Options, sources ...report.Source) ([]byte, []report.File) {
	t.Helper()
	pdf, files, err := make2(sources, o)
	if err != nil {
		t.Fatal(err)
	}
	return pdf, files
}

var metric = sync.OnceValues(func() ([]byte, error) {
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "metric.xlsx"))
	if err != nil {
		return nil, err
	}
	pdf, _, err := make2([]report.Source{source("metric.xlsx", b)}, report.Options{})
	return pdf, err
})

// metricPackage is the package of the smaller demonstration workbook.
func metricPackage(t testing.TB) []byte {
	t.Helper()
	b, err := metric()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// signer is a key with its certificate, issued by an authority where there is one.
type signer struct {
	key  *ecdsa.PrivateKey
	cert *x509.Certificate
	pem  []byte
}

func newSigner(t testing.TB, name string, by *signer) *signer {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(int64(len(name))), Subject: pkix.Name{CommonName: name},
		NotBefore: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC), NotAfter: time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC),
		IsCA: by == nil, BasicConstraintsValid: true}
	issuer, issuerKey := c, key
	if by != nil {
		issuer, issuerKey = by.cert, by.key
	}
	der, err := x509.CreateCertificate(rand.Reader, c, issuer, key.Public(), issuerKey)
	if err != nil {
		t.Fatal(err)
	}
	s := &signer{key: key}
	if s.cert, err = x509.ParseCertificate(der); err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	s.pem = append(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})...)
	return s
}

// signed signs the field of a role.
func signed(t testing.TB, file []byte, role string, by *signer, certify bool) []byte {
	t.Helper()
	var out bytes.Buffer
	_, err := report.Sign(context.Background(), &out, bytes.NewReader(file), int64(len(file)), report.SignOptions{
		Role: role, Key: by.pem, At: time.Date(2026, 4, 9, 10, 0, 0, 0, time.UTC), AsIs: true, Certify: certify})
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// typefaces are those of the program.
func typefaces(t testing.TB) map[string]*archive.Typeface {
	t.Helper()
	out := map[string]*archive.Typeface{}
	for name, b := range page.Typefaces() {
		var err error
		if out[name], err = archive.ReadTypeface(name, b); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

func run(t testing.TB, file []byte, o audit.Options) *audit.Result {
	t.Helper()
	o.Program, o.Make, o.Typefaces = own, remake, typefaces(t)
	r, err := audit.Run(file, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// codes lists the findings for a message.
func codes(r *audit.Result) string {
	var out []string
	for _, f := range r.Findings {
		line := fmt.Sprintf("%s %s page %d %s", f.Severity, f.Code, f.Page, f.Path)
		for _, a := range f.Args {
			line += " " + a.Name + "=" + a.Text
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func hasCode(r *audit.Result, c audit.Code) bool {
	for _, f := range r.Findings {
		if f.Code == c && f.Severity != audit.Note {
			return true
		}
	}
	return false
}
