package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// lessons draw the tasks of the class, a lesson for each sort of problem.
var lessons = []func(*rand.Rand) task{
	roseLesson, steerLesson, trueLesson, lineLesson, streamLesson, runLesson, latitudeLesson, longitudeLesson,
}

// toTenth rounds to a tenth.
func toTenth(x float64) float64 { return math.Round(x*10) / 10 }

// pickOf draws one of some figures.
func pickOf(r *rand.Rand, from ...float64) float64 { return from[r.IntN(len(from))] }

// swapped returns a number of three figures with its last two exchanged.
func swapped(x float64) float64 {
	n := math.Round(x)
	h, d, u := math.Floor(n/100), math.Mod(math.Floor(n/10), 10), math.Mod(n, 10)
	return 100*h + 10*u + d + (x - n)
}

// three prints a direction.
func three(x []float64, fine bool) string {
	d := math.Mod(math.Mod(x[0], 360)+360, 360)
	if fine {
		return fmt.Sprintf("%05.1f", math.Mod(toTenth(d), 360))
	}
	return fmt.Sprintf("%03.0f", math.Mod(math.Round(d), 360))
}

// eastWest prints degrees and minutes with the name E or W.
func eastWest(x []float64, fine bool) string { return withMinutes(x[0], fine, "E", "W", 0) }

// withMinutes prints degrees and minutes with a name.
func withMinutes(x float64, fine bool, plus, minus string, decimals int) string {
	name := plus
	if x < 0 {
		name = minus
	}
	if fine {
		decimals++
	}
	scale := math.Pow10(decimals)
	m := math.Round(math.Abs(x)*60*scale) / scale
	return fmt.Sprintf("%.0f°%0*.*f′%s", math.Floor(m/60), 2, decimals, math.Mod(m, 60), name)
}

// miles prints a distance.
func milesOfClass(x []float64, fine bool) string {
	if fine {
		return fmt.Sprintf("%.2f", x[0])
	}
	return fmt.Sprintf("%.1f", x[0])
}

// A printedRose is a rose as the class reads it from the chart, in degrees and minutes a year.
type printedRose struct {
	v, change float64
	year      int
}

// drawRose draws a rose.
func drawRose(r *rand.Rand) printedRose {
	v := float64(1+r.IntN(18)) + float64(5*r.IntN(12))/60
	return printedRose{v * pickOf(r, 1, -1), float64(3+r.IntN(11)) * pickOf(r, 1, -1), 2012 + r.IntN(12)}
}

// rose returns it as the library takes it.
func (g printedRose) rose() variation.Rose {
	return variation.Rose{
		Variation: variation.East(angle.Angle(math.Round(g.v*60)) * angle.Minute), Year: g.year,
		Change: variation.Eastward(angle.Angle(g.change) * angle.Minute), Step: angle.Minute, ChangeStep: angle.Minute,
	}
}

// now is the variation in 2026 by a learner.
func (g printedRose) now(do doer) float64 {
	years := float64(2026 - g.year)
	if do["year more"] {
		years++
	}
	if do["year less"] {
		years--
	}
	if do["ten years off"] {
		years = math.Abs(years - 10)
	}
	if do["half a year"] {
		years += 0.5
	}
	minutes := years * g.change
	if do["change of one year"] {
		minutes = g.change
	}
	if do["change as hundredths"] { // 77′ are keyed in as 0.77
		minutes = minutes / 100 * 60
	}
	if do["change at a hundred"] { // 132′ are 1°32′
		h := math.Trunc(minutes / 100)
		minutes = 60*h + minutes - 100*h
	}
	if do["change wrong way"] {
		minutes = -minutes
	}
	v := g.v
	if do["printed ten more"] {
		v += 10 * math.Copysign(1, v)
	}
	if do["printed ten minutes more"] {
		v += math.Copysign(1, v) / 6
	}
	if do["not brought up to date"] {
		return v
	}
	if do["change only"] {
		return minutes / 60
	}
	out := v + minutes/60
	if do["name of the rose kept"] && out*v < 0 {
		out = -out
	}
	return out
}

// roseErrors are the errors in bringing a rose up to date.
func roseErrors() []oops {
	return []oops{
		many("not brought up to date", slip.ChangeLeftOut), many("change wrong way", slip.ChangeWrongWay), few("change only", slip.ChangeForVariation),
		many("year more", slip.YearsMiscounted), many("year less", slip.YearsMiscounted), few("ten years off", slip.YearsMiscounted),
		few("change of one year", slip.YearsMiscounted), few("change as hundredths", slip.MinutesAsDecimals), few("change at a hundred", slip.MinutesAtHundred),
	}
}

// roseLesson is a rose brought up to date.
func roseLesson(r *rand.Rand) task {
	g := drawRose(r)
	work := func(do doer) []float64 {
		v := g.now(do)
		if do["E for W"] {
			v = -v
		}
		if do["minutes as hundredths"] {
			d, m := math.Modf(v)
			v = d + m*0.6
		}
		if do["degrees as minutes"] {
			d, m := math.Modf(v)
			if v = d + math.Round(m*100)/60; math.Abs(math.Round(m*100)) >= 60 {
				v = math.NaN()
			}
		}
		if do["borrowed at a hundred"] {
			minutes := math.Mod(math.Abs(math.Round(g.v*60)), 60) - math.Abs(float64(2026-g.year)*g.change)
			if g.v*g.change > 0 || minutes >= 0 || math.Abs(g.v)*60 < math.Abs(float64(2026-g.year)*g.change) {
				return []float64{math.NaN()}
			}
			v += math.Copysign(40.0/60*math.Ceil(-minutes/100), v)
		}
		if do["ten minutes more"] {
			v += math.Copysign(1.0/6, v)
		}
		if do["a degree more"] {
			v += math.Copysign(1, v)
		}
		if do["minutes swapped"] {
			n := math.Round(math.Abs(v) * 60)
			d, m := math.Floor(n/60), math.Mod(n, 60)
			if m = 10*math.Mod(m, 10) + math.Floor(m/10); m >= 60 {
				m = math.NaN()
			}
			v = math.Copysign(d+m/60, v)
		}
		return []float64{v}
	}
	return task{
		sort: "variation", p: angle.Must(slip.NewRose(g.rose(), 2026)), work: work,
		errors: append(roseErrors(), many("E for W", slip.EastForWest, slip.NameKept), many("minutes as hundredths", slip.MinutesAsDecimals), few("degrees as minutes", slip.MinutesAsDecimals),
			few("borrowed at a hundred", slip.MinutesAtHundred), few("ten minutes more", slip.TensMisread, slip.SumOff), few("a degree more", slip.SumOff, slip.TensMisread),
			few("minutes swapped", slip.FiguresTransposed), few("printed ten minutes more", slip.TensMisread), few("printed ten more", slip.TensMisread, slip.SumOff)),
		customs: []string{"half a year"},
		steps:   []float64{1.0 / 60}, coarse: [][]float64{{5.0 / 60, 10.0 / 60, 0.25, 0.5, 1, 0.1}}, top: []float64{20}, print: eastWest,
	}
}

// A classCard is a card with a row for every 30°, read by the class between its rows.
type classCard [12]float64

// drawCard12 draws a smooth card.
func drawCard12(r *rand.Rand) (k classCard) {
	b, c, d := 5*r.Float64()-2.5, 5*r.Float64()-2.5, 2*r.Float64()-1
	for i := range k {
		h := float64(i) * math.Pi / 6
		k[i] = math.Round(2*(b*math.Sin(h)+c*math.Cos(h)+d*math.Sin(2*h))) / 2
	}
	return k
}

// table returns it as the library takes it.
func (k classCard) table() *deviation.Table {
	var rows []deviation.Row[angle.Compass]
	for i, d := range k {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(angle.Angle(30*i) * deg), Deviation: deviation.East(angle.Angle(2*d) * deg / 2)})
	}
	return angle.Must(deviation.NewTable(rows))
}

// of returns the deviation on a compass heading, as a learner reads it.
func (k classCard) of(head float64, do doer) float64 {
	head = math.Mod(math.Mod(head, 360)+360, 360)
	i := int(head / 30)
	part := head/30 - float64(i)
	near := i
	if part > 0.5 {
		near++
	}
	switch {
	case do["nearest row"]:
		return k[near%12]
	case do["row below"]:
		return k[(near+11)%12]
	case do["row above"]:
		return k[(near+1)%12]
	}
	return k[i%12]*(1-part) + k[(i+1)%12]*part
}

// onMagnetic returns the deviation on a magnetic heading: three rounds of trial.
func (k classCard) onMagnetic(m float64, do doer) float64 {
	compass := m
	for range 40 {
		compass = m - k.of(compass, doer{})
	}
	return k.of(compass, do)
}

// variationApplied is the variation as a learner applies it.
func variationApplied(v float64, do doer) float64 {
	switch {
	case do["variation to half a degree"]:
		v = math.Round(2*v) / 2
	case do["variation to a degree"]:
		v = math.Round(v)
	}
	switch {
	case do["variation wrong way"]:
		return -v
	case do["variation left out"]:
		return 0
	case do["variation twice"]:
		return 2 * v
	}
	return v
}

// deviationApplied is the deviation as a learner applies it.
func deviationApplied(d float64, do doer) float64 {
	if do["deviation to half a degree"] {
		d = math.Round(2*d) / 2
	}
	switch {
	case do["deviation wrong way"]:
		return -d
	case do["deviation left out"]:
		return 0
	case do["deviation twice"]:
		return 2 * d
	}
	return d
}

// givenAs is a given direction as a learner reads it.
func givenAs(x float64, do doer) float64 {
	switch {
	case do["given ten more"]:
		return x + 10
	case do["given ten less"]:
		return x - 10
	case do["given swapped"]:
		return swapped(x)
	}
	return x
}

// finished is a direction as a learner writes it.
func finished(x float64, do doer) []float64 {
	if do["reciprocal"] {
		x += 180
	}
	if do["ten more"] {
		x += 10
	}
	if do["one more"] {
		x++
	}
	if do["hundred less"] {
		x -= 100
	}
	x = math.Mod(math.Mod(x, 360)+360, 360)
	if do["answer swapped"] {
		if x = swapped(x); x >= 360 {
			x = math.NaN()
		}
	}
	return []float64{x}
}

// conversionErrors are the errors in a conversion.
func conversionErrors() []oops {
	return append(roseErrors(),
		oops{"variation wrong way", 12, []slip.Kind{slip.VariationWrongWay}}, oops{"deviation wrong way", 12, []slip.Kind{slip.DeviationWrongWay}},
		many("variation left out", slip.VariationLeftOut), many("deviation left out", slip.DeviationLeftOut), few("variation twice", slip.VariationTwice), few("deviation twice", slip.DeviationTwice),
		few("row below", slip.AdjacentRow), few("row above", slip.AdjacentRow), few("given ten more", slip.TensMisread), few("given ten less", slip.TensMisread), few("given swapped", slip.FiguresTransposed),
		few("ten more", slip.TensMisread), few("one more", slip.RoundedOnTheWay, slip.SumOff), few("hundred less", slip.SumOff), few("answer swapped", slip.FiguresTransposed))
}

// conversion is the task of a conversion.
func conversion(sort string, p slip.Problem, work func(doer) []float64, more ...oops) task {
	return task{
		sort: sort, p: p, work: work, errors: append(conversionErrors(), more...),
		customs: []string{"nearest row", "half a year", "variation to half a degree", "variation to a degree", "deviation to half a degree"},
		steps:   []float64{1}, coarse: [][]float64{{5, 10}}, top: []float64{360}, print: three,
	}
}

// drawCompass draws a rose and a card, with the sources of the library.
func drawCompass(r *rand.Rand) (printedRose, classCard, course.With) {
	g, k := drawRose(r), drawCard12(r)
	return g, k, course.With{Variation: g.rose(), Deviation: k.table(), On: time.Date(2026, time.May, 20, 0, 0, 0, 0, time.UTC)}
}

// whole draws a direction, in tenths in a third of the tasks.
func whole(r *rand.Rand) float64 {
	x := float64(r.IntN(360))
	if r.IntN(3) == 0 {
		x += float64(r.IntN(10)) / 10
	}
	return x
}

// tenthsOf returns degrees as the library takes them.
func tenthsOf(x float64) angle.Angle { return angle.Angle(math.Round(x*10)) * 6 * angle.Minute }

// steerLesson is a true course turned into a course to steer.
func steerLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	track := whole(r)
	return conversion("steer", angle.Must(slip.NewToSteer(angle.TrueFrom(tenthsOf(track)), with)), func(do doer) []float64 {
		given := givenAs(track, do)
		m := given - variationApplied(g.now(do), do)
		d := k.onMagnetic(m, do)
		switch {
		case do["deviation of the true course"]:
			d = k.of(given, do)
		case do["deviation of the magnetic course"]:
			d = k.of(m, do)
		}
		return finished(m-deviationApplied(d, do), do)
	}, many("deviation of the true course", slip.DeviationOnTrue), many("deviation of the magnetic course", slip.DeviationOnMagnetic), few("reciprocal", slip.ReciprocalTaken))
}

// trueLesson is a compass course turned into a true one.
func trueLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	steered := whole(r)
	return conversion("true", angle.Must(slip.NewTrueCourse(angle.CompassFrom(tenthsOf(steered)), with)), func(do doer) []float64 {
		given := givenAs(steered, do)
		return finished(given+deviationApplied(k.of(given, do), do)+variationApplied(g.now(do), do), do)
	}, few("reciprocal", slip.ReciprocalTaken))
}

// lineLesson is a bearing turned into a position line.
func lineLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	bearing, head := whole(r), float64(r.IntN(360))
	p := angle.Must(slip.NewPositionLine("the tower", angle.CompassFrom(tenthsOf(bearing)), angle.CompassFrom(tenthsOf(head)), with))
	return conversion("line", p, func(do doer) []float64 {
		b, h := givenAs(bearing, do), head
		if do["head ten more"] {
			h += 10
		}
		if do["deviation of the bearing"] {
			h = b
		}
		x := b + deviationApplied(k.of(h, do), do) + variationApplied(g.now(do), do)
		if !do["reciprocal forgotten"] {
			x += 180
		}
		return finished(x, do)
	}, oops{"deviation of the bearing", 12, []slip.Kind{slip.DeviationOfBearing}}, many("reciprocal forgotten", slip.ReciprocalForgotten), few("head ten more", slip.TensMisread))
}

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
