package swing

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// A FitErrorKind says, in a word that programs can compare, why no curve was
// fitted.
type FitErrorKind string

// The reasons for refusing a fit.
const (
	TooFewHeadings  FitErrorKind = "too-few-headings"   // fewer than coefficients
	BadlySpread     FitErrorKind = "badly-spread"       // a sector has no heading, and the curve is loose there
	OrderOutOfRange FitErrorKind = "order-out-of-range" // beyond [MaxOrder]
	UnknownHeading  FitErrorKind = "unknown-heading"    // FitOptions.By is neither kind
	TooLarge        FitErrorKind = "too-large"          // the curve goes beyond 90°, and readings are suspected
	AllReversed     FitErrorKind = "all-reversed"       // every deviation is more than 90°, as if the reciprocal was given
)

// A FitError reports observations that no curve can be fitted to.
type FitError struct {
	Kind   FitErrorKind
	Want   int         // different headings needed, or the highest order
	Got    int         // different headings there are, or the order asked for, or observations that are reversed
	Sector bool        // whether From and To are meant
	From   angle.Angle // the widest sector without a heading, clockwise
	To     angle.Angle // where that sector ends

	// Suspicions are the readings to look at first, whether they were left out or not.
	Suspicions []Suspicion

	Err error // the curve's own error, if it has one
	by  deviation.HeadingKind
}

// Unwrap returns the curve's own error.
func (e *FitError) Unwrap() error { return e.Err }

// Error says which readings to look at first, and what is missing.
func (e *FitError) Error() string {
	if len(e.Suspicions) > 0 {
		return "deviation: fit: " + suspects(e.Suspicions) + "; " + strings.TrimPrefix(e.reason(), "deviation: fit: ")
	}
	return e.reason()
}

// reason says what is missing.
func (e *FitError) reason() string {
	sector := ""
	if e.Sector {
		sector = fmt.Sprintf("; nothing was observed from %s to %s", say.Heading(e.by, e.From), say.Heading(e.by, e.To))
	}
	switch e.Kind {
	case TooLarge:
		return "deviation: fit: " + say.Inner(e.Err)
	case UnknownHeading:
		return fmt.Sprintf("deviation: fit: by heading of kind %q: want ByCompass or ByMagnetic", e.by)
	case OrderOutOfRange:
		return fmt.Sprintf("deviation: fit: order %d: want 1 to %d", e.Got, e.Want)
	case AllReversed:
		return "deviation: fit: all deviations are nearer to 180° than to 0°: was the reciprocal given?"
	case TooFewHeadings:
		return fmt.Sprintf("deviation: fit: %d different headings: want at least %d for so many coefficients%s", e.Got, e.Want, sector)
	}
	return fmt.Sprintf("deviation: fit: the %d headings are badly spread: the curve would be a guess in part of the circle%s", e.Got, sector)
}

// suspectFirst puts what is suspected of the readings before what can't be fitted.
func suspectFirst(err error, observations []Observation) error {
	list := Suspicions(observations)
	if len(list) == 0 {
		return err
	}
	e, ok := errors.AsType[*FitError](err)
	if !ok {
		e = &FitError{Kind: TooLarge, Got: len(observations), Err: err}
	}
	e.Suspicions = list
	return e
}

// suspects names the readings to look at, those of one likely slip together.
func suspects(list []Suspicion) string {
	headings := map[Slip][]string{}
	var slips []Slip
	for _, s := range list {
		var slip Slip
		if len(s.Slips) > 0 {
			slip = s.Slips[0]
		}
		if headings[slip] == nil {
			slips = append(slips, slip)
		}
		headings[slip] = append(headings[slip], s.Observation.Heading.String())
	}
	var parts []string
	for _, slip := range slips {
		parts = append(parts, fmt.Sprintf("look again at the readings on %s: %s", strings.Join(headings[slip], ", "), slip.meaning()))
	}
	return strings.Join(parts, "; ")
}

// checkReversed refuses observations all of which are of the other end of a line, or of
// the compass: their curve would be refused for its height, or, east and west of 180°
// taken together, be nonsense.
func checkReversed(observations []Observation, by deviation.HeadingKind) error {
	for _, o := range observations {
		if o.Deviation.Angle().Abs() <= deviation.MaxDeviation {
			return nil
		}
	}
	if len(observations) == 0 {
		return nil
	}
	return &FitError{Kind: AllReversed, Got: len(observations), by: by}
}

// checkHeadings refuses fewer different headings than coefficients, and returns them.
func checkHeadings(observations []Observation, used []bool, p int, by deviation.HeadingKind) ([]angle.Angle, error) {
	headings := usedHeadings(observations, used, by)
	if len(headings) >= p {
		return headings, nil
	}
	e := &FitError{Kind: TooFewHeadings, Want: p, Got: len(headings), by: by}
	e.From, e.To, e.Sector = widestGap(headings)
	return nil, e
}

func spreadError(observations []Observation, used []bool, by deviation.HeadingKind) error {
	headings := usedHeadings(observations, used, by)
	e := &FitError{Kind: BadlySpread, Got: len(headings), by: by}
	e.From, e.To, e.Sector = widestGap(headings)
	return e
}

// usedHeadings are the different headings of the observations used, or of all if
// used is nil, rising.
func usedHeadings(observations []Observation, used []bool, by deviation.HeadingKind) []angle.Angle {
	var headings []angle.Angle
	for i, o := range observations {
		if used == nil || used[i] {
			headings = append(headings, o.heading(by))
		}
	}
	slices.Sort(headings)
	return slices.Compact(headings)
}

// widestGap is the widest sector without a heading, if there are two headings.
func widestGap(headings []angle.Angle) (from, to angle.Angle, ok bool) {
	widest := angle.Angle(0)
	for i, h := range headings {
		next := headings[(i+1)%len(headings)]
		if gap := (next - h).Normalized(); gap > widest {
			from, to, widest = h, next, gap
		}
	}
	return from, to, widest > 0
}
