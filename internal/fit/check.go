package fit

import (
	"fmt"
	"math"
)

// gap bounds how much smaller the objective could be at another center. With
// multipliers λ ≥ 0, Σ λ = 1, signs s and gradients G of the active distances,
// any move x of length |x| ≤ D gives, in the linear problem,
//
//	max_k s_k·(d_k + G_k·x − mean) ≥ Σ λ_k s_k (d_k − mean) − |Σ λ_k s_k G_k|·D
//
// so the objective cannot fall by more than the slack of the active rows below
// it plus the imbalance times D. With a free mean Σ λ s = 0 is needed too, and
// its error counts in the same way. D is the farthest a better center could be
// when the positions surround it: twice the scale of the distances.
//
// The bound is that of the linear problem about the answer, or for a Flat answer
// where that was flat from the start of the one with the gradients of the old center. The true distances
// bend by |x|²/(2·radius), which is why the answer is linearized again until it
// stays.
func (p points) gap(a Center, g goal) float64 {
	m := [2]float64{a.X, a.Y}
	objective := p.objective(m, g)
	sum, total, balance := 0.0, 0.0, [3]float64{}
	for k, i := range a.Active {
		l, s := a.Multipliers[k], a.Sign[k]
		if !(l >= 0) || s != 1 && s != -1 || i < 0 || i >= len(p.c) {
			return math.Inf(1)
		}
		d, gradient := p.distance(i, m)
		value := s * d
		if !g.lowOnly {
			value = s * (d - a.Mean)
		}
		sum += float64(l * value)
		total += l
		balance[0] += float64(l * s * gradient[0])
		balance[1] += float64(l * s * gradient[1])
		balance[2] += float64(l * s)
	}
	if !(math.Abs(total-1) <= multiplierTol) {
		return math.Inf(1)
	}
	if !g.freeMean {
		balance[2] = 0
	}
	imbalance := math.Abs(balance[0]) + math.Abs(balance[1]) + math.Abs(balance[2])
	far := 2 * p.scale(g)
	return math.Max(objective-sum, 0) + float64(imbalance*far)
}

// multiplierTol is how far the multipliers may be from summing to 1.
const multiplierTol = 1e-9

// A Problem names one of the three center problems, for [Check].
type Problem uint8

// The problems.
const (
	Minimax Problem = iota + 1
	Zone
	Maximin
)

// Check verifies an answer from its certificate alone, without solving
// anything: that the stated distances are those of the center, that the
// multipliers are right, and that no other center can be better by more than
// tol. It is independent of how the answer was found.
func Check(problem Problem, theta, c []float64, nominal, radius, tol float64, a Center) error {
	p, err := newPoints(theta, c, radius)
	if err != nil {
		return err
	}
	g := goal{nominal: nominal, freeMean: problem == Zone, lowOnly: problem == Maximin}
	p.frozen = a.Status == Flat && !p.linear
	if len(a.Active) != len(a.Sign) || len(a.Active) != len(a.Multipliers) {
		return fmt.Errorf("%w: certificate of uneven length", ErrUncertified)
	}
	mean, half := p.middle([2]float64{a.X, a.Y}, g)
	if !(math.Abs(mean-a.Mean) <= tol && math.Abs(half-a.HalfWidth) <= tol) {
		return fmt.Errorf("%w: stated distances are not those of the center", ErrUncertified)
	}
	gap := p.gap(a, g)
	if p.frozen && !(gap <= tol) { // flat only where it ended, not where it began
		p.frozen = false
		gap = p.gap(a, g)
	}
	if !(gap <= tol) {
		return fmt.Errorf("%w: another center may be better by %g", ErrUncertified, gap)
	}
	return nil
}
