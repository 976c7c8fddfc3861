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

func TestJSONRoundTrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRun(t, 500)
		sameAfterJSON(t, r)
		sameAfterJSON(t, angle.Must(sailing.Plane(r)))
		sameAfterJSON(t, angle.Must(sailing.NewTraverse(r, drawRun(t, 500))))
		if g, err := sailing.Sphere().GreatCircle(drawPosition(t, 70*deg), drawPosition(t, 70*deg)); err == nil {
			if north, _, ok := g.Vertices(); ok {
				sameAfterJSON(t, north)
			}
		}
		c, _, _, _ := drawCovariance(t)
		sameAfterJSON(t, angle.Must(c.Plus(sailing.Circular(1)).Ellipse(0.95)))
	})
}

func TestJSONKeys(t *testing.T) {
	for want, v := range map[string]any{
		`{"course":"235°T","distance":"12.5 M"}`: run(235, 12.5*mile),
		`{"method":"parallel","from":"50°00′N 010°00′W","to":"50°00′N 012°00′W","course":"270°T","distance":"77.1`: angle.Must(sailing.MidLatitude(place(50*deg, -10*deg), place(50*deg, -12*deg))),
		`{"method":"mercator","from":"00°00′N 000°00′E","to":"10°00′N 010°00′E","course":"`:                        angle.Must(sailing.Mercator(place(0, 0), place(10*deg, 10*deg), nil)),
		`{"from":"0`:     angle.Must(sailing.Sphere().GreatCircle(place(0, 0), place(0, 60*deg))),
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
	if err != nil || read.Distance != composite.Distance || read.Limit != composite.Limit || read.Parallel != composite.Parallel || read.First.Initial != composite.First.Initial || read.Last.Final != composite.Last.Final {
		t.Errorf("%s, %v", data, err)
	}
}

func TestEllipsoidsAsText(t *testing.T) {
	for want, e := range map[string]*sailing.Ellipsoid{
		"WGS84": nil, "Clarke 1866": sailing.Clarke1866(), "sphere": sailing.Sphere(),
		"WGS84 (equatorial radius 6400000 m, flattening 0)":          angle.Must(sailing.NewEllipsoid("WGS84", 6400000, 0)),
		"Orlesk (equatorial radius 6400000.25 m, flattening 0.0031)": angle.Must(sailing.NewEllipsoid("Orlesk", 6400000.25, 0.0031)),
	} {
		if text, err := e.MarshalText(); err != nil || string(text) != want {
			t.Errorf("%s, %v; want %s", text, err, want)
		}
	}
}
