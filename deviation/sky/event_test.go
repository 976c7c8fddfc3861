package sky_test

import (
	"errors"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// every returns the times of an event from one time to another, in steps of Next.
func every(t *testing.T, event sky.Event, p angle.Position, from, to time.Time) []time.Time {
	t.Helper()
	var times []time.Time
	for from.Before(to) {
		next, err := sky.NextWithin(event, p, from, to.Sub(from))
		if none := (*sky.Error)(nil); errors.As(err, &none) && none.Kind != sky.OutsideYears {
			return times
		}
		if err != nil {
			t.Fatal(err)
		}
		times = append(times, next)
		from = next
	}
	return times
}

// A slow scan, minute by minute, finds the same risings and settings.
func TestNextMissesNothing(t *testing.T) {
	for _, c := range []struct {
		latitude, longitude float64
		from                string
	}{
		{47, -19.1667, "2026-05-01T00:00:00Z"},
		{0, 180, "2026-03-15T00:00:00Z"},
		{66.5, 25, "2026-06-08T00:00:00Z"},
		{65.8, -150, "2026-06-18T00:00:00Z"}, // comes and goes around midnight
		{67.5, 100, "2026-12-05T00:00:00Z"},  // a few minutes at noon
		{-66, 140, "2026-12-16T00:00:00Z"},
		{89.5, 30, "2026-03-15T00:00:00Z"},
		{89.99, -60, "2026-03-15T00:00:00Z"},
		{-90, 0, "2026-03-18T00:00:00Z"},
	} {
		p := angle.Must(angle.PositionDegrees(c.latitude, c.longitude))
		from := at(t, c.from)
		to := from.Add(12 * 24 * time.Hour)
		want := map[sky.Event]int{}
		isUp := func(i time.Time) bool { return angle.Must(sky.Sun(i)).From(p).Altitude >= sky.RiseSetAltitude }
		up := isUp(from)
		for i := from.Add(time.Minute); !i.After(to); i = i.Add(time.Minute) {
			if now := isUp(i); now != up {
				if up = now; now {
					want[sky.Rise]++
				} else {
					want[sky.Set]++
				}
			}
		}
		for _, event := range []sky.Event{sky.Rise, sky.Set} {
			if got := len(every(t, event, p, from, to)); got != want[event] {
				t.Errorf("%v at %v: %d times, the scan has %d", event, p, got, want[event])
			}
		}
	}
}

func TestNextWhereTheSunStays(t *testing.T) {
	for _, c := range []struct {
		event     sky.Event
		latitude  float64
		after     string
		wantStays sky.ErrorKind
		wantText  string
	}{
		{sky.Set, 75, "2026-06-21T00:00:00Z", sky.StaysAbove,
			"sky: no set at 75°00.0′N 010°00.0′E in the 48 hours after 2026-06-21T00:00:00Z: the Sun stays above the horizon; give a latitude or a date at which it crosses the horizon"},
		{sky.Rise, 75, "2026-12-21T00:00:00Z", sky.StaysBelow,
			"sky: no rise at 75°00.0′N 010°00.0′E in the 48 hours after 2026-12-21T00:00:00Z: the Sun stays below the horizon; give a latitude or a date at which it crosses the horizon"},
		{sky.Rise, -90, "2026-12-21T00:00:00Z", sky.StaysAbove, ""},
		{sky.Set, 90, "2026-12-21T00:00:00Z", sky.StaysBelow, ""},
	} {
		_, err := sky.Next(c.event, angle.Must(angle.PositionDegrees(c.latitude, 10)), at(t, c.after))
		var none *sky.Error
		if !errors.As(err, &none) || none.Kind != c.wantStays {
			t.Errorf("%v at %v: %v, want it to stay %v", c.event, c.latitude, err, c.wantStays)
			continue
		}
		if c.wantText != "" && err.Error() != c.wantText {
			t.Errorf("got  %v\nwant %v", err, c.wantText)
		}
	}
}

func TestMeridianPassages(t *testing.T) {
	// Every day has one, a day apart but for the equation of time, on the date line
	// and at a pole too.
	for _, p := range []angle.Position{
		angle.Must(angle.PositionDegrees(47, -19.1667)),
		angle.Must(angle.PositionDegrees(-18, 180)),
		angle.Must(angle.PositionDegrees(90, 75)),
	} {
		from := at(t, "2026-01-01T00:00:00Z")
		times := every(t, sky.MeridianPassage, p, from, from.Add(365*24*time.Hour))
		if len(times) != 365 {
			t.Errorf("%v: %d passages, want 365", p, len(times))
		}
		for i := 1; i < len(times); i++ {
			if off := (times[i].Sub(times[i-1]) - 24*time.Hour).Abs(); off > 31*time.Second {
				t.Errorf("%v: %v after %v", p, times[i], times[i-1])
			}
		}
	}
	_, err := sky.NextWithin(sky.MeridianPassage, angle.Position{}, at(t, "2026-01-01T13:00:00Z"), time.Hour)
	var none *sky.Error
	if !errors.As(err, &none) || none.Kind != sky.StaysAbove {
		t.Errorf("%v, want none in the hour", err)
	}
}

func TestNextRefuses(t *testing.T) {
	noon := at(t, "2026-01-01T12:00:00Z")
	for _, within := range []time.Duration{-1, 401 * 24 * time.Hour} {
		var r *angle.RangeError
		if _, err := sky.NextWithin(sky.Rise, angle.Position{}, noon, within); !errors.As(err, &r) {
			t.Errorf("within %v: %v, want a *angle.RangeError", within, err)
		}
	}
	var unknown *angle.ParseError
	if _, err := sky.Next("moonrise", angle.Position{}, noon); !errors.As(err, &unknown) {
		t.Errorf("moonrise: %v, want an *angle.ParseError", err)
	}
	for _, event := range []sky.Event{sky.Rise, sky.Set, sky.MeridianPassage} {
		for _, after := range []time.Time{{}, at(t, "1949-12-31T23:59:59Z"), at(t, "2100-12-31T23:59:58Z")} {
			for _, within := range []time.Duration{0, 48 * time.Hour} {
				_, err := sky.NextWithin(event, angle.Position{}, after, within)
				var d *sky.Error
				if within == 0 && after.Year() == 2100 {
					continue // no search at all: none, or what lies beyond
				}
				if !errors.As(err, &d) || d.Kind != sky.OutsideYears {
					t.Errorf("%v after %v within %v: %v, want an *Error", event, after, within, err)
				}
			}
		}
	}
}
