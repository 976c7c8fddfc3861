package check

import (
	"errors"
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/sunsight"
)

// AgainstSun checks the compass against the Sun's true bearing at the time of the
// reading, from a position, where it asks for the variation too. The uncertainty of the
// check holds that of the time, of the position and of the altitude: the higher the Sun,
// the more a tilt of the card or the sight spoils the bearing.
//
// It returns an [*Error] where package sky returns an error, where the Sun was below
// the horizon or overhead, and where [Reading.Against] returns one.
func (r Reading) AgainstSun(p angle.Position) (Check, error) {
	sight, warnings, err := sunsight.At(r.Time, p)
	if errors.Is(err, sunsight.ErrDown) {
		err = r.whyDown(p, err)
	}
	if err != nil {
		return Check{}, &Error{"the Sun", err}
	}
	found, err := r.variation(&p)
	if err != nil {
		return Check{}, &Error{"the Sun", err}
	}
	known, how, err := r.sunUncertainty(p, sight.Azimuth, sight.Altitude)
	if err != nil {
		return Check{}, &Error{"the Sun", err}
	}
	steps := append(sight.Working(), uncertaintyStep(known, how))
	c := r.against("the Sun", sight.Azimuth, known, found, steps)
	c.Position = &p
	c.Warnings = append(c.Warnings, warnings...)
	c.Warnings = append(c.Warnings, c.tooLarge(true)...)
	return c, nil
}

// whyDown adds to the error of a Sun that was down what may have happened: slips of time
// and place with which the Sun was up, and the deviation is one that a compass may have.
func (r Reading) whyDown(p angle.Position, down error) error {
	found, err := r.variation(&p)
	if err != nil {
		return down
	}
	var slips []namedSlip
	for _, cause := range causes(p.Longitude) {
		if bearing, up := cause.bearing(r.Time, p); up && deviation.Between(found.Variation.Magnetic(bearing), *r.Bearing).Angle().Abs() <= withoutCard.sun {
			slips = append(slips, namedSlip{cause.slip, cause.text})
		}
	}
	if len(slips) == 0 {
		return down
	}
	return fmt.Errorf("%w%s", down, perhaps(slips))
}

// What is assumed of a reading that does not state it.
const (
	assumedTime     = 5 * time.Second
	assumedPosition = 1.0 // nautical miles each way
)

// assumedTilt is the standard uncertainty of a card's or a sight's being level: a judgement
// of this package, not a published figure.
const assumedTilt = angle.Degree / 2

// uncertainties returns those of the time and the position, and says where they are
// assumed.
func (r Reading) uncertainties() (t time.Duration, miles float64, how string, err error) {
	t, miles = r.TimeUncertainty, r.PositionUncertainty
	switch {
	case t < 0 || t > time.Hour:
		return 0, 0, "", &angle.RangeError{What: "uncertainty of the time", Value: t.Seconds(), Accepted: "0 to 3600 seconds"}
	case !(miles >= 0 && miles <= 600):
		return 0, 0, "", &angle.RangeError{What: "uncertainty of the position", Value: miles, Accepted: "0 to 600 nautical miles"}
	}
	said := func(assumed bool) string {
		if assumed {
			return " (assumed)"
		}
		return ""
	}
	noTime, noPlace := t == 0, miles == 0
	if noTime {
		t = assumedTime
	}
	if noPlace {
		miles = assumedPosition
	}
	return t, miles, fmt.Sprintf("time ±%v%s, position ±%.3g M%s", t, said(noTime), miles, said(noPlace)), nil
}

// sunUncertainty is that of the Sun's bearing.
func (r Reading) sunUncertainty(p angle.Position, azimuth angle.True, altitude angle.Angle) (angle.Uncertainty, string, error) {
	t, miles, how, err := r.uncertainties()
	if err != nil {
		return angle.Uncertainty{}, "", err
	}
	var square float64
	differs := func(t time.Time, p angle.Position) {
		if bearing, up := sunUp(t, p); up {
			d := bearing.Sub(azimuth).Degrees()
			square += d * d
		}
	}
	differs(r.Time.Add(t), p)
	along := angle.Must(angle.Minutes(miles))
	north, east := p, p
	if p.Latitude.Angle() > 0 { // away from the near pole
		north.Latitude = angle.Must(angle.LatitudeFrom(p.Latitude.Angle() - along))
	} else {
		north.Latitude = angle.Must(angle.LatitudeFrom(p.Latitude.Angle() + along))
	}
	differs(r.Time, north)
	if cos := p.Latitude.Angle().Cos(); cos > 0.01 { // nearer to a pole the way east is a turn of all bearings
		east.Longitude = angle.LongitudeFrom(p.Longitude.Angle() + harmonic.Round(float64(along)/cos))
		differs(r.Time, east)
	}
	tilt := assumedTilt.Degrees() * math.Abs(altitude.Sin()/max(altitude.Cos(), 1e-6))
	square += tilt * tilt
	return harmonic.Sigma(min(180, math.Sqrt(square)) * float64(angle.Degree)), how + ", card or sight level to ±0.5° (assumed)", nil
}

// uncertaintyStep is the step of how well the Sun's direction is known.
func uncertaintyStep(u angle.Uncertainty, how string) working.Step {
	s, _ := u.Sigma()
	return working.Step{
		Key: "direction uncertainty", What: "Uncertainty of it", Value: fmt.Sprintf("±%.2f°", s.Degrees()), Number: s.Degrees(), Unit: "degrees", How: how,
	}
}
