package deviation

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// Coefficients are the five approximate coefficients of a compass, as angles,
// east positive. On the heading z its deviation is
//
//	A + B sin z + C cos z + D sin 2z + E cos 2z
//
// (Handbook of Magnetic Compass Adjustment, formerly Pub. No. 226, chapter V; the formula from
// memory). A is constant, B and C are semicircular, D and E quadrantal. The heading z is by
// compass, unless magnetic is stated. The coefficients by compass and by magnetic heading differ in
// the second order. The formula holds to about 20° of deviation (Evans, Elementary Manual for the
// Deviations of the Compass in Iron Ships, 1870). Above that, use [ExactCoefficients].
type Coefficients struct {
	A angle.Angle `json:"A"`
	B angle.Angle `json:"B"`
	C angle.Angle `json:"C"`
	D angle.Angle `json:"D"`
	E angle.Angle `json:"E"`
}

// Curve returns the curve of the coefficients over compass or magnetic headings,
// a [Source]. It returns an [*Error] if a deviation exceeds 90°, or if the kind of heading is
// invalid.
func (k Coefficients) Curve(by HeadingKind) (*Curve, error) { return newCurve(by, k.harmonics()) }

// harmonics returns the coefficients as a function of the heading.
func (k Coefficients) harmonics() harmonic.Series {
	return harmonic.FromAngles(k.A, k.B, k.C, k.D, k.E)
}

// fromList returns the coefficients in a list; those that it lacks are zero.
func fromList(b []float64) Coefficients {
	var five [5]float64
	copy(five[:], b)
	return Coefficients{harmonic.Round(five[0]), harmonic.Round(five[1]), harmonic.Round(five[2]), harmonic.Round(five[3]), harmonic.Round(five[4])}
}

// String prints the coefficients in degrees to a hundredth, with their signs: A +0.50° B +3.00° C −2.00° D +1.20° E −0.30°.
func (k Coefficients) String() string {
	return fmt.Sprintf("A %s  B %s  C %s  D %s  E %s", say.Signed(k.A), say.Signed(k.B), say.Signed(k.C), say.Signed(k.D), say.Signed(k.E))
}
