package slip_test

import (
	"math"
	"math/rand/v2"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
)

func init() { lessons = append(lessons, verticalLesson, dippingLesson, circleLesson, dangerLesson) }

// smallAngle prints degrees and tenths of minutes.
func smallAngle(x []float64, fine bool) string { return withMinutes(x[0], fine, "", "", 1) }

// verticalLesson is a distance by the vertical angle of a light.
func verticalLesson(r *rand.Rand) task {
	height, index := float64(25+r.IntN(60)), toTenth(6*r.Float64()-3)
	sextant := toTenth(math.Atan(height/(0.7+2.5*r.Float64())/1852)/radian*60) + index // minutes
	p, err := slip.NewVerticalAngle(metresOf(height), degrees(sextant/60), degrees(index/60), metresOf(4))
	if err != nil {
		return verticalLesson(r)
	}
	k := task{
		sort: "vertical angle", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.25, 0.5, 1}}, top: []float64{8}, print: milesOfClass, customs: []string{"by 1.856"},
		errors: []oops{
			many("feet", slip.FeetForMetres), many("metres from feet", slip.FeetForMetres), many("minutes as hundredths", slip.MinutesAsDecimals), few("statute", slip.StatuteForNautical), few("point", slip.PointMisplaced), few("one more", slip.SumOff),
			few("height ten more", slip.TensMisread), few("angle ten more", slip.TensMisread), few("swapped", slip.FiguresTransposed), few("upside down", slip.DividedForMultiplied),
		},
		work: func(do doer) []float64 {
			h, off := height, index
			switch {
			case do["index wrong way"]:
				off = -off
			case do["index left out"]:
				off = 0
			}
			switch {
			case do["feet"]:
				h *= 0.3048
			case do["metres from feet"]:
				h /= 0.3048
			}
			if do["height ten more"] {
				h += 10
			}
			m := sextant - off
			if do["angle ten more"] {
				m += 10
			}
			if do["minutes as hundredths"] {
				m = 60 * hundredths(m/60)
			}
			x := h / math.Tan(m/60*radian) / 1852
			switch {
			case do["by 1.856"]:
				x = 1.856 * h / m
			case do["upside down"]:
				x = m / (1.856 * h)
			}
			return distance(x, do)
		},
	}
	if index != 0 {
		k.errors = append(k.errors, oops{"index wrong way", 6, []slip.Kind{slip.IndexError}}, oops{"index left out", 6, []slip.Kind{slip.IndexError}})
	}
	return k
}

// dippingLesson is the distance off a light that dips.
func dippingLesson(r *rand.Rand) task {
	light, eye := float64(15+r.IntN(70)), float64(4+r.IntN(28))/2
	p := angle.Must(slip.NewDippingLight(metresOf(light), metresOf(eye)))
	factor := p.Answer() / (math.Sqrt(light) + math.Sqrt(eye)) // of the table that the question names
	if math.Abs(factor-2.1) > 0.03 {
		panic("the table of the horizon has another factor")
	}
	return task{
		sort: "dipping light", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.25, 0.5, 1, 5}}, top: []float64{40}, print: milesOfClass, customs: []string{"by 2.1", "tenths on the way", "cut"},
		errors: []oops{
			{"heights added", 8, []slip.Kind{slip.HeightsAdded}}, {"eye left out", 8, []slip.Kind{slip.HeightLeftOut}}, many("light left out", slip.HeightLeftOut), many("feet", slip.FeetForMetres), many("metres from feet", slip.FeetForMetres), few("statute", slip.StatuteForNautical),
			few("point", slip.PointMisplaced), few("one more", slip.SumOff), few("light ten more", slip.TensMisread), few("eye ten more", slip.TensMisread), few("swapped", slip.FiguresTransposed), few("ten more", slip.TensMisread),
		},
		work: func(do doer) []float64 {
			h, e, f := light, eye, factor
			if do["by 2.1"] {
				f = 2.1
			}
			if do["light ten more"] {
				h += 10
			}
			if do["eye ten more"] {
				e += 10
			}
			switch {
			case do["feet"]:
				h, e = h*0.3048, e*0.3048
			case do["metres from feet"]:
				h, e = h/0.3048, e/0.3048
			}
			if do["eye left out"] {
				e = 0
			}
			if do["light left out"] {
				h = 0
			}
			a, b := f*math.Sqrt(h), f*math.Sqrt(e)
			if do["tenths on the way"] {
				a, b = toTenth(a), toTenth(b)
			}
			x := a + b
			if do["heights added"] {
				x = f * math.Sqrt(h+e)
			}
			return distance(x, do)
		},
	}
}

// circleLesson is the radius of the circle of a horizontal angle.
func circleLesson(r *rand.Rand) task {
	lat, lon := drawPlace(r)
	k := chartAbout(lat, lon)
	a, b := k.markAt(r, 0, 0, float64(r.IntN(360)))
	x, y := k.place(a, b)
	apart, angleOf := toTenth(math.Hypot(x, y)), float64(25+r.IntN(110))
	p, err := slip.NewAngleCircle(marked("Ledge beacon", lat, lon), marked("Point tower", a, b), degrees(angleOf))
	if err != nil || math.Abs(apart-math.Hypot(x, y)) > 0.048 {
		return circleLesson(r)
	}
	return task{
		sort: "angle circle", p: p, steps: []float64{0.1}, coarse: [][]float64{{0.25, 0.5, 1}}, top: []float64{12}, print: milesOfClass, customs: []string{"sine to two places", "cut"},
		errors: []oops{
			{"not halved", 8, []slip.Kind{slip.NotDivided}}, many("cosine", slip.SineForCosine), many("times sine", slip.DividedForMultiplied), few("statute", slip.StatuteForNautical), few("point", slip.PointMisplaced), few("one more", slip.SumOff),
			few("angle ten more", slip.TensMisread), few("angle ten less", slip.TensMisread), few("swapped", slip.FiguresTransposed), few("apart one more", slip.SumOff),
		},
		work: func(do doer) []float64 {
			d, z := apart, angleOf
			if do["apart one more"] {
				d++
			}
			if do["angle ten more"] {
				z += 10
			}
			if do["angle ten less"] {
				z -= 10
			}
			s := math.Sin(z * radian)
			switch {
			case do["sine to two places"]:
				s = math.Round(100*s) / 100
			case do["cosine"]:
				s = math.Abs(math.Cos(z * radian))
			}
			if do["times sine"] {
				s = 1 / s
			}
			if !do["not halved"] {
				d /= 2
			}
			if d/s > 60 {
				return []float64{math.NaN()}
			}
			return distance(d/s, do)
		},
	}
}

// dangerLesson is a vertical danger angle.
func dangerLesson(r *rand.Rand) task {
	height, off := float64(20+r.IntN(60)), float64(5+r.IntN(20))/10
	p, err := slip.NewDangerAngle(metresOf(height), milesOf(off))
	if err != nil {
		return dangerLesson(r)
	}
	return task{
		sort: "danger angle", p: p, steps: []float64{0.1 / 60}, coarse: [][]float64{{0.5 / 60, 1.0 / 60}}, top: []float64{4}, print: smallAngle, customs: []string{"by 1.856", "cut"},
		errors: []oops{
			many("feet", slip.FeetForMetres), many("metres from feet", slip.FeetForMetres), many("statute", slip.StatuteForNautical), few("height ten more", slip.TensMisread), few("off one more", slip.SumOff, slip.TensMisread), many("answer as hundredths", slip.MinutesAsDecimals), many("decimals as minutes", slip.MinutesAsDecimals),
			few("ten minutes more", slip.TensMisread, slip.SumOff), few("a minute more", slip.SumOff, slip.RoundedOnTheWay), few("swapped", slip.FiguresTransposed),
		},
		work: func(do doer) []float64 {
			h, d := height, off
			switch {
			case do["feet"]:
				h *= 0.3048
			case do["metres from feet"]:
				h /= 0.3048
			}
			if do["height ten more"] {
				h += 10
			}
			if do["off one more"] {
				d++
			}
			if do["statute"] {
				d /= 1.1508
			}
			x := math.Atan(h/d/1852) / radian
			if do["by 1.856"] {
				x = 1.856 * h / d / 60
			}
			if do["decimals as minutes"] { // 0.295° is written as 0°29.5′
				d, m := math.Modf(x)
				if x = d + m/0.6; m > 0.6 {
					x = math.NaN()
				}
			}
			return latitudeWritten(x, do)
		},
	}
}
