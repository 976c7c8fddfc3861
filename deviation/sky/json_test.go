package sky_test

import (
	"encoding/json"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

func jsnRoundTrips[T comparable](t *rapid.T, v T) string {
	t.Helper()
	data, err := json.Marshal(v)
	var back T
	if err != nil || json.Unmarshal(data, &back) != nil || back != v {
		t.Fatalf("%+v: %s, %v, back %+v", v, data, err, back)
	}
	return string(data)
}

func TestASightReadsBackFromItsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "second"), rapid.Int64Range(0, 999_999_999).Draw(t, "nanosecond"))
		s := angle.Must(sky.Sun(at))
		p := angle.Must(angle.PositionDegrees(rapid.Float64Range(-60, 60).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude")))
		jsnRoundTrips(t, s)
		jsnRoundTrips(t, s.From(p))
		jsnRoundTrips(t, angle.Must(sky.Amplitude(p.Latitude, s.Declination)))
		jsnRoundTrips(t, angle.Must(sky.AmplitudeOnVisibleHorizon(p.Latitude, s.Declination, 12)))
		jsnRoundTrips(t, sky.Body{Declination: s.Declination, GreenwichHourAngle: s.GreenwichHourAngle}) // from an almanac
	})
}

func TestASunAsJSON(t *testing.T) {
	s := sky.Body{Time: time.Date(2026, 5, 14, 19, 40, 0, 0, time.UTC), Declination: 18 * angle.Degree, GreenwichHourAngle: 115 * angle.Degree, SemiDiameter: 15*angle.Minute + 50*angle.Second, Name: "the Sun"}
	data, err := json.Marshal(s)
	const want = `{"name":"the Sun","time":"2026-05-14T19:40:00Z","declination":"18°00′","greenwichHourAngle":"115°00′","semiDiameter":"0°15′50″"}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant %s", data, err, want)
	}
}
