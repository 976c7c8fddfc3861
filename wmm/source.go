package wmm

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// Kinds of warning that a model gives as a source of variation.
const (
	InCautionZone  working.WarningKind = "caution-zone"  // see [CautionZone]
	InBlackoutZone working.WarningKind = "blackout-zone" // see [BlackoutZone]
)

// VariationAt returns the variation at the earth's surface with its uncertainty. It makes a model a
// [variation.Source]. For a date outside the model's years it returns an [*Error] of kind
// [OutsideYears]. At a dip pole it returns the error of [Field.D].
func (m *Model) VariationAt(p angle.Position, date time.Time) (variation.Variation, error) {
	v, _, err := m.variation(p, variation.DecimalYear(date))
	return v, err
}

// ExplainVariation returns the variation with its working. It warns in the caution and blackout
// zones. It makes a model a [variation.Explainer]. Its errors are those of VariationAt.
func (m *Model) ExplainVariation(p angle.Position, date time.Time) (variation.Explanation, error) {
	year := variation.DecimalYear(date)
	v, f, err := m.variation(p, year)
	if err != nil {
		return variation.Explanation{}, err
	}
	e := variation.Explanation{Variation: v}
	e.Working = working.Steps{
		{
			Key: "horizontal intensity", What: "Horizontal intensity", Value: fmt.Sprintf("%.0f nT", f.H()),
			Number: f.H(), Unit: "nT",
		},
		working.EastWest("variation", "Variation by the model", v.Angle()).
			Because("declination-of-model", "the declination of the field, standard uncertainty %s", v.Uncertainty()),
	}
	e.Working[0] = e.Working[0].Because("model-at-place", "%s at %s, %s", m.name, p, date.UTC().Format("2 January 2006"))
	switch f.Zone() {
	case CautionZone:
		e.Warnings = append(e.Warnings, working.Warn(InCautionZone, "caution-zone", "caution zone: the horizontal field is weak, %.0f nT; the compass may be sluggish and wrong", f.H()))
	case BlackoutZone:
		e.Warnings = append(e.Warnings, working.Warn(InBlackoutZone, "blackout-zone", "blackout zone: the horizontal field is %.0f nT; do not rely on the compass", f.H()))
	}
	return e, nil
}

// variation returns the variation and the field at the surface. It uses what is prepared at
// the epoch, and prepares nothing for the date.
func (m *Model) variation(p angle.Position, year float64) (variation.Variation, Field, error) {
	if m.empty() {
		return variation.Variation{}, Field{}, errNoModel
	}
	if !(year >= m.from && year <= m.until) {
		return variation.Variation{}, Field{}, outside(year, m.name, m.from, m.until)
	}
	var l place
	if err := l.toParallel(p.Latitude, 0); err != nil {
		return variation.Variation{}, Field{}, err
	}
	l.toMeridian(p.Longitude)
	b, r := both(m.main, m.rates, &l)
	years := year - m.epoch
	f := Field{b[0] + years*r[0], b[1] + years*r[1], b[2] + years*r[2]}
	d, err := f.D()
	if err != nil {
		return variation.Variation{}, f, err
	}
	return variation.East(d).WithUncertainty(m.uncertainty.D(f.H())), f, nil
}

// VariationAt returns the variation by the model for the date. It makes a set a
// [variation.Source]. Its errors are those of [Set.On], and of [Field.D] at a dip pole.
func (s *Set) VariationAt(p angle.Position, date time.Time) (variation.Variation, error) {
	m, err := s.modelIn(variation.DecimalYear(date))
	if err != nil {
		return variation.Variation{}, err
	}
	return m.VariationAt(p, date)
}

// ExplainVariation returns the variation by the model for the date, with its working. It makes a
// set a [variation.Explainer]. Its errors are those of VariationAt.
func (s *Set) ExplainVariation(p angle.Position, date time.Time) (variation.Explanation, error) {
	m, err := s.modelIn(variation.DecimalYear(date))
	if err != nil {
		return variation.Explanation{}, err
	}
	return m.ExplainVariation(p, date)
}
