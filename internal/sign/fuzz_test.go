package sign

import (
	"bytes"
	"math/big"
	"testing"

	"asleft/internal/archive"
)

// values are signature values to begin with: RSA and ECDSA, one time-stamped.
func values(t testing.TB) [][]byte {
	r, err := archive.Open(twice(t, "Values"))
	if err != nil {
		t.Fatal(err)
	}
	fields, err := r.Fields()
	if err != nil {
		t.Fatal(err)
	}
	var list [][]byte
	for _, f := range fields[:2] {
		list = append(list, unpadded(f.Signature.Contents))
	}
	return list
}

// FuzzValue reads a signature value from outside and asks it everything.
func FuzzValue(f *testing.F) {
	for _, v := range values(f) {
		f.Add(v)
	}
	f.Add([]byte{0x30, 0x80, 0, 0})
	trusted := Trusted{Roots: roots(f), At: signTime}
	f.Fuzz(func(t *testing.T, value []byte) {
		v := &archive.SignatureValue{Dict: archive.Dict{}, ByteRange: []int64{0, 1, 2, 3}, Contents: value}
		field := Field{Signed: true}
		if s, err := parseCMS(value); err == nil {
			field.check(s, []byte("content"), v, trusted)
		}
		if field.Level != LevelNone || field.Intact() {
			t.Error("a signature of nothing holds")
		}
		_, _ = checkToken(value, []byte("signature"), trusted)
	})
}

// FuzzAnswer reads the answer of a time-stamp service.
func FuzzAnswer(f *testing.F) {
	f.Add([]byte{0x30, 0x03, 0x02, 0x01, 0x00})
	s := newService(f)
	s.answer = func(b []byte) []byte { f.Add(bytes.Clone(b)); return b }
	mustApply(f, sample(f, "Answer"), selfMade(f, keys.p256(), nil), stamped(f, s))
	f.Fuzz(func(t *testing.T, answer []byte) {
		if _, err := readAnswer(answer, big.NewInt(-1)); err == nil {
			t.Error("answer to another question was taken")
		}
	})
}

// FuzzVerify reads whole files.
func FuzzVerify(f *testing.F) {
	signed := twice(f, "Whole")
	f.Add(signed)
	f.Add(signed[:len(signed)-1])
	f.Add(sample(f, "Empty"))
	f.Fuzz(func(t *testing.T, file []byte) {
		r, err := Verify(file, Trusted{})
		if err == nil && (len(r.Revisions) == 0 || r.Revisions[len(r.Revisions)-1].End != int64(len(file))) {
			t.Error("revisions do not fill the file")
		}
	})
}

func FuzzDate(f *testing.F) {
	for _, s := range []string{"D:20260304151617-06'00'", "D:20260304151617Z", "20260304151617", "D:", "D:20260304151617+9900"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		at, err := parseDate(s)
		if err != nil || at.Year() < 1 || at.Year() > 9999 {
			return
		}
		if again, err := parseDate(formatDate(at)); err != nil || !again.Equal(at) {
			t.Errorf("%q is %v, again %v (%v)", s, at, again, err)
		}
	})
}
