package angle

// The three norths. They are unexported so that no package can add another.
type (
	trueNorth     struct{}
	magneticNorth struct{}
	compassNorth  struct{}
)

// North is the set of norths that a direction can be measured from: true, magnetic
// and compass. Use it as the constraint of a function that takes a direction from any
// of them:
//
//	func Spread[R angle.North](bearings []angle.Direction[R]) angle.Angle
type North interface {
	trueNorth | magneticNorth | compassNorth
}

// A Direction is a course, a heading or a bearing, measured clockwise from a north, in
// [0°, 360°). The north is part of its type: [True], [Magnetic] or [Compass]. Code that
// mixes them does not compile. Only a variation or a deviation converts one to another.
//
// The zero value is north. Directions can be compared with == and used as map keys.
type Direction[R North] struct {
	_         [0]R // keeps conversions between norths from compiling
	fromNorth Angle
}

// True is a direction from true (geographic) north, written 035°T. See [Direction] for
// its methods:
//
//	angle.TrueFrom(104*angle.Degree + 15*angle.Minute).Reciprocal()
type True = Direction[trueNorth]

// Magnetic is a direction from magnetic north, written 035°M. See [Direction] for its
// methods.
type Magnetic = Direction[magneticNorth]

// Compass is a direction as the vessel's compass shows it, written 035°C. See
// [Direction] for its methods.
type Compass = Direction[compassNorth]

// TrueFrom returns the direction at an angle clockwise from true north. An angle outside
// [0°, 360°) is normalized: −10° gives 350°.
func TrueFrom(fromNorth Angle) True { return directionFrom[trueNorth](fromNorth) }

// MagneticFrom is [TrueFrom] for magnetic north.
func MagneticFrom(fromNorth Angle) Magnetic { return directionFrom[magneticNorth](fromNorth) }

// CompassFrom is [TrueFrom] for the compass.
func CompassFrom(fromNorth Angle) Compass { return directionFrom[compassNorth](fromNorth) }

// TrueDegrees returns the direction of a number of degrees from true north. If degrees
// is NaN or not from 0 to 360, it returns a [*RangeError]. For other angles use [TrueFrom].
func TrueDegrees(degrees float64) (True, error) { return directionDegrees[trueNorth](degrees) }

// MagneticDegrees is [TrueDegrees] for magnetic north.
func MagneticDegrees(degrees float64) (Magnetic, error) {
	return directionDegrees[magneticNorth](degrees)
}

// CompassDegrees is [TrueDegrees] for the compass.
func CompassDegrees(degrees float64) (Compass, error) {
	return directionDegrees[compassNorth](degrees)
}

// directionFrom returns the direction at an angle from any north.
func directionFrom[R North](fromNorth Angle) Direction[R] {
	return Direction[R]{fromNorth: fromNorth.Normalized()}
}

// directionDegrees is [TrueDegrees] for any north.
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

// Degrees returns the degrees clockwise from the direction's north, in [0, 360).
func (d Direction[R]) Degrees() float64 { return d.fromNorth.Degrees() }

// Add returns the direction turned clockwise (to starboard) by an angle. A negative
// angle turns it to port.
func (d Direction[R]) Add(a Angle) Direction[R] {
	return directionFrom[R](d.fromNorth + a%Turn)
}

// Sub returns the shortest turn from another direction to this one, in
// (−180°, 180°]. It is positive if this direction is clockwise of the other. Exactly
// opposite directions differ by +180° both ways.
func (d Direction[R]) Sub(from Direction[R]) Angle {
	return (d.fromNorth - from.fromNorth).NormalizedSigned()
}

// Reciprocal returns the opposite direction.
func (d Direction[R]) Reciprocal() Direction[R] {
	return directionFrom[R](d.fromNorth + Turn/2)
}

// Round returns the direction rounded to the nearest multiple of unit, halves
// clockwise; see [Angle.Round]. A direction that rounds to 360° becomes 000°.
func (d Direction[R]) Round(unit Angle) Direction[R] {
	return directionFrom[R](d.fromNorth.Round(unit))
}

// Equal reports whether two directions are equal, as == does.
func (d Direction[R]) Equal(e Direction[R]) bool { return d == e }

// Bearing returns the direction of an object at relative bearing r, from a vessel whose heading is
// d.
func (d Direction[R]) Bearing(r Relative) Direction[R] { return d.Add(r.fromBow) }

// Relative returns the relative bearing of an object in direction d, from a vessel on the given
// heading.
func (d Direction[R]) Relative(heading Direction[R]) Relative {
	return RelativeFrom(d.fromNorth - heading.fromNorth)
}

// letter returns the letter that is printed for the north.
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

// directionName returns the name, in messages, of a direction from the north of a letter.
func directionName(letter byte) string {
	switch letter {
	case 'M':
		return "magnetic direction"
	case 'C':
		return "compass direction"
	}
	return "true direction"
}

// northName returns the north's name in messages.
func northName(letter byte) string {
	switch letter {
	case 'M':
		return "magnetic"
	case 'C':
		return "compass"
	}
	return "true"
}
