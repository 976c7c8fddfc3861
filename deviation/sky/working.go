package sky

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// The units of the steps of a [Sight.Working], beside those of package [working].
const (
	degreesNorth    = "degrees, north positive"
	degreesWest     = "degrees westward"
	degreesAbove    = "degrees above the celestial horizon"
	degreesFromPole = "degrees from the pole named first"
)

// Working returns the steps from the Sun's place to its true bearing. Their keys are
// "declination", "greenwich hour angle", "longitude", "local hour angle", "latitude",
// "altitude", "azimuth" and "named azimuth"; a Sun that has no bearing has neither of
// the last two.
func (s Sight) Working() working.Steps {
	latitude, longitude := s.Position.Latitude, s.Position.Longitude
	steps := working.Steps{
		{
			Key: "declination", What: "Declination", Value: northSouth(s.Sun.Declination),
			Number: s.Sun.Declination.Degrees(), Unit: degreesNorth, How: "of the Sun " + s.when(),
		},
		westward("greenwich hour angle", "Greenwich hour angle", s.Sun.GreenwichHourAngle, "of the Sun "+s.when()),
		working.EastWest("longitude", "Longitude", longitude.Angle(), "given; east is added, west subtracted"),
		westward("local hour angle", "Local hour angle", s.LocalHourAngle, "Greenwich hour angle and longitude"),
		{
			Key: "latitude", What: "Latitude", Value: northSouth(latitude.Angle()),
			Number: latitude.Degrees(), Unit: degreesNorth, How: "given",
		},
		{
			Key: "altitude", What: "Altitude", Value: s.Altitude.String(), Number: s.Altitude.Degrees(), Unit: degreesAbove,
			How: "sin altitude = sin lat sin dec + cos lat cos dec cos LHA; centre, no refraction",
		},
	}
	if !s.Defined() {
		return steps
	}
	return append(steps,
		working.Direction("azimuth", "True bearing", s.Azimuth,
			"tan azimuth = −cos dec sin LHA / (cos lat sin dec − sin lat cos dec cos LHA)"),
		working.Step{
			Key: "named azimuth", What: "As azimuth tables name it", Value: s.NamedAzimuth(),
			Number: s.fromElevatedPole().Degrees(), Unit: degreesFromPole, How: s.rule(),
		})
}

// NamedAzimuth returns the true bearing as azimuth tables name it, from the elevated
// pole (north in north latitude and on the equator) toward east in the morning or
// west in the afternoon, to a minute: N 125°37′ E. It goes up to 180°, unlike the
// quadrantal form of [angle.Direction].
func (s Sight) NamedAzimuth() string {
	pole, side := 'N', 'E'
	if s.southern() {
		pole = 'S'
	}
	if !s.morning() {
		side = 'W'
	}
	return fmt.Sprintf("%c %.0v %c", pole, s.fromElevatedPole(), side)
}

// rule says in words how the azimuth is named.
func (s Sight) rule() string {
	latitude, pole := "north latitude", "north"
	if s.southern() {
		latitude, pole = "south latitude", "south"
	}
	if s.LocalHourAngle == 0 || s.LocalHourAngle == angle.Turn/2 {
		return latitude + ", on the meridian"
	}
	if s.morning() {
		return latitude + ", morning: from " + pole + " to east"
	}
	return latitude + ", afternoon: from " + pole + " to west"
}

func (s Sight) southern() bool { return s.Position.Latitude.Angle() < 0 }

// morning reports whether the Sun is east of the meridian.
func (s Sight) morning() bool { return s.LocalHourAngle > angle.Turn/2 }

// fromElevatedPole returns the angle between the azimuth and the elevated pole.
func (s Sight) fromElevatedPole() angle.Angle {
	fromNorth := s.Azimuth.FromNorth().NormalizedSigned().Abs()
	if s.southern() {
		return angle.Turn/2 - fromNorth
	}
	return fromNorth
}

// when says of which instant the Sun's place is.
func (s Sight) when() string {
	if s.Sun.Time.IsZero() {
		return "as given"
	}
	return "at " + s.Sun.Time.UTC().Format(time.RFC3339)
}

// westward returns a step whose figure is an hour angle.
func westward(key, what string, a angle.Angle, how string) working.Step {
	return working.Step{Key: key, What: what, Value: a.String(), Number: a.Degrees(), Unit: degreesWest, How: how}
}

// northSouth returns an angle north or south as the angle with its name: 21°12.3′N.
func northSouth(north angle.Angle) string {
	name := "N"
	if north < 0 {
		name = "S"
	}
	return north.Abs().String() + name
}
