package sailing

import (
	"encoding/json"
	"fmt"
	"math"

	"lubberline.example/angle"
)

// A Covariance says how well a position is known. It holds the variances of the position's
// errors to the north and to the east, and their covariance, in square metres.
//
// The zero value means unknown. The sum of an unknown covariance and any other is unknown too.
// For a position that is known exactly use [Exactly].
type Covariance struct {
	North float64 // variance of the error to the north, m²
	East  float64 // variance of the error to the east, m²
	Both  float64 // covariance of the two

	exact bool // stated, though all figures are zero
}

// Exactly returns the covariance of a position without errors.
func Exactly() Covariance { return Covariance{exact: true} }

// stated is a covariance that says something, even if all figures are zero.
func stated(north, east, both float64) Covariance {
	return Covariance{north, east, both + 0, north == 0 && east == 0 && both == 0}
}

// Stated reports whether the covariance is known.
func (c Covariance) Stated() bool { return c.exact || c.North != 0 || c.East != 0 || c.Both != 0 }

// Equal reports whether two covariances are the same.
func (c Covariance) Equal(d Covariance) bool {
	return c.North == d.North && c.East == d.East && c.Both == d.Both && c.Stated() == d.Stated()
}

// Circular returns the covariance of errors that are alike in all directions. Sigma is the
// standard uncertainty in each direction. Zero means no errors.
func Circular(sigma Distance) Covariance {
	v := float64(sigma) * float64(sigma)
	return stated(v, v, 0)
}

// Oriented returns the covariance of independent errors along a direction and across it.
// Along and across are standard uncertainties. Zero means no errors.
func Oriented(direction angle.True, along, across Distance) Covariance {
	s, c := direction.FromNorth().SinCos()
	a, b := float64(along)*float64(along), float64(across)*float64(across)
	return stated(a*c*c+b*s*s, a*s*s+b*c*c, (a-b)*s*c)
}

// Plus returns the covariance of the sum of independent errors. If either is not stated, the
// sum is not stated.
func (c Covariance) Plus(d Covariance) Covariance {
	if !c.Stated() || !d.Stated() {
		return Covariance{}
	}
	return stated(c.North+d.North, c.East+d.East, c.Both+d.Both)
}

// Along returns the standard uncertainty in a direction. It is not stated if the covariance
// is not stated, or if a variance is below zero, NaN or infinite.
func (c Covariance) Along(direction angle.True) Uncertainty[Distance] {
	if !c.Stated() {
		return Uncertainty[Distance]{}
	}
	s, k := direction.FromNorth().SinCos()
	variance := c.North*k*k + c.East*s*s + 2*c.Both*s*k
	if !(c.North >= 0 && c.East >= 0) || math.IsNaN(variance) || math.IsInf(variance, 0) {
		return Uncertainty[Distance]{}
	}
	return Uncertainty[Distance]{Distance(math.Sqrt(max(0, variance))), true} // rounding takes it below 0
}

// String returns the standard uncertainties to the north and to the east, and the correlation
// of the two errors: ±0.25 M north, ±0.40 M east, correlation +0.30. It prints tenths from 10
// M, and thousandths below a cable. It returns "not stated" for the zero value.
func (c Covariance) String() string {
	if !c.Stated() {
		return "not stated"
	}
	north, east := Distance(math.Sqrt(c.North)).NauticalMiles(), Distance(math.Sqrt(c.East)).NauticalMiles()
	decimals := 2
	switch larger := max(north, east); {
	case larger >= 9.995:
		decimals = 1
	case larger < 0.0995:
		decimals = 3
	}
	text := fmt.Sprintf("±%.*f M north, ±%.*f M east", decimals, north, decimals, east)
	if r := c.Both / math.Sqrt(c.North*c.East); math.Abs(r) >= 0.005 {
		text += fmt.Sprintf(", correlation %+.2f", r)
	}
	return text
}

// covarianceData is a covariance as it is written.
type covarianceData struct {
	North *float64 `json:"northSquareMetres"`
	East  *float64 `json:"eastSquareMetres"`
	Both  *float64 `json:"bothSquareMetres"`
}

// MarshalJSON returns the exact covariance in square metres, or null if it is not stated.
func (c Covariance) MarshalJSON() ([]byte, error) {
	if !c.Stated() {
		return []byte("null"), nil
	}
	return json.Marshal(covarianceData{&c.North, &c.East, &c.Both})
}

// UnmarshalJSON reads what [Covariance.MarshalJSON] writes. If one of the three figures is
// missing, it returns an [*angle.ParseError].
func (c *Covariance) UnmarshalJSON(text []byte) error {
	var data *covarianceData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	if data == nil {
		*c = Covariance{}
		return nil
	}
	if data.North == nil || data.East == nil || data.Both == nil {
		return &angle.ParseError{What: "covariance", Input: string(text), Kind: angle.Empty, Want: "northSquareMetres, eastSquareMetres and bothSquareMetres"}
	}
	*c = stated(*data.North, *data.East, *data.Both)
	return nil
}

// An Ellipse is the region about a position that holds the true position with a given
// probability.
type Ellipse struct {
	SemiMajor   Distance   `json:"semiMajor"`   // half the longer axis
	SemiMinor   Distance   `json:"semiMinor"`   // half the shorter axis
	MajorAxis   angle.True `json:"majorAxis"`   // in [000°, 180°)
	Probability float64    `json:"probability"` // between 0 and 1
}

// String returns the ellipse in the form ±1.2 M along 045°T, ±0.40 M across, 95 %.
func (e Ellipse) String() string {
	return fmt.Sprintf("±%v along %.0f, ±%v across, %.4g %%", e.SemiMajor, e.MajorAxis, e.SemiMinor, 100*e.Probability)
}

// Ellipse returns the ellipse that holds the true position with a probability,
// such as 0.95, if the errors are normal. If the probability is not between 0 and 1, or a
// variance is invalid, it returns an [*angle.RangeError]. If the covariance is
// not stated, it returns an [*Error] of the kind [NotStated].
func (c Covariance) Ellipse(probability float64) (Ellipse, error) {
	if !(probability > 0 && probability < 1) {
		return Ellipse{}, &angle.RangeError{What: "probability", Value: probability, Accepted: "between 0 and 1, such as 0.95"}
	}
	if !c.Stated() {
		return Ellipse{}, errorOf(NotStated, "the covariance of the position is not stated: state it, with Exactly if it is known exactly")
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
