package examples_test

import (
	"fmt"
	"log"
	"os"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// Example is the sample that the README shows; the figures are invented.
func Example() {
	rose, err := variation.ParseLegend("7°20'W 2015 (12'E)") // as printed on the chart
	if err != nil {
		log.Fatal(err)
	}
	dev := deviation.East(3*angle.Degree + 30*angle.Minute) // on this heading
	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	h, err := course.FromTrue(angle.MustParseTrue("104°15′"), course.With{Variation: rose, Deviation: dev, On: day})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(h.Working())
	// Output:
	// True course          104°15′T  given
	// Variation in 2015      7°20′W  printed at the rose, annual change 12′E
	// Years, 2015 to 2026  11 years  counted in whole years
	// Change                 2°12′E  11 years × 12′E
	// Change error           ±0°24′  the annual change is not steady over 11 years
	// Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
	// Uncertainty            ±0°34′  standard: change error, source and rounding (±0°05′) together
	// Variation in 2026      5°08′W  change east, variation west: it decreases
	// Magnetic course      109°23′M  variation is west: magnetic is greater than true
	// Deviation              3°30′E  as given
	// Compass course       105°53′C  deviation is east: compass is less than magnetic
	// Total compass error    1°38′W  variation and deviation have opposite names: the difference, named as the greater
	// Steer by compass        106°C  to the nearest whole degree
	// Warning: the rose of 2015 gives 5°08′W ±0°34′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// TestReadmeShowsTheExample holds the README's sample and its output to the
// example above, which is compiled and run.
func TestReadmeShowsTheExample(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	source, err := os.ReadFile("readme_test.go")
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(source), "func Example() {\n")
	body, output, _ := strings.Cut(body, "\t// Output:\n")
	output, _, _ = strings.Cut(output, "}\n")
	if got, want := block(string(readme), "```go\n"), strings.ReplaceAll(body, "\n\t", "\n")[1:]; got != want {
		t.Errorf("the README's sample is\n%s\nthe example is\n%s", got, want)
	}
	if got, want := block(string(readme), "prints\n\n```\n"), strings.ReplaceAll(output, "\t// ", ""); got != want {
		t.Errorf("the README's output is\n%s\nthe example's is\n%s", got, want)
	}
}

// block returns what stands between an opening and the next fence.
func block(text, opening string) string {
	_, text, _ = strings.Cut(text, opening)
	text, _, _ = strings.Cut(text, "```")
	return text
}
