package lubberline

import (
	"errors"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// positions are the operations that find a position from position lines.
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
	if e, ok := errors.AsType[*fix.Error](err); ok {
		return nil, &conformance.Error{Status: conformance.Refused, Kind: "no-fix", Reason: e.Error()}
	}
	if err != nil {
		return nil, err
	}
	return answerOf(f.Position()), nil
}
