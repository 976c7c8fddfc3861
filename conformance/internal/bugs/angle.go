package bugs

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/conformance/slip"
)

// angleBugs are mistakes in reading, adding and writing angles.
var angleBugs = slices.Concat(
	on("angle.parse",
		slipped(slip.MinutesAsDecimals, reply(func(g given, a answer) {
			if len(figures(text(g, "text"))) > 1 {
				edit(a, minutesAsHundredths, "degrees")
			}
		})),
		bug("seconds-as-decimals", "30″ is read as 0.30′.", reply(func(g given, a answer) {
			if f := figures(text(g, "text")); len(f) == 3 {
				a["degrees"] = f[0] + (f[1]+f[2]/100)/60
			}
		})),
		bug("seconds-left-out", "Only degrees and minutes are read.", reply(func(g given, a answer) {
			if f := figures(text(g, "text")); len(f) == 3 {
				a["degrees"] = f[0] + f[1]/60
			}
		})),
		bug("minutes-left-out", "Only the first figure is read.", reply(func(g given, a answer) {
			if f := figures(text(g, "text")); len(f) > 1 {
				a["degrees"] = f[0]
			}
		})),
		bug("minutes-alone-as-degrees", "15′ without degrees is read as 15°.", reply(func(g given, a answer) {
			if f := figures(text(g, "text")); len(f) == 1 && strings.ContainsAny(text(g, "text"), "′'") {
				a["degrees"] = f[0]
			}
		})),
		bug("sign-of-degrees-only", "The minus sign is given to the degrees, and the minutes are added.", reply(func(g given, a answer) {
			if x := number(a, "degrees"); x < 0 {
				whole, fraction := math.Modf(x)
				a["degrees"] = whole - fraction
			}
		})),
		bug("minus-zero-lost", "The sign of −0°30′ is lost, since −0 is 0.", reply(func(g given, a answer) {
			if x := number(a, "degrees"); x > -1 {
				a["degrees"] = math.Abs(x)
			}
		})),
		bug("sign-lost", "The minus sign is skipped.", after(math.Abs, "degrees")),
		bug("dash-as-minus", "The dash of 4-15.5 is read as a minus sign.", reply(func(g given, a answer) {
			if t := text(g, "text"); strings.LastIndex(t, "-") > 0 {
				f := figures(t)
				a["degrees"] = f[0] - f[1]/60
			}
		})),
		bug("turn-taken-off", "An angle beyond 360° is brought back to the circle.", after(func(x float64) float64 { return math.Mod(x, 360) }, "degrees")),
		bug("whole-minutes", "The angle is kept in whole minutes.", after(func(x float64) float64 { return math.Round(60*x) / 60 }, "degrees")),
		bug("tenths-of-minutes", "The angle is kept in tenths of a minute.", after(func(x float64) float64 { return math.Round(600*x) / 600 }, "degrees")),
		bug("minutes-over-59-accepted", "61 minutes are carried without a word.", accepts("minutes-out-of-range", laxAngle)),
		bug("seconds-over-59-accepted", "60 seconds are carried without a word.", accepts("seconds-out-of-range", laxAngle)),
		bug("minutes-to-60-accepted", "60 minutes pass, since the test is > and not ≥.", question(func(g given) {
			g["text"] = strings.Replace(text(g, "text"), "4°60′", "5°00′", 1)
		})),
		bug("fraction-inside-accepted", "15.5′30″ is read as if one fraction could follow another.", accepts("fraction-not-last", laxAngle)),
		bug("empty-is-zero", "An empty text is read as 0°.", accepts("empty", laxAngle)),
		bug("rest-ignored", "What follows the angle is ignored.", accepts("trailing-text", laxAngle)),
		bug("comma-accepted", "A comma is read as a point, or ends the figure.", accepts("bad-separator", laxAngle)),
		bug("not-a-number-accepted", "The reader of floating point accepts nan.", accepts("no-number", laxAngle)),
		bug("refuses-all", "Every text is refused.", refuses("no-number", func(given) bool { return true })),
		bug("refuses-bare-figures", "Figures without degree and minute signs are refused.", refuses("no-number", func(g given) bool {
			return !strings.ContainsAny(text(g, "text"), "°′'")
		})),
		bug("refuses-over-360", "An angle is held to be a direction, at most 360°.", refuses("out-of-range", func(g given) bool {
			f := figures(text(g, "text"))
			return len(f) > 0 && f[0] > 360
		})),
		bug("refuses-minus", "A minus sign is refused.", refuses("sign-not-allowed", func(g given) bool { return strings.HasPrefix(text(g, "text"), "-") })),
	),
	on("angle.add",
		slipped(slip.MinutesAtHundred, addedBy(func(f []float64) float64 { return f[0] + f[1]/100 + f[2]/6000 }, func(sum float64) float64 {
			whole, fraction := math.Modf(sum)
			return whole + fraction/0.6
		})),
		slipped(slip.MinutesAsDecimals, addedBy(func(f []float64) float64 { return f[0] + f[1]/100 + f[2]/10000 }, func(sum float64) float64 { return sum })),
		bug("turn-taken-off", "A sum of 360° or more loses a turn.", reply(func(_ given, a answer) {
			sum := math.Mod(number(a, "sumDegrees"), 360)
			a["sumDegrees"], a["halfDegrees"] = sum, sum/2
		})),
		bug("signs-lost", "All terms are added, those with a minus sign too.", terms(func(all []string) []string {
			for i := range all {
				all[i] = strings.TrimPrefix(all[i], "-")
			}
			return all
		})),
		bug("minus-zero-lost", "The sign of −0°40′ is lost, since −0 is 0.", terms(func(all []string) []string {
			for i := range all {
				if strings.HasPrefix(all[i], "-0°") {
					all[i] = all[i][1:]
				}
			}
			return all
		})),
		bug("seconds-left-out", "The seconds of the terms are left out.", terms(func(all []string) []string {
			for i := range all {
				if at := strings.Index(all[i], "′"); at > 0 {
					all[i] = all[i][:at+len("′")]
				}
			}
			return all
		})),
		bug("two-terms-only", "Only the first two terms are added.", terms(func(all []string) []string { return all[:min(2, len(all))] })),
		bug("last-term-left-out", "The sum stops before the last term.", terms(func(all []string) []string { return all[:len(all)-1] })),
		bug("halved-whole-degrees", "Half of the sum is taken by a division of whole degrees.", after(truncated, "halfDegrees")),
		bug("half-not-taken", "The half is the sum.", reply(func(_ given, a answer) { a["halfDegrees"] = a["sumDegrees"] })),
		bug("negative-sum-borrowed", "A negative sum is written as degrees and minutes of its floor.", reply(func(_ given, a answer) {
			if x := number(a, "sumDegrees"); x < 0 {
				_, fraction := math.Modf(x)
				a["sumDegrees"] = math.Ceil(x) + 1 + fraction
			}
		})),
	),
	on("angle.minutes",
		slipped(slip.MinutesAsDecimals, reply(func(_ given, a answer) { edit(a, times(100.0/60), "minutes") })),
		bug("minutes-cut", "The tenths of the minutes are cut off, not rounded.", reply(func(g given, a answer) {
			tenths := math.Trunc(10*number(a, "minutes")+1e-9) / 10
			a["minutes"], a["text"] = tenths, degreesAndMinutes(number(g, "degrees"), tenths)
		})),
		bug("60-not-carried", "59.97′ is rounded to 60.0′ and stays beside its degrees.", reply(func(g given, a answer) {
			if m := number(a, "minutes"); m > 59.95 {
				a["text"] = degreesAndMinutes(number(g, "degrees"), 60)
			}
		})),
		bug("floor-of-negative", "The degrees of a negative angle are its floor.", reply(func(g given, a answer) {
			if number(g, "degrees") < 0 {
				edit(a, func(m float64) float64 { return 60 - m }, "minutes")
			}
		})),
		bug("zero-not-padded", "Minutes below 10 are written without their zero.", reply(func(_ given, a answer) { a["text"] = strings.Replace(text(a, "text"), "°0", "°", 1) })),
		bug("all-in-minutes", "The degrees are turned into minutes too.", reply(func(g given, a answer) { a["minutes"] = 60 * math.Abs(number(g, "degrees")) })),
		slipped(slip.RoundedTooFar, reply(func(g given, a answer) {
			m := whole(number(a, "minutes"))
			a["minutes"], a["text"] = m, degreesAndMinutes(number(g, "degrees"), m)
		})),
		bug("negative-minutes", "The minutes keep the minus sign.", reply(func(g given, a answer) { edit(a, times(math.Copysign(1, number(g, "degrees"))), "minutes") })),
	),
	on("angle.arcFromPoints",
		bug("eleven-degrees", "A point is taken as 11°.", after(times(11/11.25), "arcDegrees")),
		bug("minutes-as-decimals", "A point of 11°15′ is taken as 11.15°.", after(times(11.15/11.25), "arcDegrees")),
		bug("ten-degrees", "There are taken to be 36 points.", after(times(10/11.25), "arcDegrees")),
		bug("fraction-left-out", "The fraction of a point is left out.", reply(func(_ given, a answer) {
			edit(a, func(x float64) float64 { return math.Floor(x/11.25) * 11.25 }, "arcDegrees")
		})),
		bug("whole-left-out", "1¼ points is read as ¼ point.", reply(func(_ given, a answer) {
			edit(a, func(x float64) float64 { return x - math.Floor(x/11.25-1e-9)*11.25 }, "arcDegrees")
		})),
		bug("whole-and-fraction-run-together", "1 1/4 is read as 11/4.", texts("points", "1 1/4", "11/4")),
		bug("quarter-points-only", "Eighths of a point are rounded to quarters.", after(func(x float64) float64 { return math.Round(x/2.8125) * 2.8125 }, "arcDegrees")),
		bug("text-in-minutes", "The text is rounded to the minute.", reply(func(_ given, a answer) {
			x := number(a, "arcDegrees")
			a["text"] = degreesAndMinutes(x, math.Round(60*(x-math.Trunc(x))))
		})),
	),
	on("angle.points",
		bug("eleven-degrees", "A point is taken as 11°.", after(times(11.25/11), "points")),
		bug("ten-degrees", "There are taken to be 36 points.", after(times(1.125), "points")),
		bug("sign-lost", "Points to the west are counted as points to the east.", after(math.Abs, "points")),
		bug("whole-points", "The number is rounded to the whole point.", after(whole, "points")),
		bug("quarter-points", "The number is cut to the quarter point.", after(func(x float64) float64 { return math.Trunc(4*x) / 4 }, "points")),
		bug("minutes-as-decimals", "A point of 11°15′ is taken as 11.15°.", after(times(11.25/11.15), "points")),
		bug("half-circle", "Angles over 180° are counted the other way.", before(halfCircle, "degrees")),
	),
)

// numberPattern finds the figures of a text.
var numberPattern = regexp.MustCompile(`\d+(\.\d+)?`)

// figures are the figures of a text, without their signs.
func figures(text string) []float64 {
	var out []float64
	for _, s := range numberPattern.FindAllString(text, -1) {
		if x, err := strconv.ParseFloat(s, 64); err == nil {
			out = append(out, x)
		}
	}
	return out
}

// laxAngle reads an angle from any figures in a text.
func laxAngle(g given) answer {
	f := append(figures(text(g, "text")), 0, 0, 0)
	return answer{"degrees": f[0] + f[1]/60 + f[2]/3600}
}

// addedBy adds angles whose figures are joined in a wrong way.
func addedBy(join func([]float64) float64, read func(float64) float64) mistake {
	return reply(func(g given, a answer) {
		sum := 0.0
		for _, term := range g["terms"].([]any) {
			x := join(append(figures(term.(string)), 0, 0, 0))
			if strings.HasPrefix(term.(string), "-") {
				x = -x
			}
			sum += x
		}
		a["sumDegrees"] = read(sum)
		a["halfDegrees"] = read(sum) / 2
	})
}

// terms changes the terms of a sum.
func terms(change func([]string) []string) mistake {
	return question(func(g given) {
		var all []string
		for _, term := range g["terms"].([]any) {
			all = append(all, term.(string))
		}
		g["terms"] = change(all)
	})
}

// degreesAndMinutes writes the whole degrees of an angle with other minutes.
func degreesAndMinutes(degrees, minutes float64) string {
	out := strconv.FormatFloat(math.Abs(math.Trunc(degrees)), 'f', 0, 64) + "°"
	if degrees < 0 {
		out = "-" + out
	}
	if minutes < 10 {
		out += "0"
	}
	return out + strconv.FormatFloat(minutes, 'f', -1, 64) + "′"
}
