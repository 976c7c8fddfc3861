package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// transitLesson is the deviation by a transit.
func transitLesson(r *rand.Rand) task {
	g, direction := drawRose(r), float64(r.IntN(360))
	d := float64(r.IntN(13)-6) / 2
	observed := math.Mod(math.Round(direction-g.now(doer{})-d)+720, 360)
	with := course.With{Variation: g.rose(), Deviation: deviation.None(), On: time.Date(2026, time.May, 20, 0, 0, 0, 0, time.UTC)}
	p := angle.Must(slip.NewDeviation("the beacons in line", trueOf(direction), angle.CompassFrom(degrees(observed)), angle.CompassFrom(degrees(40)), with))
	return task{
		sort: "transit", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{20},
		print: func(x []float64, _ bool) string {
			name := "E"
			if x[0] < 0 {
				name = "W"
			}
			return fmt.Sprintf("%.1f°%s", math.Abs(x[0]), name)
		},
		customs: []string{"variation to half a degree", "variation to a degree", "half a year"},
		errors: append(roseErrors(), oops{"E for W", 12, []slip.Kind{slip.EastForWest}}, oops{"variation wrong way", 8, []slip.Kind{slip.VariationWrongWay}}, many("variation left out", slip.VariationLeftOut), few("variation twice", slip.VariationTwice),
			few("observed ten more", slip.BearingMisread, slip.TensMisread), few("one more", slip.SumOff, slip.RoundedOnTheWay)),
		work: func(do doer) []float64 {
			o := observed
			if do["observed ten more"] {
				o += 10
			}
			x := math.Remainder(direction-o-variationApplied(g.now(do), do), 360)
			if do["E for W"] {
				x = -x
			}
			if do["one more"] {
				x += math.Copysign(1, x)
			}
			return []float64{x}
		},
	}
}

// fixLesson is a fix by two bearings, on a flat chart about the vessel.
func fixLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	v, d, head := float64(5*r.IntN(5)-10), float64(r.IntN(9)-4), float64(r.IntN(360))
	type mark struct{ lat, lon, bearing float64 }
	n, e := radii(lat)
	draw := func(bearing float64) mark {
		a, b := northEast(bearing, 2+4*r.Float64())
		a, b = math.Round(10*a/n)/10, math.Round(10*b/e)/10 // whole tenths of minutes
		return mark{lat + a/60, lon + b/60, math.Mod(math.Round(math.Atan2(b*e, a*n)*180/math.Pi)+360, 360)}
	}
	first := float64(r.IntN(360))
	marks := []mark{draw(first), draw(first + float64(40+r.IntN(100)))}
	sight := func(name string, m mark) slip.Sighting { return sighted(marked(name, m.lat, m.lon), m.bearing-v-d) }
	p, err := slip.NewFix([]slip.Sighting{sight("Ledge beacon", marks[0]), sight("Point tower", marks[1])}, angle.CompassFrom(degrees(head)),
		course.With{Variation: variation.East(degrees(v)), Deviation: deviation.East(degrees(d)), On: time.Date(2026, time.May, 20, 0, 0, 0, 0, time.UTC)})
	if err != nil {
		return fixLesson(r)
	}
	return task{
		sort: "fix", p: p, steps: []float64{0.1 / 60, 0.1 / 60}, coarse: coarsePlace, top: []float64{60, 160}, print: placed,
		errors: append(placeErrors(), oops{"variation wrong way", 8, []slip.Kind{slip.VariationWrongWay}}, oops{"deviation wrong way", 8, []slip.Kind{slip.DeviationWrongWay}}, many("variation left out", slip.VariationLeftOut), many("deviation left out", slip.DeviationLeftOut),
			few("variation twice", slip.VariationTwice), few("first ten more", slip.BearingMisread), few("second ten less", slip.BearingMisread), many("marks exchanged", slip.MarkMistaken)),
		work: func(do doer) []float64 {
			var to [2]float64
			for i, m := range marks {
				to[i] = m.bearing - v - d + variationApplied(v, do) + deviationApplied(d, do)
			}
			if do["first ten more"] {
				to[0] += 10
			}
			if do["second ten less"] {
				to[1] -= 10
			}
			a, b := marks[0], marks[1]
			if do["marks exchanged"] {
				a, b = b, a
			}
			// The lines through the marks, in miles from the vessel.
			ax, ay, bx, by := (a.lon-lon)*60*e, (a.lat-lat)*60*n, (b.lon-lon)*60*e, (b.lat-lat)*60*n
			uy, ux := northEast(to[0], 1)
			wy, wx := northEast(to[1], 1)
			cross := ux*wy - uy*wx
			if math.Abs(cross) < 0.1 {
				return []float64{math.NaN(), 0}
			}
			t := ((bx-ax)*wy - (by-ay)*wx) / cross
			x, y := ax+t*ux, ay+t*uy
			if math.Hypot(x, y) > 15 {
				return []float64{math.NaN(), 0}
			}
			return placeWritten(lat+y/n/60, lon+x/e/60, do)
		},
	}
}
