package stream_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// sameAfterJSON fails unless a value comes back from its JSON.
func sameAfterJSON[T any](t *rapid.T, v T) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(back, v) {
		t.Fatalf("%s: %+v, %v; want %+v", data, back, err, v)
	}
}

func TestWhatIsSteeredAndReckonedAsJSONLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, r := anyEstimate().Draw(t, "from"), anyRun().Draw(t, "run")
		if rapid.Bool().Draw(t, "not stated") {
			r.SpeedUncertainty, from.Covariance = sailing.Uncertainty[sailing.Speed]{}, sailing.Covariance{}
		}
		sameAfterJSON(t, r)
		sameAfterJSON(t, from)
		sameAfterJSON(t, angle.Must(from.Run(r)))
		sameAfterJSON(t, stream.Wind{From: anyTrue().Draw(t, "wind")})
		sameAfterJSON(t, r.Leeway)
		sameAfterJSON(t, r.Water())
		sameAfterJSON(t, angle.Must(stream.MadeGood(r.Water(), r.Stream)))
		sameAfterJSON(t, angle.Must(stream.CourseAndSpeedToSteer(r.Water(), r.Stream)))
		streams := stream.Hourly{Start: day, Period: time.Duration(rapid.Int64Range(0, int64(3*time.Hour)).Draw(t, "period")), Streams: rapid.SliceOfN(anyStream(3), 0, 40).Draw(t, "streams")}
		sameAfterJSON(t, streams)
		to := angle.Must(sailing.WGS84().Follow(offOrlesk, sailing.Run{Course: anyTrue().Draw(t, "track"), Distance: 20 * sailing.NauticalMile}))
		if c, err := stream.CourseToSteerAcross(offOrlesk, to, day, 6*sailing.Knot, streams); err == nil {
			sameAfterJSON(t, c)
		}
		if s, err := stream.CourseToSteer(anyTrue().Draw(t, "track"), 6*sailing.Knot, r.Stream); err == nil {
			sameAfterJSON(t, s)
		}
	})
}

func TestTheKeysOfWhatIsSteered(t *testing.T) {
	hour := stream.CrossingHour{Begins: day, Lasts: 90 * time.Minute, Stream: streamOf(45, 1.5), Ground: stream.Motion{Course: trueOf(30), Speed: 6 * sailing.Knot}, Ends: offOrlesk}
	for want, v := range map[string]any{
		`{"set":"045°T","rate":"1.5 kn"}`:     streamOf(45, 1.5),
		`{"angle":"5°00′","windSide":"port"}`: stream.Leeway{Angle: 5 * deg, WindSide: angle.Port},
		`{"from":"270°T"}`:                    stream.Wind{From: trueOf(270)},
		`{"begins":"2026-07-02T09:00:00Z","stream":{"set":"045°T","rate":"1.5 kn"},"ground":{"course":"030°T","speed":"6 kn"},"ends":"46°58′N 019°08′W","lasts":"1h30m0s"}`:          hour,
		`{"heading":"030°T","speed":"6 kn","stream":{"set":"000°T","rate":"0 kn"},"leeway":{"angle":"0°00′","windSide":"starboard"},"headingUncertainty":"±2°00′","lasts":"1h0m0s"}`: stream.ReckonedRun{Heading: trueOf(30), Speed: 6 * sailing.Knot, Lasts: time.Hour, HeadingUncertainty: turnsKnownTo(2 * deg)},
	} {
		if data, err := json.Marshal(v); err != nil || string(data) != want {
			t.Errorf("%s, %v; want %s", data, err, want)
		}
	}
	for _, text := range []string{`{"sought":"treasure"}`, `{"water":{"course":"030°M"}}`, `{"water":{"speed":"6"}}`} {
		var s stream.Steering
		err := json.Unmarshal([]byte(text), &s)
		if _, is := errors.AsType[*angle.ParseError](err); !is || s != (stream.Steering{}) {
			t.Errorf("%s: read as %+v, %v", text, s, err)
		}
	}
	for _, text := range []string{`{"lasts":"an hour"}`, `{"lasts":3600}`, `[]`} {
		var h stream.CrossingHour
		var r stream.ReckonedRun
		if err1, err2 := json.Unmarshal([]byte(text), &h), json.Unmarshal([]byte(text), &r); err1 == nil || err2 == nil {
			t.Errorf("%s: read as %+v and %+v", text, h, r)
		}
	}
}
