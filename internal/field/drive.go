package field

// Clock positions of a coupling, the indices of its readings. The sides are
// those of the tower's frame, wherever the reader stood.
const (
	ClockTop    = 1
	ClockNinety = 2 // the 90° side
	ClockBottom = 3
	ClockOther  = 4 // the side opposite
)

// Coupling is the face gap of one coupling at four clock positions.
type Coupling struct {
	Stood    Text // code: "motor" (behind the motor, looking to the gear reducer) or "gear" (at the gear reducer, looking to the motor); no default
	Together Flag // both shafts turned together
	Sweep    Flag // an indicator swept round, instead of four gap readings
	Rounds   []Series[Length]
}

// Gap is a block with one or a few readings a round, e.g. the distance between
// shaft ends.
type Gap struct{ Rounds []Series[Length] }

// Level is a slope read two ways: index 1 along (positive: higher toward the
// motor), 2 across (positive: higher toward the 90° side).
type Level struct{ Rounds []Series[Slope] }

// Drive holds the readings of the drive line and its bases.
type Drive struct {
	GearLevel     Level
	MotorLevel    Level
	CylinderPlumb Level
	CylinderRound Gap // diameters: index 1 along, 2 across, 3 and 4 between
	SoftFootGear  Gap // rise of each foot on release
	SoftFootMotor Gap
	CouplingGear  Coupling
	CouplingMotor Coupling
	ShaftEnds     Gap // distance between shaft ends: index 1
	GuardEnd      Gap // index 1
	GuardAround   Gap // indices as the clock positions
}
