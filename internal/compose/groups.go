package compose

import (
	"slices"
	"sync"

	"asleft/internal/assess"
)

// checkGroup is a part of the job, whose checks stand together.
type checkGroup struct {
	key    string // its name is the phrase "group." + key
	checks []string
}

// Keys of the groups.
const (
	groupBases     = "bases"
	groupDriveLine = "driveline"
	groupFan       = "fan"
	groupFasteners = "fasteners"
	groupPreStart  = "prestart"
	groupStartUp   = "startup"
)

// allGroups are the parts of the whole job in the order in which they are
// printed: that of the work. They are for reading only.
func allGroups() []checkGroup { return groups() }

var groups = sync.OnceValue(func() []checkGroup {
	return []checkGroup{
		{groupBases, []string{assess.GearLevel, assess.MotorLevel, assess.CylinderPlumb, assess.CylinderRound,
			assess.SoftFootGear, assess.SoftFootMotor}},
		{groupDriveLine, []string{assess.CouplingGear, assess.CouplingMotor, assess.ShaftEnds, assess.GuardEnd, assess.GuardAround}},
		{groupFan, assess.Checks()},
		{groupFasteners, []string{assess.FastenerTorque, assess.Locking, assess.DowelPins}},
		{groupPreStart, []string{assess.PreStart}},
		{groupStartUp, assess.StartUpChecks()},
	}
})

// checkKeys are all checks as printed.
func (b *book) checkKeys() []string {
	var out []string
	for _, g := range allGroups() {
		out = append(out, g.checks...)
	}
	return out
}

// inGroup tells whether a check is part of a group.
func inGroup(group, check string) bool {
	for _, g := range allGroups() {
		if g.key == group {
			return slices.Contains(g.checks, check)
		}
	}
	return false
}
