package course

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A heading keeps what it was answered with. Most sources of this module never change, so
// that their working can wait until it is wanted: it costs much more than the answer. Any
// other source is asked for its working in the conversion, once, and never again.

// A fieldModel is a model of the earth's field, such as those of package wmm.
type fieldModel interface {
	HorizontalIntensity(p angle.Position, date time.Time) (nanotesla float64, err error)
}

// neverChanges reports whether a source of variation gives the same answer for ever: it is a
// value, a chart, or a field model.
func neverChanges(source variation.Source) bool {
	switch source.(type) {
	case variation.Variation, variation.Rose, variation.Projection, *variation.Chart, fieldModel:
		return true
	}
	return false
}

// ask returns the variation. It keeps the working of a source that may change.
func (s *sources) ask() (variation.Variation, error) {
	if neverChanges(s.variation) {
		return s.variation.VariationAt(s.at, s.on)
	}
	e, ok := s.variation.(variation.Explainer)
	if !ok {
		return s.variation.VariationAt(s.at, s.on)
	}
	x, err := e.ExplainVariation(s.at, s.on)
	s.kept = &kept{variation: &x}
	return x.Variation, err
}

// keepDeviation keeps the working of a source of deviation that may change. Tables and curves
// do not.
func (h *Heading) keepDeviation() error {
	switch h.with.deviation.(type) {
	case deviation.Deviation, *deviation.Table, *deviation.Curve:
		return nil
	}
	e, ok := h.with.deviation.(deviation.Explainer)
	if !ok {
		return nil
	}
	x, err := e.ExplainDeviation(h.c)
	both := kept{deviation: &x}
	if h.with.kept != nil {
		both.variation = h.with.kept.variation
	}
	h.with.kept = &both
	return err
}

// explanations returns the variation and the deviation with their workings and warnings.
func (h Heading) explanations() (variation.Explanation, deviation.Explanation) {
	v, ok := h.explainedVariation()
	if !ok {
		v = variation.Explanation{Variation: h.v, Working: asAnswered(working.EastWest("variation", "Variation", h.v.Angle()), h.with.variation != nil)}
	}
	d, ok := h.explainedDeviation()
	if !ok {
		d = deviation.Explanation{Deviation: h.d, Working: asAnswered(working.EastWest("deviation", "Deviation", h.d.Angle()), h.with.deviation != nil)}
	}
	return v, d
}

// explainedVariation returns the variation with its working. It reports false if the source has no
// working, or was changed since.
func (h Heading) explainedVariation() (variation.Explanation, bool) {
	if k := h.with.kept; k != nil && k.variation != nil {
		return *k.variation, true
	}
	e, ok := h.with.variation.(variation.Explainer)
	if !ok {
		return variation.Explanation{}, false
	}
	x, err := e.ExplainVariation(h.with.at, h.with.on)
	return x, err == nil && x.Variation == h.v
}

// explainedDeviation returns the deviation with its working. It reports false if the source has no
// working.
func (h Heading) explainedDeviation() (deviation.Explanation, bool) {
	if k := h.with.kept; k != nil && k.deviation != nil {
		return *k.deviation, true
	}
	e, ok := h.with.deviation.(deviation.Explainer)
	if !ok {
		return deviation.Explanation{}, false
	}
	x, err := e.ExplainDeviation(h.c)
	return x, err == nil
}

// asAnswered returns the one step of an answer without a working. The zero Heading has no source.
func asAnswered(s working.Step, fromSource bool) working.Steps {
	if fromSource {
		s = s.Because("as-given", "as given")
	}
	return working.Steps{s}
}
