package archive

import "math"

// Point is a place on a page.
type Point struct{ X, Y float64 }

// Box is a rectangle along the edges of the page.
type Box struct{ Left, Bottom, Right, Top float64 }

var (
	nowhere    = Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	everywhere = Box{math.Inf(-1), math.Inf(-1), math.Inf(1), math.Inf(1)}
)

func (b Box) empty() bool { return !(b.Left < b.Right && b.Bottom < b.Top) }

func (b Box) area() float64 {
	if b.empty() {
		return 0
	}
	return (b.Right - b.Left) * (b.Top - b.Bottom)
}

func (b Box) include(p Point) Box {
	return Box{min(b.Left, p.X), min(b.Bottom, p.Y), max(b.Right, p.X), max(b.Top, p.Y)}
}

func (b Box) union(o Box) Box {
	return Box{min(b.Left, o.Left), min(b.Bottom, o.Bottom), max(b.Right, o.Right), max(b.Top, o.Top)}
}

func (b Box) meet(o Box) Box {
	return Box{max(b.Left, o.Left), max(b.Bottom, o.Bottom), min(b.Right, o.Right), min(b.Top, o.Top)}
}

// Meets tells whether two boxes have an area in common.
func (b Box) Meets(o Box) bool { return !b.meet(o).empty() }

// Within tells whether a box lies in another.
func (b Box) Within(o Box) bool {
	return b.Left >= o.Left && b.Bottom >= o.Bottom && b.Right <= o.Right && b.Top <= o.Top
}

// Outline is a line of straight pieces, closed where it covers something.
type Outline []Point

func (o Outline) bounds() Box {
	b := nowhere
	for _, p := range o {
		b = b.include(p)
	}
	return b
}

// isBox tells whether a closed outline is a rectangle along the edges of the page.
func (o Outline) isBox() bool {
	if len(o) > 1 && o[0] == o[len(o)-1] {
		o = o[:len(o)-1]
	}
	const near = 1e-6
	b := o.bounds()
	return len(o) == 4 && math.Abs(math.Abs(o.twice())-2*b.area()) < near*max(1, b.area())
}

// twice is twice the area inside, negative where it runs clockwise.
func (o Outline) twice() float64 {
	sum := 0.0
	for i, p := range o {
		q := o[(i+1)%len(o)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum
}

// within is the part of a closed outline inside a box (Sutherland and Hodgman).
func (o Outline) within(b Box) Outline {
	if o.bounds().Within(b) {
		return o
	}
	for side := range 4 {
		o = o.cut(b, side)
	}
	return o
}

// cut keeps what is on the inner side of one edge of a box.
func (o Outline) cut(b Box, side int) Outline {
	depth := func(p Point) float64 {
		return [4]float64{p.X - b.Left, b.Right - p.X, p.Y - b.Bottom, b.Top - p.Y}[side]
	}
	var out Outline
	for i, p := range o {
		q := o[(i+1)%len(o)]
		dp, dq := depth(p), depth(q)
		if dp >= 0 {
			out = append(out, p)
		}
		if dp >= 0 != (dq >= 0) {
			t := dp / (dp - dq)
			out = append(out, Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)})
		}
	}
	return out
}

// stroked are the pieces of a line with a width, each as what it covers.
func (o Outline) stroked(width float64) []Outline {
	var list []Outline
	for i := 1; i < len(o); i++ {
		p, q := o[i-1], o[i]
		dx, dy := q.X-p.X, q.Y-p.Y
		long := math.Hypot(dx, dy)
		if long == 0 {
			continue
		}
		x, y := -dy/long*width/2, dx/long*width/2
		list = append(list, Outline{{p.X + x, p.Y + y}, {q.X + x, q.Y + y}, {q.X - x, q.Y - y}, {p.X - x, p.Y - y}})
	}
	return list
}

// roundSides is how many sides stand for a circle.
const roundSides = 16

// ends are the caps of an open line, each as what it covers (ISO 32000-1, table
// 54): a circle, or a square as if it were upright.
func (o Outline) ends(width float64, style int) []Outline {
	if style == 0 || len(o) < 2 || len(o) > 2 && o[0] == o[len(o)-1] {
		return nil
	}
	var list []Outline
	for _, p := range []Point{o[0], o[len(o)-1]} {
		if style == 2 {
			h := width / 2
			list = append(list, Outline{{p.X - h, p.Y - h}, {p.X + h, p.Y - h}, {p.X + h, p.Y + h}, {p.X - h, p.Y + h}})
			continue
		}
		var circle Outline
		for i := range roundSides {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / roundSides)
			circle = append(circle, Point{p.X + width/2*cos, p.Y + width/2*sin})
		}
		list = append(list, circle)
	}
	return list
}

// Covers is at most how much of a box a paint covers, from 0 to 1: holes in it and
// what it covers twice count.
func (p *Paint) Covers(b Box) float64 {
	if !p.Bounds.Meets(b) || b.empty() {
		return 0
	}
	sum := 0.0
	for _, a := range p.Area {
		sum += math.Abs(a.within(b).twice()) / 2
	}
	return min(1, sum/b.area())
}

// Over is how much of a box another one covers.
func (b Box) Over(o Box) float64 {
	if o.empty() {
		return 0
	}
	return b.meet(o).area() / o.area()
}

// matrix is a change of coordinates (ISO 32000-1, 8.3.3).
type matrix [6]float64

var unit = matrix{1, 0, 0, 1, 0, 0}

// then is m followed by n.
func (m matrix) then(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

func (m matrix) apply(p Point) Point {
	return Point{m[0]*p.X + m[2]*p.Y + m[4], m[1]*p.X + m[3]*p.Y + m[5]}
}

// size is how much a length grows, on the average of both directions.
func (m matrix) size() float64 { return math.Sqrt(math.Abs(m[0]*m[3] - m[1]*m[2])) }
