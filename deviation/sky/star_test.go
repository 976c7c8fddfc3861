package sky_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// The tolerances are half as much again as the largest differences found. See
// testdata/README.md.
func TestStarsAgainstReference(t *testing.T) {
	againstERFA(t, "testdata/stars_erfa.csv", 124)
}

// All of the reference, where the folder of references lies beside the repository.
func TestStarsAgainstWholeReference(t *testing.T) {
	const path = "../../../shared/reference/sky/stars_erfa.csv"
	if _, err := os.Stat(path); err != nil {
		t.Skip("no folder of references beside the repository")
	}
	againstERFA(t, path, 580)
}

func againstERFA(t *testing.T, path string, count int) {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != count+1 {
		t.Fatalf("%d lines, want %d", len(rows), count+1)
	}
	names := []string{"declination", "hour angle, sideways", "azimuth, sideways", "altitude"}
	tolerance := [4]float64{0.00005, 0.00007, 0.0002, 0.00017} // degrees; found 0.000034, 0.000048, 0.00013, 0.00011
	var greatest [4]float64
	for _, row := range rows[1:] {
		number := func(column int) float64 {
			x, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		body, err := sky.Star(row[1], at(t, row[0]))
		if err != nil {
			t.Fatal(err)
		}
		sight := body.From(angle.Must(angle.PositionDegrees(number(2), number(3))))
		turn := func(a, b float64) float64 { return math.Remainder(a-b, 360) }
		for i, difference := range [4]float64{
			body.Declination.Degrees() - number(6),
			turn(body.GreenwichHourAngle.Degrees(), number(7)) * math.Cos(number(6)*math.Pi/180),
			turn(sight.Azimuth.Degrees(), number(4)) * math.Cos(number(5)*math.Pi/180),
			sight.Altitude.Degrees() - number(5),
		} {
			greatest[i] = max(greatest[i], math.Abs(difference))
			if !(math.Abs(difference) <= tolerance[i]) {
				t.Errorf("%s at %s: %s is off by %.6f", row[1], row[0], names[i], difference)
			}
		}
	}
	for i, name := range names {
		t.Logf("%s: largest difference %.2g°", name, greatest[i])
	}
}

func TestStarNames(t *testing.T) {
	names := sky.StarNames()
	if len(names) != 58 || names[0] != "Alpheratz" || names[48] != "Vega" || names[56] != "Markab" || names[57] != "Polaris" {
		t.Errorf("%q", names)
	}
	names[0] = "overwritten"
	if sky.StarNames()[0] != "Alpheratz" {
		t.Error("the caller's copy changes the catalogue")
	}
	when := at(t, "2026-11-28T00:00:00Z")
	for _, name := range sky.StarNames() {
		if b, err := sky.Star(name, when); err != nil || b.Name != name || !b.Time.Equal(when) {
			t.Errorf("%s: %+v, %v", name, b, err)
		}
	}
	for written, want := range map[string]string{
		"VEGA": "Vega", "Al Na'ir": "Alnair", "al-nair": "Alnair", "Rigil Kent.": "Rigil Kentaurus", "Rigel": "Rigel", " kaus australis ": "Kaus Australis",
	} {
		if b, err := sky.Star(written, when); err != nil || b.Name != want {
			t.Errorf("%s: %+v, %v", written, b, err)
		}
	}
	// Alphard and Alphecca begin alike; the last has letters that look like Latin ones.
	for _, name := range []string{"", " ", "Veg", "Alph", "alphe", "the Sun", "Rigil Kentaurus B", "49", "\xff", "Vegа"} {
		_, err := sky.Star(name, when)
		if unknown := (*angle.ParseError)(nil); !errors.As(err, &unknown) || unknown.Input != name {
			t.Errorf("%q: %v", name, err)
		}
	}
}

func TestStarOfAnyText(t *testing.T) {
	names := sky.StarNames()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.OneOf(rapid.String(), rapid.StringMatching(`[A-Za-z' .-]{0,9}`)).Draw(t, "name")
		b, err := sky.Star(name, time.Date(2026, time.November, 28, 0, 0, 0, 0, time.UTC))
		if unknown := (*angle.ParseError)(nil); err != nil && !errors.As(err, &unknown) || err == nil && !slices.Contains(names, b.Name) {
			t.Fatalf("%+v, %v", b, err)
		}
	})
}

func drawStar(t *rapid.T) sky.Body {
	return angle.Must(sky.Star(rapid.SampledFrom(sky.StarNames()).Draw(t, "star"), drawTime(t)))
}

// Polaris is within a degree of the pole from 1960 to 2099. So its azimuth is within about that
// divided by the cosine of the latitude, and its altitude is the latitude to within that. This is
// the rule of the almanac's Polaris tables (from memory).
func TestPolarisStandsOverThePole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		when := time.Date(1960+rapid.IntRange(0, 139).Draw(t, "year"), 1, 1, 0, 0, rapid.IntRange(0, 365*86400).Draw(t, "second"), 0, time.UTC)
		polaris := angle.Must(sky.Star("Polaris", when))
		distance := 90*deg - polaris.Declination
		if distance < 0 || distance > deg {
			t.Fatalf("%v from the pole in %v", distance, when)
		}
		north := drawAngle(5*deg, 80*deg).Draw(t, "latitude")
		sight := polaris.From(angle.Position{Latitude: angle.Must(angle.LatitudeFrom(north)), Longitude: angle.LongitudeFrom(drawAngle(-180*deg, 180*deg).Draw(t, "longitude"))})
		if off := sight.Azimuth.FromNorth().NormalizedSigned().Abs().Degrees(); off > 1.02*distance.Degrees()/north.Cos()*(1+distance.Radians()*math.Tan(north.Radians())) {
			t.Fatalf("azimuth %v off north in %v", off, north)
		}
		if (sight.Altitude - north).Abs() > distance+second {
			t.Fatalf("altitude %v in %v", sight.Altitude, north)
		}
	})
}

// In a day a star goes round once and 3 minutes 55.9 seconds early, and its place moves by less
// than 2″: precession moves it by 0.15″ at most, aberration by 0.36″, nutation by 0.3″,
// proper motion by 0.01″.
func TestStarMovesLittleInADay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := drawStar(t)
		after := angle.Must(sky.Star(first.Name, first.Time.Add(24*time.Hour)))
		moved := first.GeographicalPosition()
		moved.Longitude = moved.Longitude.Add(-angle.Must(angle.Degrees(0.98564736629)))
		if arc := moved.ArcTo(after.GeographicalPosition()); arc > 2*second {
			t.Fatalf("%s moves by %v in a day from %v", first.Name, arc, first.Time)
		}
	})
}

// Precession moves a declination by up to 20.0″ a year, the greatest proper motion, that of Rigil
// Kentaurus, by 3.7″: in 75 years by 30′ at most.
func TestStarMovesLittleInACentury(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		star := drawStar(t)
		middle := angle.Must(sky.Star(star.Name, time.Date(2025, time.July, 1, 0, 0, 0, 0, time.UTC)))
		if off := (star.Declination - middle.Declination).Abs(); off > 32*minute {
			t.Fatalf("%s moves by %v from %v", star.Name, off, star.Time)
		}
	})
}
