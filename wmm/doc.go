// Package wmm evaluates models of the earth's main magnetic field: the World
// Magnetic Model, the International Geomagnetic Reference Field, and any other
// of sources inside the earth given as Schmidt semi-normalised spherical-harmonic
// coefficients with yearly rates.
//
//	e, err := wmm.WMM2025().On(date)
//	if err != nil {
//		log.Fatal(err) // a date outside 2025.0 to 2030.0
//	}
//	field, err := e.Field(position, 0) // on the ellipsoid, which at sea will do
//	if err != nil {
//		log.Fatal(err)
//	}
//	declination, err := field.D() // the variation, east positive
//
// # Where to begin
//
//   - The variation for a conversion or an audit: give [Models], or a [Model], as a
//     source of variation (variation.Source), with its published uncertainty.
//   - The field at places on one date: [Model.On], then [Evaluator.Field] or
//     [Evaluator.FieldAndRates].
//   - A grid of places: [Evaluator.Rows]. Lines of equal variation:
//     [Evaluator.Isogonics].
//   - The right model for each date: a [Set].
//   - Whether a compass is of any use there: [Field.Zone].
//
// # Components and signs
//
// The field is the magnetic flux density, in nT. X points to true north, Y to east,
// Z down by the vertical of the WGS84 ellipsoid, so that latitudes are geodetic. H is
// the horizontal, F the total intensity. D, the declination, which navigators call
// the variation, is the direction of H from true north, east positive; I, the
// inclination or dip, is down positive. Heights are above the ellipsoid, in metres.
// Rates, the secular variation, are of one year: nT a year, and degrees a year of D
// and I.
//
// # Accuracy
//
// The sums agree with a general-purpose geodesy library to 1e-7 nT, up to degree
// 133 and at the poles (testdata/README.md). How well a model fits the field is
// another matter: by the publisher's figures some 140 nT in a component, and 0.4° in
// D where H is 20,000 nT, more as H grows weaker, up to 180° at the dip poles; see
// [UncertaintyModel]. A model of degree n shows nothing shorter than 40,000 km / n:
// 3,300 km for degree 12. So local anomalies, of the sea bed or of wrecks, are in
// none; nor are the daily variation and magnetic storms, whose sources are outside
// the earth.
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
