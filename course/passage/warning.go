package passage

import (
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// The kinds of [working.Warning] of this package. A leg also has the warnings of its
// [course.Heading] and of [stream.LeewayOn].
const (
	VariationChanges  working.WarningKind = "variation-changes"   // by more than a degree along the leg
	CourseChanges     working.WarningKind = "course-changes"      // on a great circle
	DeviationUnsure   working.WarningKind = "deviation-unsure"    // uncertain by more than a degree
	LongForStreams    working.WarningKind = "long-for-streams"    // too long for a plane triangle
	StreamNearlyStops working.WarningKind = "stream-nearly-stops" // little is made good
	ShortLeg          working.WarningKind = "short-leg"           // its ends are nearly the same place
	UnitForgotten     working.WarningKind = "unit-forgotten"      // a speed may be in metres per second
	PositionDoubtful  working.WarningKind = "position-doubtful"   // a slip in a waypoint may explain a very long leg
	LostInRoute       working.WarningKind = "lost-in-route"       // a GPX route can't hold it
)

// Levels of the warnings.
const (
	maxVariationChange = angle.Degree
	maxCourseChange    = 2 * angle.Degree
	maxDeviationSigma  = angle.Degree
	maxForStreams      = 60 * sailing.NauticalMile
	shortLeg           = 20 * sailing.Metre
)

// Warnings returns the warnings about the leg: those of its sources, and those that follow
// from the whole leg.
func (l Leg) Warnings() []working.Warning {
	if l.plan == nil {
		return nil
	}
	out := slices.Concat(l.doubts, l.Heading.Warnings())
	if l.spread > maxVariationChange {
		out = append(out, working.Warn(VariationChanges, "variation-changes", "the variation along the leg is between %v and %v, and %v was applied: split the leg", l.lowest, l.highest, l.Heading.Variation()))
	}
	if turn := l.Final.Sub(l.Track); turn.Abs() > maxCourseChange {
		out = append(out, working.Warn(CourseChanges, "course-changes", "the great circle's course goes from %v to %v: split the leg and steer rhumb lines", l.Track, l.Final))
	}
	if s, stated := l.Heading.Deviation().Uncertainty().Sigma(); stated && s > maxDeviationSigma {
		out = append(out, working.Warn(DeviationUnsure, "deviation-unsure", "the deviation on %v is uncertain by ±%.1f°: swing the compass there", l.Heading.Compass(), s.Degrees()))
	}
	if l.plan.Streams != nil && l.Distance > maxForStreams {
		out = append(out, working.Warn(LongForStreams, "long-for-streams", "%v is too long for one allowance for the streams: split the leg", l.Distance))
	}
	out = append(out, l.ofLeeway...)
	if l.crossing != nil {
		out = append(out, l.crossing.Warnings(l.plan.MaxOffTrack)...)
	}
	if l.Ground.Speed < l.Water.Speed/4 {
		out = append(out, working.Warn(StreamNearlyStops, "stream-nearly-stops", "the speed made good is only %v: a little more stream, or less speed, stops the vessel", l.Ground.Speed))
	}
	if l.Distance < shortLeg {
		out = append(out, working.Warn(ShortLeg, "short-leg", "the leg is %.1f m long: its waypoints are nearly the same place; leave one of them out", l.Distance.Metres()))
	}
	return out
}
