package deviation

import (
	"gonum.org/v1/gonum/mat"

	"lubberline.example/deviation/internal/harmonic"
)

// FitExact finds the exact coefficients of a swing by least squares, every
// observation of equal weight. It refuses, with a [*FitError], what [NewFit] refuses.
func FitExact(observations []Observation) (ExactCoefficients, error) {
	if _, err := NewFit(observations, FitOptions{Order: 2}); err != nil {
		return ExactCoefficients{}, err
	}
	x := mat.NewDense(len(observations), 5, nil)
	y := mat.NewVecDense(len(observations), nil)
	for i, o := range observations {
		row, right := harmonic.ExactRow(o.Heading.FromNorth(), o.Deviation.Angle())
		x.SetRow(i, row[:])
		y.SetVec(i, right)
	}
	var qr mat.QR
	qr.Factorize(x)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, y); err != nil {
		return ExactCoefficients{}, &FitError{Kind: BadlySpread, Got: len(observations)}
	}
	return ExactCoefficients{b.AtVec(0), b.AtVec(1), b.AtVec(2), b.AtVec(3), b.AtVec(4)}, nil
}
