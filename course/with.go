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

	// On is when. Left out it is the year 1, which roses and models refuse; a known
	// variation does without it.
	On time.Time

	// Reading is how well a compass is read, the vessel's or a hand-bearing one,
	// or a course steered. If it is not stated it is left out of the combined
	// uncertainty.
	Reading angle.Uncertainty
}

// A MissingSourceError reports a conversion that was given no source of variation or
// of deviation, or no position for a source that may depend on it.
type MissingSourceError struct {
	What string // "variation", "deviation" or "position"
}

// missingPosition is the What of a position.
const missingPosition = "position"

// Error says what is missing.
func (e *MissingSourceError) Error() string {
	if e.What == missingPosition {
		return "course: no position, on which this source of variation may depend: give At in With, or set AtOrigin if it is 0° N 0° E"
	}
	return "course: no source of " + e.What + ": give one in With, or say that there is none"
}

func (w *With) variation() (variation.Variation, error) {
	if w.Variation == nil {
		return variation.Variation{}, &MissingSourceError{"variation"}
	}
	if w.At == (angle.Position{}) && !w.AtOrigin && !everywhere(w.Variation) {
		return variation.Variation{}, &MissingSourceError{missingPosition}
	}
	return w.Variation.VariationAt(w.At, w.On)
}

// everywhere reports whether a source is known not to depend on the place.
func everywhere(s variation.Source) bool {
	switch s.(type) {
	case variation.Variation, *variation.Variation, variation.Rose, *variation.Rose:
		return true
	}
	return false
}

func (w *With) deviation() (deviation.Source, error) {
	if w.Deviation == nil {
		return nil, &MissingSourceError{"deviation"}
	}
	return w.Deviation, nil
}
