package enclosure

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"asleft/internal/field"
)

// folder is a folder on the disk with the given files, opened so that nothing
// leads out of it.
func folder(t *testing.T, files map[string][]byte) (fs.FS, string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "job")
	for name, b := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, b, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return root.FS(), dir
}

func pngOf(t *testing.T, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func attachment(kind, file string) field.Attachment {
	text := func(s string) field.Text {
		return field.Text{Value: s, Set: true, Text: s, At: field.Ref{Sheet: "Attachments", Cell: "C6"}}
	}
	return field.Attachment{Kind: text(kind), File: text(file), Caption: text("caption")}
}

// blankPDF is the least that has a page.
const blankPDF = "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n" +
	"2 0 obj\n<</Type/Pages/Kids[3 0 R]/Count 1>>\nendobj\n" +
	"3 0 obj\n<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>\nendobj\n" +
	"xref\n0 4\n0000000000 65535 f \n0000000009 00000 n \n0000000054 00000 n \n0000000105 00000 n \n" +
	"trailer\n<</Size 4/Root 1 0 R>>\nstartxref\n166\n%%EOF\n"

func TestEveryFileThatCannotGoInIsAFault(t *testing.T) {
	huge := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x01\x00\x00\x00\x01\x00\x00\x08\x02\x00\x00\x00")
	huge = binary.BigEndian.AppendUint32(huge, crc32.ChecksumIEEE(huge[12:]))
	good := pngOf(t, striped(40, 30))
	in, dir := folder(t, map[string][]byte{
		"hub.png": good, "cut.png": good[:len(good)-40], "huge.png": huge, "text.jpg": []byte("no picture"),
		"gif.jpg": []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00;"), "photos/x.png": good, "good.pdf": []byte(blankPDF),
		"cut.pdf": []byte(blankPDF[:150]), "text.pdf": []byte("no pdf"),
		"locked.pdf": []byte(strings.Replace(blankPDF, "/Root 1 0 R", "/Root 1 0 R/Encrypt<</Filter/Standard>>", 1)),
	})
	outside := filepath.Join(filepath.Dir(dir), "outside.png")
	if err := os.WriteFile(outside, good, 0o666); err != nil {
		t.Fatal(err)
	}
	links := map[string]string{"leads.png": outside, "up.png": "../outside.png", "within.png": "photos/x.png", "nowhere.png": "none.png", "out": ".."}
	for name, to := range links {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err) // where people may not link
		}
	}
	for _, c := range []struct {
		kind, file string
		want       field.FaultKind // empty: none
		detail     string
	}{
		{"photo", "hub.png", "", ""}, {"photo", "photos/x.png", "", ""}, {"photo", `photos\x.png`, "", ""}, {"photo", "within.png", "", ""},
		{"certificate", "good.pdf", "", ""}, {"manual", "good.pdf", "", ""},
		{"photo", "../outside.png", BadPath, ""}, {"photo", outside, BadPath, ""},
		{"photo", "none.png", NoFile, ""}, {"photo", "HUB.PNG", OtherCase, "hub.png"}, {"photo", "photos/X.png", OtherCase, "photos/x.png"},
		{"photo", "leads.png", LeadsOut, ""}, {"photo", "up.png", LeadsOut, ""}, {"photo", "out/outside.png", LeadsOut, ""},
		{"photo", "nowhere.png", LeadsOut, ""},
		{"photo", "photos", NoPlain, ""}, {"photo", "cut.png", BadPicture, ""}, {"photo", "huge.png", PixelsMany, ""},
		{"photo", "text.jpg", NoPicture, ""}, {"photo", "gif.jpg", NoPicture, ""}, {"photo", "good.pdf", NoPicture, ""},
		{"certificate", "hub.png", NoPDF, ""}, {"certificate", "text.pdf", NoPDF, ""},
		{"manual", "cut.pdf", BadPDF, ""}, {"manual", "locked.pdf", LockedPDF, ""},
	} {
		rows := []field.Attachment{attachment(c.kind, c.file)}
		files, faults := Load(rows, []fs.FS{in})
		if c.want == "" {
			if len(faults) > 0 || len(files) != 1 || rows[0].Stored.Name != files[0].Name {
				t.Errorf("%s: %v", c.file, faults)
			}
			continue
		}
		if len(faults) != 1 || faults[0].Kind != c.want || faults[0].Detail != c.detail || faults[0].At.Cell != "C6" || len(files) != 0 {
			t.Errorf("%s: %v, want %s %q", c.file, faults, c.want, c.detail)
		}
	}
	if _, faults := Load([]field.Attachment{attachment("photo", "hub.png")}, []fs.FS{nil}); len(faults) != 1 || faults[0].Kind != NoFolder {
		t.Errorf("no folder: %v", faults)
	}
}

func TestBigFilesAreNotRead(t *testing.T) {
	in, dir := folder(t, map[string][]byte{"big.pdf": []byte(blankPDF)})
	if err := os.Truncate(filepath.Join(dir, "big.pdf"), MaxFile+1); err != nil {
		t.Fatal(err)
	}
	if _, faults := Load([]field.Attachment{attachment("manual", "big.pdf")}, []fs.FS{in}); len(faults) != 1 || faults[0].Kind != FileBig {
		t.Errorf("%v", faults)
	}
}

// TestStoredOnce: a file that two rows name is in the package once, and the
// stored picture is not longer than it may be.
func TestStoredOnce(t *testing.T) {
	in, _ := folder(t, map[string][]byte{"a b/Nabe ü.png": pngOf(t, striped(2*MaxSide, 20)), "c.pdf": []byte(blankPDF)})
	rows := []field.Attachment{attachment("photo", "a b/Nabe ü.png"), attachment("certificate", "c.pdf"), attachment("manual", "c.pdf"),
		attachment("photo", `a b\Nabe ü.png`)}
	files, faults := Load(rows, []fs.FS{in})
	if len(faults) > 0 || len(files) != 2 {
		t.Fatalf("%d files, %v", len(files), faults)
	}
	s := rows[0].Stored
	if s != rows[3].Stored || s.Name != "photo-01-Nabe__.jpg" || s.Width != MaxSide || s.Height != 10 || s.Size != len(files[0].Bytes) {
		t.Errorf("stored %+v and %+v", s, rows[3].Stored)
	}
	if s.Original == s.SHA256 || s.Original != files[0].Original {
		t.Errorf("the original's hash is %s", s.Original)
	}
	if p := rows[1].Stored; p != rows[2].Stored || p.Original != p.SHA256 || p.Name != "certificate-02-c.pdf" {
		t.Errorf("stored %+v and %+v", p, rows[2].Stored)
	}
}

// TestRestoredIsTheSame takes the stored files for the originals, and does not
// work on them again.
func TestRestoredIsTheSame(t *testing.T) {
	in, _ := folder(t, map[string][]byte{"a.png": pngOf(t, striped(90, 20)), "c.pdf": []byte(blankPDF)})
	rows := []field.Attachment{attachment("photo", "a.png"), attachment("certificate", "c.pdf"), attachment("photo", "a.png")}
	files, faults := Load(rows, []fs.FS{in})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	again := []field.Attachment{attachment("photo", "a.png"), attachment("certificate", "c.pdf"), attachment("photo", "a.png")}
	stored := []field.Stored{rows[0].Stored, rows[1].Stored, rows[2].Stored}
	byName := func(name string) ([]byte, bool) {
		for _, f := range files {
			if f.Name == name {
				return f.Bytes, true
			}
		}
		return nil, false
	}
	back, err := Restore(again, stored, byName)
	if err != nil || len(back) != len(files) {
		t.Fatalf("%d files, %v", len(back), err)
	}
	for i, f := range files {
		if b := back[i]; b.Name != f.Name || b.MIME != f.MIME || b.Original != f.Original || !bytes.Equal(b.Bytes, f.Bytes) {
			t.Errorf("%s is not the same", f.Name)
		}
	}
	for i := range rows {
		if rows[i] != again[i] {
			t.Errorf("row %d: %+v, was %+v", i, again[i], rows[i])
		}
	}
	for name, change := range map[string]func([]field.Stored) []field.Stored{
		"other hash":   func(s []field.Stored) []field.Stored { s[0].SHA256 = s[1].SHA256; return s },
		"other size":   func(s []field.Stored) []field.Stored { s[0].Size++; return s },
		"other pixels": func(s []field.Stored) []field.Stored { s[0].Width++; return s },
		"not there":    func(s []field.Stored) []field.Stored { s[0].Name = "none.jpg"; return s },
		"a paper's own original": func(s []field.Stored) []field.Stored {
			s[1].Original = s[0].Original
			return s
		},
		"fewer": func(s []field.Stored) []field.Stored { return s[:2] },
	} {
		if _, err := Restore(again, change(append([]field.Stored(nil), stored...)), byName); err == nil {
			t.Errorf("%s: no error", name)
		} else if !errors.Is(err, ErrChanged) && !errors.Is(err, ErrMissing) && !errors.Is(err, ErrRows) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
