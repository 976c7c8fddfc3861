package slip_test

import (
	"math"
	"math/rand/v2"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
)

func init() { lessons = append(lessons, greatLesson, mercatorLesson) }

// greatLesson is the initial course of a great circle, by the cotangents of the sphere.
func greatLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	tenths := func(most int) float64 { return float64(r.IntN(2*most)-most) / 600 }
	lat2, lon2 := lat+tenths(600*20), lon+tenths(600*50)
	if r.IntN(3) == 0 {
		lat2 = -lat2
	}
	if lon2 = math.Remainder(lon2, 360); math.Abs(lat2) > 60 || math.Abs(math.Remainder(lon2-lon, 360)) < 12 {
		return greatLesson(r)
	}
	p, err := slip.NewGreatCircle(at(lat, lon), at(lat2, lon2))
	if err != nil {
		return greatLesson(r)
	}
	initial := func(a, b, dlong float64) float64 {
		a, b, dlong = a*radian, b*radian, dlong*radian
		return math.Atan2(math.Sin(dlong), math.Cos(a)*math.Tan(b)-math.Sin(a)*math.Cos(dlong)) / radian
	}
	return task{
		sort: "great circle", p: p, steps: []float64{1}, coarse: [][]float64{{5, 10}}, top: []float64{360}, print: three,
		errors: []oops{
			{"final", 6, []slip.Kind{slip.FinalForInitial}}, {"rhumb", 6, []slip.Kind{slip.RhumbForGreatCircle}}, many("E for W", slip.EastForWest), many("N for S", slip.NorthForSouth), many("reciprocal", slip.ReciprocalTaken),
			many("longitudes ignore names", slip.NamesIgnored), many("latitudes ignore names", slip.NamesIgnored), few("d.long ten more", slip.TensMisread, slip.SumOff), few("latitude ten more", slip.TensMisread),
			few("ten more", slip.TensMisread), few("one more", slip.RoundedOnTheWay, slip.SumOff), few("hundred less", slip.SumOff), few("answer swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			a, b, dlong := lat, lat2, math.Remainder(lon2-lon, 360)
			if do["longitudes ignore names"] { // the sum for the difference, or the other way
				sum := math.Abs(lon) + math.Abs(lon2)
				if lon*lon2 < 0 {
					sum = math.Abs(math.Abs(lon) - math.Abs(lon2))
				}
				dlong = math.Copysign(min(sum, 360-sum), dlong)
			}
			if do["d.long ten more"] {
				dlong += math.Copysign(10, dlong)
			}
			if do["latitude ten more"] {
				b += math.Copysign(10, b)
			}
			if do["latitudes ignore names"] {
				b = -b
			}
			x := initial(a, b, dlong)
			if do["final"] {
				x = initial(b, a, -dlong) + 180
			}
			if do["rhumb"] {
				x = math.Atan2(dlong*60, sphereParts(b)-sphereParts(a)) / radian
			}
			if do["N for S"] {
				x = 180 - x
			}
			if do["E for W"] {
				x = -x
			}
			return finished(x, do)
		},
	}
}

// mercatorLesson is Mercator sailing.
func mercatorLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	dlat, dlon := float64(60+r.IntN(400))*pickOf(r, 1, -1), float64(60+r.IntN(600))*pickOf(r, 1, -1)
	if math.Abs(lat+dlat/60) > 70 {
		dlat = -dlat
	}
	p := angle.Must(slip.NewSailing(sailing.MercatorSailing, at(lat, lon), at(lat+dlat/60, lon+dlon/60)))
	parts := meridionalParts(lat, lat+dlat/60)
	return task{
		sort: "Mercator", p: p, steps: []float64{1, 0.1}, coarse: [][]float64{{5, 1}, {0.5, 1, 5}}, top: []float64{360, 800}, print: courseAnd,
		customs: []string{"parts of the sphere", "parts to a minute", "course to a tenth", "course to a degree"},
		errors: []oops{
			{"latitudes for parts", 8, []slip.Kind{slip.LatitudesForParts}}, {"parts for latitudes", 6, []slip.Kind{slip.LatitudesForParts}}, many("sine for cosine", slip.SineForCosine), many("times cosine", slip.DividedForMultiplied, slip.CosineWrongWay),
			many("N for S", slip.NorthForSouth), many("E for W", slip.EastForWest), few("reciprocal", slip.ReciprocalTaken), few("d.lat a degree more", slip.SumOff), few("d.long a degree more", slip.SumOff),
			many("d.long as hundredths", slip.MinutesAsDecimals), few("d.lat as hundredths", slip.MinutesAsDecimals), few("ten more", slip.TensMisread), few("a mile more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			up, along, m := dlat, dlon, parts
			if do["d.lat a degree more"] {
				up += math.Copysign(60, up)
			}
			if do["d.long a degree more"] {
				along += math.Copysign(60, along)
			}
			if do["d.long as hundredths"] {
				along = 60 * hundredths(along/60)
			}
			if do["d.lat as hundredths"] {
				up = 60 * hundredths(up/60)
			}
			switch {
			case do["parts of the sphere"]:
				m = sphereParts(lat+dlat/60) - sphereParts(lat)
			case do["parts to a minute"]:
				m = math.Round(m)
			case do["latitudes for parts"]:
				m = up
			}
			a := math.Atan2(math.Abs(along), math.Abs(m))
			switch {
			case do["course to a tenth"]:
				a = toTenth(a/radian) * radian
			case do["course to a degree"]:
				a = math.Round(a/radian) * radian
			}
			if do["sine for cosine"] {
				a = math.Pi/2 - a
			}
			distance := math.Abs(up) / math.Cos(a)
			switch {
			case do["parts for latitudes"]:
				distance = math.Abs(m) / math.Cos(a)
			case do["times cosine"]:
				distance = math.Abs(up) * math.Cos(a)
			}
			if do["a mile more"] {
				distance++
			}
			if do["N for S"] {
				up = -up
			}
			if do["E for W"] {
				along = -along
			}
			course := math.Atan2(math.Copysign(math.Sin(a), along), math.Copysign(math.Cos(a), up)) / radian
			return []float64{finished(course, do)[0], distance}
		},
	}
}
