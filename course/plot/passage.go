package plot

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
)

// Passage draws a passage plan on a Mercator chart, with the signs of a usage. Each leg has its
// ground track, with the distance and the course to steer by compass. The figures of many legs stand
// in a list below the chart. A leg with a stream also has the course through the water and the
// stream. An arrow flies with the wind of the plan. Each hour has its position: an estimated
// position with a stream, or a dead reckoning position without one. Times are UTC, in four figures.
//
// If g.Scale is 0, the drawing has the largest round scale that holds the passage and the roses.
// Passage then does not use g.Middle. If the passage does not fit, or goes beyond 85°, it returns an
// [*angle.RangeError], and so for a nil passage or one without legs. For an unknown usage it
// returns an [*angle.ParseError].
func Passage(p *passage.Passage, g Graticule, usage signs.Usage) (*drawing.Sheet, error) {
	if p == nil || len(p.Legs) == 0 {
		return nil, &angle.RangeError{What: "number of legs", Value: 0, Accepted: "at least 1; passage.New works a plan"}
	}
	if _, err := signs.ParseUsage(string(usage)); err != nil {
		return nil, err
	}
	g.reserve = 14
	for {
		d, need, err := drawPassage(p, g, usage)
		if err != nil || need <= g.reserve {
			return d, err
		}
		g.reserve = need
	}
}

// A passagePen draws a passage on a chart.
type passagePen struct {
	signs.Pen
	mercator
	every    int  // hours between two positions
	days     bool // the passage takes more than a day, so that times have dates
	numbered bool // the legs have numbers, and their figures stand below the chart

	drawn []drawing.Spot // on the lines, close together
}

// perWritten is the width of a chart for each leg whose figures stand on it, mm. With more legs
// the figures of all stand below the chart.
const perWritten = 20.0

// drawPassage draws a passage. It returns the height that the key below the chart needs.
func drawPassage(p *passage.Passage, g Graticule, usage signs.Usage) (s *drawing.Sheet, need float64, err error) {
	g, err = g.fitted(passagePositions(p))
	if err != nil {
		return nil, 0, err
	}
	m, roses, err := g.chartAndRoses()
	if err != nil {
		return nil, 0, err
	}
	first, last := p.Legs[0], p.Legs[len(p.Legs)-1]
	s = m.sheet(g, fmt.Sprintf("%v to %v", first.From, last.To), passageWords(p))
	s.Caution(working.Caution)
	labels := &drawing.Labels{Room: m.frame.Grown(-0.5)}
	pen := &passagePen{Pen: signs.Pen{Sheet: s, Usage: usage, Labels: labels}, mercator: m, every: hoursApart(p, m), days: last.Ends.Sub(first.Begins) > 24*time.Hour, numbered: float64(len(p.Legs))*perWritten > m.frame.Right-m.frame.Left}
	for _, r := range roses {
		labels.Avoid(drawing.Around(r.centre, r.diameter/2+4, r.diameter/2+4))
	}
	m.graticule(s, func() {
		drawRoses(s, roses)
		for i, l := range p.Legs {
			pen.leg(i+1, l)
		}
		pen.waypoint(first.From, first.Begins)
		for _, l := range p.Legs {
			pen.waypoint(l.To, l.Ends)
		}
		if p.WindFrom != nil {
			pen.wind(*p.WindFrom, pen.spot(first.From.Position), roses)
		}
	})
	left := labels.Draw(s)
	y := m.foot(s, g)
	width := m.frame.Right - m.frame.Left + 2*borderWidth
	need = pen.Key(drawing.At(m.frame.Left-borderWidth, y), width)
	notes := []string{"Times are UTC. Cross: waypoint."}
	if slices.ContainsFunc(p.Legs, func(l passage.Leg) bool { return len(l.Hours) > 0 }) {
		notes[0] += " Dotted line: the way over the ground through streams that change."
	}
	if p.WindFrom != nil {
		notes = append(notes, fmt.Sprintf("Wind: from %.0f.", *p.WindFrom))
	}
	if len(left) > 0 {
		var texts []string
		for _, l := range left {
			texts = append(texts, strings.ReplaceAll(l.Text, "\n", " "))
		}
		notes = append(notes, "Without room on the chart: "+strings.Join(texts, "; ")+".")
	}
	if pen.numbered {
		need += pen.list(p, drawing.At(m.frame.Left-borderWidth, y+need), width)
	}
	for _, n := range notes {
		for _, line := range drawing.Wrapped(n, width/drawing.Letters) {
			need += 3.8
			s.Text(drawing.At(m.frame.Left-borderWidth, y+need-0.5), "", line)
		}
	}
	return s, need + 2, nil
}

// passageWords says what the drawing of a passage shows.
func passageWords(p *passage.Passage) string {
	var b strings.Builder
	legs := "legs"
	if len(p.Legs) == 1 {
		legs = "leg"
	}
	fmt.Fprintf(&b, "A passage of %d %s, %v", len(p.Legs), legs, p.Distance)
	for _, l := range p.Legs {
		fmt.Fprintf(&b, "; %v to %v, track %.0f, %s", l.From, l.To, l.Track, steer(l))
	}
	if p.WindFrom != nil {
		fmt.Fprintf(&b, "; wind from %.0f", *p.WindFrom)
	}
	return b.String()
}

// passagePositions returns all positions that the chart must hold.
func passagePositions(p *passage.Passage) []angle.Position {
	all := []angle.Position{p.Legs[0].From.Position}
	for _, l := range p.Legs {
		if l.To.GreatCircle {
			if g, err := sailing.WGS84().GreatCircle(l.From.Position, l.To.Position); err == nil {
				for i := range 16 {
					at, _ := g.At(g.Distance * sailing.Distance(i) / 16)
					all = append(all, at)
				}
			}
		}
		if end, ok := throughWater(l); ok {
			all = append(all, end)
		}
		for _, h := range l.Hours {
			all = append(all, h.Ends)
		}
		all = append(all, l.To.Position)
	}
	return all
}

// throughWater returns where the course through the water leads, without the stream. It is false
// if there is no stream, or the leg is on a great circle.
func throughWater(l passage.Leg) (angle.Position, bool) {
	if l.To.GreatCircle || !carried(l) {
		return angle.Position{}, false
	}
	run := sailing.Run{Course: l.Water.Course, Distance: sailing.Distance(float64(l.Water.Speed) * l.Ends.Sub(l.Begins).Seconds())}
	end, err := sailing.WGS84().Follow(l.From.Position, run)
	return end, err == nil
}

// carried reports whether a stream carries the vessel on a leg.
func carried(l passage.Leg) bool {
	return len(l.Hours) > 0 || l.Water.Course != l.Track || math.Abs(float64(l.Water.Speed-l.Ground.Speed)) > 1e-6*float64(l.Ground.Speed)
}

// hoursApart returns the hours between two positions, so that most are at least 7 mm apart.
func hoursApart(p *passage.Passage, m mercator) int {
	way, hours := 0.0, 0.0
	for _, l := range p.Legs {
		a, b := m.spot(l.From.Position), m.spot(l.To.Position)
		way, hours = way+math.Hypot(b.X-a.X, b.Y-a.Y), hours+l.Ends.Sub(l.Begins).Hours()
	}
	for _, n := range []int{1, 2, 3, 4, 6, 12, 24, 48, 120, 240} {
		if way/hours*float64(n) >= 7 {
			return n
		}
	}
	return 0
}

// degrees prints a direction in whole degrees.
func degrees(t fmt.Formatter) string { return fmt.Sprintf("%.0f", t) }

// clock prints a time in four figures.
func clock(t time.Time) string { return t.UTC().Round(time.Minute).Format("1504") }

// waypoint draws a waypoint, with its name and the time.
func (p *passagePen) waypoint(w passage.Waypoint, at time.Time) {
	s := p.spot(w.Position)
	p.Sheet.Put(`<path class="waypoint" d="M%.2f %.2fl-2.4 -2.4m2.4 0l-2.4 2.4" fill="none" stroke="black" stroke-width="0.5"/>`, s.X+1.2, s.Y+1.2)
	p.Labels.Avoid(drawing.Around(s, 1.3, 1.3))
	text := clock(at)
	if p.days {
		text += at.UTC().Format(" 2 Jan")
	}
	if w.Name != "" {
		text = drawing.Shortened(w.Name, 22) + "\n" + text
	}
	p.Labels.Add(drawing.Label{Text: text, At: s, Gap: 1.8, Attributes: `font-weight="bold" stroke="white" stroke-width="0.7" paint-order="stroke"`})
}

// leg draws a leg: its tracks and the position of each hour.
func (p *passagePen) leg(number int, l passage.Leg) {
	ground := p.line(l.From.Position, l.To.Position, l.To.GreatCircle)
	track := signs.Line{Kind: signs.GroundTrack, Path: ground, Direction: degrees(l.Track), Speed: l.Ground.Speed.String(), Note: steer(l)}
	water := signs.Line{Kind: signs.WaterTrack, Direction: degrees(l.Water.Course), Speed: l.Water.Speed.String()}
	var drift signs.Line
	if end, ok := throughWater(l); ok {
		s, to := p.spot(end), ground[len(ground)-1]
		if math.Hypot(to.X-s.X, to.Y-s.Y) > 1.5 {
			run := sailing.WGS84().Rhumb(end, l.To.Position)
			rate := sailing.Speed(float64(run.Distance) / l.Ends.Sub(l.Begins).Seconds())
			water.Path = []drawing.Spot{ground[0], s}
			drift = signs.Line{Kind: signs.Stream, Path: []drawing.Spot{s, to}, Direction: degrees(run.Course), Speed: rate.String()}
		}
	}
	for _, line := range []signs.Line{track, water, drift} {
		if p.numbered {
			note := ""
			if line.Kind == signs.GroundTrack {
				note = fmt.Sprintf("(%d)", number)
			}
			line = signs.Line{Kind: line.Kind, Path: line.Path, Note: note}
		}
		p.sign(line)
	}
	if l.Leeway.Angle != 0 && !l.To.GreatCircle && !p.numbered {
		p.heading(l, ground[0])
	}
	if p.every > 0 {
		p.hours(l, ground)
	}
}

// steer returns the distance of a leg and the course to steer.
func steer(l passage.Leg) string {
	text := fmt.Sprintf("%v, steer %s", l.Distance, degrees(l.Heading.Compass()))
	if l.To.GreatCircle {
		text += " at first"
	}
	return text
}

// list writes the figures of the legs by their numbers, in columns. It returns the height of the
// list.
func (p *passagePen) list(all *passage.Passage, at drawing.Spot, width float64) float64 {
	const column, row = 80.0, 3.8
	columns := max(int(width/column), 1)
	rows := (len(all.Legs) + columns - 1) / columns
	for i, l := range all.Legs {
		text := fmt.Sprintf("(%d) %s–%s, %s %v, %s", i+1, clock(l.Begins), clock(l.Ends), degrees(l.Track), l.Ground.Speed, steer(l))
		p.Sheet.Text(at.Moved(column*float64(i/rows), row*float64(i%rows)+3), "", text)
	}
	return row*float64(rows) + 1
}

// heading draws the heading at the beginning of a leg with leeway.
func (p *passagePen) heading(l passage.Leg, from drawing.Spot) {
	sin, cos := math.Sincos(l.Heading.True().Degrees() * math.Pi / 180)
	p.sign(signs.Line{Kind: signs.Heading, Path: []drawing.Spot{from, from.Moved(22*sin, -22*cos)},
		Direction: fmt.Sprintf("heading %s, leeway %.0f", degrees(l.Heading.True()), l.Leeway.Angle)})
}

// hours draws the position at each hour of a leg, and the way through the streams.
func (p *passagePen) hours(l passage.Leg, ground []drawing.Spot) {
	if len(l.Hours) > 0 {
		way := []drawing.Spot{ground[0]}
		for _, h := range l.Hours {
			way = append(way, p.spot(h.Ends))
		}
		p.Sheet.Polyline("way", `fill="none" stroke="black" stroke-width="0.3" stroke-dasharray="0.3 1" stroke-linecap="round"`, way)
		p.Labels.AvoidLine(way...)
		p.note(way)
		for _, h := range l.Hours[:len(l.Hours)-1] {
			p.position(signs.Estimated, h.Ends, h.Begins.Add(h.Lasts), l.Track)
		}
		return
	}
	kind := signs.DeadReckoning
	if carried(l) {
		kind = signs.Estimated
	}
	for t := l.Begins.Truncate(time.Hour).Add(time.Hour); t.Before(l.Ends); t = t.Add(time.Hour) {
		if at, track, ok := onLeg(l, t); ok {
			p.position(kind, at, t, track)
		}
	}
}

// onLeg returns the position and the track at a time on a leg without streams that change.
func onLeg(l passage.Leg, t time.Time) (angle.Position, angle.True, bool) {
	run := sailing.Run{Course: l.Track, Distance: sailing.Distance(float64(l.Ground.Speed) * t.Sub(l.Begins).Seconds())}
	if !l.To.GreatCircle {
		at, err := sailing.WGS84().Follow(l.From.Position, run)
		return at, l.Track, err == nil
	}
	g, err := sailing.WGS84().GreatCircle(l.From.Position, l.To.Position)
	if err != nil {
		return angle.Position{}, l.Track, false
	}
	at, track := g.At(run.Distance)
	return at, track, true
}

// position draws the position of an hour, if its turn has come.
func (p *passagePen) position(kind signs.MarkKind, at angle.Position, t time.Time, track angle.True) {
	if t.Unix()/3600%int64(p.every) != 0 {
		return
	}
	text := clock(t)
	if p.days && text == "0000" {
		text += t.UTC().Format(" 2 Jan")
	}
	p.Mark(signs.Mark{Kind: kind, At: p.spot(at), Time: text, Way: track.Degrees()})
}
