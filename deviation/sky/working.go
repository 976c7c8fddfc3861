package sky

import (
	"cmp"
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

// Working returns the steps from the body's place to its true bearing. Their keys are
// "declination", "greenwich hour angle", "longitude", "local hour angle", "latitude", "altitude",
// "azimuth" and "named azimuth"; without a bearing, the last two are missing.
func (s Sight) Working() working.Steps {
	latitude, longitude := s.Position.Latitude, s.Position.Longitude
	// Room for what a check of the compass adds.
	steps := append(make(working.Steps, 0, 16),
		s.placed(working.Step{
			Key: "declination", What: "Declination", Value: northSouth(s.Body.Declination),
			Number: s.Body.Declination.Degrees(), Unit: degreesNorth,
		}),
		s.placed(westward("greenwich hour angle", "Greenwich hour angle", s.Body.GreenwichHourAngle)),
		working.EastWest("longitude", "Longitude", longitude.Angle()).
			Because("longitude-is-applied", "given; east is added, west subtracted"),
		westward("local hour angle", "Local hour angle", s.LocalHourAngle).
			Because("local-hour-angle", "Greenwich hour angle and longitude"),
		working.Step{
			Key: "latitude", What: "Latitude", Value: northSouth(latitude.Angle()),
			Number: latitude.Degrees(), Unit: degreesNorth,
		}.Because("sky-latitude-given", "given"),
		working.Step{
			Key: "altitude", What: "Altitude", Value: s.Altitude.String(), Number: s.Altitude.Degrees(), Unit: degreesAbove,
		}.Because("altitude-formula", "sin altitude = sin lat sin dec + cos lat cos dec cos LHA; centre, no refraction"),
	)
	if !s.Defined() {
		return steps
	}
	return append(steps,
		working.Direction("azimuth", "True bearing", s.Azimuth).
			Because("azimuth-formula", "tan azimuth = −cos dec sin LHA / (cos lat sin dec − sin lat cos dec cos LHA)"),
		s.ruled(working.Step{
			Key: "named azimuth", What: "As azimuth tables name it", Value: s.NamedAzimuth(),
			Number: s.fromElevatedPole().Degrees(), Unit: degreesFromPole,
		}))
}

// NamedAzimuth returns the true bearing as azimuth tables name it, to a minute: N 125°37′ E. It is
// counted from the elevated pole (north on the equator) toward east or west, by the side of the
// meridian on which the body is. It goes up to 180°, unlike the quadrantal form of
// [angle.Direction].
func (s Sight) NamedAzimuth() string {
	pole, side := 'N', 'E'
	if s.southern() {
		pole = 'S'
	}
	if !s.eastward() {
		side = 'W'
	}
	return fmt.Sprintf("%c %.0v %c", pole, s.fromElevatedPole(), side)
}

// ruled adds to a step how the azimuth is named.
func (s Sight) ruled(step working.Step) working.Step {
	if s.southern() {
		step = step.Because("azimuth-from-south", "south latitude: from south")
	} else {
		step = step.Because("azimuth-from-north", "north latitude: from north")
	}
	switch {
	case s.LocalHourAngle == 0 || s.LocalHourAngle == angle.Turn/2:
		return step.Because("azimuth-on-meridian", "on the meridian")
	case s.eastward():
		return step.Because("azimuth-toward-east", "east of the meridian: toward east")
	}
	return step.Because("azimuth-toward-west", "west of the meridian: toward west")
}

// southern reports whether the position is in the southern hemisphere.
func (s Sight) southern() bool { return s.Position.Latitude.Angle() < 0 }

// eastward reports whether the body is east of the meridian.
func (s Sight) eastward() bool { return s.LocalHourAngle > angle.Turn/2 }

// fromElevatedPole returns the angle between the azimuth and the elevated pole.
func (s Sight) fromElevatedPole() angle.Angle {
	fromNorth := s.Azimuth.FromNorth().NormalizedSigned().Abs()
	if s.southern() {
		return angle.Turn/2 - fromNorth
	}
	return fromNorth
}

// placed adds to a step of which body and instant it is.
func (s Sight) placed(step working.Step) working.Step {
	name := cmp.Or(s.Body.Name, "the body")
	if s.Body.Time.IsZero() {
		return step.Because("body-as-given", "of %s as given", name)
	}
	return step.Because("body-at", "of %s at %s", name, s.Body.Time.UTC().Format(time.RFC3339))
}

// westward returns a step whose figure is an hour angle.
func westward(key, what string, a angle.Angle) working.Step {
	return working.Step{Key: key, What: what, Value: a.String(), Number: a.Degrees(), Unit: degreesWest}
}

// northSouth returns an angle north or south as the angle with its name: 21°12.3′N.
func northSouth(north angle.Angle) string {
	name := "N"
	if north < 0 {
		name = "S"
	}
	return north.Abs().String() + name
}
