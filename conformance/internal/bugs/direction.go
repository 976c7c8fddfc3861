package bugs

import (
	"math"
	"slices"
	"strings"

	"lubberline.example/conformance/slip"
)

// directionBugs are mistakes with directions: their names, differences and means.
var directionBugs = slices.Concat(
	on("angle.compassCard",
		bug("east-and-west-exchanged", "East and west are exchanged: the card goes counterclockwise.", after(otherWayRound, "degrees")),
		bug("one-point-off", "The list of points starts with N by E, not with N.", after(func(x float64) float64 { return fullCircle(x + 11.25) }, "degrees")),
		bug("by-points-wrong-way", "NE by N is taken as a point beyond NE, not toward N.", reply(func(g given, a answer) {
			degrees, names := slices.Clone(list(a, "degrees")), g["names"].([]any)
			for i := range degrees {
				if strings.Contains(names[i].(string), "by") {
					nearest := math.Round(degrees[i]/45) * 45 // N, NE, E …
					degrees[i] = fullCircle(2*nearest - degrees[i])
				}
			}
			a["degrees"] = degrees
		})),
		bug("two-of-16-exchanged", "NNE and ENE are exchanged, and so in each quadrant.", after(func(x float64) float64 {
			if _, fraction := math.Modf(x / 45); fraction == 0.5 {
				return math.Mod(90*math.Floor(x/90)+90-math.Mod(x, 90), 360)
			}
			return x
		}, "degrees")),
		bug("eleven-degrees", "A point is taken as 11°.", after(times(11/11.25), "degrees")),
		bug("whole-degrees", "The directions are rounded to whole degrees.", after(whole, "degrees")),
		bug("from-east", "Directions are counted from east, counterclockwise, as in mathematics.", after(fromEast, "degrees")),
	),
	on("angle.directionFromText",
		bug("quadrant-not-seen", "The figure between two letters is taken as the direction.", reply(func(g given, a answer) {
			if f := figures(text(g, "text")); strings.ContainsAny(text(g, "text"), "NS") && len(f) == 1 {
				a["directionDegrees"] = f[0]
			}
		})),
		bug("southern-added", "S 88° E is taken as 180° + 88°.", reply(func(g given, a answer) {
			if t := text(g, "text"); strings.HasPrefix(t, "S ") && strings.HasSuffix(t, "E") {
				edit(a, otherWayRound, "directionDegrees")
			}
		})),
		slipped(slip.EastForWest, texts("text", "E", "W", "W", "E")),
		slipped(slip.NorthForSouth, texts("text", "N", "S", "S", "N")),
		bug("fraction-left-out", "The fraction of a point is left out.", texts("text", " 1/4 E", "", " 1/4 N", "", " 3/4 W", "", " 3/4 E", "", " 1/4 W", "")),
		bug("half-point-as-quarter", "½ point is read as ¼.", texts("text", "1/2", "1/4")),
		bug("fraction-always-clockwise", "A fraction of a point is always added.", reply(func(g given, a answer) {
			if t := text(g, "text"); strings.Contains(t, "/4") {
				quarters := 2.8125
				if strings.Contains(t, "3/4") {
					quarters = 3 * 2.8125
				}
				edit(a, func(x float64) float64 {
					if strings.HasSuffix(t, "W") || strings.HasSuffix(t, "NW 1/4 N") {
						return fullCircle(x + 2*quarters)
					}
					return x
				}, "directionDegrees")
			}
		})),
		bug("by-wrong-way", "SE by E is taken as SE by S.", texts("text", "SE by E", "SE by S", "N by E", "N by W", "N by W", "N by E", "W by N", "W by S")),
		bug("points-as-degrees", "2 points is read as 2°.", texts("text", " points", "")),
		bug("point-cut", "The nearest point is the one before, not the nearest.", reply(func(g given, a answer) {
			x := number(a, "directionDegrees")
			a["point"] = points[int(math.Floor(x/11.25+1e-9))%32]
		})),
		bug("point-32-missing", "Beyond N by W there is no name.", reply(func(g given, a answer) {
			if math.Round(number(a, "directionDegrees")/11.25) == 32 {
				a["point"] = ""
			}
		})),
		bug("360-lost-as-point", "For 360° the point after the last is looked up.", reply(func(g given, a answer) {
			if text(g, "text") == "360°" {
				a["point"] = "NbE"
			}
		})),
		bug("quadrantal-from-nearest-axis", "S 56° E is written as E 34° S.", reply(func(g given, a answer) {
			a["quadrantal"] = strings.Replace(text(a, "quadrantal"), "S 56° E", "E 34° S", 1)
		})),
		bug("quadrantal-cut", "The degrees between the letters are cut off, not rounded.", reply(func(g given, a answer) {
			a["quadrantal"] = strings.Replace(text(a, "quadrantal"), "56", "56.25", 1)
		})),
		bug("quadrantal-north-only", "Every direction is written from north.", reply(func(g given, a answer) {
			a["quadrantal"] = strings.Replace(text(a, "quadrantal"), "S 56", "N 124", 1)
		})),
		bug("over-360-wrapped", "400° is taken as 40°.", accepts("out-of-range", func(g given) answer {
			return answer{"directionDegrees": math.Mod(figures(text(g, "text"))[0], 360)}
		})),
		bug("over-90-between-letters", "N 95° E is taken as 95°.", func(ask asker, g given) (answer, error) {
			if text(g, "text") == "N 95° E" {
				return answer{"directionDegrees": 95.0}, nil
			}
			return ask.same(g)
		}),
		bug("minus-wrapped", "−10° is taken as 350°.", accepts("sign-not-allowed", func(g given) answer {
			return answer{"directionDegrees": 360 - figures(text(g, "text"))[0]}
		})),
		bug("360-refused", "360° is refused, as if directions ended at 359°.", refuses("out-of-range", func(g given) bool { return text(g, "text") == "360°" })),
		bug("names-refused", "Only figures are read.", refuses("no-number", func(g given) bool { return strings.ContainsAny(text(g, "text"), "NESW") })),
	),
	on("angle.difference",
		bug("exchanged", "The first is taken from the second the wrong way round.", question(func(g given) { swap(g, "from", "to") })),
		bug("sign-lost", "The difference has no sign.", after(math.Abs, "differenceDegrees")),
		bug("not-on-the-circle", "From 350° to 010° is 340° backward.", reply(func(g given, a answer) {
			a["differenceDegrees"] = plain(g, "to") - plain(g, "from")
		})),
		bug("clockwise-only", "The difference is counted clockwise, up to 360°.", after(fullCircle, "differenceDegrees")),
		bug("long-way", "The larger of the two arcs is taken.", after(func(x float64) float64 {
			if x == 0 {
				return 0
			}
			return x - math.Copysign(360, x)
		}, "differenceDegrees")),
		bug("turn-taken-off-once-wrong", "A turn is taken off from 179°, not from 180°.", after(func(x float64) float64 {
			if x > 179 {
				return x - 360
			}
			return x
		}, "differenceDegrees")),
		bug("minutes-left-out", "The minutes are left out.", after(truncated, "differenceDegrees")),
		slipped(slip.MinutesAsDecimals, after(minutesAsHundredths, "differenceDegrees")),
	),
	on("angle.mean",
		bug("plain-mean", "The figures are added and divided, as if 359° and 1° were far apart.", reply(func(g given, a answer) { a["meanDegrees"] = mean(list(g, "directionsDegrees")) })),
		bug("arc-tangent-of-a-quotient", "The arc tangent of sine over cosine loses the quadrant.", after(func(x float64) float64 {
			if x > 90 && x <= 270 {
				x = math.Mod(x+180, 360)
			}
			return x
		}, "meanDegrees")),
		bug("sine-and-cosine-exchanged", "The arguments of the arc tangent are exchanged.", after(fromEast, "meanDegrees")),
		bug("negative", "The mean is left from −180° to 180°.", after(halfCircle, "meanDegrees")),
		bug("first-and-last", "Only the first and the last direction are averaged.", question(func(g given) {
			all := list(g, "directionsDegrees")
			g["directionsDegrees"] = []float64{all[0], all[len(all)-1]}
		})),
		bug("middle-of-the-sorted", "The middle of the sorted figures is taken.", reply(func(g given, a answer) {
			all := slices.Sorted(slices.Values(list(g, "directionsDegrees")))
			a["meanDegrees"] = all[len(all)/2]
		})),
		bug("mean-in-pairs", "Each direction is averaged with the mean so far.", func(ask asker, g given) (answer, error) {
			all := list(g, "directionsDegrees")
			a := answer{"meanDegrees": all[0]}
			for _, x := range all[1:] {
				var err error
				if a, err = ask.same(given{"directionsDegrees": []float64{number(a, "meanDegrees"), x}}); err != nil {
					return nil, err
				}
			}
			return a, nil
		}),
		bug("plain-mean-of-offsets", "The mean of the turns from the first direction, which weighs each degree alike.", reply(func(g given, a answer) {
			all := list(g, "directionsDegrees")
			sum := 0.0
			for _, x := range all {
				sum += halfCircle(x - all[0])
			}
			a["meanDegrees"] = fullCircle(all[0] + sum/float64(len(all)))
		})),
	),
	on("angle.reciprocal",
		slipped(slip.ReciprocalForgotten, reply(func(g given, a answer) { a["reciprocalDegrees"] = g["directionDegrees"] })),
		bug("no-wrap", "180° is added and no turn is taken off.", reply(func(g given, a answer) { a["reciprocalDegrees"] = number(g, "directionDegrees") + 180 })),
		bug("subtracted", "180° is always subtracted.", reply(func(g given, a answer) { a["reciprocalDegrees"] = number(g, "directionDegrees") - 180 })),
		bug("mirrored", "The direction is taken from 360°.", reply(func(g given, a answer) { a["reciprocalDegrees"] = otherWayRound(number(g, "directionDegrees")) })),
		bug("right-angle", "90° is added, not 180°.", after(func(x float64) float64 { return fullCircle(x - 90) }, "reciprocalDegrees")),
		slipped(slip.RoundedTooFar, after(whole, "reciprocalDegrees")),
	),
	on("angle.relative",
		bug("exchanged", "The bearing is taken from the heading.", question(func(g given) { swap(g, "headingDegrees", "bearingDegrees") })),
		bug("no-wrap", "A negative difference gets no turn added.", reply(func(g given, a answer) {
			a["relativeDegrees"] = number(g, "bearingDegrees") - number(g, "headingDegrees")
		})),
		bug("port-lost", "A relative bearing to port is given as one to starboard.", after(func(x float64) float64 { return math.Abs(halfCircle(x)) }, "relativeDegrees")),
		bug("added", "The heading is added.", reply(func(g given, a answer) {
			a["relativeDegrees"] = fullCircle(number(g, "bearingDegrees") + number(g, "headingDegrees"))
		})),
		bug("heading-left-out", "The bearing is given as it is.", before(zero, "headingDegrees")),
		slipped(slip.ReciprocalTaken, after(opposite, "relativeDegrees")),
	),
	on("angle.bearing",
		bug("subtracted", "The relative bearing is subtracted.", before(otherWayRound, "relativeDegrees")),
		bug("no-wrap", "A sum over 360° stays.", reply(func(g given, a answer) {
			a["bearingDegrees"] = number(g, "relativeDegrees") + number(g, "headingDegrees")
		})),
		bug("port-as-starboard", "A relative bearing over 180° is taken as one to starboard.", before(func(x float64) float64 { return math.Abs(halfCircle(x)) }, "relativeDegrees")),
		bug("heading-left-out", "The relative bearing is given as it is.", before(zero, "headingDegrees")),
		bug("relative-left-out", "The heading is given as it is.", before(zero, "relativeDegrees")),
		slipped(slip.ReciprocalTaken, after(opposite, "bearingDegrees")),
	),
)

// points are the 32 points of the compass, clockwise.
var points = strings.Fields("N NbE NNE NEbN NE NEbE ENE EbN E EbS ESE SEbE SE SEbS SSE SbE S SbW SSW SWbS SW SWbW WSW WbS W WbN WNW NWbW NW NWbN NNW NbW")

// plain is a direction in degrees and minutes as a number.
func plain(g given, key string) float64 {
	f := append(figures(text(g, key)), 0)
	return f[0] + f[1]/60
}

// mean is the sum over the number.
func mean(all []float64) float64 {
	sum := 0.0
	for _, x := range all {
		sum += x
	}
	return sum / float64(len(all))
}
