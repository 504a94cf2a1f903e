package data

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

func encoded(t *testing.T, in Input) []byte {
	t.Helper()
	b, err := Encode(in)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestSetOfASmallRecordIsTheGoldenOne(t *testing.T) {
	set, err := Make(small(), []Part{{Name: "tower.xlsx", MIME: "application/x", Kind: Source, Bytes: []byte("workbook")}})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range set.Parts {
		names = append(names, p.Name)
		if p.Kind != Source {
			golden(t, p.Name, p.Bytes)
		}
	}
	want := []string{"tower.xlsx", DataName, ReadingsName, ItemsName, LimitsName, EntriesName, ManifestName}
	if diff := cmp.Diff(want, names); diff != "" {
		t.Error(diff)
	}
	if want := Fingerprint(set.Parts[len(set.Parts)-1].Bytes); set.Fingerprint != want {
		t.Errorf("fingerprint %s, want %s", set.Fingerprint, want)
	}
}

// FIPS 180-4 example, "abc".
func TestFingerprintIsTheStartOfTheHash(t *testing.T) {
	if got := Fingerprint([]byte("abc")); got != "ba7816bf" {
		t.Errorf("got %s", got)
	}
}

func TestManifestRefusesTwoFilesOfOneName(t *testing.T) {
	for _, parts := range [][]Part{
		{{Name: "a.xlsx"}, {Name: "a.xlsx"}},
		{{Name: ManifestName}},
	} {
		if _, err := Manifest(small(), parts); !errors.Is(err, errSameName) {
			t.Errorf("%v: got %v", parts, err)
		}
	}
}

func compileSchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("asleft-1.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("asleft-1.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func validate(t *testing.T, s *jsonschema.Schema, file []byte) error {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(v)
}

func TestDataFileFollowsItsSchema(t *testing.T) {
	if err := validate(t, compileSchema(t), encoded(t, small())); err != nil {
		t.Error(err)
	}
}

func TestSchemaRefusesWhatIsNoDataFile(t *testing.T) {
	s := compileSchema(t)
	file := string(encoded(t, small()))
	for name, change := range map[string][2]string{
		"other schema":    {`"asleft/1"`, `"asleft/2"`},
		"float base":      {`"base":12700000`, `"base": 12700000.5`},
		"unknown verdict": {`"verdict":"recheck"`, `"verdict": "fine"`},
		"cell key":        {`"3":{`, `"03": {`},
		"no state":        {`"state":"notready",`, ``},
	} {
		broken := strings.ReplaceAll(file, change[0], change[1])
		if broken == file {
			t.Fatalf("%s: nothing changed", name)
		}
		if validate(t, s, []byte(broken)) == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestSchemaAcceptsMembersOfALaterVersion(t *testing.T) {
	file := strings.Replace(string(encoded(t, small())), `"inPackage"`, `"photos": 3, "inPackage"`, 1)
	if err := validate(t, compileSchema(t), []byte(file)); err != nil {
		t.Error(err)
	}
}

func TestEveryIDOfAnAssessmentIsInTheDataFile(t *testing.T) {
	in := small()
	v, err := Flatten(encoded(t, in))
	if err != nil {
		t.Fatal(err)
	}
	var ids []string
	for _, c := range in.Assessment.Cells {
		ids = append(ids, Under(CellID(c.Number), "state"))
		for _, k := range c.Checks {
			ids = append(ids, VerdictID(c.Number, k.Key))
			for _, r := range k.Rounds {
				id := RoundID(c.Number, k.Key, r.Key)
				ids = append(ids, Under(id, "expected"), Under(id, "found"))
				if r.Deciding != nil {
					ids = append(ids, Under(id, "verdict"), Under(id, "margin"), Under(id, "deciding"))
				}
				for _, name := range ResultNames(r.Results) {
					ids = append(ids, ResultID(c.Number, k.Key, r.Key, name))
				}
				for _, p := range r.Points {
					id := ReadingID(c.Number, k.Key, r.Key, p.Index)
					if p.Found {
						ids = append(ids, Under(id, "read"), Under(id, "counted"))
					} else if p.Reason != "" {
						ids = append(ids, Under(id, "reason"))
					}
					if p.Degrees != 0 {
						ids = append(ids, Under(id, "degrees"))
					}
				}
				for _, i := range r.Items {
					id := ItemID(c.Number, k.Key, r.Key, i.Key)
					ids = append(ids, Under(id, "verdict"), Under(id, "deciding"), Under(id, "findings.0.code"),
						FastenersID(c.Number, i.Key, "final"))
				}
			}
		}
	}
	ids = append(ids, LimitID(assess.Clearance, "nominal"), LimitID(assess.Pitch, "angleNominal"),
		BlockID(3, assess.Tilt, "radius"), BlockID(3, assess.CouplingGear, "stood"), GeometryID("hubHeight"),
		FootID(2, "along"), StackID(3, 2, "now"), PinsID(3, "dowel.gear", "above"), PreStartID(3, "blocks.out", "done"),
		StartUpID(3, "run1", "vibration-1"), MoveID(3, 0, "now-2"), DueID(3, 0), Under(CellID(3), "mechanicallyComplete"), "reasons.0.code", "positions.4", "found")
	for _, id := range ids {
		if _, ok := v.Find(id); !ok {
			t.Errorf("%s is not in the file", id)
		}
	}
	if t.Failed() {
		t.Log(len(v), "paths")
	}
}

func TestFoundValueHasTextUnitAndBase(t *testing.T) {
	v, err := Flatten(encoded(t, small()))
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]Value{
		ResultID(3, "clearance", "asleft", "least"):                                {"-0.5", "in", "-12700000"},
		ResultID(3, "clearance", "asleft", "mean"):                                 {"0.158875", "in", "4035425"},
		ResultID(3, "clearance", "asleft", "longest-2"):                            {"0", "in", "0"},
		ResultID(3, "clearance", "asleft", "conformance"):                          {"0.002976", "1", "2976"},
		ResultID(3, "clearance", "asleft", "level"):                                {"0.000208333", "m/m", "208333"},
		Under(ItemID(3, "clearance", "asleft", "gear.holddown-2"), "deciding"):     {"45.5", "1", "45500000"},
		Under(ItemID(3, "clearance", "asleft", "gear.holddown-2"), "results.area"): {"91.548", "mm2", "91548000000000"},
		ResultID(3, "clearance", "asleft", "phase"):                                {"0.3333333333", "deg", "1200000000"},
		Again(VerdictID(3, "clearance"), 2):                                        {Text: "recheck"},
		"cells.3.inPackage":                                                        {Text: "true"},
		LimitID("clearance", "tolerance"):                                          {"0.125", "in", "3175000"},
		LimitID("gearlevel", "slope"):                                              {"0.000416667", "m/m", "416667"},
		LimitID("voltunbalance", "quantityMax"):                                    {"1", "%", "1000000"},
		Under(ReadingID(3, "gearlevel", "asleft", 1), "read"):                      {"0.000083333", "m/m", "83333"},
		Under(ReadingID(3, "gearlevel", "asleft", 1), "read.exact"):                {Text: "1/12000"},
		Under(ReadingID(3, "bearingtemp", "run1", 2), "read"):                      {"148", "°F", "148000000"},
		FastenersID(3, "gear.holddown-2", "final"):                                 {"150", "lbf·ft", "150000000"},
		GeometryID("ratio"):                                                        {"12", "1", "12000000"},
		MoveID(3, 0, "blades"):                                                     {Text: "1, 4"},
		"positions.2":                                                              {"90", "deg", "324000000000"},
	} {
		if got, _ := v.Find(id); got != want {
			t.Errorf("%s: got %+v, want %+v", id, got, want)
		}
	}
}

func TestDecodeReturnsWhatWasEncoded(t *testing.T) {
	file := encoded(t, small())
	d, err := Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	want, err := document(small())
	if err != nil {
		t.Fatal(err)
	}
	again, err := write(d, packed)
	if err != nil || !bytes.Equal(again, file) {
		t.Errorf("second writing differs (%v)", err)
	}
	earlier, err := write(d, lined)
	if err != nil || bytes.Equal(earlier, file) {
		t.Errorf("as before version 0.2.0 it is written the same (%v)", err)
	}
	if _, err := Decode(earlier); err != nil {
		t.Errorf("as before version 0.2.0: %v", err)
	}
	if d.Cells[0].Value.Checks[1].Value.Verdict != want.Cells[0].Value.Checks[1].Value.Verdict {
		t.Error("verdict lost")
	}
}

func TestDecodeRefuses(t *testing.T) {
	file := string(encoded(t, small()))
	for name, broken := range map[string]string{
		"empty":             "",
		"unknown member":    strings.Replace(file, `"state"`, `"later": 1, "state"`, 1),
		"unknown below key": strings.Replace(file, `"inPackage"`, `"later": 1, "inPackage"`, 1),
		"other schema":      strings.Replace(file, `asleft/1`, `asleft/2`, 1),
		"other spacing":     strings.Replace(file, `"state":`, `"state": `, 1),
		"other case":        strings.Replace(file, `"state"`, `"State"`, 1),
		"cell twice":        strings.Replace(file, `"cells":{`, `"cells":{"3":{},`, 1),
		"text behind":       file + "{}",
		"null for object":   strings.Replace(file, `"tower":{`, `"tower":null,"x":{`, 1),
	} {
		if _, err := Decode([]byte(broken)); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	if _, err := Decode(make([]byte, MaxSize+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("too large: got %v", err)
	}
	if _, err := Flatten(make([]byte, MaxSize+1)); !errors.Is(err, ErrTooLarge) {
		t.Errorf("too large to lay flat: got %v", err)
	}
}

func TestEncodeRefuses(t *testing.T) {
	twice := small()
	twice.Record.Limits = append(twice.Record.Limits, twice.Record.Limits[0])
	if _, err := Encode(twice); !errors.Is(err, errTwice) {
		t.Errorf("limit twice: got %v", err)
	}
	units := small()
	units.Units = measure.UnitFoot
	if _, err := Encode(units); !errors.Is(err, errUnits) {
		t.Errorf("feet: got %v", err)
	}
	lost := small()
	lost.Record.Cells = nil
	if _, err := Encode(lost); err == nil {
		t.Error("assessed cell without record: accepted")
	}
	nameless := small()
	nameless.Record.Limits[0].Check = ""
	if _, err := Encode(nameless); !errors.Is(err, errNoKey) {
		t.Errorf("limit of no check: got %v", err)
	}
}

func TestTypedTextCannotBecomeAFormula(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1/2": "'+1/2", "-1/2": "'-1/2", "@x": "'@x", "\tx": "'\tx", "\rx": "'\rx",
		"1/2": "1/2", "": "", "−1/2": "−1/2", "'x": "'x",
	} {
		if got := SafeText(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

func TestDecimalPutsThePointIn(t *testing.T) {
	for _, c := range []struct {
		n      int64
		places int
		want   string
	}{
		{0, 6, "0"}, {1, 6, "0.000001"}, {-1, 6, "-0.000001"}, {1_000_000, 6, "1"}, {-1_500_000, 6, "-1.5"},
		{123, 1, "12.3"}, {-9_223_372_036_854_775_808, 12, "-9223372.036854775808"},
	} {
		if got := decimal(c.n, c.places); got != c.want {
			t.Errorf("%d, %d places: got %s, want %s", c.n, c.places, got, c.want)
		}
	}
}

func TestAddressIsSplitAtItsLastMark(t *testing.T) {
	for in, want := range map[string][2]string{
		"Cell 3!D14": {"Cell 3", "D14"}, "Odd! name!AA1": {"Odd! name", "AA1"}, "": {"", ""},
	} {
		if sheet, cell := splitAt(in); sheet != want[0] || cell != want[1] {
			t.Errorf("%q: got %q %q", in, sheet, cell)
		}
	}
}

func FuzzDecode(f *testing.F) {
	file, err := Encode(small())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(file)
	f.Add([]byte(`{"schema":"asleft/1","cells":{"1":{"checks":{"tilt":{}}}}}`))
	f.Fuzz(func(t *testing.T, file []byte) {
		d, err := Decode(file)
		if err != nil {
			return
		}
		now, err := write(d, packed)
		if err != nil {
			t.Fatal(err)
		}
		earlier, err := write(d, lined)
		if err != nil || !bytes.Equal(now, file) && !bytes.Equal(earlier, file) {
			t.Errorf("decoded file is written otherwise (%v)", err)
		}
		if _, err := d.Readings(); err != nil {
			t.Error(err)
		}
		if _, err := Flatten(file); err != nil {
			t.Error(err)
		}
	})
}

func FuzzFlatten(f *testing.F) {
	f.Add([]byte(`{"a":[{"value":"1","unit":"in","base":1}],"b":true}`))
	f.Add([]byte(`[[[[]]]]`))
	f.Fuzz(func(t *testing.T, file []byte) {
		if v, err := Flatten(file); err == nil && v == nil {
			t.Error("no values and no error")
		}
	})
}

func BenchmarkEncode(b *testing.B) {
	in := small()
	one := in.Assessment.Cells[0]
	in.Assessment.Cells, in.Record.Cells = nil, nil
	for i := range 100 {
		c, f := one, smallCell()
		c.Number, f.Number = i+1, i+1
		in.Assessment.Cells = append(in.Assessment.Cells, c)
		in.Record.Cells = append(in.Record.Cells, f)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Encode(in); err != nil {
			b.Fatal(err)
		}
	}
}
