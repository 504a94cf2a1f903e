package correct_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

// Bounds of what is first order in the package. With slopes up to 0.007 and arms
// up to 84 in, what is left out is of the order slope² × arm.
const (
	dropBound = 0.0045 // in
	gapBound  = 0.0060
	faceBound = 0.0006
)

func facesOf(f [4]float64, d float64) correct.Faces {
	return correct.Faces{Top: nm(f[0]), Ninety: nm(f[1]), Bottom: nm(f[2]), Other: nm(f[3]), Diameter: nm(d)}
}

func worst(t *testing.T, got, want []correct.Reading) float64 {
	t.Helper()
	w := 0.0
	for i := range got {
		w = math.Max(w, math.Abs(in(got[i].Value-want[i].Value)))
	}
	return w
}

// TestRigidBody builds machines out of true, reads them, makes the advised moves
// in the model, and reads again: the readings are those predicted, the tilt and
// the off center are gone, the motor's couplings true.
func TestRigidBody(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var drops, gaps, face float64
	for range 500 {
		m := crooked(r, 0.05*r.Float64())
		feet := rectangle(12*inch, 10*inch)
		for k := range feet {
			feet[k].Now = measure.Length(r.IntN(60)) * measure.Thou
		}
		n := []int{8, 12, 16}[r.IntN(3)]
		gearFaces, motorFaces := m.faces()
		shims, err := correct.SolveShims(correct.ShimProblem{Drops: read(n, m.drop), Radius: 84 * inch, Feet: feet, Step: measure.Thou})
		if err != nil {
			t.Fatal(err)
		}
		shift := correct.Shift{Along: nm(-60 * shims.Taken.Along.Float()), Across: nm(-60 * shims.Taken.Across.Float())}
		least, most := nm(0.375), nm(0.625)
		center, err := correct.SolveCenter(correct.CenterProblem{Gaps: read(n, m.clear), TipRadius: 120 * inch, Least: &least,
			Most: &most, Shimmed: shift, Step: measure.SixtyFourth})
		if err != nil {
			t.Fatal(err)
		}
		drive := correct.DriveProblem{Gear: facesOf(gearFaces, m.faceB), Motor: facesOf(motorFaces, m.faceA), Span: 120 * inch,
			FrontFeet: 6 * inch, RearFeet: 22 * inch, MotorStep: measure.Thou, PushStep: measure.Thou, Along: 20 * inch,
			Height: 30 * inch, Moved: correct.GearMoved{Slope: shims.Taken, Raised: shims.Raised, Slide: center.Slide}}
		motor, err := correct.SolveDrive(drive)
		if err != nil {
			t.Fatal(err)
		}
		if off := m.shim(feet, shims.Feet); off > 1e-9 {
			t.Fatalf("feet %v not in a plane: %g in", shims.Feet, off)
		}
		m.slide(center.Slide)
		drops = math.Max(drops, worst(t, shims.Drops, read(n, m.drop)))
		gaps = math.Max(gaps, worst(t, center.After, read(n, m.clear)))
		g1, a1 := m.faces()
		face = math.Max(face, faceError(motor.FacesGear, facesOf(g1, m.faceB)))
		face = math.Max(face, faceError(motor.FacesMotor, facesOf(a1, m.faceA)))
		m.pushMotor(6, 22, motor.Shims, motor.Push)
		g2, a2 := m.faces()
		face = math.Max(face, faceError(motor.AfterGear, facesOf(g2, m.faceB)))
		face = math.Max(face, faceError(motor.AfterMotor, facesOf(a2, m.faceA)))
		if s := spreadOf(read(n, m.drop)); s > 0.02 {
			t.Errorf("tilt left %g in", s)
		}
		if s := facesOf(g2, m.faceB); max(s.Top, s.Bottom)-min(s.Top, s.Bottom) > nm(0.002) {
			t.Errorf("coupling left at %+v", s)
		}
	}
	t.Logf("worst: drops %.5f in, gaps %.5f in, faces %.6f in", drops, gaps, face)
	if drops > dropBound || gaps > gapBound || face > faceBound {
		t.Errorf("predictions off by %g, %g, %g in", drops, gaps, face)
	}
}

// faceError compares differences of faces, which is what alignment is; where the
// floating shaft stands between the couplings is its own affair.
func faceError(a, b correct.Faces) float64 {
	v := in((a.Top - a.Bottom) - (b.Top - b.Bottom))
	h := in((a.Ninety - a.Other) - (b.Ninety - b.Other))
	return math.Max(math.Abs(v), math.Abs(h))
}

func spreadOf(in_ []correct.Reading) float64 {
	lo, hi := in_[0].Value, in_[0].Value
	for _, r := range in_ {
		lo, hi = min(lo, r.Value), max(hi, r.Value)
	}
	return in(hi - lo)
}

// TestAnchor is the reference case: radius 84 in, feet at ±12 in both ways, hub
// 60 in up, drop 0.50 in greater at the low side. Then the two feet on the low
// side get 0.0714 in, the others none, the hub goes 0.1786 in away from the low
// side, and the gap there grows by as much. It is turned four times. Worked by
// hand: 0.25/84·24 and 60·0.25/84.
func TestAnchor(t *testing.T) {
	low := map[int][]int{0: {1, 4}, 90: {1, 2}, 180: {2, 3}, 270: {3, 4}}
	for degrees, raised := range low {
		phase := float64(degrees) * math.Pi / 180
		drops := read(8, func(t float64) float64 { return 3 + 0.25*math.Cos(t-phase) })
		plan, err := correct.SolveShims(correct.ShimProblem{Drops: drops, Radius: 84 * inch, Feet: rectangle(12*inch, 12*inch), Step: inch / 10000})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range plan.Feet {
			want := measure.Length(0)
			if f.Foot == raised[0] || f.Foot == raised[1] {
				want = 714 * inch / 10000
			}
			if f.Change != want || f.New != want {
				t.Errorf("low at %d°: foot %d changes by %s, want %s", degrees, f.Foot, f.Change, want)
			}
		}
		shift := correct.Shift{Along: nm(-60 * plan.Taken.Along.Float()), Across: nm(-60 * plan.Taken.Across.Float())}
		toward := in(shift.Along)*math.Cos(phase) + in(shift.Across)*math.Sin(phase)
		if math.Abs(toward+0.1786) > 0.0002 {
			t.Errorf("low at %d°: hub goes %g in toward it, want −0.1786", degrees, toward)
		}
		least := nm(0.1)
		center, err := correct.SolveCenter(correct.CenterProblem{Gaps: read(8, func(float64) float64 { return 0.5 }),
			TipRadius: 120 * inch, Least: &least, Shimmed: shift, Step: measure.SixtyFourth})
		if err != nil {
			t.Fatal(err)
		}
		at := center.Shimmed[degrees/45]
		if grown := in(at.Value) - 0.5; math.Abs(grown-0.1786) > 0.0002 {
			t.Errorf("low at %d°: gap there grows by %g in", degrees, grown)
		}
	}
}

// TestMillwrightRule: a face reading of 0.012 in over a 12 in circle, bolts 6 in
// apart: shim 0.006 in. A Millwright's Guide to Motor/Pump Alignment, 2nd
// edition (Industrial Press 2008), chapter on vertical motors.
func TestMillwrightRule(t *testing.T) {
	drops := read(4, func(t float64) float64 { return 0.006 * math.Cos(t) })
	feet := rectangle(3*inch, 3*inch)
	plan, err := correct.SolveShims(correct.ShimProblem{Drops: drops, Radius: 6 * inch, Feet: feet, Step: measure.Thou})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []measure.Length{6, 0, 0, 6} {
		if plan.Feet[i].Change != want*measure.Thou {
			t.Errorf("foot %d: %s, want %d thou", i+1, plan.Feet[i].Change, want)
		}
	}
}
