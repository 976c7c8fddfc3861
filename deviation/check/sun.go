package check

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/deviation/sky"
)

// AgainstSun checks the compass against the Sun's true bearing from a position at the time of the
// reading. It asks for the variation at that position. The uncertainty of the check includes the
// effects of time, position and altitude. With a higher Sun, a tilt of the card or the sight spoils
// the bearing more.
//
// It returns an [*Error] where package sky returns an error, where the Sun was below
// the horizon or overhead, and where [Reading.Against] returns one.
func (r Reading) AgainstSun(p angle.Position) (Check, error) {
	sun, err := sky.Sun(r.Time)
	if err != nil {
		return Check{}, &Error{"the Sun", err}
	}
	return r.AgainstBody(sun, p)
}

// whyDown adds the likely slips to the error of a body below the horizon. With a slip of time or
// place corrected, the body was up and the deviation is possible.
func (r Reading) whyDown(located locator, p angle.Position, down error) error {
	found, err := r.variation(&p)
	if err != nil || located == nil {
		return down
	}
	var slips []namedSlip
	for _, cause := range causes(p.Longitude) {
		if bearing, up := cause.bearing(located, r.Time, p); up && deviation.Between(found.Variation.Magnetic(bearing), *r.Bearing).Angle().Abs() <= withoutCard.sky {
			slips = append(slips, cause.namedSlip)
		}
	}
	if len(slips) == 0 {
		return down
	}
	return fmt.Errorf("%w; %s", down, perhaps(slips))
}

// The uncertainties assumed for a reading that does not state them.
const (
	assumedTime     = 5 * time.Second
	assumedPosition = 1.0 // nautical miles each way
)

// assumedTilt is the standard uncertainty of the level of a compass card or a sight. It is a
// judgement of this package, not a published figure.
const assumedTilt = angle.Degree / 2

// uncertainties returns those of the time and the position in nautical miles, assumed if they are
// not stated.
func (r Reading) uncertainties() (t time.Duration, miles float64, err error) {
	t, miles = r.TimeUncertainty, r.PositionUncertaintyMiles
	switch {
	case t < 0 || t > time.Hour:
		return 0, 0, &angle.RangeError{What: "uncertainty of the time", Value: t.Seconds(), Accepted: "0 to 3600 seconds"}
	case !(miles >= 0 && miles <= 600):
		return 0, 0, &angle.RangeError{What: "uncertainty of the position", Value: miles, Accepted: "0 to 600 nautical miles"}
	}
	if t == 0 {
		t = assumedTime
	}
	if miles == 0 {
		miles = assumedPosition
	}
	return t, miles, nil
}

// bodyUncertainty returns the uncertainty of a body's bearing, with its step.
func (r Reading) bodyUncertainty(sight sky.Sight) (working.Step, angle.Uncertainty, error) {
	t, miles, err := r.uncertainties()
	if err != nil {
		return working.Step{}, angle.Uncertainty{}, err
	}
	var square float64
	differs := func(b sky.Body, p angle.Position) {
		if moved := b.From(p); sunsight.IsUp(moved) {
			d := moved.Azimuth.Sub(sight.Azimuth).Degrees()
			square += d * d
		}
	}
	b, p := sight.Body, sight.Position
	// In the time the sky turns, by 15° an hour.
	later := b
	later.GreenwichHourAngle = b.GreenwichHourAngle.Normalized() + 15*angle.Angle(t)
	differs(later, p)
	along := angle.Must(angle.Minutes(miles))
	north, east := p, p
	if p.Latitude.Angle() > 0 { // away from the near pole
		north.Latitude = angle.Must(angle.LatitudeFrom(p.Latitude.Angle() - along))
	} else {
		north.Latitude = angle.Must(angle.LatitudeFrom(p.Latitude.Angle() + along))
	}
	differs(b, north)
	if cos := p.Latitude.Angle().Cos(); cos > 0.01 { // nearer to a pole, a move to the east only turns all bearings
		east.Longitude = angle.LongitudeFrom(p.Longitude.Angle() + harmonic.Round(float64(along)/cos))
		differs(b, east)
	}
	tilt := assumedTilt.Degrees() * math.Abs(sight.Altitude.Sin()/max(sight.Altitude.Cos(), 1e-6))
	square += tilt * tilt
	u := harmonic.Sigma(min(180, math.Sqrt(square)) * float64(angle.Degree))
	step := uncertaintyStep(u)
	if r.TimeUncertainty == 0 {
		step = step.Because("bearing-time-assumed", "time ±%v (assumed)", t)
	} else {
		step = step.Because("bearing-time-uncertainty", "time ±%v", t)
	}
	if r.PositionUncertaintyMiles == 0 {
		step = step.Because("bearing-position-assumed", "position ±%.3g M (assumed)", miles)
	} else {
		step = step.Because("bearing-position-uncertainty", "position ±%.3g M", miles)
	}
	return step.Because("bearing-tilt-assumed", "card or sight level to ±%.1f° (assumed)", assumedTilt.Degrees()), u, nil
}

// uncertaintyStep is the step of the uncertainty of a direction.
func uncertaintyStep(u angle.Uncertainty) working.Step {
	s, _ := u.Sigma()
	return working.Step{
		Key: "direction uncertainty", What: "Bearing uncertainty", Value: fmt.Sprintf("±%.2f°", s.Degrees()), Number: s.Degrees(), Unit: "degrees",
	}
}
