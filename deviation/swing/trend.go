package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// The parameters of the test of a trend.
const (
	// fewestForTrend is the number of readings that it takes to tell a trend from a curve.
	fewestForTrend = 12

	// trendLevel is the share of sound swings that show such a trend.
	trendLevel = 0.005

	// smallTrend is the largest trend without a warning, in degrees from the first reading to the
	// last.
	smallTrend = 1.5
)

// trend warns of deviations that change steadily in the order of the readings. They do if the
// vessel drifts while it takes bearings of a near object, or if a gyro-compass wanders. A curve
// through such readings is wrong without any sign of it, since the trend looks like semicircular
// deviation. The trend is tested together with a curve of harmonics to the third. From 24 readings
// on, the curve has the fourth too.
func trend(observations []Observation) []working.Warning {
	n := len(observations)
	harmonics := 3
	if n >= 24 {
		harmonics = 4
	}
	p := 2*harmonics + 1
	if n < fewestForTrend || n <= p+2 {
		return nil
	}
	x := mat.NewDense(n, p, nil)
	y, order := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	first := observations[0].Deviation.Angle()
	for i, o := range observations {
		x.Set(i, 0, 1)
		for k := 1; k <= harmonics; k++ {
			s, c := math.Sincos(float64(k) * o.Heading.FromNorth().Radians())
			x.Set(i, 2*k-1, s)
			x.Set(i, 2*k, c)
		}
		y.SetVec(i, (o.Deviation.Angle() - first).NormalizedSigned().Degrees())
		order.SetVec(i, float64(i)/float64(n-1))
	}
	var qr mat.QR
	qr.Factorize(x)
	if !(qr.Cond() < 1e6) {
		return nil // too few headings for so many harmonics
	}
	beside := func(v *mat.VecDense) *mat.VecDense {
		var b, fitted mat.VecDense
		if err := qr.SolveVecTo(&b, false, v); err != nil {
			return nil
		}
		fitted.MulVec(x, &b)
		fitted.SubVec(v, &fitted)
		return &fitted
	}
	restY, restOrder := beside(y), beside(order)
	if restY == nil || restOrder == nil {
		return nil
	}
	tt := mat.Dot(restOrder, restOrder)
	slope := mat.Dot(restOrder, restY) / tt
	freedom := float64(n - p - 1)
	scatter := (mat.Dot(restY, restY) - slope*slope*tt) / freedom
	// Readings are rounded: their scatter is not less than that of a tenth of a degree.
	t := math.Abs(slope) / math.Sqrt(max(scatter, 0.03*0.03)/tt)
	if !(2*distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Survival(t) < trendLevel) || math.Abs(slope) < smallTrend {
		return nil
	}
	return []working.Warning{working.Warn(TrendInTime, "trend-in-time", "the deviations change steadily in the order of the readings, by %s from the first to the last: the vessel drifted, the object is too near, or the other compass wandered; swing again, and return to one place for each reading", say.Signed(harmonic.Round(slope*float64(angle.Degree))))}
}
