package fix

import (
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// Transferred returns the transferred position line for a running fix: the line as if observed at
// the end of a run over the ground. The covariance of the run adds to the uncertainty of the
// line. The run is a rhumb line. Several runs count as one rhumb line from the first place to the
// last.
//
// Lines transferred by the same run and covariance share its error. For a line with an invalid
// run or covariance, [Solve] returns an error. For a run by heading, speed and time, as in the
// log, use [Line.TransferredBy].
func (l Line) Transferred(run sailing.Run, covariance sailing.Covariance) Line {
	step := transferStep(run).Because("run-since-observed", "the run over the ground since the line was observed")
	return l.transferred(run, covariance, -1, step)
}

// TransferredBy returns the transferred position line for a running fix, by a run as in the
// log: heading, leeway, speed, stream and time. The uncertainties of these add to that of the
// line. If one of them is not stated, the uncertainty of the line is unknown. Errors are those
// of [lubberline.example/course/stream.Estimate.Run].
//
// Lines of one fix whose last runs are the same share the error of those runs, which moves
// all these lines alike.
func (l Line) TransferredBy(run stream.ReckonedRun) (Line, error) {
	// On the equator the course and the distance over the ground are the same as here.
	after, err := stream.Estimate{Covariance: sailing.Exactly()}.Run(run)
	if err != nil {
		return Line{}, err
	}
	made, err := stream.MadeGood(run.Water(), run.Stream)
	if err != nil {
		return Line{}, err
	}
	ground := sailing.Run{Course: made.Ground.Course, Distance: made.Ground.Speed.For(run.Lasts)}
	step := transferStep(ground).Because("run-over-ground", "over the ground in %s, heading %v at %v", inHours(run.Lasts), run.Heading, run.Speed)
	if a := run.Leeway.Angle; a != 0 && run.Leeway.WindSide == angle.Port {
		step = step.Because("run-wind-to-port", "wind on the port side, leeway %s", a)
	} else if a != 0 {
		step = step.Because("run-wind-to-starboard", "wind on the starboard side, leeway %s", a)
	}
	if run.Stream.Rate != 0 {
		step = step.Because("run-in-stream", "stream sets %v at %v", run.Stream.Set, run.Stream.Rate)
	} else {
		step = step.Because("run-without-stream", "no stream")
	}
	return l.transferred(ground, after.Covariance, run.Lasts, step), nil
}

// transferStep returns the step of a transfer without a reason.
func transferStep(run sailing.Run) working.Step {
	return working.Step{
		Key: "transferred", What: "Transferred", Value: fmt.Sprintf("%.1f, %s", run.Course, milesFor(run.Distance).of(run.Distance)),
		Number: run.Distance.NauticalMiles(), Unit: "nautical miles",
	}
}

// transferred returns the line after one run.
func (l Line) transferred(run sailing.Run, known sailing.Covariance, lasts time.Duration, step working.Step) Line {
	s, c := run.Course.FromNorth().SinCos()
	if fault := faultOf(known); fault != "" {
		l.fault = fault
	}
	if !finite(float64(run.Distance)) {
		l.fault = fmt.Sprintf("it is transferred by %v, which is not a run: give a distance, such as 4.2 M", run)
	}
	l.carry(leg{float64(run.Distance) * c, float64(run.Distance) * s, known, lasts})
	if !l.transfer.Stated() { // unknown for one run, unknown for all
		l.stated, l.lacks = false, l.lacks|lacksRun
	}
	l.steps = append(slices.Clone(l.steps), step)
	return l
}

// faultOf returns what is wrong with the covariance of a transfer, or an empty text.
func faultOf(c sailing.Covariance) string {
	if !(c.North >= 0 && c.East >= 0) || c.Both*c.Both > c.North*c.East*(1+1e-9) || !finite(c.North+c.East+c.Both) {
		return fmt.Sprintf("the run of its transfer has variances %v and %v, which are no covariance: make one with sailing.Circular or sailing.Oriented", c.North, c.East)
	}
	return ""
}

// carry adds a leg to the transfer of a line.
func (l *Line) carry(next leg) {
	known := next.known
	if l.moved {
		known = l.transfer.Plus(known)
	}
	if next.lasts < 0 || l.carried < 0 {
		l.carried = -1
	} else {
		l.carried += next.lasts
	}
	l.moved, l.transfer = true, known
	l.north += next.north
	l.east += next.east
	l.legs = append(slices.Clone(l.legs), next)
}
