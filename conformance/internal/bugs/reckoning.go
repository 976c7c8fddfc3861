package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// reckoningBugs are mistakes in the estimated position and in the set and drift found from a fix.
var reckoningBugs = slices.Concat(
	on("current.estimate",
		slipped(slip.StreamWrongWay, before(opposite, "setDegrees")),
		slipped(slip.StreamLeftOut, before(zero, "driftKnots")),
		slipped(slip.LeewayLeftOut, before(zero, "leewayDegrees")),
		slipped(slip.LeewayWrongSide, question(otherSide)),
		bug("side-of-the-wind-ignored", "Leeway is always to starboard.", question(func(g given) {
			if _, ok := g["windOn"]; ok {
				g["windOn"] = "port"
			}
		})),
		bug("leeway-moves-the-stream", "The leeway turns the set of the stream too.", question(func(g given) {
			turn := number(g, "leewayDegrees")
			if text(g, "windOn") == "starboard" {
				turn = -turn
			}
			edit(g, func(x float64) float64 { return fullCircle(x + turn) }, "setDegrees")
		})),
		bug("one-hour-of-stream", "The stream always runs for an hour.", question(func(g given) {
			edit(g, times(60/number(g, "minutes")), "driftKnots")
		})),
		bug("one-hour-of-run", "The vessel always runs for an hour.", question(func(g given) {
			edit(g, times(60/number(g, "minutes")), "speedKnots")
		})),
		slipped(slip.MinutesAsDecimals, before(times(0.6), "minutes")),
		slipped(slip.CosineLeftOut, moved(func(g given, dLong float64) float64 { return dLong * cosine(number(g, "from.latitudeDegrees")) })),
		slipped(slip.CosineWrongWay, moved(func(g given, dLong float64) float64 {
			return dLong * cosine(number(g, "from.latitudeDegrees")) * cosine(number(g, "from.latitudeDegrees"))
		})),
		bug("no-wrap", "A longitude beyond 180° stays.", reply(func(g given, a answer) {
			if d := number(a, "longitudeDegrees") - number(g, "from.longitudeDegrees"); math.Abs(d) > 180 {
				edit(a, plus(-math.Copysign(360, d)), "longitudeDegrees")
			}
		})),
		slipped(slip.NorthForSouth, reply(func(g given, a answer) {
			a["latitudeDegrees"] = 2*number(g, "from.latitudeDegrees") - number(a, "latitudeDegrees")
		})),
		slipped(slip.EastForWest, moved(func(g given, dLong float64) float64 { return -dLong })),
		bug("exchanged", "Latitude and longitude are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
		slipped(slip.ReciprocalTaken, before(opposite, "courseDegrees")),
		slipped(slip.StatuteForNautical, before(times(statute), "speedKnots", "driftKnots")),
		bug("rate-added-to-the-speed", "The rate of the stream is added to the speed, and its set is forgotten.", question(func(g given) {
			g["speedKnots"], g["driftKnots"] = number(g, "speedKnots")+number(g, "driftKnots"), 0.0
		})),
		bug("hove-to-no-stream", "Without way, the vessel is not moved by the stream.", question(func(g given) {
			if number(g, "speedKnots") == 0 {
				g["driftKnots"] = 0.0
			}
		})),
		bug("set-magnetic", "The set is taken from the bow.", question(func(g given) {
			g["setDegrees"] = fullCircle(number(g, "setDegrees") + number(g, "courseDegrees"))
		})),
	),
	on("current.setAndDrift",
		slipped(slip.StreamWrongWay, after(opposite, "setDegrees")),
		bug("exchanged", "The set is from the fix to the reckoned position.", question(func(g given) { swap(g, "reckoned", "fix") })),
		bug("distance-as-rate", "The distance is given as the rate.", reply(func(_ given, a answer) { a["driftKnots"] = a["distanceMiles"] })),
		bug("rate-as-distance", "The rate is given as the distance.", reply(func(_ given, a answer) { a["distanceMiles"] = a["driftKnots"] })),
		bug("multiplied", "The distance is multiplied by the hours.", reply(func(g given, a answer) { a["driftKnots"] = number(a, "distanceMiles") * number(g, "hours") })),
		slipped(slip.CosineLeftOut, drifted(func(lat float64) float64 { return 1 })),
		slipped(slip.CosineWrongWay, drifted(func(lat float64) float64 { return 1 / cosine(lat) })),
		slipped(slip.SineForCosine, drifted(sine)),
		bug("date-line", "Longitudes are subtracted across the date line.", reply(func(g given, a answer) {
			if d := number(g, "fix.longitudeDegrees") - number(g, "reckoned.longitudeDegrees"); math.Abs(d) > 180 {
				a["setDegrees"], a["distanceMiles"] = 270.0, 60*math.Abs(d)
				a["driftKnots"] = 60 * math.Abs(d) / number(g, "hours")
			}
		})),
		slipped(slip.NorthForSouth, after(func(x float64) float64 { return fullCircle(180 - x) }, "setDegrees")),
		slipped(slip.EastForWest, after(otherWayRound, "setDegrees")),
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "setDegrees")),
		bug("whole-hours", "Only whole hours are counted.", reply(func(g given, a answer) {
			a["driftKnots"] = number(a, "distanceMiles") / max(1, math.Floor(number(g, "hours")))
		})),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles", "driftKnots")),
		slipped(slip.RoundedTooFar, after(whole, "setDegrees", "driftKnots")),
	),
)

// otherSide puts the wind on the other side.
func otherSide(g given) {
	switch text(g, "windOn") {
	case "port":
		g["windOn"] = "starboard"
	case "starboard":
		g["windOn"] = "port"
	}
}

// moved changes the difference of longitude of a run, in degrees.
func moved(f func(g given, dLong float64) float64) mistake {
	return reply(func(g given, a answer) {
		from := number(g, "from.longitudeDegrees")
		a["longitudeDegrees"] = halfCircle(from + f(g, halfCircle(number(a, "longitudeDegrees")-from)))
	})
}

// drifted works the set and drift with another factor for the difference of longitude.
func drifted(factor func(latitude float64) float64) mistake {
	return reply(func(g given, a answer) {
		lat := number(g, "reckoned.latitudeDegrees")
		north := 60 * (number(g, "fix.latitudeDegrees") - lat)
		east := 60 * halfCircle(number(g, "fix.longitudeDegrees")-number(g, "reckoned.longitudeDegrees")) * factor(lat)
		d := math.Hypot(north, east)
		a["setDegrees"], a["distanceMiles"], a["driftKnots"] = direction(north, east), d, d/number(g, "hours")
	})
}
