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

// An ErrorKind says why a swing was not reduced, or why no curve was fitted to it.
type ErrorKind string

// The kinds of errors.
const (
	BadReading      ErrorKind = "bad-reading"        // a reading, or what the method was given, cannot be used
	TooFewHeadings  ErrorKind = "too-few-headings"   // fewer different headings than coefficients
	BadlySpread     ErrorKind = "badly-spread"       // no heading in a sector, so that the curve is uncertain there
	OrderOutOfRange ErrorKind = "order-out-of-range" // above [MaxOrder], or negative
	UnknownHeading  ErrorKind = "unknown-heading"    // FitOptions.By is neither kind of heading
	TooLarge        ErrorKind = "too-large"          // the curve exceeds 90°
	AllReversed     ErrorKind = "all-reversed"       // every deviation exceeds 90°, as if the reciprocal was given
)

// An Error reports a reading that cannot be reduced, or observations that no curve fits.
type Error struct {
	Kind ErrorKind

	// Index is the index of the reading at fault; −1 if the fault is not in one reading.
	Index   int
	Heading angle.Compass // of that reading

	// From and To are the ends, clockwise, of the widest sector without a heading. They are
	// equal if no sector is meant. Observe there to get a curve.
	From angle.Angle
	To   angle.Angle

	// Suspicions are the readings to check first, whether they were left out or not.
	Suspicions []Suspicion

	Err error // the cause, if there is one

	by        deviation.HeadingKind
	need, got int // different headings, or orders
}

// readingError reports the reading at fault.
func readingError(index int, heading angle.Compass, err error) *Error {
	return &Error{Kind: BadReading, Index: index, Heading: heading, Err: err}
}

// swingError reports what is wrong with the swing as a whole. An [Error] stays as it is.
func swingError(err error) *Error {
	if e, ok := errors.AsType[*Error](err); ok {
		return e
	}
	return &Error{Kind: BadReading, Index: -1, Err: err}
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// Error says which readings to check first, and what is wrong.
func (e *Error) Error() string {
	what := "deviation: fit: "
	if e.Kind == BadReading || e.Kind == "" {
		what = "deviation: swing: "
	}
	if len(e.Suspicions) > 0 {
		what += suspects(e.Suspicions) + "; "
	}
	return what + e.reason()
}

// reason says what is wrong.
func (e *Error) reason() string {
	sector := ""
	if e.From != e.To {
		sector = fmt.Sprintf("; there is no observation from %s to %s", say.Heading(e.by, e.From), say.Heading(e.by, e.To))
	}
	switch e.Kind {
	case TooLarge:
		return say.Inner(e.Err)
	case UnknownHeading:
		return fmt.Sprintf("%q is not a kind of heading; give deviation.ByCompass or deviation.ByMagnetic", e.by)
	case OrderOutOfRange:
		return fmt.Sprintf("order %d is out of range; give 1 to %d, or 0 to let the fit choose", e.got, e.need)
	case AllReversed:
		return "every deviation exceeds 90°: was the reciprocal given? Check the direction that the compass is compared with"
	case TooFewHeadings:
		return fmt.Sprintf("there are %d different headings; a curve of this order needs at least %d%s", e.got, e.need, sector)
	case BadlySpread:
		return fmt.Sprintf("the headings are badly spread: in part of the circle the curve is not known; observe on more headings%s", sector)
	}
	if e.Index < 0 {
		return say.Inner(e.Err)
	}
	return fmt.Sprintf("reading %d, on %v: %s", e.Index+1, e.Heading, say.Inner(e.Err))
}

// suspectFirst puts the suspect readings before the reason why no curve fits.
func suspectFirst(err error, observations []Observation) error {
	list := suspicions(observations)
	if len(list) == 0 {
		return err
	}
	e, ok := errors.AsType[*Error](err)
	if !ok {
		e = &Error{Index: -1, Kind: TooLarge, got: len(observations), Err: err}
	}
	e.Suspicions = list
	return e
}

// suspects names the readings to look at, grouped by likely slip.
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

// checkReversed refuses observations that are all by the reciprocal of a direction. Their curve
// would exceed 90°, or be meaningless where deviations east and west of 180° are averaged.
func checkReversed(observations []Observation, by deviation.HeadingKind) error {
	for _, o := range observations {
		if o.Deviation.Angle().Abs() <= deviation.MaxDeviation {
			return nil
		}
	}
	if len(observations) == 0 {
		return nil
	}
	return &Error{Index: -1, Kind: AllReversed, got: len(observations), by: by}
}

// tooFewError reports headings that are fewer than p coefficients need.
func tooFewError(headings []angle.Angle, p int, by deviation.HeadingKind) error {
	e := &Error{Index: -1, Kind: TooFewHeadings, need: p, got: len(headings), by: by}
	e.From, e.To = widestGap(headings)
	return e
}

// spreadError reports headings that are badly spread.
func spreadError(observations []Observation, used []bool, by deviation.HeadingKind) error {
	headings := usedHeadings(observations, used, by)
	e := &Error{Index: -1, Kind: BadlySpread, got: len(headings), by: by}
	e.From, e.To = widestGap(headings)
	return e
}

// usedHeadings returns the different headings of the observations used in rising order, or of all
// observations if used is nil.
func usedHeadings(observations []Observation, used []bool, by deviation.HeadingKind) []angle.Angle {
	headings := make([]angle.Angle, 0, len(observations))
	for i, o := range observations {
		if used == nil || used[i] {
			headings = append(headings, o.heading(by))
		}
	}
	slices.Sort(headings)
	return slices.Compact(headings)
}

// widestGap returns the ends of the widest sector without a heading. They are equal if there are
// fewer than two headings.
func widestGap(headings []angle.Angle) (from, to angle.Angle) {
	widest := angle.Angle(0)
	for i, h := range headings {
		next := headings[(i+1)%len(headings)]
		if gap := (next - h).Normalized(); gap > widest {
			from, to, widest = h, next, gap
		}
	}
	return from, to
}
