package sailing_test

import (
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// figures are the ellipsoids under test, with their semi-axes for formulas that
// are written anew here.
func figures() []*sailing.Ellipsoid {
	return []*sailing.Ellipsoid{
		sailing.WGS84(), sailing.Clarke1866(), sailing.Sphere(), nil,
		angle.Must(sailing.NewEllipsoid("flat", 6400000, 0.02)),
		angle.Must(sailing.NewEllipsoid("flatter than the earth", 6378388, 1.0/297)),
	}
}

// quadrature is the meridian arc by Simpson's rule from its radius of curvature.
func quadrature(a, f, latitude float64) float64 {
	e2 := f * (2 - f)
	radius := func(x float64) float64 {
		s := math.Sin(x)
		return a * (1 - e2) / math.Pow(1-e2*s*s, 1.5)
	}
	const n = 400
	h := latitude / n
	sum := radius(0) + radius(latitude)
	for i := 1; i < n; i++ {
		sum += radius(h*float64(i)) * float64(2+2*(i%2))
	}
	return sum * h / 3
}

func TestMeridianArcByQuadrature(t *testing.T) {
	for _, e := range figures() {
		for l := -90 * deg; l <= 90*deg; l += 7*deg + 30*minute {
			want := quadrature(e.EquatorialRadius().Metres(), e.Flattening(), l.Radians())
			tolerance := 1e-6 // Simpson's rule in 400 steps, and sums of 1e7 m
			if e.Flattening() == 0.02 {
				tolerance = 1e-4 // the series leaves out the seventh power of n = 0.01
			}
			if got := e.MeridianArc(lat(l)).Metres(); math.Abs(got-want) > tolerance {
				t.Errorf("%v %v: %v, want %v", e, l, got, want)
			}
		}
	}
}

func TestQuarterMeridianPublished(t *testing.T) {
	// 10,001,965.7293 m, in tables of WGS84's derived constants; from memory.
	if got := sailing.WGS84().MeridianArc(lat(90 * deg)).Metres(); math.Abs(got-10001965.7293) > 5e-5 { // half the last figure
		t.Errorf("%.5f", got)
	}
	if got := sailing.Sphere().MeridianArc(lat(90 * deg)); !near(got, 5400*mile, 1e-8) { // units of float64 at 1e7 m
		t.Errorf("sphere %v", got.Metres())
	}
}

func TestMeridionalPartsFormula(t *testing.T) {
	for _, e := range figures() {
		ecc := math.Sqrt(e.Flattening() * (2 - e.Flattening()))
		for l := -89 * deg; l <= 89*deg; l += 30 * minute {
			s := l.Sin()
			want := (math.Atanh(s) - ecc*math.Atanh(ecc*s)) * 10800 / math.Pi
			if got := e.MeridionalParts(lat(l)); math.Abs(got-want) > 1e-9 { // the plain formula loses digits near 90°
				t.Errorf("%v %v: %v, want %v", e, l, got, want)
			}
		}
		if n, s := e.MeridionalParts(lat(90*deg)), e.MeridionalParts(lat(-90*deg)); !math.IsInf(n, 1) || !math.IsInf(s, -1) {
			t.Errorf("poles %v, %v", n, s)
		}
	}
}

func TestEllipsoidNamesAndSizes(t *testing.T) {
	for _, c := range []struct {
		figure *sailing.Ellipsoid
		name   string
		radius sailing.Distance
		flat   float64
	}{
		{nil, "WGS84", 6378137, 1 / 298.257223563},
		{sailing.WGS84(), "WGS84", 6378137, 1 / 298.257223563},
		{sailing.Clarke1866(), "Clarke 1866", 6378206.4, 21622.6 / 6378206.4},
		{sailing.Sphere(), "sphere", 180 * 60 * 1852 / math.Pi, 0},
	} {
		if c.figure.String() != c.name || c.figure.EquatorialRadius() != c.radius || math.Abs(c.figure.Flattening()-c.flat) > 1e-15 { // units of float64
			t.Errorf("%v %v %v", c.figure, c.figure.EquatorialRadius(), c.figure.Flattening())
		}
	}
}

func TestInvalidEllipsoidsAreRefused(t *testing.T) {
	for _, c := range [][2]float64{
		{0, 0}, {-1, 0}, {math.NaN(), 0}, {math.Inf(1), 0},
		{6.4e6, -1e-9}, {6.4e6, 0.0200001}, {6.4e6, math.NaN()}, {6.4e6, math.Inf(1)},
	} {
		e, err := sailing.NewEllipsoid("none", c[0], c[1])
		refused[*angle.RangeError](t, "figure", err)
		if e != nil {
			t.Errorf("%v: %v", c, e)
		}
	}
}

func TestLengthsOfDegrees(t *testing.T) {
	e := sailing.WGS84()
	if got := sailing.Sphere().DegreeOfLatitude(lat(33 * deg)); !near(got, 60*mile, 1e-8) { // units of float64
		t.Error(got.Metres())
	}
	if got := sailing.Sphere().DegreeOfLongitude(lat(60 * deg)); !near(got, 30*mile, 1e-8) { // likewise
		t.Error(got.Metres())
	}
	if e.DegreeOfLatitude(lat(90*deg)) != e.DegreeOfLatitude(lat(89*deg+30*minute)) || e.DegreeOfLongitude(lat(90*deg)) != 0 {
		t.Error("at the pole: the last degree, and none of longitude")
	}
	if north, south := e.DegreeOfLatitude(lat(50*deg)), e.DegreeOfLatitude(lat(-50*deg)); !near(north, south, 1e-8) { // units of float64
		t.Error(north, south)
	}
}
