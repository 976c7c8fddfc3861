package angle_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

// The 32 points as every compass card has them.
var boxed = strings.Fields(`
	N NbE NNE NEbN NE NEbE ENE EbN  E EbS ESE SEbE SE SEbS SSE SbE
	S SbW SSW SWbS SW SWbW WSW WbS  W WbN WNW NWbW NW NWbN NNW NbW`)

// The quarter points of the first quadrant, named toward east, but next to NE
// and E from these.
var firstQuadrant = []string{
	"N", "N ¼ E", "N ½ E", "N ¾ E", "NbE", "NbE ¼ E", "NbE ½ E", "NbE ¾ E",
	"NNE", "NNE ¼ E", "NNE ½ E", "NNE ¾ E", "NEbN", "NE ¾ N", "NE ½ N", "NE ¼ N",
	"NE", "NE ¼ E", "NE ½ E", "NE ¾ E", "NEbE", "NEbE ¼ E", "NEbE ½ E", "NEbE ¾ E",
	"ENE", "ENE ¼ E", "ENE ½ E", "ENE ¾ E", "EbN", "E ¾ N", "E ½ N", "E ¼ N", "E",
}

func TestBoxingTheCompass(t *testing.T) {
	for i, name := range boxed {
		q := angle.QuarterPoint(4 * i)
		want := angle.Angle(i) * (11*deg + 15*minute)
		if q.String() != name || q.Angle() != want {
			t.Errorf("point %d: %s at %v, want %s at %v", i, q, q.Angle(), name, want)
		}
		if got, err := angle.ParseTrue(name); err != nil || got.FromNorth() != want {
			t.Errorf("%s: %v, %v; want %v", name, got, err, want)
		}
		if got := angle.TrueFrom(want).NearestPoint(); got != q {
			t.Errorf("nearest to %v: %v", want, got)
		}
	}
}

// The other quadrants are the first in a mirror: S for N, W for E.
func TestQuarterPointsOfEveryQuadrant(t *testing.T) {
	south, west := strings.NewReplacer("N", "S"), strings.NewReplacer("E", "W")
	for i, name := range firstQuadrant {
		q := angle.QuarterPoint(i)
		for _, c := range []struct {
			q    angle.QuarterPoint
			want string
		}{
			{q, name},
			{64 - q, south.Replace(name)},
			{64 + q, west.Replace(south.Replace(name))},
			{(128 - q) % 128, west.Replace(name)},
		} {
			if c.q.String() != c.want {
				t.Errorf("quarter point %d: %s, want %s", c.q, c.q, c.want)
			}
		}
	}
}

func TestQuarterPointsInWords(t *testing.T) {
	for text, want := range map[string]string{
		"N": "north", "NbE": "north by east", "NE ¾ N": "north-east ¾ north", "SSW ½ W": "south-south-west ½ west",
		"SEbS": "south-east by south", "WbN": "west by north", "W ¼ S": "west ¼ south", "SW": "south-west", "ENE": "east-north-east",
	} {
		if got := angle.MustParseTrue(text).NearestQuarterPoint().Name(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// All 128, by every name, and the counts beyond that go on round the circle.
func TestEveryQuarterPointReadsBack(t *testing.T) {
	names := map[string]bool{}
	for i := range 256 {
		q := angle.QuarterPoint(i)
		want := angle.Angle(i%128) * (2*deg + 48*minute + 45*second)
		if q.Angle() != want {
			t.Errorf("%d: %v, want %v", i, q.Angle(), want)
		}
		if i < 128 && (names[q.String()] || names[q.Name()] && q.Name() != q.String()) {
			t.Errorf("%d: two quarter points are called %s", i, q)
		}
		names[q.String()], names[q.Name()] = true, true
		for _, name := range []string{q.String(), q.Name(), strings.ToUpper(q.Name()), strings.ReplaceAll(q.Name(), "-", " "), strings.ReplaceAll(q.String(), " ", "")} {
			if got, err := angle.ParseMagnetic(name); err != nil || got.FromNorth() != want {
				t.Errorf("%q: %v, %v; want %v", name, got, err, want)
			}
		}
		if got := angle.CompassFrom(want).NearestQuarterPoint(); int(got) != i%128 {
			t.Errorf("nearest to %v: %v", want, got)
		}
	}
}

func TestNearestPointHalfWay(t *testing.T) {
	for i := range angle.Angle(128) {
		half := i*angle.Point/4 + angle.Point/8
		if got, want := angle.TrueFrom(half).NearestQuarterPoint(), angle.QuarterPoint(i+1)%128; got != want {
			t.Errorf("%v: %v, want %v", half, got, want)
		}
		if got := angle.TrueFrom(half - 1).NearestQuarterPoint(); got != angle.QuarterPoint(i) {
			t.Errorf("just short of %v: %v", half, got)
		}
	}
	for i := range angle.Angle(32) {
		half := i*angle.Point + angle.Point/2
		if got, want := angle.TrueFrom(half).NearestPoint(), angle.QuarterPoint(4*i+4)%128; got != want {
			t.Errorf("%v: %v, want %v", half, got, want)
		}
		if got := angle.TrueFrom(half - 1).NearestPoint(); got != angle.QuarterPoint(4*i) {
			t.Errorf("just short of %v: %v", half, got)
		}
	}
}

func TestNearestPointWithinHalfAPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyTrue().Draw(t, "d")
		if off := d.Sub(angle.TrueFrom(d.NearestPoint().Angle())); off.Abs() > angle.Point/2 || d.NearestPoint()%4 != 0 {
			t.Fatalf("%v off %v", off, d.NearestPoint())
		}
		if off := d.Sub(angle.TrueFrom(d.NearestQuarterPoint().Angle())); off.Abs() > angle.Point/8 {
			t.Fatalf("%v off %v", off, d.NearestQuarterPoint())
		}
	})
}

func TestQuadrantal(t *testing.T) {
	for a, want := range map[angle.Angle]string{
		0: "N", 90 * deg: "E", 180 * deg: "S", 270 * deg: "W",
		35 * deg: "N 35.0° E", 145 * deg: "S 35.0° E", 192*deg + 30*minute: "S 12.5° W", 325 * deg: "N 35.0° W",
		minute: "N", turn - minute: "N", 90*deg - minute: "E", 90*deg + minute: "E", 180*deg + minute: "S", 270*deg - minute: "W", // rounded to a tenth
		3 * minute: "N 0.1° E", turn - 3*minute - 1: "N 0.1° W",
	} {
		if got := fmt.Sprintf("%.1q", angle.TrueFrom(a)); got != want {
			t.Errorf("%v: %q, want %q", a, got, want)
		}
		// The form does not show which north is meant.
		if got := fmt.Sprintf("%.1q", angle.CompassFrom(a)); got != want {
			t.Errorf("%v by compass: %q, want %q", a, got, want)
		}
	}
	d := angle.TrueFrom(144*deg + 30*minute + 15*second)
	if got := fmt.Sprintf("%.3q", d); got != "S 35.496° E" {
		t.Errorf("%q", got)
	}
}

func TestQuadrantalRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyTrue().Draw(t, "d")
		n := rapid.IntRange(0, 11).Draw(t, "decimals")
		power := angle.Angle(1)
		for range n {
			power *= 10
		}
		text := fmt.Sprintf("%.*q", n, d)
		if got, err := angle.ParseTrue(text); err != nil || got != d.Round(deg/power) {
			t.Fatalf("%q: %v, %v", text, got, err)
		}
	})
}
