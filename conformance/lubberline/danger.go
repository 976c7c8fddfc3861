package lubberline

import (
	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
)

// dangers are the operations that keep clear of a danger.
var dangers = map[string]conformance.Operation{
	"fix.clearingBearing": conformance.On(func(g struct {
		Mark, Danger positionGiven
		MarginMiles  float64
		LeaveTo      string
	}) (conformance.Answer, error) {
		mark, shoal, err := both(g.Mark, g.Danger)
		if err != nil {
			return nil, err
		}
		c, err := danger.NewClearingBearing(fix.Mark{Position: mark}, shoal, miles(g.MarginMiles), angle.Side(g.LeaveTo))
		return conformance.Answer{"limitDegrees": c.Limit.Degrees(), "safe": string(c.Bound)}, err
	}),
	"fix.verticalDangerAngle": conformance.On(func(g struct {
		HeightMetres, DistanceMiles float64
		Pass                        string
	}) (conformance.Answer, error) {
		d, err := danger.VerticalAngle(sailing.Distance(g.HeightMetres), miles(g.DistanceMiles), danger.Pass(g.Pass))
		return conformance.Answer{"limitMinutes": d.Limit.Minutes(), "safe": string(d.Bound)}, err
	}),
	"fix.horizontalDangerAngle": conformance.On(func(g struct {
		Left, Right, Danger positionGiven
		MarginMiles         float64
		Pass                string
	}) (conformance.Answer, error) {
		left, right, err := both(g.Left, g.Right)
		if err != nil {
			return nil, err
		}
		shoal, _, err := both(g.Danger, g.Danger)
		if err != nil {
			return nil, err
		}
		d, err := danger.HorizontalAngle(fix.Mark{Position: left}, fix.Mark{Position: right}, shoal, miles(g.MarginMiles), danger.Pass(g.Pass))
		return conformance.Answer{"limitDegrees": d.Limit.Degrees(), "safe": string(d.Bound)}, err
	}),
}
