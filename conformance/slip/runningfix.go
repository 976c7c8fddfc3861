package slip

import (
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
)

// NewRunningFix asks for the position at the second of two compass bearings, to a tenth of a
// minute. The bearings are of one mark or two, on one heading, with a run between them. The
// compass heading counts, and not that of the run. For the other arguments see [NewFix]; errors
// are also those of [stream.MadeGood]. For the leeway see [NewToSteerThroughStream].
func NewRunningFix(first, second Sighting, run stream.ReckonedRun, head angle.Compass, with course.With, others ...fix.Mark) (Problem, error) {
	if err := checkLeeway(run.Leeway); err != nil {
		return Problem{}, err
	}
	r, err := roundOf([]Sighting{first, second}, head, with, others)
	if err != nil {
		return Problem{}, err
	}
	run.Heading = r.heading.True()
	moved, err := transfer(&calculation{}, run.Heading, run, first.Mark.Position.Latitude)
	if err != nil {
		return Problem{}, err
	}
	right, err := r.moved(&calculation{}, head, run)
	if err != nil {
		return Problem{}, err
	}
	solve := []fix.Line{
		fix.Bearing(first.Mark, right[0].bearing, angle.Uncertainty{}).Transferred(moved, sailing.Covariance{}),
		fix.Bearing(second.Mark, right[1].bearing, angle.Uncertainty{}),
	}
	chart, err := chartworkOf(right, solve)
	if err != nil {
		return Problem{}, err
	}
	again := second.Mark.Name + " bears " + exact(second.Bearing)
	if second.Mark != first.Mark {
		again = bears(second)
	}
	return made(Problem{
		Topic: "running fix",
		Question: fmt.Sprintf("The vessel steers %s at %s through the water. %s; %s later %s. %s. %s%s. What is the position at the second bearing, to a tenth of a minute?",
			exact(head), knots(run.Speed), capital(bears(first)), minutesOf(run.Lasts), again, capital(streamAndLeeway(run)), alsoCharted(others), r.says()),
		Form: Position, Rounding: 0.1, plotted: onChart, minor: minorOfFixes,
	}, func() working.Steps {
		steps := append(r.steps(), upTo(r.heading.Working().Steps, "true course")...)
		if good, err := stream.MadeGood(run.Water(), run.Stream); err == nil {
			steps = append(steps, throughWater(good, run.Leeway)...)
		}
		return append(steps, stepsOfFix(solve)...)
	}, func(c *calculation) (float64, error) {
		lines, err := r.moved(c, head, run)
		if err != nil {
			return 0, err
		}
		return chart.position(lines), nil
	})
}

// moved returns the lines of two bearings with a run between them: the first is moved by the run.
func (r round) moved(c *calculation, head angle.Compass, run stream.ReckonedRun) ([]plottedLine, error) {
	sightings, bearings, toTrue, err := r.lines(c)
	if err != nil {
		return nil, err
	}
	heading, err := toTrue(head)
	if err != nil {
		return nil, err
	}
	moved, err := transfer(c, heading, run, r.sightings[0].Mark.Position.Latitude)
	if err != nil {
		return nil, err
	}
	out := []plottedLine{{sightings[0].Mark.Position, bearings[0]}, {sightings[1].Mark.Position, bearings[1]}}
	one := 0
	if c.does(SecondMoved) {
		one = 1
	}
	if !c.does(NotMoved) {
		out[one].through, err = sailing.WGS84().Follow(out[one].through, moved)
	}
	return out, err
}

// throughWater returns the steps of a motion made good. With leeway, the course through the water is
// not given: it follows from the heading.
func throughWater(good stream.Steering, leeway stream.Leeway) working.Steps {
	steps := good.Working().Steps
	if at := slices.IndexFunc(steps, func(s working.Step) bool { return s.Key == "water course" }); at >= 0 && leeway.Angle != 0 {
		steps[at] = working.Direction(steps[at].Key, steps[at].What, good.Water.Course).Because("heading-and-leeway", "heading and leeway")
	}
	return steps
}

// transfer returns the run over the ground by which a line is moved, with its slips. Latitude is
// that in which distances are taken off the chart.
func transfer(c *calculation, heading angle.True, run stream.ReckonedRun, latitude angle.Latitude) (sailing.Run, error) {
	run.Heading = heading
	switch {
	case c.does(StreamWrongWay):
		run.Stream.Set = run.Stream.Set.Reciprocal()
	case c.does(StreamLeftOut):
		run.Stream.Rate = 0
	}
	if decimalsOnTheWay(c) {
		run.Lasts = time.Duration(asDecimals(run.Lasts.Hours()) * float64(time.Hour))
	}
	water := stream.Motion{Course: heading.Add(ofLeeway(c, run.Leeway.Deflection())), Speed: run.Speed}
	good, err := stream.MadeGood(water, run.Stream)
	if err != nil {
		return sailing.Run{}, err
	}
	moved := sailing.Run{
		Course:   angle.TrueFrom(c.figureAngle(wholeTrue("made-good", "Course made good"), good.Ground.Course.FromNorth())),
		Distance: sailing.Distance(c.figure(Figure{Key: "run", What: "Run over the ground", Form: Miles, Rounding: 0.1}, good.Ground.Speed.For(run.Lasts).NauticalMiles())) * sailing.NauticalMile,
	}
	if c.does(MovedByCourse) {
		moved.Course = heading
	}
	if c.does(MovedByLog) {
		moved.Distance = run.Speed.For(run.Lasts)
	}
	if c.does(LongitudeScale) {
		moved.Distance *= sailing.Distance(latitude.Angle().Cos())
	}
	if c.does(MovedWrongWay) {
		moved.Course = moved.Course.Reciprocal()
	}
	return moved, nil
}

// streamAndLeeway returns the words about the stream and the leeway of a run, for a question.
func streamAndLeeway(run stream.ReckonedRun) string {
	flow := "there is no stream"
	if run.Stream.Rate != 0 {
		flow = fmt.Sprintf("the stream sets %s at %s", exact(run.Stream.Set), knots(run.Stream.Rate))
	}
	return flow + ", " + windAndLeeway(run.Leeway)
}

// minutesOf prints a time in minutes, or in hours and minutes.
func minutesOf(d time.Duration) string {
	minutes := int(d.Round(time.Minute) / time.Minute)
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
