package course

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// With is what a heading is converted with: the sources of variation and
// deviation, and where and when.
type With struct {
	// Variation tells the variation: a chart's roses, one rose, a field model,
	// or a known [variation.Variation].
	Variation variation.Source

	// Deviation tells the deviation of the compass steered by: its table, or a
	// known [deviation.Deviation]. For a compass taken to have none say so,
	// with [deviation.None].
	Deviation deviation.Source

	// At is where the vessel is. Left out it is 0° N 0° E, for which a chart or a
	// field model answers like for any other place: a rose or a known variation
	// alone can do without it.
	At angle.Position

	// On is when. Left out it is the year 1, which roses and models refuse.
	On time.Time

	// Reading is how well a compass is read, the vessel's or a hand-bearing one,
	// or a course steered. If it is not stated it is left out of the combined
	// uncertainty.
	Reading angle.Uncertainty
}

// A MissingSourceError reports a conversion that was given no source of
// variation or of deviation.
type MissingSourceError struct {
	What string // "variation" or "deviation"
}

// Error says which source is missing.
func (e *MissingSourceError) Error() string {
	return "course: no source of " + e.What + ": give one in With, or say that there is none"
}

func (w *With) variation() (variation.Variation, error) {
	if w.Variation == nil {
		return variation.Variation{}, &MissingSourceError{"variation"}
	}
	return w.Variation.VariationAt(w.At, w.On)
}

func (w *With) deviation() (deviation.Source, error) {
	if w.Deviation == nil {
		return nil, &MissingSourceError{"deviation"}
	}
	return w.Deviation, nil
}
