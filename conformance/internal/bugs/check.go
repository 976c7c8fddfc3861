package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// checkBugs are mistakes in checking a compass by a known direction.
var checkBugs = slices.Concat(
	on("check.bearing", append(errorBugs(),
		slippedAs(slip.ReciprocalTaken, "reciprocal-read", "The reciprocal is read on the card, and the object's direction is turned for it.", before(opposite, "trueDegrees")),
	)...),
	on("check.amplitude", append(errorBugs(),
		bug("always-rising", "The Sun is taken as rising.", question(func(g given) { g["setting"] = false })),
		bug("rising-and-setting-exchanged", "Rising and setting are exchanged.", question(func(g given) { g["setting"] = g["setting"] != true })),
		bug("declination-negated", "The declination has the wrong name.", before(negated, "declinationDegrees")),
		bug("declination-name-ignored", "The declination is always of the latitude's name.", question(func(g given) {
			g["declinationDegrees"] = math.Copysign(number(g, "declinationDegrees"), number(g, "latitudeDegrees"))
		})),
		bug("latitude-left-out", "The amplitude is the declination.", before(zero, "latitudeDegrees")),
		bug("south-latitude-turns-the-name", "In south latitude the amplitude is named the other way.", question(func(g given) {
			if number(g, "latitudeDegrees") < 0 {
				edit(g, negated, "declinationDegrees")
			}
		})),
		bug("amplitude-without-name", "The amplitude has no name.", after(math.Abs, "amplitudeDegrees")),
		bug("amplitude-from-north", "The angle from north is given as the amplitude.", after(func(x float64) float64 { return 90 - x }, "amplitudeDegrees")),
		bug("amplitude-as-true", "The amplitude is taken as the true bearing.", reply(func(g given, a answer) {
			t := fullCircle(number(a, "amplitudeDegrees"))
			e := halfCircle(t - number(g, "compassDegrees"))
			a["trueDegrees"], a["errorDegrees"], a["deviationDegrees"] = t, e, e-number(g, "variationDegrees")
		})),
	)...),
	on("check.deviation",
		bug("exchanged", "The error is taken from the variation.", after(negated, "deviationDegrees")),
		bug("added", "The variation is added to the error.", before(negated, "variationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		bug("sign-lost", "The deviation has no sign.", after(math.Abs, "deviationDegrees")),
		bug("figures-subtracted", "The figures are subtracted without regard to their names.", before(math.Abs, "variationDegrees", "errorDegrees")),
		bug("always-west-smaller", "The smaller is taken from the larger.", reply(func(g given, a answer) {
			a["deviationDegrees"] = math.Abs(math.Abs(number(g, "errorDegrees")) - math.Abs(number(g, "variationDegrees")))
		})),
		slipped(slip.MinutesAsDecimals, after(minutesAsHundredths, "deviationDegrees")),
		bug("whole-degrees", "The deviation is rounded to whole degrees.", after(whole, "deviationDegrees")),
	),
)

// errorBugs are the mistakes in finding the error of a compass, and the deviation in it.
func errorBugs() []Bug {
	return []Bug{
		bug("error-negated", "The error is compass minus true.", after(negated, "errorDegrees")),
		bug("all-negated", "The true bearing is taken from the compass bearing.", reply(func(g given, a answer) {
			edit(a, negated, "errorDegrees")
			a["deviationDegrees"] = number(a, "errorDegrees") - number(g, "variationDegrees")
		})),
		bug("no-wrap", "A difference across north is left at more than 180°.", reply(func(g given, a answer) {
			t := number(g, "trueDegrees")
			if x, ok := a["trueDegrees"].(float64); ok {
				t = x
			}
			a["errorDegrees"] = t - number(g, "compassDegrees")
			a["deviationDegrees"] = number(a, "errorDegrees") - number(g, "variationDegrees")
		})),
		slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		bug("deviation-negated", "The deviation is variation minus error.", after(negated, "deviationDegrees")),
		bug("sign-lost", "The error has no sign.", after(math.Abs, "errorDegrees")),
		bug("whole-degrees", "The error and the deviation are rounded to whole degrees.", after(whole, "errorDegrees", "deviationDegrees")),
	}
}
