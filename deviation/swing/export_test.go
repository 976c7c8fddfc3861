package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A Candidate is an order that a fit tried, for the tests.
type Candidate struct {
	Order        int
	AICc, Weight float64
}

// Candidates returns the orders that a fit tried.
func Candidates(f *Fit) []Candidate {
	var list []Candidate
	for _, c := range f.candidates {
		list = append(list, Candidate{c.order, c.aicc, c.weight})
	}
	return list
}

// Condition returns the condition number of the equations that a fit solved, in the 2-norm.
func Condition(f *Fit) float64 {
	observations, used := make([]Observation, len(f.Residuals)), make([]bool, len(f.Residuals))
	for i, r := range f.Residuals {
		observations[i], used[i] = r.Observation, !r.LeftOut
	}
	q := newProblem(observations, used, f.by, readSteps(observations), f.Order)
	p := 2*f.Order + 1
	triangle := mat.NewTriDense(p, mat.Upper, nil)
	for j := range p {
		for i := range j {
			triangle.SetTri(i, j, q.weighted.columns[j][i])
		}
		triangle.SetTri(j, j, q.weighted.diagonal[j])
	}
	var svd mat.SVD
	if !svd.Factorize(triangle, mat.SVDNone) {
		return math.NaN()
	}
	return svd.Cond()
}

// SerialFound reports whether a fit found that the errors of neighbouring readings are correlated.
func SerialFound(f *Fit) bool { return f.serial.found }

// SerialPower returns how often so many readings show a correlation of 0.7.
func SerialPower(f *Fit) float64 { return f.serial.power }

// Suspicions returns the readings of some observations that do not go with the others.
func Suspicions(observations []Observation) []Suspicion { return suspicions(observations) }

// SolveWhitened solves equations whose normal matrix is l times its transpose.
func SolveWhitened(l [][]float64, v []float64) (b []float64, inverse [][]float64) {
	return (&whitened{l: l, v: v}).solve(len(v))
}
