package page

import (
	"fmt"
	"math"
)

// mp is a length or a place on paper in thousandths of a point, y down. All
// placing is done in whole numbers: what fits, fits exactly, and every machine
// finds the same page.
type mp int

// pt is a length in points, to the nearest thousandth.
func pt(points float64) mp { return mp(math.Round(points * 1000)) }

// points is for the writers below, which print hundredths.
func (v mp) points() float64 { return float64(v) / 1000 }

// String is the length in points with two decimals, rounded half up.
func (v mp) String() string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	v = (v + 5) / 10
	return fmt.Sprintf("%s%d.%02d", sign, v/100, v%100)
}

// share is v·part/whole, rounded down. Its product stays far below 2^63: places
// are below 10^8.
func (v mp) share(part, whole int64) mp {
	if whole == 0 {
		return 0
	}
	return mp(int64(v) * part / whole)
}

// maxPoints is the largest length that a book may name, in points: the greatest
// page of ISO 32000-1, annex C.2.
const maxPoints = 14400

// length checks a number of points given from outside.
func length(what string, v, least, most float64) (mp, error) {
	if math.IsNaN(v) || v < least || v > most {
		return 0, fmt.Errorf("%s is %.4g points, expected %g to %g", what, v, least, most)
	}
	return pt(v), nil
}
