package deviation

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// leftOver is how many observations more than coefficients a higher order needs
// to be tried.
const leftOver = 6

// choose fits every order that the observations support and returns the one of
// least AICc.
func choose(observations []Observation, used []bool, first, last int, options FitOptions) (*Fit, error) {
	var fits []*Fit
	var candidates []Candidate
	best := 0
	for order := first; order <= last; order++ {
		fit, squares, err := fitOrder(observations, used, order, options)
		if err != nil {
			if len(fits) > 0 {
				break // what the observations do not support is not tried
			}
			return nil, err
		}
		k := float64(2*order + 2) // the variance is a parameter too
		n := float64(fit.DegreesOfFreedom + 2*order + 1)
		if n-k-1 <= 0 || len(fits) > 0 && fit.DegreesOfFreedom < leftOver {
			if len(fits) == 0 {
				return fit, nil // there is nothing to choose by
			}
			break
		}
		// No residual is known better than to the last unit of an Angle.
		aicc := n*math.Log(max(squares, n)/n) + 2*k + correction(n, k)
		fits = append(fits, fit)
		candidates = append(candidates, Candidate{Order: order, AICc: aicc})
		if aicc < candidates[best].AICc {
			best = len(fits) - 1
		}
	}
	weigh(candidates, fits)
	chosen := fits[best]
	chosen.Candidates = candidates
	chosen.widen(fits)
	return chosen, nil
}

// widen takes into the covariance of the chosen fit how far the others differ.
func (f *Fit) widen(fits []*Fit) {
	p, wide := 2*f.Order+1, 2*fits[len(fits)-1].Order+1
	covariance := mat.NewSymDense(wide, nil)
	own := f.Curve.function.list(wide)
	for i, other := range fits {
		weight := f.Candidates[i].Weight
		difference := other.Curve.function.list(wide)
		for j := range difference {
			difference[j] -= own[j]
		}
		for j := range wide {
			for k := j; k < wide; k++ {
				v := difference[j] * difference[k]
				if k <= 2*other.Order {
					v += other.covariance.At(j, k)
				}
				covariance.SetSym(j, k, covariance.At(j, k)+weight*v)
			}
		}
	}
	f.Curve.variance = quadratic(wide, covariance.At)
	f.covariance = mat.NewSymDense(p, nil)
	for j := range p {
		for k := j; k < p; k++ {
			f.covariance.SetSym(j, k, covariance.At(j, k))
		}
	}
}

// correction is what AICc adds to AIC for n observations and k parameters.
func correction(n, k float64) float64 { return 2 * k * (k + 1) / (n - k - 1) }

// weigh fills in the candidates' weights: Akaike's, without the correction for
// few observations. That correction serves the choice, but it would leave out
// the higher orders' say in how wrong the choice may be: with it, 95 % intervals
// from 16 headings held the truth in 92 % of simulated swings, without it in
// 96 %.
func weigh(candidates []Candidate, fits []*Fit) {
	aic := make([]float64, len(candidates))
	least := math.Inf(1)
	for i, c := range candidates {
		p := 2*c.Order + 1
		aic[i] = c.AICc - correction(float64(fits[i].DegreesOfFreedom+p), float64(p+1))
		least = min(least, aic[i])
	}
	sum := 0.0
	for i := range candidates {
		candidates[i].Weight = math.Exp((least - aic[i]) / 2)
		sum += candidates[i].Weight
	}
	for i := range candidates {
		candidates[i].Weight /= sum
	}
}
