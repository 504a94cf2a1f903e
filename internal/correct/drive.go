package correct

import (
	"errors"
	"math"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// Faces is the gap of one coupling at four clock positions.
type Faces struct {
	Top, Ninety, Bottom, Other measure.Length
	Diameter                   measure.Length // of the circle where they were read
}

// DriveProblem is a one-piece floating shaft between two flex planes: B at the
// gear reducer's input shaft, A at the motor.
type DriveProblem struct {
	Gear, Motor         Faces // at B and at A
	Span                measure.Length
	FrontFeet, RearFeet measure.Length // of the motor, behind A
	MotorStep           measure.Length // thinnest shim under the motor
	PushStep            measure.Length // horizontal moves are stated to
	GrowFront, GrowRear measure.Length // rise from cold to hot, less that of the input shaft
	ShaftEnds           *measure.Length
	EndsNominal         *measure.Length
	U                   measure.Length // standard uncertainty of a face reading, 0 where not known
	Along, Height       measure.Length // of plane B: from the fan center, and above the shimmed plane
	Moved               GearMoved
	RidesAlong          bool // what was shimmed and slid carries the motor too
	MotorLimits
}

// GearMoved is what shims and slide do to the gear reducer.
type GearMoved struct {
	Slope  Lean           // by which the support was raised
	Raised measure.Length // at the fan's axis
	Slide  Shift
	slope  vec // not rounded; Slope is used where it is zero
}

// DrivePlan is where the motor's feet must go, and the faces before and after
// the gear reducer's move. Slopes are the later shaft's less the earlier one's,
// along: vertical up, Across: toward the 90° side.
type DrivePlan struct {
	AtGear, AtMotor       Lean // as read
	MovedGear, MovedMotor Lean // after the gear reducer's move
	FacesGear, FacesMotor Faces
	PlaneB                [3]measure.Length // displacement: along, across, up
	ShaftEnds             *measure.Length   // after the gear reducer's move
	Shims, Push           MotorFeet         // up, and toward the 90° side; in whole steps
	Exact, ExactPush      MotorFeet
	Axial                 measure.Length // the motor, away from the gear reducer
	UncertainFront        measure.Length // standard, of the feet's amounts; 0 where not known
	UncertainRear         measure.Length
	AfterGear, AfterMotor Faces // after the motor's move, cold: what is read again
	HotGear, HotMotor     Faces // the same once the motor has grown: what is judged
	Notes                 []assess.Code
	Binding               []assess.Code // what keeps the motor from where it should be
}

// ErrDrive reports a drive line without the lengths it is computed from.
var ErrDrive = errors.New("drive line without span or face diameters")

// bends are the two slopes of one plane of view: σ_B and σ_A.
type bends struct{ b, a float64 }

// SolveDrive finds the motor's move with the gear reducer as reference.
//
// With σ_B the drive shaft's slope less the input shaft's and σ_A the motor's less
// the drive shaft's, the motor is off by L·σ_B at A and by L·σ_B + (σ_A + σ_B)·f
// at a foot f behind A; the feet move by minus that, and start low by what
// they grow. (Face-face readings over a long span: Piotrowski, Shaft Alignment
// Handbook, 3rd edition, chapter 14, for the method; the formula is geometry.)
func SolveDrive(p DriveProblem) (DrivePlan, error) {
	if p.Span <= 0 || p.Gear.Diameter <= 0 || p.Motor.Diameter <= 0 {
		return DrivePlan{}, ErrDrive
	}
	v0 := bends{slopeUp(p.Gear), slopeUp(p.Motor)}
	h0 := bends{slopeAcross(p.Gear), slopeAcross(p.Motor)}
	d, g := p.displaced()
	v, h := v0.after(d.up, g.x, p.Span), h0.after(d.plan.y, 0, p.Span)
	out := DrivePlan{
		AtGear: leanOf(vec{v0.b, h0.b}), AtMotor: leanOf(vec{v0.a, h0.a}),
		MovedGear: leanOf(vec{v.b, h.b}), MovedMotor: leanOf(vec{v.a, h.a}),
		PlaneB: [3]measure.Length{nearest(d.plan.x), nearest(d.plan.y), nearest(d.up)},
	}
	out.FacesGear = p.Gear.bent(v.b-v0.b, h.b-h0.b, -d.plan.x/2)
	out.FacesMotor = p.Motor.bent(v.a-v0.a, h.a-h0.a, -d.plan.x/2)
	if p.ShaftEnds != nil {
		ends := *p.ShaftEnds - nearest(d.plan.x)
		out.ShaftEnds = &ends
		if p.EndsNominal != nil {
			out.Axial = (*p.EndsNominal - ends).RoundTo(p.PushStep)
		}
	}
	p.motor(v, h, &out)
	return out, nil
}

// slopeUp is positive where the far shaft climbs away from the near one: its
// flange is then open at the bottom.
func slopeUp(f Faces) float64 { return float64(f.Bottom-f.Top) / float64(f.Diameter) }

// slopeAcross is the same seen from above, toward the 90° side.
func slopeAcross(f Faces) float64 { return float64(f.Other-f.Ninety) / float64(f.Diameter) }

// displacement of plane B.
type displacement struct {
	plan vec
	up   float64
}

// displaced is where the gear reducer's move takes plane B, at x_B along and H_p
// above its feet: (m_x − H_p·g_x, m_y − H_p·g_y, g_x·x_B + c). A support that
// carries the motor as well moves nothing against anything.
func (p *DriveProblem) displaced() (displacement, vec) {
	if p.RidesAlong {
		return displacement{}, vec{}
	}
	g := p.Moved.slope
	if g == (vec{}) {
		g = p.Moved.Slope.vec()
	}
	return displacement{p.Moved.Slide.vec().plus(hubShift(p.Height, g)),
		float64(g.x*float64(p.Along)) + float64(p.Moved.Raised)}, g
}

// after returns the slopes once plane B has moved by d across the line of
// sight and the input shaft's slope has grown by g.
func (s bends) after(d, g float64, span measure.Length) bends {
	turn := d / float64(span)
	return bends{s.b - turn - g, s.a + turn}
}

// off is how far the motor stands off the input shaft's line at f behind A.
func (s bends) off(f, span measure.Length) float64 {
	return float64(float64(span)*s.b) + float64((s.a+s.b)*float64(f))
}

// bent returns the faces after the slopes changed and the gap grew by widened
// in the middle; the two couplings are taken to share a change of length.
func (f Faces) bent(up, across, widened float64) Faces {
	half := float64(f.Diameter) / 2
	at := func(l measure.Length, d float64) measure.Length { return l + nearest(d+widened) }
	return Faces{
		Top: at(f.Top, -float64(up*half)), Bottom: at(f.Bottom, float64(up*half)),
		Ninety: at(f.Ninety, -float64(across*half)), Other: at(f.Other, float64(across*half)),
		Diameter: f.Diameter,
	}
}

// motor finds the feet's amounts and the faces that remain with whole steps.
func (p *DriveProblem) motor(v, h bends, out *DrivePlan) {
	feet := func(s bends, grow MotorFeet) MotorFeet {
		return MotorFeet{nearest(-s.off(p.FrontFeet, p.Span)) - grow.Front, nearest(-s.off(p.RearFeet, p.Span)) - grow.Rear}
	}
	out.Exact = feet(v, MotorFeet{p.GrowFront, p.GrowRear})
	out.ExactPush = feet(h, MotorFeet{})
	out.Shims, out.Push = p.settle(out.Exact, out.ExactPush.roundTo(p.PushStep), &out.Binding)
	out.UncertainFront, out.UncertainRear = p.uncertain(p.FrontFeet), p.uncertain(p.RearFeet)
	v1, h1 := p.pushed(v, out.Shims), p.pushed(h, out.Push)
	out.AfterGear = out.FacesGear.bent(v1.b-v.b, h1.b-h.b, float64(out.Axial)/2)
	out.AfterMotor = out.FacesMotor.bent(v1.a-v.a, h1.a-h.a, float64(out.Axial)/2)
	v1 = p.pushed(v, MotorFeet{out.Shims.Front + p.GrowFront, out.Shims.Rear + p.GrowRear})
	out.HotGear = out.FacesGear.bent(v1.b-v.b, h1.b-h.b, float64(out.Axial)/2)
	out.HotMotor = out.FacesMotor.bent(v1.a-v.a, h1.a-h.a, float64(out.Axial)/2)
	if p.GrowFront != 0 || p.GrowRear != 0 {
		out.Notes = append(out.Notes, code(warnGrowth, lengthArg("front", p.GrowFront), lengthArg("rear", p.GrowRear)))
	}
	_, front := p.out(true)
	_, rear := p.out(false)
	if out.Shims.Front < 0 && !front || out.Shims.Rear < 0 && !rear {
		out.Notes = append(out.Notes, code(warnMotorOut, lengthArg("front", out.Shims.Front), lengthArg("rear", out.Shims.Rear)))
	}
}

func (m MotorFeet) roundTo(step measure.Length) MotorFeet {
	return MotorFeet{m.Front.RoundTo(step), m.Rear.RoundTo(step)}
}

// pushed is the slopes after the motor's feet have moved.
func (p *DriveProblem) pushed(s bends, feet MotorFeet) bends {
	if p.RearFeet == p.FrontFeet {
		return s
	}
	turn := float64(feet.Rear-feet.Front) / float64(p.RearFeet-p.FrontFeet)
	atA := float64(feet.Front) - float64(turn*float64(p.FrontFeet))
	shaft := atA / float64(p.Span)
	return bends{s.b + shaft, s.a + turn - shaft}
}

// uncertain is the standard uncertainty of a foot's amount, (L + f)·σ_B + f·σ_A
// with each slope a difference of two readings over a diameter.
func (p *DriveProblem) uncertain(f measure.Length) measure.Length {
	return nearest(math.Sqrt2 * float64(p.U) *
		hypot(float64(p.Span+f)/float64(p.Gear.Diameter), float64(f)/float64(p.Motor.Diameter)))
}
