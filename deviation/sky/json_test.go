package sky_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// jsnWord is what every kind of this package that is told by a word can do.
type jsnWord interface {
	comparable
	String() string
	encoding.TextMarshaler
}

func jsnWords[W jsnWord](t *testing.T, unknown W, name string, words map[W]string) {
	t.Helper()
	read := func(w *W, text string) error { return any(w).(encoding.TextUnmarshaler).UnmarshalText([]byte(text)) }
	for w, want := range words {
		text, err := w.MarshalText()
		back := unknown
		if err != nil || string(text) != want || w.String() != want || read(&back, want) != nil || back != w {
			t.Errorf("%v: %q, %v, back %v", w, text, err, back)
		}
	}
	_, err := unknown.MarshalText()
	if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != 7 || unknown.String() != name+"(7)" {
		t.Errorf("%v, %v", unknown, err)
	}
	for text, kind := range map[string]angle.ErrorKind{"": angle.Empty, "moonrise": angle.UnknownWord} {
		w := unknown
		err := read(&w, text)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != kind || w != unknown {
			t.Errorf("%q: %v, %v", text, w, err)
		}
	}
}

func TestKindsAsText(t *testing.T) {
	jsnWords(t, sky.Event(7), "Event", map[sky.Event]string{sky.Rise: "rise", sky.Set: "set", sky.MeridianPassage: "meridian passage"})
	jsnWords(t, sky.Horizon(7), "Horizon", map[sky.Horizon]string{sky.CelestialHorizon: "celestial horizon", sky.VisibleHorizon: "visible horizon"})
	jsnWords(t, sky.Limb(7), "Limb", map[sky.Limb]string{sky.Centre: "centre", sky.LowerLimb: "lower limb", sky.UpperLimb: "upper limb"})
	jsnWords(t, sky.Standing(7), "Standing", map[sky.Standing]string{sky.Above: "above", sky.Below: "below"})
	if sky.Event(-1).String() != "Event(-1)" {
		t.Error(sky.Event(-1))
	}
	_, err := sky.Limb(-1).MarshalText()
	if want := "limb -1: want 0 to 2, centre, lower limb, upper limb"; err == nil || err.Error() != want {
		t.Errorf("%v", err)
	}
}

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
		s := angle.Must(sky.At(at))
		p := angle.Must(angle.PositionDegrees(rapid.Float64Range(-60, 60).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude")))
		jsnRoundTrips(t, s)
		jsnRoundTrips(t, s.From(p))
		jsnRoundTrips(t, angle.Must(sky.Amplitude(p.Latitude, s.Declination)))
		jsnRoundTrips(t, angle.Must(sky.AmplitudeOnVisibleHorizon(p.Latitude, s.Declination, 12)))
		jsnRoundTrips(t, sky.Sun{Declination: s.Declination, GreenwichHourAngle: s.GreenwichHourAngle}) // from an almanac
	})
}

func TestASunAsJSON(t *testing.T) {
	s := sky.Sun{Time: time.Date(2026, 5, 14, 19, 40, 0, 0, time.UTC), Declination: 18 * angle.Degree, GreenwichHourAngle: 115 * angle.Degree, Distance: 1.0105}
	data, err := json.Marshal(s)
	const want = `{"time":"2026-05-14T19:40:00Z","declination":"18°00′","greenwichHourAngle":"115°00′","distanceAstronomicalUnits":1.0105}`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v\nwant %s", data, err, want)
	}
}
