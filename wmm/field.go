package wmm

import (
	"math"

	"lubberline.example/angle"
)

// A Field is the earth's main magnetic field at a place and a time: the magnetic
// flux density, in nT. The zero value is a field of zero.
type Field struct {
	X float64 `json:"xNanotesla"` // toward true north, in nT
	Y float64 `json:"yNanotesla"` // toward east, in nT
	Z float64 `json:"zNanotesla"` // down, in nT
}

// H returns the horizontal intensity, in nT. It is the part of the field that directs a
// compass.
func (f Field) H() float64 { return math.Hypot(f.X, f.Y) }

// F returns the total intensity, in nT.
func (f Field) F() float64 { return math.Hypot(f.H(), f.Z) }

// D returns the declination, which navigators call the variation, east positive,
// in (−180°, 180°]. If the horizontal intensity is zero, it returns an
// [*angle.RangeError].
func (f Field) D() (angle.Angle, error) { return angle.Atan2(f.Y, f.X) }

// I returns the inclination or dip, down positive, in [−90°, 90°]. If the field is zero,
// it returns an [*angle.RangeError].
func (f Field) I() (angle.Angle, error) { return angle.Atan2(f.Z, f.H()) }

// GridVariation returns the angle from grid north to magnetic north, in (−180°, 180°],
// east positive. The grid is parallel to the meridian of Greenwich, as on charts of the
// polar regions. The result is D minus the longitude from 55° N, and D plus the longitude
// from 55° S. f must be the field at p. Between the two parallels, and where the
// horizontal intensity is zero, it reports false.
func (f Field) GridVariation(p angle.Position) (angle.Angle, bool) {
	d, err := f.D()
	if err != nil {
		return 0, false
	}
	switch lat := p.Latitude.Angle(); {
	case lat >= 55*angle.Degree:
		return (d - p.Longitude.Angle()).NormalizedSigned(), true
	case lat <= -55*angle.Degree:
		return (d + p.Longitude.Angle()).NormalizedSigned(), true
	}
	return 0, false
}

// Rates are the yearly change of a [Field] (its secular variation), in nT a year. The zero
// value is no change.
type Rates struct {
	X float64 `json:"xNanoteslaPerYear"` // toward true north, in nT a year
	Y float64 `json:"yNanoteslaPerYear"` // toward east, in nT a year
	Z float64 `json:"zNanoteslaPerYear"` // down, in nT a year
}

// H returns the yearly change of the horizontal intensity of a field, in nT. It is
// NaN where the horizontal intensity is zero.
func (r Rates) H(f Field) float64 { return (f.X*r.X + f.Y*r.Y) / f.H() }

// F returns the yearly change of the total intensity of a field, in nT. It is NaN if the
// field is zero.
func (r Rates) F(f Field) float64 { return (f.X*r.X + f.Y*r.Y + f.Z*r.Z) / f.F() }

// D returns the yearly change of the declination of a field, in degrees, east positive. If
// it is positive, westerly variation decreases. It is NaN where the horizontal intensity is
// zero.
func (r Rates) D(f Field) float64 {
	return (f.X*r.Y - f.Y*r.X) / (f.X*f.X + f.Y*f.Y) * (180 / math.Pi)
}

// I returns the yearly change of the inclination of a field, in degrees, down
// positive. It is NaN where the horizontal intensity is zero.
func (r Rates) I(f Field) float64 {
	h, total := f.H(), f.F()
	return (h*r.Z - f.Z*r.H(f)) / (total * total) * (180 / math.Pi)
}
