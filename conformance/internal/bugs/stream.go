package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// streamBugs are mistakes in the triangles of a vessel and a stream.
var streamBugs = slices.Concat(
	on("current.madeGood", append(triangleBugs("courseMadeGoodDegrees", "speedMadeGoodKnots"),
		bug("speeds-added", "The speeds are added.", reply(func(g given, a answer) {
			a["speedMadeGoodKnots"] = number(g, "speedKnots") + number(g, "driftKnots")
		})),
		bug("course-kept", "The course made good is the course steered.", reply(func(g given, a answer) { a["courseMadeGoodDegrees"] = g["courseDegrees"] })),
		bug("speed-kept", "The speed made good is that through the water.", reply(func(g given, a answer) { a["speedMadeGoodKnots"] = g["speedKnots"] })),
		bug("set-as-angle-from-the-course", "The set is taken from the bow.", question(func(g given) {
			g["setDegrees"] = fullCircle(number(g, "setDegrees") + number(g, "courseDegrees"))
		})),
		bug("exchanged", "Vessel and stream are exchanged in the answer.", reply(func(g given, a answer) {
			a["courseMadeGoodDegrees"], a["speedMadeGoodKnots"] = number(g, "setDegrees"), number(g, "driftKnots")
		})),
		bug("to-steer", "The course to steer is worked, not the course made good.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("current.toSteer", given{"trackDegrees": g["courseDegrees"], "speedKnots": g["speedKnots"], "setDegrees": g["setDegrees"], "driftKnots": g["driftKnots"]})
			if err != nil {
				return ask.same(g)
			}
			return answer{"courseMadeGoodDegrees": a["courseDegrees"], "speedMadeGoodKnots": a["speedMadeGoodKnots"]}, nil
		}),
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "courseMadeGoodDegrees")),
		bug("stronger-stream-refused", "A stream stronger than the vessel is refused.", refuses("stream-too-strong", func(g given) bool {
			return number(g, "driftKnots") > number(g, "speedKnots")
		})),
	)...),
	on("current.toSteer", append(triangleBugs("courseDegrees", "speedMadeGoodKnots"),
		slipped(slip.SpeedAlongTrack, func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			b, err := ask.other("current.toMakeGood", given{"trackDegrees": g["trackDegrees"], "speedMadeGoodKnots": g["speedKnots"], "setDegrees": g["setDegrees"], "driftKnots": g["driftKnots"]})
			if err == nil {
				a["courseDegrees"] = b["courseDegrees"]
			}
			return a, err
		}),
		bug("made-good", "The course made good is worked, not the course to steer.", func(ask asker, g given) (answer, error) {
			if _, err := ask.same(g); err != nil {
				return nil, err
			}
			a, err := ask.other("current.madeGood", given{"courseDegrees": g["trackDegrees"], "speedKnots": g["speedKnots"], "setDegrees": g["setDegrees"], "driftKnots": g["driftKnots"]})
			if err == nil {
				a["courseDegrees"] = a["courseMadeGoodDegrees"]
			}
			return a, err
		}),
		bug("corrected-down-stream", "The correction is applied with the stream, not against it.", reply(func(g given, a answer) {
			edit(a, func(x float64) float64 { return fullCircle(2*number(g, "trackDegrees") - x) }, "courseDegrees")
		})),
		bug("speed-kept", "The speed made good is that through the water.", reply(func(g given, a answer) { a["speedMadeGoodKnots"] = g["speedKnots"] })),
		bug("speed-without-the-crabbing", "The part of the stream along the track is added to the full speed.", reply(func(g given, a answer) {
			a["speedMadeGoodKnots"] = number(g, "speedKnots") + number(g, "driftKnots")*cosine(number(g, "setDegrees")-number(g, "trackDegrees"))
		})),
		bug("speed-without-the-stream", "The stream along the track is left out of the speed.", reply(func(g given, a answer) {
			a["speedMadeGoodKnots"] = number(g, "speedKnots") * math.Abs(cosine(number(a, "courseDegrees")-number(g, "trackDegrees")))
		})),
		bug("too-strong-answered", "A stream that is too strong gives the course against it.", accepts("stream-too-strong", func(g given) answer {
			return answer{"courseDegrees": opposite(number(g, "setDegrees")), "speedMadeGoodKnots": 0.0}
		})),
		bug("foul-stream-answered", "A foul stream stronger than the vessel gives a speed.", func(ask asker, g given) (answer, error) {
			if math.Abs(number(g, "trackDegrees")-number(g, "setDegrees")) == 180 {
				return answer{"courseDegrees": number(g, "trackDegrees"), "speedMadeGoodKnots": math.Abs(number(g, "speedKnots") - number(g, "driftKnots"))}, nil
			}
			return ask.same(g)
		}),
		bug("stronger-stream-refused", "Every stream stronger than the vessel is refused, a fair one too.", refuses("stream-too-strong", func(g given) bool {
			return number(g, "driftKnots") >= number(g, "speedKnots")
		})),
		bug("slower-solution", "With a fair stream stronger than the vessel, the slower of two courses is taken.", reply(func(g given, a answer) {
			if number(g, "driftKnots") > number(g, "speedKnots") {
				a["courseDegrees"] = fullCircle(2*number(g, "trackDegrees") + 180 - number(a, "courseDegrees"))
			}
		})),
		bug("small-angles", "The correction is 60° times the cross stream over the speed.", reply(func(g given, a answer) {
			cross := number(g, "driftKnots") * sine(number(g, "setDegrees")-number(g, "trackDegrees"))
			a["courseDegrees"] = fullCircle(number(g, "trackDegrees") - 60*cross/number(g, "speedKnots"))
		})),
	)...),
	on("current.toMakeGood", append(triangleBugs("courseDegrees", "speedKnots"),
		bug("speed-through-the-water", "The speed is taken as that through the water.", func(ask asker, g given) (answer, error) {
			a, err := ask.other("current.toSteer", given{"trackDegrees": g["trackDegrees"], "speedKnots": g["speedMadeGoodKnots"], "setDegrees": g["setDegrees"], "driftKnots": g["driftKnots"]})
			if err == nil {
				a["speedKnots"] = a["speedMadeGoodKnots"]
			}
			return a, err
		}),
		bug("corrected-down-stream", "The correction is applied with the stream, not against it.", reply(func(g given, a answer) {
			edit(a, func(x float64) float64 { return fullCircle(2*number(g, "trackDegrees") - x) }, "courseDegrees")
		})),
		bug("speed-kept", "The speed needed is the speed to make good.", reply(func(g given, a answer) { a["speedKnots"] = g["speedMadeGoodKnots"] })),
		bug("speeds-subtracted", "The drift is subtracted from the speed.", reply(func(g given, a answer) {
			a["speedKnots"] = math.Abs(number(g, "speedMadeGoodKnots") - number(g, "driftKnots"))
		})),
		bug("track-kept", "The course is the track.", reply(func(g given, a answer) { a["courseDegrees"] = g["trackDegrees"] })),
		bug("quadrant-lost", "The arc tangent of the quotient loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				return math.Mod(x+180, 360)
			}
			return x
		}, "courseDegrees")),
	)...),
	on("current.setByVariation",
		slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
		slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
		slipped(slip.StreamWrongWay, after(opposite, "setDegrees")),
		bug("no-wrap", "A set below 0° or over 360° stays.", reply(func(g given, a answer) {
			a["setDegrees"] = number(g, "setMagneticDegrees") + number(g, "variationDegrees")
		})),
		bug("rate-as-distance", "The rate is given as the distance.", reply(func(g given, a answer) { a["distanceMiles"] = g["driftKnots"] })),
		slipped(slip.KnotsTimesMinutes, after(times(60), "distanceMiles")),
		slipped(slip.StatuteForNautical, after(times(1/statute), "distanceMiles")),
		bug("whole-hours", "Only whole hours are counted.", before(math.Floor, "hours")),
		bug("one-day", "Hours over a day start again.", before(func(x float64) float64 { return math.Mod(x, 24) }, "hours")),
	),
)

// triangleBugs are the mistakes of any triangle of velocities.
func triangleBugs(course, speed string) []Bug {
	return []Bug{
		slipped(slip.StreamWrongWay, func(ask asker, g given) (answer, error) {
			right, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			edit(g, opposite, "setDegrees")
			if a, err := ask.same(g); err == nil {
				return a, nil
			}
			return right, nil
		}),
		slipped(slip.StreamLeftOut, func(ask asker, g given) (answer, error) {
			if _, err := ask.same(g); err != nil {
				return nil, err
			}
			edit(g, zero, "driftKnots")
			return ask.same(g)
		}),
		bug("no-wrap", "A course of the western half is negative.", after(halfCircle, course)),
		slipped(slip.ReciprocalTaken, after(opposite, course)),
		slipped(slip.SineForCosine, after(fromEast, course)),
		slipped(slip.RoundedTooFar, after(whole, course, speed)),
		slippedAs(slip.EastForWest, "set-east-for-west", "The set has the wrong side.", func(ask asker, g given) (answer, error) {
			right, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			edit(g, otherWayRound, "setDegrees")
			if a, err := ask.same(g); err == nil {
				return a, nil
			}
			return right, nil
		}),
	}
}
