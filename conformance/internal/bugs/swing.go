package bugs

import (
	"slices"

	"lubberline.example/conformance/slip"
)

// swingBugs are mistakes in reducing a swing.
var swingBugs = on("deviation.swing",
	bug("sign", "The deviation is compass minus magnetic.", after(negated, "deviationsDegrees")),
	slipped(slip.VariationWrongWay, before(negated, "variationDegrees")),
	slipped(slip.VariationLeftOut, before(zero, "variationDegrees")),
	slipped(slip.ReciprocalTaken, before(opposite, "objectDegrees")),
	bug("no-wrap", "A difference across north is left at more than 180°.", reply(func(g given, a answer) {
		compass, magnetic := list(g, "headingsDegrees"), list(g, "magneticDegrees")
		all := slices.Clone(list(a, "deviationsDegrees"))
		for i := range magnetic {
			all[i] = magnetic[i] - compass[i]
		}
		a["deviationsDegrees"] = all
	})),
	bug("plain-mean-across-north", "The bearings of a distant object are averaged as figures, across north too.", distant(mean)),
	bug("first-bearing-as-truth", "The first bearing of a distant object is taken as its magnetic bearing.", distant(func(all []float64) float64 { return all[0] })),
	bug("middle-of-the-extremes", "The mean of the largest and the smallest bearing is taken.", distant(func(all []float64) float64 {
		return (slices.Min(all) + slices.Max(all)) / 2
	})),
	bug("cardinal-mean", "Only the bearings on the four cardinal headings are averaged.", distant(func(all []float64) float64 {
		sum := 0.0
		for _, i := range []int{0, 2, 4, 6} {
			sum += halfCircle(all[i])
		}
		return sum / 4
	})),
	bug("eight-readings", "The sum of the bearings is divided by eight, however many there are.", distant(func(all []float64) float64 {
		return mean(all) * float64(len(all)) / 8
	})),
	bug("a-not-kept", "With a known object too, the mean deviation is taken off.", reply(func(g given, a answer) {
		if text(g, "method") == "transit" {
			all := list(a, "deviationsDegrees")
			edit(a, plus(-mean(all)), "deviationsDegrees")
		}
	})),
	bug("method-ignored", "A known object is treated as one of unknown bearing.", question(func(g given) {
		if text(g, "method") == "transit" {
			g["method"] = "distant-object"
		}
	})),
	bug("headings-for-bearings", "The deviation is the object's bearing less the heading.", reply(func(g given, a answer) {
		if bearings := list(g, "bearingsDegrees"); bearings != nil {
			all, headings := slices.Clone(bearings), list(g, "headingsDegrees")
			for i := range all {
				all[i] = halfCircle(number(g, "objectDegrees") - number(g, "variationDegrees") - headings[i])
			}
			a["deviationsDegrees"] = all
		}
	})),
	bug("one-row-off", "Each heading has the deviation of the next reading.", reply(func(_ given, a answer) {
		all := list(a, "deviationsDegrees")
		a["deviationsDegrees"] = append(slices.Clone(all[1:]), all[0])
	})),
	bug("whole-degrees", "The deviations are rounded to whole degrees.", after(whole, "deviationsDegrees")),
)

// distant reduces the bearings of a distant object with another magnetic bearing of it.
func distant(magnetic func([]float64) float64) mistake {
	return reply(func(g given, a answer) {
		if text(g, "method") != "distant-object" {
			return
		}
		bearings := list(g, "bearingsDegrees")
		m := magnetic(bearings)
		all := slices.Clone(bearings)
		for i := range all {
			all[i] = halfCircle(m - bearings[i])
		}
		a["deviationsDegrees"] = all
	})
}
