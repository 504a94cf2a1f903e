// Package field is the field record: what the crew read and typed, as plain
// data, with the place every value came from. A workbook reader puts it
// together; everything later is computed from it. It knows no limits beyond
// those typed, no verdicts, no files and no formulas.
package field

import "asleft/internal/measure"

// Record is one tower, as read.
type Record struct {
	Files       []File
	Project     Project
	Tower       Tower
	Limits      []Limit
	Instruments []Instrument
	People      []Person
	Roles       []Role
	Cells       []Cell // by number, ascending
	Waivers     []Waiver
	Deviations  []Deviation
	OpenItems   []OpenItem
	Attachments []Attachment
}

// File is a workbook the record was read from, and what else is in it, since
// it goes into the package whole.
type File struct {
	Name     string // base name
	SHA256   string // hex
	Size     int
	Form     string // form version the workbook was made with, e.g. "1"
	Hidden   []string
	Extra    []string // sheets that are not the form's
	Comments []Comment
	Authors  []string
}

// Comment is a cell comment.
type Comment struct {
	At           Ref
	Author, Text string
}

// Project is the first sheet of the form.
type Project struct {
	Plant, Owner, OwnerContact    Text
	Contractor, ContractorAddress Text
	Contract                      Text // contract or purchase order
	Document, Revision            Text
	RevisionReason, Supersedes    Text
	IssueDate                     Date
	TimeZone                      Text // fixed offset, e.g. "-06:00" or "+00:00"
	Language                      Text // BCP 47, blank means en
	Paper                         Text // "Letter" or "A4"
	Units                         Text // "in" or "mm": printed first, and meant where no unit is typed
	Notice                        Text // printed on every page, e.g. that the plant is invented
}

// Direction is the way in which a crew counted positions.
type Direction int

// Directions, seen from above.
const (
	Clockwise Direction = iota
	CounterClockwise
)

// Tower holds what is the same in every cell.
type Tower struct {
	Tag, Location Text
	DriveType     Text // code: "rightangle", "direct", "closecoupled", "belt", "twopiece", "horizontal"
	Blades        Count
	FanDiameter   Length
	FanRotation   Text  // code: "cw" or "ccw", seen from above
	SideName      Text  // "the 90° side is the ___ side"
	Segments      Count // cylinder segments
	Decision      Text  // code: "simple" (also where blank) or "guarded"
	// How the crew counted, and the outcome in the frame of the design: plan
	// view looking down, 0° toward the motor, degrees clockwise.
	CrewDirection Entry[Direction]
	CrewFirst     Angle // degrees of position 1, in the crew's own direction of counting from the motor
	Positions     []Position
	Geometry      Geometry
}

// Position is a place on the fan cylinder.
type Position struct {
	Number  int           // as the crew numbers it, from 1
	Degrees measure.Angle // clockwise from the motor, 0 ≤ d < 360°
	At      Ref           // where own degrees were typed; zero where evenly spaced
}

// Limit is a row of the limits sheet. Which of Min, Nominal, Max and Tolerance
// apply is given by the check's criterion. Lengths and angles are kept apart;
// only one of the two sets is used by a check.
type Limit struct {
	Check        string // check key
	Min          Length
	Nominal      Length
	Max          Length
	Tolerance    Length // plus or minus
	AngleNominal Angle
	AngleTol     Angle // plus or minus, or largest difference
	Criterion    Text  // code, where a check has more than one way to be judged
	Slope        Slope // largest
	Quantities   QuantityLimit
	MinCount     Count // fewest positions or blades the contract asks for; blank means all
	Authority    Text  // code: "contract", "manual", "standard", "start" (a starting value, not from the contract)
	Document     Text
	Clause       Text
	Revision     Text
	AcceptedBy   Text
	Organization Text
	AcceptedOn   Date
	At           Ref // the row's first cell
}

// QuantityLimit is the values of a limit on anything but a length, an angle or a
// slope.
type QuantityLimit struct{ Min, Nominal, Max, Tolerance Quantity }

// Instrument is a row of the instrument register.
type Instrument struct {
	ID, Kind, Serial, Range Text
	Resolution              Length
	Expanded                Length // expanded uncertainty U of its certificate
	AngleResolution         Angle  // of a level or protractor; Resolution is blank then
	AngleExpanded           Angle
	SlopeResolution         Slope // of a level that is marked as rise over run
	SlopeExpanded           Slope
	Capacity                Quantity // greatest setting of a torque tool
	Coverage                Text     // coverage factor k, decimal; blank means 2
	Class                   Text     // code: "calibrated" or "checked"
	Calibrated, Due         Date
	Certificate             Text
	At                      Ref
}

// Person is a row of the register of people.
type Person struct {
	Name, Initials, Organization, Job, Qualification Text
	At                                               Ref
}

// Role is a signature block asked for on the sign-off page.
type Role struct {
	Key          string // stable, e.g. "1"
	Title        Text   // e.g. "Contractor"
	Name         Text   // printed name, may be blank until signed
	Organization Text
	Meaning      Text // what the signature means
	At           Ref
}

// Waiver says that a check is not required or done by others.
type Waiver struct {
	Cell   Count // blank means every cell
	Check  Text  // check key
	Kind   Text  // code: "notrequired" or "byothers"
	Reason Text
	By     Text
	At     Ref
}

// Deviation is an accepted deviation. It is void when the reading changes, so
// it names the value that was accepted.
type Deviation struct {
	Number       Text
	Cell         Count
	Check        Text // check key
	Round        Text // round key
	Value        Text // the accepted value, as a length or an angle
	Authority    Text
	Person       Text
	Organization Text
	Date         Date
	Note         Text
	At           Ref
}

// OpenItem is a row of the list of open items.
type OpenItem struct {
	Number, Item, Owner Text
	Cell                Count
	Due                 Date
	Status              Text // code: "open" or "closed"
	At                  Ref
}
