package audit_test

import (
	"fmt"
	"slices"
	"testing"

	"asleft/internal/archive"
	"asleft/internal/audit"
)

// pathOf is the property of an element that says which value it shows; nil where
// there is none.
func pathOf(o archive.Object) archive.Dict {
	e, _ := o.(archive.Dict)
	list, ok := e["A"].(archive.Array)
	if !ok {
		list = archive.Array{e["A"]}
	}
	for _, a := range list {
		a, _ := a.(archive.Dict)
		if p, ok := a["P"].(archive.Array); ok && a["O"] == archive.Name("UserProperties") {
			return p[0].(archive.Dict)
		}
	}
	return nil
}

// swapPaths exchanges the paths of values, as files of any version have them, and
// tells how many there were.
func swapPaths(d *document, other map[string]string) int {
	n := 0
	for _, o := range d.objects {
		e, _ := o.(archive.Dict)
		at, key := e, archive.Name("ID")
		if p := pathOf(o); p != nil {
			at, key = p, "V"
		}
		id, _ := at[key].(archive.String)
		if to := other[string(id)]; to != "" && e["S"] != nil {
			at[key] = archive.String(to)
			n++
		}
	}
	return n
}

// Values that stand in each other's place are found in the package of another
// version, whichever way their paths are written.
func TestSwappedValuesOfAnotherVersion(t *testing.T) {
	reading := func(cell int, check string, index int) string {
		return fmt.Sprintf("cells.%d.checks.%s.rounds.asfound.readings.%d.read", cell, check, index)
	}
	follow := func(file []byte, program string) *audit.Result {
		r, err := audit.Run(file, audit.Options{Program: program, Typefaces: typefaces(t), Make: func(q audit.Request) (*audit.Made, error) {
			q.Program = own
			return remake(q)
		}})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, p := range []struct {
		name, program string
		file          []byte
		cell          int
	}{
		{"path is the identifier", own, released(t), 2},
		{"path is a property", "asleft 99.0", metricPackage(t), 1},
	} {
		t.Run(p.name, func(t *testing.T) {
			if r := follow(p.file, p.program); hasCode(r, audit.CodeValue) || hasCode(r, audit.CodeValueMissing) {
				t.Fatalf("untouched: %s\n%s", r.Strength, codes(r))
			}
			rows := map[string]string{
				reading(p.cell, "clearance", 3): reading(p.cell, "clearance", 4),
				reading(p.cell, "clearance", 4): reading(p.cell, "clearance", 3),
			}
			columns := map[string]string{}
			for i := 1; i <= 8; i++ {
				columns[reading(p.cell, "clearance", i)] = reading(p.cell, "tilt", i)
				columns[reading(p.cell, "tilt", i)] = reading(p.cell, "clearance", i)
			}
			for what, other := range map[string]map[string]string{"rows": rows, "columns": columns} {
				d := takeApart(t, p.file)
				if n := swapPaths(d, other); n != len(other) {
					t.Fatalf("%s: %d paths, want %d", what, n, len(other))
				}
				r := follow(d.whole(), p.program)
				if !slices.ContainsFunc(r.Findings, func(f audit.Finding) bool {
					return f.Severity == audit.Differs && f.Code == audit.CodeValue && other[f.Path] != ""
				}) {
					t.Errorf("%s swapped:\n%s", what, codes(r))
				}
			}
		})
	}
}
