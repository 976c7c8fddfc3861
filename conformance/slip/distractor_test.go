package slip_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/stream"
)

// Wrong choices that official questions printed beside the right one: US Coast Guard deck-licence
// examination, question bank (1990s and 2000s, public release). The questions and their choices were
// read; the official keys were not, and the right answers are recomputed. Each wrong choice is
// explained by one slip, or by a pair. For a gyro compass its error stands for the variation.
func TestPublishedDistractors(t *testing.T) {
	windy := func(track, leeway float64, wind angle.Side, gyro float64) slip.Problem {
		return angle.Must(slip.NewToSteerInWind(trueOf(track), stream.Leeway{Angle: degrees(leeway), WindSide: wind}, sources(gyro, 0)))
	}
	trueCourse := func(compass, v, d float64) slip.Problem {
		return angle.Must(slip.NewTrueCourse(angle.CompassFrom(degrees(compass)), sources(v, d)))
	}
	for _, question := range []struct {
		asks  string
		p     slip.Problem
		right string
		wrong map[string][]slip.Kind // the first cause; empty if a pair, or one slip of several, explains it
	}{
		{"true 090°, variation 5°W, deviation 10°E: by compass", angle.Must(slip.NewToSteer(trueOf(90), sources(-5, 10))), "085", map[string][]slip.Kind{
			"075": {slip.VariationWrongWay}, "095": {slip.DeviationLeftOut}, "105": {slip.DeviationWrongWay},
		}},
		{"magnetic 255°, variation 5°W: true heading", trueCourse(255, -5, 0), "250", map[string][]slip.Kind{"260": {slip.VariationWrongWay}, "251": {slip.RoundedOnTheWay}, "259": nil}},
		{"compass 170°, variation 15°E, deviation 5°W: true heading", trueCourse(170, 15, -5), "180", map[string][]slip.Kind{
			"150": {slip.VariationWrongWay}, "160": nil, "190": {slip.DeviationWrongWay},
		}},
		// The question asks for magnetic. By the problem of the true course that is the variation left out.
		{"compass 270°, variation 10°E, deviation 5°E: magnetic heading", trueCourse(270, 10, 5), "285", map[string][]slip.Kind{
			"275": nil, "265": nil, "255": nil, "290": nil,
		}},
		// The question asks for the variation; variation and deviation are found alike.
		{"compass 180°, true 176°, deviation 2°E: variation", angle.Must(slip.NewDeviation("the range", trueOf(176), angle.MustParseCompass("180"), angle.Compass{}, sources(2, 0))), "6.0W", map[string][]slip.Kind{
			"2.0W": {slip.VariationWrongWay}, "6.0E": {slip.EastForWest}, "2.0E": nil,
		}},
		{"track 057°, leeway 1°, wind NNW, gyro error 3°E: gyro course", windy(57, 1, angle.Port, 3), "053", map[string][]slip.Kind{"056": nil, "059": {slip.VariationWrongWay}, "060": nil}},
		{"track 119°, leeway 4°, wind SSW, gyro error 3°E: gyro course", windy(119, 4, angle.Starboard, 3), "120", map[string][]slip.Kind{"112": {slip.LeewayWrongSide}, "126": {slip.VariationWrongWay}, "118": nil}},
		{"track 220°, leeway 1°, wind NNW, gyro error 1°E: gyro course", windy(220, 1, angle.Starboard, 1), "220", map[string][]slip.Kind{"221": nil, "222": {slip.VariationWrongWay}, "223": nil}},
		{"track 312°, leeway 4°, wind WSW, gyro error 3°W: gyro course", windy(312, 4, angle.Port, -3), "311", map[string][]slip.Kind{"305": {slip.VariationWrongWay}, "315": nil}},
	} {
		if x, err := question.p.Read(question.right); err != nil || !question.p.Diagnose(x).Right {
			t.Errorf("%s: %s is %v, %v", question.asks, question.right, question.p.Diagnose(x), err)
		}
		for choice, want := range question.wrong {
			x, err := question.p.Read(choice)
			if err != nil {
				t.Fatal(err)
			}
			d := question.p.Diagnose(x)
			if len(d.Causes) == 0 || d.Right || len(want) > 0 && d.Causes[0].Slips[0] != want[0] {
				t.Errorf("%s: %s is %v, want %v", question.asks, choice, d, want)
			}
		}
	}
}
