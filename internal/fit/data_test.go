package fit

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// table reads the columns of a data file, without its comments and head.
func table(t *testing.T, name string) [][]float64 {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	var columns [][]float64
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		fields := strings.Split(line, ",")
		if columns == nil { // the head
			columns = make([][]float64, len(fields))
			continue
		}
		for j, field := range fields {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				t.Fatal(err)
			}
			columns[j] = append(columns[j], v)
		}
	}
	return columns
}

// near fails unless |got − want| ≤ tol.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.13g, want %.13g ± %g", what, got, want, tol)
	}
}

// nearRel fails unless got is within a relative tolerance of want.
func nearRel(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	near(t, what, got, want, tol*math.Abs(want))
}

// polar turns points into angles and distances about a rough center.
func polar(x, y []float64, cx, cy, radius float64) (theta, c []float64) {
	for i := range x {
		theta = append(theta, math.Atan2(y[i]-cy, x[i]-cx))
		c = append(c, math.Hypot(x[i]-cx, y[i]-cy)-radius)
	}
	return theta, c
}

// evenly returns n positions over one turn.
func evenly(n int) []float64 {
	theta := make([]float64, n)
	for i := range theta {
		theta[i] = 2 * math.Pi * float64(i) / float64(n)
	}
	return theta
}
