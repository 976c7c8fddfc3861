package deviation

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sun"
	"lubberline.example/variation"
)

// A Check is the error of the compass found once, on one heading, and the
// deviation in it.
type Check struct {
	Time    time.Time     `json:"time,omitzero"`     // nought if it is not known
	Heading angle.Compass `json:"heading"`           // of the vessel
	Against string        `json:"against,omitempty"` // what the compass was compared with

	// Error is the compass error, the true direction less the compass's: east
	// positive, variation and deviation together.
	Error angle.EastWest `json:"compassError"`

	// Variation is what was taken from the error.
	Variation variation.Variation `json:"variation"`

	// Deviation is the error less the variation, with the uncertainty of both
	// and of the reading.
	Deviation Deviation `json:"deviation"`

	Steps    working.Steps `json:"steps,omitempty"`    // how the deviation was found
	Warnings []Warning     `json:"warnings,omitempty"` // what makes the check weak, such as a high Sun or an old rose
}

// Working returns the check as it stands on the page.
func (c Check) Working() working.Sheet {
	title := "Compass checked against " + cmp.Or(c.Against, "an object")
	if !c.Time.IsZero() {
		title += c.Time.UTC().Format(", 2 January 2006 15:04:05 UTC")
	}
	return working.Sheet{Title: title, Steps: c.Steps, Warnings: slices.Clone(c.Warnings), Caution: working.Caution}
}

// A CheckReading is a bearing read to check the compass.
type CheckReading struct {
	Time    time.Time     // of the reading; left out it is missing, which only a known variation can do without
	Heading angle.Compass // of the vessel; left out it is 000°
	Bearing angle.Compass // of the object, by the same compass; left out it is 000°

	// Uncertainty is how well the bearing was read, one standard deviation. Not
	// stated, the check's deviation has none stated either.
	Uncertainty angle.Uncertainty

	// Variation tells the variation: a chart's roses, one rose, a field model, or a
	// known [variation.Variation]. Nil, it is missing, and no check is worked without
	// it. It is asked for the time of the reading.
	Variation variation.Source

	// At is the position for which [CheckReading.Against] asks for the variation. A rose
	// and a known variation do not need it; see [variation.Source]. If nil, a source that
	// needs it is refused with a [*MissingSourceError]. A check by the Sun has a position
	// of its own, and asks for the variation there.
	At *angle.Position
}

// Against checks the compass against an object whose true direction is known, as
// two charted marks in line are, and how well. A missing variation, place or time
// ([*MissingSourceError]), and what its source errs with, is a [*CheckError].
func (r CheckReading) Against(what string, direction angle.True, known angle.Uncertainty) (Check, error) {
	found, err := explainVariation(r.Variation, r.At, r.Time)
	if err != nil {
		return Check{}, &CheckError{what, err}
	}
	return r.against(what, direction, known, found, working.Steps{working.Direction("true", capital(what)+" by true", direction, "known")}), nil
}

func (r CheckReading) against(what string, direction angle.True, known angle.Uncertainty, found variation.Explanation, steps working.Steps) Check {
	v := found.Variation
	e := angle.EastWestFrom(direction.FromNorth() - r.Bearing.FromNorth())
	u := r.Uncertainty.Combined(known)
	d := Between(v.Magnetic(direction), r.Bearing).WithUncertainty(u.Combined(v.Uncertainty()))
	steps = append(steps,
		working.Direction("compass", capital(what)+" by compass", r.Bearing, "read on heading "+r.Heading.String()),
		working.EastWest("compass error", "Compass error", e.Angle(), errorRule(e.Angle())),
	)
	steps = append(append(steps, found.Working...),
		working.EastWest("variation", "Variation", v.Angle(), "taken from the error"),
		working.EastWest("deviation", "Deviation", d.Angle(), "on heading "+r.Heading.String()),
	)
	c := Check{Time: r.Time, Heading: r.Heading, Against: what, Error: e.WithUncertainty(u), Variation: v, Deviation: d, Steps: steps, Warnings: found.Warnings}
	c.Warnings = append(c.Warnings, notADeviation(d)...)
	return c
}

// notADeviation warns of a deviation that no compass has.
func notADeviation(d Deviation) []Warning {
	if d.Angle().Abs() <= MostDeviation {
		return nil
	}
	return []Warning{warn(NotADeviation, "a deviation of %v is none: the reciprocal was read, another object observed, or the variation misnamed", d)}
}

// errorRule says why a compass error has its name.
func errorRule(e angle.Angle) string {
	switch {
	case e > 0:
		return "compass least: error east"
	case e < 0:
		return "compass best: error west"
	}
	return "compass and true agree"
}

func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// AgainstSun checks the compass against the Sun's true bearing at the time of the
// reading, from a position, where it asks for the variation too. It errs, with a
// [*CheckError], where package [sun] does, where the Sun was below the horizon or
// overhead, and where the variation is missing or its source errs.
func (r CheckReading) AgainstSun(p angle.Position) (Check, error) {
	sight, warnings, err := sunBearing(r.Time, p)
	if err != nil {
		return Check{}, &CheckError{"the Sun", err}
	}
	found, err := explainVariation(r.Variation, &p, r.Time)
	if err != nil {
		return Check{}, &CheckError{"the Sun", err}
	}
	c := r.against("the Sun", sight.Azimuth, exactly, found, sight.Working())
	c.Warnings = append(c.Warnings, warnings...)
	return c, nil
}

// exactly is the uncertainty of what is known far better than a compass reads.
var exactly = angle.Must(angle.StandardUncertainty(0))

// AgainstAmplitude checks the compass against the bearing of the rising or setting
// Sun, as the Sun's centre stands on a horizon: on the celestial one, that is
// when its lower limb is about two thirds of its diameter above the visible
// horizon; or on the visible one, from heightOfEyeMetres. The date and the
// time, to the hour, serve for the declination and the variation alone. The errors
// are [*CheckError], as those of AgainstSun; an event that is neither rising nor
// setting, a horizon that is neither, and a height of eye that
// [sun.AmplitudeOnVisibleHorizon] refuses are refused.
func (r CheckReading) AgainstAmplitude(p angle.Position, event sun.Event, horizon sun.Horizon, heightOfEyeMetres float64) (Check, error) {
	s, err := sun.At(r.Time)
	switch {
	case err != nil:
	case event != sun.Rise && event != sun.Set:
		err = fmt.Errorf("event %d: want sun.Rise or sun.Set", event)
	case horizon != sun.CelestialHorizon && horizon != sun.VisibleHorizon:
		err = fmt.Errorf("horizon %d: want CelestialHorizon or VisibleHorizon", horizon)
	}
	if err != nil {
		return Check{}, &CheckError{"the Sun's amplitude", err}
	}
	var both sun.RisingSetting
	if horizon == sun.VisibleHorizon {
		both, err = sun.AmplitudeOnVisibleHorizon(p.Latitude, s.Declination, heightOfEyeMetres)
	} else {
		both, err = sun.Amplitude(p.Latitude, s.Declination)
	}
	if err != nil {
		return Check{}, &CheckError{"the Sun's amplitude", err}
	}
	direction, named := both.Rising, both.AmplitudeRising()
	if event == sun.Set {
		direction, named = both.Setting, both.AmplitudeSetting()
	}
	found, err := explainVariation(r.Variation, &p, r.Time)
	if err != nil {
		return Check{}, &CheckError{"the Sun's amplitude", err}
	}
	c := r.against("the Sun", direction, exactly, found, working.Steps{
		{Key: "declination", What: "Declination", Value: northSouth(s.Declination), Number: s.Declination.Degrees(), Unit: "degrees, north positive", How: "of the Sun at the time"},
		{Key: "latitude", What: "Latitude", Value: p.Latitude.String(), Number: p.Latitude.Angle().Degrees(), Unit: "degrees, north positive", How: "of the position"},
		{Key: "amplitude", What: "Amplitude", Value: named, Number: both.Amplitude().Degrees(), Unit: "degrees, north positive", How: "with the centre on the " + horizon.String()},
		working.Direction("true", "The Sun by true", direction, "amplitude from east at rising, from west at setting"),
	})
	c.Against = "the Sun's amplitude"
	if there := s.From(p); there.Altitude.Abs() > 10*angle.Degree || (there.LocalHourAngle > angle.Turn/2) != (event == sun.Rise) {
		c.Warnings = append(c.Warnings, warn(SunElsewhere, "at that time and place the Sun was not %s: check the time (UTC), the position and which of the two it was", map[sun.Event]string{sun.Rise: "rising", sun.Set: "setting"}[event]))
	}
	if p.Latitude.Angle().Abs() > 60*angle.Degree {
		c.Warnings = append(c.Warnings, warn(HighLatitude, "in so high a latitude a small error of the Sun's altitude is a large one of its bearing: take an azimuth instead"))
	}
	return c, nil
}

// northSouth prints an angle north or south to a minute.
func northSouth(a angle.Angle) string {
	name := "N"
	if a < 0 {
		name = "S"
	}
	return string(a.Abs().AppendMinutes(nil, 0)) + name
}

// A CheckError reports a check that could not be worked.
type CheckError struct {
	Against string // what the compass was compared with
	Err     error  // why it could not be
}

// Error says what could not be used, and why.
func (e *CheckError) Error() string {
	return fmt.Sprintf("deviation: check against %s: %s", e.Against, inner(e.Err))
}

// Unwrap returns why.
func (e *CheckError) Unwrap() error { return e.Err }
