package slip_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
)

const (
	foot   = 0.3048
	mile   = 1852.0
	inLand = 1609.344 / 1852 // a statute mile in nautical miles
)

// metresOf is a height.
func metresOf(x float64) sailing.Distance { return sailing.Distance(x) * sailing.Metre }

// The oracle solves the triangle on a plane: the vessel runs along the axis, and the object stands
// where the two bearings meet.
func TestTwoBearingsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	checked := 0
	for range draws(60) {
		first := float64(10 + r.IntN(60))
		second := first + float64(5+r.IntN(60))
		if r.IntN(3) == 0 {
			second = 2 * first
		}
		run := 1 + 8*r.Float64()
		// The object is at (x, y): y = x tan first = (x − run) tan second.
		y := run / (1/math.Tan(first*radian) - 1/math.Tan(second*radian))
		off := math.Hypot(y/math.Tan(second*radian), y)
		want, other := off, y
		abeam := r.IntN(2) == 0
		if abeam {
			want, other = y, off
		}
		expect := figures{"": {one(want)}, slip.OtherDistance: {one(other)}, slip.StatuteForNautical: {one(want * inLand), one(want / inLand)}}
		if second != 2*first {
			expect[slip.RunForDistance] = [][2]float64{one(run * want / off)}
			expect[slip.DividedForMultiplied] = [][2]float64{one(run * run / off * want / off)}
		}
		checked += agree(t, angle.Must(slip.NewTwoBearings(degrees(first), degrees(second), milesOf(run), abeam)), expect, 0.001)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle has the height over the tangent, the square roots of the horizon, and the circle by the
// angle at its centre.
func TestDistancesOffAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 2))
	checked := 0
	for range draws(60) {
		height, minutes, index := float64(20+r.IntN(60)), float64(300+r.IntN(1500))/10, float64(r.IntN(80)-40)/10
		off := func(h, minutes float64) float64 { return h / math.Tan(minutes/60*radian) / mile }
		if right := off(height, minutes-index); right < 5 && index != 0 {
			checked += agree(t, angle.Must(slip.NewVerticalAngle(metresOf(height), degrees(minutes/60), degrees(index/60), metresOf(10))), figures{
				"": {one(right)}, slip.IndexError: {one(off(height, minutes+index)), one(off(height, minutes))},
				slip.FeetForMetres: {one(off(height*foot, minutes-index)), one(off(height/foot, minutes-index))}, slip.StatuteForNautical: {one(right * inLand), one(right / inLand)},
			}, 0.001)
		}
		eye := float64(2 + r.IntN(10))
		horizon := func(h float64) float64 { return 2.12 * math.Sqrt(h) } // Bowditch's 1.17 for feet
		both := horizon(height) + horizon(eye)
		checked += agree(t, angle.Must(slip.NewDippingLight(metresOf(height), metresOf(eye))), figures{
			"": {one(both)}, slip.HeightLeftOut: {one(horizon(height)), one(horizon(eye))}, slip.HeightsAdded: {one(horizon(height + eye))},
			slip.FeetForMetres: {one(both * math.Sqrt(foot)), one(both / math.Sqrt(foot))},
		}, 0.1)
		distance := 0.5 + 3*r.Float64()
		limit := func(h, miles float64) float64 { return math.Atan2(h, miles*mile) / radian }
		checked += agree(t, angle.Must(slip.NewDangerAngle(metresOf(height), milesOf(distance))), figures{
			"": {one(limit(height, distance))}, slip.FeetForMetres: {one(limit(height*foot, distance)), one(limit(height/foot, distance))},
			slip.StatuteForNautical: {one(limit(height, distance*inLand)), one(limit(height, distance/inLand))},
		}, 0.0001)
		left, right := charted[r.IntN(2)], charted[2+r.IntN(2)]
		a, b := placeOf(left.Position), placeOf(right.Position)
		apart := math.Hypot((a.lat-b.lat)*60*1852.4/mile, (a.lon-b.lon)*60*math.Cos((a.lat+b.lat)/2*radian)*1858.8/mile)
		apart = tenth(apart)
		subtended := float64(20+r.IntN(80)) + float64(r.IntN(60))/60
		// The marks are seen from the centre under twice the angle: apart² = 2r²(1 − cos 2a).
		radius := apart / math.Sqrt(2*(1-math.Cos(2*subtended*radian)))
		checked += agree(t, angle.Must(slip.NewAngleCircle(left, right, degrees(subtended))), figures{
			"": {one(radius)}, slip.NotDivided: {one(2 * radius)}, slip.SineForCosine: {one(radius * math.Abs(math.Tan(subtended*radian)))},
			slip.DividedForMultiplied: {one(apart * apart / 4 / radius)},
		}, 0.01)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle turns the bearing of the rock from the mark by the angle of the margin.
func TestClearingBearingsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 3))
	checked := 0
	for range draws(60) {
		w := drawWatch(r, 1)
		out, off, margin := 360*r.Float64(), 1.5+3*r.Float64(), 0.2+0.5*r.Float64()
		rock := w.marks[0].moved(out, off)
		leave, sign := angle.Starboard, 1.0 // to starboard, the bearing must not be less
		if r.IntN(2) == 0 {
			leave, sign = angle.Port, -1
		}
		in := rock.bearing(w.marks[0])
		turn := math.Asin(margin/off) / radian
		compass := func(bearing, v, d float64) [2]float64 { return one(bearing - v*w.variation - d*w.deviation(w.head)) }
		right := in + sign*turn
		checked += agree(t, angle.Must(slip.NewClearingBearing(w.sighting(0, 0).Mark, at(rock.lat, rock.lon), milesOf(margin), leave, angle.CompassFrom(degrees(w.head)), w.with())), figures{
			"": {compass(right, 1, 1)}, slip.MarginLeftOut: {compass(in, 1, 1)}, slip.MarginWrongSide: {compass(in-sign*turn, 1, 1)},
			slip.VariationWrongWay: {compass(right, -1, 1)}, slip.VariationLeftOut: {compass(right, 0, 1)}, slip.DeviationWrongWay: {compass(right, 1, -1)}, slip.DeviationLeftOut: {compass(right, 1, 0)},
			slip.ReciprocalTaken: {one(compass(right, 1, 1)[0] + 180)},
		}, 0.1)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle works the proportion of the range with plain numbers.
func TestTidalRatesAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 4))
	checked := 0
	for range draws(60) {
		spring, neap := 4+2*r.Float64(), 1.5+2*r.Float64()
		table := tidal.Table{Port: "Orlesk Harbour", SpringRange: metresOf(spring), NeapRange: metresOf(neap)}
		rates := map[int][2]float64{}
		var hours []tidal.Hour
		for hour := -6; hour <= 6; hour++ {
			s := 1 + 2*r.Float64()
			rates[hour] = [2]float64{s, s * (0.3 + 0.4*r.Float64())}
			hours = append(hours, tidal.Hour{Hour: hour, Set: trueOf(float64(30 * (hour + 6) % 360)), Springs: knotsOf(rates[hour][0]), Neaps: knotsOf(rates[hour][1])})
		}
		table.Places = []tidal.Place{{Name: "A", Hours: hours}}
		highWater := time.Date(2026, time.July, 1, 12, r.IntN(60), 0, 0, time.UTC)
		hour, low, height := r.IntN(11)-5, r.Float64(), neap+(spring-neap)*r.Float64()
		minutes := r.IntN(50) - 25
		p := angle.Must(slip.NewTidalRate(table, "A", highWater, metresOf(low+height), metresOf(low), highWater.Add(time.Duration(60*hour+minutes)*time.Minute)))
		part := (height - neap) / (spring - neap)
		rate := func(hour int, part float64) [2]float64 {
			return one(rates[hour][1] + part*(rates[hour][0]-rates[hour][1]))
		}
		checked += agree(t, p, figures{
			"": {rate(hour, part)}, slip.HourWrongWay: {rate(-hour, part)}, slip.OtherHour: {rate(hour+1, part), rate(hour-1, part)},
			slip.RateOfDay: {rate(hour, 1), rate(hour, 0), rate(hour, 0.5), rate(hour, 1-part)},
		}, 0.001)
	}
	t.Logf("%d slips checked", checked)
}

// Distances off that were worked in print.
func TestPublishedDistancesOff(t *testing.T) {
	const bowditch = "The American Practical Navigator (Bowditch), Pub. No. 9"
	// Its example with the table of distance by two bearings: course 050°, 15 knots, bearing 024° at
	// 1130 and 359° at 1140: 2.6 miles at the second bearing, 2.0 abeam.
	for abeam, want := range map[bool]float64{false: 2.6, true: 2.0} {
		answers(t, bowditch, angle.Must(slip.NewTwoBearings(26*deg, 51*deg, milesOf(2.5), abeam)), []float64{want}, 0.05)
	}
	// Lectures in Navigation (E. G. Draper, 1918): two and four points, a run of 9 miles, 9 miles off.
	answers(t, "Draper", angle.Must(slip.NewTwoBearings(degrees(22.5), degrees(45), milesOf(9), false)), []float64{9}, 0.001)
	// The rules of seven tenths and seven eighths: the distance abeam for a run of 1 mile.
	answers(t, "seven tenths", angle.Must(slip.NewTwoBearings(degrees(22.5), degrees(45), milesOf(1), true)), []float64{0.7}, 0.01)
	answers(t, "seven eighths", angle.Must(slip.NewTwoBearings(degrees(30), degrees(60), milesOf(1), true)), []float64{0.875}, 0.01)
	// The table of the distance of the horizon, for heights in feet: 100 ft 11.7 M, 40 ft 7.4 M.
	answers(t, bowditch, angle.Must(slip.NewDippingLight(metresOf(100*foot), metresOf(40*foot))), []float64{11.7 + 7.4}, 0.1)
	// A navigation e-course: miles = 1.855 × metres ÷ minutes of arc (a rule).
	answers(t, "rule", angle.Must(slip.NewVerticalAngle(metresOf(40), degrees(0.5), 0, metresOf(10))), []float64{1.855 * 40 / 30}, 0.01)
	answers(t, "rule", angle.Must(slip.NewDangerAngle(metresOf(40), milesOf(1.855*40/30))), []float64{0.5}, 0.001)
	// The Sewerage of Sea Coast Towns (Adams, 1911): the angle at the centre is twice the angle
	// observed. Marks a mile apart under 30° are on a circle of a mile (an application of the rule).
	answers(t, "Adams", angle.Must(slip.NewAngleCircle(marked("A", 0, 0), marked("B", 0, 1/60.0), 30*deg)), []float64{1}, 0.01)
}
