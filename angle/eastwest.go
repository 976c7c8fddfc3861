package angle

import (
	"errors"
	"fmt"
	"strings"
)

// An EastWest is an angle east (positive) or west, with its uncertainty. The variation,
// the deviation and the total error of a compass are each an EastWest. The zero value is
// 0° with an unknown uncertainty.
//
// Values can be compared with ==, which compares the uncertainties too.
type EastWest struct {
	east        Angle
	uncertainty Uncertainty
}

// EastWestFrom returns an angle to the east, normalized to (−180°, 180°]. Its uncertainty
// is unknown.
func EastWestFrom(east Angle) EastWest { return EastWest{east: east.NormalizedSigned()} }

// Angle returns the angle, east positive, in (−180°, 180°].
func (e EastWest) Angle() Angle { return e.east }

// Degrees returns the angle in degrees, east positive.
func (e EastWest) Degrees() float64 { return e.east.Degrees() }

// Uncertainty returns the uncertainty of the angle.
func (e EastWest) Uncertainty() Uncertainty { return e.uncertainty }

// WithUncertainty returns the same angle with the uncertainty u.
func (e EastWest) WithUncertainty(u Uncertainty) EastWest {
	e.uncertainty = u
	return e
}

// Plus returns the sum of two angles, such as variation and deviation. It combines their
// uncertainties as independent; see [Uncertainty.Combined].
func (e EastWest) Plus(f EastWest) EastWest {
	return EastWestFrom(e.east + f.east).WithUncertainty(e.uncertainty.Combined(f.uncertainty))
}

// Name returns "E", "W", or "" for zero.
func (e EastWest) Name() string {
	switch {
	case e.east > 0:
		return "E"
	case e.east < 0:
		return "W"
	}
	return ""
}

// Equal reports whether two angles and their uncertainties are equal, as == does.
func (e EastWest) Equal(f EastWest) bool { return e == f }

// String returns the angle with its name, rounded to a tenth of a minute: 4°15.5′W,
// 4°15′W. It does not show the uncertainty. For both, exactly, see [EastWest.AppendText].
func (e EastWest) String() string { return e.east.EastWestString() }

// AppendText appends the exact angle with its name and the uncertainty, if it is known:
// 4°15′W, 4°15′W ±0°30′.
func (e EastWest) AppendText(b []byte) ([]byte, error) {
	b = e.east.appendExactEastWest(b)
	if _, stated := e.uncertainty.Sigma(); !stated {
		return b, nil
	}
	return e.uncertainty.AppendText(append(b, ' '))
}

// MarshalText returns the exact text of [EastWest.AppendText].
func (e EastWest) MarshalText() ([]byte, error) { return e.AppendText(nil) }

// UnmarshalText reads an angle as [ParseEastWest] does, with or without a standard
// uncertainty: 4°15′W, -4.25, 4°15′W ±0°30′. It returns a [*ParseError] for an angle
// beyond 180°.
func (e *EastWest) UnmarshalText(text []byte) error {
	f, err := parseEastWest(string(text))
	if err == nil {
		*e = f
	}
	return err
}

// parseEastWest reads an angle with or without an uncertainty.
func parseEastWest(text string) (EastWest, error) {
	figures, after, stated := strings.Cut(text, "±")
	a, err := ParseEastWest(figures)
	if err == nil && a.Abs() > Turn/2 {
		err = &ParseError{What: eastWest.what, Kind: OutOfRange, Want: "an angle from 180° W to 180° E"}
	}
	if err != nil {
		return EastWest{}, within(err, text, 0)
	}
	e := EastWestFrom(a)
	if stated {
		if e.uncertainty, err = parseUncertainty(after); err != nil {
			return EastWest{}, within(err, text, len(figures)+len("±"))
		}
	}
	return e, nil
}

// within turns an error about a part of a text into an error about the whole text.
func within(err error, text string, start int) error {
	if p, ok := errors.AsType[*ParseError](err); ok {
		return &ParseError{What: p.What, Input: text, Offset: p.Offset + start, Kind: p.Kind, Want: p.Want}
	}
	return err
}

// Format prints the angle with its name and the verbs of package fmt, as [Angle.Format]
// does: %v 4°15.5′W, %.0v 4°16′W, %.1f 4.3°W, %d 4°15′30″W.
func (e EastWest) Format(f fmt.State, verb rune) {
	formatTo(f, verb, make([]byte, 0, 32), "angle.EastWest", textForms{
		brief: func(b []byte) []byte { return append(b, e.String()...) },
		in: func(b []byte, unit Angle, decimals int) []byte {
			return e.east.appendNamed(b, eastWest, unit, 1, decimals)
		},
	})
}
