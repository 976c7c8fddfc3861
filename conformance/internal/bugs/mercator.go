package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// mercatorBugs are mistakes in finding the course and distance between two positions, and in
// meridional parts.
var mercatorBugs = slices.Concat(
	on("sailing.midLatitude", append(betweenBugs("distanceMiles", 60),
		slipped(slip.CosineLeftOut, sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) { return dLat, dLong })),
		slipped(slip.CosineWrongWay, sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) {
			return dLat, dLong / cosine((number(g, "from.latitudeDegrees")+number(g, "to.latitudeDegrees"))/2)
		})),
		bug("cosine-of-the-start", "The cosine is that of the latitude left.", sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) {
			return dLat, dLong * cosine(number(g, "from.latitudeDegrees"))
		})),
		bug("cosine-of-the-end", "The cosine is that of the latitude reached.", sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) {
			return dLat, dLong * cosine(number(g, "to.latitudeDegrees"))
		})),
		slippedAs(slip.SineForCosine, "sine-of-the-middle-latitude", "The sine of the middle latitude is used.", sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) {
			return dLat, dLong * math.Abs(sine((number(g, "from.latitudeDegrees")+number(g, "to.latitudeDegrees"))/2))
		})),
		bug("mercator", "Mercator sailing is used.", func(ask asker, g given) (answer, error) {
			g["figure"] = "sphere"
			return ask.other("sailing.mercator", g)
		}),
		bug("across-the-equator", "Across the equator the middle latitude is used, though it is nothing.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return answer{"courseDegrees": 0.0, "distanceMiles": 0.0}, nil
			}
			return a, nil
		}),
	)...),
	on("sailing.mercator", append(betweenBugs("distanceMiles", 60),
		bug("middle-latitude", "The middle latitude is used.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("sailing.midLatitude", given{"from": g["from"], "to": g["to"]})
			if err != nil {
				return ask.same(g)
			}
			return a, nil
		}),
		bug("great-circle", "The great circle is used.", func(ask asker, g given) (answer, error) {
			return ask.other("sailing.greatCircle", given{"from": g["from"], "to": g["to"]})
		}),
		bug("figure-ignored", "The figure is always a sphere.", question(func(g given) { g["figure"] = "sphere" })),
		bug("figure-always-wgs84", "The figure is always WGS84.", question(func(g given) { g["figure"] = "WGS84" })),
		bug("due-east-refused", "Due east the quotient is refused.", refuses("out-of-range", func(g given) bool {
			return number(g, "from.latitudeDegrees") == number(g, "to.latitudeDegrees")
		})),
		bug("due-east-by-dlat", "Due east the distance is the difference of latitude over a cosine: nothing.", reply(func(g given, a answer) {
			if number(g, "from.latitudeDegrees") == number(g, "to.latitudeDegrees") {
				a["distanceMiles"] = 0.0
			}
		})),
		bug("due-west-is-east", "Due west the course is 90°.", reply(func(g given, a answer) {
			if number(a, "courseDegrees") == 270 {
				a["courseDegrees"] = 90.0
			}
		})),
		slipped(slip.CosineLeftOut, sides("distanceMiles", 60, func(g given, dLat, dLong float64) (float64, float64) { return dLat, dLong })),
		bug("parts-of-south-as-north", "Meridional parts of both names are subtracted, not added.", question(func(g given) { edit(g, math.Abs, "from.latitudeDegrees", "to.latitudeDegrees") })),
	)...),
	on("sailing.rhumb", append(betweenBugs("distanceMetres", 60*1852),
		bug("sphere", "The Earth is taken as a sphere.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("sailing.mercator", given{"from": g["from"], "to": g["to"], "figure": "sphere"})
			if err == nil {
				a["distanceMetres"] = 1852 * number(a, "distanceMiles")
			}
			return a, err
		}),
		bug("great-circle", "The great circle is used.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("sailing.greatCircle", given{"from": g["from"], "to": g["to"]})
			if err == nil {
				a["distanceMetres"] = 1852 * number(a, "distanceMiles")
			}
			return a, err
		}),
		bug("figure-of-1866", "The figure is that of Clarke 1866.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("sailing.mercator", given{"from": g["from"], "to": g["to"], "figure": "Clarke 1866"})
			if err == nil {
				a["distanceMetres"] = 1852 * number(a, "distanceMiles")
			}
			return a, err
		}),
		bug("in-miles", "The distance is given in miles.", after(times(1.0/1852), "distanceMetres")),
	)...),
	on("sailing.greatCircle",
		bug("rhumb", "The rhumb line is used.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			b, err := ask.other("sailing.mercator", given{"from": g["from"], "to": g["to"], "figure": "sphere"})
			if err == nil {
				a["courseDegrees"], a["distanceMiles"] = b["courseDegrees"], b["distanceMiles"]
			}
			return a, err
		}),
		bug("from-the-other-end", "The course is that from the destination.", func(ask asker, g given) (answer, error) {
			swap(g, "from", "to")
			return ask.same(g)
		}),
		bug("final-course", "The final course is given, not the initial one.", func(ask asker, g given) (answer, error) {
			swap(g, "from", "to")
			a, err := ask.same(g)
			if err == nil {
				edit(a, opposite, "courseDegrees")
			}
			return a, err
		}),
		bug("arc-cosine", "The arc cosine gives courses up to 180° only.", after(func(x float64) float64 { return math.Abs(halfCircle(x)) }, "courseDegrees")),
		bug("western-half-negative", "A course of the western half is negative.", after(halfCircle, "courseDegrees")),
		bug("long-way", "Longitudes are subtracted across the date line, and the long way is taken.", reply(func(g given, a answer) {
			if math.Abs(number(g, "to.longitudeDegrees")-number(g, "from.longitudeDegrees")) > 180 {
				a["distanceMiles"] = 21600 - number(a, "distanceMiles")
				edit(a, opposite, "courseDegrees")
			}
		})),
		bug("radius-of-6371-km", "The distance is in miles on a sphere of 6,371 km, not 60 to the degree.", after(times(6371/1.852*math.Pi/180/60), "distanceMiles")),
		bug("in-degrees", "The distance is given in degrees.", after(times(1.0/60), "distanceMiles")),
		slipped(slip.NorthForSouth, before(math.Abs, "from.latitudeDegrees", "to.latitudeDegrees")),
		slipped(slip.EastForWest, before(negated, "from.longitudeDegrees", "to.longitudeDegrees")),
		bug("east-not-read", "The names of the longitudes are not looked at.", before(math.Abs, "from.longitudeDegrees", "to.longitudeDegrees")),
		bug("vertex-negated", "The vertex of the other hemisphere is given.", after(negated, "vertexLatitudeDegrees")),
		bug("vertex-colatitude", "The arc sine is used for the vertex.", after(func(x float64) float64 { return 90 - x }, "vertexLatitudeDegrees")),
		bug("vertex-of-the-end", "The higher of the two latitudes is given as the vertex.", reply(func(g given, a answer) {
			a["vertexLatitudeDegrees"] = max(math.Abs(number(g, "from.latitudeDegrees")), math.Abs(number(g, "to.latitudeDegrees")))
		})),
		slipped(slip.ReciprocalTaken, after(opposite, "courseDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "courseDegrees", "vertexLatitudeDegrees")),
	),
	on("sailing.meridionalParts",
		bug("figure-ignored", "The figure is always a sphere.", question(func(g given) { g["figure"] = "sphere" })),
		bug("figure-always-wgs84", "The figure is always WGS84.", question(func(g given) { g["figure"] = "WGS84" })),
		slipped(slip.NorthForSouth, after(math.Abs, "parts")),
		bug("minutes-of-latitude", "The minutes of the latitude are given.", reply(func(g given, a answer) { a["parts"] = 60 * number(g, "latitudeDegrees") })),
		bug("common-logarithm", "The common logarithm is used, with its factor forgotten.", after(times(1/math.Ln10), "parts")),
		bug("rounded-factor", "7915.7 is rounded to 7,900.", after(times(7900/7915.704), "parts")),
		bug("in-degrees", "The parts are given in degrees.", after(times(1.0/60), "parts")),
		bug("whole-degrees", "The minutes of the latitude are left out.", before(truncated, "latitudeDegrees")),
		bug("geocentric", "The latitude is taken as geocentric.", func(ask asker, g given) (answer, error) {
			if g["figure"] == "sphere" {
				return ask.same(g)
			}
			return before(func(x float64) float64 { return math.Atan(tangent(x)/(1-0.00669437999014)) * 180 / math.Pi }, "latitudeDegrees")(ask, g)
		}),
		bug("spherical-parts-of-a-spheroid", "The first term only of the spheroid's series is used, wrongly halved.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil || g["figure"] == "sphere" {
				return a, err
			}
			edit(a, plus(11.5*sine(number(g, "latitudeDegrees"))), "parts")
			return a, nil
		}),
	),
)

// betweenBugs are the mistakes of any sailing between two positions. A degree of difference has so
// many units of distance.
func betweenBugs(distance string, degree float64) []Bug {
	return []Bug{
		bug("from-the-other-end", "The course is that from the destination.", question(func(g given) { swap(g, "from", "to") })),
		bug("date-line", "Longitudes are subtracted across the date line, and the long way is taken.", reply(func(g given, a answer) {
			if d := number(g, "to.longitudeDegrees") - number(g, "from.longitudeDegrees"); math.Abs(d) > 180 {
				edit(a, otherWayRound, "courseDegrees")
				edit(a, plus((math.Abs(d)-180)*degree), distance)
			}
		})),
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x < 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "courseDegrees")),
		bug("first-quadrant", "The angle between north or south and the course is given as the course.", after(func(x float64) float64 {
			return math.Asin(math.Abs(sine(x))) * 180 / math.Pi
		}, "courseDegrees")),
		bug("western-half-negative", "A course of the western half is negative.", after(halfCircle, "courseDegrees")),
		slipped(slip.NorthForSouth, before(negated, "from.latitudeDegrees", "to.latitudeDegrees")),
		slippedAs(slip.NorthForSouth, "south-as-north", "The names of the latitudes are not looked at.", before(math.Abs, "from.latitudeDegrees", "to.latitudeDegrees")),
		slipped(slip.EastForWest, before(negated, "from.longitudeDegrees", "to.longitudeDegrees")),
		slippedAs(slip.EastForWest, "west-as-east", "The names of the longitudes are not looked at.", before(math.Abs, "from.longitudeDegrees", "to.longitudeDegrees")),
		slipped(slip.SineForCosine, after(fromEast, "courseDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "courseDegrees")),
		slipped(slip.StatuteForNautical, after(times(1/statute), distance)),
	}
}

// sides answers with the course and distance of other sides, from the differences of latitude and
// longitude in degrees.
func sides(distance string, degree float64, f func(g given, dLat, dLong float64) (north, east float64)) mistake {
	return reply(func(g given, a answer) {
		dLat := number(g, "to.latitudeDegrees") - number(g, "from.latitudeDegrees")
		dLong := halfCircle(number(g, "to.longitudeDegrees") - number(g, "from.longitudeDegrees"))
		north, east := f(g, dLat, dLong)
		a["courseDegrees"], a[distance] = direction(north, east), degree*math.Hypot(north, east)
	})
}
