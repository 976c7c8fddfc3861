package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// coefficientBugs are mistakes with the coefficients A to E and the curve and card that they give.
var coefficientBugs = slices.Concat(
	on("deviation.byHand",
		bug("signs-exchanged", "East is minus.", before(negated, "deviationDegrees")),
		bug("west-as-east", "The names of the deviations are not looked at.", before(math.Abs, "deviationDegrees")),
		bug("counterclockwise", "The headings are read counterclockwise from north.", question(func(g given) {
			all := slices.Clone(list(g, "deviationDegrees"))
			slices.Reverse(all[1:])
			g["deviationDegrees"] = all
			if text(g, "headings") == "intercardinal" {
				slices.Reverse(all)
				g["deviationDegrees"] = all
			}
		})),
		bug("from-the-second", "The first heading is taken to be the second.", question(func(g given) {
			all := list(g, "deviationDegrees")
			g["deviationDegrees"] = append(slices.Clone(all[1:]), all[0])
		})),
		bug("b-and-c-exchanged", "B is found from north and south, C from east and west.", reply(func(_ given, a answer) { swap(a, "bDegrees", "cDegrees") })),
		bug("d-and-e-exchanged", "D is found from the cardinal, E from the intercardinal headings.", reply(func(_ given, a answer) { swap(a, "dDegrees", "eDegrees") })),
		bug("b-negated", "B is west minus east.", after(negated, "bDegrees")),
		bug("c-negated", "C is south minus north.", after(negated, "cDegrees")),
		bug("d-negated", "D has the wrong sign.", after(negated, "dDegrees")),
		bug("e-negated", "E has the wrong sign.", after(negated, "eDegrees")),
		bug("a-left-out", "A is taken as 0°.", after(zero, "aDegrees")),
		bug("a-is-the-sum", "The sum for A is not divided.", reply(func(g given, a answer) {
			edit(a, times(float64(len(list(g, "deviationDegrees")))), "aDegrees")
		})),
		bug("a-halved", "A is half the sum of north and south.", reply(func(g given, a answer) {
			all := list(g, "deviationDegrees")
			a["aDegrees"] = (all[0] + all[len(all)/2]) / 2
		})),
		bug("halves-forgotten", "The differences for B and C are not halved.", after(times(2), "bDegrees", "cDegrees")),
		bug("b-is-a-mean", "B is half the sum of east and west, with the sign of west unchanged.", reply(func(g given, a answer) {
			if all := list(g, "deviationDegrees"); text(g, "headings") == "cardinal" {
				a["bDegrees"] = (all[1] + all[3]) / 2
			}
		})),
		bug("intercardinal-without-0.707", "On intercardinal headings B and C are not divided by the sine of 45°.", reply(func(g given, a answer) {
			if text(g, "headings") == "intercardinal" {
				edit(a, times(math.Sqrt2/2), "bDegrees", "cDegrees")
			}
		})),
		bug("intercardinal-times-0.707", "On intercardinal headings B and C are multiplied by the sine of 45°.", reply(func(g given, a answer) {
			if text(g, "headings") == "intercardinal" {
				edit(a, times(0.5), "bDegrees", "cDegrees")
			}
		})),
		bug("quarters-of-eight", "D and E are quarters of eight, not of four.", after(times(0.5), "dDegrees", "eDegrees")),
		bug("whole-degrees", "The coefficients are rounded to whole degrees.", after(whole, "aDegrees", "bDegrees", "cDegrees", "dDegrees", "eDegrees")),
		bug("all-found", "The answer says that all five are found.", reply(func(_ given, a answer) { a["found"] = "ABCDE" })),
		bug("none-of-d", "The answer says that only A, B and C are found.", reply(func(_ given, a answer) { a["found"] = "ABC" })),
	),
	on("deviation.curve", append(curveBugs("deviationsDegrees"),
		bug("headings-negated", "The headings are taken counterclockwise.", before(otherWayRound, "headingsDegrees")),
		bug("headings-from-east", "The headings are counted from east, counterclockwise.", before(fromEast, "headingsDegrees")),
		bug("headings-as-radians", "The sine is taken of degrees as if they were radians.", before(func(x float64) float64 { return math.Mod(x*180/math.Pi, 360) }, "headingsDegrees")),
		bug("headings-in-points", "The headings are rounded to the quarter points.", before(func(x float64) float64 { return math.Mod(math.Round(x/2.8125)*2.8125, 360) }, "headingsDegrees")),
		bug("sorted-answers", "The deviations are in the order of their size.", reply(func(_ given, a answer) {
			a["deviationsDegrees"] = slices.Sorted(slices.Values(list(a, "deviationsDegrees")))
		})),
	)...),
	on("deviation.card", append(curveBugs("deviationsDegrees"),
		slippedAs(slip.DeviationWrongWay, "compass-is-magnetic-plus-deviation", "The compass heading is magnetic plus deviation.", reply(func(g given, a answer) {
			all := slices.Clone(list(a, "compassDegrees"))
			for i := range all {
				magnetic := float64(i) * number(g, "stepDegrees")
				all[i] = fullCircle(2*magnetic - all[i])
			}
			a["compassDegrees"] = all
		})),
		slipped(slip.DeviationOnMagnetic, reply(func(g given, a answer) {
			deviations := list(a, "deviationsDegrees")
			all := slices.Clone(list(a, "compassDegrees"))
			for i := range all {
				all[i] = fullCircle(float64(i)*number(g, "stepDegrees") - deviations[i])
			}
			a["compassDegrees"] = all
		})),
		slipped(slip.DeviationLeftOut, reply(func(g given, a answer) {
			all := slices.Clone(list(a, "compassDegrees"))
			for i := range all {
				all[i] = float64(i) * number(g, "stepDegrees")
			}
			a["compassDegrees"] = all
		})),
		bug("no-wrap", "A compass heading below 0° stays.", after(func(x float64) float64 {
			if x > 340 {
				return x - 360
			}
			return x
		}, "compassDegrees")),
		bug("from-the-first-step", "The card begins at the first step, not at north.", reply(func(_ given, a answer) {
			for _, key := range []string{"deviationsDegrees", "compassDegrees"} {
				all := list(a, key)
				a[key] = append(slices.Clone(all[1:]), all[0])
			}
		})),
		bug("north-twice", "The card has a row for 0° and one for 360°.", reply(func(_ given, a answer) {
			for _, key := range []string{"deviationsDegrees", "compassDegrees"} {
				all := list(a, key)
				a[key] = append(slices.Clone(all), all[0])
			}
		})),
		bug("step-ignored", "The step is always 15°.", before(always(15), "stepDegrees")),
		bug("last-row-missing", "The card ends one step too early.", reply(func(_ given, a answer) {
			for _, key := range []string{"deviationsDegrees", "compassDegrees"} {
				all := list(a, key)
				a[key] = slices.Clone(all[:len(all)-1])
			}
		})),
	)...),
	on("deviation.fit",
		bug("signs-exchanged", "East is minus.", before(negated, "table.deviationDegrees")),
		bug("west-as-east", "The names of the deviations are not looked at.", before(math.Abs, "table.deviationDegrees")),
		bug("by-magnetic-turned-to-compass", "Magnetic headings are turned to compass headings before the fit.", turned("magnetic", -1)),
		bug("by-compass-turned-to-magnetic", "Compass headings are turned to magnetic headings before the fit.", turned("compass", 1)),
		bug("headings-counterclockwise", "The headings are taken counterclockwise.", before(otherWayRound, "table.headingDegrees")),
		bug("b-and-c-exchanged", "Sine and cosine are exchanged.", reply(func(_ given, a answer) { swap(a, "bDegrees", "cDegrees") })),
		bug("d-and-e-exchanged", "The sine and cosine of twice the heading are exchanged.", reply(func(_ given, a answer) { swap(a, "dDegrees", "eDegrees") })),
		bug("d-and-e-left-out", "Only A, B and C are fitted.", after(zero, "dDegrees", "eDegrees")),
		bug("a-left-out", "No constant is fitted.", after(zero, "aDegrees")),
		bug("sums-of-half", "The sums are divided by the number of rows, not by half of it.", after(times(0.5), "bDegrees", "cDegrees", "dDegrees", "eDegrees")),
		bug("sums-as-if-equally-spaced", "The sums of the equally spaced headings are used for any headings.", reply(func(g given, a answer) {
			rows := rowsOf(g)
			if text(g, "by") != "compass" {
				return
			}
			n := float64(len(rows))
			for key, f := range curveOf {
				sum := 0.0
				for _, r := range rows {
					sum += f(r[0]) * r[1]
				}
				if key == "aDegrees" {
					sum /= 2
				}
				a[key] = 2 * sum / n
			}
		})),
		bug("last-row-left-out", "The last row is not used, and its heading is taken from the first.", question(func(g given) {
			rows := g["table"].([]any)
			rows[len(rows)-1].(given)["deviationDegrees"] = rows[0].(given)["deviationDegrees"]
		})),
		bug("by-hand-on-the-cardinals", "The coefficients are found from the four cardinal headings only.", reply(func(g given, a answer) {
			var d [4]float64
			for i := range d {
				d[i] = nearest(rowsOf(g), float64(90*i))[1]
			}
			a["aDegrees"], a["bDegrees"], a["cDegrees"] = (d[0]+d[1]+d[2]+d[3])/4, (d[1]-d[3])/2, (d[0]-d[2])/2
		})),
		bug("whole-degrees", "The coefficients are rounded to whole degrees.", after(whole, "aDegrees", "bDegrees", "cDegrees", "dDegrees", "eDegrees")),
	),
)

// curveOf has the function of the heading for each coefficient.
var curveOf = map[string]func(float64) float64{
	"aDegrees": func(float64) float64 { return 1 },
	"bDegrees": sine,
	"cDegrees": cosine,
	"dDegrees": func(h float64) float64 { return sine(2 * h) },
	"eDegrees": func(h float64) float64 { return cosine(2 * h) },
}

// turned adds the deviation, or subtracts it, to the headings of a table by one of the two.
func turned(by string, side float64) mistake {
	return question(func(g given) {
		if text(g, "by") == by {
			within(g["table"], func(r given) {
				d := number(r, "deviationDegrees")
				edit(r, func(h float64) float64 { return fullCircle(h + side*d) }, "headingDegrees")
			})
		}
	})
}

// curveBugs are the mistakes of a curve, in all operations that use it.
func curveBugs(deviations string) []Bug {
	return []Bug{
		bug("a-left-out", "A is left out.", before(zero, "aDegrees")),
		bug("e-left-out", "E is left out.", before(zero, "eDegrees")),
		bug("d-left-out", "D is left out.", before(zero, "dDegrees")),
		bug("b-and-c-exchanged", "B goes with the cosine, C with the sine.", question(func(g given) { swap(g, "bDegrees", "cDegrees") })),
		bug("d-and-e-exchanged", "D goes with the cosine, E with the sine.", question(func(g given) { swap(g, "dDegrees", "eDegrees") })),
		bug("b-negated", "B has the wrong sign.", before(negated, "bDegrees")),
		bug("c-negated", "C has the wrong sign.", before(negated, "cDegrees")),
		bug("heading-not-doubled", "D and E go with the heading, not with twice the heading.", question(func(g given) {
			g["bDegrees"] = number(g, "bDegrees") + number(g, "dDegrees")
			g["cDegrees"] = number(g, "cDegrees") + number(g, "eDegrees")
			g["dDegrees"], g["eDegrees"] = 0.0, 0.0
		})),
		bug("signs-exchanged", "East is minus.", after(negated, deviations)),
		bug("whole-degrees", "The deviations are rounded to whole degrees.", after(whole, deviations)),
	}
}
