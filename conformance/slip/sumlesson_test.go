package slip_test

import (
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// streamLesson is a course to steer through a stream, by components.
func streamLesson(r *rand.Rand) task {
	track, set := float64(r.IntN(360)), float64(r.IntN(360))
	speed, rate := 4+float64(r.IntN(50))/10, 0.8+float64(r.IntN(25))/10
	leeway, side := float64(r.IntN(9)), pickOf(r, 1, -1) // 1 for wind on the starboard side
	wind := angle.Starboard
	if side < 0 {
		wind = angle.Port
	}
	p := angle.Must(slip.NewToSteerThroughStream(angle.TrueFrom(tenthsOf(track)), knotsOf(speed), stream.Stream{Set: angle.TrueFrom(tenthsOf(set)), Rate: knotsOf(rate)}, stream.Leeway{Angle: angle.Angle(leeway) * deg, WindSide: wind}))
	return task{
		sort: "stream", p: p, steps: []float64{1}, coarse: [][]float64{{5, 10}}, top: []float64{360}, print: three,
		errors: []oops{
			oops{"stream reversed", 8, []slip.Kind{slip.StreamWrongWay}}, oops{"speed on the track", 6, []slip.Kind{slip.SpeedAlongTrack}}, many("stream left out", slip.StreamLeftOut),
			many("made good", slip.MadeGoodForSteered, slip.StreamWrongWay, slip.SpeedAlongTrack), oops{"leeway wrong side", 8, []slip.Kind{slip.LeewayWrongSide}}, many("leeway left out", slip.LeewayLeftOut),
			few("reciprocal", slip.ReciprocalTaken), few("given ten more", slip.TensMisread), few("given ten less", slip.TensMisread), few("set ten more", slip.TensMisread),
			few("ten more", slip.TensMisread), few("one more", slip.RoundedOnTheWay, slip.SumOff), few("answer swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			t, s, rt := givenAs(track, do), set, rate
			if do["set ten more"] {
				s += 10
			}
			if do["stream reversed"] {
				s += 180
			}
			if do["stream left out"] {
				rt = 0
			}
			across, along := rt*math.Sin((s-t)*math.Pi/180), rt*math.Cos((s-t)*math.Pi/180)
			angleOf := -math.Asin(across/speed) * 180 / math.Pi
			if do["speed on the track"] {
				angleOf = -math.Atan2(across, speed-along) * 180 / math.Pi
			}
			if do["made good"] {
				angleOf = math.Atan2(across, speed+along) * 180 / math.Pi
			}
			lw := leeway * side
			if do["leeway wrong side"] {
				lw = -lw
			}
			if do["leeway left out"] {
				lw = 0
			}
			return finished(t+angleOf+lw, do)
		},
	}
}

// runLesson is a distance run.
func runLesson(r *rand.Rand) task {
	speed, minutes := 3+float64(r.IntN(90))/10, float64(20+r.IntN(400))
	h, m := math.Floor(minutes/60), math.Mod(minutes, 60)
	return task{
		sort: "run", p: angle.Must(slip.NewRun(knotsOf(speed), time.Duration(minutes)*time.Minute)),
		steps: []float64{0.1}, coarse: [][]float64{{0.5, 1, 5}}, top: []float64{60}, print: milesOfClass,
		customs: []string{"hours to a tenth", "hours to a hundredth", "cut"},
		errors: []oops{
			oops{"minutes as hundredths", 12, []slip.Kind{slip.MinutesAsDecimals}}, many("not divided by 60", slip.KnotsTimesMinutes, slip.NotDivided), many("divided", slip.DividedForMultiplied),
			many("minutes left out", slip.PartLeftOut), few("hours left out", slip.PartLeftOut), few("an hour more", slip.SumOff), few("ten minutes more", slip.SumOff, slip.TensMisread), few("statute", slip.StatuteForNautical),
			few("statute the other way", slip.StatuteForNautical), few("point", slip.PointMisplaced), few("swapped", slip.FiguresTransposed), few("speed ten more", slip.TensMisread), few("one more", slip.SumOff), few("ten more", slip.TensMisread),
			few("hours to a quarter", slip.RoundedOnTheWay),
		},
		work: func(do doer) []float64 {
			hours := minutes / 60
			v := speed
			switch {
			case do["minutes as hundredths"]:
				hours = h + m/100
			case do["not divided by 60"]:
				hours = minutes
			case do["minutes left out"]:
				hours = h
			case do["hours left out"]:
				hours = m / 60
			case do["an hour more"]:
				hours++
			case do["ten minutes more"]:
				hours += 1.0 / 6
			case do["hours to a tenth"]:
				hours = toTenth(hours)
			case do["hours to a hundredth"]:
				hours = math.Round(hours*100) / 100
			case do["hours to a quarter"]:
				hours = math.Round(hours*4) / 4
			}
			if do["speed ten more"] {
				v += 10
			}
			x := v * hours
			if do["divided"] {
				x = v / hours
			}
			return distance(x, do)
		},
	}
}

// distance is a distance as a learner writes it.
func distance(x float64, do doer) []float64 {
	switch {
	case do["statute"]:
		x *= 1.1508
	case do["statute the other way"]:
		x /= 1.1508
	}
	switch {
	case do["point"]:
		x *= 10
	case do["one more"]:
		x++
	case do["ten more"]:
		x += 10
	case do["cut"]:
		x = math.Floor(x*10) / 10
	}
	if do["swapped"] {
		x = swapped(toTenth(x)*10) / 10
	}
	return []float64{x}
}

// latitudeLesson is a latitude by plane sailing.
func latitudeLesson(r *rand.Rand) task {
	from := (float64(5+r.IntN(55)) + float64(r.IntN(600))/600) * pickOf(r, 1, -1)
	track, run := whole(r), 15+float64(r.IntN(1400))/10
	p := angle.Must(slip.NewLatitude(angle.Must(angle.LatitudeFrom(angle.Angle(math.Round(from*600))*angle.Minute/10)), sailing.Run{Course: angle.TrueFrom(tenthsOf(track)), Distance: milesOf(run)}))
	from = math.Round(from*600) / 600
	return task{
		sort: "latitude", p: p, steps: []float64{0.1 / 60}, coarse: [][]float64{{1.0 / 60, 0.5 / 60, 5.0 / 60, 1}}, top: []float64{70},
		print:   func(x []float64, fine bool) string { return withMinutes(x[0], fine, "N", "S", 1) },
		customs: []string{"cosine to three places", "d.lat to a minute", "course to a degree", "cut"},
		errors: []oops{
			oops{"departure", 6, []slip.Kind{slip.SineForCosine}}, oops{"departure named by the course", 6, []slip.Kind{slip.SineForCosine}}, many("cosine left out", slip.CosineLeftOut),
			oops{"N for S", 6, []slip.Kind{slip.NorthForSouth}}, many("answer N for S", slip.NorthForSouth), many("at a hundred", slip.MinutesAtHundred), many("d.lat as hundredths", slip.MinutesAsDecimals),
			few("answer as hundredths", slip.MinutesAsDecimals), few("statute", slip.StatuteForNautical), few("given ten more", slip.TensMisread), few("given ten less", slip.TensMisread), few("run ten more", slip.TensMisread),
			few("ten minutes more", slip.TensMisread, slip.SumOff), few("a degree more", slip.SumOff), few("swapped", slip.FiguresTransposed), few("cosine to two places", slip.RoundedOnTheWay), few("a minute more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			c, d := givenAs(track, do)*math.Pi/180, run
			if do["run ten more"] {
				d += 10
			}
			if do["course to a degree"] {
				c = math.Round(c*180/math.Pi) * math.Pi / 180
			}
			cos := math.Cos(c)
			switch {
			case do["departure"]:
				cos = math.Sin(c)
			case do["departure named by the course"]:
				cos = math.Copysign(math.Sin(c), cos)
			case do["cosine left out"]:
				cos = math.Copysign(1, cos)
			case do["cosine to two places"]:
				cos = math.Round(cos*100) / 100
			case do["cosine to three places"]:
				cos = math.Round(cos*1000) / 1000
			}
			dlat := d * cos // minutes
			if do["statute"] {
				dlat /= 1.1508
			}
			switch {
			case do["d.lat to a minute"]:
				dlat = math.Round(dlat)
			case do["d.lat as hundredths"]:
				dlat *= 0.6
			case do["d.lat at a hundred"]:
				dlat -= 40 * math.Trunc(dlat/100)
			}
			if do["N for S"] {
				dlat = -dlat
			}
			x := from + dlat/60
			if do["at a hundred"] {
				x = hundredSum(from, dlat)
			}
			if do["answer N for S"] {
				x = -x
			}
			return latitudeWritten(x, do)
		},
	}
}

// hundredSum adds minutes to degrees as if a degree had a hundred.
func hundredSum(from, minutes float64) float64 {
	sign := math.Copysign(1, from)
	d, m := math.Modf(math.Abs(from))
	m = m*60 + sign*minutes
	for m >= 100 {
		d, m = d+1, m-100
	}
	for m < 0 {
		d, m = d-1, m+100
	}
	if d < 0 {
		return math.NaN()
	}
	return sign * (d + m/60)
}

// latitudeWritten is a latitude as a learner writes it.
func latitudeWritten(x float64, do doer) []float64 {
	s := math.Copysign(1, x)
	switch {
	case do["ten minutes more"]:
		x += s / 6
	case do["a minute more"]:
		x += s / 60
	case do["a degree more"]:
		x += s
	case do["answer as hundredths"]:
		d, m := math.Modf(x)
		x = d + m*0.6
	case do["cut"]:
		x = math.Trunc(x*600) / 600
	case do["swapped"]:
		n := math.Round(math.Abs(x) * 600)
		d, m := math.Floor(n/600), math.Mod(n, 600)
		u, v := math.Mod(math.Floor(m/10), 10), math.Floor(m/100)
		if u >= 6 {
			return []float64{math.NaN()}
		}
		x = s * (d + (100*u+10*v+math.Mod(m, 10))/600)
	}
	return []float64{x}
}

// longitudeLesson is a difference of longitude for a departure.
func longitudeLesson(r *rand.Rand) task {
	lat := float64(10+r.IntN(50)) + float64(r.IntN(60))/60
	departure := (10 + float64(r.IntN(1200))/10) * pickOf(r, 1, -1)
	p := angle.Must(slip.NewDLong(angle.Must(angle.LatitudeFrom(angle.Angle(math.Round(lat*60))*angle.Minute)), milesOf(departure)))
	return task{
		sort: "longitude", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.5, 1, 5}}, top: []float64{200},
		print: func(x []float64, fine bool) string {
			name := "E"
			if x[0] < 0 {
				name = "W"
			}
			return milesOfClass([]float64{math.Abs(x[0])}, fine) + "′" + name
		},
		customs: []string{"cosine to three places", "latitude to a degree", "cut"},
		errors: []oops{
			oops{"cosine left out", 8, []slip.Kind{slip.CosineLeftOut}}, oops{"times cosine", 8, []slip.Kind{slip.CosineWrongWay}}, many("by the sine", slip.SineForCosine), few("times the sine", slip.SineForCosine),
			many("E for W", slip.EastForWest), few("cosine to two places", slip.RoundedOnTheWay), many("latitude as hundredths", slip.MinutesAsDecimals), few("latitude ten more", slip.TensMisread), few("departure ten more", slip.TensMisread),
			few("ten more", slip.TensMisread), few("one more", slip.SumOff), few("swapped", slip.FiguresTransposed), few("point", slip.PointMisplaced), few("statute", slip.StatuteForNautical),
		},
		work: func(do doer) []float64 {
			l, d := lat, math.Abs(departure)
			switch {
			case do["latitude as hundredths"]:
				w, m := math.Modf(l)
				l = w + m*0.6
			case do["latitude ten more"]:
				l += 10
			case do["latitude to a degree"]:
				l = math.Round(l)
			}
			if do["departure ten more"] {
				d += 10
			}
			c := math.Cos(l * math.Pi / 180)
			switch {
			case do["cosine to two places"]:
				c = math.Round(c*100) / 100
			case do["cosine to three places"]:
				c = math.Round(c*1000) / 1000
			}
			x := d / c
			switch {
			case do["cosine left out"]:
				x = d
			case do["times cosine"]:
				x = d * c
			case do["by the sine"]:
				x = d / math.Sin(l*math.Pi/180)
			case do["times the sine"]:
				x = d * math.Sin(l*math.Pi/180)
			}
			y := distance(x, do)[0] * math.Copysign(1, departure)
			if do["E for W"] {
				y = -y
			}
			return []float64{y}
		},
	}
}
