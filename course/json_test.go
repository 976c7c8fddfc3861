package course_test

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// fields are the keys of an object, sorted, and what they hold.
func fields(t *testing.T, v any) (string, map[string]json.RawMessage) {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var f map[string]json.RawMessage
	if err := json.Unmarshal(data, &f); err != nil {
		t.Fatal(err)
	}
	return strings.Join(slices.Sorted(maps.Keys(f)), " "), f
}

func TestJSONOfAHeading(t *testing.T) {
	w := course.With{Variation: variation.MustParse("4°15.37′W ±0°30′"), Deviation: deviation.MustParse("3°30′E ±0°12′")}
	names, f := fields(t, given(t, "112.25C", w))
	if want := "compass compassError deviation magnetic true uncertainty variation working"; names != want {
		t.Errorf("fields %s, want %s", names, want)
	}
	// √(30² + 12²)′ = 32.310988842806…′
	for key, want := range map[string]string{
		"true":         `"111°29.63′T"`,
		"magnetic":     `"115.75°M"`,
		"compass":      `"112.25°C"`,
		"variation":    `"4°15.37′W ±0°30′"`,
		"deviation":    `"3°30′E ±0°12′"`,
		"compassError": `"0°45.37′W ±0°32.3109888428′"`,
		"uncertainty":  `"±0°32.3109888428′"`,
	} {
		if got := string(f[key]); got != want {
			t.Errorf("%s: %s, want %s", key, got, want)
		}
	}
	names, sheet := fields(t, f["working"])
	if names != "caution steps" || string(sheet["caution"]) != `"`+working.Caution+`"` {
		t.Errorf("working has %s", names)
	}
}

func TestJSONOfABearing(t *testing.T) {
	h := given(t, "045C", course.With{Variation: variation.MustParseLegend("2°W 2026"), Deviation: quillon(), On: day})
	names, f := fields(t, h.BearingFromCompass(angle.CompassFrom(300*deg)))
	if want := "compass magnetic relative true uncertainty working"; names != want {
		t.Errorf("fields %s, want %s", names, want)
	}
	for key, want := range map[string]string{
		"true": `"300.5°T"`, "magnetic": `"302.5°M"`, "compass": `"300°C"`, "relative": `"255°R"`,
	} {
		if got := string(f[key]); got != want {
			t.Errorf("%s: %s, want %s", key, got, want)
		}
	}
	h = given(t, "045C", known("2W", "3E"))
	if names, _ = fields(t, h.BearingFromRelative(angle.Relative{})); names != "compass magnetic relative true working" {
		t.Errorf("uncertainty not stated: fields %s", names)
	}
}

func TestJSONOfTheWorking(t *testing.T) {
	w := course.With{Variation: variation.MustParseLegend("11°20′W 1984 (7′E)"), Deviation: unsure(), On: day}
	h := given(t, "112T", w)
	var got struct{ Working working.Sheet }
	data, err := json.Marshal(h)
	if err == nil {
		err = json.Unmarshal(data, &got)
	}
	if err != nil {
		t.Fatal(err)
	}
	if got.Working.String() != h.Working().String() || len(got.Working.Warnings) != 1 {
		t.Errorf("got\n%v\nwant\n%v", got.Working, h.Working())
	}
	for _, step := range got.Working.Steps {
		if step.Key == "" || step.What == "" || step.Value == "" || step.Unit == "" || step.How == "" {
			t.Errorf("step leaves something unsaid: %+v", step)
		}
	}
}

// The text of every figure reads back to the same figure.
func TestJSONFiguresAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		w.Variation = w.Variation.(variation.Variation).WithUncertainty(sigma(between(0, 5*deg).Draw(t, "uncertainty")))
		if rapid.Bool().Draw(t, "deviation stated") {
			w.Deviation = w.Deviation.(*deviation.Table).WithUncertainty(sigma(between(0, 5*deg).Draw(t, "uncertainty")))
		}
		h := heading(t, w)
		b := h.BearingFromCompass(anyCompass().Draw(t, "bearing"))
		var got struct {
			True         angle.True
			Magnetic     angle.Magnetic
			Compass      angle.Compass
			Relative     angle.Relative
			Variation    variation.Variation
			Deviation    deviation.Deviation
			CompassError angle.EastWest
			Uncertainty  angle.Uncertainty
		}
		read := func(v any) {
			t.Helper()
			data, err := json.Marshal(v)
			if err == nil {
				err = json.Unmarshal(data, &got)
			}
			if err != nil {
				t.Fatalf("%s: %v", data, err)
			}
		}
		read(h)
		if got.True != h.True() || got.Magnetic != h.Magnetic() || got.Compass != h.Compass() || got.Variation != h.Variation() ||
			got.Deviation != h.Deviation() || got.CompassError != h.CompassError() || got.Uncertainty != h.Uncertainty() {
			t.Fatalf("heading %v came back as %+v", h.Compass(), got)
		}
		read(b)
		if got.True != b.True() || got.Magnetic != b.Magnetic() || got.Compass != b.Compass() || got.Relative != b.Relative() || got.Uncertainty != b.Uncertainty() {
			t.Fatalf("bearing %v came back as %+v", b.Compass(), got)
		}
	})
}
