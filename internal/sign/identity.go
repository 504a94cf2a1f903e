package sign

import (
	"bytes"
	"crypto"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rsa"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"time"

	"software.sslmate.com/src/go-pkcs12"
)

// Identity is who signs: a private key, and its certificate followed by those of
// its issuers, as far as they are known.
type Identity struct {
	Key   crypto.Signer
	Chain []*x509.Certificate
}

// maxKeyFile bounds key and certificate files in bytes. A chain of a few
// certificates takes ten thousand.
const maxKeyFile = 1 << 20

// minRSA is the least length of RSA keys in bits (NIST SP 800-131A Rev. 2,
// section 3; value from memory).
const minRSA = 2048

// IsPEM tells a PEM file from a PKCS #12 file.
func IsPEM(file []byte) bool {
	block, _ := pem.Decode(file)
	return block != nil
}

// ReadPKCS12 reads a PKCS #12 file. The errors are [ErrPassword] and [ErrKeyFile].
func ReadPKCS12(file []byte, password string) (Identity, error) {
	if len(file) > maxKeyFile {
		return Identity{}, fmt.Errorf("%w: file of %d bytes", ErrKeyFile, len(file))
	}
	key, leaf, issuers, err := pkcs12.DecodeChain(file, password)
	if errors.Is(err, pkcs12.ErrIncorrectPassword) {
		return Identity{}, ErrPassword
	}
	if err != nil {
		return Identity{}, fmt.Errorf("%w: %w", ErrKeyFile, err)
	}
	signer, ok := key.(crypto.Signer)
	if !ok {
		return Identity{}, fmt.Errorf("%w: key of type %T", ErrKeyFile, key)
	}
	return Identity{signer, append([]*x509.Certificate{leaf}, issuers...)}, nil
}

// ReadPEM reads a key and certificates from PEM files, which may be one and the
// same. The certificate of the key may stand anywhere among the certificates.
func ReadPEM(key, certificates []byte) (Identity, error) {
	if len(key) > maxKeyFile || len(certificates) > maxKeyFile {
		return Identity{}, fmt.Errorf("%w: file is too large", ErrKeyFile)
	}
	signer, err := pemKey(key)
	if err != nil {
		return Identity{}, err
	}
	chain, err := pemCertificates(certificates)
	if err != nil {
		return Identity{}, err
	}
	for i, c := range chain {
		if samePublicKey(c.PublicKey, signer.Public()) {
			chain[0], chain[i] = chain[i], chain[0]
			return Identity{signer, chain}, nil
		}
	}
	return Identity{}, ErrWrongKey
}

// pemKey is the first private key of a PEM file.
func pemKey(file []byte) (crypto.Signer, error) {
	for {
		var block *pem.Block
		if block, file = pem.Decode(file); block == nil {
			return nil, fmt.Errorf("%w: no private key", ErrKeyFile)
		}
		var key any
		var err error
		switch block.Type {
		case "PRIVATE KEY":
			key, err = x509.ParsePKCS8PrivateKey(block.Bytes)
		case "RSA PRIVATE KEY":
			key, err = x509.ParsePKCS1PrivateKey(block.Bytes)
		case "EC PRIVATE KEY":
			key, err = x509.ParseECPrivateKey(block.Bytes)
		case "ENCRYPTED PRIVATE KEY":
			err = errors.New("a key with a password has to be in a PKCS #12 file")
		default:
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrKeyFile, err)
		}
		signer, ok := key.(crypto.Signer)
		if !ok {
			return nil, fmt.Errorf("%w: key of type %T", ErrKeyFile, key)
		}
		return signer, nil
	}
}

func pemCertificates(file []byte) ([]*x509.Certificate, error) {
	var list []*x509.Certificate
	for {
		var block *pem.Block
		if block, file = pem.Decode(file); block == nil {
			break
		}
		if block.Type != "CERTIFICATE" {
			continue
		}
		c, err := x509.ParseCertificate(block.Bytes)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrKeyFile, err)
		}
		list = append(list, c)
	}
	if len(list) == 0 || len(list) > maxCertificates {
		return nil, fmt.Errorf("%w: %d certificates", ErrKeyFile, len(list))
	}
	return list, nil
}

// Roots reads the certificates of a PEM file as those that are trusted.
func Roots(file []byte) (*x509.CertPool, error) {
	list, err := pemCertificates(file)
	if err != nil {
		return nil, err
	}
	pool := x509.NewCertPool()
	for _, c := range list {
		pool.AddCert(c)
	}
	return pool, nil
}

// samePublicKey compares two public keys of any kind.
func samePublicKey(a, b crypto.PublicKey) bool {
	k, ok := a.(interface{ Equal(crypto.PublicKey) bool })
	return ok && k.Equal(b)
}

// check refuses an identity that cannot sign at the given time.
func (id *Identity) check(at time.Time) error {
	if id.Key == nil || len(id.Chain) == 0 {
		return ErrKeyFile
	}
	c := id.Chain[0]
	const day = "2006-01-02 15:04 -07:00"
	switch {
	case !samePublicKey(c.PublicKey, id.Key.Public()):
		return ErrWrongKey
	case at.After(c.NotAfter):
		return fmt.Errorf("%w: it was valid until %s", ErrExpired, c.NotAfter.In(at.Location()).Format(day))
	case at.Before(c.NotBefore):
		return fmt.Errorf("%w: it will be from %s", ErrNotYetValid, c.NotBefore.In(at.Location()).Format(day))
	case !forSignatures(c):
		return ErrKeyUse
	}
	if weak := weakKey(c.PublicKey); weak != "" {
		return fmt.Errorf("%w: %s", ErrWeakKey, weak)
	}
	return nil
}

// forSignatures tells whether the key may sign documents: a certificate that
// says nothing about the use of its key leaves it open (RFC 5280, 4.2.1.3).
func forSignatures(c *x509.Certificate) bool {
	return c.KeyUsage == 0 || c.KeyUsage&(x509.KeyUsageDigitalSignature|x509.KeyUsageContentCommitment) != 0
}

// weakKey says what is weak about a key, empty where nothing is.
func weakKey(key crypto.PublicKey) string {
	switch k := key.(type) {
	case *rsa.PublicKey:
		if n := k.N.BitLen(); n < minRSA {
			return fmt.Sprintf("RSA with %d bits", n)
		}
		return ""
	case *ecdsa.PublicKey:
		if k.Curve == elliptic.P256() || k.Curve == elliptic.P384() || k.Curve == elliptic.P521() {
			return ""
		}
		return "ECDSA on " + k.Curve.Params().Name
	}
	return fmt.Sprintf("key of type %T", key)
}

// hashFor is the digest that goes with a key: as strong as the key
// (RFC 5754, section 3).
func hashFor(key crypto.PublicKey) crypto.Hash {
	k, ok := key.(*ecdsa.PublicKey)
	switch {
	case ok && k.Curve == elliptic.P384():
		return crypto.SHA384
	case ok && k.Curve == elliptic.P521():
		return crypto.SHA512
	}
	return crypto.SHA256
}

// SelfIssued tells whether a certificate was issued with its own key: nobody
// else vouches for the name in it.
func SelfIssued(c *x509.Certificate) bool {
	if !bytes.Equal(c.RawIssuer, c.RawSubject) {
		return false
	}
	return c.CheckSignature(c.SignatureAlgorithm, c.RawTBSCertificate, c.Signature) == nil
}
