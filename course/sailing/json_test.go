package sailing_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
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

func TestSailingsAsJSONLoseNothing(t *testing.T) {
	flat := angle.Must(sailing.NewEllipsoid("Orlesk (old) datum", 6400000.25, 0.0031))
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t, 500)
		from, to := drawPosition(t, 70*deg), drawPosition(t, 70*deg)
		sameAfterJSON(t, r)
		sameAfterJSON(t, angle.Must(sailing.Plane(r)))
		sameAfterJSON(t, angle.Must(sailing.NewTraverse(r, drawRun(t, 500))))
		figure := rapid.SampledFrom([]*sailing.Ellipsoid{nil, sailing.WGS84(), sailing.Clarke1866(), sailing.Sphere(), flat}).Draw(t, "figure")
		sameAfterJSON(t, angle.Must(sailing.Mercator(from, to, figure)))
		sameAfterJSON(t, angle.Must(sailing.FollowMercator(from, r, figure)))
		if w, err := sailing.MidLatitude(from, to); err == nil {
			sameAfterJSON(t, w)
		}
		if w, err := sailing.FollowMidLatitude(from, r); err == nil {
			sameAfterJSON(t, w)
		}
		if g, err := sailing.NewGreatCircle(from, to); err == nil {
			if north, _, ok := g.Vertices(); ok {
				sameAfterJSON(t, north)
			}
		}
		c, _, _, _ := drawCovariance(t)
		sameAfterJSON(t, angle.Must(c.Plus(sailing.Circular(1)).Ellipse(0.95)))
	})
	var w sailing.Worked
	for _, text := range []string{`{"given":"a card"}`, `{"given":"run","figure":"flat"}`, `{"given":"run","distance":12.5}`, `[]`} {
		if err := json.Unmarshal([]byte(text), &w); err == nil || w != (sailing.Worked{}) {
			t.Errorf("%s: read as %+v", text, w)
		}
	}
	if w.Figure = sailing.WGS84(); json.Unmarshal([]byte(`{"method":"Mercator sailing","given":"positions","figure":"Clarke 1866"}`), &w) != nil || w.Figure != sailing.Clarke1866() || sailing.WGS84().String() != "WGS84" {
		t.Error("reading changed a figure that others use")
	}
}

func TestTheKeysOfSailingsAsJSON(t *testing.T) {
	for want, v := range map[string]any{
		`{"course":"235°T","distance":"12.5 M"}`: run(235, 12.5*mile),
		`{"method":"parallel sailing","from":"50°00′N 010°00′W","to":"50°00′N 012°00′W","course":"270°T","distance":"77.1`: angle.Must(sailing.Parallel(place(50*deg, -10*deg), place(50*deg, -12*deg))),
		`{"from":"0`:     angle.Must(sailing.NewGreatCircle(place(0, 0), place(0, 60*deg))),
		`{"semiMajor":"`: angle.Must(sailing.Circular(100).Ellipse(0.95)),
	} {
		if data, err := json.Marshal(v); err != nil || !strings.HasPrefix(string(data), want) {
			t.Errorf("%s, %v; want %s…", data, err, want)
		}
	}
	composite := angle.Must(sailing.NewComposite(place(35*deg, 140*deg), place(40*deg, -125*deg), lat(42*deg)))
	var read struct {
		Distance    sailing.Distance
		Limit       angle.Latitude
		Parallel    sailing.Run
		First, Last struct{ Initial, Final angle.True }
	}
	data, err := json.Marshal(composite)
	if err == nil {
		err = json.Unmarshal(data, &read)
	}
	if err != nil || read.Distance != composite.Distance() || read.Limit != composite.Limit() || read.Parallel != composite.Parallel() || read.First.Initial != composite.First().Initial() || read.Last.Final != composite.Last().Final() {
		t.Errorf("%s, %v", data, err)
	}
}

func TestEllipsoidsAsText(t *testing.T) {
	for _, e := range append(figures(), new(sailing.Ellipsoid), angle.Must(sailing.NewEllipsoid("WGS84", 6400000, 0)), angle.Must(sailing.NewEllipsoid("", 6.4e6, 0.003)), angle.Must(sailing.NewEllipsoid("x (equatorial radius 3 m, flattening 0)", 6.4e6, 0.003))) {
		text, err := e.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		back, err := sailing.ParseEllipsoid(string(text))
		if err != nil || back.String() != e.String() || back.EquatorialRadius() != e.EquatorialRadius() || back.Flattening() != e.Flattening() {
			t.Errorf("%s: %v, %v", text, back, err)
		}
	}
	if text, _ := sailing.Clarke1866().MarshalText(); string(text) != "Clarke 1866" {
		t.Error(string(text))
	}
	for _, r := range []quantityRefusal{
		{"", angle.Empty, 0}, {"wgs84", angle.UnknownWord, 0}, {"x (equatorial radius", angle.UnknownWord, 0}, {"x (equatorial radius 6e6 m)", angle.NoNumber, 21}, {"x (equatorial radius a m, flattening 0)", angle.NoNumber, 21},
	} {
		_, err := sailing.ParseEllipsoid(r.text)
		checkQuantity(t, r, err)
	}
	_, err := sailing.ParseEllipsoid("x (equatorial radius -1 m, flattening 0)")
	refused[*angle.RangeError](t, "a radius below zero", err)
}

func FuzzParseEllipsoid(f *testing.F) {
	for _, text := range []string{"WGS84", "x (equatorial radius 6400000 m, flattening 0.003)", "sphere", " (equatorial radius 1 m, flattening 0)"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := sailing.ParseEllipsoid(text)
		if err != nil {
			return
		}
		again, err := e.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if back, err := sailing.ParseEllipsoid(string(again)); err != nil || *back != *e {
			t.Fatalf("%q, %s: %v, %v", text, again, back, err)
		}
	})
}
