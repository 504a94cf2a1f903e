package register

import (
	"archive/zip"
	"bytes"
	"cmp"
	"fmt"
	"io"
	"net/url"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// epoch stands for the dates of the file: the clock would make two equal
// registers differ.
const epoch = "2026-01-01T00:00:00Z"

// Look of the sheets. The grounds differ in lightness too, so that they can be
// told apart in gray.
const (
	typeface    = "Arial"
	ink         = "1D2530"
	groundHead  = "DDE3E9"
	groundBad   = "F0B7A0"
	groundOpen  = "F7E7B8"
	inkQuiet    = "66707A"
	inkLink     = "1F4E79"
	maxLinks    = 65000 // a sheet's own limit is 65530
	widest      = 44
	narrowest   = 7
	headHeight  = 48
	letterWidth = 1.1
)

// WriteXLSX writes the register as a workbook of four sheets: cells, checks,
// towers, and files that could not be read. The same register gives the same
// bytes.
func (r *Register) WriteXLSX(w io.Writer, p Print) error {
	f := excelize.NewFile()
	defer f.Close()
	b := &sheets{file: f, print: &p, styles: map[string]int{}}
	b.must(f.SetDocProps(&excelize.DocProperties{Created: epoch, Modified: epoch, Title: p.say("title"),
		Creator: "asleft", LastModifiedBy: "asleft", Language: p.Words.Tag()}))
	for i, t := range []table{r.cellTable(&p), r.checkTable(&p), r.towerTable(&p), r.faultTable(&p)} {
		if i == 0 {
			b.must(f.SetSheetName("Sheet1", t.title))
		} else {
			_, err := f.NewSheet(t.title)
			b.must(err)
		}
		b.sheet(&t)
	}
	var packed bytes.Buffer
	if b.err == nil {
		_, b.err = f.WriteTo(&packed)
	}
	if b.err == nil {
		b.err = inOrder(w, packed.Bytes())
	}
	if b.err != nil {
		return fmt.Errorf("register: %w", b.err)
	}
	return nil
}

// inOrder writes the parts of a workbook by name: the library writes streamed
// sheets in the order of a map.
func inOrder(w io.Writer, packed []byte) error {
	in, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return err
	}
	slices.SortFunc(in.File, func(a, b *zip.File) int { return cmp.Compare(a.Name, b.Name) })
	out := zip.NewWriter(w)
	for _, part := range in.File {
		if err := out.Copy(part); err != nil {
			return err
		}
	}
	return out.Close()
}

// sheets is a workbook being written. Its first error sticks.
type sheets struct {
	file   *excelize.File
	print  *Print
	styles map[string]int
	err    error
}

func (b *sheets) must(err error) {
	if b.err == nil {
		b.err = err
	}
}

// sheet writes a table. What the stream cannot write goes into the sheet before
// the stream takes it over.
func (b *sheets) sheet(t *table) {
	b.links(t)
	last := cellName(len(t.head), t.size+1)
	b.must(b.file.AutoFilter(t.title, "A1:"+last, nil))
	b.paper(t)
	s, err := b.file.NewStreamWriter(t.title)
	b.must(err)
	if b.err != nil {
		return
	}
	b.must(s.SetPanes(&excelize.Panes{Freeze: true, XSplit: t.frozen, YSplit: 1, TopLeftCell: cellName(t.frozen+1, 2), ActivePane: "bottomRight"}))
	for i, width := range t.widths() {
		b.must(s.SetColWidth(i+1, i+1, width))
	}
	b.row(s, 1, b.heads(t), excelize.RowOpts{Height: headHeight})
	for i := range t.size {
		row := t.row(i)
		out := make([]any, len(row))
		for n, v := range row {
			out[n] = b.cell(v)
		}
		b.row(s, i+2, out)
	}
	b.must(s.Flush())
}

// fits is how many columns can be read on one sheet of paper. Wider tables go
// over several, with their first row and columns on each.
const fits = 20

func (b *sheets) paper(t *table) {
	landscape, wide, high := "landscape", 1, 0
	layout := &excelize.PageLayoutOptions{Orientation: &landscape}
	if len(t.head) <= fits {
		fit := true
		b.must(b.file.SetSheetProps(t.title, &excelize.SheetPropsOptions{FitToPage: &fit}))
		layout.FitToWidth, layout.FitToHeight = &wide, &high
	}
	b.must(b.file.SetPageLayout(t.title, layout))
	last, _ := excelize.ColumnNumberToName(t.frozen)
	quoted := "'" + strings.ReplaceAll(t.title, "'", "''") + "'!"
	b.must(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: t.title,
		RefersTo: quoted + "$A:$" + last + "," + quoted + "$1:$1"}))
}

func (b *sheets) row(s *excelize.StreamWriter, n int, cells []any, o ...excelize.RowOpts) {
	b.must(s.SetRow(cellName(1, n), cells, o...))
}

func cellName(column, row int) string {
	name, _ := excelize.CoordinatesToCellName(column, row) // both in range
	return name
}

func (b *sheets) heads(t *table) []any {
	style := b.style("head", &excelize.Style{
		Font:      &excelize.Font{Family: typeface, Size: 9, Bold: true, Color: ink},
		Fill:      excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{groundHead}},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"},
		Border:    []excelize.Border{{Type: "bottom", Color: ink, Style: 2}},
	})
	out := make([]any, len(t.head))
	for i, h := range t.head {
		out[i] = excelize.Cell{StyleID: style, Value: h}
	}
	return out
}

// cell is a value with its look; nil where it is blank.
func (b *sheets) cell(v value) any {
	switch {
	case v.count != nil:
		return excelize.Cell{StyleID: b.look(v, "0"), Value: *v.count}
	case v.share != nil:
		return excelize.Cell{StyleID: b.look(v, "0.0%"), Value: *v.share}
	case v.amount != nil:
		return excelize.Cell{StyleID: b.look(v, numberFormat(v.amount)), Value: v.amount.value}
	case v.text == "":
		return nil
	}
	return excelize.Cell{StyleID: b.look(v, ""), Value: v.text}
}

// numberFormat shows a number with its sign and unit, and leaves it a number.
func numberFormat(a *amount) string {
	digits := "0"
	if a.decimals > 0 {
		digits += "." + strings.Repeat("0", a.decimals)
	}
	unit := ""
	if a.unit != "" && a.unit != "1" {
		unit = ` "` + strings.ReplaceAll(a.unit, `"`, "") + `"`
	}
	return "+" + digits + unit + ";−" + digits + unit + ";" + digits + unit
}

func (b *sheets) look(v value, format string) int {
	key := fmt.Sprint(v.tone, v.link != "", v.count != nil, format)
	s := &excelize.Style{Font: &excelize.Font{Family: typeface, Size: 9, Color: ink}, Alignment: &excelize.Alignment{Vertical: "top"}}
	if format != "" {
		s.CustomNumFmt = &format
	}
	if v.count != nil {
		s.Alignment.Horizontal = "center"
	}
	switch v.tone {
	case badTone:
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{groundBad}}
		s.Font.Bold = true
	case openTone:
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{groundOpen}}
	case quietTone:
		s.Font.Color, s.Font.Italic = inkQuiet, true
	}
	if v.link != "" {
		s.Font.Color, s.Font.Underline = inkLink, "single"
	}
	return b.style(key, s)
}

func (b *sheets) style(key string, s *excelize.Style) int {
	id, ok := b.styles[key]
	if !ok {
		var err error
		id, err = b.file.NewStyle(s)
		b.must(err)
		b.styles[key] = id
	}
	return id
}

// links makes the links of a table, as many as a sheet can have.
func (b *sheets) links(t *table) {
	if b.print.Link == nil {
		return
	}
	n := 0
	for i := range t.size {
		for k, v := range t.row(i) {
			if v.link == "" || n >= maxLinks {
				continue
			}
			n++
			b.must(b.file.SetCellHyperLink(t.title, cellName(k+1, i+2), escaped(b.print.Link(v.link)), "External"))
		}
	}
}

// escaped makes a relative path one of a link.
func escaped(path string) string {
	parts := strings.Split(path, "/")
	for i, s := range parts {
		parts[i] = url.PathEscape(s)
	}
	return strings.Join(parts, "/")
}

// widths are wide enough for what stands in the columns, within reason. Heads
// are wrapped and may be narrower.
func (t *table) widths() []float64 {
	out := make([]float64, len(t.head))
	for i, h := range t.head {
		for word := range strings.FieldsSeq(h) {
			out[i] = max(out[i], float64(utf8.RuneCountInString(word))+2)
		}
	}
	for n := range t.size {
		for i, v := range t.row(n) {
			out[i] = max(out[i], float64(utf8.RuneCountInString(v.String()))*letterWidth)
		}
	}
	for i := range out {
		out[i] = min(max(out[i]+2, narrowest), widest)
	}
	return out
}
