package sailing_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func TestParseDistanceUnits(t *testing.T) {
	for text, want := range map[string]sailing.Distance{
		"12.5 M": 12.5 * mile, "12.5M": 12.5 * mile, " 12.5 nm ": 12.5 * mile, "3 NM": 3 * mile, "3 nmi": 3 * mile, "6 n.m.": 6 * mile, "1 mile": mile, "2 Miles": 2 * mile, "2 nautical miles": 2 * mile,
		"4 cables": 4 * sailing.Cable, "1 cable": sailing.Cable, "1.5 km": 1500, "1852.3 m": 1852.3, "7 metres": 7,
		"1 ft": 0.3048, "6 feet": 6 * sailing.Foot, "1 Foot": sailing.Foot, "15FT": 15 * sailing.Foot, "1 fathom": 1.8288, "3 Fathoms": 3 * fathom, "3 fm": 3 * fathom, "-2 fms": -2 * fathom, "4 CABLES": 4 * sailing.Cable,
		"0 M": 0, "-0 m": 0, "-3 M": -3 * mile, "−3 M": -3 * mile, "+3 M": 3 * mile, "- 3 M": -3 * mile, ".5 M": mile / 2, "0·5 M": mile / 2,
		// As books print them.
		"12½ M": 12.5 * mile, "12 1/2 miles": 12.5 * mile, "½ mile": mile / 2, "3/4 mile": 0.75 * mile, "3⁄4 M": 0.75 * mile, "-3/4 M": -0.75 * mile, "-½ M": -mile / 2, "− ¼ M": -mile / 4, "-2½ M": -2.5 * mile, "1⅜ M": 1.375 * mile, "10½ fms.": 10.5 * fathom, "2½ cables": 2.5 * sailing.Cable, "0½ M": mile / 2,
		"2000 yds": 2000 * 0.9144, "1 yard": 0.9144, "5 cbl": 5 * sailing.Cable, "12.5 naut. miles": 12.5 * mile, "12 n. miles": 12 * mile, "3 sea miles": 3 * mile, "120 ft.": 120 * sailing.Foot, "3 yd.": 3 * 0.9144,
		"6 ft 4 in": 6*sailing.Foot + 4*0.0254, "47 ft. 4 in.": 47*sailing.Foot + 4*0.0254, "6 feet 4½ inches": 6*sailing.Foot + 4.5*0.0254, "6 ft ⅜ in": 6*sailing.Foot + 0.375*0.0254, "-6 ft 4 in": -6*sailing.Foot - 4*0.0254, "0 ft 4 in": 4 * 0.0254, "1 mile 3 cables": mile + 3*sailing.Cable, "2 M 5 cables": 2*mile + 5*sailing.Cable, "4 fathoms 2 feet": 4*fathom + 2*sailing.Foot, "4fm 2.5ft": 4*fathom + 2.5*sailing.Foot,

		"1e3 m": 1000, "1.5E+3 m": 1500, "1e-3 km": 1, "3\u00a0M": 3 * mile, "3\u202fM\u00a0": 3 * mile,
	} {
		if got, err := sailing.ParseDistance(text); err != nil || got != want {
			t.Errorf("%q: %v m, %v; want %v m", text, float64(got), err, float64(want))
		}
	}
	for text, want := range map[string]sailing.Speed{
		"1.5 kn": 1.5 * sailing.Knot, "6kt": 6 * sailing.Knot, "6 kts": 6 * sailing.Knot, "6 Knots": 6 * sailing.Knot, "1 knot": sailing.Knot,
		"0.7716 m/s": 0.7716, "3.6 km/h": 3.6 * (1000.0 / 3600), "-1 kn": -sailing.Knot, "0 kn": 0,
		"2½ knots": 2.5 * sailing.Knot, "12 kts.": 12 * sailing.Knot, "3/4 kn": 0.75 * sailing.Knot, "1 1/2 kn": 1.5 * sailing.Knot,
	} {
		if got, err := sailing.ParseSpeed(text); err != nil || got != want {
			t.Errorf("%q: %v m/s, %v; want %v m/s", text, float64(got), err, float64(want))
		}
	}
}

type quantityRefusal struct {
	text   string
	kind   angle.ErrorKind
	offset int
}

func checkQuantity(t *testing.T, r quantityRefusal, err error) {
	t.Helper()
	p, ok := errors.AsType[*angle.ParseError](err)
	switch {
	case !ok:
		t.Errorf("%q: %v (%T), want a *angle.ParseError", r.text, err, err)
	case p.Kind != r.kind || p.Offset != r.offset || p.Input != r.text || p.Want == "":
		t.Errorf("%q: %+v, want %s at byte %d", r.text, *p, r.kind, r.offset)
	}
}

func TestMissingUnitIsRefused(t *testing.T) {
	for _, r := range []quantityRefusal{
		{"12.5", sailing.MissingUnit, 4}, {"0", sailing.MissingUnit, 1}, {"12 ", sailing.MissingUnit, 3},
		{"", angle.Empty, 0}, {"  ", angle.Empty, 2}, {"M", angle.NoNumber, 0}, {"x 12 M", angle.NoNumber, 0}, {"-M", angle.NoNumber, 1}, {"--1 M", angle.NoNumber, 1},
		{"NaN M", angle.NoNumber, 0}, {"Inf M", angle.NoNumber, 0}, {"-Inf m", angle.NoNumber, 1}, {"0x1p4 m", angle.UnknownWord, 1},
		{"12,5 M", angle.BadSeparator, 2}, {"12 5 M", angle.BadSeparator, 3}, {"1.2.3 M", angle.BadSeparator, 3}, {"5. M", angle.BadSeparator, 1},
		{"12 kn", angle.UnknownWord, 3}, {"12 ft/s", angle.UnknownWord, 3}, {"12 f", angle.UnknownWord, 3}, {"12 '", angle.UnknownWord, 3}, {"12 rods", angle.UnknownWord, 3}, {"12 in", angle.UnknownWord, 3}, {"6 ft 12 in", angle.UnknownWord, 2}, {"6.5 ft 4 in", angle.UnknownWord, 4}, {"6½ ft 4 in", angle.UnknownWord, 4}, {"6 m 4 in", angle.UnknownWord, 2}, {"6 ft 4 ft", angle.UnknownWord, 2}, {"6 ft 4", angle.UnknownWord, 2}, {"6 ft 4 in 2", angle.UnknownWord, 2}, {"1 mile 10 cables", angle.UnknownWord, 2}, {"6 ft -4 in", angle.UnknownWord, 2}, {"3/5 mile", angle.UnknownWord, 1}, {"13/4 mile", angle.UnknownWord, 2}, {"11/2 M", angle.UnknownWord, 2}, {"1.5½ M", angle.UnknownWord, 3}, {"4/4 M", angle.UnknownWord, 1}, {"½½ M", angle.UnknownWord, 2}, {"½", sailing.MissingUnit, 2}, {"12½", sailing.MissingUnit, 4}, {"M.", angle.NoNumber, 0}, {"12 M x", angle.UnknownWord, 3}, {"12 KM/H", angle.UnknownWord, 3}, {"12 statute miles", angle.UnknownWord, 3}, {"1e M", angle.UnknownWord, 1},
		{"1e999 m", angle.OutOfRange, 0}, {" 1e308 M", angle.OutOfRange, 1}, {"1e308 miles 3 cables", angle.OutOfRange, 0},
	} {
		d := mile
		checkQuantity(t, r, d.UnmarshalText([]byte(r.text)))
		if d != mile {
			t.Errorf("%q: refused, but the distance is now %v", r.text, d)
		}
	}
	for _, r := range []quantityRefusal{
		{"1.5", sailing.MissingUnit, 3}, {"", angle.Empty, 0}, {"kn", angle.NoNumber, 0}, {"12 M", angle.UnknownWord, 3}, {"12 M/S", angle.UnknownWord, 3}, {"1e999 kn", angle.OutOfRange, 0}, {"NaN kn", angle.NoNumber, 0},
	} {
		s := sailing.Knot
		checkQuantity(t, r, s.UnmarshalText([]byte(r.text)))
		if s != sailing.Knot {
			t.Errorf("%q: refused, but the speed is now %v", r.text, s)
		}
	}
}

func TestDistancesAndSpeedsAsText(t *testing.T) {
	for want, d := range map[string]sailing.Distance{
		"12.5 M": 12.5 * mile, "1 M": mile, "0 M": sailing.Distance(math.Copysign(0, -1)), "12.3 M": 12.3 * mile, "-3 M": -3 * mile,
		"1852.3 m": 1852.3, "1 m": 1, "1000 m": sailing.Kilometre, "185.2 m": sailing.Cable, "0.000005 m": 5e-6, "5e-324 m": 5e-324, "1e+300 m": 1e300,
		"0.33333333333333337 M": mile / 3,
	} {
		if got, err := d.MarshalText(); err != nil || string(got) != want {
			t.Errorf("%s, %v; want %s", got, err, want)
		}
	}
	for want, s := range map[string]sailing.Speed{"1.5 kn": 1.5 * sailing.Knot, "0.7716 m/s": 0.7716, "0 kn": 0, "0.1 kn": 0.1 * sailing.Knot, "1 m/s": 1, "-2 kn": -2 * sailing.Knot} {
		if got, err := s.MarshalText(); err != nil || string(got) != want {
			t.Errorf("%s, %v; want %s", got, err, want)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := sailing.Distance(x).MarshalText()
		refused[*angle.RangeError](t, "a distance", err)
		_, err = sailing.Speed(x).MarshalText()
		refused[*angle.RangeError](t, "a speed", err)
	}
}

// A text is the number that a program's constant is, and no neighbour of it.
func TestWrittenFiguresAreConstants(t *testing.T) {
	for text, want := range map[string]sailing.Distance{"0.1 M": 0.1 * mile, "12.3 M": 12.3 * mile, "0.7 M": 0.7 * mile, "99.9 M": 99.9 * mile, "0.3 cables": 0.3 * sailing.Cable, "1.1 km": 1.1 * sailing.Kilometre} {
		if got, err := sailing.ParseDistance(text); err != nil || got != want {
			t.Errorf("%s: %v m, want %v m", text, float64(got), float64(want))
		}
	}
	for text, want := range map[string]sailing.Speed{"0.1 kn": 0.1 * sailing.Knot, "0.7 kn": 0.7 * sailing.Knot, "12.3 kn": 12.3 * sailing.Knot} {
		if got, err := sailing.ParseSpeed(text); err != nil || got != want {
			t.Errorf("%s: %v m/s, want %v m/s", text, float64(got), float64(want))
		}
	}
}

// What is written is read back to the last bit.
func TestDistanceTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(
			rapid.Float64(),
			rapid.Float64Range(-1e7, 1e7),
			rapid.Custom(func(t *rapid.T) float64 {
				return float64(rapid.IntRange(-99999, 99999).Draw(t, "tenths")) / 10 * float64(mile)
			}),
			rapid.Custom(func(t *rapid.T) float64 {
				return float64(rapid.IntRange(-9999, 9999).Draw(t, "hundredths")) / 100 * float64(sailing.Knot)
			}),
		).Draw(t, "x")
		data, err := json.Marshal(struct {
			D sailing.Distance
			S sailing.Speed
		}{sailing.Distance(x), sailing.Speed(x)})
		if err != nil {
			t.Fatal(err)
		}
		var back struct {
			D sailing.Distance
			S sailing.Speed
		}
		if err := json.Unmarshal(data, &back); err != nil || float64(back.D) != x || float64(back.S) != x {
			t.Fatalf("%s: %v, %v; want %v", data, back, err, x)
		}
	})
}

func FuzzParseDistance(f *testing.F) {
	for _, text := range []string{"12.5 M", "-3nm", "4 cables", "1e3 m", "1,5 km", "12", "5e-324 m", "3 M", "12½ M", "-3/4 M", "1 1/2 yds.", "6 ft 4½ in.", "1 mile 3 cables"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := sailing.ParseDistance(text)
		if err != nil {
			p, ok := errors.AsType[*angle.ParseError](err)
			if !ok || p.Offset < 0 || p.Offset > len(text) || p.Input != text || d != 0 {
				t.Fatalf("%#v", err)
			}
			return
		}
		again, err := d.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if back, err := sailing.ParseDistance(string(again)); err != nil || back != d {
			t.Fatalf("%q, %s: %v, %v", text, again, back, err)
		}
	})
}

func FuzzParseSpeed(f *testing.F) {
	for _, text := range []string{"1.5 kn", "0.7716 m/s", "10 km/h", "6kt", "6", "1e9 knots"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := sailing.ParseSpeed(text)
		if err != nil {
			if _, ok := errors.AsType[*angle.ParseError](err); !ok || s != 0 {
				t.Fatalf("%#v", err)
			}
			return
		}
		again, err := s.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if back, err := sailing.ParseSpeed(string(again)); err != nil || back != s {
			t.Fatalf("%q, %s: %v, %v", text, again, back, err)
		}
	})
}
