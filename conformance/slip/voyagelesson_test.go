package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

func init() {
	lessons = append(lessons, reckoningLesson, madeGoodLesson, driftLesson, arrivalLesson, middleLesson, parallelLesson, transitLesson, fixLesson)
}

// placed prints a position.
func placed(x []float64, fine bool) string {
	return withMinutes(x[0], fine, "N", "S", 1) + " " + withMinutes(x[1], fine, "E", "W", 1)
}

// courseAnd prints a course and a distance or a speed.
func courseAnd(x []float64, fine bool) string {
	return three(x, fine) + " " + milesOfClass(x[1:], fine)
}

// coarsePlace are the coarser roundings of a position.
var coarsePlace = [][]float64{{1.0 / 60, 0.5 / 60}, {1.0 / 60, 0.5 / 60}}

// drawPlace draws a position in tenths of minutes.
func drawPlace(r *rand.Rand) (lat, lon float64) {
	tenths := func(least, span int) float64 { return float64(600*least+r.IntN(600*span)) / 600 }
	return tenths(10, 45) * pickOf(r, 1, -1), tenths(3, 150) * pickOf(r, 1, -1)
}

// northEast returns miles north and east of a run.
func northEast(course, miles float64) (north, east float64) {
	return miles * math.Cos(course*math.Pi/180), miles * math.Sin(course*math.Pi/180)
}

// ofMiles returns the course and the distance of miles north and east.
func ofMiles(north, east float64) []float64 {
	return []float64{math.Mod(math.Atan2(east, north)*180/math.Pi+360, 360), math.Hypot(north, east)}
}

// hundredths takes the minutes of a time in hours as hundredths.
func hundredths(hours float64) float64 {
	h, m := math.Modf(hours)
	return h + m*0.6
}

// placeWritten is a position as a learner writes it.
func placeWritten(lat, lon float64, do doer) []float64 {
	switch {
	case do["answer N for S"]:
		lat = -lat
	case do["answer E for W"]:
		lon = -lon
	}
	switch {
	case do["latitude ten minutes more"]:
		lat += math.Copysign(1.0/6, lat)
	case do["longitude a degree less"]:
		lon -= math.Copysign(1, lon)
	case do["latitude as hundredths"]:
		d, m := math.Modf(lat)
		lat = d + m*0.6
	}
	if math.Abs(lat) >= 90 {
		lat = math.NaN()
	}
	return []float64{lat, lon}
}

// placeErrors are the errors in writing a position.
func placeErrors() []oops {
	return []oops{
		few("answer N for S", slip.NorthForSouth), few("answer E for W", slip.EastForWest), few("latitude ten minutes more", slip.TensMisread, slip.SumOff),
		few("longitude a degree less", slip.SumOff), few("latitude as hundredths", slip.MinutesAsDecimals),
	}
}

// reckoningLesson is a dead reckoning or an estimated position after two legs.
func reckoningLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	c1, c2, set := float64(r.IntN(360)), float64(r.IntN(360)), float64(r.IntN(360))
	v, t1, t2, rate := 4+float64(r.IntN(60))/10, float64(30+r.IntN(150)), float64(30+r.IntN(150)), 0.5+float64(r.IntN(20))/10
	flow := stream.Stream{}
	if r.IntN(2) == 0 {
		flow = stream.Stream{Set: trueOf(set), Rate: knotsOf(rate)}
	} else {
		rate = 0
	}
	run := func(c, minutes float64) stream.ReckonedRun {
		return stream.ReckonedRun{Heading: trueOf(c), Speed: knotsOf(v), Lasts: time.Duration(minutes) * time.Minute, Stream: flow}
	}
	k := task{
		sort: "reckoning", p: angle.Must(slip.NewReckoning(at(lat, lon), run(c1, t1), run(c2, t2))), steps: []float64{0.1 / 60, 0.1 / 60}, coarse: coarsePlace, top: []float64{60, 160}, print: placed,
		errors: append(placeErrors(), many("departure for d.lat", slip.SineForCosine), many("N for S", slip.NorthForSouth), many("E for W", slip.EastForWest), oops{"cosine left out", 8, []slip.Kind{slip.CosineLeftOut}},
			oops{"times cosine", 6, []slip.Kind{slip.CosineWrongWay}}, many("leg left out", slip.LegLeftOut), many("hours as hundredths", slip.MinutesAsDecimals), few("at a hundred", slip.MinutesAtHundred), few("course ten more", slip.TensMisread), few("speed misread", slip.TensMisread)),
		work: func(do doer) []float64 {
			hours := func(m float64) float64 {
				if do["hours as hundredths"] {
					return hundredths(m / 60)
				}
				return m / 60
			}
			first, speed := c1, v
			if do["course ten more"] {
				first += 10
			}
			if do["speed misread"] {
				speed += 10
			}
			s, rt := set, rate
			if do["stream reversed"] {
				s += 180
			}
			if do["stream left out"] {
				rt = 0
			}
			var n, e float64
			for i, l := range [][2]float64{{first, t1}, {c2, t2}} {
				if i == 1 && do["leg left out"] {
					continue
				}
				for _, x := range [][2]float64{{l[0], speed}, {s, rt}} {
					a, b := northEast(x[0], x[1]*hours(l[1]))
					if do["departure for d.lat"] {
						a, b = math.Copysign(b, a), math.Copysign(a, b)
					}
					n, e = n+a, e+b
				}
			}
			if do["N for S"] {
				n = -n
			}
			if do["E for W"] {
				e = -e
			}
			to := lat + n/60
			cos := math.Cos((lat + to) / 2 * math.Pi / 180)
			switch {
			case do["cosine left out"]:
				cos = 1
			case do["times cosine"]:
				cos = 1 / cos
			case do["cosine to three places"]:
				cos = math.Round(cos*1000) / 1000
			}
			if do["at a hundred"] {
				to = hundredSum(lat, n)
			}
			return placeWritten(to, lon+e/cos/60, do)
		},
		customs: []string{"cosine to three places"},
	}
	if rate > 0 {
		k.errors = append(k.errors, oops{"stream reversed", 8, []slip.Kind{slip.StreamWrongWay}}, many("stream left out", slip.StreamLeftOut))
	}
	return k
}

// madeGoodLesson is the course and speed made good through a stream.
func madeGoodLesson(r *rand.Rand) task {
	head, set, v, rate := float64(r.IntN(360)), float64(r.IntN(360)), 4+float64(r.IntN(60))/10, 0.8+float64(r.IntN(25))/10
	p := angle.Must(slip.NewMadeGood(stream.ReckonedRun{Heading: trueOf(head), Speed: knotsOf(v), Stream: stream.Stream{Set: trueOf(set), Rate: knotsOf(rate)}}))
	return task{
		sort: "made good", p: p, steps: []float64{1, 0.1}, coarse: [][]float64{{5, 1}, {0.5, 1}}, top: []float64{360, 15}, print: courseAnd,
		errors: []oops{
			{"stream reversed", 8, []slip.Kind{slip.StreamWrongWay}}, few("speeds added", slip.DistancesAdded), few("course ten more", slip.TensMisread), few("set ten more", slip.TensMisread), few("ten more", slip.TensMisread),
			few("reciprocal", slip.ReciprocalTaken), few("a knot more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			h, s := head, set
			if do["course ten more"] {
				h += 10
			}
			if do["set ten more"] {
				s += 10
			}
			if do["stream reversed"] {
				s += 180
			}
			a, b := northEast(h, v)
			c, d := northEast(s, rate)
			x := ofMiles(a+c, b+d)
			if do["speeds added"] {
				x[1] = v + rate
			}
			if do["a knot more"] {
				x[1]++
			}
			return []float64{finished(x[0], do)[0], x[1]}
		},
	}
}

// radii returns the miles in a minute of latitude and of longitude on WGS84.
func radii(lat float64) (north, east float64) {
	const a, e2 = 6378.137 / 1.852, 0.00669437999014
	s := math.Sin(lat * math.Pi / 180)
	w := 1 - e2*s*s
	return a * (1 - e2) / math.Pow(w, 1.5) * math.Pi / 10800, a / math.Sqrt(w) * math.Cos(lat*math.Pi/180) * math.Pi / 10800
}

// driftLesson is the set and rate between a dead reckoning position and a fix.
func driftLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	dlat, dlon := float64(r.IntN(81)-40)/10, float64(r.IntN(81)-40)/10
	since := float64(60 + r.IntN(240))
	if math.Hypot(dlat, dlon) < 1.5 {
		dlat += 3
	}
	p := angle.Must(slip.NewSetAndDrift(at(lat, lon), at(lat+dlat/60, lon+dlon/60), time.Duration(since)*time.Minute))
	return task{
		sort: "set and drift", p: p, steps: []float64{1, 0.1}, coarse: [][]float64{{5, 1}, {0.5, 1}}, top: []float64{360, 8}, print: courseAnd,
		errors: []oops{
			{"from the fix", 8, []slip.Kind{slip.FixToReckoning}}, {"not divided", 6, []slip.Kind{slip.NotDivided}}, many("longitude as miles", slip.CosineLeftOut), few("hours as hundredths", slip.MinutesAsDecimals), few("multiplied", slip.DividedForMultiplied),
			few("E for W", slip.EastForWest), few("N for S", slip.NorthForSouth),
		},
		work: func(do doer) []float64 {
			n, e := radii(lat + dlat/120)
			north, east := n*dlat, e*dlon
			if do["longitude as miles"] {
				east = dlon
			}
			if do["N for S"] {
				north = -north
			}
			if do["E for W"] {
				east = -east
			}
			hours := since / 60
			if do["hours as hundredths"] {
				hours = hundredths(hours)
			}
			x := ofMiles(north, east)
			switch {
			case do["not divided"]:
			case do["multiplied"]:
				x[1] *= hours
			default:
				x[1] /= hours
			}
			if do["from the fix"] {
				x[0] += 180
			}
			return x
		},
	}
}

// arrivalLesson is a time of arrival.
func arrivalLesson(r *rand.Rand) task {
	leaves, miles, v := float64(r.IntN(1440)), 5+float64(r.IntN(500))/10, 4+float64(r.IntN(60))/10
	return task{
		sort: "arrival", p: angle.Must(slip.NewArrival(time.Duration(leaves)*time.Minute, milesOf(miles), knotsOf(v))), steps: []float64{1}, coarse: [][]float64{{5, 10, 15}}, top: []float64{1440},
		print: func(x []float64, _ bool) string {
			m := int(math.Mod(math.Mod(math.Round(x[0]), 1440)+1440, 1440))
			return fmt.Sprintf("%02d%02d", m/60, m%60)
		},
		customs: []string{"hours to two places"},
		errors: []oops{
			{"hours as minutes", 12, []slip.Kind{slip.MinutesAsDecimals}}, few("divided the wrong way", slip.DividedForMultiplied), many("at a hundred", slip.MinutesAtHundred), many("an hour more", slip.SumOff), few("ten minutes more", slip.TensMisread, slip.SumOff),
			few("statute", slip.StatuteForNautical), few("speed misread", slip.TensMisread), few("distance misread", slip.TensMisread), few("multiplied", slip.DividedForMultiplied),
		},
		work: func(do doer) []float64 {
			s, d := v, miles
			if do["speed misread"] {
				s += 10
			}
			if do["distance misread"] {
				d += 10
			}
			if do["statute"] {
				d /= 1.1508
			}
			hours := d / s
			switch {
			case do["divided the wrong way"]:
				hours = s / d
			case do["multiplied"]:
				hours = s * d / 60
			case do["hours to two places"]:
				hours = math.Round(hours*100) / 100
			}
			h, m := math.Modf(hours)
			minutes := 60 * m
			if do["hours as minutes"] {
				minutes = 100 * m
			}
			x := leaves + 60*h + minutes
			if do["at a hundred"] {
				figures := 100*math.Floor(leaves/60) + math.Mod(leaves, 60) + 100*h + math.Round(minutes)
				x = 60*math.Floor(figures/100) + math.Mod(figures, 100)
			}
			if do["subtracted"] {
				x = leaves - 60*h - minutes
			}
			if do["an hour more"] {
				x += 60
			}
			if do["ten minutes more"] {
				x += 10
			}
			return []float64{x}
		},
	}
}

// middleLesson is middle-latitude sailing.
func middleLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	dlat, dlon := float64(60+r.IntN(200))*pickOf(r, 1, -1), float64(60+r.IntN(300))*pickOf(r, 1, -1)
	p := angle.Must(slip.NewSailing(sailing.MidLatitudeSailing, at(lat, lon), at(lat+dlat/60, lon+dlon/60)))
	return task{
		sort: "middle latitude", p: p, steps: []float64{1, 0.1}, coarse: [][]float64{{5, 1}, {0.5, 1, 5}}, top: []float64{360, 400}, print: courseAnd,
		customs: []string{"cosine to three places"},
		errors: []oops{
			{"cosine left out", 8, []slip.Kind{slip.CosineLeftOut}}, {"over cosine", 6, []slip.Kind{slip.CosineWrongWay}}, many("first latitude", slip.FirstLatitude), many("sine for cosine", slip.SineForCosine), many("N for S", slip.NorthForSouth),
			many("E for W", slip.EastForWest), few("reciprocal", slip.ReciprocalTaken), few("d.lat a degree more", slip.SumOff), few("d.long a degree more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			middle, up, along := lat+dlat/120, dlat, dlon
			if do["d.lat a degree more"] {
				up += math.Copysign(60, up)
			}
			if do["d.long a degree more"] {
				along += math.Copysign(60, along)
			}
			if do["first latitude"] {
				middle = lat
			}
			cos := math.Cos(middle * math.Pi / 180)
			switch {
			case do["cosine left out"]:
				cos = 1
			case do["over cosine"]:
				cos = 1 / cos
			case do["cosine to three places"]:
				cos = math.Round(cos*1000) / 1000
			}
			along *= cos
			a := math.Atan2(math.Abs(along), math.Abs(up))
			if do["sine for cosine"] {
				a = math.Pi/2 - a
			}
			distance := math.Abs(up) / math.Cos(a)
			if do["N for S"] {
				up = -up
			}
			if do["E for W"] {
				along = -along
			}
			course := math.Atan2(math.Copysign(math.Sin(a), along), math.Copysign(math.Cos(a), up)) * 180 / math.Pi
			return []float64{finished(course, do)[0], distance}
		},
	}
}

// parallelLesson is parallel sailing.
func parallelLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	dlon := float64(60+r.IntN(300)) * pickOf(r, 1, -1)
	return task{
		sort: "parallel", p: angle.Must(slip.NewSailing(sailing.ParallelSailing, at(lat, lon), at(lat, lon+dlon/60))), steps: []float64{0.1}, coarse: [][]float64{{0.5, 1, 5}}, top: []float64{400}, print: milesOfClass,
		customs: []string{"cosine to three places"},
		errors: []oops{
			{"cosine left out", 8, []slip.Kind{slip.CosineLeftOut}}, {"over cosine", 8, []slip.Kind{slip.CosineWrongWay}}, many("sine", slip.SineForCosine), many("d.long as hundredths", slip.MinutesAsDecimals),
			few("statute", slip.StatuteForNautical), few("point", slip.PointMisplaced), few("ten more", slip.TensMisread), few("one more", slip.SumOff), few("swapped", slip.FiguresTransposed), few("d.long a degree more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			d := math.Abs(dlon)
			if do["d.long a degree more"] {
				d += 60
			}
			if do["d.long as hundredths"] {
				d = 60 * hundredths(d/60)
			}
			cos := math.Cos(lat * math.Pi / 180)
			switch {
			case do["cosine left out"]:
				cos = 1
			case do["over cosine"]:
				cos = 1 / cos
			case do["sine"]:
				cos = math.Sin(math.Abs(lat) * math.Pi / 180)
			case do["cosine to three places"]:
				cos = math.Round(cos*1000) / 1000
			}
			return distance(d*cos, do)
		},
	}
}
