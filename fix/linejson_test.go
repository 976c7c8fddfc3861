package fix

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// jsonUncertainty draws an uncertainty, or an unknown one.
func jsonUncertainty(t *rapid.T, name string) angle.Uncertainty {
	if rapid.Bool().Draw(t, name+" is stated") {
		return angle.Must(angle.StandardUncertainty(angle.Angle(rapid.Int64Range(0, int64(180*angle.Degree)).Draw(t, name))))
	}
	return angle.Uncertainty{}
}

// jsonLine draws a line of any kind that JSON can hold.
func jsonLine(t *rapid.T) Line {
	p := geoDraw(t, 80)
	a, b := Mark{"Orlesk Head light", geoNear(t, p, 1000, 20_000)}, Mark{rapid.SampledFrom([]string{"", "</Ledge>"}).Draw(t, "name"), geoNear(t, p, 30_000, 40_000)}
	u := jsonUncertainty(t, "uncertainty")
	around := angle.Angle(rapid.Int64Range(0, int64(angle.Turn)-1).Draw(t, "around"))
	known := sailing.Distance(rapid.SampledFrom([]float64{0, 0.1, 185.2, 1.0 / 3}).Draw(t, "known"))
	var l Line
	var err error
	switch rapid.IntRange(0, 6).Draw(t, "kind") {
	case 0:
		l = Bearing(a, angle.TrueFrom(around), u)
	case 1:
		l, err = Range(a, sailing.Distance(rapid.Float64Range(1, 1e6).Draw(t, "distance")), known)
	case 2:
		l, err = Transit(a, b, u)
	case 3:
		l, err = HorizontalAngle(a, b, min(around/2+1, angle.Turn/2-1), u)
	case 4:
		l, err = Latitude(p.Latitude, known)
	case 5:
		l, err = Longitude(p.Longitude, known)
	default:
		h := angle.Must(course.FromCompass(angle.CompassFrom(around), course.With{
			Variation: variation.West(angle.Degree).WithUncertainty(jsonUncertainty(t, "variation")),
			Deviation: deviation.East(angle.Degree).WithUncertainty(jsonUncertainty(t, "deviation")),
		}))
		l = CompassBearing(a, rapid.SampledFrom([]course.Bearing{
			h.BearingFromCompass(angle.CompassFrom(around / 3)), h.BearingFromMagnetic(angle.MagneticFrom(around / 5)),
			h.BearingFromTrue(angle.TrueFrom(around / 7)), h.BearingFromRelative(angle.RelativeFrom(around / 9)),
		}).Draw(t, "bearing"), u)
	}
	if err != nil {
		t.Fatal(err)
	}
	if rapid.Bool().Draw(t, "timed") {
		l = l.WithTime(time.Date(2026, time.July, 2, 9, 30, 0, 123, time.UTC))
	}
	for range rapid.IntRange(0, 2).Draw(t, "transfers") {
		l = l.Transferred(sailing.Run{Course: angle.TrueFrom(around), Distance: sailing.Distance(rapid.Float64Range(-10, 9e4).Draw(t, "run"))}, rapid.SampledFrom([]sailing.Covariance{sailing.Oriented(angle.TrueFrom(around), 100, 30), {}}).Draw(t, "known how"))
	}
	return l
}

func TestLineJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := jsonLine(t)
		text, err := json.Marshal(l)
		if err != nil {
			t.Fatal(err)
		}
		var back Line
		if err := json.Unmarshal(text, &back); err != nil {
			t.Fatalf("%v of %s", err, text)
		}
		if !reflect.DeepEqual(back, l) {
			t.Fatalf("%s\n%+v\nwant\n%+v", text, back, l)
		}
	})
}

func TestJSONRefusesFunctionLines(t *testing.T) {
	other := angle.Must(LineFromFunc("depth", "m", func(angle.Position) float64 { return 1 }, 1, 1))
	for name, l := range map[string]Line{"a function": other, "none": {}, "by hand": {kind: KindBearing, name: "x"}} {
		if text, err := json.Marshal(l); err == nil || !strings.Contains(err.Error(), "fix: ") {
			t.Errorf("%s: %s, %v", name, text, err)
		}
	}
	const head = `{"name":"Head","position":"47°08.4′N 019°00.0′W"}`
	for name, text := range map[string]string{
		"no kind":               `{}`,
		"an unknown kind":       `{"kind":"guess"}`,
		"a function":            `{"kind":"other","name":"depth"}`,
		"no mark":               `{"kind":"bearing","bearing":"045°T"}`,
		"no bearing":            `{"kind":"bearing","marks":[` + head + `]}`,
		"no distance":           `{"kind":"distance-off","marks":[` + head + `]}`,
		"one mark of a transit": `{"kind":"transit","marks":[` + head + `]}`,
		"one mark twice":        `{"kind":"transit","marks":[` + head + `,` + head + `]}`,
		"no latitude":           `{"kind":"latitude"}`,
		"no longitude":          `{"kind":"longitude"}`,
		"no angle":              `{"kind":"horizontal-angle","marks":[` + head + `,` + head + `]}`,
		"a latitude by compass": `{"kind":"latitude","latitude":"47°N","shared":{"heading":"226°C","variationStandardUncertainty":"","deviationStandardUncertainty":""}}`,
		"a distance below 0":    `{"kind":"distance-off","marks":[` + head + `],"distance":-1}`,
	} {
		l := Line{name: "kept"}
		err := json.Unmarshal([]byte(text), &l)
		if err == nil || l.name != "kept" {
			t.Errorf("%s: %v, %v", name, l.kind, err)
		}
	}
}
