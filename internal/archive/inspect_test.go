package archive

import "testing"

func TestInspectSample(t *testing.T) {
	r, err := Inspect(drawSample().finished(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%+v", r)
	for _, v := range r.Violations {
		t.Error(v)
	}
}

// A long file is as consistent as a short one.
func TestInspectThousandPages(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	r, err := Inspect(drawTables(1000, 8).finished(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%+v", r)
	for _, v := range r.Violations {
		t.Error(v)
	}
}
