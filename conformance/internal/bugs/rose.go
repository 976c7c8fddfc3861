package bugs

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"lubberline.example/conformance/slip"
)

// roseBugs are mistakes in choosing a rose, in applying a variation and in comparing it with
// a model of the field.
var roseBugs = slices.Concat(
	on("variation.nearestRose",
		bug("first", "The first rose of the list is taken.", chosen(func(roses []placed, _ placed) int { return 0 })),
		bug("last", "The last rose of the list is taken.", chosen(func(roses []placed, _ placed) int { return len(roses) - 1 })),
		slipped(slip.CosineLeftOut, chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				return math.Hypot(r.latitude-at.latitude, halfCircle(r.longitude-at.longitude))
			})
		})),
		slipped(slip.SineForCosine, chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				return math.Hypot(r.latitude-at.latitude, halfCircle(r.longitude-at.longitude)*sine(at.latitude))
			})
		})),
		bug("cosine-of-degrees", "The cosine is taken of the degrees as if they were radians.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				return math.Hypot(r.latitude-at.latitude, halfCircle(r.longitude-at.longitude)*math.Cos(at.latitude))
			})
		})),
		bug("date-line", "Longitudes are subtracted across the date line.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				return math.Hypot(r.latitude-at.latitude, (r.longitude-at.longitude)*cosine(at.latitude))
			})
		})),
		bug("by-latitude", "Only the latitudes are compared.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 { return math.Abs(r.latitude - at.latitude) })
		})),
		bug("by-longitude", "Only the longitudes are compared.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 { return math.Abs(halfCircle(r.longitude - at.longitude)) })
		})),
		bug("next-north", "The nearest rose to the north is taken.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				d := math.Hypot(r.latitude-at.latitude, halfCircle(r.longitude-at.longitude)*cosine(at.latitude))
				if r.latitude < at.latitude {
					d += 1000
				}
				return d
			})
		})),
		bug("farthest", "The comparison is the wrong way: the farthest rose is taken.", chosen(func(roses []placed, at placed) int {
			return least(roses, func(r placed) float64 {
				return -math.Hypot(r.latitude-at.latitude, halfCircle(r.longitude-at.longitude)*cosine(at.latitude))
			})
		})),
		slipped(slip.ChangeLeftOut, legends(func(text string) string { return bracket.ReplaceAllString(text, "(0′)") })),
		slipped(slip.ChangeWrongWay, legends(func(text string) string {
			return bracket.ReplaceAllStringFunc(text, strings.NewReplacer("E", "W", "W", "E").Replace)
		})),
		bug("year-of-the-first", "All roses are taken to have the year of the first.", question(func(g given) {
			first, i := "", 0
			within(g["roses"], func(r given) {
				if i == 0 {
					first = year.FindString(text(r, "legend"))
				}
				r["legend"] = year.ReplaceAllString(text(r, "legend"), first)
				i++
			})
		})),
		bug("mean-of-two", "The mean of two roses is taken.", func(ask asker, g given) (answer, error) {
			all := g["roses"].([]any)
			sum := 0.0
			for _, rose := range all[:2] {
				one := clone(g)
				one["roses"] = []any{rose}
				one["position"] = rose.(given)["position"]
				a, err := ask.same(one)
				if err != nil {
					return nil, err
				}
				sum += number(a, "variationDegrees")
			}
			return answer{"variationDegrees": sum / 2}, nil
		}),
		slipped(slip.EastForWest, after(negated, "variationDegrees")),
	),
	on("variation.roseMinusModel",
		bug("model-minus-rose", "The rose is taken from the model.", after(negated, "differenceDegrees")),
		bug("sign-lost", "The difference has no sign.", after(math.Abs, "differenceDegrees")),
		slipped(slip.ChangeLeftOut, texts("legend", "(9′E)", "(0′)", "(1′E)", "(0′)", "(5′W)", "(0′)", "(3′W)", "(0′)", "(20′E)", "(0′)")),
		slipped(slip.ChangeWrongWay, texts("legend", "′E)", "′W)", "′W)", "′E)")),
		bug("model-of-its-epoch", "The model's own change is forgotten.", func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			there := func(year float64) (answer, error) {
				return ask.other("field.evaluate", given{
					"model": g["model"], "year": year, "heightKilometres": 0.0,
					"latitudeDegrees": g["latitudeDegrees"], "longitudeDegrees": g["longitudeDegrees"],
				})
			}
			now, err := there(number(g, "year"))
			if err != nil {
				return nil, err
			}
			epoch, err := there(2025)
			if err == nil {
				a["differenceDegrees"] = number(a, "differenceDegrees") + number(now, "declinationDegrees") - number(epoch, "declinationDegrees")
			}
			return a, err
		}),
		bug("rose-of-its-year", "The rose is compared in its own year.", func(ask asker, g given) (answer, error) {
			r, err := ask.other("variation.legend", given{"legend": g["legend"]})
			if err != nil {
				return nil, err
			}
			g["year"] = max(2025, number(r, "year"))
			return ask.same(g)
		}),
		slippedAs(slip.EastForWest, "longitude-east-for-west", "The longitude has the wrong name.", before(negated, "longitudeDegrees")),
		slippedAs(slip.NorthForSouth, "latitude-north-for-south", "The latitude has the wrong name.", before(math.Abs, "latitudeDegrees")),
		bug("variation-west-as-east", "The name of the rose's variation is not looked at.", texts("legend", "W 20", "E 20")),
		bug("position-exchanged", "Latitude and longitude are exchanged.", question(func(g given) {
			if math.Abs(number(g, "longitudeDegrees")) <= 90 {
				swap(g, "latitudeDegrees", "longitudeDegrees")
			}
		})),
	),
	on("variation.apply",
		slipped(slip.VariationWrongWay, texts("variation", "W", "E", "E", "W")),
		slipped(slip.VariationLeftOut, question(func(g given) { g["variation"] = "0°E" })),
		slipped(slip.VariationTwice, func(ask asker, g given) (answer, error) {
			a, err := ask.same(g)
			if err != nil {
				return nil, err
			}
			if _, fromTrue := g["trueText"]; fromTrue {
				return ask.same(given{"trueText": degreesAndMinutes(math.Trunc(number(a, "magneticDegrees")), math.Round(60*math.Mod(number(a, "magneticDegrees"), 1))), "variation": g["variation"]})
			}
			return ask.same(given{"magneticDegrees": a["trueDegrees"], "variation": g["variation"]})
		}),
		slippedAs(slip.VariationWrongWay, "west-as-east", "A westerly variation is applied as an easterly one.", texts("variation", "W", "E")),
		bug("no-wrap-true", "A true direction below 0° or over 360° stays.", reply(func(g given, a answer) {
			if _, ok := a["trueDegrees"]; ok {
				a["trueDegrees"] = number(g, "magneticDegrees") + halfCircle(number(a, "trueDegrees")-number(g, "magneticDegrees"))
			}
		})),
		bug("no-wrap-magnetic", "A magnetic direction below 0° or over 360° stays.", reply(func(g given, a answer) {
			if t := text(g, "trueText"); strings.HasSuffix(t, "°") {
				a["magneticDegrees"] = figures(t)[0] + halfCircle(number(a, "magneticDegrees")-figures(t)[0])
			}
		})),
		bug("minutes-left-out", "The minutes of the variation are left out.", question(func(g given) {
			t := text(g, "variation")
			if degrees, rest, ok := strings.Cut(t, "°"); ok && len(rest) > 1 {
				g["variation"] = degrees + "°" + rest[len(rest)-1:]
			}
		})),
		bug("points-as-degrees", "¼ point is taken as ¼ degree.", texts("variation", "1/4 point ", "0.25°", "3/8 point ", "0.375°")),
		bug("point-cut", "The nearest point is the one before, not the nearest.", reply(func(_ given, a answer) {
			if _, ok := a["point"]; ok {
				a["point"] = points[int(math.Floor(number(a, "magneticDegrees")/11.25+1e-9))%32]
			}
		})),
	),
)

var (
	bracket = regexp.MustCompile(`\([^)]*\)`)
	year    = regexp.MustCompile(`20\d\d`)
)

// placed is a place in degrees.
type placed struct{ latitude, longitude float64 }

// place reads 47°00′N 019°20′W.
func place(text string) placed {
	f := figures(text)
	p := placed{f[0] + f[1]/60, f[2] + f[3]/60}
	if strings.Contains(text, "S") {
		p.latitude = -p.latitude
	}
	if strings.Contains(text, "W") {
		p.longitude = -p.longitude
	}
	return p
}

// chosen gives only the rose that a rule chooses, and asks at that rose.
func chosen(rule func(roses []placed, at placed) int) mistake {
	return question(func(g given) {
		var roses []placed
		within(g["roses"], func(r given) { roses = append(roses, place(text(r, "position"))) })
		one := g["roses"].([]any)[rule(roses, place(text(g, "position")))]
		g["roses"] = []any{one}
		g["position"] = one.(given)["position"]
	})
}

// least is the index of the rose with the least measure.
func least(roses []placed, measure func(placed) float64) int {
	best := 0
	for i, r := range roses {
		if measure(r) < measure(roses[best]) {
			best = i
		}
	}
	return best
}

// legends changes the legend of each rose.
func legends(change func(string) string) mistake {
	return question(func(g given) {
		within(g["roses"], func(r given) { r["legend"] = change(text(r, "legend")) })
	})
}
