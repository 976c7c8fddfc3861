package bugs

import (
	"math"

	"lubberline.example/conformance/slip"
)

// fieldBugs are mistakes in evaluating a model of the field.
var fieldBugs = on("field.evaluate",
	slipped(slip.EastForWest, before(negated, "longitudeDegrees")),
	slipped(slip.NorthForSouth, before(negated, "latitudeDegrees")),
	bug("epoch-only", "The secular change is left out.", question(func(g given) {
		g["year"] = map[any]float64{"WMM2025": 2025, "WMM2020": 2020}[g["model"]]
	})),
	bug("whole-year", "The fraction of the year is left out.", before(math.Floor, "year")),
	bug("secular-change-negated", "The secular change has the wrong sign.", func(ask asker, g given) (answer, error) {
		a, err := ask.same(g)
		if err != nil {
			return nil, err
		}
		g["year"] = map[any]float64{"WMM2025": 2025, "WMM2020": 2020}[g["model"]]
		epoch, err := ask.same(g)
		if err == nil {
			for _, key := range []string{"xNanotesla", "yNanotesla", "zNanotesla"} {
				a[key] = 2*number(epoch, key) - number(a, key)
			}
			derive(a)
		}
		return a, err
	}),
	bug("height-left-out", "The height is left out.", before(zero, "heightKilometres")),
	bug("height-in-metres", "The height is taken in metres.", before(times(0.001), "heightKilometres")),
	bug("height-negated", "The height is counted downward.", before(times(-0.01), "heightKilometres")),
	bug("latitude-as-geocentric", "The latitude is taken as geocentric.", before(func(x float64) float64 {
		return math.Atan(tangent(x)/(1-0.00669437999014)) * 180 / math.Pi
	}, "latitudeDegrees")),
	bug("year-for-model", "The older model is used for all years.", question(func(g given) {
		if g["model"] == "WMM2025" && number(g, "year") <= 2025 {
			g["model"] = "WMM2020"
		}
	})),
	bug("declination-negated", "West is positive.", after(negated, "declinationDegrees")),
	bug("declination-on-the-circle", "A westerly declination is given as 350°.", after(func(x float64) float64 {
		if x < 0 {
			return x + 360
		}
		return x
	}, "declinationDegrees")),
	bug("declination-quadrant-lost", "The arc tangent of a quotient loses the quadrant.", reply(func(_ given, a answer) {
		a["declinationDegrees"] = math.Atan(number(a, "yNanotesla")/number(a, "xNanotesla")) * 180 / math.Pi
	})),
	bug("north-and-east-exchanged", "X and Y are exchanged.", reply(func(_ given, a answer) {
		swap(a, "xNanotesla", "yNanotesla")
		derive(a)
	})),
	bug("components-exchanged", "X and Y are exchanged in the answer.", reply(func(_ given, a answer) { swap(a, "xNanotesla", "yNanotesla") })),
	bug("up-positive", "The vertical component is counted upward.", reply(func(_ given, a answer) { edit(a, negated, "zNanotesla", "inclinationDegrees") })),
	bug("inclination-negated", "The inclination has the wrong sign.", after(negated, "inclinationDegrees")),
	bug("inclination-from-total", "The inclination is found with the total, not the horizontal intensity.", reply(func(_ given, a answer) {
		a["inclinationDegrees"] = math.Atan(number(a, "zNanotesla")/number(a, "fNanotesla")) * 180 / math.Pi
	})),
	bug("horizontal-as-total", "The horizontal intensity is given as the total.", reply(func(_ given, a answer) { a["fNanotesla"] = a["hNanotesla"] })),
	bug("microtesla", "Intensities are given in microtesla.", after(times(0.001), "hNanotesla", "fNanotesla", "xNanotesla", "yNanotesla", "zNanotesla")),
	bug("outside-the-years", "A model is used outside its years.", accepts("outside-years", func(given) answer {
		return answer{"declinationDegrees": 0.0}
	})),
	bug("whole-degrees", "The declination is rounded to whole degrees.", after(whole, "declinationDegrees")),
	bug("declination-in-minutes", "The declination is given in minutes.", after(times(60), "declinationDegrees")),
)

// derive works declination, inclination and intensities again from the components.
func derive(a answer) {
	x, y, z := number(a, "xNanotesla"), number(a, "yNanotesla"), number(a, "zNanotesla")
	h := math.Hypot(x, y)
	a["declinationDegrees"] = math.Atan2(y, x) * 180 / math.Pi
	a["inclinationDegrees"] = math.Atan2(z, h) * 180 / math.Pi
	a["hNanotesla"], a["fNanotesla"] = h, math.Hypot(h, z)
}
