package archive

import (
	"strconv"
)

// PaintKind is what sort of thing is painted.
type PaintKind uint8

// Kinds of paint.
const (
	PaintText PaintKind = iota
	PaintArea
	PaintLine
	PaintImage
)

// Paint is one thing that a page paints, in points from its lower left corner.
type Paint struct {
	Kind  PaintKind
	Run   int        // its marked run, -1 in an artifact
	Color [3]float64 // red, green, blue from 0 to 1; of an image nothing
	// Area is what is covered: closed outlines, a line as one for each of its pieces.
	Area []Outline
	// Of text: all of it, the characters with ink, the ink of each, its smallest size in points, and
	// whether a clip hides any, it is drawn as outlines, or does not stand upright.
	Text                     string
	Chars                    []rune
	Ink                      []Box
	Size                     float64
	Clipped, Hollow, Leaning bool
	Bounds                   Box // of everything
}

// Paints lists what a page paints, first what is painted first. It follows what
// the scanner takes, which is little: no transparency, patterns or forms.
func (r *Reader) Paints(i int) ([]Paint, error) {
	pages, err := r.Pages()
	if err != nil {
		return nil, err
	}
	content, err := r.content(pages[i])
	if err != nil {
		return nil, err
	}
	if len(content) > maxPainted {
		return nil, overLimit(0, "%s has %d bytes of drawing", pageName(i), len(content))
	}
	fonts, err := r.fontsOf(pages[i])
	if err != nil {
		return nil, err
	}
	short, err := r.codesOf(fonts)
	if err != nil {
		return nil, err
	}
	s := pageScan{short: short, record: &recording{}}
	scan(content, &s)
	if len(s.faults) > 0 {
		return nil, foreign("%s: %s: %s", pageName(i), s.faults[0].Rule, s.faults[0].Fact)
	}
	p := painter{reader: r, recording: s.record, lexer: lexer{src: content}, fonts: fonts, short: short,
		run: -1, state: paintState{matrix: unit, scale: 1, width: 1, clip: everywhere}}
	for k := range p.ops {
		if err := p.op(p.ops[k]); err != nil {
			return nil, err
		}
		if len(p.list) > maxPaints {
			return nil, overLimit(0, "%s paints more than %d things", pageName(i), maxPaints)
		}
	}
	return p.list, nil
}

// Bounds of what one page may paint: in things, and in bytes of content. A page of
// ours has some thousands and some tens of thousands.
const (
	maxPaints  = 1 << 17
	maxPainted = 1 << 20
)

// painter follows the operations of a page.
type painter struct {
	lexer
	*recording
	reader *Reader
	fonts  Dict
	short  map[Name]bool
	run    int
	state  paintState
	saved  []paintState
	path   []Outline
	at     Point
	clips  bool // the path becomes a clip once it is painted
	text   matrix
	line   matrix
	list   []Paint
	codes  []byte
	raw    []byte
}

// paintState is what q keeps.
type paintState struct {
	matrix       matrix
	fill, stroke [3]float64
	width        float64
	cap          int // 0 butt, 1 round, 2 square
	clip         Box
	oddClip      bool // clipped by something else than a rectangle
	font         Name
	size         float64
	char, word   float64 // spacing
	scale        float64 // horizontal
	leading      float64
	rise         float64
	hollow       bool // text drawn as outlines
}

// value is operand n of an operation as a number.
func (p *painter) value(o operation, n int) float64 {
	if o.first+n >= o.last {
		return 0
	}
	v, err := strconv.ParseFloat(string(p.lexer.text(p.args[o.first+n])), 64)
	if err != nil {
		return 0
	}
	return v
}

func (p *painter) point(o operation, n int) Point { return Point{p.value(o, n), p.value(o, n+1)} }

func (p *painter) matrixOf(o operation) (m matrix) {
	for i := range m {
		m[i] = p.value(o, i)
	}
	return m
}

func (p *painter) color(o operation) (c [3]float64) {
	for i := range c {
		c[i] = p.value(o, min(i, o.last-o.first-1))
	}
	return c
}

func (p *painter) op(o operation) error {
	s := &p.state
	switch string(p.lexer.text(o.word)) {
	case "q":
		p.saved = append(p.saved, *s)
	case "Q":
		*s, p.saved = p.saved[len(p.saved)-1], p.saved[:len(p.saved)-1]
	case "cm":
		s.matrix = p.matrixOf(o).then(s.matrix)
	case "g", "rg":
		s.fill = p.color(o)
	case "G", "RG":
		s.stroke = p.color(o)
	case "w":
		s.width = p.value(o, 0)
	case "J":
		s.cap = int(p.value(o, 0))
	case "Tr":
		s.hollow = p.value(o, 0) != 0
	case "BDC", "BMC":
		p.run = -1
		if o.last-o.first == 5 && p.args[o.first+3].kind == tokenInt {
			p.run = int(p.value(o, 3))
		}
	case "EMC":
		p.run = -1
	case "Do":
		p.image()
	default:
		if !p.textOp(o) {
			p.pathOp(o)
		}
		return p.show(o)
	}
	return nil
}

// image covers the unit square.
func (p *painter) image() {
	var square Outline
	for _, c := range []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		square = append(square, p.state.matrix.apply(c))
	}
	p.cover(PaintImage, [3]float64{}, []Outline{square})
}

// cover adds an area, as far as the clip shows it.
func (p *painter) cover(kind PaintKind, color [3]float64, area []Outline) {
	out := Paint{Kind: kind, Run: p.run, Color: color, Bounds: nowhere}
	for _, a := range area {
		if a = a.within(p.state.clip); len(a) > 2 {
			out.Area = append(out.Area, a)
			out.Bounds = out.Bounds.union(a.bounds())
		}
	}
	if len(out.Area) > 0 {
		p.list = append(p.list, out)
	}
}

// pathOp builds and paints paths.
func (p *painter) pathOp(o operation) {
	switch word := string(p.lexer.text(o.word)); word {
	case "m":
		p.at = p.point(o, 0)
		p.path = append(p.path, Outline{p.state.matrix.apply(p.at)})
	case "l":
		p.to(p.point(o, 0))
	case "c":
		p.curve(p.point(o, 0), p.point(o, 2), p.point(o, 4))
	case "v":
		p.curve(p.at, p.point(o, 0), p.point(o, 2))
	case "y":
		p.curve(p.point(o, 0), p.point(o, 2), p.point(o, 2))
	case "h":
		p.close()
	case "re":
		a, w, h := p.point(o, 0), p.value(o, 2), p.value(o, 3)
		p.at = a
		p.path = append(p.path, Outline{p.state.matrix.apply(a)})
		for _, c := range []Point{{a.X + w, a.Y}, {a.X + w, a.Y + h}, {a.X, a.Y + h}, a} {
			p.to(c)
		}
	case "W", "W*":
		p.clips = true
	case "n":
		p.endPath()
	case "s", "b", "b*":
		p.close()
		p.paintPath(word != "s", true)
	case "S", "f", "f*", "B", "B*":
		p.paintPath(word != "S", word != "f" && word != "f*")
	}
}

func (p *painter) to(c Point) {
	p.at = c
	if n := len(p.path); n > 0 {
		p.path[n-1] = append(p.path[n-1], p.state.matrix.apply(c))
	}
}

// curvePieces is how many straight pieces stand for a curve.
const curvePieces = 8

func (p *painter) curve(b, c, d Point) {
	a := p.at
	for i := 1; i <= curvePieces; i++ {
		t := float64(i) / curvePieces
		u := 1 - t
		w := [4]float64{u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t}
		p.to(Point{w[0]*a.X + w[1]*b.X + w[2]*c.X + w[3]*d.X, w[0]*a.Y + w[1]*b.Y + w[2]*c.Y + w[3]*d.Y})
	}
}

// close goes back to where the path began.
func (p *painter) close() {
	if n := len(p.path); n > 0 && len(p.path[n-1]) > 0 {
		p.path[n-1] = append(p.path[n-1], p.path[n-1][0])
	}
}

func (p *painter) paintPath(fill, stroke bool) {
	s := &p.state
	if fill {
		p.cover(PaintArea, s.fill, p.path)
	}
	if stroke {
		var pieces []Outline
		for _, o := range p.path {
			width := s.width * s.matrix.size()
			pieces = append(append(pieces, o.stroked(width)...), o.ends(width, s.cap)...)
		}
		p.cover(PaintLine, s.stroke, pieces)
	}
	p.endPath()
}

func (p *painter) endPath() {
	if p.clips {
		box, ok := nowhere, true
		for _, o := range p.path {
			box = box.union(o.bounds())
			ok = ok && len(p.path) == 1 && o.isBox()
		}
		p.state.clip = p.state.clip.meet(box)
		p.state.oddClip = p.state.oddClip || !ok
	}
	p.path, p.clips = nil, false
}
