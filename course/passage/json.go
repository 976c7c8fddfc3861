package passage

import (
	"encoding/json"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// The words for the two kinds of line.
const (
	rhumb       = "rhumb"
	greatCircle = "great circle"
)

// waypointData is a waypoint as it is written.
type waypointData struct {
	Name     string         `json:"name,omitempty"`
	Position angle.Position `json:"position"`
	Speed    sailing.Speed  `json:"speed,omitzero"`
	Sailing  string         `json:"sailing,omitempty"`
}

// MarshalJSON returns the exact position, and the name, the speed (5.5 kn) and the sailing ("great
// circle") if they are set.
func (w Waypoint) MarshalJSON() ([]byte, error) {
	data := waypointData{w.Name, w.Position, w.Speed, ""}
	if w.GreatCircle {
		data.Sailing = greatCircle
	}
	return json.Marshal(data)
}

// UnmarshalJSON reads what [Waypoint.MarshalJSON] writes, and "rhumb" for the sailing.
// Errors are those of encoding/json, and an [*angle.ParseError] for an invalid text.
func (w *Waypoint) UnmarshalJSON(text []byte) error {
	var data waypointData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	switch data.Sailing {
	case "", rhumb, greatCircle:
	default:
		return &angle.ParseError{What: "sailing", Input: data.Sailing, Kind: angle.UnknownWord, Want: rhumb + " or " + greatCircle}
	}
	*w = Waypoint{data.Name, data.Position, data.Sailing == greatCircle, data.Speed}
	return nil
}

// MarshalJSON returns the leg as data, with its working. Distances and speeds are exact, times to
// the second. It has plain numbers too: trackDegrees from true north, distanceNauticalMiles,
// timeSeconds, and steerCompassDegrees, the course for the helm in whole degrees. It is not
// read back.
func (l Leg) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Leg          int               `json:"leg"`
		From         Waypoint          `json:"from"`
		To           Waypoint          `json:"to"`
		Track        angle.True        `json:"track"`
		TrackDegrees float64           `json:"trackDegrees"`
		Final        angle.True        `json:"final"` // the course where the leg ends
		Distance     sailing.Distance  `json:"distance"`
		Miles        float64           `json:"distanceNauticalMiles"`
		Water        stream.Motion     `json:"water"`
		Ground       stream.Motion     `json:"ground"`
		Leeway       stream.Leeway     `json:"leeway,omitzero"`
		Heading      course.Heading    `json:"heading"`
		Steer        float64           `json:"steerCompassDegrees"`
		Begins       time.Time         `json:"begins"`
		Ends         time.Time         `json:"ends"`
		Seconds      int64             `json:"timeSeconds"`
		Warnings     []working.Warning `json:"warnings,omitempty"`
		Working      working.Sheet     `json:"working"`
	}{
		l.number, l.From, l.To, l.Track, l.Track.Degrees(), l.Final, l.Distance, l.Distance.NauticalMiles(), l.Water, l.Ground, l.Leeway,
		l.Heading, l.Heading.Steer().Degrees(), second(l.Begins), second(l.Ends), seconds(l.Begins, l.Ends), l.Warnings(), l.Working(),
	})
}

// seconds are the seconds between two times as they are written.
func seconds(from, to time.Time) int64 { return second(to).Unix() - second(from).Unix() }

// MarshalJSON returns the passage as data, with each leg as by [Leg.MarshalJSON], and the plain
// numbers distanceNauticalMiles and timeSeconds. It is not read back: keep the waypoints, and
// work the plan again.
func (p Passage) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		Name     string           `json:"name,omitempty"`
		Depart   time.Time        `json:"depart"`
		Arrive   time.Time        `json:"arrive"`
		Seconds  int64            `json:"timeSeconds"`
		Distance sailing.Distance `json:"distance"`
		Miles    float64          `json:"distanceNauticalMiles"`
		WindFrom *angle.True      `json:"windFrom,omitempty"`
		Legs     []Leg            `json:"legs"`
		Caution  string           `json:"caution"`
	}{p.plan.Name, second(p.depart()), second(p.Arrive), seconds(p.depart(), p.Arrive), p.Distance, p.Distance.NauticalMiles(), p.WindFrom, append([]Leg{}, p.Legs...), working.Caution})
}
