//go:build outside

package workbook

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"asleft/internal/measure"
)

// TestAllMutants judges 20 000 mutants of forms as we write them and as other
// programs save them. Needs soffice, and a Python with openpyxl, whose path is
// in PYTHON.
func TestAllMutants(t *testing.T) {
	first := filledOriginal(t)
	boxes, err := boxesOf(tiny)
	if err != nil {
		t.Fatal(err)
	}
	originals := []*original{
		first,
		newOriginal(t, "the form saved by LibreOffice", savedBySoffice(t, first.bytes), boxes),
		newOriginal(t, "the form saved by openpyxl", savedByOpenpyxl(t, first.bytes), boxes),
		first,
		otherForm(t),
	}
	for _, o := range originals[1:3] {
		if d := differing(first.record, o.record); len(d) > 0 {
			t.Fatalf("%s reads differently: %s", o.name, first.first(d, o.record))
		}
	}
	run(t, originals, 19_600)
	run(t, []*original{demonstration(t, "demo.xlsx"), demonstration(t, "metric.xlsx")}, 400)
}

// otherForm is in millimeters and has more of everything.
func otherForm(t *testing.T) *original {
	o := FormOptions{Cells: 2, Blades: 3, Positions: 4, Rounds: 3, Units: measure.UnitMillimeter}
	b, err := fillForm(o)
	if err != nil {
		t.Fatal(err)
	}
	boxes, err := boxesOf(o)
	if err != nil {
		t.Fatal(err)
	}
	return newOriginal(t, "a form in millimeters", b, boxes)
}

// demonstration is a workbook of the repository: what its boxes are for is not
// known.
func demonstration(t *testing.T, name string) *original {
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	o := newOriginal(t, name, b, nil)
	for _, at := range slices.Sorted(maps.Keys(o.record)) {
		if sheet, cell, ok := strings.Cut(at, "!"); ok {
			p, _ := parsePos(cell)
			o.boxes = append(o.boxes, formBox{sheet: sheet, at: p, unknown: true})
		}
	}
	return o
}

// saved writes a workbook into a folder, runs a program on it and reads what it
// saved.
func saved(t *testing.T, b []byte, run func(in, out string) *exec.Cmd) []byte {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "form.xlsx"), filepath.Join(dir, "out", "form.xlsx")
	if err := os.WriteFile(in, b, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Dir(out), 0o755); err != nil {
		t.Fatal(err)
	}
	if said, err := run(in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	made, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func savedBySoffice(t *testing.T, b []byte) []byte {
	return saved(t, b, func(in, out string) *exec.Cmd {
		return exec.Command("soffice", "-env:UserInstallation=file://"+filepath.Join(filepath.Dir(in), "profile"), "--headless",
			"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Dir(out), in)
	})
}

func savedByOpenpyxl(t *testing.T, b []byte) []byte {
	python := os.Getenv("PYTHON")
	if python == "" {
		python = "python3"
	}
	return saved(t, b, func(in, out string) *exec.Cmd {
		return exec.Command(python, "-c", "import openpyxl, sys; openpyxl.load_workbook(sys.argv[1]).save(sys.argv[2])", in, out)
	})
}
