package wmm

import "math"

// The field is minus the gradient of the potential
//
//	V = a Σ (a/r)^(n+1) Σ (g cos mλ + h sin mλ) P(n,m)(cos θ)
//
// with Schmidt semi-normalised associated Legendre functions P of geocentric
// colatitude θ, east longitude λ, distance r and the reference radius a
// (Chulliat and others, The US/UK World Magnetic Model for 2020-2025: Technical
// Report, section 1.2; the symbols are the report's, cited from memory).
//
// Three things make the sums fast. They also avoid a division by sin θ, so that the poles
// need no special case:
//
//   - For m > 0 the sums use S = P / sin θ, which is a polynomial in cos θ times
//     sin^(m−1) θ. Then m P/sin θ = m S, and dP/dθ = n cos θ S(n) − √(n²−m²) S(n−1).
//     For m = 0, dP(n,0)/dθ = −√(n(n+1)/2) P(n,1).
//   - The functions are scaled, so that the first factor of their recursion over n is
//     cos θ, and multiplied by their power of q = a/r:
//     R(n) = q cos θ R(n−1) − β q² R(n−2).
//     The coefficients are divided by the scale once, when a model is prepared.
//   - Σ n c(n) R(n) is computed from the partial sums of Σ c(n) R(n).

// referenceRadius is the mean radius a of the geomagnetic models, in km.
const referenceRadius = 6371.2

// A term is one degree of an order. It has the scaled coefficients g and h of its degree. It
// has those of the next degree, kg and kh, multiplied by √(n²−m²) of that degree. And it has
// the β of the recursion to the next degree.
type term struct{ beta, g, h, kg, kh float64 }

// A zonalTerm is one degree of order 0. Its derivative needs the functions of order 1.
type zonalTerm struct{ beta, outward, betaOne, north float64 }

// prepared holds scaled coefficients, ready for the sums.
type prepared struct {
	degree int
	zonal  []zonalTerm // by degree from 1
	orders [][]term    // by order from 1, each by degree from its order
}

// prepare scales coefficients for the sums. The function pick chooses the main field or the
// rates. Prepare leaves out the highest degrees if all their coefficients are zero.
func prepare(c coefficients, pick func(coefficient) (g, h float64)) *prepared {
	degree := c.degree()
	for degree > 1 && allZero(c[index(degree, 0):index(degree+1, 0)], pick) {
		degree--
	}
	p := &prepared{degree: degree, zonal: make([]zonalTerm, degree), orders: make([][]term, degree)}
	sectoral := 1.0 // P(m,m) = sectoral × sin^m θ
	for m := 0; m <= degree; m++ {
		if m > 1 {
			sectoral *= math.Sqrt(float64(2*m-1) / float64(2*m))
		}
		scale := make([]float64, degree+1) // P(n,m) = scale(n) × the result of the recursion
		scale[m] = sectoral
		root := func(n int) float64 { return math.Sqrt(float64(n*n - m*m)) }
		terms := make([]term, 0, degree-m+1)
		for n := m; n <= degree; n++ {
			var t term
			if n > m {
				scale[n] = scale[n-1] * float64(2*n-1) / root(n)
			}
			g, h := pick(c[index(n, m)])
			t.g, t.h = g*scale[n], h*scale[n]
			if n > m {
				last := &terms[len(terms)-1]
				last.kg, last.kh = g*root(n)*scale[n-1], h*root(n)*scale[n-1]
				if n > m+1 {
					last.beta = root(n-1) / root(n) * scale[n-2] / scale[n]
				}
			}
			terms = append(terms, t)
		}
		switch m {
		case 0:
			for n := 1; n <= degree; n++ {
				p.zonal[n-1].beta = terms[n].beta
				p.zonal[n-1].outward = float64(n+1) * terms[n].g
			}
			continue
		case 1:
			for n := 1; n <= degree; n++ {
				g, _ := pick(c[index(n, 0)])
				p.zonal[n-1].betaOne = terms[n-1].beta
				p.zonal[n-1].north = -g * math.Sqrt(float64(n*(n+1))/2) * scale[n]
			}
		}
		p.orders[m-1] = terms
	}
	return p
}

// allZero reports whether all coefficients that pick chooses are zero.
func allZero(c coefficients, pick func(coefficient) (g, h float64)) bool {
	for _, k := range c {
		if g, h := pick(k); g != 0 || h != 0 {
			return false
		}
	}
	return true
}

// sum sums one order, with r as the first value of the recursion. It returns three values,
// each for g and for h: A = Σ c R, the sum P of the partial sums of A, and K = Σ k R.
//
// It is not inlined, and returns six numbers instead of a struct, so that the variables of
// the loop stay in registers.
//
//go:noinline
func sum(terms []term, qc, q2, r float64) (ag, ah, pg, ph, kg, kh float64) {
	var before float64
	for i := range terms {
		t := &terms[i]
		ag += t.g * r
		ah += t.h * r
		kg += t.kg * r
		kh += t.kh * r
		pg += ag
		ph += ah
		r, before = qc*r-t.beta*q2*before, r
	}
	return ag, ah, pg, ph, kg, kh
}

// sumZonal sums order 0. It returns the outward part, and the northward part without its
// factor sin θ.
//
//go:noinline
func sumZonal(terms []zonalTerm, qc, q2, q float64) (outward, north float64) {
	r, before := qc*q2, q2 // order 0, degree 1 and 0
	one, beforeOne := q2*q, 0.0
	for i := range terms {
		t := &terms[i]
		outward += t.outward * r
		north += t.north * one
		r, before = qc*r-t.beta*q2*before, r
		one, beforeOne = qc*one-t.betaOne*q2*beforeOne, one
	}
	return outward, north
}

// totals are the sums over the orders: of A, P and K, and of m A, turned by 90°, for the
// east component.
type totals struct{ a, partial, k, east float64 }

// add adds an order to the totals, at the cosine and sine of mλ.
func (t *totals) add(terms []term, qc, q2, r, m, cos, sin float64) {
	ag, ah, pg, ph, kg, kh := sum(terms, qc, q2, r)
	t.a += ag*cos + ah*sin
	t.partial += pg*cos + ph*sin
	t.k += kg*cos + kh*sin
	t.east += m * (ag*sin - ah*cos)
}

// field returns the north, east and down components from the totals and from the parts of
// order 0.
func (t *totals) field(l *place, degree int, outward, north float64) (x, y, z float64) {
	n := float64(degree+1)*t.a - t.partial // Σ n c R
	down := -(outward + l.sin*(n+t.a))
	north = l.sin*north + l.cos*n - l.q*t.k
	// Turn from the geocentric vertical to the vertical of the ellipsoid.
	return north*l.cosTurn - down*l.sinTurn, t.east, north*l.sinTurn + down*l.cosTurn
}

// at sums the whole model at a place. It returns the north, east and down components, down
// along the vertical of the ellipsoid.
func (p *prepared) at(l *place) (x, y, z float64) {
	qc, q2, qs := l.q*l.cos, l.q*l.q, l.q*l.sin
	var t totals
	r := q2 * l.q // q^(m+2) sin^(m−1) θ
	cos, sin, m := l.cosLon, l.sinLon, 0.0
	for _, terms := range p.orders {
		m++
		t.add(terms, qc, q2, r, m, cos, sin)
		r *= qs
		cos, sin = cos*l.cosLon-sin*l.sinLon, sin*l.cosLon+cos*l.sinLon
	}
	outward, north := sumZonal(p.zonal, qc, q2, l.q)
	return t.field(l, p.degree, outward, north)
}

// both sums two models at a place, such as a field and its rates. Either may have the higher
// degree: a coefficient that is zero at the epoch may have a rate.
func both(p, second *prepared, l *place) (field [3]float64, rates [3]float64) {
	qc, q2, qs := l.q*l.cos, l.q*l.q, l.q*l.sin
	var t, u totals
	r := q2 * l.q
	cos, sin, m := l.cosLon, l.sinLon, 0.0
	for i := range max(len(p.orders), len(second.orders)) {
		m++
		if i < len(p.orders) {
			t.add(p.orders[i], qc, q2, r, m, cos, sin)
		}
		if i < len(second.orders) {
			u.add(second.orders[i], qc, q2, r, m, cos, sin)
		}
		r *= qs
		cos, sin = cos*l.cosLon-sin*l.sinLon, sin*l.cosLon+cos*l.sinLon
	}
	outward, north := sumZonal(p.zonal, qc, q2, l.q)
	field[0], field[1], field[2] = t.field(l, p.degree, outward, north)
	outward, north = sumZonal(second.zonal, qc, q2, l.q)
	rates[0], rates[1], rates[2] = u.field(l, second.degree, outward, north)
	return field, rates
}
