package slip_test

import (
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// The run of a stream is not a leg of its own, and with leeway the course through the water is not
// given: it follows from the heading.
func TestStreamAndLeewayInTheWorking(t *testing.T) {
	leg := stream.ReckonedRun{Heading: trueOf(330), Speed: 5 * sailing.Knot, Lasts: 2 * time.Hour, Leeway: stream.Leeway{Angle: degrees(5), WindSide: angle.Port}, Stream: stream.Stream{Set: trueOf(223), Rate: 3 * sailing.Knot}}
	still := leg
	still.Stream = stream.Stream{}
	from := angle.MustParsePosition("46°56.4′N 019°19.0′W")
	for _, p := range []slip.Problem{angle.Must(slip.NewReckoning(from, leg, still, leg)), angle.Must(slip.NewCourseMadeGood(leg, still, leg))} {
		var names []string
		for _, s := range p.Working() {
			if strings.Contains(strings.ToLower(s.What), "leg") {
				names = append(names, s.What)
			}
		}
		if got, want := strings.Join(names, "; "), "Leg 1; Stream, leg 1; Leg 2; Leg 3; Stream, leg 3"; got != want {
			t.Errorf("%s: %s, want %s", p.Topic, got, want)
		}
	}
	for _, s := range angle.Must(slip.NewMadeGood(leg)).Working() {
		if s.Key == "water course" && s.How != "heading and leeway" {
			t.Errorf("course through the water: %s", s.How)
		}
	}
}
