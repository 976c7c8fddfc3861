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

// sideways is a difference of azimuths as it looks on the sky.
func sideways(a, b angle.True, altitude angle.Angle) angle.Angle {
	return angle.Angle(math.Abs(float64(a.Sub(b)) * altitude.Cos()))
}

func drawTriangle(t *rapid.T) (l angle.Latitude, declination, hourAngle angle.Angle) {
	return drawLatitude(t), drawAngle(-90*deg, 90*deg).Draw(t, "declination"), drawAngle(-180*deg, 180*deg).Draw(t, "hour angle")
}

func TestTriangleMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, declination, hourAngle := drawTriangle(t)
		z, h, err := sky.Azimuth(l, declination, hourAngle)
		mirrored := angle.Must(angle.LatitudeFrom(-l.Angle()))
		zs, hs, errMirrored := sky.Azimuth(mirrored, -declination, hourAngle)
		ze, he, erre := sky.Azimuth(l, declination, -hourAngle)
		if (err == nil) != (errMirrored == nil) || (err == nil) != (erre == nil) {
			t.Fatalf("errors %v, %v, %v", err, errMirrored, erre)
		}
		if (h-hs).Abs() > 1 || (h-he).Abs() > 1 {
			t.Fatalf("altitudes %v, %v, %v", h, hs, he)
		}
		if err != nil {
			return
		}
		if want := angle.TrueFrom(180*deg - z.FromNorth()); sideways(zs, want, h) > 10 {
			t.Fatalf("north to south: %v, want %v", zs, want)
		}
		if want := angle.TrueFrom(-z.FromNorth()); sideways(ze, want, h) > 10 {
			t.Fatalf("east to west: %v, want %v", ze, want)
		}
	})
}

// The azimuth by the two half angles, the construction by which Burdwood's tables
// were computed (introduction, p. IV).
func TestTriangleByHalfAngles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := angle.Must(angle.LatitudeFrom(drawAngle(-89*deg, 89*deg).Draw(t, "latitude")))
		declination := drawAngle(-24*deg, 24*deg).Draw(t, "declination")
		hourAngle := drawAngle(deg, 179*deg).Draw(t, "hour angle")
		z, h, err := sky.Azimuth(l, declination, -hourAngle)
		if err != nil || h.Abs() > 89*deg {
			t.Skip("too near the zenith")
		}
		colatitude, polar := (90*deg - l.Angle()).Radians(), (90*deg - declination).Radians()
		a, b, cot := (colatitude+polar)/2, (polar-colatitude)/2, 1/math.Tan(hourAngle.Radians()/2)
		want := (math.Atan2(cot*math.Cos(b), math.Cos(a)) + math.Atan(cot*math.Sin(b)/math.Sin(a))) * 180 / math.Pi
		if math.Abs(z.Degrees()-want) > 1e-9 {
			t.Fatalf("%v, want %v", z.Degrees(), want)
		}
	})
}

func TestOnTheMeridian(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, declination, _ := drawTriangle(t)
		z, h, err := sky.Azimuth(l, declination, 0)
		if want := 90*deg - (l.Angle() - declination).Abs(); (h - want).Abs() > 2 {
			t.Fatalf("altitude %v, want %v", h, want)
		}
		want := angle.True{}
		if l.Angle() > declination {
			want = angle.TrueFrom(180 * deg)
		}
		if err == nil && z != want {
			t.Fatalf("%v, want %v", z, want)
		}
	})
}

func TestTurningEarthAndSunTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, p := drawSun(t), drawPosition(t)
		turn := drawAngle(-360*deg, 360*deg).Draw(t, "turn")
		turned := s
		turned.GreenwichHourAngle = (s.GreenwichHourAngle - turn).Normalized()
		a, b := s.From(p), turned.From(angle.Position{Latitude: p.Latitude, Longitude: p.Longitude.Add(turn)})
		if a.Azimuth != b.Azimuth || a.Altitude != b.Altitude || a.LocalHourAngle != b.LocalHourAngle {
			t.Fatalf("%v, then %v", a, b)
		}
	})
}

func TestZenithDistanceIsArcToGeographicalPosition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, p := drawSun(t), drawPosition(t)
		if got, want := s.From(p).Altitude, 90*deg-p.ArcTo(s.GeographicalPosition()); (got - want).Abs() > 100 {
			t.Fatalf("%v, want %v", got, want)
		}
	})
}

func TestSunOnTheHorizonBearsAsAmplitudeSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, declination, _ := drawTriangle(t)
		r, err := sky.Amplitude(l, declination)
		if rapid.Bool().Draw(t, "visible") {
			r, err = sky.AmplitudeOnVisibleHorizon(l, declination, rapid.Float64Range(0, 1000).Draw(t, "height"))
		}
		if err != nil {
			if undefined := (*sky.Error)(nil); errors.As(err, &undefined) && undefined.Kind == sky.NoBearing {
				if l.Angle().Abs() != 90*deg && declination.Abs() != 90*deg {
					t.Fatal(err)
				}
				return
			}
			var none *sky.Error
			if !errors.As(err, &none) || none.Kind != sky.StaysAbove && none.Kind != sky.StaysBelow {
				t.Fatal(err)
			}
			_, noon, _ := sky.Azimuth(l, declination, 0)
			_, midnight, _ := sky.Azimuth(l, declination, 180*deg)
			if none.Kind == sky.StaysAbove && midnight < -2*deg || none.Kind == sky.StaysBelow && noon > 2*deg {
				t.Fatalf("%v, but at noon %v, at midnight %v", err, noon, midnight)
			}
			return
		}
		if r.Rising.FromNorth() != (-r.Setting.FromNorth()).Normalized() {
			t.Fatalf("rises %v, sets %v", r.Rising, r.Setting)
		}
		// The same triangle the other way about: by altitude and azimuth the
		// declination.
		sinLat, cosLat := l.Angle().SinCos()
		sinAlt, cosAlt := r.Altitude.SinCos()
		if sin := sinLat*sinAlt + cosLat*cosAlt*r.Rising.FromNorth().Cos(); math.Abs(sin-declination.Sin()) > 1e-12 {
			t.Fatalf("on %v at %v the declination has sine %v, not %v", r.Rising, r.Altitude, sin, declination.Sin())
		}
	})
}

func TestApparentAltitude(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sight := drawSun(t).From(drawPosition(t))
		thin := angle.Must(sky.NewAtmosphere(0, 15))
		upper, centre, lower := sight.Apparent(sky.UpperLimb, thin), sight.Apparent(sky.Centre, thin), sight.Apparent(sky.LowerLimb, thin)
		if upper-centre != sight.Body.SemiDiameter || centre-lower != sight.Body.SemiDiameter {
			t.Fatalf("limbs at %v, %v, %v", upper, centre, lower)
		}
		if parallax := sight.Altitude - centre; parallax < 0 || parallax > 9*second {
			t.Fatalf("parallax %v", parallax)
		}
		raised := sight.Apparent(sky.Centre, sky.Atmosphere{}) - centre
		if raised < 0 || raised > 44*minute {
			t.Fatalf("refraction %v", raised)
		}
		standard := angle.Must(sky.NewAtmosphere(1010, 10))
		if standard != (sky.Atmosphere{}) {
			t.Fatal("the zero atmosphere is not the standard one")
		}
	})
}

// Altitude at the times of rise and set, and the hour angle at meridian passage.
func TestNextKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, after := drawPosition(t), drawTime(t)
		event := rapid.SampledFrom([]sky.Event{sky.Rise, sky.Set, sky.MeridianPassage}).Draw(t, "event")
		when, err := sky.NextWithin(event, p, after, 367*24*time.Hour)
		if err != nil {
			t.Fatal(err) // once a year it comes everywhere
		}
		if !when.After(after) {
			t.Fatalf("%v is not after %v", when, after)
		}
		sight := angle.Must(sky.Sun(when)).From(p)
		later := angle.Must(sky.Sun(when.Add(2 * time.Second))).From(p)
		switch off := sight.Altitude - sky.RiseSetAltitude; event {
		case sky.MeridianPassage:
			if h := sight.LocalHourAngle.NormalizedSigned(); h.Abs() > second/10 {
				t.Fatalf("hour angle %v at %v", h, when)
			}
		case sky.Rise:
			if off < 0 || off > second/20 || later.Altitude < sight.Altitude-second/10 {
				t.Fatalf("altitude %v at %v, then %v", sight.Altitude, when, later.Altitude)
			}
		default:
			if off >= 0 || off < -second/20 || later.Altitude > sight.Altitude+second/10 {
				t.Fatalf("altitude %v at %v, then %v", sight.Altitude, when, later.Altitude)
			}
		}
	})
}

// Wherever a scan sees the Sun change sides, Next has the change between the same two
// looks.
func TestNextIsWhereAScanSeesIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, from := drawPosition(t), drawTime(t)
		if rapid.Bool().Draw(t, "polar") { // where it is hard
			p.Latitude = angle.Must(angle.LatitudeFrom(drawAngle(62*deg, 90*deg).Draw(t, "high latitude")))
		}
		isUp := func(t time.Time) bool { return angle.Must(sky.Sun(t)).From(p).Altitude >= sky.RiseSetAltitude }
		const look = 10 * time.Minute
		up := isUp(from)
		for i := from; i.Before(from.Add(48 * time.Hour)); i = i.Add(look) {
			now := isUp(i.Add(look))
			if now == up {
				continue
			}
			event := sky.Set
			if now {
				event = sky.Rise
			}
			if when, err := sky.Next(event, p, i); err != nil || when.After(i.Add(look)) {
				t.Fatalf("%v at %v: scan saw it in the 10 minutes after %v, Next gives %v, %v", event, p, i, when, err)
			}
			// A search from the start has the first of its kind no later.
			if when, err := sky.Next(event, p, from); err != nil || when.After(i.Add(look)) {
				t.Fatalf("%v at %v: scan saw it in the 10 minutes after %v, Next from %v gives %v, %v", event, p, i, from, when, err)
			}
			up = now
		}
	})
}
