package swing

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// A problem holds the observations that a curve is fitted to.
type problem struct {
	observations []Observation
	used         []bool
	by           deviation.HeadingKind
	steps        []angle.Angle // to which they were read
	exact        *deviation.ExactCoefficients
	bend         harmonic.Series // what the exact form adds to A to E; of no order if nothing
}

// deviation returns the deviation of an observation minus what the exact form adds to A to E, in
// units.
func (q *problem) deviation(i int) float64 {
	o := q.observations[i]
	d := float64(o.Deviation.Angle().NormalizedSigned())
	if q.exact != nil {
		d -= q.bend.At(o.heading(q.by).SinCos())
	}
	return d
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

// fitOrder fits one order to the observations used. It also returns the weighted
// sum of squares that is left.
func (q *problem) fitOrder(order int) (*Fit, float64, error) {
	p := 2*order + 1
	weights, stated := fitWeights(q.observations, q.used)
	headings, err := checkHeadings(q.observations, q.used, p, q.by)
	if err != nil {
		return nil, 0, err
	}
	s, ok := leastSquares(q.weightedRows(weights, p))
	if !ok {
		return nil, 0, spreadError(q.observations, q.used, q.by)
	}
	even := harmonic.Quadratic(p, s.inverse.At) // for equal weights: one very accurate reading does not make the spread bad
	if stated != nil {
		plain, ok := unweighted(q.observations, q.used, p, q.by)
		if !ok {
			return nil, 0, spreadError(q.observations, q.used, q.by)
		}
		even = harmonic.Quadratic(p, plain.At)
	}
	if !known(even) {
		return nil, 0, spreadError(q.observations, q.used, q.by)
	}
	f := &Fit{by: q.by, function: harmonic.From(s.coefficients).Plus(q.bend), gaps: harmonic.WideSectors(headings), Order: order, Exact: q.exact, DegreesOfFreedom: len(weights) - p, condition: s.condition}
	if err := f.makeCurve(); err != nil {
		return nil, 0, err
	}
	squares := f.leave(q.observations, q.used, weights, s.inverse)
	f.judge(q, squares, weights, stated, s.inverse)
	return f, squares, nil
}

// weightedRows are the equations of the observations used: the harmonics on their
// headings, and their deviations.
func (q *problem) weightedRows(weights []float64, p int) (*mat.Dense, *mat.VecDense) {
	x, y := mat.NewDense(len(weights), p, nil), mat.NewVecDense(len(weights), nil)
	row := 0
	for i, o := range q.observations {
		if !q.used[i] {
			continue
		}
		line := x.RawRowView(row)
		s, c := o.heading(q.by).SinCos()
		harmonic.Basis(line, s, c)
		w := math.Sqrt(weights[row])
		for j := range line {
			line[j] *= w
		}
		y.SetVec(row, w*q.deviation(i))
		row++
	}
	return x, y
}

// A solution is the result of least squares.
type solution struct {
	coefficients []float64
	inverse      *mat.SymDense // of XᵀX
	condition    float64       // of X
}

// leastSquares solves Xβ = y. It is false where X does not determine β.
func leastSquares(x *mat.Dense, y *mat.VecDense) (solution, bool) {
	var qr mat.QR
	qr.Factorize(x)
	var beta mat.VecDense
	if err := qr.SolveVecTo(&beta, false, y); err != nil {
		return solution{}, false
	}
	var r mat.Dense
	qr.RTo(&r)
	_, p := x.Dims()
	inverse, condition, ok := normalInverse(&r, p)
	return solution{beta.RawVector().Data, inverse, condition}, ok
}

// known reports whether a curve is accurate enough on all headings. Its variance is given for
// readings of variance one.
func known(variance harmonic.Series) bool {
	for z := angle.Angle(0); z < angle.Turn; z += 5 * angle.Degree {
		if !(variance.At(z.SinCos()) <= worstVariance) {
			return false
		}
	}
	return true
}

// fitWeights returns the weights of the observations used, with a mean of one. It also returns the
// stated variances if all are stated.
func fitWeights(observations []Observation, used []bool) (weights, stated []float64) {
	sum := 0.0
	for i, o := range observations {
		if !used[i] {
			continue
		}
		weights = append(weights, 1)
		if s, ok := o.Deviation.Uncertainty().Sigma(); ok && s > 0 {
			stated = append(stated, float64(s)*float64(s))
			sum += 1 / stated[len(stated)-1]
		}
	}
	if len(stated) < len(weights) {
		return weights, nil
	}
	for i := range weights {
		weights[i] = float64(len(weights)) / (stated[i] * sum)
	}
	return weights, stated
}

// unweighted is the inverse of XᵀX of readings that weigh alike.
func unweighted(observations []Observation, used []bool, p int, by deviation.HeadingKind) (*mat.SymDense, bool) {
	x := mat.NewDense(len(observations), p, nil) // rows not used are zero
	for i, o := range observations {
		if used[i] {
			s, c := o.heading(by).SinCos()
			harmonic.Basis(x.RawRowView(i), s, c)
		}
	}
	var qr mat.QR
	qr.Factorize(x)
	var r mat.Dense
	qr.RTo(&r)
	inverse, _, ok := normalInverse(&r, p)
	return inverse, ok
}

// normalInverse is the inverse of XᵀX from the triangle of X, and the condition
// number of X.
func normalInverse(r *mat.Dense, p int) (*mat.SymDense, float64, bool) {
	triangle := mat.NewTriDense(p, mat.Upper, nil)
	for i := range p {
		for j := i; j < p; j++ {
			triangle.SetTri(i, j, r.At(i, j))
		}
	}
	var inverse mat.TriDense
	if err := inverse.InverseTri(triangle); err != nil {
		return nil, 0, false
	}
	var svd mat.SVD
	if !svd.Factorize(triangle, mat.SVDNone) {
		return nil, 0, false
	}
	out := mat.NewSymDense(p, nil)
	for i := range p {
		for j := i; j < p; j++ {
			sum := 0.0
			for k := j; k < p; k++ {
				sum += inverse.At(i, k) * inverse.At(j, k)
			}
			out.SetSym(i, j, sum)
		}
	}
	return out, svd.Cond(), true
}

// leave fills in the residuals and returns their weighted sum of squares.
func (f *Fit) leave(observations []Observation, used []bool, weights []float64, inverse *mat.SymDense) float64 {
	p := 2*f.Order + 1
	line := make([]float64, p)
	squares := 0.0
	row := 0
	for i, o := range observations {
		s, c := o.heading(f.by).SinCos()
		off := (o.Deviation.Angle() - harmonic.Round(f.function.At(s, c))).NormalizedSigned()
		residual := Residual{Observation: o, Residual: off, Rejected: !used[i]}
		if used[i] {
			harmonic.Basis(line, s, c)
			residual.Leverage = min(1, weights[row]*form(line, inverse))
			squares += weights[row] * float64(off) * float64(off)
			row++
		}
		f.Residuals = append(f.Residuals, residual)
	}
	return squares
}

// form is xᵀMx.
func form(x []float64, m *mat.SymDense) float64 {
	sum := 0.0
	for i := range x {
		part := m.At(i, i) * x[i] / 2
		for j := i + 1; j < len(x); j++ {
			part += m.At(i, j) * x[j]
		}
		sum += 2 * x[i] * part
	}
	return sum
}

// judge fills in the uncertainty of the curve from the scatter of its readings.
func (f *Fit) judge(q *problem, squares float64, weights, stated []float64, inverse *mat.SymDense) {
	variance := math.NaN() // of one observation of unit weight
	if f.DegreesOfFreedom > 0 {
		variance = squares / float64(f.DegreesOfFreedom)
		f.StandardDeviation = harmonic.Round(math.Sqrt(variance))
		variance = max(variance, q.meanRounding())
		f.effectiveFreedom = float64(f.DegreesOfFreedom)
	}
	if stated != nil {
		unit := weights[0] * stated[0] // the same for all
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
	q.addRounding(f, weights, inverse)
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
