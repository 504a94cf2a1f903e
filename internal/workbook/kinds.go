package workbook

import "asleft/internal/field"

// Kinds of faults. Their words stand under "fault." + kind.
const (
	// The layout of the workbook.
	NoName       field.FaultKind = "noname"       // a defined name of the form is missing
	BadName      field.FaultKind = "badname"      // it refers to no single range of a sheet
	BadShape     field.FaultKind = "shape"        // its range is not of the form's shape
	WrongLabel   field.FaultKind = "label"        // the label beside or over it is another
	NoLabel      field.FaultKind = "nolabel"      // a value stands beside no label
	MissingLabel field.FaultKind = "missinglabel" // a label of the form is not there
	TwiceLabel   field.FaultKind = "twicelabel"   // a label stands twice
	CountDiffers field.FaultKind = "count"        // not as many readings as blades or positions
	Beyond       field.FaultKind = "beyond"       // a value stands just below a table and would be lost
	Closed       field.FaultKind = "closed"       // a value where the row takes none
	CopiedSheet  field.FaultKind = "copiedsheet"  // a copy of a form sheet, which would not be read
	Merged       field.FaultKind = "merged"       // boxes merged into one
	TwiceRead    field.FaultKind = "twiceread"    // two names of the form point to one box

	// What stands in a cell.
	DateRead       field.FaultKind = "date"         // the spreadsheet made a date of what was typed
	Serial         field.FaultKind = "serial"       // a number that looks like such a date
	ErrorValue     field.FaultKind = "errorvalue"   // #DIV/0!
	NoResult       field.FaultKind = "noresult"     // a formula without a value
	Percent        field.FaultKind = "percent"      // a number formatted as percent
	TrueFalse      field.FaultKind = "truefalse"    // TRUE or FALSE where it means nothing
	Control        field.FaultKind = "control"      // a control or invisible character
	TooLong        field.FaultKind = "toolong"      // longer than a cell of the form takes
	Rounded        field.FaultKind = "rounded"      // more digits than a spreadsheet keeps
	UnknownChoice  field.FaultKind = "choice"       // none of the words offered
	NotDate        field.FaultKind = "notdate"      // not a date
	AmbiguousDate  field.FaultKind = "twodates"     // 03/04/26
	OddDate        field.FaultKind = "odddate"      // a date outside 1990 to 2099
	DateAndTime    field.FaultKind = "dateandtime"  // a date with a time of day in it
	NotClock       field.FaultKind = "notclock"     // not a time of day
	NotCount       field.FaultKind = "notcount"     // not a whole number
	NotNumber      field.FaultKind = "notnumber"    // no number that is understood
	AmbiguousComma field.FaultKind = "comma"        // 1,250
	Vague          field.FaultKind = "vague"        // 9/16 strong
	Improper       field.FaultKind = "improper"     // 1-17/16
	WrongUnit      field.FaultKind = "unit"         // a unit that does not belong here
	NoUnit         field.FaultKind = "nounit"       // no unit, and none is implied
	MixedUnits     field.FaultKind = "mixedunits"   // bare numbers beside readings in another unit
	TwoUnits       field.FaultKind = "twounits"     // 5 mm in
	TextDate       field.FaultKind = "textdate"     // a date typed as text in a reading
	DivideByZero   field.FaultKind = "dividebyzero" // 1/0
	NotExact       field.FaultKind = "notexact"     // 1/3 in
	TooLarge       field.FaultKind = "toolarge"     // beyond any tower

	NotNumbers  field.FaultKind = "notnumbers"  // no list of whole numbers
	TwiceNumber field.FaultKind = "twicenumber" // a number twice in one list
	TwoKinds    field.FaultKind = "twokinds"    // in/s: rms or peak?

	// What does not go together.
	Required     field.FaultKind = "required"    // a box that must be filled
	ReadAndNot   field.FaultKind = "readandnot"  // a reading, and a reason why it was not read
	SameDegrees  field.FaultKind = "samedegrees" // two positions at one place
	NoSuchCell   field.FaultKind = "nosuchcell"  // a row names a cell that has no sheet
	NoSuchIndex  field.FaultKind = "nosuchindex" // a blade or position that the tower does not have
	NoStanding   field.FaultKind = "nostanding"  // sides of a coupling, and not where the reader stood
	NoMove       field.FaultKind = "nomove"      // an amount without the move it belongs to
	NotThisMove  field.FaultKind = "notthismove" // an amount that this kind of move does not have
	TwiceFoot    field.FaultKind = "twicefoot"   // a foot stands twice
	TwiceSet     field.FaultKind = "twiceset"    // a set of fasteners is asked for twice
	Clash        field.FaultKind = "clash"       // two workbooks say different things
	TooManyFault field.FaultKind = "toomany"     // the list was cut
)

// FaultKinds lists all kinds, for the words' completeness.
func FaultKinds() []field.FaultKind {
	return []field.FaultKind{NoName, BadName, BadShape, WrongLabel, NoLabel, MissingLabel, TwiceLabel,
		CountDiffers, Beyond, Closed, CopiedSheet, Merged, TwiceRead, DateRead, Serial, ErrorValue, NoResult, Percent,
		TrueFalse, Control, TooLong, Rounded, UnknownChoice, NotDate, AmbiguousDate, OddDate, DateAndTime,
		NotClock, NotCount, NotNumber, AmbiguousComma, Vague, Improper, WrongUnit, NoUnit, MixedUnits,
		TwoUnits, TextDate, DivideByZero, NotExact, TooLarge, Required, ReadAndNot, SameDegrees,
		NoSuchCell, NoSuchIndex, NotNumbers, TwiceNumber, TwoKinds, NoStanding, NoMove, NotThisMove, TwiceFoot, TwiceSet,
		Clash, TooManyFault}
}
