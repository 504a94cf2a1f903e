package field

// Cell is one cell of the tower.
type Cell struct {
	Number      int
	Name        Text // the owner's tag of the cell
	InPackage   Flag // blank means yes
	Motor       Text // serial numbers and tags
	GearReducer Text
	DriveShaft  Text
	Fan         Text
	Starter     Text // lock-out tags
	Disconnect  Text
	Remarks     Text
	Rounds      []Head // default heads, one per round of the form; what a block leaves blank is taken from here
	Tilt        Tilt
	Track       Track
	TipRadius   TipRadius
	Clearance   Clearance
	Pitch       Pitch
	Stacks      []Stack      // shims under each foot as they are now
	MotorStacks []MotorStack // and under the motor's feet
	Stuck       []Stuck      // what cannot be moved
	Drive       Drive
	Fasteners   []Fasteners
	Pins        []Pins
	PreStart    []Item
	StartUps    []StartUp // one per run; the last one stands
	Moves       []Move    // in the order of the sheet
	At          Ref
}

// Head is when, by whom, with what and under which conditions a round of
// readings was taken. In a block's round, blank entries have already been
// filled from the cell's default head of the same round.
type Head struct {
	Date             Date
	Start, Finish    Clock
	Sequence         Count // order among rounds and moves of one day
	ReadBy, TypedBy  Text
	Instrument       Text // ID in the register
	PaperSheet       Text
	AirTemperature   Text // with unit, as typed
	Wind             Text
	Surface          Text // code: "dry", "wet", "ice"
	Water            Text // code: "on", "off"
	NeighborsRunning Text
	GearReducer      Text // code: "hot", "cold"
	HoldDownsFinal   Flag // hold-downs at final torque
	ClampsFinal      Flag // blade clamps at final torque
	Witness          Text
}

// Round keys, in order. A form has between two and four rounds.
const (
	AsFound = "asfound"
	Second  = "second"
	Third   = "third"
	AsLeft  = "asleft"
)

// Series is one round of a block's readings; V is [Length] or [Angle].
type Series[V any] struct {
	Round    string // round key
	Head     Head
	Accepted Flag // as found accepted, nothing moved: the round stands as as left, too
	Readings []Reading[V]
	Return   V   // the first reading read again at the end
	At       Ref // the block's first reading cell
}

// Reading is one reading of a series. Index is the position number or the blade
// number, from 1. A series holds one Reading for each expected index, in order.
type Reading[V any] struct {
	Index  int
	Value  V
	Mark   Length // tilt only: leveled height of the mark itself
	Reason Text   // why not read (blocked)
}

// Tilt is one blade turned once round, read at each position.
type Tilt struct {
	Sense     Text   // code: "down" or "up": distance down to, or up to, the blade; no default
	Reference Text   // code: "deck" or "cylinder": what the marks are on; blank means deck
	Blade     Count  // the blade that was turned
	Radius    Length // from the fan center to the point read
	Rounds    []Series[Length]
}

// Track is the height of every tip passing one point.
type Track struct {
	Place  Text // where the tips pass
	Rounds []Series[Length]
}

// TipRadius is the gap of every tip at one point of the cylinder.
type TipRadius struct {
	Position  Count // position number where all tips were read
	PulledOut Flag  // every blade pulled out, same spot on the tip
	Rounds    []Series[Length]
}

// Clearance is the gap of one blade at every position.
type Clearance struct {
	PulledOut Flag
	Rounds    []ClearanceRound
}

// ClearanceRound names the blade that was carried round.
type ClearanceRound struct {
	Series[Length]
	Blade Count
}

// Pitch is the angle of every blade at one place and radius.
type Pitch struct {
	Position Count  // position number where all blades were read
	Radius   Length // from the fan center
	Surface  Text   // which surface the level stood on
	Rounds   []Series[Angle]
}

// Move is a row of the move log: something was loosened, shimmed, moved,
// replaced, re-pitched or torqued.
type Move struct {
	Sequence Count
	Date     Date
	Time     Clock
	Event    Text // event key of the rule set, e.g. "gear.shim"
	Detail   Text // in words
	Feet     []FootMove
	Along    Length // slid toward the motor, negative away from it
	Front    Length // slid toward the 90° side at the feet nearest the motor
	Rear     Length // and at those farthest from it
	Blades   []int  // blade numbers that were touched
	// An instrument that was found out, and the day it was last known to be good;
	// blank means the day of its calibration.
	Instrument Text
	LastGood   Date
	By         Text
	At         Ref
}

// FootMove is what was done to the shims of one foot.
type FootMove struct {
	Foot     int
	Was, Now Length
}
