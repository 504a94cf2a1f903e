package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"time"

	"asleft/report"
)

// signedAt is when all frozen packages say they were signed: the day their
// demonstration was issued. Certificates expire soon after, so that what is kept
// shows that a signature is judged by its own time.
var signedAt = time.Date(2026, 5, 11, 14, 30, 0, 0, time.FixedZone("", 60*60))

// signers are the roles that sign, in this order, with keys that are thrown away.
var signers = []struct{ role, name, organization string }{
	{"Crew lead", "Jorun Askvik", "Skerry Rotating Services (invented)"},
	{"Owner's engineer", "Lev Dorrin", "Fennmark Mill (invented)"},
}

// sign signs for every role.
func sign(file []byte) ([]byte, error) {
	for _, s := range signers {
		key, err := keyOf(s.name, s.organization)
		if err != nil {
			return nil, err
		}
		var out bytes.Buffer
		o := report.SignOptions{Role: s.role, Key: key, At: signedAt}
		if _, err := report.Sign(context.Background(), &out, bytes.NewReader(file), int64(len(file)), o); err != nil {
			return nil, err
		}
		file = out.Bytes()
	}
	return file, nil
}

// keyOf makes a key with its own certificate, as PEM.
func keyOf(name, organization string) ([]byte, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	c := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: name, Organization: []string{organization}},
		NotBefore: signedAt.AddDate(0, -1, 0), NotAfter: signedAt.AddDate(0, 1, 0), KeyUsage: x509.KeyUsageDigitalSignature}
	der, err := x509.CreateCertificate(rand.Reader, c, c, key.Public(), key)
	if err != nil {
		return nil, err
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	return append(pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: private}),
		pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})...), nil
}
