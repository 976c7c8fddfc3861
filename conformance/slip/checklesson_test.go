package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation/sky"
)

func init() {
	lessons = append(lessons, tidalLesson, sunLesson, amplitudeLesson, coefficientLesson, swingLesson, clearingLesson)
}

// tenthsEastWest prints tenths of a degree with the name E or W.
func tenthsEastWest(x []float64, fine bool) string {
	name := "E"
	if x[0] < 0 {
		name = "W"
	}
	if fine {
		return fmt.Sprintf("%.2f°%s", math.Abs(x[0]), name)
	}
	return fmt.Sprintf("%.1f°%s", math.Abs(x[0]), name)
}

// tidalLesson is the rate of a tidal stream between springs and neaps.
func tidalLesson(r *rand.Rand) task {
	springRange, neapRange := 4+float64(r.IntN(20))/10, 1.8+float64(r.IntN(10))/10
	var springs, neaps [13]float64 // from six hours before high water
	most, turn := 1.5+2.5*r.Float64(), 3*r.Float64()
	place := tidal.Place{Name: "B"}
	for i := range springs {
		springs[i] = toTenth(0.3 + most*math.Abs(math.Sin((float64(i)+turn)*math.Pi/6)))
		neaps[i] = toTenth(springs[i] * (0.4 + 0.2*r.Float64()))
		place.Hours = append(place.Hours, tidal.Hour{Hour: i - 6, Set: trueOf(float64(20 + 30*i)), Springs: knotsOf(springs[i]), Neaps: knotsOf(neaps[i])})
	}
	hour, minutes := r.IntN(11)-5, float64(r.IntN(51)-25)
	low, spread := 0.4+float64(r.IntN(12))/10, toTenth(neapRange-0.3+r.Float64()*(springRange-neapRange+0.6))
	metres := func(x float64) sailing.Distance { return sailing.Distance(x) * sailing.Metre }
	table := tidal.Table{Port: "Orlesk Harbour", SpringRange: metres(springRange), NeapRange: metres(neapRange), Places: []tidal.Place{place}}
	highWater := time.Date(2026, time.July, 3, 9, 20, 0, 0, time.UTC)
	p, err := slip.NewTidalRate(table, "B", highWater, metres(low+spread), metres(low), highWater.Add(time.Duration(float64(60*hour)+minutes)*time.Minute))
	if err != nil {
		return tidalLesson(r)
	}
	return task{
		sort: "tidal stream", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.25, 0.5, 1}}, top: []float64{8}, print: milesOfClass,
		customs: []string{"share to a tenth", "share of springs"},
		errors: []oops{
			{"hour wrong way", 8, []slip.Kind{slip.HourWrongWay}}, many("hour after", slip.OtherHour), many("hour before", slip.OtherHour), {"springs taken", 6, []slip.Kind{slip.RateOfDay}}, {"neaps taken", 6, []slip.Kind{slip.RateOfDay}},
			many("mean taken", slip.RateOfDay), many("exchanged", slip.RateOfDay), many("high water for range", slip.HeightLeftOut), few("range a metre more", slip.SumOff, slip.TensMisread), few("point", slip.PointMisplaced), few("a knot more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			h, day := hour, spread
			if do["hour wrong way"] {
				h = -h
			}
			if do["hour after"] {
				h++
			}
			if do["hour before"] {
				h--
			}
			if do["high water for range"] {
				day = low + spread
			}
			if do["range a metre more"] {
				day++
			}
			s, n := springs[h+6], neaps[h+6]
			part := (day - neapRange) / (springRange - neapRange)
			if do["share to a tenth"] {
				part = toTenth(part)
			}
			x := n + (s-n)*part
			switch {
			case do["springs taken"]:
				x = s
			case do["neaps taken"]:
				x = n
			case do["mean taken"]:
				x = (s + n) / 2
			case do["exchanged"]:
				x = s - (s-n)*part
			case do["share of springs"]: // the rate in proportion to the range
				x = s * day / springRange
			}
			if do["point"] {
				x *= 10
			}
			if do["a knot more"] {
				x++
			}
			return []float64{max(x, 0)}
		},
	}
}

// checkErrors are the errors in comparing a bearing with a known one.
func checkErrors() []oops {
	return append(roseErrors(), oops{"E for W", 10, []slip.Kind{slip.EastForWest}}, oops{"variation wrong way", 8, []slip.Kind{slip.VariationWrongWay}}, many("variation left out", slip.VariationLeftOut), few("variation twice", slip.VariationTwice),
		few("observed ten more", slip.BearingMisread, slip.TensMisread), few("one more", slip.SumOff, slip.RoundedOnTheWay))
}

// compared is a deviation by a true bearing and one observed, as a learner finds it.
func compared(bearing, observed float64, g printedRose, do doer) []float64 {
	if do["observed ten more"] {
		observed += 10
	}
	switch {
	case do["true to a degree"]:
		bearing = math.Round(bearing)
	case do["true to half a degree"]:
		bearing = math.Round(2*bearing) / 2
	}
	x := math.Remainder(bearing-observed-variationApplied(g.now(do), do), 360)
	if do["E for W"] {
		x = -x
	}
	if do["one more"] {
		x += math.Copysign(1, x)
	}
	if math.Abs(x) > 90 { // nobody believes it
		x = math.NaN()
	}
	return []float64{x}
}

// checkCustoms are the conventions of a check.
var checkCustoms = []string{"true to a degree", "true to half a degree", "variation to half a degree", "variation to a degree", "half a year"}

// sunLesson is the deviation by the azimuth of the Sun, by rectangular coordinates.
func sunLesson(r *rand.Rand) task {
	g, with := drawRose(r), steadyWith(0, 0)
	with.Variation = g.rose()
	lat, lon := drawPlace(r)
	with.On = time.Date(2026, time.January, 1, 0, r.IntN(365*24*60), 0, 0, time.UTC)
	sun := angle.Must(sky.Sun(with.On)) // as the question gives it
	dec, gha := sun.Declination.Degrees(), sun.GreenwichHourAngle.Degrees()
	sine := math.Sin(lat*radian)*math.Sin(dec*radian) + math.Cos(lat*radian)*math.Cos(dec*radian)*math.Cos((gha+lon)*radian)
	if sine < 0.05 || sine > 0.7 {
		return sunLesson(r)
	}
	d := float64(r.IntN(15)-7) / 2
	observed := math.Mod(math.Round(azimuth(lat, dec, gha+lon)-g.now(doer{})-d)+720, 360)
	p := angle.Must(slip.NewDeviationBySun(at(lat, lon), angle.CompassFrom(degrees(observed)), angle.CompassFrom(degrees(75)), with))
	return task{
		sort: "Sun's azimuth", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{20}, print: tenthsEastWest, customs: checkCustoms,
		errors: append(checkErrors(), many("hour angle wrong way", slip.HourAngleWrongWay), many("declination contrary", slip.DeclinationContrary), many("counted wrong way", slip.CountedWrongWay), many("counted from the south", slip.NorthForSouth),
			few("hour angle a degree more", slip.SumOff), few("hour angle ten more", slip.TensMisread), few("declination ten more", slip.TensMisread)),
		work: func(do doer) []float64 {
			east, dec := lon, dec
			if do["hour angle wrong way"] {
				east = -east
			}
			if do["hour angle a degree more"] {
				east++
			}
			if do["hour angle ten more"] {
				east += 10
			}
			if do["declination ten more"] {
				dec += math.Copysign(10, dec)
			}
			if do["declination contrary"] {
				dec = -dec
			}
			x := azimuth(lat, dec, gha+east)
			if do["counted from the south"] {
				x = 180 - x
			}
			if do["counted wrong way"] {
				x = -x
			}
			return compared(x, observed, g, do)
		},
	}
}

// amplitudeLesson is the deviation by the amplitude of the Sun.
func amplitudeLesson(r *rand.Rand) task {
	g, with := drawRose(r), steadyWith(0, 0)
	with.Variation = g.rose()
	lat, lon := drawPlace(r)
	with.On = time.Date(2026, time.January, 1, 0, r.IntN(365*24*60), 0, 0, time.UTC)
	dec := angle.Must(sky.Sun(with.On)).Declination.Degrees()
	event := []sky.Event{sky.Rise, sky.Set}[r.IntN(2)]
	bearing := func(amplitude float64, rising bool) float64 {
		if rising {
			return 90 - amplitude
		}
		return 270 + amplitude
	}
	d := float64(r.IntN(15)-7) / 2
	right := bearing(math.Asin(math.Sin(dec*radian)/math.Cos(lat*radian))/radian, event == sky.Rise)
	observed := math.Mod(math.Round(right-g.now(doer{})-d)+720, 360)
	p, err := slip.NewDeviationByAmplitude(event, at(lat, lon), angle.CompassFrom(degrees(observed)), angle.CompassFrom(degrees(75)), with)
	if err != nil || math.Abs(dec) < 3 || math.Abs(lat) < 20 {
		return amplitudeLesson(r)
	}
	return task{
		sort: "amplitude", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{20}, print: tenthsEastWest, customs: checkCustoms,
		errors: append(checkErrors(), oops{"latitude left out", 6, []slip.Kind{slip.LatitudeIgnored, slip.CosineLeftOut}}, many("times cosine", slip.CosineWrongWay), many("sine", slip.SineForCosine), many("declination contrary", slip.DeclinationContrary),
			many("counted wrong way", slip.CountedWrongWay), many("declination as hundredths", slip.MinutesAsDecimals), many("latitude as hundredths", slip.MinutesAsDecimals), few("latitude ten more", slip.TensMisread), few("declination ten more", slip.TensMisread)),
		work: func(do doer) []float64 {
			l, dec := math.Abs(lat), dec
			if do["latitude ten more"] {
				l += 10
			}
			if do["latitude as hundredths"] {
				l = hundredths(l)
			}
			if do["declination ten more"] {
				dec += math.Copysign(10, dec)
			}
			if do["declination as hundredths"] {
				dec = hundredths(dec)
			}
			by := math.Cos(l * radian)
			switch {
			case do["latitude left out"]:
				by = 1
			case do["times cosine"]:
				by = 1 / by
			case do["sine"]:
				by = math.Sin(l * radian)
			}
			amplitude := math.Asin(math.Sin(dec*radian)/by) / radian
			if do["declination contrary"] {
				amplitude = -amplitude
			}
			return compared(bearing(amplitude, (event == sky.Rise) != do["counted wrong way"]), observed, g, do)
		},
	}
}

// eight are the headings of a swing.
var eight = []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}

// drawSwing draws deviations on eight headings, in half degrees or in tenths.
func drawSwing(r *rand.Rand) (x [8]float64) {
	a, b, c, d, e := 3*r.Float64()-1.5, 14*r.Float64()-7, 14*r.Float64()-7, 4*r.Float64()-2, 2*r.Float64()-1
	step := pickOf(r, 2, 10)
	for i := range x {
		h := float64(i) * math.Pi / 4
		x[i] = math.Round(step*(a+b*math.Sin(h)+c*math.Cos(h)+d*math.Sin(2*h)+e*math.Cos(2*h))) / step
	}
	return x
}

// coefficientLesson is a coefficient by hand, from the deviations on eight headings.
func coefficientLesson(r *rand.Rand) task {
	swung := drawSwing(r)
	deviations := map[string]angle.Angle{}
	for i, h := range eight {
		deviations[h] = degrees(swung[i])
	}
	letter := r.IntN(5)
	// What each heading counts, by the letter, in the order of eight.
	counts := [][8]float64{{1, 1, 1, 1, 1, 1, 1, 1}, {0, 0, 1, 0, 0, 0, -1, 0}, {1, 0, 0, 0, -1, 0, 0, 0}, {0, 1, 0, -1, 0, 1, 0, -1}, {1, 0, -1, 0, 1, 0, -1, 0}}
	other := []int{0, 2, 1, 4, 3}[letter]
	k := task{
		sort: "coefficients", p: angle.Must(slip.NewCoefficient("ABCDE"[letter:letter+1], deviations)), steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{12}, print: tenthsEastWest,
		errors: []oops{
			{"not divided", 6, []slip.Kind{slip.NotDivided}}, many("divided once too few", slip.NotDivided), {"E for W", 8, []slip.Kind{slip.EastForWest}}, few("one more", slip.SumOff, slip.RoundedOnTheWay),
			many("one name ignored", slip.NamesIgnored), few("ten more", slip.TensMisread), few("swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			l := letter
			if do["other"] {
				l = other
			}
			sum, n := 0.0, 0.0
			for i, c := range counts[l] {
				x := swung[i]
				if c != 0 && do["one name ignored"] && x < 0 { // the first of those west
					x, do = -x, doer{"other": do["other"], "not divided": do["not divided"], "divided once too few": do["divided once too few"], "names ignored": do["names ignored"], "E for W": do["E for W"], "one more": do["one more"], "ten more": do["ten more"], "swapped": do["swapped"]}
				}
				if do["names ignored"] {
					c = math.Abs(c)
				}
				sum, n = sum+c*x, n+math.Abs(c)
			}
			x := sum / n
			if do["not divided"] {
				x = sum
			}
			if do["divided once too few"] {
				x *= 2
			}
			if do["E for W"] {
				x = -x
			}
			if do["one more"] {
				x += math.Copysign(1, x)
			}
			if do["ten more"] {
				x += math.Copysign(10, x)
			}
			if do["swapped"] {
				x = figuresSwapped(x)
			}
			return []float64{x}
		},
	}
	if letter > 0 {
		k.errors = append(k.errors, oops{"other", 6, []slip.Kind{slip.OtherCoefficient}}, oops{"names ignored", 6, []slip.Kind{slip.NamesIgnored}})
	}
	return k
}

// swingLesson is the deviation on one heading of a swing by a distant object.
func swingLesson(r *rand.Rand) task {
	swung, magnetic, on := drawSwing(r), float64(r.IntN(360)), r.IntN(8)
	bearings, read := map[string]angle.Compass{}, [8]float64{}
	for i, h := range eight {
		read[i] = math.Round(10*(magnetic-swung[i])) / 10
		bearings[h] = angle.CompassFrom(degrees(math.Mod(read[i]+360, 360)))
	}
	return task{
		sort: "swing", p: angle.Must(slip.NewSwingHeading(bearings, eight[on])), steps: []float64{0.1}, coarse: [][]float64{{0.5, 1}}, top: []float64{12}, print: tenthsEastWest, customs: []string{"mean to half a degree", "mean to a degree"},
		errors: []oops{
			{"E for W", 10, []slip.Kind{slip.EastForWest}}, many("next heading", slip.OtherHeading), many("heading before", slip.OtherHeading), many("opposite heading", slip.OtherHeading), many("cardinal mean", slip.MeanOfSome),
			few("observed ten more", slip.BearingMisread, slip.TensMisread), few("observed ten less", slip.BearingMisread, slip.TensMisread), few("one more", slip.SumOff, slip.RoundedOnTheWay), few("swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			sum, n := 0.0, 0.0
			for i, x := range read {
				if !do["cardinal mean"] || i%2 == 0 {
					sum, n = sum+x, n+1
				}
			}
			mean, at := sum/n, on
			switch {
			case do["mean to half a degree"]:
				mean = math.Round(2*mean) / 2
			case do["mean to a degree"]:
				mean = math.Round(mean)
			}
			switch {
			case do["next heading"]:
				at++
			case do["heading before"]:
				at += 7
			case do["opposite heading"]:
				at += 4
			}
			x := mean - read[at%8]
			if do["observed ten more"] {
				x -= 10
			}
			if do["observed ten less"] {
				x += 10
			}
			if do["E for W"] {
				x = -x
			}
			if do["one more"] {
				x += math.Copysign(1, x)
			}
			if do["swapped"] {
				x = figuresSwapped(x)
			}
			return []float64{x}
		},
	}
}

// clearingLesson is a clearing bearing by compass, on a flat chart about the rock.
func clearingLesson(r *rand.Rand) task {
	g, card, with := drawCompass(r)
	lat, lon := drawPlace(r)
	k := chartAbout(lat, lon)
	a, b := k.markAt(r, 0, 0, float64(r.IntN(360)))
	x, y := k.place(a, b)
	margin, side := float64(2+r.IntN(7))/10, pickOf(r, 1, -1) // 1 for a rock left to port
	leaveTo := angle.Port
	if side < 0 {
		leaveTo = angle.Starboard
	}
	direct := math.Atan2(x, y) / radian
	off := math.Asin(margin/math.Hypot(x, y)) / radian
	head := math.Mod(math.Round((direct-g.now(doer{}))/5)*5+720, 360)
	p, err := slip.NewClearingBearing(marked("Point tower", a, b), at(lat, lon), milesOf(margin), leaveTo, angle.CompassFrom(degrees(head)), with)
	if err != nil {
		return clearingLesson(r)
	}
	t := task{
		sort: "clearing bearing", p: p, steps: []float64{1}, coarse: [][]float64{{5, 10}}, top: []float64{360}, print: three,
		customs: []string{"nearest row", "half a year", "variation to half a degree", "variation to a degree", "deviation to half a degree"},
		errors: append(roseErrors(), oops{"variation wrong way", 12, []slip.Kind{slip.VariationWrongWay}}, oops{"deviation wrong way", 12, []slip.Kind{slip.DeviationWrongWay}}, oops{"margin left out", 8, []slip.Kind{slip.MarginLeftOut}}, oops{"margin wrong side", 8, []slip.Kind{slip.MarginWrongSide}},
			many("variation left out", slip.VariationLeftOut), many("deviation left out", slip.DeviationLeftOut), few("variation twice", slip.VariationTwice), few("deviation twice", slip.DeviationTwice), many("reciprocal", slip.ReciprocalTaken),
			few("row below", slip.AdjacentRow), few("row above", slip.AdjacentRow), few("ten more", slip.TensMisread), few("one more", slip.RoundedOnTheWay, slip.SumOff), few("hundred less", slip.SumOff), few("answer swapped", slip.FiguresTransposed)),
		work: func(do doer) []float64 {
			m := -side * off // the vessel passes to the right of a rock that is left to port, and the mark bears less
			switch {
			case do["margin left out"]:
				m = 0
			case do["margin wrong side"]:
				m = -m
			}
			return finished(direct+m-variationApplied(g.now(do), do)-deviationApplied(card.of(head, do), do), do)
		},
	}
	return t
}

// figuresSwapped exchanges the two figures of degrees to a tenth, as 3.2 for 2.3. It is NaN for
// more or fewer figures.
func figuresSwapped(x float64) float64 {
	n := math.Round(math.Abs(x) * 10)
	if n < 10 || n > 99 {
		return math.NaN()
	}
	return math.Copysign(math.Mod(n, 10)+math.Floor(n/10)/10, x)
}
