package sailing_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
	mile   = sailing.NauticalMile
	fathom = sailing.Distance(1.8288)
)

func lat(north angle.Angle) angle.Latitude { return angle.Must(angle.LatitudeFrom(north)) }

func place(north, east angle.Angle) angle.Position {
	return angle.Position{Latitude: lat(north), Longitude: angle.LongitudeFrom(east)}
}

func course(degrees float64) angle.True { return angle.Must(angle.TrueDegrees(degrees)) }

func run(degrees float64, d sailing.Distance) sailing.Run {
	return sailing.Run{Course: course(degrees), Distance: d}
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

// drawPosition draws a position within a latitude on either side of the equator.
func drawPosition(t *rapid.T, within angle.Angle) angle.Position {
	return place(drawAngle(-within, within).Draw(t, "latitude"), drawAngle(-180*deg, 180*deg).Draw(t, "longitude"))
}

func drawCourse(t *rapid.T) angle.True {
	return angle.TrueFrom(drawAngle(0, 360*deg-1).Draw(t, "course"))
}

// apart returns the distance between two positions in metres, by the chord between
// them. It is good for short distances.
func apart(p, q angle.Position) float64 {
	x1, y1, z1 := chord(p)
	x2, y2, z2 := chord(q)
	return 6366707 * math.Hypot(math.Hypot(x1-x2, y1-y2), z1-z2)
}

func chord(p angle.Position) (x, y, z float64) {
	s, c := p.Latitude.Angle().SinCos()
	sl, cl := p.Longitude.Angle().SinCos()
	return c * cl, c * sl, s
}

func mirrorNorth(p angle.Position) angle.Position {
	return place(-p.Latitude.Angle(), p.Longitude.Angle())
}

func mirrorEast(p angle.Position) angle.Position {
	return place(p.Latitude.Angle(), -p.Longitude.Angle())
}

func turned(p angle.Position, east angle.Angle) angle.Position {
	p.Longitude = p.Longitude.Add(east)
	return p
}

func near(a, b sailing.Distance, metres float64) bool {
	return math.Abs(float64(a-b)) <= metres
}

// swerve is how far apart two courses end after a distance, in metres.
func swerve(a, b angle.True, d sailing.Distance) float64 {
	return math.Abs(a.Sub(b).Radians() * float64(d))
}

func refused[E error](t *testing.T, name string, err error) {
	t.Helper()
	var want E
	if !errors.As(err, &want) {
		t.Errorf("%s: %v (%T), want a %T", name, err, err, want)
		return
	}
	if err.Error() == "" {
		t.Errorf("%s: an error without words", name)
	}
}

// A curve is a great circle or a geodesic.
type curve interface {
	At(sailing.Distance) (angle.Position, angle.True)
}

func placeAt(c curve, d sailing.Distance) angle.Position {
	p, _ := c.At(d)
	return p
}

func courseAt(c curve, d sailing.Distance) angle.True {
	_, course := c.At(d)
	return course
}

// refusedAs fails unless an error is an Error of a kind.
func refusedAs(t *testing.T, name string, kind angle.ErrorKind, err error) {
	t.Helper()
	if e, is := errors.AsType[*sailing.Error](err); !is || e.Kind != kind || e.Reason == "" {
		t.Errorf("%s: %v (%T), want the kind %s", name, err, err, kind)
	}
}
