package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// followBugs are mistakes in finding where a run leads.
var followBugs = slices.Concat(
	on("sailing.followParallel", append(runBugs(),
		slipped(slip.CosineLeftOut, along(func(g given, north, east float64) (float64, float64) { return north, east })),
		slipped(slip.CosineWrongWay, along(func(g given, north, east float64) (float64, float64) {
			return north, east * cosine(number(g, "from.latitudeDegrees"))
		})),
		bug("always-east", "The course is not looked at.", before(always(90), "courseDegrees")),
	)...),
	on("sailing.followMidLatitude", append(runBugs(),
		bug("south-as-north", "In south latitude a northerly run leads away from the equator.", southAsNorth()),
		slipped(slip.CosineLeftOut, along(func(g given, north, east float64) (float64, float64) { return north, east })),
		bug("cosine-of-the-start", "The cosine is that of the latitude left.", along(func(g given, north, east float64) (float64, float64) {
			return north, east / cosine(number(g, "from.latitudeDegrees"))
		})),
		bug("cosine-of-the-end", "The cosine is that of the latitude reached.", along(func(g given, north, east float64) (float64, float64) {
			return north, east / cosine(number(g, "from.latitudeDegrees")+north/60)
		})),
		slipped(slip.CosineWrongWay, along(func(g given, north, east float64) (float64, float64) {
			return north, east * cosine(number(g, "from.latitudeDegrees")+north/120)
		})),
		slipped(slip.SineForCosine, before(fromEast, "courseDegrees")),
		bug("across-the-equator", "A run across the equator is worked with the middle latitude.", accepts("", func(g given) answer {
			return answer{"latitudeDegrees": 0.0, "longitudeDegrees": 0.0}
		})),
	)...),
	on("sailing.followMercator", append(runBugs(),
		bug("south-as-north", "In south latitude a northerly run leads away from the equator.", southAsNorth()),
		bug("middle-latitude", "The middle latitude is used.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("sailing.followMidLatitude", given{"from": g["from"], "courseDegrees": g["courseDegrees"], "distanceMiles": g["distanceMiles"]})
			if err != nil {
				return ask.same(g)
			}
			return a, nil
		}),
		slipped(slip.SineForCosine, before(fromEast, "courseDegrees")),
		bug("figure-ignored", "The figure is always a sphere.", question(func(g given) { g["figure"] = "sphere" })),
		bug("figure-always-wgs84", "The figure is always WGS84.", question(func(g given) { g["figure"] = "WGS84" })),
		bug("due-east-stays", "Due east the difference of meridional parts is nothing, and so is the difference of longitude.", reply(func(g given, a answer) {
			if c := number(g, "courseDegrees"); c == 90 || c == 270 {
				a["longitudeDegrees"] = number(g, "from.longitudeDegrees")
			}
		})),
		slipped(slip.CosineLeftOut, along(func(g given, north, east float64) (float64, float64) { return north, east })),
		bug("parts-by-figure-of-the-latitude", "The meridional parts of south latitudes have the sign of north.", reply(func(g given, a answer) {
			if number(g, "from.latitudeDegrees")*number(a, "latitudeDegrees") < 0 {
				edit(a, func(x float64) float64 { return number(g, "from.longitudeDegrees") }, "longitudeDegrees")
			}
		})),
	)...),
	on("sailing.followRhumb",
		slipped(slip.ReciprocalTaken, before(opposite, "courseDegrees")),
		slipped(slip.NorthForSouth, question(func(g given) { edit(g, negated, "from.latitudeDegrees") })),
		slipped(slip.EastForWest, question(func(g given) { edit(g, negated, "from.longitudeDegrees") })),
		bug("sphere", "The Earth is taken as a sphere.", func(ask asker, g given) (answer, error) {
			return ask.other("sailing.followMercator", given{
				"from": g["from"], "courseDegrees": g["courseDegrees"], "distanceMiles": number(g, "distanceMetres") / 1852, "figure": "sphere",
			})
		}),
		bug("figure-of-1866", "The figure is that of Clarke 1866.", func(ask asker, g given) (answer, error) {
			return ask.other("sailing.followMercator", given{
				"from": g["from"], "courseDegrees": g["courseDegrees"], "distanceMiles": number(g, "distanceMetres") / 1852, "figure": "Clarke 1866",
			})
		}),
		bug("no-wrap", "A longitude beyond 180° stays.", reply(func(g given, a answer) {
			if d := number(a, "longitudeDegrees") - number(g, "from.longitudeDegrees"); math.Abs(d) > 180 {
				edit(a, plus(-math.Copysign(360, d)), "longitudeDegrees")
			}
		})),
		bug("east-only", "Longitudes are given from 0° to 360°.", after(fullCircle, "longitudeDegrees")),
		bug("miles-for-metres", "The distance is taken in miles of 1,609 m.", before(times(1/1.0000001*statute), "distanceMetres")),
		bug("exchanged", "Latitude and longitude are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
		bug("tenths-of-minutes", "The position is kept in tenths of a minute.", after(func(x float64) float64 { return math.Round(600*x) / 600 }, "latitudeDegrees", "longitudeDegrees")),
	),
)

// runBugs are the mistakes of any sailing that follows a run in miles.
func runBugs() []Bug {
	return []Bug{
		slipped(slip.ReciprocalTaken, before(opposite, "courseDegrees")),
		slipped(slip.StatuteForNautical, before(times(statute), "distanceMiles")),
		bug("no-wrap", "A longitude beyond 180° stays.", reply(func(g given, a answer) {
			if d := number(a, "longitudeDegrees") - number(g, "from.longitudeDegrees"); math.Abs(d) > 180 {
				edit(a, plus(-math.Copysign(360, d)), "longitudeDegrees")
			}
		})),
		bug("wrap-negated", "Beyond 180° the longitude changes its name and keeps its figure.", reply(func(g given, a answer) {
			if d := number(a, "longitudeDegrees") - number(g, "from.longitudeDegrees"); math.Abs(d) > 180 {
				edit(a, func(x float64) float64 { return -(x + math.Copysign(360, -x) - math.Copysign(360, -x)) }, "longitudeDegrees")
			}
		})),
		slipped(slip.EastForWest, before(negated, "from.longitudeDegrees")),
		slipped(slip.NorthForSouth, before(negated, "from.latitudeDegrees")),
		bug("exchanged", "Latitude and longitude are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
		bug("minutes-as-hundredths", "Minutes of difference are added as hundredths of a degree.", reply(func(g given, a answer) {
			for _, key := range []string{"latitudeDegrees", "longitudeDegrees"} {
				from := number(g, "from."+key)
				a[key] = from + (number(a, key)-from)*0.6
			}
		})),
	}
}

// southAsNorth makes a northerly run in south latitude lead away from the equator.
func southAsNorth() mistake {
	return reply(func(g given, a answer) {
		if l := number(g, "from.latitudeDegrees"); l < 0 {
			a["latitudeDegrees"] = 2*l - number(a, "latitudeDegrees")
		}
	})
}

// along answers with another difference of latitude and of longitude, in minutes, from the run's
// parts north and east, in miles.
func along(f func(g given, north, east float64) (dLat, dLong float64)) mistake {
	return reply(func(g given, a answer) {
		c, d := number(g, "courseDegrees"), number(g, "distanceMiles")
		_, dLong := f(g, d*cosine(c), d*sine(c))
		a["longitudeDegrees"] = halfCircle(number(g, "from.longitudeDegrees") + dLong/60)
	})
}
