package course

import (
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
	// Variation tells the variation: a chart's roses, one rose, a field model,
	// or a known [variation.Variation]. Nil is refused with a [*MissingSourceError].
	Variation variation.Source

	// Deviation tells the deviation of the compass steered by: its table, or a
	// known [deviation.Deviation]. Nil is refused with a [*MissingSourceError]: for a
	// compass taken to have none say so, with [deviation.None].
	Deviation deviation.Source

	// At is where the vessel is. A known variation and a single rose are the same
	// everywhere and do without it. For any other source a zero At counts as left out,
	// and is refused with a [*MissingSourceError], unless AtOrigin is set.
	At angle.Position

	// AtOrigin says that a zero At is meant: that the vessel is at 0° N 0° E. Where At
	// is another place, or comes from somewhere that can't leave it out, it may always
	// be set.
	AtOrigin bool

	// On is when. A known variation is the same always and does without it. For any
	// other source a zero On counts as left out, and is refused with a
	// [*MissingSourceError].
	On time.Time

	// Reading is how well a compass is read, the vessel's or a hand-bearing one,
	// or a course steered. If it is not stated it is left out of the combined
	// uncertainty.
	Reading angle.Uncertainty
}

// A MissingSourceError reports a conversion that was given no source of variation or
// of deviation, or no position or no date for a source that may depend on it; or a
// crossing that was given a nil pointer for its streams.
type MissingSourceError = variation.MissingSourceError

func (w *With) variation() (variation.Variation, error) {
	if err := variation.Missing(w.Variation, w.At, w.AtOrigin, w.On); err != nil {
		return variation.Variation{}, err
	}
	return w.Variation.VariationAt(w.At, w.On)
}

// MarshalJSON refuses, always, with an [*angle.NoJSONError]: the sources would be lost without
// a word. Keep what they were made from, the chart's roses or the table, and At, On and
// Reading, which have JSON of their own.
func (w With) MarshalJSON() ([]byte, error) {
	return nil, &angle.NoJSONError{Type: "course.With", Keep: "what its sources were made from, and At, On and Reading"}
}

func (w *With) deviation() (deviation.Source, error) {
	if w.Deviation == nil {
		return nil, &MissingSourceError{What: "deviation"}
	}
	return w.Deviation, nil
}
