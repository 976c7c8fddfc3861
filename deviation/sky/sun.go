package sky

import (
	"time"

	"lubberline.example/angle"
)

// A Sun is the apparent place of the Sun at an instant, as seen from the centre
// of the Earth. [At] computes it; one may also be filled in by hand from an almanac.
// It compares with ==.
type Sun struct {
	// Time is the instant, in UTC.
	Time time.Time `json:"time,omitzero"`

	// Declination is the angle north (positive) or south of the true equator of
	// date, from about −23°26′ to 23°26′.
	Declination angle.Angle `json:"declination"`

	// GreenwichHourAngle is the angle westward from the meridian of Greenwich, in
	// [0°, 360°).
	GreenwichHourAngle angle.Angle `json:"greenwichHourAngle"`

	// Distance is from the Earth in astronomical units, from 0.983 to 1.017, good
	// to 0.0001. It matters only for SemiDiameter and HorizontalParallax, which
	// take anything outside 0.9 to 1.1, such as zero, as 1.
	Distance float64 `json:"distanceAstronomicalUnits,omitzero"`
}

var (
	firstInstant = time.Date(1950, time.January, 1, 0, 0, 0, 0, time.UTC)
	endInstant   = time.Date(2101, time.January, 1, 0, 0, 0, 0, time.UTC)
)

// At returns the apparent place of the Sun at an instant of the years 1950 to 2100,
// UTC. Other instants, and the zero time, are refused with an [*Error]. For
// formulas and accuracy see the package's description.
func At(t time.Time) (Sun, error) {
	t = t.UTC()
	if t.Before(firstInstant) || !t.Before(endInstant) {
		return Sun{}, &Error{Kind: OutsideYears, Time: t}
	}
	declination, hourAngle, distance := place(t)
	return Sun{
		Time:               t,
		Declination:        angle.Must(angle.Degrees(declination)),
		GreenwichHourAngle: angle.Must(angle.Degrees(hourAngle)).Normalized(),
		Distance:           distance,
	}, nil
}

// SemiDiameter returns the angle from the Sun's centre to its limb, from 15′44″ to
// 16′16″. It is 959.63″ (Auwers) at one astronomical unit.
func (s Sun) SemiDiameter() angle.Angle { return s.atDistance(959_630 * angle.Second / 1000) }

// HorizontalParallax returns the angle by which the Sun on the horizon stands
// lower from the surface of the Earth than from its centre, about 8.8″. It is
// 8.794″ at one astronomical unit.
func (s Sun) HorizontalParallax() angle.Angle { return s.atDistance(8_794 * angle.Second / 1000) }

// atDistance returns an angle that is inversely as the distance.
func (s Sun) atDistance(atOne angle.Angle) angle.Angle {
	if !(s.Distance >= 0.9 && s.Distance <= 1.1) {
		return atOne
	}
	return angle.Must(atOne.Scale(1 / s.Distance))
}

// EquationOfTime returns apparent solar time less mean solar time, between
// −14 min 20 s and +16 min 30 s: positive when a sundial is ahead of the clock, and
// the Sun passes the meridian of Greenwich before 12:00 UTC.
func (s Sun) EquationOfTime() time.Duration {
	t := s.Time.UTC()
	ofDay := angle.Angle(t.Hour()*3600 + t.Minute()*60 + t.Second())
	// A second of time is 15″, and a nanosecond 15 units of Angle.
	mean := ofDay*15*angle.Second + 15*angle.Angle(t.Nanosecond()) + angle.Turn/2
	return time.Duration((s.GreenwichHourAngle.Normalized() - mean).NormalizedSigned().Round(15) / 15)
}

// GeographicalPosition returns the place that has the Sun in its zenith. A
// declination beyond ±90°, which no Sun has, counts as ±90°.
func (s Sun) GeographicalPosition() angle.Position {
	declination := min(max(s.Declination, -90*angle.Degree), 90*angle.Degree)
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(declination)),
		Longitude: angle.LongitudeFrom(-s.GreenwichHourAngle.Normalized()),
	}
}
