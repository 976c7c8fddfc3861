package check

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// A Check is the compass error found once on one heading, and the deviation that follows from it.
type Check struct {
	Time    time.Time     `json:"time,omitzero"`     // zero if it is not known
	Heading angle.Compass `json:"heading"`           // of the vessel
	Against string        `json:"against,omitempty"` // what the compass was compared with

	// Bearing is the bearing by compass, and Position is where a body was observed from. With them
	// a review finds the likely slip in a check. They are nil if not known.
	Bearing  *angle.Compass  `json:"bearing,omitempty"`
	Position *angle.Position `json:"position,omitempty"`

	// Error is the compass error: true direction minus compass direction, east positive. It is
	// variation and deviation together.
	Error angle.EastWest `json:"compassError"`

	// Variation is what was subtracted from the error. VariationChange is the part of it that
	// brought a rose up to date, east positive; zero if unknown.
	Variation       variation.Variation `json:"variation"`
	VariationChange angle.Angle         `json:"variationChange,omitzero"`

	// Deviation is the compass error minus the variation. Its uncertainty includes those of both
	// and of the reading.
	Deviation deviation.Deviation `json:"deviation"`

	// What a log of checks has beside the figures, in words of your own: Method is the way
	// the check was made, such as "transit" or "amplitude", and VariationSource is where
	// the variation is from. Each is one line without spaces at its ends.
	Method          string `json:"method,omitempty"`
	VariationSource string `json:"variationSource,omitempty"`
	Observer        string `json:"observer,omitempty"`
	Remarks         string `json:"remarks,omitempty"`

	Steps    working.Steps     `json:"steps,omitempty"`    // how the deviation was found
	Warnings []working.Warning `json:"warnings,omitempty"` // what makes the check weak, such as a high Sun or an old rose
}

// Working returns the steps of the check as a sheet.
func (c Check) Working() working.Sheet {
	title := "Compass checked against " + cmp.Or(c.Against, "an object")
	if !c.Time.IsZero() {
		title += c.Time.UTC().Format(", 2 January 2006 15:04:05 UTC")
	}
	return working.Sheet{Title: title, Steps: c.Steps, Warnings: slices.Clone(c.Warnings), Caution: working.Caution}
}

// A Reading is a bearing read to check the compass.
type Reading struct {
	// Time is that of the reading. If zero, only a source of variation that needs no date
	// answers, and no check by the Sun or a star is possible.
	Time time.Time

	// Heading is the vessel's, and Bearing the object's, by the same compass. Both are needed. A
	// nil pointer is refused with a [*variation.MissingInputError], so a forgotten heading never
	// counts as 000°.
	Heading *angle.Compass
	Bearing *angle.Compass

	// BearingBy says by which compass Bearing was taken. If empty, it is taken as by the compass
	// that is checked. A bearing by another compass is refused, because it contains that compass's
	// deviation.
	BearingBy swing.BearingCompass

	// Uncertainty is the standard uncertainty of the bearing as read, at most 90°. If it is not
	// stated, the uncertainty of the deviation found is unknown too.
	Uncertainty angle.Uncertainty

	// TimeUncertainty is that of Time, one standard deviation. It counts in a bearing of
	// a body. If zero, 5 seconds are assumed, and the working says so.
	TimeUncertainty time.Duration

	// PositionUncertaintyMiles is that of the position, one standard deviation north-south and
	// east-west, in nautical miles. It counts in a bearing of a body. If zero, 1 nautical mile
	// is assumed, and the working says so.
	PositionUncertaintyMiles float64

	// Variation is the source of the variation: a chart's roses, one rose, a field model, or a
	// known [variation.Variation]. It is asked for the variation at the time of the reading. If it
	// is nil, the reading is refused with a [*variation.MissingInputError].
	Variation variation.Source

	// At is the position for which [Reading.Against] asks for the variation. A rose and a known
	// variation do not need it; see [variation.Source]. If it is nil and the source needs it, the
	// reading is refused with a [*variation.MissingInputError]. A check by a body asks for the
	// variation at the position from which the body was observed.
	At *angle.Position
}

// Against checks the compass against an object whose true direction is known, with its
// uncertainty, such as two charted marks in line. It returns an [*Error] if the source of
// variation fails, or, with a [*variation.MissingInputError] in it, if something is missing.
//
// For a second compass, give the heading as Bearing too, and as direction the true heading
// by the second compass. The variation is in both headings, so give it as exact, with an
// uncertainty of zero. For another vessel's gyro, give the reciprocal of the true bearing
// that it has of you. [lubberline.example/examples/book] does both.
func (r Reading) Against(what string, direction angle.True, uncertainty angle.Uncertainty) (Check, error) {
	found, err := r.variation(r.At)
	if err != nil {
		return Check{}, &Error{what, err}
	}
	c := r.against(what, direction, uncertainty, found, working.Steps{working.Direction("true", capital(what)+" by true", direction).Because("check-known", "known")})
	c.Warnings = append(c.Warnings, c.tooLarge(true)...)
	return c, nil
}

// variation asks for the variation, and refuses a reading from which something is missing.
func (r Reading) variation(at *angle.Position) (variation.Explanation, error) {
	found, err := ask.Variation(r.Variation, at, r.Time)
	switch {
	case err != nil:
		return variation.Explanation{}, err
	case r.Heading == nil:
		return variation.Explanation{}, &variation.MissingInputError{What: "heading"}
	case r.Bearing == nil:
		return variation.Explanation{}, &variation.MissingInputError{What: "bearing"}
	}
	if sigma, _ := r.Uncertainty.Sigma(); sigma > 90*angle.Degree {
		return variation.Explanation{}, &angle.RangeError{What: "standard uncertainty of the bearing in degrees", Value: sigma.Degrees(), Accepted: "0 to 90"}
	}
	switch r.BearingBy {
	case "", swing.SwungCompass:
		return found, nil
	case swing.AnotherCompass:
		return variation.Explanation{}, errors.New("the bearing is by another compass aboard, which has its own deviation; take the bearing by the compass that is checked")
	}
	return variation.Explanation{}, fmt.Errorf("%.60q is not a compass of the bearing; give swing.SwungCompass or swing.AnotherCompass", string(r.BearingBy))
}

// against works the check of a reading that has all it needs.
func (r Reading) against(what string, direction angle.True, known angle.Uncertainty, found variation.Explanation, steps working.Steps) Check {
	v, heading, bearing := found.Variation, *r.Heading, *r.Bearing
	e := angle.EastWestFrom(direction.FromNorth() - bearing.FromNorth())
	u := r.Uncertainty.Combined(known)
	d := deviation.Between(v.Magnetic(direction), bearing).WithUncertainty(u.Combined(v.Uncertainty()))
	steps = append(steps,
		working.Direction("compass", capital(what)+" by compass", bearing).Because("check-read", "read on heading %v", heading),
		errorStep(e.Angle()),
	)
	steps = append(append(steps, found.Working...), variationStep(v), deviationStep(d, heading))
	return Check{
		Time: r.Time, Heading: heading, Bearing: &bearing, Against: what,
		Error: e.WithUncertainty(u), Variation: v, VariationChange: found.Change, Deviation: d, Steps: steps, Warnings: found.Warnings,
	}
}

// errorStep is the step of the compass error, with the rule of its name.
func errorStep(e angle.Angle) working.Step {
	step := working.EastWest("compass error", "Compass error", e)
	switch {
	case e > 0:
		return step.Because("check-error-east", "compass least: error east")
	case e < 0:
		return step.Because("check-error-west", "compass best: error west")
	}
	return step.Because("check-no-error", "compass and true agree")
}

// variationStep is the step of the variation in a compass error.
func variationStep(v variation.Variation) working.Step {
	return working.EastWest("variation", "Variation", v.Angle()).Because("check-variation", "subtracted from the error")
}

// deviationStep is the step of the deviation in a compass error.
func deviationStep(d deviation.Deviation, heading angle.Compass) working.Step {
	return working.EastWest("deviation", "Deviation", d.Angle()).Because("check-deviation", "on heading %v", heading)
}

// capital returns a text with a capital first letter.
func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// An Error reports a check that could not be worked.
type Error struct {
	Against string // what the compass was compared with
	Err     error  // the cause
}

// Error says which check failed, and why.
func (e *Error) Error() string {
	return fmt.Sprintf("deviation: check against %s: %s", e.Against, say.Inner(e.Err))
}

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }
