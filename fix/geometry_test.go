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
)

// GeodesicForTest is the inverse of T. Vincenty, Direct and Inverse Solutions of
// Geodesics on the Ellipsoid with Application of Nested Equations, Survey Review
// XXIII, 1975, on WGS84 (from memory): azimuth in radians, distance in metres. It
// shares nothing with the package but the figure of the earth.
func GeodesicForTest(p, q angle.Position) (azimuth, distance float64) {
	const a, f = 6378137.0, 1 / 298.257223563
	const b = a * (1 - f)
	reduced := func(latitude angle.Latitude) (sin, cos float64) {
		s, c := latitude.Angle().SinCos()
		return math.Sincos(math.Atan2((1-f)*s, c))
	}
	su1, cu1 := reduced(p.Latitude)
	su2, cu2 := reduced(q.Latitude)
	dlong := q.Longitude.Sub(p.Longitude).Radians()
	lambda := dlong
	var sinS, cosS, sigma, cosSqAlpha, cos2M, sl, cl float64
	for range 200 {
		sl, cl = math.Sincos(lambda)
		sinS = math.Hypot(cu2*sl, cu1*su2-su1*cu2*cl)
		if sinS == 0 {
			return 0, 0
		}
		cosS = su1*su2 + cu1*cu2*cl
		sigma = math.Atan2(sinS, cosS)
		sinAlpha := cu1 * cu2 * sl / sinS
		cosSqAlpha = 1 - sinAlpha*sinAlpha
		cos2M = 0
		if cosSqAlpha > 1e-14 {
			cos2M = cosS - 2*su1*su2/cosSqAlpha
		}
		c := f / 16 * cosSqAlpha * (4 + f*(4-3*cosSqAlpha))
		next := dlong + (1-c)*f*sinAlpha*(sigma+c*sinS*(cos2M+c*cosS*(2*cos2M*cos2M-1)))
		done := math.Abs(next-lambda) < 1e-15
		lambda = next
		if done {
			break
		}
	}
	u2 := cosSqAlpha * (a*a - b*b) / (b * b)
	ka := 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
	kb := u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
	ds := kb * sinS * (cos2M + kb/4*(cosS*(2*cos2M*cos2M-1)-kb/6*cos2M*(4*sinS*sinS-3)*(4*cos2M*cos2M-3)))
	return math.Atan2(cu2*sl, cu1*su2-su1*cu2*cl), b * ka * (sigma - ds)
}

const mileOf60 = 60 * 1852.0

func geoAt(latitude, longitude float64) angle.Position {
	return angle.Must(angle.PositionDegrees(latitude, longitude))
}

// geoDraw draws a position, near the poles and the date line often.
func geoDraw(t *rapid.T, within float64) angle.Position {
	latitude := rapid.OneOf(rapid.Float64Range(-within, within), rapid.SampledFrom([]float64{-within, 0, within})).Draw(t, "latitude")
	longitude := rapid.OneOf(rapid.Float64Range(-180, 180), rapid.Float64Range(179.9, 180)).Draw(t, "longitude")
	return geoAt(latitude, longitude)
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

func TestExpectedBearingsAndDistancesAgreeWithGeodesicsOfTheReference(t *testing.T) {
	count, farthest, widest := 0, 0.0, 0.0
	for _, r := range geoRows(t) {
		if r[6] > 111_200 {
			continue
		}
		count++
		p, q := geoAt(r[0], r[1]), geoAt(r[2], r[3])
		f := earth.FrameAt(earth.Upright(p))
		object := place(Mark{Position: q})
		d, _, _ := f.Surface(object)
		farthest = max(farthest, math.Abs(d-r[6]))
		// Sideways, as azimuths of short lines are.
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

func TestTheGeodesicOfTheTestsIsThatOfTheReference(t *testing.T) {
	for _, r := range geoRows(t) {
		if r[6] > 15_000_000 {
			continue // Vincenty's iteration is slow near antipodes
		}
		azimuth, d := GeodesicForTest(geoAt(r[0], r[1]), geoAt(r[2], r[3]))
		if math.Abs(d-r[6]) > 1e-3 { // Vincenty's series, half a millimetre
			t.Errorf("%v: distance %v", r, d)
		}
		side := math.Sin(min(r[6]/6371000, math.Pi/2)) * 6371000
		if off := math.Abs(math.Remainder(azimuth-r[4]*math.Pi/180, 2*math.Pi)) * side; off > 1e-3 { // likewise
			t.Errorf("%v: azimuth off by %g m", r, off)
		}
	}
}

func TestAtSixtyMilesExpectationsAgreeWithGeodesicsEverywhere(t *testing.T) {
	farthest, widest := 0.0, 0.0
	for latitude := -88.5; latitude <= 88.5; latitude += 1.5 {
		for degrees := 0.0; degrees < 360; degrees += 7.5 {
			p := geoAt(latitude, 179.5)
			run := sailing.Run{Course: angle.Must(angle.TrueDegrees(degrees)), Distance: mileOf60}
			q, err := sailing.WGS84().Follow(p, run)
			if err != nil {
				t.Fatal(err)
			}
			azimuth, want := GeodesicForTest(p, q)
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

func TestWithinSixtyMilesExpectationsAgreeWithGeodesics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 88.9)
		q := geoNear(t, p, 1, mileOf60)
		azimuth, want := GeodesicForTest(p, q)
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
func TestABearingBendsAwayFromTheMercatorLineByHalfTheConvergency(t *testing.T) {
	mark := Mark{"mark", geoAt(50, -10)}
	for _, c := range []struct{ miles, metres, within float64 }{
		{10, 32, 0.5}, // the tolerance: printed in whole metres
		{60, 1150, 5}, // printed in tens
	} {
		bearing := Bearing(mark, angle.Must(angle.TrueDegrees(90)), angle.Uncertainty{})
		off := angle.Must(Range(mark, sailing.Distance(c.miles)*sailing.NauticalMile, 0))
		west := geoAt(50, -10-c.miles/38.6)
		f, err := Solve([]Line{bearing, off}, Options{Near: &west})
		if err != nil {
			t.Fatal(err)
		}
		// The Mercator line on the reciprocal is the mark's parallel.
		away := float64(sailing.WGS84().MeridianArc(f.position.Latitude) - sailing.WGS84().MeridianArc(mark.Position.Latitude))
		if math.Abs(math.Abs(away)-c.metres) > c.within {
			t.Errorf("%v miles: %.1f m, want %v", c.miles, away, c.metres)
		}
	}
}

func TestSlopesOfAllKindsAreTheDerivativesOfWhatIsExpected(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 89.9)
		a, b := Mark{"a", geoNear(t, p, 1000, 50_000)}, Mark{"b", geoNear(t, p, 1000, 50_000)}
		if _, d := GeodesicForTest(a.Position, b.Position); d < 500 {
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
				// A difference of two slopes, each so good.
				a, b := f.Sight(l.a), f.Sight(l.b)
				tolerance += 1e-4 / math.Sqrt(min(a.Across, b.Across))
			case "transferred":
				// The frame there is turned against the frame here, near a pole by much.
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

func TestPositionsAndVerticalsAreOneTheOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 90)
		if q := earth.Position(earth.Upright(p)); !q.SamePlace(p) {
			if _, d := GeodesicForTest(p, q); d > 1e-6 { // an angle is 31 nm, and digits near the pole
				t.Fatalf("%v, want %v", q, p)
			}
		}
	})
}

func TestTheAxesAreSquareAtThePolesToo(t *testing.T) {
	for _, latitude := range []float64{-90, -89.9999999, 0, 45, 90} {
		f := earth.FrameAt(earth.Upright(geoAt(latitude, 33)))
		for _, dot := range []float64{f.Up.Dot(f.North), f.Up.Dot(f.East), f.North.Dot(f.East), f.North.Dot(f.North) - 1, f.East.Dot(f.East) - 1} {
			if math.Abs(dot) > 1e-14 { // some units of float64
				t.Errorf("%v: %g", latitude, dot)
			}
		}
	}
	f := earth.FrameAt(earth.Upright(geoAt(10, 20)))
	if d, n, e := f.Surface(f.At); d != 0 || n != 0 || e != 0 {
		t.Errorf("to itself: %v %v %v", d, n, e)
	}
}

func TestLeveragesSumToTheUnknowns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := geoDraw(t, 80)
		sigma := angle.Must(angle.StandardUncertainty(angle.Degree))
		var lines []Line
		for range rapid.IntRange(3, 6).Draw(t, "lines") {
			m := Mark{"", geoNear(t, p, 4000, 20_000)}
			azimuth, _ := GeodesicForTest(p, m.Position)
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
