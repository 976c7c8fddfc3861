package wmm

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/variation"
)

// A Model is a model of the earth's main magnetic field: Gauss coefficients at an epoch,
// and their yearly change. It never changes, and is safe for use by several goroutines.
//
// Use a model of the package, such as [WMM2025], or read one with [ReadCOF] or [ReadIGRF].
// The methods of a nil or zero Model return an [*Error].
//
// Models, sets and evaluators have no JSON form. Store the name of the model, or its file.
type Model struct {
	name         string
	epoch        float64
	from, until  float64 // the years for which it is valid
	released     time.Time
	uncertainty  UncertaintyModel
	coefficients coefficients
	main, rates  *prepared // at the epoch
}

// finish prepares a model that has its coefficients.
func (m *Model) finish() *Model {
	m.main = prepare(m.coefficients, mainField)
	m.rates = prepare(m.coefficients, yearlyRates)
	return m
}

// empty reports whether the model is nil or has no coefficients.
func (m *Model) empty() bool { return m == nil || m.main == nil }

// Name returns the model's name, WMM-2025.
func (m *Model) Name() string { return m.orNone().name }

// orNone returns the model, or the zero model for nil.
func (m *Model) orNone() *Model {
	if m == nil {
		return &Model{}
	}
	return m
}

// Valid returns the first and the last year of the model.
func (m *Model) Valid() (from, until float64) { return m.orNone().from, m.orNone().until }

// Degree returns the largest degree of the model.
func (m *Model) Degree() int { return m.orNone().coefficients.degree() }

// Uncertainty returns the uncertainty of the model at the earth's surface, within its
// years.
func (m *Model) Uncertainty() UncertaintyModel { return m.orNone().uncertainty }

// WithUncertainty returns the same model with the uncertainty u.
func (m *Model) WithUncertainty(u UncertaintyModel) *Model {
	if m == nil {
		return nil
	}
	n := *m
	n.uncertainty = u
	return &n
}

// String returns the model's name, degree and years: WMM-2025, degree 12, 2025.0
// to 2030.0.
func (m *Model) String() string {
	if m == nil {
		return "no model"
	}
	return fmt.Sprintf("%s, degree %d, %s to %s", m.name, m.Degree(), yearText(m.from), yearText(m.until))
}

// On prepares the model for a date. For a date outside its years it returns an [*Error] of
// kind [OutsideYears]; see [Model.Extrapolate].
func (m *Model) On(date time.Time) (*Evaluator, error) {
	return m.InYear(variation.DecimalYear(date))
}

// InYear is [Model.On] for a date as a decimal year.
func (m *Model) InYear(year float64) (*Evaluator, error) {
	if m.empty() {
		return nil, errNoModel
	}
	if !(year >= m.from && year <= m.until) {
		return nil, outside(year, m.name, m.from, m.until)
	}
	return newEvaluator(m, year), nil
}

// maxExtrapolation is the maximum number of years outside those of the model. The rates
// hold for years, not for centuries.
const maxExtrapolation = 50

// Extrapolate prepares the model for a decimal year, which may be outside its years. It
// keeps the yearly rates. [Model.Uncertainty] does not cover such years. For a date more
// than 50 years outside, it returns an [*Error] of kind [OutsideYears].
func (m *Model) Extrapolate(year float64) (*Evaluator, error) {
	if m.empty() {
		return nil, errNoModel
	}
	if !(year >= m.from-maxExtrapolation && year <= m.until+maxExtrapolation) {
		return nil, outside(year, m.name, m.from-maxExtrapolation, m.until+maxExtrapolation)
	}
	return newEvaluator(m, year), nil
}

// finite reports whether x is neither NaN nor infinite.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
