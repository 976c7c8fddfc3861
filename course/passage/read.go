package passage

import (
	"errors"
	"io"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course"
	"lubberline.example/course/gpx"
	"lubberline.example/course/sailing"
)

// ReadWaypoints reads waypoints from CSV or JSON (see package record), in the order
// of the passage. Their columns are position and, where wanted, name, speed
// through the water on the leg that ends there, and sailing, which is "rhumb" or
// "great circle". A speed is in knots, or has its unit, 5.5 kn, as
// [sailing.ParseSpeed] reads it:
//
//	name,position,speed,sailing
//	Fairway,47°08′N 019°01′W,,
//	Ledge,47°03.2′N 019°11.0′W,5.5,rhumb
//
// The JSON of some [Waypoint] is read back to the same, but for blanks about names.
// Errors are [*record.Error], with the line.
func ReadWaypoints(r io.Reader) ([]Waypoint, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"position"}, Optional: []string{"name", "speed", "sailing"}})
	if err != nil {
		return nil, err
	}
	points := make([]Waypoint, len(rows))
	for i, row := range rows {
		w := &points[i]
		w.Name = row.Text("name")
		if w.Position, err = angle.ParsePosition(row.Text("position")); err != nil {
			return nil, row.Fault("position", err)
		}
		if row.Has("speed") {
			if w.Speed, err = speed(row.Text("speed")); err == nil && w.Speed == 0 {
				err = errors.New("0 knots: want more, or nothing for the plan's speed")
			}
			if err != nil {
				return nil, row.Fault("speed", err)
			}
		}
		switch text := strings.ToLower(row.Text("sailing")); text {
		case "", rhumb:
		case greatCircle:
			w.GreatCircle = true
		default:
			return nil, row.Fault("sailing", &angle.ParseError{What: "sailing", Input: text, Kind: angle.UnknownWord, Want: rhumb + " or " + greatCircle})
		}
	}
	return points, nil
}

// speed reads a speed with its unit, or as a bare number of knots.
func speed(text string) (sailing.Speed, error) {
	s, err := sailing.ParseSpeed(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		s, err = sailing.ParseSpeed(text + " kn")
	}
	if err == nil && !(s >= 0 && s < 1000*sailing.Knot) {
		err = &angle.RangeError{What: "speed", Value: s.Knots(), Accepted: "knots from 0, below 1000"}
	}
	return s, err
}

// ReadStreams reads streams, one for each hour or other period in order, from CSV
// or JSON with the columns set, toward which the stream flows by true north, and
// rate in knots. A rate may have its unit, 1.5 kn, as [sailing.ParseSpeed] reads it,
// so that the JSON of some [course.Stream] is read back to the same. The caller gives the
// result its Start, without which it answers nothing, and its Period if that is not an
// hour. Errors are [*record.Error], with the line.
func ReadStreams(r io.Reader) (course.HourlyStreams, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"set", "rate"}})
	if err != nil {
		return course.HourlyStreams{}, err
	}
	var h course.HourlyStreams
	for _, row := range rows {
		var s course.Stream
		if s.Set, err = angle.ParseTrue(row.Text("set")); err != nil {
			return course.HourlyStreams{}, row.Fault("set", err)
		}
		if s.Rate, err = speed(row.Text("rate")); err != nil {
			return course.HourlyStreams{}, row.Fault("rate", err)
		}
		h.Streams = append(h.Streams, s)
	}
	return h, nil
}

// WaypointsOf returns the waypoints of a route.
func WaypointsOf(route gpx.Route) []Waypoint {
	points := make([]Waypoint, len(route.Points))
	for i, p := range route.Points {
		points[i] = Waypoint{Name: p.Name, Position: p.Position}
	}
	return points
}
