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

// The range of heights above the ellipsoid, in metres. It begins below the deepest sea. At
// its upper end, most of the change comes from electric currents in and above the
// ionosphere, which these models leave out.
const (
	minHeight = -15_000
	maxHeight = 2_000_000
)

// A place is a point in the form that the sums need. It is geocentric, with the angle
// between the geocentric vertical and the vertical of the ellipsoid.
type place struct {
	cos, sin         float64 // of the geocentric colatitude θ
	q                float64 // a/r
	cosTurn, sinTurn float64 // of the geocentric minus the geodetic latitude
	cosLon, sinLon   float64
}

// toParallel sets all but the longitude.
func (l *place) toParallel(latitude angle.Latitude, heightMetres float64) error {
	if !(heightMetres >= minHeight && heightMetres <= maxHeight) {
		return &angle.RangeError{
			What: "height above the ellipsoid", Value: heightMetres,
			Accepted: fmt.Sprintf("%d to %d metres", int(minHeight), int(maxHeight)),
		}
	}
	sinLat, cosLat := latitude.Angle().SinCos()
	// With v = √(1 − e² sin²φ), the radius of curvature is a/v. All lengths here are
	// multiplied by v, which saves a division.
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
