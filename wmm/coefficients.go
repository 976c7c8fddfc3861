package wmm

import "math"

// MaxDegree is the maximum degree of a model that is read. Models of the crust's field have
// degrees of several hundred.
const MaxDegree = 800

// A coefficient is a pair of Schmidt semi-normalised Gauss coefficients g and h of
// one degree n and order m. They are in nT, with their yearly rates.
type coefficient struct{ g, h, gRate, hRate float64 }

// coefficients holds all pairs, by degree and then by order: degree n and order m are at
// index n(n+1)/2 + m. The first pair has degree 0, and is zero.
type coefficients []coefficient

// newCoefficients returns coefficients up to a degree, all zero.
func newCoefficients(degree int) coefficients {
	return make(coefficients, index(degree+1, 0))
}

// index returns the index of a degree and order in [coefficients].
func index(n, m int) int { return n*(n+1)/2 + m }

// degree returns the largest degree, or 0 if there are no coefficients.
func (c coefficients) degree() int {
	if len(c) == 0 {
		return 0
	}
	return int(math.Sqrt(2*float64(len(c))+0.25)-0.5+1e-9) - 1
}

// at returns the coefficients of the main field a number of years after the epoch. The rates
// stay the same.
func (c coefficients) at(years float64) coefficients {
	moved := make(coefficients, len(c))
	for i, k := range c {
		moved[i] = coefficient{k.g + years*k.gRate, k.h + years*k.hRate, k.gRate, k.hRate}
	}
	return moved
}
