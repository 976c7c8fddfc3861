package angle

import "math"

// A Latitude is an angle north (positive) or south of the equator, from −90° to
// 90°. The zero value is the equator.
type Latitude struct{ north Angle }

// A Longitude is an angle east (positive) or west of the prime meridian, in
// (−180°, 180°]. The meridian of 180° has one value: 180° W is stored as 180° E. The zero
// value is the prime meridian.
type Longitude struct{ east Angle }

// LatitudeFrom returns the latitude at an angle north of the equator. If the angle is not
// from −90° to 90°, it returns a [*RangeError].
func LatitudeFrom(north Angle) (Latitude, error) {
	if north < -90*Degree || north > 90*Degree {
		return Latitude{}, &RangeError{What: "latitude", Value: north.Degrees(), Accepted: "90° S to 90° N"}
	}
	return Latitude{north}, nil
}

// LongitudeFrom returns the longitude at an angle east of the prime meridian. An angle
// beyond ±180° is normalized: 190° is 170° W.
func LongitudeFrom(east Angle) Longitude { return Longitude{east.NormalizedSigned()} }

// LatitudeDegrees returns the latitude of a number of degrees, north positive.
// If degrees is NaN or not from −90 to 90, it returns a [*RangeError].
func LatitudeDegrees(degrees float64) (Latitude, error) {
	if !(degrees >= -90 && degrees <= 90) {
		return Latitude{}, &RangeError{What: "latitude", Value: degrees, Accepted: "−90° to 90°, north positive"}
	}
	a, err := Degrees(degrees)
	return Latitude{a}, err
}

// LongitudeDegrees returns the longitude of a number of degrees, east positive.
// If degrees is NaN or not from −180 to 180, it returns a [*RangeError]. For longitudes
// from 0 to 360 use [LongitudeFrom].
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

// Add returns the longitude at an angle further east. It may cross the date line.
func (l Longitude) Add(east Angle) Longitude { return LongitudeFrom(l.east + east%Turn) }

// Sub returns the difference of longitude from another meridian to this one, the shorter
// way: east positive, in (−180°, 180°].
func (l Longitude) Sub(from Longitude) Angle { return (l.east - from.east).NormalizedSigned() }

// Equal reports whether two latitudes are equal, as == does.
func (l Latitude) Equal(m Latitude) bool { return l == m }

// Equal reports whether two longitudes are equal, as == does.
func (l Longitude) Equal(m Longitude) bool { return l == m }

// A Position is a place on the earth. The zero value is 0° N 0° E. Positions can be
// compared with ==, which compares the latitude and the longitude. At a pole, positions
// with different longitudes are the same place; see [Position.SamePlace].
type Position struct {
	Latitude  Latitude
	Longitude Longitude
}

// PositionDegrees returns the position of a latitude and a longitude in degrees, in that
// order, north and east positive. Its errors are those of [LatitudeDegrees] and
// [LongitudeDegrees].
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

// SamePlace reports whether two positions are the same place: equal, or both at one pole.
func (p Position) SamePlace(q Position) bool {
	return p == q || p.Latitude == q.Latitude && p.Latitude.north.Abs() == 90*Degree
}

// ArcTo returns the great-circle arc to another position on the sphere, from 0° to 180°.
// One minute of arc is about one nautical mile. The distance on the ellipsoid differs by
// up to 0.6 %. The result is accurate at any distance, also near the same place and near
// the antipodes, where the usual cosine formula loses digits.
func (p Position) ArcTo(q Position) Angle {
	sin1, cos1 := p.Latitude.north.SinCos()
	sin2, cos2 := q.Latitude.north.SinCos()
	sinD, cosD := q.Longitude.Sub(p.Longitude).SinCos()
	// The angle between the two directions from the earth's centre, from their cross
	// product and their dot product. along is cos1 sin2 − sin1 cos2 cosD, in a form that
	// keeps its digits when the positions are close.
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
