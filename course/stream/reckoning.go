package stream

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// An Estimate is an estimated position, with its time and its covariance. If Covariance is
// zero, the uncertainty of the position is unknown; see [sailing.Exactly].
//
// An Estimate from [Estimate.Run] also keeps the errors that all runs so far share: those
// of the log, the compass and the leeway. The next run adds to them. After a fix, make a
// new Estimate with the position and the covariance of the fix.
type Estimate struct {
	Position   angle.Position     `json:"position"`
	Time       time.Time          `json:"time"`
	Covariance sailing.Covariance `json:"covariance"` // of the position; zero is unknown

	common commonErrors
}

// A ReckonedRun is a time on one heading, as logged. It holds the heading, the speed
// through the water, the stream and the leeway, with their standard uncertainties.
//
// The errors of the log, the compass and the leeway are the same in all runs of a dead
// reckoning. A log that reads high does so in every hour. They add up over the runs. The
// scatter is the part that differs from run to run, such as the helmsman's course.
// Streams are independent from run to run.
//
// A stated uncertainty of zero claims that the figure is exact. For the heading and for the
// speed, state the uncertainty, the scatter or both; if one is unset, it counts as zero.
// If both are unset, or the uncertainty of the stream is, the covariance after the run is
// unknown.
type ReckonedRun struct {
	Heading angle.True    `json:"heading"`
	Speed   sailing.Speed `json:"speed"`  // through the water
	Lasts   time.Duration `json:"lasts"`  // zero or more
	Stream  Stream        `json:"stream"` // zero is slack water
	Leeway  Leeway        `json:"leeway"` // zero is no leeway

	HeadingUncertainty angle.Uncertainty                  `json:"headingUncertainty,omitzero"` // of the compass, the same in every run
	SpeedUncertainty   sailing.Uncertainty[sailing.Speed] `json:"speedUncertainty,omitzero"`   // of the log, the same in every run
	StreamUncertainty  sailing.Uncertainty[sailing.Speed] `json:"streamUncertainty,omitzero"`  // in each direction, of this run alone

	// LeewayUncertainty is that of the leeway. The error is the same in every run, to
	// leeward in all or to windward in all. If unset, HeadingUncertainty or HeadingScatter
	// includes it.
	LeewayUncertainty angle.Uncertainty `json:"leewayUncertainty,omitzero"`

	HeadingScatter angle.Uncertainty                  `json:"headingScatter,omitzero"` // of the course steered, of this run alone
	SpeedScatter   sailing.Uncertainty[sailing.Speed] `json:"speedScatter,omitzero"`   // of the speed, of this run alone
}

// Water returns the speed and the course through the water. The course is the heading with
// the leeway applied.
func (r ReckonedRun) Water() Motion {
	return Motion{r.Heading.Add(r.Leeway.Deflection()), r.Speed}
}

// Run returns the estimated position at the end of a run, by dead reckoning with leeway and
// stream. It takes each error to be constant during the run. The errors of the log, the
// compass and the leeway are the same in all runs; see [ReckonedRun].
//
// For a negative time, speed or uncertainty it returns an [*angle.RangeError]. For an
// invalid leeway it returns an [*Error], and for a run over a pole a
// [*sailing.Error].
func (e Estimate) Run(r ReckonedRun) (Estimate, error) {
	if r.Lasts < 0 {
		return Estimate{}, &angle.RangeError{What: "time of a run, in hours,", Value: r.Lasts.Hours(), Accepted: "0 or more"}
	}
	alone, common, err := r.errors()
	if err != nil {
		return Estimate{}, err
	}
	if !r.Leeway.valid() {
		return Estimate{}, &Error{Kind: InvalidLeeway, Reason: fmt.Sprintf("leeway %v: write 0 to 45°, with the wind on the starboard or the port side", r.Leeway.Angle)}
	}
	made, err := MadeGood(r.Water(), r.Stream)
	if err != nil {
		return Estimate{}, err
	}
	place, err := sailing.WGS84().Follow(e.Position, sailing.Run{Course: made.Ground.Course, Distance: made.Ground.Speed.For(r.Lasts)})
	if err != nil {
		return Estimate{}, err
	}
	to := Estimate{Position: place, Time: e.Time.Add(r.Lasts)}
	errors := e.commonSoFar().plus(alone, common)
	to.Covariance = errors.total()
	if errors.sums != ([3]offset{}) {
		errors.of = to.Covariance
		to.common = errors
	}
	return to, nil
}

// Working returns the steps of a run that begins at an estimate. It returns the errors of
// [Estimate.Run].
func (r ReckonedRun) Working(from Estimate) (working.Sheet, error) {
	steps, err := r.steps(from)
	if err != nil {
		return working.Sheet{}, err
	}
	return working.Sheet{Steps: steps, Caution: working.Caution}, nil
}

// steps returns the steps of the working.
func (r ReckonedRun) steps(from Estimate) (working.Steps, error) {
	made, err := MadeGood(r.Water(), r.Stream)
	if err != nil {
		return nil, err
	}
	to, err := from.Run(r)
	if err != nil {
		return nil, err
	}
	place := func(key, what string, e Estimate) working.Step {
		return working.Step{Key: key, What: what, Value: e.Position.String()}.Because("at-time", "at %s", toMinute(e.Time).Format("15:04 UTC"))
	}
	steps := working.Steps{
		place("from", "From", from),
		working.Direction("heading", "Heading", r.Heading).Because("true-direction", "true"),
	}
	if r.Leeway.Angle != 0 {
		made.sought = soughtLeeway
		leeway := working.Step{Key: "leeway", What: "Leeway", Value: r.Leeway.Angle.String(), Number: r.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive"}
		steps = append(steps, leeway.Because("wind-on-side", "wind on the %s side", r.Leeway.side()))
	}
	steps = append(steps, made.steps()...)
	distance := made.Ground.Speed.For(r.Lasts)
	run := working.Step{Key: "run", What: "Run", Value: distance.String(), Number: distance.NauticalMiles(), Unit: "nautical miles"}
	steps = append(steps, run.Because("over-the-ground-in", "over the ground in %s", between(from.Time, r.Lasts)), place("to", "Estimated position", to))
	ellipseStep := working.Step{Key: "ellipse", What: "95 % ellipse"}
	if !to.Covariance.Stated() {
		ellipseStep.Value = "not stated"
		return append(steps, ellipseStep.Because("state-run-uncertainties", "state the uncertainties of the run and of the position where it begins")), nil
	}
	ellipse, err := to.Covariance.Ellipse(0.95)
	if err != nil {
		return nil, err
	}
	if ellipse.SemiMajor > 0 {
		ellipseStep.Value, ellipseStep.Number, ellipseStep.Unit = "±"+ellipse.SemiMajor.String(), ellipse.SemiMajor.NauticalMiles(), "nautical miles"
		ellipseStep = ellipseStep.Because("ellipse-axes", "along %.0f, and ±%v across", ellipse.MajorAxis, ellipse.SemiMinor)
		if from.commonSoFar().sums != ([3]offset{}) {
			ellipseStep = ellipseStep.Because("common-errors", "the errors of log, compass and leeway are the same in every run so far")
		}
		steps = append(steps, ellipseStep)
	}
	return steps, nil
}
