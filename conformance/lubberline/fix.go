package lubberline

import (
	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// fixes are the operations of package fix.
var fixes = map[string]conformance.Operation{
	"fix.twoBearings": conformance.On(func(g struct{ FirstDegrees, SecondDegrees, RunMiles float64 }) (conformance.Answer, error) {
		first, err := angle.Degrees(g.FirstDegrees)
		if err != nil {
			return nil, err
		}
		second, err := angle.Degrees(g.SecondDegrees)
		if err != nil {
			return nil, err
		}
		return twoBearings(first, second, miles(g.RunMiles))
	}),
	"fix.twoBearingsTaken": conformance.On(func(g struct{ CourseDegrees, FirstBearingDegrees, SecondBearingDegrees, RunMiles float64 }) (conformance.Answer, error) {
		var d [3]angle.True
		for i, degrees := range []float64{g.CourseDegrees, g.FirstBearingDegrees, g.SecondBearingDegrees} {
			var err error
			if d[i], err = angle.TrueDegrees(degrees); err != nil {
				return nil, err
			}
		}
		return twoBearings(d[1].Sub(d[0]), d[2].Sub(d[0]), miles(g.RunMiles))
	}),
	"fix.horizon": conformance.On(func(g struct{ HeightFeet float64 }) (conformance.Answer, error) {
		d, err := fix.Horizon(sailing.Distance(g.HeightFeet*0.3048), fix.HorizonTable)
		return conformance.Answer{"horizonMiles": d.NauticalMiles()}, err
	}),
	"fix.verticalAngle": conformance.On(func(g struct{ HeightMetres, AngleMinutes float64 }) (conformance.Answer, error) {
		a, err := angle.Minutes(g.AngleMinutes)
		if err != nil {
			return nil, err
		}
		d, err := fix.DistanceByVerticalAngle(sailing.Distance(g.HeightMetres), a, 10)
		return conformance.Answer{"distanceMiles": d.NauticalMiles()}, err
	}),
}

// twoBearings answers with the distances by two angles on the bow, and with their factors of
// the run.
func twoBearings(first, second angle.Angle, run sailing.Distance) (conformance.Answer, error) {
	t, err := fix.ByTwoBearings(first, second, run)
	return conformance.Answer{
		"secondFactor": float64(t.Distance / run), "abeamFactor": float64(t.Abeam / run),
		"distanceMiles": t.Distance.NauticalMiles(), "abeamMiles": t.Abeam.NauticalMiles(),
	}, err
}
