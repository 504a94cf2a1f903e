package audit_test

import (
	"bytes"
	"encoding/json"
	"image"
	"image/jpeg"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/xuri/excelize/v2"

	"asleft/internal/audit"
	"asleft/internal/data"
	"asleft/report"
)

// Names of what goes into the package, as it is stored there.
const (
	storedPhoto       = "photo-01-hub.jpg"
	storedCertificate = "certificate-02-rule.pdf"
)

// certificate is a page of the given width.
func certificate(width string) []byte {
	return []byte("%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n" +
		"2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n" +
		"3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 " + width + " 9]>>\nendobj\n" +
		"xref\n0 4\n0000000000 65535 f \n0000000009 00000 n \n0000000054 00000 n \n0000000105 00000 n \n" +
		"trailer\n<</Size 4/Root 1 0 R>>\nstartxref\n166\n%%EOF\n")
}

// picture is a plain one of a shade.
func picture(t testing.TB, shade uint8) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 160, 120))
	for i := range img.Pix {
		img.Pix[i] = shade
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// enclosed is a package with a photo and a certificate.
func enclosed(t testing.TB) []byte {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(form(t, 1)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for cell, row := range map[string][]any{
		"A6": {"photo", nil, "hub.jpg", "The hub after the last torque pass"},
		"A7": {"certificate", nil, "rule.pdf", "Calibration of the rule"},
	} {
		if err := f.SetSheetRow("Attachments", cell, &row); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	s := source("form.xlsx", b.Bytes())
	s.Folder = fstest.MapFS{"hub.jpg": {Data: picture(t, 90)}, "rule.pdf": {Data: certificate("9")}}
	file, _ := pack(t, report.Options{}, s)
	return file
}

// audited is what the command finds, with nothing but the file.
func audited(t *testing.T, file []byte) *audit.Result {
	t.Helper()
	found, err := report.Audit(bytes.NewReader(file), int64(len(file)), report.AuditOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := found.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	var r audit.Result
	if err := json.Unmarshal(b.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	return &r
}

// mend exchanges a text in an attached file, which has to hold it.
func mend(t *testing.T, d *document, file, old, new string) {
	t.Helper()
	was := d.data(d.file(file))
	if !bytes.Contains(was, []byte(old)) || old == new {
		t.Fatalf("%s does not hold %s", file, old)
	}
	d.setFile(file, bytes.ReplaceAll(was, []byte(old), []byte(new)), true)
}

func hashOf(b []byte) string { p := data.Part{Bytes: b}; return p.SHA256() }

func TestExchangedEnclosuresAreNamed(t *testing.T) {
	plain := enclosed(t)
	if r := audited(t, plain); r.Strength != audit.StrengthBytes {
		t.Fatalf("strength %s\n%s", r.Strength, codes(r))
	}
	original := hashOf(picture(t, 90))
	for _, c := range []struct {
		name string
		do   func(*testing.T, *document)
		want []audit.Code
	}{
		{"another photo", func(t *testing.T, d *document) { d.setFile(storedPhoto, picture(t, 200), true) }, []audit.Code{audit.CodeFileHash, audit.CodeFilePrinted, audit.CodeWorkbook}},
		{"hash of the original in the data file", func(t *testing.T, d *document) {
			mend(t, d, data.DataName, original, strings.Repeat("0", len(original)))
		}, []audit.Code{audit.CodeFileHash, audit.CodeFilePrinted, audit.CodeValue}},
		{"hash of the original in data file and manifest", func(t *testing.T, d *document) {
			was := hashOf(d.data(d.file(data.DataName)))
			mend(t, d, data.DataName, original, strings.Repeat("0", len(original)))
			mend(t, d, data.ManifestName, original, strings.Repeat("0", len(original)))
			mend(t, d, data.ManifestName, was, hashOf(d.data(d.file(data.DataName))))
		}, []audit.Code{audit.CodeManifestPrinted, audit.CodeFilePrinted, audit.CodeValue}},
		{"another certificate, mended in the manifest", func(t *testing.T, d *document) {
			d.setFile(storedCertificate, certificate("8"), true)
			mend(t, d, data.ManifestName, hashOf(certificate("9")), hashOf(certificate("8")))
		}, []audit.Code{audit.CodeManifestPrinted, audit.CodeFilePrinted, audit.CodeWorkbook}},
		{"another certificate, mended in the data file", func(t *testing.T, d *document) {
			d.setFile(storedCertificate, certificate("8"), true)
			mend(t, d, data.DataName, hashOf(certificate("9")), hashOf(certificate("8")))
		}, []audit.Code{audit.CodeFileHash, audit.CodeFilePrinted}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := takeApart(t, plain)
			c.do(t, d)
			r := audited(t, d.whole())
			for _, want := range c.want {
				if !hasCode(r, want) {
					t.Errorf("no %s among\n%s", want, codes(r))
				}
			}
			if r.Agrees || r.Strength != audit.StrengthNone {
				t.Errorf("agrees %t, strength %s", r.Agrees, r.Strength)
			}
		})
	}
}
