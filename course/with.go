package course

import (
	"reflect"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// With holds what a conversion needs: the sources of variation and deviation, the position
// and the date. If a needed field is unset, the conversion returns an error; it never
// guesses.
//
// With has no JSON form, because its sources have none.
type With struct {
	// Variation is the source of variation: a chart's roses, one rose, a field model,
	// or a known [variation.Variation]. If nil, the conversion returns a
	// [*variation.MissingInputError].
	Variation variation.Source

	// Deviation is the source of deviation of the steering compass: its table, or a known
	// [deviation.Deviation]. If nil, the conversion returns a [*variation.MissingInputError].
	// For a compass without deviation use [deviation.None].
	Deviation deviation.Source

	// At is the vessel's position. A known variation and a single rose do not need it; see
	// [variation.Source]. If it is nil and the source needs it, the conversion returns a
	// [*variation.MissingInputError]. The position is copied: a later change has no effect.
	At *angle.Position

	// On is the date. A known variation does not need it. If it is zero and the source
	// needs it, the conversion returns a [*variation.MissingInputError].
	On time.Time

	// Reading is the standard uncertainty of reading the compass, or of steering the
	// course. If it is unset, the combined uncertainty does not include it.
	Reading angle.Uncertainty
}

// sources holds the fields of a [With], with a copy of the position.
type sources struct {
	variation variation.Source
	deviation deviation.Source
	at        angle.Position
	on        time.Time
	reading   angle.Uncertainty

	kept *kept // nil if neither source may change
}

// kept is what sources answered that may change; nil for the other source.
type kept struct {
	variation *variation.Explanation
	deviation *deviation.Explanation
}

// look keeps the sources and asks for the variation.
func (h *Heading) look(w *With) error {
	if err := variation.Missing(w.Variation, w.At, w.On); err != nil {
		return err
	}
	s := &h.with
	s.variation, s.deviation, s.on, s.reading = w.Variation, w.Deviation, w.On, w.Reading
	if w.At != nil {
		s.at = *w.At
	}
	var err error
	h.v, err = s.ask()
	return err
}

// compass returns the source of deviation. If it is nil, the error is a
// [*variation.MissingInputError].
func (s *sources) compass() (deviation.Source, error) {
	if v := reflect.ValueOf(s.deviation); !v.IsValid() || v.Kind() == reflect.Pointer && v.IsNil() {
		return nil, &variation.MissingInputError{What: "deviation"}
	}
	return s.deviation, nil
}
