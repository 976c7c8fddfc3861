package fix

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
	"lubberline.example/fix/internal/fixtest"
)

const mileOf60 = 60 * 1852.0

// geoDraw draws a position, near the poles and the date line often.
func geoDraw(t *rapid.T, within float64) angle.Position {
	latitude := rapid.OneOf(rapid.Float64Range(-within, within), rapid.SampledFrom([]float64{-within, 0, within})).Draw(t, "latitude")
	longitude := rapid.OneOf(rapid.Float64Range(-180, 180), rapid.Float64Range(179.9, 180)).Draw(t, "longitude")
	return fixtest.At(latitude, longitude)
}

// geoNear draws a place at some metres from another.
func geoNear(t *rapid.T, p angle.Position, from, to float64) angle.Position {
	run := sailing.Run{
		Course:   angle.Must(angle.TrueDegrees(rapid.Float64Range(0, 359.99).Draw(t, "course"))),
		Distance: sailing.Distance(rapid.Float64Range(from, to).Draw(t, "metres")),
	}
	q, err := sailing.WGS84().Follow(p, run)
	if err != nil {
		t.Skip("over a pole")
	}
	return q
}

// geoRows returns the rows of the published geodesics.
func geoRows(t *testing.T) [][]float64 {
	t.Helper()
	file, err := os.Open("testdata/geodesic_wgs84.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]float64
	for _, record := range records[1:] {
		var row []float64
		for _, field := range record[1:] {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	return rows
}

func TestBearingsAndDistancesAgreeWithGeographicLib(t *testing.T) {
	count, farthest, widest := 0, 0.0, 0.0
	for _, r := range geoRows(t) {
		if r[6] > 111_200 {
			continue
		}
		count++
		p, q := fixtest.At(r[0], r[1]), fixtest.At(r[2], r[3])
		f := earth.FrameAt(earth.Upright(p))
		object := place(Mark{Position: q})
		d, _, _ := f.Surface(object)
		farthest = max(farthest, math.Abs(d-r[6]))
		// As an offset sideways, since azimuths of short lines are inaccurate.
		azimuth := f.Sight(object).Azimuth
		widest = max(widest, math.Abs(math.Remainder(azimuth-r[4]*math.Pi/180, 2*math.Pi)*r[6]))
	}
	t.Logf("%d lines: distance within %.3g m, azimuth within %.3g m sideways", count, farthest, widest)
	if count < 50 {
		t.Errorf("only %d lines", count)
	}
	if farthest > 1e-3 { // the arc of curvature for the geodesic, over 60 miles
		t.Errorf("distance off by %g m", farthest)
	}
	if widest > 0.02 { // normal section and geodesic: 2 cm in 60 miles
		t.Errorf("azimuth off by %g m", widest)
	}
}

func TestVincentyAgreesWithGeographicLib(t *testing.T) {
	for _, r := range geoRows(t) {
		if r[6] > 15_000_000 {
			continue // Vincenty's iteration is slow near antipodes
		}
		azimuth, d := fixtest.Geodesic(fixtest.At(r[0], r[1]), fixtest.At(r[2], r[3]))
		if math.Abs(d-r[6]) > 1e-3 { // Vincenty's series, half a millimetre
			t.Errorf("%v: distance %v", r, d)
		}
		side := math.Sin(min(r[6]/6371000, math.Pi/2)) * 6371000
		if off := math.Abs(math.Remainder(azimuth-r[4]*math.Pi/180, 2*math.Pi)) * side; off > 1e-3 { // likewise
			t.Errorf("%v: azimuth off by %g m", r, off)
		}
	}
}

func TestBearingsAndDistancesAtSixtyMiles(t *testing.T) {
	farthest, widest := 0.0, 0.0
	for latitude := -88.5; latitude <= 88.5; latitude += 1.5 {
		for degrees := 0.0; degrees < 360; degrees += 7.5 {
			p := fixtest.At(latitude, 179.5)
			run := sailing.Run{Course: angle.Must(angle.TrueDegrees(degrees)), Distance: mileOf60}
			q, err := sailing.WGS84().Follow(p, run)
			if err != nil {
				t.Fatal(err)
			}
			azimuth, want := fixtest.Geodesic(p, q)
			f := earth.FrameAt(earth.Upright(p))
			object := place(Mark{Position: q})
			d, _, _ := f.Surface(object)
			farthest = max(farthest, math.Abs(d-want))
			widest = max(widest, math.Abs(math.Remainder(f.Sight(object).Azimuth-azimuth, 2*math.Pi)))
		}
	}
	t.Logf("distance within %.3g m, azimuth within %.3g°", farthest, widest*180/math.Pi)
	if farthest > 0.001 { // the arc of curvature for the geodesic; a centimetre is promised
		t.Errorf("distance off by %g m", farthest)
	}
	if widest*180/math.Pi > 0.00001 { // normal section for geodesic: the doc comment of Line says so
		t.Errorf("azimuth off by %g°", widest*180/math.Pi)
	}
}

func TestBearingsAndDistancesWithinSixtyMiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 88.9)
		q := geoNear(t, p, 1, mileOf60)
		azimuth, want := fixtest.Geodesic(p, q)
		f := earth.FrameAt(earth.Upright(p))
		object := place(Mark{Position: q})
		d, _, _ := f.Surface(object)
		if math.Abs(d-want) > 0.001 { // the arc of curvature for the geodesic
			t.Fatalf("distance %v, want %v", d, want)
		}
		if off := math.Abs(math.Remainder(f.Sight(object).Azimuth-azimuth, 2*math.Pi)) * want; off > 0.02 { // normal section for geodesic
			t.Fatalf("azimuth off by %g m", off)
		}
	})
}

// The doc comment of Line has these figures.
func TestBearingBendsByHalfConvergency(t *testing.T) {
	mark := Mark{"mark", fixtest.At(50, -10)}
	for _, c := range []struct{ miles, metres, within float64 }{
		{10, 32, 0.5}, // the tolerance: printed in whole metres
		{60, 1150, 5}, // printed in tens
	} {
		bearing := Bearing(mark, angle.Must(angle.TrueDegrees(90)), angle.Uncertainty{})
		off := angle.Must(Range(mark, sailing.Distance(c.miles)*sailing.NauticalMile, 0))
		west := fixtest.At(50, -10-c.miles/38.6)
		f, err := Solve([]Line{bearing, off}, Options{Near: &west})
		if err != nil {
			t.Fatal(err)
		}
		// The Mercator line on the reciprocal is the parallel of the mark.
		north := angle.Position{Latitude: f.position.Latitude, Longitude: mark.Position.Longitude}
		away := float64(sailing.WGS84().Rhumb(mark.Position, north).Distance)
		if math.Abs(away-c.metres) > c.within {
			t.Errorf("%v miles: %.1f m, want %v", c.miles, away, c.metres)
		}
	}
}

func TestSlopesAreDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 89.9)
		a, b := Mark{"a", geoNear(t, p, 1000, 50_000)}, Mark{"b", geoNear(t, p, 1000, 50_000)}
		if _, d := fixtest.Geodesic(a.Position, b.Position); d < 500 {
			t.Skip("marks at one place")
		}
		depth := func(q angle.Position) float64 {
			return 1000 * (q.Latitude.Angle().Sin() + q.Latitude.Angle().Cos()*q.Longitude.Angle().Sin())
		}
		u := angle.Uncertainty{}
		lines := map[string]Line{
			"bearing":          Bearing(a, angle.TrueFrom(0), u),
			"range":            angle.Must(Range(a, 1000, 1)),
			"transit":          angle.Must(Transit(a, b, u)),
			"horizontal angle": angle.Must(HorizontalAngle(a, b, angle.Degree, u)),
			"latitude":         angle.Must(Latitude(p.Latitude, 1)),
			"longitude":        angle.Must(Longitude(p.Longitude, 1)),
			"other":            angle.Must(LineFromFunc("depth", "m", depth, 1, 1)),
		}
		run := sailing.Run{Course: angle.Must(angle.TrueDegrees(60)), Distance: 300}
		moved := lines["bearing"].Transferred(run, sailing.Exactly())
		lines["transferred"] = moved
		f := earth.FrameAt(earth.Upright(p))
		for name, l := range lines {
			got := l.expect(&f)
			const step = 2 // metres
			at := func(north, east float64) float64 {
				g := earth.FrameAt(f.Moved(north, east))
				return l.expect(&g).left
			}
			period := 2 * math.Pi
			if l.kind == KindRange || l.kind == KindLatitude || l.kind == KindLongitude || l.kind == KindOther {
				period = math.Inf(1)
			}
			diff := func(x, y float64) float64 {
				if math.IsInf(period, 0) {
					return (y - x) / (2 * step)
				}
				return math.Remainder(y-x, period) / (2 * step)
			}
			north, east := diff(at(step, 0), at(-step, 0)), diff(at(0, step), at(0, -step))
			scale := math.Hypot(north, east)
			tolerance := 1e-4*scale + 1e-12 // the second order of the step, and digits of the difference
			switch name {
			case "transit", "horizontal angle":
				// A difference of two slopes, each with that tolerance.
				a, b := f.Sight(l.a), f.Sight(l.b)
				tolerance += 1e-4 / math.Sqrt(min(a.Across, b.Across))
			case "transferred":
				// The two frames are turned against each other, and near a pole by a large angle.
				if math.Abs(p.Latitude.Degrees()) > 85 {
					continue
				}
				tolerance += 300 * math.Abs(p.Latitude.Angle().Tan()) / earth.EquatorialRadius * scale
			}
			if math.Hypot(got.north-north, got.east-east) > tolerance {
				t.Fatalf("%s: slope %g %g, want %g %g", name, got.north, got.east, north, east)
			}
		}
	})
}

func TestVerticalRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 90)
		if q := earth.Position(earth.Upright(p)); !q.SamePlace(p) {
			if _, d := fixtest.Geodesic(p, q); d > 1e-6 { // an angle is 31 nm, and digits near the pole
				t.Fatalf("%v, want %v", q, p)
			}
		}
	})
}

func TestAxesAreSquareAtPoles(t *testing.T) {
	for _, latitude := range []float64{-90, -89.9999999, 0, 45, 90} {
		f := earth.FrameAt(earth.Upright(fixtest.At(latitude, 33)))
		for _, dot := range []float64{f.Up.Dot(f.North), f.Up.Dot(f.East), f.North.Dot(f.East), f.North.Dot(f.North) - 1, f.East.Dot(f.East) - 1} {
			if math.Abs(dot) > 1e-14 { // some units of float64
				t.Errorf("%v: %g", latitude, dot)
			}
		}
	}
	f := earth.FrameAt(earth.Upright(fixtest.At(10, 20)))
	if d, n, e := f.Surface(f.At); d != 0 || n != 0 || e != 0 {
		t.Errorf("to itself: %v %v %v", d, n, e)
	}
}

func TestLeveragesSumToUnknowns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 80)
		sigma := angle.Must(angle.StandardUncertainty(angle.Degree))
		var lines []Line
		for range rapid.IntRange(3, 6).Draw(t, "lines") {
			m := Mark{"", geoNear(t, p, 4000, 20_000)}
			azimuth, _ := fixtest.Geodesic(p, m.Position)
			lines = append(lines, Bearing(m, angle.TrueFrom(angle.Must(angle.Radians(azimuth))), sigma))
		}
		f, err := Solve(lines, Options{Near: &p})
		if err != nil {
			t.Skip("marks in a row")
		}
		sum := 0.0
		for _, r := range f.residuals {
			sum += r.leverage
		}
		if math.Abs(sum-2) > 1e-3 { // the inverse is of the last place but one
			t.Fatalf("%v", sum)
		}
	})
}
