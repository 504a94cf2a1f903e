package page

// rect is a filled box: a ground, a rule or a leader. Never part of the text.
type rect struct {
	x, y, w, h mp
	color      color
	dotted     bool // a row of dots along a rule
}

// ink is one box that is read: text, a mark or a figure, in reading order.
type ink struct {
	x, y  mp // left; base line (of a figure: its top)
	w     mp // without trailing space
	size  mp // height of a figure, type size of others
	text  string
	fig   *figure
	color color
	chunk int32 // of its section, counted from 1; 0 is furniture
	entry int32 // print the page of this heading, counted from 1: ending at x, or, of a negative one, beginning there
	face  face
	mark  Mark
}

// figure is a picture to be drawn to a scale.
type figure struct {
	picture Picture
	w, h    mp
	permil  int64 // scale in thousandths
	node    *node
	section string
	photo   *Photo // instead of a figure that is drawn
}

// area is a clickable place of a link.
type area struct {
	x, y, w, h mp
	link       int // of its section, counted from 1
}

// fieldArea is the place of a signature field.
type fieldArea struct {
	x, y, w, h    mp
	name, tooltip string
	node          *node
}

// target is where a heading stands.
type target struct {
	y       mp
	heading int // counted through the book
}

// layer is what stands in one place: on a page, or in a strip that will be put
// on one.
type layer struct {
	ground  []rect
	ink     []ink
	areas   []area
	fields  []fieldArea
	targets []target
}

// add puts o on l, moved down by dy.
func (l *layer) add(o *layer, dy mp) {
	for _, b := range o.ground {
		b.y += dy
		l.ground = append(l.ground, b)
	}
	for _, b := range o.ink {
		b.y += dy
		l.ink = append(l.ink, b)
	}
	for _, b := range o.areas {
		b.y += dy
		l.areas = append(l.areas, b)
	}
	for _, b := range o.fields {
		b.y += dy
		l.fields = append(l.fields, b)
	}
	for _, b := range o.targets {
		b.y += dy
		l.targets = append(l.targets, b)
	}
}

// furnish makes l furniture: nothing of it is read or clicked any more.
func (l layer) furnish() layer {
	f := layer{ground: l.ground, ink: append([]ink(nil), l.ink...)}
	for i := range f.ink {
		f.ink[i].chunk = 0
	}
	return f
}
