package tidal

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// Working returns the steps by which the stream at a position and a time is found. They show
// both ways: by the hour, and by vectors between the hours, with the difference. Its errors are
// those of [Streams.StreamAt].
func (s *Streams) Working(p angle.Position, t time.Time) (working.Sheet, error) {
	place, err := s.placeAt(p)
	if err != nil {
		return working.Sheet{}, err
	}
	byHour, h, err := s.byHour(place, t)
	if err != nil {
		return working.Sheet{}, err
	}
	smooth, smoothErr := s.byVectors(place, t)
	if smoothErr != nil && s.use.ByVectors {
		return working.Sheet{}, smoothErr
	}
	i, _, _ := s.hourOf(t)
	tide := s.tides[i]
	steps := working.Steps{
		s.highWaterStep(tide),
		hourStep(h, t, tide),
		working.Step{Key: "place", What: "Place", Value: working.OneLine(place.Name)},
	}
	steps = append(steps, s.rangeSteps(tide)...)
	steps = append(steps,
		working.Step{Key: "springs", What: "Rate at springs", Value: h.Springs.String(), Number: h.Springs.Knots(), Unit: "knots"}.Because("tidal-printed", "printed for the hour"),
		working.Step{Key: "neaps", What: "Rate at neaps", Value: h.Neaps.String(), Number: h.Neaps.Knots(), Unit: "knots"}.Because("tidal-printed", "printed for the hour"))
	steps = append(steps, streamSteps("", "", byHour)...)
	last := &steps[len(steps)-1]
	if r := h.rate(tide.ratio); r < 0 {
		*last = last.Because("tidal-slack-below-zero", "the rule gives %v, which counts as slack water", r)
	} else {
		*last = last.Because("tidal-rate", "%.2f + (%.2f − %.2f) × %.2f", h.Neaps.Knots(), h.Springs.Knots(), h.Neaps.Knots(), hundredths(tide.ratio))
	}
	if smoothErr == nil {
		before, after, _ := s.around(place, t)
		vector := streamSteps("vector ", " by vectors", smooth)
		vector[1] = vector[1].Because("tidal-between-hours", "between %s, %v, and %s, %v", hourName(before.hour), before.stream, hourName(after.hour), after.stream)
		n1, e1 := components(byHour)
		n2, e2 := components(smooth)
		off := ofComponents(n2-n1, e2-e1)
		difference := working.Step{Key: "difference", What: "Difference", Value: "none", Unit: "knots"}
		if off.Rate > 0 {
			difference.Value, difference.Number = fmt.Sprintf("%.2f kn toward %.0f", off.Rate.Knots(), off.Set), off.Rate.Knots()
		}
		steps = append(append(steps, vector...), difference.Because("tidal-difference", "from the stream of the hour to that by vectors"))
	}
	used := working.Step{Key: "stream", What: "Stream", Value: byHour.String(), Number: byHour.Rate.Knots(), Unit: "knots"}
	if s.use.ByVectors {
		used.Value, used.Number = smooth.String(), smooth.Rate.Knots()
		used = used.Because("tidal-used-vectors", "by vectors, as chosen")
	} else {
		used = used.Because("tidal-used-hour", "that of the hour, as chosen")
	}
	return working.Sheet{Steps: append(steps, used), Warnings: s.Warnings(), Caution: working.Caution}, nil
}

// highWaterStep returns the step of the high water.
func (s *Streams) highWaterStep(t Tide) working.Step {
	step := working.Step{Key: "high water", What: "High water", Value: t.highWater.UTC().Format(clock) + " UTC"}
	if s.port != "" {
		step = step.Because("tidal-port", "at %s", working.OneLine(s.port))
	}
	return step
}

// hundredths rounds a number, without a minus before zero.
func hundredths(x float64) float64 { return math.Round(x*100)/100 + 0 }

// rangeSteps returns the steps from the heights to the ratio.
func (s *Streams) rangeSteps(t Tide) working.Steps {
	ratio := working.Step{Key: "ratio", What: "Ratio", Value: fmt.Sprintf("%.2f", hundredths(t.ratio)), Number: t.ratio, Unit: "0 at neaps, 1 at springs"}
	if !t.heights {
		return working.Steps{ratio.Because("tidal-ratio-given", "as given; 0 is neaps and 1 is springs")}
	}
	m := func(d sailing.Distance) string { return fmt.Sprintf("%.1f m", d.Metres()) }
	span := t.high - t.low
	return working.Steps{
		working.Step{Key: "range", What: "Range", Value: m(span), Number: span.Metres(), Unit: "metres"}.Because("tidal-range", "high water %s, low water %s", m(t.high), m(t.low)),
		ratio.Because("tidal-ratio", "(%s − %s) / (%s − %s), with the neap and the spring range", m(span), m(s.neaps), m(s.springs), m(s.neaps)),
	}
}

// streamSteps returns the set and the rate of a stream.
func streamSteps(key, what string, s stream.Stream) working.Steps {
	set := working.Direction(key+"set", "Set"+what, s.Set)
	if s.Rate == 0 {
		set = working.Step{Key: key + "set", What: "Set" + what, Value: "none"}.Because("tidal-slack", "slack water")
	}
	return working.Steps{set, {Key: key + "rate", What: "Rate" + what, Value: fmt.Sprintf("%.2f kn", s.Rate.Knots()), Number: s.Rate.Knots(), Unit: "knots"}}
}

// hourStep returns the step of the hour that includes t.
func hourStep(h Hour, t time.Time, tide Tide) working.Step {
	step := working.Step{Key: "hour", What: "Hour", Value: hourName(h.Hour), Number: float64(h.Hour), Unit: "hours after high water"}
	since := t.Sub(tide.highWater).Round(time.Minute)
	at, apart := t.UTC().Format(clock), printed.Clock(since.Abs())
	switch {
	case since < 0:
		return step.Because("tidal-hour-before", "%s UTC is %s before high water", at, apart)
	case since > 0:
		return step.Because("tidal-hour-after", "%s UTC is %s after high water", at, apart)
	}
	return step.Because("tidal-hour-at", "%s UTC is the time of high water", at)
}
