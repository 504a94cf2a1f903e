package audit

// Schema stands first in every result written as JSON.
const Schema = "asleft-audit/1"

// Result is what an audit found.
type Result struct {
	Schema     string      `json:"schema"`
	Program    string      `json:"program"` // that audited
	File       File        `json:"file"`
	Package    Package     `json:"package"`
	Strength   Strength    `json:"strength"`
	Origin     Origin      `json:"origin"`
	Agrees     bool        `json:"agrees"`   // nothing differs and nothing is asked
	Findings   []Finding   `json:"findings"` // worst first
	Signatures []Signature `json:"signatures"`
	Revisions  []Revision  `json:"revisions"`
	Questions  []Asked     `json:"questions"`         // on the readings as a whole
	Changes    []Change    `json:"changes,omitempty"` // since the previous package
	Compared   bool        `json:"compared"`          // there was a previous package
	Proved     []Statement `json:"proved"`
	NotProved  []Statement `json:"notProved"`
}

// File is what was audited.
type File struct {
	SHA256 string `json:"sha256"`
	Size   int    `json:"size"`
}

// Package is what the file says about itself.
type Package struct {
	Program     string `json:"program"`
	Title       string `json:"title"`
	State       string `json:"state"`
	Fingerprint string `json:"fingerprint"` // of the manifest found
	Rules       string `json:"rules"`       // hash of its rule set
	Language    string `json:"language"`
	Paper       string `json:"paper"`
	Units       string `json:"units"`
	Profile     string `json:"profile"`
}

// Strength says how far the file could be followed.
type Strength string

// Strengths, from the weakest.
const (
	StrengthNone       Strength = "none"
	StrengthSignatures Strength = "signatures" // nothing was recomputed; signatures hold
	StrengthValues     Strength = "values"     // every value was recomputed and agrees
	StrengthBytes      Strength = "bytes"      // every byte follows from the workbooks
)

// Origin says what vouches for where the file comes from.
type Origin string

// Origins, from the weakest.
const (
	OriginNone        Origin = "none"
	OriginFingerprint Origin = "fingerprint" // it has the fingerprint that was given
	OriginSigned      Origin = "signed"      // by somebody whom no given root vouches for
	OriginTrusted     Origin = "trusted"     // by somebody under one of the roots given
)

// Statement is something proved or not proved.
type Statement string

// What may be proved.
const (
	ProvedBytes       Statement = "bytes"
	ProvedValues      Statement = "values"
	ProvedFingerprint Statement = "fingerprint"
	ProvedUnchanged   Statement = "unchanged" // since it was signed
	ProvedWho         Statement = "who"
)

// What is not.
const (
	NotProvedContent  Statement = "content"  // something differs
	NotProvedRebuild  Statement = "rebuild"  // nothing was recomputed
	NotProvedOrigin   Statement = "origin"   // nobody signed
	NotProvedWho      Statement = "who"      // nobody vouches for the signers
	NotProvedEnclosed Statement = "enclosed" // photos, certificates, manuals: taken as they are
	NotProvedDrawn    Statement = "drawn"    // between versions: lines, areas and pictures
	NotProvedShapes   Statement = "shapes"   // between typefaces: what characters look like
	NotProvedRemade   Statement = "remade"   // made anew from other readings
	NotProvedReadings Statement = "readings" // that they were taken so
)

// Severity is the weight of a finding.
type Severity string

// Severities, worst first.
const (
	Differs  Severity = "differs"
	Question Severity = "question"
	Note     Severity = "note"
)

// Finding is one thing found.
type Finding struct {
	Severity Severity `json:"severity"`
	Code     Code     `json:"code"`
	Page     int      `json:"page,omitempty"` // from 1
	Path     string   `json:"path,omitempty"` // in the data file
	Args     []Arg    `json:"args,omitempty"`
	keys     []string
}

// Keys are the parts of Path.
func (f *Finding) Keys() []string { return f.keys }

// Arg is an argument of a finding.
type Arg struct {
	Name string  `json:"name"`
	Kind ArgKind `json:"kind"`
	Text string  `json:"text"`
}

// ArgKind says how an argument is put into words.
type ArgKind string

// Kinds of arguments.
const (
	ArgText  ArgKind = "text"  // as it is
	ArgCode  ArgKind = "code"  // a verdict, a state, a kind: a word of the language where there is one
	ArgField ArgKind = "field" // name of a signature field
)

// Arg is the text of an argument.
func (f *Finding) Arg(name string) string {
	for _, a := range f.Args {
		if a.Name == name {
			return a.Text
		}
	}
	return ""
}

// Signature is a signature field. Times are RFC 3339, empty where there is none.
type Signature struct {
	Field       string   `json:"field"`
	Role        string   `json:"role,omitempty"` // title, as the data file has it
	Text        string   `json:"text"`           // tooltip: role and meaning, or who signed
	Page        int      `json:"page"`
	Signed      bool     `json:"signed"`
	Intact      bool     `json:"intact"` // what it covers is what was signed
	Level       string   `json:"level,omitempty"`
	Name        string   `json:"name,omitempty"`
	Reason      string   `json:"reason,omitempty"`
	Place       string   `json:"place,omitempty"`
	Claimed     string   `json:"claimed,omitempty"` // when, as the signer says
	Stamped     string   `json:"stamped,omitempty"` // when, as a time-stamp service says
	Notary      string   `json:"notary,omitempty"`
	Algorithm   string   `json:"algorithm,omitempty"`
	Subject     string   `json:"subject,omitempty"`
	Issuer      string   `json:"issuer,omitempty"`
	ValidUntil  string   `json:"validUntil,omitempty"`
	Trust       string   `json:"trust,omitempty"`    // root, self, none
	Revision    int      `json:"revision,omitempty"` // that it closes
	End         int      `json:"end,omitempty"`      // offset behind what it covers
	After       []int    `json:"after,omitempty"`    // revisions that came later
	Certifies   bool     `json:"certifies,omitempty"`
	Permission  int      `json:"permission,omitempty"`
	SignedAfter []string `json:"signedAfter,omitempty"` // fields signed in those
}

// Revision is a state of the file.
type Revision struct {
	Number      int      `json:"number"`
	Bytes       int      `json:"bytes"`
	Signs       []string `json:"signs,omitempty"`
	Unexplained int      `json:"unexplained,omitempty"` // objects changed for no signature
}

// Change is a value that is not as in the previous package.
type Change struct {
	Kind string `json:"kind"`
	Path string `json:"path"`
	Name string `json:"name,omitempty"`
	Old  string `json:"old,omitempty"`
	New  string `json:"new,omitempty"`
	Was  bool   `json:"was"` // it was there
	Is   bool   `json:"is"`  // it is there
	keys []string
}

// Keys are the parts of Path.
func (c *Change) Keys() []string { return c.keys }
