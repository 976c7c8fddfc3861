package lubberline

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// positions are the operations that find a position from position lines, and those that keep
// clear of a danger.
var positions = map[string]conformance.Operation{
	"fix.bearings": conformance.On(func(g struct{ Bearings []bearingGiven }) (conformance.Answer, error) {
		var lines []fix.Line
		for _, b := range g.Bearings {
			l, err := b.line()
			if err != nil {
				return nil, err
			}
			lines = append(lines, l)
		}
		return solve(lines, nil)
	}),
	"fix.running": conformance.On(func(g struct {
		First, Second                bearingGiven
		CourseDegrees, DistanceMiles float64
	}) (conformance.Answer, error) {
		first, err := g.First.line()
		if err != nil {
			return nil, err
		}
		second, err := g.Second.line()
		if err != nil {
			return nil, err
		}
		run, err := runGiven{g.CourseDegrees, g.DistanceMiles}.run()
		if err != nil {
			return nil, err
		}
		return solve([]fix.Line{first.Transferred(run, sailing.Covariance{}), second}, nil)
	}),
	"fix.sextantAngles": conformance.On(func(g struct {
		Left, Middle, Right, Near           positionGiven
		LeftAngleDegrees, RightAngleDegrees float64
	}) (conformance.Answer, error) {
		left, middle, err := both(g.Left, g.Middle)
		if err != nil {
			return nil, err
		}
		right, near, err := both(g.Right, g.Near)
		if err != nil {
			return nil, err
		}
		first, err := horizontal(left, middle, g.LeftAngleDegrees)
		if err != nil {
			return nil, err
		}
		second, err := horizontal(middle, right, g.RightAngleDegrees)
		if err != nil {
			return nil, err
		}
		return solve([]fix.Line{first, second}, &near)
	}),
	"fix.clearingBearing": conformance.On(func(g struct {
		Mark, Danger positionGiven
		MarginMiles  float64
		LeaveTo      string
	}) (conformance.Answer, error) {
		mark, danger, err := both(g.Mark, g.Danger)
		if err != nil {
			return nil, err
		}
		c, err := fix.ClearingBearing(fix.Mark{Position: mark}, danger, miles(g.MarginMiles), sides[g.LeaveTo])
		return conformance.Answer{"limitDegrees": c.Limit.Degrees(), "safe": boundOf(c.Bound)}, err
	}),
	"fix.verticalDangerAngle": conformance.On(func(g struct {
		HeightMetres, DistanceMiles float64
		Pass                        string
	}) (conformance.Answer, error) {
		pass, err := passOf(g.Pass)
		if err != nil {
			return nil, err
		}
		d, err := fix.VerticalDangerAngle(sailing.Distance(g.HeightMetres), miles(g.DistanceMiles), pass)
		return conformance.Answer{"limitMinutes": d.Limit.Minutes(), "safe": boundOf(d.Bound)}, err
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
		danger, _, err := both(g.Danger, g.Danger)
		if err != nil {
			return nil, err
		}
		pass, err := passOf(g.Pass)
		if err != nil {
			return nil, err
		}
		d, err := fix.HorizontalDangerAngle(fix.Mark{Position: left}, fix.Mark{Position: right}, danger, miles(g.MarginMiles), pass)
		return conformance.Answer{"limitDegrees": d.Limit.Degrees(), "safe": boundOf(d.Bound)}, err
	}),
	"fix.verticalAngleBeyond": conformance.On(func(g struct{ HeightFeet, HeightOfEyeFeet, AngleMinutes float64 }) (conformance.Answer, error) {
		a, err := angle.Minutes(g.AngleMinutes)
		if err != nil {
			return nil, err
		}
		d, err := fix.DistanceByVerticalAngleBeyond(sailing.Distance(g.HeightFeet*0.3048), a, sailing.Distance(g.HeightOfEyeFeet*0.3048), fix.HorizonTable)
		return conformance.Answer{"distanceMiles": d.NauticalMiles()}, err
	}),
}

type bearingGiven struct{ LatitudeDegrees, LongitudeDegrees, BearingDegrees float64 }

// line is the position line of a true bearing.
func (b bearingGiven) line() (fix.Line, error) {
	p, err := angle.PositionDegrees(b.LatitudeDegrees, b.LongitudeDegrees)
	if err != nil {
		return fix.Line{}, err
	}
	d, err := angle.TrueDegrees(b.BearingDegrees)
	return fix.Bearing(fix.Mark{Position: p}, d, angle.Uncertainty{}), err
}

func horizontal(left, right angle.Position, degrees float64) (fix.Line, error) {
	a, err := angle.Degrees(degrees)
	if err != nil {
		return fix.Line{}, err
	}
	return fix.HorizontalAngle(fix.Mark{Position: left}, fix.Mark{Position: right}, a, angle.Uncertainty{})
}

// solve finds where the lines meet. Lines that do not meet are refused.
func solve(lines []fix.Line, near *angle.Position) (conformance.Answer, error) {
	f, err := fix.Solve(lines, fix.Options{Near: near})
	if e, ok := errors.AsType[*fix.SolveError](err); ok {
		return nil, &conformance.Refusal{Kind: "no-fix", Message: e.Error()}
	}
	if err != nil {
		return nil, err
	}
	return answerOf(f.Position()), nil
}

func passOf(name string) (fix.Pass, error) {
	switch name {
	case "outside":
		return fix.Outside, nil
	case "inside":
		return fix.Inside, nil
	}
	return fix.Outside, fmt.Errorf("pass %q", name)
}

// boundOf names the safe side of a limit.
func boundOf(b fix.Bound) string {
	if b == fix.NotLess {
		return "not-less"
	}
	return "not-more"
}
