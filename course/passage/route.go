package passage

import (
	"fmt"
	"strings"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/course/gpx"
	"lubberline.example/course/sailing"
)

// Route returns the waypoints as a GPX route with the time of arrival at each. A GPX route can't
// hold great circles and the speeds of legs. Warnings and the route's description list what is
// lost.
//
// If apart is above zero, Route adds points along each great circle, equally spaced and at most that
// distance apart, without names. Rhumb lines between them then keep to the great circle. A nil Passage
// gives a route without points.
func (p *Passage) Route(apart sailing.Distance) (gpx.Route, []working.Warning) {
	p = p.orNone()
	r := gpx.Route{Name: p.plan.Name}
	var lost []working.Warning
	var said []string
	lose := func(message string, warning working.Warning) {
		said, lost = append(said, message), append(lost, warning)
	}
	for i, w := range p.plan.Waypoints {
		at := p.depart()
		if i > 0 && i <= len(p.Legs) {
			l := p.Legs[i-1]
			at = l.Ends
			if l.To.GreatCircle {
				if along, err := l.circle.Waypoints(apart); err == nil {
					for k := 1; k < len(along)-1; k++ {
						at := l.Begins.Add(time.Duration(float64(l.time()) * float64(k) / float64(len(along)-1)))
						r.Points = append(r.Points, gpx.Point{Position: along[k], Time: second(at)})
					}
				} else {
					const text = "leg %d is a great circle of %v; in the route it is a rhumb line of %v"
					rhumb := sailing.WGS84().Rhumb(l.From.Position, l.To.Position)
					warning := working.Warn(LostInRoute, "great-circle-lost", text+": add points along it", l.number, l.Distance, rhumb.Distance)
					if apart > 0 {
						warning = working.Warn(LostInRoute, "great-circle-lost-too-many-points", text+": that distance apart gives too many points; give a longer one", l.number, l.Distance, rhumb.Distance)
					}
					lose(fmt.Sprintf(text, l.number, l.Distance, rhumb.Distance), warning)
				}
			}
			if w.Speed != 0 {
				warning := working.Warn(LostInRoute, "speed-lost", "the speed of leg %d, %v, is not in the route", l.number, w.Speed)
				lose(warning.Message, warning)
			}
		}
		r.Points = append(r.Points, gpx.Point{Position: w.Position, Name: w.Name, Time: second(at)})
	}
	r.Description = strings.Join(said, "; ")
	return r, lost
}
