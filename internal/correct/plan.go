package correct

import (
	"asleft/internal/assess"
	"asleft/internal/measure"
)

// Foot is a place that is shimmed. Feet are numbered clockwise from the motor,
// seen from above.
type Foot struct {
	Number        int
	Along, Across measure.Length // from the fan center
	Now           measure.Length // today's stack
	Known         bool           // Now was given; where not, nothing can be taken out
	Pieces        int            // in today's stack, 0 where not given
	Fixed         bool           // the stack must stay as it is
}

// FootChange is the stack under one foot: now, change, new. A positive change
// goes in, a negative one comes out.
type FootChange struct {
	Foot             int
	Now, Change, New measure.Length
	Known            bool // Now was given; else New is what goes in
	Pieces           int  // of the new stack
	// Stack is the pieces that are taken from the shims at hand, thickest first, nil
	// where nobody said what there is. With Keeps they go on what is there.
	Stack []measure.Length
	Keeps bool
}

// MotorChange is the stack under one foot of the motor.
type MotorChange struct {
	Place string // code of the foot
	FootChange
}

// BladeChange is what one blade is set to. For gaps the unit is nanometers and a
// negative change moves the blade out, toward the wall; for angles it is that of
// measure.Angle and a positive change is more pitch.
type BladeChange struct {
	Blade            int
	Now, Change, New assess.Amount
}

// WallMove is where the wall must come in (positive) or go out, at the blade's
// height.
type WallMove struct {
	Position int
	Degrees  measure.Angle
	In       measure.Length
	Needed   bool // the gap predicted there is outside its limit
}

// MotorFeet is an amount at the front (nearest the gear reducer) and the rear
// feet of the motor.
type MotorFeet struct{ Front, Rear measure.Length }

// Certificate is why no better answer exists: the positions that hold it, on
// which side, with weights that balance.
type Certificate struct {
	Positions []int
	Sides     []int          // +1 at the high side, −1 at the low side
	Weights   []int64        // parts in 10⁹, sum 10⁹ but for rounding
	Gap       measure.Length // how much better, at most, another answer could be
}

// Kinds of move, in the order in which they are made.
const (
	KindHub        = "move.hub"        // check hub seat, key and bushing bolts; nothing is shimmed for it
	KindShim       = "move.shim"       // Feet
	KindSlide      = "move.slide"      // Along, Front, Rear
	KindBladeOut   = "move.blade"      // Blades, lengths
	KindBladeSeat  = "move.seat"       // Blades, lengths: height of the tip, seat and clamp to be looked at
	KindBladePitch = "move.pitch"      // Blades, angles
	KindWall       = "move.wall"       // Wall
	KindCylinder   = "move.cylinder"   // Along, Front = Rear: the whole cylinder; only ever an alternative
	KindMotorShim  = "move.motorshim"  // Motor
	KindMotorPush  = "move.motorpush"  // Motor, toward the 90° side
	KindMotorAxial = "move.motoraxial" // Along
)

// Move is one thing to do. What Kind does not use is zero.
type Move struct {
	Kind   string
	Event  string // event key of the rule set that the move will be logged as, blank where none
	Feet   []FootChange
	Along  measure.Length // toward the motor, negative away from it
	Front  measure.Length // toward the 90° side at the feet nearest the motor
	Rear   measure.Length // and at those farthest from it
	Blades []BladeChange
	Wall   []WallMove
	Motor  MotorFeet
	Stacks []MotorChange // the motor's, where today's are known
	// Uncertainty is the standard uncertainty of the amount that the readings
	// ask for, in the worst direction; 0 where not known.
	Uncertainty measure.Length
	Notes       []assess.Code // limits that bind, cautions of this move
}

// Prediction is a check as it will be read after the moves.
type Prediction struct {
	Check string
	Round string // key of the round that it starts from
	// Kind tells what the integers count, here and in Readings: lengths, and angles
	// or slopes in the base unit of that kind.
	Kind     assess.Kind
	Readings []Reading // positions; for blades Position is the blade number; of a level 1 along, 2 across
	// Each is how far a new reading may lie from its prediction, about 95 %,
	// and Expanded the same of Value; both 0 where not known.
	Each        measure.Length
	Value       measure.Length // that is held against the limit
	Expanded    measure.Length
	Floor       *measure.Length // best that any such move could reach, nil where not known
	Before      assess.Verdict
	After       assess.Verdict
	Margin      *measure.Length // inside the limit, negative outside
	Certificate *Certificate
}

// Moves is the advice for one cell: moves that are made in one state, one after
// the other.
type Moves struct {
	Cell         int
	Round        string // key of the round whose readings were used
	Moves        []Move // at most MaxMoves, in order
	Later        []Move // wait for the re-read: more than one card, or another state
	Alternatives []Move // instead of a move above, or what would be done if it were asked for
	Predictions  []Prediction
	Notes        []assess.Code // why not more: limits that bind, warnings, what no move can cure
	Reread       []string      // check keys to read again after Moves, in order
	Loop         *Loop         // logged moves against the readings after them, nil where none was logged
	// Intermediate results at full precision, nil where not computed.
	Shims  *ShimPlan
	Center *CenterPlan
	Drive  *DrivePlan
}

// MaxMoves is how much one crew card holds: a move each for shims, slide, hub,
// wall and motor, and one for each blade.
const MaxMoves = 6
