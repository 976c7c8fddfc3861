package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// leewayBugs are mistakes with leeway.
var leewayBugs = slices.Concat(
	on("leeway.correct",
		slipped(slip.LeewayWrongSide, question(otherSide)),
		slipped(slip.LeewayLeftOut, before(zero, "leewayDegrees")),
		slippedAs(slip.LeewayWrongSide, "always-added", "Leeway is always added.", question(func(g given) { g["windOn"] = "port" })),
		slippedAs(slip.LeewayWrongSide, "always-subtracted", "Leeway is always subtracted.", question(func(g given) { g["windOn"] = "starboard" })),
		bug("leeway-twice", "The leeway is applied twice.", before(times(2), "leewayDegrees")),
		slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
		slipped(slip.DeviationWrongWay, before(negated, "deviationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		slipped(slip.DeviationLeftOut, before(zero, "deviationDegrees")),
		slipped(slip.VariationTwice, before(times(2), "variationDegrees")),
		slipped(slip.DeviationTwice, before(times(2), "deviationDegrees")),
		bug("no-wrap", "A course below 0° or over 360° stays.", reply(func(g given, a answer) {
			c := number(g, "compassDegrees")
			a["trueDegrees"] = c + halfCircle(number(a, "trueDegrees")-c)
		})),
		bug("leeway-in-whole-points", "The leeway is rounded to the point.", before(func(x float64) float64 { return math.Round(x/11.25) * 11.25 }, "leewayDegrees")),
		slipped(slip.RoundedOnTheWay, before(truncated, "compassDegrees", "leewayDegrees", "variationDegrees", "deviationDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "trueDegrees")),
	),
	on("leeway.toHead",
		slipped(slip.LeewayWrongSide, reply(func(g given, a answer) { headed(g, a, -1, 1) })),
		slipped(slip.LeewayLeftOut, reply(func(g given, a answer) { headed(g, a, 0, 1) })),
		bug("error-added", "The error is added, as from compass to true.", reply(func(g given, a answer) { headed(g, a, 1, -1) })),
		bug("error-left-out", "The true heading is given, not that of the compass.", before(zero, "errorDegrees")),
		bug("error-twice", "The error is applied twice.", reply(func(g given, a answer) { headed(g, a, 1, 2) })),
		bug("wind-toward", "The wind's direction is taken as the one it blows toward.", before(opposite, "windFromDegrees")),
		bug("sides-exchanged", "The words port and starboard are exchanged.", reply(func(_ given, a answer) { otherSide(a) })),
		bug("side-not-on-the-circle", "The wind is on the starboard side if its figure is larger than that of the track.", reply(func(g given, a answer) {
			side := "port"
			if number(g, "windFromDegrees") > number(g, "trackDegrees") {
				side = "starboard"
			}
			if side != a["windOn"] {
				a["windOn"] = side
				headed(g, a, 1, 1)
			}
		})),
		bug("always-starboard", "The wind is always on the starboard side.", reply(func(g given, a answer) {
			a["windOn"] = "starboard"
			headed(g, a, 1, 1)
		})),
		bug("side-by-eastern-half", "A wind from the eastern half is on the starboard side.", reply(func(g given, a answer) {
			a["windOn"] = "port"
			if number(g, "windFromDegrees") < 180 {
				a["windOn"] = "starboard"
			}
			headed(g, a, 1, 1)
		})),
		bug("no-wrap", "A heading below 0° or over 360° stays.", reply(func(g given, a answer) {
			t := number(g, "trackDegrees")
			a["headingDegrees"] = t + halfCircle(number(a, "headingDegrees")-t)
		})),
		slipped(slip.ReciprocalTaken, after(opposite, "headingDegrees")),
	),
)

// headed works the heading with the leeway and the error multiplied.
func headed(g given, a answer, leeway, correction float64) {
	l := number(g, "leewayDegrees")
	if a["windOn"] == "port" {
		l = -l
	}
	a["headingDegrees"] = fullCircle(number(g, "trackDegrees") + leeway*l - correction*number(g, "errorDegrees"))
}
