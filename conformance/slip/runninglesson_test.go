package slip_test

import (
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func init() { lessons = append(lessons, runningLesson, hatLesson) }

// A classChart is a flat chart about a position, in miles east and north.
type classChart struct{ lat, lon, n, e float64 }

// chartAbout returns a chart about a position.
func chartAbout(lat, lon float64) classChart {
	n, e := radii(lat)
	return classChart{lat, lon, n, e}
}

// markAt draws a mark in a direction from a place on the chart, in whole tenths of minutes.
func (k classChart) markAt(r *rand.Rand, x, y, direction float64) (lat, lon float64) {
	north, east := northEast(direction, 2.5+4*r.Float64())
	return k.lat + math.Round(10*(y+north)/k.n)/600, k.lon + math.Round(10*(x+east)/k.e)/600
}

// place returns miles east and north of a position.
func (k classChart) place(lat, lon float64) (x, y float64) {
	return (lon - k.lon) * 60 * k.e, (lat - k.lat) * 60 * k.n
}

// cross returns where two lines meet, each through a place in a direction; NaN if they hardly do.
func cross(ax, ay, a, bx, by, b float64) (x, y float64) {
	uy, ux := northEast(a, 1)
	wy, wx := northEast(b, 1)
	sine := ux*wy - uy*wx
	if math.Abs(sine) < 0.1 {
		return math.NaN(), 0
	}
	t := ((bx-ax)*wy - (by-ay)*wx) / sine
	return ax + t*ux, ay + t*uy
}

// toward returns the whole degrees of a direction.
func toward(x, y float64) float64 {
	return math.Mod(math.Round(math.Atan2(x, y)*180/math.Pi)+360, 360)
}

// steadyWith are a constant variation and deviation.
func steadyWith(v, d float64) course.With {
	return course.With{Variation: variation.East(degrees(v)), Deviation: deviation.East(degrees(d)), On: time.Date(2026, time.May, 20, 0, 0, 0, 0, time.UTC)}
}

// compassErrors are the errors in converting bearings by a steady variation and deviation.
func compassErrors() []oops {
	return []oops{
		{"variation wrong way", 8, []slip.Kind{slip.VariationWrongWay}}, {"deviation wrong way", 8, []slip.Kind{slip.DeviationWrongWay}}, many("variation left out", slip.VariationLeftOut), many("deviation left out", slip.DeviationLeftOut),
		few("variation twice", slip.VariationTwice), few("first ten more", slip.BearingMisread), few("second ten less", slip.BearingMisread), many("marks exchanged", slip.MarkMistaken),
	}
}

// runningLesson is a running fix by one mark or two, on a flat chart about the second position.
func runningLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	k := chartAbout(lat, lon)
	v, d, head := float64(5*r.IntN(5)-10), float64(r.IntN(9)-4), float64(r.IntN(360))
	speed, minutes, set, rate := 4+float64(r.IntN(40))/10, float64(20+5*r.IntN(14)), float64(r.IntN(360)), float64(8+r.IntN(15))/10
	leeway, side := float64(r.IntN(3)*4), pickOf(r, 1, -1) // 1 for wind on the port side
	wind := angle.Port
	if side < 0 {
		wind = angle.Starboard
	}
	// The run over the ground, as a learner finds it.
	run := func(do doer) (x, y float64) {
		h := head + variationApplied(v, do) + deviationApplied(d, do)
		lw, s, rt, hours := leeway*side, set, rate, minutes/60
		switch {
		case do["leeway wrong side"]:
			lw = -lw
		case do["leeway left out"]:
			lw = 0
		}
		switch {
		case do["stream reversed"]:
			s += 180
		case do["stream left out"]:
			rt = 0
		}
		if do["hours as hundredths"] {
			hours = hundredths(hours)
		}
		a, b := northEast(h+lw, speed*hours)
		n, e := northEast(s, rt*hours)
		good := ofMiles(a+n, b+e)
		if do["made good to a degree"] {
			good[0], good[1] = math.Round(good[0]), toTenth(good[1])
		}
		switch {
		case do["by the course"]:
			good[0] = h
		case do["by the log"]:
			good[1] = speed * hours
		case do["longitude scale"]:
			good[1] *= k.e / k.n
		case do["wrong way"]:
			good[0] += 180
		}
		y, x = northEast(good[0], good[1])
		return x, y
	}
	dx, dy := run(doer{})
	first := float64(r.IntN(360))
	latA, lonA := k.markAt(r, -dx, -dy, first)
	latB, lonB := latA, lonA
	if r.IntN(2) == 0 {
		latB, lonB = k.markAt(r, 0, 0, first+float64(40+r.IntN(100)))
	}
	ax, ay := k.place(latA, lonA)
	bx, by := k.place(latB, lonB)
	one, two := toward(ax+dx, ay+dy), toward(bx, by)
	if cut := math.Abs(math.Remainder(one-two, 180)); cut < 30 || math.Hypot(bx, by) < 1 {
		return runningLesson(r)
	}
	flow := stream.ReckonedRun{
		Speed: knotsOf(speed), Lasts: time.Duration(minutes) * time.Minute, Stream: stream.Stream{Set: trueOf(set), Rate: knotsOf(rate)}, Leeway: stream.Leeway{Angle: degrees(leeway), WindSide: wind},
	}
	name := "Ledge beacon"
	if latA != latB || lonA != lonB {
		name = "Point tower"
	}
	p, err := slip.NewRunningFix(sighted(marked("Ledge beacon", latA, lonA), one-v-d), sighted(marked(name, latB, lonB), two-v-d), flow, angle.CompassFrom(degrees(head)), steadyWith(v, d))
	if err != nil {
		return runningLesson(r)
	}
	t := task{
		sort: "running fix", p: p, steps: []float64{0.1 / 60, 0.1 / 60}, coarse: coarsePlace, top: []float64{60, 160}, print: placed, customs: []string{"made good to a degree"},
		errors: append(append(placeErrors(), compassErrors()...), oops{"not moved", 6, []slip.Kind{slip.NotMoved}}, oops{"second moved", 6, []slip.Kind{slip.SecondMoved}}, oops{"by the course", 8, []slip.Kind{slip.MovedByCourse}},
			oops{"by the log", 8, []slip.Kind{slip.MovedByLog}}, many("wrong way", slip.MovedWrongWay), many("longitude scale", slip.LongitudeScale), many("stream reversed", slip.StreamWrongWay), many("stream left out", slip.StreamLeftOut),
			many("leeway wrong side", slip.LeewayWrongSide), many("leeway left out", slip.LeewayLeftOut), many("hours as hundredths", slip.MinutesAsDecimals)),
		work: func(do doer) []float64 {
			applied := variationApplied(v, do) + deviationApplied(d, do)
			a, b := one-v-d+applied, two-v-d+applied
			if do["first ten more"] {
				a += 10
			}
			if do["second ten less"] {
				b -= 10
			}
			ax, ay, bx, by := ax, ay, bx, by
			if do["marks exchanged"] {
				ax, ay, bx, by = bx, by, ax, ay
			}
			mx, my := run(do)
			switch {
			case do["not moved"]:
				if ax == bx && ay == by {
					return []float64{math.NaN(), 0} // both bearings are of one mark
				}
			case do["second moved"]:
				bx, by = bx+mx, by+my
			default:
				ax, ay = ax+mx, ay+my
			}
			x, y := cross(ax, ay, a, bx, by, b)
			if math.IsNaN(x) || math.Hypot(x, y) > 12 {
				return []float64{math.NaN(), 0}
			}
			return placeWritten(lat+y/k.n/60, lon+x/k.e/60, do)
		},
	}
	return t
}

// hatLesson is a fix by three bearings, the least squares of the angles.
func hatLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	k := chartAbout(lat, lon)
	v, d, head := float64(5*r.IntN(5)-10), float64(r.IntN(9)-4), float64(r.IntN(360))
	first := float64(r.IntN(360))
	var marks []place
	var sights []slip.Sighting
	var read []float64
	for i, name := range []string{"Ledge beacon", "Point tower", "Old church"} {
		a, b := k.markAt(r, 0, 0, first+float64(i*(45+r.IntN(30))))
		x, y := k.place(a, b)
		marks, read = append(marks, place{a, b}), append(read, toward(x, y))
		sights = append(sights, sighted(marked(name, a, b), read[i]-v-d))
	}
	p, err := slip.NewFix(sights, angle.CompassFrom(degrees(head)), steadyWith(v, d))
	if err != nil {
		return hatLesson(r)
	}
	return task{
		sort: "three bearings", p: p, steps: []float64{0.1 / 60, 0.1 / 60}, coarse: coarsePlace, top: []float64{60, 160}, print: placed,
		errors: append(placeErrors(), compassErrors()...),
		work: func(do doer) []float64 {
			at := append([]place(nil), marks...)
			if do["marks exchanged"] {
				at[0], at[1] = at[1], at[0]
			}
			to := append([]float64(nil), read...)
			for i := range to {
				to[i] += -v - d + variationApplied(v, do) + deviationApplied(d, do)
			}
			if do["first ten more"] {
				to[0] += 10
			}
			if do["second ten less"] {
				to[1] -= 10
			}
			found, ok := meet(place{lat, lon}, at, to)
			if !ok {
				return []float64{math.NaN(), 0}
			}
			return placeWritten(found.lat, found.lon, do)
		},
	}
}
