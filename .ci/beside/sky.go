//go:build ignore

// Command sky compares the places of the Sun and the stars of deviation/sky with those that
// sky.c gives by ERFA. It reads the rows from its standard input, prints the largest
// differences, and fails where one is above what the package states. ERFA bends the light of a star
// that stands near the Sun, where no one sees it. By so much a difference may be larger.
package main

import (
	"encoding/csv"
	"fmt"
	"log"
	"math"
	"os"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// A tally is the largest differences of a kind of body, in degrees.
type tally struct {
	rows                                      int
	declination, hourAngle, azimuth, altitude float64
	stated, statedAzimuth                     float64
}

func main() {
	log.SetFlags(0)
	rows, err := csv.NewReader(os.Stdin).ReadAll()
	if err != nil {
		log.Fatal(err)
	}
	if len(rows) < 500 {
		log.Fatalf("%d rows, want 500 or more", len(rows))
	}
	sun := tally{stated: 0.00135, statedAzimuth: 0.00135}
	stars := tally{stated: 0.00013, statedAzimuth: 0.00025}
	for _, row := range rows {
		add(row, &sun, &stars)
	}
	failed := false
	for name, t := range map[string]tally{"the Sun": sun, "stars": stars} {
		fmt.Printf("%-8s %4d rows: declination %.6f°, hour angle %.6f°, azimuth sideways %.6f°, altitude %.6f°\n",
			name, t.rows, t.declination, t.hourAngle, t.azimuth, t.altitude)
		failed = failed || t.rows == 0 || t.declination > t.stated || t.hourAngle > t.stated || t.azimuth > t.statedAzimuth || t.altitude > t.statedAzimuth
	}
	if failed {
		log.Fatal("a difference is above what package sky states")
	}
}

// add compares a row.
func add(row []string, sun, stars *tally) {
	var x [8]float64
	for i := 2; i < len(x); i++ {
		x[i] = must(strconv.ParseFloat(row[i], 64))
	}
	when, t := must(time.Parse(time.RFC3339, row[0])), stars
	var b sky.Body
	if row[1] == "the Sun" {
		b, t = must(sky.Sun(when)), sun
	} else {
		b = must(sky.Star(row[1], when))
	}
	s := b.From(must(angle.PositionDegrees(x[2], x[3])))
	bent := 0.0
	if t == stars {
		apart := must(sky.Sun(when)).GeographicalPosition().ArcTo(b.GeographicalPosition())
		bent = 0.00407 / 3600 / math.Tan(apart.Radians()/2) // twice the Sun's gravitational radius over the distance
	}
	cos := func(degrees float64) float64 { return math.Cos(degrees * math.Pi / 180) }
	t.rows++
	t.declination = max(t.declination, -bent+math.Abs(b.Declination.Degrees()-x[6]))
	t.hourAngle = max(t.hourAngle, -bent+math.Abs(math.Remainder(b.GreenwichHourAngle.Degrees()-x[7], 360)*cos(x[6])))
	t.azimuth = max(t.azimuth, -bent+math.Abs(math.Remainder(s.Azimuth.Degrees()-x[4], 360)*cos(x[5])))
	t.altitude = max(t.altitude, -bent+math.Abs(s.Altitude.Degrees()-x[5]))
}

// must returns a value, and ends the program on an error.
func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}
