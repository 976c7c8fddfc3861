package wmm

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// HorizontalIntensity returns the horizontal intensity at the earth's surface, in nT. A
// [variation.Chart] asks its Model for it. Its errors are those of [Model.VariationAt].
func (m *Model) HorizontalIntensity(p angle.Position, date time.Time) (float64, error) {
	_, f, err := m.variation(p, variation.DecimalYear(date))
	if err != nil {
		return 0, err
	}
	return f.H(), nil
}

// HorizontalIntensity returns the horizontal intensity at the earth's surface by the model for the
// date, in nT. A [variation.Chart] asks its Model for it. Its errors are those of [Set.On].
func (s *Set) HorizontalIntensity(p angle.Position, date time.Time) (float64, error) {
	m, err := s.modelIn(variation.DecimalYear(date))
	if err != nil {
		return 0, err
	}
	return m.HorizontalIntensity(p, date)
}
