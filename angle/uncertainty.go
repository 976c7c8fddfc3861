package angle

import (
	"errors"
	"math"
	"strings"
)

// An Uncertainty is the standard uncertainty (one standard deviation) of an angle, or
// unknown. The zero value is unknown, and prints as "not stated". An angle that is known
// exactly has a stated uncertainty of 0.
type Uncertainty struct {
	sigma  Angle
	stated bool
}

// StandardUncertainty returns a stated standard uncertainty. If sigma is negative, it
// returns a [*RangeError].
func StandardUncertainty(sigma Angle) (Uncertainty, error) {
	if sigma < 0 {
		return Uncertainty{}, &RangeError{What: "standard uncertainty", Value: sigma.Degrees(), Accepted: "0° or more"}
	}
	return Uncertainty{sigma, true}, nil
}

// Rectangular returns the standard uncertainty of a figure printed to the nearest step:
// the step divided by √12. The true value may be anywhere within half a step. (JCGM
// 100:2008, the Guide to the Expression of Uncertainty in Measurement, F.2.2.1.) The sign
// of step does not matter.
func Rectangular(step Angle) Uncertainty {
	return Uncertainty{Angle(math.Round(math.Abs(float64(step)) / math.Sqrt(12))), true}
}

// Sigma returns the standard uncertainty and whether it was stated.
func (u Uncertainty) Sigma() (sigma Angle, stated bool) { return u.sigma, u.stated }

// Combined returns the uncertainty of a sum or difference of independent angles: the root
// of the sum of squares (JCGM 100:2008, 5.1.2). If one of the uncertainties is unknown,
// the result is unknown.
func (u Uncertainty) Combined(others ...Uncertainty) Uncertainty {
	// The squares are at most 1e38. The conversions keep them from being fused with the sum,
	// so that all machines give the same last digit.
	squares, stated := float64(float64(u.sigma)*float64(u.sigma)), u.stated
	for _, o := range others {
		squares += float64(float64(o.sigma) * float64(o.sigma))
		stated = stated && o.stated
	}
	if !stated {
		return Uncertainty{}
	}
	return Uncertainty{saturated(math.Sqrt(squares)), true}
}

// Scaled returns the uncertainty of the angle multiplied by a factor. The sign of factor
// does not matter. If factor is NaN, the result is unknown.
func (u Uncertainty) Scaled(factor float64) Uncertainty {
	if !u.stated || math.IsNaN(factor) {
		return Uncertainty{}
	}
	return Uncertainty{saturated(float64(u.sigma) * math.Abs(factor)), true}
}

// saturated converts a size in units to an Angle, at most the largest Angle.
func saturated(units float64) Angle {
	if !(units < math.MaxInt64) {
		return math.MaxInt64
	}
	return Angle(math.Round(units))
}

// Equal reports whether two uncertainties are equal, as == does.
func (u Uncertainty) Equal(v Uncertainty) bool { return u == v }

// String returns the uncertainty, rounded to a tenth of a minute: ±0°30′. If it is
// unknown, String returns "not stated".
func (u Uncertainty) String() string {
	if !u.stated {
		return "not stated"
	}
	return string(u.sigma.appendTenths(append(make([]byte, 0, longText), "±"...)))
}

// AppendText appends the exact uncertainty with the sign ±. If it is unknown, AppendText
// appends nothing.
func (u Uncertainty) AppendText(b []byte) ([]byte, error) {
	if !u.stated {
		return b, nil
	}
	return u.sigma.AppendText(append(b, "±"...))
}

// MarshalText returns the text of [Uncertainty.AppendText].
func (u Uncertainty) MarshalText() ([]byte, error) { return u.AppendText(nil) }

// UnmarshalText reads what [Uncertainty.MarshalText] writes. The sign ± may be left out.
// An empty text gives an unknown uncertainty.
func (u *Uncertainty) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*u = Uncertainty{}
		return nil
	}
	whole := string(text)
	figures := strings.TrimPrefix(whole, "±")
	v, err := parseUncertainty(figures)
	if err != nil {
		return within(err, whole, len(whole)-len(figures))
	}
	*u = v
	return nil
}

// parseUncertainty reads the angle after the sign ±.
func parseUncertainty(text string) (Uncertainty, error) {
	s := scanner{input: text, what: "standard uncertainty", want: "an uncertainty such as 0°30′"}
	a, err := s.whole()
	if p, ok := errors.AsType[*ParseError](err); ok && p.Kind == Empty {
		p.Kind = NoNumber
	}
	if err == nil && a < 0 {
		err = &ParseError{What: "standard uncertainty", Input: text, Kind: SignNotAllowed, Want: "an uncertainty of 0° or more"}
	}
	if err != nil {
		return Uncertainty{}, err
	}
	return Uncertainty{a, true}, nil
}
