// Package wmm evaluates models of the earth's main magnetic field: the World
// Magnetic Model, the International Geomagnetic Reference Field, and any other
// given as Schmidt semi-normalised spherical-harmonic coefficients with yearly
// rates.
//
//	e, err := wmm.WMM2025().On(date)
//	field, err := e.Field(position, 0)
//	variation, err := field.D()
//
// A [Model] holds for some years. [Model.On] prepares it for a date as an
// [Evaluator], which answers at places: one by one, along the rows of a [Grid]
// ([Evaluator.Rows]), or as lines of equal variation ([Evaluator.Isogonics]). A
// [Set] of models picks the right one by date. Models and sets are sources of
// variation (variation.Source), with the published uncertainty.
//
// # Components and signs
//
// X points to true north, Y to east, Z down by the vertical of the WGS84
// ellipsoid, in nT. H is the horizontal, F the total intensity. D, the
// declination, which navigators call the variation, is east positive; I, the
// inclination or dip, is down positive. Heights are above the ellipsoid, in
// metres. Rates are of one year.
//
// # Accuracy
//
// The sums agree with a general-purpose geodesy library to 1e-7 nT, up to degree
// 133 and at the poles (testdata/README.md). How well a model fits the field is
// another matter, some 140 nT and some tenths of a degree: see [UncertaintyModel]. Local
// anomalies are in no model of the main field.
//
// # Models that come with the package
//
// [WMM2025], [WMM2020] and [WMM2015v2], for 2015.0 to 2030.0; see
// coefficients/README.md. Others are read from the files in which they are
// published, with [ReadCOF] and [ReadIGRF].
//
// # Safe for use by several goroutines
//
// Models, sets and evaluators do not change. Evaluating allocates nothing.
package wmm
