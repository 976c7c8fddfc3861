package course

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// An Estimate is an estimated position: where the vessel is reckoned to be, when,
// and how well that is known.
type Estimate struct {
	Position   angle.Position
	Time       time.Time
	Covariance sailing.Covariance // how well it is known; zero is exactly
}

// A ReckonedRun is a time on one heading, as it is logged: the course and speed
// through the water, the stream and the leeway, and how well each is known, as a
// standard uncertainty. An uncertainty of nought counts the figure as exact.
type ReckonedRun struct {
	Heading angle.True
	Speed   sailing.Speed // through the water
	Lasts   time.Duration // not below nought
	Stream  Stream        // zero is slack water
	Leeway  Leeway        // zero is none

	HeadingUncertainty angle.Angle   // of compass, helmsman and leeway together
	SpeedUncertainty   sailing.Speed // of the log
	StreamUncertainty  sailing.Speed // in each direction
}

// Water returns the course and speed through the water: the heading and the
// leeway.
func (r ReckonedRun) Water() Motion {
	return Motion{r.Heading.Add(r.Leeway.Deflection()), r.Speed}
}

// Run returns the estimate at the end of a run. What the figures of one run err by
// is taken to be the same throughout it, so that its region grows with the time,
// and to have nothing to do with other runs: where a log or a compass errs alike in
// all, reckon them as one. Negative times, speeds and uncertainties are refused
// with a [*angle.RangeError], leeways that are none with a [*LeewayError], and runs
// over a pole with a [*sailing.PoleError].
func (e Estimate) Run(r ReckonedRun) (Estimate, error) {
	if r.Lasts < 0 {
		return Estimate{}, &angle.RangeError{What: "time of a run, in hours,", Value: r.Lasts.Hours(), Accepted: "0 or more"}
	}
	if err := checkSpeed("uncertainty of the speed", r.SpeedUncertainty); err != nil {
		return Estimate{}, err
	}
	if err := checkSpeed("uncertainty of the stream", r.StreamUncertainty); err != nil {
		return Estimate{}, err
	}
	if r.HeadingUncertainty < 0 || r.HeadingUncertainty > 90*angle.Degree {
		return Estimate{}, &angle.RangeError{What: "uncertainty of the heading", Value: r.HeadingUncertainty.Degrees(), Accepted: "degrees from 0 to 90"}
	}
	if l := r.Leeway; l.Angle < 0 || l.Angle > MostLeeway || l.WindOn != angle.Starboard && l.WindOn != angle.Port {
		return Estimate{}, &LeewayError{Leeway: l.Angle, Reason: "want 0 to 45°, with the wind on the starboard or the port side"}
	}
	made, err := MadeGood(r.Water(), r.Stream)
	if err != nil {
		return Estimate{}, err
	}
	place, err := sailing.WGS84().Follow(e.Position, sailing.Run{Course: made.Ground.Course, Distance: made.Ground.Speed.For(r.Lasts)})
	if err != nil {
		return Estimate{}, err
	}
	along := r.SpeedUncertainty.For(r.Lasts)
	across := r.Speed.For(r.Lasts) * sailing.Distance(r.HeadingUncertainty.Radians())
	grown := e.Covariance.Plus(sailing.Oriented(r.Water().Course, along, across)).Plus(sailing.Circular(r.StreamUncertainty.For(r.Lasts)))
	return Estimate{place, e.Time.Add(r.Lasts), grown}, nil
}

// Working returns the steps of a run that begins at an estimate.
func (r ReckonedRun) Working(from Estimate) (working.Steps, error) {
	made, err := MadeGood(r.Water(), r.Stream)
	if err != nil {
		return nil, err
	}
	to, err := from.Run(r)
	if err != nil {
		return nil, err
	}
	steps := working.Steps{
		{Key: "from", What: "From", Value: from.Position.String(), How: "at " + from.Time.UTC().Round(time.Minute).Format("15:04 UTC")},
		working.Direction("heading", "Heading", r.Heading, "true"),
	}
	if r.Leeway.Angle != 0 {
		made.sought = "leeway"
		steps = append(steps, working.Step{Key: "leeway", What: "Leeway", Value: r.Leeway.String(), Number: r.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive", How: "away from the wind"})
	}
	steps = append(steps, made.Working()...)
	steps = append(steps, working.Step{Key: "run", What: "Run", Value: made.Ground.Speed.For(r.Lasts).String(), Number: made.Ground.Speed.For(r.Lasts).NauticalMiles(), Unit: "nautical miles", How: "over the ground in " + clock(r.Lasts)},
		working.Step{Key: "to", What: "Estimated position", Value: to.Position.String(), How: "at " + to.Time.UTC().Round(time.Minute).Format("15:04 UTC")})
	ellipse, err := to.Covariance.Ellipse(0.95)
	if err != nil {
		return nil, err
	}
	if ellipse.SemiMajor > 0 {
		steps = append(steps, working.Step{Key: "ellipse", What: "Known to", Value: ellipse.SemiMajor.String(), Number: ellipse.SemiMajor.NauticalMiles(), Unit: "nautical miles",
			How: "each way along " + string(ellipse.MajorAxis.AppendDegrees(nil, 0)) + " and " + ellipse.SemiMinor.String() + " across it: 95 times in 100 she is within that ellipse"})
	}
	return steps, nil
}
