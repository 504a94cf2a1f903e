package workbook

import (
	"asleft/internal/field"
	"asleft/internal/measure"
)

// The guide's columns: one wide column to read and print, then, for people who
// write scripts, the form's version, its choices that are too long for a
// drop-down, and a word on defined names.
var guideWidths = []float64{118}
var scriptWidths = []float64{4, 30, 18}

// drawingHeight is that of the drawing's one row, in points. The drawing hangs
// in a single cell, so that no program's idea of column widths tears it apart.
const drawingHeight = 372

// guidePlan is the drawing that shows where the crew counts from.
type guidePlan struct {
	row       int // the row it hangs in
	direction field.Direction
	degrees   []measure.Angle // of the positions, as the crew counts
	motor     string          // words on the drawing
	fan       string
	zero      string
}

// guideSheet lays out the first sheet; the part for scripts follows at the end.
func (b *builder) guideSheet() {
	b.open(b.say("form.sheet.guide"), "guide", true, guideWidths)
	b.keep(1)
	b.whereZeroIs()
	b.paragraphs("form.guide.fill", []string{"boxes", "lengths", "angles", "dates", "rounds",
		"heads", "blocked", "rows", "marks", "paper"})
	b.readingsGuide()
	b.paginate()
	b.sheet.printed = area{b.sheet.title, pos{1, 1}, pos{1, b.row - 1}}
}

func (b *builder) whereZeroIs() {
	b.put(1, b.say("form.guide.zero"), lookBlock, blockHeight)
	direction := "form.guide.clockwise"
	if b.o.Direction == field.CounterClockwise {
		direction = "form.guide.counterclockwise"
	}
	b.note(b.say("form.guide.zerotext") + " " + b.say(direction, "first", degreeText(b.o.crewDegrees(0))))
	g := &guidePlan{row: b.row, direction: b.o.Direction, motor: b.say("form.guide.motor"),
		fan: b.say("form.guide.fan"), zero: b.say("form.guide.toward")}
	for i := range b.o.Positions {
		g.degrees = append(g.degrees, b.o.crewDegrees(i))
	}
	b.sheet.guide = g
	b.next(drawingHeight)
}

// paragraphs writes instructions under a heading.
func (b *builder) paragraphs(key string, parts []string) {
	start := b.row
	b.put(1, b.say(key+".title"), lookBlock, blockHeight)
	for _, part := range parts {
		b.note(b.say(key + "." + part))
	}
	b.row++
	b.keep(start)
}

// readingsGuide says how each reading is taken.
func (b *builder) readingsGuide() {
	start := b.row
	b.put(1, b.say("form.guide.readings"), lookBlock, blockHeight)
	for _, sheet := range cellSheets() {
		for _, k := range sheet.blocks {
			if k.shape == seriesShape && !b.o.without(k) {
				b.note(b.say("form.block."+k.key) + ": " + b.say("form.how."+k.key))
			}
		}
	}
	b.row++
	b.keep(start)
}

// Columns of the part for scripts.
const (
	scriptKey    = 3
	scriptSecond = 4
)

// scriptPart ends the guide, beside what is printed.
func (b *builder) scriptPart() {
	b.sheet, b.row = b.plan.sheets[0], 1
	b.sheet.widths = append(b.sheet.widths[:1:1], scriptWidths...)
	for _, line := range []struct{ key, value string }{
		{"version", Version}, {"language", b.o.Words.Tag()},
	} {
		b.script(line.value, "form_"+line.key, b.say("form.guide."+line.key), 1)
	}
	b.row++
	for _, l := range b.o.longLists() {
		b.longList(l)
	}
	b.namesNote()
}

// longLists are the choices that the guide lists: what scripts want to know, and
// all that a drop-down cannot hold itself.
func (o FormOptions) longLists() []*list {
	all := []*list{event(), check(), fastenerSet()}
	listed := map[string]bool{}
	for _, l := range all {
		listed[l.key] = true
	}
	add := func(s slot) {
		if l := s.list; l != nil && !listed[l.key] && !fitsDropList(o.wordsOf(l)) {
			listed[l.key] = true
			all = append(all, l)
		}
	}
	for _, k := range formBlocks() {
		for _, s := range k.slots {
			add(s)
		}
		for _, row := range k.keyed {
			for _, s := range row.quantities {
				add(s)
			}
		}
		if k.run != nil {
			for _, s := range k.run.heads {
				add(s)
			}
		}
	}
	return all
}

// formBlocks are all blocks of the form.
func formBlocks() []block {
	var all []block
	for _, s := range towerSheets() {
		all = append(all, s.blocks...)
	}
	for _, s := range cellSheets() {
		all = append(all, s.blocks...)
	}
	return all
}

// wordsOf is what a drop-down of a choice offers.
func (o FormOptions) wordsOf(l *list) []string {
	var words []string
	for _, code := range l.codes {
		words = append(words, o.Words.Say(l.say(code)))
	}
	return words
}

// longList writes the words of a choice that drop-downs point to.
func (b *builder) longList(l *list) {
	title := b.say("form.guide.choices")
	if own := "form.guide." + l.key + "s"; b.o.Words.Has(own) {
		title = b.say(own)
	}
	b.script("", "", title, 0)
	for i, code := range l.codes {
		b.text(pos{scriptKey, b.row + i}, b.say(l.say(code)), lookPlain)
		b.text(pos{scriptSecond, b.row + i}, code, lookHint)
	}
	b.name(l.name(), b.area(scriptKey, b.row, 1, len(l.codes)), title)
	b.row += len(l.codes) + 1
}

// script writes a line of a label and a value, with a name if it has one.
func (b *builder) script(value, name, label string, rows int) {
	b.text(pos{scriptKey, b.row}, label, lookPlain)
	if rows > 0 {
		b.text(pos{scriptSecond, b.row}, value, lookPlain)
		b.name(name, b.area(scriptSecond, b.row, 1, 1), label)
	}
	b.row++
}

// namesNote says where the defined names are listed: in the workbook itself, each
// with what it holds.
func (b *builder) namesNote() {
	b.script("", "", b.say("form.guide.namestext"), 0)
	b.sheet.rows = max(b.sheet.rows, b.row-1)
}
