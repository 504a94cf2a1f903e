package sign

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"time"

	"asleft/internal/archive"
)

// Request is what is to be signed and how it looks. All words come from outside.
type Request struct {
	Field     string    // full name, e.g. "sign.contractor"
	At        time.Time // of signing, with its zone
	Signatory string
	Reason    string
	Place     string // may be empty
	Lines     []Line // of the appearance
	// Text is the appearance in words, for those who cannot see it. It becomes the
	// tooltip of the field too, but only with the first signature of a file: where
	// an earlier one is, strict readers take another tooltip for a change to what
	// was signed.
	Text string
	// Certify makes this, the first signature, one that allows nothing later but
	// further signatures.
	Certify bool
	Stamps  *Service // of time-stamps; nil for none
}

// Apply signs a field: it returns the file with one more revision, and what
// [Verify] says of that. It changes neither file nor request. Refusals wrap one
// of the errors of this package, or those of [archive.Open].
func Apply(ctx context.Context, file []byte, id Identity, q Request) ([]byte, *Report, error) {
	if err := id.check(q.At); err != nil {
		return nil, nil, err
	}
	r, err := archive.Open(file)
	if err != nil {
		return nil, nil, err
	}
	before, err := Verify(file, Trusted{})
	if err != nil {
		return nil, nil, err
	}
	field, err := choose(r, before, &q)
	if err != nil {
		return nil, nil, err
	}
	if err := unchanged(file, before); err != nil {
		return nil, nil, err
	}
	u, err := newUpdate(file, r)
	if err != nil {
		return nil, nil, err
	}
	if err := u.compose(r, field, &q, before.Signatures() == 0, room(id, q.Stamps)); err != nil {
		return nil, nil, err
	}
	if err := u.sign(ctx, id, q.Stamps); err != nil {
		return nil, nil, err
	}
	after, err := selfCheck(u.out, before, q.Field)
	if err != nil {
		return nil, nil, err
	}
	return u.out, after, nil
}

// choose finds the field and sees whether it may be signed.
func choose(r *archive.Reader, before *Report, q *Request) (*archive.SignatureField, error) {
	fields, err := r.Fields()
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(fields, func(f archive.SignatureField) bool { return f.Name == q.Field })
	switch {
	case i < 0:
		e := &FieldError{Field: q.Field}
		for _, f := range fields {
			e.Fields = append(e.Fields, f.Name)
		}
		return nil, e
	case fields[i].Signature != nil:
		return nil, ErrSigned
	case before.Permission == 1:
		return nil, ErrClosed
	case q.Certify && before.Signatures() > 0:
		return nil, ErrNotFirst
	}
	return &fields[i], nil
}

// unchanged refuses a file that is not as it was written and signed: its first
// revision has to be as our writer leaves it, every later one nothing but
// signatures, and all signatures have to hold.
func unchanged(file []byte, before *Report) error {
	first, err := archive.Inspect(file[:before.Revisions[0].End])
	if err != nil {
		return err
	}
	if len(first.Violations) > 0 {
		return fmt.Errorf("%w after it was written: %s", ErrChanged, first.Violations[0])
	}
	if len(before.Stray) > 0 {
		return fmt.Errorf("%w: bytes %d to %d belong to nothing", ErrChanged, before.Stray[0][0], before.Stray[0][1])
	}
	for i := range before.Fields {
		if f := &before.Fields[i]; f.Signed && !f.Intact() {
			return fmt.Errorf("%w after %s was signed: %s", ErrChanged, f.Name, f.Faults[0].Fact)
		}
	}
	for _, v := range before.Revisions[1:] {
		if len(v.Other) > 0 {
			c := v.Other[0]
			return fmt.Errorf("%w: revision %d %s object %d %s", ErrChanged, v.Number, c.What, c.Object, c.Kind)
		}
		if len(v.Signed) == 0 {
			return fmt.Errorf("%w: revision %d signs nothing", ErrChanged, v.Number)
		}
	}
	return nil
}

// Room for the value of a signature, in bytes, besides the certificates.
const (
	roomSignature = 2048
	roomStamp     = 16 << 10
)

func room(id Identity, s *Service) int {
	n := roomSignature
	for _, c := range id.Chain {
		n += len(c.Raw)
	}
	if s != nil {
		n += roomStamp
	}
	return n
}

// compose writes all objects of the revision; the value stays open.
func (u *update) compose(r *archive.Reader, f *archive.SignatureField, q *Request, first bool, room int) error {
	look, err := appearance(f.Rect, q.Lines, q.Text)
	if err != nil {
		return err
	}
	o, err := r.Object(f.Object)
	if err != nil {
		return err
	}
	old, ok := o.(archive.Dict)
	if !ok {
		return fmt.Errorf("%w: field", ErrForm)
	}
	value, drawing := u.reserve(), u.reserve()
	widget := maps.Clone(old)
	widget["V"] = archive.Ref(value)
	widget["AP"] = archive.Dict{"N": archive.Ref(drawing)}
	if first {
		widget["TU"] = textString(q.Text)
	}
	u.put(f.Object, widget)
	u.stream(drawing, look.dict, look.data)
	if q.Certify {
		if err := u.certify(r, value); err != nil {
			return err
		}
	}
	u.signature(value, signatureDict(q), room)
	id, _ := r.ID()
	u.finish(id)
	return nil
}

// signatureDict is the signature dictionary (ISO 32000-1, table 252) without
// byte range and value.
func signatureDict(q *Request) archive.Dict {
	d := archive.Dict{
		"Type": archive.Name("Sig"), "Filter": archive.Name("Adobe.PPKLite"), "SubFilter": archive.Name(subFilter),
		"M": archive.String(formatDate(q.At)), "Name": textString(q.Signatory), "Reason": textString(q.Reason),
	}
	if q.Place != "" {
		d["Location"] = textString(q.Place)
	}
	if q.Certify {
		d["Reference"] = archive.Array{archive.Dict{
			"Type": archive.Name("SigRef"), "TransformMethod": archive.Name("DocMDP"),
			"TransformParams": archive.Dict{"Type": archive.Name("TransformParams"), "P": int64(2), "V": archive.Name("1.2")},
		}}
	}
	return d
}

// certify names the signature in the catalog as the one that certifies.
func (u *update) certify(r *archive.Reader, value int) error {
	c, err := r.Catalog()
	if err != nil {
		return err
	}
	root, ok := u.trailer["Root"].(archive.Ref)
	if !ok || c["Perms"] != nil {
		return fmt.Errorf("%w: catalog", ErrForm)
	}
	changed := maps.Clone(c)
	changed["Perms"] = archive.Dict{"DocMDP": archive.Ref(value)}
	u.put(int(root), changed)
	return nil
}

// look is a form XObject.
type look struct {
	dict archive.Dict
	data []byte
}

// appearance draws the lines as one marked run that says what it shows.
func appearance(r archive.Rect, lines []Line, text string) (look, error) {
	w, h := r.X1-r.X0, r.Y1-r.Y0
	if w <= 0 || h <= 0 {
		return look{}, fmt.Errorf("%w: field has no area", ErrNoRoom)
	}
	content, err := draw(lines, w, h)
	if err != nil {
		return look{}, err
	}
	marked := appendObject([]byte("/Span "), archive.Dict{"ActualText": textString(text)})
	marked = append(append(append(marked, " BDC\n"...), content...), "EMC\n"...)
	data, err := deflate(marked)
	real := func(v float64) archive.Real { return archive.Real(fmt.Sprintf("%.2f", v)) }
	return look{archive.Dict{
		"Type": archive.Name("XObject"), "Subtype": archive.Name("Form"), "Resources": archive.Dict{},
		"BBox": archive.Array{int64(0), int64(0), real(w), real(h)}, "Filter": archive.Name("FlateDecode"),
	}, data}, err
}

// sign makes the value over everything else and writes it into its room.
func (u *update) sign(ctx context.Context, id Identity, s *Service) error {
	hash := hashFor(id.Key.Public())
	var stamp stamper
	if s != nil {
		stamp = func(signature []byte) ([]byte, error) { return s.stamp(ctx, hash, signature) }
	}
	value, err := buildCMS(id, hash, u.digest(hash), stamp)
	if err != nil {
		return err
	}
	return u.fill(value)
}

// selfCheck reads the signed file as anybody would. That this signature does not
// hold, or that an earlier one does not hold any more, would be a mistake of
// ours, so the file is not given out.
func selfCheck(file []byte, before *Report, name string) (*Report, error) {
	after, err := Verify(file, Trusted{})
	if err != nil {
		return nil, fmt.Errorf("signed file: %w", err)
	}
	for i := range after.Fields {
		f := &after.Fields[i]
		if f.Signed && !f.Intact() || f.Name == name && f.Level == LevelNone {
			return nil, fmt.Errorf("signed file: %s does not hold: %v", f.Name, f.Faults)
		}
	}
	last := after.Revisions[len(after.Revisions)-1]
	if len(after.Revisions) != len(before.Revisions)+1 || len(last.Other) > 0 || len(after.Stray) > 0 {
		return nil, fmt.Errorf("signed file: more was changed than the signature: %v", last.Other)
	}
	return after, nil
}
