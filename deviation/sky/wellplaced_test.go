package sky_test

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// Every body is asked about on its own, and the order is held to its rule by trying each of those
// that come later.
func TestWellPlacedAreLowAndSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, when := drawPosition(t), drawTime(t)
		well, err := sky.WellPlaced(p, when)
		if err != nil {
			t.Fatal(err)
		}
		isWell := func(s sky.Sight) bool { return s.Altitude >= 5*deg && s.Altitude <= 40*deg }
		want := map[sky.Sight]bool{}
		s := angle.Must(sky.Sun(when)).From(p)
		switch {
		case isWell(s):
			want[s] = true
		case s.Altitude < -6*deg:
			for _, name := range sky.StarNames() {
				if s := angle.Must(sky.Star(name, when)).From(p); isWell(s) {
					want[s] = true
				}
			}
		}
		if len(well) != len(want) {
			t.Fatalf("%d bodies, want %d", len(well), len(want))
		}
		apart := func(n int, s sky.Sight) angle.Angle { // from the nearest of the first n
			least := angle.Turn
			for _, before := range well[:n] {
				least = min(least, before.Azimuth.Sub(s.Azimuth).Abs())
			}
			return least
		}
		for n, s := range well {
			if !want[s] {
				t.Fatalf("%v is not one of them", s)
			}
			for _, later := range well[n:] {
				if n > 0 && apart(n, later) > apart(n, s) {
					t.Fatalf("%s comes before %s", s.Body.Name, later.Body.Name)
				}
			}
		}
	})
}

// Off Orlesk, early on 28 November 2026, Sirius is in the south-south-east, 23° high. It is the
// brightest star of all.
func TestWellPlacedBeginsWithTheBrightest(t *testing.T) {
	p := angle.MustParsePosition("47°00′N 019°10′W")
	well, err := sky.WellPlaced(p, at(t, "2026-11-28T02:00:00Z"))
	if err != nil || len(well) < 6 || well[0].Body.Name != "Sirius" {
		t.Fatalf("%v, %v", well, err)
	}
	if apart := well[1].Azimuth.Sub(well[0].Azimuth).Abs(); apart < 120*deg {
		t.Errorf("the second is %v from the first", apart)
	}
}

func TestWellPlacedByDay(t *testing.T) {
	p := angle.MustParsePosition("47°00′N 019°10′W")
	for text, want := range map[string]int{
		"2026-05-14T08:30:00Z": 1, // 26° high
		"2026-05-14T13:13:00Z": 0, // 61° high
		"2026-05-14T20:44:00Z": 0, // setting
	} {
		if well, err := sky.WellPlaced(p, at(t, text)); err != nil || len(well) != want || want == 1 && well[0].Body.Name != "the Sun" {
			t.Errorf("%s: %v, %v", text, well, err)
		}
	}
	_, err := sky.WellPlaced(p, time.Time{})
	if outside := (*sky.Error)(nil); !errors.As(err, &outside) || outside.Kind != sky.OutsideYears {
		t.Error(err)
	}
}
