package check

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// AgainstBody checks the compass against the true bearing of a star, the Moon or a planet from a
// position, as [Reading.AgainstSun] does against the Sun's. Take a star from [sky.Star]. Fill in
// the Moon or a planet from an almanac, with its name and, for the Moon, its parallax. The body's
// declination and hour angle must be for the time of the reading. If the body states another time,
// it is refused.
//
// It returns an [*Error] if the body has no name, states another time, or has a declination beyond
// ±90°. It also does if the body was below the horizon or overhead, and where [Reading.Against]
// returns one.
func (r Reading) AgainstBody(b sky.Body, p angle.Position) (Check, error) {
	c, err := r.againstBody(b, p)
	if err != nil {
		name := b.Name
		if name == "" {
			name = "a body of the sky"
		}
		return Check{}, &Error{name, err}
	}
	return c, nil
}

// againstBody is AgainstBody; its errors do not say against what the compass was checked.
func (r Reading) againstBody(b sky.Body, p angle.Position) (Check, error) {
	switch {
	case b.Name == "":
		return Check{}, &variation.MissingInputError{What: "name of the body"}
	case !b.Time.IsZero() && !b.Time.Equal(r.Time):
		return Check{}, anotherTime(b, r.Time)
	case b.Declination < -90*angle.Degree || b.Declination > 90*angle.Degree:
		return Check{}, &angle.RangeError{What: "declination", Value: b.Declination.Degrees(), Accepted: "−90 to 90 degrees"}
	}
	located := locate(b.Name)
	sight := b.From(p)
	warnings, err := sunsight.Judge(sight)
	if errors.Is(err, sunsight.ErrDown) {
		err = r.whyDown(located, p, err)
	}
	if err != nil {
		return Check{}, err
	}
	found, err := r.variation(&p)
	if err != nil {
		return Check{}, err
	}
	step, known, err := r.bodyUncertainty(sight)
	if err != nil {
		return Check{}, err
	}
	steps := append(sight.Working(), step)
	c := r.against(b.Name, sight.Azimuth, known, found, steps)
	// By the position a review tries slips of time and place, for which it computes the body.
	if located == nil || located.isNear(b, r.Time) {
		c.Position = &p
	}
	c.Warnings = append(c.Warnings, warnings...)
	c.Warnings = append(c.Warnings, r.daylight(b, p)...)
	c.Warnings = append(c.Warnings, c.tooLarge(true)...)
	return c, nil
}

// anotherTime refuses a body whose place is of another time than the reading.
func anotherTime(b sky.Body, reading time.Time) error {
	if reading.IsZero() {
		return &variation.MissingInputError{What: "time of the reading"}
	}
	return fmt.Errorf("its place is that of %s and the reading of %s: give both the same time",
		b.Time.UTC().Format(time.RFC3339), reading.UTC().Format(time.RFC3339))
}

// daylight warns of a star that was seen by day.
func (r Reading) daylight(b sky.Body, p angle.Position) []working.Warning {
	if b.Name == theSun {
		return nil
	}
	if _, err := sky.Star(b.Name, r.Time); err != nil {
		return nil
	}
	sun, err := sky.Sun(r.Time)
	if err != nil {
		return nil
	}
	if up := sun.From(p).Altitude; up > sky.RiseSetAltitude {
		return []working.Warning{working.Warn(InDaylight, "in-daylight",
			"at that time the Sun was up, at %.0f°, and %s is not seen by day: check date, time (UTC) and which body it was", up.Degrees(), b.Name)}
	}
	return nil
}

// theSun is the name that [sky.Sun] gives.
const theSun = "the Sun"

// A locator computes the place of a body at an instant. It is nil if that of the body is not
// computed.
type locator func(time.Time) (sky.Body, error)

// locate returns the locator of what a compass was compared with, by its name. A check that names
// neither a star nor the Moon or a planet, and has a position, is one by the Sun.
func locate(against string) locator {
	if against == theSun { // often, and without the catalogue of stars
		return sky.Sun
	}
	for _, word := range strings.Fields(strings.ToLower(against)) {
		switch word {
		case "moon", "mercury", "venus", "mars", "jupiter", "saturn":
			return nil
		}
	}
	if _, err := sky.Star(against, sometime); err == nil {
		return func(t time.Time) (sky.Body, error) { return sky.Star(against, t) }
	}
	return sky.Sun
}

// sometime is an instant at which all stars are computed.
var sometime = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// up returns the body's true bearing, if it was up and had one.
func (l locator) up(t time.Time, p angle.Position) (angle.True, bool) {
	if l == nil {
		return angle.True{}, false
	}
	b, err := l(t)
	if err != nil {
		return angle.True{}, false
	}
	sight := b.From(p)
	return sight.Azimuth, sunsight.IsUp(sight)
}

// isNear reports whether the body that is computed stands within a degree of another.
func (l locator) isNear(b sky.Body, t time.Time) bool {
	computed, err := l(t)
	return err == nil && computed.GeographicalPosition().ArcTo(b.GeographicalPosition()) <= angle.Degree
}
