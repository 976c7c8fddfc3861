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
	"lubberline.example/variation"
)

// The works that the published cases of streams and leeway are from, each read in
// a stored text except where a case says that it is from memory.
const (
	draper   = "Lectures in Navigation, Officers' Material School, US Naval Auxiliary Reserve, 1918, "
	bowditch = "The American Practical Navigator, Pub. No. 9, 1995/2002, ch. 7, "
)

func streamOf(set, rate float64) stream.Stream {
	return stream.Stream{Set: trueOf(set), Rate: sailing.Speed(rate) * sailing.Knot}
}

func motionOf(direction, speed float64) stream.Motion {
	return stream.Motion{Course: trueOf(direction), Speed: sailing.Speed(speed) * sailing.Knot}
}

func trueOf(degrees float64) angle.True { return angle.TrueFrom(angle.Must(angle.Degrees(degrees))) }

// velocity is the motion in north and east components, in metres a second.
func velocity(m stream.Motion) (north, east float64) {
	r := m.Course.Degrees() * math.Pi / 180
	return float64(m.Speed) * math.Cos(r), float64(m.Speed) * math.Sin(r)
}

func motionOfStream(s stream.Stream) stream.Motion {
	return stream.Motion{Course: s.Set, Speed: s.Rate}
}

// checkCloses checks that the water's motion and the stream's make the ground's.
func checkCloses(t interface{ Errorf(string, ...any) }, s stream.Steering) {
	wn, we := velocity(s.Water)
	sn, se := velocity(motionOfStream(s.Stream))
	gn, ge := velocity(s.Ground)
	// Metres a second: float64 keeps sixteen figures of speeds under a hundred.
	if off := math.Hypot(wn+sn-gn, we+se-ge); !(off <= 1e-9) {
		t.Errorf("water %v and stream %v do not make ground %v: off by %g m/s", s.Water, s.Stream, s.Ground, off)
	}
}

func TestMadeGoodAsPublished(t *testing.T) {
	points := func(p string) float64 { return angle.MustParseTrue(p).Degrees() }
	for _, c := range []struct {
		source string
		water  stream.Motion
		stream stream.Stream
		time   time.Duration
		miles  float64
		within float64 // half a unit of the last figure printed
	}{
		{draper + "Week I, Wednesday lecture", motionOf(0, 10), streamOf(0, 2), time.Hour, 12, 0.01},
		{draper + "Week I, Wednesday lecture", motionOf(points("SbW"), 8), streamOf(points("NbE"), 2), 4 * time.Hour, 24, 0.01},
	} {
		s, err := stream.MadeGood(c.water, c.stream)
		if err != nil {
			t.Errorf("%s: %v", c.source, err)
			continue
		}
		if miles := s.Ground.Speed.For(c.time).NauticalMiles(); math.Abs(miles-c.miles) > c.within || s.Ground.Course.Sub(c.water.Course).Abs() > 1 { // a unit: nothing is across
			t.Errorf("%s: %v, %.3f miles, want %v", c.source, s.Ground, miles, c.miles)
		}
		checkCloses(t, s)
	}
}

func TestCoursesToSteerAsPublished(t *testing.T) {
	// From memory: two examples solved there graphically, to half a degree and to a
	// degree, and recomputed here.
	const source = bowditch + "set and drift, from memory: "
	s, err := stream.CourseToSteer(trueOf(95), 12*sailing.Knot, streamOf(170, 2.5))
	if err != nil || math.Abs(s.Water.Course.Degrees()-83.5) > 0.25 || math.Abs(s.Ground.Speed.Knots()-12.4) > 0.05 { // half of what the plot was read to
		t.Errorf("%sexample 2: %v, %v; want 083.5°, 12.4 kn", source, s, err)
	}
	s, err = stream.CourseAndSpeedToSteer(motionOf(265, 15), streamOf(185, 3))
	if err != nil || math.Abs(s.Water.Course.Degrees()-276) > 0.6 || math.Abs(s.Water.Speed.Knots()-14.8) > 0.05 { // half of what the plot was read to, and a tenth
		t.Errorf("%sexample 3: %v, %v; want 276°, 14.8 kn", source, s, err)
	}
}

// A current given by a magnetic direction is turned by the variation alone.
func TestAMagneticSetTakesVariationOnly(t *testing.T) {
	const source = draper + "Week II, Wednesday lecture: NE magnetic, variation 8° W, half a knot for 24 hours"
	set := variation.MustParse("8°W").True(angle.MustParseMagnetic("NE"))
	s, err := stream.MadeGood(stream.Motion{}, stream.Stream{Set: set, Rate: sailing.Knot / 2})
	if err != nil || math.Abs(s.Ground.Course.Degrees()-37) > 0.1 || math.Abs(s.Ground.Speed.For(24*time.Hour).NauticalMiles()-12) > 0.01 { // half a unit of the last figure printed
		t.Errorf("%s: %v, %v; want 037°, 12 miles", source, s.Ground, err)
	}
}

func speedBetween(low, high float64) *rapid.Generator[sailing.Speed] {
	return rapid.Map(rapid.Float64Range(low, high), func(kn float64) sailing.Speed { return sailing.Speed(kn) * sailing.Knot })
}

func anyStream(most float64) *rapid.Generator[stream.Stream] {
	return rapid.Custom(func(t *rapid.T) stream.Stream {
		return stream.Stream{Set: anyTrue().Draw(t, "set"), Rate: speedBetween(0, most).Draw(t, "rate")}
	})
}

// The triangle closes, and the ground course is the track.
func TestToSteerMakesGoodTheTrack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		track, speed, flow := anyTrue().Draw(t, "track"), speedBetween(0, 30).Draw(t, "speed"), anyStream(30).Draw(t, "stream")
		s, err := stream.CourseToSteer(track, speed, flow)
		if err != nil {
			if errorOf(err, stream.TooStrong) == nil {
				t.Fatal(err)
			}
			return
		}
		checkCloses(t, s)
		if s.Ground.Course != track || s.Ground.Speed <= 0 || s.Water.Speed != speed || s.Stream != flow {
			t.Fatalf("track %v at %v in %v: %v", track, speed, flow, s)
		}
		// Of two answers the faster: the vessel does not head back along the track.
		if s.Water.Course.Sub(track).Abs() > 90*deg {
			t.Fatalf("heads %v for a track of %v", s.Water.Course, track)
		}
	})
}

// In a mirror that swaps east and west the answer is the mirrored one; turned, the
// turned one.
func TestToSteerMirrorsAndTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		track, speed, flow := anyTrue().Draw(t, "track"), speedBetween(0.1, 30).Draw(t, "speed"), anyStream(40).Draw(t, "stream")
		by := between(0, turn-1).Draw(t, "turned by")
		mirror := func(d angle.True) angle.True { return angle.TrueFrom(-d.FromNorth()) }
		s, err := stream.CourseToSteer(track, speed, flow)
		m, errM := stream.CourseToSteer(mirror(track), speed, stream.Stream{Set: mirror(flow.Set), Rate: flow.Rate})
		r, errR := stream.CourseToSteer(track.Add(by), speed, stream.Stream{Set: flow.Set.Add(by), Rate: flow.Rate})
		if (err == nil) != (errM == nil) || (err == nil) != (errR == nil) {
			t.Fatalf("%v, mirrored %v, turned %v", err, errM, errR)
		}
		if strong := errorOf(err, stream.TooStrong); strong != nil {
			mirrored, turned := errorOf(errM, stream.TooStrong), errorOf(errR, stream.TooStrong)
			off := strong.Nearest.Ground.Course.Sub(track)
			offMirrored, offTurned := mirrored.Nearest.Ground.Course.Sub(mirror(track)), turned.Nearest.Ground.Course.Sub(track.Add(by))
			if track.Sub(flow.Set).Abs() < turn/2 && off+offMirrored != 0 || off != offTurned {
				t.Fatalf("off %v, mirrored %v, turned %v", off, offMirrored, offTurned)
			}
			return
		}
		near(t, "mirrored", m.Water.Course, mirror(s.Water.Course), 1) // a unit: the rounding of a half goes away from zero
		near(t, "turned", r.Water.Course, s.Water.Course.Add(by), 1)
		if m.Ground.Speed != s.Ground.Speed || r.Ground.Speed != s.Ground.Speed {
			t.Fatalf("%v, mirrored %v, turned %v", s.Ground, m.Ground, r.Ground)
		}
	})
}

func TestToSteerInPlainCases(t *testing.T) {
	for _, c := range []struct {
		name                 string
		track, speed         float64
		stream               stream.Stream
		steer, overTheGround float64
	}{
		{"no stream", 112, 6, streamOf(45, 0), 112, 6},
		{"stream along the track", 112, 6, streamOf(112, 2), 112, 8},
		{"stream against it", 112, 6, streamOf(292, 2), 112, 4},
		{"stream abeam, three four five", 0, 5, streamOf(90, 3), 323.130102, 4},
		{"stream abeam on the other side", 0, 5, streamOf(270, 3), 36.869898, 4},
		{"stream as fast as the vessel, fair", 90, 5, streamOf(90, 5), 90, 10},
		{"stream as fast as the vessel, 60° on the bow", 0, 5, streamOf(60, 5), 300, 5},
		{"faster stream, fair", 90, 2, streamOf(90, 5), 90, 7},
		{"faster stream, nearly fair: of two headings the faster", 0, 3, streamOf(30, 5), 303.557310, 5.988440},
		{"no speed, track on the set", 90, 0, streamOf(90, 2), 90, 2},
		{"across north", 358, 6, streamOf(88, 1), 348.405932, 5.916080},
	} {
		s, err := stream.CourseToSteer(trueOf(c.track), sailing.Speed(c.speed)*sailing.Knot, c.stream)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		checkCloses(t, s)
		if s.Water.Course.Sub(trueOf(c.steer)).Abs() > deg/1_000_000 || math.Abs(s.Ground.Speed.Knots()-c.overTheGround) > 1e-6 { // six decimals are given
			t.Errorf("%s: %v, %v over the ground; want %v, %v", c.name, s.Water.Course.Degrees(), s.Ground.Speed.Knots(), c.steer, c.overTheGround)
		}
	}
}

// If a track cannot be made good, no heading makes it good, and none comes nearer than the
// one in the error.
func TestTooStrongStreamHasNoHeading(t *testing.T) {
	strong := 0
	rapid.Check(t, func(t *rapid.T) {
		track, flow := anyTrue().Draw(t, "track"), stream.Stream{Set: anyTrue().Draw(t, "set"), Rate: speedBetween(0.5, 12).Draw(t, "rate")}
		// Up to a little below the rate: at it the speed left at the edge is zero.
		speed := flow.Rate * sailing.Speed(rapid.Float64Range(0.02, 0.98).Draw(t, "speed over rate"))
		_, err := stream.CourseToSteer(track, speed, flow)
		e := errorOf(err, stream.TooStrong)
		if e == nil {
			return
		}
		strong++
		sn, se := velocity(motionOfStream(flow))
		s, c := track.FromNorth().SinCos()
		least, off := math.Inf(1), 0.0
		lastAcross, lastAhead := 0.0, 0.0
		for i := range 7201 {
			h := float64(i) * 0.05 * math.Pi / 180
			n, e := float64(speed)*math.Cos(h)+sn, float64(speed)*math.Sin(h)+se
			across, ahead := e*c-n*s, n*c+e*s
			if i > 0 && across*lastAcross <= 0 && ahead > 0 && lastAhead > 0 {
				t.Fatalf("heading %.2f° makes good %v in %v at %v", float64(i)*0.05, track, flow, speed)
			}
			lastAcross, lastAhead = across, ahead
			if a := math.Atan2(across, ahead) * 180 / math.Pi; math.Abs(a) < least {
				least, off = math.Abs(a), a
			}
		}
		// A twentieth of a degree of heading is a thousandth near the edge, where
		// the ground course turns round.
		nearest := e.Nearest.Ground.Course.Sub(track)
		if math.Abs(least-nearest.Abs().Degrees()) > 0.001 {
			t.Fatalf("track %v, %v in %v: %v off, the least is %v", track, speed, flow, nearest.Degrees(), least)
		}
		if least < 179.9 && track.Sub(flow.Set).Abs() < 179*deg && math.Signbit(off) != (nearest < 0) {
			t.Fatalf("track %v, %v in %v: %v off, want %v", track, speed, flow, nearest.Degrees(), off)
		}
		checkCloses(t, e.Nearest)
		if e.Nearest.Stream != flow || e.Nearest.Water.Speed != speed {
			t.Fatalf("%+v", e)
		}
	})
	if strong == 0 && !testing.Short() {
		t.Error("no stream was too strong")
	}
}

func TestTooStrongErrorsReadWell(t *testing.T) {
	for _, c := range []struct {
		track, speed float64
		stream       stream.Stream
		off          float64
		want         string
	}{
		{112, 2, streamOf(20, 3), -50.189685, "stream: track 112°T cannot be made good at 2.0 kn in a stream of 020°T 3.0 kn: the nearest is course 151.8°T through the water, which makes good 061.8°T 2.2 kn, 50° to port of the track"},
		{300, 2, streamOf(30, 3), 48.189685, "stream: track 300°T cannot be made good at 2.0 kn in a stream of 030°T 3.0 kn: the nearest is course 258.2°T through the water, which makes good 348.2°T 2.2 kn, 48° to starboard of the track"},
		{200, 2, streamOf(20, 2), -90, "stream: track 200°T cannot be made good at 2.0 kn in a stream of 020°T 2.0 kn: the nearest is course 200°T through the water, which makes good 110°T 0.0 kn, 90° to port of the track"},
		{200, 0, streamOf(20, 2), 180, "stream: track 200°T cannot be made good: no speed through the water, and the stream sets 020°T 2.0 kn"},
		{200, 0, streamOf(200, 0), 0, "stream: track 200°T cannot be made good: no speed through the water and no stream"},
	} {
		_, err := stream.CourseToSteer(trueOf(c.track), sailing.Speed(c.speed)*sailing.Knot, c.stream)
		e := errorOf(err, stream.TooStrong)
		if e == nil {
			t.Errorf("track %v: %v", c.track, err)
			continue
		}
		if got := e.Error(); got != c.want {
			t.Errorf("%s\nwant\n%s", got, c.want)
		}
		if off := e.Nearest.Ground.Course.Sub(trueOf(c.track)); math.Abs(off.Degrees()-c.off) > 1e-6 { // six decimals are given
			t.Errorf("%v: off %v", e, off.Degrees())
		}
	}
}

func TestInvalidSpeedsAreRefused(t *testing.T) {
	for _, bad := range []sailing.Speed{-1, -1e-300, sailing.Speed(math.NaN()), sailing.Speed(math.Inf(1)), sailing.Speed(math.Inf(-1)), 1000 * sailing.Knot} {
		still, badStream := stream.Stream{}, stream.Stream{Rate: bad}
		good := stream.Motion{Speed: 5}
		_, err1 := stream.CourseToSteer(angle.True{}, bad, still)
		_, err2 := stream.CourseToSteer(angle.True{}, 5, badStream)
		_, err3 := stream.MadeGood(stream.Motion{Speed: bad}, still)
		_, err4 := stream.MadeGood(good, badStream)
		_, err5 := stream.CourseAndSpeedToSteer(stream.Motion{Speed: bad}, still)
		_, err6 := stream.CourseAndSpeedToSteer(good, badStream)
		for i, err := range []error{err1, err2, err3, err4, err5, err6} {
			if e, is := errors.AsType[*angle.RangeError](err); !is || !strings.Contains(e.Error(), "give knots from 0") {
				t.Errorf("%v, case %d: %v", bad, i+1, err)
			}
		}
	}
}

func TestCourseAndSpeedToSteerInvertsMadeGood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		water := stream.Motion{Course: anyTrue().Draw(t, "course"), Speed: speedBetween(0.1, 30).Draw(t, "speed")}
		made, err := stream.MadeGood(water, anyStream(30).Draw(t, "stream"))
		if err != nil {
			t.Fatal(err)
		}
		back, err := stream.CourseAndSpeedToSteer(made.Ground, made.Stream)
		if err != nil {
			t.Fatal(err)
		}
		checkCloses(t, made)
		checkCloses(t, back)
		n, e := velocity(water)
		bn, be := velocity(back.Water)
		// Metres a second: courses are rounded to a unit, 5e-15 of a speed.
		if math.Hypot(n-bn, e-be) > 1e-9 {
			t.Fatalf("%v became %v", water, back.Water)
		}
	})
	// The stream alone: no speed, and no course.
	s, err := stream.CourseAndSpeedToSteer(motionOf(45, 2), streamOf(45, 2))
	if err != nil || s.Water != (stream.Motion{}) {
		t.Errorf("the stream alone: %v, %v", s.Water, err)
	}
	if s, err := stream.MadeGood(motionOf(45, 2), streamOf(225, 2)); err != nil || s.Ground.Speed > 1e-12 { // m/s: the reciprocal's sine is not exactly zero
		t.Errorf("stemming the stream: %v, %v", s.Ground, err)
	}
}
