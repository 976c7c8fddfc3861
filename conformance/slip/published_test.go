package slip_test

import (
	"math"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// sources returns a variation and a deviation in degrees, east positive.
func sources(v, d float64) course.With {
	return course.With{Variation: variation.East(degrees(v)), Deviation: deviation.East(degrees(d)), On: time.Date(2015, time.December, 1, 0, 0, 0, 0, time.UTC)}
}

// marked is a mark at a place in degrees.
func marked(name string, lat, lon float64) fix.Mark {
	return fix.Mark{Name: name, Position: angle.Must(angle.PositionDegrees(lat, lon))}
}

// sighted is a mark with its compass bearing in degrees.
func sighted(m fix.Mark, compass float64) slip.Sighting {
	return slip.Sighting{Mark: m, Bearing: angle.CompassFrom(degrees(compass))}
}

// answers checks an answer of one figure, or of two, to within a tolerance.
func answers(t *testing.T, source string, p slip.Problem, want []float64, within ...float64) {
	t.Helper()
	first, second := p.Pair(p.Answer())
	got := []float64{first, second}
	for i, w := range want {
		off := math.Abs(got[i] - w)
		if p.Form == slip.Direction || p.Form == slip.CourseAndDistance && i == 0 || p.Form == slip.CourseAndSpeed && i == 0 {
			off = math.Abs(math.Remainder(got[i]-w, 360))
		}
		if !(off <= within[i]) {
			t.Errorf("%s: %s\nanswer %s, want %v", source, p.Question, p.Print(p.Answer()), want)
		}
	}
}

// Fixes that were worked in print. The tolerances are those of plotting, as the sources or the reader
// of them gave them.
func TestPublishedFixes(t *testing.T) {
	// Official navigation exercises for the sport boat licence (sea), chart D49, exercise 15
	// (German federal waterways administration, catalogue of 2012): compass bearings 175° and
	// 085°, deviation +5°, variation 0°; 53°54.9′N 008°07.6′E. The positions of the lights are not
	// printed there; these are from the list of lights, from memory.
	weser, neuwerk := marked("Alte Weser", 53.86333, 8.1275), marked("Neuwerk", 53.9155, 8.496167)
	answers(t, "exercise 15", angle.Must(slip.NewFix([]slip.Sighting{sighted(weser, 175), sighted(neuwerk, 85)}, angle.Compass{}, sources(0, 5))),
		[]float64{53.915, 8.126667}, 0.2/60, 0.2/60)
	// Exercise 9, turned round: the position 53°56.0′N 008°11.0′E by the bearing 205° and the
	// distance 4.6 M of Alte Weser.
	answers(t, "exercise 9", angle.Must(slip.NewFixByRange(sighted(weser, 205), 4.6*sailing.NauticalMile, angle.Compass{}, sources(0, 0))),
		[]float64{53.93333, 8.183333}, 0.1/60, 0.1/60)
	// Yacht master (Patrón de Yate), navigation module, official examination of December 2015,
	// Principality of Asturias, question 3: compass course 240°, error 6°W, leeway 5° with a wind
	// from north, 7 knots, an hour between the relative bearings of two lights, 060° and 100°;
	// 36°00.4′N 005°23.0′W. The positions of the lights are from memory, the key was recomputed.
	europa, carnero := marked("Punta Europa", 36.11167, -5.34333), marked("Punta Carnero", 36.07833, -5.425)
	run := stream.ReckonedRun{Speed: 7 * sailing.Knot, Lasts: time.Hour, Leeway: stream.Leeway{Angle: 5 * deg, WindSide: angle.Starboard}}
	answers(t, "question 3", angle.Must(slip.NewRunningFix(sighted(europa, 300), sighted(carnero, 340), run, angle.MustParseCompass("240"), sources(-6, 0))),
		[]float64{36.00667, -5.38333}, 0.7/60, 0.7/60)
}

// leg is a run on a true course, in degrees, knots and minutes.
func leg(course, speed, minutes float64) stream.ReckonedRun {
	return stream.ReckonedRun{Heading: trueOf(course), Speed: knotsOf(speed), Lasts: time.Duration(minutes * float64(time.Minute))}
}

// Sailings, reckonings and times that were worked in print.
func TestPublishedSailings(t *testing.T) {
	const guard, bowditch = "US Coast Guard deck-licence examination, question bank", "The American Practical Navigator (Bowditch), Pub. No. 9"
	// Questions 308 and 312. The bank divides the d.lat of 312 by the cosine of the rounded course.
	answers(t, guard, angle.Must(slip.NewSailing(sailing.MidLatitudeSailing, at(20, -107.5), at(24.66667, -112.5))), []float64{315.3, 394.0}, 0.05, 0.3)
	answers(t, guard, angle.Must(slip.NewSailing(sailing.MidLatitudeSailing, at(7.083333, -81.75), at(8.666667, -88))), []float64{284.3, 384.6}, 0.05, 1.2)
	// Questions 398 and 417, by the bank's table of meridional parts. Its distance of 398 is 1.6 miles
	// more than the same course gives by any figure of the earth.
	answers(t, guard, angle.Must(slip.NewSailing(sailing.MercatorSailing, at(32.276667, -68.466667), at(43.203333, -55.65))), []float64{42.8, 896.2}, 0.1, 1.7)
	answers(t, guard, angle.Must(slip.NewSailing(sailing.MercatorSailing, at(21.533333, -160.5), at(30, 150))), []float64{281, 2733}, 0.5, 3)
	// Chapter 24 of 1995 and 2002, middle-latitude sailing, example 2 (from memory).
	answers(t, bowditch, angle.Must(slip.NewSailing(sailing.MidLatitudeSailing, at(-8.815, -89.888333), at(-17.115, -104.86))), []float64{240.4, 1007.1}, 0.05, 0.6)
	// Question 528: 1543 miles west on the parallel of 38°12.0′S, from 12°06.0′W to 44°49.0′W.
	answers(t, guard, angle.Must(slip.NewSailing(sailing.ParallelSailing, at(-38.2, -12.1), at(-38.2, -44.816667))), []float64{1543}, 0.5)
	// Question 472, across the 180th meridian.
	answers(t, guard, angle.Must(slip.NewGreatCircle(at(38.283333, -123.266667), at(35.016667, 142.35))), []float64{300.9}, 0.1)
	// Traverse sailing: five legs, course made good 192.3°, 67.2 miles.
	answers(t, bowditch, angle.Must(slip.NewCourseMadeGood(leg(158, 15.5, 60), leg(135, 33.7, 60), leg(259, 16.1, 60), leg(293, 39.0, 60), leg(169, 40.4, 60))), []float64{192.3, 67.2}, 0.1, 0.1)
	// The course to steer 083.5° that makes good 095° and 12.4 knots, turned round.
	answers(t, bowditch, angle.Must(slip.NewMadeGood(stream.ReckonedRun{Heading: trueOf(83.5), Speed: knotsOf(12), Stream: stream.Stream{Set: trueOf(170), Rate: knotsOf(2.5)}})), []float64{95, 12.4}, 0.5, 0.1)
	// Lectures in Navigation (E. G. Draper, 1918): SSW 50 miles from 40°30′N 70°25′W, with the
	// course taken as 202° and the middle latitude as 40°: 39°43.6′N 70°49′W.
	answers(t, "Draper", angle.Must(slip.NewReckoning(at(40.5, -70.416667), leg(202, 50, 60))), []float64{39.726667, -70.816667}, 0.1/60, 0.5/60)
	// Official navigation exercises for the sport boat licence (sea), German federal waterways
	// administration, catalogue of 2012. Exercise 4: 6 miles on 081° from 53°47.2′N 007°29.1′E.
	answers(t, "exercise 4", angle.Must(slip.NewReckoning(at(53.786667, 7.485), leg(81, 6, 60))), []float64{53.803333, 7.653333}, 0.15/60, 0.15/60)
	// Exercises 1 and 2: 6.1 miles at 8 knots in 46 minutes, 11.1 miles at 10 knots in 67.
	answers(t, "exercise 1", angle.Must(slip.NewArrival(0, milesOf(6.1), knotsOf(8))), []float64{45.75}, 0.01)
	answers(t, "exercise 2", angle.Must(slip.NewArrival(0, milesOf(11.1), knotsOf(10))), []float64{66.6}, 0.01)
}

// Set and rate of the stream from a dead reckoning position and a fix: yacht master (Patrón de Yate),
// navigation module, official examination of December 2015, Principality of Asturias, question 2.
// From 36°01.4′N 005°17.0′W on 253°C (error 3°W) for 90 minutes at 8.33 knots; then Punta Cires bears
// 183°C and Punta Leona 109° on the port side. The answer is 035°, 2.5 knots, plotted. The positions
// of the marks are from memory (to 0.3′), and the key was recomputed.
func TestPublishedSetAndDrift(t *testing.T) {
	reckoned := angle.Must(slip.NewReckoning(at(36.023333, -5.283333), leg(250, 8.33, 90)))
	cires, leona := marked("Punta Cires", 35.90833, -5.48), marked("Punta Leona", 35.92, -5.39667)
	fixed := angle.Must(slip.NewFix([]slip.Sighting{sighted(cires, 183), sighted(leona, 253-109)}, angle.MustParseCompass("253"), sources(-3, 0)))
	a, b := reckoned.Pair(reckoned.Answer())
	c, d := fixed.Pair(fixed.Answer())
	answers(t, "question 2", angle.Must(slip.NewSetAndDrift(at(a, b), at(c, d), 90*time.Minute)), []float64{35, 2.5}, 8, 0.4)
}
