package passage

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/gpx"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// ReadWaypoints reads waypoints from CSV or JSON (see package record), in the order of the
// passage. The column position is required. Optional columns are name, the speed through the
// water on the leg that ends there, and sailing, which is "rhumb" or "great circle". A speed is
// in knots, or has a unit, 5.5 kn, as [sailing.ParseSpeed] reads it:
//
//	name,position,speed,sailing
//	Fairway,47°08′N 019°01′W,,
//	Ledge,47°03.2′N 019°11.0′W,5.5,rhumb
//
// It reads back the JSON of waypoints, and the CSV of [Passage.WriteCSV], from which it ignores
// the columns of worked figures. Errors are a [*record.Error] with the line.
func ReadWaypoints(r io.Reader) ([]Waypoint, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"position"}, Optional: append([]string{"name", "speed", "sailing"}, worked...)})
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
				err = errors.New("the speed is 0 knots: give more, or leave it empty for the plan's speed")
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

// ReadStreams reads tidal streams from CSV or JSON, one for each hour or other period, in order.
// The columns are set, the true direction toward which the stream flows, and rate, in knots.
// The optional column begins is the time, with its zone, from which the stream flows:
//
//	begins,set,rate
//	2026-07-02T06:00Z,215,0.8
//	2026-07-02T07:00Z,210,1.1
//
// The times must be equally far apart. Without that column, set Start of the result, and Period
// if it is not an hour. Without Start the result has no answers.
//
// A rate may have a unit, 1.5 kn, as [sailing.ParseSpeed] reads it. So the JSON of several
// [stream.Stream] is read back. Errors are a [*record.Error] with the line.
func ReadStreams(r io.Reader) (stream.Hourly, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"set", "rate"}, Optional: []string{"begins"}})
	if err != nil {
		return stream.Hourly{}, err
	}
	var h stream.Hourly
	for i, row := range rows {
		var s stream.Stream
		if s.Set, err = angle.ParseTrue(row.Text("set")); err != nil {
			return stream.Hourly{}, row.Fault("set", err)
		}
		if s.Rate, err = speed(row.Text("rate")); err != nil {
			return stream.Hourly{}, row.Fault("rate", err)
		}
		h.Streams = append(h.Streams, s)
		if err := begins(&h, i, row.Text("begins")); err != nil {
			return stream.Hourly{}, row.Fault("begins", err)
		}
	}
	return h, nil
}

// begins takes the time from which stream i flows. It must follow from those before.
func begins(h *stream.Hourly, i int, text string) error {
	if text == "" {
		if i > 0 && !h.Start.IsZero() {
			return errors.New("no time: give one in each row, or in none")
		}
		return nil
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t, err = time.Parse("2006-01-02T15:04Z07:00", text)
	}
	switch {
	case err != nil || t.IsZero():
		return fmt.Errorf("%.60q is not a date and time with a zone; write it as 2026-07-02T06:00Z", text)
	case i == 0:
		h.Start = t
	case h.Start.IsZero():
		return errors.New("a time, but the rows before have none: give one in each row, or in none")
	case i == 1:
		if h.Period = t.Sub(h.Start); h.Period <= 0 {
			return fmt.Errorf("%s is not after the time before it: write the rows in order of time", text)
		}
	case !t.Equal(h.Start.Add(time.Duration(i) * h.Period)):
		return fmt.Errorf("%s should be %s, %v after the time before: the times must be equally far apart", text, h.Start.Add(time.Duration(i)*h.Period).Format("2006-01-02T15:04Z07:00"), h.Period)
	}
	return nil
}

// WaypointsOf returns the waypoints of a route. Rhumb lines join them, since a GPX route holds
// neither great circles nor speeds. See [Passage.Route].
func WaypointsOf(route gpx.Route) []Waypoint {
	points := make([]Waypoint, len(route.Points))
	for i, p := range route.Points {
		points[i] = Waypoint{Name: p.Name, Position: p.Position}
	}
	return points
}
