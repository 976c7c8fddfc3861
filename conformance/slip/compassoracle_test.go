package slip_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// wrap returns an angle in degrees between -180 and 180.
func wrap(x float64) float64 { return math.Remainder(x, 360) }

// theSun returns the declination and the Greenwich hour angle of the Sun in degrees, by the low
// precision formula of the Astronomical Almanac (page C5 of the 2000s; from memory), good to 0.01°.
func theSun(t time.Time) (declination, hourAngle float64) {
	n := t.Sub(time.Date(2000, time.January, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
	g := (357.528 + 0.9856003*n) * radian
	longitude := (280.460 + 0.9856474*n + 1.915*math.Sin(g) + 0.020*math.Sin(2*g)) * radian
	tilt := (23.439 - 4e-7*n) * radian
	ascension := math.Atan2(math.Cos(tilt)*math.Sin(longitude), math.Cos(longitude)) / radian
	sidereal := 15 * (18.697374558 + 24.06570982441908*n)
	return math.Asin(math.Sin(tilt)*math.Sin(longitude)) / radian, math.Mod(sidereal-ascension, 360)
}

// azimuth returns the true bearing of a body, as the bearing of the place under it.
func azimuth(lat, declination, hourAngle float64) float64 {
	return greatCircle(place{lat, 0}, place{declination, -hourAngle})
}

// The oracle subtracts the compass and the variation from the true bearing.
func TestDeviationsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 1))
	checked := 0
	for range draws(40) {
		charted, v := tenth(360*r.Float64()), tenth(30*r.Float64()-15)
		compass := charted - v + 10*r.Float64() - 5
		with := sources(v, 0)
		head := angle.CompassFrom(degrees(360 * r.Float64()))
		observe := func(t float64) angle.Compass { return angle.CompassFrom(degrees(t)) }
		common := func(right float64) figures {
			of := func(t float64) [2]float64 { return one(wrap(t - compass - v)) }
			return figures{
				"": {of(right)}, slip.VariationLeftOut: {one(wrap(right - compass))}, slip.VariationWrongWay: {one(wrap(right - compass + v))},
				slip.VariationTwice: {one(wrap(right - compass - 2*v))}, slip.EastForWest: {one(-of(right)[0])}, slip.BearingMisread: {one(of(right)[0] + 10), one(of(right)[0] - 10)},
			}
		}
		checked += agree(t, angle.Must(slip.NewDeviation("the transit of two beacons", trueOf(charted), observe(compass), head, with)), common(charted), 0.001)

		from := place{60 * (2*r.Float64() - 1), 360*r.Float64() - 180}
		with.On = time.Date(2026, time.January, 1, 0, r.IntN(365*24*60), 0, 0, time.UTC)
		dec, gha := theSun(with.On)
		altitude := math.Asin(math.Sin(from.lat*radian)*math.Sin(dec*radian)+math.Cos(from.lat*radian)*math.Cos(dec*radian)*math.Cos((gha+from.lon)*radian)) / radian
		if altitude > 2 && altitude < 60 {
			z := azimuth(from.lat, dec, gha+from.lon)
			compass = z - v + 10*r.Float64() - 5
			want := common(z)
			of := func(t float64) [2]float64 { return one(wrap(t - compass - v)) }
			if math.Abs(from.lat-dec) > 20 && math.Abs(from.lat+dec) > 20 { // otherwise the slip may put the Sun near the zenith or the nadir
				want[slip.HourAngleWrongWay] = [][2]float64{of(azimuth(from.lat, dec, gha-from.lon))}
			}
			want[slip.DeclinationContrary] = [][2]float64{of(azimuth(from.lat, -dec, gha+from.lon))}
			want[slip.CountedWrongWay] = [][2]float64{of(-z)}
			checked += agree(t, angle.Must(slip.NewDeviationBySun(at(from.lat, from.lon), observe(compass), head, with)), want, 0.1)
		}
		if math.Abs(from.lat) > 50 || math.Abs(dec) < 1 {
			continue
		}
		amplitude := func(cos float64) float64 { return math.Asin(math.Sin(dec*radian)/cos) / radian }
		cos := math.Cos(from.lat * radian)
		event, bearing := sky.Rise, func(a float64) float64 { return 90 - a }
		if r.IntN(2) == 0 {
			event, bearing = sky.Set, func(a float64) float64 { return 270 + a }
		}
		compass = bearing(amplitude(cos)) - v + 10*r.Float64() - 5
		want := common(bearing(amplitude(cos)))
		of := func(t float64) [2]float64 { return one(wrap(t - compass - v)) }
		want[slip.LatitudeIgnored] = [][2]float64{of(bearing(dec))}
		want[slip.CosineWrongWay] = [][2]float64{of(bearing(amplitude(1 / cos)))}
		want[slip.DeclinationContrary] = [][2]float64{of(bearing(-amplitude(cos)))}
		want[slip.CountedWrongWay] = [][2]float64{of(360 - bearing(amplitude(cos)))}
		checked += agree(t, angle.Must(slip.NewDeviationByAmplitude(event, at(from.lat, from.lon), observe(compass), head, with)), want, 0.05)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle finds the compass heading by bisection, on a card between whose rows it draws straight
// lines.
func TestCardReadingsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 2))
	card := gentleCard()
	rows := make([]float64, 25)
	for i, e := range card.Entries() {
		rows[i] = e.Deviation.Angle().Degrees()
	}
	rows[24] = rows[0]
	on := func(compass float64) float64 {
		x := math.Mod(compass+720, 360) / 15
		i := int(x)
		return rows[i] + (x-float64(i))*(rows[i+1]-rows[i])
	}
	for range draws(60) {
		magnetic := tenth(360 * r.Float64())
		low, high := magnetic-20, magnetic+20
		for range 60 {
			if middle := (low + high) / 2; middle+on(middle) > magnetic {
				high = middle
			} else {
				low = middle
			}
		}
		p := angle.Must(slip.NewCardReading(card, angle.MagneticFrom(degrees(magnetic))))
		agree(t, p, figures{"": {one(on(low))}, slip.DeviationOnMagnetic: {one(on(magnetic))}, slip.EastForWest: {one(-on(low))}}, 0.001)
	}
}

// The oracle writes out the hand rules and the mean, heading by heading.
func TestSwingsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 3))
	names := []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}
	checked := 0
	for range draws(60) {
		var d [8]float64
		deviations, bearings := map[string]angle.Angle{}, map[string]angle.Compass{}
		object, mean := 360*r.Float64(), 0.0
		for i, name := range names {
			d[i] = tenth(16*r.Float64() - 8)
			mean += d[i] / 8
			deviations[name], bearings[name] = degrees(d[i]), angle.CompassFrom(degrees(object-d[i]))
		}
		n, ne, e, se, s, sw, w, nw := d[0], d[1], d[2], d[3], d[4], d[5], d[6], d[7]
		for letter, want := range map[string]figures{
			"A": {"": {one(mean)}, slip.NotDivided: {one(8 * mean), one(2 * mean)}, slip.EastForWest: {one(-mean)}},
			"B": {"": {one((e - w) / 2)}, slip.NotDivided: {one(e - w)}, slip.NamesIgnored: {one((e + w) / 2)}, slip.OtherCoefficient: {one((n - s) / 2)}, slip.EastForWest: {one((w - e) / 2)}},
			"C": {"": {one((n - s) / 2)}, slip.NotDivided: {one(n - s)}, slip.NamesIgnored: {one((n + s) / 2)}, slip.OtherCoefficient: {one((e - w) / 2)}},
			"D": {"": {one((ne + sw - se - nw) / 4)}, slip.NotDivided: {one(ne + sw - se - nw), one((ne + sw - se - nw) / 2)}, slip.NamesIgnored: {one((ne + sw + se + nw) / 4)}, slip.OtherCoefficient: {one((n + s - e - w) / 4)}},
			"E": {"": {one((n + s - e - w) / 4)}, slip.NotDivided: {one(n + s - e - w), one((n + s - e - w) / 2)}, slip.NamesIgnored: {one((n + s + e + w) / 4)}, slip.OtherCoefficient: {one((ne + sw - se - nw) / 4)}},
		} {
			checked += agree(t, angle.Must(slip.NewCoefficient(letter, deviations)), want, 0.001)
		}
		i := r.IntN(8)
		right := d[i] - mean
		checked += agree(t, angle.Must(slip.NewSwingHeading(bearings, names[i])), figures{
			"": {one(right)}, slip.EastForWest: {one(-right)}, slip.BearingMisread: {one(right - 10), one(right + 10)}, slip.MeanOfSome: {one(d[i] - (n+e+s+w)/4)},
			slip.OtherHeading: {one(d[(i+1)%8] - mean), one(d[(i+7)%8] - mean), one(d[(i+4)%8] - mean)},
		}, 0.001)
	}
	t.Logf("%d slips checked", checked)
}

func TestRoseAgainstModelAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 4))
	for range draws(60) {
		printed, yearly, years, model := float64(r.IntN(1200)-600), float64(r.IntN(20)-10), 3+r.IntN(12), float64(r.IntN(1200)-600)
		rose := variation.Rose{Variation: variation.East(degrees(printed / 60)), Year: 2026 - years, Change: variation.Eastward(degrees(yearly / 60))}
		now := printed + yearly*float64(years)
		sum := math.Abs(now) - math.Abs(model) // with the names left out
		if (now < 0) == (model < 0) {
			sum = now + model
		}
		agree(t, angle.Must(slip.NewRoseAgainstModel(rose, 2026, variation.East(degrees(model/60)))), figures{
			"": {one((now - model) / 60)}, slip.ChangeLeftOut: {one((printed - model) / 60)}, slip.ChangeWrongWay: {one((printed - yearly*float64(years) - model) / 60)},
			slip.EastForWest: {one((model - now) / 60)}, slip.NamesIgnored: {one(sum / 60)},
		}, 0.001)
	}
}

func TestToSteerInWindAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 5))
	for range draws(60) {
		track, leeway, v, d := float64(r.IntN(360)), float64(3+r.IntN(8)), float64(r.IntN(30)-15), float64(r.IntN(12)-6)
		sign, wind := side(r)
		p := angle.Must(slip.NewToSteerInWind(trueOf(track), stream.Leeway{Angle: degrees(leeway), WindSide: wind}, sources(v, d)))
		of := func(by, v, d float64) [][2]float64 { return [][2]float64{one(track - sign*by - v - d)} }
		agree(t, p, figures{
			"": of(leeway, v, d), slip.LeewayWrongSide: of(-leeway, v, d), slip.LeewayLeftOut: of(0, v, d), slip.VariationWrongWay: of(leeway, -v, d),
			slip.DeviationWrongWay: of(leeway, v, -d), slip.VariationLeftOut: of(leeway, 0, d), slip.DeviationLeftOut: of(leeway, v, 0),
		}, 0.001)
	}
}

// timeOf returns a minute of 2026 at which the Sun has a declination, to 0.003°.
func timeOf(t *testing.T, declination float64) time.Time {
	t.Helper()
	for hour := range 365 * 24 {
		on := time.Date(2026, time.January, 1, hour, 0, 0, 0, time.UTC)
		if d := angle.Must(sky.Sun(on)).Declination.Degrees(); math.Abs(d-declination) < 0.009 {
			for minute := range 60 {
				on := on.Add(time.Duration(minute) * time.Minute)
				if d := angle.Must(sky.Sun(on)).Declination.Degrees(); math.Abs(d-declination) < 0.003 {
					return on
				}
			}
		}
	}
	t.Fatalf("no time for declination %v", declination)
	return time.Time{}
}

// Checks of the compass and swings that were worked in print.
func TestPublishedCompassChecks(t *testing.T) {
	// Sun's True Bearing or Azimuth Tables (Burdwood; computed for intervals of four minutes), worked
	// example: latitude 49°N, hour angle 51°E, declination 7°06′S (implied), the Sun by compass
	// 140.5°, variation 21°W: true bearing 125°34′, deviation 6°04′E.
	with := sources(-21, 0)
	with.On = timeOf(t, -7.1)
	sun := angle.Must(sky.Sun(with.On))
	from := at(49, wrap(-51-sun.GreenwichHourAngle.Degrees()))
	answers(t, "Burdwood", angle.Must(slip.NewDeviationBySun(from, angle.MustParseCompass("140.5"), angle.Compass{}, with)), []float64{6.067}, 0.06)
	// Quartermaster rate training manual (NAVEDTRA): latitude 51°04.6′N, declination 19°00.4′N, the
	// setting Sun by gyro 300.0°: amplitude 31.2°, error 1.2°E. With no variation the error is what a
	// deviation would be.
	with = sources(0, 0)
	with.On = timeOf(t, 19.00667)
	answers(t, "NAVEDTRA", angle.Must(slip.NewDeviationByAmplitude(sky.Set, at(51.07667, 0), angle.MustParseCompass("300"), angle.Compass{}, with)), []float64{1.2}, 0.1)
	// US Coast Guard deck-licence examination, question bank: compass 180°, true 176°, deviation 2°E,
	// so variation 6°W; turned round.
	answers(t, "question bank", angle.Must(slip.NewDeviation("the range", trueOf(176), angle.MustParseCompass("180"), angle.Compass{}, sources(-6, 0))), []float64{2}, 0.001)
	// Handbook of Magnetic Compass Adjustment (Pub. No. 226), analysis of an eight-heading swing.
	swung := map[string]angle.Angle{}
	for i, d := range []float64{10.5, 20, 11.5, -1.2, -5.5, -8, -12.5, -6.8} {
		swung[[]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}[i]] = degrees(d)
	}
	for letter, want := range map[string]float64{"A": 1, "B": 12, "C": 8, "D": 5, "E": 1.5} {
		answers(t, "Pub. No. 226, "+letter, angle.Must(slip.NewCoefficient(letter, swung)), []float64{want}, 0.05)
	}
	// Public teaching page on deviation and interpolation (not a published manual): 0° on 180° and
	// 2°E on 225°; on 190° 0.44°, on 200° 0.88°.
	var rows []deviation.Row[angle.Magnetic]
	for heading := range angle.Angle(8) {
		rows = append(rows, deviation.Row[angle.Magnetic]{Heading: angle.MagneticFrom(45 * heading * deg)})
	}
	rows[5].Deviation = deviation.East(2 * deg)
	card := angle.Must(deviation.NewTable(rows))
	answers(t, "teaching page", angle.Must(slip.NewCardReading(card, angle.MustParseMagnetic("190"))), []float64{0.44}, 0.005)
	answers(t, "teaching page", angle.Must(slip.NewCardReading(card, angle.MustParseMagnetic("200"))), []float64{0.88}, 0.011)
}
