package deviation

import "math"

// harmonics is a periodic function of the heading z:
//
//	constant + Σ sin[k−1] sin kz + cos[k−1] cos kz
type harmonics struct {
	constant float64
	sin, cos []float64 // of equal length, the order
}

// at returns the value at a heading, given by its sine and cosine.
func (h *harmonics) at(s, c float64) float64 {
	value := h.constant
	sk, ck := s, c // of kz
	for k, b := range h.sin {
		value += b*sk + h.cos[k]*ck
		sk, ck = sk*c+ck*s, ck*c-sk*s
	}
	return value
}

// slope returns the function's derivative, itself a function of this kind.
func (h *harmonics) slope() harmonics {
	d := harmonics{sin: make([]float64, len(h.sin)), cos: make([]float64, len(h.cos))}
	for i := range h.sin {
		k := float64(i + 1)
		d.sin[i], d.cos[i] = -k*h.cos[i], k*h.sin[i]
	}
	return d
}

// most bounds how far the function goes from its constant.
func (h *harmonics) most() float64 {
	sum := 0.0
	for k := range h.sin {
		sum += math.Hypot(h.sin[k], h.cos[k])
	}
	return sum
}

// basis fills row with the functions whose coefficients a fit finds: 1, sin z,
// cos z, sin 2z, cos 2z and so on.
func basis(row []float64, s, c float64) {
	row[0] = 1
	sk, ck := s, c
	for i := 1; i+1 < len(row); i += 2 {
		row[i], row[i+1] = sk, ck
		sk, ck = sk*c+ck*s, ck*c-sk*s
	}
}

// fromCoefficients is the function with coefficients in the order of basis.
func fromCoefficients(b []float64) harmonics {
	h := harmonics{constant: b[0]}
	for i := 1; i+1 < len(b); i += 2 {
		h.sin = append(h.sin, b[i])
		h.cos = append(h.cos, b[i+1])
	}
	return h
}

// plus is the sum of two functions.
func (h harmonics) plus(other harmonics) harmonics {
	if len(other.sin) == 0 && other.constant == 0 {
		return h
	}
	order := max(len(h.sin), len(other.sin))
	sum := harmonics{constant: h.constant + other.constant, sin: make([]float64, order), cos: make([]float64, order)}
	for _, part := range []harmonics{h, other} {
		for i := range part.sin {
			sum.sin[i] += part.sin[i]
			sum.cos[i] += part.cos[i]
		}
	}
	return sum
}

// times is the function, each value multiplied.
func (h harmonics) times(factor float64) harmonics {
	out := harmonics{constant: h.constant * factor}
	for i := range h.sin {
		out.sin = append(out.sin, h.sin[i]*factor)
		out.cos = append(out.cos, h.cos[i]*factor)
	}
	return out
}

// list is the first p coefficients in the order of basis.
func (h *harmonics) list(p int) []float64 {
	list := make([]float64, p)
	list[0] = h.constant
	for i := range min(len(h.sin), p/2) {
		list[2*i+1], list[2*i+2] = h.sin[i], h.cos[i]
	}
	return list
}

// quadratic is the function xᵀMx of the basis x, for a symmetric matrix M given
// by its elements: products of sines and cosines are sines and cosines of sums
// and differences, up to twice the order.
func quadratic(p int, m func(i, j int) float64) harmonics {
	order := p - 1 // twice the order of x
	h := harmonics{sin: make([]float64, order), cos: make([]float64, order)}
	addCos := func(k int, v float64) {
		if k == 0 {
			h.constant += v
			return
		}
		h.cos[max(k, -k)-1] += v
	}
	addSin := func(k int, v float64) {
		switch {
		case k > 0:
			h.sin[k-1] += v
		case k < 0:
			h.sin[-k-1] -= v
		}
	}
	for i := range p {
		for j := range p {
			v := m(i, j)
			a, b := (i+1)/2, (j+1)/2 // multiples of the heading
			sinA, sinB := i%2 == 1, j%2 == 1
			switch {
			case sinA && sinB: // ½ cos(a−b) − ½ cos(a+b)
				addCos(a-b, v/2)
				addCos(a+b, -v/2)
			case sinA: // ½ sin(a+b) + ½ sin(a−b)
				addSin(a+b, v/2)
				addSin(a-b, v/2)
			case sinB:
				addSin(a+b, v/2)
				addSin(b-a, v/2)
			default: // ½ cos(a−b) + ½ cos(a+b)
				addCos(a-b, v/2)
				addCos(a+b, v/2)
			}
		}
	}
	return h
}
