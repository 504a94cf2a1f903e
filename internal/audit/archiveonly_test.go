package audit_test

import (
	"bytes"
	"context"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"io"
	"math/big"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/digitorus/timestamp"

	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/report"
)

// issue is a certificate by an authority.
func issue(t *testing.T, name string, key crypto.PublicKey, by *signer, use ...x509.ExtKeyUsage) *x509.Certificate {
	t.Helper()
	c := &x509.Certificate{SerialNumber: big.NewInt(77), Subject: pkix.Name{CommonName: name}, ExtKeyUsage: use,
		NotBefore: time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC), NotAfter: time.Date(2100, 1, 1, 0, 0, 0, 0, time.UTC),
		KeyUsage: x509.KeyUsageDigitalSignature, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, c, by.cert, key, by.key)
	if err != nil {
		t.Fatal(err)
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return cert
}

// notary is a time-stamp service on this machine; another library makes its stamps.
func notary(t *testing.T, by *signer, at time.Time) string {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	cert := issue(t, "Example Time-stamps", key.Public(), by, x509.ExtKeyUsageTimeStamping)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		if err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		q, err := timestamp.ParseRequest(body)
		if err != nil {
			http.Error(w, err.Error(), http.StatusBadRequest)
			return
		}
		stamp := timestamp.Timestamp{HashAlgorithm: q.HashAlgorithm, HashedMessage: q.HashedMessage, Time: at,
			Policy: []int{1, 2, 3, 4}, Nonce: q.Nonce, AddTSACertificate: q.Certificates, Accuracy: time.Second}
		b, err := stamp.CreateResponseWithOpts(cert, key, crypto.SHA256)
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/timestamp-reply")
		_, _ = w.Write(b)
	}))
	t.Cleanup(server.Close)
	return server.URL
}

// An archive-only package signed with RSA and a time-stamp is followed to the last
// byte with its files beside it, and as far as its signature goes without them.
func TestArchiveOnlyStampedPackage(t *testing.T) {
	authority := newSigner(t, "Example Authority", nil)
	key, err := rsa.GenerateKey(rand.Reader, 2048)
	if err != nil {
		t.Fatal(err)
	}
	cert := issue(t, "Example Lead", key.Public(), authority)
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	alone, files := pack(t, report.Options{ArchiveOnly: true}, source("form.xlsx", form(t, 1)))
	at := time.Date(2026, 4, 9, 10, 0, 0, 0, time.UTC)
	var out bytes.Buffer
	done, err := report.Sign(context.Background(), &out, bytes.NewReader(alone), int64(len(alone)), report.SignOptions{
		Role: "1", At: at, AsIs: true, Certify: true, Service: notary(t, authority, at.Add(time.Minute)),
		Key: append(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}),
			pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: cert.Raw})...)})
	if err != nil || done.Level != "B-T" {
		t.Fatalf("%+v, %v", done, err)
	}
	roots := x509.NewCertPool()
	roots.AddCert(authority.cert)
	beside := map[string][]byte{}
	for _, f := range files {
		beside[f.Name] = f.Bytes
	}

	r := run(t, out.Bytes(), audit.Options{Roots: roots, Beside: beside})
	i := slices.IndexFunc(r.Signatures, func(s audit.Signature) bool { return s.Signed })
	if !r.Agrees || r.Strength != audit.StrengthBytes || r.Origin != audit.OriginTrusted || i < 0 {
		t.Fatalf("agrees %t, strength %s, origin %s\n%s", r.Agrees, r.Strength, r.Origin, codes(r))
	}
	s := r.Signatures[i]
	if !s.Intact || s.Level != "B-T" || !strings.Contains(s.Algorithm, "RSA") || s.Stamped == "" || s.Trust != "root" {
		t.Errorf("%+v", s)
	}

	r = run(t, out.Bytes(), audit.Options{Roots: roots})
	if r.Strength != audit.StrengthSignatures || !hasCode(r, audit.CodeNoSources) {
		t.Errorf("without its files: strength %s\n%s", r.Strength, codes(r))
	}

	beside[data.ReadingsName] = append(bytes.Clone(beside[data.ReadingsName]), "1,2\n"...)
	r = run(t, out.Bytes(), audit.Options{Roots: roots, Beside: beside})
	if !hasCode(r, audit.CodeFileHash) || !hasCode(r, audit.CodeFileRebuilt) {
		t.Errorf("another file beside it is not named\n%s", codes(r))
	}
}
