package wmm

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

// The table as published; see coefficients/README.md. Only the body of [IGRF14] refers to
// it. So a program that never uses IGRF14 is linked without the table.
//
//go:embed coefficients/igrf14coeffs.txt
var igrf14Table string

var (
	igrf14Once sync.Once
	igrf14     *Set
)

// IGRF14 returns the International Geomagnetic Reference Field, 14th generation: 26
// models for 1900.0 to 2030.0. The table is read on the first call.
//
// [Models] uses it for dates before the World Magnetic Models.
func IGRF14() *Set {
	igrf14Once.Do(func() {
		s, err := ReadIGRF(strings.NewReader(igrf14Table))
		if err != nil {
			panic(err) // the table is part of the program
		}
		igrf14 = s
	})
	return igrf14
}

// igrfName is the name of the generation that comes with the package.
const igrfName = "IGRF-14"

// igrfUncertainty returns the uncertainty of the model of IGRF-14 that begins at an
// epoch.
//
// The error model of WMM2025 covers what every model of the main field leaves out: the field
// of the crust, and disturbances. The main field of the epoch adds its own error, here the
// root mean square of a horizontal component over the earth's surface. No published figure
// was at hand, so the figures come from the table itself. They are the residual at an epoch
// from a cubic through its neighbours, and the error of linear interpolation, rounded up.
// Before 1940 the table is too smooth to show its error, so the figure of 1940 to 1950
// applies. TestStatedErrorsOfEarlyEpochs computes the figures again.
func igrfUncertainty(epoch float64) UncertaintyModel {
	horizontal := 100.0 // nT
	switch {
	case epoch >= 2000:
		horizontal = 15
	case epoch >= 1965:
		horizontal = 35 // degrees 11 to 13, some 17 nT, are not in the table before 2000
	case epoch >= 1960:
		horizontal = 45
	case epoch >= 1955:
		horizontal = 60
	}
	// For a field with its sources inside the earth, the error down is √2 times as large.
	vertical := math.Sqrt2 * horizontal
	u := publishedUncertainty("WMM-2025")
	u.X, u.Y, u.H = math.Hypot(u.X, horizontal), math.Hypot(u.Y, horizontal), math.Hypot(u.H, horizontal)
	u.Z, u.F = math.Hypot(u.Z, vertical), math.Hypot(u.F, vertical)
	u.I = math.Hypot(u.I, degreesOf(vertical/weakestF))
	u.DSlope = math.Hypot(u.DSlope, degreesOf(horizontal))
	return u
}

// weakestF is about the least total intensity at the earth's surface, in nT.
const weakestF = 23_000

// degreesOf converts radians to degrees.
func degreesOf(radians float64) float64 { return radians * (180 / math.Pi) }
