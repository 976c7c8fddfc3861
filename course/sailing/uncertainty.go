package sailing

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
)

// An Uncertainty is the standard uncertainty (one standard deviation) of a distance or
// a speed, as an [angle.Uncertainty] is that of an angle. The zero value is not stated. A
// quantity that is known exactly has a stated uncertainty of 0.
type Uncertainty[Q Distance | Speed] struct {
	sigma  Q
	stated bool
}

// StandardUncertainty returns a stated standard uncertainty, such as
// StandardUncertainty(0.2*Knot). If sigma is below zero or not finite, it returns an
// [*angle.RangeError].
func StandardUncertainty[Q Distance | Speed](sigma Q) (Uncertainty[Q], error) {
	if !(sigma >= 0) || math.IsInf(float64(sigma), 0) {
		return Uncertainty[Q]{}, &angle.RangeError{What: "standard uncertainty", Value: float64(sigma), Accepted: "metres or metres a second, 0 or more"}
	}
	return Uncertainty[Q]{sigma + 0, true}, nil // no -0
}

// Sigma returns the standard uncertainty and whether it was stated.
func (u Uncertainty[Q]) Sigma() (sigma Q, stated bool) { return u.sigma, u.stated }

// Equal reports whether two uncertainties are the same; it is the same as ==.
func (u Uncertainty[Q]) Equal(v Uncertainty[Q]) bool { return u == v }

// String returns the uncertainty in the form ±0.2 kn or ±0.42 M, or "not stated".
func (u Uncertainty[Q]) String() string {
	if !u.stated {
		return "not stated"
	}
	return fmt.Sprint("±", u.sigma)
}

// measure is the measure of the quantity.
func (u Uncertainty[Q]) measure() *measure {
	if _, is := any(u.sigma).(Speed); is {
		return &speeds
	}
	return &distances
}

// MarshalText returns the exact uncertainty with a sign ± and its unit. If it is not stated,
// the text is empty.
func (u Uncertainty[Q]) MarshalText() ([]byte, error) {
	if !u.stated {
		return nil, nil
	}
	return u.measure().appendText([]byte("±"), float64(u.sigma))
}

// UnmarshalText reads what [Uncertainty.MarshalText] writes. The sign ± may be absent, and an
// empty text is "not stated". For other texts it returns an [*angle.ParseError].
func (u *Uncertainty[Q]) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*u = Uncertainty[Q]{}
		return nil
	}
	whole := string(text)
	figures := strings.TrimPrefix(whole, "±")
	sigma, err := u.measure().parse(figures)
	if p, ok := errors.AsType[*angle.ParseError](err); ok {
		p.Input, p.Offset = whole, p.Offset+len(whole)-len(figures)
		if p.Kind == angle.Empty {
			p.Kind = angle.NoNumber
		}
	}
	if err == nil && sigma < 0 {
		err = &angle.ParseError{What: u.measure().what + " uncertainty", Input: whole, Offset: len(whole) - len(figures), Kind: angle.SignNotAllowed, Want: "an uncertainty of 0 or more"}
	}
	if err != nil {
		return err
	}
	*u = Uncertainty[Q]{Q(sigma + 0), true}
	return nil
}
