package angle

import "math"

// A Latitude is an angle north (positive) or south of the equator, from −90° to
// 90°. The zero value is the equator.
type Latitude struct{ north Angle }

// A Longitude is an angle east (positive) or west of the prime meridian, in
// (−180°, 180°]: the meridian of 180° has one value, whichever way it is given.
// The zero value is the prime meridian.
type Longitude struct{ east Angle }

// LatitudeFrom returns the latitude at an angle north of the equator. It
// refuses angles beyond a pole with a [*RangeError].
func LatitudeFrom(north Angle) (Latitude, error) {
	if north < -90*Degree || north > 90*Degree {
		return Latitude{}, &RangeError{What: "latitude", Value: north.Degrees(), Accepted: "90° S to 90° N"}
	}
	return Latitude{north}, nil
}

// LongitudeFrom returns the longitude at an angle east of the prime meridian;
// an angle beyond ±180° goes on round the earth.
func LongitudeFrom(east Angle) Longitude { return Longitude{east.NormalizedSigned()} }

// LatitudeDegrees returns the latitude of a number of degrees, north positive.
// It refuses NaN and numbers outside −90 to 90 with a [*RangeError].
func LatitudeDegrees(degrees float64) (Latitude, error) {
	if !(degrees >= -90 && degrees <= 90) {
		return Latitude{}, &RangeError{What: "latitude", Value: degrees, Accepted: "−90° to 90°, north positive"}
	}
	a, err := Degrees(degrees)
	return Latitude{a}, err
}

// LongitudeDegrees returns the longitude of a number of degrees, east positive.
// It refuses NaN and numbers outside −180 to 180 with a [*RangeError]; for
// longitudes counted from 0 to 360 use [LongitudeFrom].
func LongitudeDegrees(degrees float64) (Longitude, error) {
	if !(degrees >= -180 && degrees <= 180) {
		return Longitude{}, &RangeError{What: "longitude", Value: degrees, Accepted: "−180° to 180°, east positive"}
	}
	a, err := Degrees(degrees)
	return LongitudeFrom(a), err
}

// Angle returns the angle north of the equator.
func (l Latitude) Angle() Angle { return l.north }

// Angle returns the angle east of the prime meridian.
func (l Longitude) Angle() Angle { return l.east }

// Degrees returns the number of degrees, north positive.
func (l Latitude) Degrees() float64 { return l.north.Degrees() }

// Degrees returns the number of degrees, east positive, in (−180, 180].
func (l Longitude) Degrees() float64 { return l.east.Degrees() }

// Add returns the meridian at an angle further east, across the date line where
// it comes to that.
func (l Longitude) Add(east Angle) Longitude { return LongitudeFrom(l.east + east%Turn) }

// Sub returns the difference of longitude from another meridian to this one,
// the shorter way: east positive, in (−180°, 180°].
func (l Longitude) Sub(from Longitude) Angle { return (l.east - from.east).NormalizedSigned() }

// Equal reports whether two latitudes are the same; it is the same as ==.
func (l Latitude) Equal(m Latitude) bool { return l == m }

// Equal reports whether two meridians are the same; it is the same as ==.
func (l Longitude) Equal(m Longitude) bool { return l == m }

// A Position is a place on the earth. The zero value is the place where the
// equator meets the prime meridian. Positions compare with ==, by latitude and
// longitude, so that a pole has as many values as it has longitudes; see
// [Position.SamePlace].
type Position struct {
	Latitude  Latitude
	Longitude Longitude
}

// PositionDegrees returns the position of a latitude and a longitude in
// degrees, in that order, north and east positive; see [LatitudeDegrees] and
// [LongitudeDegrees] for what is refused.
func PositionDegrees(latitude, longitude float64) (Position, error) {
	lat, err := LatitudeDegrees(latitude)
	if err != nil {
		return Position{}, err
	}
	lon, err := LongitudeDegrees(longitude)
	if err != nil {
		return Position{}, err
	}
	return Position{lat, lon}, nil
}

// Degrees returns the latitude and the longitude in degrees, north and east
// positive.
func (p Position) Degrees() (latitude, longitude float64) {
	return p.Latitude.Degrees(), p.Longitude.Degrees()
}

// SamePlace reports whether two positions are one place: equal, or both at the
// same pole.
func (p Position) SamePlace(q Position) bool {
	return p == q || p.Latitude == q.Latitude && p.Latitude.north.Abs() == 90*Degree
}

// ArcTo returns the arc of the great circle to another position on the sphere,
// from 0° to 180°. One minute of it is about one nautical mile; on the
// ellipsoid the distance differs by up to 0.6 %. It is good at any separation,
// including antipodes, where the usual cosine formula loses its digits: it is
// the angle between the two directions from the earth's centre, from the length
// of their cross product and their dot product.
func (p Position) ArcTo(q Position) Angle {
	sin1, cos1 := p.Latitude.north.SinCos()
	sin2, cos2 := q.Latitude.north.SinCos()
	sinD, cosD := q.Longitude.Sub(p.Longitude).SinCos()
	// cos1 sin2 − sin1 cos2 cosD, without the loss of digits when close.
	sinLat := (q.Latitude.north - p.Latitude.north).Sin()
	sinHalf := (q.Longitude.Sub(p.Longitude) / 2).Sin()
	across := cos2 * sinD
	along := sinLat + 2*sin1*cos2*sinHalf*sinHalf
	dot := sin1*sin2 + cos1*cos2*cosD
	arc, err := Atan2(math.Hypot(across, along), dot)
	if err != nil { // not reached: the three are not all zero
		return 0
	}
	return arc
}
