package bugs

import (
	"math"
	"slices"

	"lubberline.example/conformance/slip"
)

// tableBugs are mistakes with a table of deviations.
var tableBugs = slices.Concat(
	on("deviation.lookup",
		slipped(slip.DeviationOnMagnetic, question(func(g given) { g["by"] = "magnetic" })),
		bug("always-by-compass", "The heading of a table is always taken as the compass heading.", question(func(g given) { g["by"] = "compass" })),
		bug("by-exchanged", "A table by compass is entered with magnetic, and the other way round.", question(exchangeBy)),
		slipped(slip.DeviationWrongWay, reply(func(g given, a answer) {
			a["compassDegrees"] = fullCircle(number(g, "magneticDegrees") + number(a, "deviationDegrees"))
		})),
		slipped(slip.DeviationLeftOut, reply(func(g given, a answer) { a["compassDegrees"] = g["magneticDegrees"] })),
		bug("signs-exchanged", "East is minus in the table.", before(negated, "table.deviationDegrees")),
		bug("west-as-east", "The signs of the table are not looked at.", before(math.Abs, "table.deviationDegrees")),
		bug("nearest-row", "The nearest row is taken, without interpolation.", row(nearest, "magneticDegrees")),
		bug("row-before", "The row before is taken, without interpolation.", row(rowBefore, "magneticDegrees")),
		bug("row-after", "The row after is taken, without interpolation.", row(rowAfter, "magneticDegrees")),
		bug("sorted-assumed", "The table is taken as sorted.", looked("magneticDegrees", unsorted)),
		bug("no-row-beyond-north", "Between the last row and north, the last row is taken.", looked("magneticDegrees", noWrap)),
		bug("north-row-zero", "Beyond the last row the deviation is 0°.", looked("magneticDegrees", zeroBeyond)),
		bug("rows-taken-as-equally-spaced", "The place in the table is found from the heading over the step.", looked("magneticDegrees", equallySpaced)),
		bug("one-row-off", "Each heading has the deviation of the next row.", question(shiftRows)),
		bug("no-wrap", "A compass course below 0° or over 360° stays.", reply(func(g given, a answer) {
			a["compassDegrees"] = number(g, "magneticDegrees") - number(a, "deviationDegrees")
		})),
		bug("whole-degrees", "The deviation is rounded to whole degrees.", reply(func(g given, a answer) {
			edit(a, whole, "deviationDegrees")
			a["compassDegrees"] = fullCircle(number(g, "magneticDegrees") - number(a, "deviationDegrees"))
		})),
		bug("one-step-only", "The compass heading is found in one step from the deviation on the magnetic heading, and the deviation is not looked up again.", func(ask asker, g given) (answer, error) {
			if text(g, "by") == "magnetic" {
				return ask.same(g)
			}
			a, err := ask.other("deviation.onCompass", given{"by": "compass", "table": g["table"], "compassDegrees": g["magneticDegrees"]})
			if err != nil {
				return nil, err
			}
			compass := fullCircle(number(g, "magneticDegrees") - number(a, "deviationDegrees"))
			b, err := ask.other("deviation.onCompass", given{"by": "compass", "table": g["table"], "compassDegrees": compass})
			if err != nil {
				return nil, err
			}
			return answer{"deviationDegrees": b["deviationDegrees"], "compassDegrees": compass}, nil
		}),
	),
	on("deviation.onCompass",
		bug("always-by-magnetic", "The heading of a table is always taken as the magnetic heading.", question(func(g given) { g["by"] = "magnetic" })),
		bug("always-by-compass", "The heading of a table is always taken as the compass heading.", question(func(g given) { g["by"] = "compass" })),
		slipped(slip.DeviationWrongWay, reply(func(g given, a answer) {
			a["magneticDegrees"] = fullCircle(number(g, "compassDegrees") - number(a, "deviationDegrees"))
		})),
		slipped(slip.DeviationLeftOut, reply(func(g given, a answer) { a["magneticDegrees"] = g["compassDegrees"] })),
		slipped(slip.DeviationTwice, reply(func(g given, a answer) {
			a["magneticDegrees"] = fullCircle(number(g, "compassDegrees") + 2*number(a, "deviationDegrees"))
		})),
		bug("signs-exchanged", "East is minus in the table.", before(negated, "table.deviationDegrees")),
		bug("nearest-row", "The nearest row is taken, without interpolation.", row(nearest, "compassDegrees")),
		bug("row-before", "The row before is taken, without interpolation.", row(rowBefore, "compassDegrees")),
		bug("sorted-assumed", "The table is taken as sorted.", looked("compassDegrees", unsorted)),
		bug("no-row-beyond-north", "Between the last row and north, the last row is taken.", looked("compassDegrees", noWrap)),
		bug("north-row-zero", "Beyond the last row the deviation is 0°.", looked("compassDegrees", zeroBeyond)),
		bug("rows-taken-as-equally-spaced", "The place in the table is found from the heading over the step.", looked("compassDegrees", equallySpaced)),
		bug("one-row-off", "Each heading has the deviation of the next row.", question(shiftRows)),
		bug("no-wrap", "A magnetic course below 0° or over 360° stays.", reply(func(g given, a answer) {
			a["magneticDegrees"] = number(g, "compassDegrees") + number(a, "deviationDegrees")
		})),
		bug("whole-degrees", "The deviation is rounded to whole degrees.", reply(func(g given, a answer) {
			edit(a, whole, "deviationDegrees")
			a["magneticDegrees"] = fullCircle(number(g, "compassDegrees") + number(a, "deviationDegrees"))
		})),
	),
	on("deviation.nearestEntry",
		bug("row-before", "The row before is taken.", entry(rowBefore)),
		bug("row-after", "The row after is taken.", entry(rowAfter)),
		bug("not-across-north", "Headings are subtracted across north.", entry(func(rows [][2]float64, h float64) [2]float64 {
			return leastRow(rows, func(r [2]float64) float64 { return math.Abs(r[0] - h) })
		})),
		bug("first", "The first row is taken.", entry(func(rows [][2]float64, h float64) [2]float64 { return rows[0] })),
		bug("sorted-assumed", "The rows are taken as sorted, and the place as heading over step.", entry(func(rows [][2]float64, h float64) [2]float64 {
			step := 360 / float64(len(rows))
			return rows[int(math.Round(h/step))%len(rows)]
		})),
		bug("rows-taken-as-equally-spaced", "The place in the sorted table is found from the heading over the step.", entry(func(rows [][2]float64, h float64) [2]float64 {
			rows = sorted(rows)
			return rows[int(math.Round(h*float64(len(rows))/360))%len(rows)]
		})),
		bug("interpolated", "The deviation is interpolated, not that of the row.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			b, err := ask.other("deviation.onCompass", given{"by": "compass", "table": g["table"], "compassDegrees": g["headingDegrees"]})
			if err == nil {
				a["deviationDegrees"] = b["deviationDegrees"]
			}
			return a, err
		}),
		bug("signs-exchanged", "East is minus in the table.", before(negated, "table.deviationDegrees")),
		bug("farthest", "The comparison is the wrong way: the farthest row is taken.", entry(func(rows [][2]float64, h float64) [2]float64 {
			return leastRow(rows, func(r [2]float64) float64 { return -math.Abs(halfCircle(r[0] - h)) })
		})),
	),
	on("deviation.interpolate",
		bug("nearest", "The nearer of the two rows is taken.", interpolatedBy(func(share, from, to float64) float64 {
			if share < 0.5 {
				return from
			}
			return to
		})),
		bug("first", "The first row is taken.", interpolatedBy(func(share, from, to float64) float64 { return from })),
		bug("second", "The second row is taken.", interpolatedBy(func(share, from, to float64) float64 { return to })),
		bug("mean", "The mean of the two rows is taken.", interpolatedBy(func(share, from, to float64) float64 { return (from + to) / 2 })),
		bug("weights-exchanged", "The weights of the two rows are exchanged.", interpolatedBy(func(share, from, to float64) float64 { return to + share*(from-to) })),
		bug("wrong-way", "The part of the difference is subtracted.", interpolatedBy(func(share, from, to float64) float64 { return from - share*(to-from) })),
		bug("signs-lost", "The names of the deviations are not looked at.", interpolatedBy(func(share, from, to float64) float64 {
			return math.Abs(from) + share*(math.Abs(to)-math.Abs(from))
		})),
		bug("cosine", "The curve between the rows is taken as a cosine.", interpolatedBy(func(share, from, to float64) float64 {
			return from + (1-math.Cos(share*math.Pi))/2*(to-from)
		})),
		bug("rows-of-45-degrees", "The rows are taken to be 45° apart.", reply(func(g given, a answer) {
			share := fullCircle(number(g, "headingDegrees")-number(g, "from.headingDegrees")) / 45
			interpolated(a, number(g, "from.deviationDegrees")+share*(number(g, "to.deviationDegrees")-number(g, "from.deviationDegrees")))
		})),
		bug("not-across-north", "The row of north is at 0°, not at 360°.", reply(func(g given, a answer) {
			from, to := number(g, "from.headingDegrees"), number(g, "to.headingDegrees")
			share := (number(g, "headingDegrees") - from) / (to - from)
			interpolated(a, number(g, "from.deviationDegrees")+share*(number(g, "to.deviationDegrees")-number(g, "from.deviationDegrees")))
		})),
		bug("cut", "The whole degrees are cut off, not rounded.", reply(func(_ given, a answer) { a["deviationWholeDegrees"] = math.Trunc(number(a, "deviationDegrees")) })),
		bug("not-whole", "The deviation in whole degrees is not rounded.", reply(func(_ given, a answer) { a["deviationWholeDegrees"] = a["deviationDegrees"] })),
		bug("rounded-up", "The deviation in whole degrees is rounded up.", reply(func(_ given, a answer) { a["deviationWholeDegrees"] = math.Ceil(number(a, "deviationDegrees")) })),
	),
	on("deviation.between",
		bug("exchanged", "Magnetic is taken from compass.", question(func(g given) { swap(g, "compassDegrees", "magneticDegrees") })),
		bug("no-wrap", "A difference across north is left at more than 180°.", reply(func(g given, a answer) {
			a["deviationDegrees"] = number(g, "magneticDegrees") - number(g, "compassDegrees")
		})),
		bug("sign-lost", "The deviation has no sign.", after(math.Abs, "deviationDegrees")),
		bug("turn-added-wrong", "A difference below 0° gets a turn added.", after(func(x float64) float64 {
			if x < 0 {
				return x + 360
			}
			return x
		}, "deviationDegrees")),
		bug("cut-at-20", "A deviation over 20° is held to be a fault and set to 0°.", after(func(x float64) float64 {
			if math.Abs(x) > 20 {
				return 0
			}
			return x
		}, "deviationDegrees")),
	),
)

// exchangeBy exchanges compass and magnetic.
func exchangeBy(g given) {
	if text(g, "by") == "compass" {
		g["by"] = "magnetic"
	} else {
		g["by"] = "compass"
	}
}

// rowsOf are the rows of a table: heading and deviation.
func rowsOf(g given) (rows [][2]float64) {
	within(g["table"], func(r given) {
		rows = append(rows, [2]float64{number(r, "headingDegrees"), number(r, "deviationDegrees")})
	})
	return rows
}

// leastRow is the row with the least measure.
func leastRow(rows [][2]float64, measure func([2]float64) float64) [2]float64 {
	return slices.MinFunc(rows, func(a, b [2]float64) int {
		if measure(a) < measure(b) {
			return -1
		}
		if measure(a) > measure(b) {
			return 1
		}
		return 0
	})
}

func nearest(rows [][2]float64, h float64) [2]float64 {
	return leastRow(rows, func(r [2]float64) float64 { return math.Abs(halfCircle(r[0] - h)) })
}

func rowBefore(rows [][2]float64, h float64) [2]float64 {
	return leastRow(rows, func(r [2]float64) float64 { return fullCircle(h - r[0]) })
}

func rowAfter(rows [][2]float64, h float64) [2]float64 {
	return leastRow(rows, func(r [2]float64) float64 { return fullCircle(r[0] - h) })
}

// row answers with the deviation of one row, for the heading under the key.
func row(rule func([][2]float64, float64) [2]float64, key string) mistake {
	return looked(key, func(rows [][2]float64, h float64) float64 { return rule(rows, h)[1] })
}

// entry answers with one row.
func entry(rule func([][2]float64, float64) [2]float64) mistake {
	return reply(func(g given, a answer) {
		r := rule(rowsOf(g), number(g, "headingDegrees"))
		a["entryDegrees"], a["deviationDegrees"] = r[0], r[1]
	})
}

// looked looks up the deviation in another way. A table by the other heading is entered as often
// as the deviation changes it.
func looked(key string, rule func([][2]float64, float64) float64) mistake {
	return reply(func(g given, a answer) {
		rows, given := rowsOf(g), number(g, key)
		steps, side := 0, 1.0
		if key == "magneticDegrees" {
			side = -1
		}
		if (text(g, "by") == "compass") != (key == "compassDegrees") {
			steps = 30
		}
		d := rule(rows, given)
		for range steps {
			d = rule(rows, fullCircle(given+side*d))
		}
		a["deviationDegrees"] = d
		for _, other := range []string{"compassDegrees", "magneticDegrees"} {
			if other != key {
				a[other] = fullCircle(given + side*d)
			}
		}
	})
}

// unsorted interpolates between the first neighbours in the list that enclose the heading.
func unsorted(rows [][2]float64, h float64) float64 {
	for i := range rows[1:] {
		from, to := rows[i], rows[i+1]
		if from[0] <= h && h <= to[0] {
			return from[1] + (h-from[0])/(to[0]-from[0])*(to[1]-from[1])
		}
	}
	from, to := rows[len(rows)-1], rows[0]
	return from[1] + fullCircle(h-from[0])/fullCircle(to[0]-from[0])*(to[1]-from[1])
}

// noWrap interpolates in the sorted list, and takes the last row beyond it.
func noWrap(rows [][2]float64, h float64) float64 { return beyond(rows, h, 1) }

// zeroBeyond interpolates in the sorted list. Beyond it is nothing.
func zeroBeyond(rows [][2]float64, h float64) float64 { return beyond(rows, h, 0) }

func beyond(rows [][2]float64, h, factor float64) float64 {
	rows = sorted(rows)
	if last := rows[len(rows)-1]; h >= last[0] {
		return factor * last[1]
	}
	return unsorted(rows, h)
}

// equallySpaced interpolates in the sorted list as if its rows were equally spaced from north.
func equallySpaced(rows [][2]float64, h float64) float64 {
	rows = sorted(rows)
	place, share := math.Modf(fullCircle(h) * float64(len(rows)) / 360)
	i := int(place) % len(rows)
	from, to := rows[i][1], rows[(i+1)%len(rows)][1]
	return from + share*(to-from)
}

// sorted are the rows in the order of their headings.
func sorted(rows [][2]float64) [][2]float64 {
	return slices.SortedFunc(slices.Values(rows), func(a, b [2]float64) int { return int(a[0] - b[0]) })
}

// shiftRows gives each heading the deviation of the next row.
func shiftRows(g given) {
	rows := rowsOf(g)
	i := 0
	within(g["table"], func(r given) {
		i++
		r["deviationDegrees"] = rows[i%len(rows)][1]
	})
}

// interpolatedBy interpolates between two rows in another way.
func interpolatedBy(f func(share, from, to float64) float64) mistake {
	return reply(func(g given, a answer) {
		from, to := number(g, "from.headingDegrees"), number(g, "to.headingDegrees")
		share := fullCircle(number(g, "headingDegrees")-from) / fullCircle(to-from)
		interpolated(a, f(share, number(g, "from.deviationDegrees"), number(g, "to.deviationDegrees")))
	})
}

// interpolated answers with a deviation.
func interpolated(a answer, d float64) {
	a["deviationDegrees"], a["deviationWholeDegrees"] = d, math.Round(d)
}
