package assess

import (
	"asleft/internal/field"
)

// window is what a value is held against; a side that is not set is no limit.
type window struct {
	lo, hi       int64
	hasLo, hasHi bool
}

func upTo(hi int64) window { return window{hi: hi, hasHi: true} }

// margin is the distance of v inside the nearest limit, negative outside. It
// is only asked of a window with at least one side.
func (w window) margin(v int64) int64 {
	switch {
	case !w.hasHi:
		return v - w.lo
	case !w.hasLo:
		return w.hi - v
	}
	return min(v-w.lo, w.hi-v)
}

// zone is the full width of the window; false where one side is open. A
// maximum alone is counted from zero: neither a gap nor a spread is negative.
func (w window) zone() (int64, bool) {
	switch {
	case w.hasLo && w.hasHi:
		return w.hi - w.lo, true
	case w.hasHi:
		return w.hi, true
	}
	return 0, false
}

// bounds is the window as rational numbers.
func (w window) bounds() bounds {
	var b bounds
	if w.hasLo {
		b.lo = whole(w.lo)
	}
	if w.hasHi {
		b.hi = whole(w.hi)
	}
	return b
}

// limitForm is how far a row of the limits sheet is filled in.
type limitForm int

const (
	limitBlank limitForm = iota
	limitBad             // some of the values, or values that contradict each other
	limitFull
)

// readWindow returns what the row asks of a check on lengths or angles.
//
//	tilt, track         maximum of highest minus lowest
//	tipradius           ±t of one same distance: a spread of at most 2t
//	clearance(all)      nominal ± t, a minimum, a maximum; all that are given hold
//	pitch               set angle ± tolerance
//	pitchspread         largest difference
//	cylinderround       maximum of largest minus smallest
//	soft foot           maximum, up or down
//	couplings           maximum of highest minus lowest
//	dowel pins          ±t of above minus below
//	others              as clearance
func readWindow(check string, l *field.Limit) (window, limitForm) {
	if l == nil {
		return window{}, limitBlank
	}
	switch check {
	case Tilt, Track, CylinderRound, CouplingGear, CouplingMotor:
		return maximum(int64(l.Max.Value), l.Max.Set, l.Min.Set || l.Nominal.Set || l.Tolerance.Set)
	case SoftFootGear, SoftFootMotor:
		return bothSides(maximum(int64(l.Max.Value), l.Max.Set, l.Min.Set || l.Nominal.Set || l.Tolerance.Set))
	case DowelPins:
		return bothSides(maximum(int64(l.Tolerance.Value), l.Tolerance.Set, l.Min.Set || l.Nominal.Set || l.Max.Set))
	case TipRadius:
		return maximum(2*int64(l.Tolerance.Value), l.Tolerance.Set, l.Min.Set || l.Nominal.Set || l.Max.Set)
	case PitchSpread:
		return maximum(int64(l.AngleTol.Value), l.AngleTol.Set, l.AngleNominal.Set)
	case Pitch:
		return aroundNominal(angleValue(l.AngleNominal), angleValue(l.AngleTol), value{}, value{})
	}
	return aroundNominal(lengthValue(l.Nominal), lengthValue(l.Tolerance), lengthValue(l.Min), lengthValue(l.Max))
}

// Bounds returns the least and the greatest value that a row of the limits sheet
// allows for the value that its check holds against it: the range for tilt,
// track, pitch blade to blade, the cylinder's roundness and a coupling by its
// range, each reading elsewhere. For tip radius it is the range too, of which
// ±t allows 2t. Slopes and quantities are rounded. A side that is open is nil;
// both are where the row is blank, not complete, or nil.
func Bounds(check string, l *field.Limit) (least, greatest *Amount) {
	w, exact, form := readLimit(check, l)
	if form != limitFull {
		return nil, nil
	}
	s := scale{kind: kindOf(check)}
	if exact.empty() {
		exact = w.bounds()
	} else {
		s = limitScale(check, l)
	}
	if exact.lo != nil {
		a := s.amount(exact.lo)
		least = &a
	}
	if exact.hi != nil {
		a := s.amount(exact.hi)
		greatest = &a
	}
	return least, greatest
}

// bothSides makes a limit on a magnitude of one on a signed value.
func bothSides(w window, form limitForm) (window, limitForm) {
	if form == limitFull {
		w.lo, w.hasLo = -w.hi, true
	}
	return w, form
}

// maximum reads a row that is one number; other says that numbers stand in the
// row that this check has no use for.
func maximum(hi int64, set, other bool) (window, limitForm) {
	switch {
	case set && hi >= 0:
		return upTo(hi), limitFull
	case set || other:
		return window{}, limitBad
	}
	return window{}, limitBlank
}

// aroundNominal reads nominal ± tolerance, a least and a most. A tolerance
// needs a nominal; a nominal without a tolerance needs a least or a most.
func aroundNominal(nominal, tol, least, most value) (window, limitForm) {
	if !nominal.set && !tol.set && !least.set && !most.set {
		return window{}, limitBlank
	}
	w := window{lo: least.n, hasLo: least.set, hi: most.n, hasHi: most.set}
	if tol.set {
		if !nominal.set || tol.n < 0 {
			return window{}, limitBad
		}
		w = w.narrow(nominal.n-tol.n, nominal.n+tol.n)
	}
	if !w.hasLo && !w.hasHi || w.hasLo && w.hasHi && w.lo > w.hi {
		return window{}, limitBad
	}
	return w, limitFull
}

// narrow returns the window in which both hold.
func (w window) narrow(lo, hi int64) window {
	if !w.hasLo || lo > w.lo {
		w.lo, w.hasLo = lo, true
	}
	if !w.hasHi || hi < w.hi {
		w.hi, w.hasHi = hi, true
	}
	return w
}

// A limit's authority codes that matter to a verdict.
const (
	authorityStart    = "start"
	authorityStandard = "standard"
)

// starting tells whether the row is a starting value that nobody has accepted
// by name.
func starting(l *field.Limit) bool {
	return l.Authority.Value == authorityStart && l.AcceptedBy.Value == ""
}

// unsupported tells whether the row names neither an authority nor anybody
// who accepted it.
func unsupported(l *field.Limit) bool {
	return l.Authority.Value == "" && l.AcceptedBy.Value == ""
}
