package passage

import (
	"fmt"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// The kinds of [working.Warning] of this package. A leg also passes on those of
// [course.Heading.Warnings] and of [lubberline.example/course/stream.LeewayOn].
const (
	VariationChanges  working.WarningKind = "variation-changes"   // by more than a degree along the leg
	CourseChanges     working.WarningKind = "course-changes"      // on a great circle
	DeviationUnsure   working.WarningKind = "deviation-unsure"    // uncertain by more than a degree
	LongForStreams    working.WarningKind = "long-for-streams"    // too long for a plane triangle
	StreamNearlyStops working.WarningKind = "stream-nearly-stops" // little is made good
	ShortLeg          working.WarningKind = "short-leg"           // its ends are nearly the same place
	UnitForgotten     working.WarningKind = "unit-forgotten"      // of a speed, as it seems
	PositionDoubtful  working.WarningKind = "position-doubtful"   // a slip in a waypoint would explain a very long leg
	LostInRoute       working.WarningKind = "lost-in-route"       // a GPX route has no place for it
)

// Levels of the warnings.
const (
	mostVariationChange = angle.Degree
	mostCourseChange    = 2 * angle.Degree
	mostDeviationSigma  = angle.Degree
	mostForStreams      = 60 * sailing.NauticalMile
	shortLeg            = 20 * sailing.Metre
)

// Warnings returns what is weak about the leg: what its sources say, and what shows
// only over the whole leg.
func (l Leg) Warnings() []working.Warning {
	if l.plan == nil {
		return nil
	}
	out := slices.Concat(l.doubts, l.Heading.Warnings())
	add := func(kind working.WarningKind, format string, args ...any) {
		out = append(out, working.Warning{Kind: kind, Message: fmt.Sprintf(format, args...)})
	}
	if l.spread > mostVariationChange {
		add(VariationChanges, "the variation along the leg is between %v and %v, and %v was applied: split the leg", l.lowest, l.highest, l.Heading.Variation())
	}
	if turn := l.Final.Sub(l.Track); turn.Abs() > mostCourseChange {
		add(CourseChanges, "the great circle's course goes from %v to %v: split the leg and steer rhumb lines", l.Track, l.Final)
	}
	if s, stated := l.Heading.Deviation().Uncertainty().Sigma(); stated && s > mostDeviationSigma {
		add(DeviationUnsure, "the deviation on %v is uncertain by ±%.1f°: swing the compass there", l.Heading.Compass(), s.Degrees())
	}
	if l.plan.Streams != nil && l.Distance > mostForStreams {
		add(LongForStreams, "%v is long for one allowance: work the streams in shorter legs", l.Distance)
	}
	out = append(out, l.ofLeeway...)
	if l.crossing != nil {
		out = append(out, l.crossing.Warnings(l.plan.MaxOffTrack)...)
	}
	if l.Ground.Speed < l.Water.Speed/4 {
		add(StreamNearlyStops, "only %v is made good: a little more stream, or less speed, stops the vessel", l.Ground.Speed)
	}
	if l.Distance < shortLeg {
		add(ShortLeg, "the leg is %.1f m long: its waypoints are nearly the same place; leave one of them out", l.Distance.Metres())
	}
	return out
}
