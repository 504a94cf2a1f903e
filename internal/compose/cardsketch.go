package compose

import (
	"strings"

	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// cardSketch is the cell from above with the moves of the card, lower where the
// card is full.
func (b *book) cardSketch(m correct.Moves, d density) page.Picture {
	h := 236.0
	if d > mainBoxes {
		h = 200
	}
	if d == lowSketch {
		h = 150
	}
	h += motorRoom(m.Moves)
	p := b.sketch(m.Moves, plot.Frame{Width: sketchWidth, Height: h})
	if fig, ok := p.Figure.(plot.FeetSketch); ok && d == lowSketch && fig.Slide != nil {
		// No room for its amounts, which stand in the list beside it.
		fig.Slide.Along, fig.Slide.Across = "", ""
		p.Figure = fig
	}
	return p
}

const sketchWidth = 285

// motorRoom is the height that the feet of the motor take where it moves.
func motorRoom(moves []correct.Move) float64 {
	h := 0.0
	for _, x := range moves {
		if x.Kind == correct.KindMotorShim || x.Kind == correct.KindMotorPush || x.Kind == correct.KindMotorAxial {
			h += 50
		}
	}
	return h
}

// sketch draws moves; its alternative text says them.
func (b *book) sketch(moves []correct.Move, frame plot.Frame) page.Picture {
	fig := plot.FeetSketch{
		Frame: frame,
		Motor: b.say("card.motorword"), Toward: b.say("figure.toward"),
		Side90: b.say("figure.side90", "name", b.sideName()),
	}
	fig.Note = b.say("card.sketchnote")
	var said []string
	for _, m := range moves {
		b.intoSketch(&fig, m)
		said = append(said, strings.TrimSuffix(b.moveLine(m), "."))
	}
	if len(fig.Feet) == 0 && len(fig.Places) == 0 {
		b.feetAsTheyAre(&fig)
	}
	return page.Picture{Figure: fig, Alt: b.say("card.sketchalt", "text", strings.Join(said, "; "))}
}

// intoSketch adds what a move changes.
func (b *book) intoSketch(fig *plot.FeetSketch, m correct.Move) {
	switch m.Kind {
	case correct.KindShim:
		for _, f := range m.Feet {
			if at, ok := b.footPlace(f.Foot); ok {
				fig.Feet = append(fig.Feet, b.sketchFoot(at, f.Change))
			}
		}
	case correct.KindSlide, correct.KindCylinder:
		fig.Slide = b.sketchSlide(m)
	case correct.KindWall:
		b.wallPlaces(fig, m)
	case correct.KindMotorShim:
		fig.Front.Lines = append(fig.Front.Lines, b.footLines(b.say("card.frontfeet"), m.Motor.Front)...)
		fig.Rear.Lines = append(fig.Rear.Lines, b.footLines(b.say("card.rearfeet"), m.Motor.Rear)...)
	case correct.KindMotorPush:
		fig.Front.Push, fig.Rear.Push = sign(m.Motor.Front), sign(m.Motor.Rear)
	case correct.KindMotorAxial:
		fig.Axial = sign(m.Along)
	}
}

func sign(l measure.Length) int {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}

func (b *book) footPlace(number int) (field.Foot, bool) {
	for _, f := range b.in.Record.Tower.Geometry.Feet {
		if f.Number == number {
			return f, f.Along.Set && f.Across.Set
		}
	}
	return field.Foot{}, false
}

func (b *book) sketchFoot(at field.Foot, change measure.Length) plot.SketchFoot {
	out := plot.SketchFoot{Number: itoa(at.Number), Along: at.Along.Value.Float(b.first), Across: at.Across.Value.Float(b.first)}
	if change != 0 {
		out.Moved, out.Lines = true, b.footLines("", change)
	}
	return out
}

// footLines is a change of shims on short lines.
func (b *book) footLines(name string, change measure.Length) []string {
	var out []string
	if name != "" {
		out = append(out, name)
	}
	if change == 0 {
		return append(out, b.shimChange(0))
	}
	key := "shims.add"
	if change < 0 {
		key = "shims.out"
	}
	l := change.Abs()
	return append(out,
		b.say(key, "amount", withUnit(l.Format(b.first, decimalsOf(b.first)), b.first.String())),
		withUnit(l.Format(b.second, decimalsOf(b.second)), b.second.String()))
}

// feetAsTheyAre shows the feet where none is changed.
func (b *book) feetAsTheyAre(fig *plot.FeetSketch) {
	for _, f := range b.in.Record.Tower.Geometry.Feet {
		if f.Along.Set && f.Across.Set {
			fig.Feet = append(fig.Feet, b.sketchFoot(f, 0))
		}
	}
}

// sketchSlide is the arrow with the amounts of its components; the list says
// which way in words.
func (b *book) sketchSlide(m correct.Move) *plot.SketchSlide {
	across := (m.Front + m.Rear) / 2
	out := &plot.SketchSlide{Dx: m.Along.Float(b.first), Dy: across.Float(b.first)}
	if m.Along != 0 {
		out.Along = b.short(m.Along)
	}
	if across != 0 {
		out.Across = b.short(across)
	}
	return out
}

// short is an amount as set, in the leading unit alone.
func (b *book) short(l measure.Length) string {
	l = l.Abs()
	if text, exact := l.FormatFraction(64); exact && b.first == measure.UnitInch {
		return withUnit(text, "in")
	}
	return withUnit(l.Format(b.first, decimalsOf(b.first)), b.first.String())
}

func (b *book) wallPlaces(fig *plot.FeetSketch, m correct.Move) {
	moved := map[int]int{}
	for _, w := range b.wallMoves(m) {
		moved[w.Position] = sign(w.In)
	}
	for _, p := range b.in.Record.Tower.Positions {
		fig.Places = append(fig.Places, plot.SketchPlace{At: angleFloat(p.Degrees), Number: itoa(p.Number), In: moved[p.Number]})
	}
}
