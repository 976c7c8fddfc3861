// Package wmm computes the magnetic variation and the whole field of the earth at a place
// and date. It has the World Magnetic Model and the International Geomagnetic Reference
// Field, from 1900 to 2030, and reads other models of the same kind.
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
//   - The variation at a place and date: [Set.VariationAt] of [Models], as above. Or use
//     [Models] as the source of variation in package [lubberline.example/course].
//   - The whole field: [Set.On], then [Evaluator.Field].
//   - A map of isogonic lines, or a table: [Evaluator.Isogonics], [Evaluator.Rows].
//   - Whether a chart's rose still holds: [variation.Rose.Audit].
//   - Whether a compass can be trusted there: [Field.Zone].
//
// A [Model] is valid for some years. [Model.On] prepares it for a date. The result is an
// [Evaluator]. It computes the field at one place, or along the rows of a [Grid]
// ([Evaluator.Rows]). It also finds isogonic lines, the lines of equal variation
// ([Evaluator.Isogonics]). A [Set] of models chooses the model for a date. Models and sets
// are sources of variation ([variation.Source]) with the published uncertainty.
//
// # Components and signs
//
// The field is the magnetic flux density, in nT. X points to true north, Y to east and Z
// down. Latitudes are geodetic, and heights are above the WGS84 ellipsoid, in metres. H is
// the horizontal intensity and F the total intensity. D is the declination, which
// navigators call the variation: the direction of H from true north, east positive. I is
// the inclination or dip, down positive. Rates (the secular variation) are per year: nT a
// year, and degrees a year for D and I.
//
// # Accuracy
//
// No model contains local anomalies, the daily variation or magnetic storms. A model of
// degree n has no detail shorter than 40,000 km / n, which is 3,300 km for degree 12.
//
// The computed sums agree with a general-purpose geodesy library to 1e-7 nT, up to degree
// 133 and at the poles (testdata/README.md). The models fit the real field less well. The
// publisher's standard uncertainties are about 140 nT in a component. For D it is 0.4°
// where H is 20,000 nT, and more where H is weaker, up to 180° at the dip poles. See
// [UncertaintyModel].
//
// # Models that come with the package
//
// [WMM2025], [WMM2020] and [WMM2015v2] are valid from 2015.0 to 2030.0, and [IGRF14] from
// 1900.0 to 2030.0; see coefficients/README.md. [Models] uses the first three from 2015.0,
// and IGRF14 before. To read other models from their published files, use [ReadCOF] and
// [ReadIGRF].
//
// The table of IGRF14 is read when it is first needed. A program that uses neither
// IGRF14 nor Models is linked without the table.
//
// # Safe for use by several goroutines
//
// Models, sets and evaluators never change. [Evaluator.Field] allocates no memory.
package wmm
