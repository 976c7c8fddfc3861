package sailing

import (
	"strconv"
	"strings"

	"lubberline.example/angle"
)

// What stands about the figures of an ellipsoid that was made.
const (
	ellipsoidRadius     = " (equatorial radius "
	ellipsoidFlattening = " m, flattening "
)

// AppendText appends the name of WGS84, Clarke 1866 or the sphere of the sailings, and
// of other figures the name with their radius and flattening, exactly:
//
//	Orlesk datum (equatorial radius 6378388 m, flattening 0.003367003367003367)
//
// [ParseEllipsoid] reads it back. (An Ellipsoid does not change, and so has no
// UnmarshalText.)
func (e *Ellipsoid) AppendText(b []byte) ([]byte, error) {
	e = e.or()
	b = append(b, e.name...)
	for _, known := range []*Ellipsoid{wgs84, clarke, mileArc} {
		if *e == *known {
			return b, nil
		}
	}
	b = append(append(b, ellipsoidRadius...), figures(e.a)...)
	b = append(append(b, ellipsoidFlattening...), figures(e.f)...)
	return append(b, ')'), nil
}

// MarshalText returns the text of [Ellipsoid.AppendText].
func (e *Ellipsoid) MarshalText() ([]byte, error) { return e.AppendText(nil) }

// ParseEllipsoid reads what [Ellipsoid.AppendText] writes. Names that it does not know,
// without figures, are refused with an [*angle.ParseError], and figures that
// [NewEllipsoid] refuses with its [*angle.RangeError].
func ParseEllipsoid(text string) (*Ellipsoid, error) {
	for _, known := range []*Ellipsoid{wgs84, clarke, mileArc} {
		if text == known.name {
			return known, nil
		}
	}
	if text == "" {
		return nil, &angle.ParseError{What: "figure of the earth", Input: text, Kind: angle.Empty, Want: "the name of a figure of the earth, such as WGS84"}
	}
	at := strings.LastIndex(text, ellipsoidRadius)
	if at < 0 {
		return nil, &angle.ParseError{What: "figure of the earth", Input: text, Kind: angle.UnknownWord, Want: "WGS84, Clarke 1866, sphere, or a name" + ellipsoidRadius + "…" + ellipsoidFlattening + "…)"}
	}
	radius, flattening, ok := strings.Cut(strings.TrimSuffix(text[at+len(ellipsoidRadius):], ")"), ellipsoidFlattening)
	a, err1 := strconv.ParseFloat(radius, 64)
	f, err2 := strconv.ParseFloat(flattening, 64)
	if !ok || err1 != nil || err2 != nil {
		return nil, &angle.ParseError{What: "figure of the earth", Input: text, Offset: at + len(ellipsoidRadius), Kind: angle.NoNumber, Want: "the radius in metres," + ellipsoidFlattening[2:] + "and the flattening"}
	}
	return NewEllipsoid(text[:at], a, f)
}
