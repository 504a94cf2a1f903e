package archive

import "time"

// Document is everything about a file that is not drawn on its pages: what
// each marked run of content is, what can be clicked, what is attached, and who
// made it. The page layer records it while drawing; [Finish] writes it.
type Document struct {
	Title    string
	Author   string // the issuing organization
	Subject  string
	Keywords []string
	Creator  string // program and version, e.g. "asleft 0.1.0"
	Lang     string // BCP 47, e.g. "en-US"
	Issued   time.Time
	Profile  Profile
	Effort   Effort
	Pages    []Page
	Root     *Element // the structure element of role Document
	Outline  []Bookmark
	Fonts    []Font
	Files    []File
	// ColorProfile is the ICC profile (RGB, display class) of all colors on the
	// pages; it becomes the output intent.
	ColorProfile []byte
}

// Profile is the conformance that a file claims.
type Profile int

const (
	// PDFA3A is PDF/A-3 level A and PDF/UA-1; files of any kind may be attached.
	PDFA3A Profile = iota
	// PDFA2A is PDF/A-2 level A and PDF/UA-1; no files are attached.
	PDFA2A
)

// Effort is how tightly a file is packed. What is in it is the same.
type Effort int

const (
	// Quick leaves everything to the library: for what is large.
	Quick Effort = iota
	// Balanced packs the lists of objects by the cheapest way, which there saves
	// a quarter.
	Balanced
	// Tight packs everything so, and looks further for it.
	Tight
)

// Page is one page in order. Runs is the number of marked-content
// identifiers used on it: 0 … Runs-1.
type Page struct {
	Label string // printed page number, unique
	Runs  int
}

// Role is a standard structure type of ISO 32000-1, 14.8.4.
type Role string

const (
	RoleDocument  Role = "Document"
	RoleSect      Role = "Sect"
	RoleH1        Role = "H1"
	RoleH2        Role = "H2"
	RoleH3        Role = "H3"
	RoleH4        Role = "H4"
	RoleP         Role = "P"
	RoleSpan      Role = "Span"
	RoleList      Role = "L"
	RoleItem      Role = "LI"
	RoleLabel     Role = "Lbl"
	RoleItemBody  Role = "LBody"
	RoleTable     Role = "Table"
	RoleTableHead Role = "THead"
	RoleTableBody Role = "TBody"
	RoleRow       Role = "TR"
	RoleHeadCell  Role = "TH"
	RoleCell      Role = "TD"
	RoleCaption   Role = "Caption"
	RoleFigure    Role = "Figure"
	RoleContents  Role = "TOC"
	RoleEntry     Role = "TOCI"
	RoleReference Role = "Reference"
	RoleLink      Role = "Link"
	RoleForm      Role = "Form"
)

// Element is a node of the structure tree. Kids are in reading order.
type Element struct {
	Role  Role
	ID    string // path of a printed value in data.json, or empty; unique in the document; of several values see [Several]
	Scope string // "Row" or "Column" on header cells
	ColSpan,
	RowSpan int32 // 0 means 1
	Detail *Detail // of most elements none
	Kids   []Kid
}

// Detail is what few elements have. A great document has a million elements.
type Detail struct {
	Title  string
	Alt    string // alternative text of a figure
	Actual string // replacement text, for drawn marks
	Lang   string // only where it differs from the document's
	BBox   Rect   // figures: on the page of their content
}

// detail is that of the element, empty where it has none.
func (e *Element) detail() Detail {
	if e.Detail == nil {
		return Detail{}
	}
	return *e.Detail
}

// Kid is exactly one of: a child element, a marked run, a link, a field.
type Kid struct {
	Element *Element
	Run     *Run
	Link    *Link
	Field   *Field
}

// Run is one marked-content sequence: zero-based page and identifier.
type Run struct{ Page, MCID int }

// Rect is in points from the lower left corner of the page.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Target is a place in the document: zero-based page, and points from its
// lower edge to show at the top of the window.
type Target struct {
	Page int
	Top  float64
}

// Link is a clickable area on one page; its element has role Link.
type Link struct {
	Page int
	Rect Rect
	To   Target
	Text string // what a screen reader says
}

// Field is an empty signature field; its element has role Form.
type Field struct {
	Name string // unique, e.g. "sign.contractor"
	Page int
	Rect Rect
	Text string // tooltip: role, organization and what the signature means
}

// Bookmark is an outline entry.
type Bookmark struct {
	Text string
	To   Target
	Kids []Bookmark
}

// Font tells the true name of a font that the page writer embedded.
type Font struct {
	Written string // base font name as the writer below put it
	Name    string // PostScript name, e.g. "IBMPlexSans-SemiBold"
}

// Relationship is the AFRelationship of an attached file.
type Relationship string

const (
	// Source is what the document was made from.
	Source Relationship = "Source"
	// Data is what its tables and figures show.
	Data Relationship = "Data"
	// Supplement is added material: certificates, manuals.
	Supplement Relationship = "Supplement"
)

// File is an attached file.
type File struct {
	Name         string // plain file name, ASCII
	MIME         string // e.g. "application/json"
	Description  string
	Relationship Relationship
	Modified     time.Time
	Bytes        []byte
	Packed       *Packed // instead of Bytes, where it was made before
}
