package correct

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// MotorLimits is what keeps a motor from going where it should. The zero value is
// nothing.
type MotorLimits struct {
	Feet      []MotorFoot
	Stock     []measure.Length // thicknesses of shims at hand; nil are the usual ones
	MaxPieces int              // in one stack; 0 is no limit; for feet whose stack is known
	Blocked   []MotorWay
}

// MotorFoot is a place under the motor that is shimmed. The two feet of an end
// are changed by the same amount.
type MotorFoot struct {
	Place string
	Front bool // next to the gear reducer
	Foot       // Known tells that Now was given
}

// MotorWay is a direction in which an end of the motor cannot go.
type MotorWay struct {
	Direction string // code: towardMotor and so on, or stuckShims
	Front     bool
}

// blocked tells whether an end cannot go a way.
func (m *MotorLimits) blocked(direction string, front bool) bool {
	return slices.Contains(m.Blocked, MotorWay{direction, front})
}

// endName is the code of an end.
func endName(front bool) string {
	if front {
		return endFront
	}
	return endRear
}

// settle takes shims to whole steps that can be stacked and pushes to where
// nothing is in the way; what keeps it from that is added to binding.
func (p *DriveProblem) settle(exact, push MotorFeet, binding *[]assess.Code) (MotorFeet, MotorFeet) {
	b := newBuilder(max(p.MotorStep, 1), p.Stock)
	return MotorFeet{p.shims(exact.Front, true, b, binding), p.shims(exact.Rear, false, b, binding)},
		MotorFeet{p.push(push.Front, true, binding), p.push(push.Rear, false, binding)}
}

// push is no push where that side is blocked.
func (p *DriveProblem) push(by measure.Length, front bool, binding *[]assess.Code) measure.Length {
	way := ninetySide
	if by < 0 {
		way = otherSide
	}
	if by == 0 || !p.blocked(way, front) {
		return by
	}
	*binding = append(*binding, code(bindMotor, textArg("feet", endName(front)), textArg("direction", way)))
	return 0
}

// nearSteps is how many steps from the wanted amount a stack may be off that the
// shims at hand do make.
const nearSteps = 40

// shims is the change at an end: the amount nearest to the wanted one that both
// of its stacks can take.
func (p *DriveProblem) shims(exact measure.Length, front bool, b builder, binding *[]assess.Code) measure.Length {
	step := max(p.MotorStep, 1)
	want := exact.RoundTo(step)
	if want == 0 {
		return 0
	}
	if p.blocked(stuckShims, front) {
		*binding = append(*binding, code(bindMotorFeet, textArg("feet", endName(front))))
		return 0
	}
	if most, ok := p.out(front); ok && want < -most {
		*binding = append(*binding, code(bindShimsOut, textArg("feet", endName(front)), lengthArg("stack", most), lengthArg("needed", -want)))
		want = -most - (-most)%step
	}
	for n := range min(want.Abs()/step, nearSteps+1) { // no farther than leaving it as it is
		near, far := want+n*step, want-n*step
		if (far - exact).Abs() < (near - exact).Abs() {
			near, far = far, near
		}
		for _, c := range []measure.Length{near, far} {
			if p.stacks(c, front, b) {
				return c
			}
		}
	}
	p.noStack(binding)
	return 0
}

// noStack says why no stack is near enough: the shims at hand, or how many pieces
// one may have.
func (p *DriveProblem) noStack(binding *[]assess.Code) {
	if len(p.Stock) == 0 && p.MaxPieces > 0 {
		*binding = append(*binding, code(bindPieces, numberArg("pieces", p.MaxPieces)))
		return
	}
	*binding = append(*binding, code(bindStock))
}

// out is how much can come out of both stacks of an end; false where neither is
// known.
func (p *DriveProblem) out(front bool) (least measure.Length, known bool) {
	for _, f := range p.Feet {
		if f.Front == front && f.Known && (!known || f.Now < least) {
			least, known = f.Now, true
		}
	}
	return least, known
}

// stacks tells whether both stacks of an end can take a change.
func (p *DriveProblem) stacks(change measure.Length, front bool, b builder) bool {
	for _, f := range p.Feet {
		if f.Front != front || !f.Known && change <= 0 {
			continue
		}
		n, made := b.pieces(f.Foot, change)
		if f.Known && f.Now+change < 0 || !made || f.Known && change != 0 && p.MaxPieces > 0 && n > p.MaxPieces {
			return false
		}
	}
	return true
}

// stackList is NOW, CHANGE and NEW of each of the motor's feet; none where nobody
// said what is there, or what is at hand.
func (p *DriveProblem) stackList(shims MotorFeet) []MotorChange {
	if len(p.Stock) == 0 && !slices.ContainsFunc(p.Feet, func(f MotorFoot) bool { return f.Known }) {
		return nil
	}
	b := newBuilder(max(p.MotorStep, 1), p.Stock)
	var out []MotorChange
	for _, f := range p.Feet {
		change := shims.Rear
		if f.Front {
			change = shims.Front
		}
		out = append(out, MotorChange{f.Place, f.changed(change, b)})
	}
	return out
}
