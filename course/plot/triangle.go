package plot

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
)

// A Triangle is a stream triangle to draw with [StreamTriangle].
type Triangle struct {
	// Steering has one stream. Crossing has streams that change, one after the other. If
	// Crossing has Hours, Steering is not used.
	Steering stream.Steering
	Crossing stream.Crossing

	// MadeGood draws the triangle that finds the course made good: first the water track, then
	// the stream at its end. If false, it finds the course to steer: the stream comes first, and
	// the water track closes the triangle.
	MadeGood bool

	// Track is for a stream that is too strong: the track that no course makes good. Steering is
	// then the Nearest of the [stream.Error], and the drawing shows how far the vessel misses
	// the track. If nil, there is a course.
	Track *angle.True

	Lasts time.Duration // the time for which Steering is drawn; if 0, an hour

	// Begins is the time at the first corner. Times then stand at the corners, in its zone. If it
	// is zero, a Crossing has its own times, and Steering has none.
	Begins time.Time

	Leeway stream.Leeway // if it is not zero, the heading is drawn too
	Signs  signs.Usage   // if empty, signs.Commonwealth
	Width  float64       // of the drawing, from 90 to 190 mm; if 0, 90 mm, which suits a small screen
}

// StreamTriangle draws a stream triangle, north up and to scale. Its sides are the water track, the
// stream or the streams, and the ground track, with their figures. It says its scale. If the sides
// lie on one line, or nearly so, it draws them beside each other.
//
// A speed, a rate or a time that is negative or not finite gives an [*angle.RangeError]. So does a
// width out of range, and a triangle without any speed. For an invalid leeway StreamTriangle
// returns a [*stream.Error], and for an unknown usage an [*angle.ParseError].
func StreamTriangle(t Triangle) (*drawing.Sheet, error) {
	t.Width = cmp.Or(t.Width, minTriangleWidth)
	if !(t.Width >= minTriangleWidth && t.Width <= maxTriangleWidth) {
		return nil, &angle.RangeError{What: "width of a stream triangle", Value: t.Width, Accepted: fmt.Sprintf("from %v to %v mm", minTriangleWidth, maxTriangleWidth)}
	}
	if _, err := signs.ParseUsage(string(t.Signs)); err != nil {
		return nil, err
	}
	if l := t.Leeway; l != (stream.Leeway{}) {
		if _, err := (stream.Estimate{}).Run(stream.ReckonedRun{Leeway: l}); err != nil {
			return nil, err
		}
	}
	g, err := t.geometry()
	if err != nil {
		return nil, err
	}
	g.room = drawing.At(t.Width-24, min(1.25*t.Width-32, 165))
	g.arrange()
	if t.Begins.IsZero() && len(t.Crossing.Hours) > 0 {
		t.Begins = t.Crossing.Hours[0].Begins
	}
	p := &trianglePen{triangleGeometry: g, Triangle: t, top: triangleTop}
	low, high := g.bounds()
	height := (high.Y - low.Y) * g.scale
	p.origin = drawing.At(p.Width/2-(low.X+high.X)/2*g.scale, p.top-low.Y*g.scale)
	p.bottom = p.top + height + triangleTop
	p.draw()
	return p.Sheet, nil
}

// Measures of a triangle, mm.
const (
	minTriangleWidth = 90.0
	maxTriangleWidth = 190.0
	triangleTop      = 13.0 // room for texts above and below the sides
	sidesApart       = 8.0  // of sides that lie on one line
	minTriangle      = 2.6  // the least height of a triangle that can be seen as one
)

// A trianglePen draws a triangle.
type trianglePen struct {
	*drawing.Sheet
	Triangle
	*triangleGeometry
	pen         signs.Pen
	labels      drawing.Labels
	origin      drawing.Spot // of the point A
	top, bottom float64
}

// spot returns where a point is drawn, moved to its level.
func (p *trianglePen) spot(m miles, level int) drawing.Spot {
	return p.origin.Moved(m.east*p.scale+p.across.X*float64(level)*sidesApart, -m.north*p.scale+p.across.Y*float64(level)*sidesApart)
}

// ends returns where a side begins and ends on the sheet.
func (p *trianglePen) ends(s side) []drawing.Spot {
	return []drawing.Spot{p.spot(s.from, s.level), p.spot(s.to, s.level)}
}

// draw draws all of a triangle on a new sheet.
func (p *trianglePen) draw() {
	p.Sheet = drawing.New(p.Width, 0, p.title(), p.inWords())
	p.Caution(working.Caution)
	p.labels = drawing.Labels{Room: drawing.Box{Left: 0.5, Top: 0.5, Right: p.Width - 0.5, Bottom: p.bottom}}
	p.pen = signs.Pen{Sheet: p.Sheet, Usage: p.Signs, Labels: &p.labels}
	p.north(drawing.At(p.Width-6, 8))
	if p.Track != nil {
		p.missed()
	} else if !p.MadeGood && p.water.length() > 0 && !p.flat {
		p.arc(p.water.from, p.water.course, 7, p.water.level)
	}
	for _, s := range p.sides() {
		p.side(s)
	}
	p.connect()
	p.heading()
	p.points()
	p.SetHeight(p.foot(p.labels.Draw(p.Sheet))) // how much stands below the triangle shows only now
}

// side draws a side with its figures.
func (p *trianglePen) side(s side) {
	if s.length() == 0 {
		return
	}
	l := signs.Line{Kind: s.kind, Path: p.ends(s)}
	if s.number > 0 {
		p.labels.Add(drawing.Label{Text: strconv.Itoa(s.number), Along: l.Path, Attributes: `font-weight="bold"`})
	} else {
		l.Direction, l.Speed, l.Note = s.course.String(), knots(s.speed), s.run()
	}
	p.pen.Line(l)
}

// knots prints a speed to a tenth, or a small one to two figures.
func knots(s sailing.Speed) string {
	if k := s.Knots(); k > 0 && k < 0.95 {
		return strconv.FormatFloat(k, 'g', 2, 64) + " kn"
	}
	return s.String()
}

// run returns the length of a side, if it is not that of an hour.
func (s side) run() string {
	if s.lasts == time.Hour {
		return ""
	}
	return s.speed.For(s.lasts).String()
}

// sides returns all sides.
func (g *triangleGeometry) sides() []side {
	return append(append([]side{g.water}, g.streams...), g.ground)
}

// connect draws dotted lines between sides that are drawn beside each other, where they meet.
func (p *trianglePen) connect() {
	if !p.flat {
		return
	}
	levels := map[miles][2]int{}
	var order []miles
	for _, s := range p.sides() {
		if s.length() == 0 {
			continue
		}
		for _, m := range [2]miles{s.from, s.to} {
			r, has := levels[m]
			if !has {
				order, r = append(order, m), [2]int{s.level, s.level}
			}
			levels[m] = [2]int{min(r[0], s.level), max(r[1], s.level)}
		}
	}
	for _, m := range order {
		a, b := p.spot(m, levels[m][0]), p.spot(m, levels[m][1])
		if a != b {
			p.Line(a, b, `class="joint" stroke="black" stroke-width="0.2" stroke-dasharray="0.4 0.8"`)
			p.labels.AvoidLine(a, b)
		}
	}
}

// points draws the ends of the sides with their letters or times.
func (p *trianglePen) points() {
	end, begin := p.ground.to, p.ground.from
	times := [2]string{}
	if !p.Begins.IsZero() {
		times = [2]string{p.Begins.Format("1504"), p.Begins.Add(p.lasts).Format("1504")}
	}
	p.point(begin, p.ground.level, strings.TrimSpace("A "+times[0]))
	if p.MadeGood {
		switch at := p.spot(p.water.to, p.water.level); {
		case p.water.length() == 0 || p.slack():
		case p.Leeway.Deflection() != 0: // dead reckoning is without leeway
			p.point(p.water.to, p.water.level, strings.TrimSpace("B "+times[1]))
		default:
			p.pen.Mark(signs.Mark{Kind: signs.DeadReckoning, At: at, Time: times[1], Way: p.water.course.Degrees()})
		}
		p.pen.Mark(signs.Mark{Kind: signs.Estimated, At: p.spot(end, p.ground.level), Time: times[1]})
		return
	}
	if !p.slack() {
		p.point(p.water.from, p.water.level, "B")
	}
	if p.Track == nil {
		p.point(end, p.ground.level, strings.TrimSpace("C "+times[1]))
	}
}

// slack reports whether there is no stream.
func (g *triangleGeometry) slack() bool {
	for _, s := range g.streams {
		if s.length() > 0 {
			return false
		}
	}
	return true
}

// point draws an end of a side with its letter.
func (p *trianglePen) point(m miles, level int, text string) {
	at := p.spot(m, level)
	p.Put(`<circle class="point" cx="%.2f" cy="%.2f" r="0.6" fill="black"/>`, at.X, at.Y)
	p.labels.Avoid(drawing.Around(at, 0.8, 0.8))
	p.labels.Add(drawing.Label{Text: text, At: at, Gap: 1.4, Attributes: `font-weight="bold"`})
}

// arc draws the arc of the compasses with which the water track is laid off, some degrees to
// both sides of a course.
func (p *trianglePen) arc(from miles, course angle.True, degrees float64, level int) {
	spots := arcOf(p.spot(from, level), course.Degrees()-degrees, course.Degrees()+degrees, p.water.length()*p.scale)
	p.Polyline("arc", `fill="none" stroke="black" stroke-width="0.2"`, spots)
	p.labels.AvoidLine(spots...)
}

// missedArc is the part of the arc to each side that is drawn in an impossible triangle,
// degrees.
const missedArc = 50

// missed draws the track that no course makes good, and the arc that does not reach it.
func (p *trianglePen) missed() {
	path := []drawing.Spot{p.spot(p.ground.from, 0), p.spot(p.goal, 0)}
	p.Polyline("track", `fill="none" stroke="black" stroke-width="0.35" stroke-dasharray="4 1.2 0.8 1.2"`, path)
	p.labels.AvoidLine(path...)
	p.labels.Add(drawing.Label{Text: "track " + p.Track.String(), Along: path})
	if p.water.length() > 0 {
		p.arc(p.water.from, p.water.course, missedArc, 0)
	}
}

// heading draws the heading, if leeway makes it another than the water track.
func (p *trianglePen) heading() {
	off := p.Leeway.Deflection()
	if off == 0 || p.water.length() == 0 {
		return
	}
	course := p.water.course.Add(-off)
	from := p.spot(p.water.from, p.water.level)
	to := polar(from, course.Degrees(), 0.8*p.water.length()*p.scale)
	p.pen.Line(signs.Line{Kind: signs.Heading, Path: []drawing.Spot{from, to}, Direction: "HDG " + course.String(), Note: "leeway " + off.Abs().String()})
}

// north draws an arrow to the north.
func (p *trianglePen) north(at drawing.Spot) {
	p.Polygon("north", `fill="black"`, []drawing.Spot{at.Moved(0, -3.5), at.Moved(1.2, 3), at.Moved(0, 2), at.Moved(-1.2, 3)})
	p.Text(at.Moved(0, -4.2), `text-anchor="middle" font-weight="bold"`, "N")
	p.labels.Avoid(drawing.Around(at, 3, 8))
}

// foot writes the scale, what is special, labels without room, and the key. It returns where
// they end.
func (p *trianglePen) foot(left []drawing.Label) float64 {
	y := p.bottom + 4
	n := math.Pow(10, math.Floor(math.Log10(40/p.scale)))
	for _, m := range []float64{5, 2} {
		if m*n*p.scale <= 40 {
			n *= m
			break
		}
	}
	p.Line(drawing.At(1, y-1), drawing.At(1+n*p.scale, y-1), `class="scale" stroke="black" stroke-width="0.5"`)
	for _, x := range []float64{1, 1 + n*p.scale/2, 1 + n*p.scale} {
		p.Line(drawing.At(x, y-2), drawing.At(x, y), `stroke="black" stroke-width="0.3"`)
	}
	p.Text(drawing.At(3+n*p.scale, y), "", fmt.Sprintf("%.6g M; 1 M is %.6g mm", n, p.scale))
	for i, text := range append(append(p.remarks(), p.list()...), texts(left)...) {
		weight, wide := "", 1.0
		if i == 0 && p.Track != nil {
			weight, wide = `font-weight="bold"`, 1.12
		}
		for _, line := range drawing.Wrapped(text, (p.Width-2)/drawing.Letters/wide) {
			y += 3.8
			p.Text(drawing.At(1, y), weight, line)
		}
	}
	return y + 2 + p.pen.Key(drawing.At(1, y+2), p.Width-2)
}

// texts returns the texts of labels without room. The numbers of streams are left out: the
// streams are listed.
func texts(labels []drawing.Label) (out []string) {
	for _, l := range labels {
		if _, err := strconv.Atoi(l.Text); err != nil {
			out = append(out, "Without room above: "+l.Text)
		}
	}
	return out
}

// list returns a line for each of several streams.
func (p *trianglePen) list() (out []string) {
	for _, s := range p.streams {
		if s.number > 0 {
			out = append(out, strings.Join(strings.Fields(fmt.Sprintf("Stream %d: %s %v (%s), %s, %v", s.number, s.begins, s.course, knots(s.speed), spell(s.lasts), s.speed.For(s.lasts))), " "))
		}
	}
	return out
}

// spell prints a time: 1 h, 2 h 24 min.
func spell(d time.Duration) string {
	d = d.Round(time.Second)
	var parts []string
	for _, unit := range []struct {
		is   time.Duration
		name string
	}{{time.Hour, "h"}, {time.Minute, "min"}, {time.Second, "s"}} {
		if n := d / unit.is; n > 0 {
			parts, d = append(parts, fmt.Sprintf("%d %s", n, unit.name)), d%unit.is
		}
	}
	return strings.Join(parts, " ")
}

// remarks say what is special about the triangle.
func (p *trianglePen) remarks() (out []string) {
	if p.Track != nil {
		out = append(out, fmt.Sprintf("No course makes good %v: the arc of the vessel's speed does not reach the track. The nearest course is drawn.", *p.Track))
	}
	if p.slack() {
		out = append(out, "No stream: the ground track is the water track.")
	} else if p.water.length() == 0 {
		out = append(out, "The vessel has no way: the ground track is the stream.")
	}
	if p.ground.length() == 0 {
		out = append(out, "The vessel makes good nothing over the ground.")
	}
	if p.flat {
		out = append(out, "The sides lie on one line, or nearly so. They are drawn beside each other.")
	}
	return out
}

// title returns the title of the plate.
func (p *trianglePen) title() string {
	switch {
	case p.Track != nil:
		return fmt.Sprintf("No course makes good %v", *p.Track)
	case p.MadeGood:
		return fmt.Sprintf("Course made good %v, %s", p.ground.course, knots(p.ground.speed))
	}
	off := p.Leeway.Deflection()
	if off == 0 {
		return fmt.Sprintf("Course to steer %v", p.water.course)
	}
	return fmt.Sprintf("Course to steer %v, allowing %v for leeway", p.water.course.Add(-off), off.Abs())
}

// inWords says what the drawing shows.
func (p *trianglePen) inWords() string {
	text := fmt.Sprintf("A stream triangle for %s, north up. %s. Water track %v at %s.", spell(p.lasts), p.title(), p.water.course, knots(p.water.speed))
	if off := p.Leeway.Deflection(); off != 0 {
		text += fmt.Sprintf(" Heading %v, with a leeway of %v.", p.water.course.Add(-off), p.Leeway)
	}
	for _, s := range p.streams {
		text += fmt.Sprintf(" Stream %v at %s", s.course, knots(s.speed))
		if s.number > 0 {
			text += " for " + spell(s.lasts)
		}
		text += "."
	}
	text += fmt.Sprintf(" Ground track %v at %s.", p.ground.course, knots(p.ground.speed))
	return strings.Join(append([]string{text}, p.remarks()...), " ")
}
