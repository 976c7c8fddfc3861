package angle

// A Relative is a relative bearing: the direction of an object measured clockwise from
// the bow, in [0°, 360°), written 325°R. With a heading, [Direction.Bearing] converts it
// to a bearing and [Direction.Relative] converts a bearing to it. The zero value is right
// ahead.
type Relative struct {
	fromBow Angle
}

// RelativeFrom returns the relative bearing at an angle clockwise from the bow. An angle
// outside [0°, 360°) is normalized: −35° gives 325°R.
func RelativeFrom(fromBow Angle) Relative { return Relative{fromBow.Normalized()} }

// RelativeDegrees returns the relative bearing of a number of degrees clockwise
// from the bow. If degrees is NaN or not from 0 to 360, it returns a [*RangeError].
func RelativeDegrees(degrees float64) (Relative, error) {
	if !(degrees >= 0 && degrees <= 360) {
		return Relative{}, &RangeError{What: "relative bearing", Value: degrees, Accepted: "0° to 360°"}
	}
	a, err := Degrees(degrees)
	return RelativeFrom(a), err
}

// RelativeOn returns the relative bearing at an angle from the bow on a side, such as 35°
// to port. If the angle is not from 0° to 180°, it returns a [*RangeError].
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

// OnSide returns the side of the object and its angle from the bow, in [0°, 180°]. The
// side of an object right ahead or right astern is [Starboard].
func (r Relative) OnSide() (Side, Angle) {
	if a := r.fromBow.NormalizedSigned(); a < 0 {
		return Port, -a
	}
	return Starboard, r.fromBow
}

// Equal reports whether two relative bearings are equal, as == does.
func (r Relative) Equal(s Relative) bool { return r == s }
