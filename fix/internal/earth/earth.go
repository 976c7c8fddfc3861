// Package earth is the geometry of the WGS84 ellipsoid that packages fix, fix/danger and fix/plot
// share. It finds the direction and distance of an object from an observer, and how they change as
// the observer moves.
package earth

import (
	"math"

	"lubberline.example/angle"
)

// A Vector is in the frame of the earth: x toward 0° N 0° E, y toward 90° E, z toward the
// north pole. Places are in metres from the centre.
type Vector struct{ X, Y, Z float64 }

// Dot returns the scalar product of two vectors.
func (v Vector) Dot(w Vector) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Minus returns the difference of two vectors.
func (v Vector) Minus(w Vector) Vector { return Vector{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Plus returns the sum of two vectors.
func (v Vector) Plus(w Vector) Vector { return Vector{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Times returns the vector multiplied by a number.
func (v Vector) Times(k float64) Vector { return Vector{k * v.X, k * v.Y, k * v.Z} }

// The ellipsoid of WGS84.
const (
	EquatorialRadius = 6378137.0
	flattening       = 1 / 298.257223563
	e2               = flattening * (2 - flattening)
)

// Upright returns the direction of the vertical at a position.
func Upright(p angle.Position) Vector {
	s, c := p.Latitude.Angle().SinCos()
	sl, cl := p.Longitude.Angle().SinCos()
	return Vector{c * cl, c * sl, s}
}

// A Frame is a place on the ellipsoid with its own north, east and up. Positions are held as
// their verticals, so that a pole is no special case.
type Frame struct {
	Up, North, East Vector
	At              Vector
	Meridian        float64 // radius of curvature along the meridian
	Across          float64 // and across it
	Sin, Cos        float64 // of the latitude
}

// FrameAt returns the frame of a vertical. At a pole east is that of the longitude 0.
func FrameAt(up Vector) Frame {
	f := Frame{Up: up, Sin: up.Z, Cos: math.Hypot(up.X, up.Y)}
	if f.Cos > 1e-15 {
		f.East = Vector{-up.Y / f.Cos, up.X / f.Cos, 0}
		f.North = Vector{-up.Z * up.X / f.Cos, -up.Z * up.Y / f.Cos, f.Cos}
	} else {
		f.East, f.North = Vector{0, 1, 0}, Vector{-up.Z, 0, 0}
	}
	w := 1 - e2*up.Z*up.Z
	f.Across = EquatorialRadius / math.Sqrt(w)
	f.Meridian = f.Across * (1 - e2) / w
	f.At = Vector{f.Across * up.X, f.Across * up.Y, f.Across * (1 - e2) * up.Z}
	return f
}

// Moved returns the vertical after a small move, in metres.
func (f *Frame) Moved(north, east float64) Vector {
	v := f.Up.Plus(f.North.Times(north / f.Meridian)).Plus(f.East.Times(east / f.Across))
	return v.Times(1 / math.Sqrt(v.Dot(v)))
}

// Position returns the position of a vertical; at a pole its longitude is 0.
func Position(up Vector) angle.Position {
	var p angle.Position
	if a, err := angle.Atan2(up.Z, math.Hypot(up.X, up.Y)); err == nil {
		p.Latitude, _ = angle.LatitudeFrom(a) // within the poles
	}
	if math.Hypot(up.X, up.Y) > 1e-15 {
		if a, err := angle.Atan2(up.Y, up.X); err == nil {
			p.Longitude = angle.LongitudeFrom(a)
		}
	}
	return p
}

// A Sight is where an object lies from a frame.
type Sight struct {
	North, East, Up float64 // metres along the axes
	Across          float64 // squared distance on the level
	Azimuth         float64 // radians
}

// Sight returns where an object lies from the frame.
func (f *Frame) Sight(object Vector) Sight {
	v := object.Minus(f.At)
	s := Sight{North: v.Dot(f.North), East: v.Dot(f.East), Up: v.Dot(f.Up)}
	s.Across = s.North*s.North + s.East*s.East
	s.Azimuth = math.Atan2(s.East, s.North)
	return s
}

// Slope returns how the azimuth changes as the observer moves a metre north or east. The
// object moves the other way, and the observer's north turns.
func (f *Frame) Slope(s Sight) (north, east float64) {
	// A move north by dn tips the axes by dn/M. A move east by de turns them by de/N, and
	// turns the north by tan φ times that.
	tan := 0.0
	if f.Cos > 1e-15 {
		tan = f.Sin / f.Cos
	}
	dEast := -1 - s.Up/f.Across + s.North*tan/f.Across // of s.East, moving east
	dNorth := -s.East * tan / f.Across                 // of s.North, moving east
	east = (s.North*dEast - s.East*dNorth) / s.Across
	north = s.East * (1 + s.Up/f.Meridian) / s.Across
	return north, east
}

// Surface returns the distance to an object along the surface, and how it changes as the
// observer moves a metre north or east. It turns the chord into the arc of the circle of
// curvature in the object's direction, which is within a millimetre of the geodesic over 60
// miles.
func (f *Frame) Surface(object Vector) (distance, north, east float64) {
	v := object.Minus(f.At)
	chord := math.Sqrt(v.Dot(v))
	n, e := v.Dot(f.North), v.Dot(f.East)
	level := math.Hypot(n, e)
	if chord == 0 {
		return 0, 0, 0
	}
	if level == 0 {
		n, level = 1, 1 // at the antipodes all directions are equal
	}
	n, e = n/level, e/level
	radius := 1 / (n*n/f.Meridian + e*e/f.Across)
	half := min(1, chord/(2*radius))
	return 2 * radius * math.Asin(half), -n, -e
}

// OnPlane returns where the vertical of a place meets the plane that touches the earth at the
// frame, in metres north and east. It is the inverse of Moved. For the far half of the earth
// ok is false.
func (f *Frame) OnPlane(up Vector) (north, east float64, ok bool) {
	h := up.Dot(f.Up)
	if h < 0.01 {
		return 0, 0, false
	}
	return up.Dot(f.North) / h * f.Meridian, up.Dot(f.East) / h * f.Across, true
}

// PlaceOf returns the place of a position.
func PlaceOf(p angle.Position) Vector {
	f := FrameAt(Upright(p))
	return f.At
}

// BearingBetween returns the bearing of one position from another. If both are the same, it
// is north.
func BearingBetween(from, to angle.Position) angle.True {
	f := FrameAt(Upright(from))
	s := f.Sight(PlaceOf(to))
	a, err := angle.Atan2(s.East, s.North)
	if err != nil {
		return angle.True{} // the same place
	}
	return angle.TrueFrom(a)
}
