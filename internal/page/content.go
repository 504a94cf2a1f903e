package page

import (
	"time"

	"asleft/internal/archive"
	"asleft/internal/plot"
)

// Paper is a sheet size in points, portrait.
type Paper struct {
	Name string
	W, H float64
}

// Papers.
var (
	Letter = Paper{"Letter", 612, 792}
	A4     = Paper{"A4", 595.28, 841.89}
)

// Book is a whole document to be placed: what stands on the pages, in order,
// said as what it is; where it lands is found by [Place].
type Book struct {
	Paper    Paper
	Title    string
	Author   string
	Subject  string
	Keywords []string
	Creator  string
	Lang     string
	Issued   time.Time
	Profile  archive.Profile
	Effort   archive.Effort
	Draft    string // drawn across the margin of every page; empty for none
	Sections []Section
	Files    []archive.File
}

// Section starts on a new page and is placed independently of all others.
type Section struct {
	Key    string // stable, e.g. "cell.3"
	Head   Head   // running head and foot of its pages
	Blocks []Block
}

// Head is the furniture of a section's pages. "{page}" and "{pages}" stand for
// the page's printed number and the number of pages, in slots of fixed width;
// [Topic] in Left for the heading of level 2 that the page begins under.
type Head struct {
	Left, Right         string // above
	Loud                bool   // Right is set large, to be read on a loose page
	FootLeft, FootRight string // below
	Notice              string // second line below, e.g. that the plant is invented
}

// Topic is printed in a running head as what the page is about.
const Topic = "{topic}"

// Block is a piece of content that runs down the page: [Heading],
// [Paragraph], [List], [Table], [Picture], [Photo], [Columns], [Foreign], [Panel], [Tiles],
// [Contents], [Signature], [Space] or [Break].
type Block interface{ block() }

// Tone is the weight of a piece, always beside a word and a mark.
type Tone int

// Tones.
const (
	Plain Tone = iota
	Quiet      // less important: gray text or pale ground
	Good       // pale ground, thin rule
	Warn       // stronger ground
	Again      // stronger still, with a broken bar at its left; semibold
	Bad        // strongest: dark rule, a bar at its left; semibold
)

// Mark is a small drawn sign in a line of text.
type Mark uint8

// Marks. They differ in shape, so that they differ in gray and for everybody.
const (
	NoMark       Mark = iota
	MarkWithin        // filled disc with a check cut out
	MarkNear          // disc, lower half filled
	MarkOutside       // open triangle with a stroke, heavy
	MarkRecheck       // open circle with an arrow turning
	MarkMissing       // open square, dashed
	MarkNoLimit       // open square with a question mark cut
	MarkNotAsked      // short dash
	MarkByOthers      // two small discs
	MarkBox           // empty box to tick by hand
	MarkReady         // filled square with a check cut out
	MarkNotReady      // open square with one heavy bar across
	MarkAccepted      // open triangle with a check inside
	MarkWaits         // open square with a check inside
)

// Face is the type of a run.
type Face uint8

// Faces.
const (
	Regular Face = iota
	Bold
	Mono
	Muted
)

// Run is a piece of a line. A run with an ID is a printed value: ID is its path
// in data.json, unique in the book, its element's ID, and the run is never
// broken over lines. A run of several values, as "7 of 8", has their paths, parted
// by spaces, and each is a whole number in it.
type Run struct {
	Text string
	ID   string
	Say  string // what a screen reader says for the mark (ActualText)
	Link string // anchor to go to, empty for none
	// PageOf is an anchor whose page is printed in place of Text, which has to be
	// [PageSlot]; the run should end its line.
	PageOf string
	Face   Face
	Mark   Mark // drawn before the text
	// Break starts a new line with this run. The run before should end in a
	// space, which keeps their words apart where the text is read aloud.
	Break bool
}

// PageSlot holds the place of a page number until all pages are known.
const PageSlot = "0000"

// Heading is a heading of level 1 to 4; it stays with what follows it.
type Heading struct {
	Level    int
	Runs     []Run
	Anchor   string // to link to; empty for none
	Bookmark string // outline text; empty for no bookmark
}

// Paragraph is running text.
type Paragraph struct {
	Runs  []Run
	Size  float64 // points; 0 for the text size
	Tone  Tone
	Align Align
	Keep  bool // stays on the page of the next block
}

// Align is horizontal placement in a column.
type Align int

// Alignments. Decimal aligns on the decimal sign; what has none is aligned as a
// whole number.
const (
	Left Align = iota
	Right
	Center
	Decimal
)

// List is a bulleted or numbered list.
type List struct {
	Numbered bool
	Items    [][]Run
	Tone     Tone
}

// Table is a table with header cells. Rows are never split and never vanish;
// heads repeat on every page.
type Table struct {
	Caption []Run
	Columns []Column
	Head    [][]TableCell // head rows
	Rows    []TableRow
	Size    float64 // points; 0 for the table size
	Summary string  // what the table is, for a screen reader
}

// Column is a table column. Width is a share of the whole, or, where Fit is
// set, the natural width of its widest cell. A column whose cells need more than
// its share takes from those that need less; columns that are Even need the same.
type Column struct {
	Width float64
	Fit   bool
	Even  bool
	Align Align
}

// TableRow is a body row. Rule draws a stronger line above it; Keep keeps it on
// the page of the next row.
type TableRow struct {
	Cells []TableCell
	Tone  Tone
	Rule  bool
	Keep  bool
}

// TableCell spans Span columns (0 is 1). Header makes it a row header.
type TableCell struct {
	Runs   []Run
	Span   int
	Header bool
	Tone   Tone
	Align  *Align // other than its column's
}

// Picture is a figure with its caption and the sentence that says its finding.
type Picture struct {
	Figure  plot.Figure
	Alt     string
	Caption []Run
	Keep    bool // stays on the page of the next block
}

// Photo is a photograph: a JPEG of 8 bits, gray or three colors, Width by Height
// pixels. It is drawn as large as its column and MaxHeight allow.
type Photo struct {
	JPEG          []byte
	Width, Height int
	MaxHeight     float64 // points
	Alt           string
	Caption       []Run
}

// Columns sets blocks side by side; Widths are shares. It is never split.
type Columns struct {
	Widths []float64
	Blocks [][]Block
	Gap    float64 // points; 0 for the grid's
}

// Foreign is blocks in another language than the book's.
type Foreign struct {
	Lang   string // BCP 47
	Blocks []Block
}

// Panel is a bordered box around blocks. It is split only where it is higher
// than a page.
type Panel struct {
	Tone   Tone
	Blocks []Block
}

// Tiles is a grid of equal small panels, each a link; tagged as a list.
type Tiles struct {
	PerRow int
	Tiles  []Tile
}

// Tile is a small panel: a head line, a status line, small lines.
type Tile struct {
	Head  []Run
	Lines [][]Run
	Tone  Tone
	Link  string
}

// Contents is the table of contents, made from all headings with a bookmark
// down to a level.
type Contents struct {
	Depth   int
	Columns int // side by side; 0 is one
}

// Signature is a block to be signed, by hand and in its form field.
type Signature struct {
	Name    string // field name, unique
	Title   string // role
	Lines   []SignatureLine
	Tooltip string
	Word    string // printed small over the form field; empty for none
}

// SignatureLine is a labeled line of a signature block; blank Text leaves a rule
// to write on.
type SignatureLine struct{ Label, Text string }

// Space is vertical space in points, dropped at a page's top.
type Space float64

// Break starts a new page.
type Break struct{}

func (Heading) block()   {}
func (Paragraph) block() {}
func (List) block()      {}
func (Table) block()     {}
func (Picture) block()   {}
func (Photo) block()     {}
func (Columns) block()   {}
func (Foreign) block()   {}
func (Panel) block()     {}
func (Tiles) block()     {}
func (Contents) block()  {}
func (Signature) block() {}
func (Space) block()     {}
func (Break) block()     {}
