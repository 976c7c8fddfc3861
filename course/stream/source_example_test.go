package stream_test

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// An eddy is a source of your own: it runs south to the east of a meridian, and north to its west.
type eddy struct{ middle angle.Longitude }

// StreamAt makes it a [stream.Source].
func (e eddy) StreamAt(p angle.Position, _ time.Time) (stream.Stream, error) {
	if p.Longitude.Sub(e.middle) > 0 {
		return stream.Stream{Set: angle.MustParseTrue("180"), Rate: sailing.Knot}, nil
	}
	return stream.Stream{Set: angle.MustParseTrue("000"), Rate: sailing.Knot}, nil
}

// A crossing through streams that come from a program of your own. Every figure is invented.
func ExampleSource() {
	from, to := angle.MustParsePosition("47°05′N 019°20′W"), angle.MustParsePosition("47°05′N 019°00′W")
	depart := time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC)
	source := eddy{middle: angle.Must(angle.ParseLongitude("019°10′W"))}
	c, err := stream.CourseToSteerAcross(from, to, depart, 5*sailing.Knot, source)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(c.Water, "for", c.Lasts.Round(time.Minute))
	fmt.Println("off the track:", c.MaxOffTrack)
	// Output:
	// 091.1°T 5.0 kn for 2h44m0s
	// off the track: -1.4 M
}

// The course and speed through the water that arrive 12 miles away in two hours.
func ExampleCourseAndSpeedToSteer() {
	ground := stream.Motion{Course: angle.MustParseTrue("235"), Speed: 6 * sailing.Knot}
	s, err := stream.CourseAndSpeedToSteer(ground, stream.Stream{Set: angle.MustParseTrue("045"), Rate: 1.5 * sailing.Knot})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(s.Water)
	// Output:
	// 233°T 7.5 kn
}
