package sign

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/rsa"
	"crypto/sha1"
	"crypto/x509"
	"encoding/asn1"
	"errors"
	"fmt"
	"math/big"
	"time"

	"github.com/github/smimesign/ietf-cms/oid"
	"github.com/github/smimesign/ietf-cms/protocol"
)

// Limits of signatures that are read. What we write is far below them.
const (
	maxCMS          = 1 << 20 // bytes of a signature or of a time-stamp token
	maxCertificates = 64      // in one signature
	maxAttributes   = 64      // signed or unsigned, of one signature
	maxRSA          = 16_384  // bits of a key; longer ones only take time to check
)

// signedData is a signature as it was found: one signer, his certificate, and
// what he signed.
type signedData struct {
	data   *protocol.SignedData
	info   *protocol.SignerInfo
	certs  []*x509.Certificate
	signer *x509.Certificate
	hash   crypto.Hash
}

// parseCMS reads a SignedData with one signer. Behind it nothing but zeros may
// stand, which is how a PDF pads it: other bytes would be covered by nothing.
// It takes DER only, as ISO 32000-1, 12.8.3.3.1 wants it.
func parseCMS(der []byte) (*signedData, error) {
	if len(der) > maxCMS {
		return nil, fmt.Errorf("signature of %d bytes", len(der))
	}
	var outer protocol.ContentInfo
	rest, err := asn1.Unmarshal(der, &outer)
	if err != nil {
		return nil, err
	}
	if len(bytes.Trim(rest, "\x00")) > 0 {
		return nil, errors.New("bytes behind the signature")
	}
	if err := strictDER(der[:len(der)-len(rest)], 0); err != nil {
		return nil, err
	}
	data, err := outer.SignedDataContent()
	if err != nil {
		return nil, err
	}
	if len(data.SignerInfos) != 1 {
		return nil, fmt.Errorf("%d signers, not one", len(data.SignerInfos))
	}
	s := &signedData{data: data, info: &data.SignerInfos[0]}
	if len(s.info.SignedAttrs) == 0 || len(s.info.SignedAttrs) > maxAttributes || len(s.info.UnsignedAttrs) > maxAttributes {
		return nil, errors.New("no signed attributes, or too many")
	}
	if s.hash, err = s.info.Hash(); err != nil {
		return nil, fmt.Errorf("digest algorithm %s", s.info.DigestAlgorithm.Algorithm)
	}
	if err := s.certificates(); err != nil {
		return nil, err
	}
	return s, nil
}

// certificates reads the certificates and finds the signer's.
func (s *signedData) certificates() error {
	if len(s.data.Certificates) > maxCertificates {
		return fmt.Errorf("%d certificates", len(s.data.Certificates))
	}
	for _, raw := range s.data.Certificates {
		if raw.Class != asn1.ClassUniversal {
			continue // attribute certificates and the like: of no use here
		}
		c, err := x509.ParseCertificate(raw.FullBytes)
		if err != nil {
			return err
		}
		if k, ok := c.PublicKey.(*rsa.PublicKey); ok && k.N.BitLen() > maxRSA {
			return fmt.Errorf("RSA key with %d bits", k.N.BitLen())
		}
		s.certs = append(s.certs, c)
		if s.signer == nil && s.isSigner(c) {
			s.signer = c
		}
	}
	if s.signer == nil {
		return errors.New("signer's certificate is not in the signature")
	}
	return nil
}

// isSigner compares a certificate with the signer identifier (RFC 5652, 5.3):
// issuer and serial number, or the identifier of the key.
func (s *signedData) isSigner(c *x509.Certificate) bool {
	sid := s.info.SID
	if sid.Class == asn1.ClassContextSpecific && sid.Tag == 0 {
		return len(c.SubjectKeyId) > 0 && bytes.Equal(sid.Bytes, c.SubjectKeyId)
	}
	var id struct {
		Issuer asn1.RawValue
		Serial *big.Int
	}
	rest, err := asn1.Unmarshal(sid.FullBytes, &id)
	return err == nil && len(rest) == 0 && bytes.Equal(id.Issuer.FullBytes, c.RawIssuer) && id.Serial.Cmp(c.SerialNumber) == 0
}

// signed compares the signed content type and digest with those that are true.
func (s *signedData) signed(contentType asn1.ObjectIdentifier, digest []byte) error {
	t, err := s.info.GetContentTypeAttribute()
	if err != nil {
		return err
	}
	if !t.Equal(contentType) || !s.data.EncapContentInfo.EContentType.Equal(contentType) {
		return fmt.Errorf("content type %s", t)
	}
	d, err := s.info.GetMessageDigestAttribute()
	if err != nil {
		return err
	}
	if !bytes.Equal(d, digest) {
		return errDigest
	}
	return nil
}

var (
	errDigest  = errors.New("digest is another")
	errNoCheck = errors.New("signature does not belong to the certificate's key")
)

// authentic checks the signature over the signed attributes with the key of the
// signer's certificate.
func (s *signedData) authentic() error {
	signed, err := s.info.SignedAttrs.MarshaledForVerification()
	if err != nil {
		return err
	}
	h := s.hash.New()
	h.Write(signed)
	digest := h.Sum(nil)
	switch key := s.signer.PublicKey.(type) {
	case *rsa.PublicKey:
		if err := s.algorithm(x509.RSA, oid.PublicKeyAlgorithmRSA); err != nil {
			return err
		}
		if rsa.VerifyPKCS1v15(key, s.hash, digest, s.info.Signature) != nil {
			return errNoCheck
		}
	case *ecdsa.PublicKey:
		if err := s.algorithm(x509.ECDSA, oid.PublicKeyAlgorithmECDSA); err != nil {
			return err
		}
		if !ecdsa.VerifyASN1(key, digest, s.info.Signature) {
			return errNoCheck
		}
	default:
		return fmt.Errorf("key of type %T", key)
	}
	return nil
}

// algorithm checks that the named algorithm is that of the key with the digest,
// or the key's alone, which older programs write.
func (s *signedData) algorithm(kind x509.PublicKeyAlgorithm, plain asn1.ObjectIdentifier) error {
	id := s.info.SignatureAlgorithm.Algorithm
	full := oid.X509PublicKeyAndDigestAlgorithmToSignatureAlgorithm[kind][s.info.DigestAlgorithm.Algorithm.String()]
	if id.Equal(plain) || len(full) > 0 && id.Equal(full) {
		return nil
	}
	return fmt.Errorf("signature algorithm %s", id)
}

// names tells whether the signed attributes name the signer's certificate
// (RFC 5035, section 4), so that no other one for the same key can be put in its
// place.
func (s *signedData) names() error {
	for _, id := range []asn1.ObjectIdentifier{oidSigningCertificateV2, oidSigningCertificate} {
		if !s.info.SignedAttrs.HasAttribute(id) {
			continue
		}
		raw, err := s.info.SignedAttrs.GetOnlyAttributeValueBytes(id)
		if err != nil {
			return err
		}
		var value signingCertificate
		if rest, err := asn1.Unmarshal(raw.FullBytes, &value); err != nil || len(rest) > 0 || len(value.Certs) == 0 {
			return errors.New("attribute for the signing certificate cannot be read")
		}
		sum, err := value.Certs[0].sum(s.signer.Raw, id.Equal(oidSigningCertificate))
		if err != nil {
			return err
		}
		if !bytes.Equal(sum, value.Certs[0].Hash) {
			return errors.New("signed for another certificate")
		}
		return nil
	}
	return errors.New("signing certificate is not named")
}

// sum is the hash of a certificate in the way the identifier wants it.
func (id certificateID) sum(certificate []byte, old bool) ([]byte, error) {
	if old { // SHA-1 by the older attribute; only a name here, not what is signed
		sum := sha1.Sum(certificate)
		return sum[:], nil
	}
	hash := crypto.SHA256
	if len(id.HashAlgorithm.Algorithm) > 0 {
		hash = oid.DigestAlgorithmToCryptoHash[id.HashAlgorithm.Algorithm.String()]
	}
	if hash == 0 || !hash.Available() {
		return nil, fmt.Errorf("digest algorithm %s", id.HashAlgorithm.Algorithm)
	}
	h := hash.New()
	h.Write(certificate)
	return h.Sum(nil), nil
}

// weak lists what is weak about the signature's algorithms.
func (s *signedData) weak() []string {
	var list []string
	if s.hash == crypto.SHA1 || s.hash == crypto.MD5 {
		list = append(list, s.hash.String())
	}
	if w := weakKey(s.signer.PublicKey); w != "" {
		list = append(list, w)
	}
	return list
}

// Trust is how far the name in a certificate can be relied on.
type Trust string

const (
	// TrustNone: the issuer is not among the roots given, or none were given.
	TrustNone Trust = "unknown issuer"
	// TrustSelf: issued with its own key; proves that the file is unchanged since
	// it was signed, and nothing about who signed.
	TrustSelf Trust = "self-issued"
	// TrustRoot: issued under one of the roots given.
	TrustRoot Trust = "trusted root"
)

// Trusted says whom to trust. The zero value trusts nobody.
type Trusted struct {
	Roots *x509.CertPool
	// At is when certificates are judged where no time-stamp tells when the
	// signature was made; zero is the time that the signature itself claims.
	At time.Time
}

// trust looks for a chain of certificates to a root.
func (s *signedData) trust(t Trusted, o x509.VerifyOptions) (Trust, error) {
	o.Roots = t.Roots
	if o.Roots == nil {
		o.Roots = x509.NewCertPool() // nil would mean those of the machine
	}
	o.Intermediates = x509.NewCertPool()
	for _, c := range s.certs {
		o.Intermediates.AddCert(c)
	}
	_, err := s.signer.Verify(o)
	switch {
	case err == nil:
		return TrustRoot, nil
	case SelfIssued(s.signer):
		return TrustSelf, err
	}
	return TrustNone, err
}
