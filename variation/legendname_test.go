package variation_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/variation"
)

// The words and letters of a unit are no name: the e of deg is not east.
func TestLegendWithoutNameIsRefused(t *testing.T) {
	for _, text := range []string{
		"4 deg 2009 (8'E)", "4 degrees 2009 (8′E)", "4 Degree 2009 increasing 8′E", "4 DEG 15 MINUTES 2009 (8′E)",
		"VARIATION 4 deg. 2009 (8′W)", "4d 2009 (8′W)", "4 2009 (8'E)", "-4 deg 2009 (8′E)", "40 sec 2009 (8′E)", "2 points 2009 (8′E)",
		"Compass 4 deg for 2009, yearly decrease 8 minutes W",
	} {
		_, err := variation.ParseLegend(text)
		if e, ok := errors.AsType[*variation.Error](err); !ok || e.Kind != variation.NoName {
			t.Errorf("%q: %v, want a refusal for want of a name", text, err)
		}
	}
}

// In every spelling that is read, a variation other than zero needs its name: without
// one the legend is refused, and with one it has that name, with any words in it.
func TestLegendNamesTheVariationItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string, of ...string) string { return rapid.SampledFrom(of).Draw(t, label) }
		degreesFigure := rapid.IntRange(1, 179).Draw(t, "degrees")
		figure := fmt.Sprintf(draw("degree form", "%d°", "%dº", "%d deg", "%d deg.", "%d degrees", "%d DEGREE", "%dd", "%d d", "%d", "%d.0", "%d½°", "%d 1/2 degs"), degreesFigure)
		if !strings.ContainsAny(figure, ".½/") || strings.HasSuffix(figure, "deg.") {
			figure += draw("minutes", "", " 15′", " 15'", " 15 min", " 15 minutes", " 15 MINS", " 15.5 min.", " 15 30", " 15 min 30 sec", " 15′30 seconds")
		}
		leading := draw("leading", "", "VAR ", "Var. ", "Magnetic Variation ", "Declination: ", "Compass ", "MAG. DECL. ", "the declination of the compass ")
		trailing := draw("trailing", " 2009", " (2009)", " in 2009", " for the year 2009", " epoch 2009", ", 2009")
		trailing = strings.Replace(trailing, "for the year", "for year", 1)
		change := draw("change", "", " (8′E)", " (8'W)", " ANNUAL INCREASE 8′E", " decreasing 8 minutes W yearly", " no annual change", " easterly 8 min each year", " (W 8′)")

		text := leading + figure + trailing + change
		_, err := variation.ParseLegend(text)
		if e, ok := errors.AsType[*variation.Error](err); !ok || e.Kind != variation.NoName {
			t.Fatalf("%q without a name: %v", text, err)
		}
		name := draw("name", " E", " W", " e", " w", " East", " west", " EASTERLY", " westerly", " E.", " W.")
		west := strings.ToLower(strings.TrimSpace(name))[0] == 'w'
		before := rapid.Bool().Draw(t, "before") && !strings.HasSuffix(strings.ToLower(name), "erly")
		figure += name
		if before {
			figure = strings.TrimSpace(name) + " " + strings.TrimSuffix(figure, name)
		}
		change = draw("change again", "", " (8′E)", " (8′W)", " no annual change")
		text = leading + figure + trailing + change
		r, err := variation.ParseLegend(text)
		if err != nil || (r.Variation.Name() == "W") != west {
			t.Fatalf("%q: %v, %v; want west %v", text, r, err, west)
		}
	})
}
