package decklog

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// StreamUnknown warns of runs for which no stream was given. They count as slack water.
const StreamUnknown working.WarningKind = "stream-unknown"

// Options say how a log is reckoned.
type Options struct {
	Factor Factor

	// Variation and Deviation convert courses by compass. They may be nil if all courses are
	// true.
	Variation variation.Source
	Deviation deviation.Source

	// Start is where the log begins. If nil, it begins at the fix of its first row.
	Start *stream.Estimate

	// Streams give the stream of a row that states none. If nil, such a stream is unknown: it
	// counts as slack water, with a warning.
	Streams stream.Source

	// HeadingUncertainty is that of true courses. Courses by compass have that of their
	// conversion. HeadingScatter is that of steering. See [stream.ReckonedRun] for these and for
	// what follows if one is unset.
	HeadingUncertainty, HeadingScatter angle.Uncertainty
	LeewayUncertainty                  angle.Uncertainty
	StreamUncertainty                  sailing.Uncertainty[sailing.Speed]
}

// A Point is a row of a log, as reckoned.
type Point struct {
	Entry    Entry               `json:"-"`
	Time     time.Time           `json:"time"`
	Run      *stream.ReckonedRun `json:"run,omitempty"` // from the row before; nil for the first
	Distance sailing.Distance    `json:"distance"`      // of the run through the water

	// DR and EP are the positions before the fix, if the row has one.
	DR angle.Position  `json:"dr"`
	EP stream.Estimate `json:"ep"`

	Fix         *stream.Estimate    `json:"fix,omitempty"`         // nil without a fix
	SetAndDrift *stream.SetAndDrift `json:"setAndDrift,omitempty"` // since the last fix; nil without a fix
}

// A Reckoning is a log that [Log.Reckon] has worked. Its warnings are those of the conversion of
// courses, such as an old rose or one far away. It also warns of the leeway, and of runs without a
// stream. It repeats no warning of the same rose, sector or leeway.
type Reckoning struct {
	Points   []Point           `json:"points"`
	Warnings []working.Warning `json:"warnings,omitempty"`
}

// state is what a reckoning carries from row to row.
type state struct {
	o         Options
	factor    float64
	dr        angle.Position
	water, ep stream.Estimate // without and with the stream
	lastFix   time.Time
	heading   angle.True
	sigma     angle.Uncertainty // of the heading
	steered   bool              // a course was given
	compass   *angle.Compass    // nil for a true course
	leeway    angle.Angle
	wind      *angle.True
	unknown   int             // runs without a stream
	warned    map[string]bool // warnings that are not repeated
	messages  []working.Warning
}

// Reckon returns the reckoning of the log, row by row. The distance of each run is the
// difference of the readings times the factor, or the speed times the time.
//
// If a row cannot be reckoned, it returns a [*record.Error] whose Row is the number of the
// entry, which wraps the reason. For an invalid factor it returns an [*angle.RangeError]. For an
// empty log, one without a position where it begins, or streams that are a nil pointer, it
// returns a [*variation.MissingInputError].
func (l Log) Reckon(o Options) (Reckoning, error) {
	factor, err := o.Factor.value()
	if err != nil {
		return Reckoning{}, err
	}
	if v := reflect.ValueOf(o.Streams); v.Kind() == reflect.Pointer && v.IsNil() {
		return Reckoning{}, &variation.MissingInputError{What: "streams"}
	}
	if len(l) == 0 {
		return Reckoning{}, &variation.MissingInputError{What: "rows in the log: give at least one"}
	}
	s := state{o: o, factor: factor, warned: map[string]bool{}}
	switch {
	case o.Start != nil:
		s.begin(*o.Start)
	case l[0].Fix != nil:
		s.begin(fixOf(l[0]))
	default:
		return Reckoning{}, &variation.MissingInputError{What: "position where the log begins: give a fix in its first row, or Options.Start"}
	}
	r := Reckoning{Points: make([]Point, len(l))}
	for i := range l {
		p := &r.Points[i]
		p.Entry, p.Time = l[i], l[i].Time
		if i > 0 {
			if err = s.run(l[i-1], l[i], p); err != nil {
				return Reckoning{}, &record.Error{Row: i + 1, Err: err}
			}
		}
		p.DR, p.EP = s.dr, s.ep
		p.EP.Time = l[i].Time
		if err = s.at(l[i], p, i == 0); err != nil {
			return Reckoning{}, &record.Error{Row: i + 1, Err: err}
		}
	}
	r.Warnings = s.messages
	switch {
	case s.unknown == 1:
		r.Warnings = append(r.Warnings, working.Warn(StreamUnknown, "log-one-stream-unknown", "one run has no stream: it counts as slack water"))
	case s.unknown > 1:
		r.Warnings = append(r.Warnings, working.Warn(StreamUnknown, "log-stream-unknown", "%d runs have no stream: they count as slack water", s.unknown))
	}
	return r, nil
}

// fixOf returns the fix of a row.
func fixOf(e Entry) stream.Estimate {
	f := stream.Estimate{Position: *e.Fix, Time: e.Time}
	if sigma, ok := e.FixUncertainty.Sigma(); ok {
		f.Covariance = sailing.Circular(sigma)
	}
	return f
}

// begin begins all reckonings at a position.
func (s *state) begin(e stream.Estimate) {
	s.dr, s.water, s.ep, s.lastFix = e.Position, e, e, e.Time
}

// at takes what a row says at its time: the fix, the course, the leeway and the wind.
func (s *state) at(e Entry, p *Point, first bool) error {
	if e.Fix != nil {
		f := fixOf(e)
		p.Fix = &f
		if since := e.Time.Sub(s.lastFix); !first && since > 0 {
			sd, err := stream.SetAndDriftBetween(s.water, f, since)
			if err != nil {
				return err
			}
			p.SetAndDrift = &sd
		}
		s.begin(f)
	}
	if first {
		s.water.Time, s.ep.Time = e.Time, e.Time
	}
	if e.Compass != nil && e.True != nil {
		return errors.New("a course by compass and a true course in one row: give one of them")
	}
	if e.Compass != nil {
		s.compass, s.steered = e.Compass, true
	}
	if e.True != nil {
		s.compass, s.heading, s.sigma, s.steered = nil, *e.True, s.o.HeadingUncertainty, true
	}
	if e.Leeway != nil {
		s.leeway = *e.Leeway
	}
	if e.WindFrom != nil {
		s.wind = e.WindFrom
	}
	return nil
}

// warn keeps a warning once for each kind. If of is true it is kept once for each thing that it is
// of: the first argument of its reason, such as the year of a rose.
func (s *state) warn(w working.Warning, of bool) {
	key := string(w.Kind)
	if of && len(w.Reason.Arguments) > 0 {
		key += " " + w.Reason.Arguments[0]
	}
	if !s.warned[key] {
		s.warned[key] = true
		s.messages = append(s.messages, w)
	}
}

// distance returns the distance through the water from one row to the next.
func (s *state) distance(from, to Entry) (sailing.Distance, error) {
	lasts := to.Time.Sub(from.Time)
	begin := from.Log
	if from.Reset != nil {
		begin = from.Reset
	}
	var d sailing.Distance
	switch {
	case begin != nil && to.Log != nil:
		if d = (*to.Log - *begin) * sailing.Distance(s.factor); !(d >= 0) {
			return 0, fmt.Errorf("the log reads %v, less than %v before: correct the reading, or if the log was set anew, give the reading it was set to in the column reset of the row before", *to.Log, *begin)
		}
	case from.Speed != nil:
		d = from.Speed.For(lasts)
	case lasts == 0:
	default:
		return 0, errors.New("no distance to this row: give the reading of the log in this row and the one before, or a speed in the one before")
	}
	if lasts == 0 && d > 0 || lasts > 0 && float64(d)/lasts.Seconds() > float64(maxSpeed) {
		return 0, fmt.Errorf("%v in %v: this is above 100 kn, so correct the reading or the time", d, lasts)
	}
	return d, nil
}

// run reckons from one row to the next.
func (s *state) run(from, to Entry, p *Point) error {
	lasts := to.Time.Sub(from.Time)
	if lasts < 0 {
		return errors.New("it is before the time of the row above: write the rows in order of time")
	}
	d, err := s.distance(from, to)
	if err != nil {
		return err
	}
	p.Distance = d
	if d > 0 && !s.steered {
		return errors.New("no course yet: give one in the column compass or true of a row before")
	}
	if s.compass != nil {
		if err := s.convert(from.Time, d > 0); err != nil {
			return err
		}
	}
	r := stream.ReckonedRun{Heading: s.heading, Lasts: lasts, HeadingUncertainty: s.sigma, HeadingScatter: s.o.HeadingScatter, StreamUncertainty: s.o.StreamUncertainty}
	if lasts > 0 {
		r.Speed = sailing.Speed(float64(d) / lasts.Seconds())
	}
	if sigma, ok := s.o.Factor.PerMile.Sigma(); ok {
		// The uncertainty is of the factor; the speed already has the factor applied.
		if r.SpeedUncertainty, err = sailing.StandardUncertainty(r.Speed * sailing.Speed(sigma.NauticalMiles()/s.factor)); err != nil {
			return err
		}
	}
	if s.leeway != 0 {
		if r.Leeway, err = s.leewayOn(); err != nil {
			return err
		}
		r.LeewayUncertainty = s.o.LeewayUncertainty
	}
	slack := r
	slack.StreamUncertainty, _ = sailing.StandardUncertainty[sailing.Speed](0)
	if s.water, err = s.water.Run(slack); err != nil {
		return err
	}
	if s.dr, err = sailing.WGS84().Follow(s.dr, sailing.Run{Course: s.heading, Distance: d}); err != nil {
		return err
	}
	switch {
	case from.Stream != nil:
		r.Stream = *from.Stream
	case s.o.Streams == nil:
		if lasts > 0 {
			s.unknown++
		}
	default:
		if r.Stream, err = mean(s.o.Streams, s.ep.Position, from.Time, lasts); err != nil {
			return err
		}
	}
	p.Run = &r
	s.ep, err = s.ep.Run(r)
	return err
}

// convert finds the true heading from the course by compass, where the vessel is. If the vessel
// moves on it, what the conversion warns of counts.
func (s *state) convert(on time.Time, moves bool) error {
	at := s.ep.Position
	h, err := course.FromCompass(*s.compass, course.With{Variation: s.o.Variation, Deviation: s.o.Deviation, At: &at, On: on})
	if err != nil {
		return err
	}
	s.heading, s.sigma = h.True(), h.Uncertainty()
	if moves {
		for _, w := range h.Warnings() {
			s.warn(w, true)
		}
	}
	return nil
}

// leewayOn returns the leeway on the heading, in the wind of the log.
func (s *state) leewayOn() (stream.Leeway, error) {
	if s.wind == nil {
		return stream.Leeway{}, errors.New("a leeway without a wind: give the true direction from which the wind blows in the column wind")
	}
	leeway, warnings, err := stream.LeewayOn(s.heading, s.leeway, *s.wind)
	if err != nil {
		return leeway, err
	}
	for _, w := range warnings {
		s.warn(w, false)
	}
	return leeway, nil
}

// mean returns the mean of the streams of a run, as vectors. It takes the stream in the middle
// between two changes, or of each 15 minutes.
func mean(source stream.Source, at angle.Position, begin time.Time, lasts time.Duration) (stream.Stream, error) {
	if s, ok := source.(stream.Stream); ok || lasts <= 0 {
		return s, nil
	}
	var north, east float64
	for done := time.Duration(0); done < lasts; {
		now := begin.Add(done)
		part := 15 * time.Minute
		if s, ok := source.(interface{ NextChange(time.Time) time.Time }); ok {
			if d := s.NextChange(now).Sub(now); d > 0 {
				part = d
			}
		}
		part = min(part, lasts-done)
		s, err := source.StreamAt(at, now.Add(part/2))
		if err != nil {
			return stream.Stream{}, err
		}
		if _, err := stream.MadeGood(stream.Motion{}, s); err != nil { // its rate is invalid
			return stream.Stream{}, err
		}
		sin, cos := s.Set.FromNorth().SinCos()
		w := float64(s.Rate) * float64(part) / float64(lasts)
		north, east = north+w*cos, east+w*sin
		done += part
	}
	a, err := angle.Atan2(east, north)
	if err != nil || north == 0 && east == 0 {
		return stream.Stream{}, nil // slack water
	}
	return stream.Stream{Set: angle.TrueFrom(a), Rate: sailing.Speed(math.Hypot(north, east))}, nil
}
