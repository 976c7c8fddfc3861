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

// FromBow returns the angle clockwise from the bow, in [0°, 360°).
func (r Relative) FromBow() Angle { return r.fromBow }

// Degrees returns the number of degrees clockwise from the bow, in [0, 360).
func (r Relative) Degrees() float64 { return r.fromBow.Degrees() }

// Equal reports whether two relative bearings are equal, as == does.
func (r Relative) Equal(s Relative) bool { return r == s }
