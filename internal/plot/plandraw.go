package plot

import (
	"fmt"
	"math"
)

// planFigure is a plan sketch with its layout.
type planFigure struct {
	*canvas
	PlanSketch
	o           point
	wall        float64 // radius of the inside of the cylinder
	foot        footer
	top         float64 // lower edge of the title
	motor       box
	left, right block // names of the sides
}

// Parts of the sketch in parts of the wall radius, and sizes in points.
const (
	tipAt       = 0.94 // blade tips
	hubAt       = 0.13 // hub
	turnAt      = 0.8  // arrow that shows the sense of counting
	wallWidth   = 3.0
	badge       = 5.6  // radius of the circle round a position number
	badgeGap    = 4.0  // wall to badge
	planMotorW  = 34.0 // motor across
	planMotorH  = 24.0 // motor along the drive line
	planMotorUp = 11.0 // position labels to motor
	sideWidth   = 46.0 // widest line of a side's name
	awayRow     = 20.0 // arrow away from the motor
	// ringOut is from the inside of the wall to the outside of the badges.
	ringOut = wallWidth + badgeGap + 2*badge
)

// place finds room for the cylinder between motor, names of the sides and note.
func (p *planFigure) place() error {
	p.top = p.drawTitle(p.Title, titleStyle)
	p.foot = p.footer(nil, "", p.Note)
	p.left = p.wrap(p.Side270, sideWidth, wordStyle)
	p.right = p.wrap(p.Side90, sideWidth, wordStyle)
	tick := 0.0
	for _, q := range p.Positions {
		tick = max(tick, p.measure(q.Tick, tickStyle))
	}
	side := margin + max(p.left.w, p.right.w) + 4 + ringOut + 2 + tick
	over := ringOut + planMotorUp + planMotorH + margin
	under := ringOut + 2 + small + awayRow
	y0, y1 := p.top+over, p.h-p.foot.height-under
	p.wall = min((p.w-2*side)/2, (y1-y0)/2)
	if p.wall < 2*minRing {
		return fmt.Errorf("%.0f by %.0f points: %w", p.w, p.h, ErrNoRoom)
	}
	p.o = point{p.w / 2, (y0 + y1) / 2}
	p.around(p.o)
	top := p.o.y - p.wall - ringOut - planMotorUp - planMotorH
	p.motor = box{p.o.x - planMotorW/2, top, p.o.x + planMotorW/2, top + planMotorH}
	return nil
}

// drawFan draws the blades, the first at half a pitch from 0° so that none hides
// the drive shaft, and the hub.
func (p *planFigure) drawFan() {
	tip, hub := p.wall*tipAt, p.wall*hubAt
	pitch := 360 / float64(p.Blades)
	half := min(9, pitch*0.32)
	fill, line := Tint, pen{tone: Soft, width: 0.5}
	for i := range p.Blades {
		at := pitch * (float64(i) + 0.5)
		p.polygon([]point{
			p.o.polar(at-12, hub), p.o.polar(at-half*0.55, tip),
			p.o.polar(at+half*0.55, tip), p.o.polar(at+12, hub),
		}, &line, &fill)
	}
	white := White
	p.ring(p.o, hub, &pen{tone: Muted, width: 0.9}, &white)
}

// drawCylinder draws the wall, open where the drive shaft goes through.
func (p *planFigure) drawCylinder() {
	const opening = 6.0 // degrees either side of 0°
	p.arc(p.o, p.wall+wallWidth/2, opening, 360-2*opening, pen{tone: Muted, width: wallWidth})
	if p.Cylinder == "" {
		return
	}
	b := p.canvas.block([]string{p.Cylinder}, tickStyle)
	p.drawBlock(b, p.o.polar(180, p.wall*0.8), true)
}

// drawDrive draws gear reducer, drive shaft and motor along 0°, with their names.
func (p *planFigure) drawDrive() {
	white, ink := White, pen{tone: Ink, width: 1}
	motor := p.motor
	reducer := boxAt(p.o, 11, 15)
	p.rect(box{p.o.x - 1.6, motor.y1, p.o.x + 1.6, reducer.y0}, &pen{tone: Ink, width: 0.7}, &white)
	p.rect(motor, &ink, &white)
	p.rect(reducer, &pen{tone: Ink, width: 0.8}, &white)
	for i := 1; i <= 3; i++ { // cooling fins, so that it is seen to be a motor
		y := motor.y0 + float64(i)*2.4
		p.line(point{motor.x0 + 3, y}, point{motor.x1 - 3, y}, pen{tone: Soft, width: 0.5})
		y = motor.y1 - float64(i)*2.4
		p.line(point{motor.x0 + 3, y}, point{motor.x1 - 3, y}, pen{tone: Soft, width: 0.5})
	}
	b := p.canvas.block([]string{p.fit(p.Motor, planMotorW-4, calloutStyle)}, calloutStyle)
	p.drawBlock(b, motor.center(), true)
	p.nameBeside(p.DriveShaft, p.o.polar(0, p.wall*0.47), -1)
	p.nameBeside(p.GearReducer, point{p.o.x, p.o.y + p.wall*hubAt + 7}, 0)
}

// nameBeside sets a word left (-1) or right (1) of the drive line, or on it (0).
func (p *planFigure) nameBeside(word string, at point, side float64) {
	if word == "" {
		return
	}
	b := p.canvas.block([]string{p.fit(word, p.wall*0.9, wordStyle)}, wordStyle)
	p.drawBlock(b, point{at.x + side*(b.w/2+5), at.y}, true)
}

// drawAxes draws x toward the motor beside the drive shaft and y toward 90°.
func (p *planFigure) drawAxes() {
	line := pen{tone: Accent, width: 1.3}
	st := style{size: 8, bold: true, tone: Accent}
	hub, end := p.wall*hubAt, p.wall*0.5
	// The drive shaft lies on x itself: the arrow runs beside it.
	const beside = 5.0
	p.arrow(point{p.o.x + beside, p.o.y - hub - 1}, point{p.o.x + beside, p.o.y - end}, line, 6)
	p.haloed(p.X, point{p.o.x + beside + 7, p.o.y - end + 4}, st)
	p.arrow(point{p.o.x + hub + 1, p.o.y}, point{p.o.x + end, p.o.y}, line, 6)
	p.haloed(p.Y, point{p.o.x + end - 4, p.o.y + 8}, st)
}

// haloed sets one word on a white ground.
func (p *planFigure) haloed(word string, at point, st style) {
	if word != "" {
		p.drawBlock(p.canvas.block([]string{word}, st), at, true)
	}
}

// drawTurn shows the sense of counting: an arc from near 0° with its head
// clockwise, and the word.
func (p *planFigure) drawTurn() {
	const from, turn = 12.0, 66.0
	line := pen{tone: Accent, width: 1.3}
	r := p.wall * turnAt
	p.arc(p.o, r, from, turn-4, line)
	end := p.o.polar(from+turn, r)
	p.arrow(p.o.polar(from+turn-7, r), end, line, 6)
	b := p.wrap(p.Turn, p.wall*0.42, wordStyle)
	if len(b.lines) > 0 {
		p.drawBlock(b, p.o.polar(from+turn/2, p.wall*0.56), true)
	}
}

// everyDegree is the most positions whose degrees are all printed; above it every
// third one is.
const everyDegree = 16

// drawPositions draws each position as a tick on the wall with its number in a
// circle and its degrees outside, as many as find room.
func (p *planFigure) drawPositions() {
	r := p.wall + wallWidth + badgeGap + badge
	var badges []point
	for _, q := range p.Positions {
		at := bearing(q.At)
		p.line(p.o.polar(at, p.wall-3), p.o.polar(at, p.wall+wallWidth+badgeGap), pen{tone: Ink, width: 0.7})
		c := p.o.polar(at, r)
		if boxAt(c, 0, 0).near(badges, 2*badge+0.6) {
			continue
		}
		badges = append(badges, c)
		p.drawBadge(q.Number, c)
	}
	var taken []box
	for i, q := range p.Positions {
		if at := bearing(q.At); len(p.Positions) <= everyDegree || i%3 == 0 {
			taken = p.drawDegrees(q.Tick, at, p.o.polar(at, r), badges, taken)
		}
	}
}

// drawBadge is a position number in a circle.
func (p *planFigure) drawBadge(number string, c point) {
	white := White
	st := style{size: small, bold: true, tone: Ink}
	p.ring(c, badge, &pen{tone: Ink, width: 0.7}, &white)
	p.centered(p.fit(number, 2*badge-1, st), c, st)
}

// drawDegrees sets the degrees outside a badge, if they keep clear of the badges
// and of the taken boxes, and gives these with its own added.
func (p *planFigure) drawDegrees(tick string, at float64, c point, badges []point, taken []box) []box {
	w, h := p.measure(tick, tickStyle), small*capHeight
	b := ringBox(p.o, p.wall+ringOut+2, at, w, h)
	if at == 0 { // beside the drive shaft, not across it
		b = boxAt(point{c.x + 4 + w/2, c.y - badge - planMotorUp/2}, w, h)
	}
	if b.near(badges, badge+0.8) || b.grow(0.5).hitsAny(taken) {
		return taken
	}
	p.centered(tick, b.center(), tickStyle)
	return append(taken, b)
}

// near tells whether any of the points is closer to b than d.
func (b box) near(points []point, d float64) bool {
	for _, q := range points {
		dx := max(b.x0-q.x, q.x-b.x1, 0)
		dy := max(b.y0-q.y, q.y-b.y1, 0)
		if math.Hypot(dx, dy) < d {
			return true
		}
	}
	return false
}

// drawSides names the sides left and right and the ends of the drive line.
func (p *planFigure) drawSides() {
	if p.left.w > 0 {
		p.drawBlock(p.left, point{margin + p.left.w/2, p.o.y}, false)
	}
	if p.right.w > 0 {
		p.drawBlock(p.right, point{p.w - margin - p.right.w/2, p.o.y}, false)
	}
	y := p.motor.center().y
	x := p.o.x + planMotorW/2 + 12
	ink := pen{tone: Ink, width: 1}
	if p.Toward != "" {
		p.arrow(point{x, y + 7}, point{x, y - 7}, ink, 5)
		p.text(p.fit(p.Toward, p.w-margin-x-6, wordStyle), point{x + 6, y + small*capHeight/2}, wordStyle)
	}
	if p.Away != "" {
		y = p.o.y + p.wall + ringOut + 2 + small + awayRow - 8
		p.arrow(point{x, y - 6}, point{x, y + 6}, ink, 5)
		p.text(p.fit(p.Away, p.w-margin-x-6, wordStyle), point{x + 6, y + small*capHeight/2}, wordStyle)
	}
}

// drawMove draws the direction of a move as one fat arrow from the center.
func (p *planFigure) drawMove() {
	if p.Move.Dx == 0 && p.Move.Dy == 0 {
		return
	}
	at := math.Atan2(p.Move.Dy, p.Move.Dx) * 180 / math.Pi
	p.arrow(p.o, p.o.polar(at, p.wall*0.55), pen{tone: Ink, width: 4}, 12)
	b := p.wrap(p.Move.Label, p.wall*0.8, calloutStyle)
	if len(b.lines) > 0 {
		area := ringBox(p.o, p.wall*0.58, at, b.w, b.h)
		p.drawBlock(b, area.center(), true)
	}
}

func (p *planFigure) drawNote() { p.drawFooter(p.foot) }
