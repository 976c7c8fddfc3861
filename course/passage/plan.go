package passage

import (
	"fmt"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Waypoint is a place where a leg ends. Its JSON has the columns of [ReadWaypoints],
// which reads a list of them.
type Waypoint struct {
	Name     string // may be empty
	Position angle.Position

	// GreatCircle asks for a great circle on the leg that ends here, in place of a
	// rhumb line.
	GreatCircle bool

	// Speed is through the water on the leg that ends here. If zero, it is the
	// plan's.
	Speed sailing.Speed
}

// String returns the waypoint's name on one line, or its position if it has none.
func (w Waypoint) String() string {
	if name := strings.Join(strings.Fields(w.Name), " "); name != "" {
		return name
	}
	return w.Position.String()
}

// A Plan is a passage that is wanted. It has no JSON, for its sources have none; see
// [Plan.MarshalJSON].
type Plan struct {
	Name      string        // may be empty
	Waypoints []Waypoint    // two or more, or the plan is refused
	Depart    time.Time     // the zero time is refused; text shows times in its zone too
	Speed     sailing.Speed // through the water; zero is refused, unless a stream takes the vessel along the track

	// Variation and Deviation are the sources that courses are converted with, as
	// in [course.With]; nil is refused with a [*variation.MissingInputError]. The
	// variation is that of the date when a leg begins: of a rhumb line in its middle,
	// since one course is steered all along, of a great circle where it begins, as the
	// course is.
	Variation variation.Source
	Deviation deviation.Source

	// Streams may be nil, for slack water. On a great circle only a steady
	// [lubberline.example/course/stream.Stream] is taken: split it into rhumb lines for others.
	Streams stream.StreamSource

	// MaxOffTrack is how far the vessel may be set off the straight track by streams that
	// change. Legs that go farther have a warning. Zero sets no limit.
	MaxOffTrack sailing.Distance

	// Wind and Leeway are the same for all legs. A nil Wind means no leeway, and a
	// Leeway without a Wind is refused. If the wind is within the leeway of right astern, it may
	// set the vessel to either side: then no leeway is allowed for, with a warning. A course nearer to
	// the wind's eye than the leeway, which no heading makes good, is refused.
	Wind   *stream.Wind
	Leeway angle.Angle

	// Reading is how well a course is steered, for the uncertainty of headings. Not
	// stated, it is left out of that.
	Reading angle.Uncertainty
}

// MarshalJSON refuses, always, with an [*angle.NoJSONError]: the sources would be lost
// without a word. Keep the waypoints, which have JSON, with the departure and the speed,
// and what the sources were made from.
func (p Plan) MarshalJSON() ([]byte, error) {
	return nil, &angle.NoJSONError{Type: "passage.Plan", Keep: "its Waypoints, Depart and Speed, and what its sources were made from"}
}

// A Passage is a plan, worked by [New]. The zero value has no legs.
type Passage struct {
	Name     string           // the plan's
	Legs     []Leg            // in order, one fewer than the waypoints
	Depart   time.Time        // the plan's
	Arrive   time.Time        // at the last waypoint
	Distance sailing.Distance // of all legs, over the ground

	plan Plan
}

// A Leg is the way from one waypoint to the next, as [New] worked it; the zero value is
// none.
type Leg struct {
	Number   int // from 1
	From, To Waypoint

	// Track is the course over the ground, of a great circle where it begins.
	Track angle.True

	// Final is the course where the leg ends: other than Track only on a great
	// circle.
	Final angle.True

	// Distance is over the ground, along the leg.
	Distance sailing.Distance

	// Water is the course and speed through the water, and Ground what is made
	// good on the average: Track, and the speed.
	Water  stream.Motion
	Ground stream.Motion

	// Leeway is what the wind sets the vessel by.
	Leeway stream.Leeway

	// Heading is the course to steer by all three norths.
	Heading course.Heading

	Begins, Ends time.Time // in UTC; each leg begins where the one before ends

	crossing        *stream.Crossing
	circle          sailing.Geodesic    // of a great circle
	lowest, highest variation.Variation // along the leg
	spread          angle.Angle         // between them
	doubts          []working.Warning   // about what the plan says
	ofLeeway        []working.Warning   // of course.LeewayOn
	plan            *Plan
}

// Time returns how long the leg takes.
func (l Leg) Time() time.Duration { return l.Ends.Sub(l.Begins) }

// A PlanError reports a plan that can't be worked.
type PlanError struct {
	Leg      int // from 1; 0 if it is no leg's fault
	From, To Waypoint
	Err      error // why
}

// Error says which leg, and why.
func (e *PlanError) Error() string {
	if e.Leg == 0 {
		return fmt.Sprintf("passage: %v", e.Err)
	}
	return fmt.Sprintf("passage: leg %d, %v to %v: %v", e.Leg, e.From, e.To, e.Err)
}

// Unwrap returns why.
func (e *PlanError) Unwrap() error { return e.Err }
