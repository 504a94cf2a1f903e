package workbook

import (
	"fmt"
	"slices"
	"strings"
)

// optionalBlocks are the blocks of a cell that a form may be without, with the
// checks that are then not required.
var optionalBlocks = []struct {
	key    string
	checks []string
}{
	{"pitch", []string{"pitch", "pitchspread"}},
	{"tilt", []string{"tilt"}},
	{"track", []string{"track"}},
	{"tipradius", []string{"tipradius", "clearanceall"}},
	{"clearance", []string{"clearance", "clearanceall"}},
	{"couplinggear", []string{"couplinggear"}},
	{"couplingmotor", []string{"couplingmotor"}},
	{"shaftends", []string{"shaftends"}},
	{"gearlevel", []string{"gearlevel"}},
	{"motorlevel", []string{"motorlevel"}},
	{"cylinderplumb", []string{"cylinderplumb"}},
	{"cylinderround", []string{"cylinderround"}},
	{"softfootgear", []string{"softfootgear"}},
	{"softfootmotor", []string{"softfootmotor"}},
	{"guardend", []string{"guardend"}},
	{"guardaround", []string{"guardaround"}},
	{"fasteners", []string{"fasteners", "locking"}},
	{"pins", []string{"pins"}},
	{"prestart", []string{"prestart"}},
	{"startup", []string{"rotation", "voltunbalance", "ampunbalance", "ampload", "insulation", "oillevel", "oiltemp",
		"bearingtemp", "vibration", "vibrationswitch", "speedratio", "tipspeed", "runtime", "reverse"}},
	{"vibration", []string{"vibration"}},
}

// Blocks lists the keys that [FormOptions].Without takes, in the order of the
// form.
func Blocks() []string {
	var keys []string
	for _, x := range optionalBlocks {
		keys = append(keys, x.key)
	}
	return keys
}

// DriveTypes lists the codes that [FormOptions].DriveType takes.
func DriveTypes() []string { return driveTypes() }

// shaftBlocks hang on a drive shaft of the kind that can be judged.
var shaftBlocks = []string{"couplinggear", "couplingmotor", "shaftends", "guardend", "guardaround"}

// without tells whether the form has no such block: it was ordered so, or the
// drive has no such part. The drive type alone says so for the checks; nobody
// has to give a reason for each.
func (o FormOptions) without(k block) bool {
	key := k.key
	switch key {
	case "schedule":
		key = "fasteners"
	case "vibration":
		return slices.Contains(o.Without, "vibration") || slices.Contains(o.Without, "startup")
	}
	return slices.Contains(o.Without, key) || o.noShaft() && slices.Contains(shaftBlocks, key)
}

// noShaft tells whether the drive type leaves nothing to read on a drive shaft.
func (o FormOptions) noShaft() bool { return o.DriveType != "" && o.DriveType != "rightangle" }

// waivedChecks are the checks of the blocks that were left out by order.
func (o FormOptions) waivedChecks() []string {
	var checks []string
	for _, x := range optionalBlocks {
		if !slices.Contains(o.Without, x.key) {
			continue
		}
		for _, c := range x.checks {
			if !slices.Contains(checks, c) {
				checks = append(checks, c)
			}
		}
	}
	return checks
}

// waived is what a new form already holds in a column of the sheet of what is
// not required. Reason and name stay blank: they are somebody's to give.
func (b *builder) waived(s slot) []string {
	var column []string
	for _, c := range b.o.waivedChecks() {
		switch s.key {
		case "check":
			column = append(column, b.say(check().say(c)))
		case "kind":
			column = append(column, b.say(waiver().say("notrequired")))
		}
	}
	return column
}

// refuseBlocks names what no form has.
func (o FormOptions) refuseBlocks() error {
	for _, key := range o.Without {
		if !slices.Contains(Blocks(), key) {
			return fmt.Errorf("without: %q is none of %s", key, strings.Join(Blocks(), ", "))
		}
	}
	if o.DriveType != "" && !slices.Contains(driveTypes(), o.DriveType) {
		return fmt.Errorf("drive type: %q is none of %s", o.DriveType, strings.Join(driveTypes(), ", "))
	}
	return nil
}
