package passage

import (
	"fmt"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/stream"
)

// Working returns the leg's steps from the chart to the helm.
func (l Leg) Working() working.Sheet {
	if l.plan == nil {
		return working.Sheet{}
	}
	track := working.Direction("track", "Track", l.Track)
	if l.To.GreatCircle {
		track = track.Because("great-circle-begins", "great circle on WGS84, where it begins")
	} else {
		track = track.Because("rhumb-line-on-wgs84", "rhumb line on WGS84")
	}
	steps := append(l.differences(), track,
		working.Step{Key: "distance", What: "Distance", Value: l.Distance.String(), Number: l.Distance.NauticalMiles(), Unit: "nautical miles"},
	)
	if !l.To.GreatCircle {
		east := l.Distance.NauticalMiles() * l.Track.FromNorth().Sin()
		departure := working.Step{Key: "departure", What: "Departure", Value: printed.Named(east, " M ", "E", "W"), Number: east, Unit: "nautical miles, east positive"}
		steps = append(steps, departure.Because("distance-sin-track", "distance × sin track"))
	}
	steps = append(steps, l.streamSteps()...)
	if l.Leeway.Angle != 0 {
		if l.plan.Streams == nil {
			steps = append(steps, working.Direction("water course", "Course through the water", l.Water.Course).Because("track-no-stream", "the track: no stream"))
		}
		leeway := working.Step{Key: "leeway", What: "Leeway", Value: l.Leeway.Angle.String(), Number: l.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive"}
		steps = append(steps, leeway.Because("wind-on-side", "wind on the %s side", l.Leeway.WindSide).Because("turn-into-the-wind", "turn into the wind by this angle"))
	}
	for _, s := range l.Heading.Working().Steps {
		if s.Key == "true course" {
			s = working.Step{Key: s.Key, What: "Course to steer, true", Value: s.Value, Number: s.Number, Unit: s.Unit}
			steps = append(append(steps, l.headedFrom(s)), l.placeSteps()...)
			continue
		}
		steps = append(steps, s)
	}
	steps = append(steps,
		working.Step{Key: "time", What: "Time", Value: printed.Clock(l.shown()), Number: l.time().Hours(), Unit: "hours"}.
			Because("distance-at-ground-speed", "%v at %v over the ground", l.Distance, l.Ground.Speed),
		working.Step{Key: "arrival", What: "Arrival", Value: l.plan.local(l.Ends, "")}.
			Because("on-date", "%s", l.plan.zoned(l.Ends).Format("2 January 2006")),
	)
	s := working.Sheet{Title: fmt.Sprintf("Leg %d: %v to %v", l.number, l.From, l.To), Steps: steps, Caution: working.Caution}
	s.Warnings = append(s.Warnings, l.Warnings()...)
	return s
}

// headedFrom says how the course to steer follows from the course through the water.
func (l Leg) headedFrom(s working.Step) working.Step {
	switch {
	case l.Leeway.Angle != 0:
		return s.Because("water-course-and-leeway", "the course through the water, turned into the wind by the leeway")
	case l.plan.Streams != nil:
		return s.Because("water-course", "the course through the water")
	}
	return s.Because("track-no-stream-no-leeway", "the track: no stream and no leeway")
}

// placeSteps say where the variation is taken, unless its source is the same everywhere.
func (l Leg) placeSteps() working.Steps {
	if s, ok := l.plan.Variation.(interface {
		VariationNeeds() (position, date bool)
	}); ok {
		if position, _ := s.VariationNeeds(); !position {
			return nil
		}
	}
	step := working.Step{Key: "variation place", What: "Variation taken at", Value: l.ofVariation.String()}
	if l.To.GreatCircle {
		return working.Steps{step.Because("leg-begins", "where the leg begins, as the course is")}
	}
	return working.Steps{step.Because("middle-of-leg", "the middle of the leg: one course is steered all along it")}
}

// differences are the differences of latitude and longitude. They check the track and the distance.
func (l Leg) differences() working.Steps {
	from, to := l.From.Position, l.To.Position
	north := (to.Latitude.Angle() - from.Latitude.Angle()).Minutes()
	east := to.Longitude.Sub(from.Longitude).Minutes()
	return working.Steps{
		{Key: "d.lat", What: "Difference of latitude", Value: printed.Named(north, "′", "N", "S"), Number: north, Unit: "minutes of arc, north positive"},
		{Key: "d.long", What: "Difference of longitude", Value: printed.Named(east, "′", "E", "W"), Number: east, Unit: "minutes of arc, east positive"},
	}
}

// streamSteps are the steps of the allowance for streams.
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
	if l.steering != (stream.Steering{}) {
		return l.steering.Working().Steps
	}
	return nil
}

// shown is the leg's time as it is printed. It is between its times to the minute, so that the
// times of all legs add up to the time of the passage.
func (l Leg) shown() time.Duration { return minute(l.Ends).Sub(minute(l.Begins)) }

// zoned is a time to the nearest minute in the zone of the departure.
func (p *Plan) zoned(t time.Time) time.Time { return minute(t).In(p.Depart.Location()) }

// local prints a time in the zone of the departure, after a date in a layout. It adds UTC if
// that differs: 08:00 +02:00 (06:00 UTC).
func (p *Plan) local(t time.Time, date string) string {
	local := p.zoned(t)
	if _, offset := local.Zone(); offset == 0 {
		return minute(t).Format(date + "15:04 UTC")
	}
	return local.Format(date+"15:04 -07:00") + minute(t).Format(" (15:04 UTC)")
}

// short is local for a table: 2 Jul 08:00, or 2 Jul 08:00 (06:00 UTC).
func (p *Plan) short(t time.Time) string {
	local := p.zoned(t)
	if _, offset := local.Zone(); offset == 0 {
		return minute(t).Format("2 Jan 15:04")
	}
	return local.Format("2 Jan 15:04") + minute(t).Format(" (15:04 UTC)")
}

// minute is a time to the nearest minute. Printed times and durations then add up.
func minute(t time.Time) time.Time { return t.UTC().Round(time.Minute) }
