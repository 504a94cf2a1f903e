package report

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"
	"time"

	"asleft/internal/archive"
	"asleft/internal/sign"
	"asleft/templates"
)

// SignOptions says who signs what. Blank texts are taken from the package, then
// from the certificate.
type SignOptions struct {
	Role         string    // key or title of a role of the package
	Key          []byte    // PKCS #12 file, or PEM file with a private key
	Certificates []byte    // PEM file; blank where Key holds them
	Password     string    // of the PKCS #12 file
	At           time.Time // of signing, in the zone that is to be shown

	Name, Organization, Meaning, Place string

	Certify bool // the first signature only: allow nothing later but signatures
	AsIs    bool // sign although the package is not ready; the signature says so
	// Service is the address of a time-stamp service (RFC 3161); blank for none.
	Service string
	Client  *http.Client // asks it; nil is one without a proxy
}

// Signed is what was reached.
type Signed struct {
	Role       string // key
	Level      string // "B-B" or, with a time-stamp, "B-T" (ETSI EN 319 142-1)
	Revision   int    // of the file that the signature closes
	Algorithm  string
	Subject    string // name in the certificate
	Issuer     string
	ValidUntil time.Time
	SelfIssued bool      // nobody but the signer vouches for the name
	Stamped    time.Time // by the service, zero for none
	Notary     string    // name of the time-stamp service in its certificate
	AsIs       bool      // not ready, and signed as it is
}

// SignCode names a reason for not signing.
type SignCode string

// Reasons for not signing.
const (
	SignRole        SignCode = "role"        // no such role; Detail lists the roles
	SignNoRoles     SignCode = "noroles"     // the file has no field to sign
	SignNotReady    SignCode = "notready"    // and AsIs is not set
	SignState       SignCode = "state"       // the file does not tell whether it is ready
	SignKeyFile     SignCode = "keyfile"     // no key and certificate
	SignPassword    SignCode = "password"    // wrong
	SignExpired     SignCode = "expired"     // certificate
	SignNotYet      SignCode = "notyet"      // certificate
	SignWrongKey    SignCode = "wrongkey"    // of another certificate
	SignWeakKey     SignCode = "weakkey"     // kind or length
	SignKeyUse      SignCode = "keyuse"      // certificate for other uses
	SignAlready     SignCode = "already"     // field is signed
	SignChanged     SignCode = "changed"     // since it was written or signed
	SignTrailing    SignCode = "trailing"    // bytes behind the end
	SignClosed      SignCode = "closed"      // certification allows no more
	SignNotFirst    SignCode = "notfirst"    // to certify
	SignNoRoom      SignCode = "noroom"      // too much text for the field
	SignCharacter   SignCode = "character"   // not in the fonts
	SignStamp       SignCode = "stamp"       // no time-stamp was to be had
	SignUnreadable  SignCode = "unreadable"  // no package of this program
	SignUnexplained SignCode = "unexplained" // anything else
)

// SignError is a file that was not signed.
type SignError struct {
	Code   SignCode
	Detail string // facts: which roles, until when, what was found
	Err    error  // nil where the code says it all
}

func (e *SignError) Error() string {
	if e.Err != nil {
		return e.Err.Error()
	}
	return strings.TrimSpace(string(e.Code) + " " + e.Detail)
}

func (e *SignError) Unwrap() error { return e.Err }

// maxPackage bounds a package that is read to be signed, in bytes.
const maxPackage = 256 << 20

// NeedsPassword tells whether a key file is one with a password.
func NeedsPassword(key []byte) bool { return !sign.IsPEM(key) }

// Sign reads a package, signs the field of a role, and writes the package with
// the signature behind it. Where it is refused nothing is written, and the error
// is a [SignError].
func Sign(ctx context.Context, w io.Writer, r io.ReaderAt, size int64, o SignOptions) (*Signed, error) {
	if size > maxPackage {
		return nil, &SignError{Code: SignUnreadable, Detail: fmt.Sprintf("file of %d bytes", size)}
	}
	file := make([]byte, max(0, size))
	if _, err := io.ReadFull(io.NewSectionReader(r, 0, size), file); err != nil {
		return nil, err
	}
	p, err := readSignable(file)
	if err != nil {
		return nil, signError(err)
	}
	role, err := p.role(o.Role)
	if err != nil {
		return nil, err
	}
	asIs, err := p.ready(o.AsIs)
	if err != nil {
		return nil, err
	}
	id, err := identity(&o)
	if err != nil {
		return nil, signError(err)
	}
	q := p.request(role, asIs, id, &o)
	signed, found, err := sign.Apply(ctx, file, id, q)
	if err != nil {
		return nil, signError(err)
	}
	if _, err := w.Write(signed); err != nil {
		return nil, err
	}
	return reached(role, asIs, found.Field(q.Field)), nil
}

// identity reads the key and the certificates.
func identity(o *SignOptions) (sign.Identity, error) {
	if NeedsPassword(o.Key) {
		return sign.ReadPKCS12(o.Key, o.Password)
	}
	certificates := o.Certificates
	if len(certificates) == 0 {
		certificates = o.Key
	}
	return sign.ReadPEM(o.Key, certificates)
}

func reached(role signRole, asIs string, f *sign.Field) *Signed {
	c := f.Signer
	s := &Signed{Role: role.key, Level: string(f.Level), Revision: f.Revision, Algorithm: f.Algorithm,
		Subject: c.Subject.String(), Issuer: c.Issuer.String(), ValidUntil: c.NotAfter,
		SelfIssued: f.Trust == sign.TrustSelf, AsIs: asIs != ""}
	if f.Stamp != nil {
		s.Stamped, s.Notary = f.Stamp.Time, f.Stamp.Certificate.Subject.String()
	}
	return s
}

// signError gives an error of the layers below its code.
func signError(err error) error {
	code := SignUnexplained
	for _, known := range []struct {
		err  error
		code SignCode
	}{
		{sign.ErrExpired, SignExpired}, {sign.ErrNotYetValid, SignNotYet}, {sign.ErrWrongKey, SignWrongKey},
		{sign.ErrWeakKey, SignWeakKey}, {sign.ErrKeyUse, SignKeyUse}, {sign.ErrPassword, SignPassword},
		{sign.ErrKeyFile, SignKeyFile}, {sign.ErrSigned, SignAlready}, {sign.ErrChanged, SignChanged},
		{sign.ErrClosed, SignClosed}, {sign.ErrNotFirst, SignNotFirst}, {sign.ErrNoRoom, SignNoRoom},
		{sign.ErrGlyph, SignCharacter}, {sign.ErrStamp, SignStamp}, {archive.ErrTrailing, SignTrailing},
		{sign.ErrForm, SignUnreadable}, {archive.ErrMalformed, SignUnreadable}, {archive.ErrForeign, SignUnreadable},
		{archive.ErrLimit, SignUnreadable},
	} {
		if errors.Is(err, known.err) {
			code = known.code
			break
		}
	}
	return &SignError{Code: code, Detail: err.Error(), Err: err}
}

// request puts the signature into words.
func (p *signable) request(role signRole, asIs string, id sign.Identity, o *SignOptions) sign.Request {
	c := id.Chain[0]
	name := first(o.Name, role.name, c.Subject.CommonName)
	organization := first(o.Organization, role.organization, strings.Join(c.Subject.Organization, ", "))
	meaning := first(o.Meaning, role.meaning, role.text)
	when := o.At.Format("2006-01-02 15:04:05 -07:00")
	if o.Place != "" {
		when = p.words.Say("sign.whenwhere", "when", when, "place", o.Place)
	}
	reason := meaning
	lines := []sign.Line{{Text: name, Bold: true}, {Text: organization}, {Text: meaning}, {Text: when}}
	if asIs != "" {
		lines = append(lines, sign.Line{Text: asIs, Bold: true})
		reason += " (" + asIs + ")"
	}
	if o.Certify {
		lines = append(lines, sign.Line{Text: p.words.Say("sign.certified")})
	}
	lines = append(lines, sign.Line{Text: vouched(p.words, id)}, sign.Line{Text: p.words.Say("sign.nostamp")})
	q := sign.Request{Field: fieldPrefix + role.key, At: o.At, Signatory: name, Reason: reason, Place: o.Place, Certify: o.Certify}
	var said []string
	for _, l := range lines {
		if l.Text != "" {
			q.Lines, said = append(q.Lines, l), append(said, l.Text)
		}
	}
	q.Text = strings.Join(said, "; ")
	if o.Service != "" {
		q.Stamps = &sign.Service{URL: o.Service, Client: o.Client}
	}
	return q
}

// vouched says whose certificate it is and who issued it.
func vouched(words *templates.Words, id sign.Identity) string {
	c := id.Chain[0]
	name := first(c.Subject.CommonName, c.Subject.String())
	if sign.SelfIssued(c) {
		return words.Say("sign.selfissued", "name", name)
	}
	return words.Say("sign.issued", "name", name, "issuer", first(c.Issuer.CommonName, c.Issuer.String()))
}
