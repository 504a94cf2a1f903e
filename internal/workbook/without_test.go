package workbook

import (
	"bytes"
	"strings"
	"testing"
)

// Blocks that were left out are not in the form, and their checks stand as not
// required until somebody gives the reason.
func TestWithoutBlocks(t *testing.T) {
	o := small
	o.Without = []string{"pins", "cylinderround", "startup", "fasteners"}
	names, err := Names(o)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range names {
		for _, gone := range []string{"_pins", "_cylinderround", "_startup", "_vibration", "_fasteners", "schedule"} {
			if strings.Contains(n.Name, gone) && n.Name != "form_sets" {
				t.Errorf("%s is there", n.Name)
			}
		}
	}
	r := clean(t, blank(t, o))
	want := strings.Fields("cylinderround fasteners locking pins rotation voltunbalance ampunbalance ampload insulation oillevel " +
		"oiltemp bearingtemp vibration vibrationswitch speedratio tipspeed runtime reverse")
	var got []string
	for _, w := range r.Waivers {
		got = append(got, w.Check.Value)
		if w.Kind.Value != "notrequired" || w.Reason.Set || w.By.Set || w.Cell.Set {
			t.Errorf("waiver %+v", w)
		}
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("waived %s", got)
	}
	if c := r.Cells[0]; len(c.Drive.CylinderRound.Rounds) != 0 || len(c.Drive.GearLevel.Rounds) != 2 {
		t.Errorf("rounds %+v", c.Drive)
	}
}

// The drive type alone leaves out what such a drive has not; nobody has to
// waive it.
func TestDriveTypes(t *testing.T) {
	for _, typ := range DriveTypes() {
		o := small
		o.DriveType = typ
		r := clean(t, blank(t, o))
		if r.Tower.DriveType.Value != typ || len(r.Waivers) != 0 {
			t.Errorf("%s: read %q, waivers %+v", typ, r.Tower.DriveType.Value, r.Waivers)
		}
		rounds := len(r.Cells[0].Drive.CouplingGear.Rounds)
		if has := rounds > 0; has != (typ == "rightangle") {
			t.Errorf("%s: %d rounds of the coupling", typ, rounds)
		}
		if len(r.Cells[0].Drive.GearLevel.Rounds) == 0 {
			t.Errorf("%s: no level", typ)
		}
	}
}

// All blocks can be left out, one by one and together.
func TestEveryBlockCanBeLeftOut(t *testing.T) {
	o := tiny
	for _, key := range Blocks() {
		o.Without = []string{key}
		clean(t, blank(t, o))
	}
	o.Without = Blocks()
	r := clean(t, blank(t, o))
	if len(r.Waivers) != len(checkKeys()) {
		t.Errorf("%d of %d checks are waived", len(r.Waivers), len(checkKeys()))
	}
}

func TestFormRefusesUnknownBlocks(t *testing.T) {
	for _, o := range []FormOptions{{Without: []string{"moves"}}, {DriveType: "steam"}, {FirstCell: MaxCell, Cells: 2}, {FirstCell: -1}} {
		if err := WriteForm(&bytes.Buffer{}, o); err == nil {
			t.Errorf("%+v was written", o)
		}
	}
}

// Starting values are those of the trade, and none stands where only somebody
// else can say.
func TestStartingValues(t *testing.T) {
	r := clean(t, blankSmall(t))
	got := map[string]string{}
	for _, l := range r.Limits {
		if l.Authority.Value != "start" {
			t.Errorf("%s: authority %q", l.Check, l.Authority.Value)
		}
		got[l.Check] = strings.TrimSpace(strings.Join([]string{l.Min.Text, l.Nominal.Text, l.Max.Text, l.Tolerance.Text,
			l.Quantities.Min.Text, l.Quantities.Max.Text}, " "))
	}
	// Common practice, no source.
	want := map[string]string{"tilt": "1 in", "tipradius": "1/8 in", "clearance": "1/2 in  1/8 in", "softfootmotor": "0.002 in",
		"guardend": "1/4 in", "pins": "1/16 in", "fasteners": "5 lbf·ft 10 lbf·ft"}
	for check, text := range want {
		if got[check] != text {
			t.Errorf("%s: %q, want %q", check, got[check], text)
		}
	}
	if len(got) != len(want) {
		t.Errorf("starting values %v", got)
	}
}
