package sign

import (
	"context"
	"crypto"
	"crypto/x509"
	"errors"
	"io"
	"math/big"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/digitorus/timestamp"
)

// stampTime is what the service's clock says.
var stampTime = time.Date(2026, 3, 4, 21, 20, 0, 0, time.UTC)

// service is a time-stamp service on this machine. It is made with another
// library than ours, so that the two check each other. Change may spoil the
// answer.
type service struct {
	key    crypto.Signer
	cert   *x509.Certificate
	change func(*timestamp.Timestamp)
	answer func([]byte) []byte
	status int
}

func newService(t testing.TB) *service {
	c := template("Test Time-stamps")
	c.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageTimeStamping}
	key := keys.other()
	return &service{key: key, cert: certify(t, c, authority(t), key.Public(), keys.authority()), status: http.StatusOK}
}

func (s *service) start(t testing.TB) *Service {
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return &Service{URL: server.URL, Client: server.Client()}
}

func (s *service) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(io.LimitReader(r.Body, maxStamp))
	if err != nil || r.Method != http.MethodPost || r.Header.Get("Content-Type") != "application/timestamp-query" {
		http.Error(w, "no question", http.StatusBadRequest)
		return
	}
	q, err := timestamp.ParseRequest(body)
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadRequest)
		return
	}
	stamp := timestamp.Timestamp{HashAlgorithm: q.HashAlgorithm, HashedMessage: q.HashedMessage, Time: stampTime,
		Policy: []int{1, 2, 3, 4}, Nonce: q.Nonce, AddTSACertificate: q.Certificates, Accuracy: time.Second}
	if s.change != nil {
		s.change(&stamp)
	}
	b, err := stamp.CreateResponseWithOpts(s.cert, s.key, crypto.SHA256)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	if s.answer != nil {
		b = s.answer(b)
	}
	w.Header().Set("Content-Type", "application/timestamp-reply")
	w.WriteHeader(s.status)
	_, _ = w.Write(b)
}

func stamped(t testing.TB, s *service) Request {
	q := request(0)
	q.Stamps = s.start(t)
	return q
}

func TestTimeStampReachesTheNextLevel(t *testing.T) {
	for algorithm, id := range identities(t) {
		signed := mustApply(t, sample(t, "Stamped"), id, stamped(t, newService(t)))
		f := mustVerify(t, signed, Trusted{Roots: roots(t)}).Field(roles[0])
		if f.Level != LevelBT || f.Stamp == nil || !f.Stamp.Time.Equal(stampTime) || f.Stamp.Trust != TrustRoot ||
			f.Trust != TrustRoot || !f.JudgedAt.Equal(stampTime) || len(f.Faults) > 0 || len(f.Weak) > 0 {
			t.Errorf("%s: %+v", algorithm, f)
		}
		if f = mustVerify(t, signed, Trusted{}).Field(roles[0]); f.Level != LevelBT || f.Stamp.Trust != TrustNone {
			t.Errorf("%s, nobody trusted: %+v", algorithm, f)
		}
	}
}

// After a certificate has expired, a time-stamp from before still shows that the
// signature was made in time.
func TestTimeStampOutlivesTheCertificate(t *testing.T) {
	id, later := issued(t, "Emil Signer", keys.p256()), Trusted{Roots: roots(t), At: signTime.AddDate(21, 0, 0)}
	file := sample(t, "Later")
	f := mustVerify(t, mustApply(t, file, id, stamped(t, newService(t))), later).Field(roles[0])
	if f.Trust != TrustRoot || len(f.Faults) > 0 {
		t.Errorf("with time-stamp: %+v", f)
	}
	f = mustVerify(t, mustApply(t, file, id, request(0)), later).Field(roles[0])
	if f.Trust != TrustNone || !f.JudgedAt.Equal(later.At) || f.Level != LevelBB {
		t.Errorf("without: %+v", f)
	}
}

// The level wished for is never given out for less: no usable time-stamp, no file.
func TestServicesThatGiveNoTimeStamp(t *testing.T) {
	file, id := sample(t, "No stamp"), selfMade(t, keys.p256(), nil)
	for name, spoil := range map[string]func(*service){
		"other nonce":      func(s *service) { s.change = func(x *timestamp.Timestamp) { x.Nonce = big.NewInt(7) } },
		"no nonce":         func(s *service) { s.change = func(x *timestamp.Timestamp) { x.Nonce = nil } },
		"of another thing": func(s *service) { s.change = func(x *timestamp.Timestamp) { x.HashedMessage[0] ^= 1 } },
		"no certificate":   func(s *service) { s.change = func(x *timestamp.Timestamp) { x.AddTSACertificate = false } },
		"out of validity":  func(s *service) { s.change = func(x *timestamp.Timestamp) { x.Time = stampTime.AddDate(21, 0, 0) } },
		"wrong key":        func(s *service) { s.key = keys.authority() },
		"wrong use": func(s *service) {
			s.cert = template("Other Use")
			s.cert = certify(t, s.cert, s.cert, s.key.Public(), s.key)
		},
		"flipped bit":    func(s *service) { s.answer = func(b []byte) []byte { b[len(b)-1] ^= 1; return b } },
		"bytes behind":   func(s *service) { s.answer = func(b []byte) []byte { return append(b, 0) } },
		"cut off":        func(s *service) { s.answer = func(b []byte) []byte { return b[:len(b)/2] } },
		"empty":          func(s *service) { s.answer = func([]byte) []byte { return nil } },
		"not the format": func(s *service) { s.answer = func([]byte) []byte { return []byte("<html>") } },
		"too large":      func(s *service) { s.answer = func(b []byte) []byte { return make([]byte, maxStamp+1) } },
		"other status":   func(s *service) { s.status = http.StatusTeapot },
		"refused": func(s *service) {
			s.answer = func([]byte) []byte {
				b, err := timestamp.CreateErrorResponse(timestamp.Rejection, timestamp.BadAlgorithm)
				if err != nil {
					t.Error(err)
				}
				return b
			}
		},
	} {
		s := newService(t)
		spoil(s)
		if out, _, err := Apply(context.Background(), file, id, stamped(t, s)); !errors.Is(err, ErrStamp) || out != nil {
			t.Errorf("%s: got %v", name, err)
		}
	}
	for _, address := range []string{"", "ftp://127.0.0.1/", "file:///etc/passwd", "http://", "127.0.0.1", "http://127.0.0.1:1/"} {
		q := request(0)
		q.Stamps = &Service{URL: address}
		if _, _, err := Apply(context.Background(), file, id, q); !errors.Is(err, ErrStamp) {
			t.Errorf("%q: got %v", address, err)
		}
	}
}

// A weak time-stamp is one, and is told to be.
func TestWeakTimeStamp(t *testing.T) {
	s := newService(t)
	s.key = keys.weak()
	c := template("Weak Time-stamps")
	c.ExtKeyUsage = []x509.ExtKeyUsage{x509.ExtKeyUsageTimeStamping}
	s.cert = certify(t, c, authority(t), s.key.Public(), keys.authority())
	signed := mustApply(t, sample(t, "Weak"), selfMade(t, keys.p256(), nil), stamped(t, s))
	f := mustVerify(t, signed, Trusted{}).Field(roles[0])
	if f.Level != LevelBT || !slices.Equal(f.Weak, []string{"RSA with 1024 bits"}) {
		t.Errorf("%+v", f)
	}
}

// No more of an answer is read than is allowed.
func TestAnswerWithoutEnd(t *testing.T) {
	s := newService(t)
	s.answer = func([]byte) []byte { return make([]byte, 4*maxStamp) }
	_, _, err := Apply(context.Background(), sample(t, "Long"), selfMade(t, keys.p256(), nil), stamped(t, s))
	if !errors.Is(err, ErrStamp) || !strings.Contains(err.Error(), "answer of more than 65536 bytes") {
		t.Errorf("got %v", err)
	}
}

// A service that never answers is given up when the caller's patience ends.
func TestServiceThatNeverAnswers(t *testing.T) {
	hang := make(chan struct{})
	server := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { <-hang }))
	defer server.Close()
	defer close(hang)
	ctx, cancel := context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	q := request(0)
	q.Stamps = &Service{URL: server.URL}
	_, _, err := Apply(ctx, sample(t, "Hang"), selfMade(t, keys.p256(), nil), q)
	if !errors.Is(err, ErrStamp) || !strings.Contains(err.Error(), "deadline") {
		t.Errorf("got %v", err)
	}
}
