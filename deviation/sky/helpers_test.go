package sky_test

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
	second = angle.Second
)

func latitude(t testing.TB, north angle.Angle) angle.Latitude {
	t.Helper()
	l, err := angle.LatitudeFrom(north)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func at(t testing.TB, text string) time.Time {
	t.Helper()
	instant, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t.Fatal(err)
	}
	return instant
}

// drawAngle draws an angle between two, the ends and round figures often.
func drawAngle(low, high angle.Angle) *rapid.Generator[angle.Angle] {
	return rapid.OneOf(
		rapid.Custom(func(t *rapid.T) angle.Angle {
			return angle.Angle(rapid.Int64Range(int64(low), int64(high)).Draw(t, "exact"))
		}),
		rapid.Custom(func(t *rapid.T) angle.Angle {
			return deg * angle.Angle(rapid.Int64Range(int64(low/deg), int64(high/deg)).Draw(t, "degrees"))
		}),
	)
}

func drawLatitude(t *rapid.T) angle.Latitude {
	return angle.Must(angle.LatitudeFrom(drawAngle(-90*deg, 90*deg).Draw(t, "latitude")))
}

func drawPosition(t *rapid.T) angle.Position {
	return angle.Position{
		Latitude:  drawLatitude(t),
		Longitude: angle.LongitudeFrom(drawAngle(-180*deg, 180*deg).Draw(t, "longitude")),
	}
}

// drawTime draws an instant well within the years of sky.Sun.
func drawTime(t *rapid.T) time.Time {
	first := time.Date(1950, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	last := time.Date(2099, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	return time.Unix(rapid.Int64Range(first, last).Draw(t, "time"), 0).UTC()
}

func drawSun(t *rapid.T) sky.Body {
	s, err := sky.Sun(drawTime(t))
	if err != nil {
		t.Fatal(err)
	}
	return s
}
