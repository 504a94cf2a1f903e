package compose

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/field"
	"asleft/internal/measure"
)

// This file puts moves into words. No amount has a sign here: which way is said
// in words, in the frame of the crew.

// MoveLine is something to be said about the moves of a cell: a move, or why
// there is none.
type MoveLine struct {
	Cell int
	Key  string // of the phrase: the kind of move, or the code
	Text string
}

// MoveLines are the moves of all cells in words, then what is to be said about
// them.
func MoveLines(in Input) ([]MoveLine, error) {
	b := newBook(&in, made{})
	var out []MoveLine
	for _, m := range in.Moves {
		c, ok := b.cellOf(m.Cell)
		if !ok || !b.wantsCard(c, m) {
			continue
		}
		for _, x := range m.Moves {
			out = append(out, MoveLine{m.Cell, x.Kind, b.moveLine(x)})
		}
		for _, n := range b.saidAlong(m) {
			out = append(out, MoveLine{m.Cell, n.Key, b.moveCode(n)})
		}
	}
	return out, b.err()
}

// LoopLines say of each cell whose readings and log contradict each other what
// is to be looked at.
func LoopLines(in Input) ([]MoveLine, error) {
	b := newBook(&in, made{})
	var out []MoveLine
	for _, m := range in.Moves {
		if m.Loop != nil && m.Loop.Contradicts() {
			out = append(out, MoveLine{m.Cell, m.Loop.Code.Key, b.moveCode(m.Loop.Code)})
		}
	}
	return out, b.err()
}

// saidAlong are the codes beside the moves, each once.
func (b *book) saidAlong(m correct.Moves) []assess.Code {
	var out []assess.Code
	seen := map[string]bool{}
	add := func(codes []assess.Code) {
		for _, c := range codes {
			if text := b.moveCode(c); !seen[text] {
				seen[text] = true
				out = append(out, c)
			}
		}
	}
	for _, x := range m.Moves {
		add(x.Notes)
	}
	add(m.Notes)
	return out
}

// moveLine is a move in one line.
func (b *book) moveLine(m correct.Move) string {
	steps := b.moveSteps(m)
	if len(steps) == 0 {
		return b.say("moveline.hub", "title", b.moveTitle(m))
	}
	return b.say("moveline.text", "title", b.moveTitle(m), "steps", strings.Join(steps, "; "))
}

// moveTitle names the kind of move.
func (b *book) moveTitle(m correct.Move) string {
	what := "gear"
	if strings.HasPrefix(m.Event, "support.") {
		what = "support"
	}
	return b.say(m.Kind, "what", b.say("moved."+what))
}

// moveSteps are what is done, one phrase each; none where the title says all.
func (b *book) moveSteps(m correct.Move) []string {
	var out []string
	switch m.Kind {
	case correct.KindShim:
		for _, f := range m.Feet {
			out = append(out, b.say("step.foot", "foot", strconv.Itoa(f.Foot), "change", b.stackChange(f)))
		}
	case correct.KindSlide, correct.KindCylinder:
		out = []string{b.slideText(m)}
	case correct.KindBladeOut, correct.KindBladeSeat:
		for _, c := range m.Blades {
			out = append(out, b.say("step.blade", "blade", strconv.Itoa(c.Blade), "change", b.bladeChange(m.Kind, c.Change)))
		}
	case correct.KindBladePitch:
		for _, c := range m.Blades {
			out = append(out, b.say("step.bladeangle", "blade", strconv.Itoa(c.Blade), "change", b.bladeChange(m.Kind, c.Change),
				"angle", angleText(measure.Angle(c.New.N))))
		}
	case correct.KindWall:
		for _, w := range b.wallMoves(m) {
			out = append(out, b.say("step.place", "position", strconv.Itoa(w.Position), "degrees", degrees(w.Degrees), "change", b.wallChange(w.In)))
		}
	case correct.KindMotorShim:
		for _, s := range m.Stacks {
			out = append(out, b.say("step.motorfoot", "foot", b.motorFoot(s.Place), "change", b.stackChange(s.FootChange)))
		}
		if len(out) > 0 {
			return out
		}
		out = b.motorSteps(b.shimChange(m.Motor.Front), b.shimChange(m.Motor.Rear))
	case correct.KindMotorPush:
		out = b.motorSteps(b.across(m.Motor.Front, b.twice), b.across(m.Motor.Rear, b.twice))
	case correct.KindMotorAxial:
		out = []string{b.axial(m.Along)}
	}
	return out
}

func (b *book) motorSteps(front, rear string) []string {
	return []string{b.say("step.front", "change", front), b.say("step.rear", "change", rear)}
}

// slideText is a slide in its two components.
func (b *book) slideText(m correct.Move) string {
	along := ""
	if m.Along != 0 {
		along = b.along(m.Along)
	}
	switch {
	case m.Front != m.Rear:
		return b.say("step.bothfeet", "along", b.along(m.Along),
			"front", b.across(m.Front, b.setTo), "rear", b.across(m.Rear, b.setTo))
	case m.Front == 0:
		return b.along(m.Along)
	case along == "":
		return b.across(m.Front, b.setTo)
	}
	return b.say("step.both", "along", along, "across", b.across(m.Front, b.setTo))
}

func (b *book) along(l measure.Length) string {
	switch {
	case l > 0:
		return b.say("way.toward", "amount", b.setTo(l))
	case l < 0:
		return b.say("way.away", "amount", b.setTo(l))
	}
	return b.say("way.stay")
}

func (b *book) across(l measure.Length, amount func(measure.Length) string) string {
	switch {
	case l > 0:
		return b.say("way.side", "amount", amount(l), "side", b.sideName())
	case l < 0:
		return b.say("way.other", "amount", amount(l), "side", b.sideName())
	}
	return b.say("way.stay")
}

// axial is a move of the motor; positive is away from the gear reducer.
func (b *book) axial(l measure.Length) string {
	if l < 0 {
		return b.say("way.towardgear", "amount", b.setTo(l))
	}
	return b.say("way.awaygear", "amount", b.setTo(l))
}

// sideName is the name of the 90° side as typed on the form.
func (b *book) sideName() string { return b.or(b.text(b.in.Record.Tower.SideName), "sideword.unnamed") }

func (b *book) shimChange(l measure.Length) string {
	switch {
	case l > 0:
		return b.say("shims.add", "amount", b.twice(l))
	case l < 0:
		return b.say("shims.out", "amount", b.twice(l))
	}
	return b.say("shims.none")
}

// stackChange is a change of shims with what the stack is made of.
func (b *book) stackChange(f correct.FootChange) string {
	if pieces := b.pieces(f); pieces != "" {
		return b.say("step.made", "change", b.shimChange(f.Change), "pieces", pieces)
	}
	return b.shimChange(f.Change)
}

// bladeChange says which way a blade goes: a larger gap is in, away from the
// wall; a larger height is up; a larger angle is more pitch.
func (b *book) bladeChange(kind string, a assess.Amount) string {
	words := map[string][2]string{
		correct.KindBladeOut:   {"blade.out", "blade.in"},
		correct.KindBladeSeat:  {"blade.lower", "blade.raise"},
		correct.KindBladePitch: {"blade.less", "blade.more"},
	}[kind]
	way := words[1]
	if a.N < 0 {
		way = words[0]
	}
	return b.say(way, "amount", b.setAmount(a))
}

func (b *book) wallChange(in measure.Length) string {
	if in < 0 {
		return b.say("wall.out", "amount", b.setTo(in))
	}
	return b.say("wall.in", "amount", b.setTo(in))
}

// wallMoves are the places that must move; where none must, all that do.
func (b *book) wallMoves(m correct.Move) []correct.WallMove {
	var needed, any []correct.WallMove
	for _, w := range m.Wall {
		if w.In.Abs() < measure.SixtyFourth/2 {
			continue // no wall is set closer than that
		}
		any = append(any, w)
		if w.Needed {
			needed = append(needed, w)
		}
	}
	if len(needed) > 0 {
		return needed
	}
	return any
}

// twice prints an amount in both units, without a sign: "0.071 in (1.80 mm)".
func (b *book) twice(l measure.Length) string {
	l = l.Abs()
	return withUnit(l.Format(b.first, decimalsOf(b.first)), b.first.String()) +
		" (" + withUnit(l.Format(b.second, decimalsOf(b.second)), b.second.String()) + ")"
}

// setTo prints what a tape is set to: in inches a fraction of 1/64 with its
// decimal.
func (b *book) setTo(l measure.Length) string {
	l = l.Abs()
	fraction, exact := l.FormatFraction(64)
	if b.first != measure.UnitInch || !exact || !strings.Contains(fraction, "/") {
		return b.twice(l)
	}
	return withUnit(fraction, "in") + " (" + withUnit(l.Format(measure.UnitInch, inchDecimals), "in") + ", " +
		withUnit(l.Format(measure.UnitMillimeter, milliDecimals), "mm") + ")"
}

// setAmount prints a length or an angle as set, without a sign.
func (b *book) setAmount(a assess.Amount) string {
	if a.Kind == assess.KindAngle {
		return angleText(max(measure.Angle(a.N), -measure.Angle(a.N)))
	}
	return b.setTo(measure.Length(a.N))
}

// angleText prints an angle to a tenth of a degree, to a hundredth where it is
// not a whole number of tenths.
func angleText(v measure.Angle) string {
	decimals := 1
	if v%(measure.Degree/10) != 0 {
		decimals = 2
	}
	return v.Format(decimals) + "°"
}

// moveCode puts a code of the moves into words. The same code with an amount the
// other way has its phrase under "less".
func (b *book) moveCode(c assess.Code) string {
	key := c.Key
	var pairs []string
	for _, a := range c.Args {
		if a.Amount != nil && a.Amount.N < 0 && b.in.Words.Has("less."+c.Key) {
			key = "less." + c.Key
		}
		pairs = append(pairs, a.Name, b.moveArg(c.Key, a))
	}
	return b.say(key, pairs...)
}

func (b *book) moveArg(key string, a assess.Arg) string {
	switch {
	case a.Number != nil:
		return strconv.Itoa(*a.Number)
	case a.Amount != nil && a.Amount.Kind == assess.KindLength:
		return b.moveLength(key, measure.Length(a.Amount.N))
	case a.Amount != nil:
		return b.setAmount(*a.Amount)
	}
	switch a.Name {
	case "check", "round", "event", "slip":
		return b.say(a.Name + "." + a.Text)
	case "feet":
		return b.say("end." + a.Text)
	case "direction":
		if key == "correct.bind.motor" {
			return b.motorWay(a.Text)
		}
		return b.say("direction."+a.Text, "side", b.sideName())
	}
	return b.clean(a.Text, field.Ref{})
}

// motorWay is a direction of the motor itself, which does not go toward itself.
func (b *book) motorWay(way string) string {
	if own := "direction.motor" + way; b.in.Words.Has(own) {
		return b.say(own)
	}
	return b.say("direction."+way, "side", b.sideName())
}

// moveLength prints a length as its phrase needs it.
func (b *book) moveLength(key string, l measure.Length) string {
	switch key {
	case "correct.motorshimsout":
		return b.shimChange(l)
	case "correct.growth":
		return b.growth(l)
	}
	return b.twice(l)
}

func (b *book) growth(l measure.Length) string {
	switch {
	case l > 0:
		return b.say("growth.up", "amount", b.twice(l))
	case l < 0:
		return b.say("growth.down", "amount", b.twice(l))
	}
	return b.say("growth.none")
}
