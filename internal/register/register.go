package register

import "asleft/internal/data"

// Register is what is known of all towers found, in the order of their files.
type Register struct {
	Towers []Tower
	Faults []Fault // files that could not be read
	// Other counts workbooks that are no form and PDFs that are no package.
	Other int
	// Judged counts the towers worked out from workbooks, not read from a package.
	Judged int
}

// Tower is one package, or one tower's workbooks where they have none.
type Tower struct {
	Path      string   // of the package, or else of the first workbook; slashes
	Workbooks []string // paths of those found that it was made from
	InPackage bool     // read from a package

	Fingerprint string // printed on the pages; empty without a package
	Program     string // that made the package
	Plant       string
	Tag         string
	Document    string
	Revision    string
	Issued      string // ISO 8601 day
	State       string // key: "ready" or "notready"
	Reasons     int    // why it is not ready
	Cells       []Cell
	Signatures  Signatures
	// Same are the paths of other towers found with equal plant, tag, document
	// and revision.
	Same []string
}

// Signatures are the fields of a package and what was found in them.
type Signatures struct {
	Fields int
	Signed []Signature
}

// Signature is a signed field.
type Signature struct {
	Field  string
	By     string // as the signature says
	Level  string // e.g. "B-B"; empty where it is broken or of another kind
	Intact bool
}

// Broken counts the signatures that do not hold.
func (s *Signatures) Broken() int {
	n := 0
	for _, one := range s.Signed {
		if !one.Intact {
			n++
		}
	}
	return n
}

// Cell is a cell that is in the package.
type Cell struct {
	Number    int
	Name      string
	State     string // key: "ready" or "notready"
	Milestone string // key: "mechanical", "started", "afterrun", or empty
	Reasons   int
	Checks    []Check
}

// Check is the outcome of a check on its standing round.
type Check struct {
	Key      string
	Verdict  string // key, e.g. "outside"
	Accepted bool   // outside, and the deviation accepted
	First    string // verdict of the first round that has one; empty where none has
	Margin   *data.Amount
}

// Fault is a file that could not be read, with everything found wrong in it.
type Fault struct {
	Path string
	Text string // several lines where there are several causes
}

// Cells counts the cells of all towers.
func (r *Register) Cells() int {
	n := 0
	for i := range r.Towers {
		n += len(r.Towers[i].Cells)
	}
	return n
}
