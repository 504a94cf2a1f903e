package assess

import (
	"math/big"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// thread is a fastener's size.
type thread struct {
	diameter *big.Rat // nominal, nm
	pitch    *big.Rat // nm a turn; nil where it is not given and no coarse pitch is known
	metric   bool
}

// coarsePitch is the pitch of metric coarse threads in micrometers (ISO 261,
// values from memory).
var coarsePitch = map[int64]int64{
	5: 800, 6: 1000, 8: 1250, 10: 1500, 12: 1750, 14: 2000, 16: 2000, 18: 2500, 20: 2500, 22: 2500,
	24: 3000, 27: 3000, 30: 3500, 33: 3500, 36: 4000, 39: 4000, 42: 4500, 48: 5000,
}

// parseThread reads "M16", "M16x1.5", "5/8-11" or "1-1/4-7": diameter, then
// threads per inch.
func parseThread(text string) (thread, bool) {
	s := strings.ToUpper(strings.NewReplacer("×", "X", "\u2010", "-", "\u2011", "-", "–", "-", "\"", "").Replace(strings.TrimSpace(text)))
	if rest, ok := strings.CutPrefix(s, "M"); ok {
		return parseMetric(rest)
	}
	i := strings.LastIndex(s, "-")
	if i < 0 {
		return thread{}, false
	}
	d, err := measure.ParseNumber(s[:i])
	turns, errTurns := measure.ParseNumber(strings.TrimRight(s[i+1:], " UNCFR"))
	if err != nil || errTurns != nil || d.Sign() <= 0 || turns.Sign() <= 0 {
		return thread{}, false
	}
	inch := whole(int64(measure.Inch))
	return thread{
		diameter: new(big.Rat).Mul(d.Rat(), inch),
		pitch:    new(big.Rat).Quo(inch, turns.Rat()),
	}, true
}

func parseMetric(s string) (thread, bool) {
	size, fine, isFine := strings.Cut(s, "X")
	d, err := measure.ParseNumber(size)
	if err != nil || d.Sign() <= 0 {
		return thread{}, false
	}
	t := thread{diameter: scaled(d, int64(measure.Millimeter)), metric: true}
	if isFine {
		p, err := measure.ParseNumber(fine)
		if err != nil || p.Sign() <= 0 {
			return thread{}, false
		}
		t.pitch = scaled(p, int64(measure.Millimeter))
		return t, true
	}
	if n, isWhole := d.Int64(); isWhole && coarsePitch[n] > 0 {
		t.pitch = whole(coarsePitch[n] * int64(measure.Micrometer))
	}
	return t, true
}

// Pitches taken off the diameter for the stress area, in units of 1e-6:
// (π/4)(D − 0.9743·P)² for inch threads (ASME B1.1, formula from memory) and
// (π/4)(d − 0.938194·P)² for metric ones (ISO 898-1, from memory).
const (
	inchDepth   = 974_300
	metricDepth = 938_194
)

// stressArea is the tensile stress area in square nanometers, nil where the
// pitch is not known.
func (t thread) stressArea() *big.Rat {
	if t.pitch == nil {
		return nil
	}
	depth := int64(inchDepth)
	if t.metric {
		depth = metricDepth
	}
	d := new(big.Rat).Mul(t.pitch, big.NewRat(depth, 1_000_000))
	d.Sub(t.diameter, d)
	if d.Sign() <= 0 {
		return nil
	}
	return d.Mul(d, d).Mul(d, new(big.Rat).Quo(pi(), whole(4)))
}

// pi is π, rounded up at 30 decimals: what is computed with it is never too
// small.
func pi() *big.Rat {
	r, _ := new(big.Rat).SetString("3.141592653589793238462643383280")
	return r
}

// strength is the proof stress of a property class for a range of diameters.
type strength struct {
	class    string // as cleaned by className
	over, to int64  // nominal diameter: over < d ≤ to, in nm; 0 is open
	proof    int64  // psi, or kPa for metric classes; 0 where none is published
	metric   bool
}

// strengths are published proof stresses.
//
// SAE J429 grades 2, 5 and 8: as quoted by Shigley and Mischke, Mechanical
// Engineering Design, 5th ed. 1989, p. 341. ISO 898-1:2013 classes 8.8 and
// 10.9: values from memory. ISO 3506-1 gives austenitic steel, A2-70 and the
// like, no proof stress, so there is none here.
var strengths = []strength{
	{"SAE2", 0, 3 * quarterInch, 55_000, false},
	{"SAE2", 3 * quarterInch, 6 * quarterInch, 33_000, false},
	{"SAE5", 0, 4 * quarterInch, 85_000, false},
	{"SAE5", 4 * quarterInch, 6 * quarterInch, 74_000, false},
	{"SAE8", 0, 6 * quarterInch, 120_000, false},
	{"8.8", 0, 16 * int64(measure.Millimeter), 580_000, true},
	{"8.8", 16 * int64(measure.Millimeter), 39 * int64(measure.Millimeter), 600_000, true},
	{"10.9", 0, 39 * int64(measure.Millimeter), 830_000, true},
	{"A2-70", 0, 0, 0, true},
	{"A4-70", 0, 0, 0, true},
	{"A2-80", 0, 0, 0, true},
	{"A4-80", 0, 0, 0, true},
}

const quarterInch = int64(measure.Inch) / 4

// className cleans a class as typed: "SAE grade 5", "Grade 5" and "SAE 5" are
// one, and so are "class 8.8", "ISO 8.8" and "8.8".
func className(text string) string {
	s := strings.ToUpper(text)
	s = strings.NewReplacer(" ", "", "GRADE", "SAE", "GR.", "SAE", "CLASS", "", "ISO", "", "J429", "", "3506-1", "", "898-1", "").Replace(s)
	return strings.ReplaceAll(s, "SAESAE", "SAE")
}

// proofStress is that of a class at a diameter, in pascals. known is false for
// a class that is not in the table; a nil stress of a known class means that
// none is published for it at this diameter.
func proofStress(class string, diameter *big.Rat) (stress *big.Rat, known bool) {
	name := className(class)
	for _, s := range strengths {
		if s.class != name {
			continue
		}
		known = true
		if s.proof == 0 || diameter.Cmp(whole(s.over)) <= 0 || s.to > 0 && diameter.Cmp(whole(s.to)) > 0 {
			continue
		}
		unit := measure.PSI
		if s.metric {
			unit = measure.Kilopascal
		}
		q := measure.NewQuantity(measure.Whole(s.proof), unit)
		pascals, err := q.In(measure.Pascal)
		if err != nil {
			return nil, true
		}
		return pascals.Rat(), true
	}
	return nil, known
}

// coefficients are K of T = K·D·F by lubricant, in hundredths (Shigley, table
// 8-15, values from memory).
var coefficients = map[string]int64{
	"dry": 30, "zinc": 20, "oiled": 18, "cadmium": 16, lubricantPaste: 12,
}

// Lubricants lists the codes of lubricants with a torque coefficient.
func Lubricants() []string { return []string{"dry", "zinc", "oiled", "cadmium", lubricantPaste} }

// torqueCoefficient is K as typed, or that of the lubricant.
func torqueCoefficient(f *field.Fasteners) (*big.Rat, bool) {
	if f.Coefficient.Set {
		return f.Coefficient.Value.Rat(), f.Coefficient.Value.Sign() > 0
	}
	k, ok := coefficients[f.Lubricant.Value]
	return big.NewRat(k, 100), ok
}

// boltTension is the tension F = T/(K·D) that a torque gives, in newtons. It is
// good to a quarter or a third at best, so it is information and no verdict.
func boltTension(torque measure.Quantity, k *big.Rat, t thread) (*big.Rat, bool) {
	newtonMeters, err := torque.In(measure.NewtonMeter)
	if err != nil || k.Sign() <= 0 {
		return nil, false
	}
	f := newtonMeters.Rat()
	f.Mul(f, whole(int64(measure.Meter)))
	return f.Quo(f, new(big.Rat).Mul(k, t.diameter)), true
}

// tension states the tension of a set, its stress area, and its share of the
// proof load; or what is missing for it.
func tension(f *field.Fasteners, it *Item) {
	item := itemArg(it)
	t, ok := parseThread(f.Size.Value)
	if !ok {
		it.Notes = append(it.Notes, code(noteNoThread, item))
		return
	}
	area := t.stressArea()
	if area != nil {
		it.Results = append(it.Results, Result{"area", Amount{Kind: KindArea, N: roundRat(area)}, 0})
	}
	k, ok := torqueCoefficient(f)
	torque := f.Final.Value
	if f.Running.Set {
		if less, err := torque.Sub(f.Running.Value); err == nil {
			torque = less // turning the nut against its own locking stretches nothing
		}
	}
	if !ok || !f.Final.Set {
		it.Notes = append(it.Notes, code(noteNoCoefficient, item))
		return
	}
	newtons, ok := boltTension(torque, k, t)
	if !ok {
		return
	}
	it.Results = append(it.Results, Result{"coefficient", Amount{KindQuantity, roundRat(millions(k)), measure.NoUnit}, 0},
		forceResult(newtons, t.metric))
	ofProof(f, it, t, area, newtons)
}

// ofProof states the tension in percent of the proof load.
func ofProof(f *field.Fasteners, it *Item, t thread, area, newtons *big.Rat) {
	stress, known := proofStress(f.Class.Value, t.diameter)
	switch {
	case !known:
		it.Notes = append(it.Notes, code(noteNoClass, itemArg(it), textArg("class", orDash(f.Class.Value))))
	case stress == nil:
		it.Notes = append(it.Notes, code(noteNoProof, itemArg(it), textArg("class", f.Class.Value)))
	case area != nil && stress.Sign() > 0:
		squareMeters := new(big.Rat).Quo(area, square(int64(measure.Meter)))
		percent := new(big.Rat).Quo(newtons, squareMeters.Mul(squareMeters, stress))
		percent.Mul(percent, whole(100))
		it.Results = append(it.Results, Result{"ofproof", Amount{KindQuantity, roundRat(millions(percent)), measure.Percent}, 0})
	}
}

// forceResult states a force in pounds for inch threads, kilonewtons for metric.
func forceResult(newtons *big.Rat, metric bool) Result {
	unit := measure.PoundForce
	if metric {
		unit = measure.Kilonewton
	}
	one, _ := measure.NewQuantity(measure.Whole(1), unit).In(measure.Newton)
	f := new(big.Rat).Quo(newtons, one.Rat())
	return Result{"tension", Amount{KindQuantity, roundRat(millions(f)), unit}, 0}
}

// millions is a plain number in the base unit of a quantity.
func millions(r *big.Rat) *big.Rat { return new(big.Rat).Mul(r, whole(quantityScale)) }

// ToolTolerance is the permissible deviation of a torque tool of a capacity: 4 %
// from 10 N·m up, 6 % below (ISO 6789-1:2017, values from memory). The
// deviation is 100·(indicated − reference)/reference.
func ToolTolerance(capacity measure.Quantity) (measure.Quantity, bool) {
	order, err := capacity.Cmp(measure.NewQuantity(measure.Whole(10), measure.NewtonMeter))
	switch {
	case err != nil:
		return measure.Quantity{}, false
	case order < 0:
		return measure.NewQuantity(measure.Whole(6), measure.Percent), true
	}
	return measure.NewQuantity(measure.Whole(4), measure.Percent), true
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}
