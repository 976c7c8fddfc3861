package wmm

import "lubberline.example/angle"

// An Evaluator is a model prepared for a date. It computes the field at places. It never
// changes, and is safe for use by several goroutines. The methods of a nil or zero
// Evaluator return an [*Error].
type Evaluator struct {
	model *Model
	year  float64
	main  *prepared
	rates *prepared
}

// newEvaluator prepares a model for a decimal year.
func newEvaluator(m *Model, year float64) *Evaluator {
	return &Evaluator{
		model: m,
		year:  year,
		main:  prepare(m.coefficients.at(year-m.epoch), mainField),
		rates: m.rates,
	}
}

// mainField and yearlyRates choose what [prepare] takes from a coefficient.
func mainField(k coefficient) (g, h float64)   { return k.g, k.h }
func yearlyRates(k coefficient) (g, h float64) { return k.gRate, k.hRate }

// Model returns the model. It is nil for a nil or zero evaluator.
func (e *Evaluator) Model() *Model {
	if e == nil {
		return nil
	}
	return e.model
}

// Year returns the date as a decimal year. It is 0 for a nil or zero evaluator.
func (e *Evaluator) Year() float64 {
	if e == nil {
		return 0
	}
	return e.year
}

// empty reports whether the evaluator has no model.
func (e *Evaluator) empty() bool { return e == nil || e.main == nil }

// Field returns the field at a position and a height above the WGS84 ellipsoid, in metres.
// For a vessel use 0: sea level is within 110 m of the ellipsoid, which makes no difference
// to a compass.
//
// At a geographic pole, X points along the meridian of p, and D is measured from there.
//
// The World Magnetic Model is made for heights from −1 km to 850 km (technical reports). If
// the height is NaN or not from −15 km to 2,000 km, Field returns an [*angle.RangeError].
func (e *Evaluator) Field(p angle.Position, heightMetres float64) (Field, error) {
	if e.empty() {
		return Field{}, errNoEvaluator
	}
	var l place
	if err := l.toParallel(p.Latitude, heightMetres); err != nil {
		return Field{}, err
	}
	l.toMeridian(p.Longitude)
	x, y, z := e.main.at(&l)
	return Field{x, y, z}, nil
}

// FieldAndRates returns the field and its yearly change; see [Evaluator.Field].
func (e *Evaluator) FieldAndRates(p angle.Position, heightMetres float64) (Field, Rates, error) {
	if e.empty() {
		return Field{}, Rates{}, errNoEvaluator
	}
	var l place
	if err := l.toParallel(p.Latitude, heightMetres); err != nil {
		return Field{}, Rates{}, err
	}
	l.toMeridian(p.Longitude)
	f, r := both(e.main, e.rates, &l)
	return Field{f[0], f[1], f[2]}, Rates{r[0], r[1], r[2]}, nil
}
