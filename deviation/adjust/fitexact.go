package adjust

import (
	"gonum.org/v1/gonum/mat"

	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/swing"
)

// FitExact finds the exact coefficients of a swing by least squares. All observations have equal
// weight. The errors are those of [lubberline.example/deviation/swing.NewFit].
func FitExact(observations []swing.Observation) (deviation.ExactCoefficients, error) {
	if _, err := swing.NewFit(observations, swing.FitOptions{Order: 2}); err != nil {
		return deviation.ExactCoefficients{}, err
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
		return deviation.ExactCoefficients{}, &swing.Error{Kind: swing.BadlySpread, Index: -1}
	}
	return deviation.ExactCoefficients{A: b.AtVec(0), B: b.AtVec(1), C: b.AtVec(2), D: b.AtVec(3), E: b.AtVec(4)}, nil
}
