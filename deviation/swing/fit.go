package swing

import (
	"cmp"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// FitOptions say how a curve is fitted. The zero value fits to all observations, by
// compass heading, and chooses the order.
type FitOptions struct {
	// By is the heading that the curve is a function of; if empty, by compass.
	By deviation.HeadingKind `json:"by"`

	// Order is the highest multiple of the heading: 1 for A, B and C alone, 2
	// for A to E. At most [MaxOrder].
	//
	// If zero, the fit chooses. It tries every order from 2 on that leaves at least six degrees of
	// freedom. It takes the order with the least AICc, the Akaike information criterion corrected
	// for few observations (Hurvich and Tsai, Biometrika 76, 1989). The choice may be wrong. So the
	// uncertainties include how far the other orders differ, each weighted by its likelihood and
	// order (Burnham and Anderson, Model Selection and Multimodel Inference, 2nd edition 2002,
	// section 4.3). Both are cited from memory. If the deviations are large, the curve has the
	// exact form; see [Fit.Exact].
	Order int `json:"order,omitzero"`

	// Robust leaves out the outliers, as [Swing.Suspicions] finds them. [Fit.LeftOut] returns them.
	// If false, all observations are used.
	Robust bool `json:"robust,omitzero"`

	// Common is an uncertainty that all observations share, such as that of the variation. The
	// residuals do not show it; the fit adds it to the uncertainty of A. If it is unknown, nothing
	// is added; see [Swing.Fit].
	Common angle.Uncertainty `json:"common,omitzero"`
}

// MaxOrder is the highest multiple of the heading that a fit may have.
const MaxOrder = 6

// A Fit is a deviation curve found by least squares, with its uncertainty.
//
// If every observation has a stated uncertainty above zero, the observations are weighted by it.
// Otherwise all have the same weight. The uncertainty of the curve comes from the scatter of the
// observations about it, not from the stated uncertainties. A swing may be worse than the observer
// thought. The scatter is at least the rounding error of the readings.
//
// Twice the standard uncertainty holds the deviation in 95 % of cases, even with few headings. The
// standard uncertainty is scaled to make it so, by Student's distribution. [Fit.Within] gives other
// intervals.
//
// As JSON a Fit gives its fields. The covariance of the coefficients is not among them.
type Fit struct {
	Curve *deviation.Curve `json:"curve"` // a Source, by the heading of FitOptions.By; nil in the zero value
	Order int              `json:"order"` // highest multiple of the heading

	// Exact has the coefficients of the forces behind the curve, if the deviations are large. The
	// curve adds to them the harmonics of its order above the second. Exact is nil if the curve is
	// that of A to E, or if the order was given.
	Exact *deviation.ExactCoefficients `json:"exact,omitempty"`

	// Residuals are the observations minus the curve, in the order given.
	Residuals []Residual `json:"residuals,omitempty"`

	// StandardDeviation is the standard deviation of one observation about the curve. If the
	// observations have weights, it is for an observation of mean weight. It is zero if
	// DegreesOfFreedom is zero, since there is then no scatter to measure.
	StandardDeviation angle.Angle `json:"standardDeviation"`

	// DegreesOfFreedom is the number of observations used minus the number of coefficients.
	DegreesOfFreedom int `json:"degreesOfFreedom"`

	// ChiSquare is the sum of the squares of the residuals, each divided by its stated uncertainty.
	// ChiSquareProbability is the probability by chance alone of so large a sum. Below 0.01, the
	// stated uncertainties are too small, or the curve does not follow the deviations. Both are
	// zero if no uncertainties are stated or if DegreesOfFreedom is zero.
	ChiSquare            float64 `json:"chiSquare"`
	ChiSquareProbability float64 `json:"chiSquareProbability"`

	by         deviation.HeadingKind
	function   harmonic.Series
	gaps       []harmonic.Sector // wide ones without an observation
	variance   harmonic.Series   // of the curve, in units squared, if stated
	stated     bool
	covariance *mat.SymDense // of the coefficients, in units squared; nil if not known
	common     float64       // units
	lack       float64       // units squared: what a given order leaves out
	lacking    float64       // units: what it leaves out, if that is to be warned of
	shown      int           // the highest harmonic that the headings can show
	unit       float64       // variance of an observation of unit weight, in units squared
	candidates []candidate   // the orders that were tried, if the order was chosen
	serial     serialTest    // whether the errors of neighbouring readings are correlated

	// effectiveFreedom is the number of independent readings that would show the scatter as well.
	// It is less than DegreesOfFreedom if the errors of neighbours are correlated.
	effectiveFreedom float64
}

// A Residual is the difference between one observation and the curve.
type Residual struct {
	Observation

	// Residual is the observed deviation minus the curve.
	Residual angle.Angle `json:"residual"`

	// Leverage is the share of this observation in the curve's value on its heading, from 0 to 1.
	// At 1 the curve passes through it, and no other observation checks it. It is zero if
	// the observation is left out.
	Leverage float64 `json:"leverage"`

	// LeftOut says that the observation was left out.
	LeftOut bool `json:"leftOut,omitzero"`
}

// A candidate is an order that was tried.
type candidate struct {
	order  int
	aicc   float64 // the criterion; only differences of it mean anything
	weight float64 // by likelihood, from 0 to 1; all together 1
}

// worstVariance is the largest variance of the curve on any heading, over that of one observation.
// The standard error of the curve is then at most twice that of an observation.
const worstVariance = 4

// NewFit fits a curve to observations. It returns an [*Error] if there are fewer different headings
// than coefficients. It also does if the headings are badly spread: in some sector the curve would
// have more than twice the standard error of one observation. If all deviations are above 90°, it
// returns an [*Error] as well. The reciprocal of a transit's direction was then probably given.
func NewFit(observations []Observation, options FitOptions) (*Fit, error) {
	options.By = cmp.Or(options.By, deviation.ByCompass)
	if options.By != deviation.ByCompass && options.By != deviation.ByMagnetic {
		return nil, &Error{Kind: UnknownHeading, Index: -1, by: options.By}
	}
	if options.Order < 0 || options.Order > MaxOrder {
		return nil, &Error{Kind: OrderOutOfRange, Index: -1, need: MaxOrder, got: options.Order}
	}
	if err := checkReversed(observations, options.By); err != nil {
		return nil, err
	}
	return fitUsed(observations, unsuspected(observations, options.Robust), options)
}

// unsuspected marks the observations to use: all, or those that are not suspected.
func unsuspected(observations []Observation, robust bool) []bool {
	used := make([]bool, len(observations))
	for i := range used {
		used[i] = true
	}
	if robust {
		for _, s := range suspicions(observations) {
			used[s.Index] = false
		}
	}
	return used
}

// fitUsed is NewFit of the observations to use.
func fitUsed(observations []Observation, used []bool, options FitOptions) (*Fit, error) {
	options.By = cmp.Or(options.By, deviation.ByCompass)
	first, last := 2, MaxOrder
	if options.Order != 0 {
		first, last = options.Order, options.Order
	}
	f, err := choose(newProblem(observations, used, options.By, readSteps(observations), last), first, last)
	if err != nil {
		return nil, suspectFirst(err, observations)
	}
	f.settle(options.Common)
	return f, f.makeCurve()
}

// StandardErrors returns the standard uncertainty of each of A to E, and whether they are known.
// They are unknown if there are no degrees of freedom and no stated uncertainties. They are also
// unknown if the uncertainty that all readings share is unknown, since it belongs to A.
// [Fit.Covariance] then still gives the others.
func (f *Fit) StandardErrors() (deviation.Coefficients, bool) {
	if f == nil || f.covariance == nil || !f.stated {
		return deviation.Coefficients{}, false
	}
	var list []float64
	for i := range min(5, 2*f.Order+1) {
		list = append(list, math.Sqrt(f.covariance.At(i, i)))
	}
	list = append(list, make([]float64, 5-len(list))...)
	return deviation.Coefficients{A: harmonic.Round(list[0]), B: harmonic.Round(list[1]), C: harmonic.Round(list[2]), D: harmonic.Round(list[3]), E: harmonic.Round(list[4])}, true
}

// Covariance returns the covariance of two coefficients in degrees squared, and whether it is
// known. The order is A, B, C, D, E, then the sine and the cosine of each further multiple of the
// heading. The variance of A is unknown if the uncertainty that all readings share is unknown.
func (f *Fit) Covariance(i, j int) (float64, bool) {
	if f == nil || f.covariance == nil || i < 0 || j < 0 || i > 2*f.Order || j > 2*f.Order || i+j == 0 && !f.stated {
		return 0, false
	}
	return f.covariance.At(i, j) / float64(angle.Degree) / float64(angle.Degree), true
}

// Within returns the half width of an interval about the curve on a heading. The interval holds the
// deviation with the given probability, between 0 and 1, such as 0.95. The heading is by compass or
// magnetic, as the curve's. Within uses Student's distribution. The second result is false if the
// uncertainty is unknown.
func (f *Fit) Within(heading angle.Angle, probability float64) (angle.Angle, bool) {
	if f == nil || f.covariance == nil || !f.stated || !(probability > 0 && probability < 1) {
		return 0, false
	}
	z := distuv.UnitNormal.Quantile((1 + probability) / 2)
	t := z
	if f.effectiveFreedom > 0 {
		t = studentQuantile(probability, f.effectiveFreedom) / studentFactor(f.effectiveFreedom)
	}
	own := max(0, f.variance.At(heading.SinCos())-f.common*f.common)
	within := math.Sqrt(t*t*own + z*z*f.common*f.common)
	if !(within < float64(angle.Turn)) {
		return 0, false
	}
	return harmonic.Round(within), true
}

// LeftOut returns the observations that were left out.
func (f *Fit) LeftOut() []Residual {
	if f == nil {
		return nil
	}
	var out []Residual
	for _, r := range f.Residuals {
		if r.LeftOut {
			out = append(out, r)
		}
	}
	return out
}
