package archive

import (
	"slices"
	"testing"
)

func TestRevisionObjects(t *testing.T) {
	b := smallFile(t)
	r := mustOpen(t, revise(b, "", map[int]string{2: "<<>>", 9000: "(new)"}))
	got := r.RevisionObjects(1)
	if !slices.Equal(got.Written, []int{2, 9000}) || len(got.Deleted) != 0 || got.Stream != 0 {
		t.Errorf("second revision: %+v", got)
	}
	first := r.RevisionObjects(0)
	if first.Stream == 0 || !slices.Contains(first.Written, 2) || slices.Contains(first.Written, 9000) || len(first.Deleted) != 0 {
		t.Errorf("first revision: %+v", first)
	}
	if r.Trailer()["Size"] != int64(100000) || mustOpen(t, b).Trailer()["Type"] != Name("XRef") {
		t.Errorf("trailer %v", r.Trailer())
	}
}

func TestDeletedObjectsAreTold(t *testing.T) {
	b := smallFile(t)
	r := mustOpen(t, revise(b, "", map[int]string{2: "<<>>"}))
	r.sections[0].free = []int{7, 0, 3}
	if got := r.RevisionObjects(1).Deleted; !slices.Equal(got, []int{3, 7}) {
		t.Errorf("deleted %v", got)
	}
}

// Programs that judge changes after a signature look for a signed field at the end
// of a path ".K.Obj" of the structure, without an index.
func TestFieldAloneHasNoBrackets(t *testing.T) {
	r := mustOpen(t, drawSample().finished(t))
	fields, err := r.Fields()
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for n := range int(r.Trailer()["Size"].(int64)) {
		o, _ := r.Object(n)
		d, _ := o.(Dict)
		if k, ok := d["K"].(Dict); ok && d["S"] == Name("Form") && k["Type"] == Name("OBJR") {
			found++
		}
	}
	if found == 0 || found != len(fields) {
		t.Errorf("%d fields without brackets, of %d", found, len(fields))
	}
}

// ISO 32000-1, 7.9.2.2 and D.2: the same text in both encodings.
func TestTextInBothEncodings(t *testing.T) {
	for s, want := range map[String]string{
		"Record \x85 K": "Record – K", "\xFE\xFF\x00R\x20\x13\x00K": "R–K", "\xA0 5 \x92": "€ 5 ™", "\x9F\xE4": "\uFFFDä", "plain": "plain",
	} {
		if got := Text(s); got != want {
			t.Errorf("%q: %q, want %q", s, got, want)
		}
	}
}
