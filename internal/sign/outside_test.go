//go:build outside

package sign

import (
	"bytes"
	"crypto/rand"
	"encoding/pem"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/digitorus/timestamp"
	"github.com/google/go-cmp/cmp"
	"software.sslmate.com/src/go-pkcs12"

	"asleft/internal/archive"
)

// The judges: poppler's pdfsig, OpenSSL, pyHanko, veraPDF and qpdf. $PYTHON is a
// Python that has pyHanko, else python3.

const validator = "../../.ci/verapdf/check"

func python() string {
	if p := os.Getenv("PYTHON"); p != "" {
		return p
	}
	return "python3"
}

// tool runs a program, which has to succeed, and returns what it says.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s%s", filepath.Base(name), args, err, out.Bytes(), errs.Bytes())
	}
	return out.String()
}

func save(t *testing.T, path string, b []byte) string {
	t.Helper()
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// rootFile is the authority's certificate as a file.
func rootFile(t *testing.T, dir string) string {
	return save(t, filepath.Join(dir, "root.pem"),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: authority(t).Raw}))
}

// today asks for a signature at the true time: the judges read the clock.
func today(i int) Request {
	q := request(i)
	q.At = time.Now().Truncate(time.Second)
	return q
}

// signedSet is a file after one, two and three signatures.
func signedSet(t *testing.T, title string, ids []Identity, stamps *Service, certified bool) [][]byte {
	b := sample(t, title)
	var set [][]byte
	for i, id := range ids {
		q := today(i)
		q.Stamps, q.Certify = stamps, certified && i == 0
		b = mustApply(t, b, id, q)
		set = append(set, b)
	}
	return set
}

// clock is a time-stamp service that tells the true time.
func clock(t *testing.T) *Service {
	s := newService(t)
	s.change = func(x *timestamp.Timestamp) { x.Time = time.Now().UTC().Truncate(time.Second) }
	return s.start(t)
}

// series are the combinations that the judges see.
func series(t *testing.T) map[string][][]byte {
	rsa, ec, ec384 := issued(t, "Rita Signer", keys.rsa()), issued(t, "Emil Signer", keys.p256()), issued(t, "Edda Signer", keys.p384())
	stamps := clock(t)
	return map[string][][]byte{
		"rsa":           signedSet(t, "RSA", []Identity{rsa, rsa, rsa}, nil, false),
		"ecdsa":         signedSet(t, "ECDSA", []Identity{ec, ec384, ec}, nil, false),
		"mixed-keys":    signedSet(t, "Mixed", []Identity{rsa, ec384, ec}, nil, true),
		"rsa-stamped":   signedSet(t, "RSA, time-stamped", []Identity{rsa, rsa, rsa}, stamps, true),
		"ecdsa-stamped": signedSet(t, "ECDSA, time-stamped", []Identity{ec384, ec, ec}, stamps, false),
	}
}

func TestOthersAgree(t *testing.T) {
	dir := t.TempDir()
	root := rootFile(t, dir)
	var all, want []string
	for name, set := range series(t) {
		for i, b := range set {
			path := save(t, filepath.Join(dir, name+"-"+string(rune('1'+i))+".pdf"), b)
			all = append(all, path)
			pdfsigAgrees(t, path, i+1)
			opensslAgrees(t, dir, root, b, i+1)
			want = append(want, verdicts(path, i+1, strings.HasSuffix(name, "-stamped"))...)
			if out := tool(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
				t.Errorf("%s: %s", path, out)
			}
		}
	}
	slices.Sort(all)
	slices.Sort(want)
	if d := cmp.Diff(want, pyhanko(t, root, all...)); d != "" {
		t.Errorf("pyHanko (-wanted +said):\n%s", d)
	}
	for _, flavour := range []string{"3a", "ua1"} {
		t.Log(tool(t, validator, append([]string{flavour}, all...)...))
	}
}

// pdfsigAgrees: every signature is valid, and every one but the last leaves part
// of the file out.
func pdfsigAgrees(t *testing.T, path string, n int) {
	t.Helper()
	out := tool(t, "pdfsig", "-nocert", path)
	valid, partial := strings.Count(out, "Signature is Valid"), strings.Count(out, "Not total document signed")
	if valid != n || partial != n-1 || strings.Count(out, "Total document signed") != 1 ||
		strings.Count(out, "ETSI.CAdES.detached") != n {
		t.Errorf("pdfsig %s:\n%s", path, out)
	}
}

// opensslAgrees: each value is a CMS over the bytes of its range, by a signer
// under the root.
func opensslAgrees(t *testing.T, dir, root string, b []byte, n int) {
	t.Helper()
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	fields, err := r.Fields()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, f := range fields {
		v := f.Signature
		if v == nil {
			continue
		}
		content := append(slices.Clone(b[:v.ByteRange[1]]), b[v.ByteRange[2]:v.ByteRange[2]+v.ByteRange[3]]...)
		der := save(t, filepath.Join(dir, "value.der"), v.Contents)
		tool(t, "openssl", "cms", "-verify", "-binary", "-inform", "DER", "-in", der, "-purpose", "any", "-cades",
			"-content", save(t, filepath.Join(dir, "content"), content), "-CAfile", root, "-out", os.DevNull)
		checked++
	}
	if checked != n {
		t.Errorf("%d signatures, not %d", checked, n)
	}
}

// pyhanko is what pyHanko says of files, a line for each signature, sorted.
func pyhanko(t *testing.T, root string, files ...string) []string {
	out := tool(t, python(), append([]string{"testdata/validate.py", root}, files...)...)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	slices.Sort(lines)
	return lines
}

// verdicts are what pyHanko should say of a file with n signatures of ours.
func verdicts(path string, n int, stamped bool) []string {
	stamp := "none"
	if stamped {
		stamp = "stamped"
	}
	var list []string
	for i := range n {
		covers := "ENTIRE_REVISION FORM_FILLING"
		if i == n-1 {
			covers = "ENTIRE_FILE NONE"
		}
		list = append(list, strings.Join([]string{path, roles[i], "intact valid trusted", covers, "docmdp", stamp, "sound"}, " "))
	}
	return list
}

// Fields that another program signs are found the same, before, between and
// after ours.
func TestFieldsSignedByAnother(t *testing.T) {
	dir := t.TempDir()
	server := clock(t)
	for name, id := range map[string]Identity{"rsa": issued(t, "Rita Signer", keys.rsa()), "ecdsa": issued(t, "Edda Signer", keys.p384())} {
		p12, err := pkcs12.Modern.WithRand(rand.Reader).Encode(id.Key, id.Chain[0], id.Chain[1:], "open sesame")
		if err != nil {
			t.Fatal(err)
		}
		key := save(t, filepath.Join(dir, name+".p12"), p12)
		foreign := func(b []byte, i int, more ...string) []byte {
			in, out := save(t, filepath.Join(dir, "in.pdf"), b), filepath.Join(dir, "out.pdf")
			tool(t, python(), append([]string{"testdata/sign.py", key, "open sesame", roles[i], in, out}, more...)...)
			signed, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			return signed
		}
		b := foreign(sample(t, "Signed elsewhere"), 0)
		b = mustApply(t, b, id, today(1))
		b = foreign(b, 2, server.URL)
		r := mustVerify(t, b, Trusted{Roots: roots(t)})
		for i, level := range []Level{LevelBB, LevelBB, LevelBT} {
			f := r.Field(roles[i])
			if !f.Intact() || !f.Named || f.Level != level || f.Trust != TrustRoot || len(f.Faults) > 0 || f.Revision != i+2 {
				t.Errorf("%s: %+v", name, f)
			}
			if v := r.Revisions[i+1]; len(v.Other) > 0 || (len(v.Noted) == 0) != (i == 1) || !slices.Equal(v.Signed, []string{roles[i]}) {
				t.Errorf("%s: %+v", name, v)
			}
		}
		if len(r.Stray) > 0 {
			t.Errorf("%s: stray %v", name, r.Stray)
		}
		path := save(t, filepath.Join(dir, name+".pdf"), b)
		for i, line := range pyhanko(t, rootFile(t, dir), path) {
			if !strings.Contains(line, "intact valid trusted") || !strings.HasSuffix(line, " sound") {
				t.Errorf("%s, signature %d: %s", name, i+1, line)
			}
		}
	}
}
