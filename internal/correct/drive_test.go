package correct_test

import (
	"errors"
	"math"
	"testing"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

// faced makes faces whose gaps differ by t, bottom over top, and by h, the
// other side over the 90° side.
func faced(t, h, diameter float64) correct.Faces {
	return facesOf([4]float64{1 - t/2, 1 - h/2, 1 + t/2, 1 + h/2}, diameter)
}

// TestTwoPlanes: where the motor's feet must go.
//
// The first case is Bloch and Geitner, Machinery Component Maintenance and Repair,
// figure 5-21 and page 203: inboard −0.0027 in, outboard +0.0066 in. Published
// outputs, converted inputs: their offsets 0.012 and 0.007 in over planes 14 in
// apart, as the face readings that a shaft floating between two flex planes would
// show. The others are plain trigonometry, not published.
func TestTwoPlanes(t *testing.T) {
	for _, x := range []struct {
		name                        string
		gear, motor, dia, dia2      float64
		span, front, rear           float64
		wantFront, wantRear, within float64
	}{
		{"published", 0.004, -0.006857142857, 8, 8, 14, 12, 38, -0.0027142857, 0.0065714286, 2e-7},
		{"long span", 0.010, -0.004, 8, 8, 120, 6, 22, -0.1545, -0.1665, 1e-7},
		{"metric, in inches", 0.25 / 25.4, -0.10 / 25.4, 200 / 25.4, 200 / 25.4, 3000 / 25.4, 150 / 25.4, 560 / 25.4,
			-3.8625 / 25.4, -4.17 / 25.4, 1e-6},
	} {
		p := correct.DriveProblem{Gear: faced(x.gear, x.gear, x.dia), Motor: faced(x.motor, x.motor, x.dia2), Span: nm(x.span),
			FrontFeet: nm(x.front), RearFeet: nm(x.rear), MotorStep: 1, PushStep: 1}
		got, err := correct.SolveDrive(p)
		if err != nil {
			t.Fatal(err)
		}
		for i, y := range []struct {
			got  measure.Length
			want float64
		}{{got.Exact.Front, x.wantFront}, {got.Exact.Rear, x.wantRear}, {got.ExactPush.Front, x.wantFront}, {got.ExactPush.Rear, x.wantRear}} {
			if math.Abs(in(y.got)-y.want) > x.within {
				t.Errorf("%s, %d: %.8f, want %.8f", x.name, i, in(y.got), y.want)
			}
		}
		for _, f := range []correct.Faces{got.AfterGear, got.AfterMotor} {
			if d := max(f.Top, f.Ninety, f.Bottom, f.Other) - min(f.Top, f.Ninety, f.Bottom, f.Other); d > 20 {
				t.Errorf("%s: faces differ by %d nm after the move", x.name, d)
			}
		}
	}
}

// TestGrowth: a motor that grows 0.010 in at both feet starts 0.010 in low, and is
// true when hot. Worked by hand.
func TestGrowth(t *testing.T) {
	p := correct.DriveProblem{Gear: faced(0, 0, 8), Motor: faced(0, 0, 8), Span: 100 * inch, FrontFeet: 6 * inch,
		RearFeet: 22 * inch, MotorStep: measure.Thou, PushStep: measure.Thou, GrowFront: 10 * measure.Thou, GrowRear: 10 * measure.Thou}
	got, err := correct.SolveDrive(p)
	if err != nil {
		t.Fatal(err)
	}
	if want := (correct.MotorFeet{Front: -10 * measure.Thou, Rear: -10 * measure.Thou}); got.Shims != want {
		t.Errorf("%v", got.Shims)
	}
	// 0.010 in low over 100 in is a slope of −0.0001 of the drive shaft: at a face of
	// 8 in the bottom of the gear reducer's coupling is tighter by 0.0008 in.
	if d := got.AfterGear.Bottom - got.AfterGear.Top; d != nm(-0.0008) {
		t.Errorf("cold faces differ by %s", d)
	}
	if got.HotGear != p.Gear || got.HotMotor != p.Motor {
		t.Errorf("hot faces %+v", got.HotGear)
	}
}

// TestGearMoved: what taking out a slope does to plane B, by the formula worked by
// hand: g_x = 0.001 at x_B = 20 in, H_p = 30 in, c = 0.012 in, slid 0.25 in toward
// the motor and 0.125 in toward the 90° side.
func TestGearMoved(t *testing.T) {
	ends, nominal := nm(10), nm(10)
	p := correct.DriveProblem{Gear: faced(0, 0, 8), Motor: faced(0, 0, 8), Span: 100 * inch, FrontFeet: 6 * inch,
		RearFeet: 22 * inch, MotorStep: 1, PushStep: 1, Along: 20 * inch, Height: 30 * inch, ShaftEnds: &ends, EndsNominal: &nominal,
		Moved: correct.GearMoved{Slope: correct.Lean{Along: measure.Slope{Rise: 1, Run: 1000}, Across: measure.Slope{Rise: 2, Run: 1000}},
			Raised: nm(0.012), Slide: correct.Shift{Along: nm(0.25), Across: nm(0.125)}}}
	got, err := correct.SolveDrive(p)
	if err != nil {
		t.Fatal(err)
	}
	if want := [3]measure.Length{nm(0.25 - 0.030), nm(0.125 - 0.060), nm(0.012 + 0.020)}; got.PlaneB != want {
		t.Errorf("plane B goes %v, want %v", got.PlaneB, want)
	}
	// σ_B = −0.032/100 − 0.001, σ_A = +0.032/100.
	if b, a := got.MovedGear.Along.Float(), got.MovedMotor.Along.Float(); math.Abs(b+0.00132) > 1e-12 || math.Abs(a-0.00032) > 1e-12 {
		t.Errorf("slopes %g, %g", b, a)
	}
	if mean := (got.FacesGear.Top + got.FacesGear.Bottom) / 2; mean != nm(1-0.11) {
		t.Errorf("mean gap %s, want half of 0.22 in less", mean)
	}
	if *got.ShaftEnds != nm(10-0.22) || got.Axial != nm(0.22) {
		t.Errorf("shaft ends %s, axial %s", got.ShaftEnds, got.Axial)
	}
	p.RidesAlong = true
	if got, _ := correct.SolveDrive(p); got.PlaneB != [3]measure.Length{} || got.FacesGear != p.Gear {
		t.Error("a support that carries both moves the drive line")
	}
	p.Span = 0
	if _, err := correct.SolveDrive(p); !errors.Is(err, correct.ErrDrive) {
		t.Errorf("%v", err)
	}
}
