package stream_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// The vessel Quillon, the Orlesk coast, its streams and every figure here are
// invented.

// At 6 knots the Quillon is to make good 112° through a stream that sets 020°
// at 2 knots.
func ExampleCourseToSteer() {
	flow := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot}
	s, err := stream.CourseToSteer(angle.MustParseTrue("112"), 6*sailing.Knot, flow)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(s.Working())

	// Her tender is rowed at 1.5 knots.
	_, err = stream.CourseToSteer(angle.MustParseTrue("112"), 1.5*sailing.Knot, flow)
	fmt.Println(err)
	// Output:
	// Stream                    020°T 2.0 kn  set (toward) and rate
	// Course through the water    131°27.5′T  to steer: cancels the stream across the track
	// Speed through the water         6.0 kn
	// Course made good                 112°T  the track; the parts along it are added
	// Speed made good                 5.6 kn
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// stream: track 112°T cannot be made good at 1.5 kn in a stream of 020°T 2.0 kn: the nearest is course 158.6°T through the water, which makes good 068.6°T 1.3 kn, 43° to port of the track
}

// Across Orlesk Bay the stream turns on the way: one course allows for it all.
func ExampleCourseToSteerAcross() {
	streams := stream.Hourly{
		Start: time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
		Streams: []stream.Stream{
			{Set: angle.MustParseTrue("110"), Rate: 1.5 * sailing.Knot},
			{Set: angle.MustParseTrue("115"), Rate: 2 * sailing.Knot},
			{Set: angle.MustParseTrue("290"), Rate: 0.5 * sailing.Knot},
			{Set: angle.MustParseTrue("295"), Rate: 1.5 * sailing.Knot},
		},
	}
	from, to := angle.MustParsePosition("47°02′N 019°06′W"), angle.MustParsePosition("47°20′N 018°58′W")
	c, err := stream.CourseToSteerAcross(from, to, streams.Start, 6*sailing.Knot, streams)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(c.Working())
	// Output:
	// Track                                     016°51.4′T  by rhumb line, 18.8 M; 18.01 M N, 5.46 M E
	// Stream 09:00–10:00 UTC        set 110°T, rate 1.5 kn  drift 1.5 M; 0.51 M S, 1.41 M E; made good 023.4°T 5.9 kn, to 47°07.4′N 019°02.6′W
	// Stream 10:00–11:00 UTC        set 115°T, rate 2.0 kn  drift 2.0 M; 0.85 M S, 1.81 M E; made good 028.4°T 5.8 kn, to 47°12.5′N 018°58.5′W
	// Stream 11:00–12:00 UTC        set 290°T, rate 0.5 kn  drift 0.50 M; 0.17 M N, 0.47 M W; made good 004.4°T 6.1 kn, to 47°18.6′N 018°57.9′W
	// Stream 12:00–12:13 UTC        set 295°T, rate 1.5 kn  drift 0.32 M; 0.14 M N, 0.29 M W; made good 356.3°T 6.6 kn, to 47°20.0′N 018°58.0′W
	// All the streams             set 113.1°T, drift 2.7 M  the sum of the drifts; 1.05 M S, 2.46 M E
	// Course through the water                  008°57.2′T  the track minus all the streams; 19.06 M N, 3.00 M E
	// Distance through the water                    19.3 M  on that course
	// Time                                      3 h 13 min  at 6.0 kn through the water
	// Off the track                                  1.8 M  at most, to starboard: look for dangers there
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// Three hours after the last fix, the Quillon compares its dead reckoning position with a
// new fix.
func ExampleSetAndDriftBetween() {
	now := time.Date(2026, time.July, 2, 12, 0, 0, 0, time.UTC)
	reckoned := stream.Estimate{Position: angle.MustParsePosition("47°02′N 019°06′W"), Time: now, Covariance: sailing.Circular(700 * sailing.Metre)}
	fix := stream.Estimate{Position: angle.MustParsePosition("47°04.5′N 019°03′W"), Time: now, Covariance: sailing.Circular(200 * sailing.Metre)}
	s, err := stream.SetAndDriftBetween(reckoned, fix, 3*time.Hour)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(s.Stream)
	fmt.Print(s.Working())
	// Output:
	// 039.4°T 1.1 kn
	// Dead reckoning position  47°02.0′N 019°06.0′W  at 12:00 UTC
	// Fix                      47°04.5′N 019°03.0′W  at 12:00 UTC
	// Set                                039°21.4′T  toward the fix
	// Drift                                   3.2 M  2.50 M N, 2.05 M E
	// Time since the last fix            3 h 00 min
	// Rate                                   1.1 kn  drift over time; in the US this is called the drift
	// Uncertainty of the set                    ±7°  standard uncertainty, from both positions
	// Uncertainty of the rate               ±0.1 kn  standard uncertainty, from both positions
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// Close-hauled on 112° the Quillon has the wind from 160° and makes 5° of leeway.
func ExampleLeewayOn() {
	heading := angle.MustParseTrue("112")
	l, warnings, err := stream.LeewayOn(heading, 5*angle.Degree, angle.MustParseTrue("160"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("leeway %v: heading %v the vessel goes %v through the water, %d warnings\n", l, heading, heading.Add(l.Deflection()), len(warnings))
	// Output:
	// leeway 5°00′, wind on the starboard side: heading 112°T the vessel goes 107°T through the water, 0 warnings
}

// An hour and a half by log and compass, from a fix good to 200 metres.
func ExampleEstimate_Run() {
	fix := stream.Estimate{
		Position:   angle.MustParsePosition("47°02′N 019°06′W"),
		Time:       time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
		Covariance: sailing.Circular(200 * sailing.Metre),
	}
	run := stream.ReckonedRun{
		Heading: angle.MustParseTrue("112"), Speed: 6 * sailing.Knot, Lasts: 90 * time.Minute,
		Stream: stream.Stream{Set: angle.MustParseTrue("020"), Rate: 1.5 * sailing.Knot},
		Leeway: stream.Leeway{Angle: 5 * angle.Degree, WindSide: angle.Port},

		HeadingUncertainty: angle.Must(angle.StandardUncertainty(3 * angle.Degree)),
		SpeedUncertainty:   angle.Must(sailing.StandardUncertainty(0.5 * sailing.Knot)),
		StreamUncertainty:  angle.Must(sailing.StandardUncertainty(0.25 * sailing.Knot)),
	}
	e, err := fix.Run(run)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(e.Position, "at", e.Time.Format("15:04 UTC"))

	sheet, err := run.Working(fix)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(sheet)
	// Output:
	// 47°00.0′N 018°53.2′W at 10:30 UTC
	// From                      47°02.0′N 019°06.0′W  at 09:00 UTC
	// Heading                                  112°T  true
	// Leeway                                   5°00′  wind on the port side
	// Stream                            020°T 1.5 kn  set (toward) and rate
	// Course through the water                 117°T  heading and leeway
	// Speed through the water                 6.0 kn
	// Course made good                    102°38.7′T  vessel and stream added
	// Speed made good                         6.0 kn
	// Run                                      9.0 M  over the ground in 1 h 30 min
	// Estimated position        47°00.0′N 018°53.2′W  at 10:30 UTC
	// 95 % ellipse                            ±2.1 M  along 117°T, and ±1.5 M across
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// How long the Quillon takes over 12 miles of the track, and the triangle as data.
func ExampleSteering() {
	s, err := stream.CourseToSteer(angle.MustParseTrue("112"), 6*sailing.Knot, stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot})
	if err != nil {
		log.Fatal(err)
	}
	t, err := (12 * sailing.NauticalMile).TimeAt(s.Ground.Speed)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("steer %v, %v over the ground: %v\n", s.Water.Course, s.Ground, t.Round(time.Minute))
	data, err := json.Marshal(s.Stream)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(string(data))
	// Output:
	// steer 131.5°T, 112°T 5.6 kn over the ground: 2h9m0s
	// {"set":"020°T","rate":"2 kn"}
}

// The course and speed made good if no allowance is made for the stream.
func ExampleMadeGood() {
	s, err := stream.MadeGood(
		stream.Motion{Course: angle.MustParseTrue("112"), Speed: 6 * sailing.Knot},
		stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot},
	)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(s.Ground)
	took, err := (10 * sailing.NauticalMile).TimeAt(s.Ground.Speed)
	fmt.Println(took.Round(time.Minute), err)
	// Output:
	// 093.4°T 6.3 kn
	// 1h36m0s <nil>
}

// A track that the stream does not let the vessel make good: the error has the nearest course.
func ExampleError() {
	flow := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 2 * sailing.Knot}
	track := angle.MustParseTrue("112")
	_, err := stream.CourseToSteer(track, 1.5*sailing.Knot, flow)
	if e, ok := errors.AsType[*stream.Error](err); ok && e.Kind == stream.TooStrong {
		fmt.Printf("head %.0f to make good %v: %.0f off the track\n", e.Nearest.Water.Course, e.Nearest.Ground, e.Nearest.Ground.Course.Sub(track).Abs())
	}
	// Output:
	// head 159°T to make good 068.6°T 1.3 kn: 43° off the track
}

// The streams of an atlas, hour by hour.
func ExampleHourly() {
	streams := stream.Hourly{
		Start:   time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
		Streams: []stream.Stream{{Set: angle.MustParseTrue("110"), Rate: 1.5 * sailing.Knot}, {Set: angle.MustParseTrue("115"), Rate: 2 * sailing.Knot}},
	}
	bay := angle.MustParsePosition("47°06′N 019°02′W")
	fmt.Println(streams.StreamAt(bay, streams.Start.Add(90*time.Minute)))
	_, err := streams.StreamAt(bay, streams.Start.Add(2*time.Hour))
	fmt.Println(err)
	// Output:
	// 115°T 2.0 kn <nil>
	// stream: no stream for 2026-07-02 11:00:00 UTC: the streams begin at 2026-07-02 09:00:00 and end at 2026-07-02 11:00:00 UTC; add the stream for that time
}
