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
