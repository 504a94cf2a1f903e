package main

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"software.sslmate.com/src/go-pkcs12"
)

// makeKeys is keys: it makes the key files of the signing script, all anew, and
// longer.pdf, which is made.pdf with bytes behind it.
func makeKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 0 {
		ts.Fatalf("usage: keys")
	}
	long, past := time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC)
	lead, owner, authority := ecKey(ts), ecKey(ts), ecKey(ts)
	short, err := rsa.GenerateKey(rand.Reader, 1024)
	ts.Check(err)
	keyFile(ts, "lead.pem", lead, certificate(ts, "Example Signer", long, lead, nil, nil))
	old := ecKey(ts)
	keyFile(ts, "old.pem", old, certificate(ts, "Example Signer", past, old, nil, nil))
	keyFile(ts, "short.pem", short, certificate(ts, "Example Signer", long, short, nil, nil))
	root := certificate(ts, "Example Authority", long, authority, nil, nil)
	leaf := certificate(ts, "Example Owner", long, owner, root, authority)
	p12, err := pkcs12.Modern.Encode(owner, leaf, []*x509.Certificate{root}, "open sesame")
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs("owner.p12"), p12, 0o600))
	ts.Check(os.WriteFile(ts.MkAbs("longer.pdf"), []byte(ts.ReadFile("made.pdf")+"more\n"), 0o600))
}

func ecKey(ts *testscript.TestScript) crypto.Signer {
	k, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	ts.Check(err)
	return k
}

// certificate is issued by its own key where there is no issuer.
func certificate(ts *testscript.TestScript, name string, until time.Time, key crypto.Signer, issuer *x509.Certificate, by crypto.Signer) *x509.Certificate {
	c := &x509.Certificate{SerialNumber: big.NewInt(until.Unix()), Subject: pkix.Name{CommonName: name},
		NotBefore: time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC), NotAfter: until}
	if issuer == nil {
		issuer, by = c, key
	}
	der, err := x509.CreateCertificate(rand.Reader, c, issuer, key.Public(), by)
	ts.Check(err)
	c, err = x509.ParseCertificate(der)
	ts.Check(err)
	return c
}

// keyFile writes a key and its certificate into one PEM file.
func keyFile(ts *testscript.TestScript, name string, key crypto.Signer, c *x509.Certificate) {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	ts.Check(err)
	b := pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der})
	b = append(b, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c.Raw})...)
	ts.Check(os.WriteFile(ts.MkAbs(name), b, 0o600))
}

// begins is begins FILE HEAD: the file begins with all bytes of the other and has
// more.
func begins(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: begins FILE HEAD")
	}
	file, head := ts.ReadFile(args[0]), ts.ReadFile(args[1])
	if !strings.HasPrefix(file, head) || len(file) == len(head) {
		ts.Fatalf("%s does not begin with %s", args[0], args[1])
	}
}

// The first line of what is given is the password.
func TestFirstLine(t *testing.T) {
	for given, want := range map[string]string{"secret\n": "secret", "secret\r\nmore\n": "secret", "no line end": "no line end", "\n": ""} {
		if got, err := firstLine(strings.NewReader(given)); err != nil || got != want {
			t.Errorf("%q: got %q, %v", given, got, err)
		}
	}
	if _, err := firstLine(strings.NewReader("")); err == nil {
		t.Error("nothing was taken for a password")
	}
}

// A password that is asked for is asked for on a terminal only: a pipe is none.
func TestNobodyToAsk(t *testing.T) {
	var p program
	p.in = bytes.NewReader([]byte("secret\n"))
	if _, err := p.password(&signing{passwordFD: noFD}); err == nil {
		t.Error("a password was read from a pipe")
	}
}
