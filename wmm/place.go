package wmm

import (
	"fmt"
	"math"

	"lubberline.example/angle"
)

// The ellipsoid of WGS84 (National Geospatial-Intelligence Agency,
// NGA.STND.0036, 2014): semi-major axis in km, flattening and eccentricity
// squared.
const (
	semiMajor  = 6378.137
	flattening = 1 / 298.257223563
	eccentric2 = flattening * (2 - flattening)
)

// The heights above the ellipsoid at which a model may be asked for, in metres:
// from the deepest sea to where the currents of the ionosphere and beyond, which
// no model here holds, are the greater part of what changes.
const (
	leastHeight = -15_000
	mostHeight  = 2_000_000
)

// A place is a point as the sums need it: geocentric, with the turn back to the
// vertical of the ellipsoid.
type place struct {
	cos, sin         float64 // of the geocentric colatitude θ
	q                float64 // a/r
	cosTurn, sinTurn float64 // of the geocentric latitude less the geodetic
	cosLon, sinLon   float64
}

// toParallel sets all but the longitude.
func (l *place) toParallel(latitude angle.Latitude, heightMetres float64) error {
	if !(heightMetres >= leastHeight && heightMetres <= mostHeight) {
		return &angle.RangeError{
			What: "height above the ellipsoid", Value: heightMetres,
			Accepted: fmt.Sprintf("%d to %d metres", int(leastHeight), int(mostHeight)),
		}
	}
	sinLat, cosLat := latitude.Angle().SinCos()
	// With v = √(1 − e² sin²φ) the radius of curvature is a/v; all lengths here
	// are v times too long, which saves a division.
	v := math.Sqrt(1 - eccentric2*sinLat*sinLat)
	height := heightMetres / 1000 * v
	out := (semiMajor + height) * cosLat
	up := (semiMajor*(1-eccentric2) + height) * sinLat
	inverse := 1 / math.Sqrt(out*out+up*up)
	l.cos, l.sin = up*inverse, out*inverse
	l.q = referenceRadius * v * inverse
	l.cosTurn = l.sin*cosLat + l.cos*sinLat
	l.sinTurn = l.cos*cosLat - l.sin*sinLat
	return nil
}

// toMeridian sets the longitude.
func (l *place) toMeridian(longitude angle.Longitude) {
	l.sinLon, l.cosLon = longitude.Angle().SinCos()
}
