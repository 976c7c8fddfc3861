package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// parallelBugs are mistakes between departure and difference of longitude, and with the length of
// a degree.
var parallelBugs = slices.Concat(
	on("sailing.departure",
		slipped(slip.CosineLeftOut, before(zero, "latitudeDegrees")),
		slipped(slip.CosineWrongWay, reply(func(g given, a answer) {
			a["departureMiles"] = number(g, "dLongMinutes") / cosine(number(g, "latitudeDegrees"))
		})),
		slipped(slip.SineForCosine, reply(func(g given, a answer) {
			a["departureMiles"] = number(g, "dLongMinutes") * sine(number(g, "latitudeDegrees"))
		})),
		slipped(slip.EastForWest, after(negated, "departureMiles")),
		bug("name-lost", "The departure has no name.", after(math.Abs, "departureMiles")),
		bug("in-radians", "The cosine is taken of degrees as if they were radians.", reply(func(g given, a answer) {
			a["departureMiles"] = number(g, "dLongMinutes") * math.Cos(number(g, "latitudeDegrees"))
		})),
		bug("degrees-for-minutes", "The difference of longitude is taken in degrees.", after(times(60), "departureMiles")),
		bug("whole-latitude", "The minutes of the latitude are left out.", before(truncated, "latitudeDegrees")),
		bug("south-negative", "In south latitude the departure has the other name.", reply(func(g given, a answer) {
			if number(g, "latitudeDegrees") < 0 {
				edit(a, negated, "departureMiles")
			}
		})),
		slipped(slip.StatuteForNautical, after(times(1/statute), "departureMiles")),
		slipped(slip.RoundedTooFar, after(whole, "departureMiles")),
	),
	on("sailing.dLong",
		slipped(slip.CosineLeftOut, before(zero, "latitudeDegrees")),
		slipped(slip.CosineWrongWay, reply(func(g given, a answer) {
			a["dLongMinutes"] = number(g, "departureMiles") * cosine(number(g, "latitudeDegrees"))
		})),
		slipped(slip.SineForCosine, reply(func(g given, a answer) {
			if l := number(g, "latitudeDegrees"); l != 0 {
				a["dLongMinutes"] = number(g, "departureMiles") / sine(math.Abs(l))
			}
		})),
		slipped(slip.EastForWest, after(negated, "dLongMinutes")),
		bug("name-lost", "The difference of longitude has no name.", after(math.Abs, "dLongMinutes")),
		bug("in-degrees", "The difference of longitude is given in degrees.", after(times(1.0/60), "dLongMinutes")),
		bug("south-negative", "In south latitude the difference has the other name.", reply(func(g given, a answer) {
			if number(g, "latitudeDegrees") < 0 {
				edit(a, negated, "dLongMinutes")
			}
		})),
		bug("pole-answered", "At the pole a departure gives some longitude.", accepts("out-of-range", func(given) answer { return answer{"dLongMinutes": 0.0} })),
		slipped(slip.StatuteForNautical, after(times(statute), "dLongMinutes")),
		slipped(slip.RoundedTooFar, after(whole, "dLongMinutes")),
	),
	on("sailing.latitudeOf",
		bug("arc-sine", "The arc sine is used instead of the arc cosine.", after(func(x float64) float64 { return 90 - x }, "latitudeDegrees")),
		slipped(slip.CosineWrongWay, reply(func(g given, a answer) {
			if q := math.Abs(number(g, "dLongMinutes") / number(g, "departureMiles")); q != 1 {
				a["latitudeDegrees"] = math.Acos(1/q) * 90 / 180
			}
		})),
		bug("quotient-as-latitude", "The quotient is given as the latitude.", reply(func(g given, a answer) {
			a["latitudeDegrees"] = number(g, "departureMiles") / number(g, "dLongMinutes")
		})),
		bug("in-radians", "The latitude is given in radians.", after(inRadians, "latitudeDegrees")),
		bug("secant-refused", "A westerly departure is refused.", refuses("out-of-range", func(g given) bool { return number(g, "departureMiles") < 0 })),
		bug("beyond-one-answered", "A departure larger than the difference of longitude gives the equator.", accepts("out-of-range", func(given) answer { return answer{"latitudeDegrees": 0.0} })),
		bug("names-ignored", "A departure east with a difference of longitude west gives a latitude.", func(ask asker, g given) (answer, error) {
			edit(g, math.Abs, "departureMiles", "dLongMinutes")
			return ask.same(g)
		}),
		bug("degrees-for-minutes", "The difference of longitude is taken in degrees.", func(ask asker, g given) (answer, error) {
			edit(g, times(60), "dLongMinutes")
			return ask.same(g)
		}),
		slipped(slip.RoundedTooFar, after(whole, "latitudeDegrees")),
	),
	on("sailing.degree",
		bug("exchanged", "The degree of latitude and that of longitude are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeMetres", "longitudeMetres") })),
		bug("sphere", "A degree is 60 miles, on a sphere.", reply(func(g given, a answer) {
			a["latitudeMetres"], a["longitudeMetres"] = 111120.0, 111120*cosine(number(g, "latitudeDegrees"))
		})),
		bug("cosine-only", "The degree of longitude is that of the equator times the cosine.", reply(func(g given, a answer) {
			a["longitudeMetres"] = 111319.49079327358 * cosine(number(g, "latitudeDegrees"))
		})),
		bug("figure-ignored", "The figure is always WGS84.", question(func(g given) { g["figure"] = "WGS84" })),
		bug("meridian-as-equator", "The degree of latitude is that of the equator.", reply(func(_ given, a answer) { a["latitudeMetres"] = 111319.49079327358 })),
		bug("flattening-wrong-way", "The figure is flattened at the equator.", before(func(x float64) float64 { return math.Copysign(90-math.Abs(x), x) }, "latitudeDegrees")),
		bug("in-miles", "Lengths are given in miles.", after(times(1.0/1852), "latitudeMetres", "longitudeMetres")),
		bug("south-negative", "In south latitude the lengths are negative.", reply(func(g given, a answer) {
			edit(a, times(math.Copysign(1, number(g, "latitudeDegrees"))), "latitudeMetres", "longitudeMetres")
		})),
		bug("minute-for-degree", "The length of a minute is given.", after(times(1.0/60), "latitudeMetres", "longitudeMetres")),
	),
)
