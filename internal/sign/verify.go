package sign

import (
	"bytes"
	"crypto/x509"
	"errors"
	"fmt"
	"strings"
	"time"

	"asleft/internal/archive"

	"github.com/github/smimesign/ietf-cms/oid"
)

// Report is what there is to say about the signatures of a file.
type Report struct {
	Fields    []Field    // in the order of the form
	Revisions []Revision // oldest first; the first is the file as written
	// Certified is the field whose signature says what may be done to the file
	// later, by Permission: 1 nothing, 2 fill in fields and sign, 3 annotate too.
	// Empty and 0 where none does.
	Certified  string
	Permission int
	// Stray are stretches of bytes that belong to no object: offset and end.
	Stray [][2]int64
}

// Field is a signature field. All but the first members are of its signature
// and empty while there is none.
type Field struct {
	Name   string
	Page   int    // zero-based
	Text   string // tooltip
	Signed bool

	// What the signature dictionary claims. Nothing vouches for it but the
	// signature, which covers it.
	Signatory, Reason, Place string
	Claimed                  time.Time // zero where there is none
	SubFilter                string

	Signer       *x509.Certificate   // nil where the signature cannot be read
	Certificates []*x509.Certificate // all that came with it
	Algorithm    string              // e.g. "ECDSA P-384, SHA-384"
	Weak         []string            // weak algorithms, of the time-stamp too
	Trust        Trust
	JudgedAt     time.Time // when the certificates were judged
	TrustErr     error     // why there is no chain to a root, nil where there is one

	Revision  int  // the revision it is the last thing of, from 1; 0: none
	Covers    bool // all of that revision but its own value
	DigestOK  bool // the bytes covered are those that were signed
	Authentic bool // by the key of the certificate
	Named     bool // for this certificate and no other
	Stamp     *Stamp
	Level     Level
	Faults    []Fault
}

// Level is a conformance level of ETSI EN 319 142-1, section 6.
type Level string

const (
	// LevelNone is a signature that is broken, or of another kind.
	LevelNone Level = ""
	// LevelBB is a signature with its certificate bound to it.
	LevelBB Level = "B-B"
	// LevelBT has a time-stamp besides.
	LevelBT Level = "B-T"
)

// Fault is one thing that is wrong with a signature.
type Fault struct {
	Code Code
	Fact string
}

// Code names a kind of fault.
type Code string

const (
	FaultUnreadable  Code = "unreadable"  // the signature cannot be read
	FaultCoverage    Code = "coverage"    // its byte range is not exactly a revision
	FaultDigest      Code = "digest"      // the file is not the one that was signed
	FaultKey         Code = "key"         // not made with the certificate's key
	FaultCertificate Code = "certificate" // made for another certificate
	FaultValidity    Code = "validity"    // certificate not valid at the time of signing
	FaultUse         Code = "use"         // certificate not for signatures
	FaultStamp       Code = "stamp"       // the time-stamp does not hold
	FaultProfile     Code = "profile"     // not in the form of a PAdES baseline signature
)

// Intact tells whether the signature holds for its revision. It says nothing
// about who signed (see Trust) or what was added later (see Report.After).
func (f *Field) Intact() bool {
	return f.Signed && f.Covers && f.DigestOK && f.Authentic
}

func (f *Field) fault(code Code, format string, args ...any) {
	f.Faults = append(f.Faults, Fault{code, fmt.Sprintf(format, args...)})
}

// After is what was added to the file behind the revision of a signature.
func (r *Report) After(f *Field) []Revision {
	if f.Revision == 0 {
		return r.Revisions
	}
	return r.Revisions[f.Revision:]
}

// Field finds a field by its full name; nil if there is none.
func (r *Report) Field(name string) *Field {
	for i := range r.Fields {
		if r.Fields[i].Name == name {
			return &r.Fields[i]
		}
	}
	return nil
}

// Signatures counts the fields that are signed.
func (r *Report) Signatures() int {
	n := 0
	for i := range r.Fields {
		if r.Fields[i].Signed {
			n++
		}
	}
	return n
}

// Verify reads and checks all signatures of a file. An error means that the file
// cannot be read far enough, or has bytes behind its end ([archive.ErrTrailing]);
// what is wrong with a signature stands in the report.
func Verify(file []byte, t Trusted) (*Report, error) {
	r, err := archive.Open(file)
	if err != nil {
		return nil, err
	}
	found, err := r.Fields()
	if err != nil {
		return nil, err
	}
	out := &Report{}
	if out.Stray, err = r.Stray(); err != nil {
		return nil, err
	}
	ends := r.Revisions()
	for _, f := range found {
		out.Fields = append(out.Fields, checkField(file, ends, f, t))
	}
	if err := out.certification(r, found); err != nil {
		return nil, err
	}
	out.Revisions, err = revisions(file, r)
	return out, err
}

// checkField checks one field.
func checkField(file []byte, ends []int64, found archive.SignatureField, t Trusted) Field {
	f := Field{Name: found.Name, Page: found.Page, Text: found.Text, Signed: found.Signature != nil}
	if !f.Signed {
		return f
	}
	d := found.Signature.Dict
	f.Signatory, f.Reason, f.Place = textOf(d["Name"]), textOf(d["Reason"]), textOf(d["Location"])
	f.Claimed, _ = parseDate(textOf(d["M"]))
	sub, _ := d["SubFilter"].(archive.Name)
	f.SubFilter = string(sub)
	f.coverage(file, ends, found.Signature)
	s, err := parseCMS(found.Signature.Contents)
	if err != nil {
		f.fault(FaultUnreadable, "%v", err)
		return f
	}
	f.check(s, file, found.Signature, t)
	return f
}

// coverage compares the byte range with what it has to be: from the start of the
// file to the signature's value and from there to the end of a revision. The
// value has to be hex digits all through: anything else there would be covered by
// nothing.
func (f *Field) coverage(file []byte, ends []int64, v *archive.SignatureValue) {
	b := v.ByteRange
	if len(b) != 4 || b[0] != 0 || b[1] != v.Gap[0] || b[2] != v.Gap[1] || b[3] < 0 {
		f.fault(FaultCoverage, "byte range %d, value at %d", b, v.Gap)
		return
	}
	if !plainHex(file[v.Gap[0]:v.Gap[1]]) {
		f.fault(FaultCoverage, "value is not written in plain hex digits")
		return
	}
	start := int64(0)
	for i, end := range ends {
		if b[2]+b[3] == end && v.Offset >= start {
			f.Revision, f.Covers = i+1, true
			return
		}
		start = end
	}
	f.fault(FaultCoverage, "byte range ends at %d, where no revision of this signature does", b[2]+b[3])
}

// plainHex tells whether a string is written as <…> with hex digits alone, their
// letters all small or all capital.
func plainHex(s []byte) bool {
	s, open := bytes.CutPrefix(s, []byte("<"))
	s, closed := bytes.CutSuffix(s, []byte(">"))
	other := func(digits string) bool {
		return bytes.ContainsFunc(s, func(r rune) bool { return !strings.ContainsRune(digits, r) })
	}
	return open && closed && (!other("0123456789abcdef") || !other("0123456789ABCDEF"))
}

// covered hashes the bytes that the byte range names, as far as there are any.
func (s *signedData) covered(file []byte, b []int64) []byte {
	h := s.hash.New()
	for ; len(b) >= 2; b = b[2:] {
		from, length := b[0], b[1]
		if from < 0 || length < 0 || from > int64(len(file)) || length > int64(len(file))-from {
			return nil
		}
		h.Write(file[from : from+length])
	}
	return h.Sum(nil)
}

// maxRange is the most numbers of a byte range that are followed.
const maxRange = 4

// check fills in what the signature value says.
func (f *Field) check(s *signedData, file []byte, v *archive.SignatureValue, t Trusted) {
	f.Signer, f.Certificates, f.Weak = s.signer, s.certs, s.weak()
	f.Algorithm = algorithmName(s)
	err := errDigest
	if len(v.ByteRange) <= maxRange {
		err = s.signed(oid.ContentTypeData, s.covered(file, v.ByteRange))
	}
	if f.DigestOK = err == nil; !f.DigestOK {
		f.fault(FaultDigest, "%v", err)
	}
	err = s.authentic()
	if f.Authentic = err == nil; !f.Authentic {
		f.fault(FaultKey, "%v", err)
	}
	err = s.names()
	if f.Named = err == nil; !f.Named {
		f.fault(FaultCertificate, "%v", err)
	}
	f.time(s, t)
	if !forSignatures(s.signer) {
		f.fault(FaultUse, "the certificate is for other uses")
	}
	f.level(s)
}

// time checks the time-stamp, if there is one, and the certificates at the time
// that it proves, else at the time asked for or claimed.
func (f *Field) time(s *signedData, t Trusted) {
	f.JudgedAt = t.At
	if f.JudgedAt.IsZero() {
		f.JudgedAt = f.Claimed
	}
	if s.info.UnsignedAttrs.HasAttribute(oid.AttributeTimeStampToken) {
		token, err := s.info.UnsignedAttrs.GetOnlyAttributeValueBytes(oid.AttributeTimeStampToken)
		if err == nil {
			f.Stamp, err = checkToken(token.FullBytes, s.info.Signature, t)
		}
		if err != nil {
			f.fault(FaultStamp, "%v", err)
		} else {
			f.JudgedAt = f.Stamp.Time
			f.Weak = append(f.Weak, f.Stamp.Weak...)
		}
	}
	if f.JudgedAt.IsZero() {
		f.JudgedAt = s.signer.NotBefore // no time is known; zero would mean now
	}
	f.validity(s.signer)
	f.Trust, f.TrustErr = s.trust(t, x509.VerifyOptions{CurrentTime: f.JudgedAt,
		KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageAny}})
}

// validity compares the certificate with the time of signing: the stamped one,
// else the one claimed.
func (f *Field) validity(c *x509.Certificate) {
	at := f.Claimed
	if f.Stamp != nil {
		at = f.Stamp.Time
	}
	if !at.IsZero() && (at.Before(c.NotBefore) || at.After(c.NotAfter)) {
		f.fault(FaultValidity, "signed %s, valid from %s to %s", at.UTC().Format(time.RFC3339),
			c.NotBefore.UTC().Format(time.RFC3339), c.NotAfter.UTC().Format(time.RFC3339))
	}
}

const subFilter = "ETSI.CAdES.detached"

// level decides which level is reached (EN 319 142-1, table 1).
func (f *Field) level(s *signedData) {
	var missing []string
	if f.SubFilter != subFilter {
		missing = append(missing, "kind "+f.SubFilter)
	}
	if f.Claimed.IsZero() {
		missing = append(missing, "no time in the signature dictionary")
	}
	if s.info.SignedAttrs.HasAttribute(oid.AttributeSigningTime) {
		missing = append(missing, "a time among the signed attributes")
	}
	if len(s.data.EncapContentInfo.EContent.FullBytes) > 0 {
		missing = append(missing, "content inside the signature")
	}
	missing = append(missing, s.form()...)
	if len(missing) > 0 {
		f.fault(FaultProfile, "%s", strings.Join(missing, ", "))
	}
	if !f.Intact() || !f.Named || len(missing) > 0 {
		return
	}
	f.Level = LevelBB
	if f.Stamp != nil {
		f.Level = LevelBT
	}
}

// certification finds the field whose signature certifies the file (ISO 32000-1,
// 12.8.4 and 12.8.2.2).
func (out *Report) certification(r *archive.Reader, fields []archive.SignatureField) error {
	c, err := r.Catalog()
	if err != nil {
		return err
	}
	perms, _ := resolveDict(r, c["Perms"])
	ref, ok := perms["DocMDP"].(archive.Ref)
	if !ok {
		return nil
	}
	for _, f := range fields {
		if f.Signature == nil || f.Signature.Object != int(ref) {
			continue
		}
		out.Certified, out.Permission = f.Name, permission(r, f.Signature.Dict)
		return nil
	}
	return errors.New("certified by a signature that is in no field")
}

// defaultPermission is that of a certification that names none.
const defaultPermission = 2

func permission(r *archive.Reader, signature archive.Dict) int {
	list, _ := resolve(r, signature["Reference"]).(archive.Array)
	for _, o := range list {
		reference, _ := resolveDict(r, o)
		if reference["TransformMethod"] != archive.Name("DocMDP") {
			continue
		}
		params, _ := resolveDict(r, reference["TransformParams"])
		if p, ok := params["P"].(int64); ok && p >= 1 && p <= 3 {
			return int(p)
		}
	}
	return defaultPermission
}

// resolve follows a reference; what cannot be read is nothing.
func resolve(r *archive.Reader, o archive.Object) archive.Object {
	v, err := r.Resolve(o)
	if err != nil {
		return nil
	}
	return v
}

func resolveDict(r *archive.Reader, o archive.Object) (archive.Dict, bool) {
	d, ok := resolve(r, o).(archive.Dict)
	return d, ok
}
