package stream

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/sailing"
	"lubberline.example/variation"
)

// A Source returns the stream at a position and a time. [Stream] is a Source that is the
// same everywhere and always. [Hourly] is a Source for streams that change. A Source must
// be safe for use by several goroutines.
//
// A Source may also have a method NextChange(time.Time) time.Time, which returns when the
// stream changes next. [CourseToSteerAcross] then takes the stream in the middle between two
// changes.
type Source interface {
	StreamAt(p angle.Position, t time.Time) (Stream, error)
}

// StreamAt returns the stream itself, so that a known stream is a [Source].
func (s Stream) StreamAt(angle.Position, time.Time) (Stream, error) { return s, nil }

// Hourly holds the streams of a tidal atlas or of a chart's table of tidal streams. Each
// holds for one period, the first from Start. All periods have the same length.
type Hourly struct {
	Start   time.Time     `json:"start"`   // when the first period begins; must be set
	Period  time.Duration `json:"period"`  // zero means an hour
	Streams []Stream      `json:"streams"` // in order, without gaps
}

// noStream is the error for a time outside the streams.
func (h Hourly) noStream(t time.Time) error {
	const layout = time.DateTime
	if h.Start.IsZero() {
		return &Error{Kind: NoStream, Reason: fmt.Sprintf("no stream for %s UTC: the streams have no start; set Start to the time at which the first begins", t.UTC().Format(layout))}
	}
	end := h.Start.Add(time.Duration(len(h.Streams)) * h.period())
	return &Error{Kind: NoStream, Reason: fmt.Sprintf("no stream for %s UTC: the streams begin at %s and end at %s UTC; add the stream for that time", t.UTC().Format(layout), h.Start.UTC().Format(layout), end.UTC().Format(layout))}
}

// StreamAt returns the stream of the period that includes t, at any position. If no period
// includes t, or Start is zero, it returns an [*Error] of kind [NoStream].
func (h Hourly) StreamAt(_ angle.Position, t time.Time) (Stream, error) {
	if h.Start.IsZero() {
		return Stream{}, h.noStream(t)
	}
	since := t.Sub(h.Start)
	if i := int64(since / h.period()); since >= 0 && i < int64(len(h.Streams)) {
		return h.Streams[i], nil
	}
	return Stream{}, h.noStream(t)
}

// period returns the length of a period: an hour if none is set.
func (h Hourly) period() time.Duration {
	if h.Period <= 0 {
		return time.Hour
	}
	return h.Period
}

// A Crossing is a passage between two positions on one course through the water, while the
// streams change from hour to hour. The one course allows for the streams of the whole passage
// together. On the way, the streams set the vessel off the track and back.
type Crossing struct {
	Water Motion        `json:"water"` // the one course through the water, and speed
	Lasts time.Duration `json:"lasts"` // from departure to arrival

	// Hours are the parts of the passage, each with one stream, and the position at its end.
	Hours []CrossingHour `json:"hours"`

	// MaxOffTrack is the greatest distance from the straight track at the end of an hour,
	// starboard positive.
	MaxOffTrack sailing.Distance `json:"maxOffTrack"`

	from, to angle.Position
	depart   time.Time
	run      sailing.Run // from one to the other over the ground, by rhumb line
	drift    sailing.Run // the sum of the drifts of all streams
}

// A CrossingHour is a part of a crossing with one stream. It may be shorter than an hour.
type CrossingHour struct {
	Begins time.Time      `json:"begins"`
	Lasts  time.Duration  `json:"lasts"`
	Stream Stream         `json:"stream"`
	Ends   angle.Position `json:"ends"` // estimated position

	ground Motion // course and speed made good
}

// failed returns err with the time under way at which it occurred.
func (c *Crossing) failed(at time.Duration, err error) error {
	return fmt.Errorf("crossing from %v to %v, after %v: %w", c.from, c.to, printed.Clock(at), err)
}

// longestCrossing is the maximum time of a crossing.
const longestCrossing = 30 * 24 * time.Hour

// CourseToSteerAcross returns the one course to steer through the water from one position
// to another, at a speed through the water, through streams that change. It finds the
// earliest arrival, at most 30 days ahead, and sums the drifts until then. The vectors are
// summed on a plane, as on a chart, and corrected until the estimated position is the
// destination. Use it for passages of some tens of miles.
//
// CourseToSteerAcross calls streams for positions along the straight track. It calls
// [Hourly] at each change, and a [Stream] once. It calls any other source once between
// two changes, or every 15 minutes. If streams is nil, the water is slack. If the two
// positions are equal, Water and Lasts are zero.
//
// If the vessel cannot reach the destination, it returns an [*Error] of kind [NotReached],
// or of kind [NoStream] if the streams end before. It wraps other errors of the source. For
// a negative speed it returns an [*angle.RangeError]. If streams is a nil pointer, it
// returns a [*variation.MissingInputError].
func CourseToSteerAcross(from, to angle.Position, depart time.Time, speed sailing.Speed, streams Source) (Crossing, error) {
	if err := checkSpeed("speed through the water", speed); err != nil {
		return Crossing{}, err
	}
	if isNilPointer(streams) {
		return Crossing{}, &variation.MissingInputError{What: "streams"}
	}
	run := sailing.WGS84().Rhumb(from, to)
	c := Crossing{from: from, to: to, depart: depart, run: run}
	if run.Distance == 0 {
		return c, nil
	}
	fail := func(at time.Duration, err error) (Crossing, error) {
		return Crossing{}, c.failed(at, err)
	}
	if streams == nil {
		streams = Stream{}
	}
	goalNorth, goalEast := Motion{run.Course, sailing.Speed(run.Distance)}.components() // of one second's motion: metres
	// The vectors are summed on a plane, so the end misses the destination a little, more so
	// in high latitudes. Correct the aim by the miss, and repeat. A correction may make the
	// earliest arrival impossible. Then do not try that moment again, because the aim would
	// alternate between it and the next one.
	asked := asker{source: streams, crossing: &c}
	var notBefore time.Duration
	for i := range 10 {
		before := c.Lasts
		if at, err := c.aim(goalNorth, goalEast, speed, notBefore, &asked); err != nil {
			return fail(at, err)
		}
		if i > 0 && c.Lasts > before+time.Minute {
			notBefore = before + (c.Lasts-before)/2
		}
		if err := c.plot(); err != nil {
			return Crossing{}, err
		}
		miss := sailing.WGS84().Rhumb(c.Hours[len(c.Hours)-1].Ends, to)
		if miss.Distance < 1 {
			break
		}
		_, e := Motion{miss.Course, sailing.Speed(miss.Distance)}.components()
		goalEast += e // the northings of rhumb lines sum exactly
	}
	return c, nil
}

// isNilPointer reports whether a source is a nil *Hourly or a nil *Stream, which differs
// from a nil Source.
func isNilPointer(streams Source) bool {
	switch s := streams.(type) {
	case *Hourly:
		return s == nil
	case *Stream:
		return s == nil
	}
	return false
}

// aim finds the course and the least time, not before some, to a goal on the plane, in
// metres. It returns how far ahead it looked, with an error.
func (c *Crossing) aim(goalNorth, goalEast float64, speed sailing.Speed, notBefore time.Duration, streams *asker) (time.Duration, error) {
	c.Hours = nil
	var north, east float64 // what the streams have done
	for at := time.Duration(0); ; {
		if at >= longestCrossing {
			return at, &Error{Kind: NotReached, Reason: "not reached by then: the streams are too strong, or the distance is too long for one crossing; leave at another time, or split the passage"}
		}
		stream, err := streams.after(len(c.Hours), at, speed)
		if err != nil {
			return at, err
		}
		lasts := untilChange(streams.source, c.depart.Add(at))
		sn, se := Motion{stream.Set, stream.Rate}.components()
		t, ok := lasts.Seconds(), false
		if skip := max(0, (notBefore - at).Seconds()); skip < t {
			var more float64
			more, ok = meets(goalNorth-north-skip*sn, goalEast-east-skip*se, sn, se, float64(speed), at.Seconds()+skip, t-skip)
			if ok {
				t = skip + more
			}
		}
		c.Hours = append(c.Hours, CrossingHour{Begins: c.depart.Add(at), Lasts: time.Duration(math.Round(t * float64(time.Second))), Stream: stream})
		north, east = north+t*sn, east+t*se
		at += c.Hours[len(c.Hours)-1].Lasts
		if ok {
			c.Lasts = at
			break
		}
	}
	c.Water = Motion{motionOf(goalNorth-north, goalEast-east).Course, speed}
	drift := motionOf(north, east)
	c.drift = sailing.Run{Course: drift.Course, Distance: sailing.Distance(drift.Speed)}
	return 0, nil
}

// An asker calls a source for the streams of a crossing, once for each.
type asker struct {
	source   Source
	crossing *Crossing
	known    []Stream
}

// after returns the stream of hour i, which begins after some time under way.
func (a *asker) after(i int, at time.Duration, speed sailing.Speed) (Stream, error) {
	if i < len(a.known) {
		return a.known[i], nil
	}
	c := a.crossing
	part := min(1, at.Seconds()*float64(speed)/float64(c.run.Distance))
	place, err := sailing.WGS84().Follow(c.from, sailing.Run{Course: c.run.Course, Distance: c.run.Distance * sailing.Distance(part)})
	if err != nil {
		return Stream{}, err
	}
	moment := c.depart.Add(at)
	if _, ok := a.source.(changing); ok {
		moment = moment.Add(untilChange(a.source, moment) / 2)
	}
	stream, err := a.source.StreamAt(place, moment)
	if err != nil {
		return Stream{}, err
	}
	if err := checkSpeed("rate of the stream", stream.Rate); err != nil {
		return Stream{}, err
	}
	a.known = append(a.known, stream)
	return stream, nil
}

// A changing source says when its stream changes next.
type changing interface{ NextChange(time.Time) time.Time }

// untilChange returns the time for which a stream is used before the next call.
func untilChange(streams Source, t time.Time) time.Duration {
	switch s := streams.(type) {
	case Hourly:
		return s.period() - t.Sub(s.Start)%s.period()
	case *Hourly:
		return untilChange(*s, t)
	case Stream, *Stream:
		return longestCrossing
	case changing:
		if d := s.NextChange(t).Sub(t); d > 0 {
			return d
		}
	}
	return 15 * time.Minute
}

// meets returns the time t, from 0 to lasts seconds, at which the distance run through the
// water equals the distance left after the drift. Then |goal − t·stream| = v (before + t).
func meets(north, east, sn, se, v, before, lasts float64) (t float64, ok bool) {
	a := sn*sn + se*se - v*v
	b := -2*(north*sn+east*se) - 2*v*v*before
	c := north*north + east*east - v*v*before*before
	if c <= 0 {
		return 0, true // the vessel could have arrived before
	}
	// The least positive root of at² + bt + c. At t = 0 the sum is positive.
	var roots []float64
	if math.Abs(a) < 1e-12*(sn*sn+se*se+v*v) {
		if b != 0 {
			roots = []float64{-c / b}
		}
	} else if d := b*b - 4*a*c; d >= 0 {
		w := -(b + math.Copysign(math.Sqrt(d), b)) / 2
		roots = []float64{w / a}
		if w != 0 {
			roots = append(roots, c/w)
		}
	}
	t = math.Inf(1)
	for _, r := range roots {
		if r >= 0 {
			t = min(t, r)
		}
	}
	// Allow for rounding, so that an arrival at the moment of a change is not lost.
	return min(t, lasts), t <= lasts+1e-6
}

// plot fills in the ground motions, the positions and the widest offset.
func (c *Crossing) plot() error {
	place := c.from
	c.MaxOffTrack = 0
	var north, east float64
	for i := range c.Hours {
		h := &c.Hours[i]
		h.ground = sum(c.Water, h.Stream)
		var err error
		place, err = sailing.WGS84().Follow(place, sailing.Run{Course: h.ground.Course, Distance: h.ground.Speed.For(h.Lasts)})
		if err != nil {
			return c.failed(h.Begins.Sub(c.depart), err)
		}
		h.Ends = place
		n, e := h.ground.components()
		north, east = north+n*h.Lasts.Seconds(), east+e*h.Lasts.Seconds()
		s, k := c.run.Course.FromNorth().SinCos()
		if off := sailing.Distance(east*k - north*s); math.Abs(float64(off)) > math.Abs(float64(c.MaxOffTrack)) {
			c.MaxOffTrack = off
		}
	}
	return nil
}
