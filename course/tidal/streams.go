package tidal

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

// The warnings of [Streams].
const (
	BeyondSprings working.WarningKind = "beyond-springs"  // the range is greater than at springs
	BelowNeaps    working.WarningKind = "below-neaps"     // the range is smaller than at neaps
	RateBelowZero working.WarningKind = "rate-below-zero" // so far below neaps that a rate would be negative; it counts as 0
)

// A Tide is one high water at the standard port. Make one with [ByRatio] or [ByHeights]. The zero
// value is invalid.
type Tide struct {
	highWater time.Time
	high, low sailing.Distance
	ratio     float64
	heights   bool // the ratio follows from the heights
	made      bool
}

// ByRatio returns a high water with the ratio of its range: 0 at neaps, 1 at springs, 0.5 half way
// between them. [Table.Streams] checks it.
func ByRatio(highWater time.Time, ratio float64) Tide {
	return Tide{highWater: highWater, ratio: ratio, made: true}
}

// ByHeights returns a high water with its height, and that of the low water before or after it.
// Their difference is the range. [Table.Streams] checks both.
func ByHeights(highWater time.Time, high, low sailing.Distance) Tide {
	return Tide{highWater: highWater, high: high, low: low, heights: true, made: true}
}

// Options say which streams of a table are taken, and how.
type Options struct {
	Tides []Tide // the high waters, in any order; at least one

	// Place is the name of the place whose streams count everywhere. PlaceAt chooses a place
	// for each position instead, as [Table.Nearest] does. Set one of them.
	Place   string
	PlaceAt func(angle.Position) (string, error)

	// ByVectors interpolates between the middles of the hours. If false, each stream holds for
	// its whole hour.
	ByVectors bool
}

// Streams are the tidal streams of some high waters. It is a [stream.Source]. Make one with
// [Table.Streams]. It does not change.
type Streams struct {
	use      Options
	port     string
	springs  sailing.Distance
	neaps    sailing.Distance
	tides    []Tide
	places   map[string]*Place
	warnings []working.Warning
}

var _ stream.Source = (*Streams)(nil)

// Streams returns the streams of some high waters. Its errors are:
//
//   - a [*record.Error] for a table that [ReadTable] would not read;
//   - a [*variation.MissingInputError] without tides or a place, or for heights if the table does
//     not state its ranges;
//   - an [*angle.RangeError] for a ratio below -1 or above 3, for a low water that is not below
//     its high water, and for a high water that is given twice;
//   - a [*stream.Error] of kind [stream.NoStream] for an unknown place, and for both Place and
//     PlaceAt.
func (t Table) Streams(o Options) (*Streams, error) {
	if err := t.check(); err != nil {
		return nil, &record.Error{Err: err}
	}
	switch {
	case len(o.Tides) == 0:
		return nil, &variation.MissingInputError{What: "high water at the standard port: give its times, such as 2026-07-02T05:10Z"}
	case o.Place == "" && o.PlaceAt == nil:
		return nil, &variation.MissingInputError{What: "place of the table: give its name, or a position to take the nearest"}
	case o.Place != "" && o.PlaceAt != nil:
		return nil, &stream.Error{Kind: stream.NoStream, Reason: "both Place and PlaceAt are set: set one of them"}
	}
	s := &Streams{use: o, port: t.Port, springs: t.SpringRange, neaps: t.NeapRange, tides: slices.Clone(o.Tides), places: map[string]*Place{}}
	s.use.Tides = nil
	for _, p := range t.Places {
		p.Hours = slices.Clone(p.Hours)
		s.places[p.Name] = &p
	}
	if o.Place != "" {
		if _, err := s.place(o.Place); err != nil {
			return nil, err
		}
	}
	for i := range s.tides {
		if err := s.rate(&s.tides[i]); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(s.tides, func(a, b Tide) int { return a.highWater.Compare(b.highWater) })
	for i := 1; i < len(s.tides); i++ {
		if apart := s.tides[i].highWater.Sub(s.tides[i-1].highWater); apart < time.Hour {
			return nil, &angle.RangeError{What: "time between two high waters, in hours,", Value: apart.Hours(), Accepted: "1 or more: give each high water once"}
		}
	}
	for _, p := range t.Places { // in the order of the table
		if o.Place == "" || o.Place == p.Name {
			s.warnBelowZero(p)
		}
	}
	return s, nil
}

// rate finds the ratio of a tide and warns beyond springs and below neaps.
func (s *Streams) rate(t *Tide) error {
	if !t.made || t.highWater.IsZero() {
		return &variation.MissingInputError{What: "time of high water: give the time of each"}
	}
	at := t.highWater.UTC().Format(clock)
	if t.heights {
		if s.springs == 0 {
			return &variation.MissingInputError{What: "spring range and neap range in the table, which heights need: give both, such as 4.6 m and 2.2 m"}
		}
		if span := t.high - t.low; !(span > 0 && span < maxRange) {
			return &angle.RangeError{What: "range of the tide, high water minus low water,", Value: span.Metres(), Accepted: "metres above 0, below 30"}
		}
		t.ratio = float64((t.high - t.low - s.neaps) / (s.springs - s.neaps))
	}
	if !(t.ratio >= -1 && t.ratio <= 3) {
		return &angle.RangeError{What: "ratio of the tide", Value: t.ratio, Accepted: "-1 to 3, where 0 is neaps and 1 is springs"}
	}
	switch {
	case t.ratio > 1:
		s.warnings = append(s.warnings, working.Warn(BeyondSprings, "tidal-beyond-springs", "high water %s UTC: the range is beyond springs (ratio %.2f), so the rates are extrapolated", at, t.ratio))
	case t.ratio < 0:
		s.warnings = append(s.warnings, working.Warn(BelowNeaps, "tidal-below-neaps", "high water %s UTC: the range is below neaps (ratio %.2f), so the rates are extrapolated", at, t.ratio))
	}
	return nil
}

// warnBelowZero warns of each hour of a place whose rate would be negative.
func (s *Streams) warnBelowZero(p Place) {
	for _, t := range s.tides {
		for _, h := range p.Hours {
			if h.rate(t.ratio) < 0 {
				s.warnings = append(s.warnings, working.Warn(RateBelowZero, "tidal-rate-below-zero", "high water %s UTC, place %s, hour %s: the rate would be %v, so it counts as slack water", t.highWater.UTC().Format(clock), working.OneLine(p.Name), hourName(h.Hour), h.rate(t.ratio)))
			}
		}
	}
}

// rate returns the rate for a ratio. It may be negative below neaps.
func (h Hour) rate(ratio float64) sailing.Speed {
	return h.Neaps + (h.Springs-h.Neaps)*sailing.Speed(ratio)
}

// stream returns the stream for a ratio.
func (h Hour) stream(ratio float64) stream.Stream {
	if r := h.rate(ratio); r > 0 {
		return stream.Stream{Set: h.Set, Rate: r}
	}
	return stream.Stream{}
}

// Warnings returns the warnings about the tides: beyond springs, below neaps, and rates that
// would be negative. For nil it returns nil.
func (s *Streams) Warnings() []working.Warning {
	if s == nil {
		return nil
	}
	return slices.Clone(s.warnings)
}

// StreamAt returns the stream at a position and a time. If the table or the high waters leave
// it out, it returns a [*stream.Error] of kind [stream.NoStream]. It also returns the errors of
// [Options.PlaceAt].
func (s *Streams) StreamAt(p angle.Position, t time.Time) (stream.Stream, error) {
	place, err := s.placeAt(p)
	if err != nil {
		return stream.Stream{}, err
	}
	if s.use.ByVectors {
		return s.byVectors(place, t)
	}
	st, _, err := s.byHour(place, t)
	return st, err
}

// placeAt returns the place for a position.
func (s *Streams) placeAt(p angle.Position) (*Place, error) {
	if s == nil {
		return nil, &variation.MissingInputError{What: "streams"}
	}
	name := s.use.Place
	if s.use.PlaceAt != nil {
		var err error
		if name, err = s.use.PlaceAt(p); err != nil {
			return nil, err
		}
	}
	return s.place(name)
}

// place returns the place with a name.
func (s *Streams) place(name string) (*Place, error) {
	if p, ok := s.places[name]; ok {
		return p, nil
	}
	var known []string
	for name := range s.places {
		known = append(known, working.OneLine(name))
	}
	slices.Sort(known)
	if len(known) > 30 {
		known = append(known[:30], "…")
	}
	return nil, &stream.Error{Kind: stream.NoStream, Reason: fmt.Sprintf("the table has no place %.60q: its places are %s", name, strings.Join(known, ", "))}
}

// nearest returns the index of the nearest high water. In the middle between two it is the
// later one, as an hour includes its beginning.
func (s *Streams) nearest(t time.Time) int {
	return sort.Search(len(s.tides)-1, func(i int) bool { return t.Before(s.middle(i)) })
}

// middle returns the time in the middle between high waters i and i+1.
func (s *Streams) middle(i int) time.Time {
	a := s.tides[i].highWater
	return a.Add(s.tides[i+1].highWater.Sub(a) / 2)
}

const (
	halfHour = 30 * time.Minute

	// maxGap is the maximum time between two high waters for which the table reaches from one
	// to the other.
	maxGap = 2 * (maxHour + 1) * time.Hour
)

// hourOf returns the nearest high water and the hour of it that includes t. It is false if the
// table ends before.
func (s *Streams) hourOf(t time.Time) (tide, hour int, ok bool) {
	i := s.nearest(t)
	since := t.Sub(s.tides[i].highWater)
	n := int(math.Floor(float64(since+halfHour) / float64(time.Hour)))
	// The last hour stretches to the middle between two high waters, by half an hour at most.
	switch {
	case n == maxHour+1 && i+1 < len(s.tides) && s.tides[i+1].highWater.Sub(s.tides[i].highWater) <= maxGap:
		n = maxHour
	case n == -maxHour-1 && i > 0 && s.tides[i].highWater.Sub(s.tides[i-1].highWater) <= maxGap:
		n = -maxHour
	}
	return i, n, n >= -maxHour && n <= maxHour
}

// byHour returns the stream of the hour that includes t, and that hour.
func (s *Streams) byHour(p *Place, t time.Time) (stream.Stream, Hour, error) {
	i, n, ok := s.hourOf(t)
	if !ok {
		return stream.Stream{}, Hour{}, s.outside(p, t)
	}
	j, found := p.find(n)
	if !found {
		return stream.Stream{}, Hour{}, s.leftOut(p, n, t)
	}
	h := p.Hours[j]
	return h.stream(s.tides[i].ratio), h, nil
}

// find returns the index of an hour.
func (p *Place) find(hour int) (int, bool) {
	return slices.BinarySearchFunc(p.Hours, hour, func(h Hour, n int) int { return h.Hour - n })
}

// A node is a printed stream, at the middle of its hour.
type node struct {
	at     time.Time
	stream stream.Stream
	hour   int
}

// node returns the node of an hour of a tide. It reports false if the hour is outside the
// table, or nearer to another high water. A missing hour is an error.
func (s *Streams) node(p *Place, tide, hour int) (n node, ok bool, err error) {
	at := s.tides[tide].highWater.Add(time.Duration(hour) * time.Hour)
	if hour < -maxHour || hour > maxHour || s.nearest(at) != tide {
		return node{}, false, nil
	}
	j, found := p.find(hour)
	if !found {
		return node{}, false, s.leftOut(p, hour, at)
	}
	return node{at, p.Hours[j].stream(s.tides[tide].ratio), hour}, true, nil
}

// around returns the nodes before and after t. They are the same at both ends of the table.
func (s *Streams) around(p *Place, t time.Time) (before, after node, err error) {
	i, _, ok := s.hourOf(t)
	if !ok {
		return node{}, node{}, s.outside(p, t)
	}
	n := int(math.Floor(float64(t.Sub(s.tides[i].highWater)) / float64(time.Hour)))
	before, ok1, err1 := s.node(p, i, n)
	if !ok1 && err1 == nil && i > 0 {
		before, ok1, err1 = s.last(p, i-1)
	}
	if t.Equal(before.at) && ok1 {
		return before, before, nil
	}
	after, ok2, err2 := s.node(p, i, n+1)
	if !ok2 && err2 == nil && i+1 < len(s.tides) {
		after, ok2, err2 = s.first(p, i+1)
	}
	switch {
	case err1 != nil:
		return node{}, node{}, err1
	case err2 != nil:
		return node{}, node{}, err2
	case !ok1:
		before = after
	case !ok2:
		after = before
	}
	return before, after, nil
}

// last returns the last node of a tide that is nearer to it than to the next.
func (s *Streams) last(p *Place, tide int) (n node, ok bool, err error) {
	for hour := maxHour; hour >= -maxHour && !ok && err == nil; hour-- {
		n, ok, err = s.node(p, tide, hour)
	}
	return n, ok, err
}

// first returns the first node of a tide that is nearer to it than to the one before.
func (s *Streams) first(p *Place, tide int) (n node, ok bool, err error) {
	for hour := -maxHour; hour <= maxHour && !ok && err == nil; hour++ {
		n, ok, err = s.node(p, tide, hour)
	}
	return n, ok, err
}

// byVectors returns the stream interpolated between the middles of the hours.
func (s *Streams) byVectors(p *Place, t time.Time) (stream.Stream, error) {
	before, after, err := s.around(p, t)
	if err != nil {
		return stream.Stream{}, err
	}
	span := after.at.Sub(before.at)
	if span <= 0 {
		return before.stream, nil
	}
	w := float64(t.Sub(before.at)) / float64(span)
	n1, e1 := components(before.stream)
	n2, e2 := components(after.stream)
	return ofComponents(n1+(n2-n1)*w, e1+(e2-e1)*w), nil
}

// components returns the components of a stream to north and to east, in metres a second.
func components(s stream.Stream) (north, east float64) {
	sin, cos := s.Set.FromNorth().SinCos()
	return float64(s.Rate) * cos, float64(s.Rate) * sin
}

// ofComponents returns the stream with two components.
func ofComponents(north, east float64) stream.Stream {
	rate := math.Hypot(north, east)
	a, err := angle.Atan2(east, north)
	if err != nil || rate == 0 {
		return stream.Stream{}
	}
	return stream.Stream{Set: angle.TrueFrom(a), Rate: sailing.Speed(rate)}
}

// clock is the layout of times.
const clock = "2006-01-02 15:04"

// outside returns the error for a time outside the hours of all high waters.
func (s *Streams) outside(p *Place, t time.Time) error {
	hw := s.tides[s.nearest(t)].highWater
	return &stream.Error{Kind: stream.NoStream, Reason: fmt.Sprintf("no stream at place %s for %s UTC: the nearest high water given is %s UTC, and the table holds for 6 h 30 min before and after it; give the other high waters too", working.OneLine(p.Name), t.UTC().Format(clock), hw.UTC().Format(clock))}
}

// leftOut returns the error for an hour that the table leaves out.
func (s *Streams) leftOut(p *Place, hour int, t time.Time) error {
	return &stream.Error{Kind: stream.NoStream, Reason: fmt.Sprintf("no stream at place %s for %s UTC: the table leaves out hour %s there; give that hour, or choose another place", working.OneLine(p.Name), t.UTC().Format(clock), hourName(hour))}
}

// hourName returns an hour as printed: HW, HW−3, HW+3.
func hourName(hour int) string {
	switch {
	case hour < 0:
		return fmt.Sprintf("HW−%d", -hour)
	case hour > 0:
		return fmt.Sprintf("HW+%d", hour)
	}
	return "HW"
}

// NextChange returns a time after t until which the stream may be taken as constant. That is the
// end of the hour. By vectors it is at most 10 minutes after t, and at most 15 minutes if the place
// depends on the position.
func (s *Streams) NextChange(t time.Time) time.Time {
	step := 24 * time.Hour
	switch {
	case s == nil || len(s.tides) == 0:
		return t.Add(time.Hour)
	case s.use.ByVectors:
		step = 10 * time.Minute
	case s.use.PlaceAt != nil:
		step = 15 * time.Minute
	}
	next := t.Add(step)
	i := s.nearest(t)
	since := t.Sub(s.tides[i].highWater)
	n := math.Floor(float64(since+halfHour) / float64(time.Hour))
	if end := s.tides[i].highWater.Add(time.Duration(n)*time.Hour + halfHour); end.Before(next) && end.After(t) {
		next = end
	}
	if i+1 < len(s.tides) && s.middle(i).Before(next) {
		next = s.middle(i)
	}
	return next
}
