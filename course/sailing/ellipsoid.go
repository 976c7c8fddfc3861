package sailing

import (
	"math"

	"lubberline.example/angle"
)

// An Ellipsoid is a figure of the earth: an ellipse turned about the axis of the
// poles, or a sphere. Make one with [WGS84], [Clarke1866], [Sphere] or [NewEllipsoid]. It does
// not change. Both nil and the zero value are WGS84.
type Ellipsoid struct {
	name      string
	a         float64    // equatorial radius, metres
	f         float64    // flattening
	e2, e     float64    // eccentricity, squared and not
	radius    float64    // of the circle as long as a meridian
	rectify   [6]float64 // coefficients from geographic to rectifying latitude
	unrectify [6]float64 // and back
}

var (
	wgs84   = must(NewEllipsoid("WGS84", 6378137, 1/298.257223563))
	clarke  = must(NewEllipsoid("Clarke 1866", 6378206.4, (6378206.4-6356583.8)/6378206.4))
	mileArc = must(NewEllipsoid("sphere", 180*60*1852/math.Pi, 0))
)

// must returns a figure that is known to be valid.
func must(e *Ellipsoid, err error) *Ellipsoid {
	if err != nil {
		panic(err)
	}
	return e
}

// WGS84 returns the figure of satellite positions and modern charts.
func WGS84() *Ellipsoid { return wgs84 }

// Clarke1866 returns the figure of the tables of Bowditch before the satellite
// age, with semi-axes of 6,378,206.4 m and 6,356,583.8 m.
func Clarke1866() *Ellipsoid { return clarke }

// Sphere returns the sphere of the sailings: a minute of arc of any great circle
// is a nautical mile.
func Sphere() *Ellipsoid { return mileArc }

// NewEllipsoid returns a figure of the earth. It takes the equatorial radius in metres and
// the flattening, which is the difference of the semi-axes divided by the equatorial one.
// If the radius is not above zero and finite, it returns an [*angle.RangeError]. It also
// returns one if the flattening is below zero, or above 1/50, where the series are not
// accurate enough.
func NewEllipsoid(name string, equatorialRadius, flattening float64) (*Ellipsoid, error) {
	if !(equatorialRadius > 0) || math.IsInf(equatorialRadius, 0) {
		return nil, &angle.RangeError{What: "equatorial radius", Value: equatorialRadius, Accepted: "metres above 0"}
	}
	if !(flattening >= 0 && flattening <= 1.0/50) {
		return nil, &angle.RangeError{What: "flattening", Value: flattening, Accepted: "0 to 0.02"}
	}
	e := &Ellipsoid{name: name, a: equatorialRadius, f: flattening, e2: flattening * (2 - flattening)}
	e.e = math.Sqrt(e.e2)
	// Series in the third flattening n, to its sixth power: for WGS84 what is left
	// out is below 1e-19 of the radius (Krüger, Konforme Abbildung des
	// Erdellipsoids in der Ebene, 1912; as in Snyder, Map Projections, a Working
	// Manual, 1987, equations 3-20 to 3-26; cited from memory).
	n := flattening / (2 - flattening)
	n2 := n * n
	e.radius = equatorialRadius / (1 + n) * (1 + n2*(1.0/4+n2*(1.0/64+n2/256)))
	e.rectify = [6]float64{
		n * (-3.0/2 + n2*(9.0/16-n2*3/32)),
		n2 * (15.0/16 + n2*(-15.0/32+n2*135/2048)),
		n2 * n * (-35.0/48 + n2*105/256),
		n2 * n2 * (315.0/512 - n2*189/512),
		n2 * n2 * n * (-693.0 / 1280),
		n2 * n2 * n2 * (1001.0 / 2048),
	}
	e.unrectify = [6]float64{
		n * (3.0/2 + n2*(-27.0/32+n2*269/512)),
		n2 * (21.0/16 + n2*(-55.0/32+n2*6759/4096)),
		n2 * n * (151.0/96 - n2*417/128),
		n2 * n2 * (1097.0/512 - n2*15543/2560),
		n2 * n2 * n * (8011.0 / 2560),
		n2 * n2 * n2 * (293393.0 / 61440),
	}
	return e, nil
}

// or returns WGS84 instead of nil or the zero value.
func (e *Ellipsoid) or() *Ellipsoid {
	if e == nil || e.a == 0 {
		return wgs84
	}
	return e
}

// String returns the figure's name.
func (e *Ellipsoid) String() string { return e.or().name }

// meridianArc returns the distance along a meridian from the equator to a latitude, north
// positive.
func (e *Ellipsoid) meridianArc(latitude angle.Latitude) Distance {
	e = e.or()
	s, c := latitude.Angle().SinCos()
	return Distance(e.radius * (latitude.Angle().Radians() + series(&e.rectify, 2*s*c, (c-s)*(c+s))))
}

// MeridionalParts returns the length of the meridian from the equator to a latitude on a
// Mercator chart, in minutes of longitude, north positive. It is the figure of the tables of
// meridional parts. At the poles it is infinite.
func (e *Ellipsoid) MeridionalParts(latitude angle.Latitude) float64 {
	e = e.or()
	a := latitude.Angle()
	switch a {
	case 90 * angle.Degree:
		return math.Inf(1)
	case -90 * angle.Degree:
		return math.Inf(-1)
	}
	return e.isometric(a, 0) * (180 * 60 / math.Pi)
}

// DegreeOfLatitude returns the length of the degree of latitude that has the given latitude in
// its middle. Within half a degree of a pole it is the last degree.
func (e *Ellipsoid) DegreeOfLatitude(latitude angle.Latitude) Distance {
	middle := latitude.Angle()
	middle = min(max(middle, -90*angle.Degree+30*angle.Minute), 90*angle.Degree-30*angle.Minute)
	north, _ := angle.LatitudeFrom(middle + 30*angle.Minute) // within the poles
	south, _ := angle.LatitudeFrom(middle - 30*angle.Minute)
	return e.meridianArc(north) - e.meridianArc(south)
}

// DegreeOfLongitude returns the length of a degree of longitude on a parallel.
func (e *Ellipsoid) DegreeOfLongitude(latitude angle.Latitude) Distance {
	return Distance(e.or().parallel(latitude.Angle()) * math.Pi / 180)
}

// parallel is the radius of a parallel.
func (e *Ellipsoid) parallel(latitude angle.Angle) float64 {
	s, c := latitude.SinCos()
	return e.a * c / math.Sqrt(1-e.e2*s*s)
}

// series is Σ k[i] sin 2(i+1)x from the sine and cosine of 2x, by Clenshaw's
// summation.
func series(k *[6]float64, s, c float64) float64 {
	u1, u2 := 0.0, 0.0
	for i := 5; i >= 0; i-- {
		u1, u2 = 2*c*u1-u2+k[i], u1
	}
	return u1 * s
}

// differences is Σ k[i] (sin 2(i+1)y − sin 2(i+1)x), which is the sum of
// 2 k[i] cos(i+1)(x+y) sin(i+1)(y−x), from the sines and cosines of the sum and
// the difference. It loses no digits where x and y are close.
func differences(k *[6]float64, sinSum, cosSum, sinDifference, cosDifference float64) float64 {
	total := 0.0
	s, c := sinSum, cosSum
	ds, dc := sinDifference, cosDifference
	for _, ki := range k {
		total += 2 * ki * c * ds
		s, c = s*cosSum+c*sinSum, c*cosSum-s*sinSum
		ds, dc = ds*cosDifference+dc*sinDifference, dc*cosDifference-ds*sinDifference
	}
	return total
}
