// Package fixtest holds what the tests of package fix and of the packages below it share. It has
// geodesics that are computed by other means, and short ways to write positions.
package fixtest

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// Geodesic returns the azimuth in radians and the length in metres of a geodesic by the inverse
// formula of T. Vincenty, Direct and Inverse Solutions of Geodesics on the Ellipsoid with
// Application of Nested Equations, Survey Review XXIII, 1975, on WGS84 (from memory). It
// shares only the figure of the earth with package fix.
func Geodesic(p, q angle.Position) (azimuth, distance float64) {
	const a, f = 6378137.0, 1 / 298.257223563
	const b = a * (1 - f)
	reduced := func(latitude angle.Latitude) (sin, cos float64) {
		s, c := latitude.Angle().SinCos()
		return math.Sincos(math.Atan2((1-f)*s, c))
	}
	su1, cu1 := reduced(p.Latitude)
	su2, cu2 := reduced(q.Latitude)
	dlong := q.Longitude.Sub(p.Longitude).Radians()
	lambda := dlong
	var sinS, cosS, sigma, cosSqAlpha, cos2M, sl, cl float64
	for range 200 {
		sl, cl = math.Sincos(lambda)
		sinS = math.Hypot(cu2*sl, cu1*su2-su1*cu2*cl)
		if sinS == 0 {
			return 0, 0
		}
		cosS = su1*su2 + cu1*cu2*cl
		sigma = math.Atan2(sinS, cosS)
		sinAlpha := cu1 * cu2 * sl / sinS
		cosSqAlpha = 1 - sinAlpha*sinAlpha
		cos2M = 0
		if cosSqAlpha > 1e-14 {
			cos2M = cosS - 2*su1*su2/cosSqAlpha
		}
		c := f / 16 * cosSqAlpha * (4 + f*(4-3*cosSqAlpha))
		next := dlong + (1-c)*f*sinAlpha*(sigma+c*sinS*(cos2M+c*cosS*(2*cos2M*cos2M-1)))
		done := math.Abs(next-lambda) < 1e-15
		lambda = next
		if done {
			break
		}
	}
	u2 := cosSqAlpha * (a*a - b*b) / (b * b)
	ka := 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
	kb := u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
	ds := kb * sinS * (cos2M + kb/4*(cosS*(2*cos2M*cos2M-1)-kb/6*cos2M*(4*sinS*sinS-3)*(4*cos2M*cos2M-3)))
	return math.Atan2(cu2*sl, cu1*su2-su1*cu2*cl), b * ka * (sigma - ds)
}

// At returns a position by degrees; its longitude may be of any turn.
func At(latitude, longitude float64) angle.Position {
	return angle.Must(angle.PositionDegrees(latitude, math.Remainder(longitude, 360)))
}

// Sigma returns a standard uncertainty of some degrees.
func Sigma(degrees float64) angle.Uncertainty {
	return angle.Must(angle.StandardUncertainty(angle.Must(angle.Degrees(degrees))))
}

// True returns a true direction of any number of degrees.
func True(degrees float64) angle.True { return angle.TrueFrom(angle.Must(angle.Degrees(degrees))) }

// From returns the position on a bearing from another, by a rhumb line.
func From(p angle.Position, degrees, metres float64) angle.Position {
	return angle.Must(sailing.WGS84().Follow(p, sailing.Run{Course: True(degrees), Distance: sailing.Distance(metres)}))
}

// Apart returns the geodesic between two positions in metres.
func Apart(p, q angle.Position) float64 {
	_, d := Geodesic(p, q)
	return d
}

// Azimuth returns the geodesic's azimuth in degrees.
func Azimuth(p, q angle.Position) float64 {
	a, _ := Geodesic(p, q)
	return a * 180 / math.Pi
}

// Near reports whether two numbers differ by no more than a tolerance.
func Near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// Refused checks that an error is of a type, and has a text.
func Refused[E error](t *testing.T, name string, err error) {
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
