package wmm

import (
	"math"
	"strings"

	"lubberline.example/angle"
)

// An ErrorModel says how well a model fits the field at the earth's surface
// over its years, one standard deviation, with what the model leaves out: the
// field of the crust, and disturbances. The zero value says nothing.
type ErrorModel struct {
	X, Y, Z, H, F float64 // nT
	I             float64 // degrees

	// Of D, in degrees: √(DOffset² + (DSlope/H)²), H in nT, at most 180.
	DOffset, DSlope float64
}

// Stated reports whether the model says anything.
func (e ErrorModel) Stated() bool { return e != ErrorModel{} }

// D returns the standard uncertainty of the declination where the horizontal
// intensity is h, in nT; not stated if the model says nothing.
func (e ErrorModel) D(h float64) angle.Uncertainty {
	if !e.Stated() || math.IsNaN(h) {
		return angle.Uncertainty{}
	}
	degrees := min(math.Hypot(e.DOffset, e.DSlope/math.Abs(h)), 180)
	sigma, err := angle.Degrees(degrees)
	if err != nil { // NaN: nought over nought, or a model that says NaN
		return angle.Uncertainty{}
	}
	return angle.Must(angle.StandardUncertainty(sigma))
}

// publishedErrors returns the error model that was published with a model.
//
// The figures are of the technical reports of the World Magnetic Model (section
// 3.4 of that for 2025-2030) and the publisher's own software; for WMM2015v2
// those of WMM2015.
func publishedErrors(name string) ErrorModel {
	switch strings.ReplaceAll(name, "-", "") {
	case "WMM2025":
		return ErrorModel{137, 89, 141, 133, 138, 0.20, 0.26, 5417}
	case "WMMHR2025":
		return ErrorModel{135, 85, 134, 130, 134, 0.19, 0.25, 5205}
	case "WMM2020":
		return ErrorModel{131, 94, 157, 128, 145, 0.21, 0.26, 5625}
	case "WMM2015", "WMM2015v2":
		return ErrorModel{138, 89, 165, 133, 152, 0.22, 0.24, 5432}
	}
	return ErrorModel{}
}

// A Zone says how far a compass is to be trusted, by the horizontal intensity.
type Zone int

// The zones of the World Magnetic Model (technical report for 2020-2025).
const (
	Clear    Zone = iota // 6,000 nT and over
	Caution              // from 2,000 to under 6,000 nT: the compass may be sluggish and wrong
	Blackout             // under 2,000 nT: the compass is not to be relied upon
)

// String returns "clear", "caution" or "blackout".
func (z Zone) String() string {
	switch z {
	case Caution:
		return "caution"
	case Blackout:
		return "blackout"
	}
	return "clear"
}

// Zone returns the zone that the field belongs to.
func (f Field) Zone() Zone {
	switch h := f.H(); {
	case h < 2000:
		return Blackout
	case h < 6000:
		return Caution
	}
	return Clear
}
