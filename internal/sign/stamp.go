package sign

import (
	"bytes"
	"context"
	"crypto"
	"crypto/rand"
	"crypto/x509"
	"encoding/asn1"
	"errors"
	"fmt"
	"io"
	"math/big"
	"net/http"
	"net/url"
	"slices"
	"time"

	"github.com/github/smimesign/ietf-cms/oid"
	"github.com/github/smimesign/ietf-cms/timestamp"
)

// Service is a time-stamp service of RFC 3161, asked over HTTP.
type Service struct {
	URL    string
	Client *http.Client // nil is one without a proxy
}

// Limits of an answer of a time-stamp service.
const (
	stampTimeout = 20 * time.Second
	maxStamp     = 64 << 10 // bytes; a token with its certificates takes five thousand
	nonceBits    = 64
)

// stamp asks for a time-stamp over a signature value and checks the answer
// against the question.
func (s *Service) stamp(ctx context.Context, hash crypto.Hash, signature []byte) ([]byte, error) {
	imprint, err := timestamp.NewMessageImprint(hash, bytes.NewReader(signature))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	imprint.HashAlgorithm.Parameters = asn1.NullRawValue
	nonce, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), nonceBits))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	question, err := asn1.Marshal(timestamp.Request{Version: 1, MessageImprint: imprint, Nonce: nonce, CertReq: true})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	answer, err := s.ask(ctx, question)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	token, err := readAnswer(answer, nonce)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	if _, err := checkToken(token, signature, Trusted{}); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrStamp, err)
	}
	return token, nil
}

// ask posts the question and reads the answer, no more of it than is allowed.
func (s *Service) ask(ctx context.Context, question []byte) ([]byte, error) {
	u, err := url.Parse(s.URL)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" {
		return nil, fmt.Errorf("%q is no address of a service", s.URL)
	}
	ctx, cancel := context.WithTimeout(ctx, stampTimeout)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, s.URL, bytes.NewReader(question))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Content-Type", "application/timestamp-query")
	client := s.Client
	if client == nil {
		client = &http.Client{Transport: &http.Transport{}}
	}
	answer, err := client.Do(r)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("service answers %s", answer.Status)
	}
	b, err := io.ReadAll(io.LimitReader(answer.Body, maxStamp+1))
	if err == nil && len(b) > maxStamp {
		err = fmt.Errorf("answer of more than %d bytes", maxStamp)
	}
	return b, err
}

// statuses of RFC 3161, 2.4.2 that come with a token.
const (
	granted         = 0
	grantedWithMods = 1
)

// readAnswer takes the token out of an answer to a question with a nonce.
func readAnswer(answer []byte, nonce *big.Int) ([]byte, error) {
	var outer struct {
		Status timestamp.PKIStatusInfo
		Token  asn1.RawValue `asn1:"optional"`
	}
	rest, err := asn1.Unmarshal(answer, &outer)
	if err != nil || len(rest) > 0 {
		return nil, errors.New("answer is not that of a time-stamp service")
	}
	if s := outer.Status.Status; s != granted && s != grantedWithMods {
		return nil, outer.Status
	}
	data, err := parseCMS(outer.Token.FullBytes)
	if err != nil {
		return nil, err
	}
	info, err := timestamp.ParseInfo(data.data.EncapContentInfo)
	if err != nil {
		return nil, err
	}
	if info.Nonce == nil || info.Nonce.Cmp(nonce) != 0 {
		return nil, errors.New("answer to another question")
	}
	return outer.Token.FullBytes, nil
}

// Stamp is a time-stamp on a signature.
type Stamp struct {
	Time        time.Time // when the signature existed, as the service says
	Certificate *x509.Certificate
	Trust       Trust
	Weak        []string // weak algorithms
}

// checkToken checks a time-stamp token over a signature value (RFC 3161, 2.4.2;
// RFC 5816).
func checkToken(token, signature []byte, t Trusted) (*Stamp, error) {
	s, err := parseCMS(token)
	if err != nil {
		return nil, err
	}
	content, err := s.data.EncapContentInfo.EContentValue()
	if err != nil {
		return nil, err
	}
	info, err := timestamp.ParseInfo(s.data.EncapContentInfo)
	if err != nil {
		return nil, err
	}
	hash, err := info.MessageImprint.Hash()
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(digestOf(hash, signature), info.MessageImprint.HashedMessage) {
		return nil, errors.New("time-stamp is of something else")
	}
	if err := s.signed(oid.ContentTypeTSTInfo, digestOf(s.hash, content)); err != nil {
		return nil, err
	}
	if err := s.authentic(); err != nil {
		return nil, err
	}
	if err := s.names(); err != nil {
		return nil, err
	}
	c := s.signer
	if !slices.Contains(c.ExtKeyUsage, x509.ExtKeyUsageTimeStamping) {
		return nil, errors.New("certificate is not for time-stamps")
	}
	if info.GenTime.Before(c.NotBefore) || info.GenTime.After(c.NotAfter) {
		return nil, errors.New("service's certificate was not valid at the time it gives")
	}
	stamp := &Stamp{Time: info.GenTime, Certificate: c, Weak: s.weak()}
	if hash == crypto.SHA1 || hash == crypto.MD5 {
		stamp.Weak = append(stamp.Weak, hash.String())
	}
	stamp.Trust, _ = s.trust(t, x509.VerifyOptions{CurrentTime: info.GenTime,
		KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageTimeStamping}})
	return stamp, nil
}

func digestOf(hash crypto.Hash, b []byte) []byte {
	h := hash.New()
	h.Write(b)
	return h.Sum(nil)
}
