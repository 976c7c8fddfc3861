package wmm

import "math"

// MaxDegree is the maximum degree of a model that is read. Models of the crust's field have
// degrees of several hundred.
const MaxDegree = 800

// A coefficient is a pair of Schmidt semi-normalised Gauss coefficients g and h
// of one degree n and order m, in nT, and their yearly rates.
type coefficient struct{ g, h, gRate, hRate float64 }

// coefficients holds all pairs by degree and, within it, by order: degree n and
// order m at index n(n+1)/2 + m. Degree 0 is there, and is zero.
type coefficients []coefficient

func newCoefficients(degree int) coefficients {
	return make(coefficients, index(degree+1, 0))
}

func index(n, m int) int { return n*(n+1)/2 + m }

// degree is the largest degree; 0 if there are no coefficients.
func (c coefficients) degree() int {
	if len(c) == 0 {
		return 0
	}
	return int(math.Sqrt(2*float64(len(c))+0.25)-0.5+1e-9) - 1
}

// at returns the main-field coefficients some years after the epoch, their
// rates kept.
func (c coefficients) at(years float64) coefficients {
	moved := make(coefficients, len(c))
	for i, k := range c {
		moved[i] = coefficient{k.g + years*k.gRate, k.h + years*k.hRate, k.gRate, k.hRate}
	}
	return moved
}
