package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// dangerBugs are mistakes with clearing bearings and danger angles.
var dangerBugs = slices.Concat(
	on("fix.clearingBearing",
		bug("margin-left-out", "The bearing leads over the danger: the margin is left out.", before(always(1e-6), "marginMiles")),
		bug("wrong-side", "The line passes on the other side of the danger.", reply(func(g given, a answer) {
			b := bearing(g, "mark", "danger")
			edit(a, func(x float64) float64 { return fullCircle(2*b - x) }, "limitDegrees")
		})),
		bug("leave-to-ignored", "The danger is always left to port.", question(func(g given) { g["leaveTo"] = "port" })),
		bug("leave-to-exchanged", "Port and starboard are exchanged.", question(func(g given) {
			g["leaveTo"] = map[any]string{"port": "starboard", "starboard": "port"}[g["leaveTo"]]
		})),
		bug("words-exchanged", "Not more than is said for not less than.", reply(func(_ given, a answer) { otherBound(a) })),
		slipped(slip.ReciprocalForgotten, after(opposite, "limitDegrees")),
		bug("margin-doubled", "The margin is taken twice.", before(times(2), "marginMiles")),
		bug("margin-halved", "The margin is taken as a diameter.", before(times(0.5), "marginMiles")),
		bug("arc-tangent", "The arc tangent is used: the line is not a tangent of the margin's circle.", reply(func(g given, a answer) {
			b := bearing(g, "mark", "danger")
			edit(a, func(x float64) float64 {
				turn := halfCircle(x - b)
				return fullCircle(b + math.Atan(sine(turn))*180/math.Pi)
			}, "limitDegrees")
		})),
		bug("plane-chart", "A minute of longitude is taken as a mile.", func(ask asker, g given) (answer, error) {
			lat := number(g, "mark.latitudeDegrees")
			edit(g, plus(-lat), "mark.latitudeDegrees", "danger.latitudeDegrees")
			return ask.same(g)
		}),
		bug("from-the-danger", "The bearing is that of the danger.", func(ask asker, g given) (answer, error) {
			swap(g, "mark", "danger")
			return ask.same(g)
		}),
		slipped(slip.StatuteForNautical, before(times(statute), "marginMiles")),
		slipped(slip.RoundedTooFar, after(whole, "limitDegrees")),
		bug("mark-too-near-answered", "A mark within the margin gives a bearing.", accepts("no-limit", func(given) answer {
			return answer{"limitDegrees": 0.0, "safe": "not-more-than"}
		})),
	),
	on("fix.verticalDangerAngle",
		bug("words-exchanged", "Not more than is said for not less than.", reply(func(_ given, a answer) { otherBound(a) })),
		bug("pass-ignored", "The danger is always passed outside.", question(func(g given) { g["pass"] = "outside" })),
		bug("height-in-feet", "The height is taken in feet.", before(times(0.3048), "heightMetres")),
		slipped(slip.StatuteForNautical, before(times(statute), "distanceMiles")),
		bug("kilometres", "The distance is taken in kilometres.", before(times(1/1.852), "distanceMiles")),
		bug("in-degrees", "The angle is given in degrees.", after(times(1.0/60), "limitMinutes")),
		bug("whole-minutes", "The angle is rounded to the minute.", after(whole, "limitMinutes")),
		bug("small-angles", "The angle is 1.856 times the height over the distance, not its arc tangent.", reply(func(g given, a answer) {
			a["limitMinutes"] = number(g, "heightMetres") / (1852 * number(g, "distanceMiles")) * 180 / math.Pi * 60
		})),
		bug("degrees-and-minutes", "1°14.2′ is given as 114.2′.", after(func(x float64) float64 { return 100*math.Floor(x/60) + math.Mod(x, 60) }, "limitMinutes")),
		bug("zero-distance-answered", "A distance of nothing gives an angle.", accepts("out-of-range", func(given) answer {
			return answer{"limitMinutes": 5400.0, "safe": "not-more-than"}
		})),
	),
	on("fix.horizontalDangerAngle",
		bug("words-exchanged", "Not more than is said for not less than.", reply(func(_ given, a answer) { otherBound(a) })),
		bug("pass-ignored", "The danger is always passed outside.", question(func(g given) { g["pass"] = "outside" })),
		bug("pass-exchanged", "Inside and outside are exchanged.", question(func(g given) {
			g["pass"] = map[any]string{"inside": "outside", "outside": "inside"}[g["pass"]]
		})),
		bug("pass-exchanged-words-kept", "The margin is laid off on the wrong side of the danger.", func(ask asker, g given) (answer, error) {
			safe, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			g["pass"] = map[any]string{"inside": "outside", "outside": "inside"}[g["pass"]]
			a, err := ask.same(g)
			if err == nil {
				a["safe"] = safe["safe"]
			}
			return a, err
		}),
		bug("margin-left-out", "The circle passes through the danger itself.", before(always(1e-6), "marginMiles")),
		bug("margin-doubled", "The margin is taken twice.", before(times(2), "marginMiles")),
		bug("angle-at-the-centre", "The angle at the centre is given.", after(times(2), "limitDegrees")),
		bug("supplement", "The supplement is given.", after(func(x float64) float64 { return 180 - x }, "limitDegrees")),
		slipped(slip.StatuteForNautical, before(times(statute), "marginMiles")),
		slipped(slip.RoundedTooFar, after(whole, "limitDegrees")),
		bug("plane-chart", "A minute of longitude is taken as a mile.", func(ask asker, g given) (answer, error) {
			lat := number(g, "left.latitudeDegrees")
			edit(g, plus(-lat), "left.latitudeDegrees", "right.latitudeDegrees", "danger.latitudeDegrees")
			return ask.same(g)
		}),
		bug("marks-exchanged", "The left and the right mark are exchanged.", question(func(g given) { swap(g, "left", "right") })),
	),
)

// otherBound exchanges the words of a limit.
func otherBound(a answer) {
	a["safe"] = map[any]string{"not-more-than": "not-less-than", "not-less-than": "not-more-than"}[a["safe"]]
}

// bearing is the bearing of one place from another, on the plane of the first.
func bearing(g given, from, to string) float64 {
	lat := number(g, from+".latitudeDegrees")
	north := number(g, to+".latitudeDegrees") - lat
	east := halfCircle(number(g, to+".longitudeDegrees")-number(g, from+".longitudeDegrees")) * cosine(lat)
	return fullCircle(direction(north, east) + 180)
}
