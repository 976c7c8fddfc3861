package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"lubberline.example/deviation/internal/harmonic"
)

// roundingTerms is the number of terms kept in the series of the rounding error. The variance of
// the fifth is at most a twenty-fifth of the first's.
const roundingTerms = 5

// meanRounding returns the mean variance that rounding adds to the observations used, in units
// squared.
func (q *problem) meanRounding() float64 {
	sum, n := 0.0, 0
	for i, u := range q.used {
		if u {
			r := rounding(q.steps[i])
			sum += r * r
			n++
		}
	}
	return sum / float64(max(1, n))
}

// addRounding adds to a fit's covariance the error of readings that were rounded in the same way.
//
// Rounding to a step q adds to a value x the error
//
//	Σ (−1)ᵏ (q/πk) sin(2πk x/q)
//
// Noise of standard deviation σ before the rounding multiplies the mean of term k by
// exp(−2π²k²σ²/q²) (the theory of dither; Widrow and Kollár, Quantization Noise, 2008, cited from
// memory). The remaining error is the same for all readings at the same place between two marks.
// Where the curve changes by less than a step, this error does not average out. Least squares are
// linear, so each term gives an error of the coefficients. The function adds the mean square of
// that error over all places of the marks.
func (q *problem) addRounding(f *Fit, weights []float64, inverse *mat.SymDense) {
	if q.meanRounding() == 0 {
		return
	}
	p := 2*f.Order + 1
	line := make([]float64, p)
	sines, cosines := mat.NewVecDense(p, nil), mat.NewVecDense(p, nil)
	var s, c mat.VecDense
	for k := 1.0; k <= roundingTerms; k++ {
		sines.Zero()
		cosines.Zero()
		row, largest := 0, 0.0
		for i, r := range f.Residuals {
			if !q.used[i] {
				continue
			}
			w := weights[row]
			row++
			step := float64(q.steps[i])
			if step == 0 {
				continue
			}
			noise := max(0, f.unit/w-step*step/12)
			amplitude := step / (math.Pi * k) * math.Exp(-2*math.Pi*math.Pi*k*k*noise/(step*step))
			largest = max(largest, amplitude)
			sine, cosine := r.Observation.heading(f.by).SinCos()
			harmonic.Basis(line, sine, cosine)
			phaseS, phaseC := math.Sincos(2 * math.Pi * k * float64(r.Residual) / step)
			for j, x := range line {
				sines.SetVec(j, sines.AtVec(j)+w*amplitude*phaseS*x)
				cosines.SetVec(j, cosines.AtVec(j)+w*amplitude*phaseC*x)
			}
		}
		if largest < 1 {
			return // smaller than the unit of Angle
		}
		s.MulVec(inverse, sines)
		c.MulVec(inverse, cosines)
		f.covariance.SymRankOne(f.covariance, 0.5, &s)
		f.covariance.SymRankOne(f.covariance, 0.5, &c)
	}
}
