package passage

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/course/stream"
)

// Working returns the leg's steps from the chart to the helm.
func (l Leg) Working() working.Sheet {
	if l.plan == nil {
		return working.Sheet{}
	}
	line := "by rhumb line on WGS84"
	if l.To.GreatCircle {
		line = "of the great circle on WGS84, where it begins"
	}
	steps := append(l.differences(),
		working.Direction("track", "Track", l.Track, line),
		working.Step{Key: "distance", What: "Distance", Value: l.Distance.String(), Number: l.Distance.NauticalMiles(), Unit: "nautical miles"},
	)
	if !l.To.GreatCircle {
		east := l.Distance.NauticalMiles() * l.Track.FromNorth().Sin()
		steps = append(steps, working.Step{Key: "departure", What: "Departure", Value: named(east, " M ", "E", "W"), Number: east, Unit: "nautical miles, east positive", How: "distance × sin track"})
	}
	steps = append(steps, l.streamSteps()...)
	if l.Leeway.Angle != 0 {
		if l.plan.Streams == nil {
			steps = append(steps, working.Direction("water course", "Course through the water", l.Water.Course, "the track: no stream"))
		}
		steps = append(steps, working.Step{Key: "leeway", What: "Leeway", Value: l.Leeway.String(), Number: l.Leeway.Deflection().Degrees(), Unit: "degrees, starboard positive", How: "head up to the wind by as much"})
	}
	for _, s := range l.Heading.Working().Steps {
		if s.Key == "true course" {
			s.What, s.How = "Course to steer, true", l.headedFrom()
			steps = append(append(steps, s), l.placeSteps()...)
			continue
		}
		steps = append(steps, s)
	}
	steps = append(steps,
		working.Step{Key: "time", What: "Time", Value: clock(l.shown()), Number: l.Time().Hours(), Unit: "hours", How: fmt.Sprintf("%v at %v over the ground", l.Distance, l.Ground.Speed)},
		working.Step{Key: "arrival", What: "Arrival", Value: l.plan.local(l.Ends, ""), How: l.plan.zoned(l.Ends).Format("2 January 2006")},
	)
	s := working.Sheet{Title: fmt.Sprintf("Leg %d: %v to %v", l.Number, l.From, l.To), Steps: steps, Caution: working.Caution}
	s.Warnings = append(s.Warnings, l.Warnings()...)
	return s
}

// headedFrom says of what the course to steer is made.
func (l Leg) headedFrom() string {
	switch {
	case l.Leeway.Angle != 0:
		return "the course through the water, headed up to the wind by the leeway"
	case l.plan.Streams != nil:
		return "the course through the water"
	}
	return "the track: no stream and no leeway"
}

// placeSteps say where the variation is taken, if its source may depend on that.
func (l Leg) placeSteps() working.Steps {
	if s, ok := l.plan.Variation.(interface {
		VariationNeeds() (position, date bool)
	}); ok {
		if position, _ := s.VariationNeeds(); !position {
			return nil
		}
	}
	how := "the middle of the leg: one course is steered all along it"
	if l.To.GreatCircle {
		how = "where the leg begins, as the course is"
	}
	return working.Steps{{Key: "variation place", What: "Variation taken at", Value: l.forVariation().String(), How: how}}
}

// differences are those of latitude and longitude, to check the track and the distance by.
func (l Leg) differences() working.Steps {
	from, to := l.From.Position, l.To.Position
	north := (to.Latitude.Angle() - from.Latitude.Angle()).Minutes()
	east := to.Longitude.Sub(from.Longitude).Minutes()
	return working.Steps{
		{Key: "d.lat", What: "Difference of latitude", Value: named(north, "′", "N", "S"), Number: north, Unit: "minutes of arc, north positive"},
		{Key: "d.long", What: "Difference of longitude", Value: named(east, "′", "E", "W"), Number: east, Unit: "minutes of arc, east positive"},
	}
}

// named is a number to a tenth with its unit and its name.
func named(x float64, unit, positive, negative string) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', 1, 64) + unit
	switch {
	case math.Abs(x) < 0.05:
		return strings.TrimSpace(text)
	case x < 0:
		return text + negative
	}
	return text + positive
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
	flow, ok := l.steady()
	if !ok {
		return nil
	}
	s, err := stream.ToSteer(l.Track, l.Water.Speed, flow)
	if err != nil {
		return nil // not reached: the leg was worked with it
	}
	return s.Working().Steps
}

// shown is the leg's time as it is printed: between its times to the minute, so that the
// times of all legs add up to that of the passage.
func (l Leg) shown() time.Duration { return minute(l.Ends).Sub(minute(l.Begins)) }

// zoned is a time to the nearest minute in the zone of the departure.
func (p *Plan) zoned(t time.Time) time.Time { return minute(t).In(p.Depart.Location()) }

// local prints a time in the zone of the departure, after a date in a layout, and in UTC if that
// is another: 08:00 +02:00 (06:00 UTC).
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

// minute is a time to the nearest minute, so that times and durations on the page
// can be summed.
func minute(t time.Time) time.Time { return t.UTC().Round(time.Minute) }

// clock prints a time as hours and minutes.
func clock(t time.Duration) string {
	minutes := int(t.Round(time.Minute) / time.Minute)
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
