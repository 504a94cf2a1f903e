package sign

import (
	"context"
	"crypto"
	"crypto/rsa"
	"crypto/x509"
	"encoding/asn1"
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/digitorus/pkcs7"
	"github.com/github/smimesign/ietf-cms/oid"
	"github.com/github/smimesign/ietf-cms/protocol"

	"asleft/internal/archive"
)

// forge signs the first field the way another program might: with another digest,
// another dictionary, other attributes. Nothing is checked.
func forge(t *testing.T, id Identity, hash crypto.Hash, change func(archive.Dict), remake func(*protocol.SignerInfo)) []byte {
	t.Helper()
	file := sample(t, "Forged")
	r, err := archive.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	fields, _ := r.Fields()
	u, err := newUpdate(file, r)
	if err != nil {
		t.Fatal(err)
	}
	o, _ := r.Object(fields[0].Object)
	q := request(0)
	widget, d, value := o.(archive.Dict), signatureDict(&q), u.reserve()
	widget["V"] = archive.Ref(value)
	if change != nil {
		change(d)
	}
	if d["Reference"] != nil {
		if err := u.certify(r, value); err != nil {
			t.Fatal(err)
		}
	}
	u.put(fields[0].Object, widget)
	u.signature(value, d, room(id, nil))
	first, _ := r.ID()
	u.finish(first)
	info, err := signerInfo(id, hash, u.digest(hash))
	if err != nil {
		t.Fatal(err)
	}
	if remake != nil {
		remake(&info)
		info.Signature = signAttributes(t, id, hash, info.SignedAttrs)
	}
	data, _ := protocol.NewSignedData(protocol.EncapsulatedContentInfo{EContentType: oid.ContentTypeData})
	if err := data.AddCertificate(id.Chain[0]); err != nil {
		t.Fatal(err)
	}
	data.SignerInfos = append(data.SignerInfos, info)
	der, err := data.ContentInfoDER()
	if err != nil {
		t.Fatal(err)
	}
	if err := u.fill(der); err != nil {
		t.Fatal(err)
	}
	return u.out
}

func signAttributes(t *testing.T, id Identity, hash crypto.Hash, a protocol.Attributes) []byte {
	signed, err := a.MarshaledForVerification() // in the order as it is
	if err != nil {
		t.Fatal(err)
	}
	s, err := id.Key.Sign(nil, digestOf(hash, signed), hash)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func attribute(t *testing.T, id asn1.ObjectIdentifier, value any) protocol.Attribute {
	a, err := protocol.NewAttribute(id, value)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// replace puts another value under an attribute, or takes it away.
func replace(t *testing.T, id asn1.ObjectIdentifier, value any) func(*protocol.SignerInfo) {
	return func(s *protocol.SignerInfo) {
		s.SignedAttrs = slices.DeleteFunc(slices.Clone(s.SignedAttrs), func(a protocol.Attribute) bool { return a.Type.Equal(id) })
		if value != nil {
			s.SignedAttrs = append(s.SignedAttrs, attribute(t, id, value))
		}
	}
}

// What other programs sign in other ways, and what is wrong with it.
func TestWhatIsWrongIsSaid(t *testing.T) {
	good, short := selfMade(t, keys.rsa(), nil), selfMade(t, keys.weak(), nil)
	otherUse := selfMade(t, keys.rsa(), func(c *x509.Certificate) { c.KeyUsage = x509.KeyUsageKeyEncipherment })
	old := selfMade(t, keys.rsa(), func(c *x509.Certificate) { c.NotAfter = signTime.AddDate(0, 0, -1) })
	kind := func(name string) func(archive.Dict) {
		return func(d archive.Dict) { d["SubFilter"] = archive.Name(name) }
	}
	noDate := func(d archive.Dict) { delete(d, "M") }
	another := signingCertificate{Certs: []certificateID{{Hash: make([]byte, 32)}}}
	for name, c := range map[string]struct {
		file  []byte
		fault Code // empty for none
		level Level
		weak  string
	}{
		"nothing":             {forge(t, good, crypto.SHA256, nil, nil), "", LevelBB, ""},
		"SHA-512":             {forge(t, good, crypto.SHA512, nil, nil), "", LevelBB, ""},
		"SHA-1":               {forge(t, good, crypto.SHA1, nil, nil), "", LevelBB, "SHA-1"},
		"short key":           {forge(t, short, crypto.SHA256, nil, nil), "", LevelBB, "RSA with 1024 bits"},
		"older kind":          {forge(t, good, crypto.SHA256, kind("adbe.pkcs7.detached"), nil), FaultProfile, LevelNone, ""},
		"no date":             {forge(t, good, crypto.SHA256, noDate, nil), FaultProfile, LevelNone, ""},
		"date in the value":   {forge(t, good, crypto.SHA256, nil, replace(t, oid.AttributeSigningTime, signTime.UTC())), FaultProfile, LevelNone, ""},
		"no certificate name": {forge(t, good, crypto.SHA256, nil, replace(t, oidSigningCertificateV2, nil)), FaultCertificate, LevelNone, ""},
		"another certificate": {forge(t, good, crypto.SHA256, nil, replace(t, oidSigningCertificateV2, another)), FaultCertificate, LevelNone, ""},
		"other content type":  {forge(t, good, crypto.SHA256, nil, replace(t, oid.AttributeContentType, oid.ContentTypeTSTInfo)), FaultDigest, LevelNone, ""},
		"no digest":           {forge(t, good, crypto.SHA256, nil, replace(t, oid.AttributeMessageDigest, nil)), FaultDigest, LevelNone, ""},
		"other digest":        {forge(t, good, crypto.SHA256, nil, replace(t, oid.AttributeMessageDigest, make([]byte, 32))), FaultDigest, LevelNone, ""},
		"use of the key":      {forge(t, otherUse, crypto.SHA256, nil, nil), FaultUse, LevelBB, ""},
		"expired":             {forge(t, old, crypto.SHA256, nil, nil), FaultValidity, LevelBB, ""},
	} {
		f := mustVerify(t, c.file, Trusted{}).Field(roles[0])
		var codes []Code
		for _, x := range f.Faults {
			codes = append(codes, x.Code)
		}
		wantCodes := []Code{c.fault}
		if c.fault == "" {
			wantCodes = nil
		}
		if !slices.Equal(codes, wantCodes) || f.Level != c.level || strings.Join(f.Weak, " ") != c.weak || f.Signer == nil {
			t.Errorf("%s: got %v, level %q, weak %q", name, f.Faults, f.Level, f.Weak)
		}
	}
}

// A signature by another key, with the certificate that it names.
func TestSignatureByAnotherKey(t *testing.T) {
	id := selfMade(t, keys.p256(), nil)
	f := mustVerify(t, forge(t, Identity{keys.other(), id.Chain}, crypto.SHA256, nil, nil), Trusted{}).Field(roles[0])
	if f.Authentic || !f.DigestOK || f.Level != LevelNone || len(f.Faults) != 1 || f.Faults[0].Code != FaultKey {
		t.Errorf("%+v", f)
	}
}

// A key so long that checking it would take for ever is not looked at.
func TestKeyThatOnlyTakesTime(t *testing.T) {
	n := new(big.Int).Lsh(big.NewInt(1), maxRSA+8)
	key := &rsa.PublicKey{N: n.Add(n, big.NewInt(1)), E: 65537}
	c := certify(t, template("Long"), authority(t), key, keys.authority())
	s := signedData{data: &protocol.SignedData{Certificates: []asn1.RawValue{{Tag: asn1.TagSequence, FullBytes: c.Raw}}}}
	if err := s.certificates(); err == nil || !strings.Contains(err.Error(), "bits") {
		t.Errorf("got %v", err)
	}
}

// Another library takes our values for what they are.
func TestAnotherLibraryAgrees(t *testing.T) {
	for algorithm, id := range identities(t) {
		b := mustApply(t, sample(t, "Other library"), id, request(0))
		r, err := archive.Open(b)
		if err != nil {
			t.Fatal(err)
		}
		fields, _ := r.Fields()
		v := fields[0].Signature
		p7, err := pkcs7.Parse(unpadded(v.Contents))
		if err != nil {
			t.Fatal(algorithm, err)
		}
		p7.Content = slices.Concat(b[:v.ByteRange[1]], b[v.ByteRange[2]:])
		if err := p7.VerifyWithChainAtTime(roots(t), signTime); err != nil {
			t.Errorf("%s: %v", algorithm, err)
		}
		var at time.Time
		if p7.UnmarshalSignedAttribute(pkcs7.OIDAttributeSigningTime, &at) == nil {
			t.Errorf("%s: the value has a date in it", algorithm)
		}
		p7.Content[0] ^= 1
		if p7.VerifyWithChainAtTime(roots(t), signTime) == nil {
			t.Errorf("%s: changed content is taken", algorithm)
		}
	}
}

// A certification that allows nothing more is kept to.
func TestClosedFileIsNotSigned(t *testing.T) {
	id := selfMade(t, keys.rsa(), nil)
	for permission, want := range map[int64]error{1: ErrClosed, 2: nil, 3: nil, 9: nil} {
		b := forge(t, id, crypto.SHA256, func(d archive.Dict) {
			d["Reference"] = archive.Array{archive.Dict{"TransformMethod": archive.Name("DocMDP"), "TransformParams": archive.Dict{"P": permission}}}
		}, nil)
		if _, _, err := Apply(context.Background(), b, id, request(1)); !errors.Is(err, want) || want == nil && err != nil {
			t.Errorf("permission %d: got %v, want %v", permission, err, want)
		}
	}
}

// resign signs field i and changes its widget too, or for the key Perms certifies.
func resign(t *testing.T, b []byte, i int, key archive.Name, o archive.Object) []byte {
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	fields, _ := r.Fields()
	u, err := newUpdate(b, r)
	if err != nil {
		t.Fatal(err)
	}
	id, q, value := selfMade(t, keys.rsa(), nil), request(i), u.reserve()
	was, _ := r.Object(fields[i].Object)
	widget := was.(archive.Dict)
	widget["V"] = archive.Ref(value)
	if key == "Perms" {
		q.Certify = true
		if err := u.certify(r, value); err != nil {
			t.Fatal(err)
		}
	} else {
		widget[key] = o
	}
	u.put(fields[i].Object, widget)
	u.signature(value, signatureDict(&q), room(id, nil))
	first, _ := r.ID()
	u.finish(first)
	if err := u.sign(context.Background(), id, nil); err != nil {
		t.Fatal(err)
	}
	return u.out
}

// A signature explains what it needs and nothing else that comes with it.
func TestSignatureExplainsOnlyItself(t *testing.T) {
	file := sample(t, "Explained")
	signed := mustApply(t, file, selfMade(t, keys.p256(), nil), request(0))
	big := archive.Array{int64(0), int64(0), int64(612), int64(792)}
	for name, c := range map[string]struct {
		file      []byte
		i         int
		key       archive.Name
		o         archive.Object
		explained bool
	}{
		"place":                     {file, 0, "Rect", big, false},
		"place, second signature":   {signed, 1, "Rect", big, false},
		"tooltip":                   {file, 0, "TU", archive.String("other"), true},
		"tooltip, second signature": {signed, 1, "TU", archive.String("other"), false},
		"date of the change":        {signed, 1, "M", archive.String("D:20260304151617Z"), true},
		"hidden":                    {signed, 1, "F", int64(2), false},
		"certifies":                 {file, 0, "Perms", nil, true},
		"certifies as the second":   {signed, 1, "Perms", nil, false},
	} {
		r := mustVerify(t, resign(t, c.file, c.i, c.key, c.o), Trusted{})
		last := r.Revisions[len(r.Revisions)-1]
		if !r.Field(roles[c.i]).Intact() || !slices.Equal(last.Signed, []string{roles[c.i]}) || (len(last.Other) == 0) != c.explained {
			t.Errorf("%s: %+v", name, last)
		}
	}
}
