package passage_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

func TestReadErrorsNameTheLine(t *testing.T) {
	points, err := passage.ReadWaypoints(strings.NewReader("name,position,speed,sailing\nOne,47°N 019°W,,\n,\"47.1, -19.2\",5.5 kn,Great Circle\nThree,48N 20W,4,rhumb\n"))
	if err != nil || len(points) != 3 || points[0].Name != "One" || points[1].Speed != 5.5*sailing.Knot || !points[1].GreatCircle || points[2].GreatCircle || points[1].String() != "47°06.0′N 019°12.0′W" {
		t.Errorf("%+v, %v", points, err)
	}
	for text, column := range map[string]string{
		"position\n47N 19W\n91N 19W\n":                         "position",
		"position,speed\n47N 19W,1\n47N 19W,x\n":               "speed",
		"position,speed\n47N 19W,1\n47N 19W,-1\n":              "speed",
		"position,sailing\n47N 19W,rhumb\n47N 19W,loxodrome\n": "sailing",
	} {
		_, err := passage.ReadWaypoints(strings.NewReader(text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 3 || e.Column != column {
			t.Errorf("%q: %v", text, err)
		}
	}
	streams, err := passage.ReadStreams(strings.NewReader("set,rate\n045,1.5\n225°T,0\n090,1.5 kn\n090,0.5 m/s\n"))
	if err != nil || len(streams.Streams) != 4 || streams.Streams[0].Rate != 1.5*sailing.Knot || streams.Streams[2].Rate != 1.5*sailing.Knot || streams.Streams[3].Rate != 0.5 {
		t.Errorf("%+v, %v", streams, err)
	}
	for text, column := range map[string]string{"set,rate\n400,1\n": "set", "set,rate\n045°M,1\n": "set", "set,rate\n040,NaN\n": "rate", "set,rate\n040,1000\n": "rate", "set,rate\n040,-1 kn\n": "rate", "set,rate\n040,1 M\n": "rate", "set,rate\n040,1e400\n": "rate"} {
		_, err := passage.ReadStreams(strings.NewReader(text))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 2 || e.Column != column {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// What Marshal writes says its unit, and is read back to the same.
func TestStreamsJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		streams := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) stream.Stream {
			set := angle.TrueFrom(angle.Angle(rapid.Int64Range(0, int64(angle.Turn)-1).Draw(t, "set")))
			return stream.Stream{Set: set, Rate: sailing.Speed(rapid.Float64Range(0, 500).Draw(t, "rate"))}
		}), 1, 5).Draw(t, "streams")
		data, err := json.Marshal(streams)
		if err != nil {
			t.Fatal(err)
		}
		back, err := passage.ReadStreams(bytes.NewReader(data))
		if err != nil || !slices.Equal(back.Streams, streams) {
			t.Fatalf("%s: %v, %v", data, back, err)
		}
	})
	data, err := json.Marshal(stream.Stream{Set: angle.MustParseTrue("045"), Rate: 1.5 * sailing.Knot})
	if err != nil || string(data) != `{"set":"045°T","rate":"1.5 kn"}` {
		t.Errorf("%s, %v", data, err)
	}
}

func TestWaypointsJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) passage.Waypoint {
			return passage.Waypoint{
				Name:        strings.TrimSpace(rapid.StringN(0, 12, -1).Draw(t, "name")),
				Position:    angle.Must(angle.PositionDegrees(rapid.Float64Range(-90, 90).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude"))),
				GreatCircle: rapid.Bool().Draw(t, "great circle"),
				Speed:       rapid.OneOf(rapid.Just(sailing.Speed(0)), rapid.Custom(func(t *rapid.T) sailing.Speed { return sailing.Speed(rapid.Float64Range(1e-3, 500).Draw(t, "speed")) })).Draw(t, "speed"),
			}
		}), 1, 5).Draw(t, "points")
		data, err := json.Marshal(points)
		if err != nil {
			t.Fatal(err)
		}
		back, err := passage.ReadWaypoints(bytes.NewReader(data))
		if err != nil || !slices.Equal(back, points) {
			t.Fatalf("%s: %+v, %v", data, back, err)
		}
		back = nil
		if err := json.Unmarshal(data, &back); err != nil || !slices.Equal(back, points) {
			t.Fatalf("%s, by encoding/json: %+v, %v", data, back, err)
		}
	})
	w := passage.Waypoint{Name: "Ledge", Position: angle.MustParsePosition("47°03′N 019°11′W"), GreatCircle: true, Speed: 5.5 * sailing.Knot}
	if data, err := json.Marshal(w); err != nil || string(data) != `{"name":"Ledge","position":"47°03′N 019°11′W","speed":"5.5 kn","sailing":"great circle"}` {
		t.Errorf("%s, %v", data, err)
	}
	for _, text := range []string{`{"position":"47N 19W","sailing":"loxodrome"}`, `{"position":"47N 19W","speed":5.5}`, `[]`} {
		if err := json.Unmarshal([]byte(text), &w); err == nil || w.Name != "Ledge" {
			t.Errorf("%s: %+v, %v", text, w, err)
		}
	}
}

func FuzzReadWaypoints(f *testing.F) {
	f.Add("name,position,speed,sailing\nOne,47°N 019°W,5,great circle\n")
	f.Add(`[{"position": "47.1, -19.2", "speed": 4}]`)
	f.Fuzz(func(t *testing.T, text string) {
		points, err := passage.ReadWaypoints(strings.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
			return
		}
		p := plan()
		p.Waypoints = points
		if w, err := passage.New(p); err == nil {
			_ = w.String()
		} else if _, ok := errors.AsType[*passage.Error](err); !ok {
			t.Fatalf("%#v", err)
		}
	})
}

func FuzzReadStreams(f *testing.F) {
	f.Add("set,rate\n045,1.5\n225°T,0 kn\n")
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := passage.ReadStreams(strings.NewReader(text)); err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
		}
	})
}
