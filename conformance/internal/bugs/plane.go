package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// planeBugs are mistakes in plane sailing, in traverses and in the distance run.
var planeBugs = slices.Concat(
	on("sailing.plane",
		slipped(slip.SineForCosine, before(fromEast, "courseDegrees")),
		slipped(slip.NorthForSouth, after(negated, "dLatMinutes")),
		slipped(slip.EastForWest, after(negated, "departureMiles")),
		bug("signs-lost", "Difference of latitude and departure have no names.", after(math.Abs, "dLatMinutes", "departureMiles")),
		slipped(slip.ReciprocalTaken, before(opposite, "courseDegrees")),
		slipped(slip.CosineLeftOut, reply(func(g given, a answer) { a["dLatMinutes"] = g["distanceMiles"] })),
		bug("degrees", "The difference of latitude is given in degrees.", after(times(1.0/60), "dLatMinutes")),
		bug("course-in-points", "The course is rounded to the point.", before(func(x float64) float64 { return math.Mod(math.Round(x/11.25)*11.25, 360) }, "courseDegrees")),
		slipped(slip.StatuteForNautical, before(times(statute), "distanceMiles")),
		bug("tangent", "The tangent is used instead of the sine.", reply(func(g given, a answer) {
			a["departureMiles"] = number(a, "dLatMinutes") * tangent(number(g, "courseDegrees")) / cosine(number(g, "courseDegrees"))
		})),
		slipped(slip.RoundedTooFar, after(whole, "dLatMinutes", "departureMiles")),
		bug("whole-miles", "The distance is kept in whole miles.", before(truncated, "distanceMiles")),
	),
	on("sailing.planeOf",
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "courseDegrees")),
		bug("first-quadrant", "The course is always in the north-eastern quadrant.", before(math.Abs, "dLatMinutes", "departureMiles")),
		slipped(slip.SineForCosine, after(fromEast, "courseDegrees")),
		slipped(slip.NorthForSouth, before(negated, "dLatMinutes")),
		slipped(slip.EastForWest, before(negated, "departureMiles")),
		bug("western-half-negative", "A course of the western half is negative.", after(halfCircle, "courseDegrees")),
		bug("due-east-refused", "Without a difference of latitude there is no quotient.", refuses("out-of-range", func(g given) bool { return number(g, "dLatMinutes") == 0 })),
		bug("due-east-is-north", "Without a difference of latitude the course is 0°.", reply(func(g given, a answer) {
			if number(g, "dLatMinutes") == 0 {
				a["courseDegrees"] = 0.0
			}
		})),
		bug("due-west-is-east", "Without a difference of latitude the course is 90°.", reply(func(g given, a answer) {
			if number(g, "dLatMinutes") == 0 {
				a["courseDegrees"] = 90.0
			}
		})),
		bug("sum-as-distance", "The sides are added for the distance.", reply(func(g given, a answer) {
			a["distanceMiles"] = math.Abs(number(g, "dLatMinutes")) + math.Abs(number(g, "departureMiles"))
		})),
		bug("distance-over-cosine", "The distance is the difference of latitude over the cosine, infinite due east.", reply(func(g given, a answer) {
			a["distanceMiles"] = number(g, "dLatMinutes") / cosine(number(a, "courseDegrees"))
		})),
		slipped(slip.ReciprocalTaken, after(opposite, "courseDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "courseDegrees", "distanceMiles")),
	),
	on("sailing.planeAlong",
		slipped(slip.SineForCosine, reply(func(g given, a answer) {
			d := math.Abs(number(g, "dLatMinutes") / sine(number(g, "courseDegrees")))
			a["distanceMiles"], a["departureMiles"] = d, math.Abs(d)*cosine(number(g, "courseDegrees"))
		})),
		bug("multiplied", "The difference of latitude is multiplied by the cosine.", reply(func(g given, a answer) {
			a["distanceMiles"] = number(g, "dLatMinutes") * cosine(number(g, "courseDegrees"))
		})),
		slipped(slip.EastForWest, after(negated, "departureMiles")),
		bug("departure-unsigned", "The departure has no name.", after(math.Abs, "departureMiles")),
		bug("distance-signed", "Toward south the distance is negative.", reply(func(g given, a answer) { edit(a, times(math.Copysign(1, number(g, "dLatMinutes"))), "distanceMiles") })),
		bug("cotangent", "The departure is the difference of latitude over the tangent.", reply(func(g given, a answer) {
			a["departureMiles"] = number(g, "dLatMinutes") / tangent(number(g, "courseDegrees"))
		})),
		bug("course-from-axis", "The course is cut to the nearest of north and south.", before(func(x float64) float64 {
			if c := cosine(x); c < 0 {
				return 180
			}
			return 0
		}, "courseDegrees")),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles")),
		bug("other-side-answered", "A course away from the latitude gives a negative distance.", accepts("out-of-range", func(g given) answer {
			return answer{"distanceMiles": math.Abs(number(g, "dLatMinutes") / cosine(number(g, "courseDegrees"))), "departureMiles": 0.0}
		})),
		slipped(slip.RoundedTooFar, after(whole, "distanceMiles", "departureMiles")),
	),
	on("sailing.traverse",
		bug("last-leg-left-out", "The last leg is left out.", legs(func(c, d []float64) ([]float64, []float64) { return c[:len(c)-1], d[:len(d)-1] })),
		bug("first-leg-left-out", "The first leg is left out.", legs(func(c, d []float64) ([]float64, []float64) { return c[1:], d[1:] })),
		bug("first-two-legs", "Only two legs are worked.", legs(func(c, d []float64) ([]float64, []float64) { return c[:2], d[:2] })),
		bug("distances-shifted", "Each course has the distance of the next leg.", legs(func(c, d []float64) ([]float64, []float64) { return c, append(slices.Clone(d[1:]), d[0]) })),
		bug("mean-course", "The courses are averaged.", reply(func(g given, a answer) {
			x := mean(list(g, "courseDegrees"))
			d := number(a, "distanceMadeGoodMiles")
			a["courseMadeGoodDegrees"], a["dLatMinutes"], a["departureMiles"] = x, d*cosine(x), d*sine(x)
		})),
		bug("distances-added", "The distances are added.", reply(func(g given, a answer) {
			a["distanceMadeGoodMiles"] = mean(list(g, "distanceMiles")) * float64(len(list(g, "distanceMiles")))
		})),
		slipped(slip.SineForCosine, before(fromEast, "courseDegrees")),
		slipped(slip.NorthForSouth, after(negated, "dLatMinutes")),
		slipped(slip.EastForWest, after(negated, "departureMiles")),
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "courseMadeGoodDegrees")),
		bug("western-half-negative", "A course of the western half is negative.", after(halfCircle, "courseMadeGoodDegrees")),
		slipped(slip.ReciprocalTaken, after(opposite, "courseMadeGoodDegrees")),
		slipped(slip.StatuteForNautical, after(times(statute), "distanceMadeGoodMiles", "dLatMinutes", "departureMiles")),
	),
	on("sailing.distance",
		slipped(slip.KnotsTimesMinutes, reply(func(g given, a answer) { a["distanceMiles"] = number(g, "speedKnots") * number(g, "minutes") })),
		slipped(slip.MinutesAsDecimals, before(func(m float64) float64 { return 60 * (math.Floor(m/60) + math.Mod(m, 60)/100) }, "minutes")),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles")),
		bug("whole-hours", "Only whole hours are counted.", before(func(m float64) float64 { return 60 * math.Floor(m/60) }, "minutes")),
		bug("whole-minutes", "The seconds are left out.", before(math.Floor, "minutes")),
		bug("divided", "The time is divided by the speed.", reply(func(g given, a answer) { a["distanceMiles"] = number(g, "minutes") / 60 / number(g, "speedKnots") })),
		bug("kilometres", "The distance is given in kilometres.", after(times(1.852), "distanceMiles")),
		bug("day-lost", "Time over a day starts again.", before(func(m float64) float64 { return math.Mod(m, 1440) }, "minutes")),
		bug("whole-knots", "The speed is kept in whole knots.", before(math.Floor, "speedKnots")),
		slipped(slip.RoundedTooFar, after(whole, "distanceMiles")),
	),
)

// legs changes the legs of a traverse.
func legs(change func(courses, distances []float64) ([]float64, []float64)) mistake {
	return question(func(g given) {
		g["courseDegrees"], g["distanceMiles"] = change(list(g, "courseDegrees"), list(g, "distanceMiles"))
	})
}
