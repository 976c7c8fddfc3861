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

	// GreatCircle asks for a great circle on the leg that ends here, instead of a
	// rhumb line.
	GreatCircle bool

	// Speed is through the water on the leg that ends here. If zero, it is the
	// plan's.
	Speed sailing.Speed
}

// String returns the waypoint's name on one line, or its position if it has no name.
func (w Waypoint) String() string {
	if name := strings.Join(strings.Fields(w.Name), " "); name != "" {
		return name
	}
	return w.Position.String()
}

// A Plan is the input of [New]. To keep a plan in a file, keep its waypoints, which have JSON,
// and the inputs of its sources. The sources have no JSON.
type Plan struct {
	Name      string        // may be empty
	Waypoints []Waypoint    // at least two
	Depart    time.Time     // required; times are also printed in its zone
	Speed     sailing.Speed // through the water; zero only if a stream takes the vessel along the track

	// Variation and Deviation are the sources for conversions, as in [course.With].
	// Both are required; nil gives a [*variation.MissingInputError]. The variation is
	// that of the date on which a leg begins. On a rhumb line it is that of the middle,
	// since one course is steered along the whole leg. On a great circle it is that of
	// the beginning, as the course is.
	Variation variation.Source
	Deviation deviation.Source

	// Streams are the tidal streams or currents; nil is slack water. A leg on a great circle
	// allows only for a steady [stream.Stream]. For other streams split it into rhumb lines.
	// If the source has a method Warnings() []working.Warning, as the streams of package
	// tidal have, the first leg has its warnings.
	Streams stream.Source

	// MaxOffTrack is the maximum distance off the straight track to which changing streams may
	// set the vessel without a warning. Zero sets no limit.
	MaxOffTrack sailing.Distance

	// WindFrom is the direction from which the wind blows, and Leeway is the angle. Both are
	// the same for all legs. A nil WindFrom means no leeway. A Leeway without a wind is an
	// error. If the wind is astern, within the leeway, it may set the vessel to either side.
	// Then no leeway is allowed for, and the leg has a warning. If the wind is ahead, within
	// the leeway, no heading gives the track, and the leg is an error.
	WindFrom *angle.True
	Leeway   angle.Angle

	// Reading is the uncertainty of the course steered. If unset, the uncertainty of a heading
	// does not include it.
	Reading angle.Uncertainty
}

// A Passage is a plan that [New] has worked. The zero value has no legs.
type Passage struct {
	Legs     []Leg            // in order, one fewer than the waypoints
	Arrive   time.Time        // at the last waypoint
	Distance sailing.Distance // of all legs, over the ground
	WindFrom *angle.True      // that of the plan; nil without a wind

	plan Plan
}

// A Leg is the way from one waypoint to the next, as worked by [New].
type Leg struct {
	From, To Waypoint

	// Track is the course over the ground where the leg begins.
	Track angle.True

	// Final is the course where the leg ends. It differs from Track on a great circle only.
	Final angle.True

	// Distance is the length of the leg over the ground.
	Distance sailing.Distance

	// Water is the course and speed through the water. Ground is the course made good, which
	// is Track, and the speed made good, on average.
	Water  stream.Motion
	Ground stream.Motion

	// Leeway is the leeway allowed for; zero without wind.
	Leeway stream.Leeway

	// Heading is the course to steer by all three norths.
	Heading course.Heading

	Begins, Ends time.Time // in UTC; each leg begins where the one before ends

	// Hours are the parts of the leg with one stream each, and the estimated position at the
	// end of each. They are nil unless the streams change.
	Hours []stream.CrossingHour

	number          int                 // from 1
	ofVariation     angle.Position      // where the variation is taken
	steering        stream.Steering     // with a steady stream; zero without
	crossing        *stream.Crossing    // with streams that change
	circle          sailing.GreatCircle // of a great circle
	lowest, highest variation.Variation // along the leg
	spread          angle.Angle         // between them
	doubts          []working.Warning   // about what the plan says
	ofLeeway        []working.Warning   // of stream.LeewayOn
	plan            *Plan
}

// depart is the plan's departure in UTC.
func (p *Passage) depart() time.Time { return p.plan.Depart.UTC() }

// time is how long the leg takes.
func (l *Leg) time() time.Duration { return l.Ends.Sub(l.Begins) }

// An Error reports a plan that has no answer.
type Error struct {
	Leg int   // from 1; 0 if the fault is not in a leg
	Err error // the waypoints of the leg, and the reason
}

// Error returns the leg and the reason.
func (e *Error) Error() string {
	if e.Leg == 0 {
		return fmt.Sprintf("passage: %v", e.Err)
	}
	return fmt.Sprintf("passage: leg %d, %v", e.Leg, e.Err)
}

// Unwrap returns the reason.
func (e *Error) Unwrap() error { return e.Err }
