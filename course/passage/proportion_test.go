package passage_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

// warning is the message of the first warning of a kind, or empty.
func warning(l passage.Leg, kind working.WarningKind) string {
	for _, w := range l.Warnings() {
		if w.Kind == kind {
			return w.Message
		}
	}
	return ""
}

// Plan{Speed: 5.5, Leeway: 5} means 5.5 m/s and 5 units of angle.
func TestForgottenUnits(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°00′W", "47°12′N 019°20′W")
	p.Speed, p.Leeway, p.WindFrom = 5.5, 5, new(angle.MustParseTrue("130"))
	l := worked(t, p).Legs[0]
	if got, want := warning(l, passage.UnitForgotten), "the speed is 10.7 kn, which is 5.5 m/s: for 5.5 kn write 5.5*sailing.Knot"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	p.Speed = 5.5 * sailing.Knot
	l = worked(t, p).Legs[0]
	if got := warning(l, stream.LeewayTiny); !strings.Contains(got, "Write 5*angle.Degree") || warning(l, passage.UnitForgotten) != "" {
		t.Errorf("%q", got)
	}
	p.Leeway, p.Waypoints[2].Speed = 5*deg, 4
	w := worked(t, p)
	if got := warning(w.Legs[0], passage.UnitForgotten) + warning(w.Legs[1], passage.UnitForgotten); !strings.HasPrefix(got, "the speed to W2 is 7.8 kn") {
		t.Errorf("%q", got)
	}
	// Sound speeds in knots, to a twentieth, are not accused.
	p.Waypoints[2].Speed = 0
	for n := 1; n < 2000; n++ {
		p.Speed = sailing.Speed(n) / 20 * sailing.Knot
		if got := warning(worked(t, p).Legs[0], passage.UnitForgotten); got != "" {
			t.Errorf("%v: %s", p.Speed, got)
		}
	}
}

// A waypoint whose latitude and longitude are exchanged makes a leg of 5,365 M.
func TestExchangedCoordinates(t *testing.T) {
	for _, c := range []struct {
		name   string
		places []string
		leg    int // from 1; 0 for no warning
		want   string
	}{
		{"sound", []string{"47°08′N 019°01′W", "47°03′N 019°11′W", "46°53′N 019°24′W"}, 0, ""},
		{"exchanged", []string{"47°08′N 019°01′W", "19°11′S 047°03′E", "46°53′N 019°24′W"}, 1, "with latitude and longitude exchanged it would be 47°03.0′N 019°11.0′W, and they 21.9 M"},
		{"the last", []string{"47°08′N 019°01′W", "47°03′N 019°11′W", "19°24′S 046°53′E"}, 2, "latitude and longitude exchanged"},
		{"the first", []string{"19°01′S 047°08′E", "47°03′N 019°11′W", "46°53′N 019°24′W"}, 1, "check the position of W0, 19°01.0′S 047°08.0′E"},
		{"east for west", []string{"47°08′N 019°01′W", "47°03′N 019°11′E", "46°53′N 019°24′W"}, 1, "with E and W exchanged"},
		{"south for north", []string{"47°08′N 019°01′W", "47°03′S 019°11′W", "46°53′N 019°24′W"}, 1, "with N and S exchanged"},
		{"one leg", []string{"47°08′N 019°01′W", "19°11′S 047°03′E"}, 1, "check both positions"},
		{"over the date line", []string{"17°S 179°30′W", "17°S 179°30′E", "18°S 179°E"}, 0, ""},
		{"over the prime meridian", []string{"50°N 1°W", "50°N 1°E"}, 0, ""},
		{"over the equator", []string{"3°N 20°W", "3°S 20°W"}, 0, ""},
		{"an ocean", []string{"47°N 005°W", "15°N 061°W"}, 0, ""},
		{"the same way back", []string{"47°N 005°W", "15°N 061°W", "47°N 005°W"}, 0, ""},
		{"to the pole", []string{"80°N 005°W", "90°N 000°E", "80°N 170°E"}, 0, ""},
	} {
		w := worked(t, plan(c.places...))
		for _, l := range w.Legs {
			got := warning(l, passage.PositionDoubtful)
			if l.Number() != c.leg && got != "" || l.Number() == c.leg && (got == "" || !strings.Contains(got, c.want)) {
				t.Errorf("%s: leg %d: %q, want %q on leg %d", c.name, l.Number(), got, c.want, c.leg)
			}
		}
	}
}

// A leg of 0.1 m is no leg; the same place twice is refused, saying what to do.
func TestVeryShortLeg(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°00.00005′N 019°00′W", "47°12′N 019°00′W")
	w := worked(t, p)
	if got := warning(w.Legs[0], passage.ShortLeg); !strings.HasPrefix(got, "the leg is 0.1 m long") || !strings.Contains(got, "leave one of them out") || warning(w.Legs[1], passage.ShortLeg) != "" {
		t.Errorf("%q", got)
	}
}

// bulge is a variation that is greatest in a longitude.
type bulge struct{ in angle.Longitude }

func (b bulge) VariationAt(p angle.Position, _ time.Time) (variation.Variation, error) {
	x := p.Longitude.Sub(b.in).Degrees() / 20
	a, err := angle.Degrees(-13.2 - 2.3*math.Exp(-x*x*4))
	return variation.East(a), err
}

// The variation may change only toward the end of a leg.
func TestVariationAtEndOfLeg(t *testing.T) {
	p := plan("47°N 010°W", "47°N 050°W")
	p.Variation = bulge{angle.LongitudeFrom(-50 * deg)}
	if got := warning(worked(t, p).Legs[0], passage.VariationChanges); !strings.Contains(got, "between 15°30′W and 13°12") {
		t.Errorf("%q", got)
	}
}

// The variation at the ends may agree, and be another in the middle.
func TestVariationAlongLeg(t *testing.T) {
	p := plan("47°N 010°W", "47°N 050°W")
	p.Variation = bulge{angle.LongitudeFrom(-30 * deg)}
	for _, great := range []bool{false, true} {
		p.Waypoints[1].GreatCircle = great
		l := worked(t, p).Legs[0]
		got := warning(l, passage.VariationChanges)
		if !strings.Contains(got, "between 15°30′W and 13°14.5′W") {
			t.Errorf("great circle %v: %q", great, got)
		}
	}
}
