package decklog_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// options are those of the invented log: the compass error is 5°W.
func options() decklog.Options {
	return decklog.Options{Factor: decklog.Factor{Value: 1.05}, Variation: variation.West(5 * angle.Degree), Deviation: deviation.None()}
}

// read reads a log.
func read(t testing.TB, text string) decklog.Log {
	t.Helper()
	l, err := decklog.ReadLog(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// invented returns the invented log.
func invented(t testing.TB) decklog.Log {
	t.Helper()
	text, err := os.ReadFile("testdata/invented.csv")
	if err != nil {
		t.Fatal(err)
	}
	return read(t, string(text))
}

// TestReckoningAgainstPlaneSums works the invented log by sums of miles north and east on a
// plane, which share no code with the package. Over some 15 miles they agree within 0.05 M.
func TestReckoningAgainstPlaneSums(t *testing.T) {
	r, err := invented(t).Reckon(options())
	if err != nil {
		t.Fatal(err)
	}
	const lat0, lon0 = 47 + 7.8/60, -(19 + 1.0/60)
	lat, lon := lat0, lon0
	dlat, dlon := lat0, lon0
	for i, leg := range []struct {
		heading, leeway, miles, set, drift float64
		fix                                []float64 // at its end
	}{
		{heading: 221, miles: 5.2 * 1.05, set: 225, drift: 0.4},
		{heading: 221, leeway: -5, miles: 5.3 * 1.05, set: 220, drift: 0.9}, // wind on the starboard side
		{heading: 185, leeway: -5, miles: 8.1 * 1.05, set: 225, drift: 1.8, fix: []float64{46 + 52.0/60, -(19 + 14.5/60)}},
		{heading: 185, miles: 2.7 * 1.05, set: 225, drift: 0.55},
		{heading: 90, miles: 5.3 * 1.05, set: 230, drift: 0.6},
	} {
		move := func(lat, lon *float64, course, miles float64) {
			s, c := math.Sincos(course * math.Pi / 180)
			*lat += miles * c / 60
			*lon += miles * s / 60 / math.Cos(*lat*math.Pi/180)
		}
		move(&lat, &lon, leg.heading+leg.leeway, leg.miles)
		move(&lat, &lon, leg.set, leg.drift)
		move(&dlat, &dlon, leg.heading, leg.miles)
		p := r.Points[i+1]
		near(t, fmt.Sprintf("row %d, EP", i+2), p.EP.Position, lat, lon)
		near(t, fmt.Sprintf("row %d, DR", i+2), p.DR, dlat, dlon)
		if leg.fix != nil {
			lat, lon = leg.fix[0], leg.fix[1]
			dlat, dlon = lat, lon
			if p.SetAndDrift == nil {
				t.Fatal("no set and drift at the fix")
			}
		}
	}
	// Set and drift on 09:30, 3.5 hours after the first fix: the drift over the time.
	sd := r.Points[3].SetAndDrift
	if got := sd.Stream.Rate.Knots() * 3.5; math.Abs(got-sd.Drift.Distance.NauticalMiles()) > 1e-9 {
		t.Errorf("the rate gives %v M in 3.5 hours, and the drift is %v", got, sd.Drift.Distance)
	}
	if len(r.Warnings) != 0 {
		t.Error(r.Warnings)
	}
}

// near checks that a position is within 0.05 M of figures in degrees.
func near(t *testing.T, what string, got angle.Position, lat, lon float64) {
	t.Helper()
	n := (got.Latitude.Degrees() - lat) * 60
	e := (got.Longitude.Degrees() - lon) * 60 * math.Cos(lat*math.Pi/180)
	if d := math.Hypot(n, e); d > 0.05 {
		t.Errorf("%s: %v, %.3f M from the plane sum", what, got, d)
	}
}

// TestStreamIsFoundAgain reckons a log whose fix lies where a known stream sets the vessel.
func TestStreamIsFoundAgain(t *testing.T) {
	// Due north 10 M in 2 hours, and 3 M due east by the stream: the set is 090°T, 1.5 kn.
	l := read(t, "time,log,true,set,rate,fix\n2026-07-02T06:00Z,0,000,090,1.5,00°00′N 020°00′W\n2026-07-02T08:00Z,10,,,,00°10′N 019°57′W\n")
	r, err := l.Reckon(decklog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	sd := r.Points[1].SetAndDrift
	if off := sd.Stream.Set.Sub(angle.MustParseTrue("090")); off.Abs().Degrees() > 1.5 || math.Abs(sd.Stream.Rate.Knots()-1.5) > 0.01 {
		t.Errorf("set and rate %v, want 090°T 1.5 kn", sd.Stream)
	}
	if step, ok := r.DaysWork().Steps.Find("set and rate"); !ok || step.Value != sd.Stream.String() {
		t.Errorf("the day's work has %q, want %v", step.Value, sd.Stream)
	}
}

// TestEllipseGrowsWithFactor: with a factor known to 2 %, the error along the course after 50 M
// is 1 M, standard, as the errors of all runs add up.
func TestEllipseGrowsWithFactor(t *testing.T) {
	var text strings.Builder
	text.WriteString("time,log,true,set,rate,fix,fix_uncertainty\n2026-07-02T00:00Z,0,090,0,0,47°00′N 019°00′W,0 M\n")
	for h := 1; h <= 10; h++ {
		fmt.Fprintf(&text, "2026-07-02T%02d:00Z,%d,,0,0,,\n", h, 5*h)
	}
	o := decklog.Options{Factor: decklog.Factor{Value: 1}}
	o.Factor.PerMile, _ = sailing.StandardUncertainty(0.02 * sailing.NauticalMile)
	o.HeadingUncertainty, _ = angle.StandardUncertainty(angle.Degree)
	o.StreamUncertainty, _ = sailing.StandardUncertainty(0 * sailing.Knot)
	r, err := read(t, text.String()).Reckon(o)
	if err != nil {
		t.Fatal(err)
	}
	last := 0.0
	for h, p := range r.Points[1:] {
		sigma, ok := p.EP.Covariance.Along(angle.MustParseTrue("090")).Sigma()
		if want := 0.1 * float64(h+1); !ok || math.Abs(sigma.NauticalMiles()-want) > 0.01 || sigma.NauticalMiles() <= last {
			t.Errorf("after %d hours ±%v along the course, want ±%v M", h+1, sigma, want)
		}
		last = sigma.NauticalMiles()
		across, _ := p.EP.Covariance.Along(angle.MustParseTrue("000")).Sigma()
		if want := 5 * float64(h+1) * math.Pi / 180; math.Abs(across.NauticalMiles()-want) > 0.01 {
			t.Errorf("after %d hours ±%v across, want ±%v M", h+1, across, want)
		}
	}
}

// TestLogIsReadBack writes and reads CSV and JSON.
func TestLogIsReadBack(t *testing.T) {
	readBack(t, invented(t))
}

// readBack checks that a log is written and read back.
func readBack(t *testing.T, want decklog.Log) {
	t.Helper()
	compare := cmp.Comparer(func(a, b time.Time) bool { return a.Equal(b) })
	var file bytes.Buffer
	if err := want.WriteCSV(&file); err != nil {
		t.Fatal(err)
	}
	got, err := decklog.ReadLog(&file)
	if d := cmp.Diff(want, got, compare); err != nil || d != "" {
		t.Fatal(err, d)
	}
	text, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	got = nil
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got, compare); d != "" {
		t.Fatal(d)
	}
}

// TestFaultsInLog holds each fault of a file to its line, and each of a reckoning to its row.
func TestFaultsInLog(t *testing.T) {
	const head, fix = "time,log,true,leeway,set,rate,fix,fix_uncertainty\n", "2026-07-02T06:00Z,1,090,,,,47°N 019°W,\n"
	for _, text := range []string{"", head, head + "06:00,,,,,,,\n", head + fix + "2026-07-02T05:00Z,2,,,,,,\n", head + "2026-07-02T06:00Z,-1,,,,,,\n", head + "2026-07-02T06:00Z,NaN,,,,,,\n",
		head + "2026-07-02T06:00Z,,,,090,,,\n", head + "2026-07-02T06:00Z,,,,,2,,\n", head + "2026-07-02T06:00Z,,,,,,,1 M\n", "time,compass,true\n2026-07-02T06:00Z,090,090\n"} {
		_, err := decklog.ReadLog(strings.NewReader(text))
		if _, ok := errors.AsType[*record.Error](err); !ok {
			t.Errorf("%q: %v", text, err)
		}
	}
	for name, text := range map[string]string{
		"back":         head + fix + "2026-07-02T07:00Z,0,,,,,,\n",
		"no reading":   head + fix + "2026-07-02T07:00Z,,,,,,,\n",
		"too fast":     head + fix + "2026-07-02T07:00Z,500,,,,,,\n",
		"no time":      head + fix + "2026-07-02T06:00Z,2,,,,,,\n",
		"no wind":      head + strings.Replace(fix, "090,", "090,5°", 1) + "2026-07-02T07:00Z,2,,,,,,\n",
		"no course":    head + strings.Replace(fix, "090", "", 1) + "2026-07-02T07:00Z,2,,,,,,\n",
		"no variation": "time,log,compass,fix\n2026-07-02T06:00Z,1,090,47°N 019°W\n2026-07-02T07:00Z,2,,\n",
	} {
		_, err := read(t, text).Reckon(decklog.Options{})
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Row != 2 {
			t.Errorf("%s: %v; want an error of row 2", name, err)
		}
	}
	for name, l := range map[string]decklog.Log{"empty": nil, "no begin": read(t, head+"2026-07-02T06:00Z,1,090,,,,,\n")} {
		if _, err := l.Reckon(decklog.Options{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	for _, f := range []float64{-1, 0.4, 2.1, math.NaN(), math.Inf(1)} {
		if _, err := invented(t).Reckon(decklog.Options{Factor: decklog.Factor{Value: f}}); err == nil {
			t.Errorf("factor %v is taken", f)
		}
	}
}

// TestStreamsOfSourceAreMeans takes the vector mean of the streams of a run, and warns where
// there is none.
func TestStreamsOfSourceAreMeans(t *testing.T) {
	l := read(t, "time,log,true,fix\n2026-07-02T06:30Z,0,000,00°00′N 020°00′W\n2026-07-02T07:30Z,0,,\n")
	o := decklog.Options{Streams: stream.Hourly{Start: l[0].Time.Add(-30 * time.Minute), Streams: []stream.Stream{{Set: angle.MustParseTrue("090"), Rate: 2 * sailing.Knot}, {Set: angle.MustParseTrue("000"), Rate: 2 * sailing.Knot}}}}
	r, err := l.Reckon(o)
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Points[1].Run.Stream; math.Abs(got.Rate.Knots()-math.Sqrt2) > 1e-9 || got.Set.Sub(angle.MustParseTrue("045")).Abs() > angle.Second {
		t.Errorf("mean %v, want 045°T 1.4 kn", got)
	}
	if r, err = l.Reckon(decklog.Options{}); err != nil || len(r.Warnings) != 1 || r.Warnings[0].Kind != decklog.StreamUnknown {
		t.Error(r.Warnings, err)
	}
}

// TestWarningsOfRosesAreKept holds what the chart warns of while courses are converted: an old
// rose once, though it serves several rows, and each of two roses; a rose that is far away.
func TestWarningsOfRosesAreKept(t *testing.T) {
	chart, err := variation.ReadChart("chart", strings.NewReader("name,position,legend\nBay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)\nOffing rose,46°30′N 019°31′W,7°55′W 2012 (9′E)\n"))
	if err != nil {
		t.Fatal(err)
	}
	const head = "time,log,compass,fix\n"
	o := decklog.Options{Variation: chart, Deviation: deviation.None(), Streams: stream.Stream{}}
	kinds := func(text string) (out []string) {
		t.Helper()
		r, err := read(t, head+text).Reckon(o)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range r.Warnings {
			out = append(out, string(w.Kind)+" "+w.Reason.Arguments[0])
		}
		return out
	}
	got := kinds("2026-07-02T06:00Z,0,220,47°06′N 019°05′W\n2026-07-02T07:00Z,5,,\n2026-07-02T08:00Z,10,,46°32′N 019°31′W\n2026-07-02T09:00Z,15,,\n")
	if diff := cmp.Diff([]string{"old-rose 2015", "roses-differ 0°41′", "old-rose 2012"}, got); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	got = kinds("2026-07-02T06:00Z,0,220,47°06′S 179°59′W\n2026-07-02T07:00Z,5,,\n2026-07-02T08:00Z,10,,\n")
	if !strings.Contains(fmt.Sprint(got), string(variation.FarFromRose)) {
		t.Errorf("warnings %v, want %s", got, variation.FarFromRose)
	}
}

// TestMessagesOfLogAreEnglish reads the errors for what a navigator left out.
func TestMessagesOfLogAreEnglish(t *testing.T) {
	const head, fix = "time,log,true,leeway,fix\n", "2026-07-02T06:00Z,1,090,,47°N 019°W\n"
	r, err := read(t, head+fix+"2026-07-02T07:00Z,2,,,\n").Reckon(decklog.Options{})
	if err != nil || len(r.Warnings) != 1 || r.Warnings[0].Message != "one run has no stream: it counts as slack water" {
		t.Error(r.Warnings, err)
	}
	for text, want := range map[string]string{
		head + "2026-07-02T06:00Z,1,090,,\n":                                          "no position where the log begins: give a fix",
		head + fix + "2026-07-02T07:00Z,0,,,\n":                                       "row 2: the log reads 0.00 M",
		head + strings.Replace(fix, "090,", "090,5°", 1) + "2026-07-02T07:00Z,2,,,\n": "row 2: a leeway without a wind",
	} {
		if _, err := read(t, text).Reckon(decklog.Options{}); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: %v; want %s", text, err, want)
		}
	}
}

// FuzzReadLog checks that a log that is read is written and read back, and reckoned without a
// panic.
func FuzzReadLog(f *testing.F) {
	text, err := os.ReadFile("testdata/invented.csv")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	f.Add([]byte("time,log,reset,true,fix\n2026-07-02T06:00Z,9,0,090,89°59′N 179°59′E\n2026-07-02T08:00Z,10,,,\n"))
	f.Add([]byte(`[{"time":"2026-07-02T06:00+02:00","log":1.5,"true":"090","fix":"47°N 019°W","fix_uncertainty":"±0.1 M","remarks":"=1"}]`))
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := decklog.ReadLog(bytes.NewReader(text))
		if err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		for i := range l { // spaces within remarks become one
			l[i].Remarks = strings.Join(strings.Fields(l[i].Remarks), " ")
		}
		readBack(t, l)
		if r, err := l.Reckon(options()); err == nil {
			_ = r.String() + r.DaysWork().String()
		}
	})
}

// BenchmarkTenThousandLines reads and reckons a log of 10,000 lines; the limit is 200 ms.
func BenchmarkTenThousandLines(b *testing.B) {
	var text strings.Builder
	text.WriteString("time,log,compass,set,rate,fix,fix_uncertainty\n")
	begin := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range 10000 {
		fix := ","
		if i%12 == 0 {
			fix = "47°00.0′N 019°00.0′W,0.1 M"
		}
		fmt.Fprintf(&text, "%s,%.1f,%03d°C,225,0.8,%s\n", begin.Add(time.Duration(i)*10*time.Minute).Format(time.RFC3339), float64(i)*0.9, i*37%360, fix)
	}
	o := options()
	b.ReportAllocs()
	for b.Loop() {
		l, err := decklog.ReadLog(strings.NewReader(text.String()))
		if err != nil {
			b.Fatal(err)
		}
		if _, err := l.Reckon(o); err != nil {
			b.Fatal(err)
		}
	}
}

// A speed of 100 knots or more is a slip in a reading.
func TestSpeedBeyondReasonIsRefused(t *testing.T) {
	for speed, accepted := range map[string]bool{"0": true, "99.9": true, "100": false, "150": false} {
		_, err := decklog.ReadLog(strings.NewReader("time,true,speed\n2026-07-02T06:00Z,045," + speed + "\n2026-07-02T07:00Z,,\n"))
		if e, refused := errors.AsType[*angle.RangeError](err); refused == accepted || refused && e.What != "speed" {
			t.Errorf("%s knots: %v", speed, err)
		}
	}
}

func TestNilWriterIsRefused(t *testing.T) {
	if err := (decklog.Log{}).WriteCSV(nil); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("log: %v", err)
	}
	if err := (decklog.Reckoning{}).WriteCSV(nil); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("reckoning: %v", err)
	}
}

// Streams that give no answer are refused, and are never slack water.
func TestInvalidStreamsAreRefused(t *testing.T) {
	l := read(t, "time,true,speed,fix\n2026-07-02T06:00Z,045,5,47°N 019°W\n2026-07-02T07:00Z,,,\n")
	for _, none := range []stream.Source{(*stream.Hourly)(nil), (*stream.Stream)(nil), (*tidal.Streams)(nil)} {
		_, err := l.Reckon(decklog.Options{Streams: none})
		if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "streams" {
			t.Errorf("%T: %v", none, err)
		}
	}
	for _, rate := range []float64{math.NaN(), math.Inf(1), -1, 1e6} {
		s := stream.Stream{Rate: sailing.Speed(rate)}
		for _, source := range []stream.Source{s, &s, stream.Hourly{Start: l[0].Time, Streams: []stream.Stream{s}}} {
			_, err := l.Reckon(decklog.Options{Streams: source})
			if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.What != "rate of the stream" {
				t.Errorf("%T of %v: %v", source, rate, err)
			}
		}
	}
}

// A day that ends where it began makes no course good.
func TestNoCourseOfADayWithoutDistance(t *testing.T) {
	r, err := read(t, "time,log,true,fix\n2026-07-02T06:00Z,0,090,47N 19W\n2026-07-02T12:00Z,12 M,,47N 19W\n").Reckon(options())
	if err != nil {
		t.Fatal(err)
	}
	steps := r.DaysWork().Steps
	if c, ok := steps.Find("course made good"); ok {
		t.Errorf("course %s", c.Value)
	}
	if d, ok := steps.Find("distance made good"); !ok || d.Number != 0 {
		t.Errorf("distance %v", d)
	}
}
