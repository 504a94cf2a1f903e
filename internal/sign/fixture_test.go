package sign

import (
	"context"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/rsa"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/asn1"
	"fmt"
	"math/big"
	"sync"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"

	"asleft/fonts"
	"asleft/internal/archive"
)

// signTime is when the tests sign.
var signTime = time.Date(2026, 3, 4, 15, 16, 17, 0, time.FixedZone("", -6*3600))

// roles are the fields of the sample.
var roles = []string{"sign.lead", "sign.contractor", "sign.owner"}

// sample is a finished file of one page with three empty fields. The title makes
// files differ.
func sample(t testing.TB, title string) []byte {
	t.Helper()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 612, Ht: 792}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(signTime)
	pdf.SetModificationDate(signTime)
	pdf.SetProducer("sample", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes("sans", "", fonts.Sans)
	pdf.AddPage()
	pdf.SetFont("sans", "", 12)
	pdf.RawWriteStr("/H1 <</MCID 0>> BDC")
	pdf.Text(72, 72, title)
	pdf.RawWriteStr("EMC")
	root := &archive.Element{Role: archive.RoleDocument, Kids: []archive.Kid{
		{Element: &archive.Element{Role: archive.RoleH1, Kids: []archive.Kid{{Run: &archive.Run{}}}}},
	}}
	for i, name := range roles {
		y := 600 - 150*float64(i)
		root.Kids = append(root.Kids, archive.Kid{Element: &archive.Element{Role: archive.RoleForm, Kids: []archive.Kid{
			{Field: &archive.Field{Name: name, Rect: archive.Rect{X0: 300, Y0: y, X1: 490, Y1: y + 100}, Text: "To be signed"}}}}})
	}
	var raw writer
	if err := pdf.Output(&raw); err != nil {
		t.Fatal(err)
	}
	b, err := archive.Finish(raw, archive.Document{
		Title: title, Author: "Example Contractor", Creator: "asleft 0.1.0", Lang: "en-US", Issued: signTime,
		Root: root, Pages: []archive.Page{{Label: "1", Runs: 1}}, ColorProfile: fonts.SRGB,
		Fonts: []archive.Font{{Written: "utf8sans", Name: "IBMPlexSans"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

type writer []byte

func (w *writer) Write(b []byte) (int, error) { *w = append(*w, b...); return len(b), nil }

// keys are made once: RSA keys take a while.
var keys = struct {
	rsa, weak, authority func() crypto.Signer
	p256, p384, other    func() crypto.Signer
}{
	rsa: once(rsaKey(2048)), weak: once(rsaKey(1024)), authority: once(ecKey(elliptic.P256())),
	p256: once(ecKey(elliptic.P256())), p384: once(ecKey(elliptic.P384())), other: once(ecKey(elliptic.P256())),
}

func once(f func() crypto.Signer) func() crypto.Signer { return sync.OnceValue(f) }

func rsaKey(bits int) func() crypto.Signer {
	return func() crypto.Signer {
		k, err := rsa.GenerateKey(rand.Reader, bits)
		if err != nil {
			panic(err)
		}
		return k
	}
}

func ecKey(c elliptic.Curve) func() crypto.Signer {
	return func() crypto.Signer {
		k, err := ecdsa.GenerateKey(c, rand.Reader)
		if err != nil {
			panic(err)
		}
		return k
	}
}

// template is a certificate for signatures, valid long enough that the programs
// of others, which read the clock, take it too.
func template(name string) *x509.Certificate {
	return &x509.Certificate{
		SerialNumber: big.NewInt(int64(len(name)) + 100),
		Subject:      pkix.Name{CommonName: name, Organization: []string{"Example Contractor"}},
		NotBefore:    signTime.AddDate(-1, 0, 0), NotAfter: signTime.AddDate(20, 0, 0),
		KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageContentCommitment,
	}
}

func certify(t testing.TB, c, issuer *x509.Certificate, key crypto.PublicKey, by crypto.Signer) *x509.Certificate {
	t.Helper()
	der, err := x509.CreateCertificate(rand.Reader, c, issuer, key, by)
	if err != nil {
		t.Fatal(err)
	}
	out, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// selfMade is an identity that nobody vouches for.
func selfMade(t testing.TB, key crypto.Signer, change func(*x509.Certificate)) Identity {
	t.Helper()
	c := template("A. Signer")
	if change != nil {
		change(c)
	}
	return Identity{key, []*x509.Certificate{certify(t, c, c, key.Public(), key)}}
}

// issued is an identity under an authority, whose certificate is in the chain.
func issued(t testing.TB, name string, key crypto.Signer) Identity {
	t.Helper()
	root := authority(t)
	return Identity{key, []*x509.Certificate{certify(t, template(name), root, key.Public(), keys.authority()), root}}
}

var authority = func() func(testing.TB) *x509.Certificate {
	var made *x509.Certificate
	var lock sync.Mutex
	return func(t testing.TB) *x509.Certificate {
		lock.Lock()
		defer lock.Unlock()
		if made == nil {
			c := template("Test Authority")
			c.IsCA, c.BasicConstraintsValid, c.KeyUsage = true, true, x509.KeyUsageCertSign
			made = certify(t, c, c, keys.authority().Public(), keys.authority())
		}
		return made
	}
}()

func roots(t testing.TB) *x509.CertPool {
	pool := x509.NewCertPool()
	pool.AddCert(authority(t))
	return pool
}

// request signs field i of the sample.
func request(i int) Request {
	return Request{
		Field: roles[i], At: signTime.Add(time.Duration(i) * time.Hour), Signatory: fmt.Sprint("Signer ", i+1),
		Reason: "Reviewed and accepted", Place: "Example Site", Text: fmt.Sprintf("Signed by Signer %d, Example Contractor", i+1),
		Lines: []Line{{fmt.Sprint("Signer ", i+1), true}, {"Example Contractor", false},
			{"Reviewed and accepted", false}, {signTime.Format("2006-01-02 15:04:05 -07:00"), false}},
	}
}

// mustApply signs or fails.
func mustApply(t testing.TB, file []byte, id Identity, q Request) []byte {
	t.Helper()
	out, _, err := Apply(context.Background(), file, id, q)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func mustVerify(t testing.TB, file []byte, trusted Trusted) *Report {
	t.Helper()
	r, err := Verify(file, trusted)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// unpadded is a signature value without the zeros behind it. They are told from
// a zero at the end of the value itself by its length only.
func unpadded(contents []byte) []byte {
	var value asn1.RawValue
	rest, err := asn1.Unmarshal(contents, &value)
	if err != nil {
		return contents
	}
	return contents[:len(contents)-len(rest)]
}
