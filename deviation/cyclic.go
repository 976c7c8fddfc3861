package deviation

// cyclic solves, for each i round the circle,
//
//	low[i] x[i−1] + x[i] + high[i] x[i+1] = right[i]
//
// in a number of steps proportional to that of the unknowns. It needs at least three unknowns, and
// low[i] + high[i] < 1 with neither negative. Then elimination needs no exchange of rows.
//
// The corners of the matrix are a correction of rank one to a tridiagonal matrix (Sherman and
// Morrison; Press and others, Numerical Recipes, section on cyclic tridiagonal systems; cited
// from memory).
func cyclic(low, high, right []float64) []float64 {
	n := len(right)
	// The matrix is T + u vᵀ with u = (−1, 0 … 0, high[n−1]), v = (1, 0 … 0, −low[0]).
	diagonal := make([]float64, n)
	for i := range diagonal {
		diagonal[i] = 1
	}
	diagonal[0] = 2
	diagonal[n-1] = 1 + low[0]*high[n-1]
	u := make([]float64, n)
	u[0], u[n-1] = -1, high[n-1]
	x := tridiagonal(low, diagonal, high, right)
	y := tridiagonal(low, diagonal, high, u)
	f := (x[0] - low[0]*x[n-1]) / (1 + y[0] - low[0]*y[n-1])
	for i := range x {
		x[i] -= f * y[i]
	}
	return x
}

// tridiagonal solves the system without corners. It does not use the first of low and the last of
// high.
func tridiagonal(low, diagonal, high, right []float64) []float64 {
	n := len(right)
	above, x := make([]float64, n), make([]float64, n)
	above[0], x[0] = high[0]/diagonal[0], right[0]/diagonal[0]
	for i := 1; i < n; i++ {
		pivot := diagonal[i] - low[i]*above[i-1]
		above[i] = high[i] / pivot
		x[i] = (right[i] - low[i]*x[i-1]) / pivot
	}
	for i := n - 2; i >= 0; i-- {
		x[i] -= above[i] * x[i+1]
	}
	return x
}
