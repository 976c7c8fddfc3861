package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// lineBugs are mistakes in fixes by bearings and by a run between them.
var lineBugs = slices.Concat(
	on("fix.bearings", append(fixBugs("bearings"),
		slippedAs(slip.RoundedOnTheWay, "whole-degrees", "The bearings are rounded to whole degrees.", before(whole, "bearings.bearingDegrees")),
		bug("last-left-out", "The last of three bearings is left out.", func(ask asker, g given) (answer, error) {
			if all := g["bearings"].([]any); len(all) > 2 {
				g["bearings"] = all[:len(all)-1]
			}
			return ask.same(g)
		}),
		bug("first-left-out", "The first of three bearings is left out.", func(ask asker, g given) (answer, error) {
			if all := g["bearings"].([]any); len(all) > 2 {
				g["bearings"] = all[1:]
			}
			return ask.same(g)
		}),
		bug("bearings-shifted", "Each mark has the bearing of the next.", question(func(g given) {
			all := g["bearings"].([]any)
			first := all[0].(given)["bearingDegrees"]
			for i := range all {
				next := first
				if i+1 < len(all) {
					next = all[i+1].(given)["bearingDegrees"]
				}
				all[i].(given)["bearingDegrees"] = next
			}
		})),
		bug("parallel-answered", "Lines that do not meet give the mean of the marks.", accepts("no-fix", func(given) answer {
			return answer{"latitudeDegrees": 50.25, "longitudeDegrees": -4.2}
		})),
		bug("north-has-no-slope", "A bearing of 0° or 180° is refused, since its slope is infinite.", refuses("no-fix", func(g given) bool {
			vertical := false
			within(g["bearings"], func(b given) { vertical = vertical || math.Mod(number(b, "bearingDegrees"), 180) == 0 })
			return vertical
		})),
	)...),
	on("fix.running", append(fixBugs("first", "second"),
		bug("run-left-out", "The first line is not transferred.", before(zero, "distanceMiles")),
		bug("run-backward", "The first line is transferred backward.", before(opposite, "courseDegrees")),
		bug("second-transferred", "The second line is transferred, not the first.", question(func(g given) { swap(g, "first", "second") })),
		bug("fix-at-the-first-bearing", "The position of the first bearing is given.", func(ask asker, g given) (answer, error) {
			swap(g, "first", "second")
			edit(g, opposite, "courseDegrees")
			return ask.same(g)
		}),
		slipped(slip.StatuteForNautical, before(times(statute), "distanceMiles")),
		bug("half-the-run", "The line is transferred by half the run.", before(times(0.5), "distanceMiles")),
		bug("run-north", "The run is laid off northward.", before(zero, "courseDegrees")),
		slipped(slip.CosineLeftOut, transferred(func(latitude float64) float64 { return 1 })),
		slipped(slip.CosineWrongWay, transferred(cosine)),
	)...),
	on("fix.twoBearingsTaken",
		bug("no-wrap", "The angles on the bow are plain differences, across north too.", reply(func(g given, a answer) {
			c := number(g, "courseDegrees")
			bowed(g, a, math.Abs(number(g, "firstBearingDegrees")-c), math.Abs(number(g, "secondBearingDegrees")-c))
		})),
		bug("port-as-starboard", "The angles are counted clockwise from the bow, on the port side too.", reply(func(g given, a answer) {
			c := number(g, "courseDegrees")
			bowed(g, a, fullCircle(number(g, "firstBearingDegrees")-c), fullCircle(number(g, "secondBearingDegrees")-c))
		})),
		bug("course-left-out", "The true bearings are taken as angles on the bow.", reply(func(g given, a answer) {
			bowed(g, a, number(g, "firstBearingDegrees"), number(g, "secondBearingDegrees"))
		})),
		bug("both-bows-answered", "Bearings on both bows are taken as if on one.", accepts("out-of-range", func(g given) answer {
			a := answer{}
			c := number(g, "courseDegrees")
			bowed(g, a, math.Abs(halfCircle(number(g, "firstBearingDegrees")-c)), math.Abs(halfCircle(number(g, "secondBearingDegrees")-c)))
			return a
		})),
		bug("distances-exchanged", "The distance abeam is given as the distance at the second bearing.", reply(func(_ given, a answer) { swap(a, "distanceMiles", "abeamMiles") })),
		bug("factors-exchanged", "The factors are exchanged.", reply(func(_ given, a answer) { swap(a, "secondFactor", "abeamFactor") })),
		bug("run-left-out", "The factors are given as distances.", reply(func(_ given, a answer) { a["distanceMiles"], a["abeamMiles"] = a["secondFactor"], a["abeamFactor"] })),
		bug("distance-at-the-first", "The distance is that at the first bearing.", reply(func(g given, a answer) {
			c := number(g, "courseDegrees")
			first, second := math.Abs(halfCircle(number(g, "firstBearingDegrees")-c)), math.Abs(halfCircle(number(g, "secondBearingDegrees")-c))
			a["distanceMiles"] = number(g, "runMiles") * sine(second) / sine(second-first)
		})),
		bug("run-as-distance", "The angle is taken as doubled: the distance is the run.", reply(func(g given, a answer) { a["distanceMiles"] = g["runMiles"] })),
		slipped(slip.StatuteForNautical, after(times(statute), "distanceMiles", "abeamMiles")),
	),
	on("fix.twoBearings",
		bug("factors-exchanged", "The factors are exchanged.", reply(func(_ given, a answer) { swap(a, "secondFactor", "abeamFactor") })),
		bug("run-left-out", "The factor is given as the distance.", reply(func(_ given, a answer) { a["distanceMiles"] = a["secondFactor"] })),
		bug("distance-at-the-first", "The sine of the second angle is used: the distance is that at the first bearing.", reply(func(g given, a answer) {
			bowed(g, a, number(g, "firstDegrees"), number(g, "secondDegrees"))
			f := sine(number(g, "secondDegrees")) / sine(number(g, "secondDegrees")-number(g, "firstDegrees"))
			a["secondFactor"], a["distanceMiles"] = f, f*number(g, "runMiles")
		})),
		bug("abeam-of-the-first", "The distance abeam is found from the first angle.", reply(func(g given, a answer) {
			edit(a, times(sine(number(g, "firstDegrees"))/sine(number(g, "secondDegrees"))), "abeamFactor")
		})),
		slipped(slip.SineForCosine, reply(func(g given, a answer) {
			edit(a, times(cosine(number(g, "secondDegrees"))/sine(number(g, "secondDegrees"))), "abeamFactor")
		})),
		bug("doubled-assumed", "Every pair is taken as a doubled angle.", reply(func(g given, a answer) { a["secondFactor"], a["distanceMiles"] = 1.0, number(g, "runMiles") })),
		bug("abeam-assumed", "Every pair is taken as one that gives the run as the distance abeam.", reply(func(_ given, a answer) { a["abeamFactor"] = 1.0 })),
		bug("falling-angle-answered", "A second angle that is not above the first gives a distance.", accepts("out-of-range", func(g given) answer {
			a := answer{}
			bowed(g, a, number(g, "secondDegrees"), number(g, "firstDegrees")+1)
			return a
		})),
		bug("whole-degrees", "The angles are kept in whole degrees.", before(truncated, "firstDegrees", "secondDegrees")),
	),
)

// fixBugs are the mistakes of any fix by true bearings; the keys hold the marks.
func fixBugs(keys ...string) []Bug {
	paths := func(key string) (all []string) {
		for _, k := range keys {
			all = append(all, k+"."+key)
		}
		return all
	}
	return []Bug{
		slippedAs(slip.EastForWest, "bearings-counterclockwise", "The bearings are laid off counterclockwise.", before(otherWayRound, paths("bearingDegrees")...)),
		bug("bearings-from-east", "The bearings are laid off from east, as in mathematics.", before(fromEast, paths("bearingDegrees")...)),
		bug("bearings-square", "The lines are laid off square to the bearings.", before(func(x float64) float64 { return math.Mod(x+90, 360) }, paths("bearingDegrees")...)),
		bug("marks-exchanged", "Latitude and longitude of the marks are exchanged.", question(func(g given) {
			for _, key := range keys {
				within(g[key], func(m given) {
					if math.Abs(number(m, "longitudeDegrees")) <= 90 {
						swap(m, "latitudeDegrees", "longitudeDegrees")
					}
				})
			}
		})),
		bug("answer-exchanged", "Latitude and longitude of the fix are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
		slipped(slip.NorthForSouth, before(math.Abs, paths("latitudeDegrees")...)),
		slippedAs(slip.EastForWest, "west-as-east", "The names of the longitudes are not looked at.", before(math.Abs, paths("longitudeDegrees")...)),
		bug("east-only", "Longitudes are given from 0° to 360°.", after(fullCircle, "longitudeDegrees")),
		bug("fix-whole-minutes", "The fix is rounded to the minute.", after(func(x float64) float64 { return math.Round(60*x) / 60 }, "latitudeDegrees", "longitudeDegrees")),
		bug("plane-chart", "The marks are laid down as if a minute of longitude were a mile.", func(ask asker, g given) (answer, error) {
			// On the equator a minute of longitude is a mile, nearly.
			base := number(first(g, keys[0]), "latitudeDegrees")
			for _, key := range keys {
				within(g[key], func(m given) { edit(m, plus(-base), "latitudeDegrees") })
			}
			a, err := ask.same(g)
			if err == nil {
				edit(a, plus(base), "latitudeDegrees")
			}
			return a, err
		}),
	}
}

// first is the first mark under a key.
func first(g given, key string) given {
	if all, ok := g[key].([]any); ok {
		return all[0].(given)
	}
	return g[key].(given)
}

// transferred moves the first mark by the run, with another factor for the departure.
func transferred(factor func(latitude float64) float64) mistake {
	return question(func(g given) {
		m := g["first"].(given)
		d, c := number(g, "distanceMiles"), number(g, "courseDegrees")
		lat := number(m, "latitudeDegrees")
		edit(m, func(x float64) float64 { return halfCircle(x + d*sine(c)/60*factor(lat)) }, "longitudeDegrees")
		edit(m, plus(d*cosine(c)/60), "latitudeDegrees")
		g["distanceMiles"] = 0.0
	})
}

// bowed answers with the distances of two angles on the bow.
func bowed(g given, a answer, first, second float64) {
	f := sine(first) / sine(second-first)
	run := number(g, "runMiles")
	a["secondFactor"], a["abeamFactor"] = f, f*sine(second)
	a["distanceMiles"], a["abeamMiles"] = f*run, f*sine(second)*run
}
