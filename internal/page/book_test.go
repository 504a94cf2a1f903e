package page

import (
	"fmt"
	"time"

	"asleft/internal/archive"
	"asleft/internal/plot"

	"github.com/wcharczuk/go-chart/v2"
)

// run and value make runs for test books.
func run(s string) Run       { return Run{Text: s} }
func value(id, s string) Run { return Run{Text: s, ID: id} }
func runs(r ...Run) []Run    { return r }
func cell(r ...Run) TableCell {
	return TableCell{Runs: r}
}
func words(s string) Paragraph { return Paragraph{Runs: runs(run(s))} }

// testFigure is a stand-in figure with every kind of path.
type testFigure struct{ w, h float64 }

func (f testFigure) Size() (float64, float64) { return f.w, f.h }

func (f testFigure) Draw(r chart.Renderer, fonts *plot.Fonts) error {
	const u = plot.Unit
	r.SetDPI(plot.DPI)
	cx, cy := int(f.w*u/2), int(f.h*u/2)
	rad := min(f.w, f.h) * u * 0.42
	ring := func(radius float64, c color, w float64, dash ...float64) {
		r.ResetStyle()
		r.SetStrokeColor(c.Color())
		r.SetStrokeWidth(w * u)
		r.SetStrokeDashArray(dash)
		r.MoveTo(cx+int(radius), cy)
		r.ArcTo(cx, cy, radius, radius, 0, 3.141592653589793)
		r.ArcTo(cx, cy, radius, radius, 3.141592653589793, 3.141592653589793)
		r.Close()
		r.Stroke()
	}
	ring(rad, plot.Accent, 1.3)
	ring(rad*0.7, plot.Muted, 0.6, 3*u, 2*u)
	r.ResetStyle()
	r.SetFillColor(plot.Tint.Color())
	r.SetStrokeColor(plot.Ink.Color())
	r.SetStrokeWidth(0.8 * u)
	r.MoveTo(cx, cy)
	r.LineTo(cx+int(rad/2), cy)
	r.ArcTo(cx, cy, rad/2, rad/2, 0, 1)
	r.Close()
	r.FillStroke()
	r.ResetStyle()
	r.SetFont(fonts.SemiBold)
	r.SetFontSize(8)
	r.SetFontColor(plot.Ink.Color())
	r.Text("least 0.41 in", cx-2000, cy-int(rad)-300)
	r.SetFont(fonts.Regular)
	r.SetTextRotation(-1.5707963267948966)
	r.Text("to the motor", cx-int(rad)-300, cy+2000)
	r.ClearTextRotation()
	return nil
}

// testBook has every kind of block; it is the book of the golden files.
func testBook() Book {
	return Book{
		Paper: Letter, Title: "Fan record", Author: "Example Erectors", Subject: "Alignment of six fans",
		Creator: "asleft test", Lang: "en-US", Issued: time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC),
		Profile: archive.PDFA2A, Draft: "NOT READY",
		Sections: []Section{coverSection(), contentsSection(), cellSection(3), legendSection(), signSection()},
	}
}

func testHead(left string) Head {
	return Head{Left: left, Right: "Document ET-1 · revision 0", FootLeft: "Fingerprint 0a1b2c3d", FootRight: "Page {page} of {pages}",
		Notice: "An invented plant. Nothing here is a record of a real one."}
}

func coverSection() Section {
	var tiles []Tile
	for i := range 6 {
		t := Tile{Head: runs(run(fmt.Sprintf("Cell %d", i+1))), Tone: Good, Link: "cell.3",
			Lines: [][]Run{runs(Run{Text: "within", Mark: MarkWithin, Say: "within:"}), runs(run("least gap "), value(fmt.Sprintf("tile.%d.gap", i), "0.47 in"))}}
		switch i {
		case 2:
			t.Tone = Bad
			t.Lines[0] = runs(Run{Text: "outside", Mark: MarkOutside, Say: "outside:"})
		case 4:
			t.Tone = Warn
			t.Lines[0] = runs(Run{Text: "re-check needed", Mark: MarkRecheck, Say: "re-check needed:"})
		case 5:
			t.Tone = Plain
			t.Lines[0] = runs(Run{Text: "not required", Mark: MarkNotAsked})
		}
		tiles = append(tiles, t)
	}
	return Section{Key: "cover", Head: testHead("Example Works · Tower A"), Blocks: []Block{
		Heading{Level: 1, Runs: runs(run("Fan record of Tower A")), Anchor: "top", Bookmark: "Summary"},
		words("Six fans were aligned. The readings below were taken after the last adjustment and are the ones that count; every one of them stands in the appendix as it was typed, with the cell of the workbook it came from."),
		Panel{Tone: Bad, Blocks: []Block{
			Paragraph{Runs: runs(Run{Text: "Not ready", Face: Bold, Mark: MarkNotReady, Say: "not ready:"}, run(" for sign-off, for 2 reasons:"))},
			List{Numbered: true, Items: [][]Run{
				runs(run("Cell 3: tip clearance outside, least "), value("cover.gap", "0.31 in"), run(" at "), value("cover.at", "210°"), run(", limit 0.375 in; see "), Run{Text: "cell 3", Link: "cell.3"}, run(".")),
				runs(run("Cell 5: a re-check is needed after the gear reducer was shimmed.")),
			}},
		}},
		Tiles{PerRow: 3, Tiles: tiles},
		Columns{Widths: []float64{1, 1}, Blocks: [][]Block{
			{Panel{Blocks: []Block{Heading{Level: 2, Runs: runs(run("In this package"))}, words("Six cells, fan checks only.")}}},
			{Panel{Tone: Quiet, Blocks: []Block{Heading{Level: 2, Runs: runs(run("Not in this package"))}, words("Drive shafts, fasteners, start-up. These follow in the next revision, after the crew has been back on the deck.")}}},
		}},
		Paragraph{Tone: Warn, Runs: runs(run("Computed moves are advice, to be confirmed by measurement."))},
		Paragraph{Tone: Quiet, Size: 7.5, Align: Center, Runs: runs(run("Greek: Ωμέγα, Cyrillic: Градирня, fractions ½ ⅜ ⅝, signs ≤ ≥ ± ° ′ ″ − × ·"))},
	}}
}

func contentsSection() Section {
	return Section{Key: "contents", Head: testHead("Contents"), Blocks: []Block{
		Heading{Level: 1, Runs: runs(run("Contents")), Bookmark: "Contents"},
		Contents{Depth: 2},
	}}
}

// verdicts are the words and marks of a verdict cell.
var verdicts = []struct {
	mark Mark
	word string
	tone Tone
}{{MarkWithin, "within", Plain}, {MarkNear, "near limit", Warn}, {MarkOutside, "outside", Bad}, {MarkRecheck, "re-check needed", Warn}, {MarkMissing, "missing", Bad}, {MarkNoLimit, "no limit", Quiet}, {MarkNotAsked, "not required", Quiet}, {MarkByOthers, "by others", Quiet}}

func readings(key string, n int) Table {
	right := Right
	t := Table{
		Caption: runs(run("Tip clearance, as left, longest blade "), value(key+".longest", "5")),
		Columns: []Column{{Fit: true, Align: Right}, {Fit: true, Align: Decimal}, {Fit: true, Align: Decimal}, {Width: 1, Align: Decimal}, {Width: 2}, {Width: 2}},
		Head:    [][]TableCell{{cell(run("at, °")), cell(run("gap, in")), cell(run("as typed")), cell(run("margin, in")), cell(run("verdict")), cell(run("from"))}},
		Summary: "Gap at each position with its limit",
	}
	t.Head = append([][]TableCell{{{Runs: runs(run("position")), Align: &right}, {Runs: runs(run("reading")), Span: 2}, {Runs: runs(run("judged")), Span: 2}, cell(run("workbook"))}}, t.Head...)
	for i := range n {
		v := verdicts[i%len(verdicts)]
		id := fmt.Sprintf("%s.reading.%d", key, i)
		t.Rows = append(t.Rows, TableRow{Rule: i > 0 && i%12 == 0, Cells: []TableCell{
			{Runs: runs(run(fmt.Sprint(i * 30 % 360))), Header: true},
			cell(value(id+".gap", fmt.Sprintf("%d.%04d", i%2, 5000-i*625/10))),
			cell(value(id+".typed", []string{"1/2", "9/16", "12.7 mm", "0.5", "1-1/4"}[i%5])),
			cell(value(id+".margin", fmt.Sprintf("−0.%03d", 125-i))),
			{Runs: runs(Run{Text: v.word, Mark: v.mark, Say: v.word + ":"}), Tone: v.tone},
			cell(Run{Text: fmt.Sprintf("Cell %02d!C%d", 3, i+7), Face: Mono}),
		}})
	}
	return t
}

func cellSection(n int) Section {
	key := fmt.Sprintf("cell.%d", n)
	return Section{Key: key, Head: testHead(fmt.Sprintf("Example Works · Tower A · Cell %d", n)), Blocks: []Block{
		Heading{Level: 1, Runs: runs(run(fmt.Sprintf("Cell %d", n))), Anchor: key, Bookmark: fmt.Sprintf("Cell %d — outside", n)},
		Columns{Widths: []float64{3, 2}, Blocks: [][]Block{
			{Heading{Level: 2, Runs: runs(run("What was found"))},
				words("The fan stands off center toward the motor by more than the limit allows. The cylinder is round within what readings of this kind can show, so moving the fan cures it."),
				List{Items: [][]Run{runs(run("Least gap "), value(key+".least", "0.31 in"), run(" at "), value(key+".leastat", "210°"), run(".")), runs(run("Longest blade 5, pulled to its furthest-out position before every reading, the fan turned by hand and blocked between positions."))}}},
			{Picture{Figure: testFigure{180, 180}, Alt: "Tip clearance: least 0.31 in at 210°, outside", Caption: runs(run("Tip clearance, drawn 40 times larger."))}},
		}},
		Heading{Level: 2, Runs: runs(run("Tip clearance")), Anchor: key + ".clearance", Bookmark: "Tip clearance"},
		words("All gaps in inches. Limits 3/8 in to 5/8 in, from the contract, clause 4.2."),
		readings(key, 40),
		Heading{Level: 3, Runs: runs(run("Rounds"))},
		Paragraph{Keep: true, Runs: runs(run("Hash of the workbook: "), Run{Text: "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08", Face: Mono, ID: key + ".hash"})},
		Heading{Level: 4, Runs: runs(run("By whom"))},
		words("Read by the crew; typed in the site office."),
	}}
}

func legendSection() Section {
	t := Table{Columns: []Column{{Fit: true}, {Width: 1}}, Head: [][]TableCell{{cell(run("mark")), cell(run("meaning"))}}}
	for m := MarkWithin; m <= MarkNotReady; m++ {
		t.Rows = append(t.Rows, TableRow{Cells: []TableCell{{Runs: runs(Run{Text: m.name(), Mark: m, Say: m.name()}), Header: true}, cell(run("A mark is always beside its word."))}})
	}
	for tone := Plain; tone <= Bad; tone++ {
		t.Rows = append(t.Rows, TableRow{Tone: tone, Cells: []TableCell{cell(run(fmt.Sprintf("tone %d", tone))), cell(run("A row in this tone, with "), Run{Text: "bold", Face: Bold}, run(" and "), Run{Text: "muted", Face: Muted}, run(" words."))}})
	}
	return Section{Key: "legend", Head: testHead("Legend"), Blocks: []Block{
		Heading{Level: 1, Runs: runs(run("Legend")), Bookmark: "Legend"},
		t,
		Space(12),
		Paragraph{Runs: runs(run("Marks in running text: "), Run{Text: "within", Mark: MarkWithin}, run(", "), Run{Text: "outside", Mark: MarkOutside}, run(", and a box "), Run{Mark: MarkBox, Text: "to tick"}, run("."))},
		Panel{Blocks: []Block{words("A plain panel.")}},
		Panel{Tone: Good, Blocks: []Block{words("A good panel.")}},
		Panel{Tone: Warn, Blocks: []Block{words("A panel that warns.")}},
	}}
}

func signSection() Section {
	sign := func(name, role string) Signature {
		return Signature{Name: name, Title: role, Word: "digital signature", Tooltip: role + " signs that the readings are theirs",
			Lines: []SignatureLine{{"Name", "A. Example"}, {"Organization", "Example Erectors"}, {"Date, time, zone", ""}, {"Signature", ""}}}
	}
	return Section{Key: "sign", Head: testHead("Sign-off"), Blocks: []Block{
		Heading{Level: 1, Runs: runs(run("Sign-off")), Bookmark: "Sign-off"},
		sign("sign.contractor", "Contractor"), sign("sign.owner", "Owner’s engineer"),
		Break{},
		words("END OF RECORD"),
	}}
}
