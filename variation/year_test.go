package variation_test

import (
	"math"
	"math/big"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/variation"
)

// slowDecimalYear counts years and days one by one from the seconds since 1970,
// and divides exactly.
func slowDecimalYear(unix, nanoseconds int64) float64 {
	isLeap := func(y int64) bool { return y%4 == 0 && y%100 != 0 || y%400 == 0 }
	daysIn := func(y int64) int64 {
		if isLeap(y) {
			return 366
		}
		return 365
	}
	year, rest := int64(1970), unix
	for rest < 0 {
		year--
		rest += daysIn(year) * 86400
	}
	for rest >= daysIn(year)*86400 {
		rest -= daysIn(year) * 86400
		year++
	}
	part := new(big.Rat).SetFrac64(rest, daysIn(year)*86400)
	part.Add(part, new(big.Rat).SetFrac64(nanoseconds, daysIn(year)*86400*1e9))
	part.Add(part, new(big.Rat).SetInt64(year))
	f, _ := part.Float64()
	return f
}

func TestDecimalYearAgreesWithTheSlowWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unix := rapid.Int64Range(-15e9, 17e9).Draw(t, "seconds since 1970") // 1494 to 2508
		nanoseconds := rapid.Int64Range(0, 999_999_999).Draw(t, "nanoseconds")
		zone := time.FixedZone("", rapid.IntRange(-14*3600, 14*3600).Draw(t, "zone"))
		got := variation.DecimalYear(time.Unix(unix, nanoseconds).In(zone))
		want := slowDecimalYear(unix, nanoseconds)
		// A float64 near 2000 has steps of 2.3e-13; the division may err by one.
		if !near(got, want, 4.6e-13) {
			t.Fatalf("%.15g, the slow way %.15g", got, want)
		}
	})
}

func TestDecimalYearOfKnownTimes(t *testing.T) {
	for _, c := range []struct {
		time string
		want float64
	}{
		{"2025-07-02T12:00:00Z", 2025.5}, // the middle of a common year
		{"2024-07-02T00:00:00Z", 2024.5}, // and of a leap year
		{"1900-07-02T12:00:00Z", 1900.5}, // no leap year
		{"2000-07-02T00:00:00Z", 2000.5}, // a leap year
		{"2025-01-01T00:00:00Z", 2025},   // the first instant
		{"2024-12-31T00:00:00Z", 2024 + 365.0/366},
		{"2024-02-29T12:00:00Z", 2024 + 59.5/366},
		{"2025-12-31T23:30:00-01:00", 2026 + 0.5/8760}, // already next year in UTC
		{"2026-01-01T00:30:00+01:00", 2026 - 0.5/8760}, // still last year in UTC
		{"1600-01-01T00:00:00Z", 1600},
	} {
		at, err := time.Parse(time.RFC3339, c.time)
		if err != nil {
			t.Fatal(err)
		}
		if got := variation.DecimalYear(at); !near(got, c.want, 2.3e-13) { // one step of a float64 near 2000
			t.Errorf("%s is %.15g, want %.15g", c.time, got, c.want)
		}
	}
}

// Where the computer stands does not matter.
func TestDecimalYearIsCountedInUTC(t *testing.T) {
	defer func(was *time.Location) { time.Local = was }(time.Local)
	time.Local = time.FixedZone("", -11*3600)
	if got := variation.DecimalYear(time.Date(2023, time.December, 31, 20, 0, 0, 0, time.Local)); !near(got, 2024+7.0/8784, 2.3e-13) { // one step of a float64
		t.Errorf("%.15g", got)
	}
}

// The last instant of a year rounds to its end: a float64 near 2000 has steps of
// 7 microseconds. Nothing before it comes out later.
func TestDecimalYearAtNewYear(t *testing.T) {
	end := time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)
	if got := variation.DecimalYear(end.Add(-time.Millisecond)); !(got < 2026) {
		t.Errorf("a millisecond before 2026 is %.15g", got)
	}
	last := math.Inf(-1)
	for before := 100 * time.Microsecond; before >= 0; before -= time.Microsecond {
		got := variation.DecimalYear(end.Add(-before))
		if got < last || got > 2026 {
			t.Fatalf("%v before 2026 is %.15g, after %.15g", before, got, last)
		}
		last = got
	}
	if last != 2026 {
		t.Errorf("the first instant of 2026 is %.15g", last)
	}
}

func TestZeroYearCountIsWholeYears(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	zero, err := r.On(noon(2026, 7, 2), "")
	whole, err2 := r.On(noon(2026, 7, 2), variation.WholeYears)
	if err != nil || err2 != nil || zero != whole || zero.Count != variation.WholeYears {
		t.Errorf("%+v, %v; %+v, %v", zero, err, whole, err2)
	}
}
