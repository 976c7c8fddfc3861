package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// fitOrder fits one order to the observations used. It also returns the weighted
// sum of squares that is left.
func (q *problem) fitOrder(order int) (*Fit, float64, error) {
	f, inverse, err := q.curveOf(order)
	if err != nil {
		return nil, 0, err
	}
	squares := f.leave(q, inverse)
	f.judge(q, squares, inverse)
	return f, squares, nil
}

// curveOf fits the curve of one order. It also returns the inverse of the normal equations.
func (q *problem) curveOf(order int) (*Fit, *mat.SymDense, error) {
	p := 2*order + 1
	if len(q.headings) < p {
		return nil, nil, tooFewError(q.headings, p, q.by)
	}
	s, ok := q.weighted.solve(p, q.weightedDeviations())
	if !ok {
		return nil, nil, spreadError(q.observations, q.used, q.by)
	}
	even := s.inverse // for equal weights: one very accurate reading does not make the spread bad
	if q.stated != nil {
		if !q.alike.determines(p) {
			return nil, nil, spreadError(q.observations, q.used, q.by)
		}
		even = q.alike.normalInverse(p)
	}
	if !known(harmonic.Quadratic(p, even.At)) {
		return nil, nil, spreadError(q.observations, q.used, q.by)
	}
	f := &Fit{by: q.by, function: harmonic.From(s.coefficients).Plus(q.bend), gaps: harmonic.WideSectors(q.headings), Order: order, Exact: q.exact, DegreesOfFreedom: len(q.weights) - p}
	return f, s.inverse, f.makeCurve()
}

// flat reports whether all observations used are the same.
func (q *problem) flat() bool {
	first := -1
	for i, o := range q.observations {
		if !q.used[i] {
			continue
		}
		if first < 0 {
			first = i
		}
		if o.Deviation.Angle() != q.observations[first].Deviation.Angle() {
			return false
		}
	}
	return true
}

// known reports whether a curve is accurate enough on all headings. Its variance is given for
// readings of variance one.
func known(variance harmonic.Series) bool {
	if variance.Constant+variance.Bound() < 0.99*worstVariance {
		return true // wherever one looks
	}
	for z := angle.Angle(0); z < angle.Turn; z += 5 * angle.Degree {
		if !(variance.At(z.SinCos()) <= worstVariance) {
			return false
		}
	}
	return true
}

// leave fills in the residuals and returns their weighted sum of squares.
func (f *Fit) leave(q *problem, inverse *mat.SymDense) float64 {
	p := 2*f.Order + 1
	f.Residuals = make([]Residual, len(q.observations))
	squares := 0.0
	row := 0
	for i, o := range q.observations {
		off := (o.Deviation.Angle() - harmonic.Round(f.function.At(q.sines[i], q.cosines[i]))).NormalizedSigned()
		f.Residuals[i] = Residual{Observation: o, Residual: off, LeftOut: !q.used[i]}
		if q.used[i] {
			f.Residuals[i].Leverage = min(1, q.weights[row]*form(q.basis[i][:p], inverse))
			squares += q.weights[row] * float64(off) * float64(off)
			row++
		}
	}
	return squares
}

// form is xᵀMx.
func form(x []float64, m *mat.SymDense) float64 {
	data := m.RawSymmetric().Data
	sum := 0.0
	for i := range x {
		line := data[i*len(x) : (i+1)*len(x)]
		part := line[i] * x[i] / 2
		for j := i + 1; j < len(x); j++ {
			part += line[j] * x[j]
		}
		sum += 2 * x[i] * part
	}
	return sum
}

// judge fills in the uncertainty of the curve from the scatter of its readings.
func (f *Fit) judge(q *problem, squares float64, inverse *mat.SymDense) {
	variance := math.NaN() // of one observation of unit weight
	if f.DegreesOfFreedom > 0 {
		variance = squares / float64(f.DegreesOfFreedom)
		f.StandardDeviation = harmonic.Round(math.Sqrt(variance))
		variance = max(variance, q.rounded)
		f.effectiveFreedom = float64(f.DegreesOfFreedom)
	}
	if q.stated != nil {
		unit := q.weights[0] * q.stated[0] // the same for all
		if f.DegreesOfFreedom > 0 {
			f.ChiSquare = squares / unit
			f.ChiSquareProbability = distuv.ChiSquared{K: float64(f.DegreesOfFreedom)}.Survival(f.ChiSquare)
		} else {
			variance = unit
		}
	}
	if math.IsNaN(variance) {
		return
	}
	if variance == 0 && q.flat() {
		return // they were rounded to an unknown step
	}
	f.unit = variance
	f.covariance = mat.NewSymDense(2*f.Order+1, nil)
	f.covariance.ScaleSym(variance, inverse)
	q.addRounding(f, inverse)
}

// settle makes the final covariance from the one by the scatter. It allows for the few readings
// that show the scatter, and adds the uncertainty that all readings share.
func (f *Fit) settle(common angle.Uncertainty) {
	if f.covariance == nil {
		return
	}
	if s, ok := common.Sigma(); ok {
		f.common = float64(s)
	}
	wide := studentFactor(f.effectiveFreedom)
	wide *= wide
	f.covariance.ScaleSym(wide, f.covariance)
	v := f.variance
	if len(v.Sin) == 0 { // no other fits were included
		v = harmonic.Quadratic(2*f.Order+1, f.covariance.At)
	} else {
		v = v.Times(wide)
	}
	v.Constant += f.common*f.common + f.lack
	f.covariance.SetSym(0, 0, f.covariance.At(0, 0)+f.common*f.common+f.lack)
	f.variance, f.stated = v, true
}

// normal95 is the number of standard deviations that hold 95 % of a normal distribution.
const normal95 = 1.959963984540054

// studentFactor returns the ratio of Student's 95 % interval to the normal one. It is 1 without
// degrees of freedom, where the scatter was stated.
func studentFactor(freedom float64) float64 {
	if !(freedom > 0) {
		return 1
	}
	return studentQuantile(0.95, freedom) / normal95
}

// studentQuantile returns the number of standard errors on either side that hold a probability.
func studentQuantile(probability, freedom float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Quantile((1 + probability) / 2)
}

// makeCurve makes the curve from the fitted coefficients.
func (f *Fit) makeCurve() (err error) {
	list := f.function.List(2*len(f.function.Sin) + 1)
	coefficients := make([]angle.Angle, len(list))
	for i, x := range list {
		if !(math.Abs(x) < math.MaxInt64) {
			return &deviation.Error{Kind: deviation.CurveTooLarge, By: f.by, Row: -1, Reason: "a coefficient is beyond all angles; check the observations"}
		}
		coefficients[i] = harmonic.Round(x)
	}
	gaps := make([][2]angle.Angle, len(f.gaps))
	for i, s := range f.gaps {
		gaps[i] = [2]angle.Angle{s.From, s.To}
	}
	f.Curve, err = deviation.NewCurve(f.by, coefficients, f.squareDegrees(), gaps)
	return err
}

// squareDegrees returns the coefficients of the variance in square degrees; nil if it is unknown
// or beyond all angles.
func (f *Fit) squareDegrees() []float64 {
	if !f.stated {
		return nil
	}
	list := f.variance.List(2*len(f.variance.Sin) + 1)
	for i := range list {
		list[i] /= float64(angle.Degree) * float64(angle.Degree)
		if math.IsNaN(list[i]) || math.IsInf(list[i], 0) {
			return nil
		}
	}
	return list
}
