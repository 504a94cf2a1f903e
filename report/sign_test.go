package report

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"

	"asleft/fonts"
	"asleft/internal/archive"
	"asleft/internal/sign"
)

var signTime = time.Date(2026, 3, 4, 15, 16, 17, 0, time.FixedZone("", -6*3600))

// finished is a file of one page whose first bookmark is as given, with fields
// whose tooltips are as given and whose names end in 1, 2, 3 …
func finished(t *testing.T, bookmark string, tooltips ...string) []byte {
	t.Helper()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 612, Ht: 792}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(signTime)
	pdf.SetModificationDate(signTime)
	pdf.AddUTF8FontFromBytes("sans", "", fonts.Sans)
	pdf.AddPage()
	pdf.SetFont("sans", "", 12)
	pdf.RawWriteStr("/H1 <</MCID 0>> BDC")
	pdf.Text(72, 72, "Page")
	pdf.RawWriteStr("EMC")
	root := &archive.Element{Role: archive.RoleDocument, Kids: []archive.Kid{
		{Element: &archive.Element{Role: archive.RoleH1, Kids: []archive.Kid{{Run: &archive.Run{}}}}}}}
	for i, tip := range tooltips {
		y := 600 - 150*float64(i)
		f := &archive.Field{Name: fieldPrefix + string(rune('1'+i)), Text: tip, Rect: archive.Rect{X0: 300, Y0: y, X1: 490, Y1: y + 100}}
		root.Kids = append(root.Kids, archive.Kid{Element: &archive.Element{Role: archive.RoleForm, Kids: []archive.Kid{{Field: f}}}})
	}
	var raw bytes.Buffer
	if err := pdf.Output(&raw); err != nil {
		t.Fatal(err)
	}
	b, err := archive.Finish(raw.Bytes(), archive.Document{Title: "Title", Author: "Author", Creator: "test", Lang: "en",
		Issued: signTime, Root: root, Pages: []archive.Page{{Label: "1", Runs: 1}}, ColorProfile: fonts.SRGB, Profile: archive.PDFA2A,
		Outline: []archive.Bookmark{{Text: bookmark}}, Fonts: []archive.Font{{Written: "utf8sans", Name: "IBMPlexSans"}}})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// keyFile is a new key with its certificate.
func keyFile(t *testing.T) []byte {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "A. Signer", Organization: []string{"Example Works"}},
		NotBefore: signTime.AddDate(0, -1, 0), NotAfter: signTime.AddDate(0, 1, 0)}
	der, err := x509.CreateCertificate(rand.Reader, c, c, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	return append(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})...)
}

func signBytes(file []byte, o SignOptions) ([]byte, *Signed, error) {
	var out bytes.Buffer
	s, err := Sign(context.Background(), &out, bytes.NewReader(file), int64(len(file)), o)
	return out.Bytes(), s, err
}

const tip = "Crew lead, Example Field Services, The readings were taken as recorded."

func TestStateDecides(t *testing.T) {
	key := keyFile(t)
	for name, c := range map[string]struct {
		bookmark string
		asIs     bool
		code     SignCode // empty where it is signed
		reason   string   // what it says besides the meaning
	}{
		"ready":            {"CT-2: READY FOR SIGN-OFF", false, "", ""},
		"ready, asked":     {"CT-2: READY FOR SIGN-OFF", true, "", ""},
		"not ready":        {"CT-2: NOT READY", false, SignNotReady, ""},
		"not ready, as is": {"CT-2: NOT READY", true, "", " (Signed as is: the package is NOT READY)"},
		"misleading name":  {"READY FOR SIGN-OFF: NOT READY", false, SignNotReady, ""},
		"unknown":          {"CT-2", false, SignState, ""},
		"unknown, as is":   {"CT-2", true, "", " (Signed as is: the file does not tell whether the package is ready)"},
	} {
		file := finished(t, c.bookmark, tip)
		out, s, err := signBytes(file, SignOptions{Role: "crew lead", Key: key, At: signTime, AsIs: c.asIs, Name: "B. Other"})
		if c.code != "" {
			var e *SignError
			if !errors.As(err, &e) || e.Code != c.code || len(out) > 0 {
				t.Errorf("%s: got %v", name, err)
			}
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		r, err := sign.Verify(out, sign.Trusted{})
		if err != nil {
			t.Fatal(err)
		}
		f := r.Field("sign.1")
		if !f.Intact() || f.Reason != tip+c.reason || f.Signatory != "B. Other" || s.AsIs != (c.reason != "") || s.Level != "B-B" ||
			!strings.HasPrefix(f.Text, "B. Other; Example Works; "+tip+"; 2026-03-04 15:16:17 -06:00; "+strings.Trim(c.reason, " ()")) {
			t.Errorf("%s: %+v %+v", name, f, s)
		}
	}
}

func TestRolesAreListed(t *testing.T) {
	file, key := finished(t, "x: READY FOR SIGN-OFF", tip, "Owner's engineer"), keyFile(t)
	var e *SignError
	_, _, err := signBytes(file, SignOptions{Role: "boss", Key: key, At: signTime})
	if !errors.As(err, &e) || e.Code != SignRole || e.Detail != "1 (Crew lead), 2 (Owner's engineer)" {
		t.Errorf("got %v", err)
	}
	_, _, err = signBytes(finished(t, "x: READY FOR SIGN-OFF"), SignOptions{Role: "boss", Key: key, At: signTime})
	if !errors.As(err, &e) || e.Code != SignNoRoles {
		t.Errorf("got %v", err)
	}
	for _, role := range []string{"2", "owner's ENGINEER"} {
		if _, s, err := signBytes(file, SignOptions{Role: role, Key: key, At: signTime}); err != nil || s.Role != "2" {
			t.Errorf("%s: %v", role, err)
		}
	}
}

// What is no package, or one too large, is told so before anything is asked of it.
func TestSignReadsOnlyPackages(t *testing.T) {
	var e *SignError
	for _, file := range [][]byte{nil, []byte("%PDF-1.7\n"), []byte("PK\x03\x04")} {
		if _, _, err := signBytes(file, SignOptions{Role: "1"}); !errors.As(err, &e) || e.Code != SignUnreadable {
			t.Errorf("%q: got %v", file, err)
		}
	}
	var out bytes.Buffer
	if _, err := Sign(context.Background(), &out, bytes.NewReader(nil), maxPackage+1, SignOptions{}); !errors.As(err, &e) || e.Code != SignUnreadable {
		t.Errorf("too large: got %v", err)
	}
}
