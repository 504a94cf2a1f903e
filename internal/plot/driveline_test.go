package plot

import (
	"errors"
	"math"
	"testing"
)

// TestFacesOpenAsTheyDo: where what is right of a coupling rises, the faces stand
// wider apart at the bottom; by plane geometry.
func TestFacesOpenAsTheyDo(t *testing.T) {
	for _, slope := range []float64{0.1, -0.1} {
		left, right := shaft{point{50, 50}, 0}, shaft{point{50, 50}, slope}
		top := right.on(faceGap, faceHalf).x - left.on(-faceGap, faceHalf).x
		bottom := right.on(faceGap, -faceHalf).x - left.on(-faceGap, -faceHalf).x
		if (bottom > top) != (slope > 0) {
			t.Errorf("slope %g: gap %.3f at the top, %.3f at the bottom", slope, top, bottom)
		}
		if y := right.on(100, 0).y; (y < 50) != (slope > 0) {
			t.Errorf("slope %g: the part goes to %.2f, y grows downward", slope, y)
		}
	}
}

// TestDriveLineStaysInItsView: whatever the angles, the factor keeps them from
// leaving the view, is never above the largest in use, and is as large as it may.
func TestDriveLineStaysInItsView(t *testing.T) {
	for _, c := range []struct {
		gear, motor float64
		want        int
	}{
		{0, 0, driveFactor}, {1e-7, 0, driveFactor}, {0.001, 0.001, 80}, {0.002, -0.003, 50}, {-0.002, 0.003, 50}, {0.5, 0.5, 0},
	} {
		d := driveOf()
		d.Side.Gear.Slope, d.Side.Motor.Slope = c.gear, c.motor
		d.Above.Gear.Slope, d.Above.Motor.Slope = 0, 0
		if got := d.Exaggeration(); got != c.want {
			t.Errorf("%g and %g: drawn %d times larger, expected %d", c.gear, c.motor, got, c.want)
		}
		w, h := d.Size()
		if r := record(t, d).reach; !r.inside(box{0, 0, w, h}) {
			t.Errorf("%g and %g: reaches %.1f", c.gear, c.motor, r)
		}
	}
}

func TestDriveLineRefuses(t *testing.T) {
	f := loadFonts(t)
	bad, flat, narrow := driveOf(), driveOf(), driveOf()
	bad.Above.Motor.Slope = math.NaN()
	flat.Height = 90
	narrow.Width = 200
	for name, c := range map[string]struct {
		fig  DriveLine
		want error
	}{"NaN": {bad, ErrNotFinite}, "too flat": {flat, ErrNoRoom}, "too narrow": {narrow, ErrNoRoom}} {
		if err := c.fig.Draw(newRecorder(f), f); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, expected %v", name, err, c.want)
		}
	}
	bad.Above.Motor.Absent = true // its number means nothing then
	if err := bad.Draw(newRecorder(f), f); err != nil {
		t.Error(err)
	}
}
