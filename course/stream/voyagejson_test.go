package stream_test

import (
	"encoding/json"
	"reflect"
	"strings"
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

func TestJSONRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, r := anyEstimate().Draw(t, "from"), anyRun().Draw(t, "run")
		if rapid.Bool().Draw(t, "not stated") {
			r.SpeedUncertainty, from.Covariance = sailing.Uncertainty[sailing.Speed]{}, sailing.Covariance{}
		}
		sameAfterJSON(t, r)
		sameAfterJSON(t, from)
		sameAfterJSON(t, angle.Must(from.Run(r)))
		sameAfterJSON(t, r.Leeway)
		sameAfterJSON(t, r.Water())
		streams := stream.Hourly{Start: day, Period: time.Duration(rapid.Int64Range(0, int64(3*time.Hour)).Draw(t, "period")), Streams: rapid.SliceOfN(anyStream(3), 0, 40).Draw(t, "streams")}
		sameAfterJSON(t, streams)
	})
}

func TestJSONKeys(t *testing.T) {
	north := angle.Position{Latitude: angle.Must(angle.LatitudeFrom(47*deg + 8*angle.Minute)), Longitude: offOrlesk.Longitude}
	crossing, err := stream.CourseToSteerAcross(offOrlesk, north, day, 5*sailing.Knot, streamOf(90, 3))
	if err != nil {
		t.Fatal(err)
	}
	for want, v := range map[string]any{
		`{"set":"045°T","rate":"1.5 kn"}`:     streamOf(45, 1.5),
		`{"angle":"5°00′","windSide":"port"}`: stream.Leeway{Angle: 5 * deg, WindSide: angle.Port},
		`{"heading":"030°T","speed":"6 kn","stream":{"set":"000°T","rate":"0 kn"},"leeway":{"angle":"0°00′"},"headingUncertainty":"±2°00′","lasts":"1h0m0s"}`: stream.ReckonedRun{Heading: trueOf(30), Speed: 6 * sailing.Knot, Lasts: time.Hour, HeadingUncertainty: turnsKnownTo(2 * deg)},
	} {
		if data, err := json.Marshal(v); err != nil || string(data) != want {
			t.Errorf("%s, %v; want %s", data, err, want)
		}
	}
	if data, err := json.Marshal(crossing); err != nil || !strings.HasPrefix(string(data), `{"from":"46°58′N 019°08′W","to":"47°08′N 019°08′W","depart":"2026-07-02T09:00:00Z","run":{"course":"000°T","distance":"`) ||
		!strings.Contains(string(data), `"hours":[{"begins":"2026-07-02T09:00:00Z","stream":{"set":"090°T","rate":"3 kn"},"ends":"`) || !strings.Contains(string(data), `"ground":{"course":"000°T","speed":"`) || !strings.Contains(string(data), `},"lasts":"2h30m4.196817055s","hours":[`) || !strings.Contains(string(data), `"drift":{"course":"090°T","distance":"`) {
		t.Errorf("%s, %v", data, err)
	}
	for _, text := range []string{`{"lasts":"an hour"}`, `{"lasts":3600}`, `[]`} {
		var r stream.ReckonedRun
		if err := json.Unmarshal([]byte(text), &r); err == nil {
			t.Errorf("%s: read as %+v", text, r)
		}
	}
}
