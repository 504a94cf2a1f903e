package field

import "asleft/internal/measure"

// Number is a typed number without a unit.
type Number = Entry[measure.Number]

// Quantity is a typed number with a unit other than a length or an angle.
type Quantity = Entry[measure.Quantity]

// Slope is a typed slope.
type Slope = Entry[measure.Slope]

// Geometry is what drawings and a tape say of the drive, the same in every cell.
// Distances along run from the fan center toward the motor, distances across
// toward the 90° side, heights up from the plane that is shimmed.
type Geometry struct {
	Shimmed      Text        // code: "gear" (feet of the gear reducer) or "support" (common support under motor and gear reducer)
	Feet         []Foot      // of what is shimmed, numbered clockwise from the motor, seen from above
	HubHeight    Length      // of the fan above the shimmed plane
	ShimStep     Length      // thinnest shim; corrections are whole steps
	MaxPieces    Count       // in one stack
	Stock        []StockShim // thicknesses at hand; none: those that are usual
	SlotAlong    Length      // travel left in the slots, each way
	SlotAcross   Length
	SlideFront   Length // distance along of the sliding feet nearest the motor
	SlideRear    Length // and of those farthest from it
	BladesSlide  Flag   // blades can be moved in and out in their clamps
	FlexSpan     Length // from the flex plane at the gear reducer to that at the motor
	FlexGear     Length // distance along of the flex plane at the gear reducer
	FlexHeight   Length // height of the input shaft
	FaceGear     Length // face diameter at the gear reducer's coupling
	FaceMotor    Length // face diameter at the motor's coupling
	MotorFront   Length // from the motor's flex plane to its nearest feet
	MotorRear    Length // and to its farthest feet
	MotorStep    Length // thinnest shim under the motor
	GrowthFront  Length // rise from cold to hot of the motor's front and rear feet, less that of the input shaft
	GrowthRear   Length
	Ratio        Number // motor turns for one fan turn
	Backstop     Flag
	Reversing    Flag
	MotorSpeed   Quantity // nameplate
	MotorCurrent Quantity // nameplate, full load
	MotorVolts   Quantity // nameplate
}

// Foot is a place where shims go.
type Foot struct {
	Number        int
	Along, Across Length
	At            Ref
}

// StockShim is a thickness that shims are at hand in, as many as are needed.
type StockShim struct {
	Thickness Length
	At        Ref
}

// Stack is the shims under one foot of one cell, as they are now.
type Stack struct {
	Foot   int
	Now    Length
	Pieces Count
	At     Ref
}

// Places of a motor's feet. Front is next to the gear reducer.
const (
	FrontNinety = "frontninety"
	FrontOther  = "frontother"
	RearNinety  = "rearninety"
	RearOther   = "rearother"
)

// MotorStack is the shims under one foot of the motor of one cell.
type MotorStack struct {
	Place  string // code of the foot
	Now    Length
	Pieces Count
	At     Ref
}

// Stuck is a way in which something of one cell cannot be moved.
type Stuck struct {
	What   Text  // code: "gear", "support" or "motor"
	Way    Text  // code: "toward" or "away" (the motor's side), "ninety" or "other" (the 90° side and the side opposite), "shims"
	Feet   Text  // code: "front" or "rear", blank means all; of a motor, front is next to the gear reducer
	Foot   Count // the one foot that it is said of, blank means all
	Reason Text
	At     Ref
}
