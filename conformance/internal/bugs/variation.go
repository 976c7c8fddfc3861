package bugs

import (
	"math"
	"slices"
	"strings"
	"time"

	"lubberline.example/conformance"
	"lubberline.example/conformance/slip"
)

// legendBugs are mistakes in reading a rose's legend and bringing it to a year.
var legendBugs = slices.Concat(
	on("variation.legend",
		slipped(slip.MinutesAsDecimals, after(minutesAsHundredths, "variationDegrees")),
		slippedAs(slip.EastForWest, "west-as-east", "The name of the variation is not looked at.", after(math.Abs, "variationDegrees")),
		slippedAs(slip.ChangeWrongWay, "change-negated", "West is positive in the annual change.", after(negated, "annualChangeMinutes")),
		bug("change-name-ignored", "The change is always east.", after(math.Abs, "annualChangeMinutes")),
		bug("increasing-is-east", "Increasing is east and decreasing west for variations of both names.", worded(func(t string, change float64) float64 {
			return math.Copysign(change, -sign(strings.Contains(t, "ecreas") || strings.Contains(t, "ECREAS")))
		})),
		bug("decreasing-not-read", "Decreasing is read as increasing.", worded(func(t string, change float64) float64 {
			if strings.Contains(t, "ecreas") || strings.Contains(t, "DECREAS") {
				return -change
			}
			return change
		})),
		bug("increasing-of-west", "The increase of a westerly variation makes it more easterly.", worded(func(t string, change float64) float64 {
			if strings.Contains(t, "W") && (strings.Contains(t, "ncreas") || strings.Contains(t, "INCREAS")) {
				return math.Abs(change)
			}
			return change
		})),
		bug("change-named-as-variation", "A change in brackets has the name of the variation.", reply(func(g given, a answer) {
			if strings.Contains(text(g, "legend"), "(8") || strings.Contains(text(g, "legend"), "(6′W") {
				a["annualChangeMinutes"] = math.Copysign(number(a, "annualChangeMinutes"), number(a, "variationDegrees"))
			}
		})),
		bug("change-in-degrees", "The change is given in degrees.", after(times(1.0/60), "annualChangeMinutes")),
		bug("change-whole-minutes", "The tenths of the change are cut off.", after(truncated, "annualChangeMinutes")),
		bug("degrees-only", "The minutes of the variation are not read.", after(truncated, "variationDegrees")),
		bug("tenths-of-minutes-lost", "15.5′ is read as 15′.", after(func(x float64) float64 { return math.Trunc(60*x+math.Copysign(1e-9, x)) / 60 }, "variationDegrees")),
		bug("no-change-refused", "A legend without an annual change is refused.", refuses("bad-figure", func(g given) bool { return strings.Contains(text(g, "legend"), "no annual") })),
		bug("year-missing-accepted", "A legend without a year is read as this year's.", accepts("no-year", func(g given) answer {
			return answer{"variationDegrees": -4.25, "year": 2026.0, "annualChangeMinutes": 8.0}
		})),
		bug("name-missing-accepted", "A variation without a name is east.", func(ask asker, g given) (answer, error) {
			if strings.HasPrefix(text(g, "legend"), "4°15′ 2009") {
				return answer{"variationDegrees": 4.25, "year": 2009.0, "annualChangeMinutes": 8.0}, nil
			}
			return ask.same(g)
		}),
		bug("minutes-over-59-accepted", "61 minutes are carried without a word.", func(ask asker, g given) (answer, error) {
			if strings.Contains(text(g, "legend"), "61′") {
				g["legend"] = strings.Replace(text(g, "legend"), "4°61′", "5°01′", 1)
			}
			return ask.same(g)
		}),
		bug("minutes-to-60-accepted", "60 minutes pass, since the test is > and not ≥.", question(func(g given) {
			g["legend"] = strings.Replace(text(g, "legend"), "4°60′", "5°00′", 1)
		})),
		bug("change-without-side-accepted", "A change without a name is east.", question(func(g given) {
			g["legend"] = strings.Replace(text(g, "legend"), "(8′)", "(8′E)", 1)
		})),
		bug("change-without-side-as-variation", "A change without a name has the name of the variation.", question(func(g given) {
			g["legend"] = strings.Replace(text(g, "legend"), "(8′)", "(8′W)", 1)
		})),
		bug("year-of-two-figures", "Only the last two figures of the year are kept.", after(func(x float64) float64 { return math.Mod(x, 100) }, "year")),
	),
	on("variation.project",
		slipped(slip.ChangeLeftOut, projected(func(years, perYear float64) float64 { return 0 })),
		slipped(slip.ChangeWrongWay, projected(func(years, perYear float64) float64 { return -years * perYear })),
		slipped(slip.ChangeForVariation, reply(func(_ given, a answer) { a["variationDegrees"] = number(a, "changeMinutes") / 60 })),
		slipped(slip.NameKept, nameKept()),
		slippedAs(slip.YearsMiscounted, "one-year-more", "One year too many is counted.", projected(func(years, perYear float64) float64 { return (years + 1) * perYear })),
		slippedAs(slip.YearsMiscounted, "one-year-less", "One year too few is counted.", projected(func(years, perYear float64) float64 { return (years - 1) * perYear })),
		slipped(slip.MinutesAtHundred, projected(func(years, perYear float64) float64 { return years * perYear * 0.6 })),
		slipped(slip.MinutesAsDecimals, func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err == nil {
				edit(a, minutesAsHundredths, "variationDegrees")
			}
			return a, err
		}),
		bug("change-once", "The change of one year is applied, not that of all.", projected(func(years, perYear float64) float64 { return perYear })),
		bug("years-without-sign", "Years before the rose's count as years after.", projected(func(years, perYear float64) float64 { return math.Abs(years) * perYear })),
		bug("past-not-projected", "Before the rose's year, its variation is given.", projected(func(years, perYear float64) float64 { return max(0, years) * perYear })),
		bug("change-always-east", "The name of the change is not looked at.", projected(func(years, perYear float64) float64 { return years * math.Abs(perYear) })),
		bug("change-grows-the-figure", "The change is added to the figure, even if the names differ.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			start := number(a, "variationDegrees") - number(a, "changeMinutes")/60
			a["variationDegrees"] = start + math.Copysign(number(a, "changeMinutes")/60, start)
			return a, nil
		}),
		bug("changed-in-whole-degrees", "The change is cut to whole degrees.", projected(func(years, perYear float64) float64 { return 60 * math.Trunc(years*perYear/60) })),
		bug("change-whole-minutes-a-year", "The tenths of the annual change are cut off.", projected(func(years, perYear float64) float64 { return years * math.Trunc(perYear+1e-9) })),
		bug("text-cut", "The minutes of the text are cut off, not rounded.", reply(func(_ given, a answer) { a["text"] = eastWestText(number(a, "variationDegrees"), math.Trunc) })),
		bug("text-60-minutes", "59.8′ is rounded to 60′ and stays beside its degrees.", reply(func(_ given, a answer) {
			whole, fraction := math.Modf(math.Abs(number(a, "variationDegrees")))
			if m := math.Round(60 * fraction); m == 60 {
				a["text"] = degreesAndMinutes(whole, m) + eastOrWest(number(a, "variationDegrees"))
			}
		})),
		bug("text-always-west", "The text always has the name of the rose.", reply(func(g given, a answer) {
			if strings.Contains(strings.SplitN(text(g, "legend"), "(", 2)[0], "W") {
				a["text"] = strings.Replace(text(a, "text"), "E", "W", 1)
			}
		})),
	),
	on("variation.onDate",
		bug("year-count-ignored", "Years are always counted whole.", question(func(g given) { g["yearCount"] = "whole" })),
		bug("always-decimal", "Years are always counted with their fraction.", question(func(g given) { g["yearCount"] = "decimal" })),
		bug("months-as-twelfths", "The fraction of the year is the months that are over.", years(func(d time.Time) float64 {
			return float64(d.Month()-1) / 12
		})),
		bug("this-month-as-twelfths", "The fraction of the year is the number of the month over 12.", years(func(d time.Time) float64 {
			return float64(d.Month()) / 12
		})),
		bug("days-of-30", "Every month has 30 days.", years(func(d time.Time) float64 {
			return (30*float64(d.Month()-1) + float64(d.Day()-1) + float64(d.Hour())/24) / 360
		})),
		bug("leap-year-forgotten", "Every year has 365 days.", years(func(d time.Time) float64 {
			return (float64(d.YearDay()-1) + float64(d.Hour())/24) / 365
		})),
		bug("year-of-365.25-days", "Every year has 365.25 days.", years(func(d time.Time) float64 {
			return (float64(d.YearDay()-1) + float64(d.Hour())/24) / 365.25
		})),
		bug("first-of-january-is-day-1", "On 1 January a day of the year is already over.", years(func(d time.Time) float64 {
			return (float64(d.YearDay()) + float64(d.Hour())/24) / daysOf(d)
		})),
		bug("whole-rounded", "Whole years are rounded, not counted from year to year.", func(ask asker, g given) (answer, error) {
			if text(g, "yearCount") != "whole" {
				return ask.same(g)
			}
			return fromYears(ask, g, func(d time.Time) float64 { return float64(d.Year()) + math.Round((float64(d.YearDay())-1)/daysOf(d)) })
		}),
		bug("rose-of-mid-year", "The rose's year is taken as its middle, 1 July.", func(ask asker, g given) (answer, error) {
			if text(g, "yearCount") != "decimal" {
				return ask.same(g)
			}
			return fromYears(ask, g, func(d time.Time) float64 {
				return float64(d.Year()) + (float64(d.YearDay()-1)+float64(d.Hour())/24)/daysOf(d) - 0.5
			})
		}),
		slipped(slip.ChangeWrongWay, func(ask asker, g given) (answer, error) { return fromDate(ask, g, -1) }),
		slipped(slip.ChangeLeftOut, func(ask asker, g given) (answer, error) { return fromDate(ask, g, 0) }),
		bug("years-without-sign", "Years before the rose's count as years after.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err == nil && number(a, "years") < 0 {
				return fromDate(ask, g, -1)
			}
			return a, err
		}),
		slipped(slip.NameKept, nameKept()),
	),
	on("variation.change",
		bug("exchanged", "The earlier is taken from the later the wrong way round.", question(func(g given) { swap(g, "from", "to") })),
		bug("sign-lost", "The change has no sign.", after(math.Abs, "changeDegrees")),
		bug("names-ignored", "The names east and west are not looked at.", texts2("W", "E")),
		bug("figures-subtracted", "The figures are subtracted without regard to the names: more west is an increase.", reply(func(g given, a answer) {
			if strings.HasSuffix(text(g, "from"), "W") {
				edit(a, negated, "changeDegrees")
			}
		})),
		bug("name-of-the-first-for-both", "The second has the name of the first.", question(func(g given) {
			name := text(g, "from")[len(text(g, "from"))-1:]
			g["to"] = text(g, "to")[:len(text(g, "to"))-1] + name
		})),
		slipped(slip.MinutesAsDecimals, after(minutesAsHundredths, "changeDegrees")),
		bug("seconds-left-out", "The seconds are left out.", after(func(x float64) float64 { return math.Trunc(60*x) / 60 }, "changeDegrees")),
		bug("in-minutes", "The change is given in minutes.", after(times(60), "changeDegrees")),
	),
)

// worded changes the annual change of a legend that says it in a word.
func worded(f func(legend string, change float64) float64) mistake {
	return reply(func(g given, a answer) {
		t := text(g, "legend")
		if lower := strings.ToLower(t); strings.Contains(lower, "increas") || strings.Contains(lower, "decreas") {
			a["annualChangeMinutes"] = f(t, number(a, "annualChangeMinutes"))
		}
	})
}

// sign is 1 if so, else −1.
func sign(so bool) float64 {
	if so {
		return 1
	}
	return -1
}

// projected applies another change, in minutes, to the variation of a rose.
func projected(f func(years, perYear float64) float64) mistake {
	return func(ask asker, g given) (answer, error) {
		a, err := ask.same(g)
		if err != nil {
			return nil, err
		}
		r, err := ask.other("variation.legend", given{"legend": g["legend"]})
		if err != nil {
			return nil, err
		}
		change := f(number(a, "years"), number(r, "annualChangeMinutes"))
		v := number(r, "variationDegrees") + change/60
		a["changeMinutes"], a["variationDegrees"], a["text"] = change, v, eastWestText(v, math.Round)
		return a, nil
	}
}

// nameKept keeps the name of the rose when the variation goes through zero.
func nameKept() mistake {
	return func(ask asker, g given) (answer, error) {
		a, err := ask.same(g)
		if err != nil {
			return nil, err
		}
		r, err := ask.other("variation.legend", given{"legend": g["legend"]})
		if err == nil {
			a["variationDegrees"] = math.Copysign(number(a, "variationDegrees"), number(r, "variationDegrees"))
			a["text"] = eastWestText(number(a, "variationDegrees"), math.Round)
		}
		return a, err
	}
}

// eastWestText writes a variation in degrees and whole minutes.
func eastWestText(degrees float64, round func(float64) float64) string {
	minutes := round(60*math.Abs(degrees) + 1e-9)
	return degreesAndMinutes(math.Trunc(minutes/60), math.Mod(minutes, 60)) + eastOrWest(degrees)
}

// eastOrWest is the letter of a variation.
func eastOrWest(degrees float64) string {
	if degrees < 0 {
		return "W"
	}
	return "E"
}

// texts2 changes a text in both ends of a change.
func texts2(old, new string) mistake {
	return question(func(g given) {
		for _, key := range []string{"from", "to"} {
			g[key] = strings.Replace(text(g, key), old, new, 1)
		}
	})
}

// daysOf is the number of days of the date's year.
func daysOf(d time.Time) float64 {
	return float64(time.Date(d.Year(), time.December, 31, 0, 0, 0, 0, time.UTC).YearDay())
}

// years brings a rose to a date with another fraction of the year.
func years(fraction func(time.Time) float64) mistake {
	return func(ask asker, g given) (answer, error) {
		if text(g, "yearCount") != "decimal" {
			return ask.same(g)
		}
		return fromYears(ask, g, func(d time.Time) float64 { return float64(d.Year()) + fraction(d) })
	}
}

// fromYears brings a rose to a year with its fraction.
func fromYears(ask asker, g given, year func(time.Time) float64) (answer, error) {
	r, err := ask.other("variation.legend", given{"legend": g["legend"]})
	if err != nil {
		return nil, err
	}
	date, err := time.Parse(time.RFC3339, text(g, "date"))
	if err != nil {
		return nil, err
	}
	n := year(date) - number(r, "year")
	return answer{"years": n, "variationDegrees": number(r, "variationDegrees") + n*number(r, "annualChangeMinutes")/60}, nil
}

// fromDate brings a rose to a date with the change multiplied.
func fromDate(ask asker, g given, factor float64) (conformance.Answer, error) {
	a, err := ask.same(g)
	if err != nil {
		return nil, err
	}
	r, err := ask.other("variation.legend", given{"legend": g["legend"]})
	if err == nil {
		a["variationDegrees"] = number(r, "variationDegrees") + factor*number(a, "years")*number(r, "annualChangeMinutes")/60
	}
	return a, err
}
