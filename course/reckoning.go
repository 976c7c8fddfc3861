package course

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// An Estimate is an estimated position: where the vessel is reckoned to be, when,
// and how well that is known. The zero Covariance does not state that; see
// [sailing.Exactly].
type Estimate struct {
	Position   angle.Position     `json:"position"`
	Time       time.Time          `json:"time"`
	Covariance sailing.Covariance `json:"covariance"` // how well the position is known; zero is not stated
}

// A ReckonedRun is a time on one heading, as it is logged: the course and speed
// through the water, the stream and the leeway, and how well each is known, as a
// standard uncertainty. Uncertainties left out are not stated, and then neither is that
// of the estimate that the run leads to; one of nought claims that the figure is exact.
type ReckonedRun struct {
	Heading angle.True    `json:"heading"`
	Speed   sailing.Speed `json:"speed"`  // through the water
	Lasts   time.Duration `json:"lasts"`  // not below nought
	Stream  Stream        `json:"stream"` // zero is slack water
	Leeway  Leeway        `json:"leeway"` // zero is none

	HeadingUncertainty angle.Uncertainty                  `json:"headingUncertainty,omitzero"` // of compass, helmsman and leeway together
	SpeedUncertainty   sailing.Uncertainty[sailing.Speed] `json:"speedUncertainty,omitzero"`   // of the log
	StreamUncertainty  sailing.Uncertainty[sailing.Speed] `json:"streamUncertainty,omitzero"`  // in each direction
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
// with an [*angle.RangeError], leeways that are none with a [*LeewayError], and runs
// over a pole with a [*sailing.PoleError].
func (e Estimate) Run(r ReckonedRun) (Estimate, error) {
	if r.Lasts < 0 {
		return Estimate{}, &angle.RangeError{What: "time of a run, in hours,", Value: r.Lasts.Hours(), Accepted: "0 or more"}
	}
	grown, err := r.errors()
	if err != nil {
		return Estimate{}, err
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
	return Estimate{place, e.Time.Add(r.Lasts), e.Covariance.Plus(grown)}, nil
}

// errors is how well what the run adds to the position is known: along the way by the
// log, across it by the compass, and all round by the stream.
func (r ReckonedRun) errors() (sailing.Covariance, error) {
	speed, s1 := r.SpeedUncertainty.Sigma()
	stream, s2 := r.StreamUncertainty.Sigma()
	heading, s3 := r.HeadingUncertainty.Sigma()
	if err := checkSpeed("uncertainty of the speed", speed); err != nil {
		return sailing.Covariance{}, err
	}
	if err := checkSpeed("uncertainty of the stream", stream); err != nil {
		return sailing.Covariance{}, err
	}
	if heading > 90*angle.Degree {
		return sailing.Covariance{}, &angle.RangeError{What: "uncertainty of the heading", Value: heading.Degrees(), Accepted: "degrees from 0 to 90"}
	}
	if !s1 || !s2 || !s3 {
		return sailing.Covariance{}, nil
	}
	across := r.Speed.For(r.Lasts) * sailing.Distance(heading.Radians())
	return sailing.Oriented(r.Water().Course, speed.For(r.Lasts), across).Plus(sailing.Circular(stream.For(r.Lasts))), nil
}

// Working returns the steps of a run that begins at an estimate. Its errors are those of
// [Estimate.Run].
func (r ReckonedRun) Working(from Estimate) (working.Sheet, error) {
	steps, err := r.steps(from)
	if err != nil {
		return working.Sheet{}, err
	}
	return working.Sheet{Steps: steps, Caution: working.Caution}, nil
}

func (r ReckonedRun) steps(from Estimate) (working.Steps, error) {
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
		made.sought = soughtLeeway
		steps = append(steps, working.Step{Key: "leeway", What: "Leeway", Value: r.Leeway.String(), Number: r.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive", How: "away from the wind"})
	}
	steps = append(steps, made.steps()...)
	steps = append(steps, working.Step{Key: "run", What: "Run", Value: made.Ground.Speed.For(r.Lasts).String(), Number: made.Ground.Speed.For(r.Lasts).NauticalMiles(), Unit: "nautical miles", How: "over the ground in " + clock(r.Lasts)},
		working.Step{Key: "to", What: "Estimated position", Value: to.Position.String(), How: "at " + to.Time.UTC().Round(time.Minute).Format("15:04 UTC")})
	if !to.Covariance.Stated() {
		return append(steps, working.Step{Key: "ellipse", What: "Known to", Value: "not stated", How: "want the uncertainties of the run and of the position it begins at"}), nil
	}
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
