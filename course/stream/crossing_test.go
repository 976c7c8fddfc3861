package stream_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

func TestCrossingInConstantStream(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to, speed := anyCrossing(t)
		flow := anyStream(8).Draw(t, "stream")
		hours := stream.Hourly{Start: day.Add(-time.Hour), Period: 7 * 24 * time.Hour, Streams: []stream.Stream{flow, flow, flow, flow, flow}}
		run := sailing.WGS84().Rhumb(from, to)
		want, errWant := stream.CourseToSteer(run.Course, speed, flow)
		took, err := timeFor(want, run.Distance)
		if errWant == nil && (err != nil || took > 29*24*time.Hour) {
			return // hardly any headway
		}
		for _, source := range []stream.Source{flow, &flow, hours, &hours} {
			c, err := stream.CourseToSteerAcross(from, to, day, speed, source)
			if errWant != nil {
				if errorOf(err, stream.NotReached) == nil {
					t.Fatalf("too strong for a triangle, %v; but %v, %v", errWant, c.Water, err)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			// If the stream is nearly as fast as the vessel, the quadratic equation loses
			// half of the digits. With good headway it loses hardly any.
			if want.Ground.Speed < sailing.Knot/2 || math.Abs(float64(speed-flow.Rate)) < 1e-3 {
				return
			}
			near(t, "course", c.Water.Course, want.Water.Course, deg/1_000_000)
			if (c.Lasts - took).Abs() > time.Second {
				t.Fatalf("took %v, want %v", c.Lasts, took)
			}
			if math.Abs(float64(c.MaxOffTrack)) > 1 { // a metre: the vessel keeps to the track
				t.Fatalf("%v off the track", c.MaxOffTrack.Metres())
			}
		}
	})
}

// Where the stream is just as fast as the vessel the equation of the time is of the
// first degree.
func TestCrossingInEquallyFastStream(t *testing.T) {
	north := angle.MustParsePosition("47°18′N 019°08′W")
	for _, set := range []float64{0, 45, 60, 300, 89} {
		want, err := stream.CourseToSteer(trueOf(0), 5*sailing.Knot, streamOf(set, 5))
		if err != nil {
			t.Errorf("set %v: %v", set, err)
			continue
		}
		c, err := stream.CourseToSteerAcross(offOrlesk, north, day, 5*sailing.Knot, streamOf(set, 5))
		if err != nil {
			t.Errorf("set %v: %v", set, err)
			continue
		}
		took, err := timeFor(want, c.Track().Distance)
		if err != nil || (took-c.Lasts).Abs() > time.Second || c.Water.Course.Sub(want.Water.Course).Abs() > deg/1_000_000 { // as in every constant stream
			t.Errorf("set %v: %v in %v, want %v in %v (%v)", set, c.Water, c.Lasts, want.Water, took, err)
		}
	}
	// Setting away from the goal, or right across, the vessel gets nowhere.
	for _, set := range []float64{90, 120, 180, 270} {
		_, err := stream.CourseToSteerAcross(offOrlesk, north, day, 5*sailing.Knot, streamOf(set, 5))
		if errorOf(err, stream.NotReached) == nil {
			t.Errorf("set %v: %v", set, err)
		}
	}
}

// The vessel may arrive at the very end of the streams, in spite of rounding.
func TestCrossingUntilStreamsEnd(t *testing.T) {
	for hours := 1; hours <= 6; hours++ {
		for track := 0.0; track < 360; track += 17 {
			h := stream.Hourly{Start: day, Streams: make([]stream.Stream, hours)}
			for i := range h.Streams {
				h.Streams[i] = streamOf(track, 1)
			}
			to, err := sailing.WGS84().Follow(offOrlesk, sailing.Run{Course: trueOf(track), Distance: sailing.Distance(7*hours) * sailing.NauticalMile})
			if err != nil {
				t.Fatal(err)
			}
			c, err := stream.CourseToSteerAcross(offOrlesk, to, day, 6*sailing.Knot, h)
			if err != nil || (c.Lasts-time.Duration(hours)*time.Hour).Abs() > time.Microsecond || len(c.Hours) != hours { // positions are kept to 3e-8 m
				t.Errorf("%d hours on %v: %v, %d hours, %v", hours, track, c.Lasts, len(c.Hours), err)
			}
		}
	}
}

// anyCrossing draws a crossing of some tens of miles off the Orlesk coast.
func anyCrossing(t *rapid.T) (from, to angle.Position, speed sailing.Speed) {
	run := sailing.Run{Course: anyTrue().Draw(t, "track"), Distance: sailing.Distance(rapid.Float64Range(2, 60).Draw(t, "miles")) * sailing.NauticalMile}
	to, err := sailing.WGS84().Follow(offOrlesk, run)
	if err != nil {
		t.Fatal(err)
	}
	return offOrlesk, to, speedBetween(2, 12).Draw(t, "speed")
}

// drifted returns the drift of the streams in a time, north and east in metres. It
// adds steps of seconds, which is not how the package sums them.
func drifted(h stream.Hourly, depart time.Time, took time.Duration, step time.Duration, each func(at time.Duration, north, east float64)) (north, east float64) {
	for at := time.Duration(0); at < took; {
		lasts := min(step, took-at)
		s, err := h.StreamAt(angle.Position{}, depart.Add(at))
		if err != nil {
			panic(err)
		}
		n, e := velocity(motionOfStream(s))
		north, east = north+n*lasts.Seconds(), east+e*lasts.Seconds()
		at += lasts
		each(at, north, east)
	}
	return north, east
}

// The course and the time that are answered lead to the goal, and no shorter time
// does on any course.
func TestCrossingArrivesAtTheEarliestTime(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		from, to, speed := anyCrossing(t)
		depart := day.Add(time.Duration(rapid.IntRange(0, 90).Draw(t, "minutes after the start")) * time.Minute)
		h := stream.Hourly{Start: day, Period: time.Duration(rapid.SampledFrom([]int{0, 20, 60, 90}).Draw(t, "period")) * time.Minute,
			Streams: rapid.SliceOfN(anyStream(9), 1, 14).Draw(t, "streams")}
		c, err := stream.CourseToSteerAcross(from, to, depart, speed, h)
		if err != nil {
			if errorOf(err, stream.NoStream) == nil {
				t.Fatal(err)
			}
			return
		}
		found++
		run := sailing.WGS84().Rhumb(from, to)
		goalNorth, goalEast := velocity(stream.Motion{Course: run.Course, Speed: sailing.Speed(run.Distance)})
		// The vessel cannot arrive earlier: the distance left after the drift is longer than its run,
		// to the accuracy of a plane over tens of miles.
		plane := float64(run.Distance)/100 + 300 // metres by which it may differ
		n, e := drifted(h, depart, c.Lasts, 10*time.Second, func(at time.Duration, north, east float64) {
			if left := math.Hypot(goalNorth-north, goalEast-east) - float64(speed)*at.Seconds(); at < c.Lasts-time.Second && left <= -plane {
				t.Fatalf("in %v the vessel could have been there; answered %v", at, c.Lasts)
			}
		})
		wn, we := velocity(c.Water)
		if off := math.Hypot(n+wn*c.Lasts.Seconds()-goalNorth, e+we*c.Lasts.Seconds()-goalEast); off > plane {
			t.Fatalf("ends %v m from the goal", off)
		}
		if c.Water.Speed != speed || c.Track() != run {
			t.Fatalf("%+v", c)
		}
		dn, de := velocity(stream.Motion{Course: c.Drift().Course, Speed: sailing.Speed(c.Drift().Distance)})
		if math.Hypot(dn-n, de-e) > 0.01 { // metres
			t.Fatalf("drift %v, want %v north %v east", c.Drift(), n, e)
		}
		// The hours follow each other, and each is one stream.
		at, widest := depart, 0.0
		north, east := 0.0, 0.0
		for _, hour := range c.Hours {
			if want, err := h.StreamAt(from, hour.Begins); err != nil || want != hour.Stream || !hour.Begins.Equal(at) {
				t.Fatalf("%v: %v, want %v from %v (%v)", hour.Begins, hour.Stream, want, at, err)
			}
			at = at.Add(hour.Lasts)
			gn, ge := velocity(hour.Ground())
			north, east = north+gn*hour.Lasts.Seconds(), east+ge*hour.Lasts.Seconds()
			s, k := run.Course.FromNorth().SinCos()
			if off := east*k - north*s; math.Abs(off) > math.Abs(widest) {
				widest = off
			}
		}
		if at.Sub(depart) != c.Lasts || math.Abs(widest-float64(c.MaxOffTrack)) > 0.01 { // metres
			t.Fatalf("hours end at %v of %v; %v off, want %v", at.Sub(depart), c.Lasts, c.MaxOffTrack.Metres(), widest)
		}
		// On the ellipsoid the legs end at the goal.
		if off := sailing.WGS84().Rhumb(c.Hours[len(c.Hours)-1].Ends, to).Distance; off > 2 { // metres: the aim is mended until within one, the fifth time at most
			t.Fatalf("reckoned %v m from the goal", off.Metres())
		}
	})
	if found == 0 && !testing.Short() {
		t.Error("no crossing was found")
	}
}

// Set to one side and back, the vessel is widest off the track between.
func TestTurningStreamsSetOffAndBack(t *testing.T) {
	north := angle.MustParsePosition("47°22′N 019°08′W") // 24 miles
	for _, c := range []struct {
		name        string
		first, then float64
		side        float64
		text        string
	}{
		{"east, then west", 90, 270, 1, "at most, to starboard: look for dangers there"},
		{"west, then east", 270, 90, -1, "at most, to port: look for dangers there"},
	} {
		h := stream.Hourly{Start: day, Period: 2 * time.Hour, Streams: []stream.Stream{streamOf(c.first, 2), streamOf(c.then, 2), streamOf(0, 0)}}
		got, err := stream.CourseToSteerAcross(offOrlesk, north, day, 6*sailing.Knot, h)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		// In four hours at 6 knots the streams cancel: the vessel steers the track and is
		// four miles off it after two hours.
		if got.Water.Course.Sub(got.Track().Course).Abs() > deg/10 || (got.Lasts-4*time.Hour).Abs() > time.Minute || math.Abs(got.MaxOffTrack.NauticalMiles()-4*c.side) > 0.02 { // 24 minutes of latitude are 24.02 miles
			t.Errorf("%s: %v in %v, %v off", c.name, got.Water, got.Lasts, got.MaxOffTrack)
		}
		if step, ok := got.Working().Steps.Find("widest"); !ok || step.Value != "4.0 M" || step.How != c.text || step.Number*c.side < 3.9 {
			t.Errorf("%s: %+v", c.name, step)
		}
	}
}

func TestCrossingsWithoutArrival(t *testing.T) {
	broken := errors.New("the atlas is wet")
	after := streamFunc(func(_ angle.Position, t time.Time) (stream.Stream, error) {
		if t.Sub(day) >= 30*time.Minute {
			return stream.Stream{}, broken
		}
		return streamOf(120, 1), nil
	})
	negative := streamFunc(func(angle.Position, time.Time) (stream.Stream, error) { return stream.Stream{Rate: -1}, nil })
	const crossing = "crossing from 46°58.0′N 019°08.0′W to 47°20.0′N 018°50.0′W, after "
	for _, c := range []struct {
		name   string
		depart time.Time
		speed  sailing.Speed
		source stream.Source
		want   string
	}{
		{"too strong for ever", day, 1, streamOf(210, 3), crossing + "720 h 00 min: stream: not reached by then: the streams are too strong"},
		{"too strong for ever, of a program's own", day, 1, streamFunc(streamOf(210, 3).StreamAt), crossing + "720 h 00 min: stream: not reached by then: the streams are too strong"},
		{"no speed", day, 0, streamOf(210, 0), "stream: not reached by then"},
		{"data end too soon", day, 2, tides, crossing + "6 h 00 min: stream: no stream for 2026-07-02 15:00:00 UTC: the streams begin at 2026-07-02 09:00:00 and end at 2026-07-02 15:00:00 UTC; add the stream for that time"},
		{"departure before the data", day.Add(-1), 5, tides, crossing + "0 min: stream: no stream for 2026-07-02 08:59:59 UTC"},
		{"source error", day, 5, after, crossing + "30 min: the atlas is wet"},
		{"rate below zero", day, 5, negative, crossing + "0 min: rate of the stream"},
	} {
		_, err := stream.CourseToSteerAcross(offOrlesk, braddle, c.depart, c.speed, c.source)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v\nwant %s", c.name, err, c.want)
		}
		if (errorOf(err, stream.NoStream) != nil) != strings.Contains(c.want, "no stream") || (errorOf(err, stream.NotReached) != nil) != strings.Contains(c.want, "not reached") {
			t.Errorf("%s: kind of %v", c.name, err)
		}
		if c.name == "source error" && !errors.Is(err, broken) {
			t.Errorf("%v is not %v", err, broken)
		}
	}
	_, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, -1, tides)
	if _, is := errors.AsType[*angle.RangeError](err); !is {
		t.Errorf("a speed below zero: %v", err)
	}
	// Near the pole the streams lead over it.
	pole, short := angle.MustParsePosition("89°59.9′N 000°E"), angle.MustParsePosition("89°59.9′N 010°E")
	_, err = stream.CourseToSteerAcross(pole, short, day, 5, stream.Hourly{Start: day, Period: time.Minute, Streams: []stream.Stream{streamOf(0, 60), streamOf(180, 60), streamOf(0, 0)}})
	if _, is := errors.AsType[*sailing.Error](err); !is {
		t.Errorf("over the pole: %v", err)
	}
}

// A source of a program's own is asked every quarter of an hour along the track.
func TestSourceIsAskedAlongTrack(t *testing.T) {
	var asked []time.Duration
	var places []angle.Position
	source := streamFunc(func(p angle.Position, at time.Time) (stream.Stream, error) {
		asked, places = append(asked, at.Sub(day)), append(places, p)
		return tides.StreamAt(p, at)
	})
	got, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, source)
	if err != nil {
		t.Fatal(err)
	}
	want, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, tides)
	if err != nil {
		t.Fatal(err)
	}
	// The streams change at whole hours: both ways sum the same.
	if got.Water.Course.Sub(want.Water.Course).Abs() > deg/1_000_000 || (got.Lasts-want.Lasts).Abs() > time.Millisecond {
		t.Errorf("%v in %v, by the hour %v in %v", got.Water, got.Lasts, want.Water, want.Lasts)
	}
	for i := range asked {
		if asked[i] != time.Duration(i)*15*time.Minute {
			t.Errorf("asked for %v", asked[i])
		}
		along := sailing.WGS84().Rhumb(offOrlesk, places[i])
		if math.Abs(along.Distance.NauticalMiles()-1.5*float64(i)) > 1e-6 || i > 0 && along.Course.Sub(got.Track().Course).Abs() > deg/1_000_000 { // miles: places are kept to 3e-8 m
			t.Errorf("asked at %v, %v", along, asked[i])
		}
	}
	if len(asked) != len(got.Hours) || len(asked) < 10 {
		t.Errorf("asked %d times in %v", len(asked), got.Lasts)
	}
	// A pointer to the streams of an atlas serves like the streams.
	late := day.Add(20 * time.Minute)
	byPointer, err1 := stream.CourseToSteerAcross(offOrlesk, braddle, late, 6*sailing.Knot, &tides)
	byValue, err2 := stream.CourseToSteerAcross(offOrlesk, braddle, late, 6*sailing.Knot, tides)
	if err := errors.Join(err1, err2); err != nil || byPointer.Water != byValue.Water || byPointer.Lasts != byValue.Lasts || len(byPointer.Hours) != len(byValue.Hours) {
		t.Errorf("%v, by pointer %v (%v)", byValue.Water, byPointer.Water, err)
	}
}

func TestCrossingToTheSamePosition(t *testing.T) {
	c, err := stream.CourseToSteerAcross(offOrlesk, offOrlesk, day, 6*sailing.Knot, tides)
	if err != nil || c.Lasts != 0 || c.Water != (stream.Motion{}) || len(c.Hours) != 0 {
		t.Errorf("%+v, %v", c, err)
	}
	if got := c.Working().Steps.String(); got != "Track  0.00 M  the same place: nothing to steer\n" {
		t.Error(got)
	}
}

func TestCrossingWorking(t *testing.T) {
	c, err := stream.CourseToSteerAcross(offOrlesk, braddle, day.Add(20*time.Minute), 6*sailing.Knot, tides)
	if err != nil {
		t.Fatal(err)
	}
	const want = `
Track                                     029°10.1′T  by rhumb line, 25.2 M; 22.01 M N, 12.29 M E
Stream 09:20–10:00 UTC        set 120°T, rate 1.0 kn  drift 0.67 M; 0.33 M S, 0.58 M E; made good 041.7°T 6.1 kn, to 47°01.0′N 019°04.0′W
Stream 10:00–11:00 UTC        set 110°T, rate 2.0 kn  drift 2.0 M; 0.68 M S, 1.88 M E; made good 049.2°T 6.7 kn, to 47°05.4′N 018°56.6′W
Stream 11:00–12:00 UTC        set 290°T, rate 1.5 kn  drift 1.5 M; 0.51 M N, 1.41 M W; made good 017.8°T 5.9 kn, to 47°11.0′N 018°54.0′W
Stream 12:00–13:00 UTC        set 300°T, rate 2.0 kn  drift 2.0 M; 1.00 M N, 1.73 M W; made good 013.6°T 6.2 kn, to 47°17.1′N 018°51.8′W
Stream 13:00–13:31 UTC        set 310°T, rate 1.0 kn  drift 0.51 M; 0.33 M N, 0.39 M W; made good 023.1°T 6.2 kn, to 47°20.0′N 018°50.0′W
All the streams             set 307.4°T, drift 1.4 M  the sum of the drifts; 0.82 M N, 1.07 M W
Course through the water                  032°15.4′T  the track minus all the streams; 21.19 M N, 13.37 M E
Distance through the water                    25.1 M  on that course
Time                                      4 h 11 min  at 6.0 kn through the water
Off the track                                  3.2 M  at most, to starboard: look for dangers there
`
	if got := c.Working().Steps.String(); got != want[1:] {
		t.Errorf("%swant\n%s", got, want[1:])
	}
	still, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, stream.Stream{})
	if err != nil {
		t.Fatal(err)
	}
	if step, ok := still.Working().Steps.Find("widest"); !ok || step.Value != "0.00 M" || step.How != "the streams do not set the vessel off it" {
		t.Errorf("%+v", step)
	}
}

// TestCrossingInHighLatitudesArrives plans crossings of 40 to 60 miles across a stream toward the
// east, where the meridians converge fast. Each ends at its destination.
func TestCrossingInHighLatitudesArrives(t *testing.T) {
	current := stream.Stream{Set: angle.MustParseTrue("090"), Rate: 2 * sailing.Knot}
	for _, way := range [][2]string{
		{"75°N 010°E", "75°40′N 012°E"}, {"75°40′N 012°E", "75°N 010°E"}, {"75°N 010°E", "75°N 013°E"},
		{"75°S 010°E", "75°40′S 012°E"}, {"75°40′S 012°E", "75°S 010°E"}, {"80°N 179°E", "80°30′N 178°W"},
	} {
		to := angle.MustParsePosition(way[1])
		c, err := stream.CourseToSteerAcross(angle.MustParsePosition(way[0]), to, time.Date(2026, 6, 1, 6, 0, 0, 0, time.UTC), 5*sailing.Knot, current)
		if err != nil {
			t.Errorf("%v: %v", way, err)
			continue
		}
		if off := sailing.WGS84().Rhumb(c.Hours[len(c.Hours)-1].Ends, to).Distance; off > 2 { // metres: the aim is mended until within one
			t.Errorf("%v: ends %v off", way, off)
		}
	}
}
