package lubberline

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// reckonings are the operations of dead reckoning: time, distance and speed, the estimated
// position, and the set and drift between two positions.
var reckonings = map[string]conformance.Operation{
	"sailing.distance": conformance.On(func(g struct{ SpeedKnots, Minutes float64 }) (conformance.Answer, error) {
		d := (sailing.Speed(g.SpeedKnots) * sailing.Knot).For(minutes(g.Minutes))
		return conformance.Answer{"distanceMiles": d.NauticalMiles()}, nil
	}),
	"current.estimate": conformance.On(func(g struct {
		From                               positionGiven
		CourseDegrees, SpeedKnots, Minutes float64
		SetDegrees, DriftKnots             float64
		LeewayDegrees                      float64
		WindOn                             string
	}) (conformance.Answer, error) {
		from, _, err := both(g.From, g.From)
		if err != nil {
			return nil, err
		}
		water, current, err := motions(g.CourseDegrees, g.SpeedKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		leeway, err := angle.Degrees(g.LeewayDegrees)
		if err != nil {
			return nil, err
		}
		e, err := stream.Estimate{Position: from}.Run(stream.ReckonedRun{
			Heading: water.Course, Speed: water.Speed, Lasts: minutes(g.Minutes), Stream: current,
			Leeway: stream.Leeway{Angle: leeway, WindSide: angle.Side(g.WindOn)},
		})
		return answerOf(e.Position), err
	}),
	"current.setAndDrift": conformance.On(func(g struct {
		Reckoned, Fix positionGiven
		Hours         float64
	}) (conformance.Answer, error) {
		reckoned, fixed, err := both(g.Reckoned, g.Fix)
		if err != nil {
			return nil, err
		}
		s, err := stream.SetAndDriftBetween(stream.Estimate{Position: reckoned}, stream.Estimate{Position: fixed}, minutes(60*g.Hours))
		return conformance.Answer{
			"setDegrees": s.Stream.Set.Degrees(), "driftKnots": s.Stream.Rate.Knots(),
			"distanceMiles": s.Drift.Distance.NauticalMiles(),
		}, err
	}),
}

// minutes is a time of so many minutes.
func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

// answerOf is a position as an answer.
func answerOf(p angle.Position) conformance.Answer {
	return conformance.Answer{"latitudeDegrees": p.Latitude.Degrees(), "longitudeDegrees": p.Longitude.Degrees()}
}
