package variation

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Source tells the variation at a place and a time. A [Rose], a [Chart] of
// several, a field model and a known [Variation] are sources.
//
// VariationAt returns an error if there is no answer that the source can stand
// for; never a guess. It must be safe for use by several goroutines.
type Source interface {
	VariationAt(position angle.Position, date time.Time) (Variation, error)
}

// An Explainer is a [Source] that can also show how it reached its answer.
type Explainer interface {
	Source
	ExplainVariation(position angle.Position, date time.Time) (Explanation, error)
}

// An Explanation is a variation with how it was reached and what weakens it.
type Explanation struct {
	Variation Variation     `json:"variation"`          // at the place and the date
	Working   working.Steps `json:"working"`            // how it was reached
	Warnings  []Warning     `json:"warnings,omitempty"` // none if nothing weakens it
}

// A MissingSourceError reports a question that came without a source of variation or of
// deviation, without the position or the date on which such a source may depend, or with a
// nil pointer for streams. It is the error of every package of this module for what was
// left out.
type MissingSourceError struct {
	What string // "variation", "deviation", "position", "date" or "streams"
}

// Error says what is missing, and what would do.
func (e *MissingSourceError) Error() string {
	switch e.What {
	case "variation":
		return "no source of variation: want a rose, a chart, a field model or a known variation; variation.East(0) where there is none"
	case "deviation":
		return "no source of deviation: want a table, a curve or a known deviation; deviation.None() for a compass that has none"
	case "position":
		return "no position, on which the source of variation may depend: give it, or set AtOrigin if it is 0° N 0° E"
	case "date":
		return "no date, on which the source of variation may depend: give it"
	case "streams":
		return "no streams: a nil pointer; give some, or nil for slack water"
	}
	return "no source" // of what, nobody said
}

// Missing returns a [*MissingSourceError] for what a question lacks, and nil if it can be
// put to the source: a source at all; a position, since a zero one counts as left out
// unless atOrigin says that 0° N 0° E is meant; and a date. A known [Variation] needs
// neither place nor date, a [Rose] no place, and every other source both.
func Missing(source Source, at angle.Position, atOrigin bool, on time.Time) error {
	needsPlace := true
	switch source.(type) {
	case nil:
		return &MissingSourceError{"variation"}
	case Variation, *Variation:
		return nil
	case Rose, *Rose:
		needsPlace = false
	}
	if needsPlace && !atOrigin && at == (angle.Position{}) {
		return &MissingSourceError{"position"}
	}
	if on.IsZero() {
		return &MissingSourceError{"date"}
	}
	return nil
}

// Explain returns what a source says with its working. A source that is no
// [Explainer] is named in the one step as "as given". Errors are the source's; of
// a nil source, a [*MissingSourceError].
func Explain(source Source, position angle.Position, date time.Time) (Explanation, error) {
	if source == nil {
		return Explanation{}, &MissingSourceError{"variation"}
	}
	if e, ok := source.(Explainer); ok {
		return e.ExplainVariation(position, date)
	}
	v, err := source.VariationAt(position, date)
	if err != nil {
		return Explanation{}, err
	}
	return Explanation{
		Variation: v,
		Working:   working.Steps{working.EastWest("variation", "Variation", v.Angle(), "as given")},
	}, nil
}

// A Warning says why an answer is weak. The answer still stands.
type Warning = working.Warning

// A WarningKind says, in a word that programs can compare, what weakens an
// answer.
type WarningKind = working.WarningKind

// What weakens an answer.
const (
	OldRose        WarningKind = "old-rose"          // older than [Limits.Age]
	LargeChange    WarningKind = "large-change"      // the change exceeds [Limits.Change]
	BeforeRose     WarningKind = "before-rose"       // the date lies before the rose's year
	NoChangeStated WarningKind = "no-change-stated"  // the rose does not say how it changes
	RosesDiffer    WarningKind = "roses-differ"      // another rose says something else
	FarFromRose    WarningKind = "far-from-the-rose" // the nearest rose is far away
)

func warn(kind WarningKind, format string, args ...any) Warning {
	return Warning{Kind: kind, Message: fmt.Sprintf(format, args...)}
}
