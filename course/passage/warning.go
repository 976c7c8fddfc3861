package passage

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// A WarningKind says, in a word that programs can compare, why a leg's answer is
// weak. Beside these there are those of [course.Heading.Warnings], such as that two
// roses disagree, a model's zone, or a deviation that swings out.
type WarningKind = working.WarningKind

// The kinds of this package.
const (
	VariationChanges  WarningKind = "variation-changes"   // by more than a degree along the leg
	CourseChanges     WarningKind = "course-changes"      // on a great circle
	DeviationUnsure   WarningKind = "deviation-unsure"    // known to no better than a degree
	LongForStreams    WarningKind = "long-for-streams"    // too long for a plane triangle
	StreamNearlyStops WarningKind = "stream-nearly-stops" // little is made good
	BeforeTheWind     WarningKind = "before-the-wind"     // the leeway was left out
)

// A Warning says why a leg's answer is weak. The answer still stands.
type Warning = working.Warning

// Levels of the warnings.
const (
	mostVariationChange = angle.Degree
	mostCourseChange    = 2 * angle.Degree
	mostDeviationSigma  = angle.Degree
	mostForStreams      = 60 * sailing.NauticalMile
)

// Warnings returns what is weak about the leg: what its sources say, and what shows
// only over the whole leg.
func (l Leg) Warnings() []Warning {
	if l.plan == nil {
		return nil
	}
	out := l.Heading.Warnings()
	add := func(kind WarningKind, format string, args ...any) {
		out = append(out, Warning{Kind: kind, Message: fmt.Sprintf(format, args...)})
	}
	first, err1 := l.plan.Variation.VariationAt(l.From.Position, l.Begins)
	last, err2 := l.plan.Variation.VariationAt(l.To.Position, l.Begins)
	if err1 == nil && err2 == nil {
		if change := (last.Angle() - first.Angle()).NormalizedSigned(); change.Abs() > mostVariationChange {
			add(VariationChanges, "the variation goes from %v to %v along the leg: split it", first, last)
		}
	}
	if turn := l.Final.Sub(l.Track); turn.Abs() > mostCourseChange {
		add(CourseChanges, "the great circle's course goes from %v to %v: split the leg and steer rhumb lines", l.Track, l.Final)
	}
	if s, stated := l.Heading.Deviation().Uncertainty().Sigma(); stated && s > mostDeviationSigma {
		add(DeviationUnsure, "the deviation on %v is known to ±%.1f° only: swing the compass there", l.Heading.Compass(), s.Degrees())
	}
	if l.plan.Streams != nil && l.Distance > mostForStreams {
		add(LongForStreams, "%v is long for one allowance: work the streams in shorter legs", l.Distance)
	}
	if l.plan.Leeway != 0 && l.beforeTheWind() {
		add(BeforeTheWind, "the wind is right astern and sets to neither side: no leeway was allowed for, watch which side it takes")
	}
	out = append(out, l.ofLeeway...)
	if l.crossing != nil {
		out = append(out, l.crossing.Warnings(l.plan.MaxOffTrack)...)
	}
	if l.Ground.Speed < l.Water.Speed/4 {
		add(StreamNearlyStops, "only %v is made good: a little more stream, or less speed, and she stands still", l.Ground.Speed)
	}
	return out
}
