package swing

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
)

// A serialTest says whether the errors of readings on neighbouring headings are correlated. They
// are if the vessel swung too fast or if the mark drifted. Each reading then adds less information.
type serialTest struct {
	correlation float64 // of a reading's error with its neighbour's, 0 to 0.9: the best fit
	probability float64 // of a correlation; before the swing it is taken as one half
	found       bool    // whether to take it as real; in at most 5 % of sound swings
	power       float64 // how often so many readings show a correlation of 0.7
}

// serialStep is the step of the correlations that are tried; serialMost is their number.
const (
	serialStep = 0.1
	serialMost = 9
)

// A chain holds the weighted equations of the observations used, in the order of their headings.
type chain struct {
	x [][]float64 // the harmonics of each row
	y []float64
}

// chain returns the chain of the observations. It begins at the heading that was observed first.
func (q *problem) chain() chain {
	type link struct {
		z       angle.Angle // from the first
		row, in int
	}
	links := make([]link, 0, len(q.weights))
	var first angle.Angle
	for i, o := range q.observations {
		if q.used[i] {
			z := o.heading(q.by)
			if len(links) == 0 {
				first = z
			}
			links = append(links, link{(z - first).Normalized(), len(links), i})
		}
	}
	slices.SortStableFunc(links, func(a, b link) int { return cmp.Compare(a.z, b.z) })
	c := chain{matrix(len(links), 2*MaxOrder+1), make([]float64, len(links))}
	for k, l := range links {
		w := math.Sqrt(q.weights[l.row])
		for j, x := range q.basis[l.in] {
			c.x[k][j] = w * x
		}
		c.y[k] = w * q.deviation(l.in)
	}
	return c
}

// A whitened holds the factored normal equations of a chain for one correlation of neighbours. It
// contains the equations of fewer coefficients too.
type whitened struct {
	rho  float64
	l    [][]float64 // Cholesky: the lower triangle
	v    []float64   // the solution of Lv = right side
	yy   float64
	rank int // the number of coefficients that the rows determine
}

// whiten removes the correlation rho from the rows (Prais and Winsten, 1954) and factors their
// normal equations.
func (c chain) whiten(rho float64) whitened {
	p := len(c.x[0])
	w := whitened{rho: rho, l: matrix(p, p), v: make([]float64, p)}
	line := make([]float64, p)
	for i, x := range c.x {
		var y float64
		if i == 0 {
			s := math.Sqrt(1 - rho*rho)
			for j := range line {
				line[j] = s * x[j]
			}
			y = s * c.y[0]
		} else {
			last := c.x[i-1]
			for j := range line {
				line[j] = x[j] - rho*last[j]
			}
			y = c.y[i] - rho*c.y[i-1]
		}
		for j, a := range line {
			to := w.l[j][:j+1]
			for k := range to {
				to[k] += a * line[k]
			}
			w.v[j] += a * y
		}
		w.yy += y * y
	}
	for j := range p {
		for k := 0; k <= j; k++ {
			sum := w.l[j][k]
			for m := range k {
				sum -= w.l[j][m] * w.l[k][m]
			}
			if k < j {
				w.l[j][k] = sum / w.l[k][k]
				continue
			}
			if !(sum > 1e-9*float64(len(c.x))) {
				w.rank = j
				return w
			}
			w.l[j][j] = math.Sqrt(sum)
		}
		for k := range j {
			w.v[j] -= w.l[j][k] * w.v[k]
		}
		w.v[j] /= w.l[j][j]
	}
	w.rank = p
	return w
}

// squares returns the sum of squared residuals of a fit with p coefficients.
func (w *whitened) squares(p int) float64 {
	left := w.yy
	for _, v := range w.v[:p] {
		left -= v * v
	}
	return max(0, left)
}

// criterion returns −2 log of the restricted likelihood of p coefficients (Patterson and Thompson,
// Biometrika 58, 1971, cited from memory). It omits the terms that do not depend on the
// correlation. The mean square is taken as at least the value of least.
func (w *whitened) criterion(p int, n, least float64) float64 {
	freedom := n - float64(p)
	value := freedom*math.Log(max(w.squares(p)/freedom, least*(1-w.rho*w.rho), 1)) - math.Log(1-w.rho*w.rho)
	for j := range p {
		value += 2 * math.Log(w.l[j][j])
	}
	return value
}

// solve returns the p coefficients and the inverse of their normal equations.
func (w *whitened) solve(p int) (b []float64, inverse [][]float64) {
	b = slices.Clone(w.v[:p])
	for j := p - 1; j >= 0; j-- {
		for k := j + 1; k < p; k++ {
			b[j] -= w.l[k][j] * b[k]
		}
		b[j] /= w.l[j][j]
	}
	// The columns of L⁻¹, and their products.
	column := make([][]float64, p)
	for k := range p {
		column[k] = make([]float64, p)
		for j := k; j < p; j++ {
			sum := 0.0
			if j == k {
				sum = 1
			}
			for m := k; m < j; m++ {
				sum -= w.l[j][m] * column[k][m]
			}
			column[k][j] = sum / w.l[j][j]
		}
	}
	inverse = make([][]float64, p)
	for i := range p {
		inverse[i] = make([]float64, p)
		for j := range p {
			for m := max(i, j); m < p; m++ {
				inverse[i][j] += column[i][m] * column[j][m]
			}
		}
	}
	return b, inverse
}
