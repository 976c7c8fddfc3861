package tidal_test

import (
	"bytes"
	"errors"
	"io/fs"
	"math"
	"math/cmplx"
	"os"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// highWater is the high water of the tests, at an odd minute.
var highWater = time.Date(2026, 7, 2, 5, 10, 0, 0, time.UTC)

// invented returns the invented table of two places. Place B leaves out the hour HW+6.
func invented(t testing.TB) tidal.Table {
	t.Helper()
	text, err := os.ReadFile("testdata/invented.csv")
	if err != nil {
		t.Fatal(err)
	}
	table, err := tidal.ReadTable(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// streamsOf returns the streams of a use of the invented table.
func streamsOf(t testing.TB, u tidal.Options) *tidal.Streams {
	t.Helper()
	s, err := invented(t).Streams(u)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// vector returns a stream as a complex number of knots, north and east.
func vector(s stream.Stream) complex128 {
	return cmplx.Rect(s.Rate.Knots(), s.Set.Degrees()*math.Pi/180)
}

// The rows of place A, as printed: set, springs, neaps, from hour -6 on.
var placeA = [13][3]float64{
	{45, 0.5, 0.3}, {48, 1.1, 0.5}, {50, 1.6, 0.8}, {50, 1.8, 0.9}, {52, 1.2, 0.6}, {55, 0.4, 0.2}, {0, 0, 0},
	{220, 0.7, 0.4}, {222, 1.3, 0.7}, {225, 1.7, 0.9}, {226, 1.4, 0.7}, {230, 0.8, 0.4}, {240, 0.2, 0.1},
}

// TestEachMinuteAgainstTable looks up each minute of a tide in the printed rows, by minutes
// since high water and by complex numbers, which share no code with the package.
func TestEachMinuteAgainstTable(t *testing.T) {
	for _, ratio := range []float64{0, 0.35, 1, 1.2} {
		use := tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, ratio)}, Place: "A"}
		hours := streamsOf(t, use)
		use.ByVectors = true
		smooth := streamsOf(t, use)
		printed := func(hour int) complex128 {
			row := placeA[hour+6]
			return cmplx.Rect(row[2]+(row[1]-row[2])*ratio, row[0]*math.Pi/180)
		}
		for minute := -390; minute < 390; minute++ {
			at := highWater.Add(time.Duration(minute) * time.Minute)
			got, err := hours.StreamAt(angle.Position{}, at)
			if err != nil {
				t.Fatal(minute, err)
			}
			hour := (minute+390)/60 - 6
			if d := cmplx.Abs(vector(got) - printed(hour)); d > 1e-9 {
				t.Fatalf("ratio %v, minute %d: %v, printed %v for hour %d", ratio, minute, got, printed(hour), hour)
			}
			if got, err = smooth.StreamAt(angle.Position{}, at); err != nil {
				t.Fatal(minute, err)
			}
			x := min(max(float64(minute)/60, -6), 6)
			low := min(int(math.Floor(x)), 5)
			want := printed(low) + (printed(low+1)-printed(low))*complex(x-float64(low), 0)
			if d := cmplx.Abs(vector(got) - want); d > 1e-9 {
				t.Fatalf("ratio %v, minute %d by vectors: %v, want %v", ratio, minute, got, want)
			}
		}
		for _, outside := range []time.Duration{-391 * time.Minute, 390 * time.Minute, 1000 * time.Hour, -1000 * time.Hour} {
			for _, s := range []*tidal.Streams{hours, smooth} {
				noStream(t, s, highWater.Add(outside))
			}
		}
	}
}

// noStream checks that a time has no stream.
func noStream(t *testing.T, s stream.Source, at time.Time) {
	t.Helper()
	got, err := s.StreamAt(angle.Position{}, at)
	if e, ok := errors.AsType[*stream.Error](err); !ok || e.Kind != stream.NoStream {
		t.Errorf("%v: %v, %v; want an error of kind no-stream", at, got, err)
	}
}

// TestWhatTableLeavesOutIsError asks for the missing hour of place B.
func TestWhatTableLeavesOutIsError(t *testing.T) {
	use := tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 1)}, Place: "B"}
	for _, byVectors := range []bool{false, true} {
		use.ByVectors = byVectors
		s := streamsOf(t, use)
		noStream(t, s, highWater.Add(6*time.Hour))
		if _, err := s.StreamAt(angle.Position{}, highWater.Add(5*time.Hour)); err != nil {
			t.Errorf("by vectors %v: %v", byVectors, err)
		}
	}
	// By vectors the last half hour before the missing one has no second stream.
	noStream(t, streamsOf(t, use), highWater.Add(5*time.Hour+time.Minute))
}

// TestRangeGivesRatio checks the rule of the diagram of rates (common practice) by hand:
// springs 4.6 m, neaps 2.2 m, heights 4.8 m and 1.4 m. The range is 3.4 m and the ratio is
// 1.2 / 2.4 = 0.5. At HW+3 the rate at A is 0.9 + 0.8 × 0.5 = 1.3 kn.
func TestRangeGivesRatio(t *testing.T) {
	s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByHeights(highWater, 4.8, 1.4)}, Place: "A"})
	got, err := s.StreamAt(angle.Position{}, highWater.Add(3*time.Hour))
	if err != nil || math.Abs(got.Rate.Knots()-1.3) > 1e-9 || got.Set != angle.MustParseTrue("225") {
		t.Errorf("%v, %v; want 225°T 1.3 kn", got, err)
	}
	if len(s.Warnings()) > 0 {
		t.Error(s.Warnings())
	}
}

// TestExtrapolationIsWarned goes beyond springs, below neaps, and so far below that a rate
// would be negative.
func TestExtrapolationIsWarned(t *testing.T) {
	for _, test := range []struct {
		high, low float64
		rate      float64 // at HW+3 of place A
		kinds     string
	}{
		{5.8, 0.4, 0.9 + 0.8*3.2/2.4, "beyond-springs"}, // range 5.4 m
		{3.4, 1.3, 0.9 - 0.8*0.1/2.4, "below-neaps"},    // range 2.1 m
		{2.6, 2.5, 0.9 - 0.8*2.1/2.4, "below-neaps rate-below-zero"},
	} {
		s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByHeights(highWater, sailing.Distance(test.high), sailing.Distance(test.low))}, Place: "A"})
		got, err := s.StreamAt(angle.Position{}, highWater.Add(3*time.Hour))
		if err != nil || math.Abs(got.Rate.Knots()-test.rate) > 1e-9 {
			t.Errorf("range %v: %v, %v; want %v kn", test.high-test.low, got, err, test.rate)
		}
		var kinds []string
		for _, w := range s.Warnings() {
			if k := string(w.Kind); len(kinds) == 0 || kinds[len(kinds)-1] != k {
				kinds = append(kinds, k)
			}
		}
		if got := strings.Join(kinds, " "); got != test.kinds {
			t.Errorf("range %v: warnings %q, want %q", test.high-test.low, got, test.kinds)
		}
	}
}

// TestTwoHighWaters crosses from one high water to the next, each with its own range.
func TestTwoHighWaters(t *testing.T) {
	for name, gap := range map[string]time.Duration{"short": 11*time.Hour + 40*time.Minute, "usual": 12*time.Hour + 25*time.Minute, "long": 13*time.Hour + 50*time.Minute} {
		next := highWater.Add(gap)
		use := tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(next, 0), tidal.ByRatio(highWater, 1)}, Place: "A"}
		hours := streamsOf(t, use)
		use.ByVectors = true
		smooth := streamsOf(t, use)
		var before stream.Stream
		for minute := time.Duration(0); highWater.Add(minute * time.Minute).Before(next); minute++ {
			at := highWater.Add(minute * time.Minute)
			first := minute*time.Minute < gap/2
			since, ratio := at.Sub(highWater), 1.0
			if !first {
				since, ratio = at.Sub(next), 0
			}
			hour := min(max(int(math.Floor(since.Hours()+0.5)), -6), 6)
			row := placeA[hour+6]
			got, err := hours.StreamAt(angle.Position{}, at)
			if want := row[2] + (row[1]-row[2])*ratio; err != nil || math.Abs(got.Rate.Knots()-want) > 1e-9 {
				t.Fatalf("%s, minute %d: %v, %v; want %v kn of hour %d", name, minute, got, err, want, hour)
			}
			got, err = smooth.StreamAt(angle.Position{}, at)
			// The greatest step between two nodes is 0.55 kn in 20 minutes.
			if step := cmplx.Abs(vector(got) - vector(before)); err != nil || minute > 0 && step > 0.06 {
				t.Fatalf("%s, minute %d: %v after %v, %v: a jump", name, minute, got, before, err)
			}
			before = got
		}
	}
	noStream(t, streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 1), tidal.ByRatio(highWater.Add(20*time.Hour), 1)}, Place: "A"}), highWater.Add(6*time.Hour+40*time.Minute))
}

// TestPassageIsLaidHourByHour departs at an odd minute. The drift is summed minute by minute
// from the printed rows, which shares no code with the package.
func TestPassageIsLaidHourByHour(t *testing.T) {
	from, to := angle.MustParsePosition("47°07.8′N 019°01.0′W"), angle.MustParsePosition("46°50.0′N 019°25.0′W")
	depart := highWater.Add(-3*time.Hour - 23*time.Minute)
	for _, byVectors := range []bool{false, true} {
		s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 0.5)}, Place: "A", ByVectors: byVectors})
		c, err := stream.CourseToSteerAcross(from, to, depart, 5*sailing.Knot, s)
		if err != nil {
			t.Fatal(err)
		}
		var drift complex128 // miles
		for at := time.Duration(0); at < c.Lasts; at += time.Second {
			x := depart.Add(at).Sub(highWater).Hours()
			printed := func(hour int) complex128 {
				row := placeA[hour+6]
				return cmplx.Rect((row[1]+row[2])/2, row[0]*math.Pi/180)
			}
			now := printed(int(math.Floor(x + 0.5)))
			if byVectors {
				low := int(math.Floor(x))
				now = printed(low) + (printed(low+1)-printed(low))*complex(x-float64(low), 0)
			}
			drift += now / 3600
		}
		var got complex128
		for _, h := range c.Hours {
			got += vector(h.Stream) * complex(h.Lasts.Hours(), 0)
		}
		if d := cmplx.Abs(got - drift); d > 0.002 { // miles
			t.Errorf("by vectors %v: drift %.3f M, summed by seconds %.3f: %.4f M apart", byVectors, got, drift, d)
		}
		if !byVectors {
			for _, h := range c.Hours[1:] {
				if m := h.Begins.Minute(); m != 40 {
					t.Errorf("a part begins at %v, want at the change of hour, 40 min past", h.Begins)
				}
			}
		}
	}
	// The whole passage plan.
	s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 0.5)}, PlaceAt: invented(t).Nearest})
	plan := passage.Plan{Waypoints: []passage.Waypoint{{Position: from}, {Position: to}}, Depart: depart, Speed: 5 * sailing.Knot, Variation: variation.West(5 * angle.Degree), Deviation: deviation.None(), Streams: s}
	if _, err := passage.New(plan); err != nil {
		t.Error(err)
	}
	plan.Depart = highWater.Add(2 * time.Hour) // the table ends under way
	_, err := passage.New(plan)
	if e, ok := errors.AsType[*stream.Error](err); !ok || e.Kind != stream.NoStream {
		t.Errorf("a passage beyond the table: %v", err)
	}
}

// TestInvalidUse refuses what has no answer.
func TestInvalidUse(t *testing.T) {
	tide := []tidal.Tide{tidal.ByRatio(highWater, 1)}
	nowhere := func(angle.Position) (string, error) { return "Z", nil }
	for name, u := range map[string]tidal.Options{
		"no tide":          {Place: "A"},
		"zero tide":        {Place: "A", Tides: []tidal.Tide{{}}},
		"no time":          {Place: "A", Tides: []tidal.Tide{tidal.ByRatio(time.Time{}, 1)}},
		"no place":         {Tides: tide},
		"two places":       {Tides: tide, Place: "A", PlaceAt: nowhere},
		"unknown place":    {Tides: tide, Place: "Z"},
		"NaN":              {Place: "A", Tides: []tidal.Tide{tidal.ByRatio(highWater, math.NaN())}},
		"infinite":         {Place: "A", Tides: []tidal.Tide{tidal.ByRatio(highWater, math.Inf(1))}},
		"per cent":         {Place: "A", Tides: []tidal.Tide{tidal.ByRatio(highWater, 80)}},
		"heights reversed": {Place: "A", Tides: []tidal.Tide{tidal.ByHeights(highWater, 1, 4)}},
		"heights in feet":  {Place: "A", Tides: []tidal.Tide{tidal.ByHeights(highWater, 16, 2)}},
		"twice":            {Place: "A", Tides: append(tide, tide...)},
	} {
		if s, err := invented(t).Streams(u); err == nil {
			t.Errorf("%s: %v", name, s)
		}
	}
	noStream(t, streamsOf(t, tidal.Options{Tides: tide, PlaceAt: nowhere}), highWater)
	table := invented(t)
	table.SpringRange, table.NeapRange = 0, 0
	if _, err := table.Streams(tidal.Options{Tides: []tidal.Tide{tidal.ByHeights(highWater, 4, 1)}, Place: "A"}); err == nil {
		t.Error("heights without ranges are taken")
	}
	if _, err := (tidal.Table{}).Streams(tidal.Options{Tides: tide, Place: "A"}); err == nil {
		t.Error("an empty table is taken")
	}
	var none *tidal.Streams
	if _, err := none.StreamAt(angle.Position{}, highWater); err == nil {
		t.Error("nil has a stream")
	}
	if none.Warnings() != nil || !none.NextChange(highWater).After(highWater) {
		t.Error("nil")
	}
	if _, err := none.Working(angle.Position{}, highWater); err == nil {
		t.Error("nil has a working")
	}
}

// TestWorkingShowsBothWays reads the whole working of one stream.
func TestWorkingShowsBothWays(t *testing.T) {
	s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByHeights(highWater, 4.8, 0.9)}, Place: "A"})
	sheet, err := s.Working(angle.Position{}, highWater.Add(80*time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	const want = `High water              2026-07-02 05:10 UTC   at Orlesk Harbour
Hour                    HW+1                   2026-07-02 06:30 UTC is 1 h 20 min after high water
Place                   A
Range                   3.9 m                  high water 4.8 m, low water 0.9 m
Ratio                   0.71                   (3.9 m − 2.2 m) / (4.6 m − 2.2 m), with the neap and the spring range
Rate at springs         0.7 kn                 printed for the hour
Rate at neaps           0.4 kn                 printed for the hour
Set                     220°T
Rate                    0.61 kn                0.40 + (0.70 − 0.40) × 0.71
Set by vectors          220°57.4′T
Rate by vectors         0.78 kn                between HW+1, 220°T 0.6 kn, and HW+2, 222°T 1.1 kn
Difference              0.17 kn toward 224°T   from the stream of the hour to that by vectors
Stream                  220°T 0.6 kn           that of the hour, as chosen
`
	if got := sheet.Steps.String(); strings.Join(strings.Fields(got), " ") != strings.Join(strings.Fields(want), " ") {
		t.Errorf("got\n%s", got)
	}
}

// TestNextChangeIsChange checks that the stream stays the same until the next change.
func TestNextChangeIsChange(t *testing.T) {
	s := streamsOf(t, tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 0.4), tidal.ByRatio(highWater.Add(12*time.Hour+25*time.Minute), 0.9)}, Place: "A"})
	rapid.Check(t, func(t *rapid.T) {
		at := highWater.Add(time.Duration(rapid.Int64Range(-390*60, (745+389)*60).Draw(t, "seconds")) * time.Second)
		next := s.NextChange(at)
		if !next.After(at) {
			t.Fatalf("the change after %v is %v", at, next)
		}
		last := at.Add(time.Duration(rapid.Float64Range(0, 1).Draw(t, "part") * float64(next.Sub(at)-1)))
		a, err1 := s.StreamAt(angle.Position{}, at)
		b, err2 := s.StreamAt(angle.Position{}, last)
		if err1 != nil || err2 != nil || a != b {
			t.Fatalf("%v: %v, %v; %v: %v, %v; next change %v", at, a, err1, last, b, err2, next)
		}
	})
}

// TestStreamThatVariesChangesSoon asks for the next change of a stream between two hours. It is
// at most 10 minutes away by vectors, and 15 where the place depends on the position.
func TestStreamThatVariesChangesSoon(t *testing.T) {
	tides := []tidal.Tide{tidal.ByRatio(highWater, 0.4)}
	for name, c := range map[string]struct {
		use    tidal.Options
		within time.Duration
	}{
		"by the hour": {tidal.Options{Tides: tides, Place: "A"}, 30 * time.Minute}, // to half past
		"by vectors":  {tidal.Options{Tides: tides, Place: "A", ByVectors: true}, 10 * time.Minute},
		"by position": {tidal.Options{Tides: tides, PlaceAt: func(angle.Position) (string, error) { return "A", nil }}, 15 * time.Minute},
	} {
		if got := streamsOf(t, c.use).NextChange(highWater).Sub(highWater); got != c.within {
			t.Errorf("%s: %v, want %v", name, got, c.within)
		}
	}
}

// BenchmarkStreamAt looks up a stream between two high waters.
func BenchmarkStreamAt(b *testing.B) {
	s := streamsOf(b, tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 0.4), tidal.ByRatio(highWater.Add(745*time.Minute), 0.9)}, Place: "A", ByVectors: true})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.StreamAt(angle.Position{}, highWater.Add(375*time.Minute)); err != nil {
			b.Fatal(err)
		}
	}
}

func TestWrongUseIsTyped(t *testing.T) {
	table := invented(t)
	use := tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 0.5)}, Place: "A", PlaceAt: table.Nearest}
	_, err := table.Streams(use)
	if e, ok := errors.AsType[*stream.Error](err); !ok || e.Kind != stream.NoStream {
		t.Errorf("both ways to a place: %v", err)
	}
	_, err = tidal.Table{}.Streams(use)
	if _, ok := errors.AsType[*record.Error](err); !ok {
		t.Errorf("no places: %v", err)
	}
	if err := table.WriteCSV(nil); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("nil writer: %v", err)
	}
}

// TestRateOfZeroHasNoSet reads an hour of slack water whose set is printed. Water without a rate
// sets nowhere, so the stream is that of any other slack water.
func TestRateOfZeroHasNoSet(t *testing.T) {
	table, err := tidal.ReadTable(strings.NewReader("place,hour,set,springs,neaps\nA,+1,080,0,0\nA,+2,080,1.2,0.6\n"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := table.Streams(tidal.Options{Tides: []tidal.Tide{tidal.ByRatio(highWater, 1)}, Place: "A"})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := s.StreamAt(angle.Position{}, highWater.Add(time.Hour)); err != nil || got != (stream.Stream{}) {
		t.Errorf("%v, %v; want slack water", got, err)
	}
}
