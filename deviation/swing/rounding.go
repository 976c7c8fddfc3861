package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// roundingTerms is the number of terms kept in the series of the rounding error. The variance of
// the fifth is at most a twenty-fifth of the first's.
const roundingTerms = 5

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
func (q *problem) addRounding(f *Fit, inverse *mat.SymDense) {
	if q.rounded == 0 {
		return
	}
	p := 2*f.Order + 1
	amplitudes := make([]float64, len(q.used))
	sines, cosines := mat.NewVecDense(p, nil), mat.NewVecDense(p, nil)
	var s, c mat.VecDense
	for k := 1.0; k <= roundingTerms; k++ {
		if q.roundingAmplitudes(k, f.unit, amplitudes) < 1 {
			return // smaller than the unit of Angle
		}
		sines.Zero()
		cosines.Zero()
		sumS, sumC := sines.RawVector().Data, cosines.RawVector().Data
		for i, a := range amplitudes {
			if a == 0 {
				continue
			}
			phaseS, phaseC := math.Sincos(2 * math.Pi * k * float64(f.Residuals[i].Residual) / float64(q.steps[i]))
			phaseS, phaseC = a*phaseS, a*phaseC
			for j, x := range q.basis[i][:p] {
				sumS[j] += phaseS * x
				sumC[j] += phaseC * x
			}
		}
		s.MulVec(inverse, sines)
		c.MulVec(inverse, cosines)
		f.covariance.SymRankOne(f.covariance, 0.5, &s)
		f.covariance.SymRankOne(f.covariance, 0.5, &c)
	}
}

// roundingAmplitudes fills in the amplitude of the k-th term in each observation, weighted, for
// noise of a variance in unit weight. It returns the largest without its weight.
func (q *problem) roundingAmplitudes(k, unit float64, amplitudes []float64) float64 {
	largest, amplitude := 0.0, 0.0
	var step, w float64 // those of the amplitude
	row := 0
	for i, u := range q.used {
		if !u {
			continue
		}
		if s := float64(q.steps[i]); s != step || q.weights[row] != w {
			step, w, amplitude = s, q.weights[row], 0
			if step != 0 {
				noise := max(0, unit/w-step*step/12)
				amplitude = step / (math.Pi * k) * math.Exp(-2*math.Pi*math.Pi*k*k*noise/(step*step))
			}
			largest = max(largest, amplitude)
		}
		amplitudes[i] = w * amplitude
		row++
	}
	return largest
}
