package sign

import (
	"bytes"
	"crypto"
	"crypto/rand"
	"crypto/sha256"
	_ "crypto/sha512" // registers SHA-384 and SHA-512
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/asn1"
	"fmt"
	"slices"

	"github.com/github/smimesign/ietf-cms/oid"
	"github.com/github/smimesign/ietf-cms/protocol"
)

// Attributes of RFC 5035: which certificate the signature is meant to be of.
var (
	oidSigningCertificate   = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 9, 16, 2, 12}
	oidSigningCertificateV2 = asn1.ObjectIdentifier{1, 2, 840, 113549, 1, 9, 16, 2, 47}
)

// signingCertificate is the value of both attributes; the older one has no hash
// algorithm, its hash is SHA-1.
type signingCertificate struct {
	Certs    []certificateID
	Policies asn1.RawValue `asn1:"optional"`
}

type certificateID struct {
	HashAlgorithm pkix.AlgorithmIdentifier `asn1:"optional"` // SHA-256 where it is left out
	Hash          []byte
	IssuerSerial  asn1.RawValue `asn1:"optional"`
}

// stamper gets a time-stamp token over a signature value.
type stamper func(signature []byte) (token []byte, err error)

// buildCMS makes the detached signature over a digest: a SignedData of RFC 5652
// with the signed attributes that EN 319 142-1, table 1 wants, and no others. The
// time of signing stands in the PDF, so it must not stand here.
func buildCMS(id Identity, hash crypto.Hash, digest []byte, stamp stamper) ([]byte, error) {
	data, err := protocol.NewSignedData(protocol.EncapsulatedContentInfo{EContentType: oid.ContentTypeData})
	if err != nil {
		return nil, err
	}
	for i, c := range id.Chain {
		twice := slices.ContainsFunc(id.Chain[:i], c.Equal)
		if twice {
			continue
		}
		if err := data.AddCertificate(c); err != nil {
			return nil, err
		}
	}
	info, err := signerInfo(id, hash, digest)
	if err != nil {
		return nil, err
	}
	if stamp != nil {
		token, err := stamp(info.Signature)
		if err != nil {
			return nil, err
		}
		a, err := protocol.NewAttribute(oid.AttributeTimeStampToken, asn1.RawValue{FullBytes: token})
		if err != nil {
			return nil, err
		}
		info.UnsignedAttrs = protocol.Attributes{a}
	}
	data.DigestAlgorithms = append(data.DigestAlgorithms, info.DigestAlgorithm)
	data.SignerInfos = append(data.SignerInfos, info)
	return data.ContentInfoDER()
}

// signerInfo is the signature itself, over the signed attributes.
func signerInfo(id Identity, hash crypto.Hash, digest []byte) (protocol.SignerInfo, error) {
	leaf := id.Chain[0]
	sid, err := protocol.NewIssuerAndSerialNumber(leaf)
	if err != nil {
		return protocol.SignerInfo{}, err
	}
	attributes, err := signedAttributes(leaf, digest)
	if err != nil {
		return protocol.SignerInfo{}, err
	}
	signed, err := attributes.MarshaledForSigning()
	if err != nil {
		return protocol.SignerInfo{}, err
	}
	h := hash.New()
	h.Write(signed)
	signature, err := id.Key.Sign(rand.Reader, h.Sum(nil), hash)
	if err != nil {
		return protocol.SignerInfo{}, fmt.Errorf("sign with the key: %w", err)
	}
	digestID := oid.CryptoHashToDigestAlgorithm[hash]
	return protocol.SignerInfo{
		Version:            1,
		SID:                sid,
		DigestAlgorithm:    pkix.AlgorithmIdentifier{Algorithm: digestID},
		SignedAttrs:        attributes,
		SignatureAlgorithm: signatureAlgorithm(leaf, digestID),
		Signature:          signature,
	}, nil
}

// signatureAlgorithm names the algorithm of a key with a digest. RSA wants an
// explicit null behind it (RFC 4055, section 5), ECDSA nothing (RFC 5758, 3.2).
func signatureAlgorithm(c *x509.Certificate, digest asn1.ObjectIdentifier) pkix.AlgorithmIdentifier {
	id := pkix.AlgorithmIdentifier{
		Algorithm: oid.X509PublicKeyAndDigestAlgorithmToSignatureAlgorithm[c.PublicKeyAlgorithm][digest.String()]}
	if c.PublicKeyAlgorithm == x509.RSA {
		id.Parameters = asn1.NullRawValue
	}
	return id
}

// signedAttributes are sorted by their encodings, as DER wants a SET OF.
func signedAttributes(leaf *x509.Certificate, digest []byte) (protocol.Attributes, error) {
	sum := sha256.Sum256(leaf.Raw)
	var list protocol.Attributes
	var order [][]byte
	for _, a := range []struct {
		id    asn1.ObjectIdentifier
		value any
	}{
		{oid.AttributeContentType, oid.ContentTypeData},
		{oid.AttributeMessageDigest, digest},
		{oidSigningCertificateV2, signingCertificate{Certs: []certificateID{{Hash: sum[:]}}}},
	} {
		attribute, err := protocol.NewAttribute(a.id, a.value)
		if err != nil {
			return nil, err
		}
		der, err := asn1.Marshal(attribute)
		if err != nil {
			return nil, err
		}
		at, _ := slices.BinarySearchFunc(order, der, bytes.Compare)
		order = slices.Insert(order, at, der)
		list = slices.Insert(list, at, attribute)
	}
	return list, nil
}
