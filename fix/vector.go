package fix

import (
	"math"

	"lubberline.example/angle"
)

// vector is in the frame of the earth: x toward 0° N 0° E, y toward 90° E, z
// toward the north pole. Places are in metres from the middle.
type vector struct{ x, y, z float64 }

func (v vector) dot(w vector) float64   { return v.x*w.x + v.y*w.y + v.z*w.z }
func (v vector) minus(w vector) vector  { return vector{v.x - w.x, v.y - w.y, v.z - w.z} }
func (v vector) plus(w vector) vector   { return vector{v.x + w.x, v.y + w.y, v.z + w.z} }
func (v vector) times(k float64) vector { return vector{k * v.x, k * v.y, k * v.z} }

// WGS84.
const (
	equatorialRadius = 6378137.0
	flattening       = 1 / 298.257223563
	e2               = flattening * (2 - flattening)
)

// upright is the direction of the vertical at a position.
func upright(p angle.Position) vector {
	s, c := p.Latitude.Angle().SinCos()
	sl, cl := p.Longitude.Angle().SinCos()
	return vector{c * cl, c * sl, s}
}

// A frame is a place on the ellipsoid with its own north, east and up. Positions
// are carried by their vertical, so that nothing is special about a pole.
type frame struct {
	up, north, east vector
	at              vector
	meridian        float64 // radius of curvature along the meridian
	across          float64 // and across it
	sin, cos        float64 // of the latitude
}

// frameAt is the frame of a vertical. At a pole east is that of the longitude 0.
func frameAt(up vector) frame {
	f := frame{up: up, sin: up.z, cos: math.Hypot(up.x, up.y)}
	if f.cos > 1e-15 {
		f.east = vector{-up.y / f.cos, up.x / f.cos, 0}
		f.north = vector{-up.z * up.x / f.cos, -up.z * up.y / f.cos, f.cos}
	} else {
		f.east, f.north = vector{0, 1, 0}, vector{-up.z, 0, 0}
	}
	w := 1 - e2*up.z*up.z
	f.across = equatorialRadius / math.Sqrt(w)
	f.meridian = f.across * (1 - e2) / w
	f.at = vector{f.across * up.x, f.across * up.y, f.across * (1 - e2) * up.z}
	return f
}

// moved is the vertical after a small move, in metres.
func (f *frame) moved(north, east float64) vector {
	v := f.up.plus(f.north.times(north / f.meridian)).plus(f.east.times(east / f.across))
	return v.times(1 / math.Sqrt(v.dot(v)))
}

// position is the position of a vertical; at a pole its longitude is 0.
func position(up vector) angle.Position {
	var p angle.Position
	if a, err := angle.Atan2(up.z, math.Hypot(up.x, up.y)); err == nil {
		p.Latitude, _ = angle.LatitudeFrom(a) // within the poles
	}
	if math.Hypot(up.x, up.y) > 1e-15 {
		if a, err := angle.Atan2(up.y, up.x); err == nil {
			p.Longitude = angle.LongitudeFrom(a)
		}
	}
	return p
}

// sight is where an object lies from a frame.
type sight struct {
	north, east, up float64 // metres along the axes
	across          float64 // squared distance on the level
	azimuth         float64 // radians
}

func (f *frame) sight(object vector) sight {
	v := object.minus(f.at)
	s := sight{north: v.dot(f.north), east: v.dot(f.east), up: v.dot(f.up)}
	s.across = s.north*s.north + s.east*s.east
	s.azimuth = math.Atan2(s.east, s.north)
	return s
}

// slope is how the azimuth changes as the observer moves a metre north or east: the
// object falls back, and the observer's own north turns.
func (f *frame) slope(s sight) (north, east float64) {
	// Moved north by dn the axes tip by dn/M; moved east by de they turn by de/N,
	// of which tan φ is a turn of the north.
	tan := 0.0
	if f.cos > 1e-15 {
		tan = f.sin / f.cos
	}
	dEast := -1 - s.up/f.across + s.north*tan/f.across // of s.east, moving east
	dNorth := -s.east * tan / f.across                 // of s.north, moving east
	east = (s.north*dEast - s.east*dNorth) / s.across
	north = s.east * (1 + s.up/f.meridian) / s.across
	return north, east
}

// surface is the distance to an object along the surface, and how it changes as the
// observer moves a metre north or east. From the chord it is the arc of the circle of
// curvature in the object's direction: within a millimetre of the geodesic over 60
// miles.
func (f *frame) surface(object vector) (distance, north, east float64) {
	v := object.minus(f.at)
	chord := math.Sqrt(v.dot(v))
	n, e := v.dot(f.north), v.dot(f.east)
	level := math.Hypot(n, e)
	if chord == 0 {
		return 0, 0, 0
	}
	if level == 0 {
		n, level = 1, 1 // the antipodes, to which all ways are alike
	}
	n, e = n/level, e/level
	radius := 1 / (n*n/f.meridian + e*e/f.across)
	half := min(1, chord/(2*radius))
	return 2 * radius * math.Asin(half), -n, -e
}
