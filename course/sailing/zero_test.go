package sailing_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// An ellipsoid that was not made is no earth without a size.
func TestZeroEllipsoidIsWGS84(t *testing.T) {
	from, to := place(47*deg, -19*deg), place(48*deg, -18*deg)
	zero, wgs84 := new(sailing.Ellipsoid), sailing.WGS84()
	if got, want := zero.Rhumb(from, to), wgs84.Rhumb(from, to); got != want || got.Distance < 70*mile {
		t.Errorf("%v, want %v", got, want)
	}
	if got, err := zero.Follow(from, run(45, 10*mile)); err != nil || got != angle.Must(wgs84.Follow(from, run(45, 10*mile))) {
		t.Errorf("%v, %v", got, err)
	}
	if got, err := sailing.Mercator(from, to, zero); err != nil || got != angle.Must(sailing.Mercator(from, to, nil)) {
		t.Errorf("%v, %v", got, err)
	}
	l := lat(47 * deg)
	if zero.String() != "WGS84" || zero.EquatorialRadius() != wgs84.EquatorialRadius() || zero.Flattening() != wgs84.Flattening() || zero.MeridianArc(l) != wgs84.MeridianArc(l) || zero.MeridionalParts(l) != wgs84.MeridionalParts(l) || zero.DegreeOfLatitude(l) != wgs84.DegreeOfLatitude(l) || zero.DegreeOfLongitude(l) != wgs84.DegreeOfLongitude(l) {
		t.Error("not WGS84")
	}
}

// A circle that was not solved has no courses to steer: it is of no length.
func TestZeroGreatCircleHasNoLength(t *testing.T) {
	var g sailing.GreatCircle
	var c sailing.Composite
	if g.Distance != 0 || g.From != g.To || placeAt(g, mile) != g.From || c.Distance != 0 || c.First != g || c.Last != g {
		t.Error("it leads somewhere")
	}
	if _, _, ok := g.Vertices(); ok {
		t.Error("it has vertices")
	}
	if points, err := g.Waypoints(mile); err != nil || points[0] != g.From {
		t.Error(points, err)
	}
	_, err := g.WaypointsByLongitude(deg)
	refused[*angle.RangeError](t, "waypoints", err)
	if len(g.Working().Steps) == 0 || len(c.Working().Steps) == 0 {
		t.Error("no working")
	}
}
