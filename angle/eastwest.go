package angle

import (
	"errors"
	"fmt"
	"strings"
)

// An EastWest is the angle by which one north, or one reading, lies east
// (positive) or west of another, and how well it is known. The variation, the
// deviation and the total error of a compass are each an EastWest. The zero
// value is zero, with no uncertainty stated.
//
// Values compare with ==, uncertainty included.
type EastWest struct {
	east        Angle
	uncertainty Uncertainty
}

// EastWestFrom returns the offset of an angle to the east, in (−180°, 180°]: an
// angle beyond goes on round the circle.
func EastWestFrom(east Angle) EastWest { return EastWest{east: east.NormalizedSigned()} }

// Angle returns the angle, east positive, in (−180°, 180°].
func (e EastWest) Angle() Angle { return e.east }

// Degrees returns the number of degrees, east positive.
func (e EastWest) Degrees() float64 { return e.east.Degrees() }

// Uncertainty returns how well the angle is known.
func (e EastWest) Uncertainty() Uncertainty { return e.uncertainty }

// WithUncertainty returns the same angle, known as well as given.
func (e EastWest) WithUncertainty(u Uncertainty) EastWest {
	e.uncertainty = u
	return e
}

// Plus returns the sum of two offsets, as of variation and deviation, with
// their uncertainties combined as of independent angles.
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

// Equal reports whether two offsets and their uncertainties are the same; it is
// the same as ==.
func (e EastWest) Equal(f EastWest) bool { return e == f }

// String returns the angle in degrees and minutes with its name, to a tenth of
// a minute, without the tenth if that is zero: 4°15′W. It is rounded, and
// leaves the uncertainty out; for both exactly see [EastWest.AppendText].
func (e EastWest) String() string { return e.east.EastWest() }

// AppendText appends the exact angle with its name and, if it is stated, the
// uncertainty: 4°15′W, 4°15′W ±0°30′.
func (e EastWest) AppendText(b []byte) ([]byte, error) {
	b = e.east.appendExactEastWest(b)
	if _, stated := e.uncertainty.Sigma(); !stated {
		return b, nil
	}
	return e.uncertainty.AppendText(append(b, ' '))
}

// MarshalText returns the exact text of [EastWest.AppendText].
func (e EastWest) MarshalText() ([]byte, error) { return e.AppendText(nil) }

// UnmarshalText reads an angle as [ParseEastWest] does, with or without a
// standard uncertainty after it: 4°15′W, -4.25, 4°15′W ±0°30′. Beyond 180° it is
// refused.
func (e *EastWest) UnmarshalText(text []byte) error {
	f, err := parseEastWest(string(text))
	if err == nil {
		*e = f
	}
	return err
}

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

// within makes a refusal of a part of a text one of the whole text.
func within(err error, text string, start int) error {
	if p, ok := errors.AsType[*ParseError](err); ok {
		return &ParseError{What: p.What, Input: text, Offset: p.Offset + start, Kind: p.Kind, Want: p.Want}
	}
	return err
}

// Format prints the angle with its name by the verbs of package fmt, as [Angle.Format]
// does: %v 4°15.5′W, %.0v 4°16′W, %.1f 4.3°W, %d 4°15′30″W.
func (e EastWest) Format(f fmt.State, verb rune) {
	formatTo(f, verb, make([]byte, 0, 32), "angle.EastWest", textForms{
		brief: func(b []byte) []byte { return append(b, e.String()...) },
		in: func(b []byte, unit Angle, decimals int) []byte {
			return e.east.appendNamed(b, eastWest, unit, 1, decimals)
		},
	})
}
