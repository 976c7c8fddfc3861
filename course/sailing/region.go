package sailing

import (
	"math"

	"lubberline.example/angle"
)

// A Covariance says how well a position is known: the variances of its errors to
// the north and to the east, and what they have in common, in square metres. The
// zero value is a position known exactly.
type Covariance struct {
	North float64 `json:"north"` // variance of the error to the north, m²
	East  float64 `json:"east"`  // variance of the error to the east, m²
	Both  float64 `json:"both"`  // covariance of the two, m²
}

// Circular returns the covariance of errors that are alike in all directions, with a
// standard uncertainty in each.
func Circular(sigma Distance) Covariance {
	v := float64(sigma) * float64(sigma)
	return Covariance{North: v, East: v}
}

// Oriented returns the covariance of independent errors along a direction and
// across it, by their standard uncertainties.
func Oriented(direction angle.True, along, across Distance) Covariance {
	s, c := direction.FromNorth().SinCos()
	a, b := float64(along)*float64(along), float64(across)*float64(across)
	return Covariance{North: a*c*c + b*s*s, East: a*s*s + b*c*c, Both: (a - b) * s * c}
}

// Plus returns the covariance of the sum of independent errors.
func (c Covariance) Plus(d Covariance) Covariance {
	return Covariance{c.North + d.North, c.East + d.East, c.Both + d.Both}
}

// Along returns the standard uncertainty in a direction.
func (c Covariance) Along(direction angle.True) Distance {
	s, k := direction.FromNorth().SinCos()
	return Distance(math.Sqrt(max(0, c.North*k*k+c.East*s*s+2*c.Both*s*k)))
}

// An Ellipse is the region about a position that holds the true one with a
// probability.
type Ellipse struct {
	SemiMajor   Distance   `json:"semiMajor"`   // half the longer axis
	SemiMinor   Distance   `json:"semiMinor"`   // half the shorter axis
	MajorAxis   angle.True `json:"majorAxis"`   // where the longer lies, in [000°, 180°)
	Probability float64    `json:"probability"` // that it holds the position, between 0 and 1
}

// Ellipse returns the ellipse that holds the true position with a probability,
// such as 0.95, if the errors are normal. The probability must be between 0 and 1;
// otherwise a [*angle.RangeError], as for variances that are none.
func (c Covariance) Ellipse(probability float64) (Ellipse, error) {
	if !(probability > 0 && probability < 1) {
		return Ellipse{}, &angle.RangeError{What: "probability", Value: probability, Accepted: "between 0 and 1, such as 0.95"}
	}
	if !(c.North >= 0 && c.East >= 0) || math.IsInf(c.North+c.East, 0) || math.IsNaN(c.Both) || math.IsInf(c.Both, 0) {
		return Ellipse{}, &angle.RangeError{What: "variance", Value: min(c.North, c.East), Accepted: "square metres, 0 or more"}
	}
	half := math.Hypot((c.North-c.East)/2, c.Both)
	middle := (c.North + c.East) / 2
	// The chi-square distribution of two degrees of freedom is exponential.
	k := math.Sqrt(-2 * math.Log1p(-probability))
	e := Ellipse{
		SemiMajor: Distance(k * math.Sqrt(max(0, middle+half))), SemiMinor: Distance(k * math.Sqrt(max(0, middle-half))),
		Probability: probability,
	}
	if twice, err := angle.Atan2(2*c.Both, c.North-c.East); err == nil {
		axis := angle.TrueFrom(twice / 2)
		if axis.FromNorth() >= angle.Turn/2 {
			axis = axis.Reciprocal()
		}
		e.MajorAxis = axis
	}
	return e, nil
}
