package bugs

import (
	"math"
	"slices"
	"strings"

	"lubberline.example/conformance/slip"
)

// positionBugs are mistakes in reading a latitude and a longitude.
var positionBugs = on("angle.position",
	slippedAs(slip.NorthForSouth, "south-as-north", "The name S is not looked at.", after(math.Abs, "latitudeDegrees")),
	slippedAs(slip.EastForWest, "west-as-east", "The name W is not looked at.", after(math.Abs, "longitudeDegrees")),
	bug("latitude-negated", "The latitude has the wrong name.", after(negated, "latitudeDegrees")),
	bug("west-positive", "West is counted as positive.", after(negated, "longitudeDegrees")),
	bug("exchanged", "Latitude and longitude are exchanged.", reply(func(_ given, a answer) { swap(a, "latitudeDegrees", "longitudeDegrees") })),
	slipped(slip.MinutesAsDecimals, reply(func(g given, a answer) {
		if strings.Contains(text(g, "text"), "′") {
			edit(a, minutesAsHundredths, "latitudeDegrees", "longitudeDegrees")
		}
	})),
	bug("seconds-left-out", "The seconds are left out.", reply(func(g given, a answer) {
		if t := text(g, "text"); strings.Contains(t, "″") {
			edit(a, func(x float64) float64 { return math.Trunc(60*x) / 60 }, "latitudeDegrees", "longitudeDegrees")
		}
	})),
	bug("south-of-degrees-only", "The sign is given to the degrees, and the minutes are added.", after(func(x float64) float64 {
		whole, fraction := math.Modf(x)
		return whole + math.Abs(fraction)
	}, "latitudeDegrees", "longitudeDegrees")),
	bug("minus-zero-lost", "The sign of 00°30′ S is lost, since −0 is 0.", after(func(x float64) float64 {
		if x > -1 {
			return math.Abs(x)
		}
		return x
	}, "latitudeDegrees", "longitudeDegrees")),
	bug("iso-minutes-as-degrees", "A sign, four figures and a point are read as degrees.", reply(func(g given, a answer) {
		if strings.HasSuffix(text(g, "text"), "/") && strings.HasPrefix(text(g, "text"), "-3351.5") {
			a["latitudeDegrees"] = -3351.5
		}
	})),
	bug("iso-minutes-as-hundredths", "ISO 6709 -3351.5 is read as −33.515°.", reply(func(g given, a answer) {
		if f := figures(text(g, "text")); strings.HasSuffix(text(g, "text"), "/") && f[0] > 90 && f[0] < 9100 {
			edit(a, minutesAsHundredths, "latitudeDegrees", "longitudeDegrees")
		}
	})),
	bug("iso-seconds-left-out", "The seconds of ISO 6709 are left out.", reply(func(g given, a answer) {
		if f := figures(text(g, "text")); strings.HasSuffix(text(g, "text"), "/") && f[0] >= 10000 {
			edit(a, func(x float64) float64 { return math.Trunc(60*x) / 60 }, "latitudeDegrees", "longitudeDegrees")
		}
	})),
	bug("names-in-front-refused", "A name is only read after its figures.", refuses("no-number", func(g given) bool {
		return strings.HasPrefix(text(g, "text"), "S") || strings.HasPrefix(text(g, "text"), "N")
	})),
	bug("decimal-degrees-refused", "Positions in decimals of a degree are refused.", refuses("bad-figure", func(g given) bool {
		return !strings.ContainsAny(text(g, "text"), "°/")
	})),
	bug("pole-refused", "A latitude of 90° is refused.", refuses("out-of-range", func(g given) bool { return strings.HasPrefix(text(g, "text"), "+90") })),
	bug("minutes-over-59-accepted", "60 minutes are carried without a word.", accepts("minutes-out-of-range", laxPosition)),
	bug("seconds-over-59-accepted", "60 seconds are carried without a word.", accepts("seconds-out-of-range", laxPosition)),
	bug("latitude-over-90-accepted", "The latitude is not checked.", func(ask asker, g given) (answer, error) {
		if t := text(g, "text"); strings.Contains(t, "N") && figures(t)[0] > 90 {
			return laxPosition(g), nil
		}
		return ask.same(g)
	}),
	bug("minutes-beyond-the-pole", "Only the degrees of a latitude are checked: 90°30′ passes.", func(ask asker, g given) (answer, error) {
		if f := figures(text(g, "text")); f[0] == 90 && len(f) > 2 && f[1] > 0 {
			return laxPosition(g), nil
		}
		return ask.same(g)
	}),
	bug("longitude-over-180-accepted", "A longitude of 185° E passes, or becomes one west.", func(ask asker, g given) (answer, error) {
		if strings.Contains(text(g, "text"), "185°") {
			return answer{"latitudeDegrees": 10.0, "longitudeDegrees": -175.0}, nil
		}
		return ask.same(g)
	}),
	bug("wrong-names-accepted", "E and W are accepted for a latitude.", accepts("wrong-name", laxPosition)),
	bug("two-names-accepted", "The last of two names counts.", accepts("two-names", laxPosition)),
	bug("empty-accepted", "An empty text is the position 0°, 0°.", accepts("empty", func(given) answer {
		return answer{"latitudeDegrees": 0.0, "longitudeDegrees": 0.0}
	})),
	bug("one-part-accepted", "A latitude alone is a position on the meridian of Greenwich.", accepts("no-number", func(given) answer {
		return answer{"latitudeDegrees": 47.0, "longitudeDegrees": 0.0}
	})),
	bug("tenths-of-minutes", "The position is kept in tenths of a minute.", after(func(x float64) float64 { return math.Round(600*x) / 600 }, "latitudeDegrees", "longitudeDegrees")),
	slippedAs(slip.RoundedTooFar, "whole-minutes", "The position is kept in whole minutes.", after(func(x float64) float64 { return math.Round(60*x) / 60 }, "latitudeDegrees", "longitudeDegrees")),
)

// laxPosition reads a position from any figures in a text.
func laxPosition(g given) answer {
	f := figures(text(g, "text"))
	half := len(f) / 2
	read := func(part []float64) float64 {
		part = append(slices.Clone(part), 0, 0)
		return part[0] + part[1]/60 + part[2]/3600
	}
	return answer{"latitudeDegrees": read(f[:half]), "longitudeDegrees": read(f[half:])}
}
