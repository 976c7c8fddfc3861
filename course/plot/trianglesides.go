package plot

import (
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
)

// miles is a point of a triangle, in nautical miles from A.
type miles struct{ east, north float64 }

// to returns the point reached by a run.
func (m miles) to(course angle.True, run float64) miles {
	sin, cos := course.FromNorth().SinCos()
	return miles{m.east + run*sin, m.north + run*cos}
}

// A side is a side of a triangle.
type side struct {
	kind     signs.LineKind
	from, to miles
	course   angle.True
	speed    sailing.Speed
	lasts    time.Duration
	begins   string // time in four figures, or empty
	number   int    // of several streams, from 1; otherwise 0
	level    int    // how far to one side it is drawn, if the sides lie on one line
}

// length returns the length of a side in miles.
func (s side) length() float64 { return math.Hypot(s.to.east-s.from.east, s.to.north-s.from.north) }

// A triangleGeometry is a triangle in miles, and how it is laid on the sheet.
type triangleGeometry struct {
	water, ground side
	streams       []side
	goal          miles // the end of the track that no course makes good
	lasts         time.Duration

	room   drawing.Spot // what the sides may take across and down, mm
	flat   bool         // whether the sides lie on one line, or nearly so
	across drawing.Spot // from one level to the next
	scale  float64      // mm to the mile
}

// motions returns the motion through the water, and the streams one after the other. It returns an
// error if they cannot be drawn.
func (t Triangle) motions() (water stream.Motion, hours []stream.CrossingHour, err error) {
	water, hours = t.Steering.Water, []stream.CrossingHour{{Begins: t.Begins, Lasts: t.Lasts, Stream: t.Steering.Stream}}
	if t.Lasts == 0 {
		hours[0].Lasts = time.Hour
	}
	if len(t.Crossing.Hours) > 0 {
		water, hours = t.Crossing.Water, t.Crossing.Hours
	}
	if !finite(water.Speed) {
		return water, nil, &angle.RangeError{What: "speed through the water", Value: water.Speed.Knots(), Accepted: "0 kn or more"}
	}
	moves := water.Speed > 0
	for _, h := range hours {
		if !finite(h.Stream.Rate) {
			return water, nil, &angle.RangeError{What: "rate of the stream", Value: h.Stream.Rate.Knots(), Accepted: "0 kn or more"}
		}
		if h.Lasts <= 0 {
			return water, nil, &angle.RangeError{What: "time of a stream triangle", Value: h.Lasts.Hours(), Accepted: "more than 0 hours"}
		}
		moves = moves || h.Stream.Rate > 0
	}
	if !moves {
		return water, nil, &angle.RangeError{What: "speed or rate in a stream triangle", Accepted: "one of them above 0 kn"}
	}
	return water, hours, nil
}

// geometry returns the sides of a triangle.
func (t Triangle) geometry() (*triangleGeometry, error) {
	water, hours, err := t.motions()
	if err != nil {
		return nil, err
	}
	g, total := &triangleGeometry{}, 0.0
	for _, h := range hours {
		total += h.Lasts.Hours()
		g.lasts += h.Lasts
	}
	run := miles{}
	laid := func() side {
		s := side{kind: signs.WaterTrack, from: run, course: water.Course, speed: water.Speed, lasts: g.lasts}
		s.to = run.to(water.Course, water.Speed.Knots()*total)
		run = s.to
		return s
	}
	if t.MadeGood {
		g.water = laid()
	}
	for _, h := range hours {
		s := side{kind: signs.Stream, from: run, course: h.Stream.Set, speed: h.Stream.Rate, lasts: h.Lasts}
		if !h.Begins.IsZero() {
			s.begins = h.Begins.Format("1504")
		}
		s.to = run.to(h.Stream.Set, h.Stream.Rate.Knots()*h.Lasts.Hours())
		run = s.to
		if len(hours) > 1 {
			s.number = 1 + len(g.streams)
		}
		g.streams = append(g.streams, s)
	}
	if !t.MadeGood {
		g.water = laid()
	}
	g.ground = side{kind: signs.GroundTrack, to: run, lasts: g.lasts}
	made := math.Hypot(run.east, run.north)
	if longest := max(g.water.length(), 1e-300); made < 1e-9*longest { // rounding alone
		made, g.ground.to = 0, miles{}
	}
	g.ground.speed = sailing.Speed(made/total) * sailing.Knot
	if made > 0 {
		g.ground.course = directionOf(run)
	}
	if t.Track != nil {
		g.goal = miles{}.to(*t.Track, 1.2*max(g.water.length(), g.streams[0].length()))
	}
	return g, nil
}

// finite reports whether a speed can be drawn.
func finite(s sailing.Speed) bool { return s >= 0 && float64(s) < 1e9 }

// directionOf returns the direction from A to a point, to the second of arc.
func directionOf(m miles) angle.True {
	a, err := angle.Degrees(math.Atan2(m.east, m.north) * 180 / math.Pi)
	if err != nil {
		return angle.True{}
	}
	return angle.TrueFrom(a.Round(angle.Second))
}

// arrange finds whether the triangle can be seen as one, and its scale.
func (g *triangleGeometry) arrange() {
	g.fit()
	longest := g.ground
	for _, s := range g.sides() {
		if s.length() > longest.length() {
			longest = s
		}
	}
	sin, cos := longest.course.FromNorth().SinCos()
	if longest.kind == signs.GroundTrack && longest.length() > 0 {
		sin, cos = longest.to.east/longest.length(), longest.to.north/longest.length()
	}
	least, most := 0.0, 0.0
	for _, s := range g.sides() {
		off := s.to.east*cos - s.to.north*sin
		least, most = min(least, off), max(most, off)
	}
	if (most-least)*g.scale >= minTriangle {
		return
	}
	g.flat = true
	// Levels go down the sheet, or to the right.
	if g.across = drawing.At(cos, sin); g.across.Y < -1e-9 {
		g.across = drawing.At(-cos, -sin)
	}
	g.water.level = 1
	level := 2
	for i := range g.streams {
		if i > 0 && g.streams[i].course.Sub(g.streams[i-1].course).Abs() > angle.Turn/4 {
			level++
		}
		g.streams[i].level = level
	}
	g.fit()
}

// bounds returns the corners of the box that holds all sides, in miles, y down. Room for
// levels is in it.
func (g *triangleGeometry) bounds() (low, high drawing.Spot) {
	include := func(m miles, level int) {
		at := drawing.At(m.east, -m.north)
		if g.scale > 0 {
			at = at.Moved(g.across.X*float64(level)*sidesApart/g.scale, g.across.Y*float64(level)*sidesApart/g.scale)
		}
		low, high = drawing.At(min(low.X, at.X), min(low.Y, at.Y)), drawing.At(max(high.X, at.X), max(high.Y, at.Y))
	}
	for _, s := range g.sides() {
		if s.length() == 0 && s.kind != signs.GroundTrack {
			continue
		}
		include(s.from, s.level)
		include(s.to, s.level)
	}
	if g.goal != (miles{}) {
		include(g.goal, 0)
		for d := -missedArc; d <= missedArc; d += 10 {
			include(g.water.from.to(g.water.course.Add(angle.Angle(d)*angle.Degree), g.water.length()), 0)
		}
	}
	return low, high
}

// fit chooses the largest round scale at which the sides have room.
func (g *triangleGeometry) fit() {
	g.scale = 0
	low, high := g.bounds()
	levels := 0
	for _, s := range g.sides() {
		if s.length() > 0 {
			levels = max(levels, s.level)
		}
	}
	across := math.Abs(g.across.X) * float64(levels) * sidesApart
	down := math.Abs(g.across.Y) * float64(levels) * sidesApart
	most := min(max(g.room.X-across, 10)/max(high.X-low.X, 1e-12), max(g.room.Y-down, 10)/max(high.Y-low.Y, 1e-12))
	power := math.Pow(10, math.Floor(math.Log10(most)))
	g.scale = power
	for _, m := range []float64{1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8} {
		if m*power <= most {
			g.scale = m * power
		}
	}
}
