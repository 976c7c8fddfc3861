package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A factored is the matrix X of least-squares equations as QR, by Householder reflections. The
// equations of fewer coefficients are the leading columns, so one factorization serves every order.
type factored struct {
	columns  [][]float64 // above the diagonal R, from it down the reflections
	scale    []float64   // of each reflection
	diagonal []float64   // of R
	inverse  [][]float64 // the columns of R⁻¹
}

// worstCondition is the largest condition number of equations that floating point can solve.
const worstCondition = 1e16

// factor factors the matrix of some columns, in place. It has at least as many rows as columns.
func factor(columns [][]float64) factored {
	p := len(columns)
	f := factored{columns, make([]float64, p), make([]float64, p), make([][]float64, p)}
	for j, column := range columns {
		for k := range j {
			f.reflect(k, column)
		}
		v := column[j:]
		norm := 0.0
		for _, x := range v {
			norm += x * x
		}
		norm = math.Sqrt(norm)
		if norm == 0 {
			continue // R is singular: solve refuses it
		}
		f.scale[j] = 1 / (norm * (norm + math.Abs(v[0])))
		f.diagonal[j] = -math.Copysign(norm, v[0])
		v[0] -= f.diagonal[j]
	}
	for j := range f.inverse {
		column := make([]float64, j+1)
		column[j] = 1 / f.diagonal[j]
		for i := j - 1; i >= 0; i-- {
			sum := 0.0
			for k := i + 1; k <= j; k++ {
				sum += columns[k][i] * column[k]
			}
			column[i] = -sum / f.diagonal[i]
		}
		f.inverse[j] = column
	}
	return f
}

// reflect applies a reflection to a column in place.
func (f *factored) reflect(k int, column []float64) {
	v, rest := f.columns[k][k:], column[k:]
	sum := 0.0
	for i, x := range v {
		sum += x * rest[i]
	}
	sum *= f.scale[k]
	for i, x := range v {
		rest[i] -= sum * x
	}
}

// A solution is the result of least squares.
type solution struct {
	coefficients []float64
	inverse      *mat.SymDense // of XᵀX
}

// solve solves Xβ = y for the first p coefficients, and overwrites y. It is false where X does not
// determine them.
func (f *factored) solve(p int, y []float64) (s solution, ok bool) {
	if !f.determines(p) {
		return s, false
	}
	for k := range p {
		f.reflect(k, y)
	}
	b := y[:p:p]
	for j := p - 1; j >= 0; j-- {
		b[j] /= f.diagonal[j]
		for i := range j {
			b[i] -= f.columns[j][i] * b[j]
		}
	}
	return solution{b, f.normalInverse(p)}, true
}

// determines reports whether floating point can solve the first p columns, by the condition number
// of R in the 1-norm.
func (f *factored) determines(p int) bool {
	size, inverse := 0.0, 0.0
	for j := range p {
		sum := math.Abs(f.diagonal[j])
		for _, x := range f.columns[j][:j] {
			sum += math.Abs(x)
		}
		size = max(size, sum)
		sum = 0
		for _, x := range f.inverse[j] {
			sum += math.Abs(x)
		}
		inverse = max(inverse, sum)
	}
	return size*inverse <= worstCondition
}

// normalInverse returns the inverse of XᵀX of the first p columns.
func (f *factored) normalInverse(p int) *mat.SymDense {
	out := mat.NewSymDense(p, nil)
	data := out.RawSymmetric().Data
	for _, column := range f.inverse[:p] {
		for i, x := range column {
			for j := i; j < len(column); j++ {
				data[i*p+j] += x * column[j]
			}
		}
	}
	return out
}
