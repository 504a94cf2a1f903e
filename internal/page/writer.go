package page

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"asleft/internal/archive"
	"asleft/internal/plot"

	"github.com/go-pdf/fpdf"
)

// writer draws on fpdf's pages. fpdf keeps its own idea of colors and widths and
// does not restore it after Q, so it is asked for fonts and text only: all
// color and paths go in as raw content.
type writer struct {
	pdf     *fpdf.Fpdf
	metrics *Metrics
	height  float64 // of the paper

	// What the page has set, so that it is not set again.
	face     face
	size     mp // 0: not set
	color    color
	embedded [faceCount]bool

	open bool // marked content
	key  int  // of its chunk
	mcid int  // next on this page
	buf  []byte
}

// noColor is none that can be set.
const noColor color = 1 << 24

func newWriter(paper Paper, m *Metrics, issued time.Time) *writer {
	w := pt(paper.W).points()
	h := pt(paper.H).points()
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: w, Ht: h}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(issued.UTC())
	pdf.SetModificationDate(issued.UTC())
	// What fpdf puts at the beginning of each page: RGB, not gray. Fill and text
	// alike keep it from wrapping each text in a color of its own.
	r, g, b := plot.Ink.RGB()
	pdf.SetDrawColor(int(r), int(g), int(b))
	pdf.SetFillColor(int(r), int(g), int(b))
	pdf.SetTextColor(int(r), int(g), int(b))
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCompression(false) // the finishing pass reads the pages, and compresses them once
	return &writer{pdf: pdf, metrics: m, height: h}
}

// page starts a page; nothing of the last one's state counts any more.
func (w *writer) page() {
	w.pdf.AddPage()
	w.unset()
	w.mcid = 0
}

// unset makes the next text set its font and color.
func (w *writer) unset() { w.size, w.color = 0, noColor }

// raw writes content.
func (w *writer) raw(s string) { w.pdf.RawWriteStr(s) }

// fill sets the color of text.
func (w *writer) fill(c color) {
	if w.color == c {
		return
	}
	p := path{buf: w.buf[:0]}
	p.rgb(c, "rg")
	w.buf = p.buf
	w.raw(string(p.buf[:len(p.buf)-1]))
	w.color = c
}

// font sets the face and size, and embeds the face at its first use.
func (w *writer) font(f face, size mp) {
	if w.face == f && w.size == size {
		return
	}
	file := f.file()
	if !w.embedded[f] {
		w.pdf.AddUTF8FontFromBytes(file.family, file.style, file.bytes)
		w.embedded[f] = true
	}
	w.pdf.SetFont(file.family, file.style, size.points())
	w.face, w.size = f, size
}

// text writes s from x, y up in the current font and color, turned counter-
// clockwise by an angle.
func (w *writer) text(s string, x, y, turn float64) {
	if turn == 0 {
		w.pdf.Text(x, w.height-y, s)
		return
	}
	var p path
	sin, cos := math.Sincos(turn)
	// Six decimals: a turned line of 1000 pt is off by less than 0.001 pt.
	p.buf = fmt.Appendf(p.buf, "q %.6f %.6f %.6f %.6f ", cos, sin, -sin, cos)
	p.op("cm", x, y)
	w.raw(string(p.buf[:len(p.buf)-1]))
	w.pdf.Text(0, w.height, s)
	w.raw("Q")
}

// begin opens a marked run for a chunk unless it is open, and says whether it
// is a new one. Key 0 is none.
func (w *writer) begin(key int, role archive.Role) (mcid int, fresh bool) {
	if w.open && w.key == key {
		return 0, false
	}
	w.end()
	mcid = w.mcid
	buf := append(w.buf[:0], '/')
	buf = append(buf, role...)
	buf = append(buf, " <</MCID "...)
	buf = strconv.AppendInt(buf, int64(mcid), 10)
	w.buf = append(buf, ">> BDC"...)
	w.raw(string(w.buf))
	w.mcid++
	w.open, w.key = true, key
	return mcid, true
}

// artifact opens content that is not read.
func (w *writer) artifact(properties string) {
	w.end()
	w.raw("/Artifact <<" + properties + ">> BDC")
	w.open, w.key = true, 0
}

// end closes what is open.
func (w *writer) end() {
	if w.open {
		w.raw("EMC")
		w.open = false
	}
}

// ink writes one box.
func (w *writer) ink(k *ink) error {
	switch {
	case k.fig != nil:
		return w.draw(k)
	case k.mark != NoMark:
		w.marks([]*ink{k})
	case k.text != "":
		w.fill(k.color)
		w.font(k.face, k.size)
		w.text(k.text, k.x.points(), w.height-k.y.points(), 0)
	}
	return nil
}

// marks draws marks, each moved on from the one before: then those below each other
// in a table are the same bytes.
func (w *writer) marks(list []*ink) {
	p := path{buf: append(w.buf[:0], "q\n"...)}
	x, y := 0.0, 0.0
	for _, k := range list {
		mx, my := markMiddle(k.size.points())
		toX, toY := tenth(k.x.points()+mx), tenth(w.height-k.y.points()+my)
		p.op("cm", 1, 0, 0, 1, toX-x, toY-y)
		x, y = toX, toY
		p.buf = drawMark(p.buf, k.mark, k.size.points(), k.color)
	}
	w.buf = append(p.buf, 'Q')
	w.raw(string(w.buf))
}

// outlined writes text turned upward, in outline only.
func (w *writer) outlined(inks []ink) {
	for i := range inks {
		k := &inks[i]
		w.font(k.face, k.size)
		var p path
		p.buf = append(p.buf, "q 1 Tr\n"...)
		p.pen(k.color, 0.5)
		w.raw(string(p.buf))
		w.text(k.text, k.x.points(), w.height-k.y.points(), math.Pi/2)
		w.raw("Q")
	}
}

// bytes is the finished file, after which nothing can be drawn. The library hands
// its own buffer over, which it then has done with, so that is kept: it may be
// hundreds of megabytes. So may its pages, which are let go.
func (w *writer) bytes() ([]byte, error) {
	var out pieces
	if err := w.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("page writer: %w", err)
	}
	w.pdf = nil
	return out, nil
}

// pieces joins what is written; a single piece is not copied.
type pieces []byte

func (p *pieces) Write(b []byte) (int, error) {
	if *p == nil {
		*p = b[:len(b):len(b)]
	} else {
		*p = append(*p, b...)
	}
	return len(b), nil
}

// fonts tells the embedded faces by the names that fpdf gave them.
func (w *writer) fonts() []archive.Font {
	var out []archive.Font
	for f := range faceCount {
		if w.embedded[f] {
			out = append(out, archive.Font{Written: "utf8" + f.file().family + f.file().style, Name: f.file().name})
		}
	}
	return out
}
