package check_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/variation"
)

// TestPublishedCheckInARecordBook enters the example of Sun's True Bearing or Azimuth Tables
// (Burdwood), edition of the 1890s, introduction, page IV: true bearing N 125°34′ E, by
// compass N 140°30′ E, error 14°56′ W, variation 21° W, deviation 6°04′ E.
func TestPublishedCheckInARecordBook(t *testing.T) {
	c, err := check.Reading{
		Time: time.Date(1894, 10, 11, 9, 16, 0, 0, time.UTC), Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.MustParseCompass("140°30′")),
		Variation: variation.West(21 * devtest.Deg),
	}.Against("the Sun", angle.MustParseTrue("125°34′"), angle.Uncertainty{})
	if err != nil {
		t.Fatal(err)
	}
	if c.Error.String() != "14°56′W" || c.Deviation.String() != "6°04′E" {
		t.Errorf("error %v, deviation %v", c.Error, c.Deviation)
	}
	c.Method, c.Observer, c.Remarks, c.VariationSource = "azimuth", "master", "hazy", "chart"
	columns, rows := check.RecordBook(c)
	for column, want := range map[string]string{
		"Date, UTC": "1894-10-11 0916", "Heading": "090°C", "Method": "azimuth", "Object": "the Sun", "By compass": "140.5°C", "True": "125.6°T",
		"Error": "14.9°W", "Variation": "21.0°W", "Variation from": "chart", "Deviation": "6.1°E", "Observer": "master", "Remarks": "hazy", "Position": "",
	} {
		if i := slices.Index(columns, column); i < 0 || rows[0][i] != want {
			t.Errorf("%s: %q, want %q", column, rows[0], want)
		}
	}
}

// TestRowsOfARecordBook has a row of as many cells as there are columns for any check, also for
// one that is read from a log with little in it.
func TestRowsOfARecordBook(t *testing.T) {
	checks, err := check.ReadLog(strings.NewReader("heading,deviation,uncertainty,warnings\n359.96,0,0.5,high-body sun-elsewhere\n"))
	if err != nil {
		t.Fatal(err)
	}
	checks = append(loggedChecks(t), checks...)
	columns, rows := check.RecordBook(checks...)
	if len(rows) != len(checks) {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		if len(row) != len(columns) {
			t.Errorf("%d cells under %d columns: %q", len(row), len(columns), row)
		}
	}
	last := rows[len(rows)-1]
	if text := strings.Join(last, "|"); text != "||000°C||||||||0.0° ±0.5°||high body; sun elsewhere" {
		t.Error(text)
	}
	if columns, rows := check.RecordBook(); len(rows) != 0 || len(columns) == 0 {
		t.Error("a page without checks has no columns, or has rows")
	}
}
