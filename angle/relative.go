package angle

// A Relative is a relative bearing: the direction of an object measured
// clockwise from the vessel's bow, in [0°, 360°), written 325°R. It belongs to
// no north; a heading turns it into a direction ([Direction.Bearing]) and back
// ([Direction.Relative]). The zero value is right ahead.
type Relative struct {
	fromBow Angle
}

// RelativeFrom returns the relative bearing at an angle clockwise from the bow;
// an angle outside [0°, 360°) goes on round the circle.
func RelativeFrom(fromBow Angle) Relative { return Relative{fromBow.Normalized()} }

// RelativeDegrees returns the relative bearing of a number of degrees clockwise
// from the bow. It refuses NaN and numbers outside 0 to 360 with a
// [*RangeError].
func RelativeDegrees(degrees float64) (Relative, error) {
	if !(degrees >= 0 && degrees <= 360) {
		return Relative{}, &RangeError{What: "relative bearing", Value: degrees, Accepted: "0° to 360°"}
	}
	a, err := Degrees(degrees)
	return RelativeFrom(a), err
}

// RelativeOn returns the relative bearing at an angle from the bow on one side,
// the form 35° to port. It refuses angles outside 0° to 180° with a
// [*RangeError].
func RelativeOn(side Side, fromBow Angle) (Relative, error) {
	if fromBow < 0 || fromBow > Turn/2 {
		return Relative{}, &RangeError{What: "angle on the bow", Value: fromBow.Degrees(), Accepted: "0° to 180° on the side named"}
	}
	if side == Port {
		fromBow = -fromBow
	}
	return RelativeFrom(fromBow), nil
}

// FromBow returns the angle clockwise from the bow, in [0°, 360°).
func (r Relative) FromBow() Angle { return r.fromBow }

// Degrees returns the number of degrees clockwise from the bow, in [0, 360).
func (r Relative) Degrees() float64 { return r.fromBow.Degrees() }

// OnSide returns the side on which the object lies and its angle from the bow,
// in [0°, 180°]. Right ahead and right astern count as starboard.
func (r Relative) OnSide() (Side, Angle) {
	if a := r.fromBow.NormalizedSigned(); a < 0 {
		return Port, -a
	}
	return Starboard, r.fromBow
}

// Equal reports whether two relative bearings are the same; it is the same as
// ==.
func (r Relative) Equal(s Relative) bool { return r == s }
