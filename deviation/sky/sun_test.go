package sky_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

func TestYearsAreKept(t *testing.T) {
	for _, when := range []time.Time{
		{},
		at(t, "1949-12-31T23:59:59Z"),
		at(t, "2101-01-01T00:00:00Z"),
		at(t, "2101-01-01T00:30:00+01:00").Add(time.Hour),
		time.Unix(math.MaxInt64/2, 0),
		time.Unix(math.MinInt64/2, 0),
	} {
		_, err := sky.EquationOfTime(when)
		if _, star := sky.Star("Vega", when); star == nil || err == nil || star.Error() != err.Error() {
			t.Errorf("%v: %v, %v", when, star, err)
		}
		_, err = sky.Sun(when)
		var d *sky.Error
		if !errors.As(err, &d) || d.Kind != sky.OutsideYears || !d.Time.Equal(when) {
			t.Errorf("%v: %v, want an *Error", when, err)
		}
	}
	_, err := sky.Sun(at(t, "1900-01-01T00:00:00Z"))
	if got, want := err.Error(), "sky: 1900-01-01T00:00:00Z: give a time in the years 1950 to 2100, UTC"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for _, when := range []string{"1950-01-01T00:00:00Z", "2100-12-31T23:59:59.999999999Z", "2101-01-01T00:30:00+01:00"} {
		if _, err := sky.Sun(at(t, when)); err != nil {
			t.Errorf("%s: %v", when, err)
		}
	}
}

func TestSunIsComparable(t *testing.T) {
	utc := at(t, "2026-05-14T08:30:00Z")
	a := angle.Must(sky.Sun(utc))
	if b := angle.Must(sky.Sun(utc.In(time.FixedZone("", -3600)))); a != b {
		t.Errorf("%v and %v differ by the zone", a, b)
	}
}

// Figures that every almanac agrees on.
func TestSeasons(t *testing.T) {
	// The equinox of March 2024 was at 03:06 UTC (published).
	s := angle.Must(sky.Sun(at(t, "2024-03-20T03:06:24Z")))
	if s.Declination.Abs() > 3*second {
		t.Errorf("declination at the equinox %v", s.Declination)
	}
	// Meeus, Astronomical Algorithms, examples 25.b and 28.b (from memory): on
	// 1992-10-13 at 0h TD declination −7°47′01.7″, equation of time +13 min 42.7 s.
	s = angle.Must(sky.Sun(at(t, "1992-10-13T00:00:00Z").Add(-69184 * time.Millisecond)))
	if off := s.Declination + 7*deg + 47*minute + 17*second/10; off.Abs() > 2*second {
		t.Errorf("declination %v, off by %.1f seconds", s.Declination, off.Seconds())
	}
	if off := angle.Must(sky.EquationOfTime(s.Time)) - (13*time.Minute + 42700*time.Millisecond); off.Abs() > time.Second {
		t.Errorf("off by %v", off)
	}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSun(t)
		if s.Declination.Abs() > 23*deg+27*minute || s.GreenwichHourAngle < 0 || s.GreenwichHourAngle >= 360*deg {
			t.Fatalf("%+v", s)
		}
		if d := s.SemiDiameter; d < 15*minute+43*second || d > 16*minute+17*second {
			t.Fatalf("semi-diameter %v", d)
		}
		if e := angle.Must(sky.EquationOfTime(s.Time)); e < -(14*time.Minute+30*time.Second) || e > 16*time.Minute+35*time.Second {
			t.Fatalf("equation of time %v", e)
		}
	})
}

// The equation of time is what the meridian passage at Greenwich says.
func TestEquationOfTime(t *testing.T) {
	for day := range 365 {
		noon := at(t, "2026-01-01T12:00:00.25Z").AddDate(0, 0, day)
		passage := angle.Must(sky.Next(sky.MeridianPassage, angle.Position{}, noon.Add(-time.Hour)))
		e := angle.Must(sky.EquationOfTime(passage))
		y, m, d := passage.Date()
		if off := time.Date(y, m, d, 12, 0, 0, 0, time.UTC).Sub(passage) - e; off.Abs() > 10*time.Millisecond {
			t.Errorf("passage at %v, equation of time %v", passage, e)
		}
	}
}

func TestBodyFilledInByHand(t *testing.T) {
	for _, s := range []sky.Body{
		{},
		{SemiDiameter: math.MaxInt64, HorizontalParallax: math.MaxInt64},
		{SemiDiameter: math.MinInt64, HorizontalParallax: math.MinInt64},
		{Declination: math.MaxInt64, GreenwichHourAngle: math.MinInt64},
		{Declination: math.MinInt64, GreenwichHourAngle: math.MaxInt64},
	} {
		sight := s.From(angle.Must(angle.PositionDegrees(10, 20)))
		sight.Apparent(sky.UpperLimb, sky.Atmosphere{})
		s.GeographicalPosition()
		sight.Altitude = math.MaxInt64
		sight.Apparent(sky.LowerLimb, sky.Atmosphere{})
		sight.Working()
	}
}

func TestZenithAndPoles(t *testing.T) {
	for _, north := range []angle.Angle{0, 10 * deg, 23*deg + 26*minute, -(17*deg + 31*minute + 7), 90 * deg, -90 * deg} {
		_, altitude, err := sky.Azimuth(latitude(t, north), north, 0)
		var u *sky.Error
		if !errors.As(err, &u) || u.Kind != sky.NoBearing || altitude < 90*deg-10 || u.Altitude != altitude || u.Error() == "" {
			t.Errorf("zenith at %v: altitude %v, error %v", north, altitude, err)
		}
		if _, _, err := sky.Azimuth(latitude(t, north), -north, 180*deg); !errors.As(err, &u) || u.Kind != sky.NoBearing {
			t.Errorf("nadir at %v: %v", north, err)
		}
		s := sky.Body{Declination: north}
		sight := s.From(s.GeographicalPosition())
		if sight.Defined() || len(sight.Working()) != 6 {
			t.Errorf("a bearing %v in the zenith", sight.Azimuth)
		}
	}
	// Along the position's meridian as it comes to the pole.
	for _, c := range []struct{ latitude, hourAngle, want float64 }{
		{90, 0, 180}, {90, 90, 270}, {90, 270, 90}, {90, 180, 0}, {-90, 0, 0}, {-90, 90, 270}, {-90, 270, 90}, {-90, 180, 180},
	} {
		z, h, err := sky.Azimuth(angle.Must(angle.LatitudeDegrees(c.latitude)), 20*deg, angle.Must(angle.Degrees(c.hourAngle)))
		if want := angle.Must(angle.TrueDegrees(c.want)); err != nil || z != want || h.Abs() != 20*deg {
			t.Errorf("latitude %v, hour angle %v: %v, %v, %v, want %v", c.latitude, c.hourAngle, z, h, err, want)
		}
	}
	// The date line is one meridian.
	s := angle.Must(sky.Sun(at(t, "2026-05-14T23:30:00Z")))
	east, west := angle.MustParsePosition("20°00′S 180°00′E"), angle.MustParsePosition("20°00′S 180°00′W")
	if s.From(east) != s.From(west) {
		t.Errorf("%v and %v differ", east, west)
	}
}

func TestNumbersRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	l := latitude(t, 47*deg)
	refused := func(name string, err error) {
		t.Helper()
		var r *angle.RangeError
		if !errors.As(err, &r) || r.What == "" || r.Accepted == "" || err.Error() == "" {
			t.Errorf("%s: %v, want a *angle.RangeError", name, err)
		}
	}
	for _, height := range []float64{nan, inf, -inf, -0.1, 1001} {
		_, err := sky.AlmanacDip(height)
		refused("dip", err)
		_, err = sky.AmplitudeOnVisibleHorizon(l, 0, height)
		refused("amplitude", err)
	}
	for _, declination := range []angle.Angle{90*deg + 1, -90*deg - 1, math.MinInt64, math.MaxInt64} {
		_, err := sky.Amplitude(l, declination)
		refused("amplitude", err)
		_, _, err = sky.Azimuth(l, declination, 0)
		refused("azimuth", err)
	}
	for _, x := range []float64{nan, inf, -inf, 5000, -101} {
		_, err := sky.NewAtmosphere(x, 10)
		refused("pressure", err)
		_, err = sky.NewAtmosphere(1010, x)
		refused("temperature", err)
	}
	_, err := sky.AlmanacDip(-1)
	if got, want := err.Error(), "height of eye -1 is invalid; give 0 to 1000 metres"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestAmplitudeAtItsLimits(t *testing.T) {
	for _, c := range []struct {
		latitude, declination   angle.Angle
		wantRising, wantSetting angle.Angle
	}{
		{0, 0, 90 * deg, 270 * deg},
		{0, 23 * deg, 67 * deg, 293 * deg},
		{67 * deg, 23 * deg, 0, 0},
		{67 * deg, -23 * deg, 180 * deg, 180 * deg},
		{-67 * deg, 23 * deg, 0, 0},
		{60 * deg, 0, 90 * deg, 270 * deg},
	} {
		r, err := sky.Amplitude(latitude(t, c.latitude), c.declination)
		if err != nil || (r.Rising.FromNorth()-c.wantRising).Abs() > second/100 || (r.Setting.FromNorth()-c.wantSetting).NormalizedSigned().Abs() > second/100 {
			t.Errorf("latitude %v, declination %v: %v, %v", c.latitude, c.declination, r, err)
		}
	}
	south := angle.Must(sky.Amplitude(latitude(t, 60*deg), -10*deg))
	if got, want := south.AmplitudeRising()+", "+south.AmplitudeSetting(), "E 20.3° S, W 20.3° S"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	var none *sky.Error
	if _, err := sky.Amplitude(latitude(t, 67*deg), 23*deg+1); !errors.As(err, &none) || none.Kind != sky.StaysAbove {
		t.Errorf("%v, want a Sun that stays above", err)
	}
	if _, err := sky.Amplitude(latitude(t, 67*deg), -23*deg-1); !errors.As(err, &none) || none.Kind != sky.StaysBelow {
		t.Errorf("%v, want a Sun that stays below", err)
	}
	var undefined *sky.Error
	if _, err := sky.Amplitude(latitude(t, -90*deg), 0); !errors.As(err, &undefined) || undefined.Kind != sky.NoBearing {
		t.Errorf("%v, want no bearing at the pole", err)
	}
	// On the visible horizon the Sun of north latitude has come further to the north
	// at setting.
	celestial := angle.Must(sky.Amplitude(latitude(t, 47*deg), 18*deg))
	visible := angle.Must(sky.AmplitudeOnVisibleHorizon(latitude(t, 47*deg), 18*deg, 12))
	if d := visible.Setting.Sub(celestial.Setting); d < 7*deg/10 || d > 9*deg/10 {
		t.Errorf("visible horizon %v, celestial %v", visible.Setting, celestial.Setting)
	}
	if (visible.Altitude+42*minute).Abs() > minute/2 || visible.Horizon != sky.VisibleHorizon {
		t.Errorf("%+v", visible)
	}
}

// Refraction is 34′ at the horizon and 1′ at 45°, by every almanac; a Sun whose
// altitude is RiseSetAltitude shows its upper limb on the horizon.
func TestRefraction(t *testing.T) {
	sun := sky.Body{SemiDiameter: 16 * minute, HorizontalParallax: 9 * second}
	up := func(h angle.Angle) angle.Angle {
		return sky.Sight{Body: sun, Altitude: h}.Apparent(sky.Centre, sky.Atmosphere{})
	}
	if r := up(45*deg) - 45*deg + 6*second; (r - 59*second).Abs() > 2*second {
		t.Errorf("at 45° %v", r)
	}
	limb := sky.Sight{Body: sun, Altitude: sky.RiseSetAltitude}.Apparent(sky.UpperLimb, sky.Atmosphere{})
	if limb.Abs() > 2*minute {
		t.Errorf("upper limb at rising at %v", limb)
	}
	if up(90*deg) != 90*deg {
		t.Errorf("in the zenith %v", up(90*deg))
	}
	cold := angle.Must(sky.NewAtmosphere(1040, -20))
	if s := (sky.Sight{Altitude: 5 * deg}); s.Apparent(sky.Centre, cold) <= s.Apparent(sky.Centre, sky.Atmosphere{}) {
		t.Error("cold air bends less")
	}
}
