package swing

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// A problem holds the observations that a curve is fitted to, and what the fits of all orders share.
type problem struct {
	observations []Observation
	used         []bool
	by           deviation.HeadingKind
	steps        []angle.Angle // to which they were read
	exact        *deviation.ExactCoefficients
	bend         harmonic.Series // what the exact form adds to A to E; of no order if nothing

	headings       []angle.Angle // the different ones used, rising
	sines, cosines []float64     // of the heading of each observation
	basis          [][]float64   // of each observation, all harmonics on its heading
	weights        []float64     // of the observations used
	stated         []float64     // their variances, if all are stated
	rounded        float64       // the mean variance that rounding adds to them, in units squared
	weighted       factored      // their equations
	alike          factored      // the equations with equal weights, if stated
}

// newProblem prepares fits of orders up to the highest to the observations used.
func newProblem(observations []Observation, used []bool, by deviation.HeadingKind, steps []angle.Angle, highest int) *problem {
	n := len(observations)
	q := &problem{observations: observations, used: used, by: by, steps: steps, headings: usedHeadings(observations, used, by),
		sines: make([]float64, n), cosines: make([]float64, n), basis: matrix(n, 2*MaxOrder+1)}
	for i, o := range observations {
		q.sines[i], q.cosines[i] = o.heading(by).SinCos()
		harmonic.Basis(q.basis[i], q.sines[i], q.cosines[i])
	}
	q.weights, q.stated = fitWeights(observations, used)
	q.rounded = q.meanRounding()
	p := min(2*highest+1, len(q.headings))
	q.weighted = factor(q.columns(q.weights, p))
	if q.stated != nil {
		q.alike = factor(q.columns(nil, p))
	}
	return q
}

// matrix returns a matrix of zeros.
func matrix(rows, columns int) [][]float64 {
	all := make([]float64, rows*columns)
	list := make([][]float64, rows)
	for i := range list {
		list[i] = all[i*columns : (i+1)*columns : (i+1)*columns]
	}
	return list
}

// columns returns the first p harmonics on the headings used, each heading weighted. Without
// weights, all weigh the same.
func (q *problem) columns(weights []float64, p int) [][]float64 {
	columns := matrix(p, len(q.weights))
	row := 0
	for i, line := range q.basis {
		if !q.used[i] {
			continue
		}
		w := 1.0
		if weights != nil {
			w = math.Sqrt(weights[row])
		}
		for j := range columns {
			columns[j][row] = w * line[j]
		}
		row++
	}
	return columns
}

// weightedDeviations returns the right sides of the equations.
func (q *problem) weightedDeviations() []float64 {
	list := make([]float64, 0, len(q.weights))
	for i, u := range q.used {
		if u {
			list = append(list, math.Sqrt(q.weights[len(list)])*q.deviation(i))
		}
	}
	return list
}

// deviation returns the deviation of an observation minus what the exact form adds to A to E, in
// units.
func (q *problem) deviation(i int) float64 {
	d := float64(q.observations[i].Deviation.Angle().NormalizedSigned())
	if q.exact != nil {
		d -= q.bend.At(q.sines[i], q.cosines[i])
	}
	return d
}

// fitWeights returns the weights of the observations used, with a mean of one. It also returns the
// stated variances if all are stated.
func fitWeights(observations []Observation, used []bool) (weights, stated []float64) {
	weights = make([]float64, 0, len(observations))
	sum := 0.0
	for i, o := range observations {
		if !used[i] {
			continue
		}
		weights = append(weights, 1)
		if s, ok := o.Deviation.Uncertainty().Sigma(); ok && s > 0 {
			stated = append(stated, float64(s)*float64(s))
			sum += 1 / stated[len(stated)-1]
		}
	}
	if len(stated) < len(weights) {
		return weights, nil
	}
	for i := range weights {
		weights[i] = float64(len(weights)) / (stated[i] * sum)
	}
	return weights, stated
}

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
