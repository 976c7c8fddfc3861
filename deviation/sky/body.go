package sky

import (
	"time"

	"lubberline.example/angle"
)

// A Body is the apparent place of the Sun, a star or another body at an instant, as
// seen from the centre of the Earth. [Sun] and [Star] compute it. For the Moon and
// the planets fill it in by hand from an almanac. It compares with ==.
type Body struct {
	// Name is the body's name as in the middle of a sentence: "the Sun", "Vega",
	// "the Moon".
	Name string `json:"name,omitzero"`

	// Time is the instant, in UTC. If zero, it is not known.
	Time time.Time `json:"time,omitzero"`

	// Declination is the angle north (positive) or south of the true equator of
	// date.
	Declination angle.Angle `json:"declination"`

	// GreenwichHourAngle is the angle westward from the meridian of Greenwich, in
	// [0°, 360°).
	GreenwichHourAngle angle.Angle `json:"greenwichHourAngle"`

	// SemiDiameter is the angle from the body's centre to its limb: 15′44″ to 16′16″
	// for the Sun, zero for a star.
	SemiDiameter angle.Angle `json:"semiDiameter,omitzero"`

	// HorizontalParallax is how much lower a body on the horizon is seen from the surface of the
	// Earth than from its centre. It is 8.8″ for the Sun, about 57′ for the Moon and zero for a
	// star.
	HorizontalParallax angle.Angle `json:"horizontalParallax,omitzero"`
}

// The first instant of the years of this package, and the first after them.
var (
	firstInstant = time.Date(1950, time.January, 1, 0, 0, 0, 0, time.UTC)
	endInstant   = time.Date(2101, time.January, 1, 0, 0, 0, 0, time.UTC)
)

// inYears returns an instant in UTC, or an error if it is outside the years of this package.
func inYears(t time.Time) (time.Time, error) {
	t = t.UTC()
	if t.Before(firstInstant) || !t.Before(endInstant) {
		return time.Time{}, &Error{Kind: OutsideYears, Time: t}
	}
	return t, nil
}

// The Sun at one astronomical unit. The semi-diameter is that of Auwers.
const (
	sunSemiDiameter = 959_630 * angle.Second / 1000
	sunParallax     = 8_794 * angle.Second / 1000
)

// Sun returns the apparent place of the Sun at an instant of the years 1950 to 2100, UTC. If the
// time is zero or outside these years, it returns an [*Error]. For formulas and accuracy see the
// package's description.
func Sun(t time.Time) (Body, error) {
	t, err := inYears(t)
	if err != nil {
		return Body{}, err
	}
	declination, hourAngle, distance := place(t)
	return Body{
		Name:               "the Sun",
		Time:               t,
		Declination:        angle.Must(angle.Degrees(declination)),
		GreenwichHourAngle: angle.Must(angle.Degrees(hourAngle)).Normalized(),
		SemiDiameter:       angle.Angle(float64(sunSemiDiameter) / distance),
		HorizontalParallax: angle.Angle(float64(sunParallax) / distance),
	}, nil
}

// EquationOfTime returns apparent solar time minus mean solar time at an instant. It is between −14
// min 20 s and +16 min 30 s. It is positive when a sundial is ahead of the clock; the Sun then
// passes the meridian of Greenwich before 12:00 UTC. The errors are those of [Sun].
func EquationOfTime(t time.Time) (time.Duration, error) {
	s, err := Sun(t)
	if err != nil {
		return 0, err
	}
	t = s.Time
	ofDay := angle.Angle(t.Hour()*3600 + t.Minute()*60 + t.Second())
	// A second of time is 15″, and a nanosecond 15 units of Angle.
	mean := ofDay*15*angle.Second + 15*angle.Angle(t.Nanosecond()) + angle.Turn/2
	return time.Duration((s.GreenwichHourAngle - mean).NormalizedSigned().Round(15) / 15), nil
}

// GeographicalPosition returns the place that has the body in its zenith. A
// declination beyond ±90°, which no body has, counts as ±90°.
func (b Body) GeographicalPosition() angle.Position {
	declination := min(max(b.Declination, -90*angle.Degree), 90*angle.Degree)
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(declination)),
		Longitude: angle.LongitudeFrom(-b.GreenwichHourAngle.Normalized()),
	}
}
