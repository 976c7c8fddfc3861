package stream_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// A crossing may succeed on average while one hour goes badly. At 3 knots, a stream of 4
// knots against the vessel carries it back, and one of 2.5 knots across sets it off the
// track.
func TestWarningsOfACrossing(t *testing.T) {
	north := angle.MustParsePosition("47°08′N 019°08′W") // 10 miles
	streams := stream.Hourly{Start: day, Streams: []stream.Stream{streamOf(0, 2), streamOf(180, 4), streamOf(90, 2.5), streamOf(270, 2.5), streamOf(0, 3), streamOf(0, 3)}}
	c := angle.Must(stream.CourseToSteerAcross(offOrlesk, north, day, 3*sailing.Knot, streams))
	for _, x := range []struct {
		maxOff sailing.Distance
		kinds  string
		says   string
	}{
		{0, "set-back", "from 10:00 to 11:00 UTC the stream of 180°T 4.0 kn carries the vessel back along the track at 1.0 kn"},
		{2 * sailing.NauticalMile, "set-back off-the-track", "at 12:00 UTC the vessel is 2.5 M to starboard of the track: the limit is 2.0 M"},
		{3 * sailing.NauticalMile, "set-back", ""},
		{sailing.Distance(math.NaN()), "set-back", ""},
	} {
		var kinds, messages []string
		for _, w := range c.Warnings(x.maxOff) {
			kinds, messages = append(kinds, string(w.Kind)), append(messages, w.Message)
		}
		if got := strings.Join(kinds, " "); got != x.kinds || !strings.Contains(strings.Join(messages, "\n"), x.says) {
			t.Errorf("limit %v: %s\n%s", x.maxOff, got, strings.Join(messages, "\n"))
		}
	}
	if w := c.Working().Warnings; len(w) != 1 || w[0].Kind != stream.SetBack {
		t.Errorf("in the working: %v", w)
	}
	if w := (stream.Crossing{}).Warnings(1); w != nil {
		t.Errorf("of no crossing: %v", w)
	}
}

// A learner can check a crossing by hand. The drifts add up, the track less their sum is the
// run through the water, and the hours add up to the time, all to within rounding.
func TestCrossingCanBeCheckedByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		run := sailing.Run{Course: anyTrue().Draw(t, "track"), Distance: sailing.Distance(rapid.Float64Range(2, 40).Draw(t, "distance")) * sailing.NauticalMile}
		to := angle.Must(sailing.WGS84().Follow(offOrlesk, run))
		depart := day.Add(time.Duration(rapid.Int64Range(0, int64(time.Hour)).Draw(t, "depart")))
		streams := stream.Hourly{Start: day, Streams: rapid.SliceOfN(anyStream(3), 24, 24).Draw(t, "streams")}
		c, err := stream.CourseToSteerAcross(offOrlesk, to, depart, 6*sailing.Knot, streams)
		if err != nil {
			return // too strong
		}
		steps := c.Working().Steps
		parts := func(text string) (north, east float64) {
			for part := range strings.SplitSeq(text, ", ") {
				var x float64
				var unit, name string
				fmt.Sscan(part, &x, &unit, &name)
				switch name {
				case "N":
					north = x
				case "S":
					north = -x
				case "E":
					east = x
				case "W":
					east = -x
				}
			}
			return north, east
		}
		printed := func(key string) (north, east float64) {
			s, _ := steps.Find(key)
			for _, r := range s.Reasons {
				if r.Key == "components" {
					return parts(r.Arguments[0])
				}
			}
			return 0, 0
		}
		var north, east float64
		var hours time.Duration
		for i := range c.Hours {
			n, e := printed(fmt.Sprintf("stream %d", i+1))
			north, east = north+n, east+e
			hours += c.Hours[i].Lasts
		}
		each := 0.0051 * float64(len(c.Hours)+3)
		n, e := printed("drift")
		if math.Abs(n-north) > each || math.Abs(e-east) > each {
			t.Fatalf("drifts sum to %.2f, %.2f; printed %.2f, %.2f\n%v", north, east, n, e, steps)
		}
		tn, te := printed("track")
		wn, we := printed("water course")
		pn, pe := printed("plane")
		if math.Abs(tn-n-pn-wn) > 0.06 || math.Abs(te-e-pe-we) > 0.06 { // miles: below a twentieth the plane is not printed
			t.Fatalf("track %.2f, %.2f; streams %.2f, %.2f; water %.2f, %.2f\n%v", tn, te, n, e, wn, we, steps)
		}
		s, _ := steps.Find("water run")
		if math.Abs(s.Number-math.Hypot(wn, we)) > 0.011 || math.Abs(s.Number-6*c.Lasts.Hours()) > 0.001 || hours != c.Lasts {
			t.Fatalf("%v through the water in %v\n%v", s.Number, c.Lasts, steps)
		}
		// The printed time is the difference of the printed times of day.
		begins, ends := clockOf(t, c.Hours[0].Begins), clockOf(t, c.Hours[len(c.Hours)-1].Begins.Add(c.Hours[len(c.Hours)-1].Lasts))
		minutes := (ends - begins + 24*60) % (24 * 60)
		want := fmt.Sprintf("%d min", minutes)
		if minutes >= 60 {
			want = fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
		}
		if s, _ = steps.Find("time"); s.Value != want {
			t.Fatalf("time %s, want %s\n%v", s.Value, want, steps)
		}
	})
}

// clockOf is the minute of the day that is printed for a time.
func clockOf(t *rapid.T, at time.Time) int {
	var h, m int
	if _, err := fmt.Sscanf(at.Round(time.Minute).Format("15:04"), "%d:%d", &h, &m); err != nil {
		t.Fatal(err)
	}
	return 60*h + m
}
