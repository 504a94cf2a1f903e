package assess

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// Verdict is the outcome of a check. The zero value is no verdict at all.
type Verdict string

// Verdicts, design order.
const (
	Within      Verdict = "within"
	NearLimit   Verdict = "near"        // within, closer than the expanded uncertainty
	Outside     Verdict = "outside"     //
	Recheck     Verdict = "recheck"     // a later move has overtaken the reading
	Missing     Verdict = "missing"     // required, not read
	NoLimit     Verdict = "nolimit"     // read, nothing to judge it by
	NotRequired Verdict = "notrequired" // waived, with reason and by whom
	ByOthers    Verdict = "byothers"    // done by somebody else, named
)

// Kind tells how an [Amount] counts and prints.
type Kind int

// Kinds of amount.
const (
	KindLength   Kind = iota // nanometers
	KindAngle                // millionths of an arc second
	KindRatio                // a probability, in parts per million
	KindSlope                // billionths: nanometers per meter, 1e-9 rad
	KindArea                 // square nanometers
	KindQuantity             // millionths of Unit
)

// Amount is an exact or once-rounded result in the integer base unit of its
// kind. Verdicts on slopes and quantities are decided before rounding.
type Amount struct {
	Kind Kind
	N    int64
	Unit measure.QuantityUnit // of KindQuantity; NoUnit there is a plain number
}

// Length makes an amount of a length.
func Length(l measure.Length) Amount { return Amount{Kind: KindLength, N: int64(l)} }

// Angle makes an amount of an angle.
func Angle(a measure.Angle) Amount { return Amount{Kind: KindAngle, N: int64(a)} }

// Result is one named outcome of a round, e.g. "range" or "least". Key is
// stable and part of the data file's paths. Index is the position or blade it
// belongs to, 0 where it belongs to none. Key and Index together are unique in
// a round: a key stands more than once only where several blades share it.
type Result struct {
	Key    string
	Amount Amount
	Index  int
}

// Point is one reading as judged.
type Point struct {
	Index   int           // position or blade number
	Degrees measure.Angle // of the position, clockwise from the motor; 0 for blades
	Found   bool
	Value   Amount // the reading, or the drop for tilt with marks subtracted
	Typed   string // as typed
	Unit    measure.Unit
	Reason  string  // why not read
	Verdict Verdict // where the criterion judges each reading; else empty
	Margin  Amount  // distance inside the nearest limit, negative outside; where Verdict is set
	// Deviation is the signed distance from what the criterion measures from:
	// the middle of the readings for tip radius, the nominal gap for clearance,
	// the set angle for pitch; nil where there is none.
	Deviation *Amount
	// Corrected is the reading with the share of the fan's tilt taken out;
	// pitch only, nil where the tilt is not known.
	Corrected *Amount
	At        field.Ref
}

// Arg is a named, typed argument of a code; exactly one of the values is used.
// The Text of an argument named "check", "round" or "event" is a key with words
// of its own. That of one named "item" is an [Item.Key] or [Item.Name]: a key
// with words under "check." for a set or a pin place and under "prestart." for a
// line, or, where there are none, what was typed. Any other Text is what was
// typed, or a date.
type Arg struct {
	Name   string
	Text   string
	Amount *Amount
	Number *int
}

// Code is something to be said in words by a later stage: a note, a
// question, a reason. Its words are in the language files under Key.
type Code struct {
	Key  string
	Args []Arg
}

// Round is one round of one check.
type Round struct {
	Key      string // field round key
	Head     field.Head
	Expected int // readings asked for
	Found    int
	Blocked  int // not read, with a reason
	Blade    int // clearance: the blade that was carried round, 0 where not stated
	Verdict  Verdict
	Margin   *Amount // distance inside the limit that decides, negative outside
	// Deciding is the value that is held against the limit: the range, or the
	// reading with the least margin. An accepted deviation names it. Nil
	// where there is none, as for single readings without a limit.
	Deciding *Amount
	Results  []Result
	Points   []Point
	Items    []Item // in place of points where each line is judged by itself
	Notes    []Code
}

// Item is a line that is judged by itself: a set of fasteners, a set of pins, a
// line of the pre-start list, a point of vibration, a bearing.
type Item struct {
	Key       string // unique in the round: a set code, a pin place, a line's key; a second one of the same code is "code-2"
	Code      string // the code without a count, empty where there is none
	Name      string // as typed, where it has no code
	Verdict   Verdict
	Before    Verdict // the verdict of the item itself where Verdict is Recheck
	Deciding  *Amount // what is held against a limit, nil where nothing is
	Margin    *Amount // distance inside it, negative outside
	Results   []Result
	Findings  []Code // reasons why it is not as it should be
	Notes     []Code // information, e.g. that a class has no published proof strength
	Overtaken []Overtaking
	At        field.Ref
}

// Result returns the named result of the round.
func (r *Round) Result(key string) (Result, bool) {
	for _, x := range r.Results {
		if x.Key == key {
			return x, true
		}
	}
	return Result{}, false
}

// Check is one check of one cell: all its rounds, and the verdict of the
// standing one.
type Check struct {
	Key       string
	Limit     *field.Limit // the row it is judged by; nil where there is none
	Starting  bool         // judged by a starting value that nobody has accepted
	Rounds    []Round      // those with at least one reading or reason, in order
	Standing  int          // index into Rounds, -1 where none
	Verdict   Verdict
	Before    Verdict // the verdict of the reading itself where Verdict is Recheck
	Overtaken []Overtaking
	Deviation *field.Deviation // accepted and not void
	Waiver    *field.Waiver
	Notes     []Code // marks and questions of the check as a whole
}

// StandingRound returns the round that is judged, nil where there is none.
func (c *Check) StandingRound() *Round {
	if c.Standing < 0 {
		return nil
	}
	return &c.Rounds[c.Standing]
}

// Overtaking is an event of the move log that makes a reading void, or may.
type Overtaking struct {
	Event string // event key
	Move  field.Move
	Shown bool // false: same day, order not shown; a question, not a fact
}

// Reason is why a package or a cell is not ready.
type Reason struct {
	Code
	Cell  int    // 0 for the tower
	Check string // empty where it is not about a check
}

// State is the state of a package or a cell.
type State string

// States.
const (
	NotReady State = "notready"
	Ready    State = "ready"
)

// Cell is the assessment of one cell. Checks are in the order of [AllChecks], or
// of [Checks] where the assessment is partial, and always complete: a check that
// was not read is there as missing.
type Cell struct {
	Number    int
	InPackage bool
	State     State
	Checks    []Check
	Reasons   []Reason
	Waits     []Reason // those of the tower that hold this cell back, and those of its own that only the tower's sheets can mend
	Questions []Code   // physics questions across checks, neutral
	Due       []Code   // what is due after the first run or the first water; never a reason
	// Milestones that the cell has passed.
	Mechanical bool // mechanically complete: nothing is open up to the pre-start list
	Started    bool // started up: nothing is open in the start-up either
	AfterRun   bool // torque and alignment were checked after the run
}

// Check returns the cell's check of the key.
func (c *Cell) Check(key string) *Check {
	for i := range c.Checks {
		if c.Checks[i].Key == key {
			return &c.Checks[i]
		}
	}
	return nil
}

// Assessment is everything that follows from a record and a rule set.
type Assessment struct {
	State           State
	Cells           []Cell
	Reasons         []Reason // numbered in print, tower first, then cells in order
	Expected, Found int      // readings of the standing rounds
}
