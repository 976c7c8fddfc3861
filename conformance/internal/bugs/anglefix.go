package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// angleFixBugs are mistakes with sextant angles and with the horizon.
var angleFixBugs = slices.Concat(
	on("fix.sextantAngles",
		bug("angles-exchanged", "The left and the right angle are exchanged.", question(func(g given) { swap(g, "leftAngleDegrees", "rightAngleDegrees") })),
		bug("outer-marks-exchanged", "The left and the right mark are exchanged.", question(func(g given) { swap(g, "left", "right") })),
		bug("middle-as-left", "The left and the middle mark are exchanged.", question(func(g given) { swap(g, "left", "middle") })),
		slippedAs(slip.RoundedOnTheWay, "whole-degrees", "The angles are rounded to whole degrees.", before(whole, "leftAngleDegrees", "rightAngleDegrees")),
		bug("angles-halved", "The angle at the centre is taken, twice that at the vessel.", before(times(0.5), "leftAngleDegrees", "rightAngleDegrees")),
		bug("angles-from-90", "The complement of the angle is laid off at the centre line.", before(func(x float64) float64 { return 90 - x }, "leftAngleDegrees", "rightAngleDegrees")),
		bug("near-answered", "The estimated position is given back.", reply(func(g given, a answer) {
			a["latitudeDegrees"], a["longitudeDegrees"] = number(g, "near.latitudeDegrees"), number(g, "near.longitudeDegrees")
		})),
		bug("near-ignored", "The estimated position is not used.", question(func(g given) { g["near"] = g["middle"] })),
		bug("right-angle-from-left", "The right angle is taken between the outer marks.", question(func(g given) {
			g["rightAngleDegrees"] = max(1, number(g, "rightAngleDegrees")-number(g, "leftAngleDegrees"))
		})),
		bug("exchanged", "Latitude and longitude of the fix are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
		slipped(slip.NorthForSouth, after(math.Abs, "latitudeDegrees")),
		slipped(slip.EastForWest, after(math.Abs, "longitudeDegrees")),
		bug("middle-mark", "The other point where the circles meet, the middle mark, is given.", reply(func(g given, a answer) {
			a["latitudeDegrees"], a["longitudeDegrees"] = number(g, "middle.latitudeDegrees"), number(g, "middle.longitudeDegrees")
		})),
	),
	on("fix.horizon",
		bug("metres", "The factor for metres, 2.08, is used with feet.", after(times(2.08/1.17), "horizonMiles")),
		bug("without-refraction", "Refraction is left out.", after(times(1.064/1.17), "horizonMiles")),
		bug("factor-1.14", "The factor is 1.14.", after(times(1.14/1.17), "horizonMiles")),
		bug("statute", "The distance is given in statute miles.", after(times(1/statute), "horizonMiles")),
		bug("root-forgotten", "The root is forgotten.", reply(func(g given, a answer) { a["horizonMiles"] = 1.17 * number(g, "heightFeet") })),
		bug("whole-miles", "The distance is rounded to the mile.", after(whole, "horizonMiles")),
		bug("height-in-metres", "The height is taken in metres.", before(times(1/0.3048), "heightFeet")),
		bug("kilometres", "The distance is given in kilometres.", after(times(1.852), "horizonMiles")),
	),
	on("fix.verticalAngle",
		bug("feet", "The height is taken in feet.", before(times(0.3048), "heightMetres")),
		bug("height-in-feet", "The height is turned into feet and taken in metres.", before(times(1/0.3048), "heightMetres")),
		bug("degrees-for-minutes", "The minutes are taken as degrees.", reply(func(g given, a answer) {
			a["distanceMiles"] = math.Abs(number(g, "heightMetres") / 1852 / tangent(number(g, "angleMinutes")))
		})),
		slipped(slip.MinutesAsDecimals, before(func(m float64) float64 { return 60 * (math.Floor(m/60) + math.Mod(m, 60)/100) }, "angleMinutes")),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles")),
		bug("kilometres", "The distance is given in kilometres.", after(times(1.852), "distanceMiles")),
		bug("multiplied", "The height is multiplied by the tangent.", reply(func(g given, a answer) {
			a["distanceMiles"] = number(g, "heightMetres") / 1852 * tangent(number(g, "angleMinutes")/60)
		})),
		bug("whole-minutes", "The angle is kept in whole minutes.", before(truncated, "angleMinutes")),
		bug("eye-height-taken-off", "Two metres of height of eye are taken off.", before(plus(-2), "heightMetres")),
		bug("sine", "The sine is used instead of the tangent.", reply(func(g given, a answer) {
			edit(a, times(1/cosine(number(g, "angleMinutes")/60)), "distanceMiles")
		})),
		bug("constant-0.565-of-feet", "The constant for feet, 0.565, is used with metres.", reply(func(g given, a answer) {
			a["distanceMiles"] = 0.565 * number(g, "heightMetres") / number(g, "angleMinutes")
		})),
		slipped(slip.RoundedTooFar, after(func(x float64) float64 { return math.Round(10*x) / 10 }, "distanceMiles")),
	),
	on("fix.verticalAngleBeyond",
		bug("short-of-the-horizon", "The waterline is taken as seen: height over tangent.", reply(func(g given, a answer) {
			a["distanceMiles"] = number(g, "heightFeet") * 0.3048 / 1852 / tangent(number(g, "angleMinutes")/60)
		})),
		bug("eye-left-out", "The height of eye is left out.", before(always(0.001), "heightOfEyeFeet")),
		bug("eye-added", "The height of eye is added to the object's.", question(func(g given) {
			g["heightFeet"], g["heightOfEyeFeet"] = number(g, "heightFeet")+number(g, "heightOfEyeFeet"), 0.001
		})),
		bug("dip-left-out", "The dip is not taken off the angle.", question(func(g given) {
			g["angleMinutes"] = number(g, "angleMinutes") + 0.97*math.Sqrt(number(g, "heightOfEyeFeet"))
		})),
		bug("dip-added", "The dip is added to the angle.", question(func(g given) {
			g["angleMinutes"] = number(g, "angleMinutes") + 1.94*math.Sqrt(number(g, "heightOfEyeFeet"))
		})),
		bug("metres", "The heights are taken in metres.", before(times(1/0.3048), "heightFeet", "heightOfEyeFeet")),
		bug("degrees-for-minutes", "The angle is divided by 60.", before(times(1.0/60), "angleMinutes")),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles")),
		bug("sum-of-horizons", "The two horizons are added: the range at which the top appears.", reply(func(g given, a answer) {
			a["distanceMiles"] = 1.17 * (math.Sqrt(number(g, "heightFeet")) + math.Sqrt(number(g, "heightOfEyeFeet")))
		})),
		bug("whole-miles", "The distance is rounded to the mile.", after(whole, "distanceMiles")),
	),
)
