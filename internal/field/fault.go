package field

// FaultKind is why a cell could not be read. The words for people are in the
// language files under "fault." + kind.
type FaultKind string

// Fault is something in a workbook that could not be read as intended. A
// record with faults is never assessed for a report.
type Fault struct {
	Kind     FaultKind
	At       Ref
	Read     string // what the cell holds, control characters escaped
	Expected string // code of what was expected, e.g. "length", "date", "choice"
	Detail   string // likely meaning, allowed values, name of the block …
}
