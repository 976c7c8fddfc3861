package sky_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// See testdata/README.md. The tolerances are half as much again as the largest
// differences found.
func TestAgainstReference(t *testing.T) {
	file, err := os.Open("testdata/sun_erfa.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 501 {
		t.Fatalf("%d lines, want 501", len(rows))
	}
	quantities := []struct {
		name      string
		tolerance float64
		max, sum  float64
	}{
		{name: "declination", tolerance: 0.00075},                 // degrees; found 0.00050
		{name: "Greenwich hour angle", tolerance: 0.00135},        // degrees; found 0.00089
		{name: "azimuth, sideways", tolerance: 0.00135},           // degrees; found 0.00082
		{name: "altitude", tolerance: 0.0013},                     // degrees; found 0.00086
		{name: "distance", tolerance: 0.00011},                    // astronomical units, by the parallax; found 0.000073
		{name: "azimuth by the rows' own place", tolerance: 2e-7}, // degrees, sideways: the formulas alone
	}
	for _, row := range rows[1:] {
		number := func(column int) float64 {
			x, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		position := angle.Must(angle.PositionDegrees(number(1), number(2)))
		s, err := sky.Sun(at(t, row[0]))
		if err != nil {
			t.Fatal(err)
		}
		sight := s.From(position)
		given := sky.Body{
			Declination:        angle.Must(angle.Degrees(number(3))),
			GreenwichHourAngle: angle.Must(angle.Degrees(number(4))),
		}.From(position)
		azimuth := angle.TrueFrom(angle.Must(angle.Degrees(number(5))))
		sideways := math.Cos(number(6) * math.Pi / 180)
		for i, difference := range []float64{
			s.Declination.Degrees() - number(3),
			(s.GreenwichHourAngle - given.Body.GreenwichHourAngle).NormalizedSigned().Degrees(),
			sight.Azimuth.Sub(azimuth).Degrees() * sideways,
			sight.Altitude.Degrees() - number(6),
			8.794/s.HorizontalParallax.Seconds() - number(8),
			given.Azimuth.Sub(azimuth).Degrees() * sideways,
		} {
			q := &quantities[i]
			q.max = max(q.max, math.Abs(difference))
			q.sum += difference * difference
			if !(math.Abs(difference) <= q.tolerance) {
				t.Errorf("%s %v: %s is off by %.7f", row[0], position, q.name, difference)
			}
		}
	}
	for _, q := range quantities {
		t.Logf("%s: largest difference %.3g, root mean square %.3g", q.name, q.max, math.Sqrt(q.sum/float64(len(rows)-1)))
	}
}
