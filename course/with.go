package course

import (
	"reflect"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// With is what a heading is converted with: the sources of variation and
// deviation, and where and when. A field left out that the conversion needs is an
// error, not a guess.
//
// It has no JSON, for its sources have none; see [With.MarshalJSON].
type With struct {
	// Variation is the source of variation: a chart's roses, one rose, a field model,
	// or a known [variation.Variation]. Nil is refused with a [*variation.MissingInputError].
	Variation variation.Source

	// Deviation is the source of deviation of the compass steered by: its table, or a
	// known [deviation.Deviation]. Nil is refused with a [*variation.MissingInputError]: for a
	// compass taken to have none say so, with [deviation.None].
	Deviation deviation.Source

	// At is the vessel's position. A known variation and a single rose do not need it;
	// see [variation.Source]. If nil, a source that needs it is refused with a
	// [*variation.MissingInputError]. The position is copied: a later change has no effect.
	At *angle.Position

	// On is the date. A known variation does not need it. If zero, a source that needs
	// it is refused with a [*variation.MissingInputError].
	On time.Time

	// Reading is how well a compass is read, the vessel's or a hand-bearing one,
	// or a course steered. If it is not stated it is left out of the combined
	// uncertainty.
	Reading angle.Uncertainty
}

// sources are what a heading keeps of a [With]: all but a pointer that others can write to.
type sources struct {
	variation variation.Source
	deviation deviation.Source
	at        angle.Position
	on        time.Time
	reading   angle.Uncertainty
}

// look returns what to keep, and the variation.
func (w *With) look() (sources, variation.Variation, error) {
	if err := variation.Missing(w.Variation, w.At, w.On); err != nil {
		return sources{}, variation.Variation{}, err
	}
	kept := sources{variation: w.Variation, deviation: w.Deviation, on: w.On, reading: w.Reading}
	if w.At != nil {
		kept.at = *w.At
	}
	v, err := w.Variation.VariationAt(kept.at, w.On)
	return kept, v, err
}

func (s *sources) compass() (deviation.Source, error) {
	if v := reflect.ValueOf(s.deviation); !v.IsValid() || v.Kind() == reflect.Pointer && v.IsNil() {
		return nil, &variation.MissingInputError{What: "deviation"}
	}
	return s.deviation, nil
}
