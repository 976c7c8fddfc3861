package stream_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"pgregory.net/rapid"
)

// A stream is named by the direction toward which it sets, and found from the dead
// reckoning position to the fix. (Lectures in Navigation, 1918, Week VII, Thursday
// lecture, item 11. Drift there is the distance, not the rate.)
func TestSetAndDriftRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reckoned := angle.Must(angle.PositionDegrees(rapid.Float64Range(-80, 80).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude")))
		since := time.Duration(rapid.Int64Range(int64(time.Hour), int64(48*time.Hour)).Draw(t, "since"))
		flow := stream.Stream{Set: anyTrue().Draw(t, "set"), Rate: speedBetween(0.5, 5).Draw(t, "rate")}
		fix, err := sailing.WGS84().Follow(reckoned, sailing.Run{Course: flow.Set, Distance: flow.Rate.For(since)})
		if err != nil {
			t.Fatal(err)
		}
		s, err := stream.SetAndDriftBetween(stream.Estimate{Position: reckoned}, stream.Estimate{Position: fix}, since)
		if err != nil {
			t.Fatal(err)
		}
		got := s.Stream
		near(t, "set", got.Set, flow.Set, deg/1_000_000) // positions are kept to 3e-8 m, of half a mile at least
		if math.Abs(got.Rate.Knots()-flow.Rate.Knots()) > 1e-8 {
			t.Fatalf("rate %v, want %v", got.Rate.Knots(), flow.Rate.Knots())
		}
	})
	here := stream.Estimate{Position: offOrlesk}
	if s, err := stream.SetAndDriftBetween(here, here, time.Hour); err != nil || s.Stream != (stream.Stream{}) {
		t.Errorf("at the reckoned position: %v, %v", s, err)
	}
	for _, since := range []time.Duration{0, -time.Hour} {
		_, err := stream.SetAndDriftBetween(here, here, since)
		if e, is := errors.AsType[*angle.RangeError](err); !is || !strings.Contains(e.Error(), "time since the last fix") {
			t.Errorf("since %v: %v", since, err)
		}
	}
}

func TestTimeOverTheGround(t *testing.T) {
	s, err := stream.CourseToSteer(trueOf(112), 6*sailing.Knot, streamOf(292, 2))
	if err != nil {
		t.Fatal(err)
	}
	if took, err := timeFor(s, 10*sailing.NauticalMile); err != nil || (took-150*time.Minute).Abs() > time.Microsecond { // rounding of 4 kn
		t.Errorf("10 M at 4 kn: %v, %v", took, err)
	}
	if _, err := timeFor(stream.Steering{}, sailing.NauticalMile); err == nil {
		t.Error("a mile at no speed was timed")
	}
}

func TestWorkingOfTriangles(t *testing.T) {
	toSteer, err1 := stream.CourseToSteer(trueOf(112), 6*sailing.Knot, streamOf(20, 2))
	made, err2 := stream.MadeGood(motionOf(112, 6), streamOf(20, 2))
	toMake, err3 := stream.CourseAndSpeedToSteer(motionOf(112, 6), streamOf(20, 2))
	_, err := stream.CourseToSteer(trueOf(112), 2*sailing.Knot, streamOf(20, 3))
	strong := errorOf(err, stream.TooStrong)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		s    stream.Steering
		want string
	}{
		{"to steer", toSteer, `
Stream                    020°T 2.0 kn  set (toward) and rate
Course through the water    131°27.5′T  to steer: cancels the stream across the track
Speed through the water         6.0 kn
Course made good                 112°T  the track; the parts along it are added
Speed made good                 5.6 kn
`},
		{"made good", made, `
Stream                    020°T 2.0 kn  set (toward) and rate
Course through the water         112°T  given
Speed through the water         6.0 kn
Course made good            093°22.4′T  vessel and stream added
Speed made good                 6.3 kn
`},
		{"to make good", toMake, `
Stream                    020°T 2.0 kn  set (toward) and rate
Course through the water    130°13.6′T  to steer: the motion to be made good, minus the stream
Speed through the water         6.4 kn
Course made good                 112°T  given
Speed made good                 6.0 kn
`},
		{"nearest", strong.Nearest, `
Stream                    020°T 3.0 kn  set (toward) and rate
Course through the water    151°48.6′T  nearest to the track: at right angles to the course made good
Speed through the water         2.0 kn
Course made good            061°48.6′T  vessel and stream added
Speed made good                 2.2 kn
`},
	} {
		if got := c.s.Working().Steps.String(); got != c.want[1:] {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want[1:])
		}
	}
	if got := streamOf(45, 1.5).String() + ", " + motionOf(235, 6.2).String(); got != "045°T 1.5 kn, 235°T 6.2 kn" {
		t.Error(got)
	}
}

// A vessel that does not move through the water, or over the ground, has no course to name.
func TestStoppedVesselHasNoCourse(t *testing.T) {
	drifting := angle.Must(stream.CourseAndSpeedToSteer(motionOf(45, 2), streamOf(45, 2)))
	anchored := angle.Must(stream.CourseAndSpeedToSteer(motionOf(0, 0), streamOf(45, 2)))
	for _, c := range []struct {
		s          stream.Steering
		key, value string
		how        string
	}{
		{drifting, "water course", "none", "stopped in the water"},
		{drifting, "ground course", "045°T", "given"},
		{anchored, "water course", "225°T", "to steer: the motion to be made good, minus the stream"},
		{anchored, "ground course", "none", "stopped over the ground"},
		{angle.Must(stream.MadeGood(motionOf(112, 0), streamOf(45, 2))), "water course", "none", "stopped in the water"},
	} {
		step, ok := c.s.Working().Steps.Find(c.key)
		if !ok || step.Value != c.value || step.How != c.how || (step.Unit == "") != (c.value == "none") {
			t.Errorf("%v: %+v", c.s, step)
		}
	}
	// The rounding error of two equal motions is not a course.
	rapid.Check(t, func(t *rapid.T) {
		m := stream.Motion{Course: anyTrue().Draw(t, "set"), Speed: speedBetween(0, 10).Draw(t, "rate")}
		s := angle.Must(stream.CourseAndSpeedToSteer(m, stream.Stream{Set: m.Course, Rate: m.Speed}))
		if s.Water != (stream.Motion{}) {
			t.Fatalf("%v through the water", s.Water)
		}
	})
}

func TestATriangleOnALine(t *testing.T) {
	s := angle.Must(stream.MadeGood(motionOf(235, 6), streamOf(45, 1.5)))
	if got, want := s.String(), "235°T 6.0 kn through the water, stream 045°T 1.5 kn, 238.3°T 4.5 kn over the ground"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Absurd speeds are refused. They do not lead to a time of zero or an infinite speed.
func TestAbsurdSpeedIsRefused(t *testing.T) {
	for _, speed := range []sailing.Speed{1e18, 1000 * sailing.Knot, sailing.Speed(math.Inf(1)), sailing.Speed(math.NaN()), -1} {
		water := stream.Motion{Course: trueOf(30), Speed: speed}
		flow := stream.Stream{Set: trueOf(30), Rate: speed}
		_, made := stream.MadeGood(water, stream.Stream{})
		_, drifted := stream.MadeGood(stream.Motion{}, flow)
		_, steered := stream.CourseToSteer(trueOf(30), speed, stream.Stream{})
		_, good := stream.CourseAndSpeedToSteer(water, stream.Stream{})
		_, across := stream.CourseToSteerAcross(offOrlesk, braddle, day, speed, nil)
		_, through := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, flow)
		_, reckoned := stream.Estimate{Position: offOrlesk}.Run(stream.ReckonedRun{Speed: speed, Lasts: time.Hour})
		_, took := timeFor(stream.Steering{Ground: water}, sailing.NauticalMile)
		for name, err := range map[string]error{"made good": made, "drifted": drifted, "to steer": steered, "to make good": good, "across": across, "through a stream": through, "reckoned": reckoned, "time": took} {
			if _, is := errors.AsType[*angle.RangeError](err); !is {
				t.Errorf("%s at %v: %v", name, float64(speed), err)
			}
		}
	}
}
