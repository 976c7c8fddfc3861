package fix_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

var tkStart = stream.Estimate{Position: plHere, Time: time.Date(2026, 5, 3, 9, 0, 0, 0, time.UTC), Covariance: sailing.Circular(400)}

// tkRun returns a run of at most an hour to the north-west.
func tkRun(lasts time.Duration) stream.ReckonedRun {
	return stream.ReckonedRun{
		Heading: angle.MustParseTrue("300°T"), Speed: 6 * sailing.Knot, Lasts: lasts,
		HeadingUncertainty: angle.Must(angle.StandardUncertainty(2 * angle.Degree)), SpeedUncertainty: angle.Must(sailing.StandardUncertainty(0.3 * sailing.Knot)), StreamUncertainty: angle.Must(sailing.StandardUncertainty(0.3 * sailing.Knot)),
	}
}

// svAlong returns the standard uncertainty in a direction.
func svAlong(c sailing.Covariance, degrees float64) sailing.Distance {
	d, _ := c.Along(fixtest.True(degrees)).Sigma()
	return d
}

// tkTrack returns a track with runs and observations.
func tkTrack(t *testing.T) *fix.Track {
	t.Helper()
	k := fix.NewTrack(tkStart)
	if _, err := k.Run(tkRun(45 * time.Minute)); err != nil {
		t.Fatal(err)
	}
	at := k.Estimate()
	if _, err := k.Observe(plBearing(plOrlesk, at.Position, 0.8, 1).WithTime(at.Time.Add(30*time.Second)), plBearing(plMinnow, at.Position, -0.5, 1)); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Run(tkRun(75 * time.Minute)); err != nil {
		t.Fatal(err)
	}
	at = k.Estimate()
	latitude := angle.Must(fix.Latitude(at.Position.Latitude, 500))
	if _, err := k.Observe(plBearing(plMinnow, at.Position, -0.3, 1), latitude); err != nil {
		t.Fatal(err)
	}
	return k
}

func TestTrackRunsAndObservations(t *testing.T) {
	k := tkTrack(t)
	entries := k.Entries()
	if len(entries) != 4 {
		t.Fatalf("%d entries", len(entries))
	}
	reckoned, err := tkStart.Run(tkRun(45 * time.Minute))
	if err != nil || entries[0].After != reckoned || entries[0].Run == nil {
		t.Errorf("reckoned %+v (%v), want %+v", entries[0].After, err, reckoned)
	}
	for i := 1; i < 4; i += 2 {
		before, e := entries[i-1].After, entries[i]
		f, err := fix.Solve(e.Lines, fix.Options{Prior: &before})
		if err != nil || f.Position() != e.Fix.Position() || svKnown(f) != svKnown(e.Fix) || e.After != (stream.Estimate{Position: f.Position(), Time: before.Time, Covariance: svKnown(f)}) {
			t.Errorf("entry %d is not the fix with the estimate as prior: %v", i, err)
		}
		for w := 0.0; w < 180; w += 15 {
			if a, b := svAlong(e.After.Covariance, w), svAlong(before.Covariance, w); float64(a) > float64(b)*(1+1e-4) { // the north turns between the two
				t.Errorf("entry %d: along %v° %v before, %v after", i, w, b, a)
			}
		}
	}
	if k.Estimate() != entries[3].After || fix.NewTrack(tkStart).Estimate() != tkStart {
		t.Error("the estimate is not the last")
	}
}

func TestObservationShrinksEllipse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := fix.NewTrack(stream.Estimate{Position: plHere, Covariance: sailing.Oriented(fixtest.True(rapid.Float64Range(0, 180).Draw(t, "axis")), 700, 200)})
		f, err := k.Observe(fix.Bearing(plOrlesk, fixtest.True(fixtest.Azimuth(plHere, plOrlesk.Position)+rapid.Float64Range(-2, 2).Draw(t, "off")), fixtest.Sigma(1)))
		if err != nil {
			t.Fatal(err)
		}
		before := sailing.Oriented(angle.True{}, 700, 200)
		if now := svKnown(f); now.North*now.East-now.Both*now.Both >= before.North*before.East {
			t.Fatalf("the region has not shrunk: %+v", now)
		}
	})
}

func TestLineOfAnotherTimeIsRefused(t *testing.T) {
	k := fix.NewTrack(tkStart)
	for _, off := range []time.Duration{-61 * time.Second, 61 * time.Second, 24 * time.Hour} {
		_, err := k.Observe(plBearing(plOrlesk, plHere, 0, 1).WithTime(tkStart.Time.Add(off)))
		var late *fix.Error
		if !errors.As(err, &late) || late.Kind != fix.WrongTime || late.Line != "Orlesk Head light" || !strings.Contains(late.Reason, tkStart.Time.Format(time.DateTime)) {
			t.Errorf("%v: %v, want an Error", off, err)
		}
		// The advice can be followed: no run goes back in time.
		want := "call Run to that time first"
		if off < 0 {
			want = "call Undo back to that time, Observe the line, and Run the later runs again; or Replay all entries in order of time"
		}
		if !strings.HasSuffix(err.Error(), ": "+want) {
			t.Errorf("%v: %v, want %s", off, err, want)
		}
	}
	for _, off := range []time.Duration{-time.Minute, 0, time.Minute} {
		if _, err := k.Observe(plBearing(plOrlesk, plHere, 0, 1).WithTime(tkStart.Time.Add(off))); err != nil {
			t.Errorf("%v: %v", off, err)
		}
	}
	// An estimate without a time accepts lines of all times.
	if _, err := fix.NewTrack(stream.Estimate{Position: plHere, Covariance: sailing.Circular(400)}).Observe(plBearing(plOrlesk, plHere, 0, 1).WithTime(tkStart.Time)); err != nil {
		t.Error(err)
	}
}

// The track and the line contain the same run, whose error must not count as two independent
// ones. In order of time, the track itself transfers the line.
func TestTrackRefusesTransferredLine(t *testing.T) {
	k := fix.NewTrack(tkStart)
	early := plBearing(plOrlesk, plHere, 0, 1).WithTime(tkStart.Time)
	run := tkRun(40 * time.Minute)
	if _, err := k.Run(run); err != nil {
		t.Fatal(err)
	}
	for name, l := range map[string]fix.Line{
		"by a run":            angle.Must(early.TransferredBy(run)),
		"of no time":          angle.Must(early.WithTime(time.Time{}).TransferredBy(run)),
		"by what was plotted": early.Transferred(sailing.Run{Course: run.Heading, Distance: 4 * plMile}, sailing.Circular(500)),
	} {
		_, err := k.Observe(l)
		if e, ok := errors.AsType[*fix.Error](err); !ok || e.Line != "Orlesk Head light" || !strings.Contains(e.Reason, "Undo back to that time") || len(k.Entries()) != 1 {
			t.Errorf("%s: %v", name, err)
		}
	}
	// This is what the message advises.
	k.Undo()
	if _, err := k.Observe(early); err != nil {
		t.Error(err)
	}
	if _, err := k.Run(run); err != nil {
		t.Error(err)
	}
	again, err := fix.Replay(tkStart, []fix.Entry{{Lines: []fix.Line{early}}, {Run: &run}})
	if err != nil || again.Estimate() != k.Estimate() {
		t.Errorf("replayed %v (%v), want %v", again, err, k)
	}
}

func TestRefusedEntryChangesNothing(t *testing.T) {
	k := fix.NewTrack(tkStart)
	var none *fix.Error
	if _, err := k.Observe(fix.Bearing(plOrlesk, angle.MustParseTrue("045°T"), angle.Uncertainty{})); !errors.As(err, &none) || none.Kind != fix.UncertaintyMissing {
		t.Errorf("uncertainty not stated: %v", err)
	}
	var line *fix.Error
	if _, err := k.Observe(fix.Line{}); !errors.As(err, &line) || line.Kind != fix.InvalidLine {
		t.Errorf("an empty line: %v", err)
	}
	var bad *angle.RangeError
	if _, err := k.Run(tkRun(-time.Hour)); !errors.As(err, &bad) {
		t.Errorf("a run back in time: %v", err)
	}
	if k.Estimate() != tkStart || len(k.Entries()) != 0 {
		t.Error("the track has changed")
	}
	run := tkRun(-time.Hour)
	if _, err := fix.Replay(tkStart, []fix.Entry{{Run: new(tkRun(time.Hour))}, {Run: &run}}); !errors.As(err, &bad) || !strings.Contains(err.Error(), "entry 2") {
		t.Errorf("replayed: %v", err)
	}
}

func TestReplayIsExact(t *testing.T) {
	k := tkTrack(t)
	again, err := fix.Replay(tkStart, k.Entries())
	if err != nil {
		t.Fatal(err)
	}
	a, b := k.Entries(), again.Entries()
	for i := range a {
		if a[i].After != b[i].After {
			t.Errorf("entry %d: %+v, want %+v", i, b[i].After, a[i].After)
		}
	}
	if again.String() != k.String() || again.Estimate() != k.Estimate() {
		t.Error("the log or the estimate is another")
	}
}

func TestEntriesAreCopies(t *testing.T) {
	k := tkTrack(t)
	before := k.String()
	e := k.Entries()
	e[0].Run.Speed *= 3
	e[1].Lines[0] = fix.Line{}
	e[2] = fix.Entry{}
	f, err := k.Observe(plBearing(plChapel, k.Estimate().Position, 0, 1))
	if err != nil {
		t.Fatal(err)
	}
	f.Lines()[0] = f.Lines()[0].WithName("changed")
	after := k.String()
	if !strings.HasPrefix(after, before) || strings.Contains(after, "changed") {
		t.Errorf("changed from outside:\n%s", after)
	}
}

func TestTrackLog(t *testing.T) {
	k := tkTrack(t)
	at := k.Estimate()
	if _, err := k.Observe(plBearing(plMinnow, at.Position, 40, 1)); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Run(tkRun(20 * time.Minute)); err != nil {
		t.Fatal(err)
	}
	const want = `3 May 09:00  47°05.0′N 019°05.0′W  ±0.53 M  start
3 May 09:45  47°07.2′N 019°10.7′W  ±0.94 M by 0.85 M, longer toward 120°T  run of 45 min on 300°T at 6.0 kn
3 May 09:45  47°07.3′N 019°10.7′W  ±0.31 M by 0.16 M, longer toward 014°T  bearing of Orlesk Head light, bearing of Minnow Ledge beacon
3 May 11:00  47°11.1′N 019°20.2′W  ±1.3 M by 1.2 M, longer toward 123°T  run of 1 h 15 min on 300°T at 6.0 kn
3 May 11:00  47°11.1′N 019°20.3′W  ±0.75 M by 0.36 M, longer toward 130°T  bearing of Minnow Ledge beacon, latitude 47°11.1′N
3 May 11:00  47°08.3′N 019°12.3′W  accuracy cannot be stated  bearing of Minnow Ledge beacon; THEY DO NOT AGREE with the reckoning or each other
3 May 11:20  47°09.3′N 019°14.9′W  accuracy cannot be stated  run of 20 min on 300°T at 6.0 kn
`
	if got := k.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if !strings.HasPrefix(fix.NewTrack(stream.Estimate{Position: plHere}).String(), "              47°05.0′N 019°05.0′W") {
		t.Error("a start without its time")
	}
}

func TestNilTrackIsEmpty(t *testing.T) {
	var track *fix.Track
	if track.Undo() || track.Entries() != nil || track.Estimate() != (stream.Estimate{}) || track.String() != "no track" {
		t.Errorf("%v", track)
	}
}

func TestNilTrackIsRefused(t *testing.T) {
	var track *fix.Track
	_, err := track.Run(stream.ReckonedRun{})
	fixtest.Refused[*fix.Error](t, "run", err)
	_, err = track.Observe(svThree()...)
	fixtest.Refused[*fix.Error](t, "observe", err)
	fixtest.Refused[*fix.Error](t, "read", track.UnmarshalJSON([]byte(`{}`)))
	if text, err := track.MarshalJSON(); string(text) != "null" || err != nil {
		t.Errorf("written: %s, %v", text, err)
	}
}
