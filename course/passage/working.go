package passage

import (
	"fmt"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/course"
)

// Working returns the leg's steps from the chart to the helm.
func (l Leg) Working() working.Sheet {
	if l.plan == nil {
		return working.Sheet{}
	}
	line := "by rhumb line on WGS84"
	if l.To.GreatCircle {
		line = "of the great circle, where it begins"
	}
	steps := working.Steps{
		working.Direction("track", "Track", l.Track, line),
		{Key: "distance", What: "Distance", Value: l.Distance.String(), Number: l.Distance.NauticalMiles(), Unit: "nautical miles"},
	}
	steps = append(steps, l.streamSteps()...)
	if l.Leeway.Angle != 0 {
		steps = append(steps, working.Step{Key: "leeway", What: "Leeway", Value: l.Leeway.String(), Number: l.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive", How: "head up to the wind by as much"})
	}
	heading := l.Heading.Working()
	for _, s := range heading.Steps {
		if s.Key == "true course" {
			s.How = "to head"
		}
		steps = append(steps, s)
	}
	steps = append(steps,
		working.Step{Key: "time", What: "Time", Value: clock(l.Time()), Number: l.Time().Hours(), Unit: "hours", How: fmt.Sprintf("%v at %v over the ground", l.Distance, l.Ground.Speed)},
		working.Step{Key: "arrival", What: "Arrival", Value: minute(l.Ends).Format("15:04 UTC"), How: minute(l.Ends).Format("2 January 2006")},
	)
	s := working.Sheet{Title: fmt.Sprintf("Leg %d: %v to %v", l.Number, l.From, l.To), Steps: steps, Caution: working.Caution}
	s.Warnings = append(s.Warnings, l.Warnings()...)
	return s
}

// streamSteps are those of the allowance for streams.
func (l Leg) streamSteps() working.Steps {
	if l.crossing != nil {
		var steps working.Steps
		for _, s := range l.crossing.Working().Steps {
			if s.Key != "track" && s.Key != "time" {
				steps = append(steps, s)
			}
		}
		return steps
	}
	stream, ok := l.plan.Streams.(course.Stream)
	if !ok {
		return nil
	}
	s, err := course.ToSteer(l.Track, l.Water.Speed, stream)
	if err != nil {
		return nil // not reached: the leg was worked with it
	}
	return s.Working().Steps
}

// minute is a time to the nearest minute, so that times and durations on the page
// can be summed.
func minute(t time.Time) time.Time { return t.UTC().Round(time.Minute) }

// clock prints a time as hours and minutes.
func clock(t time.Duration) string {
	minutes := int(t.Round(time.Minute) / time.Minute)
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
