package conformance_test

import (
	"encoding/json"

	"lubberline.example/angle"
	"lubberline.example/fix"
)

// fixes are the operations of package fix.
var fixes = map[string]func(json.RawMessage) (answer, error){
	"fix.twoBearings": on(func(g struct{ FirstDegrees, SecondDegrees, RunMiles float64 }) (answer, error) {
		first, err := angle.Degrees(g.FirstDegrees)
		if err != nil {
			return nil, err
		}
		second, err := angle.Degrees(g.SecondDegrees)
		if err != nil {
			return nil, err
		}
		return twoBearings(fix.ByTwoBearings(first, second, miles(g.RunMiles)))
	}),
	"fix.twoBearingsTaken": on(func(g struct{ CourseDegrees, FirstBearingDegrees, SecondBearingDegrees, RunMiles float64 }) (answer, error) {
		var d [3]angle.True
		for i, degrees := range []float64{g.CourseDegrees, g.FirstBearingDegrees, g.SecondBearingDegrees} {
			var err error
			if d[i], err = angle.TrueDegrees(degrees); err != nil {
				return nil, err
			}
		}
		return twoBearings(fix.ByTwoBearings(fix.OnBow(d[0], d[1]), fix.OnBow(d[0], d[2]), miles(g.RunMiles)))
	}),
	"fix.horizon": on(func(g struct{ HeightFeet float64 }) (answer, error) {
		d, err := fix.Horizon(g.HeightFeet*0.3048, fix.HorizonTable)
		return answer{"horizonMiles": d.NauticalMiles()}, err
	}),
	"fix.verticalAngle": on(func(g struct{ HeightMetres, AngleMinutes float64 }) (answer, error) {
		a, err := angle.Minutes(g.AngleMinutes)
		if err != nil {
			return nil, err
		}
		d, err := fix.VerticalAngle(g.HeightMetres, a, 10)
		return answer{"distanceMiles": d.NauticalMiles()}, err
	}),
}

func init() {
	for name, f := range fixes {
		operations[name] = f
	}
}

func twoBearings(t fix.TwoBearings, err error) (answer, error) {
	return answer{
		"secondFactor": t.SecondFactor, "abeamFactor": t.AbeamFactor,
		"distanceMiles": t.Distance.NauticalMiles(), "abeamMiles": t.Abeam.NauticalMiles(),
	}, err
}
