package fix_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// TestTrackOfLogWeighsFix: a reckoning and a fix 1 M to the north of it, each known to ±0.5 M,
// give the middle between them, ±0.35 M: the mean of two equal weights, worked by hand.
func TestTrackOfLogWeighsFix(t *testing.T) {
	const text = "time,log,true,set,rate,fix,fix_uncertainty\n" +
		"2026-07-02T06:00Z,0,000,0,0,00°00′N 020°00′W,0.5 M\n" +
		"2026-07-02T08:00Z,10,,0,0,,\n" +
		"2026-07-02T08:00Z,10,,,,FIX,0.5 M\n"
	l, err := decklog.ReadLog(strings.NewReader(strings.Replace(text, "FIX", "00°11.05′N 020°00′W", 1)))
	if err != nil {
		t.Fatal(err)
	}
	exact, _ := sailing.StandardUncertainty[sailing.Speed](0)
	mile, _ := sailing.StandardUncertainty[sailing.Distance](0)
	o := decklog.Options{StreamUncertainty: exact, Factor: decklog.Factor{Value: 1, PerMile: mile}}
	o.HeadingUncertainty, _ = angle.StandardUncertainty(0)
	r, err := l.Reckon(o)
	if err != nil {
		t.Fatal(err)
	}
	track, err := fix.TrackOfLog(r)
	if err != nil {
		t.Fatal(err)
	}
	at := track.Estimate()
	dr := r.Points[1].EP.Position.Latitude.Degrees()
	want := (dr + 11.05/60) / 2
	if d := (at.Position.Latitude.Degrees() - want) * 60; math.Abs(d) > 0.001 {
		t.Errorf("latitude %v, %.4f M from the middle", at.Position, d)
	}
	sigma, _ := at.Covariance.Along(angle.MustParseTrue("000")).Sigma()
	if math.Abs(sigma.NauticalMiles()-0.5/math.Sqrt2) > 0.001 {
		t.Errorf("±%v, want ±0.354 M", sigma)
	}
	if n := len(track.Entries()); n != 3 {
		t.Errorf("%d entries, want two runs and an observation", n)
	}
	// A fix of unknown uncertainty cannot be weighted.
	r.Points[2].Entry.FixUncertainty = sailing.Uncertainty[sailing.Distance]{}
	_, err = fix.TrackOfLog(r)
	if e, ok := errors.AsType[*record.Error](err); !ok || e.Row != 3 {
		t.Errorf("%v; want an error of row 3", err)
	}
	if _, err := fix.TrackOfLog(decklog.Reckoning{}); err == nil {
		t.Error("an empty log has a track")
	}
}
