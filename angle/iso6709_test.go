package angle_test

import (
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestReadISO6709(t *testing.T) {
	for text, want := range map[string]angle.Position{
		"+47-019/": place(47, -19), "+47-019": place(47, -19), "-33+151/": place(-33, 151), "+47.25-019.5/": place(47.25, -19.5), "+00+000/": {}, "-00-000/": {},
		"+4730-01930/": place(47.5, -19.5), "+473000-0193000/": place(47.5, -19.5), "+473000.0-0193000.000/": place(47.5, -19.5), "+4730.-01930./": place(47.5, -19.5),
		"+47.5-01930/": place(47.5, -19.5), // each coordinate in its own form
		"+90+000/":     place(90, 0), "-90-180/": place(-90, 180), "+9000-18000/": place(90, 180), " +47-019/ ": place(47, -19), "−47−019/": place(-47, -19),
	} {
		if got, err := angle.ParsePosition(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, r := range isoRefusals {
		_, err := angle.ParsePosition(r.text)
		checkRefusal(t, r, err)
	}
}

var isoRefusals = []refusal{
	{"+91+004/", angle.OutOfRange, 0}, {"+90.00000000001+004/", angle.OutOfRange, 0}, {"+47-181/", angle.OutOfRange, 3}, {"+47+1800000.1/", angle.OutOfRange, 3},
	{"+4760-019/", angle.MinutesOutOfRange, 3}, {"+47-01960/", angle.MinutesOutOfRange, 7}, {"+476000-0190000/", angle.MinutesOutOfRange, 3}, {"+471260-0190000/", angle.SecondsOutOfRange, 5}, {"+47-0191260.5/", angle.SecondsOutOfRange, 9},
	{"+047-019/", angle.NoNumber, 1}, {"+4-019/", angle.NoNumber, 1}, {"+4712345-019/", angle.NoNumber, 1}, {"+.5-019/", angle.NoNumber, 1}, {"+½-019", angle.NoNumber, 1},
	// A height and a coordinate system are not part of a Position.
	{"+47-019+100/", angle.TrailingText, 7}, {"+47.25-019.50+8848/", angle.TrailingText, 13}, {"+47-019CRSWGS_84/", angle.TrailingText, 7}, {"+47-019//", angle.TrailingText, 8}, {"+47-019/x", angle.TrailingText, 8},
	{"+999999999999999999999-019/", angle.OutOfRange, 1},
	// Too few figures for a longitude: it isn't ISO 6709, and nothing else.
	{"+47-0190/", angle.MinutesOutOfRange, 4}, {"+47.5-19/", angle.FractionNotLast, 1}, {"47-019/", angle.MissingName, 6},
}

func TestAppendISO6709(t *testing.T) {
	for _, c := range []struct {
		p        angle.Position
		decimals int
		want     string
	}{
		{place(47.25, -19.5), 4, "+47.2500-019.5000/"},
		{place(-3.25, 4.5), 1, "-03.3+004.5/"},                           // halves away from zero
		{place(0, 0), 0, "+00+000/"}, {place(-0.4, -0.4), 0, "+00+000/"}, // no negative zero
		{place(90, 180), 2, "+90.00+180.00/"}, {place(-90, -180), 0, "-90+180/"},
		{place(89.99999, 179.99999), 2, "+90.00+180.00/"},
		{place(47, -19), -3, "+47-019/"},
		{orlesk, 99, "+47.20666666667-019.55166666667/"},
	} {
		if got := c.p.ISO6709(c.decimals); got != c.want {
			t.Errorf("%v to %d decimals: %s, want %s", c.p, c.decimals, got, c.want)
		}
	}
}

func TestISO6709RoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPosition().Draw(t, "p")
		n := rapid.IntRange(0, 11).Draw(t, "decimals")
		unit := deg
		for range n {
			unit /= 10
		}
		want := angle.Position{
			Latitude:  angle.Must(angle.LatitudeFrom(p.Latitude.Angle().Round(unit))),
			Longitude: angle.LongitudeFrom(p.Longitude.Angle().Round(unit)),
		}
		text := p.ISO6709(n)
		if got, err := angle.ParsePosition(text); err != nil || got != want {
			t.Fatalf("%s: %v, %v; want %v", text, got, err, want)
		}
	})
}
