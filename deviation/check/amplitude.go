package check

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/sky"
)

// AgainstAmplitude checks the compass against the bearing of the rising or setting Sun, when the
// Sun's centre is on a horizon. It is on the celestial horizon when the lower limb is about two
// thirds of the Sun's diameter above the visible horizon. On the visible horizon it is seen from
// heightOfEyeMetres.
//
// The declination and the variation need the time only to the hour. A time to the minute shows on
// which horizon the Sun was. If that is the other horizon, there is a warning of kind
// [OtherHorizon].
//
// It returns an [*Error] where AgainstSun does. It also does if the event is neither [sky.Rise] nor
// [sky.Set], if the horizon is unknown, or if [sky.AmplitudeOnVisibleHorizon] refuses the height of
// eye.
func (r Reading) AgainstAmplitude(event sky.Event, horizon sky.Horizon, p angle.Position, heightOfEyeMetres float64) (Check, error) {
	c, err := r.againstAmplitude(event, horizon, p, heightOfEyeMetres)
	if err != nil {
		return Check{}, &Error{"the Sun's amplitude", err}
	}
	return c, nil
}

// againstAmplitude is AgainstAmplitude; its errors do not say against what the compass was checked.
func (r Reading) againstAmplitude(event sky.Event, horizon sky.Horizon, p angle.Position, heightOfEyeMetres float64) (Check, error) {
	s, err := sky.Sun(r.Time)
	switch {
	case err != nil:
		return Check{}, err
	case event != sky.Rise && event != sky.Set:
		return Check{}, fmt.Errorf("event %q: give sky.Rise or sky.Set", event)
	case horizon != sky.CelestialHorizon && horizon != sky.VisibleHorizon:
		return Check{}, fmt.Errorf("horizon %q: give sky.CelestialHorizon or sky.VisibleHorizon", horizon)
	}
	both, err := amplitudeOn(horizon, p, s, heightOfEyeMetres)
	if err != nil {
		return Check{}, err
	}
	direction, named := both.Rising, both.AmplitudeRising()
	if event == sky.Set {
		direction, named = both.Setting, both.AmplitudeSetting()
	}
	found, err := r.variation(&p)
	if err != nil {
		return Check{}, err
	}
	uncertain, known, err := r.amplitudeUncertainty(p, direction, horizon)
	if err != nil {
		return Check{}, err
	}
	altitude := s.From(p).Altitude
	amplitude := working.Step{Key: "amplitude", What: "Amplitude", Value: named, Number: both.Amplitude().Degrees(), Unit: "degrees, north positive"}
	if horizon == sky.VisibleHorizon {
		amplitude = amplitude.Because("amplitude-visible-horizon", "with the centre on the visible horizon")
	} else {
		amplitude = amplitude.Because("amplitude-celestial-horizon", "with the centre on the celestial horizon")
	}
	if (altitude - both.Altitude).Abs() <= onHorizon {
		amplitude = amplitude.Because("amplitude-horizon-agrees", "at the time given it was at %.1f°, which agrees", altitude.Degrees())
	}
	c := r.against("the Sun", direction, known, found, working.Steps{
		working.Step{Key: "declination", What: "Declination", Value: northSouth(s.Declination), Number: s.Declination.Degrees(), Unit: "degrees, north positive"}.Because("amplitude-declination", "of the Sun at the time"),
		working.Step{Key: "latitude", What: "Latitude", Value: p.Latitude.String(), Number: p.Latitude.Angle().Degrees(), Unit: "degrees, north positive"}.Because("amplitude-latitude", "of the position"),
		amplitude,
		working.Direction("true", "The Sun by true", direction).Because("amplitude-rule", "amplitude from east at rising, from west at setting"),
		uncertain,
	})
	c.Against = "the Sun's amplitude"
	c.Warnings = append(c.Warnings, r.otherHorizon(p, s, event, horizon, both, altitude, heightOfEyeMetres)...)
	if there := s.From(p); there.Altitude.Abs() > 10*angle.Degree || (there.LocalHourAngle > angle.Turn/2) != (event == sky.Rise) {
		if event == sky.Rise {
			c.Warnings = append(c.Warnings, working.Warn(SunElsewhere, "sun-not-rising", "at that time and place the Sun was not rising: check the time (UTC), the position, and whether it rose or set"))
		} else {
			c.Warnings = append(c.Warnings, working.Warn(SunElsewhere, "sun-not-setting", "at that time and place the Sun was not setting: check the time (UTC), the position, and whether it rose or set"))
		}
	}
	if p.Latitude.Angle().Abs() > 60*angle.Degree {
		c.Warnings = append(c.Warnings, working.Warn(HighLatitude, "high-latitude", "in this high latitude a small error of the Sun's altitude makes a large error of its bearing: take an azimuth instead"))
	}
	c.Warnings = append(c.Warnings, c.tooLarge(true)...)
	return c, nil
}

// amplitudeOn returns the amplitude on a horizon.
func amplitudeOn(horizon sky.Horizon, p angle.Position, s sky.Body, heightOfEyeMetres float64) (sky.RisingSetting, error) {
	if horizon == sky.VisibleHorizon {
		return sky.AmplitudeOnVisibleHorizon(p.Latitude, s.Declination, heightOfEyeMetres)
	}
	return sky.Amplitude(p.Latitude, s.Declination)
}

// onHorizon is the largest distance from a horizon at which the Sun counts as on it. A minute of
// time is up to a quarter of a degree, and the two horizons are at least 0.6° apart.
const onHorizon = angle.Degree / 5

// otherHorizon warns if the time shows that the Sun was on the other horizon.
func (r Reading) otherHorizon(p angle.Position, s sky.Body, event sky.Event, horizon sky.Horizon, given sky.RisingSetting, altitude angle.Angle, heightOfEyeMetres float64) []working.Warning {
	if (altitude - given.Altitude).Abs() <= onHorizon {
		return nil
	}
	other := sky.VisibleHorizon
	if horizon == sky.VisibleHorizon {
		other = sky.CelestialHorizon
	}
	on, err := amplitudeOn(other, p, s, heightOfEyeMetres)
	if err != nil || (altitude-on.Altitude).Abs() > onHorizon {
		return nil
	}
	// The bearing would be so much more or less.
	off := on.Rising.Sub(given.Rising)
	if event == sky.Set {
		off = on.Setting.Sub(given.Setting)
	}
	changed := angle.EastWestFrom(off.Round(angle.Degree / 10))
	if other == sky.VisibleHorizon {
		return []working.Warning{working.Warn(OtherHorizon, "other-horizon-visible", "at the time given the Sun's centre was at %.1f°, on the visible horizon and not on the celestial: check which it was; with the visible horizon the deviation changes by %v", altitude.Degrees(), changed)}
	}
	return []working.Warning{working.Warn(OtherHorizon, "other-horizon-celestial", "at the time given the Sun's centre was at %.1f°, on the celestial horizon and not on the visible: check which it was; with the celestial horizon the deviation changes by %v", altitude.Degrees(), changed)}
}

// The standard uncertainty of the Sun's altitude when its centre is judged by eye to be on a
// horizon, with that of refraction there. They are judgements of this package, not published
// figures.
const (
	celestialUncertainty = 10 * angle.Minute // a third of the Sun's diameter
	visibleUncertainty   = 5 * angle.Minute
)

// amplitudeUncertainty returns the uncertainty of the Sun's bearing on a horizon, with its step.
func (r Reading) amplitudeUncertainty(p angle.Position, direction angle.True, horizon sky.Horizon) (working.Step, angle.Uncertainty, error) {
	_, miles, err := r.uncertainties()
	if err != nil {
		return working.Step{}, angle.Uncertainty{}, err
	}
	altitude := celestialUncertainty
	if horizon == sky.VisibleHorizon {
		altitude = visibleUncertainty
	}
	// On the horizon, cos Z = (sin δ − sin φ sin h) / (cos φ cos h). The bearing Z changes by tan φ
	// / sin Z for each degree of altitude h, and by cos Z times that for each degree of latitude.
	sin, cos := direction.FromNorth().SinCos()
	slope := math.Abs(p.Latitude.Angle().Sin() / max(p.Latitude.Angle().Cos(), 1e-9) / max(math.Abs(sin), 1e-9))
	degrees := slope * math.Hypot(altitude.Degrees(), cos*miles/60)
	u := harmonic.Sigma(min(180, degrees) * float64(angle.Degree))
	step := uncertaintyStep(u).Because("amplitude-altitude-uncertainty", "centre on the horizon to ±%.0f′ (assumed)", altitude.Degrees()*60)
	if r.PositionUncertaintyMiles == 0 {
		return step.Because("amplitude-latitude-assumed", "latitude ±%.3g′ (assumed)", miles), u, nil
	}
	return step.Because("amplitude-latitude-uncertainty", "latitude ±%.3g′", miles), u, nil
}

// northSouth prints an angle north or south to a minute.
func northSouth(a angle.Angle) string {
	name := "N"
	if a < 0 {
		name = "S"
	}
	return fmt.Sprintf("%.0v%s", a.Abs(), name)
}
