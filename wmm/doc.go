// Package wmm evaluates models of the earth's main magnetic field: the World
// Magnetic Model, the International Geomagnetic Reference Field, and any other
// of sources inside the earth given as Schmidt semi-normalised spherical-harmonic
// coefficients with yearly rates.
//
//	bay := angle.MustParsePosition("47°06′N 019°02′W")
//	v, err := wmm.Models().VariationAt(bay, time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(v, v.Uncertainty()) // 5°08.2′W ±0°21.4′
//
// # Where to begin
//
//   - The variation at a place and date: [Set.VariationAt] of [Models], as above. Or give
//     [Models] to package [lubberline.example/course] as its source of variation.
//   - The whole field: [Set.On], then [Evaluator.Field].
//   - A map or a table: [Evaluator.Isogonics], [Evaluator.Rows].
//   - Whether a chart's rose still holds: [variation.Rose.Audit].
//   - Whether a compass is of any use there: [Field.Zone].
//
// A [Model] holds for some years. [Model.On] prepares it for a date as an
// [Evaluator], which answers at places: one by one, along the rows of a [Grid]
// ([Evaluator.Rows]), or as lines of equal variation ([Evaluator.Isogonics]). A
// [Set] of models picks the right one by date. Models and sets are sources of
// variation ([variation.Source]), with the published uncertainty.
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
// [WMM2025], [WMM2020] and [WMM2015v2], for 2015.0 to 2030.0, and [IGRF14], for 1900.0
// to 2030.0; see coefficients/README.md. [Models] answers by the first three where they
// hold, by the last before. Others are read from the files in which they are published,
// with [ReadCOF] and [ReadIGRF].
//
// The table of IGRF14 is read when it is first needed. A program that uses neither
// IGRF14 nor Models is linked without it.
//
// # Safe for use by several goroutines
//
// Models, sets and evaluators do not change. Evaluating allocates nothing.
package wmm
