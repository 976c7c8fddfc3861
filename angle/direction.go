package angle

// The three norths. They are unexported so that there are these three only.
type (
	trueNorth     struct{}
	magneticNorth struct{}
	compassNorth  struct{}
)

// North is the set of norths a direction can be measured from: true, magnetic
// and compass. It serves as the constraint of functions that work with a
// direction from any of them:
//
//	func Spread[R angle.North](bearings []angle.Direction[R]) angle.Angle
type North interface {
	trueNorth | magneticNorth | compassNorth
}

// A Direction is a course, a heading or a bearing, measured clockwise from one
// north, in [0°, 360°). Which north is part of its type: people write [True],
// [Magnetic] or [Compass], and the compiler refuses to mix them. The only way
// from one to another is through a variation or a deviation.
//
// The zero value is north itself. Directions are comparable with == and serve
// as map keys.
type Direction[R North] struct {
	_         [0]R // keeps conversions between norths from compiling
	fromNorth Angle
}

// True is a direction from true (geographic) north, written 035°T. See
// [Direction] for what it can do; as in
//
//	angle.TrueFrom(104*angle.Degree + 15*angle.Minute).Reciprocal()
type True = Direction[trueNorth]

// Magnetic is a direction from magnetic north, written 035°M. See [Direction]
// for what it can do.
type Magnetic = Direction[magneticNorth]

// Compass is a direction as the vessel's own compass shows it, written 035°C.
// See [Direction] for what it can do.
type Compass = Direction[compassNorth]

// TrueFrom returns the direction at an angle clockwise from true north; an
// angle outside [0°, 360°) goes on round the circle.
func TrueFrom(fromNorth Angle) True { return directionFrom[trueNorth](fromNorth) }

// MagneticFrom is [TrueFrom] for magnetic north.
func MagneticFrom(fromNorth Angle) Magnetic { return directionFrom[magneticNorth](fromNorth) }

// CompassFrom is [TrueFrom] for the compass.
func CompassFrom(fromNorth Angle) Compass { return directionFrom[compassNorth](fromNorth) }

// TrueDegrees returns the direction of a number of degrees from true north. It
// refuses NaN and numbers outside 0 to 360 with a
// [*RangeError]; for an angle that may go round the circle use [TrueFrom].
func TrueDegrees(degrees float64) (True, error) { return directionDegrees[trueNorth](degrees) }

// MagneticDegrees is [TrueDegrees] for magnetic north.
func MagneticDegrees(degrees float64) (Magnetic, error) {
	return directionDegrees[magneticNorth](degrees)
}

// CompassDegrees is [TrueDegrees] for the compass.
func CompassDegrees(degrees float64) (Compass, error) {
	return directionDegrees[compassNorth](degrees)
}

func directionFrom[R North](fromNorth Angle) Direction[R] {
	return Direction[R]{fromNorth: fromNorth.Normalized()}
}

func directionDegrees[R North](degrees float64) (Direction[R], error) {
	if !(degrees >= 0 && degrees <= 360) {
		return Direction[R]{}, &RangeError{What: "direction", Value: degrees, Accepted: "0° to 360°"}
	}
	a, err := Degrees(degrees)
	return directionFrom[R](a), err
}

// FromNorth returns the angle clockwise from the direction's north, in
// [0°, 360°).
func (d Direction[R]) FromNorth() Angle { return d.fromNorth }

// Degrees returns the number of degrees clockwise from the direction's north,
// in [0, 360).
func (d Direction[R]) Degrees() float64 { return d.fromNorth.Degrees() }

// Add returns the direction turned clockwise (to starboard) by an angle;
// a negative angle turns it the other way.
func (d Direction[R]) Add(a Angle) Direction[R] {
	return directionFrom[R](d.fromNorth + a%Turn)
}

// Sub returns the shortest turn from another direction to this one, in
// (−180°, 180°]: positive when this one lies clockwise of the other. Directions
// exactly opposite differ by +180° both ways.
func (d Direction[R]) Sub(from Direction[R]) Angle {
	return (d.fromNorth - from.fromNorth).NormalizedSigned()
}

// Reciprocal returns the opposite direction.
func (d Direction[R]) Reciprocal() Direction[R] {
	return directionFrom[R](d.fromNorth + Turn/2)
}

// Round returns the direction rounded to the nearest multiple of unit, halves
// clockwise; see [Angle.Round]. What rounds to 360° is north.
func (d Direction[R]) Round(unit Angle) Direction[R] {
	return directionFrom[R](d.fromNorth.Round(unit))
}

// Within reports whether the direction lies in the sector that runs clockwise
// from one direction to another, both ends included, across north where it
// does. From a direction to itself is that direction only.
func (d Direction[R]) Within(from, to Direction[R]) bool {
	return d.Sub(from).Normalized() <= to.Sub(from).Normalized()
}

// Equal reports whether two directions are the same; it is the same as ==.
func (d Direction[R]) Equal(e Direction[R]) bool { return d == e }

// Bearing returns the direction of an object seen at a relative bearing when
// this direction is the vessel's heading.
func (d Direction[R]) Bearing(r Relative) Direction[R] { return d.Add(r.fromBow) }

// Relative returns the relative bearing of an object in this direction when the
// vessel heads as given.
func (d Direction[R]) Relative(heading Direction[R]) Relative {
	return RelativeFrom(d.fromNorth - heading.fromNorth)
}

// letter is the north's letter in print.
func (d Direction[R]) letter() byte {
	var r R
	switch any(r).(type) {
	case magneticNorth:
		return 'M'
	case compassNorth:
		return 'C'
	}
	return 'T'
}

// directionName is what a direction from the north of a letter is called in messages.
func directionName(letter byte) string {
	switch letter {
	case 'M':
		return "magnetic direction"
	case 'C':
		return "compass direction"
	}
	return "true direction"
}

// northName is the north's name in messages.
func northName(letter byte) string {
	switch letter {
	case 'M':
		return "magnetic"
	case 'C':
		return "compass"
	}
	return "true"
}
