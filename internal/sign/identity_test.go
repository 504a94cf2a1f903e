package sign

import (
	"bytes"
	"crypto"
	"crypto/rsa"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"testing"
	"time"

	"software.sslmate.com/src/go-pkcs12"
)

func pemOf(kind string, der []byte) []byte {
	return pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der})
}

func pkcs8(t *testing.T, key crypto.Signer) []byte {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	return pemOf("PRIVATE KEY", der)
}

func TestKeyFiles(t *testing.T) {
	id := issued(t, "Emil Signer", keys.p256())
	leaf, root := pemOf("CERTIFICATE", id.Chain[0].Raw), pemOf("CERTIFICATE", id.Chain[1].Raw)
	key := pkcs8(t, id.Key)
	own := selfMade(t, keys.rsa(), nil)
	oldRSA := pemOf("RSA PRIVATE KEY", x509.MarshalPKCS1PrivateKey(own.Key.(*rsa.PrivateKey)))
	join := func(parts ...[]byte) []byte { return bytes.Join(parts, []byte("# comment\n")) }
	for name, c := range map[string]struct {
		key, certificates []byte
		want              error
		chain             int
	}{
		"two files":              {key, join(leaf, root), nil, 2},
		"root first":             {key, join(root, leaf), nil, 2},
		"one file":               {join(leaf, key), join(leaf, key), nil, 1},
		"older RSA form":         {oldRSA, pemOf("CERTIFICATE", own.Chain[0].Raw), nil, 1},
		"certificate of another": {key, root, ErrWrongKey, 0},
		"no key":                 {leaf, leaf, ErrKeyFile, 0},
		"no certificate":         {key, key, ErrKeyFile, 0},
		"key with a password":    {pemOf("ENCRYPTED PRIVATE KEY", []byte{1}), leaf, ErrKeyFile, 0},
		"damaged key":            {pemOf("PRIVATE KEY", []byte{1}), leaf, ErrKeyFile, 0},
		"damaged certificate":    {key, pemOf("CERTIFICATE", []byte{1}), ErrKeyFile, 0},
		"too many":               {key, bytes.Repeat(leaf, maxCertificates+1), ErrKeyFile, 0},
		"too large":              {make([]byte, maxKeyFile+1), leaf, ErrKeyFile, 0},
		"nothing":                {nil, nil, ErrKeyFile, 0},
	} {
		got, err := ReadPEM(c.key, c.certificates)
		if !errors.Is(err, c.want) || (err == nil) != (c.want == nil) || len(got.Chain) != c.chain {
			t.Errorf("%s: got %v with %d certificates, want %v with %d", name, err, len(got.Chain), c.want, c.chain)
			continue
		}
		if err == nil && got.check(signTime) != nil {
			t.Errorf("%s: %v", name, got.check(signTime))
		}
	}
}

func TestPKCS12(t *testing.T) {
	id := issued(t, "Rita Signer", keys.rsa())
	for name, e := range map[string]*pkcs12.Encoder{"modern": pkcs12.Modern, "legacy": pkcs12.LegacyDES} {
		file, err := e.Encode(id.Key, id.Chain[0], id.Chain[1:], "пароль")
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadPKCS12(file, "пароль")
		if err != nil || got.check(signTime) != nil || len(got.Chain) != 2 || IsPEM(file) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := ReadPKCS12(file, "other"); !errors.Is(err, ErrPassword) {
			t.Errorf("%s: other password: %v", name, err)
		}
		if _, err := ReadPKCS12(file[:len(file)-9], "пароль"); !errors.Is(err, ErrKeyFile) {
			t.Errorf("%s: cut off: %v", name, err)
		}
	}
	if _, err := ReadPKCS12(make([]byte, maxKeyFile+1), ""); !errors.Is(err, ErrKeyFile) {
		t.Errorf("too large: %v", err)
	}
}

func TestRoots(t *testing.T) {
	if _, err := Roots(nil); !errors.Is(err, ErrKeyFile) {
		t.Errorf("nothing: %v", err)
	}
	pool, err := Roots(pemOf("CERTIFICATE", authority(t).Raw))
	if err != nil || !pool.Equal(roots(t)) {
		t.Errorf("%v", err)
	}
}

// Forms of a date that programs write (ISO 32000-1, 7.9.4).
func TestDates(t *testing.T) {
	at := time.Date(2026, 3, 4, 15, 16, 17, 0, time.FixedZone("", -6*3600))
	if s := formatDate(at); s != "D:20260304151617-06'00'" {
		t.Errorf("written as %s", s)
	}
	if s := formatDate(at.In(time.FixedZone("", 5*3600+45*60))); s != "D:20260305030117+05'45'" {
		t.Errorf("written as %s", s)
	}
	for s, want := range map[string]time.Time{
		"D:20260304151617-06'00'": at, "D:20260304151617-06'00": at, "D:20260304211617Z": at, "D:20260304211617Z00'00'": at,
		"D:20260304211617": at, "20260304211617": at,
	} {
		if got, err := parseDate(s); err != nil || !got.Equal(want) {
			t.Errorf("%s: %v %v", s, got, err)
		}
	}
	for _, s := range []string{"", "D:", "D:2026", "D:20261304151617Z", "D:20260304151617-6", "D:20260304151617-24'00'", "D:20260304151617+00'60'", "D:20260304151617*06'00'"} {
		if got, err := parseDate(s); err == nil {
			t.Errorf("%s: %v", s, got)
		}
	}
}
