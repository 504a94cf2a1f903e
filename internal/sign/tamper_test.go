package sign

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"asleft/internal/archive"
)

// twice is a file with two signatures, one time-stamped.
func twice(t testing.TB, title string) []byte {
	b := mustApply(t, sample(t, title), issued(t, "Emil Signer", keys.p256()), stamped(t, newService(t)))
	return mustApply(t, b, issued(t, "Rita Signer", keys.rsa()), request(1))
}

// noticed tells whether a report of a file that should hold two signatures says
// that anything is wrong.
func noticed(r *Report, err error) bool {
	if err != nil || r.Signatures() != 2 || len(r.Stray) > 0 {
		return true
	}
	for i := range r.Fields {
		if r.Fields[i].Signed && !r.Fields[i].Intact() {
			return true
		}
	}
	return slices.ContainsFunc(r.Revisions, func(v Revision) bool { return len(v.Other) > 0 })
}

// Any byte changed anywhere is noticed. In the value of a signature, which cannot
// cover itself, some bytes say nothing: then the report is the same too.
func TestEveryFlippedByteIsNoticed(t *testing.T) {
	b := twice(t, "Flipped")
	good := mustVerify(t, b, Trusted{Roots: roots(t)})
	if noticed(good, nil) {
		t.Fatalf("untouched: %+v", good)
	}
	random := rand.New(rand.NewPCG(3, 4))
	for _, region := range regions(t, b) {
		for range 120 {
			damaged := slices.Clone(b)
			at, by := region.from+random.IntN(region.to-region.from), byte(1+random.IntN(255))
			damaged[at] ^= by
			r, err := Verify(damaged, Trusted{Roots: roots(t)})
			if noticed(r, err) {
				continue
			}
			if !region.value || !sameVerdict(good, r) {
				t.Errorf("%s: byte %d changed by %#x: not noticed", region.name, at, by)
			}
		}
	}
}

type region struct {
	name     string
	from, to int
	value    bool
}

// regions are the parts of the file: as written, and of each signature what comes
// before, in and behind its value.
func regions(t testing.TB, b []byte) []region {
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	fields, err := r.Fields()
	if err != nil {
		t.Fatal(err)
	}
	ends := r.Revisions()
	list := []region{{"as written", 0, int(ends[0]), false}}
	for i, f := range fields[:2] {
		v := f.Signature
		value := unpadded(v.Contents)
		list = append(list,
			region{f.Name + " before", int(ends[i]), int(v.Gap[0]), false},
			region{f.Name + " value", int(v.Gap[0]), int(v.Gap[0]) + 2*len(value), true},
			region{f.Name + " padding", int(v.Gap[0]) + 2*len(value) + 2, int(v.Gap[1]), false},
			region{f.Name + " behind", int(v.Gap[1]), int(ends[i+1]), false})
	}
	return list
}

// sameVerdict compares what two reports say of the signatures.
func sameVerdict(a, b *Report) bool {
	for i := range a.Fields {
		x, y := a.Fields[i], b.Fields[i]
		if x.Level == LevelBT && y.Level == LevelBB && len(y.Faults) > 0 {
			continue // the time-stamp was hit, and that is said
		}
		if x.Trust == TrustRoot && y.Trust == TrustNone {
			continue // the issuer's certificate was hit: the name is not vouched for any more
		}
		x.Certificates, y.Certificates, x.TrustErr, y.TrustErr, x.Stamp, y.Stamp = nil, nil, nil, nil, nil, nil
		if !reflect.DeepEqual(x, y) {
			return false
		}
	}
	return true
}

func TestCutOffAnywhere(t *testing.T) {
	b := twice(t, "Cut off")
	random := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		at := random.IntN(len(b))
		r, err := Verify(b[:at], Trusted{})
		if !noticed(r, err) {
			t.Errorf("cut off at %d: not noticed", at)
		}
	}
	ends := mustVerify(t, b, Trusted{}).Revisions
	r := mustVerify(t, b[:ends[1].End], Trusted{})
	if r.Signatures() != 1 || !r.Field(roles[0]).Intact() {
		t.Errorf("earlier revision alone: %+v", r)
	}
}

// The value of one file's signature put into another file's.
func TestSignatureOfAnotherFile(t *testing.T) {
	id := selfMade(t, keys.rsa(), nil)
	b, other := mustApply(t, sample(t, "One"), id, request(0)), mustApply(t, sample(t, "Another"), id, request(0))
	moved := slices.Clone(b)
	place := func(b []byte) []byte {
		r, err := archive.Open(b)
		if err != nil {
			t.Fatal(err)
		}
		fields, err := r.Fields()
		if err != nil {
			t.Fatal(err)
		}
		return b[fields[0].Signature.Gap[0]:fields[0].Signature.Gap[1]]
	}
	if copy(place(moved), place(other)) != len(place(other)) || bytes.Equal(moved, b) {
		t.Fatal("nothing moved")
	}
	f := mustVerify(t, moved, Trusted{}).Field(roles[0])
	if f.DigestOK || f.Intact() || f.Level != LevelNone || f.Faults[0].Code != FaultDigest {
		t.Errorf("%+v", f)
	}
	if _, _, err := Apply(context.Background(), moved, id, request(1)); !errors.Is(err, ErrChanged) {
		t.Errorf("signed on: %v", err)
	}
}

// revise appends a revision with other versions of objects, as another program
// would.
func revise(t testing.TB, b []byte, trailer archive.Dict, objects map[int]archive.Object) []byte {
	t.Helper()
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	u, err := newUpdate(b, r)
	if err != nil {
		t.Fatal(err)
	}
	for n, o := range objects {
		u.put(n, o)
		u.next = max(u.next, n+1)
	}
	was := u.trailer
	u.trailer = archive.Dict{"Root": was["Root"], "Info": was["Info"]}
	for k, v := range trailer {
		u.trailer[k] = v
	}
	id, _ := r.ID()
	u.references(id)
	return u.out
}

// What a later revision does is found and named, and no more is signed onto it.
func TestLaterChangesAreNamed(t *testing.T) {
	id := selfMade(t, keys.p256(), nil)
	signed := mustApply(t, sample(t, "Changed later"), id, request(0))
	r, err := archive.Open(signed)
	if err != nil {
		t.Fatal(err)
	}
	fields, _ := r.Fields()
	pages, _ := r.Pages()
	get := func(n int) archive.Dict {
		o, err := r.Object(n)
		if err != nil {
			t.Fatal(err)
		}
		return o.(archive.Dict)
	}
	with := func(d archive.Dict, key archive.Name, o archive.Object) archive.Dict {
		c := archive.Dict{key: o}
		for k, v := range d {
			if k != key {
				c[k] = v
			}
		}
		return c
	}
	root := int(r.Trailer()["Root"].(archive.Ref))
	field, page := get(fields[0].Object), get(pages[0].Object)
	empty := get(fields[1].Object)
	free := int(r.Trailer()["Size"].(int64))
	for name, c := range map[string]struct {
		trailer archive.Dict
		objects map[int]archive.Object
		want    Change
	}{
		"page":           {nil, map[int]archive.Object{pages[0].Object: with(page, "Rotate", int64(90))}, Change{pages[0].Object, Replaced, "Page"}},
		"signed field":   {nil, map[int]archive.Object{fields[0].Object: with(field, "TU", archive.String("other"))}, Change{fields[0].Object, Replaced, "Annot"}},
		"empty field":    {nil, map[int]archive.Object{fields[1].Object: with(empty, "TU", archive.String("other"))}, Change{fields[1].Object, Replaced, "Annot"}},
		"catalog":        {nil, map[int]archive.Object{root: with(get(root), "Lang", archive.String("de"))}, Change{root, Replaced, "Catalog"}},
		"new annotation": {nil, map[int]archive.Object{free: archive.Dict{"Type": archive.Name("Annot")}}, Change{free, Added, "Annot"}},
		"other catalog":  {archive.Dict{"Root": archive.Ref(free)}, map[int]archive.Object{free: get(root)}, Change{free, Replaced, "trailer Root"}},
		"information":    {nil, map[int]archive.Object{2: with(get(2), "Title", archive.String("other"))}, Change{2, Replaced, ""}},
		"signature":      {nil, map[int]archive.Object{fields[0].Signature.Object: with(fields[0].Signature.Dict, "Reason", archive.String("other"))}, Change{fields[0].Signature.Object, Replaced, "Sig"}},
	} {
		changed := revise(t, signed, c.trailer, c.objects)
		report := mustVerify(t, changed, Trusted{})
		after := report.Revisions[len(report.Revisions)-1]
		if len(report.Revisions) != 3 || !slices.Contains(after.Other, c.want) || len(after.Signed) > 0 {
			t.Errorf("%s: got %+v, want %+v", name, after, c.want)
		}
		if f := report.Field(roles[0]); name != "signature" && (!f.Intact() || len(report.After(f)) != 1) {
			t.Errorf("%s: %+v", name, f)
		}
		if _, _, err := Apply(context.Background(), changed, id, request(1)); !errors.Is(err, ErrChanged) {
			t.Errorf("%s: signed on: %v", name, err)
		}
	}
}

// A file that was changed before its first signature is not signed.
func TestChangedBeforeItIsSigned(t *testing.T) {
	b := sample(t, "Edited")
	changed := revise(t, b, nil, map[int]archive.Object{2: archive.Dict{"Title": archive.String("other")}})
	if _, _, err := Apply(context.Background(), changed, selfMade(t, keys.p256(), nil), request(0)); !errors.Is(err, ErrChanged) {
		t.Errorf("got %v", err)
	}
}

// Neither is one whose first revision is not as it was written, nor one with a
// revision that does nothing.
func TestNotAsWritten(t *testing.T) {
	id, b := selfMade(t, keys.p256(), nil), sample(t, "As written")
	edited := bytes.Replace(b, []byte(">Example Contractor<"), []byte(">Example Kontractor<"), 1)
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	same, err := r.Object(2)
	if err != nil || bytes.Equal(edited, b) {
		t.Fatal("nothing to edit")
	}
	for name, file := range map[string][]byte{"edited": edited, "idle": revise(t, b, nil, map[int]archive.Object{2: same})} {
		if _, _, err := Apply(context.Background(), file, id, request(0)); !errors.Is(err, ErrChanged) {
			t.Errorf("%s: got %v", name, err)
		}
	}
}

// Byte ranges that leave anything out, or take anything else in.
func TestByteRangesThatAreNotExact(t *testing.T) {
	b := mustApply(t, sample(t, "Ranges"), selfMade(t, keys.p256(), nil), request(0))
	at := bytes.Index(b, []byte("/ByteRange[")) + len("/ByteRange")
	end := at + bytes.IndexByte(b[at:], ']') + 1
	var zero, a, c, d int
	if _, err := fmt.Sscanf(string(b[at:end]), "[%d %d %d %d]", &zero, &a, &c, &d); err != nil {
		t.Fatal(err)
	}
	for _, ranges := range []string{
		fmt.Sprintf("[1 %d %d %d]", a-1, c, d), fmt.Sprintf("[1 %d %d %d]", a, c, d), fmt.Sprintf("[0 %d %d %d]", a-1, c, d), fmt.Sprintf("[0 %d %d %d]", a, c+1, d-1),
		fmt.Sprintf("[0 %d %d %d]", a, c, d-1), fmt.Sprintf("[0 %d %d %d]", a, c, d+1), fmt.Sprintf("[0 %d]", a),
		"[]", "[0 0 0 0]", fmt.Sprintf("[0 %d %d -1]", a, c), fmt.Sprintf("[0 %d %d 9223372036854775807]", a, c)[:end-at], "null",
	} {
		spoiled := slices.Clone(b)
		copy(spoiled[at:], ranges+strings.Repeat(" ", max(0, end-at-len(ranges))))
		r, err := Verify(spoiled, Trusted{})
		if err != nil {
			continue
		}
		if f := r.Field(roles[0]); f.Covers || f.Intact() || f.Revision != 0 || f.Level != LevelNone || len(r.After(f)) != len(r.Revisions) {
			t.Errorf("%s: %+v", ranges, f)
		}
	}
}

// A signature cannot cover a revision behind its own.
func TestByteRangeIntoALaterRevision(t *testing.T) {
	b := twice(t, "Later revision")
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	fields, _ := r.Fields()
	v := fields[0].Signature
	at := int(v.Offset) + bytes.Index(b[v.Offset:], []byte("/ByteRange")) + len("/ByteRange")
	copy(b[at:], fmt.Sprintf("%-*s", rangeWidth, fmt.Sprintf("[0 %d %d %d]", v.Gap[0], v.Gap[1], int64(len(b))-v.Gap[1])))
	if f := mustVerify(t, b, Trusted{}).Field(roles[0]); f.Covers || f.Revision != 0 {
		t.Errorf("%+v", f)
	}
}

// Values that are no signature are told as such.
func TestHostileValues(t *testing.T) {
	b := mustApply(t, sample(t, "Hostile"), selfMade(t, keys.p256(), nil), request(0))
	r, err := archive.Open(b)
	if err != nil {
		t.Fatal(err)
	}
	fields, _ := r.Fields()
	v := fields[0].Signature
	for name, value := range map[string][]byte{
		"zeros":         nil,
		"no DER":        []byte("this is no signature"),
		"long length":   {0x30, 0x84, 0x7F, 0xFF, 0xFF, 0xFF},
		"endless":       {0x30, 0x80},
		"deep":          bytes.Repeat([]byte{0x30, 0x82, 0x03, 0x00}, 100),
		"garbage":       bytes.Repeat([]byte{0xA5}, 600),
		"cut off":       v.Contents[:100],
		"bytes behind":  append(unpadded(v.Contents), "more"...),
		"other content": {0x30, 0x0B, 0x06, 0x09, 0x2A, 0x86, 0x48, 0x86, 0xF7, 0x0D, 0x01, 0x07, 0x01},
	} {
		spoiled := slices.Clone(b)
		padded := append(slices.Clone(value), make([]byte, max(0, len(v.Contents)-len(value)))...)[:len(v.Contents)]
		hex.Encode(spoiled[v.Gap[0]+1:], padded)
		f := mustVerify(t, spoiled, Trusted{}).Field(roles[0])
		if f.Intact() || f.Signer != nil || f.Level != LevelNone || len(f.Faults) != 1 || f.Faults[0].Code != FaultUnreadable {
			t.Errorf("%s: %+v", name, f)
		}
	}
}
