package slip_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation/sky"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// Figures that make no problem are refused, or make a problem whose answer, slips and diagnosis do
// not crash.
func TestHostileFigures(t *testing.T) {
	pole := at(90, 0)
	mark := fix.Mark{Name: "a light", Position: at(47, -19)}
	sighting := slip.Sighting{Mark: mark, Bearing: angle.MustParseCompass("045")}
	known := sources(-5, 2)
	nan, inf := sailing.Distance(math.NaN()), sailing.Distance(math.Inf(1))
	fast := sailing.Speed(math.Inf(1))
	run := func(speed sailing.Speed, lasts time.Duration) stream.ReckonedRun {
		return stream.ReckonedRun{Speed: speed, Lasts: lasts}
	}
	refused := map[string]func() (slip.Problem, error){
		"fix without marks": func() (slip.Problem, error) { return slip.NewFix(nil, angle.Compass{}, known) },
		"fix by one mark":   func() (slip.Problem, error) { return slip.NewFix([]slip.Sighting{sighting}, angle.Compass{}, known) },
		"fix by one mark twice": func() (slip.Problem, error) {
			return slip.NewFix([]slip.Sighting{sighting, sighting}, angle.Compass{}, known)
		},
		"fix without sources": func() (slip.Problem, error) {
			return slip.NewFix([]slip.Sighting{sighting, sighting}, angle.Compass{}, course.With{})
		},
		"no distance":         func() (slip.Problem, error) { return slip.NewFixByRange(sighting, nan, angle.Compass{}, known) },
		"distance below zero": func() (slip.Problem, error) { return slip.NewFixByRange(sighting, -5, angle.Compass{}, known) },
		"mark at the pole": func() (slip.Problem, error) {
			return slip.NewFixByRange(slip.Sighting{Mark: fix.Mark{Position: pole}}, 5000, angle.Compass{}, known)
		},
		"infinite speed": func() (slip.Problem, error) {
			return slip.NewRunningFix(sighting, sighting, run(fast, time.Hour), angle.Compass{}, known)
		},
		"no run": func() (slip.Problem, error) {
			return slip.NewRunningFix(sighting, sighting, run(0, 0), angle.Compass{}, known)
		},
		"reckoning at the pole": func() (slip.Problem, error) { return slip.NewReckoning(pole, run(5, time.Hour)) },
		"reckoning of no speed": func() (slip.Problem, error) {
			return slip.NewReckoning(at(47, 0), run(sailing.Speed(math.NaN()), time.Hour))
		},
		"leeway of 400°": func() (slip.Problem, error) {
			return slip.NewMadeGood(stream.ReckonedRun{Speed: 5, Leeway: stream.Leeway{Angle: 400 * angle.Degree, WindSide: angle.Port}})
		},
		"leeway without a side": func() (slip.Problem, error) {
			return slip.NewReckoning(at(47, 0), stream.ReckonedRun{Speed: 5, Lasts: time.Hour, Leeway: stream.Leeway{Angle: angle.Degree}})
		},
		"leeway below zero": func() (slip.Problem, error) {
			return slip.NewCourseMadeGood(stream.ReckonedRun{Speed: 5, Lasts: time.Hour, Leeway: stream.Leeway{Angle: -angle.Degree, WindSide: angle.Port}})
		},
		"leeway of a running fix": func() (slip.Problem, error) {
			return slip.NewRunningFix(sighting, slip.Sighting{Mark: mark, Bearing: angle.MustParseCompass("090")}, stream.ReckonedRun{Speed: 5, Lasts: time.Hour, Leeway: stream.Leeway{Angle: angle.Degree}}, angle.Compass{}, known)
		},
		"no legs":                  func() (slip.Problem, error) { return slip.NewCourseMadeGood() },
		"made good at infinite":    func() (slip.Problem, error) { return slip.NewMadeGood(run(fast, 0)) },
		"no time since the fix":    func() (slip.Problem, error) { return slip.NewSetAndDrift(at(47, 0), at(47, 1), 0) },
		"no such sailing":          func() (slip.Problem, error) { return slip.NewSailing("composite", at(47, 0), at(47, 1)) },
		"not one parallel":         func() (slip.Problem, error) { return slip.NewSailing(sailing.ParallelSailing, at(47, 0), at(48, 1)) },
		"one parallel by Mercator": func() (slip.Problem, error) { return slip.NewSailing(sailing.MercatorSailing, at(47, 0), at(47, 1)) },
		"sailing to the pole":      func() (slip.Problem, error) { return slip.NewSailing(sailing.MercatorSailing, at(47, 0), pole) },
		"great circle to nowhere":  func() (slip.Problem, error) { return slip.NewGreatCircle(at(47, 0), at(47, 0)) },
		"arrival without speed":    func() (slip.Problem, error) { return slip.NewArrival(0, 1000, 0) },
		"departure on another day": func() (slip.Problem, error) { return slip.NewArrival(24*time.Hour, 1000, 1) },
		"transit without variation": func() (slip.Problem, error) {
			return slip.NewDeviation("it", angle.True{}, angle.Compass{}, angle.Compass{}, course.With{})
		},
		"the Sun in year 1": func() (slip.Problem, error) {
			return slip.NewDeviationBySun(pole, angle.Compass{}, angle.Compass{}, course.With{Variation: variation.East(0)})
		},
		"no rising at the pole": func() (slip.Problem, error) {
			return slip.NewDeviationByAmplitude(sky.Rise, pole, angle.Compass{}, angle.Compass{}, known)
		},
		"no such event": func() (slip.Problem, error) {
			return slip.NewDeviationByAmplitude("noon", at(47, 0), angle.Compass{}, angle.Compass{}, known)
		},
		"no card":             func() (slip.Problem, error) { return slip.NewCardReading(nil, angle.Magnetic{}) },
		"no swing":            func() (slip.Problem, error) { return slip.NewSwingHeading(nil, "N") },
		"no such coefficient": func() (slip.Problem, error) { return slip.NewCoefficient("F", nil) },
		"no deviations":       func() (slip.Problem, error) { return slip.NewCoefficient("A", nil) },
		"rose without change": func() (slip.Problem, error) {
			return slip.NewRoseAgainstModel(variation.Rose{}, 2026, variation.East(0))
		},
		"angles exchanged":        func() (slip.Problem, error) { return slip.NewTwoBearings(60*deg, 30*deg, 1000, true) },
		"no run between bearings": func() (slip.Problem, error) { return slip.NewTwoBearings(30*deg, 60*deg, nan, true) },
		"no vertical angle":       func() (slip.Problem, error) { return slip.NewVerticalAngle(40, 0, 0, 3) },
		"infinite height":         func() (slip.Problem, error) { return slip.NewVerticalAngle(inf, deg, 0, 3) },
		"light of no height":      func() (slip.Problem, error) { return slip.NewDippingLight(nan, 3) },
		"marks at one place":      func() (slip.Problem, error) { return slip.NewAngleCircle(mark, mark, 30*deg) },
		"no danger angle":         func() (slip.Problem, error) { return slip.NewDangerAngle(0, 1000) },
		"rock within the margin": func() (slip.Problem, error) {
			return slip.NewClearingBearing(mark, mark.Position, 500, angle.Port, angle.Compass{}, known)
		},
		"no side": func() (slip.Problem, error) {
			return slip.NewClearingBearing(mark, at(47.1, -19), 500, "", angle.Compass{}, known)
		},
		"empty tidal table": func() (slip.Problem, error) {
			return slip.NewTidalRate(tidal.Table{}, "A", time.Time{}, 4, 1, time.Time{})
		},
		"leeway on no side": func() (slip.Problem, error) {
			return slip.NewToSteerInWind(angle.True{}, stream.Leeway{Angle: deg}, known)
		},
		"steering without a heading": func() (slip.Problem, error) {
			return slip.NewToSteerInWind(angle.True{}, stream.Leeway{}, course.With{})
		},
	}
	for name, make := range refused {
		if p, err := make(); err == nil {
			t.Errorf("%s: %s: %s", name, p.Question, p.Print(p.Answer()))
		} else if len(err.Error()) > 700 || len(err.Error()) < 10 {
			t.Errorf("%s: %v", name, err)
		}
	}
	accepted := map[string]func() (slip.Problem, error){
		"stream at rest": func() (slip.Problem, error) { return slip.NewMadeGood(run(0, 0)) },
		"no drift":       func() (slip.Problem, error) { return slip.NewSetAndDrift(at(47, 0), at(47, 0), time.Hour) },
		"on the equator": func() (slip.Problem, error) {
			return slip.NewSailing(sailing.ParallelSailing, at(0, 179.9), at(0, -179.9))
		},
		"to the antipodes":   func() (slip.Problem, error) { return slip.NewGreatCircle(at(47, 0), at(-47, 180)) },
		"no time":            func() (slip.Problem, error) { return slip.NewArrival(0, 0, 1) },
		"over the date line": func() (slip.Problem, error) { return slip.NewReckoning(at(10, 179.99), run(10, time.Hour)) },
		"light at the water": func() (slip.Problem, error) { return slip.NewDippingLight(0, 0) },
		"transit by no compass": func() (slip.Problem, error) {
			return slip.NewDeviation("it", angle.True{}, angle.MustParseCompass("180"), angle.Compass{}, known)
		},
	}
	for name, make := range accepted {
		p, err := make()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, answer := range []float64{p.Answer(), 0, -1, 1e300, -1e300, math.NaN(), math.MaxFloat64, 5e-324} {
			_ = p.Diagnose(answer).String() + p.Print(answer)
			p.Pair(answer)
		}
		p.Slips()
		p.Working()
	}
}

func TestProblemsWithoutNamesOrLegs(t *testing.T) {
	for name, err := range map[string]error{
		"object":  second(slip.NewPositionLine(" ", angle.Compass{}, angle.Compass{}, offOrleskHead)),
		"against": second(slip.NewDeviation("", angle.True{}, angle.Compass{}, angle.Compass{}, offOrleskHead)),
		"legs":    second(slip.NewReckoning(angle.Position{})),
	} {
		if _, ok := errors.AsType[*slip.Error](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// second returns the error of a problem.
func second(_ slip.Problem, err error) error { return err }

func TestToleranceOutOfRangeIsTheRounding(t *testing.T) {
	p := angle.Must(slip.NewToSteer(angle.MustParseTrue("112"), offOrleskHead))
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1} {
		marked := p.MarkedBy(slip.Scheme{Course: bad, Conversion: bad})
		if marked.Diagnose(p.Answer()+20).Right || !marked.Diagnose(p.Answer()).Right {
			t.Errorf("tolerance %v", bad)
		}
	}
}
