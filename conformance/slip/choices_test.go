package slip_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/stream"
)

// The wrong choices that official questions print are explained, and those that a common slip gives
// are named by it first.
//
// Sources: US Navy, Quartermaster rate training manual (NAVEDTRA 14221, assignment 2, multiple choice),
// and US Coast Guard deck-licence examination question bank, gyro and leeway problems. The gyro error
// of those takes the place of the deviation, which is applied in the same way.
func TestPublishedChoicesAreExplained(t *testing.T) {
	trueCourse := func(compass, v, d float64) slip.Problem {
		return angle.Must(slip.NewTrueCourse(angle.CompassFrom(degrees(compass)), sources(v, d)))
	}
	inWind := func(track, leeway, gyro float64, side angle.Side) slip.Problem {
		return angle.Must(slip.NewToSteerInWind(trueOf(track), stream.Leeway{Angle: degrees(leeway), WindSide: side}, sources(0, gyro)))
	}
	for _, q := range []struct {
		name    string
		p       slip.Problem
		key     float64
		choices map[float64]slip.Kind // with the slip that must come first, if it is common
	}{
		{"255° magnetic, variation 5°W: true", trueCourse(255, -5, 0), 250, map[float64]slip.Kind{251: slip.RoundedOnTheWay, 259: "", 260: slip.VariationWrongWay}},
		{"170° compass, variation 15°E, deviation 5°W: true", trueCourse(170, 15, -5), 180, map[float64]slip.Kind{150: slip.VariationWrongWay, 160: "", 190: slip.DeviationWrongWay}},
		{"true 090°, variation 5°W, deviation 10°E: compass", angle.Must(slip.NewToSteer(trueOf(90), sources(-5, 10))), 85, map[float64]slip.Kind{75: slip.VariationWrongWay, 95: slip.DeviationLeftOut, 105: slip.DeviationWrongWay}},
		// The roles of variation and deviation are exchanged: the question gives the deviation.
		{"180° compass, 176° true, deviation 2°E: variation", angle.Must(slip.NewDeviation("the ship's head", trueOf(176), angle.MustParseCompass("180"), angle.Compass{}, sources(2, 0))), -6, map[float64]slip.Kind{2: "", 6: slip.EastForWest, -2: slip.VariationWrongWay}},
		{"track 057°, wind NNW, leeway 1°, gyro error 3°E", inWind(57, 1, 3, angle.Port), 53, map[float64]slip.Kind{56: slip.DeviationLeftOut, 59: slip.DeviationWrongWay, 60: ""}},
		{"track 119°, wind SSW, leeway 4°, gyro error 3°E", inWind(119, 4, 3, angle.Starboard), 120, map[float64]slip.Kind{112: slip.LeewayWrongSide, 118: "", 126: slip.DeviationWrongWay}},
		{"track 220°, wind NNW, leeway 1°, gyro error 1°E", inWind(220, 1, 1, angle.Starboard), 220, map[float64]slip.Kind{221: "", 222: slip.DeviationWrongWay, 223: ""}},
		{"track 312°, wind WSW, leeway 4°, gyro error 3°W", inWind(312, 4, -3, angle.Port), 311, map[float64]slip.Kind{305: slip.DeviationWrongWay, 315: slip.LeewayLeftOut}},
	} {
		if d := q.p.Diagnose(q.key); !d.Right {
			t.Errorf("%s: the key %v is %v", q.name, q.key, d)
		}
		for choice, want := range q.choices {
			d := q.p.Diagnose(choice)
			if d.Right || len(d.Causes) == 0 || want != "" && d.Causes[0].Slips[0] != want {
				t.Errorf("%s: %v is %v, want %s", q.name, choice, d, want)
			}
		}
	}
	// 270° compass, variation 10°E, deviation 5°E: the magnetic heading is asked, 275°.
	p := trueCourse(270, 10, 5)
	for text, want := range map[string]slip.Verdict{"275": slip.RightFigure, "265": slip.WrongFigure, "255": slip.WrongFigure, "290": slip.WrongFigure} {
		marks := angle.Must(p.Mark([]slip.Entry{{Key: "magnetic", Text: text}}))
		if marks[0].Verdict != want || want == slip.WrongFigure && text != "255" && text != "290" && len(marks[0].Diagnosis.Causes) == 0 {
			t.Errorf("magnetic %s: %v", text, marks[0])
		}
	}
}
