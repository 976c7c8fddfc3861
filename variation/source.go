package variation

import (
	"cmp"
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

// A MissingSourceError reports a question that came without a source, of variation
// or of what other packages have sources of.
type MissingSourceError struct {
	What string // what the source is of: "variation", "deviation"; "" is "variation"
}

// Error says what would do.
func (e *MissingSourceError) Error() string {
	switch what := cmp.Or(e.What, missingVariation); what {
	case missingVariation:
		return "variation: no source of variation: want a rose, a chart, a field model or a known variation"
	case "deviation":
		return "deviation: no source of deviation: want a table, a curve or a known deviation, 0° for a compass without any"
	default:
		return what + ": no source of " + what
	}
}

// missingVariation is the What of a source of variation.
const missingVariation = "variation"

// Explain returns what a source says with its working. A source that is no
// [Explainer] is named in the one step as "as given". Errors are the source's; of
// a nil source, a [*MissingSourceError].
func Explain(source Source, position angle.Position, date time.Time) (Explanation, error) {
	if source == nil {
		return Explanation{}, &MissingSourceError{missingVariation}
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
