package angle

import "fmt"

// ParseRelative reads a relative bearing in three figures from the bow, or on a side. Red
// is port and green is starboard:
//
//	325   325°   325°R   325.5 rel   35° to port   35 port   port 35°   red 35
//	green 110   R035   G110   ahead   astern   abeam to port
//	2 points on the port bow   two points abaft the starboard beam   right ahead
//	20° before the port beam   1 point on the port quarter   on the port beam
//	broad on the starboard bow   on the port quarter
//
// The letter R after the figures means relative: 035°R. Before the figures, R means red
// and G means green: R035. Figures on the bow count from ahead, and figures on the quarter
// from astern. Bow and quarter without figures are 45° from ahead and from astern.
//
// ParseRelative returns a [*ParseError] for any other text. The limits are 360° for three
// figures, 180° on a side, and 90° on the bow, on the quarter or from the beam. A sign is
// not allowed.
func ParseRelative(text string) (Relative, error) { return parseRelative(text, false) }

// parseRelative is [ParseRelative]. If asked, it requires the letter R or a side.
func parseRelative(text string, referenceNeeded bool) (Relative, error) {
	s := scanner{input: text, what: "relative bearing", want: "a relative bearing such as 325° or 35° to port"}
	a, err := s.relative(referenceNeeded)
	if err == nil {
		err = s.end("nothing after the relative bearing")
	}
	if err != nil {
		return Relative{}, err
	}
	return RelativeFrom(a), nil
}

// appendIn appends the relative bearing in three figures with the letter R: 325.0°R.
func (r Relative) appendIn(b []byte, unit Angle, decimals int) []byte {
	u := roundedDirection(r.fromBow, unitOf(unit, decimals))
	return append(appendSize(b, u, unit, 3, decimals), 'R')
}

// String returns the relative bearing in three figures with the letter R, rounded to a
// tenth of a degree: 325°R, 325.5°R. A tenth of zero is left out.
func (r Relative) String() string { return string(r.appendTenths(make([]byte, 0, longText))) }

// appendTenths appends the text of [Relative.String].
func (r Relative) appendTenths(b []byte) []byte {
	return r.appendIn(b, Degree, tenthsNeeded(r.fromBow, Degree))
}

// SideString returns the relative bearing on its side of the bow, rounded to a tenth of a
// degree: 35° to port, 110.5° to starboard, ahead, astern.
func (r Relative) SideString() string {
	side, a := Starboard, r.fromBow.NormalizedSigned()
	if a < 0 {
		side, a = Port, -a
	}
	decimals := tenthsNeeded(a, Degree)
	switch u := roundedSize(uint64(a), Degree/10); u {
	case 0:
		return "ahead"
	case uint64(Turn / 2):
		return "astern"
	default:
		return string(appendSize(nil, u, Degree, 1, decimals)) + " to " + string(side)
	}
}

// AppendText appends the exact relative bearing with the letter R.
func (r Relative) AppendText(b []byte) ([]byte, error) {
	return append(appendExactDegrees(b, uint64(r.fromBow), 3), 'R'), nil
}

// MarshalText returns the exact text of [Relative.AppendText].
func (r Relative) MarshalText() ([]byte, error) { return r.AppendText(nil) }

// UnmarshalText reads what [ParseRelative] reads. The letter R or a side is required.
func (r *Relative) UnmarshalText(text []byte) error {
	q, err := parseRelative(string(text), true)
	if err == nil {
		*r = q
	}
	return err
}

// Format prints the relative bearing with the verbs of package fmt, as [Angle.Format] does:
// %v 325°R, %.0v 325°00′R, %.1f 325.0°R, %d 325°00′00″R.
func (r Relative) Format(f fmt.State, verb rune) {
	formatTo(f, verb, make([]byte, 0, 32), "angle.Relative", textForms{brief: r.appendTenths, in: r.appendIn})
}
