package slip_test

import (
	"math"
	"math/rand/v2"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
)

func init() { lessons = append(lessons, bowLesson) }

// bowLesson is a distance off by two angles on the bow and the run between them.
func bowLesson(r *rand.Rand) task {
	first := float64(20 + r.IntN(40))
	second := first + float64(15+r.IntN(50))
	if second == 2*first {
		second++
	}
	run := 2 + float64(r.IntN(60))/10
	return task{
		sort: "bow", p: angle.Must(slip.NewTwoBearings(degrees(first), degrees(second), milesOf(run), false)), steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{30}, print: milesOfClass,
		customs: []string{"factor to two places"},
		errors: []oops{
			{"run taken", 8, []slip.Kind{slip.RunForDistance}}, {"abeam", 8, []slip.Kind{slip.OtherDistance}}, many("upside down", slip.DividedForMultiplied), few("first ten more", slip.TensMisread), few("second ten less", slip.TensMisread),
			few("run one more", slip.SumOff), few("run ten more", slip.TensMisread), few("statute", slip.StatuteForNautical), few("point", slip.PointMisplaced), few("one more", slip.SumOff), few("swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			a, b, d := first, second, run
			if do["first ten more"] {
				a += 10
			}
			if do["second ten less"] {
				b -= 10
			}
			if b <= a {
				return []float64{math.NaN()}
			}
			if do["run one more"] {
				d++
			}
			if do["run ten more"] {
				d += 10
			}
			factor := math.Sin(a*math.Pi/180) / math.Sin((b-a)*math.Pi/180)
			switch {
			case do["factor to two places"]:
				factor = math.Round(factor*100) / 100
			case do["upside down"]:
				factor = 1 / factor
			case do["run taken"]:
				factor = 1
			}
			x := d * factor
			if do["abeam"] {
				x *= math.Sin(b * math.Pi / 180)
			}
			return distance(x, do)
		},
	}
}
