package plot

import "math"

// feetFigure is a feet sketch with its layout.
type feetFigure struct {
	*canvas
	FeetSketch
	o     point
	wall  float64
	motor box
}

// Sizes of the feet sketch in points. Nothing is smaller than a card's text.
const (
	cardText   = 11.0
	cardNumber = 13.0
	footHalf   = 9.0 // half a foot's square
	baseAt     = 0.5 // middle of the outermost feet, in parts of the wall radius
	sideRoom   = 44.0
	badgeRoom  = 22.0
	motorSmall = 30.0 // height of a motor that stays
	motorLarge = 96.0 // and of one that moves
	motorAir   = 14.0 // between motor and wall
)

var (
	cardStyle = style{size: cardText, tone: Ink}
	cardBold  = style{size: cardText, bold: true, tone: Ink}
	footStyle = style{size: cardNumber, bold: true, tone: Ink}
	cardWhite = style{size: cardNumber, bold: true, tone: White}
)

// place finds room for wall and motor.
func (f *feetFigure) place() error {
	motorH, motorW, air := motorSmall, 64.0, motorAir
	if f.motorMoves() {
		motorH, motorW = motorLarge, 96
	}
	ring := 0.0
	if len(f.Places) > 0 {
		ring = badgeRoom
		air += badgeRoom
	}
	under := margin + ring
	f.wall = min((f.w-2*(sideRoom+ring))/2, (f.h-margin-motorH-air-under)/2)
	if f.wall < 2*minRing {
		return ErrNoRoom
	}
	f.o = point{f.w / 2, f.h - under - f.wall}
	top := f.o.y - f.wall - air - motorH
	f.motor = box{f.o.x - motorW/2, top, f.o.x + motorW/2, top + motorH}
	return nil
}

func (f *feetFigure) draw() {
	f.drawWall()
	f.drawDrive()
	f.drawPlaces()
	f.drawBase()
	f.drawSlide()
	f.drawMotorFeet()
	f.drawNames()
}

// drawWall is the fan cylinder.
func (f *feetFigure) drawWall() {
	f.ring(f.o, f.wall, &pen{tone: Muted, width: 2}, nil)
}

// drawDrive is the drive shaft and the motor.
func (f *feetFigure) drawDrive() {
	white, tint := White, Tint
	f.rect(box{f.o.x - 3, f.motor.y1, f.o.x + 3, f.o.y}, &pen{tone: Muted, width: 0.8}, &white)
	fill := &tint
	if f.motorMoves() {
		fill = &white
	}
	f.rect(f.motor, &pen{tone: Ink, width: 1.6}, fill)
	st, room := footStyle, f.motor.x1-f.motor.x0-6
	if f.measure(f.Motor, st) > room {
		st = cardBold
	}
	f.centered(f.fit(f.Motor, room, st), f.motor.center(), st)
}

// spots are the feet on paper: spread so that the outermost ones along and
// across have the same place in every sketch.
func (f *feetFigure) spots() []point {
	most := func(v func(SketchFoot) float64) float64 {
		m := 0.0
		for _, x := range f.Feet {
			m = max(m, math.Abs(v(x)))
		}
		if m == 0 {
			return 1
		}
		return m
	}
	along := most(func(x SketchFoot) float64 { return x.Along })
	across := most(func(x SketchFoot) float64 { return x.Across })
	var out []point
	for _, x := range f.Feet {
		out = append(out, point{f.o.x + x.Across/across*f.wall*baseAt, f.o.y - x.Along/along*f.wall*baseAt*1.1})
	}
	return out
}

// drawBase is the machine in the middle with its feet. A foot that is changed is
// dark with a light number, one that stays is light: told apart in gray.
func (f *feetFigure) drawBase() {
	spots := f.spots()
	if len(spots) == 0 {
		if !f.motorMoves() {
			white := White
			f.rect(boxAt(f.o, f.wall*0.3, f.wall*0.4), &pen{tone: Muted, width: 1}, &white)
		}
		return
	}
	area := box{spots[0].x, spots[0].y, spots[0].x, spots[0].y}
	for _, p := range spots {
		area = box{min(area.x0, p.x), min(area.y0, p.y), max(area.x1, p.x), max(area.y1, p.y)}
	}
	white := White
	f.rect(area, &pen{tone: Muted, width: 1}, &white)
	for i, p := range spots {
		f.drawFoot(f.Feet[i], p)
	}
}

func (f *feetFigure) drawFoot(foot SketchFoot, p point) {
	fill, st := White, footStyle
	if foot.Moved {
		fill, st = Ink, cardWhite
	}
	f.rect(boxAt(p, 2*footHalf, 2*footHalf), &pen{tone: Ink, width: 1.4}, &fill)
	f.centered(f.fit(foot.Number, 2*footHalf-1, st), p, st)
	if len(foot.Lines) == 0 {
		return
	}
	b := f.block(foot.Lines, cardBold)
	x := p.x + footHalf + 4 + b.w/2
	if p.x < f.o.x {
		x = p.x - footHalf - 4 - b.w/2
	}
	x = min(max(x, 1+b.w/2), f.w-1-b.w/2)
	f.drawBlock(b, point{x, p.y}, true)
}

// slideTip is where the arrow of the slide ends.
func (f *feetFigure) slideTip() point {
	return f.o.polar(math.Atan2(f.Slide.Dy, f.Slide.Dx)*180/math.Pi, f.wall*0.44)
}

// drawSlide is the fat arrow with its two components, thin, and their amounts
// beside them.
func (f *feetFigure) drawSlide() {
	s := f.Slide
	if s == nil || s.Dx == 0 && s.Dy == 0 {
		return
	}
	at := math.Atan2(s.Dy, s.Dx) * 180 / math.Pi
	sin, cos := math.Sincos(at * math.Pi / 180)
	tip := f.slideTip()
	corner := point{f.o.x, tip.y}
	thin := pen{tone: Ink, width: 1.6, dash: []float64{3, 2}}
	if s.Along != "" && s.Across != "" {
		f.line(f.o, corner, thin)
		f.line(corner, tip, thin)
	}
	f.arrow(f.o, tip, pen{tone: Ink, width: min(11, f.wall*0.14)}, min(24, f.wall*0.28))
	if s.Along != "" {
		w := f.measure(s.Along, cardBold)
		f.drawBlock(f.block([]string{s.Along}, cardBold), point{f.o.x - math.Copysign(w/2+9, sin), (f.o.y + corner.y) / 2}, true)
	}
	if s.Across != "" {
		// Beyond the component along, or, without one, above the arrow.
		y := tip.y - math.Copysign(cardText+1, cos)
		if s.Along == "" {
			y = tip.y - 20
		}
		f.drawBlock(f.block([]string{s.Across}, cardBold), point{(f.o.x + tip.x) / 2, y}, true)
	}
}

// drawPlaces are positions at the wall with an arrow in or out where it moves.
func (f *feetFigure) drawPlaces() {
	white, ink := White, Ink
	r := f.wall + badgeRoom/2
	for _, p := range f.Places {
		at := bearing(p.At)
		c := f.o.polar(at, r)
		fill, st := &white, footStyle
		if p.In != 0 {
			fill, st = &ink, cardWhite
		}
		st.size = cardText
		f.ring(c, 9, &pen{tone: Ink, width: 1}, fill)
		f.centered(f.fit(p.Number, 16, st), c, st)
		switch {
		case p.In > 0:
			f.arrow(f.o.polar(at, f.wall), f.o.polar(at, f.wall*0.78), pen{tone: Ink, width: 4}, 11)
		case p.In < 0:
			f.arrow(f.o.polar(at, f.wall*0.72), f.o.polar(at, f.wall*0.96), pen{tone: Ink, width: 4}, 11)
		}
	}
}

// drawMotorFeet says what is done at the motor's feet, with an arrow where it is
// pushed.
func (f *feetFigure) drawMotorFeet() {
	if !f.motorMoves() {
		return
	}
	m := f.motor
	f.drawMotorRow(f.Rear, m.y0+16)
	f.drawMotorRow(f.Front, m.y1-16)
	if f.Axial != 0 {
		a, b := point{m.x0 - 26, m.center().y + 22}, point{m.x0 - 26, m.center().y - 22}
		if f.Axial < 0 {
			a, b = b, a
		}
		f.arrow(a, b, pen{tone: Ink, width: 9}, 20)
	}
}

func (f *feetFigure) drawMotorRow(row MotorRow, y float64) {
	m := f.motor
	white := White
	for _, x := range []float64{m.x0, m.x1} {
		f.rect(boxAt(point{x, y}, footHalf*1.6, footHalf*1.6), &pen{tone: Ink, width: 1.4}, &white)
	}
	if row.Push != 0 {
		const half = 22
		a, b := point{f.o.x - half, y}, point{f.o.x + half, y}
		if row.Push < 0 {
			a, b = b, a
		}
		f.arrow(a, b, pen{tone: Ink, width: 8}, 18)
	}
	if len(row.Lines) > 0 {
		b := f.block(row.Lines, cardBold)
		f.drawBlock(b, point{min(m.x1+footHalf+4+b.w/2, f.w-1-b.w/2), y}, true)
	}
}

// drawNames says which way is which: an arrow and a name at the right, and beside
// the motor.
func (f *feetFigure) drawNames() {
	left := f.o.x + f.wall + 5
	if len(f.Places) > 0 {
		left += badgeRoom
	}
	if b := f.wrap(f.Side90, f.w-left-1, cardStyle); len(b.lines) > 0 {
		for i, l := range b.lines {
			b.lines[i] = f.fit(l, f.w-left-1, cardStyle)
		}
		b = f.block(b.lines, cardStyle)
		x := left + (f.w-left-1)/2
		under := 5.0
		if f.wall < 60 { // between what is said of the feet
			under = 1
		}
		f.drawBlock(b, point{x, f.o.y + under + b.h/2}, true)
		f.arrow(point{x - 13, f.o.y + under - 9}, point{x + 13, f.o.y + under - 9}, pen{tone: Ink, width: 2}, 8)
	}
	if f.Toward != "" && !f.motorMoves() {
		c := f.motor.center()
		x := f.motor.x1 + 14
		f.arrow(point{x, c.y + 13}, point{x, c.y - 13}, pen{tone: Ink, width: 2}, 8)
		b := f.wrap(f.Toward, f.w-x-10, cardStyle)
		f.drawBlock(b, point{x + 9 + b.w/2, c.y}, false)
	}
	if b := f.wrap(f.Note, f.motor.x0-8, cardStyle); len(b.lines) > 0 {
		f.drawBlock(b, point{1 + b.w/2, margin + b.h/2}, false)
	}
}
