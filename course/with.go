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
type MissingSourceError struct {
	What string // "variation", "deviation", "position", "date" or "streams"
}

// What may be missing.
const (
	missingVariation = "variation"
	missingDeviation = "deviation"
	missingPosition  = "position"
	missingDate      = "date"
	missingStreams   = "streams"
)

// Error says what is missing, and what to write where there is none.
func (e *MissingSourceError) Error() string {
	switch e.What {
	case missingPosition:
		return "course: no position, on which this source of variation may depend: give At in With, or set AtOrigin if it is 0° N 0° E"
	case missingDate:
		return "course: no date, on which this source of variation may depend: give On in With"
	case missingVariation:
		return "course: no source of variation: give one in With, or variation.East(0) if there is none"
	case missingDeviation:
		return "course: no source of deviation: give one in With, or deviation.None() if the compass has none"
	}
	return "course: no " + e.What + ": a nil pointer; give some, or nil for slack water"
}

func (w *With) variation() (variation.Variation, error) {
	if w.Variation == nil {
		return variation.Variation{}, &MissingSourceError{missingVariation}
	}
	if w.At == (angle.Position{}) && !w.AtOrigin && !everywhere(w.Variation) {
		return variation.Variation{}, &MissingSourceError{missingPosition}
	}
	if w.On.IsZero() && !always(w.Variation) {
		return variation.Variation{}, &MissingSourceError{missingDate}
	}
	return w.Variation.VariationAt(w.At, w.On)
}

// always reports whether a source is known not to depend on the date.
func always(s variation.Source) bool {
	switch s.(type) {
	case variation.Variation, *variation.Variation:
		return true
	}
	return false
}

// everywhere reports whether a source is known not to depend on the place.
func everywhere(s variation.Source) bool {
	switch s.(type) {
	case variation.Variation, *variation.Variation, variation.Rose, *variation.Rose:
		return true
	}
	return false
}

// MarshalJSON refuses, always, with a [*NoJSONError]: the sources would be lost without
// a word. Keep what they were made from, the chart's roses or the table, and At, On and
// Reading, which have JSON of their own.
func (w With) MarshalJSON() ([]byte, error) {
	return nil, &NoJSONError{Type: "course.With", Keep: "what its sources were made from, and At, On and Reading"}
}

// A NoJSONError reports a value that can't be written as JSON, since it holds sources
// that would not be read back.
type NoJSONError struct {
	Type string // of the value: "course.With"
	Keep string // what to write in its place, in words
}

// Error says what to keep instead.
func (e *NoJSONError) Error() string { return e.Type + " has no JSON: keep " + e.Keep }

func (w *With) deviation() (deviation.Source, error) {
	if w.Deviation == nil {
		return nil, &MissingSourceError{missingDeviation}
	}
	return w.Deviation, nil
}
