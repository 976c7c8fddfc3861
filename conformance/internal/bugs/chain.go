package bugs

import (
	"math"
	"slices"
	"strings"

	"lubberline.example/conformance/slip"
)

// chainBugs are mistakes between compass, magnetic and true.
var chainBugs = slices.Concat(
	on("course.convert",
		slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
		slipped(slip.DeviationWrongWay, before(negated, "deviationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		slipped(slip.DeviationLeftOut, before(zero, "deviationDegrees")),
		slipped(slip.VariationTwice, before(times(2), "variationDegrees")),
		slipped(slip.DeviationTwice, before(times(2), "deviationDegrees")),
		slippedAs(slip.VariationWrongWay, "west-as-east", "The name of the variation is not looked at.", before(math.Abs, "variationDegrees")),
		slippedAs(slip.DeviationWrongWay, "deviation-west-as-east", "The name of the deviation is not looked at.", before(math.Abs, "deviationDegrees")),
		bug("always-added", "From true to compass the corrections are added too.", func(ask asker, g given) (answer, error) {
			if _, ok := g["trueDegrees"]; ok {
				edit(g, negated, "variationDegrees", "deviationDegrees")
			}
			return ask.same(g)
		}),
		bug("always-subtracted", "From compass to true the corrections are subtracted too.", func(ask asker, g given) (answer, error) {
			if _, ok := g["compassDegrees"]; ok {
				edit(g, negated, "variationDegrees", "deviationDegrees")
			}
			return ask.same(g)
		}),
		bug("variation-and-deviation-exchanged", "The variation is applied first where the deviation belongs, so that magnetic is wrong.", question(func(g given) {
			_, v := g["variationDegrees"]
			_, d := g["deviationDegrees"]
			if v && d {
				swap(g, "variationDegrees", "deviationDegrees")
			}
		})),
		bug("no-wrap-compass-to-true", "A true course below 0° or over 360° stays.", reply(func(g given, a answer) {
			if c, ok := g["compassDegrees"].(float64); ok {
				a["trueDegrees"] = c + number(a, "errorDegrees")
			}
		})),
		bug("no-wrap-true-to-compass", "A compass course below 0° or over 360° stays.", reply(func(g given, a answer) {
			if t, ok := g["trueDegrees"].(float64); ok {
				a["compassDegrees"] = t - number(a, "errorDegrees")
			}
		})),
		bug("no-wrap-magnetic", "A magnetic course below 0° or over 360° stays.", reply(func(g given, a answer) {
			if t, ok := g["trueDegrees"].(float64); ok {
				a["magneticDegrees"] = t - number(g, "variationDegrees")
			}
			if c, ok := g["compassDegrees"].(float64); ok {
				a["magneticDegrees"] = c + number(g, "deviationDegrees")
			}
		})),
		bug("error-negated", "The error has the wrong sign: compass minus true.", after(negated, "errorDegrees")),
		bug("error-is-variation", "The deviation is not in the error.", reply(func(g given, a answer) { a["errorDegrees"] = number(g, "variationDegrees") })),
		bug("error-difference", "The error is the variation less the deviation.", reply(func(g given, a answer) {
			a["errorDegrees"] = number(g, "variationDegrees") - number(g, "deviationDegrees")
		})),
		bug("magnetic-with-deviation", "Magnetic is true with the deviation applied.", reply(func(g given, a answer) {
			if t, ok := g["trueDegrees"].(float64); ok {
				a["magneticDegrees"] = fullCircle(t - number(g, "deviationDegrees"))
			}
		})),
		slipped(slip.RoundedTooFar, after(whole, "trueDegrees", "magneticDegrees", "compassDegrees")),
		slipped(slip.TensMisread, after(func(x float64) float64 { return fullCircle(x + 10) }, "trueDegrees", "magneticDegrees", "compassDegrees")),
		slipped(slip.FiguresTransposed, after(func(x float64) float64 {
			tens, units := math.Mod(math.Floor(x/10), 10), math.Mod(math.Floor(x), 10)
			return x + 9*(units-tens)
		}, "trueDegrees", "magneticDegrees", "compassDegrees")),
		slippedAs(slip.RoundedOnTheWay, "rounded-corrections", "The corrections are rounded to whole degrees.", before(whole, "variationDegrees", "deviationDegrees")),
		slippedAs(slip.RoundedOnTheWay, "cut-corrections", "The corrections are kept as whole numbers.", before(truncated, "variationDegrees", "deviationDegrees")),
		bug("point-cut", "The nearest point is the one before, not the nearest.", reply(func(_ given, a answer) {
			a["compassPoint"] = points[int(math.Floor(number(a, "compassDegrees")/11.25))%32]
		})),
		bug("quadrantal-from-east", "S 79° W is written as W 11° S.", reply(func(_ given, a answer) {
			a["compassQuadrantal"] = strings.Replace(text(a, "compassQuadrantal"), "S 79° W", "W 11° S", 1)
		})),
		bug("west-of-quadrantal-lost", "N 87° W is read as N 87° E.", texts("magneticText", "W", "E")),
	),
	on("course.bearing",
		slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
		slipped(slip.DeviationWrongWay, before(negated, "deviationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		slipped(slip.DeviationLeftOut, before(zero, "deviationDegrees")),
		slipped(slip.VariationTwice, before(times(2), "variationDegrees")),
		slipped(slip.DeviationTwice, before(times(2), "deviationDegrees")),
		bug("head-for-bearing", "The heading is corrected, not the bearing.", question(func(g given) { g["bearingText"] = g["headText"] })),
		bug("no-wrap", "A true bearing below 0° or over 360° stays.", reply(func(_ given, a answer) {
			a["trueBearingDegrees"] = number(a, "compassBearingDegrees") + number(a, "errorDegrees")
		})),
		bug("subtracted", "The error is subtracted, as from true to compass.", reply(func(_ given, a answer) {
			a["trueBearingDegrees"] = fullCircle(number(a, "compassBearingDegrees") - number(a, "errorDegrees"))
		})),
		bug("error-difference", "The error is the variation less the deviation.", reply(func(g given, a answer) {
			a["errorDegrees"] = number(g, "variationDegrees") - number(g, "deviationDegrees")
		})),
		slipped(slip.ReciprocalTaken, after(opposite, "trueBearingDegrees")),
		bug("fraction-left-out", "The fraction of a point in the bearing is left out.", texts("bearingText", " 1/4 E", "", " 1/4 N", "")),
	),
	on("course.deduce",
		bug("error-negated", "The true direction is taken from the compass direction.", func(ask asker, g given) (answer, error) {
			swap(g, "trueDegrees", "compassDegrees")
			return ask.same(g)
		}),
		bug("no-wrap", "A difference across north is left at more than 180°.", reply(func(g given, a answer) {
			e := number(g, "trueDegrees") - number(g, "compassDegrees")
			a["errorDegrees"] = e
			if v, ok := g["variationDegrees"].(float64); ok {
				a["deviationDegrees"] = e - v
			}
			if d, ok := g["deviationDegrees"].(float64); ok {
				a["variationDegrees"] = e - d
			}
		})),
		bug("added", "The known part is added to the error, not subtracted.", before(negated, "variationDegrees", "deviationDegrees")),
		bug("known-part-left-out", "The error is given as the unknown part.", before(zero, "variationDegrees", "deviationDegrees")),
		bug("part-negated", "The unknown part has the wrong sign.", after(negated, "variationDegrees", "deviationDegrees")),
		bug("sign-lost", "The error has no sign.", after(math.Abs, "errorDegrees")),
		bug("parts-exchanged", "Variation is answered where deviation is asked.", reply(func(_ given, a answer) {
			if d, ok := a["deviationDegrees"]; ok {
				a["variationDegrees"] = d
				delete(a, "deviationDegrees")
			}
		})),
		bug("whole-degrees", "The error is rounded to whole degrees.", after(whole, "errorDegrees", "deviationDegrees", "variationDegrees")),
	),
)
