package correct

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// Logged is what the move log says was done between two rounds.
type Logged struct {
	Feet               []FootMoved
	Along, Front, Rear measure.Length
}

// FootMoved is the change of one foot's stack.
type FootMoved struct {
	Foot   int
	Change measure.Length
}

// LoopProblem is two rounds of readings with logged moves between them. Tilt or
// gaps may be absent from both. Between the rounds of tilt other moves may have
// been made than between those of the gaps.
type LoopProblem struct {
	Found, Left         []Reading // drops, same positions in the same order
	FoundGaps, LeftGaps []Reading // gaps of the same blade
	Ring, RingGaps      []int     // positions all round the fan, in order, where some were not read
	Radius              measure.Length
	TipRadius           measure.Length
	Feet                []Foot // clockwise from the motor
	HubHeight           measure.Length
	FrontAt, RearAt     measure.Length // along, of the sliding feet; equal where not known
	Done, DoneGaps      Logged         // between the rounds of tilt, and between those of the gaps
	U, UGaps            measure.Length // standard uncertainty of a reading, with repeatability
	// Pairs is how many return readings repeatability was found from, over the
	// tower: with few of them the uncertainty is itself uncertain. 0: repeatability
	// is not known, and no slip is named.
	Pairs int
}

// Slips, the ways in which a job is usually not what its log says.
const (
	SlipCountedOther = "countedother" // positions counted the other way in one of the rounds
	SlipOneOff       = "oneoff"       // first position one off in one of the rounds
	SlipBackwards    = "backwards"    // shims or slide made backwards, or shims under the feet opposite
	SlipFeet         = "feet"         // shims under other feet than logged
	SlipUnit         = "unit"         // amounts taken in the wrong unit, or a decimal place off
	SlipNotMade      = "notmade"      // nothing was moved
)

// Thresholds of the loop.
const (
	// loopRisk is the part of clean jobs for which the readings may be said to
	// differ from the log; a slip is only looked for among those.
	loopRisk = 0.001
	// loopOdds is how many times more probable the readings must be under one slip
	// than under everything else together.
	loopOdds = 100
	// loopFit is the probability with which readings as bad as these come from the
	// named slip: a slip that does not explain them is none.
	loopFit = 0.01
)

// Loop is what closing the loop found.
type Loop struct {
	Predicted, PredictedGaps []Reading
	ChiSquare                int64 // times 1000
	Threshold                int64 // times 1000
	Freedom                  int   // readings compared
	Agrees                   bool
	Slip                     string // named, else blank
	Odds                     int64  // of the likeliest slip against everything else, at most maxOdds
	Code                     assess.Code
	Notes                    []assess.Code // of a check whose readings are too few to be compared
	Compared                 []Compared    // what was held against the log
}

// Contradicts tells whether the readings after the moves are further from those
// before them and the log than they are good to.
func (l *Loop) Contradicts() bool {
	return l.Code.Key == loopUnsure || l.Code.Key == loopDiffers || l.Code.Key == loopSlip
}

// Compared is two rounds of a check between which the log was followed.
type Compared struct{ Check, From, To string }

// maxOdds is where odds stop meaning anything.
const maxOdds = 1_000_000

// ErrLoop reports rounds that cannot be compared.
var ErrLoop = errors.New("rounds do not hold the same positions")

// CloseLoop predicts the later round from the earlier one and the log, and
// compares: Σ (read − predicted)²/(2u²), since both rounds carry errors. The mean
// of the drops is left free: a straight edge is rarely put at the same height
// twice.
func CloseLoop(p LoopProblem) (Loop, error) {
	if err := p.check(); err != nil {
		return Loop{}, err
	}
	drops, gaps := p.predict(p.Found, p.FoundGaps, p.log())
	out := Loop{Predicted: rounded(p.Found, drops), PredictedGaps: rounded(p.FoundGaps, gaps), Freedom: p.freedom()}
	if p.U <= 0 && len(p.Found) > 0 || p.UGaps <= 0 && len(p.FoundGaps) > 0 {
		out.Code = code(loopNoRepeat)
		return out, nil
	}
	chi := p.chi(drops, gaps, p.Left, p.LeftGaps)
	limit := p.quantile(1 - loopRisk)
	out.ChiSquare, out.Threshold = thousandths(chi), thousandths(limit)
	switch {
	case chi <= p.strict():
		out.Agrees = true
		out.Code = code(loopAgrees)
	case p.Pairs <= 0:
		out.Code = code(loopNoRepeat)
	case chi <= limit:
		out.Code = code(loopUnsure, numberArg("pairs", p.Pairs))
	default:
		p.name(&out)
	}
	return out, nil
}

// strict is the quantile of a clean job if the uncertainty is all that is stated.
// Readings within it agree, however few return readings there are. Beyond it, and
// within the quantile that allows for the few, nothing is known.
func (p *LoopProblem) strict() float64 {
	return distuv.ChiSquared{K: float64(p.freedom())}.Quantile(1 - loopRisk)
}

func (p *LoopProblem) check() error {
	same := func(a, b []Reading) bool {
		if len(a) != len(b) || len(a) > MaxReadings {
			return false
		}
		for i := range a {
			if a[i].Position != b[i].Position {
				return false
			}
		}
		return true
	}
	if !same(p.Found, p.Left) || !same(p.FoundGaps, p.LeftGaps) || p.freedom() < 1 || len(p.Feet) > MaxFeet {
		return ErrLoop
	}
	if len(p.Done.Feet)+len(p.DoneGaps.Feet) > 0 && (narrow(p.Feet) || len(p.Found) > 0 && p.Radius <= 0) {
		return ErrFeet
	}
	return nil
}

// freedom is the number of independent comparisons.
func (p *LoopProblem) freedom() int {
	return max(len(p.Found)-1, 0) + len(p.FoundGaps)
}

// tilted is the slope that the changes under the feet make.
func (p *LoopProblem) tilted(done Logged) vec {
	if len(done.Feet) == 0 {
		return vec{}
	}
	heights := make([]float64, len(p.Feet))
	for k, f := range p.Feet {
		for _, m := range done.Feet {
			if m.Foot == f.Number {
				heights[k] += float64(m.Change)
			}
		}
	}
	g, _, _, _ := plane(p.Feet, heights)
	return g
}

// slid is how far the fan center was slid: across, the line through the front
// and the rear feet, at the fan's axis.
func (p *LoopProblem) slid(done Logged) vec {
	across := float64(done.Front+done.Rear) / 2
	if p.FrontAt != p.RearAt {
		turn := float64(done.Front-done.Rear) / float64(p.FrontAt-p.RearAt)
		across = float64(done.Front) - float64(turn*float64(p.FrontAt))
	}
	return vec{float64(done.Along), across}
}

// moved is what was done between the rounds of tilt and between those of the
// gaps.
type moved struct{ tilt, gaps Logged }

func (p *LoopProblem) log() moved { return moved{p.Done, p.DoneGaps} }

// predict returns drops, without their mean, and gaps after the moves.
func (p *LoopProblem) predict(found, foundGaps []Reading, done moved) (drops, gaps []float64) {
	g := p.tilted(done.tilt)
	for _, r := range found {
		drops = append(drops, float64(r.Value)-float64(float64(p.Radius)*g.dot(direction(r.Degrees))))
	}
	m := hubShift(p.HubHeight, p.tilted(done.gaps)).plus(p.slid(done.gaps))
	for _, r := range foundGaps {
		gaps = append(gaps, gapAfter(float64(r.Value), direction(r.Degrees), m, float64(p.TipRadius)))
	}
	return drops, gaps
}

// chi is the sum of squares over the variance of a difference of two readings.
func (p *LoopProblem) chi(drops, gaps []float64, left, leftGaps []Reading) float64 {
	mean := 0.0
	for i, d := range drops {
		mean += (float64(left[i].Value) - d) / float64(len(drops))
	}
	sum := 0.0
	for i, d := range drops {
		z := (float64(left[i].Value) - d - mean) / (math.Sqrt2 * float64(p.U))
		sum += float64(z * z)
	}
	for i, d := range gaps {
		z := (float64(leftGaps[i].Value) - d) / (math.Sqrt2 * float64(p.UGaps))
		sum += float64(z * z)
	}
	return sum
}

// quantile of the sum of squares of a clean job. Repeatability is estimated from
// so many pairs, so the sum over its freedom is a ratio of two variances; all of
// the uncertainty is treated as if it were so estimated, which can only raise
// the threshold.
func (p *LoopProblem) quantile(prob float64) float64 {
	n := float64(p.freedom())
	if p.Pairs > manyPairs || p.Pairs <= 0 {
		return distuv.ChiSquared{K: n}.Quantile(prob)
	}
	// F with (n, ν) is b/(1−b)·ν/n for b of the beta distribution (n/2, ν/2).
	b := distuv.Beta{Alpha: n / 2, Beta: float64(p.Pairs) / 2}.Quantile(prob)
	return float64(p.Pairs) * b / (1 - b)
}

// manyPairs is where an estimated variance is as good as a known one.
const manyPairs = 1000

// logLikelihood of a sum of squares, up to a constant, with the variance known
// only as well as so many pairs tell it (the multivariate t distribution).
func (p *LoopProblem) logLikelihood(chi float64) float64 {
	if p.Pairs > manyPairs {
		return -chi / 2
	}
	nu := float64(p.Pairs)
	return -(float64(p.freedom()) + nu) / 2 * math.Log1p(chi/nu)
}

func rounded(in []Reading, values []float64) []Reading {
	out := make([]Reading, len(in))
	for i, r := range in {
		out[i] = r
		out[i].Value = nearest(values[i])
	}
	return out
}

func thousandths(x float64) int64 {
	return int64(math.Round(math.Min(math.Max(x, 0), 1e12) * 1000))
}
