package sign

import (
	"bytes"
	"context"
	"crypto"
	"crypto/x509"
	"errors"
	"io"
	"os"
	"slices"
	"testing"
	"time"

	"asleft/internal/archive"
)

// identities are one of each kind of key.
func identities(t testing.TB) map[string]Identity {
	return map[string]Identity{
		"RSA 2048, SHA-256":    issued(t, "Rita Signer", keys.rsa()),
		"ECDSA P-256, SHA-256": issued(t, "Emil Signer", keys.p256()),
		"ECDSA P-384, SHA-384": issued(t, "Edda Signer", keys.p384()),
	}
}

func TestOneTwoThreeSignatures(t *testing.T) {
	file := sample(t, "Three signatures")
	trusted := Trusted{Roots: roots(t)}
	for algorithm, id := range identities(t) {
		signed := file
		for i := range roles {
			next := mustApply(t, signed, id, request(i))
			if !bytes.HasPrefix(next, signed) {
				t.Fatalf("%s: earlier bytes were changed", algorithm)
			}
			signed = next
			r := mustVerify(t, signed, trusted)
			if r.Signatures() != i+1 || len(r.Revisions) != i+2 || r.Certified != "" || len(r.Stray) > 0 {
				t.Fatalf("%s: after %d: %+v", algorithm, i+1, r)
			}
			for j := range roles {
				checkIntact(t, r, j, i, algorithm)
			}
			in, err := archive.Inspect(signed)
			if err != nil || len(in.Violations) > 0 {
				t.Errorf("%s: %v %v", algorithm, err, in.Violations)
			}
		}
	}
}

// checkIntact checks field j after field i was the last one signed.
func checkIntact(t *testing.T, r *Report, j, i int, algorithm string) {
	t.Helper()
	f := r.Field(roles[j])
	if j > i {
		if f.Signed || f.Text != "To be signed" {
			t.Errorf("%s: %+v", algorithm, f)
		}
		return
	}
	q := request(j)
	tooltip := q.Text
	if j > 0 {
		tooltip = "To be signed"
	}
	if !f.Intact() || !f.Named || f.Level != LevelBB || len(f.Faults) > 0 || len(f.Weak) > 0 || f.Trust != TrustRoot ||
		f.Algorithm != algorithm || f.Revision != j+2 || f.Text != tooltip || f.Reason != q.Reason || f.Place != q.Place ||
		f.Signatory != q.Signatory || !f.Claimed.Equal(q.At) || f.Claimed.Format(time.RFC3339) != q.At.Format(time.RFC3339) {
		t.Errorf("%s: %+v", algorithm, f)
	}
	after := r.After(f)
	if len(after) != i-j {
		t.Fatalf("%s: %d revisions after %s", algorithm, len(after), f.Name)
	}
	for k, v := range after {
		if len(v.Other) > 0 || !slices.Equal(v.Signed, []string{roles[j+k+1]}) {
			t.Errorf("%s: %+v", algorithm, v)
		}
	}
}

// An RSA signature of PKCS #1 has no chance in it, and nothing else has either.
func TestSameKeySameBytes(t *testing.T) {
	file, id := sample(t, "Again"), selfMade(t, keys.rsa(), nil)
	if !bytes.Equal(mustApply(t, file, id, request(0)), mustApply(t, file, id, request(0))) {
		t.Error("two signatures differ")
	}
}

func TestArgumentsAreNotChanged(t *testing.T) {
	file := sample(t, "Unchanged")
	was := slices.Clone(file)
	mustApply(t, file, selfMade(t, keys.p256(), nil), request(0))
	if !bytes.Equal(was, file) {
		t.Error("file was changed")
	}
}

func TestCertification(t *testing.T) {
	file, id := sample(t, "Certified"), selfMade(t, keys.p256(), nil)
	q := request(1)
	q.Certify = true
	signed := mustApply(t, mustApply(t, file, id, q), id, request(0))
	r := mustVerify(t, signed, Trusted{})
	if r.Certified != roles[1] || r.Permission != 2 || len(r.Revisions[1].Other) > 0 || len(r.Revisions[2].Other) > 0 ||
		!r.Field(roles[1]).Intact() || !r.Field(roles[0]).Intact() {
		t.Errorf("%+v", r)
	}
	q = request(2)
	q.Certify = true
	if _, _, err := Apply(context.Background(), signed, id, q); !errors.Is(err, ErrNotFirst) {
		t.Errorf("certified again: %v", err)
	}
}

func TestCertificateNobodyVouchesFor(t *testing.T) {
	signed := mustApply(t, sample(t, "Self"), selfMade(t, keys.p256(), nil), request(0))
	f := mustVerify(t, signed, Trusted{Roots: roots(t)}).Field(roles[0])
	if f.Trust != TrustSelf || f.TrustErr == nil || !f.Intact() {
		t.Errorf("%+v", f)
	}
	signed = mustApply(t, sample(t, "Unknown"), issued(t, "Emil Signer", keys.p256()), request(0))
	f = mustVerify(t, signed, Trusted{}).Field(roles[0])
	if f.Trust != TrustNone || f.TrustErr == nil || !f.Intact() {
		t.Errorf("%+v", f)
	}
}

func TestRefusals(t *testing.T) {
	file, good := sample(t, "Refused"), selfMade(t, keys.p256(), nil)
	signed := mustApply(t, file, good, request(0))
	change := func(f func(*x509.Certificate)) Identity { return selfMade(t, keys.p256(), f) }
	lines := func(l ...Line) Request { q := request(1); q.Lines = l; return q }
	other := request(1)
	other.Field = "sign.nobody"
	var nobody *FieldError
	for _, c := range []struct {
		name string
		file []byte
		id   Identity
		q    Request
		want error
	}{
		{"expired", file, change(func(c *x509.Certificate) { c.NotAfter = signTime.Add(-time.Second) }), request(0), ErrExpired},
		{"last second", file, change(func(c *x509.Certificate) { c.NotAfter = signTime }), request(0), nil},
		{"not yet valid", file, change(func(c *x509.Certificate) { c.NotBefore = signTime.Add(time.Second) }), request(0), ErrNotYetValid},
		{"first second", file, change(func(c *x509.Certificate) { c.NotBefore = signTime }), request(0), nil},
		{"wrong key", file, Identity{keys.other(), good.Chain}, request(0), ErrWrongKey},
		{"wrong kind of key", file, Identity{keys.rsa(), good.Chain}, request(0), ErrWrongKey},
		{"short key", file, selfMade(t, keys.weak(), nil), request(0), ErrWeakKey},
		{"key for other uses", file, change(func(c *x509.Certificate) { c.KeyUsage = x509.KeyUsageKeyEncipherment }), request(0), ErrKeyUse},
		{"no key", file, Identity{}, request(0), ErrKeyFile},
		{"signed already", signed, good, request(0), ErrSigned},
		{"bytes behind", append(slices.Clone(signed), "more"...), good, request(1), archive.ErrTrailing},
		{"no PDF", []byte("PK"), good, request(0), archive.ErrMalformed},
		{"too much text", file, good, lines(Line{string(bytes.Repeat([]byte("word "), 900)), false}), ErrNoRoom},
		{"no such character", file, good, lines(Line{"signed 漢", false}), ErrGlyph},
		{"not the first", signed, good, Request{Field: roles[1], At: signTime, Certify: true}, ErrNotFirst},
	} {
		out, _, err := Apply(context.Background(), c.file, c.id, c.q)
		if !errors.Is(err, c.want) || (err == nil) != (c.want == nil) || err != nil && out != nil {
			t.Errorf("%s: got %v, want %v", c.name, err, c.want)
		}
	}
	if _, _, err := Apply(context.Background(), file, good, other); !errors.As(err, &nobody) || !slices.Equal(nobody.Fields, roles) {
		t.Errorf("no such field: %v", err)
	}
}

// A key that fails gives its error, and no file.
func TestKeyThatFails(t *testing.T) {
	id := selfMade(t, keys.p256(), nil)
	id.Key = broken{id.Key}
	out, _, err := Apply(context.Background(), sample(t, "Card"), id, request(0))
	if !errors.Is(err, os.ErrClosed) || out != nil {
		t.Errorf("got %v", err)
	}
	id.Key = lying{keys.p256()}
	if out, _, err := Apply(context.Background(), sample(t, "Card"), id, request(0)); err == nil || out != nil {
		t.Error("a value that is no signature was given out")
	}
}

type broken struct{ crypto.Signer }

func (broken) Sign(_ io.Reader, _ []byte, _ crypto.SignerOpts) ([]byte, error) {
	return nil, os.ErrClosed
}

type lying struct{ crypto.Signer }

func (lying) Sign(_ io.Reader, _ []byte, _ crypto.SignerOpts) ([]byte, error) { return []byte{1}, nil }
