package fit

import (
	"math"
	"testing"
)

// Data and source: testdata/pallas.csv. The coefficients beyond the published
// digits were recomputed in double precision; the published ones are Gauss's
// final series, 780.6 − 411.0 cos x + 43.4 cos 2x − … (value from memory).
func TestHarmonicPallas(t *testing.T) {
	data := table(t, "pallas.csv")
	var theta []float64
	for _, deg := range data[0] {
		theta = append(theta, deg*math.Pi/180)
	}
	waves := []Wave{
		{-411.0143667321, -720.2278928397},
		{43.4166666667, -2.1650635095},
		{-4.3333333333, 5.5},
		{-1.0833333333, -1.0103629711},
		{0.3477000655, -0.2721071603},
	}
	rss := map[int]float64{1: 11646.75295919, 2: 308.58629252, 3: 14.41962585}
	for order := 1; order <= 5; order++ {
		h, err := FitHarmonic(theta, data[1], order)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean", h.Mean, 780.5833333333, 1e-9)
		all := append([]Wave{h.First()}, h.Higher...)
		if len(all) != order {
			t.Fatalf("%d waves for order %d", len(all), order)
		}
		for k, w := range all {
			near(t, "cosine", w.A, waves[k].A, 1e-9)
			near(t, "sine", w.B, waves[k].B, 1e-9)
		}
		if want, ok := rss[order]; ok {
			near(t, "sum of squares", h.RSS, want, 1e-7)
		}
		near(t, "condition", h.Cond, 1, 3) // orthogonal columns; the estimate is in the 1-norm
	}
	h, err := FitHarmonic(theta, data[1], 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "amplitude", h.First().Amplitude(), 829.25329501, 1e-7)
	near(t, "phase", h.First().Phase()*180/math.Pi, -119.712221, 1e-6)
	near(t, "residual at 0°", h.Residuals[0], 38.4310333988, 1e-9)
	// Over n even positions (XᵀX)⁻¹ is diagonal: 1/n, 2/n, 2/n.
	for i, want := range []float64{1. / 12, 2. / 12, 2. / 12} {
		near(t, "variance", h.Cov[i][i], want, 1e-14)
		near(t, "covariance", h.Cov[i][(i+1)%3], 0, 1e-14)
	}
	// Twelve even positions cannot tell sin 6x from zero.
	if _, err := FitHarmonic(theta, data[1], 6); err == nil {
		t.Error("order 6 over 12 positions was fitted")
	}
}

// Gauss's own fits through four stations each, printed in Goldstine, p. 252.
func TestHarmonicPallasFourStations(t *testing.T) {
	data := table(t, "pallas.csv")
	for first, want := range [][3]float64{
		{779.5, -415.0, -726.0}, {780.2, -404.5, -721.4}, {782.0, -413.5, -713.3},
	} {
		var theta, y []float64
		for i := first; i < 12; i += 3 {
			theta = append(theta, data[0][i]*math.Pi/180)
			y = append(y, data[1][i])
		}
		h, err := FitHarmonic(theta, y, 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "constant", h.Mean, want[0], 0.0501) // 780.25 was printed 780.2
		near(t, "cosine", h.A, want[1], 0.0501)
		near(t, "sine", h.B, want[2], 0.0501)
	}
}

// The twelfth coefficient, of cos 6x, from the interpolating series.
func TestPallasInterpolation(t *testing.T) {
	data := table(t, "pallas.csv")
	var rows [][]float64
	for _, deg := range data[0] {
		row := harmonicRow(deg*math.Pi/180, 6)
		rows = append(rows, row[:12]) // without sin 6x
	}
	f, err := LeastSquares(rows, data[1])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "a6", f.Coef[11], 0.0833333333, 1e-9)
	if f.DOF != 0 || f.SD != nil || f.ResidualSD != 0 {
		t.Errorf("no degrees of freedom, yet DOF %d, SD %v, %v", f.DOF, f.SD, f.ResidualSD)
	}
}

// powers is the design 1, x, x², … of a polynomial.
func powers(x []float64, degree int) [][]float64 {
	var rows [][]float64
	for _, v := range x {
		row := []float64{1}
		for k := 1; k <= degree; k++ {
			row = append(row, math.Pow(v, float64(k)))
		}
		rows = append(rows, row)
	}
	return rows
}

// Certified values: testdata/norris.csv.
func TestLeastSquaresNorris(t *testing.T) {
	data := table(t, "norris.csv")
	f, err := LeastSquares(powers(data[1], 1), data[0])
	if err != nil {
		t.Fatal(err)
	}
	near(t, "B0", f.Coef[0], -0.262323073774029, 1e-10)
	nearRel(t, "B1", f.Coef[1], 1.00211681802045, 1e-11)
	nearRel(t, "sd B0", f.SD[0], 0.232818234301152, 1e-11)
	nearRel(t, "sd B1", f.SD[1], 0.429796848199937e-03, 1e-11)
	nearRel(t, "residual sd", f.ResidualSD, 0.884796396144373, 1e-11)
	nearRel(t, "sum of squares", f.RSS, 26.6173985294224, 1e-11)
}

// Certified values: testdata/wampler1.csv.
func TestLeastSquaresWampler1(t *testing.T) {
	data := table(t, "wampler1.csv")
	f, err := LeastSquares(powers(data[1], 5), data[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range f.Coef {
		near(t, "B", b, 1, 1e-9)
	}
	near(t, "residual sd", f.ResidualSD, 0, 1e-7)
}

// Certified values: testdata/longley.csv. The normal equations reach 6e-8 on
// these data, so 1e-9 also proves that they are not used.
func TestLeastSquaresLongley(t *testing.T) {
	data := table(t, "longley.csv")
	var rows [][]float64
	for i := range data[0] {
		row := []float64{1}
		for _, column := range data[1:] {
			row = append(row, column[i])
		}
		rows = append(rows, row)
	}
	f, err := LeastSquares(rows, data[0])
	if err != nil {
		t.Fatal(err)
	}
	for j, want := range []float64{-3482258.63459582, 15.0618722713733, -0.0358191792925910,
		-2.02022980381683, -1.03322686717359, -0.0511041056535807, 1829.15146461355} {
		nearRel(t, "B", f.Coef[j], want, 1e-9)
	}
	nearRel(t, "residual sd", f.ResidualSD, 304.854073561965, 1e-9)
}

// Points and published maximum inscribed circles: testdata/roundness2.csv and
// roundness3.csv. The other digits were recomputed by exhaustive search over
// triples and bisector crossings; 29.28 µm for set 2 is also reported in the
// roundness literature (value from memory).
func TestRoundnessSets(t *testing.T) {
	const tol = 1e-6 // 1 nm in mm
	tests := []struct {
		file           string
		cx, cy, radius float64 // rough center and radius
		mzX, mzY, ront float64
		out, in        []int // contacts of the minimum zone
		micX, micY, r  float64
	}{
		{"roundness2.csv", 40, 50, 30, 40.0007395, 50.0015301, 0.0292802,
			[]int{10, 17}, []int{5, 12}, 40.0015759, 50.0003155, 29.986488},
		{"roundness3.csv", 0, 0, 100, -0.0394627, 0, 23.9214490,
			[]int{5, 27, 48}, []int{37, 59}, -0.0392082, 0, 88.039208},
	}
	for _, test := range tests {
		data := table(t, test.file)
		theta, c := polar(data[0], data[1], test.cx, test.cy, test.radius)
		zone, err := MinimumZone(theta, c, test.radius, tol)
		if err != nil {
			t.Fatalf("%s: %v", test.file, err)
		}
		near(t, "zone x", test.cx+zone.X, test.mzX, 1e-5)
		near(t, "zone y", test.cy+zone.Y, test.mzY, 1e-5)
		near(t, "RONt", 2*zone.HalfWidth, test.ront, 1e-6)
		checkContacts(t, zone, test.out, test.in)
		if err := Check(Zone, theta, c, 0, test.radius, tol, zone); err != nil {
			t.Error(err)
		}
		inner, err := MaximinCenter(theta, c, test.radius, tol)
		if err != nil {
			t.Fatalf("%s: %v", test.file, err)
		}
		near(t, "inscribed x", test.cx+inner.X, test.micX, 1e-6)
		near(t, "inscribed y", test.cy+inner.Y, test.micY, 1e-6)
		near(t, "inscribed radius", test.radius+inner.Mean, test.r, 1e-6)
	}
}

// checkContacts wants every active position among the published contacts.
func checkContacts(t *testing.T, a Center, out, in []int) {
	t.Helper()
	for k, i := range a.Active {
		set := in
		if a.Sign[k] > 0 {
			set = out
		}
		found := false
		for _, j := range set {
			found = found || i == j
		}
		if !found {
			t.Errorf("position %d, sign %v, holds the zone; want out %v, in %v", i, a.Sign[k], out, in)
		}
	}
}

// The polar linear program of set 2, solved with another solver (scipy
// linprog): RONt 0.0292801731, a 0.0007395, b 0.0015301; of set 3: RONt
// 23.921453957, a −0.0394664.
func TestRoundnessLinear(t *testing.T) {
	for _, test := range []struct {
		file                       string
		cx, cy, radius, x, y, ront float64
	}{
		{"roundness2.csv", 40, 50, 30, 0.0007395, 0.0015301, 0.0292801731},
		{"roundness3.csv", 0, 0, 100, -0.0394664, 0, 23.921453957},
	} {
		data := table(t, test.file)
		theta, c := polar(data[0], data[1], test.cx, test.cy, test.radius)
		zone, err := MinimumZone(theta, c, 0, 1e-6)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "x", zone.X, test.x, 1e-7)
		near(t, "y", zone.Y, test.y, 1e-7)
		near(t, "RONt", 2*zone.HalfWidth, test.ront, 1e-9)
	}
}

// A wall of three lobes is out of round and not off center.
func TestThreeLobesAreNotOffCenter(t *testing.T) {
	data := table(t, "roundness3.csv")
	theta, c := polar(data[0], data[1], 0, 0, 100)
	h, err := FitHarmonic(theta, c, 3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", 100+h.Mean, 99.9999775, 1e-7)
	near(t, "first amplitude", h.First().Amplitude(), 9.4e-5, 1e-6)
	// Angles of the file run clockwise from +y: three lobes in the cosine there
	// are three lobes in amplitude here.
	near(t, "third amplitude", h.Higher[1].Amplitude(), 12.0000420, 1e-6)
}

// Circle of testdata/gander.csv: minimum zone recomputed by exhaustive search.
func TestGanderMinimumZone(t *testing.T) {
	data := table(t, "gander.csv")
	theta, c := polar(data[0], data[1], 4.74, 2.98, 4.71)
	zone, err := MinimumZone(theta, c, 4.71, 1e-9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", 4.74+zone.X, 4.7727273, 1e-6)
	near(t, "y", 2.98+zone.Y, 0.4090909, 1e-6)
	near(t, "RONt", 2*zone.HalfWidth, 1.3536151, 1e-6)
}

// The geometric least-squares circle of the same points, published as center
// (4.7398, 2.9835), radius 4.7142, by Gauss-Newton over [LeastSquares].
func TestGanderLeastSquaresCircle(t *testing.T) {
	data := table(t, "gander.csv")
	x, y, r := 5.0, 3.0, 5.0
	for range 50 {
		var rows [][]float64
		var off []float64
		for i := range data[0] {
			d := math.Hypot(data[0][i]-x, data[1][i]-y)
			rows = append(rows, []float64{(data[0][i] - x) / d, (data[1][i] - y) / d, 1})
			off = append(off, d-r)
		}
		f, err := LeastSquares(rows, off)
		if err != nil {
			t.Fatal(err)
		}
		x, y, r = x+f.Coef[0], y+f.Coef[1], r+f.Coef[2]
	}
	near(t, "x", x, 4.7397824, 1e-6)
	near(t, "y", y, 2.9835327, 1e-6)
	near(t, "r", r, 4.7142260, 1e-6)
}

// JCGM 106:2012, clauses 7.3 and 7.4 (inputs are values from memory; the
// printed two digits agree).
func TestNormalCDFConformance(t *testing.T) {
	near(t, "7.3 upper", NormalCDF((-5.40 - -5.47)/0.05), 0.919243340766, 1e-9)
	near(t, "7.3 lower", 1-NormalCDF((490-509.7)/8.6), 0.989009547385, 1e-9)
	near(t, "7.4", NormalCDF((16.3-13.6)/1.8)-NormalCDF((12.5-13.6)/1.8), 0.662629786495, 1e-9)
	// ILAC-G8:09/2019, table 1, guard band r·U with U = 2u: risk Φ(−2r).
	near(t, "guard band U", NormalCDF(-2), 0.022750131948, 1e-12)
	near(t, "guard band 3U", NormalCDF(-6), 9.87e-10, 1e-12)
}
