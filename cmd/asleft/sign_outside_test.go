//go:build outside

package main

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The demonstration package stays what it claims to be after each signature, in
// both profiles.
// Needs veraPDF, qpdf and pdfsig.
func TestSignedPackagesStayValid(t *testing.T) {
	dir := t.TempDir()
	key := filepath.Join(dir, "key.pem")
	private, err := ecdsa.GenerateKey(elliptic.P384(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "Example Signer"},
		NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour)}
	der, err := x509.CreateCertificate(rand.Reader, c, c, private.Public(), private)
	if err != nil {
		t.Fatal(err)
	}
	pkcs8, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	put(t, key, string(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: pkcs8}))+
		string(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})))

	var a3, a2 []string
	for name, options := range map[string][]string{"demo": nil, "small": {"--profile", "archive-only"}} {
		last := filepath.Join(dir, name+"-0.pdf")
		do(t, append([]string{"report", "../../testdata/demo.xlsx", "-o", last}, options...)...)
		for i, role := range []string{"2", "1", "3"} {
			next := filepath.Join(dir, name+"-"+string(rune('1'+i))+".pdf")
			args := []string{"sign", last, "--role", role, "--key", key, "--as-is", "-o", next}
			if i == 0 {
				args = append(args, "--certify")
			}
			do(t, args...)
			last = next
			switch {
			case name == "demo":
				a3 = append(a3, next)
			case i == 2: // one is enough to see that the profile makes no difference
				a2 = append(a2, next)
			}
			if said := other(t, "pdfsig", "-nocert", next); strings.Count(said, "Signature is Valid") != i+1 {
				t.Errorf("%s: %s", next, said)
			}
			if said := other(t, "qpdf", "--check", next); !strings.Contains(said, "No syntax or stream encoding errors") {
				t.Errorf("%s: %s", next, said)
			}
		}
	}
	other(t, "../../.ci/verapdf/check", append([]string{"3a"}, a3...)...)
	other(t, "../../.ci/verapdf/check", append([]string{"2a"}, a2...)...)
	other(t, "../../.ci/verapdf/check", append(append([]string{"ua1"}, a3...), a2...)...)
}

// do runs the program, which has to succeed.
func do(t *testing.T, args ...string) {
	t.Helper()
	var out, errs bytes.Buffer
	if status := run(args, os.Stdin, &out, &errs); status != statusDone {
		t.Fatalf("%v: status %d: %s", args, status, errs.Bytes())
	}
}

// other runs a program of somebody else, which has to succeed.
func other(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}
