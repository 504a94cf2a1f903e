package data

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

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
	// No form has these yet.
	"Tower.Geometry": true, "Limit.Criterion": true, "Limit.Slope": true, "Limit.Quantities": true,
	"Cell.Stacks": true, "Cell.Drive": true, "Cell.Fasteners": true, "Cell.Pins": true,
	"Cell.PreStart": true, "Cell.StartUps": true,
	"Move.Feet": true, "Move.Along": true, "Move.Front": true, "Move.Rear": true,
	"Move.Instrument": true, "Move.LastGood": true, "Tilt.Reference": true,
	"Instrument.SlopeResolution": true, "Instrument.SlopeExpanded": true, "Instrument.Capacity": true,
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
	if value := v.FieldByName("Value"); value.Kind() == reflect.String {
		value.SetString(text)
	}
	return true
}

// settle gives the filled record the numbers and keys that tie it together.
func settle(r *field.Record) {
	c := &r.Cells[0]
	c.Number = 1
	r.Limits[0].Check = assess.Tilt
	r.Tower.Positions[0].Number = 1
	for _, s := range [][]field.Series[field.Length]{c.Tilt.Rounds, c.Track.Rounds, c.TipRadius.Rounds} {
		s[0].Round, s[0].Readings[0].Index = field.AsLeft, 1
	}
	gaps := &c.Clearance.Rounds[0]
	gaps.Round, gaps.Readings[0].Index = field.AsLeft, 1
	angles := &c.Pitch.Rounds[0]
	angles.Round, angles.Readings[0].Index = field.AsLeft, 1
}

// judged is an assessment that has a round for each block of the record.
func judged(r *field.Record) *assess.Assessment {
	cell := assess.Cell{Number: 1}
	c := &r.Cells[0]
	heads := map[string]field.Head{
		assess.Tilt: c.Tilt.Rounds[0].Head, assess.Track: c.Track.Rounds[0].Head,
		assess.TipRadius: c.TipRadius.Rounds[0].Head, assess.Clearance: c.Clearance.Rounds[0].Head,
		assess.Pitch: c.Pitch.Rounds[0].Head,
	}
	reasons := map[string]string{
		assess.Tilt: c.Tilt.Rounds[0].Readings[0].Reason.Value, assess.Track: c.Track.Rounds[0].Readings[0].Reason.Value,
		assess.TipRadius: c.TipRadius.Rounds[0].Readings[0].Reason.Value, assess.Clearance: c.Clearance.Rounds[0].Readings[0].Reason.Value,
		assess.Pitch: c.Pitch.Rounds[0].Readings[0].Reason.Value,
	}
	for _, key := range assess.Checks() {
		round := assess.Round{Key: field.AsLeft, Head: heads[key]}
		round.Points = []assess.Point{{Index: 1, Reason: reasons[key]}}
		cell.Checks = append(cell.Checks, assess.Check{Key: key, Rounds: []assess.Round{round}})
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
	settle(&r)
	file, err := Encode(Input{Units: measure.UnitInch, Record: &r, Assessment: judged(&r)})
	if err != nil {
		t.Fatal(err)
	}
	for text, path := range f.typed {
		if !strings.Contains(string(file), text) && !isMarkElsewhere(path) {
			t.Errorf("%s is not in the data file", path)
		}
	}
	if f.n < 100 {
		t.Errorf("only %d entries were typed", f.n)
	}
}
