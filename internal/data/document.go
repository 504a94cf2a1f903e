package data

// SchemaName stands first in every data file. Its number would change only if
// a member had to change its meaning.
const SchemaName = "asleft/1"

// Document is the data file. In it, a member that would be empty is left out,
// except lists and objects on the top level.
type Document struct {
	Schema      string       `json:"schema"`
	Program     string       `json:"program"` // version of the program
	Rules       RuleSet      `json:"rules"`
	Options     Options      `json:"options"`
	Issued      string       `json:"issued"`   // ISO 8601 day, empty where none was typed
	State       string       `json:"state"`    // of the whole package
	Partial     bool         `json:"partial"`  // always false: it was for versions that knew the fan only
	Expected    int          `json:"expected"` // readings of the standing rounds
	Found       int          `json:"found"`
	Reasons     []Reason     `json:"reasons"` // numbered from 1 in print
	Files       []File       `json:"files"`
	Project     Keyed[Entry] `json:"project"`
	Tower       Keyed[Entry] `json:"tower"`
	Geometry    Row          `json:"geometry"`        // of the drive, the same in every cell
	Feet        Keyed[Row]   `json:"feet"`            // of what is shimmed, by number
	Stock       Keyed[Row]   `json:"stock,omitempty"` // thicknesses of shims at hand
	Positions   Keyed[Entry] `json:"positions"`       // by number: degrees clockwise from the motor
	Limits      Keyed[Row]   `json:"limits"`          // by check key
	Instruments []Row        `json:"instruments"`
	People      []Row        `json:"people"`
	Roles       []Row        `json:"roles"`
	Waivers     []Row        `json:"waivers"`
	Deviations  []Row        `json:"deviations"`
	OpenItems   []Row        `json:"openItems"`
	Attachments []Attachment `json:"attachments,omitempty"` // photos, certificates, manuals
	Previous    *Previous    `json:"previous,omitempty"`    // what the package is compared with
	Cells       Keyed[Cell]  `json:"cells"`                 // by number
}

// Row is a row of the workbook: what was typed, by column.
type Row = Keyed[Entry]

// RuleSet is the rule set that the assessment followed.
type RuleSet struct {
	Version string `json:"version"`
	SHA256  string `json:"sha256"`
}

// Options is what was asked for besides the workbook.
type Options struct {
	Language string `json:"language"`       // BCP 47
	Paper    string `json:"paper"`          // "Letter" or "A4"
	Units    string `json:"units"`          // "in" or "mm": of the results
	Profile  string `json:"profile"`        // e.g. "PDF/A-3a"
	Cells    []int  `json:"cells"`          // numbers of the cells in the package
	Cell     int    `json:"cell,omitempty"` // the one cell that was asked for, of all that the workbook has
}

// Attachment is a photo, certificate or manual: what was typed, and the file in
// the package, nil where it belongs to a cell that is not.
type Attachment struct {
	Entries Row     `json:"entries"`
	Stored  *Stored `json:"stored,omitempty"`
}

// Stored is a file in the package. Original is the hash of the file that it was
// made from, its own where it is the original.
type Stored struct {
	Name         string `json:"name"`
	SHA256       string `json:"sha256"`
	Size         int    `json:"size"`
	Width        int    `json:"width,omitempty"` // of a photo, in pixels
	Height       int    `json:"height,omitempty"`
	Original     string `json:"original"`
	OriginalSize int    `json:"originalSize"`
}

// Previous is the package that came before: what its data file says of itself.
type Previous struct {
	Fingerprint string `json:"fingerprint,omitempty"` // where its manifest was at hand
	SHA256      string `json:"sha256"`                // of its data file
	Document    string `json:"document,omitempty"`
	Revision    string `json:"revision,omitempty"`
	Issued      string `json:"issued,omitempty"`
	State       string `json:"state"`
}

// File is a workbook that the record was read from, and what else is in it.
type File struct {
	Name     string    `json:"name"`
	SHA256   string    `json:"sha256"`
	Size     int       `json:"size"`
	Form     string    `json:"form,omitempty"`
	Hidden   []string  `json:"hiddenSheets,omitempty"`
	Extra    []string  `json:"extraSheets,omitempty"`
	Comments []Comment `json:"comments,omitempty"`
	Authors  []string  `json:"authors,omitempty"`
}

// Comment is a cell comment of the workbook.
type Comment struct {
	At     string `json:"at"`
	Author string `json:"author"`
	Text   string `json:"text"`
}

// Entry is one typed value. Value is what it was read as: a decimal number, a
// day (2026-03-04), a time (14:05), "yes" or "no", a code, or the text itself.
// Lengths, angles, slopes, quantities and plain numbers with a fraction have
// Unit and Base, counted as in [Amount]. Typed is left out where it equals
// Value.
type Entry struct {
	Value string `json:"value"`
	Unit  string `json:"unit,omitempty"`
	Base  *int64 `json:"base,omitempty"`
	// Exact is the number in Unit as a fraction where Value and Base are
	// rounded, e.g. "1/2400" of a slope.
	Exact string `json:"exact,omitempty"`
	Typed string `json:"typed,omitempty"`
	At    string `json:"at,omitempty"`   // Sheet!Cell, split at the last "!"
	File  int    `json:"file,omitempty"` // index into files
}

// Amount is a computed value. Base is exact, or rounded once where a fit made
// it; Value is Base in Unit, to 10 decimals where it has no exact decimal.
type Amount struct {
	Value string `json:"value"`
	Unit  string `json:"unit"`
	// Base counts nanometers ("in", "mm"), millionths of an arc second ("deg"),
	// millionths ("1" and units of quantities such as "A"), billionths ("m/m"),
	// square nanometers ("mm2").
	Base int64 `json:"base"`
}

// Cell is one cell of the tower: what was typed about it, and its assessment.
type Cell struct {
	InPackage   bool         `json:"inPackage"`
	State       string       `json:"state"`
	Entries     Row          `json:"entries"`
	Blocks      Keyed[Row]   `json:"blocks"` // what was typed once for a block of readings, by check key
	Checks      Keyed[Check] `json:"checks"` // by check key
	Moves       []Row        `json:"moves,omitempty"`
	Corrections *Corrections `json:"corrections,omitempty"` // what to move, nil where nothing is to be said
	Stacks      Keyed[Row]   `json:"stacks,omitempty"`      // shims as they are now, by foot
	MotorStacks Keyed[Row]   `json:"motorStacks,omitempty"` // the same under the motor, by place of the foot
	Stuck       []Row        `json:"stuck,omitempty"`       // what cannot be moved, and which way
	Fasteners   Keyed[Row]   `json:"fasteners,omitempty"`   // by the key of the set's items
	Pins        Keyed[Row]   `json:"pins,omitempty"`        // by the key of the items
	PreStart    Keyed[Row]   `json:"preStart,omitempty"`    // by line
	StartUps    Keyed[Row]   `json:"startUps,omitempty"`    // by round key: "run1" …
	Reasons     []Reason     `json:"reasons,omitempty"`
	Waits       []Reason     `json:"waits,omitempty"` // what holds it back and only the tower's sheets can mend
	Questions   []Code       `json:"questions,omitempty"`
	Due         []Code       `json:"due,omitempty"` // after the first run or the first water
	// Milestones that the cell has passed.
	Mechanical bool `json:"mechanicallyComplete,omitempty"`
	Started    bool `json:"startedUp,omitempty"`
	AfterRun   bool `json:"afterRunChecked,omitempty"`
}

// Check is one check of one cell.
type Check struct {
	Verdict   string       `json:"verdict"`
	Before    string       `json:"before,omitempty"`   // verdict of the reading where an event has overtaken it
	Limit     string       `json:"limit,omitempty"`    // path of the limit, e.g. "limits.tilt"
	Starting  bool         `json:"starting,omitempty"` // the limit is a starting value that nobody has accepted
	Standing  string       `json:"standing,omitempty"` // key of the round that is judged
	Rounds    Keyed[Round] `json:"rounds"`
	Overtaken []Overtaking `json:"overtaken,omitempty"`
	Deviation Row          `json:"deviation,omitempty"`
	Waiver    Row          `json:"waiver,omitempty"`
	Notes     []Code       `json:"notes,omitempty"`
}

// Round is one round of one check.
type Round struct {
	Verdict  string         `json:"verdict,omitempty"`
	Margin   *Amount        `json:"margin,omitempty"`   // inside the limit that decides; negative outside
	Deciding *Amount        `json:"deciding,omitempty"` // what is held against the limit
	Expected int            `json:"expected"`
	Found    int            `json:"found"`
	Blocked  int            `json:"blocked,omitempty"`
	Blade    int            `json:"blade,omitempty"` // the blade that was carried round
	Head     Row            `json:"head"`
	Results  Keyed[Result]  `json:"results"`
	Readings Keyed[Reading] `json:"readings"`        // by position or blade number
	Items    Keyed[Item]    `json:"items,omitempty"` // where each line is judged by itself
	Return   *Entry         `json:"return,omitempty"`
	Notes    []Code         `json:"notes,omitempty"`
}

// Result is a named outcome; Index is the position or blade it belongs to.
type Result struct {
	Amount
	Index int `json:"index,omitempty"`
}

// Reading is one reading as typed and as judged.
type Reading struct {
	Degrees string  `json:"degrees,omitempty"` // of the position, clockwise from the motor
	Read    *Entry  `json:"read,omitempty"`    // as typed; absent where nothing was read
	Mark    *Entry  `json:"mark,omitempty"`    // leveled height of the mark
	Counted *Amount `json:"counted,omitempty"` // what the check counts with
	Verdict string  `json:"verdict,omitempty"`
	Margin  *Amount `json:"margin,omitempty"`
	// Deviation is from what the criterion measures from; Corrected has the
	// share of the fan's tilt taken out.
	Deviation *Amount `json:"deviation,omitempty"`
	Corrected *Amount `json:"corrected,omitempty"`
	Reason    string  `json:"reason,omitempty"` // why not read
	At        string  `json:"at,omitempty"`     // where it stands, or would stand
	File      int     `json:"file,omitempty"`
}

// Item is a line that is judged by itself, e.g. a set of fasteners.
type Item struct {
	Code      string        `json:"code,omitempty"`
	Name      string        `json:"name,omitempty"` // as typed, where it has no code
	Verdict   string        `json:"verdict,omitempty"`
	Before    string        `json:"before,omitempty"`
	Deciding  *Amount       `json:"deciding,omitempty"`
	Margin    *Amount       `json:"margin,omitempty"`
	Results   Keyed[Result] `json:"results,omitempty"`
	Findings  []Code        `json:"findings,omitempty"` // why it is not as it should be
	Notes     []Code        `json:"notes,omitempty"`
	Overtaken []Overtaking  `json:"overtaken,omitempty"`
	At        string        `json:"at,omitempty"`
	File      int           `json:"file,omitempty"`
}

// Overtaking is an event that makes a reading void; Shown is false where the
// order of event and reading is not known.
type Overtaking struct {
	Event string `json:"event"`
	Shown bool   `json:"shown"`
	Move  Row    `json:"move"`
}

// Code is something that is put into words on the page.
type Code struct {
	Code string     `json:"code"`
	Args Keyed[Arg] `json:"args,omitempty"`
}

// Arg is an argument of a code; exactly one member is there.
type Arg struct {
	Text   *string `json:"text,omitempty"`
	Number *int    `json:"number,omitempty"`
	Amount *Amount `json:"amount,omitempty"`
}

// Reason is why a package or a cell is not ready. Cell 0 is the tower.
type Reason struct {
	Code
	Cell  int    `json:"cell,omitempty"`
	Check string `json:"check,omitempty"`
}
