package course_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// TestHandBearingNeedsNoHeading converts by the variation alone, and agrees with the bearing
// of the same compass on every heading.
func TestHandBearingNeedsNoHeading(t *testing.T) {
	v := variation.West(6 * deg).WithUncertainty(angle.Rectangular(deg))
	m := angle.MustParseMagnetic("138.5°M")
	b, err := course.HandBearing(m, course.With{Variation: v})
	if err != nil || b.True() != angle.MustParseTrue("132.5°T") || b.Magnetic() != m || b.ByCompass() || !b.ByHand() {
		t.Fatalf("%v, %v", b, err)
	}
	for c := angle.Angle(0); c < turn; c += 30 * deg {
		h := angle.Must(course.FromCompass(angle.CompassFrom(c), course.With{Variation: v, Deviation: quillon()}))
		if on := h.BearingFromMagnetic(m); on.ByHand() || on.True() != b.True() || on.Uncertainty() != b.Uncertainty() {
			t.Errorf("on %v: %v ±%v, want %v ±%v", h.Compass(), on, on.Uncertainty(), b, b.Uncertainty())
		}
	}
	ofVariation, ofDeviation := b.Conversion()
	if sigma, stated := ofDeviation.Sigma(); ofVariation != v.Uncertainty() || sigma != 0 || !stated {
		t.Errorf("of the variation %v, of the deviation %v", ofVariation, ofDeviation)
	}
	if text := b.Working().String(); !strings.Contains(text, "no deviation") || strings.Contains(text, "head ") {
		t.Errorf("%s", text)
	}
	if text := string(angle.Must(json.Marshal(b))); b.String() != "132.5°T 138.5°M" || strings.Contains(text, "relative") || strings.Contains(text, "\"compass\"") {
		t.Errorf("%v, %s", b, text)
	}
	if with, err := course.HandBearing(m, course.With{Variation: v, Deviation: deviation.East(3 * deg)}); err != nil || !with.Equal(b) {
		t.Errorf("with a deviation: %v, %v", with, err)
	}
	if _, err := course.HandBearing(m, course.With{}); !errors.As(err, new(*variation.MissingInputError)) {
		t.Errorf("without a variation: %v", err)
	}
}
