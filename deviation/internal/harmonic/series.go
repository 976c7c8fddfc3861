// Package harmonic holds periodic functions of the heading as sums of sines and cosines.
package harmonic

import (
	"math"
	"slices"

	"lubberline.example/angle"
)

// Series is a periodic function of the heading z:
//
//	constant + Σ sin[k−1] sin kz + cos[k−1] cos kz
type Series struct {
	Constant float64
	Sin, Cos []float64 // of equal length, the order
}

// At returns the value at a heading, given by its sine and cosine.
func (h *Series) At(s, c float64) float64 {
	value := h.Constant
	sk, ck := s, c // of kz
	for k, b := range h.Sin {
		value += b*sk + h.Cos[k]*ck
		sk, ck = sk*c+ck*s, ck*c-sk*s
	}
	return value
}

// Slope returns the function's derivative, itself a function of this kind.
func (h *Series) Slope() Series {
	d := Series{Sin: make([]float64, len(h.Sin)), Cos: make([]float64, len(h.Cos))}
	for i := range h.Sin {
		k := float64(i + 1)
		d.Sin[i], d.Cos[i] = -k*h.Cos[i], k*h.Sin[i]
	}
	return d
}

// Bound bounds how far the function goes from its constant.
func (h *Series) Bound() float64 {
	sum := 0.0
	for k := range h.Sin {
		sum += math.Hypot(h.Sin[k], h.Cos[k])
	}
	return sum
}

// Basis fills row with the functions whose coefficients a fit finds: 1, sin z,
// cos z, sin 2z, cos 2z and so on.
func Basis(row []float64, s, c float64) {
	row[0] = 1
	sk, ck := s, c
	for i := 1; i+1 < len(row); i += 2 {
		row[i], row[i+1] = sk, ck
		sk, ck = sk*c+ck*s, ck*c-sk*s
	}
}

// From is the function with coefficients in the order of basis.
func From(b []float64) Series {
	order := len(b) / 2
	h := Series{Constant: b[0], Sin: slices.Grow([]float64(nil), order), Cos: slices.Grow([]float64(nil), order)}
	for i := 1; i+1 < len(b); i += 2 {
		h.Sin = append(h.Sin, b[i])
		h.Cos = append(h.Cos, b[i+1])
	}
	return h
}

// Plus is the sum of two functions.
func (h Series) Plus(other Series) Series {
	if len(other.Sin) == 0 && other.Constant == 0 {
		return h
	}
	order := max(len(h.Sin), len(other.Sin))
	sum := Series{Constant: h.Constant + other.Constant, Sin: make([]float64, order), Cos: make([]float64, order)}
	for _, part := range []Series{h, other} {
		for i := range part.Sin {
			sum.Sin[i] += part.Sin[i]
			sum.Cos[i] += part.Cos[i]
		}
	}
	return sum
}

// Times is the function, each value multiplied.
func (h Series) Times(factor float64) Series {
	order := len(h.Sin)
	out := Series{Constant: h.Constant * factor, Sin: slices.Grow([]float64(nil), order), Cos: slices.Grow([]float64(nil), order)}
	for i := range h.Sin {
		out.Sin = append(out.Sin, h.Sin[i]*factor)
		out.Cos = append(out.Cos, h.Cos[i]*factor)
	}
	return out
}

// List is the first p coefficients in the order of basis.
func (h *Series) List(p int) []float64 {
	list := make([]float64, p)
	list[0] = h.Constant
	for i := range min(len(h.Sin), p/2) {
		list[2*i+1], list[2*i+2] = h.Sin[i], h.Cos[i]
	}
	return list
}

// Quadratic returns the function xᵀMx of the basis x, for a symmetric matrix M given by its
// elements. Products of sines and cosines are sines and cosines of sums and differences. So the
// result has up to twice the order.
func Quadratic(p int, m func(i, j int) float64) Series {
	order := p - 1 // twice the order of x
	h := Series{Sin: make([]float64, order), Cos: make([]float64, order)}
	addCos := func(k int, v float64) {
		if k == 0 {
			h.Constant += v
			return
		}
		h.Cos[max(k, -k)-1] += v
	}
	addSin := func(k int, v float64) {
		switch {
		case k > 0:
			h.Sin[k-1] += v
		case k < 0:
			h.Sin[-k-1] -= v
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

// FromAngles is the function with coefficients that are angles, in the order of Basis.
func FromAngles(list ...angle.Angle) Series {
	units := make([]float64, len(list))
	for i, a := range list {
		units[i] = float64(a)
	}
	return From(units)
}

// Largest is the largest value, looked for on every quarter degree, without its sign.
func (h *Series) Largest() angle.Angle {
	largest := 0.0
	for z := angle.Angle(0); z < angle.Turn; z += angle.Degree / 4 {
		largest = max(largest, math.Abs(h.At(z.SinCos())))
	}
	return Round(largest)
}
