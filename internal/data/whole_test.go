package data

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// filler types a text of its own into every entry of a record.
type filler struct {
	n     int
	typed map[string]string // text to the path of its field
}

// leftOut are fields that are not in the data file, or reach it another way.
var leftOut = map[string]bool{
	"Cell.Rounds": true, // default heads; they are in the heads of the rounds
}

func (f *filler) fill(v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Struct:
		if f.entry(v, path) {
			return
		}
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			if !leftOut[v.Type().Name()+"."+name] {
				f.fill(v.Field(i), path+"."+name)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			f.fill(v.Index(i), path)
		}
	case reflect.Slice:
		if v.Type().Elem().Kind() != reflect.Struct {
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		f.fill(v.Index(0), path)
	}
}

// entry fills a field.Entry: its text, and its value where that is text.
func (f *filler) entry(v reflect.Value, path string) bool {
	if !strings.HasPrefix(v.Type().Name(), "Entry[") {
		return false
	}
	f.n++
	text := fmt.Sprintf("typed-%d.", f.n)
	f.typed[text] = path
	v.FieldByName("Set").SetBool(true)
	v.FieldByName("Text").SetString(text)
	v.FieldByName("At").Set(reflect.ValueOf(field.Ref{Sheet: "Sheet", Cell: "A" + strconv.Itoa(f.n)}))
	if value := v.FieldByName("Value"); value.Kind() == reflect.String {
		value.SetString(text)
	}
	return true
}

// settle gives the filled record the numbers and keys that tie it together, and
// returns the rounds of its blocks by check.
func settle(r *field.Record) map[string]assess.Round {
	c := &r.Cells[0]
	c.Number = 1
	r.Limits[0].Check = assess.Tilt
	r.Tower.Positions[0].Number = 1
	rounds := map[string]assess.Round{}
	tie(rounds, assess.Tilt, c.Tilt.Rounds)
	tie(rounds, assess.Track, c.Track.Rounds)
	tie(rounds, assess.TipRadius, c.TipRadius.Rounds)
	gaps := []field.Series[field.Length]{c.Clearance.Rounds[0].Series}
	tie(rounds, assess.Clearance, gaps)
	c.Clearance.Rounds[0].Series = gaps[0]
	tie(rounds, assess.Pitch, c.Pitch.Rounds)
	d := &c.Drive
	tie(rounds, assess.CouplingGear, d.CouplingGear.Rounds)
	tie(rounds, assess.CouplingMotor, d.CouplingMotor.Rounds)
	tie(rounds, assess.ShaftEnds, d.ShaftEnds.Rounds)
	tie(rounds, assess.GearLevel, d.GearLevel.Rounds)
	tie(rounds, assess.MotorLevel, d.MotorLevel.Rounds)
	tie(rounds, assess.CylinderPlumb, d.CylinderPlumb.Rounds)
	tie(rounds, assess.CylinderRound, d.CylinderRound.Rounds)
	tie(rounds, assess.SoftFootGear, d.SoftFootGear.Rounds)
	tie(rounds, assess.SoftFootMotor, d.SoftFootMotor.Rounds)
	tie(rounds, assess.GuardEnd, d.GuardEnd.Rounds)
	tie(rounds, assess.GuardAround, d.GuardAround.Rounds)
	return rounds
}

// tie numbers the one round of a block and makes the round of its check.
func tie[V any](rounds map[string]assess.Round, check string, s []field.Series[V]) {
	s[0].Round, s[0].Readings[0].Index = field.AsLeft, 1
	rounds[check] = assess.Round{Key: field.AsLeft, Head: s[0].Head,
		Points: []assess.Point{{Index: 1, Reason: s[0].Readings[0].Reason.Value}}}
}

// judged is an assessment that has a round for each block of the record.
func judged(rounds map[string]assess.Round) *assess.Assessment {
	cell := assess.Cell{Number: 1}
	for _, key := range assess.AllChecks() {
		k := assess.Check{Key: key, Standing: -1}
		if r, ok := rounds[key]; ok {
			k.Rounds = []assess.Round{r}
		}
		cell.Checks = append(cell.Checks, k)
	}
	return &assess.Assessment{Cells: []assess.Cell{cell}}
}

// Marks are typed for tilt only.
func isMarkElsewhere(path string) bool {
	return strings.HasSuffix(path, ".Mark.Entry") && !strings.Contains(path, ".Tilt.")
}

func TestNothingTypedIsLeftOut(t *testing.T) {
	var r field.Record
	f := &filler{typed: map[string]string{}}
	f.fill(reflect.ValueOf(&r).Elem(), "Record")
	in := Input{Units: measure.UnitInch, Record: &r, Assessment: judged(settle(&r))}
	file, err := Encode(in)
	if err != nil {
		t.Fatal(err)
	}
	set, err := Make(in, nil)
	if err != nil {
		t.Fatal(err)
	}
	var tables string
	for _, p := range set.Parts {
		if p.Name == EntriesName || p.Name == ReadingsName {
			tables += string(p.Bytes)
		}
	}
	for text, path := range f.typed {
		if isMarkElsewhere(path) {
			continue
		}
		if !strings.Contains(tables, text) {
			t.Errorf("%s is in no table", path)
		}
		if !strings.Contains(string(file), text) {
			t.Errorf("%s is not in the data file", path)
		}
	}
	if f.n < 400 {
		t.Errorf("only %d entries were typed", f.n)
	}
}

// The head of a block counts for each of its checks, and is one line of the
// table all the same. What the line above says of file, sheet and path is not
// repeated, nor a reading that the other table has.
func TestEntriesTellACellOnce(t *testing.T) {
	d := &Document{Files: []File{{Name: "tower.xlsx"}, {Name: "other.xlsx"}}}
	base := int64(1)
	head := Keyed[Entry]{{"date", Entry{Value: "2026-03-04", At: "Cell 1!C17"}}, {"note", Entry{Value: "no place"}},
		{"wind", Entry{Value: "none", At: "Cell 1!C18"}}, {"radius", Entry{Value: "-1", Unit: "in", Base: &base, Typed: "-1 in", At: "Cell 1!C19"}}}
	reading := Keyed[Reading]{{"1", Reading{Read: &Entry{Value: "7"}, At: "Cell 1!C20", Mark: &Entry{Value: "3", At: "Cell 1!D20"}}}}
	round := Keyed[Round]{{"asleft", Round{Readings: reading}}}
	for _, cell := range []string{"1", "2"} {
		d.Cells = append(d.Cells, Member[Cell]{cell, Cell{Entries: head, Checks: Keyed[Check]{{"tilt", Check{Rounds: round}}}}})
	}
	again := Keyed[Entry]{{"name", Entry{Value: "same place", At: "Cell 1!C17", File: 1}}, {"back", Entry{Value: "x", At: "Other!C1", File: 1}}}
	d.Cells = append(d.Cells, Member[Cell]{"3", Cell{Entries: again}})
	b, err := d.Entries()
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		"file,sheet,path,entry,sheet_cell,typed,value,unit",
		"tower.xlsx,Cell 1,cells.1.entries,date,C17,2026-03-04,,",
		",,,wind,C18,none,,",
		",,,radius,C19,'-1 in,-1,in",
		",,cells.1.checks.tilt.rounds.asleft.readings.1,mark,D20,3,,",
		"other.xlsx,,cells.3.entries,name,C17,same place,,",
		",Other,,back,C1,x,,",
		"",
	}, "\r\n")
	if diff := cmp.Diff(want, string(b)); diff != "" {
		t.Error(diff)
	}
}
