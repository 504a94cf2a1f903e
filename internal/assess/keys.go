package assess

// Check keys of the fan, in the order in which they are judged and printed.
const (
	Tilt         = "tilt"
	Track        = "track"
	TipRadius    = "tipradius"
	Clearance    = "clearance"
	ClearanceAll = "clearanceall"
	Pitch        = "pitch"
	PitchSpread  = "pitchspread"
)

// Check keys of the drive line and its bases, read in rounds as the fan is.
const (
	CouplingGear  = "couplinggear"
	CouplingMotor = "couplingmotor"
	ShaftEnds     = "shaftends" // distance between shaft ends
	GearLevel     = "gearlevel"
	MotorLevel    = "motorlevel"
	CylinderPlumb = "cylinderplumb"
	CylinderRound = "cylinderround"
	SoftFootGear  = "softfootgear"
	SoftFootMotor = "softfootmotor"
	GuardEnd      = "guardend"
	GuardAround   = "guardaround"
)

// Check keys of what is done once. Each has one round, of the key as left, and
// an [Item] for each set, pin place or line.
const (
	FastenerTorque = "fasteners"
	Locking        = "locking"
	DowelPins      = "pins"
	PreStart       = "prestart"
)

// Check keys of the start-up. Each has a round for each run, of the keys run1,
// run2 …; the last one stands.
const (
	Rotation        = "rotation"
	VoltUnbalance   = "voltunbalance"
	AmpUnbalance    = "ampunbalance"
	AmpLoad         = "ampload" // largest phase against the nameplate
	Insulation      = "insulation"
	OilLevel        = "oillevel"
	OilTemperature  = "oiltemp"
	BearingTemp     = "bearingtemp"
	Vibration       = "vibration"
	VibrationSwitch = "vibrationswitch"
	SpeedRatio      = "speedratio"
	TipSpeed        = "tipspeed"
	RunTime         = "runtime"
	Reverse         = "reverse"
)

// Checks lists the keys of the fan checks in order.
func Checks() []string {
	return []string{Tilt, Track, TipRadius, Clearance, ClearanceAll, Pitch, PitchSpread}
}

// DriveChecks lists the keys of the drive line and its bases, in order.
func DriveChecks() []string {
	return []string{
		CouplingGear, CouplingMotor, ShaftEnds, GearLevel, MotorLevel, CylinderPlumb, CylinderRound,
		SoftFootGear, SoftFootMotor, GuardEnd, GuardAround,
	}
}

// OnceChecks lists the keys of what is done once, in order.
func OnceChecks() []string { return []string{FastenerTorque, Locking, DowelPins, PreStart} }

// StartUpChecks lists the keys of the start-up, in order.
func StartUpChecks() []string {
	return []string{
		Rotation, VoltUnbalance, AmpUnbalance, AmpLoad, Insulation, OilLevel, OilTemperature, BearingTemp,
		Vibration, VibrationSwitch, SpeedRatio, TipSpeed, RunTime, Reverse,
	}
}

// AllChecks lists the keys of every check of the job, in the order in which
// they are judged and printed.
func AllChecks() []string {
	return append(append(append(Checks(), DriveChecks()...), OnceChecks()...), StartUpChecks()...)
}

// Criteria of a coupling, the codes of a limit's criterion. A limit on a
// coupling that names none of them is not complete.
const (
	CriterionRange = "range" // highest less lowest of four gaps; the limit's maximum
	CriterionPlane = "plane" // angle in each plane; the limit's slope
	CriterionTotal = "total" // both planes together; the limit's slope
)

// Codes of fastener sets. The rule set names those whose torque an event
// overtakes; their words are under "check." like those of the checks.
const (
	SetGearHoldDown    = "gear.holddown"
	SetMotorHoldDown   = "motor.holddown"
	SetSupportHoldDown = "support.holddown"
	SetCylinder        = "cylinder.bolts"
	SetHub             = "hub.bolts"
	SetBladeClamp      = "blade.clamp"
	SetCouplingGear    = "coupling.gear"
	SetCouplingMotor   = "coupling.motor"
	SetGuard           = "guard.bolts"
	SetOther           = "other" // named in words
)

// Sets lists the codes of fastener sets, in order.
func Sets() []string {
	return []string{
		SetGearHoldDown, SetMotorHoldDown, SetSupportHoldDown, SetCylinder, SetHub, SetBladeClamp,
		SetCouplingGear, SetCouplingMotor, SetGuard, SetOther,
	}
}

// Codes of how a set of fasteners is locked.
const (
	LockNone       = "none"
	LockNylon      = "nylon" // nylon-insert lock nut
	LockWasher     = "washer"
	LockLiquid     = "liquid"  // threadlocker, before assembly
	LockWicking    = "wicking" // threadlocker, after the final torque
	LockTab        = "tab"     // tab or wire
	timingBefore   = "before"
	timingAfter    = "after"
	lubricantPaste = "antiseize"
)

// Lockings lists the codes of how a set is locked, in order.
func Lockings() []string {
	return []string{LockNone, LockNylon, LockWasher, LockLiquid, LockWicking, LockTab}
}

// Lines of the pre-start list, all of them required; a list may hold more.
const (
	LineBlocks   = "blocks.out"
	LineTools    = "tools.out"
	LinePeople   = "people.out"
	LineGuards   = "guards.on"
	LineBypasses = "bypasses.out"
	LineOil      = "oil.proved"
	LineRotation = "rotation.clear" // backstop and rotation
)

// PreStartLines lists the required lines of the pre-start list, in order. Their
// words are under "prestart.".
func PreStartLines() []string {
	return []string{LineBlocks, LineTools, LinePeople, LineGuards, LineBypasses, LineOil, LineRotation}
}
