package audit

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"asleft/internal/archive"
	"asleft/internal/sign"
)

// signatures tells of every field, every revision, and bytes that are neither.
func (a *audit) signatures() {
	for _, s := range a.signed.Stray {
		a.add(Differs, CodeStray, text("from", fmt.Sprint(s[0])), text("to", fmt.Sprint(s[1])))
	}
	for i := range a.signed.Fields {
		a.signature(&a.signed.Fields[i])
	}
	if a.signed.Signatures() == 0 {
		a.add(Note, CodeUnsigned)
	}
	a.revisions()
	a.certification()
}

// trusts are the kinds of trust as the result has them.
var trusts = map[sign.Trust]string{sign.TrustRoot: "root", sign.TrustSelf: "self", sign.TrustNone: "none"}

func (a *audit) signature(f *sign.Field) {
	s := Signature{Field: f.Name, Role: a.role(f.Name), Text: f.Text, Page: f.Page + 1, Signed: f.Signed}
	if f.Signed {
		s.Intact, s.Level = f.Intact(), string(f.Level)
		s.Name, s.Reason, s.Place = f.Signatory, f.Reason, f.Place
		s.Claimed, s.Algorithm, s.Revision = stamp(f.Claimed), f.Algorithm, f.Revision
		if f.Revision > 0 {
			s.End = int(a.signed.Revisions[f.Revision-1].End)
			for _, r := range a.signed.After(f) {
				s.After = append(s.After, r.Number)
				s.SignedAfter = append(s.SignedAfter, r.Signed...)
			}
		}
		if f.Signer != nil {
			s.Subject, s.Issuer = f.Signer.Subject.String(), f.Signer.Issuer.String()
			s.ValidUntil, s.Trust = stamp(f.Signer.NotAfter), trusts[f.Trust]
		}
		if f.Stamp != nil {
			s.Stamped, s.Notary = stamp(f.Stamp.Time), f.Stamp.Certificate.Subject.String()
		}
		if a.signed.Certified == f.Name {
			s.Certifies, s.Permission = true, a.signed.Permission
		}
		a.faults(f)
	}
	a.out.Signatures = append(a.out.Signatures, s)
}

func stamp(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.RFC3339)
}

// maxRoles is more than a package has.
const maxRoles = 100

// role is the title of the role whose field it is.
func (a *audit) role(field string) string {
	key, ok := strings.CutPrefix(field, "sign.")
	for i := 0; ok && i < maxRoles; i++ {
		row := fmt.Sprintf("roles.%d.", i)
		if v, there := a.values[row+"key"]; there && v.Text == key {
			return clip(a.values[row+"title"].Text)
		}
	}
	return ""
}

// broken are the faults with which a signature is worth nothing.
var broken = []sign.Code{sign.FaultUnreadable, sign.FaultCoverage, sign.FaultDigest, sign.FaultKey, sign.FaultCertificate}

func (a *audit) faults(f *sign.Field) {
	field := Arg{"field", ArgField, f.Name}
	for _, fault := range f.Faults {
		severity := Question
		if slices.Contains(broken, fault.Code) {
			severity = Differs
		}
		a.add(severity, CodeSignature+Code(fault.Code), field, text("fact", fault.Fact))
	}
	if len(f.Weak) > 0 {
		a.add(Question, CodeWeak, field, text("fact", strings.Join(f.Weak, ", ")))
	}
	if a.o.Roots == nil || f.Signer == nil {
		return
	}
	if f.Trust != sign.TrustRoot {
		a.add(Question, CodeTrust, field, text("issuer", f.Signer.Issuer.String()))
	}
	if f.Stamp != nil && f.Stamp.Trust != sign.TrustRoot {
		a.add(Question, CodeStampTrust, field, text("notary", f.Stamp.Certificate.Subject.String()))
	}
}

// revisions tells what was added to the file as it was written. What no signature
// explains is named by what it does to the pages.
func (a *audit) revisions() {
	start := int64(0)
	for i, r := range a.signed.Revisions {
		a.out.Revisions = append(a.out.Revisions, Revision{r.Number, int(r.End - start), r.Signed, len(r.Other)})
		if len(r.Noted) > 0 {
			a.add(Note, CodeNoted, text("revision", fmt.Sprint(r.Number)))
		}
		if len(r.Other) > 0 {
			a.add(Differs, CodeLater, text("revision", fmt.Sprint(r.Number)), text("objects", objects(r.Other)))
			a.later(start, &r)
		} else if i > 0 && len(r.Signed) == 0 && len(r.Noted) == 0 {
			a.add(Differs, CodeLater, text("revision", fmt.Sprint(r.Number)), text("objects", ""))
		}
		start = r.End
	}
}

// listed is how many changed objects are spelled out.
const listed = 8

func objects(changes []sign.Change) string {
	var out []string
	for i, c := range changes {
		if i == listed {
			out = append(out, fmt.Sprintf("… (%d)", len(changes)))
			break
		}
		out = append(out, strings.TrimSpace(fmt.Sprintf("%d %s", c.Object, c.Kind)))
	}
	return strings.Join(out, ", ")
}

// later compares the file before and after a revision.
func (a *audit) later(before int64, r *sign.Revision) {
	was, err1 := archive.Open(a.file[:before])
	is, err2 := archive.Open(a.file[:r.End])
	if err1 == nil && err2 == nil {
		a.comparePages(is, was, len(r.Signed) > 0)
	}
}

// Permissions of a certification (ISO 32000-1, table 254).
const permitNothing = 1

// certification looks for more revisions than the one who certified allowed.
func (a *audit) certification() {
	f := a.signed.Field(a.signed.Certified)
	if f == nil {
		return
	}
	for _, r := range a.signed.After(f) {
		if a.signed.Permission == permitNothing || len(r.Other) > 0 {
			a.add(Differs, CodeCertification, Arg{"field", ArgField, f.Name}, text("revision", fmt.Sprint(r.Number)))
		}
	}
}
